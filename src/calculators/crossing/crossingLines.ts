import {
  COVERAGE,
  crossingPoint,
  independent,
  lengthIn,
  meetingPoint,
  meters,
  PLANE_COVERAGE,
  radians,
  success,
  type Angle,
  type Ellipse,
  type Length,
  type PlaneLine,
  type PlanePoint,
  type Result,
} from '../../physics';

/** Two lines crossing symmetrically about the horizontal, the second moved sideways. */
export interface CrossingLines {
  readonly lines: readonly [PlaneLine, PlaneLine];
  readonly crossing: PlanePoint;
  /** How far the crossing moved for the second line's being off. */
  readonly moved: Length;
  readonly ellipse: Ellipse;
  /** ± (1.96 u) along the ellipse's axes. */
  readonly worst: Length;
  readonly best: Length;
}

const ORIGIN: PlanePoint = { x: meters(0), z: meters(0) };

/**
 * Crossing of two lines at `gamma`, each with the same standard uncertainty `u` of its sideways place, the second off
 * by `off` along its normal. Refusals as in meetingPoint().
 */
export function crossingLines(gamma: Angle, off: Length, u: number): Result<CrossingLines> {
  const half = gamma / 2;
  const first: PlaneLine = { angle: radians(-half), through: ORIGIN };
  const second: PlaneLine = {
    angle: radians(half),
    through: { x: meters(-Math.sin(half) * off), z: meters(Math.cos(half) * off) },
  };
  const lines = [first, second] as const;
  const point = crossingPoint(first, second);
  if (!point.ok) return point;
  const meeting = meetingPoint(lines, independent([0, u, 0, u]));
  if (!meeting.ok) return meeting;
  const { ellipse } = meeting.value;
  const alongAxis = (semiAxis: Length): Length => meters((semiAxis / PLANE_COVERAGE) * COVERAGE);
  return success({
    lines,
    crossing: point.value,
    moved: meters(Math.hypot(point.value.x, point.value.z)),
    ellipse,
    worst: alongAxis(ellipse.semiMajor),
    best: alongAxis(ellipse.semiMinor),
  });
}

export const inMillimeters = (size: Length): number => lengthIn(size, 'mm');
