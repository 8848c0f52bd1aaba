import type { TruckAdjustment } from './adjustTruck';
import { overUnknowns } from './caredQuantity';
import type { Observation } from '../fit/leastSquares';
import { COVERAGE } from '../quantities';
import type { NumberRead } from './truckModel';
import type { TruckBench } from './truckReadings';
import { type Covariance, propagate } from '../fit/uncertainty';

/**
 * Can a bench see a difference between two builds of one truck? Decision threshold and detection limit of the
 * difference in the terms of ISO 11929-1:2019: the threshold is passed by chance once in 20 times where nothing changed
 * (two-sided), the limit is the least true difference that passes the threshold 19 times in 20.
 */

/** Quantile 0.95 of the normal law: a difference as large as the limit is missed once in 20 times. */
const MISSED_ONCE_IN_20 = 1.644854;

/** What of a difference a bench can see; in the quantity's own SI unit. */
export interface Seeing {
  /** Standard uncertainty of the difference. */
  readonly u: number;
  /** Decision threshold: 1.960 u. */
  readonly threshold: number;
  /** Detection limit: (1.960 + 1.645) u, with the same u at any size of the difference. */
  readonly limit: number;
}

export const seeing = (u: number): Seeing => ({
  u,
  threshold: COVERAGE * u,
  limit: (COVERAGE + MISSED_ONCE_IN_20) * u,
});

/** A change at the limit or above will be seen; below the threshold not; between, it may be. */
export type SeenVerdict = 'seen' | 'between' | 'not seen';

/** Judges the size of an intended change. */
export function verdictOn(size: number, { threshold, limit }: Seeing): SeenVerdict {
  const large = Math.abs(size);
  if (large >= limit) return 'seen';
  return large >= threshold ? 'between' : 'not seen';
}

/** A bench seen once with nothing shared between the two builds, and once with what is reused. */
export interface BothSeeings {
  readonly independent: Seeing;
  readonly reused: Seeing;
}

/** What the measurements of two builds share. */
export interface SharedErrors {
  /** Numbers with one error in both builds: taken once, or by the same instrument. */
  readonly number: (number: NumberRead) => boolean;
  /**
   * Of an observation with one covariance for all its values, as that of picture lines: the part of it that both builds
   * share (same size and order, positive semidefinite); null where nothing or, if all its numbers are shared, all is.
   */
  readonly part?: (observation: Observation) => Covariance | null;
}

/**
 * What is usually kept from build to build: dimensions, hooks, instruments' zeros, tip line, axle shares, the assumed
 * lateral place, and the parts list. Readings are taken anew.
 */
export function usuallyReused(bench: TruckBench): SharedErrors['number'] {
  const lists = new Set(bench.readings.filter(({ kind }) => kind === 'parts list').map(({ id }) => id));
  return ({ reading }) => reading === null || lists.has(reading);
}

/**
 * How far each value read moves a linear function of the stance (slopes by CG x, y, z, wheelbase, tracks), d q/d value;
 * one row an observation of the model. JCGM 100:2008, 5.1.3: sensitivity coefficients.
 */
export function valueSensitivities(truck: TruckAdjustment, gradient: readonly number[]): number[][] {
  const { adjustment, model } = truck;
  const all = overUnknowns(model, gradient, adjustment.unknowns.length);
  return model.observations.map(({ values }, k) =>
    values.map((_, i) => {
      const { shift } = adjustment.probe(
        k,
        values.map((__, j) => (i === j ? 1 : 0)),
      );
      return all.reduce((sum, slope, n) => sum + slope * (shift[n] ?? 0), 0);
    }),
  );
}

/**
 * By how much a function of the stance (slopes as in valueSensitivities()) moves for each meter that the assumed lateral
 * place moves; 0 where that is no observation of its own.
 */
export function restsOnAssumedPlace(truck: TruckAdjustment, gradient: readonly number[]): number {
  const at = truck.model.observations.findIndex(({ name }) => name === 'lateral');
  return valueSensitivities(truck, gradient)[at]?.[0] ?? 0;
}

/** One build as measured, and the slopes of the quantity by its stance (cared() gives them). */
export interface MeasuredBuild {
  readonly truck: TruckAdjustment;
  readonly gradient: readonly number[];
}

interface OwnError {
  readonly effect: number;
  readonly shared: boolean;
  /** As read: a number typed anew, or with another ±, is another reading with an error of its own. */
  readonly value: number;
  readonly u: number;
}

/** Whether both builds took over one number with its one error. */
const sameError = (one: OwnError, other: OwnError | undefined): other is OwnError =>
  one.shared && other?.shared === true && one.value === other.value && one.u === other.u;

/** Values whose errors are independent of all others, by the ids of their numbers; and the correlated rest. */
interface Errors {
  /** Effect of one u on the quantity. */
  readonly alone: ReadonlyMap<string, OwnError>;
  readonly together: ReadonlyMap<
    string,
    { readonly gains: readonly number[]; readonly covariance: Covariance; readonly shared: Covariance }
  >;
}

function errorsOf({ truck, gradient }: MeasuredBuild, { number, part }: SharedErrors): Errors {
  const { model } = truck;
  const gains = valueSensitivities(truck, gradient);
  const alone = new Map<string, OwnError>();
  const together = new Map<string, { gains: number[]; covariance: Covariance; shared: Covariance }>();
  const numbersOf = model.observations.map((): NumberRead[] => []);
  for (const each of model.numbers) numbersOf[each.observation]?.push(each);
  model.observations.forEach((observation, k) => {
    const own = gains[k] ?? [];
    const numbers = numbersOf[k] ?? [];
    const covariance = covarianceOf(observation);
    if (covariance) {
      const whole = numbers.length > 0 && numbers.every(number);
      const shared = part?.(observation) ?? covariance.map((row) => row.map((c) => (whole ? c : 0)));
      together.set(observation.name, { gains: own, covariance, shared });
      return;
    }
    for (const each of numbers) {
      const gain = each.direction.reduce((sum, by, i) => sum + by * (own[i] ?? 0), 0);
      alone.set(each.id, { effect: gain * each.u, shared: number(each), value: each.value, u: each.u });
    }
  });
  return { alone, together };
}

const covarianceOf = ({ uncertainty }: Observation): Covariance | null => {
  const rows: (readonly number[])[] = [];
  for (const row of uncertainty) {
    if (typeof row === 'number') return null;
    rows.push(row);
  }
  return rows;
};

const spread = (gains: readonly number[], covariance: Covariance): number =>
  propagate([gains], covariance)[0]?.[0] ?? NaN;

const mean = (a: Covariance, b: Covariance): number[][] =>
  a.map((row, i) => row.map((value, j) => (value + (b[i]?.[j] ?? NaN)) / 2));
const less = (a: Covariance, b: Covariance): number[][] =>
  a.map((row, i) => row.map((value, j) => value - (b[i]?.[j] ?? NaN)));

/** Variance that one build has and the other has not. */
function unshared({ alone, together }: Errors, other: Errors): number {
  let sum = 0;
  for (const [id, own] of alone) if (!sameError(own, other.alone.get(id))) sum += own.effect * own.effect;
  for (const [name, { gains, covariance, shared }] of together) {
    const same = other.together.get(name)?.gains.length === gains.length;
    sum += spread(gains, same ? less(covariance, shared) : covariance);
  }
  return sum;
}

/** Variance that is left of what both builds share: it cancels as far as it moves both alike. */
function leftOfShared(a: Errors, b: Errors): number {
  let sum = 0;
  for (const [id, own] of a.alone) {
    const other = b.alone.get(id);
    if (sameError(own, other)) sum += (own.effect - other.effect) ** 2;
  }
  for (const [name, { gains, shared }] of a.together) {
    const other = b.together.get(name);
    if (other?.gains.length !== gains.length) continue;
    const apart = gains.map((gain, i) => gain - (other.gains[i] ?? NaN));
    sum += spread(apart, mean(shared, other.shared));
  }
  return sum;
}

/**
 * Uncertainty of the difference of a quantity between two builds that were both measured, to first order. Shared numbers
 * are told by their ids, correlated observations by name and size; where these differ nothing is taken to cancel.
 */
export function measuredDifference(a: MeasuredBuild, b: MeasuredBuild, shared: SharedErrors): BothSeeings {
  const none: SharedErrors = { number: () => false };
  const variance = (by: SharedErrors): number => {
    const [one, other] = [errorsOf(a, by), errorsOf(b, by)];
    return unshared(one, other) + unshared(other, one) + leftOfShared(one, other);
  };
  return {
    independent: seeing(Math.sqrt(Math.max(0, variance(none)))),
    reused: seeing(Math.sqrt(Math.max(0, variance(shared)))),
  };
}

/**
 * The same before the second build is measured: it will be measured as the first was, and is near enough to it that every
 * reading weighs the same. Independent: √2 u. Reused: √2 times what the fresh readings alone contribute to u.
 */
export function differenceUncertainty(
  truck: TruckAdjustment,
  gradient: readonly number[],
  shared: SharedErrors,
): BothSeeings {
  const own = errorsOf({ truck, gradient }, shared);
  const whole = errorsOf({ truck, gradient }, { number: () => false });
  const u = (errors: Errors): number => Math.sqrt(Math.max(0, 2 * unshared(errors, errors)));
  return { independent: seeing(u(whole)), reused: seeing(u(own)) };
}
