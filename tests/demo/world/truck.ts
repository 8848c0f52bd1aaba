import type { Vector } from './vector';
import { add, scale } from './vector';

/**
 * An invented truck, known completely. SI units; truck axes as in ISO 8855: x forward, y left, z up, origin on
 * the ground midway between the rear tire contacts, truck at ride height.
 */
export interface WorldTruck {
  readonly name: string;
  /** m */
  readonly wheelbase: number;
  /** Tire center to tire center, m. */
  readonly frontTrack: number;
  readonly rearTrack: number;
  readonly treadWidth: number;
  /** Hub height above ground under load, m. */
  readonly frontRadius: number;
  readonly rearRadius: number;
  /** Hub nut's face to the center plane, either side; the visible foot of the tire stands as far out, m. */
  readonly hubDepth: number;
  readonly shape: BodyShape;
  readonly parts: readonly WorldPart[];
  /** Right-hand side; the left side carries the same features mirrored. */
  readonly landmarks: readonly Landmark[];
  readonly hooks: readonly WorldHook[];
  readonly suspension: { readonly front: WorldAxle; readonly rear: WorldAxle };
}

export type WorldCarrier = 'body' | 'front axle' | 'rear axle';

/** Mass in kg at a point of the truck at ride height, m. */
export interface WorldPart {
  readonly id: string;
  readonly name: string;
  readonly carrier: WorldCarrier;
  readonly mass: number;
  readonly place: Vector;
}

export interface Landmark {
  readonly key: string;
  readonly name: string;
  readonly place: Vector;
}

export interface WorldHook {
  readonly id: string;
  readonly name: string;
  readonly carrier: WorldCarrier;
  /** At ride height. */
  readonly place: Vector;
}

/** One axle on its links and springs: a single travel, s, from ride height; droop counts positive. */
export interface WorldAxle {
  /** N/m, both springs together. */
  readonly rate: number;
  /** Largest travel down and up, m, both positive. */
  readonly droopLimit: number;
  readonly bumpLimit: number;
  /** Fore-aft shift of the axle: slope (m per m of droop) and what the links' arc adds at full droop, m. */
  readonly lean: number;
  readonly arc: number;
}

/** Side outline of the body, m. Drawn by the renderer; keeps landmarks and hooks on the body. */
export interface BodyShape {
  readonly sill: number;
  readonly hood: number;
  readonly roof: number;
  readonly bed: number;
  readonly nose: number;
  readonly windshield: number;
  readonly cabEnd: number;
  readonly tail: number;
  readonly halfWidth: number;
}

/** Displacement of an axle in body axes after s meters of droop. */
export const axleShift = (axle: WorldAxle, droop: number): Vector => [
  axle.lean * droop + axle.arc * (droop / axle.droopLimit) ** 2,
  0,
  -droop,
];

export interface Droop {
  readonly front: number;
  readonly rear: number;
}
export const RIDE_HEIGHT: Droop = { front: 0, rear: 0 };

/** How far whatever sits on `carrier` has moved in body axes. */
export const carrierShift = (truck: WorldTruck, carrier: WorldCarrier, droop: Droop): Vector => {
  if (carrier === 'front axle') return axleShift(truck.suspension.front, droop.front);
  if (carrier === 'rear axle') return axleShift(truck.suspension.rear, droop.rear);
  return [0, 0, 0];
};

/** Mass of all parts, or of one carrier's, kg. */
export const massOf = (truck: WorldTruck, carrier?: WorldCarrier): number =>
  truck.parts.reduce((sum, part) => (!carrier || part.carrier === carrier ? sum + part.mass : sum), 0);

/** Center of gravity of the whole truck with its axles drooped, body axes, m. */
export const centerOfGravity = (truck: WorldTruck, droop: Droop = RIDE_HEIGHT): Vector => {
  const moment = truck.parts.reduce<Vector>(
    (sum, part) => add(sum, scale(add(part.place, carrierShift(truck, part.carrier, droop)), part.mass)),
    [0, 0, 0],
  );
  return scale(moment, 1 / massOf(truck));
};

/** Where a hook is with its axle drooped, body axes, m. */
export const hookPlace = (truck: WorldTruck, hookId: string, droop: Droop = RIDE_HEIGHT): Vector => {
  const hook = truck.hooks.find((candidate) => candidate.id === hookId);
  if (!hook) throw new Error(`No hook ${hookId} on ${truck.name}.`);
  return add(hook.place, carrierShift(truck, hook.carrier, droop));
};

/**
 * Weight the springs of one axle carry at ride height, N: the loads that hold the sprung mass level.
 */
export const springLoad = (truck: WorldTruck, axle: 'front' | 'rear', gravity: number): number => {
  const sprung = truck.parts.filter((part) => part.carrier === 'body');
  const total = sprung.reduce((sum, part) => sum + part.mass, 0);
  const front = sprung.reduce((sum, part) => sum + part.mass * part.place[0], 0) / truck.wheelbase;
  return gravity * (axle === 'front' ? front : total - front);
};
