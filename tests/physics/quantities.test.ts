import fc from 'fast-check';
import { unit as mathUnit } from 'mathjs';
import { describe, expect, test } from 'vitest';
import {
  type AngleUnit,
  type ForceUnit,
  type LengthUnit,
  type MassUnit,
  COVERAGE,
  FORCE_UNITS,
  LENGTH_UNITS,
  MASS_UNITS,
  PLANE_COVERAGE,
  STANDARD_GRAVITY,
  angle,
  angleIn,
  degrees,
  force,
  forceIn,
  length,
  lengthIn,
  mass,
  massIn,
  radians,
  uncertaintyFromLimits,
} from '../../src/physics';
import { tolerance } from '../tolerances';
import { between } from './given';

const relative = tolerance('physics: rounding');
const close = (actual: number, expected: number): void =>
  expect(Math.abs(actual - expected)).toBeLessThanOrEqual(relative * Math.max(1, Math.abs(expected)));

const lengthUnits: LengthUnit[] = ['mm', 'cm', 'm', 'in'];
const massUnits: MassUnit[] = ['g', 'kg', 'oz', 'lb'];
const forceUnits: ForceUnit[] = ['N', 'kgf', 'lbf', 'ozf'];
const angleUnits: AngleUnit[] = ['deg', 'rad', '%'];

describe('units', () => {
  test('the lists here name every unit there is', () => {
    expect(lengthUnits).toHaveLength(Object.keys(LENGTH_UNITS).length);
    expect(massUnits).toHaveLength(Object.keys(MASS_UNITS).length);
    expect(forceUnits).toHaveLength(Object.keys(FORCE_UNITS).length);
  });

  test.each(lengthUnits)('%s against the units of mathjs', (name) =>
    close(length(12.3, name), mathUnit(12.3, name).toNumber('m')),
  );
  test.each(massUnits)('%s against the units of mathjs', (name) =>
    close(mass(12.3, name), mathUnit(12.3, name).toNumber('kg')),
  );
  test.each([
    ['N', 'N'],
    ['lbf', 'lbf'],
    ['kgf', 'kgf'],
  ] as const)('%s against the units of mathjs', (name, theirs) =>
    close(force(12.3, name), mathUnit(12.3, theirs).toNumber('N')),
  );
  test('an ounce-force is a sixteenth of a pound-force', () => close(force(16, 'ozf'), force(1, 'lbf')));

  test('what is typed comes back in every unit', () => {
    fc.assert(
      fc.property(between(-1e4, 1e4), (typed) => {
        for (const name of lengthUnits) close(lengthIn(length(typed, name), name), typed);
        for (const name of massUnits) close(massIn(mass(typed, name), name), typed);
        for (const name of forceUnits) close(forceIn(force(typed, name), name), typed);
        for (const name of angleUnits) {
          // Past a hundredfold grade the angle itself no longer holds nine digits of its tangent.
          if (name === '%') close(angleIn(angle(typed / 100, name), name), typed / 100);
          else close(angleIn(angle(typed, name), name), typed);
        }
      }),
    );
  });
});

describe('percent grade', () => {
  test.each([
    [0, 0],
    [100, 45],
    [-100, -45],
    [100 * Math.sqrt(3), 60],
  ])('%d % is %d°', (grade, slope) => {
    close(angleIn(angle(grade, '%'), 'deg'), slope);
    close(angleIn(degrees(slope), '%'), grade);
  });
  test('a wall has no percent grade', () => {
    expect(angleIn(radians(Math.PI / 2), '%')).toBe(Infinity);
    expect(angleIn(degrees(-95), '%')).toBe(-Infinity);
  });
});

describe('constants of the ± shown', () => {
  test('half width over root three for hard limits', () => close(uncertaintyFromLimits(Math.sqrt(3)), 1));
  test('1.96 leaves one in twenty outside, both tails', () =>
    expect(Math.abs(0.95 - erfOf(COVERAGE / Math.SQRT2))).toBeLessThan(1e-7));
  test('2.448 leaves one in twenty outside in a plane', () =>
    expect(Math.abs(0.05 - Math.exp(-(PLANE_COVERAGE ** 2) / 2))).toBeLessThan(1e-7));
  test('standard gravity is the exact one', () => expect(STANDARD_GRAVITY).toBe(9.80665));
});

/** Error function by its Maclaurin series, in exact terms; fine below 3. */
function erfOf(x: number): number {
  let term = x;
  let sum = x;
  for (let k = 1; k < 60; k += 1) {
    term *= -(x * x) / k;
    sum += term / (2 * k + 1);
  }
  return (2 / Math.sqrt(Math.PI)) * sum;
}
