import type { BuildState } from '../../sheet/schema';
import { entriesOf, entryStanding, type LinesOfAnswer } from './listEntries';

/** The readings of a state: how many there are, and how many of them count. */
export function countReadings(
  state: BuildState,
  answer: LinesOfAnswer,
): { readonly counted: number; readonly all: number } {
  const entries = entriesOf(state).filter((entry) => entry.kind !== 'parts list' || state.countPartsList);
  const counted = entries.filter((entry) => entryStanding(state, entry, answer).kind === 'counted').length;
  return { counted, all: entries.length };
}

/** "9 of 10 counted" */
export function readingsText({ counted, all }: { readonly counted: number; readonly all: number }): string {
  return all === 0 ? 'none yet' : `${counted} of ${all} counted`;
}
