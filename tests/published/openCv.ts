import { createRequire } from 'node:module';
import type { PixelPoint, ViewPoint } from '../../src/photo/camera';

/**
 * Another solver of the pose: OpenCV, built for the web as the package @techstark/opencv-js. Its camera looks along z
 * with y down, and tells a rotation and a shift that carry points into its axes.
 */

interface Mat {
  readonly data64F: Float64Array;
  delete(): void;
}
interface MatVector {
  push_back(mat: Mat): void;
  get(index: number): Mat;
  delete(): void;
}

/** What is used of the library; its own types leave some of it out. */
export interface OpenCv {
  readonly Mat: new () => Mat;
  readonly MatVector: new () => MatVector;
  readonly Size: new (width: number, height: number) => object;
  readonly TermCriteria: new (type: number, rounds: number, step: number) => object;
  matFromArray(rows: number, columns: number, type: number, values: readonly number[]): Mat;
  solvePnP(
    places: Mat,
    pixels: Mat,
    lens: Mat,
    curve: Mat,
    turn: Mat,
    shift: Mat,
    guessed: boolean,
    flag: number,
  ): boolean;
  solvePnPRefineLM(places: Mat, pixels: Mat, lens: Mat, curve: Mat, turn: Mat, shift: Mat): void;
  Rodrigues(turn: Mat, rotation: Mat): void;
  calibrateCameraExtended(
    places: MatVector,
    pixels: MatVector,
    size: object,
    lens: Mat,
    curve: Mat,
    turns: MatVector,
    shifts: MatVector,
    lensU: Mat,
    poseU: Mat,
    misfits: Mat,
    flags: number,
    end: object,
  ): number;
  readonly CV_64F: number;
  readonly CV_32FC2: number;
  readonly CV_32FC3: number;
  readonly SOLVEPNP_ITERATIVE: number;
  readonly CALIB_USE_INTRINSIC_GUESS: number;
  readonly CALIB_FIX_PRINCIPAL_POINT: number;
  readonly CALIB_FIX_ASPECT_RATIO: number;
  readonly CALIB_ZERO_TANGENT_DIST: number;
  readonly CALIB_FIX_K1: number;
  readonly CALIB_FIX_K2: number;
  readonly CALIB_FIX_K3: number;
  readonly TERM_CRITERIA_COUNT: number;
  readonly TERM_CRITERIA_EPS: number;
}

const isOpenCv = (value: unknown): value is OpenCv =>
  typeof value === 'object' && value !== null && 'Mat' in value && 'solvePnP' in value;

interface Sighting {
  readonly place: ViewPoint;
  readonly pixel: PixelPoint;
}
const placesOf = (points: readonly Sighting[]) => points.flatMap(({ place: { a, b, c } }) => [a, b, c]);
const pixelsOf = (points: readonly Sighting[]) => points.flatMap(({ pixel: { x, y } }) => [x, y]);

/** The library, once its WebAssembly is compiled; in an object, since it has a `then` that promises would follow for ever. */
export async function openCv(): Promise<{ readonly cv: OpenCv }> {
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

interface Lens {
  readonly focal: number;
  readonly centerX: number;
  readonly centerY: number;
}
const lensOf = (cv: OpenCv, { focal, centerX, centerY }: Lens) =>
  cv.matFromArray(3, 3, cv.CV_64F, [focal, 0, centerX, 0, focal, centerY, 0, 0, 1]);

function poseFrom(cv: OpenCv, turn: Mat, shift: Mat): OtherPose {
  const rotation = new cv.Mat();
  cv.Rodrigues(turn, rotation);
  const r = [...rotation.data64F];
  const t = [...shift.data64F];
  rotation.delete();
  return {
    rows: r.map((value, i) => (i < 3 ? value : -value)),
    place: [0, 1, 2].map(
      (i) => -[0, 1, 2].reduce((sum, j) => sum + (r[3 * j + i] ?? NaN) * (t[j] ?? NaN), 0),
    ),
  };
}

/**
 * The pose with the least sum of squared pixels: started by a homography or a linear camera, then by Levenberg and
 * Marquardt's steps.
 */
export function otherPose(cv: OpenCv, points: readonly Sighting[], lens: Lens): OtherPose {
  const places = cv.matFromArray(points.length, 3, cv.CV_64F, placesOf(points));
  const pixels = cv.matFromArray(points.length, 2, cv.CV_64F, pixelsOf(points));
  const known = lensOf(cv, lens);
  const [straight, turn, shift] = [new cv.Mat(), new cv.Mat(), new cv.Mat()];
  if (!cv.solvePnP(places, pixels, known, straight, turn, shift, false, cv.SOLVEPNP_ITERATIVE))
    throw new Error('The library found no pose.');
  cv.solvePnPRefineLM(places, pixels, known, straight, turn, shift);
  const pose = poseFrom(cv, turn, shift);
  for (const mat of [places, pixels, known, straight, turn, shift]) mat.delete();
  return pose;
}

/** Pose and focal length together, `lens` being its start; and the focal length's u by what the fit leaves. */
export function otherPoseAndFocal(
  cv: OpenCv,
  points: readonly Sighting[],
  lens: Lens,
): OtherPose & { readonly focal: number; readonly focalU: number } {
  const [places, pixels] = [new cv.MatVector(), new cv.MatVector()];
  places.push_back(cv.matFromArray(points.length, 1, cv.CV_32FC3, placesOf(points)));
  pixels.push_back(cv.matFromArray(points.length, 1, cv.CV_32FC2, pixelsOf(points)));
  const found = lensOf(cv, lens);
  const [turns, shifts] = [new cv.MatVector(), new cv.MatVector()];
  const [lensU, poseU, misfits] = [new cv.Mat(), new cv.Mat(), new cv.Mat()];
  cv.calibrateCameraExtended(
    places,
    pixels,
    new cv.Size(2 * lens.centerX, 2 * lens.centerY),
    found,
    cv.matFromArray(1, 5, cv.CV_64F, [0, 0, 0, 0, 0]),
    turns,
    shifts,
    lensU,
    poseU,
    misfits,
    cv.CALIB_USE_INTRINSIC_GUESS |
      cv.CALIB_FIX_PRINCIPAL_POINT |
      cv.CALIB_FIX_ASPECT_RATIO |
      cv.CALIB_ZERO_TANGENT_DIST |
      cv.CALIB_FIX_K1 |
      cv.CALIB_FIX_K2 |
      cv.CALIB_FIX_K3,
    new cv.TermCriteria(cv.TERM_CRITERIA_COUNT + cv.TERM_CRITERIA_EPS, 500, 1e-14),
  );
  return {
    ...poseFrom(cv, turns.get(0), shifts.get(0)),
    focal: found.data64F[0] ?? NaN,
    focalU: lensU.data64F[1] ?? NaN,
  };
}
