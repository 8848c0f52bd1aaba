import type { PlanePoint } from '../places';
import {
  type Angle,
  type Length,
  type Result,
  angleIn,
  degrees,
  meters,
  radians,
  refusal,
  success,
} from '../quantities';

/**
 * Lines in the side plane.
 *
 * A line has two uncertain parameters, in this order wherever lines share a covariance: its direction angle (rad)
 * and its offset (m), the distance by which it passes its own reference point `through`, counted along the normal
 * n = (−sin angle, cos angle). The estimate of every offset is zero.
 */
export interface PlaneLine {
  /** Direction from the x axis, turning up toward z (rad); any turn of 180° is the same line. */
  readonly angle: Angle;
  /** A point on the line. */
  readonly through: PlanePoint;
}

/**
 * Lines crossing at less than this are refused as parallel. At 2° an error of 1 mm in one line moves the crossing
 * 1/sin 2° = 29 mm along the other, and the first-order error ellipse no longer tells the truth.
 */
export const PARALLEL_LIMIT: Angle = degrees(2);

/** Unit normal of a line (x, z), to the left of its direction. */
export const lineNormal = (line: PlaneLine): readonly [number, number] => [
  -Math.sin(line.angle),
  Math.cos(line.angle),
];

/** Distance of a point from a line (m), positive on the side of the line's normal (left of its direction). */
export const distanceToLine = (line: PlaneLine, point: PlanePoint): Length => {
  const [nx, nz] = lineNormal(line);
  return meters(nx * (point.x - line.through.x) + nz * (point.z - line.through.z));
};

/** Place of a point along a line (m): distance from `through`, counted in the line's direction. */
export const leverAlongLine = (line: PlaneLine, point: PlanePoint): Length =>
  meters(
    Math.cos(line.angle) * (point.x - line.through.x) + Math.sin(line.angle) * (point.z - line.through.z),
  );

/**
 * The line x = constant, as axle scales give it: exact in angle, its offset being the error of x with the same
 * sign (it points straight down, so its normal points ahead).
 */
export const uprightLine = (x: Length): PlaneLine => ({
  angle: radians(-Math.PI / 2),
  through: { x, z: meters(0) },
});

/** Acute angle between two lines, 0 to 90° (rad). */
export const crossingAngle = (first: PlaneLine, second: PlaneLine): Angle => {
  const turn = first.angle - second.angle;
  return radians(Math.atan2(Math.abs(Math.sin(turn)), Math.abs(Math.cos(turn))));
};

/** Two lines of a list, by index, and the angle at which they cross. */
export interface Crossing {
  readonly first: number;
  readonly second: number;
  readonly angle: Angle;
}

/** Every pair of lines with its crossing angle; widest first. */
export const crossings = (lines: readonly PlaneLine[]): Crossing[] =>
  lines
    .flatMap((line, first) =>
      lines.slice(first + 1).map((other, k) => ({
        first,
        second: first + 1 + k,
        angle: crossingAngle(line, other),
      })),
    )
    .sort((a, b) => b.angle - a.angle);

/** Where two lines cross; refused below PARALLEL_LIMIT. */
export const crossingPoint = (
  first: PlaneLine,
  second: PlaneLine,
): Result<PlanePoint, 'nearly-parallel' | 'not-finite'> => {
  const angle = crossingAngle(first, second);
  if (angle < PARALLEL_LIMIT) {
    return refusal(
      'nearly-parallel',
      `The lines cross at ${angleIn(angle, 'deg').toFixed(1)}°, too nearly parallel to cross.`,
    );
  }
  const along = -distanceToLine(second, first.through) / Math.sin(first.angle - second.angle);
  const x = meters(first.through.x + along * Math.cos(first.angle));
  const z = meters(first.through.z + along * Math.sin(first.angle));
  if (!Number.isFinite(x) || !Number.isFinite(z)) {
    return refusal('not-finite', 'A line has no place or direction yet. Complete its marks and its hook.');
  }
  return success({ x, z });
};

/** The triangle three lines make where they miss each other. */
export interface LineTriangle {
  /** Crossings of lines 1-2, 2-3 and 3-1, counting from 1. */
  readonly vertices: readonly [PlanePoint, PlanePoint, PlanePoint];
  readonly longestSide: Length;
}

/** Triangle of three lines; refused when two of them are nearly parallel. */
export const triangleOfLines = (
  lines: readonly [PlaneLine, PlaneLine, PlaneLine],
): Result<LineTriangle, 'nearly-parallel' | 'not-finite'> => {
  const [a, b, c] = lines;
  const ab = crossingPoint(a, b);
  if (!ab.ok) return ab;
  const bc = crossingPoint(b, c);
  if (!bc.ok) return bc;
  const ca = crossingPoint(c, a);
  if (!ca.ok) return ca;
  const side = (p: PlanePoint, q: PlanePoint): number => Math.hypot(p.x - q.x, p.z - q.z);
  return success({
    vertices: [ab.value, bc.value, ca.value],
    longestSide: meters(
      Math.max(side(ab.value, bc.value), side(bc.value, ca.value), side(ca.value, ab.value)),
    ),
  });
};
