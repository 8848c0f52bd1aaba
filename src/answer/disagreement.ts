import { COVERAGE, angleIn, lengthIn, massIn, kilograms, meters, radians } from '../physics';
import type { NumberKind, Suspect } from '../physics';
import type { BuildState } from '../sheet/schema';
import type { BenchAnswer } from './benchAnswer';
import { chance } from './chance';
import { numberTitle, titleOf } from './titles';
import type { Warning } from './warnings';

/** What disagrees, in words. Nothing is dropped: the reader decides. */

/** Number and unit of something in a number's own kind: "12 g", "3.1 mm", "1.4°". */
export function inItsUnit(kind: NumberKind, value: number): string {
  const size = Math.abs(value);
  switch (kind) {
    case 'mass':
      return `${massIn(kilograms(size), 'g').toFixed(0)} g`;
    case 'length':
      return `${lengthIn(meters(size), 'mm').toFixed(1)} mm`;
    case 'angle':
      return `${angleIn(radians(size), 'deg').toFixed(1)}°`;
    case 'share':
      return `${(100 * size).toFixed(1)} %`;
  }
}

/** Numbers of one reading that check only each other are told as that reading. */
export function suspectTitle(state: BuildState, suspect: Suspect, group: readonly Suspect[]): string {
  const whole =
    suspect.reading !== null &&
    group.some(({ id, reading }) => reading === suspect.reading && id !== suspect.id);
  return whole && suspect.reading !== null ? titleOf(state, suspect.reading) : numberTitle(state, suspect.id);
}

/** Titles of a group, most likely first, each reading once. */
export const groupTitles = (state: BuildState, group: readonly Suspect[]): string[] => [
  ...new Set(group.map((suspect) => suspectTitle(state, suspect, group))),
];

/** "Axle scales do", "Axle lift, nose up does". */
export const doesOrDo = (title: string): string => (title.endsWith('scales') ? 'do' : 'does');

/** "A", "A or B", "A, B or C". */
export const either = (names: readonly string[]): string =>
  names.length < 2 ? (names[0] ?? '') : `${names.slice(0, -1).join(', ')} or ${names.at(-1)}`;

/** How far off the first suspect is if it alone is wrong. */
export function offInWords(answer: Pick<BenchAnswer, 'joint'>, { id, off, offU }: Suspect): string {
  const kind = answer.joint?.model.numbers.find((number) => number.id === id)?.kind ?? 'length';
  const size = inItsUnit(kind, off);
  // Where the models bend over a gross error its first-order ± says nothing.
  const range = COVERAGE * offU < Math.abs(off) ? ` ± ${inItsUnit(kind, COVERAGE * offU)}` : '';
  return `${size}${range} too ${off < 0 ? 'little' : 'much'}`;
}

/** The warning of an answer whose readings do not agree; null where they do. */
export function disagreement(
  state: BuildState,
  answer: Pick<BenchAnswer, 'joint' | 'blunder' | 'consistency'>,
): Warning | null {
  const { blunder, consistency } = answer;
  if (!blunder) return null;
  if (blunder.named) {
    const { first, group, chance: probability } = blunder.named;
    const [title = '', ...others] = groupTitles(state, group);
    const could =
      others.length === 0 ? '' : ` The readings cannot tell it from ${either(others.slice(0, 4))}.`;
    return {
      code: 'reading disagrees',
      kind: 'warning',
      title: `${title} ${doesOrDo(title)} not agree with the rest.`,
      text: `If it alone is wrong, it reads ${offInWords(answer, first)}. Chance alone would do that ${chance(probability, state.body)}.${could} It stays counted until you set it aside.`,
      sizeMm: null,
      reading: first.reading ?? first.id,
    };
  }
  if (blunder.wholeScatters && consistency) {
    return {
      code: 'readings scatter',
      kind: 'warning',
      title: 'The readings scatter more than their ± allow.',
      text: `None stands out, but together they would miss each other this much by chance ${chance(consistency.probability, state.body)}. Some ± are too small, or two readings are wrong at once.`,
      sizeMm: null,
    };
  }
  return null;
}
