import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import {
  type Estimate,
  type Length,
  type Mass,
  cgFromAxleScales,
  cgFromWeighingPoints,
  cgFromWheelScales,
  grams,
  independent,
  kilograms,
  lengthIn,
  loadsOnThreePoints,
  meters,
  millimeters,
  monteCarlo,
} from '../../../src/physics';
import { tolerance } from '../../tolerances';
import { between, covarianceGap, reasonOf, seeded, valueOf } from '../given';

const rounding = tolerance('physics: rounding in a length');
const load = (value: number, u = 0): Estimate<Mass> => ({ value: kilograms(value), u });
const size = (value: number, u = 0): Estimate<Length> => ({ value: meters(value), u });
const someLoad = between(0.2, 2);

describe('axle scales', () => {
  /** Reference row C9, constructed: 1350 ± 1 g, 1050 ± 1 g, 313.0 ± 0.5 mm. */
  test('share of the wheelbase, with its uncertainty (C9)', () => {
    const cg = valueOf(
      cgFromAxleScales(
        { value: grams(1350), u: grams(1) },
        { value: grams(1050), u: grams(1) },
        { value: millimeters(313), u: millimeters(0.5) },
      ),
    );
    const digit = tolerance('published: last digit') * 0.01;
    expect(Math.abs(313 - lengthIn(cg.x.value, 'mm') - 136.94)).toBeLessThanOrEqual(digit);
    // From the rear axle the wheelbase counts by F/W and not R/W: 0.5 mm · 0.5625, with 0.0864 mm of scales.
    expect(lengthIn(meters(cg.x.u), 'mm')).toBeCloseTo(
      Math.hypot(0.28125, (313 * Math.hypot(1050, 1350)) / 2400 ** 2),
      9,
    );
    expect(cg.sensitivities.wheelbase).toBe(0.5625);
  });

  test('laws: swapped axles, scaled loads, scaled length', () => {
    fc.assert(
      fc.property(someLoad, someLoad, between(0.2, 0.5), between(0.1, 10), (front, rear, wheelbase, by) => {
        const u = 0.002;
        const cg = valueOf(cgFromAxleScales(load(front, u), load(rear, u), size(wheelbase, u)));
        const swapped = valueOf(cgFromAxleScales(load(rear, u), load(front, u), size(wheelbase, u)));
        expect(Math.abs(cg.x.value + swapped.x.value - wheelbase)).toBeLessThan(rounding);
        const heavier = valueOf(
          cgFromAxleScales(load(front * by, u * by), load(rear * by, u * by), size(wheelbase, u)),
        );
        expect(Math.abs(heavier.x.value - cg.x.value)).toBeLessThan(rounding);
        expect(Math.abs(heavier.x.u - cg.x.u)).toBeLessThan(rounding);
        const longer = valueOf(cgFromAxleScales(load(front, u), load(rear, u), size(wheelbase * by, u * by)));
        expect(Math.abs(longer.x.value - by * cg.x.value)).toBeLessThan(rounding * 10);
      }),
    );
  });

  test('an unloaded axle puts the CG over the other', () => {
    expect(valueOf(cgFromAxleScales(load(2), load(0), size(0.3))).x.value).toBe(0.3);
    expect(valueOf(cgFromAxleScales(load(0), load(2), size(0.3))).x.value).toBe(0);
  });

  test.each([
    ['nothing on the scales', 0, 0, 0.3, 'total-load'],
    ['a scale that pulls', -0.1, 1, 0.3, 'load'],
    ['no wheelbase', 1, 1, 0, 'dimension'],
    ['a reading that is no number', NaN, 1, 0.3, 'not-finite'],
    ['an endless wheelbase', 1, 1, Infinity, 'not-finite'],
  ])('%s is refused', (_, front, rear, wheelbase, reason) =>
    expect(reasonOf(cgFromAxleScales(load(front), load(rear), size(wheelbase)))).toBe(reason),
  );
});

describe('wheel scales', () => {
  const four = fc.tuple(someLoad, someLoad, someLoad, someLoad);
  const cgOf = (
    [frontLeft, frontRight, rearLeft, rearRight]: readonly [number, number, number, number],
    [wheelbase, front, rear]: readonly [number, number, number],
    u = 0,
  ) =>
    valueOf(
      cgFromWheelScales(
        {
          frontLeft: load(frontLeft, u),
          frontRight: load(frontRight, u),
          rearLeft: load(rearLeft, u),
          rearRight: load(rearRight, u),
        },
        size(wheelbase, u),
        size(front, u),
        size(rear, u),
      ),
    );

  test('a truck of tenth scale (C7)', () => {
    const cg = cgOf([0.62, 0.58, 0.41, 0.39], [0.313, 0.17, 0.17]);
    const digit = tolerance('published: last digit');
    expect(cg.mass.value).toBeCloseTo(2, 12);
    expect(Math.abs(lengthIn(cg.x.value, 'mm') - 187.8)).toBeLessThanOrEqual(0.1 * digit);
    // The source counts right as positive; left is positive here.
    expect(Math.abs(lengthIn(cg.y.value, 'mm') - 2.55)).toBeLessThanOrEqual(0.01 * digit);
    expect(Math.abs(100 * cg.crossWeight.value - 50.5)).toBeLessThanOrEqual(0.1 * digit);
  });

  test('sums, lengthwise, match axle scales', () => {
    fc.assert(
      fc.property(four, between(0.2, 0.4), (loads, wheelbase) => {
        const wheels = cgOf(loads, [wheelbase, 0.18, 0.2], 0.001);
        const u = 0.001 * Math.SQRT2;
        const axles = valueOf(
          cgFromAxleScales(
            load(loads[0] + loads[1], u),
            load(loads[2] + loads[3], u),
            size(wheelbase, 0.001),
          ),
        );
        expect(Math.abs(wheels.x.value - axles.x.value)).toBeLessThan(rounding);
        expect(Math.abs(wheels.x.u - axles.x.u)).toBeLessThan(rounding);
        expect(Math.abs(wheels.frontShare.value - axles.frontShare.value)).toBeLessThan(rounding);
      }),
    );
  });

  test('mirror: left for right turns y and the cross weight round', () => {
    fc.assert(
      fc.property(four, between(0.1, 0.3), between(0.1, 0.3), ([a, b, c, d], front, rear) => {
        const cg = cgOf([a, b, c, d], [0.3, front, rear], 0.001);
        const mirrored = cgOf([b, a, d, c], [0.3, front, rear], 0.001);
        expect(Math.abs(cg.y.value + mirrored.y.value)).toBeLessThan(rounding);
        expect(Math.abs(cg.x.value - mirrored.x.value)).toBeLessThan(rounding);
        expect(Math.abs(cg.crossWeight.value + mirrored.crossWeight.value - 1)).toBeLessThan(rounding);
        expect(Math.abs(cg.leftShare.value + mirrored.leftShare.value - 1)).toBeLessThan(rounding);
      }),
    );
  });

  test('a shim under one wheel of a square truck changes every reading and no answer', () => {
    fc.assert(
      fc.property(four, between(-0.15, 0.15), ([a, b, c, d], shim) => {
        const cg = cgOf([a, b, c, d], [0.3, 0.2, 0.2]);
        const shimmed = cgOf([a + shim, b - shim, c - shim, d + shim], [0.3, 0.2, 0.2]);
        expect(Math.abs(cg.x.value - shimmed.x.value)).toBeLessThan(rounding);
        expect(Math.abs(cg.y.value - shimmed.y.value)).toBeLessThan(rounding);
      }),
    );
  });

  test('covariance against Monte Carlo, unequal tracks', () => {
    const inputs = [0.62, 0.58, 0.41, 0.39, 0.313, 0.17, 0.19];
    const u = [0.005, 0.005, 0.005, 0.005, 0.001, 0.001, 0.001];
    const at = (x: readonly number[]) => {
      const [a = NaN, b = NaN, c = NaN, d = NaN, l = NaN, f = NaN, r = NaN] = x;
      return valueOf(
        cgFromWheelScales(
          {
            frontLeft: load(a, 0.005),
            frontRight: load(b, 0.005),
            rearLeft: load(c, 0.005),
            rearRight: load(d, 0.005),
          },
          size(l, 0.001),
          size(f, 0.001),
          size(r, 0.001),
        ),
      );
    };
    const drawn = monteCarlo(
      (x) => {
        const cg = at(x);
        return [cg.x.value, cg.y.value];
      },
      inputs,
      independent(u),
      20_000,
      seeded(3),
    );
    expect(covarianceGap(drawn.covariance, at(inputs).covariance)).toBeLessThan(
      tolerance('physics: Monte Carlo covariance'),
    );
  });

  test('a missing track is refused', () =>
    expect(
      reasonOf(
        cgFromWheelScales(
          { frontLeft: load(1), frontRight: load(1), rearLeft: load(1), rearRight: load(1) },
          size(0.3),
          size(0),
          size(0.2),
        ),
      ),
    ).toBe('dimension'));
});

describe('weighing on points', () => {
  const points = fc.array(fc.tuple(between(-1, 1), between(-1, 1), someLoad), { minLength: 1, maxLength: 5 });
  const weigh = (rows: readonly (readonly [number, number, number])[]) =>
    valueOf(
      cgFromWeighingPoints(rows.map(([x, y, m]) => ({ x: meters(x), y: meters(y), load: load(m, 0.01) }))),
    );

  test('any datum, any order', () => {
    fc.assert(
      fc.property(points, between(-100, 100), (rows, datum) => {
        const cg = weigh(rows);
        const moved = weigh(rows.map(([x, y, m]) => [x + datum, y, m] as const).toReversed());
        expect(Math.abs(moved.x.value - cg.x.value - datum)).toBeLessThan(1e-12);
        expect(Math.abs(moved.y.value - cg.y.value)).toBeLessThan(rounding);
        expect(Math.abs(moved.x.u - cg.x.u)).toBeLessThan(rounding);
      }),
    );
  });

  test('three loads give back the CG they came from', () => {
    fc.assert(
      fc.property(between(0.05, 0.9), between(0.05, 0.9), between(0.5, 5), (p, q, m) => {
        fc.pre(p + q < 0.95);
        const corners = [
          { x: meters(0.3), y: meters(0.02) },
          { x: meters(-0.1), y: meters(0.15) },
          { x: meters(0), y: meters(-0.2) },
        ] as const;
        const shares = [p, q, 1 - p - q];
        const cg = {
          x: meters(corners.reduce((sum, { x }, i) => sum + x * (shares[i] ?? NaN), 0)),
          y: meters(corners.reduce((sum, { y }, i) => sum + y * (shares[i] ?? NaN), 0)),
        };
        const loads = valueOf(loadsOnThreePoints(corners, cg, kilograms(m)));
        loads.forEach((given, i) => expect(given).toBeCloseTo(m * (shares[i] ?? NaN), 10));
        const again = weigh(corners.map(({ x, y }, i) => [x, y, loads[i] ?? NaN] as const));
        expect(Math.abs(again.x.value - cg.x)).toBeLessThan(rounding);
        expect(Math.abs(again.y.value - cg.y)).toBeLessThan(rounding);
      }),
    );
  });

  const at = (x: number, y: number) => ({ x: meters(x), y: meters(y) });
  test.each([
    ['a CG outside, where one point would have to pull', at(0, 1), at(1, 1), 1, 'outside'],
    ['points in one line', at(2, 0), at(0.5, 0), 1, 'in-one-line'],
    ['no mass', at(0, 1), at(0.2, 0.2), 0, 'total-load'],
    ['a place that is no number', at(NaN, 1), at(0.2, 0.2), 1, 'not-finite'],
  ])('%s is refused', (_, third, cg, m, reason) =>
    expect(reasonOf(loadsOnThreePoints([at(0, 0), at(1, 0), third], cg, kilograms(m)))).toBe(reason),
  );
});
