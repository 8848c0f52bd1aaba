/**
 * A camera looking square at one side of the truck, or nearly so, and the similarity that a fit starts from.
 *
 * View axes of a picture, meters, fixed to the truck: a to the right in the picture, b up, c toward the camera, origin
 * below the rear hub on the ground in the truck's center plane (views.ts says how they lie in the truck). Pixels:
 * x right, y down; the optical axis meets the picture at its center.
 */

export interface ViewPoint {
  readonly a: number;
  readonly b: number;
  readonly c: number;
}

export interface PixelPoint {
  readonly x: number;
  readonly y: number;
}

export interface Camera {
  /** Rotation of the truck in the picture, rad, counter-clockwise. */
  readonly roll: number;
  /** How far the view is off square, rad: about the picture's vertical, and about its horizontal. */
  readonly yaw: number;
  readonly pitch: number;
  /** Where the optical axis meets the center plane c = 0, meters. */
  readonly a: number;
  readonly b: number;
  /** Pixels per meter at that point. */
  readonly scale: number;
  /** One over the distance from the camera to that point, 1/m; zero is a camera at infinity. */
  readonly nearness: number;
  /** Picture center, pixels: half its width and height. */
  readonly centerX: number;
  readonly centerY: number;
  /**
   * By what part of its distance from the center a pixel at the picture's corner lies too near it (barrel, above zero)
   * or too far (pincushion); nearer the center with the square of the distance. Absent: a lens that draws straight.
   */
  readonly distortion?: number;
}

type Lens = Pick<Camera, 'centerX' | 'centerY' | 'distortion'>;

/**
 * The pixel where a lens without distortion would have shown what this one shows at `pixel`.
 * Brown, Photogrammetric Engineering 37 (1971) 855: radial terms, the first of them; it corrects the measured place.
 */
export function straightened(lens: Lens, pixel: PixelPoint): PixelPoint {
  const shift = lensShift(lens, pixel);
  const by = lens.distortion ?? 0;
  return { x: pixel.x + by * shift.x, y: pixel.y + by * shift.y };
}

/** How far the lens shifts what is shown at a pixel, for each unit of distortion; beyond the corners no more than there. */
export function lensShift(
  { centerX, centerY }: Pick<Camera, 'centerX' | 'centerY'>,
  { x, y }: PixelPoint,
): PixelPoint {
  const [dx, dy] = [x - centerX, y - centerY];
  const by = Math.min(1, (dx * dx + dy * dy) / (centerX * centerX + centerY * centerY));
  return { x: by * dx, y: by * dy };
}

/** Rounds until the lens's shift stands to a ten-thousandth of a pixel: each leaves 3·distortion of the error before. */
const LENS_ROUNDS = 8;

/** Where the lens shows what one without distortion would show at `pixel`: the inverse of straightened. */
export function throughLens(lens: Lens, pixel: PixelPoint): PixelPoint {
  if (!lens.distortion) return pixel;
  let shown = pixel;
  for (let round = 0; round < LENS_ROUNDS; round++) {
    const back = straightened(lens, shown);
    shown = { x: shown.x + pixel.x - back.x, y: shown.y + pixel.y - back.y };
  }
  return shown;
}

/** Rows of the rotation from view axes to camera axes (right, up, toward the camera). */
export function cameraRotation({
  roll,
  yaw,
  pitch,
}: Pick<Camera, 'roll' | 'yaw' | 'pitch'>): readonly number[] {
  const cr = Math.cos(roll);
  const sr = Math.sin(roll);
  const cy = Math.cos(yaw);
  const sy = Math.sin(yaw);
  const cp = Math.cos(pitch);
  const sp = Math.sin(pitch);
  // Pitch about the picture's horizontal, after yaw about its vertical, after roll in its plane.
  return [
    cy * cr,
    -cy * sr,
    sy,
    cp * sr + sp * sy * cr,
    cp * cr - sp * sy * sr,
    -sp * cy,
    sp * sr - cp * sy * cr,
    sp * cr + cp * sy * sr,
    cp * cy,
  ];
}

/** Pixel of a point. */
export const project = (camera: Camera, point: ViewPoint): PixelPoint =>
  throughLens(camera, projectStraight(camera, point));

/**
 * Pixel of a point as a lens without distortion shows it.
 * Hartley and Zisserman, Multiple View Geometry, 2nd ed., 6.1 (central projection).
 */
export function projectStraight(camera: Camera, point: ViewPoint): PixelPoint {
  const r = cameraRotation(camera);
  const a = point.a - camera.a;
  const b = point.b - camera.b;
  const c = point.c;
  const at = (row: number) => (r[row] ?? 0) * a + (r[row + 1] ?? 0) * b + (r[row + 2] ?? 0) * c;
  const magnification = camera.scale / (1 - camera.nearness * at(6));
  return { x: camera.centerX + magnification * at(0), y: camera.centerY - magnification * at(3) };
}

/** A pixel with its derivatives by the camera and by the point. */
export interface Projection extends PixelPoint {
  /** By roll, yaw, pitch, a, b, scale and nearness of the camera, then by a, b and c of the point. */
  readonly dx: readonly number[];
  readonly dy: readonly number[];
}

/** What projectStraight gives, with its derivatives. */
export function projectWithSlopes(camera: Camera, point: ViewPoint): Projection {
  const { nearness, scale } = camera;
  const r = cameraRotation(camera);
  const n = (i: number) => r[i] ?? 0;
  const a = point.a - camera.a;
  const b = point.b - camera.b;
  const right = n(0) * a + n(1) * b + n(2) * point.c;
  const up = n(3) * a + n(4) * b + n(5) * point.c;
  const toward = n(6) * a + n(7) * b + n(8) * point.c;
  const perspective = 1 / (1 - nearness * toward);
  const magnification = scale * perspective;
  // d magnification / d toward, as it moves the pixel right and up.
  const closer = magnification * nearness * perspective;
  const [rightCloser, upCloser] = [right * closer, up * closer];
  // Each angle turns the rows of the rotation into one another: the derivatives are turned coordinates.
  const [cp, sp] = [Math.cos(camera.pitch), Math.sin(camera.pitch)];
  const rollToward = n(7) * a - n(6) * b;
  const yawToward = -cp * right;
  const farther = magnification * perspective * toward;
  const [xa, xb] = [magnification * n(0) + rightCloser * n(6), magnification * n(1) + rightCloser * n(7)];
  const [ya, yb] = [magnification * n(3) + upCloser * n(6), magnification * n(4) + upCloser * n(7)];
  return {
    x: camera.centerX + magnification * right,
    y: camera.centerY - magnification * up,
    dx: [
      magnification * (n(1) * a - n(0) * b) + rightCloser * rollToward,
      magnification * (cp * toward - sp * up) + rightCloser * yawToward,
      rightCloser * up,
      -xa,
      -xb,
      perspective * right,
      farther * right,
      xa,
      xb,
      magnification * n(2) + rightCloser * n(8),
    ],
    dy: [
      -magnification * (n(4) * a - n(3) * b) - upCloser * rollToward,
      -magnification * sp * right - upCloser * yawToward,
      magnification * toward - upCloser * up,
      ya,
      yb,
      -perspective * up,
      -farther * up,
      -ya,
      -yb,
      -magnification * n(5) - upCloser * n(8),
    ],
  };
}

/** The point at depth c whose picture is `pixel`: the inverse of project on the plane c = constant. */
export function unproject(camera: Camera, pixel: PixelPoint, c: number): ViewPoint {
  const r = cameraRotation(camera);
  const straight = straightened(camera, pixel);
  const u = (straight.x - camera.centerX) / camera.scale;
  const v = (camera.centerY - straight.y) / camera.scale;
  const q = camera.nearness;
  const n = (i: number) => r[i] ?? 0;
  // (row0 + u q row2)·p = u and (row1 + v q row2)·p = v, two equations in the a and b of p.
  const a11 = n(0) + u * q * n(6);
  const a12 = n(1) + u * q * n(7);
  const a21 = n(3) + v * q * n(6);
  const a22 = n(4) + v * q * n(7);
  const r1 = u - (n(2) + u * q * n(8)) * c;
  const r2 = v - (n(5) + v * q * n(8)) * c;
  const determinant = a11 * a22 - a12 * a21;
  return {
    a: camera.a + (r1 * a22 - a12 * r2) / determinant,
    b: camera.b + (a11 * r2 - r1 * a21) / determinant,
    c,
  };
}

/** Rotation, scale and shift that carry plane points onto others: q ≈ scale · R(rotation) · p + shift. */
export interface Similarity {
  readonly rotation: number;
  readonly scale: number;
  readonly shiftX: number;
  readonly shiftY: number;
  /** Root mean square distance left over per degree of freedom (2n − 4), in the units of `to`; null for two points. */
  readonly misfit: number | null;
  /** Distance left over at each point, in the units of `to`. */
  readonly distances: readonly number[];
}

interface PlanePoint {
  readonly x: number;
  readonly y: number;
}

/**
 * Least-squares similarity between two or more pairs, without reflection; null when all points of `from` coincide.
 * Umeyama, IEEE Trans. Pattern Anal. Mach. Intell. 13 (1991) 376, eq. (39)-(43), in the plane.
 */
export function fitSimilarity(from: readonly PlanePoint[], to: readonly PlanePoint[]): Similarity | null {
  const n = Math.min(from.length, to.length);
  if (n < 2) return null;
  const mean = (points: readonly PlanePoint[]) => ({
    x: points.slice(0, n).reduce((s, p) => s + p.x, 0) / n,
    y: points.slice(0, n).reduce((s, p) => s + p.y, 0) / n,
  });
  const m = mean(from);
  const k = mean(to);
  let spread = 0;
  let along = 0;
  let across = 0;
  for (let i = 0; i < n; i++) {
    const p = from[i];
    const q = to[i];
    if (!p || !q) return null;
    const [px, py, qx, qy] = [p.x - m.x, p.y - m.y, q.x - k.x, q.y - k.y];
    spread += px * px + py * py;
    along += px * qx + py * qy;
    across += px * qy - py * qx;
  }
  if (!(spread > 0)) return null;
  const rotation = Math.atan2(across, along);
  const scale = Math.hypot(along, across) / spread;
  const [cos, sin] = [scale * Math.cos(rotation), scale * Math.sin(rotation)];
  const shiftX = k.x - cos * m.x + sin * m.y;
  const shiftY = k.y - sin * m.x - cos * m.y;
  const distances = from.slice(0, n).map((p, i) => {
    const q = to[i] ?? k;
    return Math.hypot(cos * p.x - sin * p.y + shiftX - q.x, sin * p.x + cos * p.y + shiftY - q.y);
  });
  const squares = distances.reduce((sum, d) => sum + d * d, 0);
  return {
    rotation,
    scale,
    shiftX,
    shiftY,
    distances,
    misfit: n > 2 ? Math.sqrt(squares / (2 * n - 4)) : null,
  };
}
