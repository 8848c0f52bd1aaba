import { holdCamera, project } from '../../demo/world/camera';
import type { Camera, CameraHold, Pixel } from '../../demo/world/camera';
import type { Matrix, Vector } from '../../demo/world/vector';
import { aboutZ, add, dot, product, scale, size, subtract, turn } from '../../demo/world/vector';

/**
 * Photographs of any rigid body, standing or on one string. Kept apart from src/photo: a camera, a lens and a statics
 * of their own. World axes: z up; standing they are the body's, hanging the hook is the origin.
 */

export type Seen = 'right' | 'rear';

/** From body axes to world axes. */
export interface Pose {
  readonly rotation: Matrix;
  readonly origin: Vector;
}

export const AS_IT_STANDS: Pose = {
  rotation: [
    [1, 0, 0],
    [0, 1, 0],
    [0, 0, 1],
  ],
  origin: [0, 0, 0],
};

const unit = (a: Vector): Vector => scale(a, 1 / size(a));
const cross = (a: Vector, b: Vector): Vector => [
  a[1] * b[2] - a[2] * b[1],
  a[2] * b[0] - a[0] * b[2],
  a[0] * b[1] - a[1] * b[0],
];

/** The body axis that looks at the camera, and where the camera stands in the world. */
const TOWARD_CAMERA: Readonly<Record<Seen, Vector>> = { right: [0, -1, 0], rear: [-1, 0, 0] };

/**
 * A rigid body at rest on one string: its center of gravity straight below the hook. About the string it is turned until
 * the side that is seen faces the camera, and then by `twist`, rad.
 */
export const hungPose = (cg: Vector, hook: Vector, seen: Seen, twist: number): Pose => {
  const up = unit(subtract(hook, cg));
  const camera = TOWARD_CAMERA[seen];
  const facing = unit(subtract(camera, scale(up, dot(camera, up))));
  const third = cross(up, facing);
  const [worldUp, worldThird]: readonly Vector[] = [[0, 0, 1], cross([0, 0, 1], camera)];
  if (!worldUp || !worldThird) throw new Error('Three axes.');
  const row = (i: 0 | 1 | 2): Vector =>
    add(add(scale(up, worldUp[i]), scale(facing, camera[i])), scale(third, worldThird[i]));
  return hungAt(product(aboutZ(twist), [row(0), row(1), row(2)]), hook);
};

/** A rotation with the hook at the world's origin. */
export const hungAt = (rotation: Matrix, hook: Vector): Pose => ({
  rotation,
  origin: scale(turn(rotation, hook), -1),
});

export const inWorld = ({ rotation, origin }: Pose, place: Vector): Vector =>
  add(origin, turn(rotation, place));

export interface Film {
  readonly width: number;
  readonly height: number;
  /** Radial coefficient of the lens. */
  readonly radial: number;
}

/** Around a body, m. */
export type Box = readonly [low: Vector, high: Vector];

const corners = ([low, high]: Box): Vector[] =>
  [low[0], high[0]].flatMap((x) =>
    [low[1], high[1]].flatMap((y) => [low[2], high[2]].map((z): Vector => [x, y, z])),
  );

/** Part of the picture's height left below a hanging body; from the rear its tail is nearer and looks larger. */
const BELOW: Readonly<Record<Seen, number>> = { right: 0.1, rear: 0.2 };

/**
 * The camera of a photograph. Standing, the body's middle is in the middle; hanging, the body is low and the string above.
 * `off` moves the aim across and up, m.
 */
export const frame = (
  pose: Pose,
  seen: Seen,
  box: Box,
  film: Film,
  hold: CameraHold,
  hanging: boolean,
  off: readonly [number, number],
): Camera => {
  const places = corners(box).map((place) => inWorld(pose, place));
  const middle = (along: 0 | 1 | 2): number => {
    const values = places.map((place) => place[along]);
    return (Math.min(...values) + Math.max(...values)) / 2;
  };
  const lowest = Math.min(...places.map(([, , z]) => z));
  const up = hanging ? lowest + (0.5 - BELOW[seen]) * film.height * hold.perPixel : middle(2);
  // The distance of a hanging body is the string's; of a standing one its center plane's or its rear axle's.
  const aim: Vector =
    seen === 'right' ? [middle(0) + off[0], 0, up + off[1]] : [0, middle(1) + off[0], up + off[1]];
  return { ...holdCamera(hold, seen, aim, film.width, film.height), radial: film.radial };
};

/** Above the hook, m: where the lower string mark goes, clear of the knot. */
const KNOT = 0.025;
/** Part of the width and height kept free at the picture's edges. */
const EDGE = 0.025;

/** The string's two marks: above the knot, and as high up as the picture shows it. */
export const stringEnds = (camera: Camera): { readonly lower: Pixel; readonly upper: Pixel } => {
  const at = (z: number): Pixel => project(camera, [0, 0, z]);
  let top = KNOT;
  while (isInside(camera, at(top + 0.002)) && top < 3) top += 0.002;
  return { lower: at(KNOT), upper: at(top) };
};

/** Whether a pixel lies in the picture, clear of its edges. */
export const isInside = ({ width, height }: Camera, { x, y }: Pixel): boolean =>
  x > EDGE * width && x < (1 - EDGE) * width && y > EDGE * height && y < (1 - EDGE) * height;
