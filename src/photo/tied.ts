import type { HangingPicture, MarkPlace, StandingPicture } from './fit/givens';
import { droops } from './fit/placing';
import { TRUCK_IN_VIEW, isSide } from './views';

/** Which pictures can be tied to the truck's own axes, directly or by marks that others have placed. */

type Axis = 'x' | 'y' | 'z';
const AXES = ['x', 'y', 'z'] as const;

/** A place across the truck that is less sure than this, m, is as good as unknown. */
const ACROSS_KNOWN = 0.05;
/** Two points place a camera. */
const FEWEST = 2;

/**
 * Ids of the pictures that show two points whose places are known in both directions of the picture: hubs or tires,
 * marks measured by ruler, and marks of pictures placed before it. A mark seen from the rear says nothing of how far
 * ahead it lies, so it ties no picture from a side.
 */
export function tied(
  marks: ReadonlyMap<string, MarkPlace>,
  pictures: readonly (StandingPicture | HangingPicture)[],
): ReadonlySet<string> {
  const known = new Map<string, Set<Axis>>();
  const axesOf = (key: string): Set<Axis> => {
    const held = known.get(key) ?? new Set<Axis>();
    known.set(key, held);
    return held;
  };
  for (const [key, { left, ahead, height }] of marks) {
    const axes = axesOf(key);
    if (left.u < ACROSS_KNOWN) axes.add('y');
    if (ahead) axes.add('x');
    if (height) axes.add('z');
  }
  const placed = new Set<string>();
  const shown = ({ view }: StandingPicture | HangingPicture) =>
    AXES.filter((axis) => TRUCK_IN_VIEW[view][axis][0] !== 'c');
  const canBePlaced = (picture: StandingPicture | HangingPicture): boolean => {
    const { view, frontHub, rearHub, tires, bodyMarks } = picture;
    const hubs = isSide(view) && !droops(picture) ? [frontHub, rearHub].filter((hub) => hub).length : 0;
    const shared = [...bodyMarks.keys()].filter((key) =>
      shown(picture).every((axis) => known.get(key)?.has(axis)),
    );
    return hubs + (tires?.size ?? 0) + shared.length >= FEWEST;
  };
  for (;;) {
    const next = pictures.find((picture) => !placed.has(picture.id) && canBePlaced(picture));
    if (!next) return placed;
    placed.add(next.id);
    for (const key of next.bodyMarks.keys()) for (const axis of shown(next)) axesOf(key).add(axis);
  }
}
