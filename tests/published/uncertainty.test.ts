import { describe, expect, test } from 'vitest';
import {
  adjust,
  COVERAGE,
  distributionOf,
  firstOrder,
  independent,
  monteCarloOfAdjustment,
  prior,
  standardErrors,
  validateFirstOrder,
} from '../../src/physics';
import type {
  Distribution,
  ErrorLaw,
  IntervalKind,
  Observation,
  Propagated,
  Validation,
} from '../../src/physics';
import { seeded, valueOf } from '../physics/given';
import { agreeWithPrint } from './published';
import type { PublishedValue } from './published';

/**
 * Examples of the guides, by first order and by Monte Carlo. The guides themselves were not readable here: numbers were
 * seen in copies (documentation of public libraries and of a calculator's worked examples) and recomputed.
 */

/** An input as published: estimate, standard uncertainty, law of its error. */
interface Input {
  readonly value: number;
  readonly u: number;
  readonly law: ErrorLaw;
}
const normal = (value: number, u: number): Input => ({ value, u, law: 'normal' });
const limits = (low: number, high: number): Input => ({
  value: (low + high) / 2,
  u: (high - low) / 2 / Math.sqrt(3),
  law: 'rectangular',
});

/** A published example both ways. */
interface Example {
  readonly firstOrder: Propagated;
  /** Draws of each result, and what they say. */
  readonly draws: readonly Float64Array[];
  readonly drawn: readonly (() => Distribution)[];
}

const once = <Value>(make: () => Value): (() => Value) => {
  let held: Value | null = null;
  return () => (held ??= make());
};

/**
 * Inputs as the readings of an adjustment that has nothing to adjust: each unknown is read once. So the draws go through
 * the same solver as those of a truck.
 */
function example(
  of: (inputs: readonly number[]) => readonly number[],
  inputs: readonly Input[],
  draws: number,
  covariance: readonly (readonly number[])[] = independent(inputs.map(({ u }) => u)),
): Example {
  const values = inputs.map(({ value }) => value);
  const correlated = covariance.some((row, i) => row.some((entry, j) => i !== j && entry !== 0));
  const depends = inputs.map((_, i) => i);
  const together: Observation = {
    name: 'readings',
    depends,
    predict: (p) => [...p],
    values,
    uncertainty: covariance,
    derivative: () => depends.map((i) => depends.map((j) => (i === j ? 1 : 0))),
  };
  const observations = correlated
    ? [together]
    : inputs.map(({ value, u }, i) => prior(`input ${i + 1}`, i, value, u));
  const laws = correlated ? [inputs.map(({ law }) => law)] : inputs.map(({ law }) => [law]);
  const unknowns = inputs.map(({ value, u }, i) => ({
    name: `input ${i + 1}`,
    start: value,
    scale: u,
    negligible: u * 1e-9,
  }));
  const run = monteCarloOfAdjustment({
    unknowns,
    observations,
    laws,
    solution: valueOf(adjust(unknowns, observations)),
    uniform: seeded(101),
    results: (p) => of([...p]),
  });
  run.draw(draws);
  expect(run.failed()).toBe(0);
  const first = firstOrder(of, values, covariance);
  const drawn = first.values.map((_, i) => run.draws(i));
  return {
    firstOrder: first,
    draws: drawn,
    drawn: drawn.map((each) => once(() => distributionOf(each))),
  };
}

/** First-order u of a result. */
const uOf = ({ firstOrder: { covariance } }: Example, i = 0): number => Math.sqrt(covariance[i]?.[i] ?? NaN);
const correlationOf = (e: Example, i: number, j: number): number =>
  (e.firstOrder.covariance[i]?.[j] ?? NaN) / (uOf(e, i) * uOf(e, j));
const drawsOf = ({ draws }: Example, i = 0): Float64Array => draws[i] ?? new Float64Array(0);
const drawnOf = ({ drawn }: Example, i = 0): Distribution =>
  drawn[i]?.() ?? distributionOf(new Float64Array(0));
const judged = (e: Example, significantDigits: number, kind: IntervalKind = 'symmetric'): Validation =>
  validateFirstOrder({ value: e.firstOrder.values[0] ?? NaN, u: uOf(e) }, drawsOf(e), {
    significantDigits,
    kind,
  });

/** Standard error of the drawn u: of the mean squared deviation, halved by the root. */
const errorOfU = (e: Example, i = 0): number => {
  const { mean, u } = drawnOf(e, i);
  const squares = Float64Array.from(drawsOf(e, i), (y) => (y - mean) ** 2);
  return distributionOf(squares).u / Math.sqrt(squares.length) / (2 * u);
};
const errorOfMean = (e: Example, i = 0): number => drawnOf(e, i).u / Math.sqrt(drawsOf(e, i).length);
const errorOfEnd = (e: Example, end: 'low' | 'high', kind: IntervalKind = 'symmetric'): number =>
  standardErrors(drawsOf(e), 0.95, kind)?.[end] ?? NaN;

/** Welch and Satterthwaite, JCGM 100:2008, G.4.1. */
const effectiveDegrees = (u: number, parts: readonly (readonly [u: number, degrees: number])[]): number =>
  u ** 4 / parts.reduce((sum, [part, degrees]) => sum + part ** 4 / degrees, 0);

type Row = Omit<PublishedValue, 'source' | 'status'>;

describe('JCGM 100:2008, H.1: an end gauge compared with a standard', () => {
  const source = 'JCGM 100:2008, H.1';
  /** Standard's length and difference (nm), expansion (1/K), temperature (K), differences of both. */
  const gauge = once(() =>
    example(
      ([ls = NaN, d = NaN, as = NaN, th = NaN, da = NaN, dth = NaN]) => [ls + d - ls * (da * th + as * dth)],
      [
        normal(50_000_623, 25),
        normal(215, 9.7),
        limits(9.5e-6, 13.5e-6),
        normal(-0.1, 0.41),
        limits(-1e-6, 1e-6),
        limits(-0.05, 0.05),
      ],
      200_000,
    ),
  );
  const contribution = (i: number): number => {
    const own = Math.sqrt(
      [
        25 ** 2,
        9.7 ** 2,
        (2e-6 / Math.sqrt(3)) ** 2,
        0.41 ** 2,
        (1e-6 / Math.sqrt(3)) ** 2,
        (0.05 / Math.sqrt(3)) ** 2,
      ][i] ?? NaN,
    );
    return Math.abs(gauge().firstOrder.jacobian[0]?.[i] ?? NaN) * own;
  };
  const difference = once(() =>
    firstOrder(([a = NaN, b = NaN, c = NaN]) => [a + b + c], [215, 0, 0], independent([5.8, 3.9, 6.7])),
  );
  const seen = (row: Row): PublishedValue => ({ ...row, source, status: 'seen + recomputed' });
  const nm = { unit: 'nm', lastDigit: 1 } as const;
  agreeWithPrint([
    seen({
      id: 'O1',
      what: 'length',
      ours: () => gauge().firstOrder.values[0] ?? NaN,
      printed: 50_000_838,
      ...nm,
    }),
    seen({ id: 'O1', what: 'u', ours: () => uOf(gauge()), printed: 32, ...nm }),
    ...[25, 9.7, 0, 0, 2.9, 16.6].map((printed, i) =>
      seen({
        id: 'O1',
        what: `contribution of input ${i + 1}`,
        ours: () => contribution(i),
        printed,
        unit: 'nm',
        lastDigit: 0.1,
      }),
    ),
    seen({
      id: 'O1',
      what: 'effective degrees of freedom, cut to a whole number',
      ours: () =>
        Math.floor(
          effectiveDegrees(uOf(gauge()), [
            [contribution(0), 18],
            [contribution(1), 25.6],
            [contribution(4), 50],
            [contribution(5), 2],
          ]),
        ),
      printed: 16,
      unit: '1',
      lastDigit: 1,
    }),
    seen({
      id: 'O1',
      what: 'U for 99 % with k = 2.92', // Print multiplies u as rounded.
      ours: () => 2.92 * Math.round(uOf(gauge())),
      printed: 93,
      ...nm,
    }),
    seen({
      id: 'O2',
      what: 'u of the difference',
      ours: () => Math.sqrt(difference().covariance[0]?.[0] ?? NaN),
      printed: 9.7,
      unit: 'nm',
      lastDigit: 0.1,
    }),
    seen({
      id: 'O2',
      what: 'its degrees of freedom',
      ours: () =>
        effectiveDegrees(9.7, [
          [5.8, 24],
          [3.9, 5],
          [6.7, 8],
        ]),
      printed: 25.6,
      unit: '1',
      lastDigit: 0.1,
    }),
    seen({
      id: 'O3',
      what: 'u with second-order terms, drawn',
      ours: () => drawnOf(gauge()).u,
      drawn: () => errorOfU(gauge()),
      printed: 34,
      ...nm,
    }),
    seen({
      id: 'O1',
      what: 'length, drawn',
      ours: () => drawnOf(gauge()).mean,
      drawn: () => errorOfMean(gauge()),
      printed: 50_000_838,
      ...nm,
    }),
  ]);
  test('first order leaves out what the products of zero expectations add', () =>
    expect(judged(gauge(), 2).verdict).toBe('not validated'));
});

describe('JCGM 100:2008, H.2: resistance, reactance and impedance from five simultaneous readings', () => {
  const columns = [
    [5.007, 4.994, 5.005, 4.99, 4.999],
    [19.663e-3, 19.639e-3, 19.64e-3, 19.685e-3, 19.678e-3],
    [1.0456, 1.0438, 1.0468, 1.0428, 1.0433],
  ];
  const mean = (values: readonly number[]) => values.reduce((sum, value) => sum + value, 0) / values.length;
  const covariance = columns.map((a) =>
    columns.map(
      (b) => a.reduce((sum, value, k) => sum + (value - mean(a)) * ((b[k] ?? NaN) - mean(b)), 0) / 20,
    ),
  );
  const inputs = columns.map((column, i) => normal(mean(column), Math.sqrt(covariance[i]?.[i] ?? NaN)));
  const circuit = once(() =>
    example(
      ([v = NaN, i = NaN, phi = NaN]) => [(v / i) * Math.cos(phi), (v / i) * Math.sin(phi), v / i],
      inputs,
      200_000,
      covariance,
    ),
  );
  const seen = (row: Row): PublishedValue => ({
    ...row,
    source: 'JCGM 100:2008, H.2',
    status: 'seen + recomputed',
  });
  const inputCorrelation = (i: number, j: number) =>
    (covariance[i]?.[j] ?? NaN) / ((inputs[i]?.u ?? NaN) * (inputs[j]?.u ?? NaN));
  agreeWithPrint([
    ...(
      [
        ['voltage', 0, 4.999, 0.0032, 1],
        ['current', 1, 19.661, 0.0095, 1e3],
        ['phase', 2, 1.04446, 0.00075, 1],
      ] as const
    ).flatMap(([what, i, value, u, per]) => [
      seen({
        id: 'O4',
        what,
        ours: () => per * (inputs[i]?.value ?? NaN),
        printed: value,
        unit: 'V, mA, rad',
        lastDigit: 1e-5,
      }),
      seen({
        id: 'O4',
        what: `u of the ${what}`,
        ours: () => per * (inputs[i]?.u ?? NaN),
        printed: u,
        unit: 'V, mA, rad',
        lastDigit: i === 2 ? 1e-5 : 1e-4,
      }),
    ]),
    ...(
      [
        [0, 1, -0.36],
        [0, 2, 0.86],
        [1, 2, -0.65],
      ] as const
    ).map(([i, j, printed]) =>
      seen({
        id: 'O4',
        what: `correlation of inputs ${i + 1} and ${j + 1}`,
        ours: () => inputCorrelation(i, j),
        printed,
        unit: '1',
        lastDigit: 0.01,
      }),
    ),
    ...(
      [
        ['resistance', 0, 127.732, 0.071],
        // Print has 0.295 from correlations rounded to two digits; unrounded 0.2956, a whole last digit.
        ['reactance', 1, 219.847, 0.295],
        ['impedance', 2, 254.26, 0.236],
      ] as const
    ).flatMap(([what, i, value, u]) => [
      seen({
        id: 'O5',
        what,
        ours: () => circuit().firstOrder.values[i] ?? NaN,
        printed: value,
        unit: 'Ω',
        lastDigit: 1e-3,
      }),
      seen({
        id: 'O5',
        what: `u of the ${what}`,
        ours: () => uOf(circuit(), i),
        printed: u,
        unit: 'Ω',
        lastDigit: i === 1 ? 2e-3 : 1e-3,
      }),
      seen({
        id: 'O5',
        what: `${what}, drawn`,
        ours: () => drawnOf(circuit(), i).mean,
        drawn: () => errorOfMean(circuit(), i),
        printed: value,
        unit: 'Ω',
        lastDigit: 1e-3,
      }),
      seen({
        id: 'O5',
        what: `u of the ${what}, drawn`,
        ours: () => drawnOf(circuit(), i).u,
        drawn: () => errorOfU(circuit(), i),
        printed: u,
        unit: 'Ω',
        lastDigit: i === 1 ? 2e-3 : 1e-3,
      }),
    ]),
    ...(
      [
        ['resistance and reactance', 0, 1, -0.588],
        ['resistance and impedance', 0, 2, -0.485],
        ['reactance and impedance', 1, 2, 0.993],
      ] as const
    ).map(([what, i, j, printed]) =>
      seen({
        id: 'O5',
        what: `correlation of ${what}`,
        ours: () => correlationOf(circuit(), i, j),
        printed,
        unit: '1',
        lastDigit: 1e-3,
      }),
    ),
  ]);
  test('first order may stand', () => expect(judged(circuit(), 1).verdict).toBe('validated'));
});

describe('JCGM 101:2008, 9.2: a sum of four', () => {
  const sum = (inputs: readonly number[]) => [inputs.reduce((total, x) => total + x, 0)];
  const one = limits(-Math.sqrt(3), Math.sqrt(3));
  const normals = once(() =>
    example(
      sum,
      Array.from({ length: 4 }, () => normal(0, 1)),
      200_000,
    ),
  );
  const rectangular = once(() => example(sum, [one, one, one, one], 1_000_000));
  const dominated = once(() =>
    example(sum, [one, one, one, limits(-10 * Math.sqrt(3), 10 * Math.sqrt(3))], 200_000),
  );
  const seen = (row: Omit<Row, 'unit'>): PublishedValue => ({
    ...row,
    unit: '1',
    source: 'JCGM 101:2008, 9.2',
    status: 'seen + recomputed',
  });
  const both = (
    id: string,
    what: string,
    of: () => Example,
    {
      u,
      first,
      drawn,
    }: {
      readonly u: readonly [number, number];
      readonly first: readonly [number, number];
      readonly drawn: readonly [number, number];
    },
  ): PublishedValue[] => [
    seen({ id, what: `${what}: u by first order`, ours: () => uOf(of()), printed: u[0], lastDigit: u[1] }),
    seen({
      id,
      what: `${what}: u, drawn`,
      ours: () => drawnOf(of()).u,
      drawn: () => errorOfU(of()),
      printed: u[0],
      lastDigit: u[1],
    }),
    seen({
      id,
      what: `${what}: half of the 95 % interval by first order`,
      ours: () => COVERAGE * uOf(of()),
      printed: first[0],
      lastDigit: first[1],
    }),
    ...(['low', 'high'] as const).map((end) =>
      seen({
        id,
        what: `${what}: ${end} end of the 95 % interval, drawn`,
        ours: () => drawnOf(of()).symmetric[end],
        drawn: () => errorOfEnd(of(), end),
        printed: end === 'low' ? -drawn[0] : drawn[0],
        lastDigit: drawn[1],
      }),
    ),
  ];
  agreeWithPrint([
    ...both('O7', 'normal', normals, { u: [2, 0.01], first: [3.92, 0.01], drawn: [3.92, 0.01] }),
    ...both('O8', 'rectangular', rectangular, { u: [2, 0.01], first: [3.92, 0.01], drawn: [3.88, 0.01] }),
    ...both('O9', 'one dominant', dominated, { u: [10.1, 0.1], first: [19.9, 0.1], drawn: [17, 0.1] }),
  ]);
  test('in closed form, annex E', () => {
    const exact = 2 * Math.sqrt(3) * (2 - 0.6 ** 0.25);
    const { low, high } = drawnOf(rectangular()).symmetric;
    expect(Math.abs(high - exact)).toBeLessThan(4 * errorOfEnd(rectangular(), 'high'));
    expect(Math.abs(low + exact)).toBeLessThan(4 * errorOfEnd(rectangular(), 'low'));
  });
  test.each([
    { what: 'normal', of: normals, significantDigits: 2, verdict: 'validated' },
    // 3.92 − 3.88 is within 0.05 and not within 0.005.
    { what: 'rectangular, two digits', of: rectangular, significantDigits: 2, verdict: 'validated' },
    { what: 'rectangular, three digits', of: rectangular, significantDigits: 3, verdict: 'not validated' },
    { what: 'one dominant', of: dominated, significantDigits: 2, verdict: 'not validated' },
    { what: 'one dominant, one digit', of: dominated, significantDigits: 1, verdict: 'validated' },
  ])('$what: $verdict', ({ of, significantDigits, verdict }) =>
    expect(judged(of(), significantDigits).verdict).toBe(verdict),
  );
});

describe('JCGM 101:2008, 9.3: calibration of a weight in air', () => {
  const weight = once(() =>
    example(
      ([mR = NaN, d = NaN, air = NaN, w = NaN, r = NaN]) => [
        (mR + d) * (1 + (air - 1.2) * (1 / w - 1 / r)) - 100_000,
      ],
      [normal(100_000, 0.05), normal(1.234, 0.02), limits(1.1, 1.3), limits(7000, 9000), limits(7950, 8050)],
      200_000,
    ),
  );
  const seen = (row: Omit<Row, 'unit' | 'id'>): PublishedValue => ({
    ...row,
    id: 'O10',
    unit: 'mg',
    source: 'JCGM 101:2008, 9.3',
    status: 'seen + recomputed',
  });
  agreeWithPrint([
    seen({
      what: 'estimate',
      ours: () => weight().firstOrder.values[0] ?? NaN,
      printed: 1.234,
      lastDigit: 1e-3,
    }),
    seen({ what: 'u by first order', ours: () => uOf(weight()), printed: 0.0539, lastDigit: 1e-4 }),
    seen({
      what: 'estimate, drawn',
      ours: () => drawnOf(weight()).mean,
      drawn: () => errorOfMean(weight()),
      printed: 1.234,
      lastDigit: 1e-3,
    }),
    seen({
      what: 'u, drawn',
      ours: () => drawnOf(weight()).u,
      drawn: () => errorOfU(weight()),
      printed: 0.0754,
      lastDigit: 1e-4,
    }),
  ]);
  test('first order will not do: it does not see the densities', () => {
    expect(
      weight()
        .firstOrder.jacobian[0]?.slice(2)
        .every((slope) => Math.abs(slope) < 1e-3),
    ).toBe(true);
    expect(judged(weight(), 1).verdict).toBe('not validated');
  });
});

describe('JCGM 101:2008, 9.4: a sum of two squares near zero', () => {
  const squares = ([a = NaN, b = NaN]: readonly number[]) => [a * a + b * b];
  const u = 0.005;
  const at = (x: number, r = 0) =>
    example(squares, [normal(x, u), normal(0, u)], 200_000, [
      [u * u, r * u * u],
      [r * u * u, u * u],
    ]);
  const zero = once(() => at(0));
  const away = once(() => at(0.01));
  const correlated = once(() => at(0.01, 0.9));
  const seen = (row: Omit<Row, 'unit' | 'id' | 'lastDigit'>): PublishedValue => ({
    ...row,
    id: 'O11',
    unit: '1e-6',
    lastDigit: 1,
    source: 'JCGM 101:2008, 9.4',
    status: 'seen + recomputed',
  });
  agreeWithPrint([
    seen({ what: 'at 0: u by first order', ours: () => 1e6 * uOf(zero()), printed: 0 }),
    seen({
      what: 'at 0: mean, drawn',
      ours: () => 1e6 * drawnOf(zero()).mean,
      drawn: () => 1e6 * errorOfMean(zero()),
      printed: 50,
    }),
    seen({
      what: 'at 0: u, drawn',
      ours: () => 1e6 * drawnOf(zero()).u,
      drawn: () => 1e6 * errorOfU(zero()),
      printed: 50,
    }),
    seen({
      what: 'at 0: low end of the shortest interval, drawn',
      ours: () => 1e6 * drawnOf(zero()).shortest.low,
      printed: 0,
    }),
    seen({
      what: 'at 0: high end of the shortest interval, drawn',
      ours: () => 1e6 * drawnOf(zero()).shortest.high,
      drawn: () => 1e6 * errorOfEnd(zero(), 'high', 'shortest'),
      printed: 150,
    }),
    seen({ what: 'at 0.010: u by first order', ours: () => 1e6 * uOf(away()), printed: 100 }),
    seen({
      what: 'at 0.010: u, drawn',
      ours: () => 1e6 * drawnOf(away()).u,
      drawn: () => 1e6 * errorOfU(away()),
      printed: 112,
    }),
    seen({
      what: 'at 0.010, correlation 0.9: u by first order',
      ours: () => 1e6 * uOf(correlated()),
      printed: 100,
    }),
    seen({
      what: 'at 0.010, correlation 0.9: u, drawn',
      ours: () => 1e6 * drawnOf(correlated()).u,
      drawn: () => 1e6 * errorOfU(correlated()),
      printed: 121,
    }),
  ]);
  test.each([
    ['at 0', zero],
    ['at 0.010', away],
    ['at 0.010, correlation 0.9', correlated],
  ])('%s: first order will not do', (_, of) => {
    expect(judged(of(), 1).verdict).toBe('not validated');
    expect(judged(of(), 1, 'shortest').verdict).toBe('not validated');
  });
});
