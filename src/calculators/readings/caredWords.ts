import {
  CARED_QUANTITIES,
  COVERAGE,
  angleIn,
  lengthIn,
  meters,
  radians,
  type CaredQuantity,
  type Estimate,
  type LengthUnit,
} from '../../physics';
import { IN_DEGREES, IN_MILLIMETERS, type ChartUnit, type ChartValue } from '../../figures';
import { asText, fixed, NO_BREAK, placesToShow, showAngle, showLength, type Shown } from '../shared/format';

/** The quantities a reader may care about: their names, and their numbers in the reader's units. */

type InLengths = Extract<LengthUnit, 'mm' | 'in'>;

interface CaredWords {
  /** In the choice. */
  readonly choice: string;
  /** Within a sentence: "the side tip". */
  readonly name: string;
  /** Above the number. */
  readonly label: string;
  /** Below a scale, before the unit. */
  readonly axis: string;
  /** A larger one is told so: "7.1 mm higher". */
  readonly more: string;
  readonly less: string;
}

export const CARED_WORDS: Readonly<Record<CaredQuantity, CaredWords>> = {
  'side tip': {
    choice: 'Side tip, the weaker side',
    name: 'side tip',
    label: 'side tip',
    axis: 'side tip of the weaker side',
    more: 'more',
    less: 'less',
  },
  height: {
    choice: 'Height above ground',
    name: 'height',
    label: 'above ground',
    axis: 'height above ground',
    more: 'higher',
    less: 'lower',
  },
  ahead: {
    choice: 'Place ahead of the rear axle',
    name: 'place ahead',
    label: 'ahead of the rear axle',
    axis: 'ahead of the rear axle',
    more: 'farther ahead',
    less: 'farther back',
  },
  left: {
    choice: 'Place left of center',
    name: 'place to the left',
    label: 'left of center',
    axis: 'left of center',
    more: 'farther left',
    less: 'farther right',
  },
  climb: {
    choice: 'Climb, nose up',
    name: 'climb',
    label: 'climb, nose up',
    axis: 'climb, nose up',
    more: 'more',
    less: 'less',
  },
  descent: {
    choice: 'Descent, nose down',
    name: 'descent',
    label: 'descent, nose down',
    axis: 'descent, nose down',
    more: 'more',
    less: 'less',
  },
};

export const isCared = (text: string): text is CaredQuantity =>
  CARED_QUANTITIES.some((quantity) => quantity === text);

export const isLength = (quantity: CaredQuantity): boolean =>
  quantity === 'height' || quantity === 'ahead' || quantity === 'left';

/** Value with its ± in the reader's unit. */
export const showCared = (
  quantity: CaredQuantity,
  { value, u }: Estimate,
  unit: InLengths,
  most?: number,
): Shown =>
  isLength(quantity)
    ? showLength({ value: meters(value), u }, unit, most)
    : showAngle({ value: radians(value), u }, most);

/** "43.8° ± 0.7°" */
export const caredText = (quantity: CaredQuantity, estimate: Estimate, unit: InLengths): string =>
  asText(showCared(quantity, estimate, unit));

/** A size of the quantity in the reader's unit. */
export const inReadersUnit = (quantity: CaredQuantity, value: number, unit: InLengths): number =>
  isLength(quantity) ? lengthIn(meters(value), unit) : angleIn(radians(value), 'deg');

/** A length or an angle that stands alone: "1.8°", "3.2 mm"; as many places as it takes to show, two more at most. */
export function sizeText(quantity: CaredQuantity, value: number, unit: InLengths): string {
  const number = inReadersUnit(quantity, value, unit);
  const usual = isLength(quantity) && unit === 'in' ? 2 : 1;
  const places = placesToShow(number, usual);
  return isLength(quantity) ? `${fixed(number, places)}${NO_BREAK}${unit}` : `${fixed(number, places)}°`;
}

/** The same with its sign: "+1.0°", "−3.2 mm". */
export function signedText(quantity: CaredQuantity, value: number, unit: InLengths): string {
  const text = sizeText(quantity, value, unit);
  return value > 0 && /[1-9]/.test(text) ? `+${text}` : text;
}

const IN_INCHES: ChartUnit = { name: 'in', sign: '', spoken: 'inches', decimals: 2 };

export const chartUnitOf = (quantity: CaredQuantity, unit: InLengths): ChartUnit =>
  isLength(quantity) ? (unit === 'in' ? IN_INCHES : IN_MILLIMETERS) : IN_DEGREES;

/** "side tip of the weaker side, degrees" */
export const axisOf = (quantity: CaredQuantity, unit: InLengths): string =>
  `${CARED_WORDS[quantity].axis}, ${chartUnitOf(quantity, unit).name}`;

export const chartValueOf = (
  quantity: CaredQuantity,
  { value, u }: Estimate,
  unit: InLengths,
): ChartValue => ({
  value: inReadersUnit(quantity, value, unit),
  halfWidth: COVERAGE * inReadersUnit(quantity, u, unit),
});
