/** Linear algebra of the simulated bench, written out so that nothing here leans on the solver under test. */

const entry = (rows: readonly (readonly number[])[], i: number, j: number): number => rows[i]?.[j] ?? 0;

/** Solution of a small square system, by elimination with row exchange. */
export const solved = (matrix: readonly (readonly number[])[], right: readonly number[]): number[] => {
  const rows = matrix.map((row, i) => [...row, right[i] ?? 0]);
  const count = rows.length;
  for (let column = 0; column < count; column += 1) {
    let best = column;
    for (let i = column + 1; i < count; i += 1)
      if (Math.abs(entry(rows, i, column)) > Math.abs(entry(rows, best, column))) best = i;
    const pivotRow = rows[best] ?? [];
    rows[best] = rows[column] ?? [];
    rows[column] = pivotRow;
    const pivot = pivotRow[column] ?? 0;
    for (let i = column + 1; i < count; i += 1) {
      const row = rows[i] ?? [];
      const factor = (row[column] ?? 0) / pivot;
      for (let j = column; j <= count; j += 1) row[j] = (row[j] ?? 0) - factor * (pivotRow[j] ?? 0);
    }
  }
  const solution = new Array<number>(count).fill(0);
  for (let i = count - 1; i >= 0; i -= 1) {
    let sum = entry(rows, i, count);
    for (let j = i + 1; j < count; j += 1) sum -= entry(rows, i, j) * (solution[j] ?? 0);
    solution[i] = sum / entry(rows, i, i);
  }
  return solution;
};

/** A pivot this far below its own diagonal entry is rounding: the matrix is singular. */
const SINGULAR = 1e-10;

/** Lower triangle whose product with its own transpose is the matrix; undefined where that is singular. */
export const cholesky = (matrix: readonly (readonly number[])[]): number[][] | undefined => {
  const lower: number[][] = [];
  for (let i = 0; i < matrix.length; i += 1) {
    const row: number[] = [];
    for (let j = 0; j <= i; j += 1) {
      const other = j === i ? row : (lower[j] ?? []);
      let sum = entry(matrix, i, j);
      for (let k = 0; k < j; k += 1) sum -= (row[k] ?? 0) * (other[k] ?? 0);
      if (j < i) row.push(sum / (other[j] ?? 0));
      else if (sum > SINGULAR * entry(matrix, i, i)) row.push(Math.sqrt(sum));
      else return undefined;
    }
    lower.push(row);
  }
  return lower;
};

/** Lower triangle times a vector. */
export const lowerTimes = (lower: readonly (readonly number[])[], vector: readonly number[]): number[] =>
  lower.map((row) => row.reduce((sum, value, j) => sum + value * (vector[j] ?? 0), 0));

/** The vector that the lower triangle makes of the result. */
export const forward = (lower: readonly (readonly number[])[], vector: readonly number[]): number[] => {
  const result: number[] = [];
  lower.forEach((row, i) => {
    let sum = vector[i] ?? 0;
    for (let k = 0; k < i; k += 1) sum -= (row[k] ?? 0) * (result[k] ?? 0);
    result.push(sum / (row[i] ?? 0));
  });
  return result;
};

/** Inverse of a symmetric matrix with positive diagonal; undefined where it is singular. */
export const inverse = (matrix: readonly (readonly number[])[]): number[][] | undefined => {
  // With ones on the diagonal, what is singular does not depend on the units of the unknowns.
  const scale = matrix.map((row, i) => 1 / Math.sqrt(row[i] ?? 0));
  if (!scale.every(Number.isFinite)) return undefined;
  const lower = cholesky(matrix.map((row, i) => row.map((v, j) => v * (scale[i] ?? 0) * (scale[j] ?? 0))));
  if (!lower) return undefined;
  const count = matrix.length;
  // Columns of the inverse triangle; the inverse is their product with their own transpose.
  const columns: Float64Array[] = [];
  for (let c = 0; c < count; c += 1) {
    const column = new Float64Array(count);
    for (let i = c; i < count; i += 1) {
      const row = lower[i] ?? [];
      let sum = i === c ? 1 : 0;
      for (let k = c; k < i; k += 1) sum -= (row[k] ?? 0) * (column[k] ?? 0);
      column[i] = sum / (row[i] ?? 0);
    }
    columns.push(column);
  }
  const result = Array.from({ length: count }, () => new Array<number>(count).fill(0));
  for (let i = 0; i < count; i += 1) {
    for (let j = 0; j <= i; j += 1) {
      let sum = 0;
      for (let k = i; k < count; k += 1) sum += (columns[i]?.[k] ?? 0) * (columns[j]?.[k] ?? 0);
      const value = sum * (scale[i] ?? 0) * (scale[j] ?? 0);
      const [rowI, rowJ] = [result[i], result[j]];
      if (rowI) rowI[j] = value;
      if (rowJ) rowJ[i] = value;
    }
  }
  return result;
};
