import { describe, expect, test } from 'vitest';
import {
  adjustTruck,
  blunderSearch,
  degrees,
  kilograms,
  largestOf,
  meters,
  separators,
  type Measured,
  type TruckBench,
  type TruckReading,
} from '../../src/physics';
import { tolerance } from '../tolerances';
import { valueOf } from './given';

const m = (value: number, u = 0.0005) => ({ value: meters(value), u });
const kg = (value: number, u = 0.002) => ({ value: kilograms(value), u });
const deg = (value: number, u = 0.25) => ({ value: degrees(value), u: degrees(u) });
const ratio = (value: number, u = 0.02): Measured => ({ value, u });

/** A balance place read across the truck, in millimeters ahead of the rear axle. */
const across = (id: string, place: number, u = 0.001): TruckReading => ({
  kind: 'balance',
  id,
  edge: 'across',
  place: m(place / 1000, u),
});

const bench = (readings: readonly TruckReading[]): TruckBench => ({
  dimensions: {
    wheelbase: m(0.313),
    frontTrack: m(0.189, 0.001),
    rearTrack: m(0.183, 0.001),
    frontTireRadius: m(0.056),
    rearTireRadius: m(0.054),
    treadWidth: m(0.044, 0.0015),
    frontAxleShare: ratio(0.24),
    rearAxleShare: ratio(0.21),
  },
  lateral: m(0, 0.005),
  instruments: { scaleZero: kg(0, 0.0005), rulerZero: m(0, 0.00015), levelZero: deg(0, 0.1) },
  hooks: [],
  readings,
});

const searched = (readings: readonly TruckReading[]) => blunderSearch(valueOf(adjustTruck(bench(readings))));

describe('threshold', () => {
  // Z. Šidák, J. Amer. Statist. Assoc. 62 (1967) 626: (1 − p)^m = 0.95; normal quantiles from tables (NIST Handbook 1.3.6.7.1).
  test.each([
    [1, 1.96],
    [2, 2.236],
    [5, 2.569],
    [10, 2.8],
    [15, 2.93],
  ])('of %i tests', (tests, limit) => {
    expect(Math.abs(largestOf(tests) - limit)).toBeLessThan(tolerance('blunder search: tabled quantile'));
  });
  test('nothing checked, nothing named', () => {
    expect(searched([across('one', 148)])).toMatchObject({ tests: 0, threshold: Infinity, named: null });
  });
});

describe('two that check only each other', () => {
  const pair = [across('one', 148), across('two', 156)];

  test('are one test and a group of two', () => {
    const { tests, named } = searched(pair);
    expect(tests).toBe(1);
    expect(named?.group.map(({ id }) => id).toSorted()).toEqual(['one.place', 'two.place']);
    expect(named?.reading).toBeNull();
    // 8 mm of difference, each read with u = 1 mm.
    expect(Math.abs(Math.abs(named?.first.off ?? NaN) - 0.008)).toBeLessThan(
      tolerance('blunder search: off'),
    );
  });

  test('a third of the same kind separates them, another kind less', () => {
    const adjusted = valueOf(adjustTruck(bench(pair)));
    const { named } = blunderSearch(adjusted);
    if (!named) throw new Error('nothing named');
    const found = valueOf(
      separators(bench(pair), adjusted, named, [
        across('coarse', 152, 0.01),
        across('third', 152),
        { kind: 'total mass', id: 'mass', load: kg(2.9) },
      ]),
    );
    expect(found.map(({ reading }) => reading)).toEqual(['third', 'coarse', 'mass']);
    expect(found[0]?.separates).toBe(true);
    expect(found[2]?.separates).toBe(false);
  });
});
