import { describe, expect, test } from 'vitest';
import { degrees, findBlunder, kilograms, likelySlips, meters, type TruckBench } from '../../../src/physics';

/**
 * A small bench as a beginner has it: axle scales, one lift, both sides of a board. One wrong number then fits many
 * places, and what was assumed or ruled must not be blamed for it. Numbers by moments and tangents of a truck of 2.94 kg,
 * 148 mm ahead, 3 mm left, 94 mm up; wheelbase 313, tracks 186, hubs 55, tires standing 6 mm outside their centers.
 */
const m = (value: number, u: number) => ({ value: meters(value), u });
const kg = (value: number, u = 0.0029) => ({ value: kilograms(value), u });
const deg = (value: number, u: number) => ({ value: degrees(value), u: degrees(u) });
const DEGREE = 180 / Math.PI;
const RISE = 0.313 * Math.sin(25 / DEGREE);
const REAR_LOAD =
  2.94 *
  (1 - (0.148 * Math.cos(25 / DEGREE) - 0.039 * Math.sin(25 / DEGREE)) / (0.313 * Math.cos(25 / DEGREE)));

const bench = (load: number, scaleUnder: 'front' | 'rear' = 'rear'): TruckBench => ({
  dimensions: {
    wheelbase: m(0.313, 0.0005),
    frontTrack: m(0.186, 0.001),
    rearTrack: m(0.186, 0.001),
    frontTireRadius: m(0.055, 0.0008),
    rearTireRadius: m(0.055, 0.0008),
  },
  lateral: m(0, 0.005),
  instruments: { scaleZero: kg(0, 0.0005), rulerZero: m(0, 0.00015), levelZero: deg(0, 0.1) },
  hooks: [],
  readings: [
    {
      kind: 'axle scales',
      id: 'axles',
      front: kg((2.94 * 0.148) / 0.313),
      rear: kg(2.94 * (1 - 0.148 / 0.313)),
    },
    {
      kind: 'axle lift',
      id: 'lift',
      raised: 'front',
      lift: { by: 'height', rise: m(RISE, 0.0008) },
      scaleUnder,
      load: kg(load),
    },
    { kind: 'tilt', id: 'left', toward: 'left', angle: deg(Math.atan(0.096 / 0.094) * DEGREE, 0.5) },
    { kind: 'tilt', id: 'right', toward: 'right', angle: deg(Math.atan(0.102 / 0.094) * DEGREE, 0.5) },
  ],
});
const first = (wrong: TruckBench) => findBlunder(wrong)?.named?.first;

describe('of suspects about as likely', () => {
  test('nobody is named on the clean bench', () => expect(first(bench(REAR_LOAD))).toBeUndefined());

  test.each([
    ['ounces for grams', bench(REAR_LOAD / 28.349523125)],
    ['grams for ounces', bench(REAR_LOAD * 28.349523125)],
    ['scale under the other axle', bench(REAR_LOAD, 'front')],
  ])('the number that a slip explains is named: %s', (code, wrong) => {
    const named = first(wrong);
    expect(named?.reading).toBe('lift');
    expect(likelySlips(wrong, named?.id ?? '').map((slip) => slip.code)).toContain(code);
  });

  test('what was assumed is never named before what was read', () => {
    for (const by of [0.9, 0.95, 1.05, 1.1, 1.3]) {
      const named = findBlunder(bench(REAR_LOAD * by))?.named;
      if (!named) continue;
      expect(named.group.length).toBeGreaterThan(1);
      expect(named.first.reading, `load times ${by}`).not.toBeNull();
    }
  });
});
