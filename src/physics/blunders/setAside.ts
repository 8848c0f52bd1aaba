import { adjustTruck } from '../estimate/adjustTruck';
import { scattersTooMuch } from './blunderSearch';
import type { TruckBench } from '../estimate/truckReadings';

/**
 * Readings without any one of which all others agree, by their ids, the best first: what can still be said where a bench has
 * no adjustment and findBlunder() no answer. A reading that others need to determine anything is told as well, since
 * without it nothing is left to disagree; `checked` says whether the others still check each other.
 */
export function readingsToSetAside(
  bench: TruckBench,
): readonly { readonly reading: string; readonly checked: boolean }[] {
  return benchesWithout(bench)
    .flatMap(({ reading, bench: rest }) => {
      const adjusted = adjustTruck(rest);
      if (!adjusted.ok) return [];
      const { chiSquared, degreesOfFreedom } = adjusted.value;
      return scattersTooMuch(chiSquared, degreesOfFreedom)
        ? []
        : [{ reading, checked: degreesOfFreedom > 0, chiSquared }];
    })
    .toSorted((a, b) => Number(b.checked) - Number(a.checked) || a.chiSquared - b.chiSquared)
    .map(({ reading, checked }) => ({ reading, checked }));
}

/** The bench without each of its readings; of pictures, without each of their lines. */
function benchesWithout(
  bench: TruckBench,
): readonly { readonly reading: string; readonly bench: TruckBench }[] {
  return bench.readings.flatMap((reading) => {
    const others = bench.readings.filter(({ id }) => id !== reading.id);
    if (reading.kind !== 'picture lines')
      return [{ reading: reading.id, bench: { ...bench, readings: others } }];
    return reading.lines.map(({ id }, k) => {
      const kept = reading.covariance
        .map((_, i) => i)
        .filter((i) => Math.floor(i / 2) !== k || i >= 2 * reading.lines.length);
      const fewer = {
        ...reading,
        lines: reading.lines.filter((line) => line.id !== id),
        covariance: kept.map((i) => kept.map((j) => reading.covariance[i]?.[j] ?? NaN)),
      };
      return { reading: id, bench: { ...bench, readings: [...others, fewer] } };
    });
  });
}
