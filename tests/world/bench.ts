import { type Angle, type Length, type Mass, degrees, kilograms, meters, radians } from '../../src/physics';
import type {
  Axle,
  AxleLiftReading,
  Carrier,
  HangReading,
  HangView,
  HookPlace,
  Measured,
  SharedWithPictures,
  TiltReading,
  TruckBench,
  TruckDimensions,
  TruckReading,
} from '../../src/physics';
import type { Random } from '../demo/world/random';
import { random } from '../demo/world/random';
import type { Vector } from '../demo/world/vector';
import { add, scale, subtract } from '../demo/world/vector';
import type { Contact, Downhill } from './contacts';
import { tippingSlope, twoSupports, wheelLoads } from './contacts';
import type { Lump } from './hung';
import { verticalAtRest } from './hung';
import type { Information } from './information';
import { informationOf } from './information';
import type { LiftedTruck } from './lifted';
import { liftedLoads, pitchOfRise } from './lifted';
import { type ErrorLaws, Scribe, type Taken, sharedCovariance } from './scribe';
import { type Slip, slipsOf } from './slips';
import { type BenchNumber, numbersOf, withNumber } from './numbers';
import type { Point, Shown, TrueTruck } from './truth';
import { at, drawTruck, vectorAt } from './truth';

/** What is put wrong in a bench. */
export interface BlunderOptions {
  /** Id of a number; a random one where left out. */
  readonly number?: string;
  /** So many of its own u, either way; or a slip that fits the number, or a wrong unit. */
  readonly size: number | 'slip' | 'wrong unit';
}

export interface WorldOptions extends ErrorLaws {
  readonly blunder?: BlunderOptions;
}

export interface WorldBench {
  readonly bench: TruckBench;
  /** The truck behind it, m and kg. */
  readonly truth: TrueTruck & { readonly y: number };
  /** Some number is read between hard limits, or the tip line lies anywhere under the tread. */
  readonly uniformInputs: boolean;
  /** Smallest standard deviations that x, y and z can be told with from these readings, m. */
  readonly bound: Readonly<Record<'x' | 'y' | 'z', number>>;
  /** What was put wrong: by how much the number reads too much (SI). */
  readonly wrong: { readonly id: string; readonly by: number; readonly slip: string | null } | null;
  readonly shown: readonly Shown[];
  /** All truths, and how well they can be told. */
  readonly point: Point;
  readonly information: Information;
}

const length = ({ value, u, law }: Taken): Measured<Length> => ({
  value: meters(value),
  u,
  ...(law && { law }),
});
const mass = ({ value, u, law }: Taken): Measured<Mass> => ({
  value: kilograms(value),
  u,
  ...(law && { law }),
});
const angle = ({ value, u, law }: Taken): Measured<Angle> => ({
  value: radians(value),
  u,
  ...(law && { law }),
});

type SizeName = Exclude<keyof TruckDimensions, 'treadWidth'>;
const RULED: ReadonlySet<SizeName> = new Set([
  'wheelbase',
  'frontTrack',
  'rearTrack',
  'frontTireRadius',
  'rearTireRadius',
]);
const SHARED_SIZES = {
  wheelbase: 'wheelbase',
  'front tire radius': 'frontTireRadius',
  'rear tire radius': 'rearTireRadius',
  'front axle share': 'frontAxleShare',
  'rear axle share': 'rearAxleShare',
} as const satisfies Partial<Record<SharedWithPictures, SizeName>>;
type SharedSize = keyof typeof SHARED_SIZES;
const isSize = (quantity: SharedWithPictures): quantity is SharedSize => quantity in SHARED_SIZES;

/** Ranges of standard uncertainties: kitchen scales, rulers, phone levels as in common practice. */
const U = {
  load: [0.0005, 0.0025],
  size: [0.0003, 0.001],
  share: [0.01, 0.03],
  hook: [0.0004, 0.001],
  hookLeft: [0.0008, 0.002],
  level: [0.15, 0.5],
  board: [0.2, 0.7],
  lift: [0.1, 0.4],
  rise: [0.0004, 0.0012],
  point: [0.0006, 0.002],
  droop: [0.0005, 0.0015],
  balance: [0.001, 0.0025],
} as const;

/** How far from the hook the CG must lie in a view for the string's direction to mean something, m. */
const ARM = 0.06;

/** One truck on the bench while readings are taken. */
class BenchWork {
  readonly scribe: Scribe;
  readonly x: number;
  readonly y: number;
  readonly z: number;
  readonly rulerZero: number;
  readonly scaleZero: number;
  readonly levelZero: number;
  readonly lateral: Measured<Length>;
  readonly instruments: TruckBench['instruments'];
  readonly hooks: HookPlace[] = [];
  readonly readings: TruckReading[] = [];
  private readonly sizes = new Map<SizeName, number>();
  private readonly hookAt = new Map<string, readonly [number, number, number]>();
  private massAt: number | undefined;
  private tipLineAt: number | undefined;
  private given: TruckDimensions = {};
  /** How much coarser than usual all is read on this bench. */
  private readonly care: number;

  constructor(
    readonly draw: Random,
    readonly truck: TrueTruck,
    readonly shared: ReadonlySet<SharedWithPictures>,
    laws: ErrorLaws,
  ) {
    this.scribe = new Scribe(draw, laws);
    this.care = draw.between(0.6, 2.5);
    const zero = (widest: number, between: number): Taken => {
      const law = this.scribe.law();
      return {
        value: draw.unit() < 0.7 ? 0 : draw.between(-between, between),
        u: widest * draw.between(0.5, 1.5),
        ...(law && { law }),
      };
    };
    const lateral = zero(0.003, 0.003);
    const [ruler, scales, level] = [zero(0.00015, 0.0005), zero(0.0005, 0.002), zero(0.0018, 0.005)];
    this.lateral = length({ ...lateral, u: Math.min(lateral.u, 0.003) });
    this.instruments = { rulerZero: length(ruler), scaleZero: mass(scales), levelZero: angle(level) };
    this.x = this.scribe.truth.add('x', truck.x);
    this.y = this.scribe.drawnFrom('lateral', this.lateral, !shared.has('lateral place'));
    this.z = this.scribe.truth.add('z', truck.z);
    this.rulerZero = this.scribe.drawnFrom(
      'rulerZero',
      this.instruments.rulerZero,
      !shared.has('ruler zero'),
    );
    this.scaleZero = this.scribe.drawnFrom('scaleZero', this.instruments.scaleZero);
    this.levelZero = this.scribe.drawnFrom('levelZero', this.instruments.levelZero);
  }

  get dimensions(): TruckDimensions {
    return this.given;
  }

  u(name: keyof typeof U): number {
    const [low, high] = U[name];
    const u = this.draw.between(low, high) * this.care;
    return name === 'level' || name === 'board' || name === 'lift' ? degrees(u) : u;
  }

  mass(): number {
    return (this.massAt ??= this.scribe.truth.add('mass', this.truck.mass));
  }

  /** A size that readings need, measured when first asked for. */
  size(name: SizeName): number {
    const held = this.sizes.get(name);
    if (held !== undefined) return held;
    const index = this.scribe.truth.add(name, this.truck[name]);
    this.sizes.set(name, index);
    const ruled = RULED.has(name);
    const u = this.u(ruled ? 'size' : 'share');
    const fromPictures = Object.entries(SHARED_SIZES).some(
      ([quantity, size]) => size === name && [...this.shared].some((each) => each === quantity),
    );
    if (fromPictures) return index;
    const zero = this.rulerZero;
    const [taken] = this.scribe.read([{ id: name, u }], ruled ? [index, zero] : [index], (point) => [
      at(point, index) + (ruled ? at(point, zero) : 0),
    ]);
    if (!taken) return index;
    this.given =
      name === 'frontAxleShare' || name === 'rearAxleShare'
        ? { ...this.given, [name]: taken }
        : { ...this.given, [name]: length(taken) };
    return index;
  }

  /** How far outside the tires' centers the truck stands on its treads: drawn from what the tread's width allows. */
  tipLine(): number {
    if (this.tipLineAt !== undefined) return this.tipLineAt;
    const u = this.u('size');
    const ruled = at(this.scribe.truth.point(), this.rulerZero);
    const { errors } = this.scribe.laws;
    const treadWidth = { value: this.truck.treadWidth + ruled + this.scribe.error(u, undefined), u };
    this.given = { ...this.given, treadWidth: length(treadWidth) };
    const widest = treadWidth.value / 2;
    this.tipLineAt = this.scribe.drawnFrom('tip line', {
      value: widest / 2,
      u: widest / 2 / Math.sqrt(3),
      ...(errors === 'stated' && { law: 'rectangular' }),
    });
    return this.tipLineAt;
  }

  hook(id: string): readonly [number, number, number] {
    const places = this.hookAt.get(id);
    if (!places) throw new RangeError(`No hook ${id}.`);
    return places;
  }

  addHook(id: string, carrier: Carrier, [x, y, z]: Vector): void {
    const axis = (name: 'x' | 'y' | 'z', value: number): readonly [number, Measured<Length>] => {
      const index = this.scribe.truth.add(`hook ${id}.${name}`, value);
      const u = this.u(name === 'y' ? 'hookLeft' : 'hook');
      return [index, length(this.ruled(`hook ${id}.${name}`, u, [index], (point) => at(point, index)))];
    };
    const [ahead, left, height] = [axis('x', x), axis('y', y), axis('z', z)];
    this.hookAt.set(id, [ahead[0], left[0], height[0]]);
    this.hooks.push({ id, carrier, x: ahead[1], y: left[1], z: height[1] });
  }

  private one(
    id: string,
    u: number,
    depends: readonly number[],
    show: (point: Point) => number,
    zero: number,
  ): Taken {
    const [taken] = this.scribe.read([{ id, u }], [...depends, zero], (point) => [
      show(point) + at(point, zero),
    ]);
    return taken ?? { value: NaN, u };
  }
  ruled(id: string, u: number, depends: readonly number[], show: (point: Point) => number): Taken {
    return this.one(id, u, depends, show, this.rulerZero);
  }
  weighed(id: string, u: number, depends: readonly number[], show: (point: Point) => number): Taken {
    return this.one(id, u, depends, show, this.scaleZero);
  }
  leveled(id: string, u: number, depends: readonly number[], show: (point: Point) => number): Taken {
    return this.one(id, u, depends, show, this.levelZero);
  }
}

const totalMass = (on: BenchWork, id: string): void => {
  const whole = on.mass();
  on.readings.push({
    kind: 'total mass',
    id,
    load: mass(on.weighed(`${id}.load`, on.u('load'), [whole], (point) => at(point, whole))),
  });
};

const axleScales = (on: BenchWork, id: string): void => {
  const [whole, wheelbase, { x, scaleZero }] = [on.mass(), on.size('wheelbase'), on];
  const [front, rear] = on.scribe.read(
    [`${id}.front`, `${id}.rear`].map((name) => ({ id: name, u: on.u('load') })),
    [whole, wheelbase, x, scaleZero],
    (point) =>
      twoSupports([at(point, wheelbase), 0], at(point, whole), at(point, x)).map(
        (load) => load + at(point, scaleZero),
      ),
  );
  if (front && rear) on.readings.push({ kind: 'axle scales', id, front: mass(front), rear: mass(rear) });
};

/** Ground contacts: front left, front right, rear left, rear right; `out` outside the tires' centers. */
const contactsOf = (wheelbase: number, front: number, rear: number, out: number): Contact[] => [
  { x: wheelbase, y: front / 2 + out },
  { x: wheelbase, y: -front / 2 - out },
  { x: 0, y: rear / 2 + out },
  { x: 0, y: -rear / 2 - out },
];

const wheelScales = (on: BenchWork, id: string): void => {
  const { x, y, scaleZero } = on;
  const sizes = [on.mass(), on.size('wheelbase'), on.size('frontTrack'), on.size('rearTrack')] as const;
  const [whole, wheelbase, front, rear] = sizes;
  const shim = on.scribe.truth.add(`${id}: shim`, on.draw.between(-0.3, 0.3));
  const [frontLeft, frontRight, rearLeft, rearRight] = on.scribe.read(
    ['frontLeft', 'frontRight', 'rearLeft', 'rearRight'].map((name) => ({
      id: `${id}.${name}`,
      u: on.u('load'),
    })),
    [...sizes, x, y, shim, scaleZero],
    (point) =>
      wheelLoads(
        contactsOf(at(point, wheelbase), at(point, front), at(point, rear), 0),
        at(point, whole),
        [at(point, x), at(point, y), 0],
        at(point, shim),
      ).map((load) => load + at(point, scaleZero)),
  );
  if (frontLeft && frontRight && rearLeft && rearRight)
    on.readings.push({
      kind: 'wheel scales',
      id,
      frontLeft: mass(frontLeft),
      frontRight: mass(frontRight),
      rearLeft: mass(rearLeft),
      rearRight: mass(rearRight),
    });
};

const axleLift = (on: BenchWork, id: string): void => {
  const { draw, x, z } = on;
  const raised: Axle = draw.unit() < 0.5 ? 'front' : 'rear';
  // Mostly the axle left on the ground is weighed.
  const scaleUnder: Axle = (raised === 'front') === draw.unit() < 0.75 ? 'rear' : 'front';
  const byHeight = draw.unit() < 0.5;
  const sizes = [
    on.mass(),
    on.size('wheelbase'),
    on.size('frontTireRadius'),
    on.size('rearTireRadius'),
  ] as const;
  const [whole, wheelbase, frontTireRadius, rearTireRadius] = sizes;
  const raise = on.scribe.truth.add(
    `${id}: ${byHeight ? 'rise' : 'slope'}`,
    byHeight ? draw.between(0.06, 0.16) : degrees(draw.between(12, 35)),
  );
  const lift: AxleLiftReading['lift'] = byHeight
    ? {
        by: 'height',
        rise: length(on.ruled(`${id}.rise`, on.u('rise'), [raise], (point) => at(point, raise))),
      }
    : {
        by: 'angle',
        angle: angle(on.leveled(`${id}.angle`, on.u('lift'), [raise], (point) => at(point, raise))),
      };
  const load = on.weighed(`${id}.load`, on.u('load'), [...sizes, x, z, raise], (point) => {
    const truck: LiftedTruck = {
      mass: at(point, whole),
      cg: [at(point, x), at(point, z)],
      wheelbase: at(point, wheelbase),
      frontRadius: at(point, frontTireRadius),
      rearRadius: at(point, rearTireRadius),
    };
    const pitch = byHeight
      ? pitchOfRise(truck, raised, at(point, raise))
      : at(point, raise) * (raised === 'front' ? 1 : -1);
    return liftedLoads(truck, pitch)[scaleUnder === 'front' ? 0 : 1];
  });
  on.readings.push({ kind: 'axle lift', id, raised, lift, scaleUnder, load: mass(load) });
};

/** Where hooks are that a truck can be hung by and seen in a view. */
const hookFor = (draw: Random, truck: TrueTruck, view: HangView): readonly [Carrier, Vector] => {
  const { wheelbase, frontTireRadius, rearTireRadius } = truck;
  const axle = draw.unit() < 0.2;
  const left = view === 'top' ? 1 : draw.unit() < 0.5 ? 1 : -1;
  const nearMiddle = draw.between(-0.015, 0.015);
  const outside = view === 'side' ? nearMiddle : left * draw.between(0.06, 0.1);
  if (axle) {
    const front = draw.unit() < 0.5;
    return [
      front ? 'front axle' : 'rear axle',
      [
        (front ? wheelbase : 0) + draw.between(-0.02, 0.02),
        outside,
        (front ? frontTireRadius : rearTireRadius) + draw.between(0, 0.02),
      ],
    ];
  }
  if (view === 'side')
    return ['body', [draw.between(-0.06, wheelbase + 0.06), outside, draw.between(0.1, 0.24)]];
  if (view === 'top') return ['body', [draw.between(0, wheelbase), outside, draw.between(0.06, 0.14)]];
  const onRoof = draw.unit() < 0.4;
  return [
    'body',
    [
      draw.between(0.08, 0.25),
      onRoof ? draw.between(-0.04, 0.04) : outside,
      onRoof ? draw.between(0.17, 0.24) : draw.between(0.06, 0.2),
    ],
  ];
};

const AXES = { side: [0, 2], rear: [1, 2], front: [1, 2], top: [0, 1] } as const;

/** Distance of hook and CG in a view, and how far the truck turns there: told apart from hooks no one would use. */
const worthHanging = (hook: Vector, cg: Vector, view: HangView): boolean => {
  const [first, second] = AXES[view];
  const [across, drop] = [cg[first] - hook[first], hook[second] - cg[second]];
  return Math.hypot(across, drop) > ARM && Math.abs(Math.atan2(across, drop)) < degrees(140);
};

const hang = (on: BenchWork, id: string): void => {
  const { draw, truck, x, y, z } = on;
  const pick = draw.unit();
  const view: HangView = pick < 0.55 ? 'side' : pick < 0.7 ? 'rear' : pick < 0.85 ? 'front' : 'top';
  const now = on.scribe.truth.point();
  const cg = vectorAt(now, [x, y, z]);
  const used = on.hooks.find(
    (each) => draw.unit() < 0.3 && worthHanging(vectorAt(now, on.hook(each.id)), cg, view),
  );
  let hook = used?.id;
  let carrier: Carrier = used?.carrier ?? 'body';
  while (hook === undefined) {
    const [rides, place] = hookFor(draw, truck, view);
    if (!worthHanging(place, cg, view)) continue;
    hook = `place ${on.hooks.length + 1}`;
    carrier = rides;
    on.addHook(hook, carrier, place);
  }
  const hookAt = on.hook(hook);
  const free = view !== 'top' && draw.unit() < 0.4;
  const drops = free
    ? (['front', 'rear'] as const).map((axle) =>
        on.scribe.truth.add(`${id}: ${axle} droop`, draw.between(0.004, 0.025)),
      )
    : [];
  const [frontDrop, rearDrop] = drops;
  const shares = free ? [on.size('frontAxleShare'), on.size('rearAxleShare')] : [];
  const [frontShare, rearShare] = shares;
  const depends = [x, y, z, ...hookAt, ...drops, ...shares];
  /** Hook and vertical as hung: axles and body are lumps of one rigid body; where the axles sit is no matter. */
  const hung = (point: Point): readonly [Vector, Vector] => {
    const whole = vectorAt(point, [x, y, z]);
    const bare = vectorAt(point, hookAt);
    if (
      frontDrop === undefined ||
      rearDrop === undefined ||
      frontShare === undefined ||
      rearShare === undefined
    )
      return [bare, verticalAtRest([{ mass: 1, place: whole }], bare)];
    const [ofFront, ofRear] = [at(point, frontShare), at(point, rearShare)];
    const front: Vector = [truck.wheelbase, 0, truck.frontTireRadius];
    const rear: Vector = [0, 0, truck.rearTireRadius];
    const ofBody = 1 - ofFront - ofRear;
    const body = scale(subtract(whole, add(scale(front, ofFront), scale(rear, ofRear))), 1 / ofBody);
    const lowered = (place: Vector, by: number): Vector => [place[0], place[1], place[2] - at(point, by)];
    const lumps: Lump[] = [
      { mass: ofBody, place: body },
      { mass: ofFront, place: lowered(front, frontDrop) },
      { mass: ofRear, place: lowered(rear, rearDrop) },
    ];
    const held =
      carrier === 'front axle'
        ? lowered(bare, frontDrop)
        : carrier === 'rear axle'
          ? lowered(bare, rearDrop)
          : bare;
    return [held, verticalAtRest(lumps, held)];
  };
  const [first, second] = AXES[view];
  let string: HangReading['string'];
  if (draw.unit() < 0.5) {
    string = {
      by: 'angle',
      angle: angle(
        on.leveled(`${id}.angle`, on.u('level'), depends, (point) => {
          const [, down] = hung(point);
          return Math.atan2(down[first], -down[second]);
        }),
      ),
    };
  } else {
    const [held, down] = hung(on.scribe.truth.point());
    const seen = Math.hypot(down[first], down[second]);
    const along = on.scribe.truth.add(`${id}: along the string`, draw.between(0.12, 0.3) / seen);
    const u = on.u('point');
    const exact = (point: Point): readonly number[] => {
      const [from, toward] = hung(point);
      const place = add(from, scale(toward, at(point, along)));
      return [first, second].map((axis) => place[axis] + at(point, on.rulerZero));
    };
    const [a, b] = on.scribe.read(
      ['first', 'second'].map((name) => ({ id: `${id}.${name}`, u })),
      [...depends, along, on.rulerZero],
      exact,
    );
    if (!a || !b || held.length !== 3) return;
    string = { by: 'second point', first: length(a), second: length(b) };
  }
  const droop = drops.map((index, i) => {
    const [taken] = on.scribe.read(
      [{ id: `${id}.${i === 0 ? 'front' : 'rear'}Droop`, u: on.u('droop') }],
      [index],
      (point) => [at(point, index)],
    );
    return length(taken ?? { value: NaN, u: NaN });
  });
  const [front, rear] = droop;
  on.readings.push({
    kind: 'hang',
    id,
    view,
    hook,
    string,
    ...(front && rear && { droop: { front, rear } }),
  });
};

const DOWNHILL: Readonly<Record<TiltReading['toward'], Downhill>> = {
  left: 'left',
  right: 'right',
  'nose up': 'rear',
  'nose down': 'front',
};

const tilt = (on: BenchWork, id: string): void => {
  const { draw, truck, x, y, z } = on;
  const toward = (['left', 'right', 'nose up', 'nose down'] as const)[Math.floor(4 * draw.unit())] ?? 'left';
  const across = toward === 'left' || toward === 'right';
  // Along the slope neither tracks nor treads decide; there they need not be known.
  const wheelbase = toward === 'nose up' ? undefined : on.size('wheelbase');
  const sides = across ? [on.size('frontTrack'), on.size('rearTrack'), on.tipLine()] : [];
  const [front, rear, out] = sides;
  const known = (point: Point, index: number | undefined, otherwise: number): number =>
    index === undefined ? otherwise : at(point, index);
  const taken = on.leveled(
    `${id}.angle`,
    on.u('board'),
    [x, y, z, ...(wheelbase === undefined ? [] : [wheelbase]), ...sides],
    (point) =>
      tippingSlope(
        contactsOf(
          known(point, wheelbase, truck.wheelbase),
          known(point, front, truck.frontTrack),
          known(point, rear, truck.rearTrack),
          known(point, out, 0),
        ),
        vectorAt(point, [x, y, z]),
        DOWNHILL[toward],
      ),
  );
  on.readings.push({ kind: 'tilt', id, toward, angle: angle(taken) });
};

const balance = (on: BenchWork, id: string): void => {
  const edge = on.draw.unit() < 0.6 ? 'across' : 'along';
  // On an edge the truck rests where its weight has no moment about it.
  const place = edge === 'across' ? on.x : on.y;
  const taken = on.ruled(`${id}.place`, on.u('balance'), [place], (point) => at(point, place));
  on.readings.push({ kind: 'balance', id, edge, place: length(taken) });
};

const partsList = (on: BenchWork, id: string): void => {
  const { draw, x, y, z } = on;
  const places = [on.mass(), x, y, z];
  const covariance = sharedCovariance(draw, [
    draw.between(0.02, 0.06),
    draw.between(0.003, 0.006),
    draw.between(0.001, 0.003),
    draw.between(0.003, 0.006),
  ]);
  const show = (point: Point) => places.map((index) => at(point, index));
  const exact = show(on.scribe.truth.point());
  const errors = on.scribe.readTogether({
    numbers: ['mass', 'ahead', 'left', 'height'].map((name, place) => ({ id: `${id}.${name}`, place })),
    depends: places,
    show,
    covariance,
  });
  const value = (i: number): number => (exact[i] ?? NaN) + (errors[i] ?? NaN);
  on.readings.push({
    kind: 'parts list',
    id,
    values: [kilograms(value(0)), meters(value(1)), meters(value(2)), meters(value(3))],
    covariance,
  });
};

/** Lines of a side picture set, each by its angle and by how far it passes its own reference place, sharing errors. */
const pictureLines = (on: BenchWork, id: string): void => {
  const { draw, x, z } = on;
  const lines = Array.from({ length: 2 + Math.floor(3 * draw.unit()) }, (_, k) => {
    // Where the line enters from above: some 0.2 m from the CG, at any slope.
    const slope = degrees(draw.between(-150, -30));
    const far = draw.between(0.1, 0.25);
    const place = [on.truck.x - far * Math.cos(slope), on.truck.z - far * Math.sin(slope)] as const;
    const across = on.scribe.truth.add(`picture-${k + 1}: across`, 0);
    return { id: `picture-${k + 1}`, slope, place, across };
  });
  const shared = [...on.shared];
  const sharedAt = shared.map((quantity) => {
    if (isSize(quantity)) return on.size(SHARED_SIZES[quantity]);
    return quantity === 'lateral place' ? on.y : on.rulerZero;
  });
  const spread = (quantity: SharedWithPictures): number => {
    if (quantity === 'lateral place') return Math.min(on.lateral.u, draw.between(0.0015, 0.003));
    if (quantity === 'ruler zero') return on.instruments.rulerZero.u * draw.between(0.7, 1);
    return on.u(quantity.endsWith('share') ? 'share' : 'size');
  };
  const covariance = sharedCovariance(draw, [
    ...lines.flatMap(() => [degrees(draw.between(0.1, 0.5)), draw.between(0.0004, 0.0015)]),
    ...shared.map(spread),
  ]);
  const errors = on.scribe.readTogether({
    numbers: lines.map((line, k) => ({ id: line.id, place: 2 * k + 1 })),
    depends: [x, z, ...lines.map(({ across }) => across), ...sharedAt],
    show: (point) => [
      ...lines.flatMap(({ slope, place, across }) => {
        const off = at(point, across);
        const [fromX, fromZ] = [place[0] - off * Math.sin(slope), place[1] + off * Math.cos(slope)];
        return [Math.atan2(at(point, z) - fromZ, at(point, x) - fromX), off];
      }),
      ...sharedAt.map((index) => at(point, index)),
    ],
    covariance,
  });
  const point = on.scribe.truth.point();
  on.readings.push({
    kind: 'picture lines',
    id,
    lines: lines.map(({ id: line, slope, place }, k) => {
      const told = slope + (errors[2 * k] ?? NaN);
      // The true line passes the told one's reference place at minus the error of its offset.
      const off = errors[2 * k + 1] ?? NaN;
      return {
        id: line,
        view: 'side',
        line: {
          angle: radians(told),
          through: { x: meters(place[0] - off * Math.sin(told)), z: meters(place[1] + off * Math.cos(told)) },
        },
      };
    }),
    shared: shared.map((quantity, i) => ({
      quantity,
      value: at(point, sharedAt[i] ?? NaN) + (errors[2 * lines.length + i] ?? NaN),
    })),
    covariance,
  });
};

/** A kind of reading: how many numbers it has at most, how often it comes, how many a bench may hold. */
interface Kind {
  readonly name: string;
  readonly numbers: number;
  readonly often: number;
  readonly most: number;
  readonly take: (on: BenchWork, id: string) => void;
}
const KINDS: readonly Kind[] = [
  { name: 'mass', numbers: 1, often: 2, most: 2, take: totalMass },
  { name: 'axles', numbers: 2, often: 2, most: 2, take: axleScales },
  { name: 'wheels', numbers: 4, often: 1.5, most: 2, take: wheelScales },
  { name: 'lift', numbers: 2, often: 3, most: 4, take: axleLift },
  { name: 'hang', numbers: 2, often: 4, most: 5, take: hang },
  { name: 'tilt', numbers: 1, often: 4, most: 5, take: tilt },
  { name: 'balance', numbers: 1, often: 1.5, most: 3, take: balance },
  { name: 'parts', numbers: 4, often: 0.7, most: 1, take: partsList },
  { name: 'pictures', numbers: 4, often: 1, most: 1, take: pictureLines },
];

/** Kinds of readings for a bench of so many numbers, in the order they are taken. */
const drawKinds = (draw: Random): Kind[] => {
  const target = 8 + Math.floor(13 * draw.unit());
  const kinds: Kind[] = [];
  let count = 0;
  while (count < target) {
    const open = KINDS.filter(
      (kind) => count + kind.numbers <= 20 && kinds.filter((each) => each === kind).length < kind.most,
    );
    let pick = draw.unit() * open.reduce((sum, { often }) => sum + often, 0);
    const kind = open.find(({ often }) => (pick -= often) < 0);
    if (!kind) break;
    kinds.push(kind);
    count += kind.numbers;
  }
  return kinds;
};

const OFTEN_SHARED: readonly (readonly [SharedWithPictures, number])[] = [
  ['wheelbase', 0.7],
  ['front tire radius', 0.6],
  ['rear tire radius', 0.6],
  ['lateral place', 0.6],
  ['front axle share', 0.4],
  ['rear axle share', 0.4],
  ['ruler zero', 0.4],
];

/** Benches whose best answer is vaguer than this, m, leave the place open: no one would call it determined. */
const DETERMINED = 0.02;
const NUMBERS = { fewest: 8, most: 20 };

const takeReadings = (draw: Random, truck: TrueTruck, laws: ErrorLaws): BenchWork => {
  const kinds = drawKinds(draw);
  const pictures = kinds.some(({ take }) => take === pictureLines);
  const shared = new Set(
    OFTEN_SHARED.flatMap(([quantity, often]) => (pictures && draw.unit() < often ? [quantity] : [])),
  );
  const on = new BenchWork(draw, truck, shared, laws);
  const taken = new Map<string, number>();
  for (const { name, most, take } of kinds) {
    const before = taken.get(name) ?? 0;
    taken.set(name, before + 1);
    take(on, most === 1 ? name : `${name}-${before + 1}`);
  }
  return on;
};

/**
 * A random truck, and a random set of readings of it that determine its CG, drawn from the truth by the world's own
 * statics. The same number gives the same bench; draws that leave the CG open are drawn again.
 */
export const makeBench = (number: number, options: WorldOptions): WorldBench => {
  const truck = drawTruck(random(number, 'truck'));
  const draw = random(number, 'bench');
  for (;;) {
    const on = takeReadings(draw, truck, options);
    const bench: TruckBench = {
      dimensions: on.dimensions,
      lateral: on.lateral,
      instruments: on.instruments,
      hooks: on.hooks,
      readings: on.readings,
    };
    const count = numbersOf(bench).filter(({ reading }) => reading !== null).length;
    if (count < NUMBERS.fewest || count > NUMBERS.most) continue;
    const point = on.scribe.truth.point();
    const information = informationOf(on.scribe.shown, point);
    if (!information) continue;
    const deviation = (index: number): number => Math.sqrt(information.covariance[index]?.[index] ?? NaN);
    const bound = { x: deviation(on.x), y: deviation(on.y), z: deviation(on.z) };
    if (!(bound.x < DETERMINED && bound.z < DETERMINED)) continue;
    const wrong = options.blunder
      ? putWrong(bench, on.scribe.shown, options.blunder, random(number, 'blunder'))
      : null;
    return {
      bench: wrong?.bench ?? bench,
      truth: { ...truck, y: at(point, on.y) },
      uniformInputs: options.errors === 'stated' && hasHardLimits(bench),
      bound,
      wrong: wrong && { id: wrong.id, by: wrong.by, slip: wrong.slip },
      shown: on.scribe.shown,
      point,
      information,
    };
  }
};

/** Whether a number read between hard limits or a tip line takes part. */
const hasHardLimits = (bench: TruckBench): boolean =>
  numbersOf(bench).some(({ law }) => law === 'rectangular') ||
  bench.readings.some(
    (reading) => reading.kind === 'tilt' && (reading.toward === 'left' || reading.toward === 'right'),
  );

interface PutWrong {
  readonly bench: TruckBench;
  readonly id: string;
  readonly by: number;
  readonly slip: string | null;
}

const putWrong = (
  bench: TruckBench,
  shown: readonly Shown[],
  { number, size }: BlunderOptions,
  draw: Random,
): PutWrong | null => {
  // What pictures tell as well is not counted a second time, so no reading of it can be found wrong.
  const counted = new Set(shown.flatMap(({ numbers }) => numbers.map(({ id }) => id)));
  const fitting = (each: BenchNumber): readonly Slip[] =>
    slipsOf(bench, each).filter(({ gross }) => gross === (size === 'wrong unit'));
  const numbers = numbersOf(bench).filter(
    (each) =>
      counted.has(each.id) &&
      (number === undefined || each.id === number) &&
      (typeof size === 'number' || fitting(each).length > 0),
  );
  const chosen = numbers[Math.floor(draw.unit() * numbers.length)];
  if (!chosen) return null;
  const { id, value, u } = chosen;
  if (typeof size === 'number') {
    const by = size * u * (draw.unit() < 0.5 ? -1 : 1);
    return { bench: withNumber(bench, id, value + by), id, by, slip: null };
  }
  const slips = fitting(chosen);
  const slip = slips[Math.floor(draw.unit() * slips.length)];
  return slip
    ? { bench: withNumber(bench, id, slip.reads), id, by: slip.reads - value, slip: slip.name }
    : null;
};
