import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import {
  adjustTruck,
  angleIn,
  cared,
  degrees,
  kilograms,
  meters,
  radians,
  stanceQuantity,
  truckTipAngles,
  type Stance,
  type TruckBench,
  type TruckReading,
} from '../../../src/physics';
import { tolerance } from '../../tolerances';
import { between, correlation, covarianceOf, reasonOf, valueOf } from '../given';

const m = (value: number, u = 0.0005) => ({ value: meters(value), u });
const kg = (value: number) => ({ value: kilograms(value), u: 0.003 });
const deg = (value: number) => ({ value: degrees(value), u: degrees(0.3) });

const axles: TruckReading = { kind: 'axle scales', id: 'axles', front: kg(1.45), rear: kg(1.5) };
const board = (toward: 'left' | 'right' | 'nose up', angle: number): TruckReading => ({
  kind: 'tilt',
  id: toward,
  toward,
  angle: deg(angle),
});
const bench: TruckBench = {
  dimensions: { wheelbase: m(0.313), frontTrack: m(0.189, 0.001), rearTrack: m(0.181, 0.001) },
  lateral: m(0, 0.005),
  instruments: {
    scaleZero: kg(0),
    rulerZero: m(0, 0.00015),
    levelZero: { value: radians(0), u: degrees(0.1) },
  },
  hooks: [],
  readings: [axles, board('left', 43), board('right', 47), board('nose up', 57)],
};

describe('a quantity at a stance', () => {
  const stances = fc.tuple(
    between(0.05, 0.25),
    between(-0.03, 0.03),
    between(0.05, 0.15),
    between(0.26, 0.33),
    between(0.16, 0.21),
    between(0.16, 0.21),
  );

  test('is the tip angle that the support polygon gives, and so is its u', () => {
    fc.assert(
      fc.property(stances, correlation(6), (at, correlations) => {
        const [x, y, z, wheelbase, frontTrack, rearTrack] = at;
        const covariance = covarianceOf([0.002, 0.003, 0.002, 0.0005, 0.001, 0.001], correlations);
        const tips = valueOf(
          truckTipAngles(
            {
              cg: { x: meters(x), y: meters(y), z: meters(z) },
              wheelbase: meters(wheelbase),
              frontTrack: meters(frontTrack),
              rearTrack: meters(rearTrack),
              covariance,
            },
            null,
          ),
        );
        const apart = tips.right.angle.value - tips.left.angle.value;
        // Side by side to the last digits, either may be called the smaller.
        fc.pre(Math.abs(apart) > tolerance('cared quantity: angle'));
        const side = apart > 0 ? 'left' : 'right';
        const expected = { 'side tip': tips[side], climb: tips.climb, descent: tips.descent };
        for (const quantity of ['side tip', 'climb', 'descent'] as const) {
          const { value, gradient } = valueOf(stanceQuantity(at, quantity));
          const { angle } = expected[quantity];
          const variance = gradient.reduce(
            (sum, a, i) => sum + gradient.reduce((s, b, j) => s + a * b * (covariance[i]?.[j] ?? NaN), 0),
            0,
          );
          expect(Math.abs(value - angle.value)).toBeLessThan(tolerance('cared quantity: angle'));
          expect(Math.abs(Math.sqrt(variance) / angle.u - 1)).toBeLessThan(
            tolerance('cared quantity: relative u'),
          );
        }
        expect(valueOf(stanceQuantity(at, 'side tip')).side).toBe(side);
      }),
      { numRuns: 200 },
    );
  });

  test('is 45° where the CG stands as high as the tires are apart from it, on center', () => {
    const square: Stance = [0.15, 0, 0.09, 0.3, 0.18, 0.18];
    const { value } = valueOf(stanceQuantity(square, 'side tip'));
    expect(angleIn(radians(value), 'deg')).toBeCloseTo(45, 10);
  });

  test('is refused with what is wrong', () => {
    expect(reasonOf(stanceQuantity([0.15, 0, 0.1, 0.3, NaN, 0.18], 'side tip'))).toBe('missing dimension');
    expect(reasonOf(stanceQuantity([0.15, 0, 0.1, NaN, 0.18, 0.18], 'descent'))).toBe('missing dimension');
    expect(reasonOf(stanceQuantity([0.15, 0, -0.1, 0.3, 0.18, 0.18], 'climb'))).toBe('height');
    expect(reasonOf(stanceQuantity([0.15, 0.095, 0.1, 0.3, 0.18, 0.18], 'side tip'))).toBe('cg-outside');
    expect(reasonOf(stanceQuantity([-0.01, 0, 0.1, 0.3, 0.18, 0.18], 'climb'))).toBe('cg-outside');
  });
});

describe('a quantity of an adjusted truck', () => {
  const truck = valueOf(adjustTruck(bench));

  test('has the place and u of the adjustment', () => {
    for (const [quantity, axis] of [
      ['ahead', 'x'],
      ['left', 'y'],
      ['height', 'z'],
    ] as const) {
      const { value, u } = valueOf(cared(truck, quantity));
      expect(value).toBe(truck.cg[axis]?.value);
      expect(u).toBe(truck.cg[axis]?.u);
    }
  });

  test('names the side that governs, and says when it may be the other', () => {
    expect(valueOf(cared(truck, 'side tip'))).toMatchObject({ side: 'left', tied: false });
    const even = { ...bench, readings: [axles, board('left', 45), board('right', 45.2)] };
    expect(valueOf(cared(valueOf(adjustTruck(even)), 'side tip')).tied).toBe(true);
    expect(valueOf(cared(truck, 'climb'))).toMatchObject({ side: null, tied: false });
  });

  test('is refused where a coordinate that it depends on is open, and only there', () => {
    const flat = valueOf(adjustTruck({ ...bench, readings: [axles] }));
    expect(reasonOf(cared(flat, 'height'))).toBe('undetermined');
    expect(reasonOf(cared(flat, 'side tip'))).toBe('undetermined');
    expect(valueOf(cared(flat, 'ahead')).u).toBeGreaterThan(0);
    const { wheelbase } = bench.dimensions;
    const untracked = valueOf(
      adjustTruck({
        ...bench,
        dimensions: wheelbase ? { wheelbase } : {},
        readings: [axles, board('nose up', 57)],
      }),
    );
    expect(reasonOf(cared(untracked, 'side tip'))).toBe('missing dimension');
    expect(valueOf(cared(untracked, 'climb')).value).toBeGreaterThan(0.9);
  });
});
