import { prior } from '../../physics';
import type { Camera } from '../camera';
import { toView } from '../views';
import type { PictureGivens, TruckGivens } from './givens';
import type { SeenBy } from './sightings';
import { SETTLED_ANGLE, SETTLED_LENGTH } from './unknowns';
import type { Gathering } from './unknowns';

/** Cameras as unknowns: one place and direction a picture, one lens for all pictures that it took. */

/**
 * Phones straighten their pictures; what is left bends a picture's corners by up to 3 % (common practice), barrel or
 * pincushion alike.
 */
export const DISTORTION_U = 0.015;
/** How well the focal length is that over the distance of the plane that is sharp, as a part of it. */
const FOCUS_BREATHING = 0.005;
/** Height of a truck's middle above ground, near enough to say how far the camera stood from the ground below it, m. */
export const MIDDLE_HEIGHT = 0.1;

interface Lens {
  readonly distortion: number;
  /** Focal length over the one the camera tells; null where it tells none. */
  readonly focalFactor: number | null;
}

export class Cameras {
  private readonly lenses = new Map<string, Lens>();

  constructor(private readonly g: Gathering) {}

  /** Adds a picture's camera that starts as told. */
  add(name: string, givens: PictureGivens, start: Camera, distance: number, block: number): SeenBy {
    const { g } = this;
    const first = g.angle(`${name}: rotation`, start.roll, block);
    g.angle(`${name}: view angle across`, start.yaw, block);
    g.angle(`${name}: view angle up`, start.pitch, block);
    g.add(`${name}: aim ahead`, start.a, 0.01, SETTLED_LENGTH, block);
    g.add(`${name}: aim up`, start.b, 0.01, SETTLED_LENGTH, block);
    const scale = g.add(`${name}: scale`, start.scale, start.scale / 100, start.scale * SETTLED_ANGLE, block);
    const nearness = g.add(`${name}: nearness`, start.nearness, 0.05, 1e-4, block);
    const { u } = givens.distance;
    // Perspective goes with one over the distance, and so does the law that is closest to normal.
    g.observe('camera distance', prior(`${name}: distance`, nearness, 1 / distance, u / distance ** 2));
    const { distortion, focalFactor } = this.lensOf(givens);
    const { focal } = givens;
    if (focal && focalFactor !== null) {
      const { value } = focal;
      g.observe('camera distance', {
        name: `${name}: focal length`,
        depends: [scale, nearness, focalFactor],
        predict: (p) => [(p[nearness] ?? 0) * (p[focalFactor] ?? 1) - (p[scale] ?? 0) / value],
        values: [0],
        uncertainty: [FOCUS_BREATHING * start.nearness],
        derivative: (p) => [[-1 / value, p[focalFactor] ?? 1, p[nearness] ?? 0]],
      });
    }
    return { first, centerX: givens.width / 2, centerY: givens.height / 2, distortion };
  }

  /** Pictures of one size and focal length are by one lens. */
  private lensOf({ width, height, focal }: PictureGivens): Lens {
    const key = [Math.max(width, height), Math.min(width, height), focal?.value.toFixed(0) ?? ''].join(' ');
    const held = this.lenses.get(key);
    if (held) return held;
    const { g } = this;
    const name = `lens ${this.lenses.size + 1}`;
    const distortion = g.add(`${name}: distortion`, 0, 0.01, SETTLED_ANGLE);
    g.observe('lens', prior(`${name}: distortion`, distortion, 0, DISTORTION_U));
    let focalFactor: number | null = null;
    if (focal) {
      focalFactor = g.add(`${name}: focal length`, 1, 0.01, SETTLED_ANGLE);
      g.observe('camera distance', prior(`${name}: focal length`, focalFactor, 1, focal.u / focal.value));
    }
    const lens = { distortion, focalFactor };
    this.lenses.set(key, lens);
    return lens;
  }
}

/** Camera to the plane through the origin of the picture's view axes, m, from its distance to the truck's middle. */
export function originDistance(givens: PictureGivens, truck: TruckGivens): number {
  const middle = { x: truck.wheelbase.value / 2, y: 0, z: truck.axes === 'own' ? 0 : MIDDLE_HEIGHT };
  // No nearer than a hand's breadth, whatever was typed.
  return Math.max(0.1, givens.distance.value + toView(givens.view, middle).c);
}
