import { inv, multiply, transpose } from 'mathjs';
import { describe, expect, test } from 'vitest';
import {
  type Measured,
  type PictureLinesReading,
  type SharedValue,
  type TruckBench,
  type TruckReading,
  adjustTruck,
  degrees,
  kilograms,
  meters,
  monteCarlo,
  radians,
} from '../../../src/physics';
import { tolerance } from '../../tolerances';
import { covarianceGap, reasonOf, seeded, valueOf } from '../given';

/**
 * One hook, hung by twice: once before a camera, once with a level on the truck. What is wrong with its place is wrong
 * in both lines alike. A balance tells where the CG lies fore and aft, by the same ruler.
 */
const CG = { x: 0.14, z: 0.08 };
const HOOK = { x: 0.3, z: 0.17 };
const U = { ruler: 0.00015, hook: 0.0012, picture: degrees(0.15), level: degrees(0.2), balance: 0.004 };
const DIRECTION = Math.atan2(CG.z - HOOK.z, CG.x - HOOK.x);
const NORMAL = [-Math.sin(DIRECTION), Math.cos(DIRECTION)] as const;

const long = (value: number, u: number): Measured<ReturnType<typeof meters>> => ({ value: meters(value), u });

/** Everything read, in one order: ruler zero, hook ahead, hook height, string in the picture, level, balance. */
const read = [0, HOOK.x, HOOK.z, DIRECTION, 0, CG.x];
const uncertainties = [U.ruler, U.hook, U.hook, U.picture, U.level, U.balance];
const independentReadings = uncertainties.map((u, i) => uncertainties.map((_, j) => (i === j ? u * u : 0)));

/** What a fit of the picture makes of its readings: angle and offset of the line, then what it shares. */
const SHARED = ['ruler zero', 'x', 'z'] as const;
const byReadings = [
  [0, 0, 0, 1, 0, 0],
  [-NORMAL[0] - NORMAL[1], NORMAL[0], NORMAL[1], 0, 0, 0],
  [1, 0, 0, 0, 0, 0],
  [-1, 1, 0, 0, 0, 0],
  [-1, 0, 1, 0, 0, 0],
];
/** A string tied anew bears a hundredth of a millimeter from where it bore before, so that all can be inverted. */
const SEAT = 1e-5;
const half: number[][] = multiply(byReadings, independentReadings);
const carried: number[][] = multiply(half, transpose(byReadings));
const covariance = carried.map((row, i) =>
  row.map((value, j) => (i === 1 && j === 1 ? value + SEAT ** 2 : value)),
);

/** The bench that the readings make, sharing the hook or keeping it from the readings by hand. */
function benchOf(values: readonly number[], sharing: boolean): TruckBench {
  const [zero = NaN, ahead = NaN, height = NaN, direction = NaN, level = NaN, balance = NaN] = values;
  const place = { x: meters(ahead - zero), z: meters(height - zero) };
  const shared: readonly SharedValue[] = SHARED.map((name): SharedValue =>
    name === 'ruler zero'
      ? { quantity: name, value: zero }
      : { quantity: 'hook', hook: 'bumper', axis: name, value: place[name] },
  ).slice(0, sharing ? 3 : 1);
  const size = 2 + shared.length;
  const picture: PictureLinesReading = {
    kind: 'picture lines',
    id: 'pictures',
    lines: [{ id: 'hang-1', view: 'side', line: { angle: radians(direction), through: place } }],
    shared,
    covariance: covariance.slice(0, size).map((row) => row.slice(0, size)),
  };
  // Nose below level: the string's direction from straight down.
  const slope = Math.atan2(CG.x - HOOK.x, HOOK.z - CG.z) + level;
  const readings: readonly TruckReading[] = [
    picture,
    {
      kind: 'hang',
      id: 'hang-2',
      view: 'side',
      hook: 'bumper',
      string: { by: 'angle', angle: { value: radians(slope), u: U.level } },
    },
    { kind: 'balance', id: 'edge', edge: 'across', place: long(balance, U.balance) },
  ];
  return {
    dimensions: {},
    lateral: long(0, 0.005),
    instruments: {
      scaleZero: { value: kilograms(0), u: 0.0005 },
      rulerZero: long(0, U.ruler),
      levelZero: { value: radians(0), u: 1e-7 },
    },
    hooks: [
      {
        id: 'bumper',
        carrier: 'body',
        x: long(ahead, U.hook),
        y: long(0, 0.001),
        z: long(height, U.hook),
      },
    ],
    readings,
  };
}

const placeOf = (bench: TruckBench) => {
  const { cg, stanceCovariance } = valueOf(adjustTruck(bench));
  return {
    place: [cg.x?.value ?? NaN, cg.z?.value ?? NaN],
    covariance: [0, 2].map((i) => [0, 2].map((j) => stanceCovariance[i]?.[j] ?? NaN)),
  };
};

/** Covariance of CG x and z by least squares on the readings as they were made, every one counted once. */
function inFull(): number[][] {
  const arm = Math.hypot(CG.x - HOOK.x, CG.z - HOOK.z);
  const turn = NORMAL.map((n) => n / arm);
  const [tx = NaN, tz = NaN] = turn;
  // Unknown: CG x, z, hook x, z, ruler zero.
  const slopes = [
    [0, 0, 0, 0, 1],
    [0, 0, 1, 0, 1],
    [0, 0, 0, 1, 1],
    [tx, tz, -tx, -tz, 0],
    [tx, tz, -tx, -tz, 0],
    [1, 0, 0, 0, 1],
  ];
  const weights = uncertainties.map((u, i) => uncertainties.map((_, j) => (i === j ? 1 / (u * u) : 0)));
  const half: number[][] = multiply(transpose(slopes), weights);
  const information: number[][] = multiply(half, slopes);
  const all = inv(information);
  return all.slice(0, 2).map((row) => row.slice(0, 2));
}

const acrossLine = (spread: readonly (readonly number[])[]): number =>
  Math.sqrt(
    NORMAL.reduce((sum, a, i) => sum + NORMAL.reduce((s, b, j) => s + a * b * (spread[i]?.[j] ?? NaN), 0), 0),
  );

describe('one hook in a picture and by hand', () => {
  const joint = placeOf(benchOf(read, true));

  test('has the covariance of all its readings adjusted at once', () => {
    expect(covarianceGap(joint.covariance, inFull())).toBeLessThan(tolerance('shared hook: covariance'));
  });

  test('has the covariance that draws of its readings have', () => {
    const drawn = monteCarlo(
      (values) => placeOf(benchOf(values, true)).place,
      read,
      independentReadings,
      4000,
      seeded(31),
    );
    // Four standard errors over 4,000 draws are 2.2 times those over 20,000.
    expect(covarianceGap(drawn.covariance, joint.covariance)).toBeLessThan(
      2 * tolerance('physics: first order against Monte Carlo'),
    );
  });

  test('does not average the hook’s error down', () => {
    const across = acrossLine(joint.covariance);
    // The line passes the CG no better than it leaves the hook, the ruler being common to hook and CG.
    expect(across).toBeGreaterThan(U.hook);
    // Two hooks of their own would.
    expect(acrossLine(placeOf(benchOf(read, false)).covariance)).toBeLessThan(0.8 * across);
  });
});

describe('two readings of pictures', () => {
  const [picture, ...others] = benchOf(read, true).readings;
  if (picture?.kind !== 'picture lines') throw new Error('a reading of pictures');
  const twice = (shared: readonly SharedValue[]): TruckBench => ({
    ...benchOf(read, true),
    readings: [
      picture,
      {
        ...picture,
        id: 'pictures-2',
        lines: picture.lines.map((line) => ({ ...line, id: 'hang-3' })),
        shared,
        covariance: picture.covariance
          .slice(0, 2 + shared.length)
          .map((row) => row.slice(0, 2 + shared.length)),
      },
      ...others,
    ],
  });

  test('are refused where they share one quantity: its givens would count twice', () => {
    for (const each of picture.shared) {
      const refused = adjustTruck(twice([each]));
      expect(reasonOf(refused)).toBe('shared twice');
      expect(!refused.ok && refused.message).toMatch(/^pictures-2: needs .*; got .* twice\./);
    }
  });

  test('are taken where they share nothing', () => {
    expect(valueOf(adjustTruck(twice([]))).undetermined).toEqual([]);
  });
});
