import { adjustTruck, type TruckAdjustment, type TruckRefusal } from './adjustTruck';
import { type BlunderSearch, type Candidate, blunderSearch, largestOf, nameAmong } from './blunderSearch';
import { scattersTooMuch } from './blunderSearch';
import { type WithoutNumber, withoutNumber } from './leaveOut';
import type { Result } from './quantities';
import { truckModel, type NumberRead } from './truckModel';
import type { TruckBench } from './truckReadings';
import { UNIT_SLIPS } from './unitSlips';

/**
 * The blunder search at any size of error. An ounce taken for a gram or an inch for a millimeter bends the models so much
 * that residuals tell nothing, or no adjustment settles at all; then every number is left out in turn, exactly.
 */

/** First order is trusted while it foretells the misfit without the first number this well: absolute, and of the gain. */
const FORETOLD = { misfit: 1, gain: 0.05 } as const;

/** Searches `bench`; `adjusted` is its adjustment, or why there is none. Null where nothing at all can be said. */
export function findBlunder(
  bench: TruckBench,
  adjusted: Result<TruckAdjustment, TruckRefusal> = adjustTruck(bench),
): BlunderSearch | null {
  if (!adjusted.ok) return adjusted.reason === 'not-converged' ? exactSearch(bench, null) : null;
  const search = blunderSearch(adjusted.value);
  const { named } = search;
  if (!named) return search;
  const exactly = withoutNumber(bench, named.first.id);
  const gain = adjusted.value.chiSquared - named.chiSquaredWithout;
  const foretold =
    exactly.ok &&
    Math.abs(exactly.value.chiSquared - named.chiSquaredWithout) < FORETOLD.misfit + FORETOLD.gain * gain;
  return foretold ? search : exactSearch(bench, adjusted.value);
}

function exactSearch(bench: TruckBench, adjusted: TruckAdjustment | null): BlunderSearch | null {
  const model = truckModel(bench);
  if (!model.ok) return null;
  const left = new Map<string, WithoutNumber>();
  const tryOut = (id: string, start?: number): void => {
    const without = withoutNumber(bench, id, start);
    if (!without.ok) return;
    const before = left.get(id);
    if (!before || without.value.chiSquared < before.chiSquared) left.set(id, without.value);
  };
  const least = () => Math.min(Infinity, ...[...left.values()].map(({ chiSquared }) => chiSquared));
  const { numbers } = model.value;
  for (const { id } of numbers) tryOut(id);
  const freedom = Math.max(0, ...[...left.values()].map(({ adjustment }) => adjustment.degreesOfFreedom));
  if (left.size === 0 || scattersTooMuch(least(), freedom))
    for (const number of numbers) for (const start of grossStarts(number)) tryOut(number.id, start);
  if (left.size === 0) return null;
  // Without an adjustment of them all, the worst that a single number left in can do stands for it.
  const chiSquared =
    adjusted?.chiSquared ??
    Math.max(
      ...[...left.values()].map((without) => without.chiSquared + without.off ** 2 / without.offU ** 2),
    );
  const candidates = [...left.values()].map((without): Candidate => {
    const { number, off, offU } = without;
    return {
      id: number.id,
      reading: number.reading,
      normalized: off / offU,
      off,
      offU,
      gain: chiSquared - without.chiSquared,
      redundancy: (number.u / offU) ** 2,
    };
  });
  const tests = adjusted ? blunderSearch(adjusted).tests : candidates.length;
  const named = nameAmong(candidates, tests, chiSquared, freedom + 1);
  return {
    threshold: largestOf(tests),
    tests,
    named,
    wholeScatters: !named && scattersTooMuch(chiSquared, freedom + 1),
  };
}

/** Where the truth may lie if the number is wrong by far: in another unit, or on the other side. */
const grossStarts = ({ kind, value, u }: NumberRead): number[] =>
  [...UNIT_SLIPS.filter((slip) => slip.kind === kind).map(({ factor }) => value * factor), -value].filter(
    (start) => Math.abs(start - value) > 3 * u,
  );
