import { type Angle, type Length, PLANE_COVERAGE, meters, radians } from '../quantities';
import type { Covariance } from './uncertainty';

/** An ellipse about a point of the plane. */
export interface Ellipse {
  readonly semiMajor: Length;
  readonly semiMinor: Length;
  /** Direction of the major axis from x, turning up toward z; above −90°, up to 90° (rad). */
  readonly angle: Angle;
}

/**
 * Region that holds a point of the plane with 95 % probability, from its 2 × 2 covariance (m²): semi-axes are
 * `coverage` times the roots of the eigenvalues. Two lines crossing at γ with equal u give the eigenvalues
 * u²/(1 ∓ cos γ).
 */
export const errorEllipse = (covariance: Covariance, coverage: number = PLANE_COVERAGE): Ellipse => {
  const xx = covariance[0]?.[0] ?? NaN;
  const xz = covariance[0]?.[1] ?? NaN;
  const zz = covariance[1]?.[1] ?? NaN;
  const mean = (xx + zz) / 2;
  const apart = Math.hypot((xx - zz) / 2, xz);
  const major = mean + apart;
  // The product of the eigenvalues is the determinant; mean − apart would lose the digits of a thin ellipse.
  const minor = major > 0 ? Math.max((xx * zz - xz * xz) / major, 0) : 0;
  return {
    semiMajor: meters(coverage * Math.sqrt(major)),
    semiMinor: meters(coverage * Math.sqrt(minor)),
    angle: radians(Math.atan2(2 * xz, xx - zz) / 2),
  };
};
