import { drawReadings, type ErrorLaw } from './drawReadings';
import type { Adjustment, Observation, Unknown } from './leastSquares';
import { refusal, type Result } from '../quantities';
import { resolver } from './resolver';

/**
 * Monte Carlo propagation of distributions, JCGM 101:2008, clause 7, some draws at a time, so that whoever runs it can
 * report and stop between them.
 */
export interface MonteCarloRun {
  /** Draws `count` more times. */
  readonly draw: (count: number) => void;
  /** Draws so far, failed ones included. */
  readonly drawn: () => number;
  /** Draws that had no result. They are in no statistics; their part of all draws must be told beside those. */
  readonly failed: () => number;
  /** How many failed for each reason. */
  readonly failures: () => ReadonlyMap<string, number>;
  /** Draws of result `index` in the order drawn; its own copy. */
  readonly draws: (index: number) => Float64Array;
}

const FIRST_CAPACITY = 1024;

/** A run of `once`, which draws all inputs and gives `size` results, or why there are none this time. */
export function monteCarloRun(size: number, once: () => Result<readonly number[]>): MonteCarloRun {
  let kept = Array.from({ length: size }, () => new Float64Array(FIRST_CAPACITY));
  let count = 0;
  let failed = 0;
  const failures = new Map<string, number>();
  const fail = (reason: string) => {
    failed += 1;
    failures.set(reason, (failures.get(reason) ?? 0) + 1);
  };
  return {
    draw: (more) => {
      for (let k = 0; k < more; k++) {
        const result = once();
        if (!result.ok) {
          fail(result.reason);
          continue;
        }
        if (!result.value.every(Number.isFinite)) {
          fail('not a number');
          continue;
        }
        const capacity = kept[0]?.length ?? 0;
        if (count === capacity)
          kept = kept.map((before) => {
            const larger = new Float64Array(2 * capacity);
            larger.set(before);
            return larger;
          });
        for (let i = 0; i < size; i++) {
          const column = kept[i];
          if (column) column[count] = result.value[i] ?? NaN;
        }
        count += 1;
      }
    },
    drawn: () => count + failed,
    failed: () => failed,
    failures: () => new Map(failures),
    draws: (index) => kept[index]?.slice(0, count) ?? new Float64Array(0),
  };
}

export interface AdjustmentDraws {
  readonly unknowns: readonly Unknown[];
  readonly observations: readonly Observation[];
  /** One row an observation, one law a value. */
  readonly laws: readonly (readonly ErrorLaw[])[];
  /** What adjust() found for the values read. */
  readonly solution: Pick<Adjustment, 'unknowns' | 'covariance'>;
  /** The caller's source on [0, 1), seeded where the run must be repeatable. */
  readonly uniform: () => number;
  /** What is wanted of the unknowns of every draw: as many finite numbers each time; null where there are none. */
  readonly results: (unknowns: Float64Array) => readonly number[] | null;
}

/**
 * A run over a whole adjustment: a draw means new readings, each from its own law about the value read, and one new
 * solution for them. Draws without a solution fail with its refusal's reason; without results, as 'no result'.
 */
export function monteCarloOfAdjustment(draws: AdjustmentDraws): MonteCarloRun {
  const { unknowns, observations, laws, solution, uniform, results } = draws;
  const readings = drawReadings(observations, laws, uniform);
  const solve = resolver(unknowns, observations, solution);
  const size = results(solution.unknowns)?.length ?? 0;
  return monteCarloRun(size, () => {
    const solved = solve(readings());
    if (!solved.ok) return solved;
    const value = results(solved.value);
    return value ? { ok: true, value } : refusal('no result', 'These unknowns have no result.');
  });
}
