import { describe, expect, test } from 'vitest';
import { stepTyped } from '../../src/calculators/shared/stepTyped';
import { splitUnit } from '../../src/calculators/shared/typedUnit';

const LENGTHS = ['mm', 'cm', 'm', 'in'];

describe('a unit typed behind the number', () => {
  test.each([
    ['12.3 in', '12.3', 'in'],
    ['12.3in', '12.3', 'in'],
    ['12.3"', '12.3', 'in'],
    ['12.3 inches', '12.3', 'in'],
    ['31,3 CM', '31,3', 'cm'],
    ['−3 mm', '−3', 'mm'],
    [' 313 ', '313', null],
    ['', '', null],
  ])('%j is %j in %j', (typed, text, unit) => {
    expect(splitUnit(typed, LENGTHS)).toEqual({ text, unit });
  });

  test('a unit of another kind stays in the text, to be seen and mended', () => {
    expect(splitUnit('12 kg', LENGTHS)).toEqual({ text: '12 kg', unit: null });
    expect(splitUnit('twelve mm', LENGTHS)).toEqual({ text: 'twelve mm', unit: null });
  });

  test('degrees by sign', () => {
    expect(splitUnit('118°', ['deg'])).toEqual({ text: '118', unit: 'deg' });
  });
});

describe('a step by arrow key', () => {
  test.each([
    ['313.0', 1, '314.0'],
    ['313', 0.1, '313.1'],
    ['0.1', -0.1, '0.0'],
    ['−3', 1, '-2'],
    ['31,3', 0.1, '31.4'],
    ['12.345', 1, '13.345'],
  ])('%j by %d is %j', (text, step, after) => {
    expect(stepTyped(text, step)).toBe(after);
  });

  test('what is no number is not stepped', () => {
    expect(stepTyped('', 1)).toBeNull();
    expect(stepTyped('abc', 1)).toBeNull();
  });
});
