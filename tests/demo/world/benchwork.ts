import { hangRotation, hangTruck } from './hang';
import type { Droop, WorldHook, WorldTruck } from './truck';
import { carrierShift, massOf, RIDE_HEIGHT, springLoad } from './truck';
import type { Vector } from './vector';
import { aboutY, add, dot, scale, subtract, turn } from './vector';

/**
 * What a bench would show of an invented truck without any error: lifted by an axle, tilted on a board, laid over an
 * edge, hung sideways. Every part is a weight of its own at its own place; contacts only press.
 */

/** m/s²; only its ratio to the springs matters. */
const GRAVITY = 9.80665;

/** Where f changes sign between two places, by halving. */
const crossing = (f: (at: number) => number, low: number, high: number): number => {
  const rising = f(high) > 0;
  let [a, b] = [low, high];
  for (let round = 0; round < 100; round += 1) {
    const middle = (a + b) / 2;
    if (f(middle) > 0 === rising) b = middle;
    else a = middle;
  }
  return (a + b) / 2;
};

/** Where f is least between two places, to some nanometers for a smooth f of millimeters. */
const lowest = (f: (at: number) => number, low: number, high: number): number => {
  const GOLDEN = (Math.sqrt(5) - 1) / 2;
  let [a, b] = [low, high];
  for (let round = 0; round < 60; round += 1) {
    const [left, right] = [b - GOLDEN * (b - a), a + GOLDEN * (b - a)];
    if (f(left) < f(right)) b = right;
    else a = left;
  }
  return (a + b) / 2;
};

/** Places and weights of all parts, body axes, with the axles drooped. */
const partsAt = (truck: WorldTruck, droop: Droop): { readonly mass: number; readonly place: Vector }[] =>
  truck.parts.map(({ mass, place, carrier }) => ({
    mass,
    place: add(place, carrierShift(truck, carrier, droop)),
  }));

const hubs = (truck: WorldTruck, droop: Droop): { readonly front: Vector; readonly rear: Vector } => ({
  front: add([truck.wheelbase, 0, truck.frontRadius], carrierShift(truck, 'front axle', droop)),
  rear: add([0, 0, truck.rearRadius], carrierShift(truck, 'rear axle', droop)),
});

export interface Lift {
  readonly raised: 'front' | 'rear';
  /** Of the raised hubs above where they stood, m. */
  readonly rise: number;
  readonly suspension: 'locked' | 'free';
}

/** A lifted truck at rest. */
export interface Lifted {
  /** Nose above level, rad: the body's own slope. */
  readonly slope: number;
  readonly droop: Droop;
  /** What each axle presses on its support, kg. */
  readonly front: number;
  readonly rear: number;
}

/** Nose-up slope at which the hubs stand as high as the lift holds them. */
const slopeOf = (truck: WorldTruck, { raised, rise }: Lift, droop: Droop): number => {
  const { front, rear } = hubs(truck, droop);
  const wanted = truck.frontRadius - truck.rearRadius + (raised === 'front' ? rise : -rise);
  const higher = (slope: number): number => turn(aboutY(-slope), subtract(front, rear))[2] - wanted;
  return crossing(higher, -1.4, 1.4);
};

/** Energy, J, of a truck whose hubs a lift holds: height of every part above ground, and its springs. */
export const liftEnergy = (truck: WorldTruck, lift: Lift, droop: Droop): number => {
  const slope = slopeOf(truck, lift, droop);
  const { rear } = hubs(truck, droop);
  const rearHub = truck.rearRadius + (lift.raised === 'rear' ? lift.rise : 0);
  const weight = partsAt(truck, droop).reduce(
    (sum, { mass, place }) =>
      sum + mass * GRAVITY * (rearHub + turn(aboutY(-slope), subtract(place, rear))[2]),
    0,
  );
  const spring = (axle: 'front' | 'rear'): number => {
    const { rate } = truck.suspension[axle];
    const left = Math.max(0, springLoad(truck, axle, GRAVITY) / rate - droop[axle]);
    return (rate * left * left) / 2;
  };
  return weight + spring('front') + spring('rear');
};

/** The travel of both axles at rest in a lift: the least energy, one axle after the other until neither moves. */
const settled = (truck: WorldTruck, lift: Lift): Droop => {
  const { front, rear } = truck.suspension;
  let droop = RIDE_HEIGHT;
  for (let round = 0; round < 40; round += 1) {
    const before = droop;
    const { rear: rearThen } = droop;
    const frontNow = lowest(
      (at) => liftEnergy(truck, lift, { front: at, rear: rearThen }),
      -front.bumpLimit,
      front.droopLimit,
    );
    const rearNow = lowest(
      (at) => liftEnergy(truck, lift, { front: frontNow, rear: at }),
      -rear.bumpLimit,
      rear.droopLimit,
    );
    droop = { front: frontNow, rear: rearNow };
    if (Math.hypot(droop.front - before.front, droop.rear - before.rear) < 1e-8) break;
  }
  return droop;
};

/** A truck with one axle raised, both axles free to roll, so that their supports carry straight upward. */
export const liftTruck = (truck: WorldTruck, lift: Lift): Lifted => {
  const droop = lift.suspension === 'free' ? settled(truck, lift) : RIDE_HEIGHT;
  const slope = slopeOf(truck, lift, droop);
  const { front, rear } = hubs(truck, droop);
  const level = (place: Vector): number => turn(aboutY(-slope), subtract(place, rear))[0];
  // Moments of every part about the rear hub.
  const moment = partsAt(truck, droop).reduce((sum, { mass, place }) => sum + mass * level(place), 0);
  const onFront = moment / level(front);
  return { slope, droop, front: onFront, rear: massOf(truck) - onFront };
};

export type Downhill = 'left' | 'right' | 'nose up' | 'nose down';

/** Direction of weight, body axes, on a board of that slope. */
const weightOn = (slope: number, downhill: Downhill): Vector => {
  const [sin, cos] = [Math.sin(slope), Math.cos(slope)];
  if (downhill === 'left') return [0, sin, -cos];
  if (downhill === 'right') return [0, -sin, -cos];
  return [downhill === 'nose up' ? -sin : sin, 0, -cos];
};

const cross = (a: Vector, b: Vector): Vector => [
  a[1] * b[2] - a[2] * b[1],
  a[2] * b[0] - a[0] * b[2],
  a[0] * b[1] - a[1] * b[0],
];

/** Contact with the ground, `outward` from the tires' centers. */
const contact = (truck: WorldTruck, axle: 'front' | 'rear', side: 1 | -1, outward: number): Vector => {
  const track = axle === 'front' ? truck.frontTrack : truck.rearTrack;
  return [axle === 'front' ? truck.wheelbase : 0, side * (track / 2 + outward), 0];
};

/**
 * Slope at which a locked truck goes over: the moment of its parts' weights about the line through the two downhill
 * contacts vanishes. `outward`: how far the tires bear outside of their centers, m.
 */
export const tipSlope = (truck: WorldTruck, downhill: Downhill, outward: number): number => {
  const lines: Record<Downhill, readonly [Vector, Vector]> = {
    left: [contact(truck, 'rear', 1, outward), contact(truck, 'front', 1, outward)],
    right: [contact(truck, 'front', -1, outward), contact(truck, 'rear', -1, outward)],
    'nose up': [contact(truck, 'rear', -1, outward), contact(truck, 'rear', 1, outward)],
    'nose down': [contact(truck, 'front', 1, outward), contact(truck, 'front', -1, outward)],
  };
  const [from, to] = lines[downhill];
  const along = subtract(to, from);
  const moment = (slope: number): number =>
    truck.parts.reduce((sum, { mass, place }) => {
      const pull = scale(weightOn(slope, downhill), mass);
      return sum + dot(along, cross(subtract(place, from), pull));
    }, 0);
  return crossing(moment, 0, Math.PI / 2);
};

/** Presses of the four contacts as parts of the truck's weight: front left, front right, rear left, rear right. */
export type Presses = readonly [number, number, number, number];

/**
 * What holds a locked truck on a board, across the slope, with all the friction it needs. Equilibrium leaves one mode
 * free; equally stiff tires on a flat board have none of it.
 */
export const boardPresses = (
  truck: WorldTruck,
  downhill: 'left' | 'right',
  slope: number,
  outward: number,
): Presses => {
  const mass = massOf(truck);
  const down = weightOn(slope, downhill);
  // Moments about the origin on the ground; friction lies in that plane and has none about its axes.
  const [aboutAhead, aboutLeft] = truck.parts.reduce<readonly [number, number]>(
    ([x, y], part) => {
      const moment = cross(part.place, scale(down, part.mass / mass));
      return [x + moment[0], y + moment[1]];
    },
    [0, 0],
  );
  const front = aboutLeft / truck.wheelbase;
  const rear = -down[2] - front;
  const [halfFront, halfRear] = [truck.frontTrack / 2 + outward, truck.rearTrack / 2 + outward];
  // Left less right, front and rear; the free mode is +1 −1 −ratio +ratio.
  const ratio = halfFront / halfRear;
  const together = -aboutAhead / halfRear;
  const frontMore = (ratio * together) / (1 + ratio ** 2);
  const rearMore = together - ratio * frontMore;
  return [(front + frontMore) / 2, (front - frontMore) / 2, (rear + rearMore) / 2, (rear - rearMore) / 2];
};

/** Slope at which the first uphill wheel of a locked truck comes off the board. */
export const firstWheelSlope = (truck: WorldTruck, downhill: 'left' | 'right', outward: number): number => {
  const least = (slope: number): number => {
    const [frontLeft, frontRight, rearLeft, rearRight] = boardPresses(truck, downhill, slope, outward);
    return downhill === 'left' ? Math.min(frontRight, rearRight) : Math.min(frontLeft, rearLeft);
  };
  return crossing(least, 0, tipSlope(truck, downhill, outward));
};

/** An eye in the left slider, for hanging the truck on its right side. */
export const sliderEye = ({ wheelbase, shape }: WorldTruck): WorldHook => ({
  id: 'slider',
  name: 'left slider eye',
  carrier: 'body',
  place: [wheelbase / 2, shape.halfWidth + 0.01, shape.sill + 0.005],
});

/** Direction down the string, body axes, of a locked truck that hangs still from a hook. */
export const downString = (truck: WorldTruck, hook: WorldHook): Vector => {
  const hang = hangTruck({ ...truck, hooks: [hook] }, hook.id, { suspension: 'locked' });
  const [, , up] = hangRotation(hang, 0);
  return scale(up, -1);
};

/** Where a straight edge across the truck must stand for it to balance, m ahead of the rear axle. */
export const balancePlace = (truck: WorldTruck): number =>
  crossing((edge) => truck.parts.reduce((sum, { mass, place }) => sum + mass * (edge - place[0]), 0), -1, 1);
