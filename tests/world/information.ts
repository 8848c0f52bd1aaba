import { cholesky, forward, inverse } from './algebra';
import type { Point, Shown } from './truth';

/** How well a number is checked by the others, as the simulated bench itself works it out. */
export interface Checked {
  readonly id: string;
  /** Shift of its normalized residual by an error of one unit (SI); zero where nothing checks it. */
  readonly perUnit: number;
  readonly observation: number;
  readonly whitened: readonly number[];
  readonly pull: Float64Array;
  readonly shift: Float64Array;
}

/** What all that is shown tells of the truths behind it, priors counted as readings. */
export interface Information {
  /** Inverse of the Fisher information: the Cramér-Rao bound of unbiased estimates. */
  readonly covariance: readonly (readonly number[])[];
  readonly slopes: readonly (readonly Float64Array[])[];
  readonly factors: readonly (readonly (readonly number[])[])[];
}

/** Step of the differences, SI. What is shown has 14 digits and curves over some 0.1: 1e-9 of a slope is lost. */
const STEP = 1e-5;
/** Below this part of a number's own variance left to its residual, nothing else checks it. */
const UNCHECKED = 1e-4;

/** Differences of all that is shown, whitened; undefined where some truth is not determined. */
export const informationOf = (shown: readonly Shown[], truth: Point): Information | undefined => {
  const count = truth.length;
  const fisher = Array.from({ length: count }, () => new Array<number>(count).fill(0));
  const slopes: Float64Array[][] = [];
  const factors: number[][][] = [];
  for (const { depends, show, covariance } of shown) {
    const factor = cholesky(covariance);
    if (!factor) throw new RangeError('A covariance of errors is not positive definite.');
    factors.push(factor);
    const point = Float64Array.from(truth);
    const columns = depends.map((index) => {
      const here = truth[index] ?? NaN;
      point[index] = here + STEP;
      const above = show(point);
      point[index] = here - STEP;
      const below = show(point);
      point[index] = here;
      return forward(
        factor,
        above.map((value, i) => (value - (below[i] ?? NaN)) / (2 * STEP)),
      );
    });
    columns.forEach((a, i) => {
      const row = fisher[depends[i] ?? 0] ?? [];
      columns.forEach((b, j) => {
        const to = depends[j] ?? 0;
        row[to] = (row[to] ?? 0) + a.reduce((sum, value, k) => sum + value * (b[k] ?? 0), 0);
      });
    });
    slopes.push(
      covariance.map((_, row) => {
        const all = new Float64Array(count);
        columns.forEach((column, i) => (all[depends[i] ?? 0] = column[row] ?? 0));
        return all;
      }),
    );
  }
  const inverted = inverse(fisher);
  return inverted && { covariance: inverted, slopes, factors };
};

const dot = (a: ArrayLike<number>, b: ArrayLike<number>): number => {
  let sum = 0;
  for (let i = 0; i < a.length; i += 1) sum += (a[i] ?? 0) * (b[i] ?? 0);
  return sum;
};

/** How each number of all that is shown would be found wrong. */
export const checkedNumbers = (shown: readonly Shown[], information: Information): Checked[] => {
  const { covariance, slopes, factors } = information;
  return shown.flatMap(({ numbers, covariance: own }, observation) =>
    numbers.map(({ id, place }) => {
      const whitened = forward(
        factors[observation] ?? [],
        own.map((_, i) => (i === place ? 1 : 0)),
      );
      const pull = new Float64Array(covariance.length);
      slopes[observation]?.forEach((row, i) =>
        row.forEach((value, j) => (pull[j] = (pull[j] ?? 0) + value * (whitened[i] ?? 0))),
      );
      const shift = Float64Array.from(covariance, (row) => dot(row, pull));
      const whole = dot(whitened, whitened);
      const left = whole - dot(pull, shift);
      return {
        id,
        perUnit: left > UNCHECKED * whole ? Math.sqrt(left) : 0,
        observation,
        whitened,
        pull,
        shift,
      };
    }),
  );
};

/** Correlation of two numbers' normalized residuals; zero where one of them is not checked. */
export const residualsAlike = (a: Checked, b: Checked): number => {
  if (!(a.perUnit > 0 && b.perUnit > 0)) return 0;
  const own = a.observation === b.observation ? dot(a.whitened, b.whitened) : 0;
  return (own - dot(a.pull, b.shift)) / (a.perUnit * b.perUnit);
};
