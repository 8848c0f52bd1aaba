import { refusal, success } from '../../physics';
import type { Result } from '../../physics';
import type { PixelPoint } from '../camera';

export interface WeightedPoint extends PixelPoint {
  /** Relative weight, above zero: one over the variance of its place, the same in every direction. */
  readonly weight: number;
}

export interface FittedLine {
  /** The line passes through the weighted centroid. */
  readonly centroid: PixelPoint;
  /** Unit vector along the line, x never negative. */
  readonly direction: readonly [number, number];
  /** Weighted sum of squared distances from the line. */
  readonly squares: number;
  /** Weighted sum of squared distances along the line, from the centroid. */
  readonly spread: number;
}

export type LineReason = 'too few points' | 'no direction';

/**
 * The straight line with the least weighted sum of squared perpendicular distances. It treats x and y alike, so an
 * upright string is as good as any. K. Pearson, On lines and planes of closest fit to systems of points in space,
 * Philosophical Magazine 2 (1901), 559-572: the line is the major axis of the points' scatter.
 */
export function orthogonalLine(points: readonly WeightedPoint[]): Result<FittedLine, LineReason> {
  const counted = points.filter(({ weight }) => weight > 0);
  if (counted.length < 2)
    return refusal(
      'too few points',
      `Line: needs at least two points; got ${counted.length}. Mark a longer piece of the string.`,
    );
  let total = 0;
  let x = 0;
  let y = 0;
  for (const point of counted) {
    total += point.weight;
    x += point.weight * point.x;
    y += point.weight * point.y;
  }
  x /= total;
  y /= total;
  let xx = 0;
  let xy = 0;
  let yy = 0;
  for (const point of counted) {
    xx += point.weight * (point.x - x) ** 2;
    xy += point.weight * (point.x - x) * (point.y - y);
    yy += point.weight * (point.y - y) ** 2;
  }
  const half = Math.hypot((xx - yy) / 2, xy);
  if (!(half > 1e-12 * (xx + yy)))
    return refusal(
      'no direction',
      'Line: needs points that lie along one direction; these scatter alike in all. Mark a longer piece of the string.',
    );
  const turn = Math.atan2(2 * xy, xx - yy) / 2;
  return success({
    centroid: { x, y },
    direction: [Math.cos(turn), Math.sin(turn)],
    squares: Math.max(0, (xx + yy) / 2 - half),
    spread: (xx + yy) / 2 + half,
  });
}

/** The point of a line nearest to `point`. */
export function footOn(line: FittedLine, point: PixelPoint): PixelPoint {
  const [dx, dy] = line.direction;
  const along = (point.x - line.centroid.x) * dx + (point.y - line.centroid.y) * dy;
  return { x: line.centroid.x + along * dx, y: line.centroid.y + along * dy };
}
