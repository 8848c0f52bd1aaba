/** A column this short, squared, holds nothing but what underflow leaves; its pivot stays as small as it is. */
const NOTHING = 1e-280;

/**
 * Brings the first `pivots` columns of a matrix, row after row in one array, to upper triangular form in place by
 * Householder reflections; all further columns are reflected with them, as right sides of the least-squares problem are.
 * Golub and Van Loan, Matrix Computations, 4th ed., 5.1.2-5.1.4 and algorithm 5.2.1.
 */
export function triangularize(matrix: Float64Array, rows: number, columns: number, pivots: number): void {
  const reflected = new Float64Array(columns);
  for (let k = 0; k < Math.min(pivots, rows); k++) {
    let squares = 0;
    for (let i = k; i < rows; i++) squares += (matrix[i * columns + k] ?? 0) ** 2;
    if (!(squares > NOTHING)) {
      for (let i = k + 1; i < rows; i++) matrix[i * columns + k] = 0;
      continue;
    }
    const first = matrix[k * columns + k] ?? 0;
    // Away from the column's own sign: the difference must not cancel.
    const pivot = first > 0 ? -Math.sqrt(squares) : Math.sqrt(squares);
    const head = first - pivot;
    const factor = -1 / (pivot * head);
    matrix[k * columns + k] = head;
    reflected.fill(0, k + 1);
    for (let i = k; i < rows; i++) {
      const by = matrix[i * columns + k] ?? 0;
      if (by === 0) continue;
      for (let j = k + 1; j < columns; j++)
        reflected[j] = (reflected[j] ?? 0) + by * (matrix[i * columns + j] ?? 0);
    }
    for (let i = k; i < rows; i++) {
      const by = factor * (matrix[i * columns + k] ?? 0);
      matrix[i * columns + k] = 0;
      if (by === 0) continue;
      for (let j = k + 1; j < columns; j++) {
        const at = i * columns + j;
        matrix[at] = (matrix[at] ?? 0) - by * (reflected[j] ?? 0);
      }
    }
    matrix[k * columns + k] = pivot;
  }
}
