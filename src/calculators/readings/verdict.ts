import type { BenchAnswer } from '../../answer/benchAnswer';

/** Whether the readings agree, in a sentence. */
export interface Verdict {
  /** Bold words in front. */
  readonly title: string;
  readonly text: string;
}

/** The one method that tells a quantity. */
export interface OnlyOne {
  readonly quantity: string;
  readonly method: string;
}

/** "78 in 100", "4 in 1000", "fewer than 1 in 1000". */
export function outOf(probability: number): string {
  if (probability >= 0.01) return `${Math.min(99, Math.round(100 * probability))} in 100`;
  const thousands = Math.round(1000 * probability);
  return thousands >= 1 ? `${thousands} in 1000` : 'fewer than 1 in 1000';
}

/** By the misfit of all readings together, and by the search for one that is wrong. */
export function verdictOf(
  { consistency, blunder }: Pick<BenchAnswer, 'consistency' | 'blunder'>,
  alone: OnlyOne | null = null,
): Verdict | null {
  if (!consistency)
    return {
      title: 'Nothing checks this yet.',
      text: 'There are no more readings than it takes. One of another kind would show whether one is wrong.',
    };
  if (!blunder) return null;
  const chance = `by chance alone, ${outOf(consistency.probability)} trucks measured as well as this would miss by more`;
  if (blunder.named)
    return { title: 'The readings do not all agree.', text: 'One stands apart: both answers are below.' };
  if (blunder.wholeScatters)
    return {
      title: 'The readings scatter more than their ± allow.',
      text: `None stands out; ${chance}.`,
    };
  if (alone)
    return {
      title: `Nothing checks the ${alone.quantity} yet.`,
      text: `Only “${alone.method}” tells it. One of another kind would show whether it is wrong.`,
    };
  const title =
    consistency.probability < 0.05 ? 'The readings agree, though only just:' : 'The readings agree:';
  return { title, text: `${chance}.` };
}
