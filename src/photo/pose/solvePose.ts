import { type Result, success } from '../../physics';
import { type Camera, straightened } from '../camera';
import { inFront, mirrorTwin, turnBetween } from './cameraLooking';
import type { KnownPoint, PoseGivens } from './knownPoint';
import {
  FEWEST_POINTS,
  type PoseReason,
  anglesOpen,
  behind,
  inLine,
  inPlane,
  noNumber,
  noneFits,
  notPositive,
  tooFew,
  twoAlike,
} from './poseRefusals';
import { type CameraUnknown, type RefineOptions, type Refined, refinePose } from './refinePose';
import { type Nearness, scanDirections } from './scanDirections';
import { type Spread, spreadOf } from './spread';

/**
 * Where one camera stood and how it looked, from points of known place that its picture shows (perspective pose,
 * resection). Directions all round give the starts, least squares the pose.
 *
 * Sources: Hartley and Zisserman, Multiple View Geometry, 2nd ed. (2004), 7.3; starts as scanDirections says;
 * Schweighofer and Pinz, IEEE Trans. Pattern Anal. Mach. Intell. 28 (2006) 2024, for the two minima of a plane.
 */

export type { PoseReason } from './poseRefusals';

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

/** Points whose width is below this part of their length tell no turn about it: 15 mm over 300 mm foreshorten by 1 mm in 20°. */
const NARROW = 0.05;
/** Widths below this many standard uncertainties of a place are no width. */
const WIDTH_SEEN = 4;
/** Points narrower than this part of their length are to blame where angles stay open. */
const SLENDER = 0.25;
/** Points flatter than this part of their width count as lying in a plane. */
const FLAT = 0.2;
/** A nearness of less than this many of its standard uncertainties tells no distance. */
const DISTANCE_SEEN = 3;
/** View angles less sure than this are none, rad. */
const ANGLE_SEEN = 0.35;
/** Two poses fit alike where one is less than 20 times likelier: twice the logarithm of 20. */
const ALIKE = 2 * Math.log(20);
/** One pose and not two: within the 95 % region of the better one's view angles (chi-squared, two of freedom). */
const SAME_REGION = 5.991;
/** Poses turned by less than this are one, rad. */
const SAME_LOOK = 0.01;

/** Valleys that are followed to their bottom, for each nearness tried. */
const VALLEYS = 6;
/** The search from a start in the right valley needs five or six steps. */
const ROUGH_STEPS = 15;
/** The best poses whose mirrored twins are tried, and which are settled with places uncertain. */
const FOLLOWED = 3;
/** Nearness tried where nothing tells it, as parts of one over the points' reach. */
const NEARNESS_TRIED = [0, 0.2, 0.45, 0.7];

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

/** What is wrong with the givens before anything is computed, or null. */
function faultOf(points: readonly KnownPoint[], { focal, distance, distortion }: PoseGivens) {
  const numbers = [
    ...points.flatMap(({ place: { a, b, c }, u, pixel: { x, y }, uPixel }) => [a, b, c, ...u, x, y, uPixel]),
    ...[focal, distance, distortion].flatMap((reading) => (reading ? [reading.value, reading.u] : [])),
  ];
  if (!numbers.every(Number.isFinite)) return noNumber();
  if (focal && !(focal.value > 0)) return notPositive('Focal length', focal.value);
  if (distance && !(distance.value > 0)) return notPositive('Camera distance', distance.value);
  return points.length < FEWEST_POINTS ? tooFew(points.length) : null;
}

/** Whether the points are wide enough to tell a turn about the line along them. */
function isWide(points: readonly KnownPoint[], { along, across, side }: Spread): boolean {
  const surest = Math.min(...points.map(({ u }) => Math.hypot(...u.map((size, i) => size * (side[i] ?? 0)))));
  return across > NARROW * along && across > WIDTH_SEEN * surest;
}

/** Poses at the bottoms of valleys, best first, each once. */
function bottoms(
  points: readonly KnownPoint[],
  givens: PoseGivens,
  spread: Spread,
): Result<readonly Refined[], PoseReason> {
  const center = { centerX: givens.width / 2, centerY: givens.height / 2 };
  const lens = { ...center, distortion: givens.distortion?.value ?? 0 };
  const straight = points.map(({ pixel }) => straightened(lens, pixel));
  const refine = (from: readonly Camera[], options: RefineOptions) =>
    from.flatMap((start) => {
      const refined = refinePose(points, givens, spread, start, options);
      return refined.ok ? [refined.value] : [];
    });
  const isSeen = ({ camera }: Refined) => camera.scale > 0 && inFront(camera, points);
  const camerasOf = (poses: readonly Refined[]) => poses.slice(0, FOLLOWED).map(({ camera }) => camera);

  const starts = nearnessTried(givens, spread).flatMap((nearness) =>
    scanDirections(points, straight, spread, nearness, center, VALLEYS),
  );
  const rough = { places: false, maxIterations: ROUGH_STEPS };
  const scanned = refine(starts, rough);
  const found = eachOnce(scanned.filter(isSeen));
  const twins = refine(
    camerasOf(found).flatMap((camera) => mirrorTwin(camera, spread) ?? []),
    rough,
  );
  const seen = eachOnce([...found, ...twins.filter(isSeen)]);
  if (seen.length === 0) return starts.length === 0 || scanned.length > 0 ? behind() : noneFits();
  return success(eachOnce(refine(camerasOf(seen), { places: true }).filter(isSeen)));
}

/**
 * The pose of a camera from four or more points of known place. With neither focal length nor distance given, both are
 * solved, which points that lie in a plane allow only where it is seen from aslant and near. A camera whose distance
 * cannot be told from infinity has nearness 0 or near it, with its u.
 *
 * Refuses with 'too few points'; 'nearly in line' where the turn about a line stays open; 'nearly in plane and no focal';
 * 'ambiguous' where two poses fit alike, as far-off planes do when tilted either way; 'behind the camera' where every
 * pose that fits has points there; and 'not settled' where angles stay open by 20° or more, the search ends nowhere, or
 * an input is no number. A bad fit is no refusal: see chiSquared.
 * @throws RangeError for a pixel without uncertainty (a caller's bug).
 */
export function solvePose(points: readonly KnownPoint[], givens: PoseGivens): Result<Pose, PoseReason> {
  const fault = faultOf(points, givens);
  if (fault) return fault;
  const spread = spreadOf(points);
  if (!isWide(points, spread)) return inLine(spread);
  const poses = bottoms(points, givens, spread);
  if (!poses.ok) return poses;
  const [best, ...others] = poses.value;
  if (!best) return noneFits();

  const { covariance } = best;
  const u = (i: number) => Math.sqrt(covariance[i]?.[i] ?? NaN);
  const { focal, distance } = givens;
  const isFlat = spread.thick < FLAT * spread.across;
  if (!focal && !distance && isFlat && !(best.camera.nearness > DISTANCE_SEEN * u(6))) return inPlane(spread);
  const angleU = Math.max(u(1), u(2));
  if (!(angleU < ANGLE_SEEN))
    return spread.across < SLENDER * spread.along ? inLine(spread) : anglesOpen(angleU);
  // A fit worse than its uncertainties tells poses apart less surely.
  const scatter = Math.max(1, best.chiSquared / Math.max(1, best.degreesOfFreedom));
  const rival = others.find(
    (other) =>
      other.chiSquared - best.chiSquared < ALIKE * scatter && apart(best, other) > SAME_REGION * scatter,
  );
  if (rival) return twoAlike(turnBetween(best.camera, rival.camera));
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
      nearness: u(6),
    },
    chiSquared: best.chiSquared,
    degreesOfFreedom: best.degreesOfFreedom,
    how: focal ? 'focal known' : distance ? 'distance known' : 'all solved',
  });
}
