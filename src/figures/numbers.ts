import { angleIn, lengthIn, type Angle, type Length } from '../physics';

/** A number as the pages print it: fixed decimals, a real minus sign, never "−0.0". */
export const printed = (value: number, decimals = 1): string => {
  const text = Math.abs(value).toFixed(decimals);
  return value < 0 && Number(text) !== 0 ? `−${text}` : text;
};

/** A length in mm, as dimensions print it: no unit, one decimal. */
export const printedMillimeters = (value: Length): string => printed(lengthIn(value, 'mm'));

/** An angle in degrees, with its sign. */
export const printedDegrees = (value: Angle, decimals = 1): string =>
  `${printed(angleIn(value, 'deg'), decimals)}°`;

/**
 * Width of a line of text, px, near enough to leave a gap for it: the sans face has digits of 0.6 em and narrow
 * points and commas. Errs on the wide side by a few percent.
 */
export const textWidth = (text: string, size = 15): number =>
  Array.from(text).reduce((sum, sign) => sum + (/[.,:;'’|il ]/.test(sign) ? 0.31 : 0.61), 0) * size;
