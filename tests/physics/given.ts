import fc from 'fast-check';
import type { Result } from '../../src/physics';

/** The value of a result that must not be a refusal here. */
export const valueOf = <Value>(result: Result<Value>): Value => {
  if (!result.ok) throw new Error(`refused: ${result.reason}: ${result.message}`);
  return result.value;
};

/** The reason of a result that must be a refusal. */
export const reasonOf = <Reason extends string>(result: Result<unknown, Reason>): Reason => {
  if (result.ok) throw new Error('expected a refusal');
  return result.reason;
};

/** Uniform numbers on [0, 1) from a seed: a Weyl sequence through a 32-bit mixer (splitmix32), period 2³². */
export const seeded = (seed: number): (() => number) => {
  let state = seed >>> 0;
  return () => {
    state = (state + 0x9e3779b9) >>> 0;
    let mixed = state ^ (state >>> 16);
    mixed = Math.imul(mixed, 0x21f0aaad);
    mixed ^= mixed >>> 15;
    mixed = Math.imul(mixed, 0x735a2d97);
    mixed ^= mixed >>> 15;
    return (mixed >>> 0) / 2 ** 32;
  };
};

/** Doubles from `min` to `max`, neither NaN nor infinite. */
export const between = (min: number, max: number): fc.Arbitrary<number> =>
  fc.double({ min, max, noNaN: true, noDefaultInfinity: true });

/** A correlation matrix of any size from a seed: products of unit vectors leaning their own way, slightly loosened. */
export const correlation = (size: number): fc.Arbitrary<number[][]> =>
  fc.integer().map((seed) => {
    const uniform = seeded(seed);
    const unit = Array.from({ length: size }, (_, i) => {
      const row = Array.from({ length: size }, (__, j) => 2 * uniform() - 1 + (i === j ? 1 : 0));
      const norm = Math.hypot(...row);
      return row.map((value) => value / norm);
    });
    return unit.map((a, i) =>
      unit.map((b, j) => (i === j ? 1 : 0.95 * a.reduce((sum, value, k) => sum + value * (b[k] ?? 0), 0))),
    );
  });

/** Covariance from standard uncertainties and a correlation matrix. */
export const covarianceOf = (
  u: readonly number[],
  correlations: readonly (readonly number[])[],
): number[][] => u.map((a, i) => u.map((b, j) => a * b * (correlations[i]?.[j] ?? NaN)));

/** Greatest difference of two matrices, over the root of their diagonals' product: correlations compared, in effect. */
export const covarianceGap = (a: readonly (readonly number[])[], b: readonly (readonly number[])[]): number =>
  Math.max(
    ...a.flatMap((row, i) =>
      row.map((value, j) => {
        const scale = Math.sqrt((b[i]?.[i] ?? NaN) * (b[j]?.[j] ?? NaN));
        return Math.abs(value - (b[i]?.[j] ?? NaN)) / scale;
      }),
    ),
  );
