import { type Observation, type Result, type Unknown, adjust, prior, success } from '../../physics';
import {
  type Camera,
  type ViewPoint,
  cameraRotation,
  lensShift,
  projectWithSlopes,
  straightened,
} from '../camera';
import type { KnownPoint, PoseGivens } from './knownPoint';
import type { Spread } from './spread';
import { anglesOf } from './viewRotation';

/** Least squares of one camera from a start: the valley's bottom that is nearest. */

/** The seven unknowns of a camera, in the order of projectWithSlopes. */
export const CAMERA_UNKNOWNS = ['roll', 'yaw', 'pitch', 'a', 'b', 'scale', 'nearness'] as const;
export type CameraUnknown = (typeof CAMERA_UNKNOWNS)[number];
const SIZE = CAMERA_UNKNOWNS.length;
const [YAW, SCALE, NEARNESS, DISTORTION] = [1, 5, 6, 7] as const;
const AXES = ['a', 'b', 'c'] as const;

/** What is given as exact is taken uncertain by this part of itself, since only what has a u can be weighed. */
const EXACT = 1e-8;
/** Settled where a step is shorter than this part of an unknown's usual size. */
const SETTLED = 1e-12;

export interface Refined {
  readonly camera: Camera;
  /** 7 × 7, in the order of CAMERA_UNKNOWNS. */
  readonly covariance: readonly (readonly number[])[];
  readonly chiSquared: number;
  readonly degreesOfFreedom: number;
}

export interface RefineOptions {
  /** Places of points are unknowns too; without, their uncertainty is added to the pixels'. */
  readonly places: boolean;
  /** The camera is at infinity: its nearness is zero. */
  readonly infinite?: boolean;
  readonly maxIterations?: number;
}

const given = ({ value, u }: { readonly value: number; readonly u: number }) => ({
  value,
  u: Math.max(u, EXACT * Math.abs(value)),
});

/** Where an unknown stands that is one of a camera's or a point's. */
function cameraAt(p: Float64Array, { centerX, centerY }: Camera): Camera {
  const at = (i: number) => p[i] ?? 0;
  return {
    roll: at(0),
    yaw: at(1),
    pitch: at(2),
    a: at(3),
    b: at(4),
    scale: at(SCALE),
    nearness: at(NEARNESS),
    centerX,
    centerY,
  };
}

/**
 * Adjusts a camera to known points from `start`. Focal length, distance and distortion enter as readings, and so do
 * the points' places with `places`. The first seven unknowns of the adjustment are CAMERA_UNKNOWNS.
 *
 * Hartley and Zisserman, Multiple View Geometry, 2nd ed., 7.3 (camera from points, restricted) and 5.2.4 (unknowns
 * of the scene with errors of their own); the focal length is scale over nearness.
 */
function refineFrom(
  points: readonly KnownPoint[],
  givens: PoseGivens,
  { reach }: Spread,
  start: Camera,
  options: RefineOptions,
): Result<Refined> {
  const angle = { scale: 0.1, negligible: SETTLED };
  const unknowns: Unknown[] = [
    ...(['roll', 'yaw', 'pitch'] as const).map((name) => ({ name, start: start[name], ...angle })),
    ...(['a', 'b'] as const).map((name) => ({
      name,
      start: start[name],
      scale: reach / 10,
      negligible: reach * SETTLED,
    })),
    {
      name: 'scale',
      start: start.scale,
      scale: Math.abs(start.scale) / 10,
      negligible: Math.abs(start.scale) * SETTLED,
    },
    { name: 'nearness', start: start.nearness, scale: 0.1 / reach, negligible: SETTLED / reach },
  ];
  const observations: Observation[] = [];
  const { focal, distance, distortion } = givens;
  if (options.infinite) observations.push(prior('nearness', NEARNESS, 0, EXACT / reach));
  if (focal) {
    const { value, u } = given(focal);
    observations.push({
      name: 'focal length',
      depends: [SCALE, NEARNESS],
      predict: (p) => [(p[NEARNESS] ?? 0) / (p[SCALE] ?? 1)],
      values: [1 / value],
      uncertainty: [u / value ** 2],
      derivative: (p) => [[-(p[NEARNESS] ?? 0) / (p[SCALE] ?? 1) ** 2, 1 / (p[SCALE] ?? 1)]],
    });
  }
  if (distance) {
    const { value, u } = given(distance);
    observations.push(prior('distance', NEARNESS, 1 / value, u / value ** 2));
  }
  const bent = distortion !== null && distortion !== undefined && distortion.u > 0;
  if (bent) {
    unknowns.push({ name: 'distortion', start: distortion.value, scale: 0.01, negligible: SETTLED });
    observations.push(prior('distortion', DISTORTION, distortion.value, distortion.u));
  }
  const { centerX, centerY } = start;
  const lens = { centerX, centerY, distortion: distortion?.value ?? 0 };
  points.forEach(({ place, u, pixel, uPixel }, i) => {
    const offsets: { readonly index: number; readonly axis: number }[] = [];
    if (options.places)
      u.forEach((size, axis) => {
        if (!(size > 0)) return;
        offsets.push({ index: unknowns.length, axis });
        observations.push(prior(`place ${i + 1}`, unknowns.length, 0, size));
        unknowns.push({
          name: `point ${i + 1} ${AXES[axis] ?? ''}`,
          start: 0,
          scale: size,
          negligible: size * SETTLED,
          block: i,
        });
      });
    const shift = lensShift(lens, pixel);
    const measured = bent ? pixel : straightened(lens, pixel);
    const at = (p: Float64Array): ViewPoint => {
      const moved = { ...place };
      for (const { index, axis } of offsets) moved[AXES[axis] ?? 'a'] += p[index] ?? 0;
      return moved;
    };
    // Across the picture, as large as where the camera looks square at the uncertain axis.
    const spread = options.places ? uPixel : Math.hypot(uPixel, start.scale * Math.max(...u));
    observations.push({
      name: `point ${i + 1}`,
      depends: [
        ...CAMERA_UNKNOWNS.map((_, index) => index),
        ...(bent ? [DISTORTION] : []),
        ...offsets.map(({ index }) => index),
      ],
      predict: (p) => {
        const { x, y } = projectWithSlopes(cameraAt(p, start), at(p));
        const k = bent ? (p[DISTORTION] ?? 0) : 0;
        return [x - k * shift.x, y - k * shift.y];
      },
      values: [measured.x, measured.y],
      uncertainty: [spread, spread],
      derivative: (p) => {
        const { dx, dy } = projectWithSlopes(cameraAt(p, start), at(p));
        return [
          [
            ...dx.slice(0, SIZE),
            ...(bent ? [-shift.x] : []),
            ...offsets.map(({ axis }) => dx[SIZE + axis] ?? 0),
          ],
          [
            ...dy.slice(0, SIZE),
            ...(bent ? [-shift.y] : []),
            ...offsets.map(({ axis }) => dy[SIZE + axis] ?? 0),
          ],
        ];
      },
    });
  });
  const { maxIterations } = options;
  const adjusted = adjust(unknowns, observations, maxIterations ? { maxIterations } : {});
  if (!adjusted.ok) return adjusted;
  const { unknowns: found, covariance, chiSquared, degreesOfFreedom } = adjusted.value;
  const k = bent ? (found[DISTORTION] ?? 0) : distortion?.value;
  const camera = cameraAt(found, start);
  const turned = Math.cos(camera.yaw) < 0;
  // The same rotation with yaw between −90° and 90°; roll and pitch gain half a turn, and yaw runs the other way.
  const sign = (i: number) => (turned && i === YAW ? -1 : 1);
  return success({
    camera: {
      ...camera,
      ...anglesOf(cameraRotation(camera)),
      ...(k === undefined ? {} : { distortion: k }),
    },
    covariance: CAMERA_UNKNOWNS.map((_, i) =>
      CAMERA_UNKNOWNS.map((__, j) => sign(i) * sign(j) * covariance.get(i, j)),
    ),
    chiSquared,
    degreesOfFreedom,
  });
}

/**
 * What refineFrom gives, with a camera no farther than infinity: where errors would put it beyond, it stands at
 * infinity, with the covariance of the free fit. Negative nearness would show every plane a second time, tilted the
 * other way.
 */
export function refinePose(
  points: readonly KnownPoint[],
  givens: PoseGivens,
  spread: Spread,
  start: Camera,
  options: RefineOptions,
): Result<Refined> {
  const free = refineFrom(points, givens, spread, start, options);
  if (!free.ok || free.value.camera.nearness >= 0) return free;
  const { camera, covariance, degreesOfFreedom } = free.value;
  const bound = refineFrom(points, givens, spread, camera, { ...options, infinite: true });
  if (!bound.ok) return bound;
  const { chiSquared } = bound.value;
  return success({
    camera: { ...bound.value.camera, nearness: 0 },
    covariance,
    chiSquared,
    degreesOfFreedom,
  });
}
