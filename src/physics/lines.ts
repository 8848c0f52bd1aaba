import { CholeskyDecomposition, Matrix, inverse } from 'ml-matrix';
import { chiSquaredProbability } from './chiSquared';
import type { PlanePoint } from './places';
import {
  type Angle,
  type Length,
  PLANE_COVERAGE,
  type Result,
  angleIn,
  degrees,
  meters,
  radians,
  refusal,
  success,
} from './quantities';
import { type Covariance, covarianceFault } from './uncertainty';

/**
 * Lines in the side plane and the point where they meet.
 *
 * A line has two uncertain parameters, in this order wherever lines share a covariance: its direction angle (rad)
 * and its offset (m), the distance by which it passes its own reference point `through`, counted along the normal
 * n = (−sin angle, cos angle). The estimate of every offset is zero.
 */
export interface PlaneLine {
  /** Direction from the x axis, turning up toward z (rad); any turn of 180° is the same line. */
  readonly angle: Angle;
  /** A point on the line. */
  readonly through: PlanePoint;
}

/**
 * Lines crossing at less than this are refused as parallel. At 2° an error of 1 mm in one line moves the crossing
 * 1/sin 2° = 29 mm along the other, and the first-order error ellipse no longer tells the truth.
 */
export const PARALLEL_LIMIT: Angle = degrees(2);

/** Weights settle when the point moves by less than this (m): a thousandth of what the finest ruler shows. */
const SETTLED = 1e-9;
const MOST_ROUNDS = 100;
/** Smallest squared Cholesky pivot of the residuals' correlation matrix that still leaves digits to divide by. */
const SMALLEST_PIVOT = 1e-10;

const normal = (line: PlaneLine): readonly [number, number] => [-Math.sin(line.angle), Math.cos(line.angle)];

/** Distance of a point from a line (m), positive on the side of the line's normal (left of its direction). */
export const distanceToLine = (line: PlaneLine, point: PlanePoint): Length => {
  const [nx, nz] = normal(line);
  return meters(nx * (point.x - line.through.x) + nz * (point.z - line.through.z));
};

/** Place of a point along a line (m): distance from `through`, counted in the line's direction. */
export const leverAlongLine = (line: PlaneLine, point: PlanePoint): Length =>
  meters(
    Math.cos(line.angle) * (point.x - line.through.x) + Math.sin(line.angle) * (point.z - line.through.z),
  );

/**
 * The line x = constant, as axle scales give it: exact in angle, its offset being the error of x with the same
 * sign (it points straight down, so its normal points ahead).
 */
export const uprightLine = (x: Length): PlaneLine => ({
  angle: radians(-Math.PI / 2),
  through: { x, z: meters(0) },
});

/** Acute angle between two lines, 0 to 90° (rad). */
export const crossingAngle = (first: PlaneLine, second: PlaneLine): Angle => {
  const turn = first.angle - second.angle;
  return radians(Math.atan2(Math.abs(Math.sin(turn)), Math.abs(Math.cos(turn))));
};

/** Two lines of a list, by index, and the angle at which they cross. */
export interface Crossing {
  readonly first: number;
  readonly second: number;
  readonly angle: Angle;
}

/** Every pair of lines with its crossing angle; widest first. */
export const crossings = (lines: readonly PlaneLine[]): Crossing[] =>
  lines
    .flatMap((line, first) =>
      lines.slice(first + 1).map((other, k) => ({
        first,
        second: first + 1 + k,
        angle: crossingAngle(line, other),
      })),
    )
    .sort((a, b) => b.angle - a.angle);

/** An ellipse about a point of the plane. */
export interface Ellipse {
  readonly semiMajor: Length;
  readonly semiMinor: Length;
  /** Direction of the major axis from x, turning up toward z; above −90°, up to 90° (rad). */
  readonly angle: Angle;
}

/**
 * Region that holds a point of the plane with 95 % probability, from its 2 × 2 covariance (m²): semi-axes are
 * `coverage` times the roots of the eigenvalues. H3 of the law tests: two lines crossing at γ with equal u have
 * eigenvalues u²/(1 ∓ cos γ).
 */
export const errorEllipse = (covariance: Covariance, coverage: number = PLANE_COVERAGE): Ellipse => {
  const xx = covariance[0]?.[0] ?? NaN;
  const xz = covariance[0]?.[1] ?? NaN;
  const zz = covariance[1]?.[1] ?? NaN;
  const mean = (xx + zz) / 2;
  const apart = Math.hypot((xx - zz) / 2, xz);
  const major = mean + apart;
  // The product of the eigenvalues is the determinant; mean − apart would lose the digits of a thin ellipse.
  const minor = major > 0 ? Math.max((xx * zz - xz * xz) / major, 0) : 0;
  return {
    semiMajor: meters(coverage * Math.sqrt(major)),
    semiMinor: meters(coverage * Math.sqrt(minor)),
    angle: radians(Math.atan2(2 * xz, xx - zz) / 2),
  };
};

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

const degreesText = (angle: Angle): string => angleIn(angle, 'deg').toFixed(1);

/** Covariance of the distances at a point: a line turning by δa moves across by lever · δa, and by its offset. */
const distanceCovariance = (levers: readonly number[], covariance: Covariance): Matrix => {
  const count = levers.length;
  const entry = (i: number, j: number): number => covariance[i]?.[j] ?? NaN;
  return new Matrix(
    levers.map((li, i) =>
      Array.from({ length: count }, (_, j) => {
        const lj = levers[j] ?? NaN;
        return (
          li * lj * entry(2 * i, 2 * j) +
          li * entry(2 * i, 2 * j + 1) +
          lj * entry(2 * i + 1, 2 * j) +
          entry(2 * i + 1, 2 * j + 1)
        );
      }),
    ),
  );
};

/** Inverse of a covariance, through its correlation matrix; null when it has none worth the name. */
const weightOf = (covariance: Matrix): Matrix | null => {
  const scale = covariance.diagonal().map((variance) => 1 / Math.sqrt(variance));
  if (!scale.every(Number.isFinite)) return null;
  const correlation = covariance.clone().mulRowVector(scale).mulColumnVector(scale);
  const cholesky = new CholeskyDecomposition(correlation);
  const weak = cholesky.lowerTriangularMatrix.diagonal().some((pivot) => !(pivot ** 2 > SMALLEST_PIVOT));
  if (!cholesky.isPositiveDefinite() || weak) return null;
  return cholesky.solve(Matrix.eye(covariance.rows)).mulRowVector(scale).mulColumnVector(scale);
};

/**
 * Point of least weighted squared distance from two or more lines.
 *
 * `covariance` is the joint covariance of all line parameters, two rows a line (angle in rad, offset in m), so
 * lines that share marks, scale or wheelbase enter as correlated as they are. The condition n·(c − through) − offset
 * = 0 is adjusted with its own sensitivities: −lever to the angle, −1 to the offset, lever being the distance along
 * the line from `through` to the point (W. E. Deming, Statistical Adjustment of Data, 1943, ch. IV; E. M. Mikhail,
 * Observations and Least Squares, 1976, ch. 9, combined adjustment). Because the lever depends on the point, weights
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
  const fault = covarianceFault(covariance, 2 * lines.length);
  if (fault !== null) return refusal('covariance', fault);
  if (widest.angle < PARALLEL_LIMIT) {
    return refusal(
      'nearly-parallel',
      `The lines cross at ${degreesText(widest.angle)}°, too nearly parallel to show where they meet. ` +
        'Hang the truck from a hook farther from the first.',
    );
  }

  const normals = new Matrix(lines.map((line) => [...normal(line)]));
  const levers = (at: PlanePoint): number[] => lines.map((line) => leverAlongLine(line, at));
  const distances = (at: PlanePoint): number[] => lines.map((line) => distanceToLine(line, at));
  // Gain: how far the point moves for a shift of each line across itself.
  const gainOf = (weight: Matrix): Matrix => {
    const weighted = normals.transpose().mmul(weight);
    return inverse(weighted.mmul(normals)).mmul(weighted);
  };

  let gain = lines.length === 2 ? inverse(normals) : gainOf(Matrix.eye(lines.length));
  const move = (from: PlanePoint): PlanePoint => {
    const step = gain.mmul(Matrix.columnVector(distances(from)));
    return { x: meters(from.x - step.get(0, 0)), z: meters(from.z - step.get(1, 0)) };
  };
  const start = lines[0]?.through ?? { x: meters(0), z: meters(0) };
  let point = move(start);
  let spread = distanceCovariance(levers(point), covariance);
  let weight: Matrix | null = null;
  if (lines.length > 2) {
    let settled = false;
    for (let round = 0; round < MOST_ROUNDS && !settled; round += 1) {
      weight = weightOf(spread);
      if (weight === null) {
        return refusal(
          'line-without-uncertainty',
          'A line has no uncertainty of its own, so it cannot be weighed against the others. Give its hook and marks a ±.',
        );
      }
      gain = gainOf(weight);
      const next = move(point);
      settled = Math.hypot(next.x - point.x, next.z - point.z) < SETTLED;
      point = next;
      spread = distanceCovariance(levers(point), covariance);
    }
    if (!settled) {
      return refusal(
        'weights-do-not-settle',
        'The lines disagree so much that no weighing of them settles. Check the marks of each picture.',
      );
    }
  }

  const pointCovariance = gain.mmul(spread).mmul(gain.transpose()).to2DArray();
  const residual = distances(point);
  const chiSquared =
    weight === null
      ? 0
      : Matrix.rowVector(residual).mmul(weight).mmul(Matrix.columnVector(residual)).get(0, 0);
  const degreesOfFreedom = lines.length - 2;
  const residualSpread = Matrix.sub(
    spread,
    normals.mmul(new Matrix(pointCovariance)).mmul(normals.transpose()),
  );
  const lever = levers(point);
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

/** Where two lines cross; refused below PARALLEL_LIMIT. */
export const crossingPoint = (
  first: PlaneLine,
  second: PlaneLine,
): Result<PlanePoint, 'nearly-parallel' | 'not-finite'> => {
  const angle = crossingAngle(first, second);
  if (angle < PARALLEL_LIMIT) {
    return refusal(
      'nearly-parallel',
      `The lines cross at ${degreesText(angle)}°, too nearly parallel to cross.`,
    );
  }
  const along = -distanceToLine(second, first.through) / Math.sin(first.angle - second.angle);
  const x = meters(first.through.x + along * Math.cos(first.angle));
  const z = meters(first.through.z + along * Math.sin(first.angle));
  if (!Number.isFinite(x) || !Number.isFinite(z)) {
    return refusal('not-finite', 'A line has no place or direction yet. Complete its marks and its hook.');
  }
  return success({ x, z });
};

/** The triangle three lines make where they miss each other. */
export interface LineTriangle {
  /** Crossings of lines 1-2, 2-3 and 3-1, counting from 1. */
  readonly vertices: readonly [PlanePoint, PlanePoint, PlanePoint];
  readonly longestSide: Length;
}

/** Triangle of three lines; refused when two of them are nearly parallel. */
export const triangleOfLines = (
  lines: readonly [PlaneLine, PlaneLine, PlaneLine],
): Result<LineTriangle, 'nearly-parallel' | 'not-finite'> => {
  const [a, b, c] = lines;
  const ab = crossingPoint(a, b);
  if (!ab.ok) return ab;
  const bc = crossingPoint(b, c);
  if (!bc.ok) return bc;
  const ca = crossingPoint(c, a);
  if (!ca.ok) return ca;
  const side = (p: PlanePoint, q: PlanePoint): number => Math.hypot(p.x - q.x, p.z - q.z);
  return success({
    vertices: [ab.value, bc.value, ca.value],
    longestSide: meters(
      Math.max(side(ab.value, bc.value), side(bc.value, ca.value), side(ca.value, ab.value)),
    ),
  });
};
