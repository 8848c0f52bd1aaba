import { describe, expect, test } from 'vitest';
import { readBench } from '../../src/answer/readBench';
import {
  emptyAxleLift,
  emptyAxleScales,
  emptyBalanceOnEdge,
  emptyGiven,
  emptyHangLine,
  emptyHook,
  emptyPart,
  emptyState,
  emptyTiltBoard,
  emptyTotalMass,
} from '../../src/sheet/empty';
import type { BuildState, Reading } from '../../src/sheet/schema';
import { tolerance } from '../tolerances';

const typed = <Unit extends string>(text: string, unit: Unit) => ({ ...emptyGiven(unit), text });

/** A state with these readings, all sizes measured. */
function stateWith(...readings: readonly Reading[]): BuildState {
  const state = emptyState();
  return {
    ...state,
    dimensions: {
      ...state.dimensions,
      wheelbase: typed('313', 'mm'),
      frontTrack: typed('186', 'mm'),
      rearTrack: typed('184', 'mm'),
      frontTireRadius: typed('56', 'mm'),
      rearTireRadius: typed('55', 'mm'),
    },
    hooks: [
      {
        ...emptyHook(),
        id: 'eye',
        ahead: typed('40', 'mm'),
        left: typed('0', 'mm'),
        height: typed('150', 'mm'),
      },
    ],
    readings: [...readings],
  };
}
const only = (state: BuildState) => {
  const [entry] = readBench(state, null).entries;
  if (!entry) throw new Error('an entry');
  return entry;
};

describe('a reading as typed', () => {
  test('comes in SI, in the unit it was typed in', () => {
    const { reading } = only(stateWith({ ...emptyTotalMass(), load: typed('6.5', 'lb') }));
    // One avoirdupois pound is 0.45359237 kg by definition.
    expect(reading).toMatchObject({ kind: 'total mass' });
    if (reading?.kind !== 'total mass') throw new Error('a mass');
    expect(Math.abs(reading.load.value - 6.5 * 0.45359237)).toBeLessThan(tolerance('sheet: unit conversion'));
  });

  test('takes only the numbers its choices use', () => {
    const lift = {
      ...emptyAxleLift(),
      load: typed('1551', 'g'),
      rise: typed('120', 'mm'),
      angle: typed('20', 'deg'),
    };
    const byHeight = only(stateWith({ ...lift, by: 'height' })).reading;
    const byAngle = only(stateWith({ ...lift, by: 'angle' })).reading;
    expect(byHeight).toMatchObject({ lift: { by: 'height' } });
    expect(byAngle).toMatchObject({ lift: { by: 'angle' } });
    // The number not used may be missing.
    expect(only(stateWith({ ...lift, by: 'angle', rise: emptyGiven('mm') })).notCounted).toBeNull();
  });

  test.each([
    ['side', 'ahead', 'height'],
    ['rear', 'left', 'height'],
    ['top', 'ahead', 'left'],
  ] as const)('a second point in the %s view is its %s and %s', (view, first, second) => {
    const hang = {
      ...emptyHangLine(),
      view,
      hook: 'eye',
      by: 'second point',
      ahead: typed('100', 'mm'),
      left: typed('7', 'mm'),
      height: typed('60', 'mm'),
    } as const;
    const { reading } = only(stateWith(hang));
    const at = { ahead: 0.1, left: 0.007, height: 0.06 };
    expect(reading).toMatchObject({
      string: { by: 'second point', first: { value: at[first] }, second: { value: at[second] } },
    });
  });
});

describe('a reading that does not count says why', () => {
  const lift = { ...emptyAxleLift(), load: typed('1551', 'g'), rise: typed('120', 'mm') };
  test('set aside by the reader', () =>
    expect(only(stateWith({ ...lift, counted: false })).notCounted).toEqual({ because: 'set aside' }));
  test('incomplete', () =>
    expect(only(stateWith({ ...lift, load: emptyGiven('g') })).notCounted).toMatchObject({
      because: 'incomplete',
    }));
  test('a number that cannot be read, which stops no other reading', () => {
    const state = stateWith({ ...lift, load: typed('many', 'g') });
    expect(only(state).notCounted).toMatchObject({ because: 'fault' });
    expect(readBench(state, null).faults).toEqual([]);
  });
  test('a size that cannot be read stops the answer', () => {
    const state = stateWith(lift);
    const broken = { ...state, dimensions: { ...state.dimensions, wheelbase: typed('long', 'mm') } };
    expect(readBench(broken, null).faults).toHaveLength(1);
  });
  test('waiting for a size', () => {
    const state = stateWith(lift);
    const lacking = { ...state, dimensions: { ...state.dimensions, rearTireRadius: emptyGiven('mm') } };
    expect(only(lacking).notCounted).toEqual({ because: 'waiting', for: 'rearTireRadius' });
  });
  test('waiting for its hook', () => {
    const hang = { ...emptyHangLine(), hook: null, by: 'angle', angle: typed('40', 'deg') } as const;
    expect(only(stateWith(hang)).notCounted).toEqual({ because: 'waiting', for: 'hook' });
  });
  test('a live suspension, a first wheel, a slide', () => {
    const board = { ...emptyTiltBoard(), toward: 'left', angle: typed('40', 'deg') } as const;
    for (const event of ['tips, suspension free', 'first wheel lifts', 'slides'] as const)
      expect(only(stateWith({ ...board, event })).notCounted).toEqual({ because: 'another kind' });
    expect(only(stateWith({ ...board, event: 'tips, suspension locked' })).notCounted).toBeNull();
    expect(only(stateWith({ ...lift, suspension: 'free' })).notCounted).toEqual({ because: 'another kind' });
  });
  test('and none of them is in the bench', () => {
    const { bench } = readBench(
      stateWith(
        { ...lift, id: 'one' },
        { ...lift, id: 'two', counted: false },
        { ...emptyAxleScales(), id: 'three' },
        { ...emptyBalanceOnEdge(), id: 'four', edge: 'across the truck', place: typed('150', 'mm') },
      ),
      null,
    );
    expect(bench.readings.map(({ id }) => id)).toEqual(['one', 'four']);
  });
});

describe('the parts list', () => {
  const part = (mass: string, ahead: string, height: string) => ({
    ...emptyPart(),
    mass: { ...typed(mass, 'g'), plusMinus: '19.59964' },
    ahead: { ...typed(ahead, 'mm'), plusMinus: '1.959964' },
    left: { ...typed('0', 'mm'), plusMinus: '1.959964' },
    height: { ...typed(height, 'mm'), plusMinus: '1.959964' },
  });
  const state = { ...stateWith(), parts: [part('2000', '100', '80'), part('1000', '250', '110')] };

  test('counts only when the reader says so', () => {
    expect(readBench(state, null).bench.readings).toEqual([]);
    expect(readBench({ ...state, countPartsList: true }, null).bench.readings).toHaveLength(1);
  });

  test('is a reading of mass and place with one covariance', () => {
    const [reading] = readBench({ ...state, countPartsList: true }, null).bench.readings;
    if (reading?.kind !== 'parts list') throw new Error('a list');
    // By hand: 3 kg at (2·100 + 1·250)/3 = 150 mm, (2·80 + 110)/3 = 90 mm; u of each mass 10 g, of each place 1 mm.
    expect(reading.values.map((value) => Number(value.toFixed(9)))).toEqual([3, 0.15, 0, 0.09]);
    const [mass, x] = reading.covariance;
    const near = tolerance('read bench: covariance');
    expect(Math.abs((mass?.[0] ?? NaN) / (2 * 0.01 ** 2) - 1)).toBeLessThan(near);
    // Σ u² (x_i − X)/M over both parts: 0.01² (−0.05 + 0.1)/3.
    expect(Math.abs((mass?.[1] ?? NaN) / ((0.01 ** 2 * 0.05) / 3) - 1)).toBeLessThan(near);
    const places = 0.001 ** 2 * ((2 / 3) ** 2 + (1 / 3) ** 2);
    const masses = 0.01 ** 2 * ((0.05 / 3) ** 2 + (0.1 / 3) ** 2);
    expect(Math.abs((x?.[1] ?? NaN) / (places + masses) - 1)).toBeLessThan(near);
  });
});
