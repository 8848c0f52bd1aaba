import type { TruckAdjustment } from './adjustTruck';
import { stanceAt } from './caredQuantity';
import type { FurtherReading, FurtherWork, HungFrom, NewHookPlace } from './furtherReadings';
import { COVERAGE, degrees, kilograms, meters, radians, uncertaintyFromLimits } from '../quantities';
import { dimensionsNeeded } from './truckModel';
import type {
  Axle,
  AxleScalesReading,
  HangReading,
  HangView,
  HookPlace,
  Measured,
  TiltReading,
  TruckBench,
  TruckDimensions,
  TruckReading,
} from './truckReadings';

/**
 * The readings a small trail truck's bench can still take, for furtherReadings(). Usual sizes, uncertainties and minutes
 * are common practice, none of them a published truth.
 */

/** Standard uncertainty of what will be read (SI), each with its reason. */
export const USUAL_READING_U = {
  /** Kitchen scales show steps of 1 to 5 g and stick a little: hard limits of 5 g. */
  load: uncertaintyFromLimits(0.005),
  /** A ruler stood beside the hub before and after, ± 1.5 mm. */
  rise: 0.0015 / COVERAGE,
  /** A phone level repeats to about 0.3°, zeroed on the level truck, ± 0.4°. */
  liftAngle: degrees(0.4) / COVERAGE,
  /** A hanging truck stirs under the level, ± 0.5°. */
  hangAngle: degrees(0.5) / COVERAGE,
  /** The moment of tipping is judged to 0.5° to 1°, ± 1°. */
  boardAngle: degrees(1) / COVERAGE,
  /** A finger or dowel is wide: the edge is found to 2 to 5 mm, ± 3 mm. */
  balance: 0.003 / COVERAGE,
  /** A ruler held against hub and hook, ± 1.5 mm. */
  hookPlace: 0.0015 / COVERAGE,
  /** A ruler held across the truck, its middle judged by eye, ± 3 mm. */
  hookLeft: 0.003 / COVERAGE,
  /** A paper strip pulled from under the tire on the board until it holds, ± 4 mm. */
  tipLine: 0.004 / COVERAGE,
  /** Calipers over tire or hub on both sides, ± 0.5 mm. */
  calipers: 0.0005 / COVERAGE,
} as const;

export type UsualReadingU = Readonly<Record<keyof typeof USUAL_READING_U, number>>;

/** Dimensions as trucks of 1:10 usually have them, with the u of a ruler, until they are measured. */
export const USUAL_DIMENSIONS = {
  wheelbase: { value: meters(0.313), u: 0.001 / COVERAGE },
  frontTrack: { value: meters(0.186), u: 0.002 / COVERAGE },
  rearTrack: { value: meters(0.186), u: 0.002 / COVERAGE },
  frontTireRadius: { value: meters(0.055), u: 0.0015 / COVERAGE },
  rearTireRadius: { value: meters(0.055), u: 0.0015 / COVERAGE },
} as const satisfies TruckDimensions;

/** Mass while nothing tells it, kg. */
const USUAL_MASS = 3;
/** Slope of a lift: below it the height hides in the scale's steps, far above it the truck rolls off. */
const LIFT_SLOPE = degrees(25);

/** Bench work, minutes: prepare, do, write down. */
const MINUTES = {
  'total mass': 2,
  'axle scales': 4,
  'wheel scales': 8,
  'axle lift': 8,
  hang: 10,
  'fitted hook': 5,
  board: 5,
  'board once more': 3,
  balance: 4,
  dimension: 2,
  'tip line': 8,
} as const;

/** Where hooks can be fitted, as parts of the wheelbase ahead of the rear axle and above ground. */
const PLACES: readonly { readonly place: NewHookPlace; readonly ahead: number; readonly height: number }[] = [
  { place: 'rear bumper', ahead: -0.3, height: 0.35 },
  { place: 'front bumper', ahead: 1.25, height: 0.35 },
  { place: 'rear of the roof', ahead: 0.1, height: 0.7 },
  { place: 'front of the roof', ahead: 0.6, height: 0.7 },
];
/** A hook nearer to the CG than this (m) gives the line no direction; one this near to another tells nothing new. */
const TOO_NEAR = 0.03;

export interface CandidateOptions {
  /** Where the sheet's own ± differ from the usual. */
  readonly u?: Partial<UsualReadingU>;
  /** Hooks that pictures were taken from; the bench itself does not tell them. */
  readonly hooksInPictures?: readonly string[];
  /** true where a tip line that was looked for can be entered. */
  readonly tipLine?: boolean;
}

/** Everything that this bench has not read yet, second readings of what it has, and dimensions measured better. */
export function usualCandidates(
  bench: TruckBench,
  truck: TruckAdjustment,
  options: CandidateOptions = {},
): FurtherReading[] {
  const u: UsualReadingU = { ...USUAL_READING_U, ...options.u };
  const list = new Candidates(bench, truck, u);
  const taken = (kind: TruckReading['kind']): boolean => bench.readings.some((each) => each.kind === kind);
  if (!taken('total mass')) list.add('total mass', { kind: 'total mass' }, [list.totalMass('total mass')]);
  if (!taken('axle scales'))
    list.add('axle scales', { kind: 'axle scales' }, [list.axleScales('axle scales')]);
  if (!taken('wheel scales'))
    list.add('wheel scales', { kind: 'wheel scales' }, [list.wheelScales('wheel scales')]);
  for (const raised of ['front', 'rear'] as const)
    if (!bench.readings.some((each) => each.kind === 'axle lift' && each.raised === raised))
      list.lifts(raised);
  list.boards();
  list.hangs(new Set(options.hooksInPictures));
  for (const edge of ['across', 'along'] as const) {
    if (bench.readings.some((each) => each.kind === 'balance' && each.edge === edge)) continue;
    const place = { value: meters(0), u: u.balance };
    list.add(`balance ${edge}`, { kind: 'balance', edge }, [
      { kind: 'balance', id: `further balance ${edge}`, edge, place },
    ]);
  }
  list.repeats();
  list.betterDimensions();
  if (options.tipLine && truck.model.at.tipLine !== undefined)
    list.add('tip line', { kind: 'tip line' }, [], { tipLine: u.tipLine });
  return list.all;
}

interface Extra {
  readonly hooks?: readonly HookPlace[];
  readonly dimensions?: TruckDimensions;
  readonly tipLine?: number;
  readonly minutes?: number;
  readonly oneOf?: string;
}

const SIDEWAYS = ['left', 'right'] as const;
const LENGTHWISE = ['nose up', 'nose down'] as const;

class Candidates {
  readonly all: FurtherReading[] = [];
  private readonly cg: { readonly x: number; readonly y: number; readonly z: number };
  private readonly wheelbase: number;
  private readonly mass: number;

  constructor(
    private readonly bench: TruckBench,
    private readonly truck: TruckAdjustment,
    private readonly u: UsualReadingU,
  ) {
    const [x, y, z, wheelbase] = stanceAt(truck.model, truck.adjustment.unknowns);
    this.cg = { x, y, z };
    this.wheelbase = wheelbase > 0 ? wheelbase : USUAL_DIMENSIONS.wheelbase.value;
    this.mass = truck.mass?.value ?? USUAL_MASS;
  }

  add(id: string, work: FurtherWork, readings: readonly TruckReading[], extra: Extra = {}): void {
    const { hooks = [], tipLine = null, oneOf = null } = extra;
    this.all.push({
      id,
      work,
      readings,
      hooks,
      dimensions: { ...this.lacking(readings), ...extra.dimensions },
      tipLine,
      minutes: extra.minutes ?? MINUTES[work.kind === 'again' ? 'dimension' : work.kind],
      caution: cautionOf(readings),
      oneOf,
    });
  }

  /** Usual sizes of what the readings need and the bench lacks. */
  private lacking(readings: readonly TruckReading[]): TruckDimensions {
    const known = new Set(this.truck.model.unknowns.map(({ name }) => name));
    const usual: TruckDimensions = USUAL_DIMENSIONS;
    return Object.fromEntries(
      readings
        .flatMap(dimensionsNeeded)
        .filter((name) => !known.has(name) && usual[name])
        .map((name) => [name, usual[name]]),
    );
  }

  private load(value: number): AxleScalesReading['front'] {
    return { value: kilograms(value), u: this.u.load, law: 'rectangular' };
  }

  totalMass(id: string): TruckReading {
    return { kind: 'total mass', id: `further ${id}`, load: this.load(this.mass) };
  }

  axleScales(id: string): TruckReading {
    const front = this.mass * (this.cg.x / this.wheelbase);
    return {
      kind: 'axle scales',
      id: `further ${id}`,
      front: this.load(front),
      rear: this.load(this.mass - front),
    };
  }

  /** Each axle carries its own part of what the CG lies off center. */
  wheelScales(id: string): TruckReading {
    const share = this.cg.x / this.wheelbase;
    const track = this.truck.frontTrack?.value ?? USUAL_DIMENSIONS.frontTrack.value;
    const wheel = (part: number, side: 1 | -1) =>
      this.load(this.mass * part * (1 / 2 + (side * this.cg.y) / track));
    return {
      kind: 'wheel scales',
      id: `further ${id}`,
      frontLeft: wheel(share, 1),
      frontRight: wheel(share, -1),
      rearLeft: wheel(1 - share, 1),
      rearRight: wheel(1 - share, -1),
    };
  }

  /** One axle lifted, by height and by angle; with both axles weighed level where mass or place are not known yet. */
  lifts(raised: Axle): void {
    const open = this.truck.mass === null || this.truck.cg.x === null;
    const weighing = open && !this.bench.readings.some(({ kind }) => kind === 'axle scales');
    const scaleUnder = raised === 'front' ? 'rear' : 'front';
    for (const by of ['height', 'angle'] as const) {
      const id = `lift ${raised} by ${by}`;
      const lift =
        by === 'height'
          ? { by, rise: { value: meters(this.wheelbase * Math.sin(LIFT_SLOPE)), u: this.u.rise } }
          : { by, angle: { value: LIFT_SLOPE, u: this.u.liftAngle } };
      this.add(
        id,
        { kind: 'axle lift', raised, by, weighing },
        [
          ...(weighing ? [this.axleScales(`${id}, level`)] : []),
          {
            kind: 'axle lift',
            id: `further ${id}`,
            raised,
            lift,
            scaleUnder,
            load: this.load(this.mass / 2),
          },
        ],
        {
          oneOf: `lift ${raised}`,
          minutes: MINUTES['axle lift'] + (weighing ? MINUTES['axle scales'] : 0),
        },
      );
    }
  }

  /** The board: every direction that was not tried, both sides together, and twice more each side. */
  boards(): void {
    const tried = new Set(this.bench.readings.flatMap((each) => (each.kind === 'tilt' ? [each.toward] : [])));
    const tilts = (toward: readonly TiltReading['toward'][], times: number): TruckReading[] =>
      toward.flatMap((way) =>
        Array.from({ length: times }, (_, i): TruckReading => ({
          kind: 'tilt',
          id: `further board ${way} ${times} ${i}`,
          toward: way,
          angle: { value: radians(0.7), u: this.boardU(way) },
        })),
      );
    for (const way of ['left', 'right', 'nose up', 'nose down'] as const)
      if (!tried.has(way))
        this.add(`board ${way}`, { kind: 'board', toward: [way], times: 1 }, tilts([way], 1));
    if (!SIDEWAYS.some((way) => tried.has(way)))
      this.add('board both sides', { kind: 'board', toward: SIDEWAYS, times: 1 }, tilts(SIDEWAYS, 1), {
        minutes: MINUTES.board + MINUTES['board once more'],
      });
    for (const ways of [SIDEWAYS.filter((way) => tried.has(way)), ...LENGTHWISE.map((way) => [way])]) {
      if (ways.length === 0 || !ways.every((way) => tried.has(way))) continue;
      this.add(
        `board twice more ${ways.join(' ')}`,
        { kind: 'board', toward: ways, times: 2 },
        tilts(ways, 2),
        { minutes: MINUTES.board + (2 * ways.length - 1) * MINUTES['board once more'] },
      );
    }
  }

  /** As sure as the board was before, where it was tried that way. */
  private boardU(toward: TiltReading['toward']): number {
    const before = this.bench.readings.find((each) => each.kind === 'tilt' && each.toward === toward);
    return before?.kind === 'tilt' ? before.angle.u : this.u.boardAngle;
  }

  private hang(id: string, view: HangView, hook: string): HangReading {
    const angle = { value: radians(0), u: this.u.hangAngle };
    return { kind: 'hang', id: `further ${id}`, view, hook, string: { by: 'angle', angle } };
  }

  /** A hook to be fitted, its place measured with a ruler. */
  private fitted(place: NewHookPlace, x: number, y: number, z: number): HookPlace {
    return {
      id: `further ${place}`,
      carrier: 'body',
      x: { value: meters(x), u: this.u.hookPlace },
      y: { value: meters(y), u: this.u.hookLeft },
      z: { value: meters(z), u: this.u.hookPlace },
    };
  }

  /** Hangs in side and rear view, from hooks that were not used that way and from new ones. */
  hangs(inPictures: ReadonlySet<string>): void {
    const { bench, cg, wheelbase } = this;
    const hung = (view: HangView): Set<string> =>
      new Set([
        ...bench.readings.flatMap((each) => (each.kind === 'hang' && each.view === view ? [each.hook] : [])),
        ...(view === 'side' ? inPictures : []),
      ]);
    const inSide = hung('side');
    const inRear = new Set([...hung('rear'), ...hung('front')]);
    const reach = (hook: HookPlace): number => Math.hypot(hook.x.value - cg.x, hook.z.value - cg.z);
    type Place = { readonly from: HungFrom; readonly hook: HookPlace; readonly fitted: boolean };
    const unused: Place[] = bench.hooks
      .filter((hook) => !inSide.has(hook.id) && reach(hook) > TOO_NEAR)
      .map((hook) => ({ from: { hook: hook.id }, hook, fitted: false }));
    const fresh: Place[] = PLACES.map(({ place, ahead, height }) => ({
      from: { place },
      hook: this.fitted(place, ahead * wheelbase, 0, height * wheelbase),
      fitted: true,
    })).filter(
      ({ hook }) =>
        reach(hook) > TOO_NEAR &&
        bench.hooks.every(
          (other) => Math.hypot(other.x.value - hook.x.value, other.z.value - hook.z.value) > TOO_NEAR,
        ),
    );
    const hangFrom = (view: HangView, places: readonly Place[], oneOf: string | undefined): void => {
      const id = `hang ${view} ${places.map(({ hook }) => hook.id).join(' and ')}`;
      const hooks = places.filter(({ fitted }) => fitted).map(({ hook }) => hook);
      this.add(
        id,
        { kind: 'hang', view, from: places.map(({ from }) => from) },
        places.map(({ hook }) => this.hang(`${id}, ${hook.id}`, view, hook.id)),
        {
          hooks,
          minutes: places.length * MINUTES.hang + hooks.length * MINUTES['fitted hook'],
          ...(oneOf === undefined ? {} : { oneOf }),
        },
      );
    };
    for (const place of unused) hangFrom('side', [place], undefined);
    for (const place of fresh) hangFrom('side', [place], 'fitted hook, side');
    // Where nothing tells place or height yet, one line does not either.
    if (this.truck.cg.x === null && this.truck.cg.z === null) {
      const places = [...unused, ...fresh];
      places.forEach((one, i) => {
        for (const other of places.slice(i + 1)) hangFrom('side', [one, other], 'hang twice');
      });
    }
    // Seen from behind the truck must hang nearly level fore and aft: hook above or beside the CG.
    const beside = ({ x, y, z }: HookPlace): boolean => {
      const across = Math.hypot(y.value - cg.y, z.value - cg.z);
      return across > TOO_NEAR && Math.abs(x.value - cg.x) < across / 2;
    };
    for (const hook of bench.hooks)
      if (!inRear.has(hook.id) && beside(hook))
        hangFrom('rear', [{ from: { hook: hook.id }, hook, fitted: false }], undefined);
    const track = this.truck.rearTrack?.value ?? USUAL_DIMENSIONS.rearTrack.value;
    const rear: readonly [NewHookPlace, number, number][] = [
      ['middle of the roof', 0, 0.7 * wheelbase],
      ['left rail', track / 2, 0.4 * wheelbase],
    ];
    for (const [place, y, z] of rear)
      hangFrom(
        'rear',
        [{ from: { place }, hook: this.fitted(place, cg.x, y, z), fitted: true }],
        'fitted hook, rear',
      );
  }

  /** A second reading of whatever was read alone: same u, same instrument. */
  repeats(): void {
    for (const reading of this.bench.readings) {
      if (reading.kind === 'tilt' || reading.kind === 'parts list' || reading.kind === 'picture lines')
        continue;
      this.add(
        `again ${reading.id}`,
        { kind: 'again', reading: reading.id },
        [{ ...reading, id: `further again ${reading.id}` }],
        { minutes: MINUTES[reading.kind] },
      );
    }
  }

  /** Dimensions that the bench lacks, with a ruler; those it has, with calipers. */
  betterDimensions(): void {
    const known = new Set(this.truck.model.unknowns.map(({ name }) => name));
    const usual: TruckDimensions = USUAL_DIMENSIONS;
    const groups: readonly (readonly [string, readonly (keyof TruckDimensions)[]])[] = [
      ['tracks', ['frontTrack', 'rearTrack']],
      ['wheelbase', ['wheelbase']],
      ['tire radii', ['frontTireRadius', 'rearTireRadius']],
    ];
    for (const [id, all] of groups) {
      const first = all.filter((name) => !known.has(name));
      const better = all.filter((name) => {
        const given = this.bench.dimensions[name];
        return known.has(name) && given !== undefined && given.u > this.u.calipers;
      });
      const sizes = (
        names: readonly (keyof TruckDimensions)[],
        by: (given: Measured) => number,
      ): TruckDimensions =>
        Object.fromEntries(
          names.flatMap((name) => {
            const given: Measured | undefined = this.bench.dimensions[name] ?? usual[name];
            return given ? [[name, { value: given.value, u: by(given) }]] : [];
          }),
        );
      if (first.length > 0)
        this.add(`measure ${id}`, { kind: 'dimension', names: first, by: 'ruler' }, [], {
          dimensions: sizes(first, ({ u }) => u),
        });
      if (better.length > 0)
        this.add(`${id} with calipers`, { kind: 'dimension', names: better, by: 'calipers' }, [], {
          dimensions: sizes(better, () => this.u.calipers),
        });
    }
  }
}

function cautionOf(readings: readonly TruckReading[]): FurtherReading['caution'] {
  if (readings.some(({ kind }) => kind === 'hang')) return 'hang';
  if (readings.some(({ kind }) => kind === 'tilt')) return 'board';
  return readings.some(({ kind }) => kind === 'axle lift') ? 'lift' : null;
}
