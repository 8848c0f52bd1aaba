/** How often chance alone would do it, in words. */
export const chance = (probability: number): string =>
  probability < 0.001
    ? 'in less than one of a thousand trucks measured as well'
    : `in about one of ${Math.round(1 / probability)} trucks measured as well`;
