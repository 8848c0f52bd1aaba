import {
  type Distribution,
  type Interval,
  type IntervalKind,
  distributionOf,
  standardErrors,
} from './distribution';
import { COVERAGE, type Estimate } from '../quantities';

/**
 * Whether first-order propagation may stand, judged by Monte Carlo: JCGM 101:2008, clause 8.
 */

/**
 * Half a unit of the last digit of `u` when it is written with `significantDigits`: JCGM 101:2008, 7.9.2. `u` is above
 * zero; the unit is that of `u`.
 */
export function numericalTolerance(u: number, significantDigits: number): number {
  const written = u.toExponential(significantDigits - 1);
  const exponent = Number(written.slice(written.indexOf('e') + 1));
  return 0.5 * 10 ** (exponent - significantDigits + 1);
}

export type Verdict = 'validated' | 'not validated' | 'more draws needed';

export interface Validation {
  readonly verdict: Verdict;
  readonly monteCarlo: Distribution;
  /** First order's interval, value ± 1.96 u. */
  readonly firstOrder: Interval;
  readonly kind: IntervalKind;
  /** Numerical tolerance of the Monte Carlo u. */
  readonly tolerance: number;
  /** How far the two intervals' ends are apart, d_low and d_high of 8.1. */
  readonly apart: Interval;
  /** Standard errors of the Monte Carlo interval's ends; null with too few draws to tell. */
  readonly errors: Interval | null;
  /** Whether twice those errors are within a fifth of the tolerance, as 8.2 asks. */
  readonly enoughDraws: boolean;
}

export interface ValidationOptions {
  /** Digits of u that count, 1 or 2. */
  readonly significantDigits?: number;
  /** Which Monte Carlo interval to compare with. */
  readonly kind?: IntervalKind;
}

/**
 * Compares the 95 % interval of a first-order estimate with that of `draws` of the same quantity, in the order drawn.
 *
 * Validated where both ends are within the numerical tolerance. That needs draws enough: with twice the ends' standard
 * errors above a fifth of the tolerance, there is a verdict only where the ends are nearer or farther than the
 * tolerance by more than twice their own standard error; otherwise more draws are needed.
 */
export function validateFirstOrder(
  { value, u }: Estimate,
  draws: Float64Array,
  options: ValidationOptions = {},
): Validation {
  const { significantDigits = 2, kind = 'symmetric' } = options;
  const monteCarlo = distributionOf(draws);
  const firstOrder = { low: value - COVERAGE * u, high: value + COVERAGE * u };
  const tolerance = numericalTolerance(monteCarlo.u, significantDigits);
  const apart = {
    low: Math.abs(firstOrder.low - monteCarlo[kind].low),
    high: Math.abs(firstOrder.high - monteCarlo[kind].high),
  };
  const errors = standardErrors(draws, monteCarlo.probability, kind);
  const enoughDraws = errors !== null && 2 * Math.max(errors.low, errors.high) <= tolerance / 5;
  const ends = ['low', 'high'] as const;
  const doubt = (end: keyof Interval) => (errors ? 2 * errors[end] : Infinity);
  let verdict: Verdict = 'more draws needed';
  if (enoughDraws) verdict = ends.every((end) => apart[end] <= tolerance) ? 'validated' : 'not validated';
  else if (ends.some((end) => apart[end] - doubt(end) > tolerance)) verdict = 'not validated';
  else if (ends.every((end) => apart[end] + doubt(end) <= tolerance)) verdict = 'validated';
  return { verdict, monteCarlo, firstOrder, kind, tolerance, apart, errors, enoughDraws };
}
