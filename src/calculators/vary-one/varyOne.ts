import {
  edgeLimit,
  meters,
  radians,
  refusal,
  success,
  type Angle,
  type Length,
  type Result,
} from '../../physics';

/** The three lengths a side tip angle depends on. */
export interface SideCase {
  readonly height: Length;
  readonly halfTrack: Length;
  /** Left of center. */
  readonly left: Length;
}

/** Tip angles of both sides; refused where the CG lies outside the tracks. */
export interface SideTips {
  readonly left: Angle;
  readonly right: Angle;
  readonly leftDistance: Length;
  readonly rightDistance: Length;
}

/** Side tip angles with the CG `left` of center: d = half track − left over the left line, + left over the right. */
export function sideTips({ height, halfTrack, left }: SideCase): Result<SideTips> {
  const leftDistance = meters(halfTrack - left);
  const rightDistance = meters(halfTrack + left);
  if (leftDistance < 0 || rightDistance < 0) {
    return refusal(
      'cg-outside',
      'The center of gravity lies outside the tires: the truck falls over on level ground. Bring it back between them.',
    );
  }
  const straight = radians(0);
  return success({
    left: edgeLimit(leftDistance, height, straight),
    right: edgeLimit(rightDistance, height, straight),
    leftDistance,
    rightDistance,
  });
}
