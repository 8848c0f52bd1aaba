/**
 * The chi-squared and normal laws, from the incomplete gamma function.
 * Equation numbers are those of the NIST Digital Library of Mathematical Functions (DLMF).
 */

/** Relative size at which a series or continued fraction stops: a few units in the last place of a double. */
const RELATIVE_STOP = 1e-16;
/** Far more terms than any argument met here takes (about sqrt(a) + 30); reached only by a non-finite argument. */
const MOST_TERMS = 100_000;

/** Coefficients B(2k)/(2k(2k−1)) of Stirling's series, k = 1 to 7; DLMF 5.11.1. */
const STIRLING = [1 / 12, -1 / 360, 1 / 1260, -1 / 1680, 1 / 1188, -691 / 360_360, 1 / 156];

/**
 * Natural logarithm of the gamma function, a > 0. DLMF 5.11.1 after raising a above 10 by the recurrence
 * 5.5.1; the first term left out is below 1e-15 there. NaN for a ≤ 0.
 */
export const logGamma = (a: number): number => {
  if (!(a > 0)) return NaN;
  let raised = a;
  let product = 1;
  while (raised < 10) {
    product *= raised;
    raised += 1;
  }
  const series = STIRLING.reduceRight((sum, coefficient) => sum / raised ** 2 + coefficient, 0) / raised;
  return (
    (raised - 0.5) * Math.log(raised) - raised + 0.5 * Math.log(2 * Math.PI) + series - Math.log(product)
  );
};

/** P(a, x) by its power series, DLMF 8.11.4; converges fast for x < a + 1. */
const lowerBySeries = (a: number, x: number): number => {
  let term = 1 / a;
  let sum = term;
  for (let k = 1; k < MOST_TERMS && term > sum * RELATIVE_STOP; k += 1) {
    term *= x / (a + k);
    sum += term;
  }
  return sum * Math.exp(-x + a * Math.log(x) - logGamma(a));
};

/** Q(a, x) by the even part of the continued fraction DLMF 8.9.2, by Lentz's method (DLMF 3.10(iii)); for x ≥ a + 1. */
const upperByFraction = (a: number, x: number): number => {
  const tiny = Number.MIN_VALUE / RELATIVE_STOP;
  let b = x + 1 - a;
  let c = 1 / tiny;
  let d = 1 / b;
  let fraction = d;
  for (let k = 1; k < MOST_TERMS; k += 1) {
    const numerator = -k * (k - a);
    b += 2;
    d = numerator * d + b;
    d = 1 / (Math.abs(d) < tiny ? tiny : d);
    c = b + numerator / c;
    if (Math.abs(c) < tiny) c = tiny;
    fraction *= c * d;
    if (Math.abs(c * d - 1) < 4 * RELATIVE_STOP) break;
  }
  return fraction * Math.exp(-x + a * Math.log(x) - logGamma(a));
};

/** Regularized lower incomplete gamma function P(a, x), DLMF 8.2.4; a > 0, x ≥ 0, else NaN. */
export const lowerGamma = (a: number, x: number): number => {
  if (!(a > 0) || !(x >= 0)) return NaN;
  if (x === 0) return 0;
  if (x === Infinity) return 1;
  return x < a + 1 ? lowerBySeries(a, x) : 1 - upperByFraction(a, x);
};

/** Regularized upper incomplete gamma function Q(a, x) = 1 − P(a, x), exact far in the tail too. */
export const upperGamma = (a: number, x: number): number => {
  if (!(a > 0) || !(x >= 0)) return NaN;
  if (x === 0) return 1;
  if (x === Infinity) return 0;
  return x < a + 1 ? 1 - lowerBySeries(a, x) : upperByFraction(a, x);
};

/**
 * Probability that a chi-squared of `degreesOfFreedom` (> 0) comes out at least as large as `chiSquared` by
 * chance: Q(ν/2, χ²/2), DLMF 8.2.4. NaN outside that range.
 */
export const chiSquaredProbability = (chiSquared: number, degreesOfFreedom: number): number =>
  upperGamma(degreesOfFreedom / 2, chiSquared / 2);

/**
 * The chi-squared that is not exceeded with `probability` (0 to 1, exclusive), by bisection to the last digits.
 * NaN for arguments out of range.
 */
export const chiSquaredQuantile = (probability: number, degreesOfFreedom: number): number => {
  if (!(probability > 0 && probability < 1) || !(degreesOfFreedom > 0)) return NaN;
  let low = 0;
  let high = degreesOfFreedom + 10;
  while (lowerGamma(degreesOfFreedom / 2, high / 2) < probability) high *= 2;
  for (let step = 0; step < 200 && high - low > high * 1e-15; step += 1) {
    const middle = (low + high) / 2;
    if (lowerGamma(degreesOfFreedom / 2, middle / 2) < probability) low = middle;
    else high = middle;
  }
  return (low + high) / 2;
};

/** Density of the standard normal law. */
export const normalDensity = (z: number): number => Math.exp((-z * z) / 2) / Math.sqrt(2 * Math.PI);

/** Cumulative standard normal law: erfc(z) = Q(1/2, z²), DLMF 7.11.2, so that both tails keep their digits. */
export const normalProbability = (z: number): number => {
  const tail = upperGamma(0.5, (z * z) / 2) / 2;
  return z < 0 ? tail : 1 - tail;
};
