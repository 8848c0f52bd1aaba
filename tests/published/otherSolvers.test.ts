import { bignumber, create, all } from 'mathjs';
import { levenbergMarquardt } from 'ml-levenberg-marquardt';
import { describe, expect, test } from 'vitest';
import { adjust } from '../../src/physics';
import type { Observation, Unknown } from '../../src/physics';
import { valueOf } from '../physics/given';
import { tolerance } from '../tolerances';
import { agreeWithPrint } from './published';

/**
 * A saturation curve, rate = V c / (K + c), as D. M. Bates and D. G. Watts, Nonlinear Regression Analysis and Its
 * Applications (1988), A1.3, fit it to the rates of an enzyme treated with puromycin. Data and results seen in copies (courses,
 * a public library's tests).
 */
const CONCENTRATION = [0.02, 0.02, 0.06, 0.06, 0.11, 0.11, 0.22, 0.22, 0.56, 0.56, 1.1, 1.1];
const RATE = [76, 47, 97, 107, 123, 139, 159, 152, 191, 201, 207, 200];

const curve = (V: number, K: number) => (c: number) => (V * c) / (K + c);
const unknown = (name: string, start: number): Unknown => ({ name, start, scale: start, negligible: 1e-15 });
const UNKNOWNS = [unknown('V', 200), unknown('K', 0.1)];

/** Readings `from` to `from + size` as one observation; derivative by differences unless `exact`. */
const observation = (
  from: number,
  size: number,
  uncertainty: Observation['uncertainty'],
  exact: boolean,
): Observation => {
  const at = CONCENTRATION.slice(from, from + size);
  return {
    name: `rate ${from + 1}`,
    depends: [0, 1],
    predict: ([V = NaN, K = NaN]) => at.map(curve(V, K)),
    values: RATE.slice(from, from + size),
    uncertainty,
    ...(exact
      ? {
          derivative: ([V = NaN, K = NaN]: Float64Array) =>
            at.map((c) => [c / (K + c), (-V * c) / (K + c) ** 2]),
        }
      : {}),
  };
};

const correlation = (covariance: { get(i: number, j: number): number }): number =>
  covariance.get(0, 1) / Math.sqrt(covariance.get(0, 0) * covariance.get(1, 1));

describe('in print', () => {
  const u = 1e-6;
  const fit = valueOf(
    adjust(
      UNKNOWNS,
      CONCENTRATION.map((_, i) => observation(i, 1, [u], true)),
    ),
  );
  const spread = u * Math.sqrt(fit.chiSquared / fit.degreesOfFreedom);
  const row = (what: string, ours: number, printed: number, unit: string, lastDigit: number) => ({
    id: 'puromycin',
    what,
    source: 'Bates and Watts 1988, 2.3',
    status: 'seen + recomputed' as const,
    ours: () => ours,
    printed,
    unit,
    lastDigit,
  });
  const deviation = (i: number) => (Math.sqrt(fit.covariance.get(i, i)) / u) * spread;
  agreeWithPrint([
    row('V', fit.unknowns[0] ?? NaN, 212.7, 'counts/min²', 0.1),
    row('K', fit.unknowns[1] ?? NaN, 0.06412, 'ppm', 1e-5),
    row('deviation of V', deviation(0), 6.947, 'counts/min²', 1e-3),
    row('deviation of K', deviation(1), 8.281e-3, 'ppm', 1e-6),
    row('correlation', correlation(fit.covariance), 0.7651, '1', 1e-4),
    row('residual deviation', spread, 10.93, 'counts/min²', 0.01),
  ]);
});

/** Weights as where the spread grows with the rate. */
const U = RATE.map((rate) => 2 + 0.05 * rate);

test('weighted: the Levenberg-Marquardt solver of the package ml-levenberg-marquardt finds the same place', () => {
  const fit = valueOf(
    adjust(
      UNKNOWNS,
      U.map((u, i) => observation(i, 1, [u * 1e-6], false)),
    ),
  );
  // Whitened by hand, reading number for abscissa: its own weights enter its steps and its misfit differently.
  const whitened = (of: (c: number) => number) => (i: number) => of(CONCENTRATION[i] ?? NaN) / (U[i] ?? NaN);
  const theirs = levenbergMarquardt(
    { x: RATE.map((_, i) => i), y: RATE.map((rate, i) => rate / (U[i] ?? NaN)) },
    ([V = NaN, K = NaN]) => whitened(curve(V, K)),
    {
      initialValues: [200, 0.1],
      jacobianFunction:
        ([V = NaN, K = NaN]) =>
        (i) => [whitened((c) => c / (K + c))(i), whitened((c) => (-V * c) / (K + c) ** 2)(i)],
      maxIterations: 300,
      errorTolerance: 1e-14,
    },
  );
  const us = [...fit.unknowns];
  theirs.parameterValues.forEach((value, i) =>
    expect(Math.abs((us[i] ?? NaN) / value - 1), `unknown ${i}: ${us[i]} and ${value}`).toBeLessThan(
      tolerance('published: other solver'),
    ),
  );
  expect(Math.abs((fit.chiSquared * 1e-12) / theirs.parameterError - 1)).toBeLessThan(
    tolerance('published: other solver'),
  );
});

/** Newton's steps to the rest of JᵀWr with 50 digits, slopes by symbolic differentiation: all of it by mathjs. */
const math = create(all ?? {}, { number: 'BigNumber', precision: 50 });
const bySymbols = (weights: readonly (readonly number[])[]) => {
  const model = math.parse('V * c / (K + c)');
  const slopes = ['V', 'K'].map((name) => math.derivative(model, name).compile());
  const value = model.compile();
  const rates = RATE.map((rate) => bignumber(rate));
  const concentrations = CONCENTRATION.map((c) => bignumber(c));
  const covariance = math.matrix(weights.map((row) => row.map((entry) => bignumber(entry))));
  const W = math.inv(covariance);
  let V = bignumber(200);
  let K = bignumber(0.1);
  for (let step = 0; ; step++) {
    const scopes = concentrations.map((c) => ({ V, K, c }));
    const J = math.matrix(scopes.map((scope) => slopes.map((slope) => slope.evaluate(scope))));
    const r = math.matrix(scopes.map((scope, i) => math.subtract(rates[i], value.evaluate(scope))));
    const JtW = math.multiply(math.transpose(J), W);
    const C = math.inv(math.multiply(JtW, J));
    const move = math.multiply(C, math.multiply(JtW, r));
    if (step === 60) {
      const chiSquared = math.multiply(math.multiply(r, W), r);
      return {
        unknowns: [Number(V), Number(K)],
        covariance: { get: (i: number, j: number) => Number(C.get([i, j])) },
        chiSquared: Number(chiSquared),
      };
    }
    V = math.add(V, move.get([0]));
    K = math.add(K, move.get([1]));
  }
};

describe.each([
  ['slopes given', true],
  ['slopes by differences', false],
])('correlated pairs, %s', (_, exact) => {
  // The two rates of one concentration share half their variance: one solution, filled twice.
  const pairs = Array.from({ length: 6 }, (__, k) => {
    const [a = NaN, b = NaN] = U.slice(2 * k, 2 * k + 2).map((u) => u * 1e-6);
    return [
      [a * a, 0.5 * a * b],
      [0.5 * a * b, b * b],
    ];
  });
  const fit = valueOf(
    adjust(
      UNKNOWNS,
      pairs.map((covariance, k) => observation(2 * k, 2, covariance, exact)),
    ),
  );
  const whole = RATE.map((__, i) =>
    RATE.map((___, j) =>
      Math.floor(i / 2) === Math.floor(j / 2) ? (pairs[Math.floor(i / 2)]?.[i % 2]?.[j % 2] ?? NaN) : 0,
    ),
  );
  const theirs = bySymbols(whole);
  const limit = tolerance(exact ? 'published: other solver, slopes given' : 'published: other solver');
  test('unknowns', () =>
    theirs.unknowns.forEach((value, i) =>
      expect(Math.abs((fit.unknowns[i] ?? NaN) / value - 1)).toBeLessThan(limit),
    ));
  test('covariance', () => {
    for (const i of [0, 1])
      expect(Math.abs(fit.covariance.get(i, i) / theirs.covariance.get(i, i) - 1)).toBeLessThan(limit);
    expect(Math.abs(correlation(fit.covariance) - correlation(theirs.covariance))).toBeLessThan(limit);
  });
  test('chi-squared', () => expect(Math.abs(fit.chiSquared / theirs.chiSquared - 1)).toBeLessThan(limit));
});
