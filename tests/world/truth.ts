import type { Random } from '../demo/world/random';
import type { Vector } from '../demo/world/vector';

/** An invented truck as far as statics needs it, SI, truck axes. */
export interface TrueTruck {
  readonly mass: number;
  /** Fore-aft and height; the lateral place is drawn from its own prior. */
  readonly x: number;
  readonly z: number;
  readonly wheelbase: number;
  readonly frontTrack: number;
  readonly rearTrack: number;
  readonly frontTireRadius: number;
  readonly rearTireRadius: number;
  readonly treadWidth: number;
  readonly frontAxleShare: number;
  readonly rearAxleShare: number;
}

/** A truck in the ranges that 1:10 trail trucks have (common practice), tracks and tires unequal. */
export const drawTruck = (draw: Random): TrueTruck => {
  const wheelbase = draw.between(0.242, 0.324);
  return {
    mass: draw.between(2, 4.2),
    x: wheelbase * draw.between(0.5, 0.62),
    z: draw.between(0.065, 0.14),
    wheelbase,
    frontTrack: draw.between(0.17, 0.205),
    rearTrack: draw.between(0.17, 0.205),
    frontTireRadius: draw.between(0.047, 0.06),
    rearTireRadius: draw.between(0.047, 0.06),
    treadWidth: draw.between(0.03, 0.055),
    frontAxleShare: draw.between(0.12, 0.33),
    rearAxleShare: draw.between(0.1, 0.3),
  };
};

/** All numbers that decide what instruments show, by place: the truck's, the instruments', each reading's own. */
export class Truth {
  readonly values: number[] = [];
  readonly names: string[] = [];

  add(name: string, value: number): number {
    this.names.push(name);
    this.values.push(value);
    return this.values.length - 1;
  }

  point(): Float64Array {
    return Float64Array.from(this.values);
  }
}

export type Point = Float64Array;
export const at = (point: Point, index: number): number => point[index] ?? NaN;

export const vectorAt = (point: Point, [x, y, z]: readonly [number, number, number]): Vector => [
  at(point, x),
  at(point, y),
  at(point, z),
];

/** A number of a bench by its id, and where it stands among the values of its reading. */
export interface ShownNumber {
  readonly id: string;
  readonly place: number;
}

/** What one instrument or one set of pictures shows of a truth. */
export interface Shown {
  readonly numbers: readonly ShownNumber[];
  /** The truths it depends on, all of them. */
  readonly depends: readonly number[];
  readonly show: (point: Point) => readonly number[];
  /** Covariance of its errors. */
  readonly covariance: readonly (readonly number[])[];
}
