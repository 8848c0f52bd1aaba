/** What a reader may write for a unit, beside the unit's own name. */
const SPELLINGS: Readonly<Record<string, string>> = {
  millimeter: 'mm',
  millimeters: 'mm',
  centimeter: 'cm',
  centimeters: 'cm',
  meter: 'm',
  meters: 'm',
  inch: 'in',
  inches: 'in',
  '"': 'in',
  '″': 'in',
  '”': 'in',
  gram: 'g',
  grams: 'g',
  kilogram: 'kg',
  kilograms: 'kg',
  kilo: 'kg',
  ounce: 'oz',
  ounces: 'oz',
  pound: 'lb',
  pounds: 'lb',
  lbs: 'lb',
  '°': 'deg',
  degree: 'deg',
  degrees: 'deg',
  percent: '%',
  pixel: 'px',
  pixels: 'px',
};

/**
 * Splits what was typed into number text and unit: "12.3 in" into "12.3" and in. The unit is one of `units` or
 * null when none was typed. Text whose ending is no unit of this field stays whole, so nothing typed is lost.
 */
export function splitUnit(typed: string, units: readonly string[]): { text: string; unit: string | null } {
  const text = typed.trim();
  const ending = /^(.*\d[.,]?)\s*([^\d\s.,]+)$/u.exec(text);
  const [, number, word] = ending ?? [];
  if (number === undefined || word === undefined) return { text, unit: null };
  const named = SPELLINGS[word.toLowerCase()] ?? word;
  const unit = units.find((known) => known.toLowerCase() === named.toLowerCase());
  return unit === undefined ? { text, unit: null } : { text: number.trim(), unit };
}
