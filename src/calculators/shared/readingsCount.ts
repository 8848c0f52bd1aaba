import type { BuildState } from '../../sheet/schema';

/** Hangs and scale readings of a state: how many count, and how many the reader set aside. */
export function countReadings(state: BuildState): { readonly counted: number; readonly aside: number } {
  const readings = [...state.pictures.filter(({ kind }) => kind === 'hanging'), ...state.readings];
  const counted = readings.filter((reading) => reading.counted).length;
  return { counted, aside: readings.length - counted };
}

/** "10, one set aside" */
export function readingsText({
  counted,
  aside,
}: {
  readonly counted: number;
  readonly aside: number;
}): string {
  if (aside === 0) return counted === 0 ? 'none yet' : String(counted);
  return `${counted}, ${aside === 1 ? 'one' : aside} set aside`;
}
