import type { HangView } from '../physics';
import type { View } from '../sheet/schema';
import type { ViewPoint } from './camera';

/** How the axes of a picture lie in the truck, for each side it may be seen from. */

export type ViewAxis = 'a' | 'b' | 'c';

/** A truck axis as a picture shows it: along which view axis, and which way. */
export type AxisInView = readonly [axis: ViewAxis, sign: 1 | -1];

export interface TruckPoint {
  readonly x: number;
  readonly y: number;
  readonly z: number;
}

/**
 * Truck axes (x forward, y left, z up; ISO 8855) in view axes (a to the right in the picture, b up, c toward the
 * camera). Seen from the top the nose is up; the picture itself may be turned any way.
 */
export const TRUCK_IN_VIEW: Readonly<Record<View, Readonly<Record<'x' | 'y' | 'z', AxisInView>>>> = {
  right: { x: ['a', 1], y: ['c', -1], z: ['b', 1] },
  left: { x: ['a', -1], y: ['c', 1], z: ['b', 1] },
  rear: { x: ['c', -1], y: ['a', -1], z: ['b', 1] },
  front: { x: ['c', 1], y: ['a', 1], z: ['b', 1] },
  top: { x: ['b', 1], y: ['a', -1], z: ['c', 1] },
};

/** The plane of the truck in which a picture shows a plumb line. */
export const PLANE_OF_VIEW: Readonly<Record<View, HangView>> = {
  right: 'side',
  left: 'side',
  rear: 'rear',
  front: 'front',
  top: 'top',
};

export const isSide = (view: View): view is 'left' | 'right' => view === 'left' || view === 'right';

export const toView = (view: View, point: TruckPoint): ViewPoint => {
  const out = { a: 0, b: 0, c: 0 };
  for (const axis of ['x', 'y', 'z'] as const) {
    const [along, sign] = TRUCK_IN_VIEW[view][axis];
    out[along] += sign * point[axis];
  }
  return out;
};

export const toTruck = (view: View, point: ViewPoint): TruckPoint => {
  const at = (axis: 'x' | 'y' | 'z') => {
    const [along, sign] = TRUCK_IN_VIEW[view][axis];
    return sign * point[along];
  };
  return { x: at('x'), y: at('y'), z: at('z') };
};
