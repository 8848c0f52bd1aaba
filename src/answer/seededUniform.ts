/**
 * Uniform numbers on [0, 1) with 53 random bits, the same on every machine for the same start: xoshiro128** 1.1 of
 * D. Blackman and S. Vigna, Scrambled Linear Pseudorandom Number Generators, ACM Trans. Math. Softw. 47 (2021) 36; period
 * 2¹²⁸ − 1. The physics module takes such a source wherever it draws.
 */
export function seededUniform(start: number): () => number {
  const bits = xoshiro128(spread(start));
  // Upper 27 and 26 bits of two draws.
  return () => ((bits() >>> 5) * 2 ** 26 + (bits() >>> 6)) / 2 ** 53;
}

export type XoshiroState = readonly [number, number, number, number];

/** The generator itself: 32-bit numbers, from a state that is not all zero. */
export function xoshiro128(state: XoshiroState): () => number {
  let [a, b, c, d] = state;
  return () => {
    const product = Math.imul(b, 5);
    const result = Math.imul((product << 7) | (product >>> 25), 9) >>> 0;
    const shifted = b << 9;
    c ^= a;
    d ^= b;
    b ^= c;
    a ^= d;
    c ^= shifted;
    d = (d << 11) | (d >>> 21);
    return result;
  };
}

/**
 * Four words from one number: a Weyl sequence through the 32-bit finalizer of MurmurHash3 (A. Appleby, public domain),
 * one to one, so that no two of them are zero at once. States made so are unlike each other even for neighboring starts,
 * as the generator's authors ask.
 */
function spread(start: number): XoshiroState {
  let weyl = start >>> 0;
  const next = () => {
    weyl = (weyl + 0x9e3779b9) >>> 0;
    let mixed = weyl;
    mixed = Math.imul(mixed ^ (mixed >>> 16), 0x85ebca6b);
    mixed = Math.imul(mixed ^ (mixed >>> 13), 0xc2b2ae35);
    return (mixed ^ (mixed >>> 16)) >>> 0;
  };
  return [next(), next(), next(), next()];
}
