/**
 * Weighted linear least squares of a few unknowns, gathered one observation at a time. The finders solve thousands of
 * them, so nothing is allocated while gathering.
 */
export class NormalEquations {
  readonly unknowns: number;
  private readonly matrix: Float64Array;
  private readonly right: Float64Array;
  private readonly lower: Float64Array;
  private readonly inverse: Float64Array;
  private squares = 0;
  /** Observations gathered since the last clear. */
  count = 0;

  constructor(unknowns: number) {
    this.unknowns = unknowns;
    this.matrix = new Float64Array(unknowns * unknowns);
    this.right = new Float64Array(unknowns);
    this.lower = new Float64Array(unknowns * unknowns);
    this.inverse = new Float64Array(unknowns * unknowns);
  }

  clear(): void {
    this.matrix.fill(0);
    this.right.fill(0);
    this.squares = 0;
    this.count = 0;
  }

  /** One observation: `row` · unknowns = `value`, with its weight (one over its variance). */
  add(row: ArrayLike<number>, value: number, weight = 1): void {
    const n = this.unknowns;
    for (let i = 0; i < n; i++) {
      const scaled = weight * (row[i] ?? 0);
      if (scaled === 0) continue;
      this.right[i] = (this.right[i] ?? 0) + scaled * value;
      for (let j = 0; j <= i; j++)
        this.matrix[i * n + j] = (this.matrix[i * n + j] ?? 0) + scaled * (row[j] ?? 0);
    }
    this.squares += weight * value * value;
    this.count++;
  }

  /**
   * Unknowns, their covariance for weights of one over the variance (row by row), and the weighted sum of squared
   * residuals; null where the observations do not determine them. Cholesky's method: Golub and Van Loan,
   * Matrix Computations, 4th ed., 4.2.
   */
  solve(): Solution | null {
    const n = this.unknowns;
    const lower = this.lower;
    for (let i = 0; i < n; i++)
      for (let j = 0; j <= i; j++) {
        let sum = this.matrix[i * n + j] ?? 0;
        for (let k = 0; k < j; k++) sum -= (lower[i * n + k] ?? 0) * (lower[j * n + k] ?? 0);
        if (i !== j) lower[i * n + j] = sum / (lower[j * n + j] ?? 1);
        else if (sum > 1e-10 * (this.matrix[i * n + i] ?? 0)) lower[i * n + i] = Math.sqrt(sum);
        else return null;
      }
    // The inverse of the triangle, then of the whole.
    const inverse = this.inverse;
    for (let i = 0; i < n; i++) {
      inverse[i * n + i] = 1 / (lower[i * n + i] ?? 1);
      for (let j = 0; j < i; j++) {
        let sum = 0;
        for (let k = j; k < i; k++) sum -= (lower[i * n + k] ?? 0) * (inverse[k * n + j] ?? 0);
        inverse[i * n + j] = sum / (lower[i * n + i] ?? 1);
      }
    }
    const covariance: number[] = [];
    const values: number[] = [];
    let explained = 0;
    for (let i = 0; i < n; i++) {
      let value = 0;
      for (let j = 0; j < n; j++) {
        let sum = 0;
        for (let k = i > j ? i : j; k < n; k++) sum += (inverse[k * n + i] ?? 0) * (inverse[k * n + j] ?? 0);
        covariance.push(sum);
        value += sum * (this.right[j] ?? 0);
      }
      values.push(value);
      explained += value * (this.right[i] ?? 0);
    }
    return { values, covariance, residual: Math.max(0, this.squares - explained) };
  }
}

export interface Solution {
  readonly values: readonly number[];
  readonly covariance: readonly number[];
  readonly residual: number;
}

/** Variance of a linear combination of the unknowns. */
export function varianceOf({ covariance, values }: Solution, row: readonly number[]): number {
  let sum = 0;
  row.forEach((a, i) => row.forEach((b, j) => (sum += a * b * (covariance[i * values.length + j] ?? 0))));
  return sum;
}
