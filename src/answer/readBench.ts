import { TRUCK_DIMENSIONS, compositeCg, dimensionsNeeded, kilograms, meters, radians } from '../physics';
import type {
  Angle,
  CompositeCg,
  Estimate,
  HangReading,
  Length,
  Mass,
  Measured,
  PictureLinesReading,
  TruckBench,
  TruckDimensions,
  TruckReading,
} from '../physics';
import { axleShare } from '../photo/readState';
import { partsList } from '../sheet/derived';
import { emptyState } from '../sheet/empty';
import { isEmpty, readGiven } from '../sheet/given';
import { givensOf, type PlacedGiven } from '../sheet/givens';
import type { BuildState, Reading } from '../sheet/schema';

/**
 * From a build state as typed to the bench that the estimate takes: every reading in SI, or why it does not count.
 */

/** Why a reading of the sheet does not enter the estimate. */
export type NotCounted =
  | { readonly because: 'set aside' }
  /** A number of it is still empty. */
  | { readonly because: 'incomplete'; readonly message: string }
  /** A number of it cannot be read; the message stands at its field as well. */
  | { readonly because: 'fault'; readonly message: string }
  /** It needs a size of the truck that is not measured yet. */
  | { readonly because: 'waiting'; readonly for: keyof TruckDimensions | 'hook' }
  /** It tells of something else than the rigid truck: a live suspension, a first wheel, a slide. */
  | { readonly because: 'another kind' };

export interface ReadingEntry {
  readonly id: string;
  readonly kind: Reading['kind'] | 'parts list';
  readonly reading: TruckReading | null;
  readonly notCounted: NotCounted | null;
}

export interface BenchAsRead {
  /** Everything but the pictures. */
  readonly bench: TruckBench;
  /** In the order of the sheet. */
  readonly entries: readonly ReadingEntry[];
  /** Messages of sizes, hooks and instruments that cannot be read, in the order of the sheet. */
  readonly faults: readonly string[];
  readonly treadWidth: Estimate<Length> | null;
  readonly outsideWidth: Estimate<Length> | null;
  /** The listed parts together; null without a list or where one cannot be read. */
  readonly partsListCg: CompositeCg | null;
}

/** Reads one number by its path in the state; null where it is empty or cannot be read, which is noted. */
class Reader {
  readonly faults: string[] = [];
  private readonly placed = new Map<string, PlacedGiven>();
  /** What is wrong with the numbers read since the last call of `begin`. */
  private problem: NotCounted | null = null;

  constructor(state: BuildState) {
    for (const given of givensOf(state)) this.placed.set(given.path.join('/'), given);
  }

  begin(): void {
    this.problem = null;
  }

  get wrong(): NotCounted | null {
    return this.problem;
  }

  private number(path: string): Measured<number> | null {
    const placed = this.placed.get(path);
    if (!placed) throw new Error(`no given at ${path}`);
    const read = readGiven(placed.given, placed.field);
    if (read.ok) return read.value;
    if (read.reason === 'empty') this.problem ??= { because: 'incomplete', message: read.message };
    else {
      this.faults.push(read.message);
      this.problem = { because: 'fault', message: read.message };
    }
    return null;
  }

  length(path: string): Measured<Length> | null {
    const number = this.number(path);
    return number && { ...number, value: meters(number.value) };
  }
  mass(path: string): Measured<Mass> | null {
    const number = this.number(path);
    return number && { ...number, value: kilograms(number.value) };
  }
  angle(path: string): Measured<Angle> | null {
    const number = this.number(path);
    return number && { ...number, value: radians(number.value) };
  }
  isEmpty(path: string): boolean {
    const placed = this.placed.get(path);
    return !placed || isEmpty(placed.given);
  }
}

/** An object's state without the sizes, axles and hooks that only a truck has. */
const asObject = (state: BuildState): BuildState => {
  const { dimensions, unsprungFront, unsprungRear } = emptyState();
  return { ...state, dimensions, unsprungFront, unsprungRear, hooks: [] };
};

/** Branches of a state that are read here; while a mark is dragged none of them changes. */
const BRANCHES = [
  'body',
  'dimensions',
  'unsprungFront',
  'unsprungRear',
  'lateral',
  'instruments',
  'hooks',
  'readings',
  'parts',
  'countPartsList',
] as const satisfies readonly (keyof BuildState)[];

let last: { readonly state: BuildState; readonly scaled: boolean; readonly read: BenchAsRead } | null = null;

/** All readings of a state but its pictures. `pictures` is what they say, if they say anything. */
export function readBench(state: BuildState, pictures: PictureLinesReading | null): BenchAsRead {
  const scaled = pictures !== null;
  const before = last;
  const same =
    before?.scaled === scaled && BRANCHES.every((branch) => before.state[branch] === state[branch]);
  const read = same ? before.read : readTyped(state, scaled);
  last = { state, scaled, read };
  if (!pictures) return read;
  return { ...read, bench: { ...read.bench, readings: [...read.bench.readings, pictures] } };
}

function readTyped(state: BuildState, scaled: boolean): BenchAsRead {
  // What is left of a truck in an object's state has no meaning there, and must not stop its answer.
  const isObject = state.body === 'object';
  const reader = new Reader(isObject ? asObject(state) : state);
  const sizes = {
    wheelbase: reader.length('dimensions/wheelbase'),
    frontTrack: reader.length('dimensions/frontTrack'),
    rearTrack: reader.length('dimensions/rearTrack'),
    frontTireRadius: reader.length('dimensions/frontTireRadius'),
    rearTireRadius: reader.length('dimensions/rearTireRadius'),
    treadWidth: reader.length('dimensions/treadWidth'),
    frontAxleShare: axleShare(state, 'front axle'),
    rearAxleShare: axleShare(state, 'rear axle'),
  };
  const dimensions: TruckDimensions = Object.fromEntries(
    Object.entries(sizes).filter(([, size]) => size !== null),
  );
  const outsideWidth = reader.length('dimensions/outsideWidth');
  reader.mass('unsprungFront');
  reader.mass('unsprungRear');
  const lateral = reader.length('lateral') ?? { value: meters(0), u: 0.005 };
  const instruments = {
    scaleZero: reader.mass('instruments/scaleZero') ?? { value: kilograms(0), u: 0.0005 },
    rulerZero: reader.length('instruments/rulerZero') ?? { value: meters(0), u: 0.00015 },
    levelZero: reader.angle('instruments/levelZero') ?? { value: radians(0), u: 0.0018 },
  };
  const hooks = (isObject ? [] : state.hooks).flatMap(({ id, carrier, source }, index) => {
    if (source !== 'ruler') return [];
    reader.begin();
    const x = reader.length(`hooks/${index}/ahead`);
    const y = reader.length(`hooks/${index}/left`);
    const z = reader.length(`hooks/${index}/height`);
    return x && y && z ? [{ id, carrier, x, y, z }] : [];
  });
  const known = new Set(TRUCK_DIMENSIONS.filter((name) => sizes[name] !== null));
  // Pictures bring along what they measure themselves: by two points of known distance, and by the ground.
  if (scaled && !isObject)
    for (const name of ['wheelbase', 'frontTireRadius', 'rearTireRadius'] as const) known.add(name);

  // A reading that cannot be read is not counted, and says so itself; a size or hook that cannot be read stops the answer.
  const faults = [...reader.faults];
  const entries = state.readings.map((reading, index): ReadingEntry => {
    reader.begin();
    const { id, kind } = reading;
    const numbers = readingOf(reading, index, reader);
    const entry = (notCounted: NotCounted | null): ReadingEntry => ({
      id,
      kind,
      reading: numbers,
      notCounted,
    });
    if (!reading.counted) return entry({ because: 'set aside' });
    if (isAnotherKind(reading) || (isObject && kind !== 'total mass'))
      return entry({ because: 'another kind' });
    if (!numbers) return entry(reader.wrong ?? { because: 'waiting', for: 'hook' });
    if (numbers.kind === 'hang' && !hooks.some((hook) => hook.id === numbers.hook))
      return entry({ because: 'waiting', for: 'hook' });
    const lacking = dimensionsNeeded(numbers).find((name) => !known.has(name));
    return entry(lacking ? { because: 'waiting', for: lacking } : null);
  });
  const list = listOf(state);
  if (list) {
    entries.push({
      id: PARTS_LIST_ID,
      kind: 'parts list',
      reading: list.reading,
      notCounted: state.countPartsList ? null : { because: 'set aside' },
    });
  }
  return {
    bench: {
      dimensions,
      lateral,
      instruments,
      hooks,
      readings: entries.flatMap(({ reading, notCounted }) => (reading && !notCounted ? [reading] : [])),
    },
    entries,
    faults,
    treadWidth: sizes.treadWidth,
    outsideWidth,
    partsListCg: list?.cg ?? null,
  };
}

export const PARTS_LIST_ID = 'parts list';

/** What the rigid truck's readings must not be mixed with. */
export function isAnotherKind(reading: Reading): boolean {
  if (reading.kind === 'tilt board') return reading.event !== 'tips, suspension locked';
  return reading.kind === 'axle lift' && reading.suspension === 'free';
}

function readingOf(reading: Reading, index: number, reader: Reader): TruckReading | null {
  const { id } = reading;
  const at = (name: string) => `readings/${index}/${name}`;
  switch (reading.kind) {
    case 'total mass': {
      const load = reader.mass(at('load'));
      return load && { kind: 'total mass', id, load };
    }
    case 'axle scales': {
      const front = reader.mass(at('front'));
      const rear = reader.mass(at('rear'));
      return front && rear && { kind: 'axle scales', id, front, rear };
    }
    case 'wheel scales': {
      const frontLeft = reader.mass(at('frontLeft'));
      const frontRight = reader.mass(at('frontRight'));
      const rearLeft = reader.mass(at('rearLeft'));
      const rearRight = reader.mass(at('rearRight'));
      return (
        frontLeft &&
        frontRight &&
        rearLeft &&
        rearRight && { kind: 'wheel scales', id, frontLeft, frontRight, rearLeft, rearRight }
      );
    }
    case 'axle lift': {
      const load = reader.mass(at('load'));
      const axle = (name: 'front axle' | 'rear axle') => (name === 'front axle' ? 'front' : 'rear');
      const common = {
        kind: 'axle lift',
        id,
        raised: axle(reading.raised),
        scaleUnder: axle(reading.scaleUnder),
      } as const;
      if (reading.by === 'height') {
        const rise = reader.length(at('rise'));
        return load && rise && { ...common, load, lift: { by: 'height', rise } };
      }
      const angle = reader.angle(at('angle'));
      return load && angle && { ...common, load, lift: { by: 'angle', angle } };
    }
    case 'hang line': {
      const string = stringOf(reading, at, reader);
      const droop = droopOf(reading, at, reader);
      if (!string || droop === null || reading.hook === null) return null;
      const common = { kind: 'hang', id, view: reading.view, hook: reading.hook, string } as const;
      return droop ? { ...common, droop } : common;
    }
    case 'tilt board': {
      const angle = reader.angle(at('angle'));
      return angle && { kind: 'tilt', id, toward: reading.toward, angle };
    }
    case 'balance on an edge': {
      const place = reader.length(at('place'));
      const edge = reading.edge === 'across the truck' ? 'across' : 'along';
      return place && { kind: 'balance', id, edge, place };
    }
  }
}

type HangLineTyped = Extract<Reading, { kind: 'hang line' }>;

const SECOND_POINT = {
  side: ['ahead', 'height'],
  rear: ['left', 'height'],
  front: ['left', 'height'],
  top: ['ahead', 'left'],
} as const;

function stringOf(
  reading: HangLineTyped,
  at: (name: string) => string,
  reader: Reader,
): HangReading['string'] | null {
  if (reading.by === 'angle') {
    const angle = reader.angle(at('angle'));
    return angle && { by: 'angle', angle };
  }
  const [one, other] = SECOND_POINT[reading.view];
  const first = reader.length(at(one));
  const second = reader.length(at(other));
  return first && second && { by: 'second point', first, second };
}

/** undefined: locked. null: cannot be read. */
function droopOf(reading: HangLineTyped, at: (name: string) => string, reader: Reader) {
  if (reading.suspension === 'locked') return undefined;
  const front = reader.length(at('frontDroop'));
  const rear = reader.length(at('rearDroop'));
  return front && rear ? { front, rear } : null;
}

/** The listed parts as a reading, with the covariance of mass and place: both come from the same weights. */
function listOf(state: BuildState): { readonly cg: CompositeCg; readonly reading: TruckReading } | null {
  if (state.parts.length === 0) return null;
  const list = partsList(state);
  if (!list.ok) return null;
  const parts = list.value.map(({ mass, ahead, left, height }) => ({ mass, x: ahead, y: left, z: height }));
  const composite = compositeCg(parts);
  if (!composite.ok) return null;
  const cg = composite.value;
  const withMass = (['x', 'y', 'z'] as const).map((axis) =>
    cg.sensitivities.reduce((sum, by, i) => sum + by.mass[axis] * (parts[i]?.mass.u ?? 0) ** 2, 0),
  );
  const reading: TruckReading = {
    kind: 'parts list',
    id: PARTS_LIST_ID,
    values: [cg.mass.value, cg.x.value, cg.y.value, cg.z.value],
    covariance: [[cg.mass.u ** 2, ...withMass], ...cg.covariance.map((row, i) => [withMass[i] ?? 0, ...row])],
  };
  return { cg, reading };
}
