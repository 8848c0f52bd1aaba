import type { Length } from './quantities';

/** A point of the side view, in truck axes (m): x ahead of the rear axle, z above ground. */
export interface PlanePoint {
  readonly x: Length;
  readonly z: Length;
}

/** A point of the ground plane, in truck axes (m): x ahead of the rear axle, y left of center. */
export interface GroundPoint {
  readonly x: Length;
  readonly y: Length;
}

/** A point in truck axes (m): x ahead of the rear axle, y left of center, z above ground. */
export interface SpacePoint extends GroundPoint {
  readonly z: Length;
}
