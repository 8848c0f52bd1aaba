import { meters, type Estimate, type Length } from '../../physics';
import type { BenchAnswer } from '../../answer/benchAnswer';
import type { BuildState } from '../../sheet/schema';
import { asText, keepNumbers, showLength } from './format';
import { lengthUnitOf } from './readersUnits';

/** An answer in an object's own axes, in words: along the way from scale point 1 toward point 2, and beside it. */

const within = ({ value, u }: Estimate<Length>): Estimate<Length> => ({ value: meters(Math.abs(value)), u });

/** What the two numbers of an object's answer are called, and the numbers as these labels mean them: never negative. */
export function objectPlace(answer: BenchAnswer): {
  readonly along: { readonly label: string; readonly estimate: Estimate<Length> };
  readonly aside: { readonly label: string; readonly estimate: Estimate<Length> };
} | null {
  if (!answer.cg.ok) return null;
  const { ahead, height } = answer.cg.value;
  return {
    along: {
      label: ahead.value < 0 ? 'from point 1, away from point 2' : 'from point 1 toward point 2',
      estimate: within(ahead),
    },
    aside: {
      label: height.value < 0 ? 'to the right of that line' : 'to the left of that line',
      estimate: within(height),
    },
  };
}

/** "62.3 ± 0.8 mm from scale point 1 toward point 2, 4.1 ± 0.6 mm to its left."; '' while there is no answer. */
export function objectSentence(state: BuildState, answer: BenchAnswer): string {
  if (!answer.cg.ok) return '';
  const { ahead, height } = answer.cg.value;
  const unit = lengthUnitOf(state);
  const toward = ahead.value < 0 ? 'away from' : 'toward';
  const side = height.value < 0 ? 'right' : 'left';
  return keepNumbers(
    `${asText(showLength(within(ahead), unit))} from scale point 1 ${toward} point 2, ${asText(showLength(within(height), unit))} to its ${side}.`,
  );
}
