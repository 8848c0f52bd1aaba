import { type Result, refusal, success } from '../../physics';
import { type Camera, straightened } from '../camera';
import { inFront, mirrorTwin, turnBetween } from './cameraLooking';
import type { KnownPoint, PoseGivens } from './knownPoint';
import { type CameraUnknown, type Refined, refinePose } from './refinePose';
import { type Nearness, scanDirections } from './scanDirections';
import { type Spread, spreadOf } from './spread';

/**
 * Where one camera stood and how it looked, from points of known place that its picture shows (perspective pose,
 * resection). Directions all round give the starts, least squares the pose.
 *
 * Sources: Hartley and Zisserman, Multiple View Geometry, 2nd ed. (2004), 7.3; starts as scanDirections says;
 * Schweighofer and Pinz, IEEE Trans. Pattern Anal. Mach. Intell. 28 (2006) 2024, for the two minima of a plane.
 */

export type PoseReason =
  | 'too few points'
  | 'nearly in line'
  | 'nearly in plane and no focal'
  | 'ambiguous'
  | 'behind the camera'
  | 'not settled';

export interface Pose {
  /** With the distortion where it was given. */
  readonly camera: Camera;
  /** 7 × 7, in the order roll, yaw, pitch, a, b, scale, nearness, as in projectWithSlopes; SI and pixels. */
  readonly covariance: readonly (readonly number[])[];
  /** Standard uncertainties: the roots of the covariance's diagonal. */
  readonly u: Readonly<Record<CameraUnknown, number>>;
  readonly chiSquared: number;
  /** Values read (pixels, givens, uncertain places) minus unknowns. */
  readonly degreesOfFreedom: number;
  readonly how: 'focal known' | 'distance known' | 'all solved';
}

const FEWEST = 4;
/** Points whose width is below this part of their length tell no turn about it: 15 mm over 300 mm foreshorten by 1 mm in 20°. */
const NARROW = 0.05;
/** Widths below this many standard uncertainties of a place are no width. */
const WIDTH_SEEN = 4;
/** Points flatter than this part of their width count as lying in a plane. */
const FLAT = 0.2;
/** A nearness of less than this many of its standard uncertainties tells no distance. */
const DISTANCE_SEEN = 3;
/** View angles less sure than this are none, rad. */
const ANGLE_SEEN = 0.35;
/** Two poses fit alike where one is less than 20 times likelier: twice the logarithm of 20. */
const ALIKE = 2 * Math.log(20);
/** One pose and not two: within the 95 % region of the better one's view angles (chi-squared, two of freedom)… */
const SAME_REGION = 5.991;
/** …or so near that they look the same, rad. */
const SAME_LOOK = 0.01;

/** Valleys that are followed to their bottom, for each nearness tried. */
const VALLEYS = 6;
/** The search from a start in the right valley needs five or six steps. */
const ROUGH_STEPS = 15;
/** The best poses whose mirrored twins are tried, and which are settled with places uncertain. */
const TWINS = 3;
/** Nearness tried where nothing tells it, as parts of one over the points' reach. */
const NEARNESS_TRIED = [0, 0.2, 0.45, 0.7];

const millimeters = (value: number): string => `${(value * 1000).toPrecision(2).replace(/\.0$/, '')} mm`;

/** How far `other` lies from `best` in view angles, squared, in the best one's own covariance. */
function apart(best: Refined, other: Refined): number {
  const { covariance } = best;
  const [yy, yp, pp] = [covariance[1]?.[1] ?? NaN, covariance[1]?.[2] ?? NaN, covariance[2]?.[2] ?? NaN];
  const y = other.camera.yaw - best.camera.yaw;
  const p = Math.atan2(
    Math.sin(other.camera.pitch - best.camera.pitch),
    Math.cos(other.camera.pitch - best.camera.pitch),
  );
  return (pp * y * y - 2 * yp * y * p + yy * p * p) / (yy * pp - yp * yp);
}

/** Nearness values to start from: told by what is given, else several. */
function nearnessTried({ focal, distance }: PoseGivens, { reach }: Spread): Nearness[] {
  if (focal) return [{ focal: focal.value }];
  if (distance) return [{ is: 1 / distance.value }];
  return NEARNESS_TRIED.map((part) => ({ is: part / reach }));
}

/** Bottoms of valleys, best first, each once. */
function eachOnce(poses: readonly Refined[]): Refined[] {
  const kept: Refined[] = [];
  for (const one of poses.toSorted((p, q) => p.chiSquared - q.chiSquared))
    if (!kept.some(({ camera }) => turnBetween(camera, one.camera) < SAME_LOOK)) kept.push(one);
  return kept;
}

/**
 * The pose of a camera from four or more points of known place. With neither focal length nor distance given, both are
 * solved, which points that lie in a plane allow only where it is seen from aslant and near. A camera whose distance
 * cannot be told from infinity has nearness 0 or near it, with its u.
 *
 * Refuses with 'too few points'; 'nearly in line' where points or pixels leave the turn about a line open; 'nearly in
 * plane and no focal'; 'ambiguous' where two poses fit alike, as far-off planes do when tilted either way; 'behind the
 * camera' where every pose that fits has points there; and 'not settled' where the search ends nowhere or an input is
 * no number. A bad fit is no refusal: see chiSquared.
 * @throws RangeError for a pixel without uncertainty (a caller's bug).
 */
export function solvePose(points: readonly KnownPoint[], givens: PoseGivens): Result<Pose, PoseReason> {
  const { focal, distance } = givens;
  const numbers = [
    ...points.flatMap(({ place, u, pixel, uPixel }) => [
      place.a,
      place.b,
      place.c,
      ...u,
      pixel.x,
      pixel.y,
      uPixel,
    ]),
    ...[focal, distance, givens.distortion].flatMap((reading) => (reading ? [reading.value, reading.u] : [])),
  ];
  if (!numbers.every(Number.isFinite))
    return refusal(
      'not settled',
      'Known marks: places and pixels need to be numbers; one is not. Type its place again.',
    );
  for (const [label, reading] of [
    ['Focal length', focal],
    ['Camera distance', distance],
  ] as const)
    if (reading && !(reading.value > 0))
      return refusal(
        'behind the camera',
        `${label}: needs to be above zero; got “${reading.value}”. Type what was measured, or leave it empty.`,
      );
  if (points.length < FEWEST)
    return refusal(
      'too few points',
      `Known marks: the view needs ${FEWEST} of known place; got ${points.length}. Mark another point whose place was measured.`,
    );

  const spread = spreadOf(points);
  const surest = Math.min(...points.map(({ u }) => Math.max(...u)));
  const inLine = () =>
    refusal(
      'nearly in line',
      `Known marks: need to lie off one line; got ${millimeters(spread.across)} to its sides over ${millimeters(spread.along)} along it. Mark a point well above, below or beside the others.`,
    );
  if (!(spread.across > NARROW * spread.along && spread.across > WIDTH_SEEN * surest)) return inLine();

  const center = { centerX: givens.width / 2, centerY: givens.height / 2 };
  const lens = { ...center, distortion: givens.distortion?.value ?? 0 };
  const straight = points.map(({ pixel }) => straightened(lens, pixel));
  const starts = nearnessTried(givens, spread).flatMap((nearness) =>
    scanDirections(points, straight, spread, nearness, center, VALLEYS),
  );
  const roughly = (from: readonly Camera[]) =>
    from.flatMap((start) => {
      const refined = refinePose(points, givens, spread, start, {
        places: false,
        maxIterations: ROUGH_STEPS,
      });
      return refined.ok ? [refined.value] : [];
    });
  const isSeen = ({ camera }: Refined) => camera.scale > 0 && inFront(camera, points);
  const rough = roughly(starts);
  const found = eachOnce(rough.filter(isSeen));
  const twins = roughly(found.slice(0, TWINS).flatMap(({ camera }) => mirrorTwin(camera, spread) ?? []));
  const seen = eachOnce([...found, ...twins.filter(isSeen)]);
  if (seen.length === 0)
    return starts.length === 0 || rough.length > 0
      ? refusal(
          'behind the camera',
          'Known marks: need to lie in front of the camera; the view that fits has some behind it. Check camera distance, focal length and which mark is which.',
        )
      : refusal(
          'not settled',
          'Known marks: no view fits; the search did not settle. Check which mark is which and its place.',
        );

  const settled = eachOnce(
    seen.slice(0, TWINS).flatMap(({ camera }) => {
      const refined = refinePose(points, givens, spread, camera, { places: true });
      return refined.ok && isSeen(refined.value) ? [refined.value] : [];
    }),
  );
  const best = settled[0];
  if (!best)
    return refusal(
      'not settled',
      'Known marks: no view fits; the search did not settle. Check which mark is which and its place.',
    );

  const { covariance } = best;
  const u = (i: number) => Math.sqrt(covariance[i]?.[i] ?? NaN);
  const nearnessU = u(6);
  const free = !focal && !distance;
  if (free && spread.thick < FLAT * spread.across && !(best.camera.nearness > DISTANCE_SEEN * nearnessU))
    return refusal(
      'nearly in plane and no focal',
      `Known marks: without focal length and camera distance they need to lie off one plane; got ${millimeters(spread.thick)} to its sides. Type the camera distance, or mark a point nearer to the camera or farther away.`,
    );
  if (!(u(1) < ANGLE_SEEN && u(2) < ANGLE_SEEN)) return inLine();
  // A fit worse than its uncertainties tells poses apart less surely.
  const scatter = Math.max(1, best.chiSquared / Math.max(1, best.degreesOfFreedom));
  const rival = settled
    .slice(1)
    .find(
      (other) =>
        other.chiSquared - best.chiSquared < ALIKE * scatter && apart(best, other) > SAME_REGION * scatter,
    );
  if (rival)
    return refusal(
      'ambiguous',
      `Known marks: need to fit one view only; two fit alike, ${((turnBetween(best.camera, rival.camera) * 180) / Math.PI).toFixed(0)}° apart. Mark a point well in front of or behind the others, or take the picture from nearer.`,
    );

  return success({
    camera: best.camera,
    covariance,
    u: {
      roll: u(0),
      yaw: u(1),
      pitch: u(2),
      a: u(3),
      b: u(4),
      scale: u(5),
      nearness: nearnessU,
    },
    chiSquared: best.chiSquared,
    degreesOfFreedom: best.degreesOfFreedom,
    how: focal ? 'focal known' : distance ? 'distance known' : 'all solved',
  });
}
