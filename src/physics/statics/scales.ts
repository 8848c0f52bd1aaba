import { inverse, Matrix } from 'ml-matrix';
import type { GroundPoint } from '../places';
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
import { independent, propagate } from '../fit/uncertainty';

/**
 * CG from scales under the wheels. Scales read mass and only shares of it enter, so g cancels. A scale tells where
 * the CG stands over the ground, never how high it is.
 */

export type ScalesRefusal = 'not-finite' | 'load' | 'total-load' | 'dimension';

/** What makes readings and dimensions unusable, or null. A wheel on a scale can only press, never pull. */
const readingFault = (
  loads: readonly Estimate<Mass>[],
  dimensions: readonly Estimate<Length>[],
): { reason: ScalesRefusal; message: string } | null => {
  const all = [...loads, ...dimensions];
  if (!all.every(({ value, u }) => Number.isFinite(value) && u >= 0 && u < Infinity)) {
    return {
      reason: 'not-finite',
      message: 'A reading is missing or is not a number. Complete the readings.',
    };
  }
  if (loads.some(({ value }) => value < 0)) {
    return { reason: 'load', message: 'A scale reads below zero. Zero the scale empty and weigh again.' };
  }
  if (!(loads.reduce((sum, { value }) => sum + value, 0) > 0)) {
    return {
      reason: 'total-load',
      message: 'The scales carry nothing. Set the truck on them and read again.',
    };
  }
  if (dimensions.some(({ value }) => !(value > 0))) {
    return { reason: 'dimension', message: 'Wheelbase and track must be above zero. Measure hub to hub.' };
  }
  return null;
};

const uOf = (sensitivities: readonly number[], u: readonly number[]): number =>
  Math.hypot(...sensitivities.map((c, i) => c * (u[i] ?? NaN)));

/** Fore-aft place of the CG from axle scales. */
export interface AxleScalesCg {
  readonly mass: Estimate<Mass>;
  /** Ahead of the rear axle (m). */
  readonly x: Estimate<Length>;
  /** Part of the mass on the front axle, 0 to 1. */
  readonly frontShare: Estimate;
  /** ∂x/∂front, ∂x/∂rear (m/kg) and ∂x/∂wheelbase (−): what correlates x with everything scaled by the wheelbase. */
  readonly sensitivities: { readonly front: number; readonly rear: number; readonly wheelbase: number };
}

/**
 * CG from the readings under both axles, truck level: x = L F/(F + R) ahead of the rear axle, by moments about it
 * (Penn State ME 481, Notes 07_04, p. 3). u by JCGM 100:2008, eq. (10); the three readings are taken as independent.
 */
export const cgFromAxleScales = (
  front: Estimate<Mass>,
  rear: Estimate<Mass>,
  wheelbase: Estimate<Length>,
): Result<AxleScalesCg, ScalesRefusal> => {
  const fault = readingFault([front, rear], [wheelbase]);
  if (fault !== null) return refusal(fault.reason, fault.message);
  const mass = front.value + rear.value;
  const share = front.value / mass;
  const shareByFront = rear.value / mass ** 2;
  const shareByRear = -front.value / mass ** 2;
  const byFront = wheelbase.value * shareByFront;
  const byRear = wheelbase.value * shareByRear;
  return success({
    mass: { value: kilograms(mass), u: Math.hypot(front.u, rear.u) },
    x: {
      value: meters(wheelbase.value * share),
      u: uOf([byFront, byRear, share], [front.u, rear.u, wheelbase.u]),
    },
    frontShare: { value: share, u: uOf([shareByFront, shareByRear], [front.u, rear.u]) },
    sensitivities: { front: byFront, rear: byRear, wheelbase: share },
  });
};

/** Readings of four scales, one a wheel. */
export interface WheelLoads {
  readonly frontLeft: Estimate<Mass>;
  readonly frontRight: Estimate<Mass>;
  readonly rearLeft: Estimate<Mass>;
  readonly rearRight: Estimate<Mass>;
}

/** CG over the ground from wheel scales. */
export interface WheelScalesCg {
  readonly mass: Estimate<Mass>;
  /** Ahead of the rear axle (m). */
  readonly x: Estimate<Length>;
  /** Left of center (m). */
  readonly y: Estimate<Length>;
  /** 2 × 2, order x, y (m²). */
  readonly covariance: number[][];
  readonly frontShare: Estimate;
  readonly leftShare: Estimate;
  /** (front left + rear right) over the whole, 0 to 1. */
  readonly crossWeight: Estimate;
  /**
   * Rows x, y; columns front left, front right, rear left, rear right (m/kg), wheelbase, front track, rear track (−).
   */
  readonly sensitivities: number[][];
}

/**
 * CG from four wheel scales, truck level. Tracks are tire center to tire center and may differ.
 *
 *     x = L (FL + FR)/M,   y = [T_front (FL − FR) + T_rear (RL − RR)]/(2 M),   cross weight = (FL + RR)/M
 *
 * Only sums and moments of the four loads are used: a truck on four wheels is statically indeterminate, and a
 * shim under one wheel changes every single reading, but not these. u by JCGM 100:2008, eqs. (10) and (13); all
 * readings are taken as independent.
 */
export const cgFromWheelScales = (
  loads: WheelLoads,
  wheelbase: Estimate<Length>,
  frontTrack: Estimate<Length>,
  rearTrack: Estimate<Length>,
): Result<WheelScalesCg, ScalesRefusal> => {
  const readings = [loads.frontLeft, loads.frontRight, loads.rearLeft, loads.rearRight];
  const dimensions = [wheelbase, frontTrack, rearTrack];
  const fault = readingFault(readings, dimensions);
  if (fault !== null) return refusal(fault.reason, fault.message);

  const mass = readings.reduce((sum, { value }) => sum + value, 0);
  const uReadings = readings.map(({ u }) => u);
  // A share Σ a_i m_i/M has the sensitivities (a_i − share)/M.
  const shareOf = (arms: readonly number[]): { value: number; by: number[] } => {
    const value = readings.reduce((sum, load, i) => sum + (arms[i] ?? NaN) * load.value, 0) / mass;
    return { value, by: arms.map((arm) => (arm - value) / mass) };
  };
  const estimated = (arms: readonly number[]): Estimate => {
    const share = shareOf(arms);
    return { value: share.value, u: uOf(share.by, uReadings) };
  };
  const halfFront = frontTrack.value / 2;
  const halfRear = rearTrack.value / 2;
  const x = shareOf([wheelbase.value, wheelbase.value, 0, 0]);
  const y = shareOf([halfFront, -halfFront, halfRear, -halfRear]);
  const front = (loads.frontLeft.value - loads.frontRight.value) / (2 * mass);
  const rear = (loads.rearLeft.value - loads.rearRight.value) / (2 * mass);
  const frontShare = estimated([1, 1, 0, 0]);
  const sensitivities = [
    [...x.by, frontShare.value, 0, 0],
    [...y.by, 0, front, rear],
  ];
  const covariance = propagate(sensitivities, independent([...uReadings, ...dimensions.map(({ u }) => u)]));
  return success({
    mass: { value: kilograms(mass), u: Math.hypot(...uReadings) },
    x: { value: meters(x.value), u: Math.sqrt(covariance[0]?.[0] ?? NaN) },
    y: { value: meters(y.value), u: Math.sqrt(covariance[1]?.[1] ?? NaN) },
    covariance,
    frontShare,
    leftShare: estimated([1, 0, 1, 0]),
    crossWeight: estimated([1, 0, 0, 1]),
    sensitivities,
  });
};

/** One point of a weighing: where it presses on the scale, from any datum, and what the scale reads. */
export interface WeighingPoint extends GroundPoint {
  readonly load: Estimate<Mass>;
}

/** CG over the ground from a weighing on any number of points. */
export interface WeighingCg {
  readonly mass: Estimate<Mass>;
  /** From the same datum as the points; u from the loads alone. */
  readonly x: Estimate<Length>;
  readonly y: Estimate<Length>;
}

/**
 * CG of a body weighed on points whose places are known exactly, from any datum; arms behind the datum are negative.
 * x = Σ m_i x_i / Σ m_i and likewise y (moments about the datum). Moving the datum moves the CG's coordinates by
 * the same amount and nothing else.
 */
export const cgFromWeighingPoints = (points: readonly WeighingPoint[]): Result<WeighingCg, ScalesRefusal> => {
  const loads = points.map(({ load }) => load);
  const fault = readingFault(loads, []);
  if (fault !== null) return refusal(fault.reason, fault.message);
  if (!points.every(({ x, y }) => Number.isFinite(x) && Number.isFinite(y))) {
    return refusal('not-finite', 'A weighing point has no place yet. Measure it from the datum.');
  }
  const mass = loads.reduce((sum, { value }) => sum + value, 0);
  const mean = (arms: readonly number[]): Estimate<Length> => {
    const value = loads.reduce((sum, load, i) => sum + load.value * (arms[i] ?? NaN), 0) / mass;
    return {
      value: meters(value),
      u: uOf(
        arms.map((arm) => (arm - value) / mass),
        loads.map(({ u }) => u),
      ),
    };
  };
  return success({
    mass: { value: kilograms(mass), u: Math.hypot(...loads.map(({ u }) => u)) },
    x: mean(points.map(({ x }) => x)),
    y: mean(points.map(({ y }) => y)),
  });
};

/** Smallest height of a triangle, as a part of its longest side, that still tells three loads apart. */
const THINNEST_TRIANGLE = 1e-6;

/**
 * What three points carry of a body whose CG stands over `cg`: the one case of standing on wheels that statics alone
 * decides. Σ m_i = M, Σ m_i x_i = M x, Σ m_i y_i = M y. Refused: points in one line, and a CG outside the
 * triangle, where a point would have to pull.
 */
export const loadsOnThreePoints = (
  points: readonly [GroundPoint, GroundPoint, GroundPoint],
  cg: GroundPoint,
  mass: Mass,
): Result<readonly [Mass, Mass, Mass], 'not-finite' | 'in-one-line' | 'outside' | 'total-load'> => {
  const numbers = [...points.flatMap(({ x, y }) => [x, y]), cg.x, cg.y, mass];
  if (!numbers.every(Number.isFinite)) return refusal('not-finite', 'A point or the mass is missing.');
  if (!(mass > 0)) return refusal('total-load', 'The mass must be above zero.');
  const [a, b, c] = points;
  const doubleArea = Math.abs((b.x - a.x) * (c.y - a.y) - (c.x - a.x) * (b.y - a.y));
  const longest = Math.max(
    Math.hypot(b.x - a.x, b.y - a.y),
    Math.hypot(c.x - b.x, c.y - b.y),
    Math.hypot(a.x - c.x, a.y - c.y),
  );
  if (!(doubleArea > THINNEST_TRIANGLE * longest ** 2)) {
    return refusal('in-one-line', 'The three points lie in one line and hold the truck no way across it.');
  }
  // Coordinates from the first point, so that a far datum costs no digits.
  const arms = new Matrix([
    [1, 1, 1],
    [0, b.x - a.x, c.x - a.x],
    [0, b.y - a.y, c.y - a.y],
  ]);
  const shares = inverse(arms).mmul(Matrix.columnVector([1, cg.x - a.x, cg.y - a.y]));
  const loads = [0, 1, 2].map((i) => mass * shares.get(i, 0));
  const rounding = -1e-12 * mass;
  if (loads.some((load) => load < rounding)) {
    return refusal('outside', 'The CG stands outside the three points: one of them would have to pull.');
  }
  const [first = NaN, second = NaN, third = NaN] = loads.map((load) => Math.max(load, 0));
  return success([kilograms(first), kilograms(second), kilograms(third)]);
};
