/**
 * Quantities of the physics module: SI numbers whose types keep a length from being passed for a mass.
 *
 * Inside the module every number is SI (m, kg, s, N, rad). Readers' units enter through the constructors
 * here and leave through the functions below them; no other file multiplies by a unit.
 *
 * Axes as in ISO 8855: x forward, y left, z up; origin on the ground midway between the rear tire contacts,
 * truck at ride height. Angles are positive counter-clockwise seen against the axis they turn about.
 */

declare const dimension: unique symbol;

/** A number of one dimension. The brand exists for the compiler only. */
type Quantity<Name extends string> = number & { readonly [dimension]: Name };

/** m */
export type Length = Quantity<'length'>;
/** kg */
export type Mass = Quantity<'mass'>;
/** rad */
export type Angle = Quantity<'angle'>;
/** N */
export type Force = Quantity<'force'>;
/** N·m */
export type Moment = Quantity<'moment'>;
/** s */
export type Time = Quantity<'time'>;
/** kg·m² */
export type Inertia = Quantity<'inertia'>;

/** Standard acceleration of free fall, m/s², exact. 3rd CGPM (1901); NIST SP 811 (2008), B.8. */
export const STANDARD_GRAVITY = 9.80665;

/** One unit in SI. Exact by definition (NIST SP 811, B.8): inch 1959, avoirdupois pound 1959, kilogram-force 1901. */
export const LENGTH_UNITS = { mm: 0.001, cm: 0.01, m: 1, in: 0.0254 } as const;
export const MASS_UNITS = { g: 0.001, kg: 1, oz: 0.028349523125, lb: 0.45359237 } as const;
export const FORCE_UNITS = {
  N: 1,
  kgf: STANDARD_GRAVITY,
  lbf: 0.45359237 * STANDARD_GRAVITY,
  ozf: 0.028349523125 * STANDARD_GRAVITY,
} as const;
export const MOMENT_UNITS = {
  'N·m': 1,
  'N·mm': 0.001,
  'lbf·in': FORCE_UNITS.lbf * LENGTH_UNITS.in,
  'lbf·ft': FORCE_UNITS.lbf * LENGTH_UNITS.in * 12,
} as const;
export const TIME_UNITS = { s: 1, ms: 0.001, min: 60 } as const;
export const INERTIA_UNITS = { 'kg·m²': 1, 'kg·cm²': 1e-4, 'g·cm²': 1e-7 } as const;
const RADIANS_PER_DEGREE = Math.PI / 180;

export type LengthUnit = keyof typeof LENGTH_UNITS;
export type MassUnit = keyof typeof MASS_UNITS;
export type ForceUnit = keyof typeof FORCE_UNITS;
export type MomentUnit = keyof typeof MOMENT_UNITS;
export type TimeUnit = keyof typeof TIME_UNITS;
export type InertiaUnit = keyof typeof INERTIA_UNITS;
/** '%' is percent grade: 100 times the tangent of the slope. */
export type AngleUnit = 'deg' | 'rad' | '%';

/** Length from a number in `unit`. */
export const length = (value: number, unit: LengthUnit): Length => (value * LENGTH_UNITS[unit]) as Length;
/** Mass from a number in `unit`. */
export const mass = (value: number, unit: MassUnit): Mass => (value * MASS_UNITS[unit]) as Mass;
/** Force from a number in `unit`. */
export const force = (value: number, unit: ForceUnit): Force => (value * FORCE_UNITS[unit]) as Force;
/** Moment from a number in `unit`. */
export const moment = (value: number, unit: MomentUnit): Moment => (value * MOMENT_UNITS[unit]) as Moment;
/** Time from a number in `unit`. */
export const time = (value: number, unit: TimeUnit): Time => (value * TIME_UNITS[unit]) as Time;
/** Moment of inertia from a number in `unit`. */
export const inertia = (value: number, unit: InertiaUnit): Inertia =>
  (value * INERTIA_UNITS[unit]) as Inertia;
/** Angle from a number in `unit`; a percent grade becomes the slope angle, atan(value / 100). */
export const angle = (value: number, unit: AngleUnit): Angle => {
  if (unit === 'deg') return (value * RADIANS_PER_DEGREE) as Angle;
  return (unit === 'rad' ? value : Math.atan(value / 100)) as Angle;
};

/** The number of `unit` in a length. */
export const lengthIn = (value: Length, unit: LengthUnit): number => value / LENGTH_UNITS[unit];
/** The number of `unit` in a mass. */
export const massIn = (value: Mass, unit: MassUnit): number => value / MASS_UNITS[unit];
/** The number of `unit` in a force. */
export const forceIn = (value: Force, unit: ForceUnit): number => value / FORCE_UNITS[unit];
/** The number of `unit` in a moment. */
export const momentIn = (value: Moment, unit: MomentUnit): number => value / MOMENT_UNITS[unit];
/** The number of `unit` in a time. */
export const timeIn = (value: Time, unit: TimeUnit): number => value / TIME_UNITS[unit];
/** The number of `unit` in a moment of inertia. */
export const inertiaIn = (value: Inertia, unit: InertiaUnit): number => value / INERTIA_UNITS[unit];
/** The number of `unit` in an angle; a slope of 90° and more has no percent grade and gives Infinity. */
export const angleIn = (value: Angle, unit: AngleUnit): number => {
  if (unit === 'deg') return value / RADIANS_PER_DEGREE;
  if (unit === 'rad') return value;
  return Math.abs(value) >= Math.PI / 2 ? Infinity * Math.sign(value) : 100 * Math.tan(value);
};

/** Shorthands for the module's own results, which are SI already. */
export const meters = (value: number): Length => value as Length;
export const kilograms = (value: number): Mass => value as Mass;
export const radians = (value: number): Angle => value as Angle;
export const newtons = (value: number): Force => value as Force;
export const newtonMeters = (value: number): Moment => value as Moment;
export const seconds = (value: number): Time => value as Time;
export const kilogramSquareMeters = (value: number): Inertia => value as Inertia;
export const millimeters = (value: number): Length => length(value, 'mm');
export const grams = (value: number): Mass => mass(value, 'g');
export const degrees = (value: number): Angle => angle(value, 'deg');

/**
 * A value with its standard uncertainty u, both in the value's own SI unit. Inside the module u is always one
 * standard uncertainty; what the page prints as ± is COVERAGE · u.
 */
export interface Estimate<Kind extends number = number> {
  readonly value: Kind;
  readonly u: number;
}

/** Coverage factor of every ± shown to a reader: 19 times in 20 for a normal law. */
export const COVERAGE = 1.959964;
/** Coverage factor of a 95 % region in a plane: sqrt of the chi-squared quantile 0.95, two degrees of freedom. */
export const PLANE_COVERAGE = 2.447747;

/** Standard uncertainty of hard limits ±halfWidth (rectangular law). JCGM 100:2008, 4.3.7, eq. (7). */
export const uncertaintyFromLimits = (halfWidth: number): number => halfWidth / Math.sqrt(3);

/** A typed refusal: why there is no number. `reason` is a stable code, `message` a sentence for a reader. */
export interface Refusal<Reason extends string = string> {
  readonly ok: false;
  readonly reason: Reason;
  readonly message: string;
}
export interface Success<Value> {
  readonly ok: true;
  readonly value: Value;
}
/** What a function gives that cannot always give a number. */
export type Result<Value, Reason extends string = string> = Success<Value> | Refusal<Reason>;

export const success = <Value>(value: Value): Success<Value> => ({ ok: true, value });
export const refusal = <Reason extends string>(reason: Reason, message: string): Refusal<Reason> => ({
  ok: false,
  reason,
  message,
});
