import { describe, expect, test } from 'vitest';
import { stepTyped } from '../../src/calculators/shared/stepTyped';

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
