import { Matrix, SVD } from 'ml-matrix';
import { triangularize } from './householder';
import type { Observation, Unknown } from './observation';
import { backSubstitute } from './triangular';
import type { Whitened } from './whitening';

/** One step of a fit: the linear least-squares problem at a place, block by block, and what nothing determines in it. */

/** Rows and columns from a place on of a matrix that lies row after row in one array. */
function cut(
  from: Float64Array,
  columns: number,
  { rows, first, count }: { readonly rows: number; readonly first: number; readonly count: number },
): Matrix {
  const out = Matrix.zeros(rows, count);
  for (let i = 0; i < rows; i++)
    for (let j = 0; j < count; j++) out.set(i, j, from[i * columns + first + j] ?? 0);
  return out;
}

/** A pivot this small beside its column's length (1) means that no reading determines the unknown. */
const DETERMINED = 1e-9;

/** Which unknowns and observations belong to a block, and which of the common unknowns its observations meet. */
interface Block {
  readonly own: readonly number[];
  readonly met: readonly number[];
  readonly observations: readonly number[];
  /** Number of values read by its observations. */
  readonly height: number;
}
/** The problem's structure: the same at every step. */
export interface Structure {
  readonly unknownCount: number;
  readonly common: readonly number[];
  readonly blocks: readonly Block[];
  /** Observations of common unknowns alone. */
  readonly observations: readonly number[];
  readonly height: number;
}

export function structureOf(unknowns: readonly Unknown[], observations: readonly Observation[]): Structure {
  const blockOf = unknowns.map(({ block }) => block);
  const common: number[] = [];
  const own = new Map<number, number[]>();
  blockOf.forEach((block, i) => {
    if (block === undefined) common.push(i);
    else own.set(block, [...(own.get(block) ?? []), i]);
  });
  const read = new Map<number | undefined, number[]>();
  observations.forEach(({ depends }, k) => {
    const block = depends.map((i) => blockOf[i]).find((b) => b !== undefined);
    read.set(block, [...(read.get(block) ?? []), k]);
  });
  const heightOf = (chosen: readonly number[]) =>
    chosen.reduce((sum, k) => sum + (observations[k]?.values.length ?? 0), 0);
  const blocks = [...own].map(([block, indices]): Block => {
    const chosen = read.get(block) ?? [];
    const met = new Set(chosen.flatMap((k) => observations[k]?.depends ?? []));
    return {
      own: indices,
      met: common.filter((i) => met.has(i)),
      observations: chosen,
      height: heightOf(chosen),
    };
  });
  const alone = read.get(undefined) ?? [];
  return { unknownCount: unknowns.length, common, blocks, observations: alone, height: heightOf(alone) };
}

export interface Linear {
  readonly step: Float64Array;
  /** Covariance in scaled unknowns. */
  readonly covariance: () => Matrix;
  /** Scaled unknowns without a pivot; empty when all are determined. */
  readonly loose: readonly number[];
}

/**
 * Solves the whitened linear problem min |J·step − residuals|² by QR, block by block: with [J_own J_met r] the rows
 * of a block and J_own = Q R, its own unknowns take up the upper rows of Qᵀ times the other columns; the rows below
 * constrain the common unknowns.
 * Golub and Van Loan, Matrix Computations, 4th ed., 5.3 (QR); Björck, Numerical Methods for Least Squares
 * Problems (1996), 6.3 (block angular problems).
 */
export function solveLinear(
  structure: Structure,
  observations: readonly Observation[],
  whitened: readonly Whitened[],
): Linear {
  const { unknownCount, common, blocks } = structure;
  const n = common.length;
  const columnOf = new Int32Array(unknownCount);

  const loose: number[] = [];
  const left = blocks.reduce((sum, { height, own }) => sum + Math.max(0, height - own.length), 0);
  // Never lower than wide: what nothing determines then has a pivot of zero.
  const height = Math.max(left + structure.height, n);
  const width = n + 1;
  const commonRows = new Float64Array(height * width);
  let filled = 0;
  const eliminated = blocks.map(({ own, met, observations: chosen, height: read }) => {
    const m = own.length;
    const rows = Math.max(read, m);
    const columns = m + met.length + 1;
    const block = new Float64Array(rows * columns);
    own.forEach((index, i) => (columnOf[index] = i));
    met.forEach((index, i) => (columnOf[index] = m + i));
    let at = 0;
    for (const k of chosen) {
      const { rows: slopes = [], residuals = [] } = whitened[k] ?? {};
      slopes.forEach((row, i) => {
        observations[k]?.depends.forEach((index, column) => {
          const place = at + (columnOf[index] ?? 0);
          block[place] = (block[place] ?? 0) + (row[column] ?? 0);
        });
        block[at + columns - 1] = residuals[i] ?? 0;
        at += columns;
      });
    }
    triangularize(block, rows, columns, m);
    own.forEach((index, i) => {
      if (!(Math.abs(block[i * columns + i] ?? 0) > DETERMINED)) loose.push(index);
    });
    common.forEach((index, i) => (columnOf[index] = i));
    for (let i = m; i < read; i++, filled++) {
      met.forEach((index, j) => {
        commonRows[filled * width + (columnOf[index] ?? 0)] = block[i * columns + m + j] ?? 0;
      });
      commonRows[filled * width + n] = block[i * columns + columns - 1] ?? 0;
    }
    const upper = cut(block, columns, { rows: m, first: 0, count: m });
    const taken = cut(block, columns, { rows: m, first: m, count: met.length + 1 });
    return { own, met, upper, taken };
  });
  common.forEach((index, i) => (columnOf[index] = i));
  for (const k of structure.observations) {
    const { rows: slopes = [], residuals = [] } = whitened[k] ?? {};
    slopes.forEach((row, i) => {
      observations[k]?.depends.forEach((index, column) => {
        const place = filled * width + (columnOf[index] ?? 0);
        commonRows[place] = (commonRows[place] ?? 0) + (row[column] ?? 0);
      });
      commonRows[filled * width + n] = residuals[i] ?? 0;
      filled += 1;
    });
  }
  triangularize(commonRows, height, width, n);
  const factor = cut(commonRows, width, { rows: n, first: 0, count: width });
  common.forEach((index, i) => {
    if (!(Math.abs(factor.get(i, i)) > DETERMINED)) loose.push(index);
  });
  const step = new Float64Array(unknownCount);
  if (loose.length > 0) return { step, covariance: () => Matrix.zeros(0, 0), loose };

  if (n > 0) {
    const commonStep = backSubstitute(factor, n, factor.subMatrix(0, n - 1, n, n));
    common.forEach((index, i) => (step[index] = commonStep.get(i, 0)));
  }
  for (const { own, met, upper, taken } of eliminated) {
    const right = taken.subMatrix(0, own.length - 1, met.length, met.length);
    own.forEach((_, i) => {
      met.forEach((index, j) => right.set(i, 0, right.get(i, 0) - taken.get(i, j) * (step[index] ?? 0)));
    });
    const ownStep = backSubstitute(upper, own.length, right);
    own.forEach((index, i) => (step[index] = ownStep.get(i, 0)));
  }

  const covariance = () => {
    const out = Matrix.zeros(unknownCount, unknownCount);
    const inverse = backSubstitute(factor, n, Matrix.eye(n, n));
    const commonCovariance = inverse.mmul(inverse.transpose());
    common.forEach((p, i) => common.forEach((q, j) => out.set(p, q, commonCovariance.get(i, j))));
    const maps = eliminated.map(({ own, met, upper, taken }) => {
      const m = own.length;
      const ownInverse = backSubstitute(upper, m, Matrix.eye(m, m));
      const toMet = backSubstitute(upper, m, taken);
      const toCommon = Matrix.zeros(m, n);
      met.forEach((index, j) => {
        for (let i = 0; i < m; i++) toCommon.set(i, columnOf[index] ?? 0, -toMet.get(i, j));
      });
      return { own, toCommon, ownCovariance: ownInverse.mmul(ownInverse.transpose()) };
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
export function looseNames(
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
