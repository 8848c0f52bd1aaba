import { Matrix, solve } from 'ml-matrix';
import {
  COVERAGE,
  chiSquaredProbability,
  degrees,
  angleIn,
  jacobian,
  propagate,
  radians,
  refusal,
  success,
} from '../physics';
import type { Angle, Estimate, Result } from '../physics';
import type { PixelPoint } from './camera';

/**
 * Two hanging pictures and nothing else: where their plumb lines cross, as seen in the pictures themselves.
 *
 * Common body marks carry every string onto every picture by a similarity (turn, enlargement, shift); the center of
 * gravity appears where the strings cross there. No length is needed, so no length comes out: places are pixels.
 */

/** A marked point with its standard uncertainty in each of its two directions, pixels. */
export interface PixelMark extends PixelPoint {
  readonly u: number;
}

export interface CrossingHang {
  readonly id: string;
  /** Size of the upright picture, pixels. */
  readonly width: number;
  readonly height: number;
  readonly bodyMarks: ReadonlyMap<string, PixelMark>;
  /** Upper and lower end of the string. */
  readonly string: readonly [PixelMark, PixelMark];
}

/** How another picture's marks lie on this picture's after carrying them over; pixels of this picture. */
export interface CarriedMarks {
  readonly pictureId: string;
  /** The common marks, in the order of `distances`. */
  readonly keys: readonly string[];
  /** Distance left over at each mark. */
  readonly distances: readonly number[];
  /** Root mean square of what is left over, per degree of freedom; null for two marks, which fit always. */
  readonly misfit: number | null;
  /** Chance of marks missing each other by this much or more if every ± is right; null for two marks. */
  readonly probability: number | null;
}

/** Where the center of gravity lies relative to two body marks of the same picture, in parts of their spacing. */
export interface RelativePlace {
  readonly from: string;
  readonly to: string;
  /** Way from the first mark toward the second: 0 at the first, 1 beside the second. */
  readonly along: Estimate;
  /** To the left of that way as seen in the picture. */
  readonly left: Estimate;
  /** Straight distance from each of the two. */
  readonly fromFirst: Estimate;
  readonly fromSecond: Estimate;
}

export interface CrossedPicture {
  readonly pictureId: string;
  /** The center of gravity as this picture shows it, and whether that is within its edges. */
  readonly place: PixelPoint;
  readonly inside: boolean;
  /** 2 × 2 (px²), order x, y. */
  readonly covariance: readonly (readonly number[])[];
  /** Standard uncertainty in the direction in which it is largest, px. */
  readonly u: number;
  /** Every string as it lies in this picture, its own among them: two points of it, running down. */
  readonly lines: readonly {
    readonly pictureId: string;
    readonly from: PixelPoint;
    readonly to: PixelPoint;
  }[];
  /** Widest angle at which two of the lines cross. */
  readonly angle: Angle;
  readonly marks: readonly CarriedMarks[];
  /** The mark left over farthest, where there are enough to tell which it is and it is more than its ± explains. */
  readonly worst: { readonly key: string; readonly pictureId: string; readonly off: number } | null;
  /** How much the ± was widened because the marks miss each other by more than theirs allows; 1 where they do not. */
  readonly widened: number;
  readonly relative: RelativePlace;
}

export interface PixelCrossing {
  /** The pictures in which the point can be shown, in the order given; two at least. */
  readonly pictures: readonly CrossedPicture[];
  /** Hangs that share too few marks with the others to take part. */
  readonly apart: readonly string[];
}

export type CrossingRefusal = 'too few hangs' | 'too few common marks' | 'marks coincide' | 'nearly parallel';

/** Fewest marks that carry one picture onto another; the third is the first that checks. */
const FEWEST_MARKS = 2;
/** From four common marks on, the one that misses most can be named; of three, any may be the wrong one. */
const FEWEST_TO_NAME = 4;
/** Lines that cross at less show their crossing too poorly to draw it. */
const NARROWEST = degrees(10);
/** A direction less sure than this (rad, standard) is none: marks so close that first order would not hold. */
const LEAST_SURE = 0.1;
/** Misfits rarer than this if every ± were right are taken for more than chance. */
const RARE = 0.05;
/** A mark without uncertainty would weigh infinitely: a thousandth of a pixel is as good as exact. */
const EXACT_U = 1e-3;
/**
 * How far a picture may show its marks aside of where they would stand in the plane of the center of gravity: u in
 * each direction, as a part of the marks' widest spacing. A truck's marks stand before that plane by 0.3 of their
 * spacing (90 of 300 mm); views and hanging trucks are square to 3° (u), which shifts them by 0.02 of it; a camera at
 * 1.5 m shows them enlarged by 6 %, which 150 mm beside the middle of the picture is 0.03 of it.
 */
export const USUAL_ASIDE = 0.033;
/** The same for things flatter than a truck, whose marks stand before the plane by a tenth of their spacing. */
export const FLAT_ASIDE = 0.01;

/**
 * Marks that stand at different depths are not shifted alike: by 0.1 of their spacing (30 of 300 mm) nearer or farther, a
 * third of how far all of them stand before the plane, and so by a third as much.
 */
const MARKS_APART = 1 / 3;

/** A hang with the places of its numbers among all that enter: string first, then its marks, then their shift. */
interface Read {
  readonly hang: CrossingHang;
  readonly at: number;
  /** Where the shift of the plane of its marks stands. */
  readonly shift: number;
  readonly keys: readonly string[];
}

/** A common mark: where its x stands among the numbers, in either picture, and its weight. */
interface Pair {
  readonly key: string;
  readonly from: number;
  readonly to: number;
  readonly weight: number;
}

interface Carry {
  readonly source: Read;
  readonly pairs: readonly Pair[];
}

interface Line {
  readonly from: PixelPoint;
  readonly to: PixelPoint;
}

/**
 * Where the strings of two or more hangs of one side cross, in each of the pictures.
 *
 * Valid for pictures of one side of a body that does not change its shape between the hangs, with at least two body
 * marks common to each pair (three to have a check). Uncertainties follow to first order (JCGM 100:2008, eq. (13)) from
 * those of the marks, every mark that two lines share counted once, and from `aside`. Where marks miss each other by
 * more than chance, theirs are widened by the root of chi-squared over its degrees of freedom.
 *
 * Left out of the place, and allowed for by `aside` alone: a view off square, marks nearer to the camera than the
 * center of gravity, and lens distortion. On trucks photographed from 1 to 2 m they put the crossing off by 4 to 5 % of
 * the marks' spacing, about 12 mm, and no misfit of the marks betrays it, since all marks shift alike. The full fit
 * of the pictures models them.
 *
 * Refused: fewer than two hangs; too few common marks; marks or string ends so close together that they show no
 * direction; strings that cross at less than 10°.
 */
export function crossOnPictures(
  hangs: readonly CrossingHang[],
  { aside = USUAL_ASIDE }: { readonly aside?: number } = {},
): Result<PixelCrossing, CrossingRefusal> {
  if (hangs.length < 2)
    return refusal('too few hangs', 'One string gives a line, not a point. Hang it from a second hook.');
  const numbers: number[] = [];
  const u: number[] = [];
  const put = (mark: PixelMark) => {
    numbers.push(mark.x, mark.y);
    u.push(mark.u, mark.u);
  };
  const read = hangs.map((hang): Read => {
    const at = numbers.length;
    hang.string.forEach(put);
    const keys = [...hang.bodyMarks.keys()];
    for (const mark of hang.bodyMarks.values()) put(mark);
    const shift = numbers.length;
    put({ x: 0, y: 0, u: aside * widestSpacing([...hang.bodyMarks.values()]) });
    return { hang, at, shift, keys };
  });
  const crossed = read.map((target) => crossedIn(target, read, numbers, u));
  const pictures = crossed.flatMap((each) => (each.ok ? [each.value] : []));
  if (pictures.length < 2) {
    const why = REFUSED_FIRST.flatMap(
      (reason) => crossed.find((each) => !each.ok && each.reason === reason) ?? [],
    );
    const [first] = why;
    if (first && !first.ok) return first;
    return refusal('too few common marks', TOO_FEW);
  }
  const shown = new Set(pictures.map(({ pictureId }) => pictureId));
  return success({ pictures, apart: hangs.flatMap(({ id }) => (shown.has(id) ? [] : [id])) });
}

const TOO_FEW =
  'Two hanging pictures need two body marks in common, three to be checked. Mark the same corners of the body in both.';

/** Of several reasons the one told: the one that is nearest to an answer. */
const REFUSED_FIRST: readonly CrossingRefusal[] = [
  'nearly parallel',
  'marks coincide',
  'too few common marks',
];

/** The crossing in one picture, onto which all others that share marks with it are carried. */
function crossedIn(
  target: Read,
  all: readonly Read[],
  numbers: readonly number[],
  u: readonly number[],
): Result<CrossedPicture, CrossingRefusal> {
  const { hang } = target;
  const carries = all.flatMap((source): Carry[] => {
    if (source === target) return [{ source, pairs: [] }];
    const pairs = commonMarks(source, target, numbers, u);
    return pairs.length < FEWEST_MARKS ? [] : [{ source, pairs }];
  });
  if (carries.length < 2) return refusal('too few common marks', TOO_FEW);
  const close = tooClose(carries, numbers, u);
  if (close !== null) return refusal('marks coincide', close);
  const lines = carries.map((carry) => lineOf(carry, target, numbers));
  const angle = widest(lines);
  if (!(angle >= NARROWEST))
    return refusal(
      'nearly parallel',
      `The strings cross at only ${angleIn(angle, 'deg').toFixed(1)}°, too nearly parallel to show where. Hang it from a hook farther from the first.`,
    );
  // A start that no weight enters; then twice weighed as the lines are sure where they pass the last place.
  let place = nearest(lines);
  let step = weighed(place, carries, target, numbers, u);
  place = step.place;
  if (lines.length > 2) {
    step = weighed(place, carries, target, numbers, u);
    place = step.place;
  }
  if (!Number.isFinite(place.x) || !Number.isFinite(place.y))
    return refusal('marks coincide', 'The marks lie too far apart to compute with. Place them again.');
  const marks = carries
    .filter(({ pairs }) => pairs.length > 0)
    .map((carry) => carriedMarks(carry, numbers, MARKS_APART * (u[target.shift] ?? 0)));
  const { widened, worst } = judged(marks);
  const shifts = new Set(all.flatMap(({ shift }) => [shift, shift + 1]));
  const variance = u.map((each, i) => ((shifts.has(i) ? 1 : widened) * each) ** 2);
  const covariance = propagate(step.slopes, diagonal(variance));
  return success({
    pictureId: hang.id,
    place,
    inside: place.x >= 0 && place.y >= 0 && place.x <= hang.width && place.y <= hang.height,
    covariance,
    u: largest(covariance),
    lines: lines.map((line, i) => ({ pictureId: carries[i]?.source.hang.id ?? '', ...line })),
    angle,
    marks: marks.map(({ told }) => told),
    worst,
    widened,
    relative: relativePlace(place, step.slopes, carries, target, numbers, variance),
  });
}

// Carrying -------------------------------------------------------------------------------------------------

const pointAt = (numbers: readonly number[], at: number): PixelPoint => ({
  x: numbers[at] ?? NaN,
  y: numbers[at + 1] ?? NaN,
});

/** Marks of both pictures, each with the weight of how sure it is of carrying over. */
function commonMarks(
  source: Read,
  target: Read,
  numbers: readonly number[],
  u: readonly number[],
): readonly Pair[] {
  const markAt = (read: Read, index: number) => read.at + 4 + 2 * index;
  const plain = source.keys.flatMap((key, index): Pair[] => {
    const other = target.keys.indexOf(key);
    return other < 0 ? [] : [{ key, from: markAt(source, index), to: markAt(target, other), weight: 1 }];
  });
  const enlarged = similarity(plain, numbers).scale;
  return plain.map((pair) => ({
    ...pair,
    weight: 1 / Math.max(EXACT_U ** 2, (u[pair.to] ?? NaN) ** 2 + (enlarged * (u[pair.from] ?? NaN)) ** 2),
  }));
}

/**
 * Weighted least-squares similarity in closed form, as complex numbers q ≈ z·p + t: the real part of z is the scale
 * times the cosine of the turn, the imaginary part times its sine. Umeyama, IEEE Trans. Pattern Anal. Mach. Intell.
 * 13 (1991) 376, eq. (39)-(43), in the plane and without reflection.
 */
function similarity(pairs: readonly Pair[], numbers: readonly number[]) {
  let [sum, fromX, fromY, toX, toY] = [0, 0, 0, 0, 0];
  for (const { from, to, weight } of pairs) {
    const [p, q] = [pointAt(numbers, from), pointAt(numbers, to)];
    sum += weight;
    fromX += weight * p.x;
    fromY += weight * p.y;
    toX += weight * q.x;
    toY += weight * q.y;
  }
  [fromX, fromY, toX, toY] = [fromX / sum, fromY / sum, toX / sum, toY / sum];
  let [spread, real, imaginary] = [0, 0, 0];
  for (const { from, to, weight } of pairs) {
    const [p, q] = [pointAt(numbers, from), pointAt(numbers, to)];
    const [px, py, qx, qy] = [p.x - fromX, p.y - fromY, q.x - toX, q.y - toY];
    spread += weight * (px * px + py * py);
    real += weight * (px * qx + py * qy);
    imaginary += weight * (px * qy - py * qx);
  }
  [real, imaginary] = [real / spread, imaginary / spread];
  return {
    spread,
    scale: Math.hypot(real, imaginary),
    carry: ({ x, y }: PixelPoint): PixelPoint => ({
      x: toX + real * (x - fromX) - imaginary * (y - fromY),
      y: toY + imaginary * (x - fromX) + real * (y - fromY),
    }),
  };
}

/** A string as it lies in the target picture. */
function lineOf({ source, pairs }: Carry, target: Read, numbers: readonly number[]): Line {
  const from = pointAt(numbers, source.at);
  const to = pointAt(numbers, source.at + 2);
  if (source === target) return { from, to };
  const { carry } = similarity(pairs, numbers);
  const [here, there] = [pointAt(numbers, source.shift), pointAt(numbers, target.shift)];
  const carried = ({ x, y }: PixelPoint): PixelPoint => {
    const place = carry({ x: x - here.x, y: y - here.y });
    return { x: place.x + there.x, y: place.y + there.y };
  };
  return { from: carried(from), to: carried(to) };
}

/** Distance of the two points that lie farthest apart. */
const widestSpacing = (points: readonly PixelPoint[]): number =>
  Math.max(0, ...points.flatMap((p, i) => points.slice(i + 1).map((q) => Math.hypot(p.x - q.x, p.y - q.y))));

/** What stands too close together to show a direction, in words; null where all is well. */
function tooClose(
  carries: readonly Carry[],
  numbers: readonly number[],
  u: readonly number[],
): string | null {
  for (const { source, pairs } of carries) {
    const [from, to] = [pointAt(numbers, source.at), pointAt(numbers, source.at + 2)];
    const long = Math.hypot(from.x - to.x, from.y - to.y);
    if (!(long > 0) || Math.hypot(u[source.at] ?? NaN, u[source.at + 2] ?? NaN) > LEAST_SURE * long)
      return 'Both ends of a string are marked at about one place. Mark them as far apart as the picture shows it.';
    if (pairs.length === 0) continue;
    // The weighted spread of the marks is one over the variance of the turn that they tell.
    const { spread, scale } = similarity(pairs, numbers);
    if (!(spread > 0) || !(scale > 0) || 1 > LEAST_SURE * Math.sqrt(spread) * scale)
      return 'The common body marks stand too close together to show how a picture is turned. Mark corners far apart.';
  }
  return null;
}

// Crossing -------------------------------------------------------------------------------------------------

/** Unit vector across a line: its signed distance grows that way. */
function across({ from, to }: Line): readonly [number, number] {
  const [dx, dy] = [to.x - from.x, to.y - from.y];
  const long = Math.hypot(dx, dy);
  return [dy / long, -dx / long];
}

function distanceFrom(line: Line, { x, y }: PixelPoint): number {
  const [nx, ny] = across(line);
  return nx * (x - line.from.x) + ny * (y - line.from.y);
}

/** Widest angle between any two of the lines, up to a right one. */
function widest(lines: readonly Line[]): Angle {
  const normals = lines.map(across);
  const sines = normals.flatMap(([ax, ay], i) =>
    normals.slice(i + 1).map(([bx, by]) => Math.abs(ax * by - ay * bx)),
  );
  return radians(Math.asin(Math.min(1, Math.max(...sines))));
}

/** The place of least squared distance from the lines, all alike. */
function nearest(lines: readonly Line[]): PixelPoint {
  let [xx, xy, yy, bx, by] = [0, 0, 0, 0, 0];
  for (const line of lines) {
    const [nx, ny] = across(line);
    const offset = nx * line.from.x + ny * line.from.y;
    xx += nx * nx;
    xy += nx * ny;
    yy += ny * ny;
    bx += nx * offset;
    by += ny * offset;
  }
  const determinant = xx * yy - xy * xy;
  return { x: (bx * yy - by * xy) / determinant, y: (by * xx - bx * xy) / determinant };
}

/**
 * One step of generalized least squares from a trial place: distances from the lines there, with the covariance that
 * the marks they share give them. Gives the place and its derivatives by every number read, 2 rows.
 */
function weighed(
  trial: PixelPoint,
  carries: readonly Carry[],
  target: Read,
  numbers: readonly number[],
  u: readonly number[],
): { readonly place: PixelPoint; readonly slopes: number[][] } {
  const distances = (read: readonly number[]) =>
    carries.map((carry) => distanceFrom(lineOf(carry, target, read), trial));
  const steps = u.map((each) => Math.max(each, EXACT_U));
  const byNumber = new Matrix(jacobian(distances, numbers, steps));
  const normals = new Matrix(carries.map((carry) => [...across(lineOf(carry, target, numbers))]));
  const now = Matrix.columnVector(distances(numbers));
  const covariance = propagate(byNumber.to2DArray(), diagonal(steps.map((each) => each * each)));
  // Two lines cross in one point whatever their weights.
  const weights = carries.length === 2 ? normals : solve(new Matrix(covariance), normals);
  const gain = solve(weights.transpose().mmul(normals), weights.transpose());
  const moved = gain.mmul(now);
  return {
    place: { x: trial.x - moved.get(0, 0), y: trial.y - moved.get(1, 0) },
    slopes: gain.mmul(byNumber).mul(-1).to2DArray(),
  };
}

const diagonal = (values: readonly number[]): number[][] =>
  values.map((value, i) => values.map((_, j) => (i === j ? value : 0)));

/** Root of the larger eigenvalue of a 2 × 2 covariance. */
function largest(covariance: readonly (readonly number[])[]): number {
  const at = (i: number, j: number) => covariance[i]?.[j] ?? NaN;
  const mean = (at(0, 0) + at(1, 1)) / 2;
  return Math.sqrt(mean + Math.hypot((at(0, 0) - at(1, 1)) / 2, at(0, 1)));
}

// Checks ---------------------------------------------------------------------------------------------------

interface Carried {
  readonly told: CarriedMarks;
  readonly chiSquared: number;
  readonly degreesOfFreedom: number;
  /** Each distance over the standard uncertainty of carrying its mark. */
  readonly normalized: readonly number[];
}

function carriedMarks({ source, pairs }: Carry, numbers: readonly number[], aside: number): Carried {
  const { carry } = similarity(pairs, numbers);
  const distances = pairs.map(({ from, to }) => {
    const [p, q] = [carry(pointAt(numbers, from)), pointAt(numbers, to)];
    return Math.hypot(p.x - q.x, p.y - q.y);
  });
  const normalized = distances.map(
    (distance, i) => distance / Math.hypot(1 / Math.sqrt(pairs[i]?.weight ?? NaN), aside),
  );
  const degreesOfFreedom = 2 * pairs.length - 4;
  const checked = degreesOfFreedom > 0;
  const chiSquared = checked ? normalized.reduce((sum, each) => sum + each * each, 0) : 0;
  return {
    told: {
      pictureId: source.hang.id,
      keys: pairs.map(({ key }) => key),
      distances,
      misfit: checked ? Math.sqrt(distances.reduce((sum, d) => sum + d * d, 0) / degreesOfFreedom) : null,
      probability: checked ? chiSquaredProbability(chiSquared, degreesOfFreedom) : null,
    },
    chiSquared,
    degreesOfFreedom,
    normalized,
  };
}

/** Whether the marks of all pictures carried onto one agree within their ±, and which does not. */
function judged(marks: readonly Carried[]): Pick<CrossedPicture, 'widened' | 'worst'> {
  const chiSquared = marks.reduce((sum, each) => sum + each.chiSquared, 0);
  const degreesOfFreedom = marks.reduce((sum, each) => sum + each.degreesOfFreedom, 0);
  if (degreesOfFreedom === 0 || chiSquaredProbability(chiSquared, degreesOfFreedom) >= RARE)
    return { widened: 1, worst: null };
  const [worst] = marks
    .filter(({ told }) => told.keys.length >= FEWEST_TO_NAME)
    .flatMap(({ told, normalized }) =>
      told.keys.map((key, i) => ({
        key,
        pictureId: told.pictureId,
        off: told.distances[i] ?? 0,
        normalized: normalized[i] ?? 0,
      })),
    )
    .filter(({ normalized }) => normalized > COVERAGE)
    .toSorted((a, b) => b.normalized - a.normalized);
  return {
    widened: Math.sqrt(Math.max(1, chiSquared / degreesOfFreedom)),
    worst: worst ? { key: worst.key, pictureId: worst.pictureId, off: worst.off } : null,
  };
}

/** The place by the two marks of the target that lie farthest apart, of those that carry; shared errors once. */
function relativePlace(
  place: PixelPoint,
  slopes: readonly (readonly number[])[],
  carries: readonly Carry[],
  target: Read,
  numbers: readonly number[],
  variance: readonly number[],
): RelativePlace {
  const used = new Map(carries.flatMap(({ pairs }) => pairs.map(({ key, to }) => [key, to] as const)));
  const keys = target.keys.filter((key) => used.has(key)).toSorted();
  let best = { from: '', to: '', p: 0, q: 0, apart: 0 };
  keys.forEach((from, i) => {
    for (const to of keys.slice(i + 1)) {
      const [p, q] = [used.get(from) ?? 0, used.get(to) ?? 0];
      const [a, b] = [pointAt(numbers, p), pointAt(numbers, q)];
      const apart = Math.hypot(a.x - b.x, a.y - b.y);
      // Of two pairs as far apart as good as alike, the first, so that rounding does not choose.
      if (apart > best.apart * (1 + 1e-6)) best = { from, to, p, q, apart };
    }
  });
  const [a, b] = [pointAt(numbers, best.p), pointAt(numbers, best.q)];
  const shares = ([cx = NaN, cy = NaN, px = NaN, py = NaN, qx = NaN, qy = NaN]: readonly number[]) => {
    const [dx, dy, ex, ey] = [qx - px, qy - py, cx - px, cy - py];
    const square = dx * dx + dy * dy;
    const long = Math.sqrt(square);
    return [
      (ex * dx + ey * dy) / square,
      // Pixels run down: left of (dx, dy) as seen is (dy, −dx).
      (ex * dy - ey * dx) / square,
      Math.hypot(ex, ey) / long,
      Math.hypot(cx - qx, cy - qy) / long,
    ];
  };
  const inputs = [place.x, place.y, a.x, a.y, b.x, b.y];
  const own = [best.p, best.p + 1, best.q, best.q + 1];
  const toNumbers = [...slopes, ...own.map((index) => variance.map((_, i) => (i === index ? 1 : 0)))];
  const steps = inputs.map(() => Math.max(EXACT_U, 1e-3 * best.apart));
  const covariance = propagate(jacobian(shares, inputs, steps), propagate(toNumbers, diagonal(variance)));
  const values = shares(inputs);
  const estimate = (i: number): Estimate => ({
    value: values[i] ?? NaN,
    u: Math.sqrt(Math.max(0, covariance[i]?.[i] ?? NaN)),
  });
  return {
    from: best.from,
    to: best.to,
    along: estimate(0),
    left: estimate(1),
    fromFirst: estimate(2),
    fromSecond: estimate(3),
  };
}
