import { refusal, success, type Result } from '../physics/index';

/** A number as typed, with the unit typed behind it if there was one. */
export interface TypedNumber {
  readonly number: number;
  /** A unit of the sheet where it is known (UNIT_WORDS), else as typed; null where none was typed. */
  readonly unit: string | null;
  /** The text without the unit behind it; all of it where the unit cannot be parted off (6 lb 7 oz). */
  readonly digits: string;
}

export type NumberReason = 'empty' | 'not-a-number' | 'ambiguous' | 'too-big';

/** What people write for the sheet's units, in lower case. */
const UNIT_WORDS: Readonly<Record<string, string>> = {
  ...{ mm: 'mm', millimeter: 'mm', millimeters: 'mm', millimetre: 'mm', millimetres: 'mm' },
  ...{ cm: 'cm', centimeter: 'cm', centimeters: 'cm', centimetre: 'cm', centimetres: 'cm' },
  ...{ m: 'm', meter: 'm', meters: 'm', metre: 'm', metres: 'm' },
  ...{ in: 'in', inch: 'in', inches: 'in', '"': 'in', '″': 'in', '”': 'in' },
  ...{
    g: 'g',
    gr: 'g',
    gram: 'g',
    grams: 'g',
    kg: 'kg',
    kilo: 'kg',
    kilos: 'kg',
    kilogram: 'kg',
    kilograms: 'kg',
  },
  ...{ oz: 'oz', ounce: 'oz', ounces: 'oz', lb: 'lb', lbs: 'lb', pound: 'lb', pounds: 'lb' },
  ...{
    '°': 'deg',
    º: 'deg',
    deg: 'deg',
    degree: 'deg',
    degrees: 'deg',
    rad: 'rad',
    radian: 'rad',
    radians: 'rad',
  },
  ...{ n: 'N', newton: 'N', newtons: 'N', kgf: 'kgf', lbf: 'lbf', ozf: 'ozf' },
  ...{ 'n·m': 'N·m', nm: 'N·m', 'n m': 'N·m', 'n·mm': 'N·mm', nmm: 'N·mm', 'n mm': 'N·mm' },
  ...{ 'lbf·in': 'lbf·in', 'lbf in': 'lbf·in', 'lbf·ft': 'lbf·ft', 'lbf ft': 'lbf·ft' },
  ...{ s: 's', sec: 's', second: 's', seconds: 's', ms: 'ms', min: 'min', minute: 'min', minutes: 'min' },
  ...{ 'kg·m²': 'kg·m²', 'kg m²': 'kg·m²', 'kg m2': 'kg·m²', 'kg·m2': 'kg·m²', kgm2: 'kg·m²' },
  ...{ 'kg·cm²': 'kg·cm²', 'kg cm²': 'kg·cm²', 'kg cm2': 'kg·cm²', 'kg·cm2': 'kg·cm²' },
  ...{ 'g·cm²': 'g·cm²', 'g cm²': 'g·cm²', 'g cm2': 'g·cm²', 'g·cm2': 'g·cm²' },
  ...{ '%': '%', percent: '%', px: 'px', pixel: 'px', pixels: 'px' },
};

const VULGAR: Readonly<Record<string, string>> = {
  ...{ '½': '1/2', '⅓': '1/3', '⅔': '2/3', '¼': '1/4', '¾': '3/4' },
  ...{ '⅛': '1/8', '⅜': '3/8', '⅝': '5/8', '⅞': '7/8' },
};

/** One way of writing spaces, minus signs and fractions. */
const plain = (text: string): string =>
  text
    .replace(/[½⅓⅔¼¾⅛⅜⅝⅞]/g, (sign) => ` ${VULGAR[sign] ?? ''}`)
    .replace(/[\u2212\u2010-\u2015\uFE63\uFF0D]/g, '-')
    .replace(/[\u2044\u2215]/g, '/')
    .replace(/[\u22C5\u2219*]/g, '·')
    .replace(/ ?· ?/g, '·')
    .replace(/[\s\u00A0\u2009\u202F]+/g, ' ')
    .trim();

const SHAPE = new RegExp(
  [
    '^([+-]?) ?',
    '(?:(?:(\\d+)[ -])?(\\d+) ?/ ?(\\d+)', // 3/8, 1 3/8, 1-3/8
    '|(\\d[\\d.,]*|[.,]\\d+)(e[+-]?\\d+)?)', // 313, 12.3, 1,5, .5, 3e2
    ' ?([a-zà-ž°º%"″”][^\\d]*(?:(?<=[a-z])[23])?)?$', // whatever stands behind it
  ].join(''),
  'i',
);

const notANumber = (typed: string): Result<never, 'not-a-number'> =>
  refusal('not-a-number', `needs a number; got “${typed}”`);

/**
 * The decimal number in digits, points and commas. A single comma is a decimal comma, except where it may as well
 * part thousands (1,234); with both, the last one is the decimal sign.
 */
function decimal(digits: string, typed: string): Result<number, 'not-a-number' | 'ambiguous'> {
  const points = digits.split('.').length - 1;
  const commas = digits.split(',').length - 1;
  if (commas === 0) return points > 1 ? notANumber(typed) : success(Number(digits));
  if (points === 0 && commas === 1) {
    if (/^[1-9]\d{0,2},\d{3}$/.test(digits)) {
      const either = `${digits.replace(',', '.')} or ${digits.replace(',', '')}`;
      return refusal('ambiguous', `needs one meaning; got “${typed}”. Type ${either}.`);
    }
    return success(Number(digits.replace(',', '.')));
  }
  // 1,234.5 and 1.234,5 and 1,234,567
  if (/^\d{1,3}(,\d{3})+(\.\d*)?$/.test(digits)) return success(Number(digits.replaceAll(',', '')));
  if (/^\d{1,3}(\.\d{3})+,\d*$/.test(digits))
    return success(Number(digits.replaceAll('.', '').replace(',', '.')));
  return notANumber(typed);
}

/** Pounds and ounces in one breath, as American kitchen scales show them: 6 lb 7.5 oz. In pounds. */
function poundsAndOunces(text: string): TypedNumber | null {
  const parts = /^([+-]?) ?(\d+) ?(?:lbs?|pounds?),? (\d+(?:\.\d+)?) ?(?:oz|ounces?)$/i.exec(text);
  if (!parts) return null;
  const sum = Number(parts[2]) + Number(parts[3]) / 16;
  return { number: parts[1] === '-' ? -sum : sum, unit: 'lb', digits: text };
}

/**
 * A number as people type it: "313", "12.3", "1,5", "3/8", "1 3/8", "−4", "12.3 in", "28°", "45 %", "6 lb 7 oz".
 * Refuses what is empty, no number, or has two meanings; the message is the middle of a sentence (rule; value).
 */
export function parseNumber(typed: string): Result<TypedNumber, NumberReason> {
  const text = plain(typed);
  if (text === '') return refusal('empty', 'needs a number; nothing is entered');
  const pounds = poundsAndOunces(text);
  if (pounds) return success(pounds);
  const parts = SHAPE.exec(text);
  if (!parts) return notANumber(typed.trim());
  const [, sign, whole, over, under, digits, exponent, behind] = parts;
  let size: number;
  if (digits === undefined) {
    if (Number(under) === 0) return notANumber(typed.trim());
    size = Number(whole ?? 0) + Number(over) / Number(under);
  } else {
    const read = decimal(digits, typed.trim());
    if (!read.ok) return read;
    size = read.value * Number(`1${exponent ?? ''}`);
  }
  if (Number.isNaN(size)) return notANumber(typed.trim());
  if (!Number.isFinite(size)) return refusal('too-big', `needs a smaller number; got “${typed.trim()}”`);
  const digitsOnly = text.slice(0, text.length - (behind?.length ?? 0)).trim();
  const word = behind?.trim().replace(/\.$/, '');
  const unit = word === undefined || word === '' ? null : (UNIT_WORDS[word.toLowerCase()] ?? word);
  return success({ number: sign === '-' ? -size : size, unit, digits: digitsOnly });
}
