import type { NumberKind } from '../estimate/truckModel';

/**
 * A number written down in one unit and entered under another. Factors by NIST SP 811, appendix B: the ounce is 28.349 523
 * 125 g, the pound 0.453 592 37 kg, the inch 25.4 mm, all exact.
 */
export interface UnitSlip {
  readonly code: string;
  readonly kind: NumberKind;
  /** What the number entered has to be multiplied by to be right. */
  readonly factor: number;
  /** For the reader: "was read in …, entered as …". */
  readonly read: string;
  readonly entered: string;
}

const both = (kind: NumberKind, one: string, other: string, ratio: number): readonly UnitSlip[] => [
  { code: `${one} for ${other}`, kind, factor: ratio, read: one, entered: other },
  { code: `${other} for ${one}`, kind, factor: 1 / ratio, read: other, entered: one },
];

/** Both ways round; the ratio is that of the first unit to the second. */
export const UNIT_SLIPS: readonly UnitSlip[] = [
  ...both('mass', 'ounces', 'grams', 28.349523125),
  ...both('mass', 'pounds', 'kilograms', 0.45359237),
  ...both('mass', 'kilograms', 'grams', 1000),
  ...both('length', 'inches', 'millimeters', 25.4),
  ...both('length', 'centimeters', 'millimeters', 10),
  ...both('angle', 'degrees', 'radians', Math.PI / 180),
];
