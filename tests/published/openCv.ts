import { createRequire } from 'node:module';
import type * as OpenCv from '@techstark/opencv-js';
import type { KnownPoint } from '../../src/photo/pose/knownPoint';

/**
 * Another solver of the pose: OpenCV, built for the web as the package @techstark/opencv-js. Its camera looks along z
 * with y down, and tells a rotation and a shift that carry points into its axes.
 */

const isOpenCv = (value: unknown): value is typeof OpenCv =>
  typeof value === 'object' && value !== null && 'Mat' in value && 'solvePnP' in value;

/** The library, once its WebAssembly is compiled; in an object, since it has a `then` that promises would follow for ever. */
export async function openCv(): Promise<{ readonly cv: typeof OpenCv }> {
  const library: unknown = createRequire(import.meta.url)('@techstark/opencv-js');
  const deadline = Date.now() + 30_000;
  while (!isOpenCv(library)) {
    if (Date.now() > deadline) throw new Error('The library did not compile within half a minute.');
    await new Promise((resolve) => setTimeout(resolve, 20));
  }
  return { cv: library };
}

export interface OtherPose {
  /** Rows of the rotation from view axes to right, up and toward the camera. */
  readonly rows: readonly number[];
  /** Where the camera stands, view axes, m. */
  readonly place: readonly number[];
}

/** The pose with the least sum of squared pixels, by its solver `flag` and then Levenberg and Marquardt's steps. */
export function otherPose(
  cv: typeof OpenCv,
  flag: number,
  points: readonly KnownPoint[],
  { focal, centerX, centerY }: { readonly focal: number; readonly centerX: number; readonly centerY: number },
): OtherPose {
  const n = points.length;
  const places = cv.matFromArray(
    n,
    3,
    cv.CV_64F,
    points.flatMap(({ place: { a, b, c } }) => [a, b, c]),
  );
  const pixels = cv.matFromArray(
    n,
    2,
    cv.CV_64F,
    points.flatMap(({ pixel: { x, y } }) => [x, y]),
  );
  const lens = cv.matFromArray(3, 3, cv.CV_64F, [focal, 0, centerX, 0, focal, centerY, 0, 0, 1]);
  const straight = new cv.Mat();
  const [turn, shift, rotation] = [new cv.Mat(), new cv.Mat(), new cv.Mat()];
  if (!cv.solvePnP(places, pixels, lens, straight, turn, shift, false, flag))
    throw new Error('The library found no pose.');
  cv.solvePnPRefineLM(places, pixels, lens, straight, turn, shift);
  cv.Rodrigues(turn, rotation);
  const r = [...rotation.data64F];
  const t = [...shift.data64F];
  for (const mat of [places, pixels, lens, straight, turn, shift, rotation]) mat.delete();
  return {
    rows: r.map((value, i) => (i < 3 ? value : -value)),
    place: [0, 1, 2].map(
      (i) => -[0, 1, 2].reduce((sum, j) => sum + (r[3 * j + i] ?? NaN) * (t[j] ?? NaN), 0),
    ),
  };
}
