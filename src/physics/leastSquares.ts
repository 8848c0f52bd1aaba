import { CholeskyDecomposition, Matrix, QrDecomposition, SVD } from 'ml-matrix';
import { refusal, success, type Result } from './quantities';

/**
 * Weighted least squares: the one core that everything which fits goes through.
 *
 * Unknowns are adjusted to readings, every reading with its uncertainty and a model that predicts it. A prior is
 * a reading of an unknown. Readings that share an error are one observation with a full covariance matrix. The
 * normal law is assumed; a-priori uncertainties are not rescaled by the fit.
 */

/** A number to be found. */
export interface Unknown {
  readonly name: string;
  /** Where the search starts, SI. */
  readonly start: number;
  /** Typical size of a change, SI; scales the columns and, divided by 1e4, is the step of numerical derivatives. */
  readonly scale: number;
  /** Physical size, SI, below which a further step no longer matters to the reader. The stop rule. */
  readonly negligible: number;
  /**
   * Unknowns of one block meet those of another only through unknowns without a block. Naming blocks changes no
   * result; it lets the solver eliminate each block on its own.
   */
  readonly block?: number;
}

/** One reading, or several that share errors. */
export interface Observation {
  readonly name: string;
  /** Indices of the unknowns that the prediction depends on. */
  readonly depends: readonly number[];
  /** What would be read if `unknowns` were true; same length as `values`. */
  readonly predict: (unknowns: Float64Array) => readonly number[];
  readonly values: readonly number[];
  /** Standard uncertainty of each value (uncorrelated), or their covariance matrix. */
  readonly uncertainty: readonly number[] | readonly (readonly number[])[];
  /** d prediction / d unknown, rows as `values`, columns as `depends`; numerical where absent. */
  readonly derivative?: (unknowns: Float64Array) => readonly (readonly number[])[];
}

/** A prior: unknown `index` was read as `value` with standard uncertainty `u`. */
export const prior = (name: string, index: number, value: number, u: number): Observation => ({
  name,
  depends: [index],
  predict: (unknowns) => [unknowns[index] ?? 0],
  values: [value],
  uncertainty: [u],
  derivative: () => [[1]],
});

export interface Adjustment {
  /** Adjusted unknowns, in the order given. */
  readonly unknowns: Float64Array;
  /** Covariance of the adjusted unknowns, n × n. */
  readonly covariance: Matrix;
  /** Sum of squared whitened residuals, priors included. */
  readonly chiSquared: number;
  /** Number of values read (priors included) minus number of unknowns. */
  readonly degreesOfFreedom: number;
  /** Value minus prediction, per observation. */
  readonly residuals: readonly (readonly number[])[];
  /** Whitened residuals, per observation. */
  readonly normalized: readonly (readonly number[])[];
  readonly iterations: number;
  /**
   * Share of each observation in the variance of a linear function gᵀ·unknowns (JCGM 100:2008, 5.1.3): the
   * variances u²_i that add up to gᵀ·covariance·g. With `curvature` the parts by slopes alone are scaled to that sum.
   */
  readonly varianceShares: (gradient: readonly number[]) => number[];
  /** The fit without observation `index`, to first order; null where no other observation tells what it would read. */
  readonly leftOut: (index: number) => LeftOut | null;
  /** What an error of `direction` in the values of observation `index` would do, to first order. */
  readonly probe: (index: number, direction: readonly number[]) => Probe;
}

/** An error in the values of one observation, seen by the fit. */
export interface Probe {
  /** The error, whitened: in units of the observation's own standard uncertainties. */
  readonly whitened: readonly number[];
  /** How strongly it pulls each unknown, Jᵀ C⁻¹ e. */
  readonly pull: Float64Array;
  /** How far it moves each unknown. */
  readonly shift: Float64Array;
}

/** What an observation misses by when it has no say in the fit. */
export interface LeftOut {
  /** Value minus what all other observations predict. */
  readonly residuals: readonly number[];
  /** How much smaller chi-squared is without it: of chance alone, chi-squared with one degree of freedom a value. */
  readonly chiSquaredLess: number;
}

export type AdjustmentRefusal = 'undetermined' | 'not-converged';

interface Whitened {
  /** Rows of the whitened Jacobian in scaled unknowns, `depends.length` wide, one per value. */
  readonly rows: readonly (readonly number[])[];
  readonly residuals: readonly number[];
}

/** L⁻¹, lower triangular, where L Lᵀ is the observation's covariance: it makes errors independent with u = 1. */
export type Whitener = readonly (readonly number[])[];

/** @throws RangeError when an uncertainty is not positive or a covariance not positive definite. */
export function whitener({ uncertainty, values, name }: Observation): Whitener {
  if (typeof uncertainty[0] === 'number') {
    return uncertainty.map((u, i) => {
      if (typeof u !== 'number' || !(u > 0))
        throw new RangeError(`${name}: uncertainty must be above zero; got ${String(u)}`);
      const row = new Array<number>(i + 1).fill(0);
      row[i] = 1 / u;
      return row;
    });
  }
  const covariance = new Matrix(uncertainty.map((row) => (typeof row === 'number' ? [row] : [...row])));
  // The library asks for symmetry to the last bit, which rounding does not leave.
  covariance.add(covariance.transpose()).mul(0.5);
  const cholesky = new CholeskyDecomposition(covariance);
  if (!cholesky.isPositiveDefinite() || covariance.rows !== values.length) {
    throw new RangeError(
      `${name}: covariance must be positive definite, ${values.length} by ${values.length}`,
    );
  }
  return inverseOfLower(cholesky.lowerTriangularMatrix).to2DArray();
}

const dot = (row: readonly number[], values: readonly number[], count: number): number => {
  let sum = 0;
  for (let i = 0; i < count; i++) sum += (row[i] ?? 0) * (values[i] ?? 0);
  return sum;
};

const whiten = (by: Whitener, values: readonly number[]): number[] =>
  by.map((row, i) => dot(row, values, i + 1));

/** Whitened rows of a derivative, its columns multiplied by the scales of their unknowns. */
const whitenRows = (
  by: Whitener,
  derivative: readonly (readonly number[])[],
  depends: readonly number[],
  scales: Float64Array,
): number[][] =>
  by.map((row, i) =>
    depends.map((index, column) => {
      let sum = 0;
      for (let k = 0; k <= i; k++) sum += (row[k] ?? 0) * (derivative[k]?.[column] ?? 0);
      return sum * (scales[index] ?? 1);
    }),
  );

/** Central differences with a step of scale / 1e4: rounding and curvature both stay below 1e-7 of the derivative. */
function numericalDerivative(
  observation: Observation,
  unknowns: Float64Array,
  scales: Float64Array,
): number[][] {
  const rows = observation.values.map(() => new Array<number>(observation.depends.length).fill(0));
  observation.depends.forEach((index, column) => {
    const step = (scales[index] ?? 1) / 1e4;
    const at = unknowns[index] ?? 0;
    unknowns[index] = at + step;
    const above = observation.predict(unknowns);
    unknowns[index] = at - step;
    const below = observation.predict(unknowns);
    unknowns[index] = at;
    rows.forEach((row, i) => {
      row[column] = ((above[i] ?? 0) - (below[i] ?? 0)) / (2 * step);
    });
  });
  return rows;
}

/** An observation's derivative, its own or by differences of unknowns' `scales`; rows as values, columns as `depends`. */
export const derivativeOf = (
  observation: Observation,
  unknowns: Float64Array,
  scales: Float64Array,
): readonly (readonly number[])[] =>
  observation.derivative?.(unknowns) ?? numericalDerivative(observation, unknowns, scales);

function residualsOf(observation: Observation, unknowns: Float64Array): number[] {
  const predicted = observation.predict(unknowns);
  return observation.values.map((value, i) => value - (predicted[i] ?? 0));
}

/** The matrix with rows of zeros below where it is lower than wide: the library factors no others. */
function atLeastSquare(rows: number, columns: number): Matrix {
  return Matrix.zeros(Math.max(rows, columns), columns);
}

/** Solves R x = right for the upper triangular R in the first `size` rows and columns of `upper`. */
function backSubstitute(upper: Matrix, size: number, right: Matrix): Matrix {
  const out = Matrix.zeros(size, right.columns);
  for (let k = 0; k < right.columns; k++) {
    for (let i = size - 1; i >= 0; i--) {
      let sum = right.get(i, k);
      for (let j = i + 1; j < size; j++) sum -= upper.get(i, j) * out.get(j, k);
      out.set(i, k, sum / upper.get(i, i));
    }
  }
  return out;
}

/** Inverse of a lower triangular matrix, which is lower triangular as well. */
function inverseOfLower(lower: Matrix): Matrix {
  const size = lower.rows;
  const out = Matrix.zeros(size, size);
  for (let j = 0; j < size; j++) {
    out.set(j, j, 1 / lower.get(j, j));
    for (let i = j + 1; i < size; i++) {
      let sum = 0;
      for (let k = j; k < i; k++) sum += lower.get(i, k) * out.get(k, j);
      out.set(i, j, -sum / lower.get(i, i));
    }
  }
  return out;
}

/** A pivot this small beside its column's length (1) means that no reading determines the unknown. */
const DETERMINED = 1e-9;

/** A step this long, in standard uncertainties of the whole fit, changes no printed digit: ± is shown to two. */
const NEGLIGIBLE_STEP = 1e-3;

/** Which unknowns and observations belong to a block, and which of the common unknowns its observations meet. */
interface Block {
  readonly own: readonly number[];
  readonly met: readonly number[];
  readonly observations: readonly number[];
  /** Number of values read by its observations. */
  readonly height: number;
}
/** The problem's structure: the same at every step. */
interface Structure {
  readonly unknownCount: number;
  readonly common: readonly number[];
  readonly blocks: readonly Block[];
  /** Observations of common unknowns alone. */
  readonly observations: readonly number[];
  readonly height: number;
}

function structureOf(unknowns: readonly Unknown[], observations: readonly Observation[]): Structure {
  const blockOf = unknowns.map(({ block }) => block);
  const common: number[] = [];
  const own = new Map<number, number[]>();
  blockOf.forEach((block, i) => {
    if (block === undefined) common.push(i);
    else own.set(block, [...(own.get(block) ?? []), i]);
  });
  const read = new Map<number | undefined, number[]>();
  observations.forEach(({ depends }, k) => {
    const block = depends.map((i) => blockOf[i]).find((b) => b !== undefined);
    read.set(block, [...(read.get(block) ?? []), k]);
  });
  const heightOf = (chosen: readonly number[]) =>
    chosen.reduce((sum, k) => sum + (observations[k]?.values.length ?? 0), 0);
  const blocks = [...own].map(([block, indices]): Block => {
    const chosen = read.get(block) ?? [];
    const met = new Set(chosen.flatMap((k) => observations[k]?.depends ?? []));
    return {
      own: indices,
      met: common.filter((i) => met.has(i)),
      observations: chosen,
      height: heightOf(chosen),
    };
  });
  const alone = read.get(undefined) ?? [];
  return { unknownCount: unknowns.length, common, blocks, observations: alone, height: heightOf(alone) };
}

interface Linear {
  readonly step: Float64Array;
  /** Covariance in scaled unknowns. */
  readonly covariance: () => Matrix;
  /** Scaled unknowns without a pivot; empty when all are determined. */
  readonly loose: readonly number[];
}

/**
 * Solves the whitened linear problem min |J·step − residuals|² by QR, block by block: with [J_own J_met r] the rows
 * of a block and J_own = Q R, its own unknowns take up Qᵀ of the other columns; what is left of them constrains the
 * common unknowns.
 * Golub and Van Loan, Matrix Computations, 4th ed., 5.3 (QR); Björck, Numerical Methods for Least Squares
 * Problems (1996), 6.3 (block angular problems).
 */
function solveLinear(
  structure: Structure,
  observations: readonly Observation[],
  whitened: readonly Whitened[],
): Linear {
  const { unknownCount, common, blocks } = structure;
  const n = common.length;
  const columnOf = new Int32Array(unknownCount);
  const isOwn = new Uint8Array(unknownCount);
  for (const { own } of blocks) for (const index of own) isOwn[index] = 1;
  const place = (into: Matrix, row: number, index: number, value: number) => {
    const column = columnOf[index] ?? 0;
    into.set(row, column, into.get(row, column) + value);
  };

  const loose: number[] = [];
  const height = blocks.reduce((sum, block) => sum + block.height, structure.height);
  const commonRows = atLeastSquare(height, n + 1);
  let filled = 0;
  const eliminated = blocks.map(({ own, met, observations: chosen, height: rows }) => {
    const m = own.length;
    own.forEach((index, i) => (columnOf[index] = i));
    met.forEach((index, i) => (columnOf[index] = i));
    const ownRows = atLeastSquare(rows, m);
    const others = Matrix.zeros(ownRows.rows, met.length + 1);
    let at = 0;
    for (const k of chosen) {
      whitened[k]?.rows.forEach((row, i) => {
        observations[k]?.depends.forEach((index, column) =>
          place(isOwn[index] === 1 ? ownRows : others, at, index, row[column] ?? 0),
        );
        others.set(at, met.length, whitened[k]?.residuals[i] ?? 0);
        at += 1;
      });
    }
    const qr = new QrDecomposition(ownRows);
    const upper = qr.upperTriangularMatrix;
    own.forEach((index, i) => {
      if (!(Math.abs(upper.get(i, i)) > DETERMINED)) loose.push(index);
    });
    const q = qr.orthogonalMatrix;
    const taken = q.transpose().mmul(others);
    others.sub(q.mmul(taken));
    common.forEach((index, i) => (columnOf[index] = i));
    for (let i = 0; i < rows; i++, filled++) {
      met.forEach((index, j) => commonRows.set(filled, columnOf[index] ?? 0, others.get(i, j)));
      commonRows.set(filled, n, others.get(i, met.length));
    }
    return { own, met, upper, taken };
  });
  common.forEach((index, i) => (columnOf[index] = i));
  for (const k of structure.observations) {
    whitened[k]?.rows.forEach((row, i) => {
      observations[k]?.depends.forEach((index, column) => place(commonRows, filled, index, row[column] ?? 0));
      commonRows.set(filled, n, whitened[k]?.residuals[i] ?? 0);
      filled += 1;
    });
  }
  const factor = new QrDecomposition(commonRows).upperTriangularMatrix;
  common.forEach((index, i) => {
    if (!(Math.abs(factor.get(i, i)) > DETERMINED)) loose.push(index);
  });
  const step = new Float64Array(unknownCount);
  if (loose.length > 0) return { step, covariance: () => Matrix.zeros(0, 0), loose };

  if (n > 0) {
    const commonStep = backSubstitute(factor, n, factor.subMatrix(0, n - 1, n, n));
    common.forEach((index, i) => (step[index] = commonStep.get(i, 0)));
  }
  for (const { own, met, upper, taken } of eliminated) {
    const right = taken.subMatrix(0, own.length - 1, met.length, met.length);
    own.forEach((_, i) => {
      met.forEach((index, j) => right.set(i, 0, right.get(i, 0) - taken.get(i, j) * (step[index] ?? 0)));
    });
    const ownStep = backSubstitute(upper, own.length, right);
    own.forEach((index, i) => (step[index] = ownStep.get(i, 0)));
  }

  const covariance = () => {
    const out = Matrix.zeros(unknownCount, unknownCount);
    const inverse = backSubstitute(factor, n, Matrix.eye(n, n));
    const commonCovariance = inverse.mmul(inverse.transpose());
    common.forEach((p, i) => common.forEach((q, j) => out.set(p, q, commonCovariance.get(i, j))));
    const maps = eliminated.map(({ own, met, upper, taken }) => {
      const m = own.length;
      const ownInverse = backSubstitute(upper, m, Matrix.eye(m, m));
      const toMet = backSubstitute(upper, m, taken);
      const toCommon = Matrix.zeros(m, n);
      met.forEach((index, j) => {
        for (let i = 0; i < m; i++) toCommon.set(i, columnOf[index] ?? 0, -toMet.get(i, j));
      });
      return { own, toCommon, ownCovariance: ownInverse.mmul(ownInverse.transpose()) };
    });
    maps.forEach(({ own, toCommon, ownCovariance }, a) => {
      const cross = toCommon.mmul(commonCovariance);
      own.forEach((p, i) =>
        common.forEach((q, j) => {
          out.set(p, q, cross.get(i, j));
          out.set(q, p, cross.get(i, j));
        }),
      );
      maps.forEach((other, b) => {
        const between = cross.mmul(other.toCommon.transpose());
        own.forEach((p, i) =>
          other.own.forEach((q, j) =>
            out.set(p, q, between.get(i, j) + (a === b ? ownCovariance.get(i, j) : 0)),
          ),
        );
      });
    });
    return out;
  };
  return { step, covariance, loose };
}

/** Names of the unknowns that lie in the null space of the whitened Jacobian, largest share first. */
function looseNames(
  unknowns: readonly Unknown[],
  observations: readonly Observation[],
  whitened: readonly Whitened[],
): string[] {
  const rows = whitened.flatMap((part, k) =>
    part.rows.map((row) => {
      const dense = new Array<number>(unknowns.length).fill(0);
      observations[k]?.depends.forEach((index, column) => (dense[index] = row[column] ?? 0));
      return dense;
    }),
  );
  while (rows.length < unknowns.length) rows.push(new Array<number>(unknowns.length).fill(0));
  const svd = new SVD(new Matrix(rows));
  const share = new Array<number>(unknowns.length).fill(0);
  svd.diagonal.forEach((singular, k) => {
    if (singular > DETERMINED) return;
    for (let i = 0; i < unknowns.length; i++)
      share[i] = (share[i] ?? 0) + svd.rightSingularVectors.get(i, k) ** 2;
  });
  return unknowns
    .map(({ name }, i) => ({ name, share: share[i] ?? 0 }))
    .filter(({ share: size }) => size > 0.05)
    .toSorted((a, b) => b.share - a.share)
    .map(({ name }) => name);
}

/** A pivot this small a part of its diagonal is rounding of a matrix that is singular, or nearly. */
const POSITIVE = 1e-12;
/** Steps by the full curvature are tried when the last one was shorter than this, in standard uncertainties. */
const NEAR = 3;

/** Newton's steps square the error: after one this short, in standard uncertainties, 1e-3 is not left. */
const LAST_CURVED_STEP = 0.03;
/** Steps led by an earlier covariance end when this short, or when one is not this part of the one before. */
const LAST_LED_STEP = 0.01;
const LED_GAIN = 0.5;

/** Second derivatives are differences of first ones over this part of the scale: both errors stay below 1e-4. */
const CURVATURE_STEP = 1e-2;

/**
 * The step to the bottom of the misfit's valley by its full second derivative, JᵀJ − Σ r ∇²f (half that of
 * chi-squared), instead of its Gauss-Newton part JᵀJ, and the inverse of that matrix as covariance: the normal law
 * that fits the valley at its bottom (Laplace's approximation; Björck (1996), 9.1.2, for the matrix). Null where
 * the matrix is not positive definite, as far from the bottom.
 */
function solveCurved(
  observations: readonly Observation[],
  whiteners: readonly Whitener[],
  whitened: readonly Whitened[],
  at: Float64Array,
  scales: Float64Array,
): Linear | null {
  const size = at.length;
  const hessian = Matrix.zeros(size, size);
  const downhill = Matrix.zeros(size, 1);
  const place = Float64Array.from(at);
  observations.forEach((observation, k) => {
    const { depends, values } = observation;
    const { rows = [], residuals = [] } = whitened[k] ?? {};
    const by = whiteners[k] ?? [];
    // Residuals carried back through the whitening: what each value's second derivative is multiplied by.
    const weights = values.map((_, m) => residuals.reduce((sum, r, i) => sum + r * (by[i]?.[m] ?? 0), 0));
    depends.forEach((p, i) => {
      rows.forEach((row, m) => downhill.set(p, 0, downhill.get(p, 0) + (row[i] ?? 0) * (residuals[m] ?? 0)));
      const step = (scales[p] ?? 1) * CURVATURE_STEP;
      const middle = place[p] ?? 0;
      place[p] = middle + step;
      const above = derivativeOf(observation, place, scales);
      place[p] = middle - step;
      const below = derivativeOf(observation, place, scales);
      place[p] = middle;
      depends.forEach((q, j) => {
        let straight = 0;
        for (const row of rows) straight += (row[i] ?? 0) * (row[j] ?? 0);
        let bent = 0;
        for (let m = 0; m < weights.length; m++)
          bent += (weights[m] ?? 0) * ((above[m]?.[j] ?? 0) - (below[m]?.[j] ?? 0));
        const second = (bent * (scales[q] ?? 1)) / (2 * CURVATURE_STEP);
        hessian.set(p, q, hessian.get(p, q) + straight - second);
      });
    });
  });
  for (let i = 0; i < size; i++) {
    for (let j = 0; j < i; j++) {
      const mean = (hessian.get(i, j) + hessian.get(j, i)) / 2;
      hessian.set(i, j, mean);
      hessian.set(j, i, mean);
    }
  }
  const cholesky = new CholeskyDecomposition(hessian);
  const lower = cholesky.lowerTriangularMatrix;
  for (let i = 0; i < size; i++) if (!(lower.get(i, i) ** 2 > POSITIVE * hessian.get(i, i))) return null;
  return {
    step: Float64Array.from(cholesky.solve(downhill).to1DArray()),
    covariance: () => inverseOfLower(lower).gram(),
    loose: [],
  };
}

/** Inverse of JᵀJ in scaled unknowns, for a fit that is determined. */
function slopeCovariance(
  size: number,
  observations: readonly Observation[],
  whitened: readonly Whitened[],
): Matrix {
  const normal = Matrix.zeros(size, size);
  observations.forEach(({ depends }, k) => {
    for (const row of whitened[k]?.rows ?? [])
      depends.forEach((p, i) => {
        const a = row[i] ?? 0;
        if (a !== 0) depends.forEach((q, j) => normal.set(p, q, normal.get(p, q) + a * (row[j] ?? 0)));
      });
  });
  return inverseOfLower(new CholeskyDecomposition(normal).lowerTriangularMatrix).gram();
}

/** Where less than this part of an observation's variance is left in its residual, nothing else checks it. */
const ALONE = 1e-4;

/** The step that an earlier fit's covariance (scaled) takes down the slope of this one: C Jᵀ r. */
function ledStep(covariance: Matrix, observations: readonly Observation[], whitened: readonly Whitened[]) {
  const size = covariance.rows;
  const downhill = new Float64Array(size);
  observations.forEach(({ depends }, k) => {
    const { rows = [], residuals = [] } = whitened[k] ?? {};
    rows.forEach((row, i) =>
      depends.forEach(
        (index, column) =>
          (downhill[index] = (downhill[index] ?? 0) + (row[column] ?? 0) * (residuals[i] ?? 0)),
      ),
    );
  });
  const step = new Float64Array(size);
  for (let i = 0; i < size; i++) {
    let sum = 0;
    for (let j = 0; j < size; j++) sum += covariance.get(i, j) * (downhill[j] ?? 0);
    step[i] = sum;
  }
  return step;
}

export interface AdjustmentOptions {
  /**
   * Takes the covariance from the full curvature at the solution, and the last steps to it: for models whose
   * readings multiply unknowns.
   */
  readonly curvature?: boolean;
  readonly maxIterations?: number;
  /**
   * Start from here instead of the unknowns' own start, as from the adjustment before a small change of one reading.
   * With `curvature`, its covariance also leads the first steps.
   */
  readonly start?: { readonly unknowns: Float64Array; readonly covariance?: Matrix };
}

/**
 * Adjusts `unknowns` to `observations` by Gauss-Newton steps, each solved by QR and halved until chi-squared no
 * longer rises; with `curvature`, the last steps are Newton's. Stops when every unknown's step is below its negligible size, or when the whole step is below a
 * thousandth of the fit's own standard uncertainty.
 *
 * Refuses with 'undetermined' when some unknown has no reading that determines it (the message names them), and
 * with 'not-converged' after `maxIterations` (default 40), when no step lowers chi-squared, or where a prediction or
 * its derivative is no number.
 *
 * Source: Björck (1996), 9.2 (Gauss-Newton with step control); JCGM 102:2011, 7 (least-squares models);
 * covariance (Jᵀ C⁻¹ J)⁻¹; Cook and Weisberg, Residuals and Influence in Regression (1982), 2.2 (leaving one out).
 * @throws RangeError when an uncertainty is not positive or a covariance not positive definite (a caller's bug).
 */
export function adjust(
  unknowns: readonly Unknown[],
  observations: readonly Observation[],
  options: AdjustmentOptions = {},
): Result<Adjustment, AdjustmentRefusal> {
  const maxIterations = options.maxIterations ?? 40;
  const scales = Float64Array.from(unknowns, ({ scale }) => scale);
  const structure = structureOf(unknowns, observations);
  const whiteners = observations.map(whitener);
  let at = options.start
    ? Float64Array.from(options.start.unknowns)
    : Float64Array.from(unknowns, ({ start }) => start);

  const whitenedResiduals = (place: Float64Array) =>
    observations.map((observation, k) => whiten(whiteners[k] ?? [], residualsOf(observation, place)));
  const sumOfSquares = (parts: readonly (readonly number[])[]) =>
    parts.reduce((sum, part) => part.reduce((s, r) => s + r * r, sum), 0);
  const linearize = (place: Float64Array, residuals: readonly (readonly number[])[]): Whitened[] =>
    observations.map((observation, k) => ({
      rows: whitenRows(
        whiteners[k] ?? [],
        derivativeOf(observation, place, scales),
        observation.depends,
        scales,
      ),
      residuals: residuals[k] ?? [],
    }));

  let residuals = whitenedResiduals(at);
  let chiSquared = sumOfSquares(residuals);
  if (!Number.isFinite(chiSquared))
    return refusal('not-converged', 'The fit cannot predict every reading where it starts.');
  let near = options.start !== undefined;
  let leading: Matrix | null = null;
  const before = options.curvature ? options.start?.covariance : undefined;
  if (before?.rows === unknowns.length) {
    leading = before.clone();
    for (let i = 0; i < unknowns.length; i++)
      for (let j = 0; j < unknowns.length; j++)
        leading.set(i, j, before.get(i, j) / ((scales[i] ?? 1) * (scales[j] ?? 1)));
  }
  let lastSquared = Infinity;
  for (let iteration = 1; iteration <= maxIterations; iteration++) {
    const whitened = linearize(at, residuals);
    if (!whitened.every(({ rows }) => rows.every((row) => row.every(Number.isFinite))))
      return refusal('not-converged', 'The fit came to where it cannot predict every reading.');
    const led = leading && ledStep(leading, observations, whitened);
    const curved =
      options.curvature && near && !led ? solveCurved(observations, whiteners, whitened, at, scales) : null;
    const linear = led ? null : (curved ?? solveLinear(structure, observations, whitened));
    if (linear && linear.loose.length > 0) {
      const names = looseNames(unknowns, observations, whitened);
      return refusal('undetermined', `No reading determines ${names.slice(0, 4).join(', ')}.`);
    }
    const step = led ?? linear?.step ?? new Float64Array(unknowns.length);
    let factor = 1;
    let next = at;
    let nextResiduals = residuals;
    let nextChiSquared = Infinity;
    // 2^-20 of a Gauss-Newton step is below every negligible size in use: if that does not help, nothing will.
    for (let halving = 0; halving <= 20; halving++, factor /= 2) {
      next = at.map((value, i) => value + factor * (step[i] ?? 0) * (scales[i] ?? 1));
      nextResiduals = whitenedResiduals(next);
      nextChiSquared = sumOfSquares(nextResiduals);
      if (nextChiSquared <= chiSquared * (1 + 1e-12) + 1e-12) break;
    }
    // |J·step|² is the squared length of the step in units of the unknowns' joint standard uncertainty.
    const stepSquared = whitened.reduce(
      (sum, { rows }, k) =>
        rows.reduce((inner, row) => {
          let along = 0;
          observations[k]?.depends.forEach(
            (index, column) => (along += (row[column] ?? 0) * (step[index] ?? 0)),
          );
          return inner + along * along;
        }, sum),
      0,
    );
    const shortest = curved ? LAST_CURVED_STEP : NEGLIGIBLE_STEP;
    const settled =
      linear !== null &&
      (stepSquared < shortest ** 2 ||
        unknowns.every(({ scale, negligible }, i) => Math.abs(step[i] ?? 0) * scale < negligible));
    const lower = nextChiSquared <= chiSquared * (1 + 1e-12) + 1e-12;
    if (lower) {
      at = next;
      residuals = nextResiduals;
      chiSquared = nextChiSquared;
    } else if (linear && !settled) {
      return refusal('not-converged', 'The fit found no step that lowers its misfit.');
    }
    near = stepSquared < NEAR ** 2;
    if (!lower || stepSquared < LAST_LED_STEP ** 2 || stepSquared > LED_GAIN ** 2 * lastSquared)
      leading = null;
    lastSquared = stepSquared;
    if (!settled || !linear) continue;

    const bottom =
      curved ?? (options.curvature ? solveCurved(observations, whiteners, whitened, at, scales) : null);
    const scaled = (bottom ?? linear).covariance();
    const covariance = Matrix.zeros(unknowns.length, unknowns.length);
    for (let i = 0; i < unknowns.length; i++)
      for (let j = 0; j < unknowns.length; j++)
        covariance.set(i, j, scaled.get(i, j) * (scales[i] ?? 1) * (scales[j] ?? 1));
    const count = observations.reduce((sum, { values }) => sum + values.length, 0);
    const varianceShares = (gradient: readonly number[]) => {
      const weights = new Float64Array(unknowns.length);
      for (let i = 0; i < unknowns.length; i++)
        for (let j = 0; j < unknowns.length; j++)
          weights[i] = (weights[i] ?? 0) + scaled.get(i, j) * (gradient[j] ?? 0) * (scales[j] ?? 1);
      const shares = observations.map((observation, k) =>
        (whitened[k]?.rows ?? []).reduce((sum, row) => {
          let gain = 0;
          observation.depends.forEach(
            (index, column) => (gain += (row[column] ?? 0) * (weights[index] ?? 0)),
          );
          return sum + gain * gain;
        }, 0),
      );
      const whole = weights.reduce(
        (sum, weight, i) => sum + weight * (gradient[i] ?? 0) * (scales[i] ?? 1),
        0,
      );
      const added = shares.reduce((sum, share) => sum + share, 0);
      return added > 0 ? shares.map((share) => (share * whole) / added) : shares;
    };
    // Leaving one out is a law of the slopes alone; curvature would ask for more than the whole of a residual.
    let slopes: Matrix | null = bottom ? null : scaled;
    const leftOut = (index: number): LeftOut | null => {
      const spread = (slopes ??= slopeCovariance(unknowns.length, observations, whitened));
      const { rows = [] } = whitened[index] ?? {};
      const depends = observations[index]?.depends ?? [];
      const own = residuals[index] ?? [];
      // The part of each residual that is left of the observation's own error: I − J C Jᵀ, whitened.
      const left = Matrix.eye(rows.length, rows.length);
      rows.forEach((a, i) =>
        rows.forEach((b, j) => {
          let by = 0;
          depends.forEach((p, k) =>
            depends.forEach((q, l) => (by += (a[k] ?? 0) * spread.get(p, q) * (b[l] ?? 0))),
          );
          left.set(i, j, left.get(i, j) - by);
        }),
      );
      left.add(left.transpose()).mul(0.5);
      const cholesky = new CholeskyDecomposition(left);
      const lower = cholesky.lowerTriangularMatrix;
      if (own.some((_, i) => !(lower.get(i, i) ** 2 > ALONE))) return null;
      const freed = cholesky.solve(Matrix.columnVector([...own])).to1DArray();
      const raw: number[] = [];
      (whiteners[index] ?? []).forEach((row, i) =>
        raw.push(((freed[i] ?? 0) - dot(row, raw, i)) / (row[i] ?? 1)),
      );
      return { residuals: raw, chiSquaredLess: dot(own, freed, own.length) };
    };
    const probe = (index: number, direction: readonly number[]): Probe => {
      const spread = (slopes ??= slopeCovariance(unknowns.length, observations, whitened));
      const error = whiten(whiteners[index] ?? [], direction);
      const pulled = new Float64Array(unknowns.length);
      whitened[index]?.rows.forEach((row, i) =>
        observations[index]?.depends.forEach((unknown, column) => {
          pulled[unknown] = (pulled[unknown] ?? 0) + (row[column] ?? 0) * (error[i] ?? 0);
        }),
      );
      const shift = pulled.map((_, i) => {
        let sum = 0;
        for (let j = 0; j < pulled.length; j++) sum += spread.get(i, j) * (pulled[j] ?? 0);
        return sum * (scales[i] ?? 1);
      });
      return { whitened: error, pull: pulled.map((value, i) => value / (scales[i] ?? 1)), shift };
    };
    return success({
      unknowns: at,
      covariance,
      chiSquared,
      degreesOfFreedom: count - unknowns.length,
      residuals: observations.map((observation) => residualsOf(observation, at)),
      normalized: residuals,
      iterations: iteration,
      varianceShares,
      leftOut,
      probe,
    });
  }
  return refusal('not-converged', `The fit did not settle within ${maxIterations} steps.`);
}
