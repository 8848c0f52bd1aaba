import { type Camera, project } from '../../../src/photo/camera';
import type { KnownPoint } from '../../../src/photo/pose/knownPoint';
import { seeded } from '../../physics/given';

/** Cameras up to 60° off square from every roll, and points before them, from a seed. */

export const SIZE = { width: 3000, height: 2000 };
export const CENTER = { centerX: 1500, centerY: 1000 };
const SLANTEST = Math.PI / 3;

export interface Scene {
  readonly camera: Camera;
  readonly points: readonly KnownPoint[];
  /** Focal length, pixels, and distance, m. */
  readonly focal: number;
  readonly distance: number;
}

export function sceneOf(seed: number, count: number, lie: 'space' | 'plane', uPixel = 0.5): Scene {
  const uniform = seeded(seed);
  const within = (low: number, high: number) => low + (high - low) * uniform();
  const distance = within(0.8, 3);
  const scale = within(800, 3000);
  const camera: Camera = {
    roll: within(-Math.PI, Math.PI),
    yaw: within(-SLANTEST, SLANTEST),
    pitch: within(-SLANTEST, SLANTEST),
    a: within(-0.1, 0.3),
    b: within(-0.1, 0.3),
    scale,
    nearness: 1 / distance,
    ...CENTER,
  };
  const points = Array.from({ length: count }, (_, i) => {
    // One in each of a fan of sectors, so that no chance puts all of them on one line.
    const turn = ((i + within(0, 0.6)) * 2 * Math.PI) / count;
    const radius = within(0.12, 0.25);
    const place = {
      a: 0.1 + radius * Math.cos(turn),
      b: 0.1 + radius * Math.sin(turn),
      c: lie === 'plane' ? 0.05 : (i % 2 === 0 ? 1 : -1) * within(0.05, 0.14),
    };
    return { place, u: [0, 0, 0] as const, pixel: project(camera, place), uPixel };
  });
  return { camera, points, focal: scale * distance, distance };
}
