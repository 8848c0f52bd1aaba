import { describe, expect, it } from 'vitest';
import { benchAnswer } from '../../src/answer/benchAnswer';
import { EVERYTHING, hookPairs, simulateBench } from '../demo/world/bench';
import type { Vector } from '../demo/world/vector';
import { inventTruck } from '../demo/world/invent';
import { random } from '../demo/world/random';
import { tolerance } from '../tolerances';

/**
 * Is the ellipse honest? The invented world knows the truth; every input with a stated ± is drawn anew each time
 * and the pictures are projected, not rendered. The 95 % ellipse must hold the truth about 95 times in 100.
 */
const RADIANS = Math.PI / 180;
/** Quantile 0.95 of chi-squared with two degrees of freedom: −2 ln 0.05, exact. */
const QUANTILE = -2 * Math.log(0.05);
const TRUCKS = 25;
const DRAWS_PER_TRUCK = 10;

const kinds = (['locked', 'free'] as const).flatMap((suspension) =>
  (['ruler', 'standing picture'] as const).map((hookSource) => ({ suspension, hookSource })),
);

interface Outcome {
  readonly inside: boolean;
  readonly answered: boolean;
}

function draw(kind: (typeof kinds)[number], truckNumber: number, n: number): Outcome {
  const truck = inventTruck(truckNumber);
  const seed = 10_000 * truckNumber + 100 * kinds.indexOf(kind) + n;
  const pairs = hookPairs(truck, 25 * RADIANS, 90 * RADIANS).filter(
    ([a, b]) =>
      kind.suspension === 'free' ||
      // Locked, an axle hook is a body hook by another name; keep to the body's.
      [a, b].every((id) => truck.hooks.find((hook) => hook.id === id)?.carrier === 'body'),
  );
  const pair = pairs[Math.floor(random(seed, 'pair').unit() * pairs.length)];
  if (!pair) throw new Error(`Truck ${truckNumber} has no pair of hooks that cross between 25° and 90°.`);
  const { state, truth } = simulateBench({
    truck,
    pictureSeed: seed,
    suspension: kind.suspension,
    hooks: pair,
    hookSource: kind.hookSource,
    markSigma: 1.5,
    redraw: EVERYTHING,
  });
  const answer = benchAnswer(state);
  if (!answer.cg.ok) return { inside: false, answered: false };
  const { ahead, height, covariance } = answer.cg.value;
  return { inside: mahalanobis(truth.cg, ahead.value, height.value, covariance) < QUANTILE, answered: true };
}

/** Squared distance of the truth from the estimate in the side plane, in units of the covariance. */
function mahalanobis(
  truth: Vector,
  ahead: number,
  height: number,
  covariance: readonly (readonly number[])[],
): number {
  const [dx, dz] = [truth[0] - ahead, truth[2] - height];
  const xx = covariance[0]?.[0] ?? NaN;
  const xz = covariance[0]?.[2] ?? NaN;
  const zz = covariance[2]?.[2] ?? NaN;
  return (zz * dx * dx - 2 * xz * dx * dz + xx * dz * dz) / (xx * zz - xz * xz);
}

describe('the 95 % ellipse of a simulated bench', () => {
  const outcomes = kinds.map((kind) => ({
    kind,
    draws: Array.from({ length: TRUCKS * DRAWS_PER_TRUCK }, (_, i) =>
      draw(kind, 1 + (i % TRUCKS), Math.floor(i / TRUCKS)),
    ),
  }));
  const share = (draws: readonly Outcome[]) => draws.filter(({ inside }) => inside).length / draws.length;

  for (const { kind, draws } of outcomes) {
    it(`holds the truth nine times in ten at least: ${kind.suspension}, hook by ${kind.hookSource}`, () => {
      expect(draws.every(({ answered }) => answered)).toBe(true);
      expect(share(draws)).toBeGreaterThanOrEqual(tolerance('honest ellipse: each kind'));
    });
  }

  it('holds the truth 93 to 97 times in 100 over all 1,000 draws', () => {
    const all = outcomes.flatMap(({ draws }) => draws);
    expect(all).toHaveLength(1000);
    const miss = Math.abs(share(all) - 0.95);
    expect(
      miss,
      `pooled ${share(all)}; ${outcomes.map(({ kind, draws }) => `${kind.suspension}/${kind.hookSource} ${share(draws)}`).join(', ')}`,
    ).toBeLessThanOrEqual(tolerance('honest ellipse: pooled'));
  });
});
