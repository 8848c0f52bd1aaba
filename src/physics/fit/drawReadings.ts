import { type Observation, whitener } from './leastSquares';
import { normalNumbers } from './uncertainty';

/** Law of the error of one value: normal, or hard limits ±√3 u without preference between them. */
export type ErrorLaw = 'normal' | 'rectangular';

/**
 * Draws of all values of `observations`, one after the other in their order, each about the value read and with its
 * uncertainty (JCGM 101:2008, 6.4.2 rectangular, 6.4.7 normal, 6.4.8 jointly normal by the Cholesky factor). `laws` has
 * one row an observation and one law a value. `uniform` is the caller's source on [0, 1). Every call gives an array of
 * its own.
 * @throws RangeError for a rectangular value that is correlated with others: no joint law is defined for it here.
 */
export function drawReadings(
  observations: readonly Observation[],
  laws: readonly (readonly ErrorLaw[])[],
  uniform: () => number,
): () => Float64Array {
  const normal = normalNumbers(uniform);
  let size = 0;
  const parts = observations.map((observation, k) => {
    const independent = typeof observation.uncertainty[0] === 'number';
    const rectangular = observation.values.map((_, i) => laws[k]?.[i] === 'rectangular');
    if (!independent && rectangular.includes(true))
      throw new RangeError(`${observation.name}: correlated values must be normal`);
    const part = {
      values: observation.values,
      by: whitener(observation),
      independent,
      rectangular,
      first: size,
    };
    size += observation.values.length;
    return part;
  });
  return () => {
    const drawn = new Float64Array(size);
    for (const { values, by, independent, rectangular, first } of parts) {
      for (let i = 0; i < values.length; i++) {
        const row = by[i] ?? [];
        let error = rectangular[i] ? Math.sqrt(3) * (2 * uniform() - 1) : normal();
        // The whitener is L⁻¹: solved row by row for the errors that it would whiten to these numbers.
        if (!independent) for (let j = 0; j < i; j++) error -= (row[j] ?? 0) * (drawn[first + j] ?? 0);
        drawn[first + i] = error / (row[i] ?? NaN);
      }
      for (let i = 0; i < values.length; i++) drawn[first + i] = (drawn[first + i] ?? 0) + (values[i] ?? 0);
    }
    return drawn;
  };
}
