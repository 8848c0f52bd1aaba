import { describe, expect, it } from 'vitest';
import { adjust, prior } from '../../src/physics';
import type { Adjustment, Observation, Unknown } from '../../src/physics';
import { valueOf } from '../physics/given';
import { tolerance } from '../tolerances';
import { agreeWithPrint } from './published';

const unknown = (name: string, start: number, scale: number): Unknown => ({
  name,
  start,
  scale,
  negligible: scale * 1e-15,
});

/** Readings y at x of a curve linear in its coefficients: y = Σ coefficient · basis(x), each with standard uncertainty u. */
const linearFit = (
  basis: readonly ((x: number) => number)[],
  scales: readonly number[],
  x: readonly number[],
  y: readonly number[],
  u: number,
): Adjustment => {
  const depends = basis.map((_, i) => i);
  const observations = x.map((at, i): Observation => {
    const row = basis.map((of) => of(at));
    return {
      name: `reading ${i + 1}`,
      depends,
      predict: (p) => [row.reduce((sum, by, k) => sum + by * (p[k] ?? 0), 0)],
      values: [y[i] ?? NaN],
      uncertainty: [u],
      derivative: () => [row],
    };
  });
  return valueOf(
    adjust(
      scales.map((scale, i) => unknown(`b${i}`, 0, scale)),
      observations,
    ),
  );
};

/** Spread of the readings about the curve, where every reading was given the uncertainty u. */
const residualDeviation = ({ chiSquared, degreesOfFreedom }: Adjustment, u: number): number =>
  u * Math.sqrt(chiSquared / degreesOfFreedom);
/** Standard deviations as print has them: from the spread found, not from the u given. */
const deviation = (fit: Adjustment, i: number): number =>
  Math.sqrt((fit.covariance.get(i, i) * fit.chiSquared) / fit.degreesOfFreedom);

const one = () => 1;
const straight = (x: number) => x;

const GUM_H3 = 'JCGM 100:2008, H.3';
const thermometer = linearFit(
  [one, (t) => t - 20],
  [0.1, 0.001],
  [21.521, 22.012, 22.512, 23.003, 23.507, 23.999, 24.513, 25.002, 25.503, 26.01, 26.511],
  [-0.171, -0.169, -0.166, -0.159, -0.164, -0.165, -0.156, -0.157, -0.159, -0.161, -0.16],
  0.001,
);
const scatter = (i: number, j: number) =>
  (thermometer.covariance.get(i, j) * thermometer.chiSquared) / thermometer.degreesOfFreedom;

/**
 * A fit is settled when its step is a thousandth of its own uncertainty. Print has more digits than that: the same
 * weights as uncertainties this many times smaller settle only when the digits do, and change nothing else.
 */
const TINY_U = 1e-7;

const PEARSON = {
  x: [0, 0.9, 1.8, 2.6, 3.3, 4.4, 5.2, 6.1, 6.5, 7.4],
  y: [5.9, 5.4, 4.4, 4.6, 3.5, 3.7, 2.8, 2.8, 2.4, 1.5],
};
const YORK = {
  x: [1000, 1000, 500, 800, 200, 80, 60, 20, 1.8, 1],
  y: [1, 1.8, 4, 8, 20, 20, 70, 70, 100, 500],
};
const YORK_SOURCE = 'York, Can. J. Phys. 44 (1966) 1079; York et al., Am. J. Phys. 72 (2004) 367';
/** A line through points with errors in both coordinates: every true x is an unknown, its reading a prior. */
const bothErrors = valueOf(
  adjust(
    [
      unknown('intercept', 6, 1),
      unknown('slope', -0.5, 0.1),
      ...PEARSON.x.map((x, i) => unknown(`x${i}`, x, 1)),
    ],
    PEARSON.x.flatMap((x, i) => [
      prior(`x${i}`, 2 + i, x, TINY_U / Math.sqrt(YORK.x[i] ?? NaN)),
      {
        name: `y${i}`,
        depends: [0, 1, 2 + i],
        predict: (p: Float64Array) => [(p[0] ?? NaN) + (p[1] ?? NaN) * (p[2 + i] ?? NaN)],
        values: [PEARSON.y[i] ?? NaN],
        uncertainty: [TINY_U / Math.sqrt(YORK.y[i] ?? NaN)],
        derivative: (p: Float64Array) => [[1, p[2 + i] ?? NaN, p[1] ?? NaN]],
      },
    ]),
    { maxIterations: 200 },
  ),
);
const unweighted = linearFit([one, straight], [1, 0.1], PEARSON.x, PEARSON.y, 1);

describe('lines in print', () => {
  const h3 = { source: GUM_H3, status: 'seen + recomputed' } as const;
  const york = { source: YORK_SOURCE, status: 'seen + recomputed' } as const;
  agreeWithPrint([
    {
      id: 'O6',
      what: 'intercept',
      ...h3,
      ours: () => thermometer.unknowns[0] ?? NaN,
      printed: -0.1712,
      unit: '°C',
      lastDigit: 1e-4,
    },
    {
      id: 'O6',
      what: 'slope',
      ...h3,
      ours: () => thermometer.unknowns[1] ?? NaN,
      printed: 0.00218,
      unit: '1',
      lastDigit: 1e-5,
    },
    {
      id: 'O6',
      what: 'u of the intercept',
      ...h3,
      ours: () => deviation(thermometer, 0),
      printed: 0.0029,
      unit: '°C',
      lastDigit: 1e-4,
    },
    {
      id: 'O6',
      what: 'u of the slope',
      ...h3,
      ours: () => deviation(thermometer, 1),
      printed: 0.00067,
      unit: '1',
      lastDigit: 1e-5,
    },
    {
      id: 'O6',
      what: 'correlation',
      ...h3,
      ours: () => scatter(0, 1) / deviation(thermometer, 0) / deviation(thermometer, 1),
      printed: -0.93,
      unit: '1',
      lastDigit: 1e-3,
    },
    {
      id: 'O6',
      what: 's',
      ...h3,
      ours: () => residualDeviation(thermometer, 0.001),
      printed: 0.0035,
      unit: '°C',
      lastDigit: 1e-4,
    },
    {
      id: 'O6',
      what: 'correction at 30 °C',
      ...h3,
      ours: () => (thermometer.unknowns[0] ?? NaN) + 10 * (thermometer.unknowns[1] ?? NaN),
      printed: -0.1494,
      unit: '°C',
      lastDigit: 1e-4,
    },
    {
      id: 'O6',
      what: 'its u',
      ...h3,
      ours: () => Math.sqrt(scatter(0, 0) + 20 * scatter(0, 1) + 100 * scatter(1, 1)),
      printed: 0.0041,
      unit: '°C',
      lastDigit: 1e-4,
    },
    {
      id: 'P1a',
      what: 'intercept',
      ...york,
      ours: () => bothErrors.unknowns[0] ?? NaN,
      printed: 5.47991022403,
      unit: '1',
      lastDigit: 1e-11,
    },
    {
      id: 'P1a',
      what: 'slope',
      ...york,
      ours: () => bothErrors.unknowns[1] ?? NaN,
      printed: -0.480533407446,
      unit: '1',
      lastDigit: 1e-12,
    },
    {
      id: 'P1b',
      what: 'u of the intercept',
      ...york,
      ours: () => Math.sqrt(bothErrors.covariance.get(0, 0)) / TINY_U,
      printed: 0.294970735,
      unit: '1',
      lastDigit: 1e-9,
    },
    {
      id: 'P1b',
      what: 'u of the slope',
      ...york,
      ours: () => Math.sqrt(bothErrors.covariance.get(1, 1)) / TINY_U,
      printed: 0.057985009,
      unit: '1',
      lastDigit: 1e-10,
    },
    {
      id: 'P1c',
      what: 'chi-squared',
      ...york,
      ours: () => bothErrors.chiSquared * TINY_U ** 2,
      printed: 11.8663532,
      unit: '1',
      lastDigit: 1e-7,
    },
    {
      id: 'P1c',
      what: 'chi-squared per degree of freedom',
      ...york,
      ours: () => (bothErrors.chiSquared * TINY_U ** 2) / bothErrors.degreesOfFreedom,
      printed: 1.48329415,
      unit: '1',
      lastDigit: 1e-8,
    },
    {
      id: 'P1f',
      what: 'intercept, unweighted',
      ...york,
      ours: () => unweighted.unknowns[0] ?? NaN,
      printed: 5.76118519,
      unit: '1',
      lastDigit: 1e-8,
    },
    {
      id: 'P1f',
      what: 'slope, unweighted',
      ...york,
      ours: () => unweighted.unknowns[1] ?? NaN,
      printed: -0.53957727,
      unit: '1',
      lastDigit: 1e-8,
    },
  ]);
});

/** Certified coefficients and their standard deviations, and the residual standard deviation. */
interface Certified {
  readonly coefficients: readonly (readonly [value: number, deviation: number])[];
  readonly residual: number;
}

/**
 * Digits that agree: the log relative error, or the log absolute error where the certified number is zero. B. D.
 * McCullough, Am. Stat. 52 (1998) 358. Certified numbers have 15 digits, so more than 15 do not count.
 */
const digits = (ours: number, certified: number): number => {
  const error = certified === 0 ? Math.abs(ours) : Math.abs(ours - certified) / Math.abs(certified);
  return error === 0 ? 15 : Math.min(15, -Math.log10(error));
};

const NORRIS = {
  y: [
    0.1, 338.8, 118.1, 888.0, 9.2, 228.1, 668.5, 998.5, 449.1, 778.9, 559.2, 0.3, 0.1, 778.1, 668.8, 339.3,
    448.9, 10.8, 557.7, 228.3, 998.0, 888.8, 119.6, 0.3, 0.6, 557.6, 339.3, 888.0, 998.5, 778.9, 10.2, 117.6,
    228.9, 668.4, 449.2, 0.2,
  ],
  x: [
    0.2, 337.4, 118.2, 884.6, 10.1, 226.5, 666.3, 996.3, 448.6, 777.0, 558.2, 0.4, 0.6, 775.5, 666.9, 338.0,
    447.5, 11.6, 556.0, 228.1, 995.8, 887.6, 120.2, 0.3, 0.3, 556.8, 339.1, 887.2, 999.0, 779.0, 11.1, 118.3,
    229.2, 669.1, 448.9, 0.5,
  ],
};
const PONTIUS_RUN = Array.from({ length: 20 }, (_, i) => 150_000 * (i + 1));
const PONTIUS = {
  x: [...PONTIUS_RUN, ...PONTIUS_RUN],
  y: [
    0.11019, 0.21956, 0.32949, 0.43899, 0.54803, 0.65694, 0.76562, 0.87487, 0.98292, 1.09146, 1.20001,
    1.30822, 1.41599, 1.52399, 1.63194, 1.73947, 1.84646, 1.95392, 2.06128, 2.16844, 0.11052, 0.22018,
    0.32939, 0.43886, 0.54798, 0.65739, 0.76596, 0.87474, 0.983, 1.0915, 1.20004, 1.30818, 1.41613, 1.52408,
    1.63159, 1.73965, 1.84696, 1.95445, 2.06177, 2.16829,
  ],
};
const MISRA = {
  x: [77.6, 114.9, 141.1, 190.8, 239.9, 289, 332.8, 378.4, 434.8, 477.3, 536.8, 593.1, 689.1, 760],
  y: [10.07, 14.73, 17.94, 23.93, 29.61, 35.18, 40.02, 44.82, 50.76, 55.05, 61.01, 66.4, 75.47, 81.78],
};
const misra = (start: readonly [number, number]) =>
  valueOf(
    adjust(
      [unknown('b1', start[0], 100), unknown('b2', start[1], 1e-4)],
      MISRA.x.map((x, i) => ({
        name: `reading ${i + 1}`,
        depends: [0, 1],
        predict: (p: Float64Array) => [(p[0] ?? NaN) * (1 - Math.exp(-(p[1] ?? NaN) * x))],
        values: [MISRA.y[i] ?? NaN],
        uncertainty: [TINY_U],
      })),
      { maxIterations: 200 },
    ),
  );

/** J. W. Longley, J. Am. Stat. Assoc. 62 (1967) 819, as tabulated by NIST; seen in a copy in a public Java library's tests. */
const LONGLEY: readonly (readonly number[])[] = [
  [60323, 83.0, 234289, 2356, 1590, 107608, 1947],
  [61122, 88.5, 259426, 2325, 1456, 108632, 1948],
  [60171, 88.2, 258054, 3682, 1616, 109773, 1949],
  [61187, 89.5, 284599, 3351, 1650, 110929, 1950],
  [63221, 96.2, 328975, 2099, 3099, 112075, 1951],
  [63639, 98.1, 346999, 1932, 3594, 113270, 1952],
  [64989, 99.0, 365385, 1870, 3547, 115094, 1953],
  [63761, 100.0, 363112, 3578, 3350, 116219, 1954],
  [66019, 101.2, 397469, 2904, 3048, 117388, 1955],
  [67857, 104.6, 419180, 2822, 2857, 118734, 1956],
  [68169, 108.4, 442769, 2936, 2798, 120445, 1957],
  [66513, 110.8, 444546, 4681, 2637, 121950, 1958],
  [68655, 112.6, 482704, 3813, 2552, 123366, 1959],
  [69564, 114.2, 502601, 3931, 2514, 125368, 1960],
  [69331, 115.7, 518173, 4806, 2572, 127852, 1961],
  [70551, 116.9, 554894, 4007, 2827, 130081, 1962],
];
const POWERS = [0, 1, 2, 3, 4, 5] as const;
const WAMPLER_X = Array.from({ length: 21 }, (_, i) => i);
const wampler = (x: number) => POWERS.reduce<number>((sum, power) => sum + x ** power, 0);

/** Columns are scaled to a like size. */
const longley = () =>
  linearFit(
    [one, ...Array.from({ length: 6 }, (_, k) => (row: number) => LONGLEY[row]?.[k + 1] ?? NaN)],
    [1, 1e-2, 1e-5, 1e-3, 1e-3, 1e-5, 1e-3],
    LONGLEY.map((_, row) => row),
    LONGLEY.map(([y = NaN]) => y),
    1,
  );

const NINE = 'published: digits of straight lines and parabolas';
const SEVEN = 'published: digits of nearly dependent columns';

interface StrdCase {
  readonly name: string;
  readonly fit: () => Adjustment;
  /** Uncertainty that every reading was given. */
  readonly u: number;
  readonly certified: Certified;
  /** Row of the tolerance table: fewest digits that agree. */
  readonly digits: typeof NINE | typeof SEVEN | 'published: digits of an exponential';
}

/**
 * National Institute of Standards and Technology, Statistical Reference Datasets. Data and certified values seen in
 * copies (public libraries' tests); that the certified values come out proves the data.
 */
const CERTIFIED: readonly StrdCase[] = [
  {
    name: 'Norris, a line',
    fit: () => linearFit([one, straight], [1, 1], NORRIS.x, NORRIS.y, 1),
    u: 1,
    certified: {
      coefficients: [
        [-0.262323073774029, 0.232818234301152],
        [1.00211681802045, 0.000429796848199937],
      ],
      residual: 0.884796396144373,
    },
    digits: NINE,
  },
  {
    name: 'NoInt1, a line through the origin',
    fit: () =>
      linearFit(
        [straight],
        [1],
        Array.from({ length: 11 }, (_, i) => 60 + i),
        Array.from({ length: 11 }, (_, i) => 130 + i),
        1,
      ),
    u: 1,
    certified: { coefficients: [[2.07438016528926, 0.0165289256198347]], residual: 3.56753034006338 },
    digits: NINE,
  },
  {
    name: 'NoInt2, a line through the origin',
    fit: () => linearFit([straight], [1], [4, 5, 6], [3, 4, 4], 1),
    u: 1,
    certified: { coefficients: [[0.727272727272727, 0.0420827318078432]], residual: 0.369274472937998 },
    digits: NINE,
  },
  {
    name: 'Pontius, a parabola',
    fit: () => linearFit([one, straight, (x) => x * x], [1e-3, 1e-6, 1e-14], PONTIUS.x, PONTIUS.y, 1e-4),
    u: 1e-4,
    certified: {
      coefficients: [
        [0.673565789473684e-3, 0.107938612033077e-3],
        [0.732059160401003e-6, 0.157817399981659e-9],
        [-0.316081871345029e-14, 0.486652849992036e-16],
      ],
      residual: 0.205177424076185e-3,
    },
    digits: NINE,
  },
  {
    name: 'Wampler1, a quintic without scatter',
    fit: () =>
      linearFit(
        POWERS.map((power) => (x: number) => x ** power),
        POWERS.map((power) => 20 ** -power),
        WAMPLER_X,
        WAMPLER_X.map(wampler),
        1,
      ),
    u: 1,
    certified: { coefficients: POWERS.map(() => [1, 0] as const), residual: 0 },
    digits: SEVEN,
  },
  {
    name: 'Longley, six columns nearly dependent',
    fit: longley,
    u: 1,
    certified: {
      coefficients: [
        [-3482258.63459582, 890420.383607373],
        [15.0618722713733, 84.9149257747669],
        [-0.035819179292591, 0.0334910077722432],
        [-2.02022980381683, 0.488399681651699],
        [-1.03322686717359, 0.214274163161675],
        [-0.0511041056535807, 0.22607320006937],
        [1829.15146461355, 455.478499142212],
      ],
      residual: 304.854073561965,
    },
    digits: SEVEN,
  },
  ...(
    [
      [500, 0.0001],
      [250, 0.0005],
    ] as const
  ).map((start): StrdCase => ({
    name: `Misra1a, an exponential, from (${start.join(', ')})`,
    fit: () => misra(start),
    u: TINY_U,
    certified: {
      coefficients: [
        [2.3894212918e2, 2.7070075241],
        [5.5015643181e-4, 7.2668688436e-6],
      ],
      residual: 1.018787633e-1,
    },
    digits: 'published: digits of an exponential',
  })),
];

describe('certified fits (NIST Statistical Reference Datasets)', () => {
  it.each(CERTIFIED)('$name', ({ fit, u, certified, digits: row }) => {
    const fitted = fit();
    const agree = (ours: number, value: number, what: string) =>
      expect(digits(ours, value), `${what}: ${ours}, certified ${value}`).toBeGreaterThanOrEqual(
        tolerance(row),
      );
    certified.coefficients.forEach(([value, sd], i) => {
      agree(fitted.unknowns[i] ?? NaN, value, `coefficient ${i}`);
      agree(deviation(fitted, i), sd, `its deviation ${i}`);
    });
    agree(residualDeviation(fitted, u), certified.residual, 'residual deviation');
  });

  it('counts digits', () => {
    expect(digits(1.001, 1)).toBeCloseTo(3, 6);
    expect(digits(-99, -100)).toBeCloseTo(2, 6);
    expect(digits(1e-9, 0)).toBeCloseTo(9, 6);
    expect(digits(2, 2)).toBe(15);
  });
});
