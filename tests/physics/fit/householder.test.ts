import fc from 'fast-check';
import { Matrix, QrDecomposition } from 'ml-matrix';
import { describe, expect, it } from 'vitest';
import { triangularize } from '../../../src/physics/fit/householder';
import { between } from '../given';
import { tolerance } from '../../tolerances';

const sizes = fc
  .record({ pivots: fc.integer({ min: 1, max: 6 }), below: fc.nat(6), right: fc.nat(4) })
  .chain(({ pivots, below, right }) => {
    const [rows, columns] = [pivots + below, pivots + right];
    return fc.record({
      rows: fc.constant(rows),
      columns: fc.constant(columns),
      pivots: fc.constant(pivots),
      entries: fc.array(between(-10, 10), { minLength: rows * columns, maxLength: rows * columns }),
    });
  });
const asMatrix = (entries: ArrayLike<number>, rows: number, columns: number) =>
  Matrix.from1DArray(rows, columns, Array.from(entries));
const reduced = ({
  rows,
  columns,
  pivots,
  entries,
}: {
  rows: number;
  columns: number;
  pivots: number;
  entries: number[];
}) => {
  const matrix = Float64Array.from(entries);
  triangularize(matrix, rows, columns, pivots);
  return asMatrix(matrix, rows, columns);
};

describe('a matrix brought to upper triangular form', () => {
  it('has zeros below its pivots, and the same products of columns', () => {
    fc.assert(
      fc.property(sizes, (given) => {
        const out = reduced(given);
        for (let i = 0; i < given.rows; i++)
          for (let j = 0; j < Math.min(i, given.pivots); j++) expect(Math.abs(out.get(i, j))).toBe(0);
        const before = asMatrix(given.entries, given.rows, given.columns);
        const gap = before.transpose().mmul(before).sub(out.transpose().mmul(out));
        expect(gap.abs().max()).toBeLessThan(tolerance('householder: products'));
      }),
    );
  });

  it('has the library’s factor but for the signs of its rows', () => {
    fc.assert(
      fc.property(sizes, (given) => {
        const whole = asMatrix(given.entries, given.rows, given.columns);
        const left = whole.subMatrix(0, given.rows - 1, 0, given.pivots - 1);
        const { upperTriangularMatrix: upper } = new QrDecomposition(left);
        // Where a column all but depends on those before it, no two ways of rounding agree.
        fc.pre(upper.diagonal().every((pivot) => Math.abs(pivot) > 0.1));
        const out = reduced(given);
        for (let i = 0; i < given.pivots; i++)
          for (let j = i; j < given.pivots; j++)
            expect(Math.abs(Math.abs(out.get(i, j)) - Math.abs(upper.get(i, j)))).toBeLessThan(
              tolerance('householder: factor'),
            );
      }),
    );
  });

  it('leaves an empty column’s pivot at zero', () => {
    const out = reduced({ rows: 3, columns: 3, pivots: 2, entries: [0, 1, 2, 0, 3, 4, 0, 5, 6] });
    expect(out.get(0, 0)).toBe(0);
    expect(out.getColumn(0).every((value) => value === 0)).toBe(true);
    expect(out.to1DArray().every(Number.isFinite)).toBe(true);
  });
});
