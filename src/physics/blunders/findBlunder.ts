import { adjustTruck, type TruckAdjustment, type TruckRefusal } from '../estimate/adjustTruck';
import {
  type BlunderSearch,
  type Candidate,
  type NamedBlunder,
  blunderSearch,
  largestOf,
  nameAmong,
  rivalGap,
  scattersTooMuch,
} from './blunderSearch';
import { type LeaveOutOptions, type WithoutNumber, withoutNumber } from './leaveOut';
import { withValue } from '../estimate/benchNumbers';
import type { Result } from '../quantities';
import { residualCorrelation } from '../estimate/reliability';
import { type NumberRead, type TruckModel, truckModel } from '../estimate/truckModel';
import type { TruckBench } from '../estimate/truckReadings';
import { grossStarts, isStrange } from './grossStarts';
import { slipsFirst } from './slipsFirst';

/**
 * The blunder search at any size of error. An ounce taken for a gram or an inch for a millimeter bends the models so much
 * that residuals tell nothing, or no adjustment settles at all; then every number is left out in turn, exactly.
 */

/** First order is trusted while it foretells the misfit without the first number this well: absolute, and of the gain. */
const FORETOLD = { misfit: 1, gain: 0.05 } as const;
/** From this normalized residual on it is not asked: rivals of an error that large are told apart by what bends. */
const GROSS = 12;
/** Squared correlation, or loss of chi-squared, from which a rival is left out itself to see; generous to both sides. */
const RIVAL = 0.8;
const RIVAL_GAIN = 50;
/** A number left out settles in a handful of steps, or has been started from the wrong place. */
const STEPS = 10;

/**
 * Searches `bench`; `adjusted` is its adjustment, or why there is none. Null where nothing at all can be said. Of numbers
 * about as likely to be wrong, one that a usual slip explains is named first.
 */
export function findBlunder(
  bench: TruckBench,
  adjusted: Result<TruckAdjustment, TruckRefusal> = adjustTruck(bench),
): BlunderSearch | null {
  const search = searched(bench, adjusted);
  return search?.named ? { ...search, named: slipsFirst(bench, search.named) } : search;
}

function searched(bench: TruckBench, adjusted: Result<TruckAdjustment, TruckRefusal>): BlunderSearch | null {
  if (!adjusted.ok) return adjusted.reason === 'not-converged' ? exactSearch(bench, null) : null;
  const search = blunderSearch(adjusted.value);
  const { named } = search;
  // A misfit that no residual shows is one that bends the models.
  if (!named) return (search.wholeScatters ? exactSearch(bench, adjusted.value) : null) ?? search;
  if (named.othersScatter || Math.abs(named.first.normalized) > GROSS)
    return exactSearch(bench, adjusted.value) ?? search;
  const exactly = withoutNumber(bench, named.first.id);
  const gain = adjusted.value.chiSquared - named.chiSquaredWithout;
  const foretold =
    exactly.ok &&
    Math.abs(exactly.value.chiSquared - named.chiSquaredWithout) < FORETOLD.misfit + FORETOLD.gain * gain;
  return foretold && !strangeRival(bench, named, exactly.value.chiSquared, search.tests)
    ? search
    : (exactSearch(bench, adjusted.value) ?? search);
}

/** Whether a number of strange size, left out exactly, explains as much as the one named, which first order missed. */
function strangeRival(bench: TruckBench, named: NamedBlunder, chiSquared: number, tests: number): boolean {
  const model = truckModel(bench);
  if (!model.ok) return false;
  const { numbers } = model.value;
  return numbers.some((number) => {
    if (named.group.some(({ id }) => id === number.id) || !isStrange(number, numbers)) return false;
    const own = withoutNumber(bench, number.id, { maxIterations: STEPS });
    const found = own.ok
      ? [own]
      : grossStarts(number, numbers).map((start) =>
          withoutNumber(bench, number.id, { start, maxIterations: STEPS }),
        );
    return found.some((without) => without.ok && without.value.chiSquared - chiSquared < rivalGap(tests));
  });
}

/** Every number left out in turn, each from wherever its search settles lowest. */
class ExactSearch {
  readonly left = new Map<string, WithoutNumber>();
  readonly numbers: readonly NumberRead[];

  constructor(
    readonly bench: TruckBench,
    model: TruckModel,
  ) {
    this.numbers = model.numbers;
  }

  tryOut(id: string, from: Pick<LeaveOutOptions, 'start' | 'near'> = {}): void {
    const without = withoutNumber(this.bench, id, { ...from, maxIterations: STEPS });
    if (!without.ok || !believable(without.value)) return;
    const before = this.left.get(id);
    if (!before || without.value.chiSquared < before.chiSquared) this.left.set(id, without.value);
  }

  tryGross(number: NumberRead): void {
    for (const start of grossStarts(number, this.numbers)) this.tryOut(number.id, { start });
  }

  get best(): WithoutNumber | null {
    return [...this.left.values()].reduce<WithoutNumber | null>(
      (a, b) => (a && a.chiSquared <= b.chiSquared ? a : b),
      null,
    );
  }

  /** Whether some number has been found without which the others agree. */
  get agrees(): boolean {
    const { best } = this;
    return best !== null && agreeing(best);
  }

  /**
   * Leaves out what could explain as much as a number without which the others agree, and so on from each that does;
   * there, near the truth if it is the wrong one, first order tells which to try. Gives the bench of the best mended.
   */
  tryRivals(): TruckAdjustment | null {
    const mended = new Map<string, TruckAdjustment | null>();
    const tried = new Set<string>();
    for (;;) {
      const next = [...this.left.values()].find(
        (without) => agreeing(without) && !mended.has(without.number.id),
      );
      if (!next) break;
      const adjusted = mendedBench(this.bench, next);
      mended.set(next.number.id, adjusted);
      const gain = (next.off / next.offU) ** 2;
      for (const { id } of this.numbers) {
        if (id === next.number.id || tried.has(id) || !adjusted) continue;
        if (!mayRival(adjusted, next.number.id, id, gain)) continue;
        tried.add(id);
        this.tryOut(id);
        this.tryOut(id, { near: next.unknowns });
      }
    }
    return mended.get(this.best?.number.id ?? '') ?? null;
  }
}

function exactSearch(bench: TruckBench, adjusted: TruckAdjustment | null): BlunderSearch | null {
  const model = truckModel(bench);
  if (!model.ok) return null;
  const search = new ExactSearch(bench, model.value);
  const { numbers } = search;
  const suspicion = new Map(adjusted?.numbers().map(({ id, normalized }) => [id, Math.abs(normalized ?? 0)]));
  const ordered = numbers.toSorted((a, b) => (suspicion.get(b.id) ?? 0) - (suspicion.get(a.id) ?? 0));
  for (const { id } of ordered) {
    if (search.agrees) break;
    search.tryOut(id);
  }
  for (const number of ordered) {
    if (search.agrees) break;
    search.tryGross(number);
  }
  const { best } = search;
  if (!best) return null;
  let told = adjusted;
  if (search.agrees) {
    for (const number of numbers) if (isStrange(number, numbers)) search.tryGross(number);
    told = search.tryRivals() ?? adjusted;
  }
  const left = [...search.left.values()];
  // Without an adjustment of them all, the worst that a single number left in can do stands for it.
  const chiSquared =
    adjusted?.chiSquared ??
    Math.max(...left.map((without) => without.chiSquared + (without.off / without.offU) ** 2));
  const candidates = left.map((without): Candidate => {
    const { number, off, offU } = without;
    const gain = chiSquared - without.chiSquared;
    return {
      id: number.id,
      reading: number.reading,
      // The signed root of the likelihood ratio: where models bend, off/offU measures only the last stretch.
      normalized: Math.sign(off) * Math.sqrt(Math.max(0, gain)),
      off,
      offU,
      gain,
      redundancy: (number.u / offU) ** 2,
    };
  });
  const tests = told ? blunderSearch(told).tests : candidates.length;
  const freedom = best.adjustment.degreesOfFreedom + 1;
  const named = nameAmong(candidates, tests, chiSquared, freedom);
  return {
    threshold: largestOf(tests),
    tests,
    named,
    wholeScatters: !named && scattersTooMuch(chiSquared, freedom),
  };
}

/** Whether the number can be what the others say: a load and a radius are above zero, an angle is within a turn. */
function believable({ number: { id, reading, kind }, predicted }: WithoutNumber): boolean {
  if (kind === 'angle') return Math.abs(predicted) <= Math.PI;
  if (kind === 'share') return predicted > 0 && predicted < 1;
  return (kind === 'length' && !SIZES.has(id)) || (kind === 'mass' && reading === null) || predicted > 0;
}
const SIZES: ReadonlySet<string> = new Set([
  'wheelbase',
  'frontTrack',
  'rearTrack',
  'frontTireRadius',
  'rearTireRadius',
]);

const agreeing = ({ chiSquared, adjustment }: WithoutNumber): boolean =>
  !scattersTooMuch(chiSquared, adjustment.degreesOfFreedom);

/** The bench as it would be with the wrong number read as the others say. */
function mendedBench(bench: TruckBench, { number, predicted }: WithoutNumber): TruckAdjustment | null {
  const mended = adjustTruck(withValue(bench, number.id, predicted));
  return mended.ok ? mended.value : null;
}

/** Whether leaving out `other` could explain an error in `wrong` that is worth `gain` of chi-squared: ρ² of it. */
function mayRival(mended: TruckAdjustment, wrong: string, other: string, gain: number): boolean {
  const numbers = mended.numbers();
  const a = numbers.find(({ id }) => id === wrong);
  const b = numbers.find(({ id }) => id === other);
  if (!a?.offU || !b?.offU) return false;
  const square = residualCorrelation(a, b) ** 2;
  return square > RIVAL || gain * (1 - square) < RIVAL_GAIN;
}
