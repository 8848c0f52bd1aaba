import { adjustTruck } from './adjustTruck';
import { type Ellipse, errorEllipse } from '../fit/errorEllipse';
import {
  type PlaneLine,
  PARALLEL_LIMIT,
  crossingPoint,
  crossings,
  distanceToLine,
  leverAlongLine,
} from '../statics/lines';
import {
  type Angle,
  type Length,
  type Result,
  angleIn,
  kilograms,
  meters,
  radians,
  refusal,
  success,
} from '../quantities';
import type { PictureLinesReading, TruckBench } from './truckReadings';
import { type Covariance, covarianceFault } from '../fit/uncertainty';

/** No hook lies farther than this from its truck's datum (m); beyond it squares and products would overflow. */
const FARTHEST = 1e6;
const TOO_FAR = 'The lines lie too far off to compute with. Check the hooks’ places.';
/**
 * What an exact angle (rad) or offset (m) is taken to be uncertain by, since only numbers with an uncertainty can be
 * weighed: a millionth of a millimeter, far below anything printed.
 */
const EXACT_U = 1e-9;
/** Part of a variance that rounding may cost it: perfectly correlated parameters keep a covariance that can be inverted. */
const ROUNDING = 1e-10;
/** A line this sure of its place (m) has no more uncertainty than what exact ones are given. */
const SURE = 10 * EXACT_U;

/** How one line fits the point. */
export interface LineResidual {
  /** Distance of the point from the line, signed along the line's normal (m). */
  readonly distance: Length;
  /** How far it is off over the standard deviation of that, same sign; null where nothing checks the line. */
  readonly normalized: number | null;
}

/** The point where lines meet, with everything that is known of its error. */
export interface MeetingPoint {
  readonly x: Length;
  readonly z: Length;
  /** 2 × 2, order x, z (m²); not rescaled by the fit. */
  readonly covariance: number[][];
  /** Region of 95 % probability. */
  readonly ellipse: Ellipse;
  /** Weighted sum of squared distances; 0 for two lines. */
  readonly chiSquared: number;
  /** Number of lines − 2. */
  readonly degreesOfFreedom: number;
  /** Probability that errors as stated give a chi-squared this large or larger; null for two lines. */
  readonly probability: number | null;
  /** One a line, in the order given. */
  readonly residuals: readonly LineResidual[];
  /** Widest crossing of any two of the lines. */
  readonly crossing: Angle;
}

export type MeetingRefusal =
  | 'too-few-lines'
  | 'not-finite'
  | 'covariance'
  | 'nearly-parallel'
  | 'line-without-uncertainty'
  | 'weights-do-not-settle';

/**
 * Point of least weighted squared distance from two or more lines: the estimate of a bench that has read nothing but
 * these lines (see adjustTruck()).
 *
 * `covariance` is the joint covariance of all line parameters, two rows a line (angle in rad, offset in m), so
 * lines that share marks, scale or wheelbase enter as correlated as they are.
 *
 * Valid while the lines' angles are known to a small part of their crossing angle. Refused: fewer than two lines,
 * widest crossing below PARALLEL_LIMIT, a covariance that is none, and, with three or more lines, a line without
 * uncertainty of its own (two lines need no weights, so exact ones are taken).
 */
export const meetingPoint = (
  lines: readonly PlaneLine[],
  covariance: Covariance,
): Result<MeetingPoint, MeetingRefusal> => {
  const [widest] = crossings(lines);
  const a = widest && lines[widest.first];
  const b = widest && lines[widest.second];
  if (!widest || !a || !b) {
    return refusal('too-few-lines', 'One line gives no point. Hang the truck from a second hook.');
  }
  if (!lines.every((line) => [line.angle, line.through.x, line.through.z].every(Number.isFinite))) {
    return refusal('not-finite', 'A line has no place or direction yet. Complete its marks and its hook.');
  }
  if (lines.some(({ through }) => Math.hypot(through.x, through.z) > FARTHEST)) {
    return refusal('not-finite', TOO_FAR);
  }
  const fault = covarianceFault(covariance, 2 * lines.length);
  if (fault !== null) return refusal('covariance', fault);
  if (widest.angle < PARALLEL_LIMIT) {
    return refusal(
      'nearly-parallel',
      `The lines cross at ${angleIn(widest.angle, 'deg').toFixed(1)}°, too nearly parallel to show where they meet. ` +
        'Hang the truck from a hook farther from the first.',
    );
  }
  const crossed = crossingPoint(a, b);
  if (!crossed.ok) return crossed;
  const origin = crossed.value;

  // Counted from where the widest pair crosses, so that the search starts near and far datums cost no digits.
  const near = lines.map((line) => ({
    angle: line.angle,
    through: { x: meters(line.through.x - origin.x), z: meters(line.through.z - origin.z) },
  }));
  const adjusted = adjustTruck(benchOf(near, covariance));
  if (!adjusted.ok) {
    return refusal(
      'weights-do-not-settle',
      'The lines disagree so much that no weighing of them settles. Check the marks of each picture.',
    );
  }
  const { cg, stanceCovariance, chiSquared, degreesOfFreedom, probability, numbers } = adjusted.value;
  const place = { x: meters(cg.x?.value ?? NaN), z: meters(cg.z?.value ?? NaN) };
  const pointCovariance = [0, 2].map((i) => [0, 2].map((j) => stanceCovariance[i]?.[j] ?? NaN));
  if (![place.x, place.z, ...pointCovariance.flat()].every(Number.isFinite)) {
    return refusal('not-finite', TOO_FAR);
  }
  if (
    lines.length > 2 &&
    near.some((line, i) => !(acrossU(leverAlongLine(line, place), covariance, i) > SURE))
  ) {
    return refusal(
      'line-without-uncertainty',
      'A line has no uncertainty of its own, so it cannot be weighed against the others. Give its hook and marks a ±.',
    );
  }
  return success({
    x: meters(origin.x + place.x),
    z: meters(origin.z + place.z),
    covariance: pointCovariance,
    ellipse: errorEllipse(pointCovariance),
    chiSquared,
    degreesOfFreedom,
    probability,
    residuals: near.map((line, i) => {
      const off = numbers().find(({ id }) => id === idOf(i))?.normalized ?? null;
      // A line read too far along its normal leaves the point behind it.
      return { distance: distanceToLine(line, place), normalized: off === null ? null : -off };
    }),
    crossing: widest.angle,
  });
};

const idOf = (index: number): string => `line ${index + 1}`;

/** A bench of lines alone. What it has to have beside them is known of itself and tells nothing of the point. */
function benchOf(lines: readonly PlaneLine[], covariance: Covariance): TruckBench {
  const reading: PictureLinesReading = {
    kind: 'picture lines',
    id: 'lines',
    lines: lines.map((line, i) => ({ id: idOf(i), view: 'side', line })),
    shared: [],
    covariance: covariance.map((row, i) =>
      row.map((value, j) => (i === j ? value * (1 + ROUNDING) + EXACT_U ** 2 : value)),
    ),
  };
  return {
    dimensions: {},
    lateral: { value: meters(0), u: 1 },
    instruments: {
      scaleZero: { value: kilograms(0), u: 1 },
      rulerZero: { value: meters(0), u: 1 },
      levelZero: { value: radians(0), u: 1 },
    },
    hooks: [],
    readings: [reading],
  };
}

/** Standard uncertainty of a line's place across itself at `lever` (m) along it: it turns by its angle's error. */
function acrossU(lever: Length, covariance: Covariance, line: number): number {
  const entry = (i: number, j: number): number => covariance[2 * line + i]?.[2 * line + j] ?? NaN;
  return Math.sqrt(Math.max(0, lever ** 2 * entry(0, 0) + 2 * lever * entry(0, 1) + entry(1, 1)));
}
