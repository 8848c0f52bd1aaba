import { printed } from './numbers';

/** How a chart prints and speaks its numbers. */
export interface ChartUnit {
  /** At the head of a column: 'mm', 'degrees'. */
  readonly name: string;
  /** Behind every number: '°', or '' where the chart names the unit once. */
  readonly sign: string;
  readonly spoken: string;
  /** Places after the point, unless a number needs more to show at all. */
  readonly decimals: number;
}

export const IN_MILLIMETERS: ChartUnit = { name: 'mm', sign: '', spoken: 'millimeters', decimals: 1 };
export const IN_DEGREES: ChartUnit = { name: 'degrees', sign: '°', spoken: 'degrees', decimals: 1 };

/** A value and its ± (1.96 u), both in a chart's unit. */
export interface ChartValue {
  readonly value: number;
  readonly halfWidth: number;
}

/** No more places than this beyond the unit's own. */
const MORE_PLACES = 3;

/** The fewest places, from the unit's own up, at which `size` is not rounded away. Zero has the unit's own. */
function placesFor(size: number, { decimals }: ChartUnit): number {
  if (!(size > 0) || Number(size.toFixed(decimals)) > 0) return decimals;
  return Math.min(decimals + MORE_PLACES, -Math.floor(Math.log10(size)));
}

/** Value and ±, each to the places the ± needs. */
export function printedValue(
  { value, halfWidth }: ChartValue,
  unit: ChartUnit,
): { readonly value: string; readonly plusMinus: string } {
  const places = placesFor(halfWidth, unit);
  return {
    value: `${printed(value, places)}${unit.sign}`,
    plusMinus: `± ${printed(halfWidth, places)}${unit.sign}`,
  };
}

/** A number that stands alone, with its unit: "1.8°", "3.2 mm". */
export const withUnit = (value: number, unit: ChartUnit, decimals = unit.decimals): string =>
  `${printed(value, decimals)}${unit.sign || `\u00a0${unit.name}`}`;

/** A printed number as it is read aloud, with its unit: "minus 3.0 millimeters". */
export const spokenNumber = (text: string, { sign, spoken }: ChartUnit): string =>
  `${(sign ? text.replaceAll(sign, '') : text).replaceAll('−', 'minus ')} ${spoken}`;

/** "94.0 plus or minus 1.8 millimeters" */
export function spokenValue(own: ChartValue, unit: ChartUnit): string {
  const { value, plusMinus } = printedValue(own, unit);
  return spokenNumber(`${value} ${plusMinus.replace('±', 'plus or minus')}`, unit);
}
