import type { Estimate, Observation, Unknown } from '../../physics';

/** The unknowns and observations of a fit of pictures, as they are gathered. */

/** What an observation is about, for the table of what makes the ±. */
export type Source =
  | 'ruler'
  | 'wheelbase and scale'
  | 'ground and tire radius'
  | 'body marks'
  | 'string'
  | 'hook place'
  | 'hook marks'
  | 'depths'
  | 'camera distance'
  | 'lens'
  | 'view off square'
  | 'droop'
  | 'lateral place';

/** Steps below 5 µm, or 20 µrad (4 µm at the end of a 200 mm lever), no longer show in a tenth of a millimeter. */
export const SETTLED_LENGTH = 5e-6;
export const SETTLED_ANGLE = 2e-5;

export class Gathering {
  readonly unknowns: Unknown[] = [];
  readonly observations: Observation[] = [];
  readonly sources: Source[] = [];

  /** Index of a new unknown. */
  add(name: string, start: number, scale: number, negligible: number, block?: number): number {
    this.unknowns.push({ name, start, scale, negligible, ...(block === undefined ? {} : { block }) });
    return this.unknowns.length - 1;
  }

  length(name: string, start: number, block?: number): number {
    return this.add(name, start, 0.01, SETTLED_LENGTH, block);
  }

  angle(name: string, start: number, block?: number): number {
    return this.add(name, start, 0.02, SETTLED_ANGLE, block);
  }

  observe(source: Source, observation: Observation): void {
    this.observations.push(observation);
    this.sources.push(source);
  }

  /** Where an unknown starts. */
  start(index: number): number {
    return this.unknowns[index]?.start ?? NaN;
  }
}

/** A length by ruler: the unknown it is of, and the ruler's zero along the way in which that unknown grows. */
export const ruled = (name: string, index: number, zero: number, read: Estimate): Observation => ({
  name,
  depends: [index, zero],
  predict: (p) => [(p[index] ?? 0) + (p[zero] ?? 0)],
  values: [read.value],
  uncertainty: [read.u],
  derivative: () => [[1, 1]],
});
