import type { BuildState } from '../../sheet/schema';
import { entriesOf, standingOf, type AnswerOfReadings } from './listEntries';

/**
 * The readings of a state: how many there are, and how many of them the answer counts. The parts list is one of them
 * only where the reader counts it.
 */
export function countReadings(
  state: BuildState,
  answer: AnswerOfReadings,
): { readonly counted: number; readonly all: number } {
  const entries = entriesOf(state).filter((entry) => entry.kind !== 'parts list' || state.countPartsList);
  const counted = entries.filter((entry) => standingOf(entry, answer) === null).length;
  return { counted, all: entries.length };
}

/** "9 of 10 counted" */
export function readingsText({ counted, all }: { readonly counted: number; readonly all: number }): string {
  return all === 0 ? 'none yet' : `${counted} of ${all} counted`;
}
