import type { BuildState } from '../sheet/schema';

/** How often chance alone would do it, in words. */
export const chance = (probability: number, body: BuildState['body']): string =>
  probability < 0.001
    ? `in less than one of a thousand ${body}s measured as well`
    : `in about one of ${Math.round(1 / probability)} ${body}s measured as well`;
