import { readGiven } from '../../sheet/given';
import type { BuildState, Hook, Reading } from '../../sheet/schema';
import { givensByPath } from '../shared/givensByPath';

/** The two truck axes a view shows, by the names givens of places have. */
export const VIEW_AXES = {
  side: ['ahead', 'height'],
  rear: ['left', 'height'],
  front: ['left', 'height'],
  top: ['ahead', 'left'],
} as const;

/** Names of the givens that a reading uses as its choices stand, in the order they are asked for. */
export function givensUsed(reading: Reading): readonly string[] {
  switch (reading.kind) {
    case 'total mass':
      return ['load'];
    case 'axle scales':
      return ['front', 'rear'];
    case 'wheel scales':
      return ['frontLeft', 'frontRight', 'rearLeft', 'rearRight'];
    case 'axle lift':
      return [reading.by === 'height' ? 'rise' : 'angle', 'load'];
    case 'hang line':
      return [
        ...(reading.by === 'angle' ? ['angle'] : VIEW_AXES[reading.view]),
        ...(reading.suspension === 'free' ? ['frontDroop', 'rearDroop'] : []),
      ];
    case 'tilt board':
      return ['angle'];
    case 'balance on an edge':
      return ['place'];
  }
}

/** Path of a reading's own given. */
export const pathOf = (state: BuildState, reading: Reading, name: string): string =>
  `readings/${state.readings.findIndex(({ id }) => id === reading.id)}/${name}`;

/** Names of the givens a reading still lacks. */
export const stillEmpty = (state: BuildState, reading: Reading): readonly string[] =>
  givensUsed(reading).filter((name) => {
    const placed = givensByPath(state).get(pathOf(state, reading, name));
    if (!placed) return false;
    const read = readGiven(placed.given, placed.field);
    return !read.ok && read.reason === 'empty';
  });

export const hookOf = (state: BuildState, id: string | null): Hook | null =>
  state.hooks.find((hook) => hook.id === id) ?? null;
