import { beforeAll, describe, expect, test } from 'vitest';
import { type TruckAdjustment, adjustTruck } from '../../../src/physics';
import { tolerance } from '../../tolerances';
import { inverse } from '../../world/algebra';
import type { WorldBench } from '../../world/bench';
import { makeBench } from '../../world/bench';

/**
 * The one estimator against a simulated bench that shares no formula with it: random trucks, random readings, errors by
 * their stated laws. It must be as sharp as the readings allow, and say truly how sharp it is.
 * SOAK=20000 npx vitest run --project unit tests/physics/estimate/estimate.test.ts takes ten times as many.
 */
const SETS = Number(process.env['SOAK'] ?? 2000);
const HARD_LIMITED = Math.ceil(SETS / 2);
const EXACT = 300;
/** Generous to a slow machine, ms a set. */
const PATIENCE = 40;

const AXES = ['x', 'y', 'z'] as const;
type Axis = (typeof AXES)[number];
const COVERAGE = 1.959964;
const COORDINATES = AXES.length;

interface Trial {
  readonly set: WorldBench;
  readonly told: TruckAdjustment;
}

const trial = (number: number, errors: 'normal' | 'stated' | 'none'): Trial => {
  const set = makeBench(number, { errors });
  const told = adjustTruck(set.bench);
  if (!told.ok) throw new Error(`Set ${number}: ${told.message}`);
  return { set, told: told.value };
};

/** What is counted over many trials; trials themselves are not kept. */
class Tally {
  sets = 0;
  chiSquared = 0;
  degreesOfFreedom = 0;
  /** Sets whose misfit is among the largest 5 % by its own telling. */
  improbable = 0;
  withFreedom = 0;
  /** Square of the error in units of the told covariance of all three coordinates. */
  distance = 0;
  readonly squares: Record<Axis, number> = { x: 0, y: 0, z: 0 };
  readonly held: Record<Axis, number> = { x: 0, y: 0, z: 0 };
  readonly toldOverBound: Record<Axis, number> = { x: 0, y: 0, z: 0 };

  add({ set, told }: Trial): void {
    this.sets += 1;
    this.chiSquared += told.chiSquared;
    this.degreesOfFreedom += told.degreesOfFreedom;
    if (told.probability !== null) {
      this.withFreedom += 1;
      if (told.probability < 0.05) this.improbable += 1;
    }
    const errors = AXES.map((axis) => (told.cg[axis]?.value ?? NaN) - set.truth[axis]);
    AXES.forEach((axis, i) => {
      const [error, u, bound] = [errors[i] ?? NaN, told.cg[axis]?.u ?? NaN, set.bound[axis]];
      this.squares[axis] += (error / bound) ** 2;
      this.toldOverBound[axis] += u / bound;
      if (Math.abs(error) <= COVERAGE * u) this.held[axis] += 1;
    });
    const weight = inverse([0, 1, 2].map((i) => [0, 1, 2].map((j) => told.stanceCovariance[i]?.[j] ?? NaN)));
    errors.forEach((a, i) => errors.forEach((b, j) => (this.distance += a * b * (weight?.[i]?.[j] ?? NaN))));
  }

  sharpness(axes: readonly Axis[] = AXES): number {
    return Math.sqrt(axes.reduce((sum, axis) => sum + this.squares[axis], 0) / (axes.length * this.sets));
  }
  coverage(axes: readonly Axis[] = AXES): number {
    return axes.reduce((sum, axis) => sum + this.held[axis], 0) / (axes.length * this.sets);
  }
  toString(): string {
    const each = (of: (axis: Axis) => number, digits: number) =>
      AXES.map((axis) => `${axis} ${of(axis).toFixed(digits)}`).join(', ');
    return [
      `${this.sets} sets`,
      `RMS error over bound ${this.sharpness().toFixed(4)} (${each((axis) => this.sharpness([axis]), 4)})`,
      `held by ±1.96 u ${this.coverage().toFixed(4)} (${each((axis) => this.coverage([axis]), 4)})`,
      `chi-squared ${this.chiSquared.toFixed(0)} of ${this.degreesOfFreedom} degrees of freedom`,
      `improbable misfits ${(this.improbable / this.withFreedom).toFixed(4)}`,
    ].join('; ');
  }
}

/** Standard deviations of chance that a share counted over so many is away from what it should be. */
const chances = (share: number, right: number, count: number): number =>
  Math.abs(share - right) / Math.sqrt((right * (1 - right)) / count);

const run = (sets: number, errors: 'normal' | 'stated', takes: (set: WorldBench) => boolean): Tally => {
  const tally = new Tally();
  for (let number = 1; tally.sets < sets; number += 1) {
    const one = trial(number, errors);
    if (takes(one.set)) tally.add(one);
  }
  return tally;
};

describe('errors by the normal law', () => {
  let tally = new Tally();
  beforeAll(() => {
    tally = run(SETS, 'normal', () => true);
  }, SETS * PATIENCE);

  test('the answer is as near to the truth as any could be', async ({ annotate }) => {
    await annotate(String(tally));
    expect(tally.sharpness()).toBeLessThanOrEqual(tolerance('simulated bench: sharpness'));
    for (const axis of AXES)
      expect(tally.sharpness([axis]), axis).toBeLessThanOrEqual(tolerance('simulated bench: sharpness'));
  });

  test('its uncertainty is the least that the readings allow', () => {
    for (const axis of AXES)
      expect(Math.abs(tally.toldOverBound[axis] / tally.sets - 1), axis).toBeLessThan(
        tolerance('simulated bench: told uncertainty'),
      );
  });

  test('95 % intervals hold the truth', () => {
    const asked = tolerance('simulated bench: coverage');
    expect(Math.abs(tally.coverage() - 0.95)).toBeLessThanOrEqual(asked);
    for (const axis of AXES) {
      const share = tally.coverage([axis]);
      const byChance = chances(share, 0.95, tally.sets) <= tolerance('simulated bench: chance');
      expect(byChance || Math.abs(share - 0.95) <= asked, `${axis}: ${share}`).toBe(true);
    }
  });

  test('all three coordinates together scatter as their covariance says', () => {
    // Chi-squared with three degrees of freedom a set: mean 3, variance 6.
    expect(
      Math.abs(tally.distance - COORDINATES * tally.sets) / Math.sqrt(2 * COORDINATES * tally.sets),
    ).toBeLessThan(tolerance('simulated bench: chance'));
  });

  test('chi-squared is near its degrees of freedom, and improbable as often as it says', () => {
    const spread = Math.sqrt(2 * tally.degreesOfFreedom);
    expect(Math.abs(tally.chiSquared - tally.degreesOfFreedom) / spread).toBeLessThan(
      tolerance('simulated bench: chance'),
    );
    expect(chances(tally.improbable / tally.withFreedom, 0.05, tally.withFreedom)).toBeLessThan(
      tolerance('simulated bench: chance'),
    );
  });
});

describe('hard limits, and tip lines anywhere under the tread', () => {
  let tally = new Tally();
  beforeAll(() => {
    tally = run(HARD_LIMITED, 'stated', ({ uniformInputs }) => uniformInputs);
  }, SETS * PATIENCE);

  test('the answer keeps to the bound that standard uncertainties give', async ({ annotate }) => {
    await annotate(String(tally));
    expect(tally.sharpness()).toBeLessThanOrEqual(tolerance('simulated bench: sharpness'));
  });

  test('95 % intervals hold the truth about as often', () => {
    for (const axis of AXES)
      expect(Math.abs(tally.coverage([axis]) - 0.95), axis).toBeLessThanOrEqual(
        tolerance('simulated bench: hard limits'),
      );
  });
});

test('exact readings give the truth back', () => {
  for (let number = 1; number <= EXACT; number += 1) {
    const { set, told } = trial(number, 'none');
    for (const axis of AXES)
      expect(
        Math.abs((told.cg[axis]?.value ?? NaN) - set.truth[axis]),
        `set ${number}, ${axis}`,
      ).toBeLessThan(tolerance('simulated bench: exact readings'));
    expect(told.chiSquared).toBeLessThan(tolerance('simulated bench: exact readings'));
  }
});
