import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { adjust, drawReadings, prior, resolver } from '../../../src/physics';
import type { Adjustment, Observation, Unknown } from '../../../src/physics';
import { tolerance } from '../../tolerances';
import { between, correlation, covarianceGap, covarianceOf, reasonOf, seeded, valueOf } from '../given';

const unknown = (name: string, start: number, scale: number): Unknown => ({
  name,
  start,
  scale,
  negligible: scale * 1e-12,
});

/** A point in the plane from its distances to four places, two of them with a shared error, and from a bearing. */
const PLACES = [
  [0, 0],
  [4, 0],
  [4, 3],
  [0, 3],
] as const;
const fixes = (point: readonly [number, number], spread: number, analytic: boolean): Observation[] => {
  const distance = (p: Float64Array, k: number) =>
    Math.hypot((p[0] ?? NaN) - (PLACES[k]?.[0] ?? NaN), (p[1] ?? NaN) - (PLACES[k]?.[1] ?? NaN));
  const slopes = (p: Float64Array, k: number) => [
    ((p[0] ?? NaN) - (PLACES[k]?.[0] ?? NaN)) / distance(p, k),
    ((p[1] ?? NaN) - (PLACES[k]?.[1] ?? NaN)) / distance(p, k),
  ];
  const at = Float64Array.from([...point, 0.02]);
  const read = (ks: readonly number[], uncertainty: Observation['uncertainty']): Observation => ({
    name: `distances ${ks.join(', ')}`,
    depends: [0, 1, 2],
    predict: (p) => ks.map((k) => distance(p, k) + (p[2] ?? NaN)),
    values: ks.map((k) => distance(at, k) + 0.02 + 0.5 * spread * Math.sin(7 * k + 1)),
    uncertainty,
    ...(analytic ? { derivative: (p: Float64Array) => ks.map((k) => [...slopes(p, k), 1]) } : {}),
  });
  return [
    read([0, 1], [spread, 2 * spread]),
    read(
      [2, 3],
      [
        [spread ** 2, 0.7 * spread ** 2],
        [0.7 * spread ** 2, spread ** 2],
      ],
    ),
    {
      name: 'bearing',
      depends: [1, 0],
      predict: (p) => [Math.atan2(p[1] ?? NaN, p[0] ?? NaN)],
      values: [Math.atan2(point[1], point[0])],
      uncertainty: [spread / 2],
    },
    prior('zero', 2, 0, spread),
  ];
};
const UNKNOWNS = [unknown('x', 2, 0.1), unknown('y', 1.5, 0.1), unknown('zero', 0, 0.1)];

const read = (observations: readonly Observation[], values: Float64Array): Observation[] => {
  let first = 0;
  return observations.map((observation) => {
    const own = [...values.subarray(first, first + observation.values.length)];
    first += own.length;
    return { ...observation, values: own };
  });
};
const valuesOf = (observations: readonly Observation[]): Float64Array =>
  Float64Array.from(observations.flatMap(({ values }) => values));

/** Greatest difference of two sets of unknowns, in standard uncertainties of the fit. */
const apart = (a: Float64Array, b: Float64Array, { covariance }: Adjustment): number =>
  Math.max(...a.map((value, i) => Math.abs(value - (b[i] ?? NaN)) / Math.sqrt(covariance.get(i, i))));

describe('the adjustment of other readings', () => {
  test('is where adjusting them anew ends', () => {
    fc.assert(
      fc.property(
        between(0.5, 3.5),
        between(0.5, 2.5),
        between(0.001, 0.2),
        fc.boolean(),
        fc.integer(),
        (x, y, spread, analytic, seed) => {
          const observations = fixes([x, y], spread, analytic);
          const found = valueOf(adjust(UNKNOWNS, observations));
          const solve = resolver(UNKNOWNS, observations, found);
          const draw = drawReadings(observations, [], seeded(seed));
          for (let k = 0; k < 20; k++) {
            const values = draw();
            const start = { unknowns: found.unknowns };
            const anew = valueOf(adjust(UNKNOWNS, read(observations, values), { start }));
            expect(apart(valueOf(solve(values)), anew.unknowns, found)).toBeLessThan(
              tolerance('monte carlo: same place'),
            );
          }
        },
      ),
      { numRuns: 40 },
    );
  });

  test('of its own readings is the solution itself', () => {
    const observations = fixes([1, 2], 0.05, true);
    const found = valueOf(adjust(UNKNOWNS, observations));
    const again = valueOf(resolver(UNKNOWNS, observations, found)(valuesOf(observations)));
    expect(apart(again, found.unknowns, found)).toBeLessThan(tolerance('monte carlo: same place'));
  });

  test('of a linear problem is exact, and no call disturbs another', () => {
    const line = (x: number): Observation => ({
      name: `at ${x}`,
      depends: [0, 1],
      predict: (p) => [(p[0] ?? NaN) + (p[1] ?? NaN) * x],
      values: [0],
      uncertainty: [1],
      derivative: () => [[1, x]],
    });
    const observations = [-1, 0, 1].map(line);
    const unknowns = [unknown('a', 0, 1), unknown('b', 0, 1)];
    const solve = resolver(unknowns, observations, valueOf(adjust(unknowns, observations)));
    const first = valueOf(solve(Float64Array.of(1, 2, 6)));
    const second = valueOf(solve(Float64Array.of(0, 0, 0)));
    // Mean of the readings, and half the difference of the outer two.
    expect(Math.abs((first[0] ?? NaN) - 3)).toBeLessThan(1e-12);
    expect(Math.abs((first[1] ?? NaN) - 2.5)).toBeLessThan(1e-12);
    expect([...second]).toEqual([0, 0]);
  });

  test('far out in a curved problem is still where adjusting anew ends', () => {
    const square: Observation = {
      name: 'square',
      depends: [0],
      predict: ([x = NaN]) => [x * x],
      values: [4],
      uncertainty: [0.5],
      derivative: ([x = NaN]) => [[2 * x]],
    };
    const unknowns = [unknown('x', 2, 0.1)];
    const found = valueOf(adjust(unknowns, [square]));
    const solve = resolver(unknowns, [square], found);
    for (const value of [0.01, 0.3, 25, 400]) {
      const x = valueOf(solve(Float64Array.of(value)))[0] ?? NaN;
      expect(Math.abs(Math.abs(x) - Math.sqrt(value))).toBeLessThan(
        tolerance('monte carlo: same place') * Math.sqrt(found.covariance.get(0, 0)),
      );
    }
  });

  test('without a solution is refused', () => {
    const root: Observation = {
      name: 'root',
      depends: [0],
      predict: ([x = NaN]) => [Math.sqrt(x)],
      values: [1],
      uncertainty: [1],
    };
    const unknowns = [unknown('x', 1, 0.1)];
    const solve = resolver(unknowns, [root], valueOf(adjust(unknowns, [root])));
    expect(['not-converged', 'undetermined']).toContain(reasonOf(solve(Float64Array.of(-3))));
  });
});

describe('drawn readings', () => {
  const DRAWS = 20_000;
  const covarianceOfDraws = (
    draw: () => Float64Array,
    size: number,
    about: readonly number[],
  ): number[][] => {
    const sums = Array.from({ length: size }, () => new Array<number>(size).fill(0));
    for (let k = 0; k < DRAWS; k++) {
      const drawn = draw();
      sums.forEach((row, i) =>
        row.forEach(
          (sum, j) =>
            (row[j] =
              sum + ((drawn[i] ?? NaN) - (about[i] ?? NaN)) * ((drawn[j] ?? NaN) - (about[j] ?? NaN))),
        ),
      );
    }
    return sums.map((row) => row.map((sum) => sum / DRAWS));
  };
  const observe = (values: readonly number[], uncertainty: Observation['uncertainty']): Observation => ({
    name: 'readings',
    depends: [0],
    predict: () => values,
    values,
    uncertainty,
  });

  test('scatter about the values read as their uncertainty says', () => {
    fc.assert(
      fc.property(correlation(3), fc.integer(), (correlations, seed) => {
        const joint = covarianceOf([0.5, 2e-3, 40], correlations);
        const observations = [observe([1, 2], [0.1, 3]), observe([3, 4, 5], joint)];
        const draw = drawReadings(observations, [['normal', 'rectangular']], seeded(seed));
        const asked = Array.from({ length: 5 }, (_, i) =>
          Array.from({ length: 5 }, (__, j) => {
            if (i < 2 || j < 2) return i === j ? ([0.01, 9][i] ?? NaN) : 0;
            return joint[i - 2]?.[j - 2] ?? NaN;
          }),
        );
        expect(covarianceGap(covarianceOfDraws(draw, 5, [1, 2, 3, 4, 5]), asked)).toBeLessThan(
          tolerance('physics: Monte Carlo covariance'),
        );
      }),
      { numRuns: 10, seed: 3 },
    );
  });

  test('with hard limits stay within them and reach into every tenth', () => {
    const draw = drawReadings([observe([2], [1 / Math.sqrt(3)])], [['rectangular']], seeded(5));
    const counts = new Array<number>(10).fill(0);
    let outside = 0;
    for (let k = 0; k < DRAWS; k++) {
      const at = (draw()[0] ?? NaN) - 1;
      if (!(at >= 0 && at <= 2)) outside += 1;
      counts[Math.floor(at * 5)] = (counts[Math.floor(at * 5)] ?? 0) + 1;
    }
    expect(outside).toBe(0);
    // Four standard deviations of a tenth of the draws.
    for (const count of counts)
      expect(Math.abs(count - DRAWS / 10)).toBeLessThan(4 * Math.sqrt(DRAWS * 0.09));
  });

  test('have no joint law for limits with a correlation', () =>
    expect(() =>
      drawReadings(
        [
          observe(
            [1, 2],
            [
              [1, 0.5],
              [0.5, 1],
            ],
          ),
        ],
        [['rectangular', 'normal']],
        seeded(1),
      ),
    ).toThrow(RangeError));
});
