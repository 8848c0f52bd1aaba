import type { BenchSheet, BuildState, Given, Hook, Mark, Picture } from '../../../src/sheet/schema';
import type { Side } from './camera';
import { photographHold, statedHold } from './camera';
import { hangTruck } from './hang';
import type { Photograph } from './photograph';
import { hangingPhotograph, standingPhotograph, truePoints } from './photograph';
import type { Random } from './random';
import { random } from './random';
import type { Droop, WorldTruck } from './truck';
import { axleShift, centerOfGravity, hookPlace, massOf } from './truck';
import type { Vector } from './vector';
import { dot, size, subtract } from './vector';

/** The ± a bench states of each reading, 19 times in 20: lengths in mm, masses in g or as a part of the value. */
export const STATED = {
  hookPlace: 1.4,
  hookLeft: 3,
  wheelbase: 1,
  width: 1.5,
  tireRadius: 1.5,
  depth: 4,
  mass: 6,
  scales: 5,
  axleMassPart: 0.1,
};
/** Camera angles, twist: u in rad of what the sheet takes where the reader says nothing. */
const TWIST_U = (3 * Math.PI) / 180;
/** Friction leaves a free axle this far from where it would rest, m. */
const STICKING_U = 0.001;
const COVERAGE = 1.96;

/** What is drawn off the truth; everything left out is exact. */
export interface Redraw {
  /** Marks, by `markSigma` pixels per coordinate. */
  readonly marks: boolean;
  /** Ruled hook places, ahead and height. */
  readonly hooks: boolean;
  /** Hooks' lateral places, and depths of body marks and hubs. */
  readonly depths: boolean;
  /** Wheelbase, tracks, widths, tire radii, mass, scale readings. */
  readonly dimensions: boolean;
  readonly axleMass: boolean;
  /** Cameras by the sheet's stated distributions instead of the photographs' ranges. */
  readonly pose: boolean;
  /** Twist normal with u = 3° instead of 2-4° either way. */
  readonly twist: boolean;
  /** Friction holds free axles away from rest. */
  readonly droop: boolean;
}

export const NOTHING: Redraw = {
  marks: false,
  hooks: false,
  depths: false,
  dimensions: false,
  axleMass: false,
  pose: false,
  twist: false,
  droop: false,
};
/** The same photographs, marked and ruled again. */
export const MARKED_AGAIN: Redraw = { ...NOTHING, marks: true, hooks: true };
/** Every budgeted input. */
export const EVERYTHING: Redraw = {
  marks: true,
  hooks: true,
  depths: true,
  dimensions: true,
  axleMass: true,
  pose: true,
  twist: true,
  droop: true,
};

export interface BenchOptions {
  readonly truck: WorldTruck;
  /** Decides cameras, twists and sticking: the photographs. */
  readonly pictureSeed: number;
  /** Decides marks and givens; the picture seed when left out. */
  readonly drawSeed?: number;
  readonly suspension: 'locked' | 'free';
  /** Hooks hung from, in order. */
  readonly hooks: readonly string[];
  readonly hookSource: 'ruler' | 'standing picture';
  /** Standard deviation of a mark per coordinate, px; the sheet states it as its ±. */
  readonly markSigma: number;
  readonly redraw: Redraw;
  readonly view?: Side;
  /** Scale readings to put on the sheet; none when left out. */
  readonly scales?: 'axle' | 'wheel' | 'both';
  /** false leaves the hubs of free hangs unmarked, so that droop cannot be corrected. */
  readonly hubsMarked?: boolean;
  /** false leaves the standing picture's hooks unmarked where they are ruled. */
  readonly ruledHooksMarked?: boolean;
  /** true puts the parts list on the sheet; the axle masses then come from it and are left empty. */
  readonly partsList?: boolean;
}

export interface BenchTruth {
  /** Truck axes at ride height, m. */
  readonly cg: Vector;
  /** kg */
  readonly mass: number;
  readonly axleMasses: { readonly front: number; readonly rear: number };
  /** By picture id: each axle's displacement in body axes, m. */
  readonly droop: ReadonlyMap<string, { readonly front: Vector; readonly rear: Vector }>;
  /** By hook id, at ride height, m. */
  readonly hooks: ReadonlyMap<string, Vector>;
  readonly photographs: readonly Photograph[];
}

export interface Bench {
  readonly sheet: BenchSheet;
  readonly state: BuildState;
  readonly truth: BenchTruth;
}

type Unit<U extends string> = Omit<Given, 'unit'> & { unit: U };

/** A typed number with its ±, both with two decimals. */
const typed = <U extends string>(value: number, unit: U, plusMinus: number | null): Unit<U> => ({
  text: value.toFixed(2),
  unit,
  plusMinus: plusMinus === null ? '' : String(plusMinus),
  kind: 'expanded',
});
const untyped = <U extends string>(unit: U): Unit<U> => ({ text: '', unit, plusMinus: '', kind: 'expanded' });

/** The photographs of a bench: one standing, then one for each hook. */
export const takePhotographs = (options: BenchOptions): Photograph[] => {
  const { truck, redraw, suspension } = options;
  const side = options.view ?? 'right';
  const holds = random(options.pictureSeed, 'hold');
  const hold = () => (redraw.pose ? statedHold(holds) : photographHold(holds));
  const off = (): readonly [number, number] => [holds.between(-0.015, 0.015), holds.between(-0.012, 0.012)];
  const twists = random(options.pictureSeed, 'twist');
  const friction = random(options.pictureSeed, 'friction');
  const standing = standingPhotograph(truck, 'standing', hold(), side, off());
  const hanging = options.hooks.map((hookId, index) => {
    const sticking: Droop = { front: STICKING_U * friction.normal(), rear: STICKING_U * friction.normal() };
    const rest = hangTruck(truck, hookId, { suspension, ...(redraw.droop ? { sticking } : {}) });
    const twist = redraw.twist ? TWIST_U * twists.normal() : (twists.eitherSign(2, 4) * Math.PI) / 180;
    return hangingPhotograph(
      truck,
      `hang-${index + 1}`,
      hookId,
      suspension,
      rest,
      twist,
      hold(),
      side,
      off(),
    );
  });
  return [standing, ...hanging];
};

/** The roles marked in a photograph, exact places with noise of `sigma` px per coordinate. */
const markPhotograph = (photograph: Photograph, options: BenchOptions, draw: Random): Mark[] => {
  const sigma = options.redraw.marks ? options.markSigma : 0;
  const left = (role: string): boolean => {
    if (photograph.kind === 'standing')
      return role.startsWith('hook ') && options.hookSource === 'ruler' && options.ruledHooksMarked === false;
    return role.endsWith(' hub') && (photograph.suspension === 'locked' || options.hubsMarked === false);
  };
  return truePoints(options.truck, photograph).flatMap(({ role, x, y }) => {
    // Drawn for every point, so that leaving one out does not move the others.
    const [dx, dy] = [sigma * draw.normal(), sigma * draw.normal()];
    return left(role)
      ? []
      : [{ role: markRole(role), x: x + dx, y: y + dy, plusMinus: '', counted: true, source: 'hand' }];
  });
};

const PLAIN_ROLES = [
  'front hub',
  'rear hub',
  'ground front',
  'ground rear',
  'string upper',
  'string lower',
] as const;
/** A role as the sheet names it. */
export const markRole = (role: string): Mark['role'] => PLAIN_ROLES.find((plain) => plain === role) ?? role;

/** A complete bench sheet of an invented truck, with the truth beside it. */
export const simulateBench = (options: BenchOptions): Bench => {
  const { truck, redraw } = options;
  const photographs = takePhotographs(options);
  const draw = random(options.drawSeed ?? options.pictureSeed, 'draw');
  /** In meters, off by the stated ± (mm, 19 times in 20) where redrawn. */
  const off = (redrawn: boolean, plusMinus: number): number =>
    (redrawn ? 1 : 0) * ((plusMinus / COVERAGE) * draw.normal());
  const millimeters = (meters: number, plusMinus: number, redrawn: boolean) =>
    typed(meters * 1000 + off(redrawn, plusMinus), 'mm' as const, plusMinus);
  const grams = (kilograms: number, plusMinus: number, redrawn: boolean) =>
    typed(kilograms * 1000 + off(redrawn, plusMinus), 'g' as const, plusMinus);
  const dimension = (meters: number, plusMinus: number) => millimeters(meters, plusMinus, redraw.dimensions);
  const scale = (kilograms: number) => grams(kilograms, STATED.scales, redraw.dimensions);

  const cg = centerOfGravity(truck);
  const mass = massOf(truck);
  const axleMasses = { front: massOf(truck, 'front axle'), rear: massOf(truck, 'rear axle') };
  const frontLoad = (mass * cg[0]) / truck.wheelbase;
  const axleMass = (kilograms: number) =>
    grams(kilograms, Math.round(kilograms * 1000 * STATED.axleMassPart), redraw.axleMass);

  const hooks = truck.hooks
    .filter((hook) => options.hooks.includes(hook.id))
    .map((hook): Hook => {
      const ahead = millimeters(hook.place[0], STATED.hookPlace, redraw.hooks);
      const height = millimeters(hook.place[2], STATED.hookPlace, redraw.hooks);
      const ruled = options.hookSource === 'ruler';
      return {
        id: hook.id,
        name: hook.name,
        carrier: hook.carrier,
        source: options.hookSource,
        ahead: ruled ? ahead : untyped('mm'),
        height: ruled ? height : untyped('mm'),
        left: millimeters(hook.place[1], STATED.hookLeft, redraw.depths),
      };
    });

  const pictures = photographs.map((photograph): Picture => {
    const hook = truck.hooks.find(({ id }) => id === photograph.hook);
    return {
      id: photograph.id,
      name: hook ? `Hung from the ${hook.name}` : 'Standing',
      kind: photograph.kind,
      view: photograph.side,
      width: photograph.camera.width,
      height: photograph.camera.height,
      distance: untyped('m'),
      focalLength: untyped('mm'),
      oblique: untyped('deg'),
      twist: untyped('deg'),
      markPlusMinus: typed(COVERAGE * options.markSigma, 'px', null),
      hook: photograph.hook,
      suspension: photograph.suspension,
      marks: markPhotograph(photograph, options, draw).filter(
        ({ role }) => !role.startsWith('hook ') || hooks.some(({ id }) => role === `hook ${id}`),
      ),
      counted: true,
      note: '',
    };
  });

  const readings: BuildState['readings'] = [];
  if (options.scales === 'axle' || options.scales === 'both')
    readings.push({
      id: 'axle-scales',
      kind: 'axle scales',
      front: scale(frontLoad),
      rear: scale(mass - frontLoad),
      counted: true,
      note: '',
    });
  if (options.scales === 'wheel' || options.scales === 'both') {
    const load = (axle: 'front' | 'rear', side: 1 | -1) => {
      const track = axle === 'front' ? truck.frontTrack : truck.rearTrack;
      return (axle === 'front' ? frontLoad : mass - frontLoad) * (0.5 + (side * cg[1]) / track);
    };
    readings.push({
      id: 'wheel-scales',
      kind: 'wheel scales',
      frontLeft: scale(load('front', 1)),
      frontRight: scale(load('front', -1)),
      rearLeft: scale(load('rear', 1)),
      rearRight: scale(load('rear', -1)),
      counted: true,
      note: '',
    });
  }

  const state: BuildState = {
    id: 'as-driven',
    name: options.suspension === 'locked' ? 'As driven, suspension locked for hanging' : 'Suspension free',
    body: 'truck',
    date: '',
    dimensions: {
      wheelbase: dimension(truck.wheelbase, STATED.wheelbase),
      frontTrack: dimension(truck.frontTrack, STATED.width),
      rearTrack: dimension(truck.rearTrack, STATED.width),
      outsideWidth: dimension(Math.max(truck.frontTrack, truck.rearTrack) + truck.treadWidth, STATED.width),
      treadWidth: dimension(truck.treadWidth, STATED.width),
      frontTireRadius: dimension(truck.frontRadius, STATED.tireRadius),
      rearTireRadius: dimension(truck.rearRadius, STATED.tireRadius),
    },
    // Drawn between dimensions and axle masses.
    readings: [
      {
        id: 'total-mass',
        kind: 'total mass',
        load: grams(mass, STATED.mass, redraw.dimensions),
        counted: true,
        note: '',
      },
      ...readings,
    ],
    unsprungFront: options.partsList ? untyped('g') : axleMass(axleMasses.front),
    unsprungRear: options.partsList ? untyped('g') : axleMass(axleMasses.rear),
    lateral: untyped('mm'),
    parts: options.partsList
      ? truck.parts.map((part) => ({
          id: part.id,
          name: part.name,
          carrier: part.carrier,
          mass: typed(part.mass * 1000, 'g', null),
          ahead: typed(part.place[0] * 1000, 'mm', null),
          left: typed(part.place[1] * 1000, 'mm', null),
          height: typed(part.place[2] * 1000, 'mm', null),
        }))
      : [],
    bodyMarks: truck.landmarks.map((mark) => ({
      key: mark.key,
      name: mark.name,
      depth: millimeters(-mark.place[1], STATED.depth, redraw.depths),
      ahead: untyped('mm'),
      height: untyped('mm'),
    })),
    hooks,
    hubDepth: millimeters(truck.hubDepth, STATED.depth, redraw.depths),
    scaleFrom: 'wheelbase',
    scaleDistance: untyped('mm'),
    scaleDepth: untyped('mm'),
    pictures,
    instruments: { scaleZero: untyped('g'), rulerZero: untyped('mm'), levelZero: untyped('deg') },
    countPartsList: false,
    changes: [],
    note: '',
  };

  return {
    state,
    sheet: {
      format: 'plumb-low-bench-sheet',
      version: 3,
      id: 'bench',
      name: truck.name,
      demo: false,
      states: [state],
      openState: state.id,
      guesses: {},
      read: [],
      note: '',
    },
    truth: {
      cg,
      mass,
      axleMasses,
      droop: new Map(
        photographs.map(({ id, droop }) => [
          id,
          {
            front: axleShift(truck.suspension.front, droop.front),
            rear: axleShift(truck.suspension.rear, droop.rear),
          },
        ]),
      ),
      hooks: new Map(truck.hooks.map(({ id, place }) => [id, place])),
      photographs,
    },
  };
};

/** Acute angle, rad, at which the true lines of two hooks cross in the side plane (truck at ride height). */
export const crossingAngle = (truck: WorldTruck, first: string, second: string): number => {
  const cg = centerOfGravity(truck);
  const [a, b] = [first, second].map((id): Vector => {
    const [x, , z] = subtract(hookPlace(truck, id), cg);
    return [x, 0, z];
  });
  if (!a || !b) return 0;
  return Math.acos(Math.min(1, Math.abs(dot(a, b)) / (size(a) * size(b))));
};

/** Pairs of a truck's hooks whose lines cross between two angles, rad. */
export const hookPairs = (truck: WorldTruck, low: number, high: number): (readonly [string, string])[] =>
  truck.hooks.flatMap(({ id: first }, index) =>
    truck.hooks
      .slice(index + 1)
      .map(({ id: second }) => [first, second] as const)
      .filter(([a, b]) => {
        const angle = crossingAngle(truck, a, b);
        return angle >= low && angle <= high;
      }),
  );
