import fc from 'fast-check';
import { type MathNode, derivative, inv, lusolve, multiply, parse, transpose } from 'mathjs';
import { describe, expect, test } from 'vitest';
import { type Adjustment, type Observation, type Unknown, adjust, prior } from '../../../src/physics';
import { tolerance } from '../../tolerances';
import { correlation, covarianceGap, covarianceOf, reasonOf, seeded, valueOf } from '../given';

/** A linear problem as matrices: what an independent solver takes. */
interface LinearReading {
  readonly depends: readonly number[];
  readonly rows: readonly (readonly number[])[];
  readonly values: readonly number[];
  readonly covariance: readonly (readonly number[])[];
}
interface LinearProblem {
  readonly unknowns: readonly Unknown[];
  readonly readings: readonly LinearReading[];
}

const COMMON = 2;
const BLOCKS = 3;
const BLOCK_SIZE = 2;

/**
 * Two unknowns in common and three blocks of two, each block read by pairs and triples of readings that share errors,
 * some readings of the common ones alone, one of a block alone. Sizes differ by a thousand between unknowns.
 */
const linearProblem: fc.Arbitrary<LinearProblem> = fc
  .tuple(fc.integer(), fc.array(correlation(3), { minLength: 9, maxLength: 9 }))
  .map(([seed, correlations]) => {
    const uniform = seeded(seed);
    const between = (low: number, high: number) => low + (high - low) * uniform();
    const scales = Array.from({ length: COMMON + BLOCKS * BLOCK_SIZE }, () => 10 ** between(-2, 1));
    const unknowns = scales.map((scale, i): Unknown => ({
      name: `unknown ${i}`,
      start: scale * between(-3, 3),
      scale,
      negligible: scale * 1e-12,
      ...(i < COMMON ? {} : { block: Math.floor((i - COMMON) / BLOCK_SIZE) }),
    }));
    const reading = (depends: readonly number[], count: number, shared: readonly (readonly number[])[]) => ({
      depends,
      rows: Array.from({ length: count }, () => depends.map((i) => between(-1, 1) / (scales[i] ?? 1))),
      values: Array.from({ length: count }, () => between(-1, 1)),
      covariance: covarianceOf(
        Array.from({ length: count }, () => between(0.01, 0.1)),
        shared.slice(0, count).map((row) => row.slice(0, count)),
      ),
    });
    const common = [0, 1];
    const readings = correlations.map((shared, k) => {
      const own = [COMMON + BLOCK_SIZE * (k % BLOCKS), COMMON + BLOCK_SIZE * (k % BLOCKS) + 1];
      if (k < 6) return reading([...common, ...own], 2 + (k % 2), shared);
      return reading(k === 6 ? own : common, 3, shared);
    });
    return { unknowns, readings };
  });

const observation = ({ depends, rows, values, covariance }: LinearReading, k: number): Observation => ({
  name: `reading ${k}`,
  depends,
  predict: (p) => rows.map((row) => row.reduce((sum, by, i) => sum + by * (p[depends[i] ?? 0] ?? NaN), 0)),
  values,
  uncertainty: covariance,
});
const solve = ({ unknowns, readings }: LinearProblem, curvature = false): Adjustment =>
  valueOf(adjust(unknowns, readings.map(observation), { curvature }));

/** The normal equations in full, by another library. */
function dense({ unknowns, readings }: LinearProblem) {
  const size = unknowns.length;
  const normal = Array.from({ length: size }, () => new Array<number>(size).fill(0));
  const right = new Array<number>(size).fill(0);
  const add = (row: number[] | undefined, j: number, by: number) => row && (row[j] = (row[j] ?? 0) + by);
  const weights = readings.map(({ covariance }) => inv(covariance.map((row) => [...row])));
  readings.forEach(({ depends, rows, values }, k) => {
    const wide = rows.map((row) => unknowns.map((_, i) => row[depends.indexOf(i)] ?? 0));
    const weighted = multiply(transpose(wide), weights[k] ?? []);
    multiply(weighted, wide).forEach((row, i) => row.forEach((by, j) => add(normal[i], j, by)));
    multiply(weighted, [...values]).forEach((by, i) => add(right, i, by));
  });
  const covariance = inv(normal);
  const at = multiply(covariance, right);
  const chiSquared = readings.reduce((sum, { depends, rows, values }, k) => {
    const left = values.map(
      (value, i) => value - (rows[i] ?? []).reduce((s, by, j) => s + by * (at[depends[j] ?? 0] ?? NaN), 0),
    );
    return sum + Number(multiply(left, multiply(weights[k] ?? [], left)));
  }, 0);
  return { at, covariance, chiSquared };
}

/** Greatest difference of two fits, in standard uncertainties and correlations. */
const gap = (a: Adjustment, at: ArrayLike<number>, covariance: readonly (readonly number[])[]): number =>
  Math.max(
    covarianceGap(a.covariance.to2DArray(), covariance),
    ...Array.from(
      a.unknowns,
      (value, i) => Math.abs(value - (at[i] ?? NaN)) / Math.sqrt(covariance[i]?.[i] ?? NaN),
    ),
  );
const same = tolerance('least squares: two solvers');
const expectSame = (a: Adjustment, b: Adjustment) => {
  expect(gap(a, b.unknowns, b.covariance.to2DArray())).toBeLessThan(same);
  expect(Math.abs(a.chiSquared - b.chiSquared)).toBeLessThan(same * (1 + b.chiSquared));
  expect(a.degreesOfFreedom).toBe(b.degreesOfFreedom);
};

describe('a linear problem', () => {
  test('is solved as the normal equations in full are', () => {
    fc.assert(
      fc.property(linearProblem, (problem) => {
        const ours = solve(problem);
        const theirs = dense(problem);
        expect(gap(ours, theirs.at, theirs.covariance)).toBeLessThan(same);
        expect(Math.abs(ours.chiSquared - theirs.chiSquared)).toBeLessThan(same * (1 + theirs.chiSquared));
        expect(ours.degreesOfFreedom).toBe(
          problem.readings.reduce((sum, { values }) => sum + values.length, 0) - problem.unknowns.length,
        );
      }),
    );
  });

  test('is the same without its blocks', () => {
    fc.assert(
      fc.property(linearProblem, ({ unknowns, readings }) => {
        const plain = unknowns.map(({ name, start, scale, negligible }) => ({
          name,
          start,
          scale,
          negligible,
        }));
        expectSame(solve({ unknowns, readings }), solve({ unknowns: plain, readings }));
      }),
    );
  });

  test('is the same in any order of unknowns and readings', () => {
    const orders = fc.tuple(
      fc.shuffledSubarray(
        Array.from({ length: 8 }, (_, i) => i),
        { minLength: 8 },
      ),
      fc.shuffledSubarray(
        Array.from({ length: 9 }, (_, i) => i),
        { minLength: 9 },
      ),
    );
    fc.assert(
      fc.property(linearProblem, orders, ({ unknowns, readings }, [places, turns]) => {
        const ordered = solve({ unknowns, readings });
        const shuffled = solve({
          unknowns: places.flatMap((i) => unknowns[i] ?? []),
          readings: turns
            .flatMap((k) => readings[k] ?? [])
            .map((reading) => ({ ...reading, depends: reading.depends.map((i) => places.indexOf(i)) })),
        });
        const covariance = ordered.covariance.to2DArray();
        expect(
          gap(
            shuffled,
            places.map((i) => ordered.unknowns[i] ?? NaN),
            places.map((i) => places.map((j) => covariance[i]?.[j] ?? NaN)),
          ),
        ).toBeLessThan(same);
      }),
    );
  });

  test('does not depend on the units of its unknowns', () => {
    const factors = [1000, 0.001, 25.4, 1, 1e6, 0.3048, 1e-4, 57.3];
    fc.assert(
      fc.property(linearProblem, ({ unknowns, readings }) => {
        const before = solve({ unknowns, readings });
        const by = (i: number) => factors[i] ?? 1;
        const after = solve({
          unknowns: unknowns.map((unknown, i) => ({
            ...unknown,
            start: unknown.start * by(i),
            scale: unknown.scale * by(i),
            negligible: unknown.negligible * by(i),
          })),
          readings: readings.map((reading) => ({
            ...reading,
            rows: reading.rows.map((row) => row.map((value, j) => value / by(reading.depends[j] ?? 0))),
          })),
        });
        expect(
          gap(
            after,
            before.unknowns.map((value, i) => value * by(i)),
            before.covariance.to2DArray().map((row, i) => row.map((value, j) => value * by(i) * by(j))),
          ),
        ).toBeLessThan(same);
      }),
    );
  });

  test('takes readings that share an error as their independent combinations', () => {
    fc.assert(
      fc.property(linearProblem, ({ unknowns, readings }) => {
        // C = L Lᵀ by hand; the combinations L⁻¹ of rows and values are independent with u = 1.
        const whitened = readings.map(({ depends, rows, values, covariance }) => {
          const lower = covariance.map((row) => row.map(() => 0));
          covariance.forEach((row, i) =>
            row.slice(0, i + 1).forEach((value, j) => {
              const dot = (lower[i] ?? [])
                .slice(0, j)
                .reduce((sum, x, k) => sum + x * (lower[j]?.[k] ?? 0), 0);
              const left = value - dot;
              const target = lower[i];
              if (target) target[j] = i === j ? Math.sqrt(left) : left / (lower[j]?.[j] ?? NaN);
            }),
          );
          const column = (raw: readonly number[]) =>
            (lusolve(lower, [...raw]) as number[][]).map(([x]) => x ?? NaN);
          const columns = depends.map((_, j) => column(rows.map((row) => row[j] ?? NaN)));
          return {
            depends,
            rows: values.map((_, i) => columns.map((each) => each[i] ?? NaN)),
            values: column(values),
          };
        });
        const separate = whitened.map(({ depends, rows, values }, k): Observation => ({
          ...observation({ depends, rows, values, covariance: [] }, k),
          uncertainty: values.map(() => 1),
        }));
        expectSame(solve({ unknowns, readings }), valueOf(adjust(unknowns, separate)));
      }),
    );
  });

  test('has the same covariance from its full curvature, which is that of its slopes', () => {
    fc.assert(
      fc.property(linearProblem, (problem) => {
        const curved = solve(problem, true);
        const straight = solve(problem);
        expect(covarianceGap(curved.covariance.to2DArray(), straight.covariance.to2DArray())).toBeLessThan(
          tolerance('least squares: curvature'),
        );
      }),
    );
  });

  test('shares the variance of any combination among its readings without rest', () => {
    fc.assert(
      fc.property(linearProblem, fc.integer(), (problem, seed) => {
        const uniform = seeded(seed);
        const fit = solve(problem);
        const gradient = problem.unknowns.map(() => uniform() - 0.5);
        const shares = fit.varianceShares(gradient);
        const variance = Number(multiply(gradient, multiply(fit.covariance.to2DArray(), gradient)));
        expect(shares.every((share) => share >= 0)).toBe(true);
        expect(Math.abs(shares.reduce((sum, share) => sum + share, 0) / variance - 1)).toBeLessThan(same);
      }),
    );
  });

  test('tells what any reading would miss by without its own say, as a fit without it does', () => {
    fc.assert(
      fc.property(linearProblem, fc.integer({ min: 0, max: 8 }), ({ unknowns, readings }, k) => {
        const whole = solve({ unknowns, readings });
        const without = whole.leftOut(k);
        const rest = adjust(unknowns, readings.filter((_, i) => i !== k).map(observation));
        const reading = readings[k];
        if (!rest.ok || !without || !reading) return;
        const missed = reading.values.map(
          (value, i) => value - (observation(reading, k).predict(rest.value.unknowns)[i] ?? NaN),
        );
        missed.forEach((miss, i) => {
          const size = Math.abs(miss) + Math.sqrt(reading.covariance[i]?.[i] ?? NaN);
          expect(Math.abs((without.residuals[i] ?? NaN) - miss)).toBeLessThan(
            tolerance('least squares: left out') * size,
          );
        });
        const less = whole.chiSquared - rest.value.chiSquared;
        expect(Math.abs(without.chiSquaredLess - less)).toBeLessThan(
          tolerance('least squares: left out') * (1 + whole.chiSquared),
        );
      }),
    );
  });

  test('cannot tell so of the only reading of an unknown', () => {
    const unknowns: Unknown[] = [{ name: 'x', start: 0, scale: 1, negligible: 1e-9 }];
    const alone = valueOf(adjust(unknowns, [prior('x', 0, 3, 0.2)]));
    expect(alone.leftOut(0)).toBeNull();
    // Of two, each misses by their difference; chi-squared falls to zero.
    const two = valueOf(adjust(unknowns, [prior('x', 0, 3, 0.2), prior('x', 0, 4, 0.1)]));
    expect(two.leftOut(0)?.residuals[0]).toBeCloseTo(-1, 9);
    expect(two.leftOut(0)?.chiSquaredLess).toBeCloseTo(two.chiSquared, 9);
  });

  test('takes a prior as a reading of the unknown itself', () => {
    const unknowns: Unknown[] = [{ name: 'x', start: 0, scale: 1, negligible: 1e-9 }];
    const reading: Observation = {
      name: 'x',
      depends: [0],
      predict: (p) => [p[0] ?? NaN],
      values: [3],
      uncertainty: [0.2],
    };
    const other: Observation = { ...reading, values: [4], uncertainty: [0.1] };
    const typed = valueOf(adjust(unknowns, [prior('x', 0, 3, 0.2), other]));
    expectSame(typed, valueOf(adjust(unknowns, [reading, other])));
    // Mean weighted by 1/u²: (3·25 + 4·100)/125, u = 1/√125.
    expect(Math.abs((typed.unknowns[0] ?? NaN) - 3.8)).toBeLessThan(same);
    expect(Math.abs(typed.covariance.get(0, 0) - 1 / 125)).toBeLessThan(same);
    expect(typed.residuals.map(([r]) => r?.toFixed(9))).toEqual(['-0.800000000', '0.200000000']);
  });
});

/** Ranges to beacons, as a fit and as an expression for an algebra library. */
const BEACONS = [
  { x: 0, y: 0, range: 5.3, u: 0.3 },
  { x: 6, y: 1, range: 4.4, u: 0.4 },
  { x: 2, y: 7, range: 4.3, u: 0.25 },
  { x: -3, y: 4, range: 5.1, u: 0.5 },
];
const place: Unknown[] = [
  { name: 'x', start: 1, scale: 1, negligible: 1e-13 },
  { name: 'y', start: 1, scale: 1, negligible: 1e-13 },
];
/** `finer` shrinks every u alike: the fit then settles later, at the same place. */
const ranges = (finer = 1): Observation[] =>
  BEACONS.map(({ x, y, range, u }, i) => ({
    name: `range ${i}`,
    depends: [0, 1],
    predict: (p) => [Math.hypot((p[0] ?? NaN) - x, (p[1] ?? NaN) - y)],
    values: [range],
    uncertainty: [u * finer],
  }));

describe('a problem that is not linear', () => {
  const misfits = BEACONS.map(
    ({ x, y, range, u }) => `(${range} - sqrt((x - ${x})^2 + (y - (${y}))^2))^2 / ${2 * u * u}`,
  );
  /** Derivative of the whole misfit by each name in turn, at the place found. */
  const slope = (...by: readonly string[]): number =>
    misfits.reduce((sum, term) => {
      const derived = by.reduce<MathNode>(
        (node, name) => derivative(node, name, { simplify: false }),
        parse(term),
      );
      return sum + Number(derived.evaluate(at));
    }, 0);
  const finer = 1e-6;
  const fit = valueOf(adjust(place, ranges(finer), { curvature: true, maxIterations: 300 }));
  const at = { x: fit.unknowns[0] ?? NaN, y: fit.unknowns[1] ?? NaN };
  const names = ['x', 'y'] as const;

  test('ends where the slope of the misfit is zero', () => {
    for (const name of names)
      expect(Math.abs(slope(name))).toBeLessThan(tolerance('least squares: zero slope'));
  });

  test('has the inverse of the exact second derivatives as covariance, where asked for the curvature', () => {
    const exact = inv(names.map((a) => names.map((b) => slope(a, b))));
    const ours = fit.covariance.to2DArray().map((row) => row.map((value) => value / finer ** 2));
    expect(covarianceGap(ours, exact)).toBeLessThan(tolerance('least squares: second difference'));
    const straight = valueOf(adjust(place, ranges(finer), { maxIterations: 300 }));
    const slopes = straight.covariance.to2DArray().map((row) => row.map((value) => value / finer ** 2));
    // The two laws must differ, or this test tells nothing.
    expect(covarianceGap(slopes, exact)).toBeGreaterThan(0.02);
  });

  test('takes the curvature of a reading that brings its own derivative as well', () => {
    const withSlopes = ranges(finer).map((reading, i): Observation => ({
      ...reading,
      derivative: (p) => {
        const [dx, dy] = [(p[0] ?? NaN) - (BEACONS[i]?.x ?? NaN), (p[1] ?? NaN) - (BEACONS[i]?.y ?? NaN)];
        return [[dx / Math.hypot(dx, dy), dy / Math.hypot(dx, dy)]];
      },
    }));
    const own = valueOf(adjust(place, withSlopes, { curvature: true, maxIterations: 300 }));
    expect(covarianceGap(own.covariance.to2DArray(), fit.covariance.to2DArray())).toBeLessThan(
      tolerance('least squares: second difference'),
    );
  });

  test('ends at one place from any start nearby, and at once from that place', () => {
    const settledFit = valueOf(adjust(place, ranges()));
    fc.assert(
      fc.property(
        fc.double({ min: 0.5, max: 4, noNaN: true }),
        fc.double({ min: 1, max: 5, noNaN: true }),
        (x, y) => {
          const other = valueOf(adjust(place, ranges(), { start: { unknowns: Float64Array.of(x, y) } }));
          for (const i of [0, 1])
            expect(
              Math.abs((other.unknowns[i] ?? NaN) - (settledFit.unknowns[i] ?? NaN)) /
                Math.sqrt(settledFit.covariance.get(i, i)),
            ).toBeLessThan(tolerance('least squares: settled'));
        },
      ),
    );
    expect(valueOf(adjust(place, ranges(), { start: settledFit })).iterations).toBe(1);
  });

  test('is halved back from where a reading cannot be predicted', () => {
    const reading: Observation = {
      name: 'log',
      depends: [0],
      predict: (p) => [Math.log(p[0] ?? NaN)],
      values: [-3],
      uncertainty: [1e-6],
    };
    const unknown: Unknown = { name: 'x', start: 3, scale: 0.1, negligible: 1e-15 };
    // The first full step leads to 3 − 3·4.1 < 0, where there is no logarithm.
    const { unknowns } = valueOf(adjust([unknown], [reading]));
    expect(Math.abs((unknowns[0] ?? NaN) / Math.exp(-3) - 1)).toBeLessThan(tolerance('physics: rounding'));
  });
});

describe('refusals', () => {
  const [x, y] = place;
  const sum: Observation = {
    name: 'sum',
    depends: [0, 1],
    predict: (p) => [(p[0] ?? NaN) + (p[1] ?? NaN)],
    values: [1],
    uncertainty: [0.1],
  };
  const z: Unknown = { name: 'z', start: 0, scale: 1, negligible: 1e-9 };

  test('names the unknowns that no reading determines, in a block or not, and no others', () => {
    if (!x || !y) throw new Error('two unknowns');
    for (const block of [undefined, 1]) {
      const inBlock = (unknown: Unknown) => (block === undefined ? unknown : { ...unknown, block });
      const refused = adjust([inBlock(x), inBlock(y), z], [sum, sum, prior('z', 2, 1, 0.1)]);
      expect(reasonOf(refused)).toBe('undetermined');
      expect(refused).toMatchObject({
        message: expect.stringMatching(/^No reading determines (x, y|y, x)\.$/),
      });
      const unread = adjust([inBlock(x), inBlock(y), z], [prior('x', 0, 1, 1), prior('y', 1, 1, 1)]);
      expect(unread).toMatchObject({ ok: false, message: 'No reading determines z.' });
    }
  });

  test('says when it did not settle in the steps allowed', () => {
    expect(reasonOf(adjust(place, ranges(1e-6), { maxIterations: 1 }))).toBe('not-converged');
  });

  test('says so where a reading cannot be predicted at the start', () => {
    const nowhere: Observation = { ...sum, predict: () => [NaN] };
    expect(reasonOf(adjust(place, [nowhere, prior('x', 0, 1, 1), prior('y', 1, 1, 1)]))).toBe(
      'not-converged',
    );
  });

  test('says so, and not that it is undetermined, where a reading cannot be predicted beside the start', () => {
    // Read as a root, the unknown starts at its end; read by a slope, at a slope that is none.
    const root: Observation = {
      name: 'root',
      depends: [0],
      predict: ([at = NaN]) => [Math.sqrt(at - 2)],
      values: [1],
      uncertainty: [0.1],
    };
    const slope: Observation = { ...root, predict: () => [0], derivative: () => [[NaN]] };
    for (const reading of [root, slope])
      for (const block of [undefined, 1]) {
        const unknown: Unknown = { name: 'x', start: 2, scale: 1, negligible: 1e-9 };
        const blocked = block === undefined ? unknown : { ...unknown, block };
        expect(reasonOf(adjust([blocked], [reading]))).toBe('not-converged');
      }
  });

  test('throws on an uncertainty that is not one: a caller’s bug', () => {
    for (const uncertainty of [[0], [-1], [NaN], [[0]]])
      expect(() => adjust(place, [{ ...sum, uncertainty }])).toThrow(RangeError);
    const pair = { ...sum, values: [1, 1], predict: () => [1, 1] };
    expect(() =>
      adjust(place, [
        {
          ...pair,
          uncertainty: [
            [1, 2],
            [2, 1],
          ],
        },
      ]),
    ).toThrow(/positive definite/);
  });
});

describe('over 20,000 draws', () => {
  const DRAWS = 20_000;
  const uniform = seeded(20_260_509);
  const normal = () => Math.sqrt(-2 * Math.log(1 - uniform())) * Math.cos(2 * Math.PI * uniform());
  const truth = [0.3, -0.2];
  const slopes = [
    [1, 0.2],
    [0.4, -1],
    [-0.7, 0.5],
    [0.1, 0.9],
    [1.2, 0.8],
  ];
  const u = [0.02, 0.05, 0.03, 0.04, 0.06];
  const unknowns: Unknown[] = truth.map((_, i) => ({ name: `${i}`, start: 0, scale: 1, negligible: 1e-12 }));
  const fits = Array.from({ length: DRAWS }, () =>
    valueOf(
      adjust(
        unknowns,
        slopes.map((row, k): Observation => ({
          name: `${k}`,
          depends: [0, 1],
          predict: (p) => [row.reduce((sum, by, i) => sum + by * (p[i] ?? NaN), 0)],
          values: [row.reduce((sum, by, i) => sum + by * (truth[i] ?? NaN), 0) + (u[k] ?? NaN) * normal()],
          uncertainty: [u[k] ?? NaN],
          derivative: () => [row],
        })),
      ),
    ),
  );
  const mean = (of: (fit: Adjustment) => number) => fits.reduce((sum, fit) => sum + of(fit), 0) / DRAWS;

  test('the mean of chi-squared is the degrees of freedom', () => {
    // Variance of chi-squared is twice its degrees of freedom.
    const limit = tolerance('least squares: mean chi-squared') * Math.sqrt(2 * 3);
    expect(Math.abs(mean(({ chiSquared }) => chiSquared) - 3)).toBeLessThan(limit);
  });

  test('the adjusted unknowns scatter about the truth as their covariance says', () => {
    const off = (fit: Adjustment, i: number) => (fit.unknowns[i] ?? NaN) - (truth[i] ?? NaN);
    const scatter = [0, 1].map((i) => [0, 1].map((j) => mean((fit) => off(fit, i) * off(fit, j))));
    const stated = fits[0]?.covariance.to2DArray() ?? [];
    expect(covarianceGap(scatter, stated)).toBeLessThan(tolerance('physics: Monte Carlo covariance'));
  });
});
