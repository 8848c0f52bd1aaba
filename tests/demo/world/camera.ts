import type { Random } from './random';
import type { Vector } from './vector';
import { add, dot, scale, subtract } from './vector';

/**
 * A pinhole camera in world axes (z up). Pixels: x right, y down, (0, 0) at the picture's upper left corner,
 * principal point at its center, no distortion unless its lens says so.
 */
export interface Camera {
  readonly position: Vector;
  readonly forward: Vector;
  readonly right: Vector;
  readonly down: Vector;
  /** Focal length in pixels. */
  readonly focal: number;
  readonly width: number;
  readonly height: number;
  /**
   * First radial coefficient of the lens, k in x (1 + k r²), r from the picture's center in halves of its diagonal:
   * D. C. Brown, Decentering distortion of lenses, Photogrammetric Engineering 32 (1966) 444. Below zero: barrel.
   */
  readonly radial?: number;
}

export interface Pixel {
  readonly x: number;
  readonly y: number;
}

/** Where a point of the world appears. The point must lie in front of the camera. */
export const project = (camera: Camera, point: Vector): Pixel => {
  const ray = subtract(point, camera.position);
  const depth = dot(ray, camera.forward);
  const x = (camera.focal * dot(ray, camera.right)) / depth;
  const y = (camera.focal * dot(ray, camera.down)) / depth;
  const stretch =
    camera.radial === undefined
      ? 1
      : 1 + (4 * camera.radial * (x ** 2 + y ** 2)) / (camera.width ** 2 + camera.height ** 2);
  return { x: camera.width / 2 + x * stretch, y: camera.height / 2 + y * stretch };
};

/** Which side of the truck the camera stands on; the center plane is the world's x-z plane. */
export type Side = 'left' | 'right';

/** Where a camera looks when held square, rad from the world's y axis toward −x. */
const HEADINGS: Readonly<Record<Side | 'rear' | 'front', number>> = {
  right: 0,
  left: Math.PI,
  rear: -Math.PI / 2,
  front: Math.PI / 2,
};

/** How a camera is held. Angles in rad. */
export interface CameraHold {
  /** To the point aimed at, m. */
  readonly distance: number;
  /** Off square, seen from above; and from above (positive) or below. */
  readonly yaw: number;
  readonly pitch: number;
  /** Camera tilted about its own axis. */
  readonly roll: number;
  /** At the point aimed at, m. */
  readonly perPixel: number;
}

const RADIANS = Math.PI / 180;

/** The holds of the demo's photographs: 1.3-2.5 m away, 2-4° and 2-3° off square, rolled 2-7°, 0.5-0.7 mm per pixel. */
export const photographHold = (draw: Random): CameraHold => ({
  distance: draw.between(1.3, 2.5),
  yaw: draw.eitherSign(2, 4) * RADIANS,
  pitch: draw.eitherSign(2, 3) * RADIANS,
  roll: draw.eitherSign(2, 7) * RADIANS,
  perPixel: draw.between(0.0005, 0.0007),
});

/**
 * Holds from the distributions a sheet's defaults state: 1/distance normal about 1/1.5 m with a relative u of a
 * third, kept to 0.9-3 m; both angles off square normal with u = 3°. The roll is never stated: up to 7° either way.
 */
export const statedHold = (draw: Random): CameraHold => {
  let distance = 0;
  while (!(distance >= 0.9 && distance <= 3)) distance = 1.5 / (1 + draw.normal() / 3);
  return {
    distance,
    yaw: 3 * draw.normal() * RADIANS,
    pitch: 3 * draw.normal() * RADIANS,
    roll: draw.between(-7, 7) * RADIANS,
    perPixel: draw.between(0.0005, 0.0007),
  };
};

/** A camera held so, aimed at a point from one side of the truck, its picture `width` by `height` pixels. */
export const holdCamera = (
  hold: CameraHold,
  side: Side | 'rear' | 'front',
  aim: Vector,
  width: number,
  height: number,
): Camera => {
  const turned = hold.yaw + HEADINGS[side];
  const [cy, sy] = [Math.cos(turned), Math.sin(turned)];
  const [cp, sp] = [Math.cos(hold.pitch), Math.sin(hold.pitch)];
  const forward: Vector = [-sy * cp, cy * cp, -sp];
  const level: Vector = [cy, sy, 0];
  const sunk: Vector = [-sy * sp, cy * sp, cp];
  const [cr, sr] = [Math.cos(hold.roll), Math.sin(hold.roll)];
  // Unrolled, right is level and down is the steepest fall across the view: minus `sunk`.
  const right = add(scale(level, cr), scale(sunk, sr));
  const down = add(scale(level, sr), scale(sunk, -cr));
  return {
    position: subtract(aim, scale(forward, hold.distance)),
    forward,
    right,
    down,
    focal: hold.distance / hold.perPixel,
    width,
    height,
  };
};
