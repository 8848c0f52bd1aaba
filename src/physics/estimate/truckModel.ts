import type { ErrorLaw } from '../fit/drawReadings';
import { type Observation, type Unknown } from '../fit/leastSquares';
import { type Result, refusal, success } from '../quantities';
import type {
  Axle,
  AxleLiftReading,
  HangReading,
  HangView,
  HookPlace,
  Instruments,
  Measured,
  PictureLinesReading,
  SharedValue,
  SharedWithPictures,
  TiltReading,
  TruckBench,
  TruckDimensions,
  TruckReading,
  WheelScalesReading,
} from './truckReadings';

/**
 * A bench as a least-squares problem: the unknown truck, and for every number read what it would read if the truck
 * were so. Truck axes: x forward, y left, z up, origin on the ground midway between the rear tire contacts.
 *
 * Statics and geometry are those of a rigid truck. Sources: moments about the rear axle, Penn State ME 481 Notes 07_04,
 * p. 3 (scales) and p. 4, ISO 10392:2011, 6.2 (axle lift, here with the exact hub line). A body on one string rests
 * with its CG below the hook (hang) and tips when its CG stands over an edge of its contacts (tilt): first principles.
 */

/** What a number read is, for units and words. */
export type NumberKind = 'length' | 'mass' | 'angle' | 'share';

/** One number read, as far as a blunder in it could be told. */
export interface NumberRead {
  /** Reading or dimension, then the number in it: "lift-1.load", "frontTrack". */
  readonly id: string;
  /** Id of the reading it belongs to; null for dimensions, instruments, hooks and assumptions. */
  readonly reading: string | null;
  readonly kind: NumberKind;
  /** Where it stands in the problem, and which way a blunder of size one moves that observation's values. */
  readonly observation: number;
  readonly direction: readonly number[];
  /** As read, SI. */
  readonly value: number;
  readonly u: number;
}

export interface TruckModel {
  readonly unknowns: readonly Unknown[];
  readonly observations: readonly Observation[];
  /** One an observation: the laws of its values; correlated ones are normal. */
  readonly laws: readonly (readonly ErrorLaw[])[];
  readonly numbers: readonly NumberRead[];
  /** Places among the unknowns; undefined where the bench has none. */
  readonly at: {
    readonly x: number;
    readonly y: number;
    readonly z: number;
    readonly mass: number | undefined;
    readonly wheelbase: number | undefined;
    readonly frontTrack: number | undefined;
    readonly rearTrack: number | undefined;
    /** How far the tip line lies outside the tire centers. */
    readonly tipLine: number | undefined;
  };
}

export type ModelRefusal = 'missing dimension' | 'unknown hook' | 'shared twice';

/** The tread while none was measured, m: trail tires' treads are 30-60 mm (common practice). */
const USUAL_TREAD = 0.045;
/** Start of the height of the CG, as a part of the wheelbase. */
const START_HEIGHT = 0.3;
/** Wheelbase to start from where nothing gives it. */
const START_WHEELBASE = 0.3;

/** Steps below these change no digit that anyone prints. */
const NEGLIGIBLE = { length: 1e-8, mass: 1e-8, angle: 1e-8, share: 1e-8 } as const;
const SCALE = { length: 0.01, mass: 0.05, angle: 0.01, share: 0.05 } as const;

/** Dimensions without which a reading says nothing. */
export function dimensionsNeeded(reading: TruckReading): readonly (keyof TruckDimensions)[] {
  switch (reading.kind) {
    case 'axle scales':
      return ['wheelbase'];
    case 'wheel scales':
      return ['wheelbase', 'frontTrack', 'rearTrack'];
    case 'axle lift':
      return ['wheelbase', 'frontTireRadius', 'rearTireRadius'];
    case 'tilt':
      if (reading.toward === 'nose up') return [];
      return reading.toward === 'nose down' ? ['wheelbase'] : ['wheelbase', 'frontTrack', 'rearTrack'];
    case 'hang':
      return reading.droop ? ['frontAxleShare', 'rearAxleShare'] : [];
    default:
      return [];
  }
}

const SHARED_NAMES: Readonly<Record<SharedWithPictures, keyof TruckDimensions | 'y' | 'rulerZero'>> = {
  wheelbase: 'wheelbase',
  'front track': 'frontTrack',
  'rear track': 'rearTrack',
  'front tire radius': 'frontTireRadius',
  'rear tire radius': 'rearTireRadius',
  'lateral place': 'y',
  'front axle share': 'frontAxleShare',
  'rear axle share': 'rearAxleShare',
  'ruler zero': 'rulerZero',
};
/** The unknown that pictures share. */
const sharedName = (shared: SharedValue): string =>
  shared.quantity === 'hook' ? hookName(shared.hook, shared.axis) : SHARED_NAMES[shared.quantity];
const hookName = (id: string, axis: 'x' | 'y' | 'z'): string => `hook ${id}.${axis}`;

/** Dimensions measured with a ruler share its zero. */
export const RULED_DIMENSIONS: ReadonlySet<keyof TruckDimensions> = new Set([
  'wheelbase',
  'frontTrack',
  'rearTrack',
  'frontTireRadius',
  'rearTireRadius',
]);
const RATIOS: ReadonlySet<string> = new Set(['frontAxleShare', 'rearAxleShare']);

type P = Float64Array;
const read = (p: P, index: number | undefined): number => (index === undefined ? 0 : (p[index] ?? NaN));

/** Builds the problem up, number by number. */
class Builder {
  readonly unknowns: Unknown[] = [];
  readonly observations: Observation[] = [];
  readonly laws: ErrorLaw[][] = [];
  readonly numbers: NumberRead[] = [];

  unknown(name: string, kind: NumberKind, start: number): number {
    this.unknowns.push({ name, start, scale: SCALE[kind], negligible: NEGLIGIBLE[kind] });
    return this.unknowns.length - 1;
  }

  /** Several numbers with independent errors, predicted together. */
  observe(
    observation: Omit<Observation, 'values' | 'uncertainty'>,
    reading: string | null,
    values: readonly { readonly id: string; readonly kind: NumberKind; readonly measured: Measured }[],
  ): void {
    const place = this.observations.length;
    this.observations.push({
      ...observation,
      values: values.map(({ measured }) => measured.value),
      uncertainty: values.map(({ measured }) => measured.u),
    });
    this.laws.push(values.map(({ measured }) => measured.law ?? 'normal'));
    values.forEach(({ id, kind, measured }, i) =>
      this.numbers.push({
        id,
        reading,
        kind,
        observation: place,
        direction: values.map((_, j) => (i === j ? 1 : 0)),
        value: measured.value,
        u: measured.u,
      }),
    );
  }

  /** A number that reads an unknown directly, perhaps too much by an instrument's zero. */
  reads(
    id: string,
    kind: NumberKind,
    index: number,
    measured: Measured,
    zero?: number,
    reading: string | null = null,
  ): void {
    const depends = zero === undefined ? [index] : [index, zero];
    const slopes = [depends.map(() => 1)];
    this.observe(
      {
        name: id,
        depends,
        predict: (p) => [read(p, index) + read(p, zero)],
        derivative: () => slopes,
      },
      reading,
      [{ id, kind, measured }],
    );
  }
}

/** Places of everything a model needs. */
interface Places {
  readonly x: number;
  readonly y: number;
  readonly z: number;
  readonly scaleZero: number;
  readonly rulerZero: number;
  readonly levelZero: number;
  readonly dimension: (name: keyof TruckDimensions) => number;
  readonly mass: () => number;
  readonly tipLine: () => number;
  readonly hook: (id: string, axis: 'x' | 'y' | 'z') => number;
}

/**
 * The problem of a bench. Every dimension given is a reading of its own; dimensions and hooks that pictures share come
 * from them alone. Refused: a reading whose dimensions are not given (see dimensionsNeeded), a hang from a hook that is
 * none, two readings of pictures that share one quantity, whose givens would count twice.
 */
export function truckModel(bench: TruckBench): Result<TruckModel, ModelRefusal> {
  const { dimensions, readings, hooks } = bench;
  const shared = new Map<string, number>();
  for (const reading of readings) {
    if (reading.kind !== 'picture lines') continue;
    for (const each of reading.shared) {
      const name = sharedName(each);
      if (shared.has(name))
        return refusal(
          'shared twice',
          `${reading.id}: needs pictures that share nothing with others; got ${name} twice. Fit them all together.`,
        );
      shared.set(name, each.value);
    }
  }
  for (const reading of readings) {
    const lacking = dimensionsNeeded(reading).find((name) => !dimensions[name] && !shared.has(name));
    if (lacking) return refusal('missing dimension', `${reading.id}: needs ${lacking}.`);
    if (reading.kind === 'hang' && !hooks.some(({ id }) => id === reading.hook))
      return refusal('unknown hook', `${reading.id}: needs a hook of this bench.`);
  }

  const b = new Builder();
  const wheelbaseStart = dimensions.wheelbase?.value ?? shared.get('wheelbase') ?? START_WHEELBASE;
  const x = b.unknown('x', 'length', wheelbaseStart / 2);
  const y = b.unknown('y', 'length', bench.lateral.value);
  const z = b.unknown('z', 'length', START_HEIGHT * wheelbaseStart);
  const zero = (name: keyof Instruments, kind: NumberKind) => {
    const index = b.unknown(name, kind, bench.instruments[name].value);
    if (name !== 'rulerZero' || !shared.has(name)) b.reads(name, kind, index, bench.instruments[name]);
    return index;
  };
  const rulerZero = zero('rulerZero', 'length');
  const scaleZero = zero('scaleZero', 'mass');
  const levelZero = zero('levelZero', 'angle');
  if (!shared.has('y')) b.reads('lateral', 'length', y, bench.lateral);

  const sizes = new Map<keyof TruckDimensions, number>();
  const addDimension = (name: keyof TruckDimensions, start: number): number => {
    const kind = RATIOS.has(name) ? 'share' : 'length';
    const index = b.unknown(name, kind, start);
    sizes.set(name, index);
    return index;
  };
  for (const name of [
    'wheelbase',
    'frontTrack',
    'rearTrack',
    'frontTireRadius',
    'rearTireRadius',
    'frontAxleShare',
    'rearAxleShare',
  ] as const) {
    const given = dimensions[name];
    if (shared.has(name)) addDimension(name, given?.value ?? shared.get(name) ?? NaN);
    else if (given)
      b.reads(
        name,
        RATIOS.has(name) ? 'share' : 'length',
        addDimension(name, given.value),
        given,
        RULED_DIMENSIONS.has(name) ? rulerZero : undefined,
      );
  }

  let mass: number | undefined;
  let tipLine: number | undefined;
  const hookPlaces = new Map<string, number>();
  const places: Places = {
    x,
    y,
    z,
    scaleZero,
    rulerZero,
    levelZero,
    dimension: (name) => sizes.get(name) ?? NaN,
    mass: () => (mass ??= b.unknown('mass', 'mass', massStart(readings))),
    tipLine: () => {
      if (tipLine !== undefined) return tipLine;
      // Anywhere between the tire's center and the edge of its tread, without preference.
      const widest = (dimensions.treadWidth?.value ?? USUAL_TREAD) / 2;
      tipLine = b.unknown('tip line', 'length', widest / 2);
      b.reads('tip line', 'length', tipLine, {
        value: widest / 2,
        u: widest / 2 / Math.sqrt(3),
        law: 'rectangular',
      });
      return tipLine;
    },
    hook: (id, axis) => {
      const name = hookName(id, axis);
      const held = hookPlaces.get(name);
      if (held !== undefined) return held;
      const given = hooks.find((hook): hook is HookPlace => hook.id === id)?.[axis];
      const index = b.unknown(name, 'length', given?.value ?? shared.get(name) ?? NaN);
      hookPlaces.set(name, index);
      if (given && !shared.has(name)) b.reads(name, 'length', index, given, rulerZero);
      return index;
    },
  };
  for (const reading of readings) addReading(b, places, bench, reading);
  return success({
    unknowns: b.unknowns,
    observations: b.observations,
    laws: b.laws,
    numbers: b.numbers,
    at: {
      x,
      y,
      z,
      mass,
      wheelbase: sizes.get('wheelbase'),
      frontTrack: sizes.get('frontTrack'),
      rearTrack: sizes.get('rearTrack'),
      tipLine,
    },
  });
}

function massStart(readings: readonly TruckReading[]): number {
  for (const reading of readings) {
    if (reading.kind === 'total mass') return reading.load.value;
    if (reading.kind === 'axle scales') return reading.front.value + reading.rear.value;
    if (reading.kind === 'parts list') return reading.values[0];
    if (reading.kind === 'wheel scales')
      return (
        reading.frontLeft.value + reading.frontRight.value + reading.rearLeft.value + reading.rearRight.value
      );
  }
  const lift = readings.find((reading) => reading.kind === 'axle lift');
  return lift ? 2 * lift.load.value : 1;
}

function addReading(b: Builder, at: Places, bench: TruckBench, reading: TruckReading): void {
  const { id } = reading;
  switch (reading.kind) {
    case 'total mass':
      return b.reads(`${id}.load`, 'mass', at.mass(), reading.load, at.scaleZero, id);
    case 'axle scales':
      return addAxleScales(b, at, id, reading.front, reading.rear);
    case 'wheel scales':
      return addWheelScales(b, at, reading);
    case 'axle lift':
      return addAxleLift(b, at, reading);
    case 'hang':
      return addHang(b, at, reading, bench);
    case 'tilt':
      return addTilt(b, at, reading);
    case 'balance':
      return b.reads(
        `${id}.place`,
        'length',
        reading.edge === 'across' ? at.x : at.y,
        reading.place,
        at.rulerZero,
        id,
      );
    case 'parts list': {
      const depends = [at.mass(), at.x, at.y, at.z];
      const kinds: readonly NumberKind[] = ['mass', 'length', 'length', 'length'];
      const place = b.observations.length;
      b.observations.push({
        name: id,
        depends,
        predict: (p) => depends.map((index) => read(p, index)),
        values: reading.values,
        uncertainty: reading.covariance,
        derivative: () => depends.map((_, i) => depends.map((__, j) => (i === j ? 1 : 0))),
      });
      b.laws.push(kinds.map(() => 'normal'));
      ['mass', 'ahead', 'left', 'height'].forEach((name, i) =>
        b.numbers.push({
          id: `${id}.${name}`,
          reading: id,
          kind: kinds[i] ?? 'length',
          observation: place,
          direction: kinds.map((_, j) => (i === j ? 1 : 0)),
          value: reading.values[i] ?? NaN,
          u: Math.sqrt(reading.covariance[i]?.[i] ?? NaN),
        }),
      );
      return;
    }
    case 'picture lines':
      return addPictureLines(b, at, reading);
  }
}

/** Front M x/L, rear M (1 − x/L): moments about either axle. */
function addAxleScales(b: Builder, at: Places, id: string, front: Measured, rear: Measured): void {
  const mass = at.mass();
  const L = at.dimension('wheelbase');
  const depends = [mass, at.x, L, at.scaleZero];
  b.observe(
    {
      name: id,
      depends,
      predict: (p) => {
        const onFront = (read(p, mass) * read(p, at.x)) / read(p, L);
        return [onFront + read(p, at.scaleZero), read(p, mass) - onFront + read(p, at.scaleZero)];
      },
      derivative: (p) => {
        const share = read(p, at.x) / read(p, L);
        const byX = read(p, mass) / read(p, L);
        const byL = -byX * share;
        return [
          [share, byX, byL, 1],
          [1 - share, -byX, -byL, 1],
        ];
      },
    },
    id,
    [
      { id: `${id}.front`, kind: 'mass', measured: front },
      { id: `${id}.rear`, kind: 'mass', measured: rear },
    ],
  );
}

/**
 * Four loads of which statics gives three: with `twist` half the front difference, the rear difference follows from
 * the moment about the center line, T_f·twist + T_r·c = M y. The twist is free: a shim under one wheel changes it.
 */
function addWheelScales(b: Builder, at: Places, reading: WheelScalesReading): void {
  const { id, frontLeft, frontRight, rearLeft, rearRight } = reading;
  const mass = at.mass();
  const L = at.dimension('wheelbase');
  const front = at.dimension('frontTrack');
  const rear = at.dimension('rearTrack');
  const twist = b.unknown(`${id}: twist`, 'mass', (frontLeft.value - frontRight.value) / 2);
  const depends = [mass, at.x, L, at.y, front, rear, twist, at.scaleZero];
  b.observe(
    {
      name: id,
      depends,
      predict: (p) => {
        const half = (read(p, mass) * read(p, at.x)) / read(p, L) / 2;
        const a = read(p, twist);
        const c = (read(p, mass) * read(p, at.y) - read(p, front) * a) / read(p, rear);
        const behind = read(p, mass) / 2 - half;
        const s = read(p, at.scaleZero);
        return [half + a + s, half - a + s, behind + c + s, behind - c + s];
      },
      derivative: (p) => {
        const share = read(p, at.x) / read(p, L);
        const byX = read(p, mass) / read(p, L) / 2;
        const byL = -byX * share;
        const Tr = read(p, rear);
        const a = read(p, twist);
        const c = (read(p, mass) * read(p, at.y) - read(p, front) * a) / Tr;
        const side = [
          read(p, at.y) / Tr,
          0,
          0,
          read(p, mass) / Tr,
          -a / Tr,
          -c / Tr,
          -read(p, front) / Tr,
          0,
        ];
        const behind = [(1 - share) / 2, -byX, -byL, 0, 0, 0, 0, 1];
        return [
          [share / 2, byX, byL, 0, 0, 0, 1, 1],
          [share / 2, byX, byL, 0, 0, 0, -1, 1],
          behind.map((value, i) => value + (side[i] ?? 0)),
          behind.map((value, i) => value - (side[i] ?? 0)),
        ];
      },
    },
    id,
    [
      { id: `${id}.frontLeft`, kind: 'mass', measured: frontLeft },
      { id: `${id}.frontRight`, kind: 'mass', measured: frontRight },
      { id: `${id}.rearLeft`, kind: 'mass', measured: rearLeft },
      { id: `${id}.rearRight`, kind: 'mass', measured: rearRight },
    ],
  );
}

/**
 * A rigid truck with one axle raised to the slope t (nose up positive), each axle carried straight upward through its
 * hubs: front share X/X_f with X = x cos t − (z − r_r) sin t the CG's and X_f = L cos t − (r_f − r_r) sin t the front
 * hub's horizontal distance from the rear hub. The slope itself is unknown; its own reading is the rise or the angle.
 */
function addAxleLift(b: Builder, at: Places, reading: AxleLiftReading): void {
  const { id, raised, lift, scaleUnder, load } = reading;
  const mass = at.mass();
  const L = at.dimension('wheelbase');
  const rf = at.dimension('frontTireRadius');
  const rr = at.dimension('rearTireRadius');
  const sign = raised === 'front' ? 1 : -1;
  const wheelbase = b.unknowns[L]?.start ?? START_WHEELBASE;
  const start =
    lift.by === 'angle'
      ? lift.angle.value
      : Math.asin(Math.max(-0.95, Math.min(0.95, lift.rise.value / wheelbase)));
  // The slope's size: of the nose with the front raised, of the tail with the rear raised.
  const slope = b.unknown(`${id}: slope`, 'angle', start);
  if (lift.by === 'angle') b.reads(`${id}.angle`, 'angle', slope, lift.angle, at.levelZero, id);
  else {
    b.observe(
      {
        name: `${id}: rise`,
        depends: [slope, L, rf, rr, at.rulerZero],
        predict: (p) => {
          const t = read(p, slope);
          const step = sign * (read(p, rf) - read(p, rr));
          return [read(p, L) * Math.sin(t) + step * (Math.cos(t) - 1) + read(p, at.rulerZero)];
        },
        derivative: (p) => {
          const t = read(p, slope);
          const step = sign * (read(p, rf) - read(p, rr));
          const drop = sign * (Math.cos(t) - 1);
          return [[read(p, L) * Math.cos(t) - step * Math.sin(t), Math.sin(t), drop, -drop, 1]];
        },
      },
      id,
      [{ id: `${id}.rise`, kind: 'length', measured: lift.rise }],
    );
  }
  const depends = [mass, at.x, at.z, L, rf, rr, slope, at.scaleZero];
  const geometry = (p: P) => {
    const t = sign * read(p, slope);
    const [sin, cos] = [Math.sin(t), Math.cos(t)];
    const high = read(p, at.z) - read(p, rr);
    const step = read(p, rf) - read(p, rr);
    const far = read(p, L) * cos - step * sin;
    return { sin, cos, high, step, far, share: (read(p, at.x) * cos - high * sin) / far };
  };
  b.observe(
    {
      name: `${id}: load`,
      depends,
      predict: (p) => {
        const { share } = geometry(p);
        const own = scaleUnder === 'front' ? share : 1 - share;
        return [read(p, mass) * own + read(p, at.scaleZero)];
      },
      derivative: (p) => {
        const { sin, cos, high, step, far, share } = geometry(p);
        const own = scaleUnder === 'front' ? share : 1 - share;
        const by = ((scaleUnder === 'front' ? 1 : -1) * read(p, mass)) / far;
        const turn = -read(p, at.x) * sin - high * cos - share * (-read(p, L) * sin - step * cos);
        return [
          [
            own,
            by * cos,
            -by * sin,
            -by * share * cos,
            by * share * sin,
            by * (sin - share * sin),
            by * sign * turn,
            1,
          ],
        ];
      },
    },
    id,
    [{ id: `${id}.load`, kind: 'mass', measured: load }],
  );
}

/** The two axes a view shows. */
export const VIEW_AXES = {
  side: ['x', 'z'],
  rear: ['y', 'z'],
  front: ['y', 'z'],
  top: ['x', 'y'],
} as const satisfies Record<HangView, readonly ['x' | 'y', 'y' | 'z']>;

/**
 * Hook and CG as hung lie on the string's line (a body on one string rests with its CG below the hook), in every view.
 * By angle: the slope of the truck is the angle of the line from its own vertical. By a second point: the point lies on
 * the line, at an unknown distance from the hook.
 */
function addHang(b: Builder, at: Places, reading: HangReading, bench: TruckBench): void {
  const { id, view, hook, string, droop } = reading;
  const [first, second] = VIEW_AXES[view];
  const carrier = bench.hooks.find((each) => each.id === hook)?.carrier ?? 'body';
  const moves = second === 'z' && droop ? droop : null;
  const axles = ['front', 'rear'] as const;
  const dropped = moves
    ? axles.map((axle: Axle) => {
        const index = b.unknown(`${id}: ${axle} droop`, 'length', moves[axle].value);
        b.reads(`${id}.${axle}Droop`, 'length', index, moves[axle], undefined, id);
        return { axle, index };
      })
    : [];
  const cgFirst = at[first];
  const cgSecond = at[second];
  const hookFirst = at.hook(hook, first);
  const hookSecond = at.hook(hook, second);
  const shareOf = (axle: Axle) => at.dimension(axle === 'front' ? 'frontAxleShare' : 'rearAxleShare');
  // The CG as hung lies lower by share times droop of each axle.
  const drops = dropped.map(({ axle, index }) => ({ droop: index, share: shareOf(axle) }));
  const hookDrop = dropped.find(({ axle }) => carrier === `${axle} axle`)?.index;
  // Vector from hook to CG along both axes, and its slopes by what it depends on.
  const depends = [
    cgFirst,
    cgSecond,
    hookFirst,
    hookSecond,
    ...drops.flatMap(({ droop: index, share }) => [index, share]),
  ];
  const vector = (p: P) => {
    let v = read(p, cgSecond) - read(p, hookSecond) + (hookDrop === undefined ? 0 : read(p, hookDrop));
    for (const { droop: index, share } of drops) v -= read(p, share) * read(p, index);
    return { u: read(p, cgFirst) - read(p, hookFirst), v };
  };
  const slopesOfV = (p: P): number[] => [
    0,
    1,
    0,
    -1,
    ...drops.flatMap(({ droop: index, share }) => [
      -read(p, share) + (index === hookDrop ? 1 : 0),
      -read(p, index),
    ]),
  ];
  const slopesOfU = [1, 0, -1, 0, ...drops.flatMap(() => [0, 0])];
  if (string.by === 'angle') {
    b.observe(
      {
        name: id,
        depends: [...depends, at.levelZero],
        predict: (p) => {
          const { u, v } = vector(p);
          return [near(Math.atan2(u, -v), string.angle.value) + read(p, at.levelZero)];
        },
        derivative: (p) => {
          const { u, v } = vector(p);
          const square = u * u + v * v;
          const ofV = slopesOfV(p);
          return [[...slopesOfU.map((ou, i) => (-v * ou + u * (ofV[i] ?? 0)) / square), 1]];
        },
      },
      id,
      [{ id: `${id}.angle`, kind: 'angle', measured: string.angle }],
    );
    return;
  }
  const hookAt = [b.unknowns[hookFirst]?.start ?? 0, b.unknowns[hookSecond]?.start ?? 0] as const;
  const cgAt = [b.unknowns[cgFirst]?.start ?? 0, b.unknowns[cgSecond]?.start ?? 0] as const;
  // Below the hook or above it, on whichever side the point was taken.
  const way = [string.first.value - hookAt[0], string.second.value - hookAt[1]] as const;
  const along =
    Math.hypot(...way) * (way[0] * (cgAt[0] - hookAt[0]) + way[1] * (cgAt[1] - hookAt[1]) >= 0 ? 1 : -1);
  const distance = b.unknown(`${id}: point along the string`, 'length', along);
  const all = [...depends, distance, at.rulerZero];
  b.observe(
    {
      name: id,
      depends: all,
      predict: (p) => {
        const { u, v } = vector(p);
        const far = read(p, distance) / Math.hypot(u, v);
        const k = read(p, at.rulerZero);
        const lowered = hookDrop === undefined ? 0 : read(p, hookDrop);
        return [read(p, hookFirst) + far * u + k, read(p, hookSecond) - lowered + far * v + k];
      },
      derivative: (p) => {
        const { u, v } = vector(p);
        const size = Math.hypot(u, v);
        const far = read(p, distance) / size;
        const ofV = slopesOfV(p);
        const square = size * size;
        const rows: [number[], number[]] = [[], []];
        slopesOfU.forEach((ou, i) => {
          const ov = ofV[i] ?? 0;
          // Turning the unit vector: across itself only.
          const turn = (u * ov - v * ou) / square;
          rows[0].push(-far * v * turn + (depends[i] === hookFirst ? 1 : 0));
          rows[1].push(
            far * u * turn + (depends[i] === hookSecond ? 1 : 0) - (depends[i] === hookDrop ? 1 : 0),
          );
        });
        rows[0].push(u / size, 1);
        rows[1].push(v / size, 1);
        return rows;
      },
    },
    id,
    [
      { id: `${id}.first`, kind: 'length', measured: string.first },
      { id: `${id}.second`, kind: 'length', measured: string.second },
    ],
  );
}

/** The same direction, as the turn nearest to `to`. */
const near = (angle: number, to: number): number =>
  angle + 2 * Math.PI * Math.round((to - angle) / (2 * Math.PI));

/**
 * A rigid truck tips when its CG stands over the line through two contacts. Across the slope the line's distance at the
 * CG's own place is D = T_r/2 + (T_f − T_r) x/(2L) + e, e how far the tip line lies outside the tire centers; tan of the
 * tip angle is (D ∓ y)/z. Up and down the slope the tires carry under their hubs: x/z and (L − x)/z.
 */
function addTilt(b: Builder, at: Places, reading: TiltReading): void {
  const { id, toward, angle } = reading;
  const number = [{ id: `${id}.angle`, kind: 'angle' as const, measured: angle }];
  if (toward === 'nose up' || toward === 'nose down') {
    const L = toward === 'nose down' ? at.dimension('wheelbase') : undefined;
    const lever = (p: P) => (L === undefined ? read(p, at.x) : read(p, L) - read(p, at.x));
    b.observe(
      {
        name: id,
        depends: [at.x, at.z, at.levelZero, ...(L === undefined ? [] : [L])],
        predict: (p) => [Math.atan2(lever(p), read(p, at.z)) + read(p, at.levelZero)],
        derivative: (p) => {
          const d = lever(p);
          const h = read(p, at.z);
          const square = d * d + h * h;
          const by = h / square;
          return [[L === undefined ? by : -by, -d / square, 1, ...(L === undefined ? [] : [by])]];
        },
      },
      id,
      number,
    );
    return;
  }
  const L = at.dimension('wheelbase');
  const front = at.dimension('frontTrack');
  const rear = at.dimension('rearTrack');
  const tipLine = at.tipLine();
  const sign = toward === 'left' ? -1 : 1;
  const distance = (p: P) =>
    read(p, rear) / 2 +
    ((read(p, front) - read(p, rear)) * read(p, at.x)) / (2 * read(p, L)) +
    read(p, tipLine) +
    sign * read(p, at.y);
  b.observe(
    {
      name: id,
      depends: [at.x, at.y, at.z, L, front, rear, tipLine, at.levelZero],
      predict: (p) => [Math.atan2(distance(p), read(p, at.z)) + read(p, at.levelZero)],
      derivative: (p) => {
        const d = distance(p);
        const h = read(p, at.z);
        const by = h / (d * d + h * h);
        const share = read(p, at.x) / read(p, L);
        const flare = (read(p, front) - read(p, rear)) / (2 * read(p, L));
        return [
          [
            by * flare,
            by * sign,
            -d / (d * d + h * h),
            -by * flare * share,
            (by * share) / 2,
            (by * (1 - share)) / 2,
            by,
            1,
          ],
        ];
      },
    },
    id,
    number,
  );
}

/**
 * Each line runs through the CG, turned by its own slope t against the direction read: it passes its own place at the
 * CG's distance across the line as read, less t times its distance along it.
 */
function addPictureLines(b: Builder, at: Places, reading: PictureLinesReading): void {
  const { id, lines, shared, covariance } = reading;
  const slopes = lines.map(({ id: line }) => b.unknown(`${line}: slope`, 'angle', 0));
  const sharedAt = shared.map((each) => {
    const index = placeOfShared(at, each);
    const unknown = b.unknowns[index];
    // What the pictures say is the best place to start from.
    if (unknown) b.unknowns[index] = { ...unknown, start: each.value };
    return index;
  });
  const axes = ['x', 'y', 'z'] as const;
  // What is shared may be a coordinate of the CG as well: one column each.
  const depends = [...new Set([...axes.map((axis) => at[axis]), ...slopes, ...sharedAt])];
  const sharedColumns = sharedAt.map((index) => depends.indexOf(index));
  const before = axes.length;
  const directions = lines.map(({ line }) => [Math.cos(line.angle), Math.sin(line.angle)] as const);
  /** Distances of the CG from a line's own place, along the line and across it. */
  const toCg = (
    p: P,
    { view, line: { through } }: PictureLinesReading['lines'][number],
    [c, s]: readonly [number, number],
  ) => {
    const [first, second] = VIEW_AXES[view];
    const u = read(p, at[first]) - through.x;
    const v = read(p, at[second]) - through.z;
    return { along: c * u + s * v, across: c * v - s * u };
  };
  const place = b.observations.length;
  b.observations.push({
    name: id,
    depends,
    predict: (p) => [
      ...lines.flatMap((each, k) => {
        const { along, across } = toCg(p, each, directions[k] ?? [1, 0]);
        const t = read(p, slopes[k]);
        return [each.line.angle + Math.atan(t), across - t * along];
      }),
      ...sharedAt.map((index) => read(p, index)),
    ],
    values: [...lines.flatMap(({ line }) => [line.angle, 0]), ...shared.map(({ value }) => value)],
    uncertainty: covariance,
    derivative: (p) => {
      const rows = covariance.map(() => new Array<number>(depends.length).fill(0));
      lines.forEach((each, k) => {
        const [c, s] = directions[k] ?? [1, 0];
        const t = read(p, slopes[k]);
        const angle = rows[2 * k];
        const offset = rows[2 * k + 1];
        if (!angle || !offset) return;
        const [first, second] = VIEW_AXES[each.view];
        angle[before + k] = 1 / (1 + t * t);
        offset[axes.indexOf(first)] = -s - t * c;
        offset[axes.indexOf(second)] = c - t * s;
        offset[before + k] = -toCg(p, each, [c, s]).along;
      });
      sharedColumns.forEach((column, k) => {
        const row = rows[2 * lines.length + k];
        if (row) row[column] = 1;
      });
      return rows;
    },
  });
  b.laws.push(covariance.map(() => 'normal'));
  lines.forEach(({ id: line }, k) =>
    b.numbers.push({
      id: line,
      reading: line,
      kind: 'length',
      observation: place,
      // A line moved across itself.
      direction: covariance.map((_, i) => (i === 2 * k + 1 ? 1 : 0)),
      value: 0,
      u: Math.sqrt(covariance[2 * k + 1]?.[2 * k + 1] ?? NaN),
    }),
  );
}

function placeOfShared(at: Places, shared: SharedValue): number {
  if (shared.quantity === 'hook') return at.hook(shared.hook, shared.axis);
  const name = SHARED_NAMES[shared.quantity];
  return name === 'y' ? at.y : name === 'rulerZero' ? at.rulerZero : at.dimension(name);
}
