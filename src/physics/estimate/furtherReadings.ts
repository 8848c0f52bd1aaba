import { CholeskyDecomposition, Matrix } from 'ml-matrix';
import type { TruckAdjustment } from './adjustTruck';
import {
  type CaredQuantity,
  type CaredRefusal,
  cared,
  overUnknowns,
  stanceAt,
  stanceQuantity,
} from './caredQuantity';
import type { Observation } from '../fit/leastSquares';
import { type Result, kilograms, meters, radians, success } from '../quantities';
import { RULED_DIMENSIONS, type TruckModel, truckModel } from './truckModel';
import { TRUCK_DIMENSIONS } from './truckReadings';
import type {
  Axle,
  HangView,
  HookPlace,
  Measured,
  TiltReading,
  TruckBench,
  TruckDimensions,
  TruckReading,
} from './truckReadings';

/**
 * What a reading not yet taken would do for the quantity a reader cares about. A reading that says what the present
 * estimate predicts leaves the estimate where it is and only narrows it: its observations are appended to those of the
 * adjustment, C' = C − C aᵀ (a C aᵀ + 1)⁻¹ a C row by row (R. L. Plackett, Biometrika 37 (1950) 149), with every unknown
 * of its own and every zero it shares. To first order this is the covariance after the reading is really taken.
 */

/** Where a hook can be fitted that the bench has not got. */
export type NewHookPlace =
  | 'rear bumper'
  | 'front bumper'
  | 'rear of the roof'
  | 'front of the roof'
  | 'middle of the roof'
  | 'left rail';

/** A hook of the bench by its id, or one to be fitted. */
export type HungFrom = { readonly hook: string } | { readonly place: NewHookPlace };

/** What is to be done at the bench, for words. */
export type FurtherWork =
  | { readonly kind: 'total mass' | 'axle scales' | 'wheel scales' | 'tip line' }
  | {
      readonly kind: 'axle lift';
      readonly raised: Axle;
      readonly by: 'height' | 'angle';
      /** True where both axles have to be weighed level as well. */
      readonly weighing: boolean;
    }
  | { readonly kind: 'hang'; readonly view: HangView; readonly from: readonly HungFrom[] }
  | { readonly kind: 'board'; readonly toward: readonly TiltReading['toward'][]; readonly times: number }
  | { readonly kind: 'balance'; readonly edge: 'across' | 'along' }
  | { readonly kind: 'again'; readonly reading: string }
  | {
      readonly kind: 'dimension';
      readonly names: readonly (keyof TruckDimensions)[];
      readonly by: 'ruler' | 'calipers';
    };

/** Which caution belongs to the work: truck hung, truck on a board, one axle lifted. */
export type FurtherCaution = 'hang' | 'board' | 'lift';

export interface FurtherReading {
  /** Unique among the candidates. */
  readonly id: string;
  readonly work: FurtherWork;
  /**
   * To be read, with the u expected; ids unlike those of the bench. Of the values only those that are chosen beforehand
   * matter (slope or rise of a lift); all others are predicted.
   */
  readonly readings: readonly TruckReading[];
  /** Hooks to be fitted. */
  readonly hooks: readonly HookPlace[];
  /** Dimensions to be measured: for the first time, then with a usual value, or better than before. */
  readonly dimensions: TruckDimensions;
  /** u of the tip line's place outside the tire centers, where that is to be looked for. */
  readonly tipLine: number | null;
  readonly minutes: number;
  readonly caution: FurtherCaution | null;
  /** Of candidates with the same name here only the best is told. */
  readonly oneOf: string | null;
}

export interface FurtherGain {
  readonly candidate: FurtherReading;
  /** Its readings as the present estimate predicts them. */
  readonly expected: readonly TruckReading[];
  /** Dimensions the bench lacks that have to be measured with it. */
  readonly needs: readonly (keyof TruckDimensions)[];
  /** u of the quantity now and then (m or rad); null where it is not determined. */
  readonly now: number | null;
  readonly then: number | null;
  /** now − then; null where either is. */
  readonly gain: number | null;
}

const NEEDED: Readonly<
  Record<
    CaredQuantity,
    {
      readonly dimensions: readonly ('wheelbase' | 'frontTrack' | 'rearTrack')[];
      readonly coordinates: readonly ('x' | 'y' | 'z')[];
    }
  >
> = {
  'side tip': { dimensions: ['wheelbase', 'frontTrack', 'rearTrack'], coordinates: ['y', 'z'] },
  height: { dimensions: [], coordinates: ['z'] },
  ahead: { dimensions: [], coordinates: ['x'] },
  left: { dimensions: [], coordinates: ['y'] },
  climb: { dimensions: [], coordinates: ['x', 'z'] },
  descent: { dimensions: ['wheelbase'], coordinates: ['x', 'z'] },
};

/** u before any reading of an unknown that a candidate brings, in its scales: 10 m, 50 kg, 10 rad. */
const UNREAD = 1000;
/** A coordinate of the CG that is less sure than this (m) tells nothing of a small truck: not determined. */
const LOOSE = 0.05;
/** Two u as good as each other; then the quicker work goes first. */
const EQUAL = 1e-6;

/**
 * What every candidate would do, best first: by the u that is left, equal ones by minutes; those that leave the quantity
 * undetermined last. Where the bench lacks a dimension of the quantity and a coordinate as well, `usual` sizes are taken
 * as measured along with each candidate. Refused as cared(), unless it is what candidates can mend.
 */
export function furtherReadings(
  bench: TruckBench,
  truck: TruckAdjustment,
  quantity: CaredQuantity,
  candidates: readonly FurtherReading[],
  usual: TruckDimensions,
): Result<readonly FurtherGain[], CaredRefusal> {
  const present = cared(truck, quantity);
  if (!present.ok && present.reason !== 'undetermined' && present.reason !== 'missing dimension') {
    // An open coordinate stands wherever the search left it.
    if (!NEEDED[quantity].coordinates.some((axis) => truck.undetermined.includes(axis))) return present;
  }
  const now = present.ok ? present.value.u : null;
  const open = NEEDED[quantity].coordinates.some((axis) => truck.undetermined.includes(axis));
  const along: TruckDimensions = open
    ? Object.fromEntries(NEEDED[quantity].dimensions.map((name) => [name, usual[name]]))
    : {};
  const before: Before = {
    bench,
    truck,
    places: new Map(truck.model.unknowns.map(({ name }, i) => [name, i])),
    names: new Set(truck.model.observations.map(({ name }) => name)),
  };
  const rows = candidates.map((candidate): FurtherGain => {
    const { then, expected, needs } = after(before, quantity, candidate, along);
    return { candidate, expected, needs, now, then, gain: now === null || then === null ? null : now - then };
  });
  const best = new Map<string, FurtherGain>();
  for (const row of rows.sort(better)) {
    const name = row.candidate.oneOf ?? `only ${row.candidate.id}`;
    if (!best.has(name)) best.set(name, row);
  }
  return success([...best.values()]);
}

function better(a: FurtherGain, b: FurtherGain): number {
  const [ua, ub] = [a.then ?? Infinity, b.then ?? Infinity];
  const equal = ua === ub || Math.abs(ua - ub) <= EQUAL * Math.min(ua, ub);
  return equal ? a.candidate.minutes - b.candidate.minutes : ua - ub;
}

interface Before {
  readonly bench: TruckBench;
  readonly truck: TruckAdjustment;
  /** Unknowns by name, and names of all observations. */
  readonly places: ReadonlyMap<string, number>;
  readonly names: ReadonlySet<string>;
}

function after(
  { bench, truck, places, names }: Before,
  quantity: CaredQuantity,
  candidate: FurtherReading,
  along: TruckDimensions,
): Pick<FurtherGain, 'then' | 'expected' | 'needs'> {
  const given = { ...along, ...candidate.dimensions };
  const isNew = (name: string): boolean => !places.has(name);
  const measured: [keyof TruckDimensions, Measured][] = [];
  for (const name of TRUCK_DIMENSIONS) {
    const size = given[name];
    if (size) measured.push([name, size]);
  }
  const needs = measured.flatMap(([name]) => (isNew(name) && name !== 'treadWidth' ? [name] : []));
  const grown: TruckBench = {
    ...bench,
    dimensions: { ...given, ...bench.dimensions },
    hooks: [...bench.hooks, ...candidate.hooks],
    readings: [...bench.readings, ...candidate.readings],
  };
  const built = truckModel(grown);
  const told = candidate.work.kind === 'dimension' ? [] : needs;
  if (!built.ok) return { then: null, expected: candidate.readings, needs: told };
  const model = built.value;
  const { unknowns, observations } = model;
  const at = Float64Array.from(unknowns, ({ name, start }) => {
    const place = places.get(name);
    return place === undefined ? start : (truck.adjustment.unknowns[place] ?? NaN);
  });
  const covariance = startOf(model, places, truck);
  const take = (observation: Observation): void => {
    for (const row of whitenedRows(observation, at)) narrow(covariance, observation.depends, row);
  };
  for (const observation of observations) if (!names.has(observation.name)) take(observation);
  const indexOf = (name: string): number => unknowns.findIndex((unknown) => unknown.name === name);
  // A second, better reading in place of the first: what its weight exceeds the first one's by.
  for (const [name, { u }] of measured) {
    const old = bench.dimensions[name];
    if (isNew(name) || !old || !(u < old.u)) continue;
    const zero = RULED_DIMENSIONS.has(name) ? [indexOf('rulerZero')] : [];
    take(reading([indexOf(name), ...zero], 1 / Math.sqrt(1 / u ** 2 - 1 / old.u ** 2)));
  }
  if (candidate.tipLine !== null && model.at.tipLine !== undefined)
    take(reading([model.at.tipLine], candidate.tipLine));
  const expected = candidate.readings.map((each) => predicted(each, model, at));

  const found = stanceQuantity(stanceAt(model, at), quantity);
  if (!found.ok) return { then: null, expected, needs: told };
  const gradient = overUnknowns(model, found.value.gradient, unknowns.length);
  const loose = [model.at.x, model.at.y, model.at.z].some(
    (index) => gradient[index] !== 0 && !(covariance.get(index, index) <= LOOSE ** 2),
  );
  let variance = 0;
  gradient.forEach((a, i) => {
    if (a !== 0) gradient.forEach((b, j) => (variance += a * b * covariance.get(i, j)));
  });
  return { then: loose ? null : Math.sqrt(Math.max(0, variance)), expected, needs: told };
}

/** A reading of the sum of unknowns; its value does not matter. */
const reading = (depends: readonly number[], u: number): Observation => ({
  name: 'further',
  depends,
  predict: () => [0],
  values: [0],
  uncertainty: [u],
  derivative: () => [depends.map(() => 1)],
});

/** Covariance in the grown model's unknowns before the candidate is read. */
function startOf(
  { unknowns }: TruckModel,
  places: Before['places'],
  { adjustment }: TruckAdjustment,
): Matrix {
  const old = unknowns.map(({ name }) => places.get(name));
  const start = Matrix.zeros(unknowns.length, unknowns.length);
  old.forEach((a, i) => {
    if (a === undefined) start.set(i, i, (UNREAD * (unknowns[i]?.scale ?? NaN)) ** 2);
    else old.forEach((b, j) => b !== undefined && start.set(i, j, adjustment.covariance.get(a, b)));
  });
  return start;
}

/** Takes one more reading of u = 1 with slopes `row` by `depends` into a covariance, in place. */
function narrow(covariance: Matrix, depends: readonly number[], row: readonly number[]): void {
  const size = covariance.rows;
  const gain = new Float64Array(size);
  for (let i = 0; i < size; i++) {
    let sum = 0;
    for (let k = 0; k < depends.length; k++) sum += (row[k] ?? 0) * covariance.get(depends[k] ?? NaN, i);
    gain[i] = sum;
  }
  let whole = 1;
  for (let k = 0; k < depends.length; k++) whole += (row[k] ?? 0) * (gain[depends[k] ?? NaN] ?? 0);
  for (let i = 0; i < size; i++) {
    const by = (gain[i] ?? 0) / whole;
    if (by === 0) continue;
    for (let j = 0; j < size; j++) covariance.set(i, j, covariance.get(i, j) - by * (gain[j] ?? 0));
  }
}

/** Slopes of an observation's values, made independent with u = 1. */
function whitenedRows(observation: Observation, at: Float64Array): number[][] {
  const slopes = observation.derivative?.(at) ?? [];
  const rows: number[][] = [];
  const matrix: number[][] = [];
  observation.uncertainty.forEach((u, i) => {
    if (typeof u === 'number') rows.push((slopes[i] ?? []).map((slope) => slope / u));
    else matrix.push([...u]);
  });
  if (matrix.length === 0) return rows;
  const lower = new CholeskyDecomposition(new Matrix(matrix)).lowerTriangularMatrix;
  slopes.forEach((slope, i) => {
    const own = [...slope];
    for (let k = 0; k < i; k++)
      own.forEach((value, j) => (own[j] = value - lower.get(i, k) * (rows[k]?.[j] ?? 0)));
    rows.push(own.map((value) => value / lower.get(i, i)));
  });
  return rows;
}

/** A reading with the values that the model predicts; correlated readings as they are. */
function predicted(
  given: TruckReading,
  { observations, numbers }: TruckModel,
  at: Float64Array,
): TruckReading {
  const values = new Map<string, number>();
  for (const { id, reading: owner, observation, direction } of numbers) {
    if (owner !== given.id) continue;
    const all = observations[observation]?.predict(at) ?? [];
    values.set(
      id,
      direction.reduce((sum, by, i) => sum + by * (all[i] ?? NaN), 0),
    );
  }
  const of = <Kind extends number>(name: string, measured: Measured<Kind>, as: (value: number) => Kind) => ({
    ...measured,
    value: as(values.get(`${given.id}.${name}`) ?? measured.value),
  });
  switch (given.kind) {
    case 'total mass':
      return { ...given, load: of('load', given.load, kilograms) };
    case 'axle scales':
      return {
        ...given,
        front: of('front', given.front, kilograms),
        rear: of('rear', given.rear, kilograms),
      };
    case 'wheel scales':
      return {
        ...given,
        frontLeft: of('frontLeft', given.frontLeft, kilograms),
        frontRight: of('frontRight', given.frontRight, kilograms),
        rearLeft: of('rearLeft', given.rearLeft, kilograms),
        rearRight: of('rearRight', given.rearRight, kilograms),
      };
    case 'axle lift': {
      const { lift } = given;
      return {
        ...given,
        lift:
          lift.by === 'height'
            ? { by: 'height', rise: of('rise', lift.rise, meters) }
            : { by: 'angle', angle: of('angle', lift.angle, radians) },
        load: of('load', given.load, kilograms),
      };
    }
    case 'hang': {
      const { string } = given;
      return {
        ...given,
        string:
          string.by === 'angle'
            ? { by: 'angle', angle: of('angle', string.angle, radians) }
            : {
                by: 'second point',
                first: of('first', string.first, meters),
                second: of('second', string.second, meters),
              },
      };
    }
    case 'tilt':
      return { ...given, angle: of('angle', given.angle, radians) };
    case 'balance':
      return { ...given, place: of('place', given.place, meters) };
    default:
      return given;
  }
}
