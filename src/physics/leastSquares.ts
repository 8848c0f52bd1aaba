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
   * variances u²_i that add up to gᵀ·covariance·g.
   */
  readonly varianceShares: (gradient: readonly number[]) => number[];
}

export type AdjustmentRefusal = 'undetermined' | 'not-converged';

interface Whitened {
  /** Rows of the whitened Jacobian in scaled unknowns, one Float64Array of `depends.length` per value. */
  readonly rows: readonly Float64Array[];
  readonly residuals: readonly number[];
}

/** Multiplies by L⁻¹ where L Lᵀ is the observation's covariance. */
type Whitener = (values: readonly number[]) => number[];

function whitener(observation: Observation): Whitener {
  const { uncertainty, values, name } = observation;
  const first = uncertainty[0];
  if (typeof first === 'number') {
    const scales = uncertainty.map((u) => {
      if (typeof u !== 'number' || !(u > 0))
        throw new RangeError(`${name}: uncertainty must be above zero; got ${u}`);
      return 1 / u;
    });
    return (raw) => raw.map((value, i) => value * (scales[i] ?? 0));
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
  const lower = cholesky.lowerTriangularMatrix;
  return (raw) => {
    const out: number[] = [];
    for (let i = 0; i < raw.length; i++) {
      let sum = raw[i] ?? 0;
      for (let j = 0; j < i; j++) sum -= lower.get(i, j) * (out[j] ?? 0);
      out.push(sum / lower.get(i, i));
    }
    return out;
  };
}

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

function residualsOf(observation: Observation, unknowns: Float64Array): number[] {
  const predicted = observation.predict(unknowns);
  return observation.values.map((value, i) => value - (predicted[i] ?? 0));
}

/** Upper triangular factor of `rows` (each dense, `columns` wide), padded so that it is square. */
function triangularFactor(rows: readonly Float64Array[], columns: number): Matrix {
  const height = Math.max(rows.length, columns);
  const matrix = Matrix.zeros(height, columns);
  rows.forEach((row, i) => {
    for (let j = 0; j < columns; j++) matrix.set(i, j, row[j] ?? 0);
  });
  return new QrDecomposition(matrix).upperTriangularMatrix;
}

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

/** A pivot this small beside its column's length (1) means that no reading determines the unknown. */
const DETERMINED = 1e-9;

/** A step this long, in standard uncertainties of the whole fit, changes no printed digit: ± is shown to two. */
const NEGLIGIBLE_STEP = 1e-3;

interface Linear {
  readonly step: Float64Array;
  /** Covariance in scaled unknowns. */
  readonly covariance: () => Matrix;
  /** Scaled unknowns without a pivot; empty when all are determined. */
  readonly loose: readonly number[];
}

/**
 * Solves the whitened linear problem min |J·step − residuals|² by QR, block by block: the rows of a block are
 * triangularized with the block's own unknowns first, what is left over constrains the common unknowns.
 * Golub and Van Loan, Matrix Computations, 4th ed., 5.3 (QR); Björck, Numerical Methods for Least Squares
 * Problems (1996), 6.3 (block angular problems).
 */
function solveLinear(
  unknownCount: number,
  blockOf: readonly (number | undefined)[],
  observations: readonly Observation[],
  whitened: readonly Whitened[],
): Linear {
  const common: number[] = [];
  const blocks = new Map<number, number[]>();
  for (let i = 0; i < unknownCount; i++) {
    const block = blockOf[i];
    if (block === undefined) common.push(i);
    else blocks.set(block, [...(blocks.get(block) ?? []), i]);
  }
  const commonColumn = new Map(common.map((index, column) => [index, column]));
  const commonRows: Float64Array[] = [];
  const rowsOfBlock = new Map<number, Float64Array[]>([...blocks.keys()].map((key) => [key, []]));
  const columnOfBlock = new Map(
    [...blocks].map(([key, own]) => [key, new Map(own.map((index, column) => [index, column]))]),
  );
  observations.forEach((observation, k) => {
    const block = observation.depends.map((i) => blockOf[i]).find((b) => b !== undefined);
    const own = block === undefined ? undefined : columnOfBlock.get(block);
    const offset = own?.size ?? 0;
    const part = whitened[k];
    if (!part) return;
    part.rows.forEach((row, i) => {
      const dense = new Float64Array(offset + common.length + 1);
      observation.depends.forEach((index, column) => {
        const place = own?.get(index) ?? offset + (commonColumn.get(index) ?? 0);
        dense[place] = (dense[place] ?? 0) + (row[column] ?? 0);
      });
      dense[offset + common.length] = part.residuals[i] ?? 0;
      if (block === undefined) commonRows.push(dense);
      else rowsOfBlock.get(block)?.push(dense);
    });
  });

  const loose: number[] = [];
  const eliminated = [...blocks].map(([key, own]) => {
    const width = own.length + common.length + 1;
    const factor = triangularFactor(rowsOfBlock.get(key) ?? [], width);
    own.forEach((index, i) => {
      if (!(Math.abs(factor.get(i, i)) > DETERMINED)) loose.push(index);
    });
    for (let i = own.length; i < width; i++) {
      const row = new Float64Array(common.length + 1);
      for (let j = Math.max(i, own.length); j < width; j++) row[j - own.length] = factor.get(i, j);
      commonRows.push(row);
    }
    return { own, factor };
  });
  const n = common.length;
  const factor = triangularFactor(commonRows, n + 1);
  common.forEach((index, i) => {
    if (!(Math.abs(factor.get(i, i)) > DETERMINED)) loose.push(index);
  });
  const step = new Float64Array(unknownCount);
  if (loose.length > 0) return { step, covariance: () => Matrix.zeros(0, 0), loose };

  const commonStep = backSubstitute(factor, n, factor.subMatrix(0, Math.max(n - 1, 0), n, n));
  common.forEach((index, i) => (step[index] = commonStep.get(i, 0)));
  const coupling = eliminated.map(({ own, factor: r }) => {
    const m = own.length;
    const right = Matrix.zeros(m, n + 1);
    for (let i = 0; i < m; i++) for (let j = 0; j <= n; j++) right.set(i, j, r.get(i, m + j));
    const solved = backSubstitute(r, m, right);
    own.forEach((index, i) => {
      let value = solved.get(i, n);
      for (let j = 0; j < n; j++) value -= solved.get(i, j) * commonStep.get(j, 0);
      step[index] = value;
    });
    return { own, r, m, solved };
  });

  const covariance = () => {
    const out = Matrix.zeros(unknownCount, unknownCount);
    const inverse = backSubstitute(factor, n, Matrix.eye(n, n));
    const commonCovariance = inverse.mmul(inverse.transpose());
    common.forEach((p, i) => common.forEach((q, j) => out.set(p, q, commonCovariance.get(i, j))));
    const maps = coupling.map(({ own, r, m, solved }) => {
      const own_inverse = backSubstitute(r, m, Matrix.eye(m, m));
      const toCommon = n > 0 ? solved.subMatrix(0, m - 1, 0, n - 1).mul(-1) : Matrix.zeros(m, 0);
      return { own, toCommon, ownCovariance: own_inverse.mmul(own_inverse.transpose()) };
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

/**
 * Covariance in scaled unknowns from the full second derivative of chi-squared / 2, JᵀJ − Σ r ∇²f, instead of its
 * Gauss-Newton part JᵀJ: the normal law that fits the misfit's valley at its bottom (Laplace's approximation;
 * Björck (1996), 9.1.2, for the matrix). Null where that matrix is not positive definite.
 */
function curvedCovariance(
  unknownCount: number,
  observations: readonly Observation[],
  whiteners: readonly Whitener[],
  whitened: readonly Whitened[],
  at: Float64Array,
  scales: Float64Array,
): Matrix | null {
  const hessian = Matrix.zeros(unknownCount, unknownCount);
  const bump = (i: number, j: number, value: number) => hessian.set(i, j, hessian.get(i, j) + value);
  observations.forEach((observation, k) => {
    const part = whitened[k];
    const { depends } = observation;
    if (!part) return;
    for (const row of part.rows)
      depends.forEach((p, i) => depends.forEach((q, j) => bump(p, q, (row[i] ?? 0) * (row[j] ?? 0))));
    if (observation.derivative) return;
    const place = Float64Array.from(at);
    const values = () => whiteners[k]?.(observation.predict(place)) ?? [];
    const middle = values();
    // Second differences lose half the digits: a tenth of the scale keeps them, and the functions are smooth there.
    const steps = depends.map((index) => (scales[index] ?? 1) / 10);
    const moved = (i: number, a: number, j: number, b: number) => {
      const [p, q] = [depends[i] ?? 0, depends[j] ?? 0];
      place[p] = (at[p] ?? 0) + a * (steps[i] ?? 0);
      place[q] = (place[q] ?? 0) + (i === j ? 0 : b * (steps[j] ?? 0));
      const out = values();
      place[p] = at[p] ?? 0;
      place[q] = at[q] ?? 0;
      return out;
    };
    const single = depends.map((_, i) => [moved(i, 1, i, 0), moved(i, -1, i, 0)] as const);
    depends.forEach((p, i) => {
      for (let j = 0; j <= i; j++) {
        const q = depends[j] ?? 0;
        const both = i === j ? null : [moved(i, 1, j, 1), moved(i, -1, j, -1)];
        let sum = 0;
        part.residuals.forEach((residual, m) => {
          const up = single[i]?.[0]?.[m] ?? 0;
          const down = single[i]?.[1]?.[m] ?? 0;
          const base = middle[m] ?? 0;
          const second = both
            ? ((both[0]?.[m] ?? 0) +
                (both[1]?.[m] ?? 0) -
                up -
                down -
                (single[j]?.[0]?.[m] ?? 0) -
                (single[j]?.[1]?.[m] ?? 0) +
                2 * base) /
              2
            : up + down - 2 * base;
          sum += residual * second;
        });
        // Steps of scale/10 in unknowns scaled by scale: divide by 1/10 twice.
        bump(p, q, -sum * 100);
        if (i !== j) bump(q, p, -sum * 100);
      }
    });
  });
  hessian.add(hessian.transpose()).mul(0.5);
  const cholesky = new CholeskyDecomposition(hessian);
  return cholesky.isPositiveDefinite() ? cholesky.solve(Matrix.eye(unknownCount, unknownCount)) : null;
}

export interface AdjustmentOptions {
  /** Takes the covariance from the full curvature at the solution: for models whose readings multiply unknowns. */
  readonly curvature?: boolean;
  readonly maxIterations?: number;
  /** Start from here instead of the unknowns' own start, as after a small change of one reading. */
  readonly start?: Float64Array;
}

/**
 * Adjusts `unknowns` to `observations` by Gauss-Newton steps, each solved by QR and halved until chi-squared no
 * longer rises. Stops when every unknown's step is below its negligible size, or when the whole step is below a
 * thousandth of the fit's own standard uncertainty.
 *
 * Refuses with 'undetermined' when some unknown has no reading that determines it (the message names them), and
 * with 'not-converged' after `maxIterations` (default 40) or when no step lowers chi-squared.
 *
 * Source: Björck (1996), 9.2 (Gauss-Newton with step control); JCGM 102:2011, 7 (least-squares models);
 * covariance (Jᵀ C⁻¹ J)⁻¹.
 * @throws RangeError when an uncertainty is not positive or a covariance not positive definite (a caller's bug).
 */
export function adjust(
  unknowns: readonly Unknown[],
  observations: readonly Observation[],
  options: AdjustmentOptions = {},
): Result<Adjustment, AdjustmentRefusal> {
  const maxIterations = options.maxIterations ?? 40;
  const scales = Float64Array.from(unknowns, ({ scale }) => scale);
  const blockOf = unknowns.map(({ block }) => block);
  const whiteners = observations.map(whitener);
  let at = options.start
    ? Float64Array.from(options.start)
    : Float64Array.from(unknowns, ({ start }) => start);

  const whitenedResiduals = (place: Float64Array) =>
    observations.map((observation, k) => whiteners[k]?.(residualsOf(observation, place)) ?? []);
  const sumOfSquares = (parts: readonly (readonly number[])[]) =>
    parts.reduce((sum, part) => part.reduce((s, r) => s + r * r, sum), 0);
  const linearize = (place: Float64Array, residuals: readonly (readonly number[])[]): Whitened[] =>
    observations.map((observation, k) => {
      const derivative = observation.derivative?.(place) ?? numericalDerivative(observation, place, scales);
      const rows = observation.values.map(() => new Float64Array(observation.depends.length));
      observation.depends.forEach((index, column) => {
        const whitenedColumn = whiteners[k]?.(derivative.map((row) => row[column] ?? 0)) ?? [];
        rows.forEach((row, i) => (row[column] = (whitenedColumn[i] ?? 0) * (scales[index] ?? 1)));
      });
      return { rows, residuals: residuals[k] ?? [] };
    });

  let residuals = whitenedResiduals(at);
  let chiSquared = sumOfSquares(residuals);
  for (let iteration = 1; iteration <= maxIterations; iteration++) {
    const whitened = linearize(at, residuals);
    const linear = solveLinear(unknowns.length, blockOf, observations, whitened);
    if (linear.loose.length > 0) {
      const names = looseNames(unknowns, observations, whitened);
      return refusal('undetermined', `No reading determines ${names.slice(0, 4).join(', ')}.`);
    }
    let factor = 1;
    let next = at;
    let nextResiduals = residuals;
    let nextChiSquared = Infinity;
    // 2^-20 of a Gauss-Newton step is below every negligible size in use: if that does not help, nothing will.
    for (let halving = 0; halving <= 20; halving++, factor /= 2) {
      next = at.map((value, i) => value + factor * (linear.step[i] ?? 0) * (scales[i] ?? 1));
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
            (index, column) => (along += (row[column] ?? 0) * (linear.step[index] ?? 0)),
          );
          return inner + along * along;
        }, sum),
      0,
    );
    const settled =
      stepSquared < NEGLIGIBLE_STEP ** 2 ||
      unknowns.every(({ scale, negligible }, i) => Math.abs(linear.step[i] ?? 0) * scale < negligible);
    if (nextChiSquared <= chiSquared * (1 + 1e-12) + 1e-12) {
      at = next;
      residuals = nextResiduals;
      chiSquared = nextChiSquared;
    } else if (!settled) {
      return refusal('not-converged', 'The fit found no step that lowers its misfit.');
    }
    if (!settled) continue;

    const scaled =
      (options.curvature &&
        curvedCovariance(unknowns.length, observations, whiteners, whitened, at, scales)) ||
      linear.covariance();
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
      return observations.map((observation, k) =>
        (whitened[k]?.rows ?? []).reduce((sum, row) => {
          let gain = 0;
          observation.depends.forEach(
            (index, column) => (gain += (row[column] ?? 0) * (weights[index] ?? 0)),
          );
          return sum + gain * gain;
        }, 0),
      );
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
    });
  }
  return refusal('not-converged', `The fit did not settle within ${maxIterations} steps.`);
}
