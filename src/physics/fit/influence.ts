import { CholeskyDecomposition, Matrix } from 'ml-matrix';
import type { Observation } from './observation';
import { inverseOfLower } from './triangular';
import { dot, whiten, type Whitened, type Whitener } from './whitening';

/** What each observation did to a fit, and what it would do otherwise: shares, leaving out, probing with errors. */

export interface Influence {
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

/** A fit at its end, in scaled unknowns. */
interface Settled {
  readonly scales: Float64Array;
  readonly observations: readonly Observation[];
  readonly whiteners: readonly Whitener[];
  readonly whitened: readonly Whitened[];
  /** Whitened. */
  readonly residuals: readonly (readonly number[])[];
  readonly covariance: Matrix;
  /** Whether that covariance comes from the full curvature instead of the slopes alone. */
  readonly curved: boolean;
}

/**
 * Influences on a settled fit. Sources: JCGM 100:2008, 5.1.3 (shares); Cook and Weisberg, Residuals and Influence in
 * Regression (1982), 2.2 (leaving one out).
 */
export function influenceOf({
  scales,
  observations,
  whiteners,
  whitened,
  residuals,
  covariance,
  curved,
}: Settled): Influence {
  const varianceShares = (gradient: readonly number[]) => {
    const weights = new Float64Array(scales.length);
    for (let i = 0; i < scales.length; i++)
      for (let j = 0; j < scales.length; j++)
        weights[i] = (weights[i] ?? 0) + covariance.get(i, j) * (gradient[j] ?? 0) * (scales[j] ?? 1);
    const shares = observations.map((observation, k) =>
      (whitened[k]?.rows ?? []).reduce((sum, row) => {
        let gain = 0;
        observation.depends.forEach((index, column) => (gain += (row[column] ?? 0) * (weights[index] ?? 0)));
        return sum + gain * gain;
      }, 0),
    );
    const whole = weights.reduce((sum, weight, i) => sum + weight * (gradient[i] ?? 0) * (scales[i] ?? 1), 0);
    const added = shares.reduce((sum, share) => sum + share, 0);
    return added > 0 ? shares.map((share) => (share * whole) / added) : shares;
  };
  // Leaving one out is a law of the slopes alone; curvature would ask for more than the whole of a residual.
  let slopes: Matrix | null = curved ? null : covariance;
  const leftOut = (index: number): LeftOut | null => {
    const spread = (slopes ??= slopeCovariance(scales.length, observations, whitened));
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
    const spread = (slopes ??= slopeCovariance(scales.length, observations, whitened));
    const error = whiten(whiteners[index] ?? [], direction);
    const pulled = new Float64Array(scales.length);
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
  return { varianceShares, leftOut, probe };
}
