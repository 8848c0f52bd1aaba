import { Matrix4, PerspectiveCamera } from 'three';
import type { Camera } from '../world/camera';

/** A sample's place on the lens, m along the picture's right and up, and inside its pixel, px. */
export interface LensSample {
  readonly right: number;
  readonly up: number;
  readonly x: number;
  readonly y: number;
}
export const LENS_CENTER: LensSample = { right: 0, up: 0, x: 0, y: 0 };

const NEAR = 0.2;
const FAR = 12;

/**
 * The renderer's camera for a pinhole of the world: the same projection, built from its matrices. A sample off
 * the lens center keeps points at the distance `focus` (m, along the axis) where the pinhole shows them.
 */
export const threeCamera = (
  camera: Camera,
  focus: number,
  sample: LensSample = LENS_CENTER,
): PerspectiveCamera => {
  const { right, down, forward, position, focal, width, height } = camera;
  const [px, py, pz] = position.map(
    (value, at) => value + sample.right * (right[at] ?? 0) - sample.up * (down[at] ?? 0),
  );
  const three = new PerspectiveCamera();
  three.matrixAutoUpdate = false;
  three.matrix.set(
    ...([right[0], -down[0], -forward[0], px ?? 0] as const),
    ...([right[1], -down[1], -forward[1], py ?? 0] as const),
    ...([right[2], -down[2], -forward[2], pz ?? 0] as const),
    ...([0, 0, 0, 1] as const),
  );
  three.updateMatrixWorld(true);
  const shiftX = (2 * ((focal * sample.right) / focus + sample.x)) / width;
  const shiftY = (2 * ((focal * sample.up) / focus + sample.y)) / height;
  three.projectionMatrix = new Matrix4().set(
    ...([(2 * focal) / width, 0, -shiftX, 0] as const),
    ...([0, (2 * focal) / height, -shiftY, 0] as const),
    ...([0, 0, -(FAR + NEAR) / (FAR - NEAR), (-2 * FAR * NEAR) / (FAR - NEAR)] as const),
    ...([0, 0, -1, 0] as const),
  );
  three.projectionMatrixInverse.copy(three.projectionMatrix).invert();
  return three;
};
