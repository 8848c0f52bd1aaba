/** What a fit is given: numbers to be found, and readings that depend on them. */

/** A number to be found. */
export interface Unknown {
  readonly name: string;
  /** Where the search starts, SI. */
  readonly start: number;
  /** Typical size of a change, SI; scales the columns and, divided by 1e4, is the step of numerical derivatives. */
  readonly scale: number;
  /** Physical size, SI, below which a further step no longer matters to the reader. The stop rule. */
  readonly negligible: number;
  /**
   * Unknowns of one block meet those of another only through unknowns without a block. Naming blocks changes no
   * result; it lets the solver eliminate each block on its own.
   */
  readonly block?: number;
}

/** One reading, or several that share errors. */
export interface Observation {
  readonly name: string;
  /** Indices of the unknowns that the prediction depends on. */
  readonly depends: readonly number[];
  /** What would be read if `unknowns` were true; same length as `values`. */
  readonly predict: (unknowns: Float64Array) => readonly number[];
  readonly values: readonly number[];
  /** Standard uncertainty of each value (uncorrelated), or their covariance matrix. */
  readonly uncertainty: readonly number[] | readonly (readonly number[])[];
  /** d prediction / d unknown, rows as `values`, columns as `depends`; numerical where absent. */
  readonly derivative?: (unknowns: Float64Array) => readonly (readonly number[])[];
}

/** A prior: unknown `index` was read as `value` with standard uncertainty `u`. */
export const prior = (name: string, index: number, value: number, u: number): Observation => ({
  name,
  depends: [index],
  predict: (unknowns) => [unknowns[index] ?? 0],
  values: [value],
  uncertainty: [u],
  derivative: () => [[1]],
});
/** Central differences with a step of scale / 1e4: rounding and curvature both stay below 1e-7 of the derivative. */
function numericalDerivative(
  observation: Observation,
  unknowns: Float64Array,
  scales: Float64Array,
): number[][] {
  const rows = observation.values.map(() => new Array<number>(observation.depends.length).fill(0));
  observation.depends.forEach((index, column) => {
    const step = (scales[index] ?? 1) / 1e4;
    const at = unknowns[index] ?? 0;
    unknowns[index] = at + step;
    const above = observation.predict(unknowns);
    unknowns[index] = at - step;
    const below = observation.predict(unknowns);
    unknowns[index] = at;
    rows.forEach((row, i) => {
      row[column] = ((above[i] ?? 0) - (below[i] ?? 0)) / (2 * step);
    });
  });
  return rows;
}

/** An observation's derivative, its own or by differences of unknowns' `scales`; rows as values, columns as `depends`. */
export const derivativeOf = (
  observation: Observation,
  unknowns: Float64Array,
  scales: Float64Array,
): readonly (readonly number[])[] =>
  observation.derivative?.(unknowns) ?? numericalDerivative(observation, unknowns, scales);

export function residualsOf(observation: Observation, unknowns: Float64Array): number[] {
  const predicted = observation.predict(unknowns);
  return observation.values.map((value, i) => value - (predicted[i] ?? 0));
}
