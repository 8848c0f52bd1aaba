import type { Matrix } from 'ml-matrix';
import {
  type AdjustmentRefusal,
  type Observation,
  type Unknown,
  adjust,
  derivativeOf,
  whitener,
} from './leastSquares';
import { type Result, success } from '../quantities';

/**
 * The same adjustment solved again and again for other readings, as a Monte Carlo of it needs: what does not change
 * with the readings is prepared once.
 */

/**
 * Unknowns of the adjustment in which the observations read `values`: all of them one after the other, in the order of
 * the observations. Every call gives an array of its own.
 */
export type Resolver = (values: Float64Array) => Result<Float64Array, AdjustmentRefusal>;

/** Steps this small a part of each unknown's u change no digit of a distribution: printed ± have two. */
const NEGLIGIBLE_STEP = 1e-3;
/** Steps that do not shrink at least this much have left the neighborhood in which the prepared matrix leads. */
const SLOWEST = 0.7;
const MAX_ROUNDS = 20;

interface Part {
  readonly observation: Observation;
  readonly depends: Int32Array;
  /** Place of its first value. */
  readonly first: number;
  readonly size: number;
  /** Inverse of its covariance, size × size; null where its values are independent. */
  readonly weights: Float64Array | null;
  /** 1/u² of each value where they are independent. */
  readonly inverseVariances: Float64Array;
}

/** Whether the uncertainty is one u a value instead of a covariance. */
const isIndependent = ({ uncertainty }: Observation): boolean => typeof uncertainty[0] === 'number';

function partsOf(observations: readonly Observation[]): Part[] {
  let first = 0;
  return observations.map((observation) => {
    const by = whitener(observation);
    const size = observation.values.length;
    const weights = new Float64Array(size * size);
    by.forEach((row) =>
      row.forEach((a, i) =>
        row.forEach((b, j) => (weights[i * size + j] = (weights[i * size + j] ?? 0) + a * b)),
      ),
    );
    const part = {
      observation,
      depends: Int32Array.from(observation.depends),
      first,
      size,
      weights: isIndependent(observation) ? null : weights,
      inverseVariances: Float64Array.from(by, (row, i) => (row[i] ?? 0) ** 2),
    };
    first += size;
    return part;
  });
}

/**
 * A function that solves the adjustment of `unknowns` to `observations` for other readings, starting from `solution`,
 * what adjust() found for their own. It repeats x += C·Jᵀ(x)·W·(y − f(x)) with C the covariance at that solution: where
 * that rests, the slope of the misfit is zero exactly, whatever C is. Where it does not come to rest (draws far out in a
 * strongly curved problem), adjust() solves instead, with its refusals.
 *
 * The fixed matrix in place of the second derivative: C. T. Kelley, Iterative Methods for Linear and Nonlinear
 * Equations (1995), 5.4.1 (chord method).
 * @throws RangeError as adjust() does.
 */
export function resolver(
  unknowns: readonly Unknown[],
  observations: readonly Observation[],
  solution: { readonly unknowns: Float64Array; readonly covariance: Matrix },
): Resolver {
  const n = unknowns.length;
  const parts = partsOf(observations);
  const count = parts.reduce((sum, { size }) => sum + size, 0);
  const scales = Float64Array.from(unknowns, ({ scale }) => scale);
  const covariance = Float64Array.from(solution.covariance.to1DArray());
  const perU = Float64Array.from({ length: n }, (_, i) => 1 / Math.sqrt(covariance[i * n + i] ?? NaN));
  const start = Float64Array.from(solution.unknowns);
  const slope = new Float64Array(n);
  const pulls = new Float64Array(Math.max(...parts.map(({ size }) => size), 0));

  /** Adds Jᵀ W residual of one observation to `slope`. */
  const addPull = (part: Part, rows: readonly (readonly number[])[], residuals: Float64Array) => {
    const { size, weights, inverseVariances, depends } = part;
    for (let i = 0; i < size; i++) {
      let pull = 0;
      if (weights) for (let j = 0; j < size; j++) pull += (weights[i * size + j] ?? 0) * (residuals[j] ?? 0);
      else pull = (inverseVariances[i] ?? 0) * (residuals[i] ?? 0);
      const row = rows[i] ?? [];
      for (let k = 0; k < depends.length; k++) {
        const index = depends[k] ?? 0;
        slope[index] = (slope[index] ?? 0) + (row[k] ?? 0) * pull;
      }
    }
  };

  // The first step is linear in the readings: a constant and a matrix, n × count.
  const gain = new Float64Array(n * count);
  const fitted = new Float64Array(count);
  for (const part of parts) {
    const { observation, first, size } = part;
    fitted.set(observation.predict(start), first);
    const rows = derivativeOf(observation, start, scales);
    for (let i = 0; i < size; i++) {
      slope.fill(0);
      pulls.fill(0);
      pulls[i] = 1;
      addPull(part, rows, pulls);
      for (let a = 0; a < n; a++) {
        let moved = 0;
        for (let b = 0; b < n; b++) moved += (covariance[a * n + b] ?? 0) * (slope[b] ?? 0);
        gain[a * count + first + i] = moved;
      }
    }
  }

  const whole = (values: Float64Array): Result<Float64Array, AdjustmentRefusal> => {
    const read = parts.map(({ observation, first, size }) => ({
      ...observation,
      values: [...values.subarray(first, first + size)],
    }));
    const found = adjust(unknowns, read, { start: { unknowns: start } });
    return found.ok ? success(found.value.unknowns) : found;
  };

  return (values) => {
    const at = Float64Array.from(start);
    let last = 0;
    for (let a = 0; a < n; a++) {
      let step = 0;
      for (let i = 0; i < count; i++)
        step += (gain[a * count + i] ?? 0) * ((values[i] ?? 0) - (fitted[i] ?? 0));
      at[a] = (at[a] ?? 0) + step;
      last = Math.max(last, Math.abs(step) * (perU[a] ?? 0));
    }
    for (let round = 0; round < MAX_ROUNDS; round++) {
      slope.fill(0);
      for (const part of parts) {
        const { observation, first, size } = part;
        const predicted = observation.predict(at);
        for (let i = 0; i < size; i++) pulls[i] = (values[first + i] ?? 0) - (predicted[i] ?? 0);
        addPull(part, derivativeOf(observation, at, scales), pulls);
      }
      let longest = 0;
      for (let a = 0; a < n; a++) {
        let step = 0;
        for (let b = 0; b < n; b++) step += (covariance[a * n + b] ?? 0) * (slope[b] ?? 0);
        at[a] = (at[a] ?? 0) + step;
        const size = Math.abs(step) * (perU[a] ?? 0);
        // Written so that NaN ends the rounds.
        if (!(size <= longest)) longest = size;
      }
      const shrink = longest / last;
      if (longest < NEGLIGIBLE_STEP && (shrink < SLOWEST || last < NEGLIGIBLE_STEP)) return success(at);
      if (!(shrink < SLOWEST)) break;
      last = longest;
    }
    return whole(values);
  };
}
