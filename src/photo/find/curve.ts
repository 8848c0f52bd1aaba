import { NormalEquations, varianceOf } from './normalEquations';
import type { Solution } from './normalEquations';

/** Distance across as a parabola of the place v along: a string that the lens bends slightly. */
export type Curve = readonly [number, number, number];

export const curveAt = ([a, b, c]: Curve, v: number): number => a + v * (b + v * c);

/** Height of the curve's middle over the chord between its ends at v = -1 and v = 1, px. */
export const bowOf = ([, , c]: Curve): number => -c;

/** Center of one cross profile. */
export interface Center {
  readonly v: number;
  readonly across: number;
  /** Standard uncertainty of `across`, px, from the pixel noise alone. */
  readonly u: number;
}

export interface FittedCurve {
  readonly curve: Curve;
  readonly solution: Solution;
  /** Weight of each center, 0 to 1: how far it goes with the others. */
  readonly weights: readonly number[];
  /** Spread of the centers about the curve over what pixel noise alone gives; at least 1. */
  readonly excess: number;
  /** Correlation of neighboring centers' residuals, 0 to 0.8. */
  readonly correlation: number;
}

const median = (values: number[]): number => {
  const sorted = values.sort((a, b) => a - b);
  const middle = sorted.length >> 1;
  return sorted.length % 2 ? (sorted[middle] ?? 0) : ((sorted[middle - 1] ?? 0) + (sorted[middle] ?? 0)) / 2;
};

/** Standard deviation of a normal law with this median of magnitudes. */
const FROM_MEDIAN = 1.4826;
/** Tukey's constant: 95 % efficient where nothing is wrong. Holland and Welsch (1977), table 1 (4.685). */
const TUKEY = 4.685;
/** No cross profile is better than this, px: pixels are not quite squares, strings not quite even. */
const LEAST_U = 0.012;

/**
 * The parabola through the centers, by iterated reweighting with Tukey's biweight: a center that does not go with the
 * others, at a knot or where something else crosses, loses its say. `start` is where the weights begin.
 */
export function fitCurve(centers: readonly Center[], start: Curve, gate: number): FittedCurve | null {
  const equations = new NormalEquations(3);
  const row = [1, 0, 0];
  let curve = start;
  let spread = Infinity;
  let solution: Solution | null = null;
  let weights: number[] = [];
  for (let turn = 0; turn < 8; turn++) {
    const residuals = centers.map(({ v, across }) => across - curveAt(curve, v));
    const relative = residuals.map((residual, i) => residual / Math.hypot(centers[i]?.u ?? 1, LEAST_U));
    if (turn > 0) {
      const near = relative.filter((_, i) => Math.abs(residuals[i] ?? 0) < gate);
      if (near.length < 5) return null;
      spread = Math.max(1, FROM_MEDIAN * median(near.map(Math.abs)));
    }
    weights = relative.map((value, i) => {
      if (Math.abs(residuals[i] ?? 0) > gate) return 0;
      const share = value / (TUKEY * spread);
      return Math.abs(share) < 1 ? (1 - share * share) ** 2 : 0;
    });
    equations.clear();
    centers.forEach(({ v, across, u }, i) => {
      const weight = weights[i] ?? 0;
      if (weight === 0) return;
      row[1] = v;
      row[2] = v * v;
      equations.add(row, across, weight / (u * u + LEAST_U * LEAST_U));
    });
    if (equations.count < 5) return null;
    solution = equations.solve();
    if (!solution) return null;
    const [a = 0, b = 0, c = 0] = solution.values;
    const moved = Math.abs(a - curve[0]) + Math.abs(b - curve[1]) + Math.abs(c - curve[2]);
    curve = [a, b, c];
    if (turn > 1 && moved < 1e-4) break;
  }
  if (!solution) return null;
  let squares = 0;
  let sum = 0;
  let neighbors = 0;
  let pairs = 0;
  let last: number | null = null;
  centers.forEach(({ v, across, u }, i) => {
    const weight = weights[i] ?? 0;
    const residual = (across - curveAt(curve, v)) / Math.hypot(u, LEAST_U);
    if (weight < 0.1) {
      last = null;
      return;
    }
    squares += weight * residual * residual;
    sum += weight;
    if (last !== null) {
      neighbors += last * residual;
      pairs++;
    }
    last = residual;
  });
  const freedom = Math.max(1, sum - 3);
  // The biweight cuts the tails: what is left of a normal law's variance is a little less than all.
  const excess = Math.max(1, Math.sqrt((1.08 * squares) / freedom));
  const correlation =
    pairs > 5 ? Math.min(0.8, Math.max(0, neighbors / pairs / (squares / Math.max(1, sum)) + 1 / pairs)) : 0;
  return { curve, solution, weights, excess, correlation };
}

/** Standard uncertainty of `row` · (a, b, c), px: noise, the centers' own spread and what neighbors share. */
export function curveU({ solution, excess, correlation }: FittedCurve, row: readonly number[]): number {
  const shared = (1 + correlation) / (1 - correlation);
  return Math.sqrt(varianceOf(solution, row) * shared) * excess;
}
