import { emptyInstruments } from '../../../src/sheet/empty';
import {
  SHEET_FORMAT,
  SHEET_VERSION,
  type BenchSheet,
  type BuildState,
  type Mark,
  type Picture,
  type Reading,
} from '../../../src/sheet/schema';
import { markRole } from './bench';
import { photographHold } from './camera';
import { everyReading, given, intendedChanges, ruledSliderEye, strapsForgotten } from './demoReadings';
import { hangTruck } from './hang';
import type { Photograph } from './photograph';
import { hangingPhotograph, standingPhotograph, truePoints } from './photograph';
import type { Random } from './random';
import { random } from './random';
import type { WorldTruck } from './truck';
import { centerOfGravity, massOf } from './truck';

/** A full set: locked for hanging, then free, the last of which hangs from an axle's hook. */
const SETS = [
  {
    id: 'locked',
    name: 'As driven, suspension locked for hanging',
    date: '2026-05-09',
    suspension: 'locked',
    standing: 'standing',
    hooks: ['hood', 'hoop', 'bed'],
    first: 1,
    note: 'Pack strapped in, body on, mud off. Axles held at ride height with cut struts and cable ties.',
  },
  {
    id: 'free',
    name: 'Suspension free',
    date: '2026-05-10',
    suspension: 'free',
    standing: 'standing-2',
    hooks: ['hood', 'hoop', 'guard'],
    first: 4,
    note: 'The same truck, struts out. Both hubs marked in every hang, to see how far the axles drooped.',
  },
] as const;

/** Photographs of a set's state: standing, then one a hook. */
interface TakenSet {
  readonly set: (typeof SETS)[number];
  readonly photographs: readonly Photograph[];
}

const takeSets = (truck: WorldTruck, cameras: number): TakenSet[] => {
  const draw = random(cameras, 'photographs');
  const off = (): readonly [number, number] => [draw.between(-0.015, 0.015), draw.between(-0.01, 0.012)];
  return SETS.map((set) => ({
    set,
    photographs: [
      standingPhotograph(truck, set.standing, photographHold(draw), 'right', off()),
      ...set.hooks.map((hook, index) =>
        hangingPhotograph(
          truck,
          `hang-${set.first + index}`,
          hook,
          set.suspension,
          hangTruck(truck, hook, { suspension: set.suspension }),
          (draw.eitherSign(2, 4) * Math.PI) / 180,
          photographHold(draw),
          'right',
          off(),
        ),
      ),
    ],
  }));
};

/** 'standing', 'hang-1' to 'hang-3' locked; 'standing-2', 'hang-4' to 'hang-6' free. */
export const demoPhotographs = (truck: WorldTruck, cameras: number): Photograph[] =>
  takeSets(truck, cameras).flatMap(({ photographs }) => photographs);

/** What a careful builder reads off: lengths to half a millimeter, masses to the gram, each a little wrong. */
const readings = (truck: WorldTruck, draw: Random) => {
  const tidy = (value: number): string => String(Number(value.toFixed(1)));
  const millimeters = (meters: number, u: number): string =>
    tidy(Math.round(2 * (1000 * meters + u * draw.normal())) / 2);
  const grams = (kilograms: number): string => String(Math.round(1000 * kilograms + draw.between(-2, 2)));
  const cg = centerOfGravity(truck);
  const mass = massOf(truck);
  const front = (mass * cg[0]) / truck.wheelbase;
  const corner = (axle: 'front' | 'rear', side: 1 | -1): string =>
    grams(
      (axle === 'front' ? front : mass - front) *
        (0.5 + (side * cg[1]) / (axle === 'front' ? truck.frontTrack : truck.rearTrack)),
    );
  return {
    wheelbase: millimeters(truck.wheelbase, 0.3),
    frontTrack: millimeters(truck.frontTrack, 0.4),
    rearTrack: millimeters(truck.rearTrack, 0.4),
    outsideWidth: millimeters(Math.max(truck.frontTrack, truck.rearTrack) + truck.treadWidth, 0.4),
    treadWidth: millimeters(truck.treadWidth, 0.4),
    frontTireRadius: millimeters(truck.frontRadius, 0.4),
    rearTireRadius: millimeters(truck.rearRadius, 0.4),
    hubDepth: millimeters(truck.hubDepth, 1),
    mass: grams(mass),
    axles: { front: grams(front), rear: grams(mass - front) },
    wheels: {
      frontLeft: corner('front', 1),
      frontRight: corner('front', -1),
      rearLeft: corner('rear', 1),
      rearRight: corner('rear', -1),
    },
    marks: truck.landmarks.map(({ key, name, place }) => ({ key, name, depth: millimeters(-place[1], 1) })),
    hooks: truck.hooks.map(({ id, name, carrier, place }) => ({
      id,
      name,
      carrier,
      ahead: millimeters(place[0], 0.5),
      left: millimeters(place[1], 0.8),
      height: millimeters(place[2], 0.5),
    })),
  };
};
type Readings = ReturnType<typeof readings>;

const pictureOf = (
  truck: WorldTruck,
  photograph: Photograph,
  hooks: readonly string[],
  clicks: Random,
): Picture => {
  const hook = truck.hooks.find(({ id }) => id === photograph.hook);
  const wanted = (role: string): boolean => {
    if (role.startsWith('hook ')) return hooks.includes(role.slice(5));
    return photograph.kind === 'standing' || photograph.suspension === 'free' || !role.endsWith(' hub');
  };
  // A reader clicks to a tenth of a pixel in the loupe, and about 0.7 px wrong.
  const click = (at: number): number => Number((at + 0.7 * clicks.normal()).toFixed(1));
  return {
    id: photograph.id,
    name: hook ? `Hung from the ${hook.name}` : 'Standing at ride height',
    kind: photograph.kind,
    view: photograph.side,
    width: photograph.camera.width,
    height: photograph.camera.height,
    distance: given('', 'm'),
    focalLength: given('', 'mm'),
    oblique: given('', 'deg'),
    twist: given('', 'deg'),
    markPlusMinus: given('', 'px'),
    hook: photograph.hook,
    suspension: photograph.suspension,
    marks: truePoints(truck, photograph)
      .filter(({ role }) => wanted(role))
      .map(({ role, x, y }): Mark => ({
        role: markRole(role),
        x: click(x),
        y: click(y),
        plusMinus: '',
        counted: true,
        source: 'hand',
      })),
    counted: true,
    note: '',
  };
};

/** Sizes, parts and scales, the same in every state; hooks as far as they are used. */
const commonState = (
  truck: WorldTruck,
  read: Readings,
  used: readonly string[],
): Omit<BuildState, 'id' | 'name' | 'date' | 'pictures' | 'note'> => ({
  body: 'truck',
  dimensions: {
    wheelbase: given(read.wheelbase, 'mm'),
    frontTrack: given(read.frontTrack, 'mm'),
    rearTrack: given(read.rearTrack, 'mm'),
    outsideWidth: given(read.outsideWidth, 'mm'),
    treadWidth: given(read.treadWidth, 'mm'),
    frontTireRadius: given(read.frontTireRadius, 'mm'),
    rearTireRadius: given(read.rearTireRadius, 'mm'),
  },
  unsprungFront: given('', 'g'),
  unsprungRear: given('', 'g'),
  lateral: given('', 'mm'),
  parts: truck.parts.map(({ id, name, carrier, mass, place }) => ({
    id,
    name,
    carrier,
    mass: given(String(Math.round(mass * 10000) / 10), 'g'),
    ahead: given(String(Math.round(place[0] * 10000) / 10), 'mm'),
    left: given(String(Math.round(place[1] * 10000) / 10), 'mm'),
    height: given(String(Math.round(place[2] * 10000) / 10), 'mm'),
  })),
  bodyMarks: read.marks.map(({ key, name, depth }) => ({
    key,
    name,
    depth: given(depth, 'mm', '4'),
    ahead: given('', 'mm'),
    height: given('', 'mm'),
  })),
  hooks: read.hooks
    .filter(({ id }) => used.includes(id))
    .map(({ id, name, carrier, ahead, left, height }) => ({
      id,
      name,
      carrier,
      source: 'ruler',
      ahead: given(ahead, 'mm'),
      height: given(height, 'mm'),
      left: given(left, 'mm', '3'),
    })),
  hubDepth: given(read.hubDepth, 'mm', '4'),
  scaleFrom: 'wheelbase',
  scaleDistance: given('', 'mm'),
  scaleDepth: given('', 'mm'),
  readings: [
    { id: 'mass', kind: 'total mass', load: given(read.mass, 'g'), counted: true, note: '' },
    {
      id: 'axles',
      kind: 'axle scales',
      front: given(read.axles.front, 'g'),
      rear: given(read.axles.rear, 'g'),
      counted: true,
      note: '',
    },
    {
      id: 'wheels',
      kind: 'wheel scales',
      frontLeft: given(read.wheels.frontLeft, 'g'),
      frontRight: given(read.wheels.frontRight, 'g'),
      rearLeft: given(read.wheels.rearLeft, 'g'),
      rearRight: given(read.wheels.rearRight, 'g'),
      counted: true,
      note: '',
    },
  ],
  instruments: emptyInstruments(),
  countPartsList: false,
  changes: [],
});

const photographedState = (
  truck: WorldTruck,
  { set, photographs }: TakenSet,
  read: Readings,
  clicks: Random,
): BuildState => ({
  id: set.id,
  name: set.name,
  date: set.date,
  ...commonState(truck, read, set.hooks),
  pictures: photographs.map((photograph) => pictureOf(truck, photograph, set.hooks, clicks)),
  note: set.note,
});

/** The state with a reading of every kind. */
const withEveryReading = (truck: WorldTruck, cameras: number, state: BuildState): BuildState => ({
  ...state,
  hooks: [...state.hooks, ruledSliderEye(truck, cameras)],
  readings: [...state.readings, ...everyReading(truck, cameras)],
  changes: intendedChanges(truck),
});

const STRAPS_HOOKS: readonly string[] = ['hood', 'bed'];

/** The first try at an axle lift, which went wrong without anybody noticing. */
const strapsState = (truck: WorldTruck, cameras: number, read: Readings): BuildState => {
  const common = commonState(truck, read, STRAPS_HOOKS);
  const isWanted = ({ kind }: Reading): boolean => kind === 'total mass' || kind === 'axle scales';
  const hooks = truck.hooks.filter(({ id }) => STRAPS_HOOKS.includes(id));
  return {
    id: 'straps',
    name: 'Lifted without straps',
    date: '2026-05-02',
    ...common,
    bodyMarks: [],
    pictures: [],
    readings: [...common.readings.filter(isWanted), ...strapsForgotten(truck, hooks, cameras)],
    note: [
      'Soft springs on trial, set to the same ride height. Struts in for the hangs and the board.',
      'For the lift they were out again and the straps lay on the bench, so the nose sank and the tail rose on its springs;',
      'the sheet says locked, as was meant. Kept to see whether the readings give it away.',
    ].join(' '),
  };
};

/**
 * The marked sheet of a full set of photographs: state 'locked' open, with a reading of every kind; state 'free' beside
 * it; and a state without pictures, one reading of which is wrong.
 */
export const demoSheet = (truck: WorldTruck, cameras: number): BenchSheet => {
  const read = readings(truck, random(cameras, 'readings'));
  const clicks = random(cameras, 'clicks');
  return {
    format: SHEET_FORMAT,
    version: SHEET_VERSION,
    id: truck.name.toLowerCase().replace(/\W+/g, '-'),
    name: truck.name,
    demo: true,
    states: [
      ...takeSets(truck, cameras).map((taken) => {
        const state = photographedState(truck, taken, read, clicks);
        return taken.set.suspension === 'locked' ? withEveryReading(truck, cameras, state) : state;
      }),
      strapsState(truck, cameras, read),
    ],
    openState: 'locked',
    guesses: {},
    read: [],
    note: '',
  };
};

/** What the builder of a try-out truck has measured, as lines of text: all that goes with its pictures. */
export const benchNotes = (truck: WorldTruck, cameras: number): string => {
  const read = readings(truck, random(cameras, 'readings'));
  return [
    `${truck.name}: what was measured on the bench`,
    '',
    `Wheelbase ${read.wheelbase} mm`,
    `Track, tire center to tire center: front ${read.frontTrack} mm, rear ${read.rearTrack} mm`,
    `Outside width ${read.outsideWidth} mm, tread width ${read.treadWidth} mm`,
    `Hub above ground: front ${read.frontTireRadius} mm, rear ${read.rearTireRadius} mm`,
    `Hub nut to center plane ${read.hubDepth} mm`,
    `Mass ${read.mass} g`,
    `On scales: front axle ${read.axles.front} g, rear axle ${read.axles.rear} g`,
    `Each wheel: front left ${read.wheels.frontLeft} g, front right ${read.wheels.frontRight} g, ` +
      `rear left ${read.wheels.rearLeft} g, rear right ${read.wheels.rearRight} g`,
    '',
    'Marks on the right-hand side, and how far out from the center plane:',
    ...read.marks.map(({ key, name, depth }) => `  ${key}  ${name}, ${depth} mm`),
    '',
    'Hooks, by ruler (ahead of the rear axle, left of center, above ground):',
    ...read.hooks.map(
      ({ name, carrier, ahead, left, height }) =>
        `  ${name}, on the ${carrier}: ${ahead}, ${left}, ${height} mm`,
    ),
    '',
    'Pictures, all from the right:',
    ...takeSets(truck, cameras).flatMap(({ set, photographs }) =>
      photographs.map(
        ({ id, hook }) =>
          `  ${id}.jpg  ${hook ? `hung from the ${truck.hooks.find((each) => each.id === hook)?.name}, suspension ${set.suspension}` : 'standing'}`,
      ),
    ),
    '',
  ].join('\n');
};

/** The truth of a truck, mm and g, for comparing afterwards. */
export const truthOf = (truck: WorldTruck): object => {
  const [ahead, left, height] = centerOfGravity(truck).map((value) => 1000 * value);
  return {
    truck: truck.name,
    cg: { ahead, left, height },
    mass: 1000 * massOf(truck),
    frontAxleMass: 1000 * massOf(truck, 'front axle'),
    rearAxleMass: 1000 * massOf(truck, 'rear axle'),
    hooks: truck.hooks.map(({ id, carrier, place }) => ({
      id,
      carrier,
      place: place.map((value) => 1000 * value),
    })),
  };
};
