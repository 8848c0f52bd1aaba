import { type Camera, type PixelPoint, cameraRotation } from '../camera';
import type { Spread } from './spread';
import { anglesOf, towardCamera } from './viewRotation';

/** A camera told by how it sees the points' middle, and its mirrored twin. */

/**
 * The camera whose rotation has `rows`, that sees `middle` at `offset` to the right of its axis and above it, m, at
 * `scale` pixels per meter from 1/`nearness`; null where its axis meets the plane c = 0 behind it or nowhere.
 */
export function cameraLooking(
  rows: readonly number[],
  middle: Spread['middle'],
  offset: PixelPoint,
  { scale, nearness }: Pick<Camera, 'scale' | 'nearness'>,
  { centerX, centerY }: Pick<Camera, 'centerX' | 'centerY'>,
): Camera | null {
  const r = (i: number) => rows[i] ?? 0;
  // On the optical axis, as far from the camera as the middle is; from there along the axis to the plane c = 0.
  const on = (axis: 0 | 1 | 2) => middle[axis] - offset.x * r(axis) - offset.y * r(axis + 3);
  const along = -on(2) / r(8);
  const magnified = 1 / (1 - nearness * along);
  if (!(magnified > 0 && Number.isFinite(along))) return null;
  return {
    ...anglesOf(rows),
    a: on(0) + along * r(6),
    b: on(1) + along * r(7),
    scale: scale * magnified,
    nearness: nearness * magnified,
    centerX,
    centerY,
  };
}

/**
 * The camera to which points near a plane look almost the same: what is nearer in one is farther in the other by as
 * much. Depths d = l·p along the line of sight l to the middle turn to −d, so that the rotation R becomes
 * (1 − 2 l lᵀ) R (1 − 2 n nᵀ), n being the plane's normal. Null where there is none.
 * Schweighofer and Pinz, IEEE Trans. Pattern Anal. Mach. Intell. 28 (2006) 2024, 3.
 */
export function mirrorTwin(camera: Camera, { middle, normal }: Spread): Camera | null {
  const rows = cameraRotation(camera);
  const r = (i: number) => rows[i] ?? 0;
  const [a, b, c] = [middle[0] - camera.a, middle[1] - camera.b, middle[2]];
  const at = (row: number) => r(row) * a + r(row + 1) * b + r(row + 2) * c;
  const [right, up, toward] = [at(0), at(3), at(6)];
  const distance = 1 - camera.nearness * toward;
  if (!(distance > 0)) return null;
  // Times the nearness, so that a camera at infinity has a line of sight too.
  const sight = [camera.nearness * right, camera.nearness * up, -distance];
  const length = Math.hypot(...sight);
  const l = sight.map((part) => part / length);
  const twin = [0, 3, 6].map((row) => {
    const along = 2 * (r(row) * normal[0] + r(row + 1) * normal[1] + r(row + 2) * normal[2]);
    return normal.map((part, axis) => r(row + axis) - along * part);
  });
  const depth = [0, 1, 2].map((axis) =>
    l.reduce((sum, part, row) => sum + part * (twin[row]?.[axis] ?? 0), 0),
  );
  return cameraLooking(
    twin.flatMap((row, i) => row.map((value, axis) => value - 2 * (l[i] ?? 0) * (depth[axis] ?? 0))),
    middle,
    { x: right, y: up },
    { scale: camera.scale / distance, nearness: camera.nearness / distance },
    camera,
  );
}

/** Angle of the turn from one camera to another, rad. */
export function turnBetween(one: Camera, other: Camera): number {
  const [r, s] = [cameraRotation(one), cameraRotation(other)];
  const trace = r.reduce((sum, value, i) => sum + value * (s[i] ?? 0), 0);
  return Math.acos(Math.min(1, Math.max(-1, (trace - 1) / 2)));
}

/** Whether all of `points` lie in front of the camera. */
export function inFront(
  camera: Camera,
  points: readonly { readonly place: { a: number; b: number; c: number } }[],
) {
  const toward = towardCamera(camera);
  return points.every(({ place }) => {
    const nearer = toward.a * (place.a - camera.a) + toward.b * (place.b - camera.b) + toward.c * place.c;
    return camera.nearness * nearer < 1;
  });
}
