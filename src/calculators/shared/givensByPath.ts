import { givensOf, type PlacedGiven } from '../../sheet/givens';
import type { BuildState } from '../../sheet/schema';

/** The givens of a state by their path: "dimensions/wheelbase", "hooks/1/height", "readings/2/load". */
export type GivensByPath = ReadonlyMap<string, PlacedGiven>;

const indexed = new WeakMap<BuildState, GivensByPath>();

/** All givens of a state, found once for each state: states are frozen and replaced, never changed. */
export function givensByPath(state: BuildState): GivensByPath {
  const known = indexed.get(state);
  if (known) return known;
  const fresh = new Map([...givensOf(state)].map((placed) => [placed.path.join('/'), placed]));
  indexed.set(state, fresh);
  return fresh;
}
