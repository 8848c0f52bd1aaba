import type { Carrier } from '../statics/hanging';
import type { PlaneLine } from '../statics/lines';
import type { Angle, Estimate, Length, Mass } from '../quantities';

/**
 * What a bench can read of one truck in one build state, in SI and truck axes, as plain data. Every number is itself
 * a reading with an uncertainty; adjustTruck() finds the truck that fits them all.
 */

/** A number read, with the law of its error: normal where none is named, else hard limits ±√3 u. */
export interface Measured<Kind extends number = number> extends Estimate<Kind> {
  readonly law?: 'rectangular';
}

/** Sizes that readings are made of. Those that no reading needs may be left out. */
export interface TruckDimensions {
  readonly wheelbase?: Measured<Length>;
  /** Tire center to tire center. */
  readonly frontTrack?: Measured<Length>;
  readonly rearTrack?: Measured<Length>;
  /** Hub above ground. */
  readonly frontTireRadius?: Measured<Length>;
  readonly rearTireRadius?: Measured<Length>;
  /** Across the tread where it meets the ground: the tip line lies at most half of it outside the tire's center. */
  readonly treadWidth?: Measured<Length>;
  /** Mass that moves with each axle, as a part of the truck's. */
  readonly frontAxleShare?: Measured;
  readonly rearAxleShare?: Measured;
}

/** Names of all of them. */
export const TRUCK_DIMENSIONS = [
  'wheelbase',
  'frontTrack',
  'rearTrack',
  'frontTireRadius',
  'rearTireRadius',
  'treadWidth',
  'frontAxleShare',
  'rearAxleShare',
] as const satisfies readonly (keyof TruckDimensions)[];

/** What all readings of one instrument share: by how much it reads too much. Usually zero with a small u. */
export interface Instruments {
  readonly scaleZero: Measured<Mass>;
  readonly rulerZero: Measured<Length>;
  readonly levelZero: Measured<Angle>;
}

/** A place the truck can be hung by, at ride height. */
export interface HookPlace {
  readonly id: string;
  readonly carrier: Carrier;
  readonly x: Measured<Length>;
  readonly y: Measured<Length>;
  readonly z: Measured<Length>;
}

/**
 * Planes in which a hang is seen. First and second axis: side x, z; rear and front y, z; top x, y. A plumb line shows
 * in each as a line through hook and CG.
 */
export type HangView = 'side' | 'rear' | 'front' | 'top';
export type Axle = 'front' | 'rear';

interface Common {
  /** Unique among the readings of a bench. */
  readonly id: string;
}

/** The whole truck on one scale. */
export interface TotalMassReading extends Common {
  readonly kind: 'total mass';
  readonly load: Measured<Mass>;
}

/** Both axles weighed, truck level. */
export interface AxleScalesReading extends Common {
  readonly kind: 'axle scales';
  readonly front: Measured<Mass>;
  readonly rear: Measured<Mass>;
}

/** A scale under each wheel, truck level. Four contacts hold the truck in one way too many: only sums and moments count. */
export interface WheelScalesReading extends Common {
  readonly kind: 'wheel scales';
  readonly frontLeft: Measured<Mass>;
  readonly frontRight: Measured<Mass>;
  readonly rearLeft: Measured<Mass>;
  readonly rearRight: Measured<Mass>;
}

/** One axle raised, suspension locked, both axles free to roll so that wheel and support carry straight upward. */
export interface AxleLiftReading extends Common {
  readonly kind: 'axle lift';
  readonly raised: Axle;
  /** Rise of the raised hubs above where they stood, or slope of the truck's own level line. */
  readonly lift:
    | { readonly by: 'height'; readonly rise: Measured<Length> }
    | { readonly by: 'angle'; readonly angle: Measured<Angle> };
  /** The axle on the scale, and what it shows. */
  readonly scaleUnder: Axle;
  readonly load: Measured<Mass>;
}

/** A hang read without a picture. */
export interface HangReading extends Common {
  readonly kind: 'hang';
  readonly view: HangView;
  /** Id of a HookPlace. */
  readonly hook: string;
  readonly string:
    | {
        /** Slope of the truck as it hangs: side and top, nose below level; rear and front, left side below level. */
        readonly by: 'angle';
        readonly angle: Measured<Angle>;
      }
    | {
        /** Another point of the string's line, first and second axis of the view. */
        readonly by: 'second point';
        readonly first: Measured<Length>;
        readonly second: Measured<Length>;
      };
  /** Free suspension: how far each axle dropped, along −z of the truck axes. Absent: locked. */
  readonly droop?: { readonly front: Measured<Length>; readonly rear: Measured<Length> };
}

/** A board raised until the truck, suspension locked, tips: truck across the slope, or along it. */
export interface TiltReading extends Common {
  readonly kind: 'tilt';
  /** Over the left or right wheels; nose up over the rear tires; nose down over the front tires. */
  readonly toward: 'left' | 'right' | 'nose up' | 'nose down';
  readonly angle: Measured<Angle>;
}

/** Balanced level on a straight edge under the truck. */
export interface BalanceReading extends Common {
  readonly kind: 'balance';
  /** Edge across the truck: place is x. Edge along it: place is y. */
  readonly edge: 'across' | 'along';
  readonly place: Measured<Length>;
}

/** The parts list counted as a reading: its mass (kg) and CG x, y, z (m) with their 4 × 4 covariance in that order. */
export interface PartsListReading extends Common {
  readonly kind: 'parts list';
  readonly values: readonly [mass: Mass, x: Length, y: Length, z: Length];
  readonly covariance: readonly (readonly number[])[];
}

/** What pictures tell of the truck beside their lines. */
export type SharedWithPictures =
  | 'wheelbase'
  | 'front track'
  | 'rear track'
  | 'front tire radius'
  | 'rear tire radius'
  | 'lateral place'
  | 'front axle share'
  | 'rear axle share'
  | 'ruler zero';

/** One of these as pictures give it, or a coordinate of a hook they used, at ride height in truck axes. */
export type SharedValue =
  | { readonly quantity: SharedWithPictures; readonly value: number }
  | {
      readonly quantity: 'hook';
      readonly hook: string;
      readonly axis: 'x' | 'y' | 'z';
      readonly value: number;
    };

/**
 * Plumb lines from pictures fitted together, with one covariance: they share camera, marks, hooks and the standing
 * picture. The lines are at ride height, corrected for droop. What went into the fit as a given (wheelbase, radii,
 * lateral place, axle shares, ruler, hooks that other readings use too) comes out of it in `shared` and is not counted
 * a second time. No two such readings of a bench may share one quantity: each would bring its givens along.
 */
export interface PictureLinesReading extends Common {
  readonly kind: 'picture lines';
  /** Each with the id of its hang and its own view; place and direction down the string in the view's two axes. */
  readonly lines: readonly { readonly id: string; readonly view: HangView; readonly line: PlaneLine }[];
  readonly shared: readonly SharedValue[];
  /** Order: angle and offset of every line (rad, m), then `shared`. */
  readonly covariance: readonly (readonly number[])[];
}

export type TruckReading =
  | TotalMassReading
  | AxleScalesReading
  | WheelScalesReading
  | AxleLiftReading
  | HangReading
  | TiltReading
  | BalanceReading
  | PartsListReading
  | PictureLinesReading;

/** All that is known of a truck in one build state. */
export interface TruckBench {
  readonly dimensions: TruckDimensions;
  /** Lateral place of the CG before anything is measured. */
  readonly lateral: Measured<Length>;
  readonly instruments: Instruments;
  readonly hooks: readonly HookPlace[];
  readonly readings: readonly TruckReading[];
}
