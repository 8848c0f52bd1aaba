import { CholeskyDecomposition, Matrix } from 'ml-matrix';
import type { Observation } from './observation';
import { inverseOfLower } from './triangular';

/** Readings brought to independent errors of one size: residuals and slopes in units of their own uncertainty. */

export interface Whitened {
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

export const dot = (row: readonly number[], values: readonly number[], count: number): number => {
  let sum = 0;
  for (let i = 0; i < count; i++) sum += (row[i] ?? 0) * (values[i] ?? 0);
  return sum;
};

export const whiten = (by: Whitener, values: readonly number[]): number[] =>
  by.map((row, i) => dot(row, values, i + 1));

/** Whitened rows of a derivative, its columns multiplied by the scales of their unknowns. */
export const whitenRows = (
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
