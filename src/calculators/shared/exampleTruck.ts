import { grams, millimeters, type Mass, type PlanePoint } from '../../physics';
import { DRAWN_SIZES, drawableSizes, type TruckSizes } from '../../figures';

/** Bramble, the demo truck, in the side view: what its parts list and its drawing give. Examples never touch the sheet. */

const place = (ahead: number, up: number): PlanePoint => ({ x: millimeters(ahead), z: millimeters(up) });

/** Center of gravity of the parts list: 2938 g at 170.7 mm ahead, 92.1 mm up. */
export const EXAMPLE_CG: PlanePoint = place(170.71, 92.11);
export const EXAMPLE_MASS: Mass = grams(2938);
export const EXAMPLE_FRONT_AXLE: Mass = grams(729);
export const EXAMPLE_REAR_AXLE: Mass = grams(515);
export const EXAMPLE_SIZES: TruckSizes = drawableSizes({
  ...DRAWN_SIZES,
  frontTireRadius: millimeters(57),
  rearTireRadius: millimeters(57),
});

export interface ExampleHook {
  readonly name: string;
  readonly at: PlanePoint;
}

/** Hooks on the body. */
export const EXAMPLE_HOOKS: readonly [ExampleHook, ExampleHook, ExampleHook] = [
  { name: 'hood pin', at: place(252, 161) },
  { name: 'hoop eye', at: place(81, 222) },
  { name: 'bed rail eye', at: place(-55, 156) },
];
