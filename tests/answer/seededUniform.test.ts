import { describe, expect, test } from 'vitest';
import { seededUniform, xoshiro128 } from '../../src/answer/seededUniform';
import { chiSquaredProbability } from '../../src/physics';
import { tolerance } from '../tolerances';

describe('seeded uniform numbers', () => {
  // Output of the authors' own program, xoshiro128starstar.c 1.1, as in the tests of the Rust crate rand_xoshiro; seen.
  test('come from the published generator', () => {
    const bits = xoshiro128([1, 2, 3, 4]);
    expect(Array.from({ length: 10 }, bits)).toEqual([
      11520, 0, 5927040, 70819200, 2031721883, 1637235492, 1287239034, 3734860849, 3729100597, 4258142804,
    ]);
  });

  test('repeat from one start, differ from the next', () => {
    const from = (start: number) => Array.from({ length: 20 }, seededUniform(start));
    expect(from(7)).toEqual(from(7));
    expect(from(7)).not.toEqual(from(8));
    expect(new Set([0, 1, -1, 2 ** 31, 2 ** 32 - 2].map((start) => from(start)[0])).size).toBe(5);
  });

  test.each([0, 1, 2, 2026])('fill [0, 1) evenly, singly and in pairs, from %i', (start) => {
    const uniform = seededUniform(start);
    const bins = 16;
    const singles = new Array<number>(bins).fill(0);
    const pairs = new Array<number>(bins * bins).fill(0);
    const draws = 64_000;
    let outside = 0;
    for (let k = 0; k < draws; k++) {
      const [a, b] = [uniform(), uniform()];
      if (!(a >= 0 && a < 1)) outside += 1;
      const place = Math.floor(a * bins);
      singles[place] = (singles[place] ?? 0) + 1;
      const pair = place * bins + Math.floor(b * bins);
      pairs[pair] = (pairs[pair] ?? 0) + 1;
    }
    expect(outside).toBe(0);
    for (const counts of [singles, pairs]) {
      const expected = draws / counts.length;
      const misfit = counts.reduce((sum, count) => sum + (count - expected) ** 2 / expected, 0);
      const chance = chiSquaredProbability(misfit, counts.length - 1);
      expect(chance).toBeGreaterThan(tolerance('monte carlo: chance'));
      expect(chance).toBeLessThan(1 - tolerance('monte carlo: chance'));
    }
  });

  test('of neighboring starts have nothing in common', () => {
    const firsts = Array.from({ length: 4000 }, (_, start) => seededUniform(start)());
    const mean = firsts.reduce((sum, value) => sum + value, 0) / firsts.length;
    let lag = 0;
    let square = 0;
    firsts.forEach((value, i) => {
      lag += (value - mean) * ((firsts[i + 1] ?? mean) - mean);
      square += (value - mean) ** 2;
    });
    // Four standard errors of a correlation.
    expect(Math.abs(lag / square)).toBeLessThan(4 / Math.sqrt(firsts.length));
  });
});
