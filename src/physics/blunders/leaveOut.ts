import { withValue } from '../estimate/benchNumbers';
import { type Adjustment, adjust } from '../fit/leastSquares';
import { type Result, refusal, success } from '../quantities';
import { type NumberRead, type TruckModel, truckModel } from '../estimate/truckModel';
import type { TruckBench } from '../estimate/truckReadings';
import { type TruckRefusal, heldLoosely } from '../estimate/adjustTruck';

/**
 * The adjustment of a bench without one of its numbers, exactly: the number may be off by any amount, which is one more
 * unknown. Reliability tells the same to first order, which holds until an error is so large that it bends the models.
 */

export interface WithoutNumber {
  readonly number: NumberRead;
  /** What all others say it should read, and the standard uncertainty of its reading against that (its own included). */
  readonly predicted: number;
  readonly offU: number;
  /** By how much it reads too much. */
  readonly off: number;
  /** Misfit of all others. */
  readonly chiSquared: number;
  readonly adjustment: Adjustment;
  readonly model: TruckModel;
  /** The model's unknowns, adjusted. */
  readonly unknowns: Float64Array;
}

/** Typical size of an error to start from; scales a column only. */
const ERROR_SCALE = { length: 0.01, mass: 0.05, angle: 0.02, share: 0.05 } as const;
/**
 * What the others tell is too vague to check a number by when its own u is not this part of theirs. Far less than for
 * residuals: an error of meters shows where one of millimeters does not.
 */
const UNCHECKED = 1e-4;
/** A step in it below this changes no printed digit. */
const NEGLIGIBLE = 1e-8;

export interface LeaveOutOptions {
  /** Value of the number to start from, where the one read is so wrong that the search would not find its way. */
  readonly start?: number;
  /** Unknowns of the bench's model to start from instead, as of the same bench without another number. */
  readonly near?: Float64Array;
  readonly maxIterations?: number;
}

/**
 * Adjusts `bench` with number `id` free. Refused as adjustTruck(), and as 'undetermined' where no other number checks it.
 */
export function withoutNumber(
  bench: TruckBench,
  id: string,
  { start, near, ...limits }: LeaveOutOptions = {},
): Result<WithoutNumber, TruckRefusal> {
  const read = truckModel(bench);
  if (!read.ok) return read;
  const number = read.value.numbers.find((each) => each.id === id);
  if (!number) return refusal('undetermined', `${id}: is no number of this bench.`);
  const from = start ?? number.value;
  const built = start === undefined ? read : truckModel(withValue(bench, id, start));
  if (!built.ok) return built;
  const model = built.value;
  const { observation: place, direction, kind } = number;
  const error = model.unknowns.length;
  const unknowns = [
    ...model.unknowns,
    { name: `${id}: error`, start: 0, scale: ERROR_SCALE[kind], negligible: NEGLIGIBLE },
  ];
  const observations = model.observations.map((observation, k) =>
    k === place
      ? {
          ...observation,
          depends: [...observation.depends, error],
          predict: (p: Float64Array) =>
            observation.predict(p).map((value, i) => value + (p[error] ?? NaN) * (direction[i] ?? 0)),
          ...(observation.derivative && {
            derivative: (p: Float64Array) =>
              (observation.derivative?.(p) ?? []).map((row, i) => [...row, direction[i] ?? 0]),
          }),
        }
      : observation,
  );
  const options = {
    ...limits,
    ...(near && { start: { unknowns: Float64Array.of(...near, errorAt(near, model, number)) } }),
  };
  const whole = adjust(unknowns, observations, options);
  const adjusted =
    whole.ok || whole.reason !== 'undetermined'
      ? whole
      : adjust(unknowns, [...observations, ...heldLoosely(model)], options);
  if (!adjusted.ok) return adjusted;
  const { unknowns: found, covariance, chiSquared } = adjusted.value;
  const offU = Math.sqrt(covariance.get(error, error));
  if (!(offU * UNCHECKED < number.u)) return refusal('undetermined', `${id}: no other number checks it.`);
  const off = nearestTurn(kind, number.value, (found[error] ?? NaN) + number.value - from);
  return success({
    number,
    predicted: number.value - off,
    off,
    offU,
    chiSquared,
    adjustment: adjusted.value,
    model,
    unknowns: found.slice(0, error),
  });
}

/** The error of an angle, counted from its predicted value within half a turn either way of zero. */
function nearestTurn(kind: NumberRead['kind'], value: number, off: number): number {
  if (kind !== 'angle') return off;
  const turn = 2 * Math.PI;
  return off + turn * Math.round((value - off) / turn);
}

/** What the number would be off by if these unknowns were true. */
function errorAt(near: Float64Array, model: TruckModel, { observation, direction }: NumberRead): number {
  const place = model.observations[observation];
  const predicted = place?.predict(near) ?? [];
  return direction.reduce((sum, by, i) => sum + by * ((place?.values[i] ?? NaN) - (predicted[i] ?? NaN)), 0);
}
