import { CholeskyDecomposition, Matrix } from 'ml-matrix';
import type { Linear } from './linearSolve';
import { derivativeOf, type Observation } from './observation';
import { inverseOfLower } from './triangular';
import type { Whitened, Whitener } from './whitening';

/** A pivot this small a part of its diagonal is rounding of a matrix that is singular, or nearly. */
const POSITIVE = 1e-12;

/** Second derivatives are differences of first ones over this part of the scale: both errors stay below 1e-4. */
const CURVATURE_STEP = 1e-2;

/**
 * The step to the bottom of the misfit's valley by its full second derivative, JᵀJ − Σ r ∇²f (half that of
 * chi-squared), instead of its Gauss-Newton part JᵀJ, and the inverse of that matrix as covariance: the normal law
 * that fits the valley at its bottom (Laplace's approximation; Björck (1996), 9.1.2, for the matrix). Null where
 * the matrix is not positive definite, as far from the bottom.
 */
export function solveCurved(
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
