import type { Estimate } from '../../physics';
import type { PixelPoint, ViewPoint } from '../camera';

/** A point whose place was measured, and where a picture shows it. */
export interface KnownPoint {
  /** View axes, m. */
  readonly place: ViewPoint;
  /** Standard uncertainties of a, b and c, m; zero for what is exact. */
  readonly u: readonly [a: number, b: number, c: number];
  readonly pixel: PixelPoint;
  /** Standard uncertainty of each of the pixel's coordinates, above zero. */
  readonly uPixel: number;
}

/** What is known of the camera beside the points. Absent or null: nothing. */
export interface PoseGivens {
  /** Size of the picture, pixels; the optical axis meets its center. */
  readonly width: number;
  readonly height: number;
  /** Focal length, pixels. */
  readonly focal?: Estimate | null;
  /** From the camera to where its axis meets the plane c = 0, m. */
  readonly distance?: Estimate | null;
  /** As in Camera. */
  readonly distortion?: Estimate | null;
}
