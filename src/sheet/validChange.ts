import * as v from 'valibot';
import { success, type Result } from '../physics/index';
import { validSheet } from './migrations';
import { brokenReferences } from './references';
import { BenchSheet, type BuildState } from './schema';

/** The entries of a list that are not the same objects as before; all of a list that is new. */
const changedEntries = <Entry>(before: readonly Entry[] | undefined, after: readonly Entry[]): Entry[] => {
  if (before === after) return [];
  const known = new Set(before);
  return after.filter((entry) => !known.has(entry));
};

const changedInState = (before: BuildState | undefined, after: BuildState): BuildState => ({
  ...after,
  parts: changedEntries(before?.parts, after.parts),
  hooks: changedEntries(before?.hooks, after.hooks),
  pictures: changedEntries(before?.pictures, after.pictures),
  readings: changedEntries(before?.readings, after.readings),
  changes: changedEntries(before?.changes, after.changes),
});

/**
 * A sheet made from a valid one by an edit that shares its unchanged branches: valid, or refused with the first
 * broken rule. Checks only what changed, since this runs for every movement of a dragged mark.
 */
export function validChange(before: BenchSheet, after: BenchSheet): Result<BenchSheet, 'invalid'> {
  const states = changedEntries(before.states, after.states).map((state) =>
    changedInState(
      before.states.find(({ id }) => id === state.id),
      state,
    ),
  );
  const part = { ...after, states: states.length > 0 ? states : after.states.slice(0, 1) };
  if (v.is(BenchSheet, part) && brokenReferences(after).length === 0) return success(after);
  const valid = validSheet(after);
  // The validated copy would be equal but new; `after` is the one that shares its branches.
  return valid.ok ? success(after) : valid;
}
