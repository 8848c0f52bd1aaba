import { emptyGiven, emptyInstruments, emptyState } from '../../../src/sheet/empty';
import type { BuildState, Hook } from '../../../src/sheet/schema';
import type { CameraHold } from '../../demo/world/camera';
import { hangRotation, hangTruck } from '../../demo/world/hang';
import { inventTruck } from '../../demo/world/invent';
import { random } from '../../demo/world/random';
import type { Random } from '../../demo/world/random';
import { RIDE_HEIGHT, carrierShift, centerOfGravity, hookPlace, massOf } from '../../demo/world/truck';
import type { Droop, Landmark, WorldHook, WorldTruck } from '../../demo/world/truck';
import type { Vector } from '../../demo/world/vector';
import { add, subtract } from '../../demo/world/vector';
import { COVERAGE, pictureOf, typed } from './givens';
import type { Marked, Shot } from './givens';
import { HAMMER } from './hammer';
import { AS_IT_STANDS, frame, hungAt, hungPose } from './shots';
import type { Box, Film, Pose, Seen } from './shots';

/**
 * Six sets of photographs whose truth is known: near and rolled through a barrel lens, from afar, on live springs, from the
 * side and the rear, of 12 megapixels, and of a hammer. Every draw invents cameras, twists, marks and every typed number
 * anew, each off by the ± it states, so that the 95 % region can be held to its word.
 */

export type CaseName =
  'near' | 'near, focal length' | 'far' | 'free' | 'rear' | 'twelve megapixels' | 'object';

export interface Drawn {
  readonly state: BuildState;
  /** Truck axes, or the hammer's own: ahead, left, height, m. */
  readonly cg: Vector;
  readonly shots: readonly Shot[];
}

/** What may be switched off one at a time, to see what a misfit comes from. */
export interface Without {
  readonly roll?: boolean;
  readonly distortion?: boolean;
  /** Depths typed without error. */
  readonly depths?: boolean;
  readonly ruler?: boolean;
  readonly dimensions?: boolean;
  readonly oblique?: boolean;
  readonly twist?: boolean;
  readonly marks?: boolean;
  readonly lateral?: boolean;
  readonly sticking?: boolean;
  /** Camera distances typed, ±0.1 m. */
  readonly unknownDistance?: boolean;
}

const RADIANS = Math.PI / 180;
/** Of both angles off square and of the twist, where the reader says nothing: ±5.9°. */
const OBLIQUE_U = (5.9 / COVERAGE) * RADIANS;
/** The feet of the tires, where a reader clicks them, lie this much nearer or farther than the hubs. */
const FOOT_U = 0.01;
/** Friction leaves a free axle this far from where it would rest, m. */
const STICKING_U = 0.001;
/** Stated ±, mm and g. */
const STATED = { hook: 1.4, left: 3, depth: 4, markPlace: 3, wheelbase: 1, width: 1.5, radius: 1.5, mass: 6 };
/** Of the ruler itself, mm, and of the CG's place across, mm: what the sheet assumes where nothing is typed. */
const RULER_ZERO = 0.3;
const LATERAL = 10;
/** Of a typed 35 mm equivalent, mm. */
const FOCAL = 2;
const FULL_FRAME_DIAGONAL = Math.hypot(36, 24);

interface Setup {
  /** Number of the invented truck. */
  readonly truck: number;
  /** Number that its draws begin from. */
  readonly draws: number;
  readonly suspension: 'locked' | 'free';
  readonly side: readonly string[];
  readonly rear: readonly string[];
  readonly distance: (draw: Random) => number;
  readonly roll: (draw: Random) => number;
  readonly radial: number;
  readonly film: 'small' | '12 megapixels';
  /** px; of every picture alike. Left out: zoomed. */
  readonly focal?: number;
  /** How much a pixel shows when zoomed, m: as much as fills the picture with the body and some string. */
  readonly zoomed?: Readonly<Record<Seen, readonly [number, number]>>;
  readonly focalTold?: boolean;
}

/** The sheet's own law: one over the distance is normal about 1/1.5 m with u of a third, kept to what is believable. */
const anyDistance = (least: number, most: number) => (draw: Random) => {
  let distance = 0;
  while (!(distance >= least && distance <= most))
    distance = 1.5 / (1 + ((0.98 / COVERAGE) * draw.normal()) / 1.5);
  return distance;
};
const anyRoll = (draw: Random): number => draw.between(-7, 7);
const THREE = ['hood', 'hoop', 'bed'];
const USUAL = { right: [0.0005, 0.0007], rear: [0.0005, 0.0007] } as const;

const NEAR: Setup = {
  truck: 611,
  draws: 611,
  suspension: 'locked',
  side: THREE,
  rear: [],
  distance: (draw) => draw.between(1.15, 1.25),
  roll: (draw) => draw.eitherSign(7, 7),
  radial: -0.02,
  film: 'small',
  focal: 2600,
};

const SETUPS: Readonly<Record<Exclude<CaseName, 'object'>, Setup>> = {
  near: NEAR,
  'near, focal length': { ...NEAR, draws: 617, focalTold: true },
  far: {
    ...NEAR,
    truck: 612,
    draws: 612,
    distance: (draw) => draw.between(3.8, 4.2),
    roll: anyRoll,
    radial: 0,
    focal: 6600,
  },
  free: {
    truck: 613,
    draws: 613,
    suspension: 'free',
    side: ['hoop', 'guard'],
    rear: [],
    distance: anyDistance(0.9, 3),
    roll: anyRoll,
    radial: 0,
    film: 'small',
  },
  rear: {
    truck: 614,
    draws: 614,
    suspension: 'locked',
    side: ['hood', 'hoop'],
    rear: ['slider', 'roof'],
    distance: anyDistance(0.9, 3),
    roll: anyRoll,
    radial: 0,
    film: 'small',
    zoomed: { right: [0.00045, 0.00055], rear: [0.00035, 0.00045] },
  },
  'twelve megapixels': {
    truck: 615,
    draws: 615,
    suspension: 'locked',
    side: THREE,
    rear: [],
    distance: anyDistance(1.2, 2.6),
    roll: anyRoll,
    radial: 0,
    film: '12 megapixels',
    focal: 6050,
  },
};

export const CASES: readonly CaseName[] = [
  'near',
  'near, focal length',
  'far',
  'free',
  'rear',
  'twelve megapixels',
  'object',
];

const film = (setup: Pick<Setup, 'film' | 'radial'>, hanging: boolean): Film => {
  // Stored turned, 4032 wide, and shown upright as its orientation says: portrait, standing as well.
  if (setup.film === '12 megapixels') return { width: 3024, height: 4032, radial: setup.radial };
  return hanging
    ? { width: 1200, height: 1600, radial: setup.radial }
    : { width: 1600, height: 1200, radial: setup.radial };
};

/** The truck with its sprung parts moved across until its center of gravity lies `left` of center. */
const withLateral = (truck: WorldTruck, left: number): WorldTruck => {
  const by = ((left - centerOfGravity(truck)[1]) * massOf(truck)) / massOf(truck, 'body');
  return {
    ...truck,
    parts: truck.parts.map((part) =>
      part.carrier === 'body' ? { ...part, place: add(part.place, [0, by, 0]) } : part,
    ),
  };
};

/** Two more hooks near the CG's place ahead, and two bolts on the tail that are seen from the rear. */
const seenFromRear = (truck: WorldTruck): WorldTruck => {
  const { shape } = truck;
  const [ahead] = centerOfGravity(truck);
  const hooks: WorldHook[] = [
    {
      id: 'slider',
      name: 'left slider eye',
      carrier: 'body',
      place: [ahead + 0.006, shape.halfWidth + 0.01, shape.sill + 0.004],
    },
    {
      id: 'roof',
      name: 'roof rail eye',
      carrier: 'body',
      place: [ahead - 0.005, -0.045, shape.roof + 0.006],
    },
  ];
  const bolts: Landmark[] = [
    { key: 'E', name: 'tailgate bolt, right', place: [shape.tail, -0.064, shape.bed - 0.016] },
    { key: 'F', name: 'tailgate bolt, left', place: [shape.tail, 0.061, shape.sill + 0.012] },
  ];
  return {
    ...truck,
    hooks: [...truck.hooks, ...hooks],
    landmarks: [...truck.landmarks.filter(({ key }) => 'ABCD'.includes(key)), ...bolts],
  };
};

/** Body marks that a view shows. */
const marksOf = (truck: WorldTruck, seen: Seen, tailed: boolean): readonly Landmark[] =>
  truck.landmarks.filter(({ key }) =>
    seen === 'right' ? !tailed || 'ABCD'.includes(key) : 'BDEF'.includes(key),
  );

const boxOf = (truck: WorldTruck): Box => [
  [-truck.rearRadius - 0.01, -truck.frontTrack / 2 - truck.treadWidth / 2, 0],
  [truck.wheelbase + truck.frontRadius, truck.frontTrack / 2 + truck.treadWidth / 2, truck.shape.roof + 0.02],
];

export const truckOf = (name: Exclude<CaseName, 'object'>): WorldTruck => {
  const truck = inventTruck(SETUPS[name].truck);
  return SETUPS[name].rear.length > 0 ? seenFromRear(truck) : truck;
};

/** Acute angles, rad, at which the true lines of each view cross, at ride height. */
export function crossingsOf(name: CaseName): number[] {
  const steepness = (across: number, up: number): number => Math.atan2(up, across);
  const between = (angles: readonly number[]): number[] =>
    angles.flatMap((first, i) =>
      angles.slice(i + 1).map((second) => {
        const apart = Math.abs(first - second) % Math.PI;
        return Math.min(apart, Math.PI - apart);
      }),
    );
  if (name === 'object')
    return between(
      HAMMER.ties.map(({ place }) => steepness(place[0] - HAMMER.cg[0], place[2] - HAMMER.cg[2])),
    );
  const truck = truckOf(name);
  const cg = centerOfGravity(truck);
  const angles = (hooks: readonly string[], across: 0 | 1) =>
    hooks.map((id) => {
      const place = hookPlace(truck, id);
      return steepness(place[across] - cg[across], place[2] - cg[2]);
    });
  return [...between(angles(SETUPS[name].side, 0)), ...between(angles(SETUPS[name].rear, 1))];
}

interface Streams {
  readonly camera: Random;
  readonly draw: Random;
}

const holdOf = (
  setup: Setup,
  seen: Seen,
  { camera: draw }: Streams,
  without: Without,
): CameraHold & { focal: number } => {
  const distance = setup.distance(draw);
  const zoomed = distance / draw.between(...(setup.zoomed ?? USUAL)[seen]);
  const [yaw, pitch, roll] = [draw.normal(), draw.normal(), setup.roll(draw)];
  const focal = setup.focal ?? zoomed;
  return {
    distance,
    yaw: without.oblique ? 0 : OBLIQUE_U * yaw,
    pitch: without.oblique ? 0 : OBLIQUE_U * pitch,
    roll: without.roll ? 0 : roll * RADIANS,
    perPixel: distance / focal,
    focal,
  };
};

/** One set of photographs of a case, marked and typed. */
export function drawCase(name: CaseName, n: number, without: Without = {}): Drawn {
  if (name === 'object') return drawHammer(n, without);
  const setup = SETUPS[name];
  const seed = 100_000 * setup.draws + n;
  const streams = { camera: random(seed, 'photographs: camera'), draw: random(seed, 'photographs: typed') };
  const { camera, draw } = streams;
  const unsure = without.lateral ? 0 : (LATERAL / COVERAGE / 1000) * camera.normal();
  const truck = withLateral(truckOf(name), unsure);
  const cg = centerOfGravity(truck);
  const tailed = setup.rear.length > 0;
  const box = boxOf(truck);
  const radial = without.distortion ? 0 : setup.radial;
  const footDepth = truck.hubDepth + (without.depths ? 0 : FOOT_U * camera.normal());
  const rulerZero = without.ruler ? 0 : (RULER_ZERO / COVERAGE / 1000) * draw.normal();
  // The same camera in all pictures tells the same rounded focal length.
  const focalOff = (FOCAL / COVERAGE) * draw.normal();

  const shot = (id: string, seen: Seen, hookId: string | null): Shot => {
    const hold = holdOf(setup, seen, streams, without);
    const picture = film({ film: setup.film, radial }, hookId !== null);
    const off = [camera.between(-0.015, 0.015), camera.between(-0.012, 0.012)] as const;
    const twist = without.twist ? 0 : OBLIQUE_U * camera.normal();
    const sticking: Droop = { front: STICKING_U * camera.normal(), rear: STICKING_U * camera.normal() };
    let pose: Pose = AS_IT_STANDS;
    let droop = RIDE_HEIGHT;
    if (hookId !== null && setup.suspension === 'free') {
      const rest = hangTruck(truck, hookId, {
        suspension: 'free',
        ...(without.sticking ? {} : { sticking }),
      });
      droop = rest.droop;
      pose = hungAt(hangRotation(rest, twist), hookPlace(truck, hookId, droop));
    } else if (hookId !== null) pose = hungPose(cg, hookPlace(truck, hookId), seen, twist);
    return {
      id,
      view: seen,
      hook: hookId,
      hanging: hookId !== null,
      suspension: hookId === null ? 'locked' : setup.suspension,
      pose,
      camera: frame(pose, seen, box, picture, hold, hookId !== null, off),
      marked: markedOf(truck, setup, seen, hookId, droop, footDepth, tailed),
      focalLength: setup.focalTold
        ? (hold.focal * FULL_FRAME_DIAGONAL) / Math.hypot(picture.width, picture.height) + focalOff
        : null,
    };
  };
  const shots = [
    shot('standing', 'right', null),
    ...setup.side.map((hook, i) => shot(`hang ${i + 1}`, 'right', hook)),
    ...(tailed ? [shot('standing, rear', 'rear', null)] : []),
    ...setup.rear.map((hook, i) => shot(`rear hang ${i + 1}`, 'rear', hook)),
  ];

  const ruled = (meters: number, plusMinus: number) => typed(draw, meters + rulerZero, 'mm', plusMinus);
  const exactly = (meters: number) => ({ ...ruled(meters, 1), text: (1000 * meters).toFixed(3) });
  const length = (meters: number, plusMinus: number) =>
    without.dimensions ? { ...exactly(meters), plusMinus: String(plusMinus) } : ruled(meters, plusMinus);
  const depth = (meters: number, plusMinus = STATED.depth) => {
    const off = typed(draw, meters, 'mm', plusMinus);
    return without.depths ? { ...off, text: (1000 * meters).toFixed(3) } : off;
  };
  const place = (meters: number, plusMinus: number) => {
    const off = ruled(meters, plusMinus);
    return without.ruler ? { ...off, text: (1000 * meters).toFixed(3) } : off;
  };
  const axle = (kilograms: number) => typed(draw, kilograms, 'g', Math.round(100 * kilograms));
  const hooks: Hook[] = [...setup.side, ...setup.rear].map((id) => {
    const hook = truck.hooks.find((each) => each.id === id);
    if (!hook) throw new Error(`No hook ${id}.`);
    return {
      id,
      name: hook.name,
      carrier: hook.carrier,
      source: 'ruler',
      ahead: place(hook.place[0], STATED.hook),
      height: place(hook.place[2], STATED.hook),
      left: depth(hook.place[1], STATED.left),
    };
  });
  const state: BuildState = {
    ...emptyState(name),
    dimensions: {
      wheelbase: length(truck.wheelbase, STATED.wheelbase),
      frontTrack: length(truck.frontTrack, STATED.width),
      rearTrack: length(truck.rearTrack, STATED.width),
      outsideWidth: length(truck.frontTrack + truck.treadWidth, STATED.width),
      treadWidth: length(truck.treadWidth, STATED.width),
      frontTireRadius: length(truck.frontRadius, STATED.radius),
      rearTireRadius: length(truck.rearRadius, STATED.radius),
    },
    unsprungFront: axle(massOf(truck, 'front axle')),
    unsprungRear: axle(massOf(truck, 'rear axle')),
    bodyMarks: truck.landmarks.map((landmark) => ({
      key: landmark.key,
      name: landmark.name,
      depth: depth(-landmark.place[1]),
      // Bolts on the tail are in no picture of the side.
      ahead:
        tailed && 'EF'.includes(landmark.key) ? place(landmark.place[0], STATED.markPlace) : emptyGiven('mm'),
      height:
        tailed && 'EF'.includes(landmark.key) ? place(landmark.place[2], STATED.markPlace) : emptyGiven('mm'),
    })),
    hooks,
    hubDepth: depth(truck.hubDepth),
    instruments: emptyInstruments(),
    readings: [
      {
        id: 'total mass',
        kind: 'total mass',
        load: typed(draw, massOf(truck), 'g', STATED.mass),
        counted: true,
        note: '',
      },
    ],
    pictures: shots.map((each) => finished(draw, each, without)),
  };
  return { state, cg, shots };
}

const finished = (draw: Random, shot: Shot, without: Without) => {
  const picture = pictureOf(draw, shot, !without.marks);
  if (!without.unknownDistance) return picture;
  const meters = Math.hypot(...subtract(shot.camera.position, [0, 0, shot.camera.position[2]]));
  return {
    ...picture,
    distance: { text: meters.toFixed(3), unit: 'm' as const, plusMinus: '0.1', kind: 'expanded' as const },
  };
};

function markedOf(
  truck: WorldTruck,
  setup: Setup,
  seen: Seen,
  hookId: string | null,
  droop: Droop,
  footDepth: number,
  tailed: boolean,
): Marked[] {
  const body = marksOf(truck, seen, tailed).map(({ key, place }) => ({
    role: `mark ${key}` as const,
    place,
  }));
  const hub = (axle: 'front' | 'rear'): Marked => ({
    role: `${axle} hub`,
    place: add(
      axle === 'front'
        ? [truck.wheelbase, -truck.hubDepth, truck.frontRadius]
        : [0, -truck.hubDepth, truck.rearRadius],
      carrierShift(truck, `${axle} axle`, droop),
    ),
  });
  const hook = (id: string): Marked => ({ role: `hook ${id}`, place: hookPlace(truck, id, droop) });
  if (hookId !== null)
    return [...body, hook(hookId), ...(setup.suspension === 'free' ? [hub('front'), hub('rear')] : [])];
  if (seen === 'right')
    return [
      ...body,
      hub('front'),
      hub('rear'),
      { role: 'ground front', place: [truck.wheelbase, -footDepth, 0] },
      { role: 'ground rear', place: [0, -footDepth, 0] },
      ...setup.side.map(hook),
      ...setup.rear.map(hook),
    ];
  return [
    ...body,
    { role: 'ground left', place: [0, truck.rearTrack / 2, 0] },
    { role: 'ground right', place: [0, -truck.rearTrack / 2, 0] },
    ...setup.rear.map(hook),
  ];
}

/** The hammer, hung from each of its ties. */
function drawHammer(n: number, without: Without): Drawn {
  const setup: Setup = {
    truck: 616,
    draws: 616,
    suspension: 'locked',
    side: [],
    rear: [],
    distance: anyDistance(0.9, 3),
    roll: anyRoll,
    radial: 0,
    film: 'small',
    zoomed: { right: [0.00035, 0.00042], rear: [0.00035, 0.00042] },
  };
  const seed = 100_000 * setup.draws + n;
  const streams = { camera: random(seed, 'photographs: camera'), draw: random(seed, 'photographs: typed') };
  const { camera, draw } = streams;
  const across = without.lateral ? 0 : (HAMMER_LATERAL / COVERAGE / 1000) * camera.normal();
  const cg: Vector = [HAMMER.cg[0], HAMMER.cg[1] + across, HAMMER.cg[2]];
  const scaleMarks: Marked[] = HAMMER.scaleMarks.map((place, i) => ({
    role: i === 0 ? 'scale 1' : 'scale 2',
    place,
  }));
  const shots = HAMMER.ties.map((tie, i): Shot => {
    const hold = holdOf(setup, 'right', streams, without);
    const off = [camera.between(-0.015, 0.015), camera.between(-0.012, 0.012)] as const;
    const twist = without.twist ? 0 : OBLIQUE_U * camera.normal();
    // A string tied around a handle finds the middle by hand.
    const hook: Vector = [tie.place[0], (TIE / COVERAGE / 1000) * camera.normal(), tie.place[2]];
    const pose = hungPose(cg, hook, 'right', twist);
    return {
      id: `hang ${i + 1}`,
      view: 'right',
      hook: null,
      hanging: true,
      suspension: 'locked',
      pose,
      camera: frame(pose, 'right', HAMMER.box, film(setup, true), hold, true, off),
      marked: [
        ...scaleMarks,
        ...HAMMER.marks.map(({ key, place }): Marked => ({ role: `mark ${key}`, place })),
      ],
      focalLength: null,
    };
  });
  const depth = (meters: number) => {
    const off = typed(draw, meters, 'mm', HAMMER_DEPTH);
    return without.depths ? { ...off, text: (1000 * meters).toFixed(3) } : off;
  };
  const rulerZero = without.ruler ? 0 : (RULER_ZERO / COVERAGE / 1000) * draw.normal();
  const [first, second] = HAMMER.scaleMarks;
  const state: BuildState = {
    ...emptyState('object'),
    body: 'object',
    scaleFrom: 'two points',
    scaleDistance: typed(draw, second[0] - first[0] + rulerZero, 'mm', STATED.wheelbase),
    scaleDepth: depth(-first[1]),
    lateral: { text: '0', unit: 'mm', plusMinus: String(HAMMER_LATERAL), kind: 'expanded' },
    bodyMarks: HAMMER.marks.map(({ key, place }) => ({
      key,
      name: `sticker ${key}`,
      depth: depth(-place[1]),
      ahead: emptyGiven('mm'),
      height: emptyGiven('mm'),
    })),
    pictures: shots.map((each) => finished(draw, each, without)),
  };
  return { state, cg, shots };
}

/** A hammer is the same on both sides: its CG lies on its middle plane but for the grain, ± mm, and so do its ties. */
const HAMMER_LATERAL = 2;
const TIE = 5;
const HAMMER_DEPTH = 2;
