import { describe, expect, test } from 'vitest';
import {
  asSpeech,
  asText,
  decimalsFor,
  fixed,
  keepNumbers,
  showAngle,
  showLength,
  showMass,
  typedNumber,
} from '../../src/calculators/shared/format';
import { degrees, grams, kilograms, meters, millimeters, radians } from '../../src/physics';

/** u of a ± given in millimeters. */
const uOfMillimeters = (plusMinus: number): number => plusMinus / 1000 / 1.959964;

describe('a number on the page', () => {
  test.each([
    [148, 1, '148.0'],
    [-3.04, 1, '−3.0'],
    [-0.04, 1, '0.0'],
    [-0.4, 0, '0'],
    [1234.5, 0, '1235'],
  ])('%d with %d places reads %s', (value, places, text) => {
    expect(fixed(value, places)).toBe(text);
  });

  // Two significant digits of the uncertainty: JCGM 100:2008, 7.2.6; one place at most, as bench sheets are read.
  test.each([
    [1.13, 1],
    [0.72, 1],
    [12.3, 0],
    [123, 0],
    [9.96, 1],
    [0.04, 2],
    [0.004, 3],
    [0, 1],
  ])('± %d is shown with %d places', (plusMinus, places) => {
    expect(decimalsFor(plusMinus)).toBe(places);
  });

  test('value and ± end at the same place', () => {
    expect(showLength({ value: millimeters(94.04), u: uOfMillimeters(1.77) })).toEqual({
      value: '94.0',
      plusMinus: '1.8',
      unit: 'mm',
    });
    expect(showLength({ value: millimeters(148.4), u: uOfMillimeters(24) })).toMatchObject({
      value: '148',
      plusMinus: '24',
    });
  });

  test('the ± is 1.96 u, whatever the unit', () => {
    expect(showLength({ value: meters(0.254), u: 0.0254 / 1.959964 }, 'in')).toMatchObject({
      value: '10.0',
      plusMinus: '1.0',
    });
    expect(showMass({ value: grams(2940), u: 0.008 / 1.959964 })).toMatchObject({
      value: '2940',
      plusMinus: '8',
    });
    expect(showMass({ value: kilograms(2.94), u: 0.02 / 1.959964 }, 'kg')).toMatchObject({
      value: '2.940',
      plusMinus: '0.020',
    });
    expect(showAngle({ value: degrees(43.83), u: radians(degrees(0.7)) / 1.959964 })).toMatchObject({
      value: '43.8',
      plusMinus: '0.7',
    });
  });

  test('as one line, and spoken', () => {
    expect(asText({ value: '94.0', plusMinus: '1.8', unit: 'mm' })).toBe('94.0\u00a0±\u00a01.8\u00a0mm');
    expect(asText({ value: '43.8', plusMinus: '0.7', unit: '°' })).toBe('43.8°\u00a0±\u00a00.7°');
    expect(asText({ value: '3', plusMinus: '', unit: 'mm' })).toBe('3\u00a0mm');
    expect(asSpeech({ value: '−3.0', plusMinus: '1.3', unit: 'mm' })).toBe(
      'minus 3.0 plus or minus 1.3 millimeters',
    );
  });
});

test('sentences keep a number with its ± and unit', () => {
  expect(keepNumbers('height ± 1.0 mm becomes ± 0.7 mm')).toBe(
    'height ±\u00a01.0\u00a0mm becomes ±\u00a00.7\u00a0mm',
  );
  expect(keepNumbers('tips at 39.8° ± 0.5°, 12 marks')).toBe('tips at 39.8°\u00a0±\u00a00.5°, 12 marks');
});

test('a typed hyphen is read as a minus sign', () => {
  expect(typedNumber(' -55.5')).toBe('−55.5');
  expect(typedNumber('252.0')).toBe('252.0');
});
