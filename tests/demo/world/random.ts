/** Random numbers of the invented world: small, seeded, the same on every machine. */
export interface Random {
  /** Uniform in [0, 1). */
  unit(): number;
  /** Uniform between two numbers. */
  between(low: number, high: number): number;
  /** A magnitude between two numbers with a random sign. */
  eitherSign(low: number, high: number): number;
  /** Normal with mean 0 and standard deviation 1. */
  normal(): number;
}

/**
 * Mulberry32, a 32-bit generator in the public domain, with the Box-Muller transform for the normal law. The
 * label separates streams drawn from the same number, so that a new draw in one place leaves the others alone.
 */
export const random = (number: number, label = ''): Random => {
  let state = number >>> 0;
  for (const letter of label) state = Math.imul(state ^ letter.charCodeAt(0), 0x01000193) >>> 0;
  const unit = (): number => {
    state = (state + 0x6d2b79f5) >>> 0;
    let mixed = Math.imul(state ^ (state >>> 15), 1 | state);
    mixed = (mixed + Math.imul(mixed ^ (mixed >>> 7), 61 | mixed)) ^ mixed;
    return ((mixed ^ (mixed >>> 14)) >>> 0) / 4294967296;
  };
  const between = (low: number, high: number): number => low + (high - low) * unit();
  return {
    unit,
    between,
    eitherSign: (low, high) => (unit() < 0.5 ? -1 : 1) * between(low, high),
    normal: () => Math.sqrt(-2 * Math.log(1 - unit())) * Math.cos(2 * Math.PI * unit()),
  };
};
