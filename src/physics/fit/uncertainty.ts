import { EigenvalueDecomposition, Matrix } from 'ml-matrix';
import { normalDensity, normalProbability } from './chiSquared';
import type { Estimate } from '../quantities';

/**
 * Uncertainty of what is computed from uncertain inputs: first order as in JCGM 100:2008, 5.1.2 and 5.2.2, in
 * its matrix form (JCGM 102:2011, 6.2.1.3), and Monte Carlo as in JCGM 101:2008, clause 7.
 *
 * A covariance is a square array of rows in the inputs' own SI units; its diagonal holds u². Functions take and
 * give plain number arrays, in an order their callers name.
 */
export type Covariance = readonly (readonly number[])[];

/** A function of several inputs: arrays in, arrays out, both of constant length. */
export type VectorFunction = (inputs: readonly number[]) => readonly number[];

/**
 * Central differences are taken this many u either side: near enough for the slope at the estimate, far enough
 * that rounding stays below 1e-9 of it for u down to 1e-5 of the value.
 */
const DIFFERENCE_STEP = 0.01;
/** Smallest relative difference step, for a u much smaller than its value. */
const SMALLEST_STEP = 1e-7;

const rows = (matrix: Covariance): Matrix => new Matrix(matrix.map((row) => [...row]));

/**
 * What is wrong with a covariance of `size` inputs, or null when it can be used: it must be square, finite and
 * symmetric, and no correlation may exceed 1.
 */
export const covarianceFault = (covariance: Covariance, size: number): string | null => {
  if (covariance.length !== size || covariance.some((row) => row.length !== size)) {
    return `The covariance must have ${size} rows and columns.`;
  }
  const at = (i: number, j: number): number => covariance[i]?.[j] ?? NaN;
  for (let i = 0; i < size; i += 1) {
    if (!Number.isFinite(at(i, i)) || at(i, i) < 0) return 'A variance must be a number of zero or more.';
    for (let j = 0; j < i; j += 1) {
      const bound = Math.sqrt(at(i, i) * at(j, j));
      if (!(Math.abs(at(i, j) - at(j, i)) <= 1e-9 * bound)) return 'The covariance must be symmetric.';
      if (!(Math.abs(at(i, j)) <= (1 + 1e-9) * bound)) return 'No correlation can exceed 1.';
    }
  }
  return null;
};

/** Covariance of inputs that share nothing: u² on the diagonal, from standard uncertainties. */
export const independent = (uncertainties: readonly number[]): number[][] =>
  uncertainties.map((u, i) => uncertainties.map((_, j) => (i === j ? u * u : 0)));

/** Covariance of groups of inputs that share nothing between groups: the blocks down the diagonal. */
export const joinCovariances = (blocks: readonly Covariance[]): number[][] => {
  const size = blocks.reduce((sum, block) => sum + block.length, 0);
  const joined = Array.from({ length: size }, () => new Array<number>(size).fill(0));
  let first = 0;
  for (const block of blocks) {
    block.forEach((row, i) => joined[first + i]?.splice(first, row.length, ...row));
    first += block.length;
  }
  return joined;
};

/**
 * Covariance of linear results: J C Jᵀ, JCGM 100:2008 eq. (13) in matrix form (JCGM 102:2011 eq. (3)).
 * `jacobian` has one row a result and one column an input.
 */
export const propagate = (jacobian: Covariance, covariance: Covariance): number[][] => {
  const j = rows(jacobian);
  return j.mmul(rows(covariance)).mmul(j.transpose()).to2DArray();
};

/**
 * Sensitivities of `of` at `inputs` by central differences, one row a result and one column an input; steps in
 * units of each input's u (JCGM 100:2008, 5.1.3 note 2). An input with u = 0 is exact: its column is zero.
 * Results must be finite and smooth within a hundredth of u.
 */
export const jacobian = (of: VectorFunction, inputs: readonly number[], u: readonly number[]): number[][] => {
  const columns = inputs.map((input, i) => {
    const own = u[i] ?? 0;
    if (own === 0) return null;
    const step = Math.max(DIFFERENCE_STEP * own, SMALLEST_STEP * Math.abs(input));
    const above = of(inputs.with(i, input + step));
    const below = of(inputs.with(i, input - step));
    // The step as the computer holds it, so that input + step and input − step are exactly this far apart.
    const apart = input + step - (input - step);
    return above.map((value, row) => (value - (below[row] ?? NaN)) / apart);
  });
  return of(inputs).map((_, row) => columns.map((column) => (column === null ? 0 : (column[row] ?? NaN))));
};

/** Results with their joint covariance, and the sensitivities they came from. */
export interface Propagated {
  readonly values: readonly number[];
  readonly covariance: number[][];
  readonly jacobian: number[][];
}

/**
 * Results of `of` at `inputs` with first-order covariance C_y = J C_x Jᵀ (JCGM 100:2008, 5.2.2, eq. (13)).
 * `covariance` is that of the inputs, in their order.
 */
export const firstOrder = (
  of: VectorFunction,
  inputs: readonly number[],
  covariance: Covariance,
): Propagated => {
  const u = covariance.map((row, i) => Math.sqrt(row[i] ?? NaN));
  const sensitivities = jacobian(of, inputs, u);
  return {
    values: of(inputs),
    covariance: propagate(sensitivities, covariance),
    jacobian: sensitivities,
  };
};

/** Standard normal numbers from a uniform source on [0, 1), by pairs: Box and Muller, Ann. Math. Stat. 29 (1958) 610. */
export const normalNumbers = (uniform: () => number): (() => number) => {
  let spare: number | null = null;
  return () => {
    if (spare !== null) {
      const held = spare;
      spare = null;
      return held;
    }
    const radius = Math.sqrt(-2 * Math.log(1 - uniform()));
    const turn = 2 * Math.PI * uniform();
    spare = radius * Math.sin(turn);
    return radius * Math.cos(turn);
  };
};

/**
 * Draws of jointly normal inputs, JCGM 101:2008, 6.4.8, by the square root of the covariance from its eigenvalues,
 * so that fully correlated and exact inputs are allowed. `uniform` gives numbers on [0, 1).
 */
export const normalDraws = (
  means: readonly number[],
  covariance: Covariance,
  uniform: () => number,
): (() => number[]) => {
  // Scaled to unit diagonal first: inputs of unlike units (rad, m, kg) would otherwise cost digits.
  const u = covariance.map((row, i) => Math.sqrt(row[i] ?? NaN));
  const scaled = covariance.map((row, i) =>
    row.map((value, j) => (value === 0 ? 0 : value / ((u[i] ?? NaN) * (u[j] ?? NaN)))),
  );
  const decomposition = new EigenvalueDecomposition(rows(scaled), { assumeSymmetric: true });
  const root = decomposition.eigenvectorMatrix
    .clone()
    .mulRowVector(decomposition.realEigenvalues.map((value) => Math.sqrt(Math.max(value, 0))));
  const normal = normalNumbers(uniform);
  return () => {
    const standard = Matrix.columnVector(means.map(() => normal()));
    const drawn = root.mmul(standard).to1DArray();
    return means.map((mean, i) => mean + (u[i] ?? NaN) * (drawn[i] ?? NaN));
  };
};

/** Mean and covariance of results over many draws. */
export interface MonteCarlo {
  readonly draws: readonly (readonly number[])[];
  readonly means: number[];
  readonly covariance: number[][];
}

/**
 * Monte Carlo propagation, JCGM 101:2008, clause 7: `count` (≥ 2) draws of the jointly normal inputs through `of`;
 * mean and covariance as in its eqs. (16) and (17). `uniform` is the caller's seeded source on [0, 1).
 */
export const monteCarlo = (
  of: VectorFunction,
  inputs: readonly number[],
  covariance: Covariance,
  count: number,
  uniform: () => number,
): MonteCarlo => {
  const draw = normalDraws(inputs, covariance, uniform);
  const draws = Array.from({ length: count }, () => of(draw()));
  const size = draws[0]?.length ?? 0;
  const means = Array.from(
    { length: size },
    (_, i) => draws.reduce((sum, y) => sum + (y[i] ?? NaN), 0) / count,
  );
  const covariances = means.map((meanI, i) =>
    means.map(
      (meanJ, j) =>
        draws.reduce((sum, y) => sum + ((y[i] ?? NaN) - meanI) * ((y[j] ?? NaN) - meanJ), 0) / (count - 1),
    ),
  );
  return { draws, means, covariance: covariances };
};

/**
 * The smaller of two jointly normal estimates, with the mean and standard deviation of that minimum.
 * C. E. Clark, "The greatest of a finite set of random variables", Operations Research 9 (1961) 145: first
 * and second moment for two variables, with signs turned for the minimum. `covariance` is the covariance of a and b. Where the difference is exact the
 * smaller one is returned as it is.
 */
export const minimumOfTwo = (a: Estimate, b: Estimate, covariance: number): Estimate => {
  const variance = a.u ** 2 + b.u ** 2 - 2 * covariance;
  // Below this the difference is exact but for rounding.
  if (!(variance > 1e-18 * (a.u ** 2 + b.u ** 2))) return a.value <= b.value ? a : b;
  const spread = Math.sqrt(variance);
  const alpha = (b.value - a.value) / spread;
  const shareA = normalProbability(alpha);
  const shareB = normalProbability(-alpha);
  const density = normalDensity(alpha);
  // Moments about the smaller value: the values themselves are large against their spread.
  const base = Math.min(a.value, b.value);
  const da = a.value - base;
  const db = b.value - base;
  const mean = da * shareA + db * shareB - spread * density;
  const second = (da ** 2 + a.u ** 2) * shareA + (db ** 2 + b.u ** 2) * shareB - (da + db) * spread * density;
  return { value: base + mean, u: Math.sqrt(Math.max(second - mean ** 2, 0)) };
};
