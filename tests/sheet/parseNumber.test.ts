import { describe, expect, test } from 'vitest';
import { parseNumber } from '../../src/sheet/parseNumber';

const read = (text: string): [number, string | null] | string => {
  const result = parseNumber(text);
  return result.ok ? [result.value.number, result.value.unit] : result.reason;
};

describe('a number as typed', () => {
  test.each([
    ['313', 313, null],
    ['12.3', 12.3, null],
    ['.5', 0.5, null],
    ['12.', 12, null],
    [' 12 ', 12, null],
    ['+4', 4, null],
    ['-4', -4, null],
    ['−4', -4, null],
    ['–4', -4, null],
    ['1,5', 1.5, null],
    ['0,123', 0.123, null],
    ['1,234.5', 1234.5, null],
    ['1.234,5', 1234.5, null],
    ['1,234,567', 1234567, null],
    ['3e2', 300, null],
    ['3/8', 0.375, null],
    ['1 3/8', 1.375, null],
    ['1-3/8', 1.375, null],
    ['-1 3/8', -1.375, null],
    ['1⅜', 1.375, null],
    ['3⁄8', 0.375, null],
  ])('%j', (text, number, unit) => {
    expect(read(text)).toEqual([number, unit]);
  });
});

describe('a unit typed behind', () => {
  test.each([
    ['12.3 in', 12.3, 'in'],
    ['4.1in', 4.1, 'in'],
    ['12 3/8"', 12.375, 'in'],
    ['12 inches', 12, 'in'],
    ['313 mm.', 313, 'mm'],
    ['31.3 CM', 31.3, 'cm'],
    ['1.5 m', 1.5, 'm'],
    ['28°', 28, 'deg'],
    ['28 deg', 28, 'deg'],
    ['0.49 rad', 0.49, 'rad'],
    ['45 %', 45, '%'],
    ['2.9kg', 2.9, 'kg'],
    ['104 oz', 104, 'oz'],
    ['6 lbs', 6, 'lb'],
    ['6 lb 8 oz', 6.5, 'lb'],
    ['2 px', 2, 'px'],
    // Known to no dimension of the sheet: handed on as typed, so that the message can name it.
    ['3 ft', 3, 'ft'],
  ])('%j', (text, number, unit) => {
    expect(read(text)).toEqual([number, unit]);
  });
});

describe('units of force, moment, time and inertia', () => {
  test.each([
    ['12 N', 12, 'N'],
    ['0.8 Nm', 0.8, 'N·m'],
    ['0.8 N·m', 0.8, 'N·m'],
    ['0.8 N*m', 0.8, 'N·m'],
    ['3 lbf in', 3, 'lbf·in'],
    ['1.25 s', 1.25, 's'],
    ['0.032 kg m2', 0.032, 'kg·m²'],
    ['320 kg·cm²', 320, 'kg·cm²'],
    ['7 mm2', 7, 'mm2'],
  ])('%j', (text, number, unit) => {
    const parsed = parseNumber(text);
    expect(parsed.ok && [parsed.value.number, parsed.value.unit]).toEqual([number, unit]);
  });
});

describe('no number', () => {
  test.each([
    ['', 'empty'],
    ['   ', 'empty'],
    ['abc', 'not-a-number'],
    ['mm', 'not-a-number'],
    ['-', 'not-a-number'],
    ['NaN', 'not-a-number'],
    ['Infinity', 'not-a-number'],
    ['3/0', 'not-a-number'],
    ['1/2/3', 'not-a-number'],
    ['1.2.3', 'not-a-number'],
    ['1,2,3', 'not-a-number'],
    ['12 13', 'not-a-number'],
    ['12 mm 3', 'not-a-number'],
    ['--4', 'not-a-number'],
    ['1,234', 'ambiguous'],
    ['1e999', 'too-big'],
  ])('%j is %s', (text, reason) => {
    expect(read(text)).toBe(reason);
  });

  test('with two meanings says both', () => {
    expect(parseNumber('1,234')).toMatchObject({
      message: 'needs one meaning; got “1,234”. Type 1.234 or 1234.',
    });
  });
});
