import { borderRow, changed } from './ellipse';
import type { Ellipse } from './ellipse';
import { NormalEquations } from './normalEquations';
import type { Solution } from './normalEquations';

/** Where the edge was seen along one normal of an ellipse. */
export interface EdgePlace {
  /** Parameter t of the normal, rad. */
  readonly turn: number;
  /** Place of the edge along it, px, positive outside. */
  readonly outside: number;
  /** Standard uncertainty of `outside`, px, from pixel noise. */
  readonly u: number;
}

export interface EllipseStep {
  readonly ellipse: Ellipse;
  readonly solution: Solution;
  /** Weight of each place, 0 to 1. */
  readonly weights: readonly number[];
  /** Root mean square of the counted residuals, px. */
  readonly scatter: number;
  /** Spread of the residuals over their u, at least 1. */
  readonly excess: number;
  /** Correlation of neighbors' residuals around the border, 0 to 0.8. */
  readonly correlation: number;
}

const median = (values: readonly number[]): number => {
  const sorted = values.toSorted((a, b) => a - b);
  return sorted[sorted.length >> 1] ?? 0;
};

/** No piece of a border is known better than this, px. */
const LEAST_U = 0.012;
const TUKEY = 4.685;

/**
 * The ellipse with the least squared distances of the edge places along its normals, reweighted by Tukey's biweight so that
 * a shadow or a neighbor that took the edge's place loses its say. One Gauss-Newton step from `start`.
 */
export function ellipseStep(start: Ellipse, places: readonly EdgePlace[], least: number): EllipseStep | null {
  const equations = new NormalEquations(5);
  const rows = places.map(({ turn }) => borderRow(start, turn));
  const us = places.map(({ u }) => Math.hypot(u, LEAST_U));
  let residuals = places.map(({ outside }) => outside);
  // Where most of them are, to begin with: one unlucky start must not decide.
  const middle = median(residuals);
  let spread = Math.max(least, 1.4826 * median(residuals.map((value) => Math.abs(value - middle))));
  let weights: number[] = residuals.map((value) => (Math.abs(value - middle) < 3 * spread ? 1 : 0));
  let solution: Solution | null = null;
  for (let turn = 0; turn < 8; turn++) {
    equations.clear();
    rows.forEach((row, i) => {
      const weight = weights[i] ?? 0;
      if (weight > 0) equations.add(row, places[i]?.outside ?? 0, weight / (us[i] ?? 1) ** 2);
    });
    if (equations.count < 8) return null;
    solution = equations.solve();
    if (!solution) return null;
    const values = solution.values;
    residuals = rows.map((row, i) =>
      row.reduce((rest, by, k) => rest - by * (values[k] ?? 0), places[i]?.outside ?? 0),
    );
    spread = Math.max(least, 1.4826 * median(residuals.map(Math.abs)));
    weights = residuals.map((value) => {
      const share = value / (TUKEY * spread);
      return Math.abs(share) < 1 ? (1 - share * share) ** 2 : 0;
    });
  }
  const ellipse = solution && changed(start, solution.values);
  if (!solution || !ellipse) return null;
  let sum = 0;
  let squares = 0;
  let relative = 0;
  let neighbors = 0;
  let pairs = 0;
  residuals.forEach((value, i) => {
    const weight = weights[i] ?? 0;
    const z = value / (us[i] ?? 1);
    sum += weight;
    squares += weight * value * value;
    relative += weight * z * z;
    const next = (i + 1) % residuals.length;
    if (weight < 0.1 || (weights[next] ?? 0) < 0.1) return;
    neighbors += (z * (residuals[next] ?? 0)) / (us[next] ?? 1);
    pairs++;
  });
  const mean = relative / Math.max(1, sum);
  return {
    ellipse,
    solution,
    weights,
    scatter: Math.sqrt(squares / Math.max(1, sum)),
    excess: Math.max(1, Math.sqrt((1.08 * relative) / Math.max(1, sum - 5))),
    correlation: pairs > 8 ? Math.min(0.8, Math.max(0, neighbors / pairs / Math.max(mean, 1e-9))) : 0,
  };
}
