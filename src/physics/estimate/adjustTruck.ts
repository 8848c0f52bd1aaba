import { chiSquaredProbability } from '../fit/chiSquared';
import {
  adjust,
  prior,
  type Adjustment,
  type AdjustmentRefusal,
  type Observation,
} from '../fit/leastSquares';
import {
  type Estimate,
  type Length,
  type Mass,
  type Result,
  kilograms,
  meters,
  refusal,
  success,
} from '../quantities';
import { type Reliability, reliabilityOf } from './reliability';
import { type ModelRefusal, type TruckModel, truckModel } from './truckModel';
import type { TruckBench } from './truckReadings';

/**
 * The one estimate: center of gravity, mass and every dimension of a truck, adjusted together to all readings of a bench
 * by weighted least squares, as in geodetic adjustment and in the CODATA adjustment of constants (P. J. Mohr and
 * B. N. Taylor, Rev. Mod. Phys. 72 (2000) 351, appendix E).
 */

export type CgCoordinate = 'x' | 'y' | 'z';

export interface TruckAdjustment {
  /** Each coordinate, or null where no reading determines it. */
  readonly cg: Readonly<Record<CgCoordinate, Estimate<Length> | null>>;
  readonly mass: Estimate<Mass> | null;
  readonly undetermined: readonly (CgCoordinate | 'mass')[];
  /** 6 × 6 (m²): CG x, y, z, wheelbase, front track, rear track; rows of what is not there are zero. */
  readonly stanceCovariance: readonly (readonly number[])[];
  readonly wheelbase: Estimate<Length> | null;
  readonly frontTrack: Estimate<Length> | null;
  readonly rearTrack: Estimate<Length> | null;
  /** How far the tip line lies outside the tire centers, where a side tilt was read. */
  readonly tipLine: Estimate<Length> | null;
  readonly chiSquared: number;
  readonly degreesOfFreedom: number;
  /** Chance of a misfit this large or larger if every ± is right; null without degrees of freedom. */
  readonly probability: number | null;
  /** sqrt(chi-squared / degrees of freedom), reported and never applied. R. T. Birge, Phys. Rev. 40 (1932) 207. */
  readonly birgeRatio: number | null;
  readonly model: TruckModel;
  readonly adjustment: Adjustment;
  /** Every number read, with how well the others check it; made when first asked for. */
  readonly numbers: () => readonly Reliability[];
}

export type TruckRefusal = AdjustmentRefusal | ModelRefusal;

/** What an undetermined coordinate is held by, so that the others can still be told (m, kg): far wider than any truck. */
const HELD = { length: 10, mass: 1000 } as const;

/** The coordinates that may be undetermined, and how loosely each is held (m or kg). */
const heldPlaces = ({ at }: TruckModel): readonly { readonly index: number; readonly u: number }[] => [
  ...[at.x, at.y, at.z].map((index) => ({ index, u: HELD.length })),
  ...(at.mass === undefined ? [] : [{ index: at.mass, u: HELD.mass }]),
];

/** Priors that hold what no reading determines where it starts; of what is determined they change no printed digit. */
export const heldLoosely = (model: TruckModel): Observation[] =>
  heldPlaces(model).map(({ index, u }) => prior('held', index, model.unknowns[index]?.start ?? 0, u));

/** A coordinate that is still this much of that width is not determined. */
const UNDETERMINED = 0.01;

export interface TruckAdjustmentOptions {
  /** An earlier adjustment of the same readings with other numbers, to start from. */
  readonly from?: TruckAdjustment;
}

/**
 * Adjusts a bench. Too few readings are no refusal: what they determine is given, the rest is named in `undetermined`.
 * Refusals as in truckModel() and adjust().
 */
export function adjustTruck(
  bench: TruckBench,
  options: TruckAdjustmentOptions = {},
): Result<TruckAdjustment, TruckRefusal> {
  const built = truckModel(bench);
  if (!built.ok) return built;
  const model = built.value;
  const { unknowns, observations } = model;
  const before = options.from?.adjustment.unknowns;
  const start =
    before?.length === unknowns.length && before.every(Number.isFinite)
      ? { start: { unknowns: before } }
      : {};
  const near = before ? adjust(unknowns, observations, start) : null;
  const whole = near?.ok ? near : adjust(unknowns, observations);
  if (whole.ok) return success(described(model, whole.value, null));
  if (whole.reason !== 'undetermined') return whole;
  const partial = adjust(unknowns, [...observations, ...heldLoosely(model)]);
  return partial.ok
    ? success(described(model, partial.value, heldPlaces(model)))
    : refusal(partial.reason, partial.message);
}

function described(
  model: TruckModel,
  adjustment: Adjustment,
  held: readonly { readonly index: number; readonly u: number }[] | null,
): TruckAdjustment {
  const { at } = model;
  const { covariance, unknowns } = adjustment;
  const variance = (i: number, j: number) => covariance.get(i, j);
  const loose = new Set(
    held
      ?.filter(({ index, u }) => Math.sqrt(variance(index, index)) > UNDETERMINED * u)
      .map(({ index }) => index),
  );
  const estimate = (index: number | undefined): Estimate | null =>
    index === undefined || loose.has(index)
      ? null
      : { value: unknowns[index] ?? NaN, u: Math.sqrt(variance(index, index)) };
  const length = (index: number | undefined): Estimate<Length> | null => {
    const found = estimate(index);
    return found && { value: meters(found.value), u: found.u };
  };
  const mass = estimate(at.mass);
  const stance = [at.x, at.y, at.z, at.wheelbase, at.frontTrack, at.rearTrack];
  // Each held coordinate counts as a reading; each direction without a reading takes one back.
  const { chiSquared } = adjustment;
  const degreesOfFreedom =
    adjustment.degreesOfFreedom - (held ? held.length - directionsHeld(adjustment, held) : 0);
  let numbers: readonly Reliability[] | null = null;
  return {
    cg: { x: length(at.x), y: length(at.y), z: length(at.z) },
    mass: mass && { value: kilograms(mass.value), u: mass.u },
    undetermined: (
      [
        ['x', at.x],
        ['y', at.y],
        ['z', at.z],
        ['mass', at.mass],
      ] as const
    ).flatMap(([name, index]) => (index !== undefined && loose.has(index) ? [name] : [])),
    stanceCovariance: stance.map((i) =>
      stance.map((j) => (i === undefined || j === undefined ? 0 : variance(i, j))),
    ),
    wheelbase: length(at.wheelbase),
    frontTrack: length(at.frontTrack),
    rearTrack: length(at.rearTrack),
    tipLine: length(at.tipLine),
    chiSquared,
    degreesOfFreedom,
    probability: degreesOfFreedom > 0 ? chiSquaredProbability(chiSquared, degreesOfFreedom) : null,
    birgeRatio: degreesOfFreedom > 0 ? Math.sqrt(chiSquared / degreesOfFreedom) : null,
    model,
    adjustment,
    numbers: () => (numbers ??= reliabilityOf(adjustment, model.numbers)),
  };
}

/** In how many directions nothing but the holding determines the unknowns: the trace of what it contributes. */
function directionsHeld(
  { covariance }: Adjustment,
  held: readonly { readonly index: number; readonly u: number }[],
): number {
  return Math.round(held.reduce((sum, { index, u }) => sum + covariance.get(index, index) / (u * u), 0));
}
