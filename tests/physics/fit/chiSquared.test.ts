import fc from 'fast-check';
import { erf, gamma } from 'mathjs';
import { describe, expect, test } from 'vitest';
import {
  chiSquaredProbability,
  chiSquaredQuantile,
  logGamma,
  lowerGamma,
  normalProbability,
  upperGamma,
} from '../../../src/physics';
import { tolerance } from '../../tolerances';
import { between } from '../given';

const exact = tolerance('physics: normal law');
const relative = tolerance('physics: rounding');

/** NIST/SEMATECH e-Handbook of Statistical Methods, 1.3.6.7.4, upper critical values; from memory, recomputed. */
const CRITICAL = [
  { dof: 1, probability: 0.95, chiSquared: 3.841 },
  { dof: 2, probability: 0.95, chiSquared: 5.991 },
  { dof: 10, probability: 0.95, chiSquared: 18.307 },
  { dof: 5, probability: 0.99, chiSquared: 15.086 },
  { dof: 30, probability: 0.9, chiSquared: 40.256 },
  { dof: 100, probability: 0.999, chiSquared: 149.449 },
];

describe('chi-squared', () => {
  test.each(CRITICAL)('$dof degrees of freedom, $probability', ({ dof, probability, chiSquared }) => {
    const lastDigit = 0.001 * tolerance('published: last digit');
    expect(Math.abs(chiSquaredQuantile(probability, dof) - chiSquared)).toBeLessThanOrEqual(lastDigit);
  });

  test('even degrees of freedom have a closed form', () => {
    fc.assert(
      fc.property(between(0, 200), (x) => {
        expect(Math.abs(chiSquaredProbability(x, 2) - Math.exp(-x / 2))).toBeLessThan(exact);
        expect(Math.abs(chiSquaredProbability(x, 4) - Math.exp(-x / 2) * (1 + x / 2))).toBeLessThan(exact);
      }),
    );
  });

  test('the quantile undoes the probability', () => {
    fc.assert(
      fc.property(between(0.001, 0.999), fc.integer({ min: 1, max: 60 }), (p, dof) => {
        expect(Math.abs(1 - chiSquaredProbability(chiSquaredQuantile(p, dof), dof) - p)).toBeLessThan(
          relative,
        );
      }),
    );
  });

  test('the far tail keeps its digits', () => {
    const tail = chiSquaredProbability(200, 2);
    expect(Math.abs(tail / Math.exp(-100) - 1)).toBeLessThan(relative);
  });

  test('both branches meet where they change over', () => {
    for (const a of [0.5, 1, 7.5, 60]) {
      const at = a + 1;
      expect(Math.abs(lowerGamma(a, at - 1e-9) + upperGamma(a, at + 1e-9) - 1)).toBeLessThan(2e-9);
    }
  });

  test('outside its range it is not a number', () => {
    expect(chiSquaredProbability(-1, 2)).toBeNaN();
    expect(chiSquaredProbability(1, 0)).toBeNaN();
    expect(chiSquaredQuantile(1, 2)).toBeNaN();
    expect(logGamma(0)).toBeNaN();
  });
});

describe('normal law and gamma function', () => {
  test('against the error function of mathjs', () => {
    fc.assert(
      fc.property(between(-6, 6), (z) => {
        expect(Math.abs(normalProbability(z) - (1 + erf(z / Math.SQRT2)) / 2)).toBeLessThan(exact);
      }),
    );
  });
  test('against the gamma function of mathjs', () => {
    fc.assert(
      fc.property(between(0.05, 100), (a) => {
        const theirs = Math.log(gamma(a));
        expect(Math.abs(logGamma(a) - theirs)).toBeLessThan(relative * Math.max(1, Math.abs(theirs)));
      }),
    );
  });
});
