/**
 * What many draws of one quantity say of it: JCGM 101:2008, 7.5 to 7.7 and 7.9.4.
 */

/** Ends of an interval. */
export interface Interval {
  readonly low: number;
  readonly high: number;
}

/** Which of the intervals with the probability asked for. Symmetric: as much left out below as above. */
export type IntervalKind = 'symmetric' | 'shortest';

/** A quantity as drawn. Numbers are in its own unit. */
export interface Distribution {
  readonly count: number;
  /** Eq. (16). */
  readonly mean: number;
  /** Standard uncertainty, eq. (17). */
  readonly u: number;
  /** Coverage probability of the intervals. */
  readonly probability: number;
  readonly symmetric: Interval;
  readonly shortest: Interval;
}

/** Draws in rising order: the discrete representation of the law (7.5). */
const sorted = (draws: Float64Array): Float64Array => Float64Array.from(draws).sort();

/** How many draws the interval spans, q of 7.7.1. */
const spanned = (count: number, probability: number): number => {
  const exact = probability * count;
  // A product that should be whole may miss it by rounding.
  const whole = Math.round(exact);
  return Math.abs(exact - whole) < 1e-9 * count ? whole : Math.floor(exact + 0.5);
};

function intervalOf(inOrder: Float64Array, probability: number, kind: IntervalKind): Interval {
  const count = inOrder.length;
  const q = Math.min(spanned(count, probability), count - 1);
  const from = (r: number): Interval => ({ low: inOrder[r - 1] ?? NaN, high: inOrder[r + q - 1] ?? NaN });
  if (kind === 'symmetric') {
    const left = (count - q) / 2;
    return from(Math.max(1, Number.isInteger(left) ? left : Math.floor(left + 0.5)));
  }
  let best = from(1);
  for (let r = 2; r <= count - q; r++) {
    const next = from(r);
    if (next.high - next.low < best.high - best.low) best = next;
  }
  return best;
}

const meanOf = (draws: Float64Array): number => {
  // About the first draw: the draws may be large beside their spread.
  const base = draws[0] ?? NaN;
  let sum = 0;
  for (const draw of draws) sum += draw - base;
  return base + sum / draws.length;
};

const deviationOf = (draws: Float64Array): number => {
  const mean = meanOf(draws);
  let sum = 0;
  for (const draw of draws) sum += (draw - mean) ** 2;
  return Math.sqrt(sum / (draws.length - 1));
};

/**
 * Mean, standard uncertainty and both coverage intervals of a quantity from two or more finite draws, in any order.
 * JCGM 101:2008, 7.6 and 7.7; `probability` of the intervals, 0 to 1.
 */
export function distributionOf(draws: Float64Array, probability = 0.95): Distribution {
  const inOrder = sorted(draws);
  return {
    count: draws.length,
    mean: meanOf(draws),
    u: deviationOf(draws),
    probability,
    symmetric: intervalOf(inOrder, probability, 'symmetric'),
    shortest: intervalOf(inOrder, probability, 'shortest'),
  };
}

/** Draws of a batch beyond which more batches are better than larger ones (7.9.4 b). */
const BATCH = 10_000;
const FEWEST_BATCHES = 10;

/**
 * Standard errors of the ends of an interval taken from all `draws`, from how the ends of batches of them vary:
 * JCGM 101:2008, 7.9.4. At least ten batches, each of at least 100/(1 − probability) draws; null with fewer draws.
 * `draws` are in the order drawn.
 */
export function standardErrors(
  draws: Float64Array,
  probability: number,
  kind: IntervalKind,
): Interval | null {
  const batches = Math.max(FEWEST_BATCHES, Math.floor(draws.length / BATCH));
  const size = Math.floor(draws.length / batches);
  // Written around the rounding of 1 − 0.95.
  if (size < 100 / (1 - probability) - 1e-6) return null;
  const ends = Array.from({ length: batches }, (_, k) =>
    intervalOf(sorted(draws.subarray(k * size, (k + 1) * size)), probability, kind),
  );
  const error = (end: keyof Interval) =>
    deviationOf(Float64Array.from(ends, (each) => each[end])) / Math.sqrt(batches);
  return { low: error('low'), high: error('high') };
}
