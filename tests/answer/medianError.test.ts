import { describe, expect, it } from 'vitest';
import { benchAnswer, type BenchAnswer } from '../../src/answer/benchAnswer';
import { MARKED_AGAIN, simulateBench } from '../demo/world/bench';
import { inventTruck } from '../demo/world/invent';
import { tolerance } from '../tolerances';

/**
 * How far off is the answer when the same photographs are marked and ruled again and again? Five trucks and cameras
 * other than the demo's, 200 draws each; the limit holds for every one of them, not for the pool.
 */
const SEEDS = [101, 202, 303, 404, 505];
const DRAWS = 200;

function errors(suspension: 'locked' | 'free', hooks: readonly string[], seed: number): number[] {
  const truck = inventTruck(seed);
  let before: BenchAnswer | undefined;
  return Array.from({ length: DRAWS }, (_, n) => {
    const { state, truth } = simulateBench({
      truck,
      pictureSeed: seed,
      drawSeed: 1000 * seed + n,
      suspension,
      hooks,
      hookSource: 'ruler',
      markSigma: 1.5,
      redraw: MARKED_AGAIN,
    });
    const answer = benchAnswer(state, before ? { from: before } : {});
    before = answer;
    if (!answer.cg.ok) return Infinity;
    const { ahead, height } = answer.cg.value;
    return 1000 * Math.hypot(ahead.value - truth.cg[0], height.value - truth.cg[2]);
  }).sort((a, b) => a - b);
}

const median = (sorted: readonly number[]): number =>
  ((sorted[DRAWS / 2 - 1] ?? NaN) + (sorted[DRAWS / 2] ?? NaN)) / 2;

describe('photographs marked again', () => {
  it.each(SEEDS)('locked, three hangs: truck and camera %i', (seed) => {
    expect(median(errors('locked', ['hood', 'hoop', 'bed'], seed))).toBeLessThanOrEqual(
      tolerance('median error: locked'),
    );
  });

  it.each(SEEDS)('free, one hang from the axle, droop corrected: truck and camera %i', (seed) => {
    expect(median(errors('free', ['hood', 'hoop', 'guard'], seed))).toBeLessThanOrEqual(
      tolerance('median error: free'),
    );
  });

  it.each(SEEDS)('warns with the size where the hubs of a free hang are not marked: %i', (seed) => {
    const { state } = simulateBench({
      truck: inventTruck(seed),
      pictureSeed: seed,
      suspension: 'free',
      hooks: ['hood', 'hoop'],
      hookSource: 'ruler',
      markSigma: 1.5,
      redraw: MARKED_AGAIN,
      hubsMarked: false,
    });
    const { warnings } = benchAnswer(state);
    const droop = warnings.filter(({ code }) => code === 'droop not corrected');
    expect(droop).toHaveLength(2);
    for (const { sizeMm, text } of droop) {
      expect(sizeMm).toBeGreaterThan(1);
      expect(sizeMm).toBeLessThan(25);
      expect(text).toContain(`${sizeMm?.toFixed(1)} mm`);
    }
  });
});
