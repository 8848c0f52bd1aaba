import { type Camera, type PixelPoint, cameraRotation, fitSimilarity } from '../camera';
import { cameraLooking } from './cameraLooking';
import type { KnownPoint } from './knownPoint';
import type { Spread } from './spread';

/**
 * Starts for the pose by trying every direction of view. With the direction and the nearness given, the pixels, each
 * multiplied by its point's relative distance, are a similarity of the points' coordinates in the picture's plane, and
 * that has a solution in closed form. So every place where the misfit has a valley is found, be the view ever so
 * oblique and the points in a plane or not.
 *
 * Pixels multiplied by relative distances: DeMenthon and Davis, Int. J. Computer Vision 15 (1995) 123, eq. (5)-(7);
 * the two valleys of a plane: Oberkampf, DeMenthon and Davis, Computer Vision and Image Understanding 63 (1996) 495.
 */

/** Directions are some 10° apart: the valleys of a plane's misfit are wider even from near. */
const DIRECTIONS = 400;
/** Directions nearer than this are neighbors, rad: the six or more around each. */
const NEIGHBOR = 0.28;

/** Roll-free rotations that look from all sides, evenly: a spiral of golden angles. */
const LOOKS = Array.from({ length: DIRECTIONS }, (_, i) => {
  const c = 1 - (2 * i + 1) / DIRECTIONS;
  const turn = Math.PI * (3 - Math.sqrt(5)) * i;
  const radius = Math.sqrt(1 - c * c);
  const [a, b] = [radius * Math.cos(turn), radius * Math.sin(turn)];
  return {
    toward: [a, b, c] as const,
    rows: cameraRotation({ roll: 0, yaw: Math.atan2(-a, c), pitch: Math.asin(b) }),
  };
});
type Look = (typeof LOOKS)[number];

let neighbors: readonly (readonly number[])[] | null = null;

/** The neighbors of each direction; found once. */
const neighborhoods = (): readonly (readonly number[])[] =>
  (neighbors ??= LOOKS.map(({ toward: [a, b, c] }, i) =>
    LOOKS.flatMap(({ toward }, j) =>
      i !== j && a * toward[0] + b * toward[1] + c * toward[2] > Math.cos(NEIGHBOR) ? [j] : [],
    ),
  ));

/** A camera and the root mean square of what it leaves, pixels. */
interface Trial {
  readonly camera: Camera;
  readonly misfit: number;
}

/** How near the camera is to the points' middle, 1/m: told, or to be had from the scale by a focal length, pixels. */
export type Nearness = { readonly is: number } | { readonly focal: number };

/** Rounds between scale and nearness: each leaves a tenth or so of the error before, and this is a start only. */
const FOCAL_ROUNDS = 4;
/** Nearest that a point may come to the camera, as a part of the middle's distance. */
const NEAREST = 0.05;

function tryLook(
  { rows, toward }: Look,
  points: readonly KnownPoint[],
  /** Straightened, from the picture's center, y up. */
  pixels: readonly PixelPoint[],
  { middle }: Spread,
  nearness: Nearness,
  center: Pick<Camera, 'centerX' | 'centerY'>,
): Trial | null {
  const r = (i: number) => rows[i] ?? 0;
  const turned = points.map(({ place }) => {
    const [a, b, c] = [place.a - middle[0], place.b - middle[1], place.c - middle[2]];
    const at = (row: number) => r(row) * a + r(row + 1) * b + r(row + 2) * c;
    return { x: at(0), y: at(3), toward: at(6) };
  });
  const fitAt = (q: number) => {
    const distances = turned.map((point) => 1 - q * point.toward);
    if (!distances.every((distance) => distance > NEAREST)) return null;
    const fit = fitSimilarity(
      turned,
      pixels.map(({ x, y }, i) => ({ x: x * (distances[i] ?? 1), y: y * (distances[i] ?? 1) })),
    );
    return fit && fit.scale > 0 ? fit : null;
  };
  let q = 'is' in nearness ? nearness.is : 0;
  let fit = fitAt(q);
  if ('focal' in nearness)
    for (let round = 0; fit && round < FOCAL_ROUNDS; round++) {
      q = fit.scale / nearness.focal;
      fit = fitAt(q);
    }
  if (!fit) return null;
  const { rotation, scale } = fit;
  // The picture is turned by `rotation` more.
  const [cos, sin] = [Math.cos(rotation), Math.sin(rotation)];
  const whole = [
    ...[0, 1, 2].map((axis) => cos * r(axis) - sin * r(axis + 3)),
    ...[0, 1, 2].map((axis) => sin * r(axis) + cos * r(axis + 3)),
    ...toward,
  ];
  const camera = cameraLooking(
    whole,
    middle,
    { x: fit.shiftX / scale, y: fit.shiftY / scale },
    { scale, nearness: q },
    center,
  );
  return (
    camera && {
      camera,
      misfit: Math.sqrt(fit.distances.reduce((sum, d) => sum + d * d, 0) / fit.distances.length),
    }
  );
}

/** The cameras in the valleys of the misfit over all directions, best first, at most `most`. */
export function scanDirections(
  points: readonly KnownPoint[],
  straight: readonly PixelPoint[],
  spread: Spread,
  nearness: Nearness,
  center: Pick<Camera, 'centerX' | 'centerY'>,
  most: number,
): Camera[] {
  const pixels = straight.map(({ x, y }) => ({ x: x - center.centerX, y: center.centerY - y }));
  const trials = LOOKS.map((look) => tryLook(look, points, pixels, spread, nearness, center));
  const misfitAt = (i: number) => trials[i]?.misfit ?? Infinity;
  return trials
    .flatMap((trial, i) =>
      trial && neighborhoods()[i]?.every((j) => misfitAt(j) >= trial.misfit) ? [trial] : [],
    )
    .toSorted((one, other) => one.misfit - other.misfit)
    .slice(0, most)
    .map(({ camera }) => camera);
}
