import { quantileSorted } from 'd3-array';
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import {
  COVERAGE,
  adjust,
  distributionOf,
  monteCarloOfAdjustment,
  monteCarloRun,
  normalNumbers,
  numericalTolerance,
  prior,
  refusal,
  standardErrors,
  success,
  validateFirstOrder,
} from '../../../src/physics';
import type { AdjustmentDraws, Observation, Unknown } from '../../../src/physics';
import { tolerance } from '../../tolerances';
import { between, seeded, valueOf } from '../given';

const normals = (count: number, seed: number): Float64Array =>
  Float64Array.from({ length: count }, normalNumbers(seeded(seed)));
const ENDS = ['low', 'high'] as const;

describe('a law from its draws', () => {
  test('takes the interval by counting, as 7.7 has it', () => {
    const hundred = Float64Array.from({ length: 100 }, (_, i) => 100 - i);
    // q = 95, (M − q)/2 = 2.5, so from the third to the ninety-eighth.
    expect(distributionOf(hundred).symmetric).toEqual({ low: 3, high: 98 });
    expect(distributionOf(hundred, 0.9).symmetric).toEqual({ low: 5, high: 95 });
    const squares = Float64Array.from({ length: 101 }, (_, i) => i * i);
    // q = 95.95, rounded to 96 of 101; crowded at the low end.
    expect(distributionOf(squares).shortest).toEqual({ low: 0, high: 96 ** 2 });
  });

  test('has intervals as long as its laws allow', () => {
    fc.assert(
      fc.property(
        fc.array(between(-10, 10), { minLength: 200, maxLength: 400 }),
        between(0.5, 0.99),
        (values, probability) => {
          const draws = Float64Array.from(values);
          const { symmetric, shortest, mean, u } = distributionOf(draws, probability);
          expect(shortest.high - shortest.low).toBeLessThanOrEqual(symmetric.high - symmetric.low);
          expect(distributionOf(draws.toReversed(), probability)).toMatchObject({ symmetric, shortest });
          // d3's quantiles interpolate between neighboring draws; ours are draws, at most two away.
          const sorted = [...draws].toSorted((a, b) => a - b);
          const count = sorted.length;
          ENDS.forEach((end) => {
            const p = end === 'low' ? (1 - probability) / 2 : (1 + probability) / 2;
            const steps = (shift: number) =>
              quantileSorted(sorted, Math.min(1, Math.max(0, p + shift / (count - 1)))) ?? NaN;
            expect(symmetric[end]).toBeGreaterThanOrEqual(steps(-2));
            expect(symmetric[end]).toBeLessThanOrEqual(steps(2));
          });
          const exact = values.reduce((sum, value) => sum + value, 0) / count;
          expect(Math.abs(mean - exact)).toBeLessThan(tolerance('physics: rounding'));
          const variance = values.reduce((sum, value) => sum + (value - exact) ** 2, 0) / (count - 1);
          expect(Math.abs(u - Math.sqrt(variance))).toBeLessThan(tolerance('physics: rounding'));
        },
      ),
    );
  });

  test('knows how far its ends are to be trusted', () => {
    // Quantile p of N draws: sqrt(p (1 − p)/N) over the density there, of the normal law.
    const density = Math.exp(-(COVERAGE ** 2) / 2) / Math.sqrt(2 * Math.PI);
    for (const [count, seed] of [
      [20_000, 1],
      [200_000, 2],
    ] as const) {
      const exact = Math.sqrt((0.025 * 0.975) / count) / density;
      const errors = standardErrors(normals(count, seed), 0.95, 'symmetric');
      for (const end of ENDS)
        expect(Math.abs(Math.log((errors?.[end] ?? NaN) / exact))).toBeLessThan(
          tolerance('monte carlo: standard error'),
        );
    }
    expect(standardErrors(normals(19_000, 3), 0.95, 'symmetric')).toBeNull();
  });
});

/** An angle from three places of a line that is read with a shared zero: curved where its spread is large. */
const UNKNOWNS: readonly Unknown[] = [
  { name: 'angle', start: 0.3, scale: 0.1, negligible: 1e-12 },
  { name: 'zero', start: 0, scale: 0.1, negligible: 1e-12 },
];
const observations = (u: number): Observation[] => [
  ...[1, 2, 3].map((x): Observation => ({
    name: `at ${x}`,
    depends: [0, 1],
    predict: ([t = NaN, zero = NaN]) => [x * Math.tan(t) + zero],
    values: [x * Math.tan(0.3)],
    uncertainty: [u],
    derivative: ([t = NaN]) => [[x / Math.cos(t) ** 2, 1]],
  })),
  prior('zero', 1, 0, u),
];
const drawsOf = (u: number, seed: number, results: AdjustmentDraws['results']): AdjustmentDraws => {
  const read = observations(u);
  const solution = valueOf(adjust(UNKNOWNS, read));
  return { unknowns: UNKNOWNS, observations: read, laws: [], solution, uniform: seeded(seed), results };
};

describe('a run over an adjustment', () => {
  test('from one start gives the same draws, in whatever portions', () => {
    const results = (p: Float64Array) => [p[0] ?? NaN, p[1] ?? NaN];
    const at = once(drawsOf(0.01, 4, results), 3000);
    const inPortions = monteCarloOfAdjustment(drawsOf(0.01, 4, results));
    for (const portion of [1, 999, 1500, 500]) inPortions.draw(portion);
    for (const index of [0, 1]) expect(inPortions.draws(index)).toEqual(at.draws(index));
    expect(once(drawsOf(0.01, 5, results), 3000).draws(0)).not.toEqual(at.draws(0));
  });

  test('of a nearly straight problem has the covariance of the fit', () => {
    const draws = drawsOf(0.001, 6, (p) => [p[0] ?? NaN, p[1] ?? NaN]);
    const run = once(draws, 20_000);
    [0, 1].forEach((i) => {
      const { mean, u } = distributionOf(run.draws(i));
      const exact = Math.sqrt(draws.solution.covariance.get(i, i));
      expect(Math.abs(u / exact - 1)).toBeLessThan(tolerance('physics: Monte Carlo covariance'));
      expect(Math.abs(mean - (draws.solution.unknowns[i] ?? NaN)) / exact).toBeLessThan(
        tolerance('physics: Monte Carlo mean'),
      );
    });
  });

  test('counts draws that have no result, and keeps them out of the rest', () => {
    const run = once(
      drawsOf(0.05, 7, ([t = NaN]) => (t < 0.3 ? null : [t])),
      4000,
    );
    expect(run.drawn()).toBe(4000);
    expect(run.failures()).toEqual(new Map([['no result', run.failed()]]));
    // The angle is as often above 0.3 as below: four standard deviations of 4,000 tosses.
    expect(Math.abs(run.failed() - 2000)).toBeLessThan(4 * Math.sqrt(1000));
    expect(run.draws(0)).toHaveLength(4000 - run.failed());
    expect(Math.min(...run.draws(0))).toBeGreaterThanOrEqual(0.3);
  });

  test('tells refusals and numbers that are none by their reason', () => {
    let k = 0;
    const run = monteCarloRun(1, () => {
      k += 1;
      if (k % 3 === 0) return refusal('not-converged', '');
      return success([k % 3 === 1 ? k : NaN]);
    });
    run.draw(3000);
    expect(run.failures()).toEqual(
      new Map([
        ['not a number', 1000],
        ['not-converged', 1000],
      ]),
    );
    expect(run.draws(0)).toHaveLength(1000);
  });
});

function once(draws: AdjustmentDraws, count: number) {
  const run = monteCarloOfAdjustment(draws);
  run.draw(count);
  return run;
}

describe('whether first order may stand', () => {
  // JCGM 101:2008, 7.9.2: half a unit of the last of the digits that count. From memory; the definition itself.
  test.each([
    [0.00035, 2, 0.000005],
    [0.0004, 1, 0.00005],
    [10, 2, 0.5],
    [2, 2, 0.05],
    [0.0996, 2, 0.005],
    [0.96, 1, 0.5],
  ])('numerical tolerance of %d with %i digits: %d', (u, significantDigits, expected) =>
    expect(Math.abs(numericalTolerance(u, significantDigits) / expected - 1)).toBeLessThan(1e-12),
  );

  test('a sum of normal inputs may', () => {
    const draws = normals(1_000_000, 11);
    const straight = validateFirstOrder({ value: 0, u: 1 }, draws, { significantDigits: 2 });
    expect(straight.verdict).toBe('validated');
    expect(
      validateFirstOrder({ value: 0, u: 1 }, draws, { kind: 'shortest', significantDigits: 1 }).verdict,
    ).toBe('validated');
    expect(validateFirstOrder({ value: 0, u: 1.2 }, draws).verdict).toBe('not validated');
    expect(validateFirstOrder({ value: 0.2, u: 1 }, draws).verdict).toBe('not validated');
  });

  test('too few draws have no verdict, unless it is beyond doubt', () => {
    const draws = normals(20_000, 12).map((value) => 0.99 * value);
    const close = validateFirstOrder({ value: 0, u: 1 }, draws, { significantDigits: 2 });
    expect(close.enoughDraws).toBe(false);
    expect(close.verdict).toBe('more draws needed');
    const far = validateFirstOrder({ value: 0, u: 2 }, draws, { significantDigits: 2 });
    expect(far.enoughDraws).toBe(false);
    expect(far.verdict).toBe('not validated');
    expect(validateFirstOrder({ value: 0, u: 2 }, draws.subarray(0, 5000)).verdict).toBe('more draws needed');
  });

  test('units make no difference', () => {
    fc.assert(
      fc.property(
        fc.constantFrom(-6, -3, 0, 3),
        between(0.9, 1.1),
        fc.constantFrom(1, 2),
        (power, u, digits) => {
          const draws = normals(40_000, 13);
          const unit = 10 ** power;
          const of = (scale: number) =>
            validateFirstOrder(
              { value: 5 * scale, u: u * scale },
              draws.map((value) => (5 + value) * scale),
              { significantDigits: digits },
            );
          const [own, other] = [of(1), of(unit)];
          expect(other.verdict).toBe(own.verdict);
          expect(Math.abs(other.tolerance / unit / own.tolerance - 1)).toBeLessThan(
            tolerance('physics: rounding'),
          );
          for (const end of ENDS)
            expect(Math.abs(other.apart[end] / unit - own.apart[end])).toBeLessThan(
              tolerance('physics: rounding'),
            );
        },
      ),
      { numRuns: 20 },
    );
  });
});
