import type { Estimate } from '../../physics';
import type { View } from '../../sheet/schema';
import type { PixelPoint } from '../camera';

/** What the fit of pictures takes: marks in pixels and what was measured beside them, in SI. */

export type Carrier = 'body' | 'front axle' | 'rear axle';

export interface MarkedPoint extends PixelPoint {
  /** Standard uncertainty of each coordinate, pixels. */
  readonly u: number;
}

/** Feet of tires seen from the rear or the front, and middles of treads seen from the top. */
export type TirePoint =
  | 'ground left'
  | 'ground right'
  | 'tire front left'
  | 'tire front right'
  | 'tire rear left'
  | 'tire rear right';

export interface PictureGivens {
  readonly id: string;
  readonly view: View;
  readonly width: number;
  readonly height: number;
  /** Camera to the truck's middle, m. */
  readonly distance: Estimate;
  /** Focal length in pixels of this picture, where the camera told it. */
  readonly focal?: Estimate;
  /** Standard uncertainty of the two angles by which the view is off square, rad. */
  readonly oblique: number;
  readonly bodyMarks: ReadonlyMap<string, MarkedPoint>;
  /** Seen from a side only; of an object without wheels, the two points of its own axes. */
  readonly frontHub?: MarkedPoint;
  readonly rearHub?: MarkedPoint;
  readonly tires?: ReadonlyMap<TirePoint, MarkedPoint>;
  readonly scalePoints?: readonly [MarkedPoint, MarkedPoint];
}

export interface StandingPicture extends PictureGivens {
  /** Feet of the near tires seen from a side: points of the line on the ground below both hubs. */
  readonly ground: readonly MarkedPoint[];
  readonly hooks: ReadonlyMap<string, MarkedPoint>;
}

export interface HangingPicture extends PictureGivens {
  /** Null where nobody said: then the string's two marks alone tell the line. Needs locked suspension. */
  readonly hook: string | null;
  readonly suspension: 'locked' | 'free';
  /** Standard uncertainty of the truck's twist on the string, rad. */
  readonly twist: number;
  readonly string: readonly [upper: MarkedPoint, lower: MarkedPoint];
  readonly hookMark?: MarkedPoint;
}

export interface HookGivens {
  readonly id: string;
  readonly carrier: Carrier;
  /** Left of the center plane, m. */
  readonly left: Estimate;
  /** Ahead of the rear axle and above ground by ruler; absent when read off a standing picture, or unknown. */
  readonly ruled?: { readonly ahead: Estimate; readonly height: Estimate };
}

/** Where a body mark lies, as far as it was measured, m. */
export interface MarkPlace {
  /** Left of the center plane. */
  readonly left: Estimate;
  readonly ahead?: Estimate;
  readonly height?: Estimate;
}

export interface TruckGivens {
  /**
   * 'truck': axes of the truck on its wheels. 'own': an object's, origin at its first point, the second on its first
   * axis; hubs stand for the two points, `wheelbase` is their distance, and there are no tires.
   */
  readonly axes: 'truck' | 'own';
  /**
   * How much too much the ruler reads, m: in the wheelbase, the tire radii, ruled hook places and the distance of
   * two points alike. The usual ±0.3 mm where absent.
   */
  readonly rulerZero?: Estimate;
  readonly wheelbase: Estimate;
  /** Tire center to tire center; absent while unmeasured. */
  readonly frontTrack?: Estimate;
  readonly rearTrack?: Estimate;
  /** Hub above ground; absent when only the ground marks say. */
  readonly frontTireRadius?: Estimate;
  readonly rearTireRadius?: Estimate;
  /** How far the visible hubs stand from the center plane, on either side. */
  readonly hubDepth: Estimate;
  /** The same of the near tires' contact with the ground. */
  readonly groundDepth: Estimate;
  readonly marks: ReadonlyMap<string, MarkPlace>;
  readonly hooks: readonly HookGivens[];
  /** Mass of each axle over the truck's mass. */
  readonly frontMassShare: Estimate;
  readonly rearMassShare: Estimate;
  /** CG left of the center plane, m. */
  readonly lateral: Estimate;
  /** Distance of two points, and how far both lie from the center plane toward the camera of their picture. */
  readonly scale?: { readonly distance: Estimate; readonly depth: Estimate };
}

/** Tire radius while unread: trail trucks' tires are 94-121 mm across (common practice), taken three times wider. */
export const RADIUS_UNREAD: Estimate = { value: 0.055, u: 0.025 };
/** Track while unread: 150 to 230 mm, tire center to tire center (common practice), taken twice as wide. */
export const TRACK_UNREAD: Estimate = { value: 0.19, u: 0.04 };
