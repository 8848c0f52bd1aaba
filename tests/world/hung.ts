import type { Vector } from '../demo/world/vector';
import { add, dot, scale, size, subtract } from '../demo/world/vector';

/** A mass at a place, body axes as hung. */
export interface Lump {
  readonly mass: number;
  readonly place: Vector;
}

/** Potential energy over g, kg m, of lumps that hang from a hook, `down` being the vertical in body axes. */
export const hungEnergy = (lumps: readonly Lump[], hook: Vector, down: Vector): number =>
  lumps.reduce((sum, { mass, place }) => sum - mass * dot(subtract(place, hook), down), 0);

const unit = (a: Vector): Vector => scale(a, 1 / size(a));
const cross = (a: Vector, b: Vector): Vector => [
  a[1] * b[2] - a[2] * b[1],
  a[2] * b[0] - a[0] * b[2],
  a[0] * b[1] - a[1] * b[0],
];

/** After a turn this small, rad, what is left is its cube: no digit. */
const SETTLED = 1e-6;
const LARGEST_TURN = 0.8;

/**
 * The vertical in body axes of a rigid body at rest on a hook: the turn of least potential energy, searched downhill
 * over both tilts by Newton's method from the body upright. The turn about the string changes no energy.
 */
export const verticalAtRest = (lumps: readonly Lump[], hook: Vector): Vector => {
  let down: Vector = [0, 0, -1];
  for (let round = 0; round < 100; round += 1) {
    const first = unit(cross(down, Math.abs(down[0]) < 0.7 ? [1, 0, 0] : [0, 1, 0]));
    const second = cross(down, first);
    // Energy over a turn a first + b second: slopes of both, and the curvature, the same for every direction.
    let slopeFirst = 0;
    let slopeSecond = 0;
    let curvature = 0;
    for (const { mass, place } of lumps) {
      const arm = subtract(place, hook);
      slopeFirst -= mass * dot(arm, first);
      slopeSecond -= mass * dot(arm, second);
      curvature += mass * dot(arm, down);
    }
    const slope = Math.hypot(slopeFirst, slopeSecond);
    if (slope === 0 && curvature > 0) return down;
    // On top of the hook there is no slope: any turn leads down.
    const turn = curvature > 0 ? Math.min(LARGEST_TURN, slope / curvature) : LARGEST_TURN;
    const toward: Vector =
      slope > 0 ? scale(add(scale(first, slopeFirst), scale(second, slopeSecond)), -1 / slope) : first;
    down = unit(add(scale(down, Math.cos(turn)), scale(toward, Math.sin(turn))));
    if (curvature > 0 && turn < SETTLED) return down;
  }
  return down;
};
