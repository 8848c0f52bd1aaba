import { emptyGiven, emptyState } from '../../../src/sheet/empty';
import type { BuildState, Hook } from '../../../src/sheet/schema';
import { hangRotation, hangTruck } from '../../demo/world/hang';
import { RIDE_HEIGHT, carrierShift, centerOfGravity, hookPlace, massOf } from '../../demo/world/truck';
import type { Droop, Landmark, WorldTruck } from '../../demo/world/truck';
import { add } from '../../demo/world/vector';
import { pictureOf, typist } from './givens';
import type { Drawn, Marked, Shot } from './givens';
import { COVERAGE, streamsOf, take } from './laws';
import type { Without } from './laws';
import { SEEN_KEYS, SETUPS, truckOf } from './setups';
import type { Setup, TruckCase } from './setups';
import { AS_IT_STANDS, frame, hungAt, hungPose } from './shots';
import type { Box, Pose, Seen } from './shots';

/** One set of photographs of an invented truck, marked and typed anew. */

/** The feet of the tires, where a reader clicks them, lie this much nearer or farther than the hubs, m. */
const FOOT_U = 0.01;
/** Friction leaves a free axle this far from where it would rest, m. */
const STICKING_U = 0.001;
/** The CG's place across, ±, m: what the sheet takes where nothing is typed. */
const LATERAL = 0.01;
/** Stated ±, mm and g. */
const STATED = { hook: 1.4, left: 3, depth: 4, markPlace: 3, wheelbase: 1, width: 1.5, radius: 1.5, mass: 6 };
/** How far the 35 mm equivalent that a camera tells is off, as a part of it: makers count it differently. */
const FOCAL_U = 0.03;
const FULL_FRAME_DIAGONAL = Math.hypot(36, 24);

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

const boxOf = (truck: WorldTruck): Box => [
  [-truck.rearRadius - 0.01, -truck.frontTrack / 2 - truck.treadWidth / 2, 0],
  [truck.wheelbase + truck.frontRadius, truck.frontTrack / 2 + truck.treadWidth / 2, truck.shape.roof + 0.02],
];

/** A truck in one photograph: how it hangs or stands, and how far its axles have drooped. */
function placed(truck: WorldTruck, seen: Seen, hookId: string | null, twist: number, sticking: Droop | null) {
  if (hookId === null) return { pose: AS_IT_STANDS, droop: RIDE_HEIGHT };
  if (sticking === null) {
    const pose: Pose = hungPose(centerOfGravity(truck), hookPlace(truck, hookId), seen, twist);
    return { pose, droop: RIDE_HEIGHT };
  }
  const rest = hangTruck(truck, hookId, { suspension: 'free', sticking });
  return {
    pose: hungAt(hangRotation(rest, twist), hookPlace(truck, hookId, rest.droop)),
    droop: rest.droop,
  };
}

export function drawTruck(name: TruckCase, n: number, without: Without): Drawn {
  const setup = SETUPS[name];
  const { camera, typed: draw } = streamsOf(setup.draws, n);
  const lateral = without.has('lateral') ? 0 : (LATERAL / COVERAGE) * camera.normal();
  const truck = withLateral(truckOf(name), lateral);
  const box = boxOf(truck);
  const footDepth = truck.hubDepth + (without.has('depths') ? 0 : FOOT_U * camera.normal());
  const radial = setup.radial(camera);
  // The same camera tells the same number in all its pictures.
  const focalTold = 1 + FOCAL_U * camera.normal();

  const shot = (id: string, seen: Seen, hookId: string | null): Shot => {
    const hanging = hookId !== null;
    const { hold, film, twist, off } = take(setup, { seen, hanging, radial }, camera, without);
    const stuck = without.has('sticking') ? 0 : STICKING_U;
    const sticking = { front: stuck * camera.normal(), rear: stuck * camera.normal() };
    const { pose, droop } = placed(truck, seen, hookId, twist, setup.suspension === 'free' ? sticking : null);
    return {
      id,
      view: seen,
      hook: hookId,
      hanging,
      suspension: hanging ? setup.suspension : 'locked',
      pose,
      camera: frame(pose, seen, box, film, hold, hanging, off),
      marked: markedOf(truck, setup, seen, hookId, droop, footDepth),
      focalLength:
        setup.focalTold && setup.focal
          ? Math.round((focalTold * setup.focal * FULL_FRAME_DIAGONAL) / Math.hypot(film.width, film.height))
          : null,
    };
  };
  const shots = [
    shot('standing', 'right', null),
    ...setup.side.map((hook, i) => shot(`hang ${i + 1}`, 'right', hook)),
    ...(setup.rear.length > 0 ? [shot('standing, rear', 'rear', null)] : []),
    ...setup.rear.map((hook, i) => shot(`rear hang ${i + 1}`, 'rear', hook)),
  ];

  const { ruled, depth, grams } = typist(draw, without);
  const hooks: Hook[] = [...setup.side, ...setup.rear].map((id) => {
    const hook = truck.hooks.find((each) => each.id === id);
    if (!hook) throw new Error(`No hook ${id}.`);
    return {
      id,
      name: hook.name,
      carrier: hook.carrier,
      source: 'ruler',
      ahead: ruled(hook.place[0], STATED.hook),
      height: ruled(hook.place[2], STATED.hook),
      left: depth(hook.place[1], STATED.left),
    };
  });
  // Bolts on the tail are in no picture of the side: a ruler tells their places.
  const isRuled = ({ key }: Landmark): boolean => setup.rear.length > 0 && !isSeen(key, 'right');
  const state: BuildState = {
    ...emptyState(name),
    dimensions: {
      wheelbase: ruled(truck.wheelbase, STATED.wheelbase),
      frontTrack: ruled(truck.frontTrack, STATED.width),
      rearTrack: ruled(truck.rearTrack, STATED.width),
      outsideWidth: ruled(truck.frontTrack + truck.treadWidth, STATED.width),
      treadWidth: ruled(truck.treadWidth, STATED.width),
      frontTireRadius: ruled(truck.frontRadius, STATED.radius),
      rearTireRadius: ruled(truck.rearRadius, STATED.radius),
    },
    unsprungFront: grams(massOf(truck, 'front axle'), Math.round(100 * massOf(truck, 'front axle'))),
    unsprungRear: grams(massOf(truck, 'rear axle'), Math.round(100 * massOf(truck, 'rear axle'))),
    bodyMarks: truck.landmarks.map((landmark) => ({
      key: landmark.key,
      name: landmark.name,
      depth: depth(-landmark.place[1], STATED.depth),
      ahead: isRuled(landmark) ? ruled(landmark.place[0], STATED.markPlace) : emptyGiven('mm'),
      height: isRuled(landmark) ? ruled(landmark.place[2], STATED.markPlace) : emptyGiven('mm'),
    })),
    hooks,
    hubDepth: depth(truck.hubDepth, STATED.depth),
    readings: [
      {
        id: 'total mass',
        kind: 'total mass',
        load: grams(massOf(truck), STATED.mass),
        counted: true,
        note: '',
      },
    ],
    pictures: shots.map((each) => pictureOf(draw, each, without)),
  };
  return { state, cg: centerOfGravity(truck), shots };
}

const isSeen = (key: string, seen: Seen): boolean => SEEN_KEYS[seen].includes(key);

/** What a reader marks of a truck, body axes with its axles' droop. */
function markedOf(
  truck: WorldTruck,
  setup: Setup,
  seen: Seen,
  hookId: string | null,
  droop: Droop,
  footDepth: number,
): Marked[] {
  const body = truck.landmarks
    .filter(({ key }) => setup.rear.length === 0 || isSeen(key, seen))
    .map(({ key, place }): Marked => ({ role: `mark ${key}`, place }));
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
