import { describe, expect, test } from 'vitest';
import {
  adjustTruck,
  blunderSearch,
  chanceOfLargest,
  findBlunder,
  largestOf,
  readingsToSetAside,
  separators,
  withoutNumber,
  withValue,
  type Measured,
  type TruckBench,
  type TruckReading,
} from '../../../src/physics';
import { tolerance } from '../../tolerances';
import { valueOf } from '../given';
import { BENCH, PICTURES, READINGS, TRUCK, kg, m } from './knownTruck';

/** A balance place read across the truck, in millimeters ahead of the rear axle. */
const across = (id: string, place: number, u = 0.001): TruckReading => ({
  kind: 'balance',
  id,
  edge: 'across',
  place: m(place / 1000, u),
});

const bench = (readings: readonly TruckReading[]): TruckBench => ({ ...BENCH, readings });

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

describe('a bench of all kinds', () => {
  const loaded = (id: string, by: number) => {
    const without = valueOf(withoutNumber(BENCH, id));
    return findBlunder(withValue(BENCH, id, without.number.value + by * without.offU));
  };

  test('names nothing where all agree', () => {
    expect(blunderSearch(valueOf(adjustTruck(BENCH)))).toMatchObject({ named: null, wholeScatters: false });
  });

  // Well checked numbers of every kind; eight standard deviations off, either way.
  test.each(['mass.load', 'axles.front', 'wheels.rearLeft', 'hang-1.angle', 'tilt-up.angle', 'edge.place'])(
    '%s is found, and how far it is off',
    (id) => {
      for (const by of [8, -8]) {
        const named = loaded(id, by)?.named;
        expect(named?.first.id).toBe(id);
        // An error in one number of an otherwise exact bench shows in full, to first order.
        expect(Math.abs((named?.first.normalized ?? NaN) - by)).toBeLessThan(
          tolerance('blunder search: exact bench'),
        );
        expect(named?.chance).toBeLessThan(1e-9);
        expect(named?.othersScatter).toBe(false);
      }
    },
  );

  test('rise and load of one lift check only each other: the group is that reading', () => {
    const few = READINGS.filter(({ id }) => ['axles', 'hang-1', 'hang-2', 'edge', 'lift-1'].includes(id));
    const wrong = withValue(bench(few), 'lift-1.load', 0.3 + TRUCK.mass / 2);
    const named = findBlunder(wrong)?.named;
    const ids = named?.group.map(({ id }) => id) ?? [];
    expect(ids).toContain('lift-1.load');
    expect(ids).toContain('lift-1.rise');
    expect(named?.readings[0]).toBe('lift-1');
  });

  test('a hundred times as far off is found as well', () => {
    for (const id of ['mass.load', 'axles.front', 'edge.place'])
      expect(loaded(id, 800)?.named?.first.id).toBe(id);
  });

  test('is the same search in any unit: loads and masses a thousand times as large', () => {
    const thousand = (measured: Measured) => kg(measured.value * 1000, measured.u * 1000);
    const scaled: TruckBench = {
      ...BENCH,
      instruments: { ...BENCH.instruments, scaleZero: thousand(BENCH.instruments.scaleZero) },
      readings: READINGS.map((reading): TruckReading => {
        switch (reading.kind) {
          case 'total mass':
          case 'axle lift':
            return { ...reading, load: thousand(reading.load) };
          case 'axle scales':
            return { ...reading, front: thousand(reading.front), rear: thousand(reading.rear) };
          case 'wheel scales':
            return {
              ...reading,
              frontLeft: thousand(reading.frontLeft),
              frontRight: thousand(reading.frontRight),
              rearLeft: thousand(reading.rearLeft),
              rearRight: thousand(reading.rearRight),
            };
          default:
            return reading;
        }
      }),
    };
    const one = loaded('axles.front', 6);
    const front = scaled.readings.find(({ kind }) => kind === 'axle scales');
    const right = front?.kind === 'axle scales' ? front.front.value : NaN;
    const off = 1000 * (one?.named?.first.off ?? NaN);
    const other = findBlunder(withValue(scaled, 'axles.front', right + off));
    expect(other?.tests).toBe(one?.tests);
    expect(other?.named?.group.map(({ id }) => id)).toEqual(one?.named?.group.map(({ id }) => id));
    expect(
      Math.abs((other?.named?.first.normalized ?? NaN) - (one?.named?.first.normalized ?? NaN)),
    ).toBeLessThan(tolerance('blunder search: units'));
  });
});

describe('all a little off', () => {
  test('the whole scatters though no number stands out', () => {
    // Twelve places, every one two standard deviations off its mean: chi-squared 48 of 12 readings and one unknown.
    const all = Array.from({ length: 12 }, (_, i) => across(`edge-${i}`, 148 + (i % 2 === 0 ? 2 : -2)));
    const search = searched(all);
    expect(search.named).toBeNull();
    expect(search.wholeScatters).toBe(true);
  });

  test('the chance of the largest is the level at its threshold', () => {
    for (const tests of [1, 7, 30])
      expect(Math.abs(chanceOfLargest(largestOf(tests), tests) - 0.05)).toBeLessThan(
        tolerance('blunder search: level'),
      );
  });
});

test('where the fit breaks down, the reading without which all others agree is told', () => {
  if (PICTURES.kind !== 'picture lines') throw new Error('no lines');
  // The roof's line through the bumper: there the CG would hang above its own hook.
  const [bumper, roof] = PICTURES.lines;
  if (!bumper || !roof) throw new Error('no lines');
  const lines = [bumper, { ...roof, line: { ...roof.line, through: bumper.line.through } }];
  const broken = bench([...READINGS, { ...PICTURES, lines }]);
  expect(readingsToSetAside(broken)).toEqual([{ reading: 'picture roof', checked: true }]);
});
