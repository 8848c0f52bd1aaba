import {
  angleIn,
  COVERAGE,
  kilograms,
  lengthIn,
  massIn,
  meters,
  radians,
  type Angle,
  type Estimate,
  type Length,
  type LengthUnit,
  type Mass,
  type MassUnit,
} from '../../physics';

/** U+2212. A hyphen is no minus sign. */
const MINUS = '−';

/** A number ready for the page: the value and its ± to the same place, and the unit as words or sign. */
export interface Shown {
  readonly value: string;
  /** '' where there is no ±. */
  readonly plusMinus: string;
  readonly unit: string;
}

/** A number with `decimals` places, a true minus sign and never "−0". */
export function fixed(value: number, decimals: number): string {
  const text = value.toFixed(decimals);
  if (!text.startsWith('-')) return text;
  return /[1-9]/.test(text) ? MINUS + text.slice(1) : text.slice(1);
}

/**
 * Decimal places that show `plusMinus` with two significant digits, but never more than `most`: nobody reads a
 * hundredth of a millimeter off a bench. Where `most` would round the ± away, places are added until it shows.
 */
export function decimalsFor(plusMinus: number, most = 1): number {
  if (!(plusMinus > 0)) return most;
  const twoDigits = 1 - Math.floor(Math.log10(plusMinus));
  const needed = Math.max(0, Math.min(most, twoDigits));
  return Number(plusMinus.toFixed(needed)) > 0 ? needed : twoDigits - 1;
}

function shown(value: number, plusMinus: number, unit: string, most: number): Shown {
  const decimals = decimalsFor(plusMinus, most);
  return { value: fixed(value, decimals), plusMinus: plusMinus > 0 ? fixed(plusMinus, decimals) : '', unit };
}

const UNIT_WORDS: Readonly<Record<string, string>> = {
  mm: 'millimeters',
  cm: 'centimeters',
  m: 'meters',
  in: 'inches',
  g: 'grams',
  kg: 'kilograms',
  oz: 'ounces',
  lb: 'pounds',
  deg: 'degrees',
  '°': 'degrees',
  rad: 'radians',
  N: 'newtons',
  kgf: 'kilograms-force',
  lbf: 'pounds-force',
  ozf: 'ounces-force',
  'N·m': 'newton meters',
  'N·mm': 'newton millimeters',
  'lbf·in': 'pound-force inches',
  'lbf·ft': 'pound-force feet',
  s: 'seconds',
  ms: 'milliseconds',
  min: 'minutes',
  'kg·m²': 'kilogram square meters',
  'kg·cm²': 'kilogram square centimeters',
  'g·cm²': 'gram square centimeters',
  '%': 'percent',
  px: 'pixels',
};

/** Sign of a unit as it stands beside a number: '°' for deg, the unit itself otherwise. */
export const unitSign = (unit: string): string => (unit === 'deg' ? '°' : unit);
/** A unit spoken in full, for screen readers. */
export const unitWord = (unit: string): string => UNIT_WORDS[unit] ?? unit;

/** A length with its ± (1.96 u) in `unit`, with at most `most` decimal places. */
export function showLength(
  estimate: Estimate<Length>,
  unit: LengthUnit = 'mm',
  most = unit === 'mm' ? 1 : 2,
): Shown {
  return shown(lengthIn(estimate.value, unit), COVERAGE * lengthIn(meters(estimate.u), unit), unit, most);
}

const MASS_PLACES: Readonly<Record<MassUnit, number>> = { g: 0, kg: 3, oz: 1, lb: 2 };

/** A mass with its ± (1.96 u) in `unit`, with at most `most` decimal places. */
export function showMass(estimate: Estimate<Mass>, unit: MassUnit = 'g', most = MASS_PLACES[unit]): Shown {
  return shown(massIn(estimate.value, unit), COVERAGE * massIn(kilograms(estimate.u), unit), unit, most);
}

/** A slope or a direction in degrees with its ± (1.96 u), with at most `most` decimal places. */
export function showAngle(estimate: Estimate<Angle>, most = 1): Shown {
  return shown(angleIn(estimate.value, 'deg'), COVERAGE * angleIn(radians(estimate.u), 'deg'), '°', most);
}

/** U+00A0: a number, its ± and its unit stay on one line. */
export const NO_BREAK = '\u00a0';

/** "94.0 ± 1.8 mm", "43.8° ± 0.7°", as text that keeps to one line. */
export function asText({ value, plusMinus, unit }: Shown): string {
  const sign = unit === '°' ? '°' : '';
  const parts = [`${value}${sign}`, plusMinus && `±${NO_BREAK}${plusMinus}${sign}`, sign ? '' : unit];
  return parts.filter(Boolean).join(NO_BREAK);
}

/** A sentence whose numbers keep to one line with their ± and their unit. */
export const keepNumbers = (sentence: string): string =>
  sentence
    .replace(/([\d°]) ± (?=\d)/gu, `$1${NO_BREAK}±${NO_BREAK}`)
    .replace(/± (?=\d)/gu, `±${NO_BREAK}`)
    .replace(/(\d) (?=(?:mm|cm|m|in|px|g|kg|oz|lb|%)(?![\p{L}\d]))/gu, `$1${NO_BREAK}`);

/** A number as the reader typed it, to be read: trimmed, its hyphen a minus sign. */
export const typedNumber = (text: string): string => text.trim().replace(/^[-\u2010-\u2013]/u, MINUS);

/** The same, as it is spoken: "94.0 plus or minus 1.8 millimeters". */
export function asSpeech({ value, plusMinus, unit }: Shown): string {
  const words = [value.replace(MINUS, 'minus '), plusMinus && `plus or minus ${plusMinus}`, unitWord(unit)];
  return words.filter(Boolean).join(' ');
}

/** Decimals that a number takes to show at all: `usual`, and two more at most where it would read as zero. */
export const placesToShow = (number: number, usual: number): number =>
  number === 0
    ? usual
    : ([usual, usual + 1].find((places) => Number(number.toFixed(places)) !== 0) ?? usual + 2);
