import { type Camera, type ViewPoint, cameraRotation } from '../camera';

/** Directions of the view: between angles and rows of a rotation. */

export type ViewAngles = Pick<Camera, 'roll' | 'yaw' | 'pitch'>;

/** Roll, yaw (−90° to 90°) and pitch of the rotation whose rows are given; the inverse of cameraRotation. */
export function anglesOf(rows: readonly number[]): ViewAngles {
  const r = (i: number) => rows[i] ?? 0;
  return {
    roll: Math.atan2(-r(1), r(0)),
    yaw: Math.asin(Math.min(1, Math.max(-1, r(2)))),
    pitch: Math.atan2(-r(5), r(8)),
  };
}

/** Unit vector from the object toward the camera along the optical axis, in view axes. */
export function towardCamera(view: ViewAngles): ViewPoint {
  const r = cameraRotation(view);
  return { a: r[6] ?? 0, b: r[7] ?? 0, c: r[8] ?? 0 };
}

/** Angle between the optical axis and the view's normal, rad: 0 looks square, above π/2 looks from behind. */
export const obliqueness = ({ camera }: { readonly camera: ViewAngles }): number => {
  const { a, b, c } = towardCamera(camera);
  // The arc cosine would lose a small angle.
  return Math.atan2(Math.hypot(a, b), c);
};

/** Where the camera stands, view axes, m; null for a camera at infinity. */
export function cameraPlace(camera: Camera): ViewPoint | null {
  if (!(camera.nearness > 0)) return null;
  const toward = towardCamera(camera);
  return {
    a: camera.a + toward.a / camera.nearness,
    b: camera.b + toward.b / camera.nearness,
    c: toward.c / camera.nearness,
  };
}
