import fc from 'fast-check';
import { derivative } from 'mathjs';
import { describe, expect, test } from 'vitest';
import {
  covarianceFault,
  independent,
  jacobian,
  joinCovariances,
  minimumOfTwo,
  monteCarlo,
  normalDraws,
  propagate,
} from '../../../src/physics';
import { tolerance } from '../../tolerances';
import { between, correlation, covarianceGap, covarianceOf, seeded } from '../given';

const DRAWS = 20_000;

describe('sensitivities by central differences', () => {
  test('agree with the symbolic derivatives of mathjs', () => {
    const expressions = ['atan(d / (h * cos(p)))', 'd * h / (d + h)', 'sqrt(d^2 + h^2) * sin(p)'];
    const slopes = expressions.map((expression) =>
      ['d', 'h', 'p'].map((name) => derivative(expression, name).compile()),
    );
    fc.assert(
      fc.property(between(0.02, 0.3), between(0.02, 0.3), between(-1.2, 1.2), (d, h, p) => {
        const values = [
          (x: readonly number[]) => Math.atan((x[0] ?? NaN) / ((x[1] ?? NaN) * Math.cos(x[2] ?? NaN))),
          (x: readonly number[]) => ((x[0] ?? NaN) * (x[1] ?? NaN)) / ((x[0] ?? NaN) + (x[1] ?? NaN)),
          (x: readonly number[]) => Math.hypot(x[0] ?? NaN, x[1] ?? NaN) * Math.sin(x[2] ?? NaN),
        ];
        const ours = jacobian((x) => values.map((of) => of(x)), [d, h, p], [0.02 * d, 0.02 * h, 0.02]);
        slopes.forEach((row, i) =>
          row.forEach((slope, j) => {
            const theirs = Number(slope.evaluate({ d, h, p }));
            const limit = tolerance('physics: central difference') * Math.max(1, Math.abs(theirs));
            expect(Math.abs((ours[i]?.[j] ?? NaN) - theirs)).toBeLessThanOrEqual(limit);
          }),
        );
      }),
    );
  });

  test('an exact input has none', () => {
    expect(jacobian(([a = NaN, b = NaN]) => [a * b], [2, 3], [0, 0.1])[0]?.[0]).toBe(0);
  });
});

describe('Monte Carlo', () => {
  test('draws have the covariance asked for, exact and fully correlated inputs too', () => {
    fc.assert(
      fc.property(correlation(3), fc.integer(), (correlations, seed) => {
        const asked = joinCovariances([
          covarianceOf([0.5, 2e-3, 40], correlations),
          [
            [1, 1],
            [1, 1],
          ],
          [[0]],
        ]);
        const draw = normalDraws([1, 2, 3, 4, 5, 6], asked, seeded(seed));
        const first = Array.from({ length: 50 }, draw);
        for (const row of first) {
          expect(row[5]).toBe(6);
          expect(Math.abs((row[3] ?? NaN) - 4 - ((row[4] ?? NaN) - 5))).toBeLessThan(1e-6);
        }
      }),
      { numRuns: 30 },
    );
  });

  test('a linear function: first order is exact', () => {
    fc.assert(
      fc.property(correlation(3), fc.integer(), (correlations, seed) => {
        const covariance = covarianceOf([0.1, 0.2, 0.05], correlations);
        const rows = [
          [1, 2, -1],
          [0.5, -1, 3],
        ];
        const of = (x: readonly number[]) =>
          rows.map((row) => row.reduce((sum, c, i) => sum + c * (x[i] ?? NaN), 0));
        const drawn = monteCarlo(of, [1, 2, 3], covariance, DRAWS, seeded(seed));
        expect(covarianceGap(drawn.covariance, propagate(rows, covariance))).toBeLessThan(
          tolerance('physics: Monte Carlo covariance'),
        );
      }),
      { numRuns: 6, seed: 11 },
    );
  });
});

describe('the smaller of two correlated limits (Clark 1961)', () => {
  test('two alike and independent: mean −u/√π, variance u²(1 − 1/π)', () => {
    const least = minimumOfTwo({ value: 0, u: 2 }, { value: 0, u: 2 }, 0);
    expect(Math.abs(least.value + 2 / Math.sqrt(Math.PI))).toBeLessThan(
      tolerance('physics: normal law') * 10,
    );
    expect(Math.abs(least.u - 2 * Math.sqrt(1 - 1 / Math.PI))).toBeLessThan(1e-11);
  });

  test('against Monte Carlo', () => {
    fc.assert(
      fc.property(
        between(-2, 2),
        between(0.3, 2),
        between(-0.9, 0.9),
        fc.integer(),
        (apart, ratio, r, seed) => {
          const a = { value: 0.8, u: 0.01 };
          const b = { value: 0.8 + apart * 0.01, u: 0.01 * ratio };
          const covariance = [
            [a.u ** 2, r * a.u * b.u],
            [r * a.u * b.u, b.u ** 2],
          ];
          const least = minimumOfTwo(a, b, r * a.u * b.u);
          const drawn = monteCarlo(
            (x) => [Math.min(...x)],
            [a.value, b.value],
            covariance,
            DRAWS,
            seeded(seed),
          );
          const u = Math.max(a.u, b.u);
          expect(Math.abs((drawn.means[0] ?? NaN) - least.value)).toBeLessThan(
            tolerance('physics: Clark minimum') * u,
          );
          expect(Math.abs(Math.sqrt(drawn.covariance[0]?.[0] ?? NaN) / least.u - 1)).toBeLessThan(
            tolerance('physics: Monte Carlo covariance'),
          );
        },
      ),
      { numRuns: 15, seed: 7 },
    );
  });

  test('order does not matter, and far apart the smaller one stands alone', () => {
    const a = { value: 0.8, u: 0.01 };
    const b = { value: 0.9, u: 0.02 };
    expect(minimumOfTwo(a, b, 1e-5)).toEqual(minimumOfTwo(b, a, 1e-5));
    const far = minimumOfTwo(a, { value: 5, u: 0.02 }, 0);
    expect(far.value).toBeCloseTo(0.8, 12);
    expect(far.u).toBeCloseTo(0.01, 12);
  });

  test('fully correlated limits keep their order', () =>
    expect(minimumOfTwo({ value: 2, u: 0.1 }, { value: 1, u: 0.1 }, 0.01)).toEqual({ value: 1, u: 0.1 }));
});

describe('covariances', () => {
  test.each([
    ['too small', [[1]], 2],
    ['negative variance', [[-1]], 1],
    ['not a number', [[NaN]], 1],
    [
      'asymmetric',
      [
        [1, 0.5],
        [0.2, 1],
      ],
      2,
    ],
    [
      'correlation above 1',
      [
        [1, 2],
        [2, 1],
      ],
      2,
    ],
  ])('%s is a fault', (_, covariance, size) => expect(covarianceFault(covariance, size)).not.toBeNull());

  test('joined blocks share nothing', () => {
    const joined = joinCovariances([
      [
        [1, 0.5],
        [0.5, 1],
      ],
      independent([2]),
    ]);
    expect(joined).toEqual([
      [1, 0.5, 0],
      [0.5, 1, 0],
      [0, 0, 4],
    ]);
    expect(covarianceFault(joined, 3)).toBeNull();
  });
});
