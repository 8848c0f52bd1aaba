import {
  angle,
  angleIn,
  force,
  FORCE_UNITS,
  forceIn,
  inertia,
  INERTIA_UNITS,
  inertiaIn,
  length,
  LENGTH_UNITS,
  lengthIn,
  mass,
  MASS_UNITS,
  massIn,
  moment,
  MOMENT_UNITS,
  momentIn,
  time,
  TIME_UNITS,
  timeIn,
  type Angle,
  type AngleUnit,
  type Force,
  type ForceUnit,
  type Inertia,
  type InertiaUnit,
  type Length,
  type LengthUnit,
  type Mass,
  type MassUnit,
  type Moment,
  type MomentUnit,
  type Time,
  type TimeUnit,
} from '../physics/index';

/** What a dimension's value is inside: SI; pixels and plain numbers as they are; a share as a fraction of one. */
export interface Kinds {
  length: Length;
  mass: Mass;
  angle: Angle;
  force: Force;
  moment: Moment;
  time: Time;
  inertia: Inertia;
  pixels: number;
  share: number;
  number: number;
}
export type Dimension = keyof Kinds;

/** The units a reader may type, in the order they are offered. */
export const UNITS: Readonly<Record<Dimension, readonly string[]>> = {
  length: ['mm', 'cm', 'm', 'in'],
  mass: ['g', 'kg', 'oz', 'lb'],
  angle: ['deg', 'rad', '%'],
  force: ['N', 'kgf', 'lbf', 'ozf'],
  moment: ['N·m', 'N·mm', 'lbf·in', 'lbf·ft'],
  time: ['s', 'ms', 'min'],
  inertia: ['kg·m²', 'kg·cm²', 'g·cm²'],
  pixels: ['px'],
  share: ['%'],
  number: [''],
};

/** The dimension with its units, as the middle of a sentence. */
export const DIMENSION_WORDS: Readonly<Record<Dimension, string>> = {
  length: 'a length in mm, cm, m or in',
  mass: 'a mass in g, kg, oz or lb',
  angle: 'an angle in °, rad or % grade',
  force: 'a force in N, kgf, lbf or ozf',
  moment: 'a moment in N·m, N·mm, lbf·in or lbf·ft',
  time: 'a time in s, ms or min',
  inertia: 'a moment of inertia in kg·m², kg·cm² or g·cm²',
  pixels: 'a number of pixels',
  share: 'a share in %',
  number: 'a number without a unit',
};

const isLengthUnit = (unit: string): unit is LengthUnit => Object.hasOwn(LENGTH_UNITS, unit);
const isMassUnit = (unit: string): unit is MassUnit => Object.hasOwn(MASS_UNITS, unit);
const isAngleUnit = (unit: string): unit is AngleUnit => UNITS.angle.includes(unit);
const isForceUnit = (unit: string): unit is ForceUnit => Object.hasOwn(FORCE_UNITS, unit);
const isMomentUnit = (unit: string): unit is MomentUnit => Object.hasOwn(MOMENT_UNITS, unit);
const isTimeUnit = (unit: string): unit is TimeUnit => Object.hasOwn(TIME_UNITS, unit);
const isInertiaUnit = (unit: string): unit is InertiaUnit => Object.hasOwn(INERTIA_UNITS, unit);

type Into = { readonly [D in Dimension]: (number: number, unit: string) => Kinds[D] | null };
type OutOf = { readonly [D in Dimension]: (value: Kinds[D], unit: string) => number };

const INTO: Into = {
  length: (number, unit) => (isLengthUnit(unit) ? length(number, unit) : null),
  mass: (number, unit) => (isMassUnit(unit) ? mass(number, unit) : null),
  angle: (number, unit) => (isAngleUnit(unit) ? angle(number, unit) : null),
  force: (number, unit) => (isForceUnit(unit) ? force(number, unit) : null),
  moment: (number, unit) => (isMomentUnit(unit) ? moment(number, unit) : null),
  time: (number, unit) => (isTimeUnit(unit) ? time(number, unit) : null),
  inertia: (number, unit) => (isInertiaUnit(unit) ? inertia(number, unit) : null),
  pixels: (number, unit) => (unit === 'px' ? number : null),
  share: (number, unit) => (unit === '%' ? number / 100 : null),
  number: (number, unit) => (unit === '' ? number : null),
};

const OUT_OF: OutOf = {
  length: (value, unit) => (isLengthUnit(unit) ? lengthIn(value, unit) : value),
  mass: (value, unit) => (isMassUnit(unit) ? massIn(value, unit) : value),
  angle: (value, unit) => (isAngleUnit(unit) ? angleIn(value, unit) : value),
  force: (value, unit) => (isForceUnit(unit) ? forceIn(value, unit) : value),
  moment: (value, unit) => (isMomentUnit(unit) ? momentIn(value, unit) : value),
  time: (value, unit) => (isTimeUnit(unit) ? timeIn(value, unit) : value),
  inertia: (value, unit) => (isInertiaUnit(unit) ? inertiaIn(value, unit) : value),
  pixels: (value) => value,
  share: (value) => value * 100,
  number: (value) => value,
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
