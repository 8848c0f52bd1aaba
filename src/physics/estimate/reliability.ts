import type { Adjustment } from '../fit/leastSquares';
import type { NumberRead } from './truckModel';

/**
 * How well each number read is checked by all others, after W. Baarda, A Testing Procedure for Use in Geodetic Networks
 * (Netherlands Geodetic Commission, 1968): normalized residual, redundancy, and the smallest blunder that would show.
 */

/**
 * Non-centrality at which a blunder is found with power 0.80 by a two-sided test at 0.001: z(0.9995) + z(0.80) = 3.291 +
 * 0.842 (Baarda 1968).
 */
export const BAARDA_SHIFT = 4.13;

/** Below this part of a number's own variance left in its residual, nothing else checks it. */
const UNCHECKED = 1e-4;

export interface Reliability {
  readonly id: string;
  readonly reading: string | null;
  readonly kind: NumberRead['kind'];
  /** By how much it reads too much if it alone is wrong (SI); null where nothing checks it. */
  readonly off: number | null;
  /** Standard uncertainty of `off`. */
  readonly offU: number | null;
  /** Value read minus adjusted (SI). */
  readonly residual: number;
  /** Residual over its own standard deviation, standard normal where all is well; null where nothing checks it. */
  readonly normalized: number | null;
  /** Part of an error's square that shows in the residuals, 0 to 1; of independent numbers they add up to the degrees of freedom. */
  readonly redundancy: number;
  /** Smallest blunder found with power 0.80 at 0.001 (SI); null where none would be. */
  readonly detectable: number | null;
  /** Shift of all unknowns by an error of size one. */
  readonly shift: Float64Array;
  /** For correlations(): the observation and the probe's parts. */
  readonly observation: number;
  readonly whitened: readonly number[];
  readonly pull: Float64Array;
  /** Variance of the whitened projection: 1/offU². */
  readonly shown: number;
}

const dot = (a: ArrayLike<number>, b: ArrayLike<number>): number => {
  let sum = 0;
  for (let i = 0; i < a.length; i++) sum += (a[i] ?? 0) * (b[i] ?? 0);
  return sum;
};

/** Reliability of every number of an adjustment. */
export function reliabilityOf(adjustment: Adjustment, numbers: readonly NumberRead[]): Reliability[] {
  return numbers.map(({ id, reading, kind, observation, direction }) => {
    const { whitened, pull, shift } = adjustment.probe(observation, direction);
    const whole = dot(whitened, whitened);
    const shown = whole - dot(pull, shift);
    const redundancy = Math.max(0, shown / whole);
    const projected = dot(whitened, adjustment.normalized[observation] ?? []);
    const checked = redundancy > UNCHECKED;
    return {
      id,
      reading,
      kind,
      off: checked ? projected / shown : null,
      offU: checked ? 1 / Math.sqrt(shown) : null,
      residual: dot(direction, adjustment.residuals[observation] ?? []),
      normalized: checked ? projected / Math.sqrt(shown) : null,
      redundancy: checked ? redundancy : 0,
      detectable: checked ? BAARDA_SHIFT / Math.sqrt(shown) : null,
      shift,
      observation,
      whitened,
      pull,
      shown: checked ? shown : 0,
    };
  });
}

/** Correlation of the normalized residuals of two checked numbers, −1 to 1. */
export function residualCorrelation(a: Reliability, b: Reliability): number {
  const own = a.observation === b.observation ? dot(a.whitened, b.whitened) : 0;
  const shared = own - dot(a.pull, b.shift);
  return Math.max(-1, Math.min(1, shared / Math.sqrt(a.shown * b.shown)));
}
