import { CholeskyDecomposition, Matrix, inverse } from 'ml-matrix';
import { chiSquaredProbability } from './chiSquared';
import { type Ellipse, errorEllipse } from './errorEllipse';
import { type Adjustment, type Unknown, adjust } from './leastSquares';
import {
  type Crossing,
  type PlaneLine,
  PARALLEL_LIMIT,
  crossingPoint,
  crossings,
  distanceToLine,
  leverAlongLine,
  lineNormal,
} from './lines';
import type { PlanePoint } from './places';
import { type Angle, type Length, type Result, angleIn, meters, refusal, success } from './quantities';
import { type Covariance, covarianceFault } from './uncertainty';

/** Weights settle when the point moves by less than this (m): a thousandth of what the finest ruler shows. */
const SETTLED = 1e-9;
const MOST_ROUNDS = 100;
/** No hook lies farther than this from its truck's datum (m); beyond it squares and products would overflow. */
const FARTHEST = 1e6;
const TOO_FAR = 'The lines lie too far off to compute with. Check the hooks’ places.';
/** Smallest squared Cholesky pivot of the residuals' correlation matrix that still leaves digits to divide by. */
const SMALLEST_PIVOT = 1e-10;

/** How one line fits the point. */
export interface LineResidual {
  /** Distance of the point from the line, signed along the line's normal (m). */
  readonly distance: Length;
  /** That distance over its own standard deviation after the fit; null where nothing checks the line. */
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
  /** Sensitivities, 2 rows (x, z) by two columns a line (per rad of its angle, per m of its offset). */
  readonly sensitivities: number[][];
}

export type MeetingRefusal =
  | 'too-few-lines'
  | 'not-finite'
  | 'covariance'
  | 'nearly-parallel'
  | 'line-without-uncertainty'
  | 'weights-do-not-settle';

/** Covariance of the distances at a point: a line turning by δa moves across by lever · δa, and by its offset. */
const distanceCovariance = (levers: readonly number[], covariance: Covariance): Matrix => {
  const entry = (i: number, j: number): number => covariance[i]?.[j] ?? NaN;
  const spread = Matrix.zeros(levers.length, levers.length);
  levers.forEach((li, i) =>
    levers.slice(0, i + 1).forEach((lj, j) => {
      const value =
        li * lj * entry(2 * i, 2 * j) +
        li * entry(2 * i, 2 * j + 1) +
        lj * entry(2 * i + 1, 2 * j) +
        entry(2 * i + 1, 2 * j + 1);
      // Symmetric to the last bit, as the library's Cholesky decomposition asks.
      spread.set(i, j, value).set(j, i, value);
    }),
  );
  return spread;
};

/** Inverse of a covariance, through its correlation matrix; null when it has none worth the name. */
const weightOf = (covariance: Matrix): Matrix | null => {
  const scale = covariance.diagonal().map((variance) => 1 / Math.sqrt(variance));
  if (!scale.every(Number.isFinite)) return null;
  const correlation = Matrix.zeros(covariance.rows, covariance.columns);
  scale.forEach((si, i) => scale.forEach((sj, j) => correlation.set(i, j, covariance.get(i, j) * (si * sj))));
  if (!correlation.to1DArray().every(Number.isFinite)) return null;
  const cholesky = new CholeskyDecomposition(correlation);
  const weak = cholesky.lowerTriangularMatrix.diagonal().some((pivot) => !(pivot ** 2 > SMALLEST_PIVOT));
  if (!cholesky.isPositiveDefinite() || weak) return null;
  return cholesky.solve(Matrix.eye(covariance.rows)).mulRowVector(scale).mulColumnVector(scale);
};

/** The point nearest to all lines, their distances weighed by `spread`. */
const leastSquarePoint = (
  lines: readonly PlaneLine[],
  normals: Matrix,
  spread: Matrix,
  from: PlanePoint,
): Result<Adjustment> => {
  const rows = normals.to2DArray();
  const unknown = (name: string, start: number): Unknown => ({
    name,
    start,
    scale: 0.1,
    negligible: SETTLED,
  });
  return adjust(
    [unknown('x', from.x), unknown('z', from.z)],
    [
      {
        name: 'distances from the lines',
        depends: [0, 1],
        predict: ([x = NaN, z = NaN]) => rows.map(([nx = NaN, nz = NaN]) => nx * x + nz * z),
        values: lines.map(({ through }, i) => {
          const [nx = NaN, nz = NaN] = rows[i] ?? [];
          return nx * through.x + nz * through.z;
        }),
        uncertainty: spread.to2DArray(),
        derivative: () => rows,
      },
    ],
  );
};

const widestPair = (lines: readonly PlaneLine[], { first, second }: Crossing): [PlaneLine, PlaneLine] => {
  const a = lines[first];
  const b = lines[second];
  if (a === undefined || b === undefined) throw new RangeError('A crossing must name two lines of its list.');
  return [a, b];
};

/**
 * Point of least weighted squared distance from two or more lines.
 *
 * `covariance` is the joint covariance of all line parameters, two rows a line (angle in rad, offset in m), so
 * lines that share marks, scale or wheelbase enter as correlated as they are. The condition n·(c − through) − offset
 * = 0 is adjusted with its own sensitivities: −lever to the angle, −1 to the offset, lever being the distance along
 * the line from `through` to the point (combined adjustment of conditions and unknowns: W. E. Deming,
 * Statistical Adjustment of Data, 1943; E. M. Mikhail, Observations and Least Squares, 1976). Because the lever depends on the point, weights
 * and point are repeated until the point rests.
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
  if (widest === undefined) {
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

  const meeting = crossingPoint(...widestPair(lines, widest));
  if (!meeting.ok) return meeting;
  let point = meeting.value;
  const levers = (): number[] => lines.map((line) => leverAlongLine(line, point));
  const normals = new Matrix(lines.map((line) => [...lineNormal(line)]));
  let spread = distanceCovariance(levers(), covariance);
  // Gain: how far the point moves for a shift of each line across itself. Two lines need no weights.
  let gain = lines.length === 2 ? inverse(normals) : Matrix.zeros(2, lines.length);
  let chiSquared = 0;
  if (lines.length > 2) {
    let settled = false;
    for (let round = 0; round < MOST_ROUNDS && !settled; round += 1) {
      const weight = weightOf(spread);
      if (weight === null) {
        return refusal(
          'line-without-uncertainty',
          'A line has no uncertainty of its own, so it cannot be weighed against the others. Give its hook and marks a ±.',
        );
      }
      const fit = leastSquarePoint(lines, normals, spread, point);
      if (!fit.ok) return refusal('weights-do-not-settle', fit.message);
      const [x = NaN, z = NaN] = fit.value.unknowns;
      settled = Math.hypot(x - point.x, z - point.z) < SETTLED;
      point = { x: meters(x), z: meters(z) };
      chiSquared = fit.value.chiSquared;
      gain = fit.value.covariance.mmul(normals.transpose()).mmul(weight);
      spread = distanceCovariance(levers(), covariance);
    }
    if (!settled) {
      return refusal(
        'weights-do-not-settle',
        'The lines disagree so much that no weighing of them settles. Check the marks of each picture.',
      );
    }
  }

  const pointCovariance = gain.mmul(spread).mmul(gain.transpose()).to2DArray();
  if (![point.x, point.z, ...pointCovariance.flat()].every(Number.isFinite)) {
    return refusal('not-finite', TOO_FAR);
  }
  const residual = lines.map((line) => distanceToLine(line, point));
  const degreesOfFreedom = lines.length - 2;
  const residualSpread = Matrix.sub(
    spread,
    normals.mmul(new Matrix(pointCovariance)).mmul(normals.transpose()),
  );
  const lever = levers();
  return success({
    x: point.x,
    z: point.z,
    covariance: pointCovariance,
    ellipse: errorEllipse(pointCovariance),
    chiSquared,
    degreesOfFreedom,
    probability: degreesOfFreedom === 0 ? null : chiSquaredProbability(chiSquared, degreesOfFreedom),
    residuals: residual.map((distance, i) => {
      const variance = residualSpread.get(i, i);
      const checked = degreesOfFreedom > 0 && variance > SMALLEST_PIVOT * spread.get(i, i);
      return { distance: meters(distance), normalized: checked ? distance / Math.sqrt(variance) : null };
    }),
    crossing: widest.angle,
    sensitivities: gain.to2DArray().map((row) => row.flatMap((g, i) => [g * (lever[i] ?? NaN), g])),
  });
};
