import { Matrix, SVD } from 'ml-matrix';
import type { KnownPoint } from './knownPoint';

/** How points lie: along a line, in a plane, or in space. */
export interface Spread {
  readonly middle: readonly [a: number, b: number, c: number];
  /** Root mean square distance from the middle along the points' own three axes, m, largest first. */
  readonly along: number;
  readonly across: number;
  readonly thick: number;
  /** Unit vector along which they are `across`. */
  readonly side: readonly [a: number, b: number, c: number];
  /** Unit vector along which they are thin. */
  readonly normal: readonly [a: number, b: number, c: number];
  /** Distance of the farthest point from the middle, m. */
  readonly reach: number;
}

/** Principal axes of points about their mean, by singular values. */
export function spreadOf(points: readonly KnownPoint[]): Spread {
  const count = points.length;
  const places = points.map(({ place: { a, b, c } }) => [a, b, c]);
  const mean = (axis: number) => places.reduce((sum, place) => sum + (place[axis] ?? 0), 0) / count;
  const middle = [mean(0), mean(1), mean(2)] as const;
  const centered = places.map((place) => place.map((value, axis) => value - (middle[axis] ?? 0)));
  const svd = new SVD(new Matrix(centered));
  const [along = 0, across = 0, thick = 0] = svd.diagonal.map((singular) => singular / Math.sqrt(count));
  // Across the first two: the library gives no third for points in a plane.
  const axis = (row: number, column: number) => svd.rightSingularVectors.get(row, column);
  const cross = (i: number, j: number) => axis(i, 0) * axis(j, 1) - axis(j, 0) * axis(i, 1);
  const normal = [cross(1, 2), cross(2, 0), cross(0, 1)] as const;
  return {
    middle,
    side: [axis(0, 1), axis(1, 1), axis(2, 1)],
    normal,
    along,
    across,
    thick,
    reach: Math.max(...centered.map((at) => Math.hypot(...at))),
  };
}
