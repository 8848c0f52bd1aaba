import {
  angle,
  angleIn,
  length,
  lengthIn,
  LENGTH_UNITS,
  mass,
  massIn,
  MASS_UNITS,
  type Angle,
  type AngleUnit,
  type Length,
  type LengthUnit,
  type Mass,
  type MassUnit,
} from '../physics/index';

/** What a dimension's value is inside: SI; pixels as they are; a share as a fraction of one. */
export interface Kinds {
  length: Length;
  mass: Mass;
  angle: Angle;
  pixels: number;
  share: number;
}
export type Dimension = keyof Kinds;

/** The units a reader may type, in the order they are offered. */
export const UNITS: Readonly<Record<Dimension, readonly string[]>> = {
  length: ['mm', 'cm', 'm', 'in'],
  mass: ['g', 'kg', 'oz', 'lb'],
  angle: ['deg', 'rad', '%'],
  pixels: ['px'],
  share: ['%'],
};

/** The dimension with its units, as the middle of a sentence. */
export const DIMENSION_WORDS: Readonly<Record<Dimension, string>> = {
  length: 'a length in mm, cm, m or in',
  mass: 'a mass in g, kg, oz or lb',
  angle: 'an angle in °, rad or % grade',
  pixels: 'a number of pixels',
  share: 'a share in %',
};

const isLengthUnit = (unit: string): unit is LengthUnit => Object.hasOwn(LENGTH_UNITS, unit);
const isMassUnit = (unit: string): unit is MassUnit => Object.hasOwn(MASS_UNITS, unit);
const isAngleUnit = (unit: string): unit is AngleUnit => UNITS.angle.includes(unit);

type Into = { readonly [D in Dimension]: (number: number, unit: string) => Kinds[D] | null };
type OutOf = { readonly [D in Dimension]: (value: Kinds[D], unit: string) => number };

const INTO: Into = {
  length: (number, unit) => (isLengthUnit(unit) ? length(number, unit) : null),
  mass: (number, unit) => (isMassUnit(unit) ? mass(number, unit) : null),
  angle: (number, unit) => (isAngleUnit(unit) ? angle(number, unit) : null),
  pixels: (number, unit) => (unit === 'px' ? number : null),
  share: (number, unit) => (unit === '%' ? number / 100 : null),
};

const OUT_OF: OutOf = {
  length: (value, unit) => (isLengthUnit(unit) ? lengthIn(value, unit) : value),
  mass: (value, unit) => (isMassUnit(unit) ? massIn(value, unit) : value),
  angle: (value, unit) => (isAngleUnit(unit) ? angleIn(value, unit) : value),
  pixels: (value) => value,
  share: (value) => value * 100,
};

/** A typed number inside; null where the unit is none of the dimension's. */
export function inside<D extends Dimension>(dimension: D, number: number, unit: string): Kinds[D] | null {
  return INTO[dimension](number, unit);
}

/** The number of `unit` in a value. An unknown unit gives the SI number. */
export function outside<D extends Dimension>(dimension: D, value: Kinds[D], unit: string): number {
  return OUT_OF[dimension](value, unit);
}

/** A number for a sentence: four significant digits at most, no trailing zeros, a true minus sign. */
export function shortNumber(number: number): string {
  return String(Number(number.toPrecision(4))).replace('-', '−');
}

/** Number and unit as they are printed: "313 mm", "28°", "45 %". */
export function withUnit(numberText: string, unit: string): string {
  if (unit === 'deg') return `${numberText}°`;
  return unit === '' ? numberText : `${numberText} ${unit}`;
}
