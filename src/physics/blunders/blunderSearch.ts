import { adjustTruck, type TruckAdjustment, type TruckRefusal } from '../estimate/adjustTruck';
import { chiSquaredProbability, chiSquaredQuantile, normalProbability } from '../fit/chiSquared';
import { type Result, success } from '../quantities';
import { type Reliability, residualCorrelation } from '../estimate/reliability';
import type { TruckBench, TruckReading } from '../estimate/truckReadings';

/**
 * Which number of a bench is most likely wrong, if one is, and which others could be wrong instead.
 *
 * One blunder is looked for at a time, after Baarda (1968): of all numbers checked, the one with the largest normalized
 * residual w. With number k left out, chi-squared is smaller by w_k²; so w_a² − w_b² is by how much better "a is wrong"
 * explains the readings than "b is wrong" (twice the logarithm of the ratio of their likelihoods).
 */

/** Part of clean benches in which some number is named by chance: two-sided, over all distinct tests of a bench. */
const FALSE_ALARMS = 0.05;
/**
 * Part of benches in which the wrong number would be missing from the group that is named. If k is the wrong one, then
 * whatever its error, (w_a − ρ w_k)/√(1 − ρ²) is standard normal for every other a, and w_a² − w_k² is at most its square;
 * so the square of the two-sided limit at this level is exceeded by none in 98 sets of 100 (Šidák's inequality, whatever
 * the correlations). Simulated: at least 95 % of alarms at any error from one standard deviation of w on.
 */
const MISSED_GROUPS = 0.02;
/** From this correlation on two residuals are one test: they check nothing but each other. */
const ONE_TEST = 0.9999;
/** Gains this near, in part, are equal: of numbers that check only each other, to rounding. */
const ONE_GAIN = 1e-4;
/** Chance below which the readings as a whole scatter more than their ± allow. */
const IMPROBABLE = 0.01;
/** A pair is told apart when the right one stands out in 95 cases of 100: the standard normal quantile 0.95. */
const TOLD_APART = 1.645;

/** A number that may be wrong. */
export interface Suspect {
  /** As in NumberRead: "lift-1.load", "frontTrack". */
  readonly id: string;
  /** Reading it belongs to; null for dimensions, instruments, hooks and assumptions. */
  readonly reading: string | null;
  /** Residual over its own standard deviation. */
  readonly normalized: number;
  /** By how much it reads too much if it alone is wrong (SI), and the standard uncertainty of that. */
  readonly off: number;
  readonly offU: number;
  /** How likely it is the wrong one, beside the first named as 1. */
  readonly odds: number;
}

export interface NamedBlunder {
  /** Most likely wrong. */
  readonly first: Suspect;
  /** All that cannot be told apart from it, most likely first, itself included. */
  readonly group: readonly Suspect[];
  /** The group by readings, each once; a number without a reading stands by its own id. */
  readonly readings: readonly string[];
  /** The one reading that the whole group belongs to; null where several could be wrong, or a dimension. */
  readonly reading: string | null;
  /** Chance of a residual as large somewhere on a bench without a blunder; once in 1/chance benches. */
  readonly chance: number;
  /** Misfit that is left with the first number left out, with one degree of freedom less. */
  readonly chiSquaredWithout: number;
  /** Even so the others scatter more than their ± allow: more than one is wrong. */
  readonly othersScatter: boolean;
}

export interface BlunderSearch {
  /** A number disagrees when its normalized residual is larger. Infinite where nothing is checked. */
  readonly threshold: number;
  /** Distinct tests: numbers that check only each other count once. */
  readonly tests: number;
  readonly named: NamedBlunder | null;
  /** No number stands out, yet the readings as a whole scatter more than their ± allow. */
  readonly wholeScatters: boolean;
}

/** A number left out, and by how much smaller chi-squared is without it. */
export interface Candidate extends Omit<Suspect, 'odds'> {
  readonly gain: number;
  /** Part of an error's square that shows: its own variance over that of `off`. */
  readonly redundancy: number;
}

interface Checked extends Reliability {
  readonly normalized: number;
  readonly off: number;
  readonly offU: number;
}

const isChecked = (number: Reliability): number is Checked =>
  number.normalized !== null && number.off !== null && number.offU !== null;

/**
 * Limit for the largest of `tests` (≥ 1) standard normal numbers, of either sign, that is exceeded in a part `level` of all
 * sets: each tested at 1 − (1 − level)^(1/tests). Z. Šidák, J. Amer. Statist. Assoc. 62 (1967) 626: exact where they are
 * independent, on the safe side whatever their correlations. 2.93 for 15 at 0.05.
 */
export const largestOf = (tests: number, level: number = FALSE_ALARMS): number =>
  tests > 0 ? Math.sqrt(chiSquaredQuantile(Math.pow(1 - level, 1 / tests), 1)) : Infinity;

/** Chance of a standard normal number of either sign as large as `normalized` among `tests` of them (Šidák). */
export const chanceOfLargest = (normalized: number, tests: number): number =>
  -Math.expm1(tests * Math.log1p(-2 * normalProbability(-Math.abs(normalized))));

/** Whether a misfit is too large for its degrees of freedom. */
export const scattersTooMuch = (chiSquared: number, degreesOfFreedom: number): boolean =>
  degreesOfFreedom > 0 && chiSquaredProbability(chiSquared, degreesOfFreedom) < IMPROBABLE;

/** By how much less than the best a number may lower chi-squared and still be the wrong one. */
export const rivalGap = (tests: number): number => largestOf(tests, MISSED_GROUPS) ** 2;

const correlated = (a: Reliability, b: Reliability): number => Math.abs(residualCorrelation(a, b));

/** One number of each test. */
function distinct(numbers: readonly Checked[]): readonly Checked[] {
  const found: Checked[] = [];
  for (const number of numbers)
    if (!found.some((other) => correlated(number, other) >= ONE_TEST)) found.push(number);
  return found;
}

/**
 * Names the number most likely wrong, or the group that cannot be told apart; none is named on 95 of 100 benches without
 * a blunder. Drops nothing. Laws: one blunder, normal errors, to first order: findBlunder() also finds errors so gross
 * that they bend the models. Two blunders at once may hide each other.
 */
export function blunderSearch(adjustment: TruckAdjustment): BlunderSearch {
  const checked = adjustment.numbers().filter(isChecked);
  const tests = distinct(checked).length;
  const named = nameAmong(
    checked.map(({ id, reading, normalized, off, offU, redundancy }) => ({
      ...{ id, reading, normalized, off, offU, redundancy },
      gain: normalized * normalized,
    })),
    tests,
    adjustment.chiSquared,
    adjustment.degreesOfFreedom,
  );
  const { chiSquared, degreesOfFreedom } = adjustment;
  return {
    threshold: largestOf(tests),
    tests,
    named,
    wholeScatters: !named && scattersTooMuch(chiSquared, degreesOfFreedom),
  };
}

/** What nobody read: it is doubted only where no reading can be. */
const ASSUMED: ReadonlySet<string> = new Set(['tip line', 'lateral', 'scaleZero', 'rulerZero', 'levelZero']);

const doubtedLast = ({ id, reading }: Candidate): number => (reading !== null ? 0 : ASSUMED.has(id) ? 2 : 1);

/** Numbers less than twice as unlikely as the likeliest are named by what they are. */
const AS_LIKELY = 2 * Math.log(2);

/**
 * Of numbers about as likely to be wrong, which is named before the other: those of readings before sizes, sizes before
 * what is assumed; of these the likelier; of numbers that are one test the one that has to be off by the fewest of its
 * own ±, the best checked one.
 */
function before(a: Candidate, b: Candidate): boolean {
  if (doubtedLast(a) !== doubtedLast(b)) return doubtedLast(a) < doubtedLast(b);
  if (Math.abs(a.gain - b.gain) > ONE_GAIN * (1 + a.gain)) return a.gain > b.gain;
  return a.redundancy >= b.redundancy;
}

/**
 * The best of `candidates` with all that cannot be told apart from it, or null where none disagrees. `chiSquared` is the
 * misfit with all counted.
 */
export function nameAmong(
  candidates: readonly Candidate[],
  tests: number,
  chiSquared: number,
  degreesOfFreedom: number,
): NamedBlunder | null {
  const best = Math.max(0, ...candidates.map(({ gain }) => gain));
  const first = candidates
    .filter(({ gain }) => gain >= best - AS_LIKELY)
    .reduce<Candidate | null>((a, b) => (a && before(a, b) ? a : b), null);
  if (!first || !(Math.abs(first.normalized) > largestOf(tests))) return null;
  const limit = rivalGap(tests);
  const behind = ({ gain }: Candidate) => Math.max(0, first.gain - gain);
  const group = candidates
    .filter((each) => each !== first && behind(each) < limit)
    .toSorted((a, b) => behind(a) - behind(b));
  const suspects = [first, ...group].map((each): Suspect => {
    const { id, reading, normalized, off, offU } = each;
    return { id, reading, normalized, off, offU, odds: Math.exp(-behind(each) / 2) };
  });
  const readings = new Set(suspects.map(({ id, reading }) => reading ?? id));
  const chiSquaredWithout = Math.max(0, chiSquared - first.gain);
  return {
    first: suspects[0] ?? { ...first, odds: 1 },
    group: suspects,
    readings: [...readings],
    reading: readings.size === 1 ? first.reading : null,
    chance: chanceOfLargest(first.normalized, tests),
    chiSquaredWithout,
    othersScatter: scattersTooMuch(chiSquaredWithout, degreesOfFreedom - 1),
  };
}

/** What a reading not yet taken would do for a group that cannot be told apart. */
export interface Separator {
  /** Id of the candidate. */
  readonly reading: string;
  /** For each other number of the group: correlation of its residual with the first's, and how far apart they would stand. */
  readonly pairs: readonly { readonly id: string; readonly correlation: number; readonly apart: number }[];
  /** Least of `apart`: standard normal; the right one of a pair stands out with this quantile's chance. */
  readonly apart: number;
  /** Every pair is told apart in at least 95 cases of 100. */
  readonly separates: boolean;
}

/**
 * Which of `candidates` would tell the first of a group from all others, best first. A candidate holds the values that the
 * present estimate predicts and the uncertainties it would be read with. If the first number is off by what it seems to
 * be, its normalized residual will be δ = |off|/offU with the candidate read; of a pair with correlation ρ the right one
 * has the larger residual with the chance that a standard normal number is below δ √((1 − |ρ|)/2).
 */
export function separators(
  bench: TruckBench,
  adjustment: TruckAdjustment,
  named: NamedBlunder,
  candidates: readonly TruckReading[],
): Result<readonly Separator[], TruckRefusal> {
  const found: Separator[] = [];
  const others = named.group.filter(({ id }) => id !== named.first.id);
  for (const candidate of candidates) {
    const adjusted = adjustTruck(
      { ...bench, readings: [...bench.readings, candidate] },
      { from: adjustment },
    );
    if (!adjusted.ok) return adjusted;
    const numbers = new Map(adjusted.value.numbers().map((number) => [number.id, number]));
    const first = numbers.get(named.first.id);
    if (!first || !isChecked(first)) continue;
    const expected = Math.abs(named.first.off) / first.offU;
    const pairs = others.flatMap(({ id }) => {
      const other = numbers.get(id);
      if (!other || !isChecked(other)) return [];
      const correlation = residualCorrelation(first, other);
      return [{ id, correlation, apart: expected * Math.sqrt((1 - Math.abs(correlation)) / 2) }];
    });
    const apart = Math.min(Infinity, ...pairs.map((pair) => pair.apart));
    found.push({ reading: candidate.id, pairs, apart, separates: apart >= TOLD_APART });
  }
  return success(found.toSorted((a, b) => b.apart - a.apart));
}
