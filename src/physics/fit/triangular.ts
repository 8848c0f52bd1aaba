import { Matrix } from 'ml-matrix';

/** Triangular matrices, solved and inverted in place of the library's general ones. */

/** Solves R x = right for the upper triangular R in the first `size` rows and columns of `upper`. */
export function backSubstitute(upper: Matrix, size: number, right: Matrix): Matrix {
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
export function inverseOfLower(lower: Matrix): Matrix {
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
