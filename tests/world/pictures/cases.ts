import { centerOfGravity, hookPlace } from '../../demo/world/truck';
import type { Drawn } from './givens';
import { HAMMER } from './hammer';
import { drawHammer } from './hammerCase';
import type { Effect } from './laws';
import { SETUPS, truckOf } from './setups';
import type { TruckCase } from './setups';
import { drawTruck } from './truckCase';

/**
 * Six sets of photographs whose truth is known: near and rolled through a barrel lens, from afar, on live springs, from the
 * side and the rear, of 12 megapixels, and of a hammer. Every draw invents cameras, twists, marks and every typed number
 * anew, each off by the ± it states, so that the 95 % region can be held to its word.
 */

export type CaseName = TruckCase | 'object';

export const CASES: readonly CaseName[] = [
  'near',
  'near, focal length',
  'far',
  'free',
  'rear',
  'twelve megapixels',
  'object',
];

/** The n-th set of photographs of a case; `without` leaves effects out. */
export const drawCase = (name: CaseName, n: number, without: readonly Effect[] = []): Drawn =>
  name === 'object' ? drawHammer(n, new Set(without)) : drawTruck(name, n, new Set(without));

/** Acute angles, rad, at which the true lines of each view cross, at ride height. */
export function crossingsOf(name: CaseName): number[] {
  const steepness = (across: number, up: number): number => Math.atan2(up, across);
  const between = (angles: readonly number[]): number[] =>
    angles.flatMap((first, i) =>
      angles.slice(i + 1).map((second) => {
        const apart = Math.abs(first - second) % Math.PI;
        return Math.min(apart, Math.PI - apart);
      }),
    );
  if (name === 'object')
    return between(
      HAMMER.ties.map(({ place }) => steepness(place[0] - HAMMER.cg[0], place[2] - HAMMER.cg[2])),
    );
  const truck = truckOf(name);
  const cg = centerOfGravity(truck);
  const angles = (hooks: readonly string[], across: 0 | 1) =>
    hooks.map((id) => {
      const place = hookPlace(truck, id);
      return steepness(place[across] - cg[across], place[2] - cg[2]);
    });
  return [...between(angles(SETUPS[name].side, 0)), ...between(angles(SETUPS[name].rear, 1))];
}
