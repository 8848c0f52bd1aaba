import { describe } from 'vitest';
import {
  type PartMass,
  compositeCg,
  kilograms,
  length,
  lengthIn,
  mass,
  massIn,
  meters,
} from '../../src/physics';
import { valueOf } from '../physics/given';
import { type PublishedValue, agreeWithPrint } from './published';

const at = (m: number, x: number, y = 0, z = 0): PartMass => ({
  mass: { value: kilograms(m), u: 0 },
  x: { value: meters(x), u: 0 },
  y: { value: meters(y), u: 0 },
  z: { value: meters(z), u: 0 },
});
const poundsAtInches = (pounds: number, inches: number): PartMass => ({
  ...at(0, 0),
  mass: { value: mass(pounds, 'lb'), u: 0 },
  x: { value: length(inches, 'in'), u: 0 },
});
const inInches = (parts: readonly PartMass[]): number => lengthIn(valueOf(compositeCg(parts)).x.value, 'in');

/** Three boxes of 50, 10 and 30 N at 0, 1.2 and 2.0 m: only shares of weight count. */
const boxes = (datum: number): number =>
  valueOf(compositeCg([at(50, -datum), at(10, 1.2 - datum), at(30, 2 - datum)])).x.value;

/** Block 216 ft³ of 125 lb/ft³, a hole of radius 2 and length 4 ft through it, a wedge 12 ft³ of 493 lb/ft³ (in ft). */
const block = () =>
  valueOf(
    compositeCg([
      at(216 * 125, -3, 2, 4.5),
      at(-Math.PI * 2 ** 2 * 4 * 125, -3, 2, 6),
      at(12 * 493, -4, 14 / 3, 1),
    ]),
  );

/** Empty weight and oil, which all three loadings share. */
const EMPTY = [poundsAtInches(1169, 10.6), poundsAtInches(17, -49)];
const forward = [...EMPTY, poundsAtInches(170, 16), poundsAtInches(83, 22)];
const rearward = [
  ...EMPTY,
  poundsAtInches(170, 16),
  poundsAtInches(340, 48),
  poundsAtInches(240, 22),
  poundsAtInches(100, 75.5),
];
const fig13 = [
  ...EMPTY,
  poundsAtInches(170, 16),
  poundsAtInches(170, 16),
  poundsAtInches(340, 48),
  poundsAtInches(234, 22),
];
const fig14 = [
  ...EMPTY,
  poundsAtInches(170, 16),
  poundsAtInches(170, 48),
  poundsAtInches(170, 16),
  poundsAtInches(240, 22),
  poundsAtInches(100, 75.5),
];

const ES = 'Baker & Haynes, Engineering Statics, ch. 7';
const AC = 'FAA Advisory Circular 43.13-1B';

const ROWS: PublishedValue[] = [
  {
    id: 'D1',
    what: 'three boxes, from the left box',
    source: `${ES}, Simple Center of Gravity`,
    status: 'seen + recomputed',
    ours: () => boxes(0),
    printed: 0.8,
    unit: 'm',
    lastDigit: 0.1,
  },
  {
    id: 'D1',
    what: 'three boxes, from the right box',
    source: `${ES}, Simple Center of Gravity`,
    status: 'seen + recomputed',
    ours: () => boxes(2),
    printed: -1.2,
    unit: 'm',
    lastDigit: 0.1,
  },
  ...(
    [
      ['x', -3.22],
      ['y', 2.59],
      ['z', 3.37],
    ] as const
  ).map(([axis, printed]): PublishedValue => ({
    id: 'D2',
    what: `block with a hole and a wedge, ${axis}`,
    source: `${ES}, 3D Center of Mass`,
    status: 'seen + recomputed',
    ours: () => block()[axis].value,
    printed,
    unit: 'ft',
    lastDigit: 0.01,
  })),
  {
    id: 'D2',
    what: 'block with a hole and a wedge, weight',
    source: `${ES}, 3D Center of Mass`,
    status: 'seen + recomputed',
    ours: () => block().mass.value,
    printed: 26633,
    unit: 'lb',
    lastDigit: 1,
  },
  {
    id: 'D3',
    what: 'forward loading',
    source: `${AC}, fig. 10-10`,
    status: 'seen + recomputed',
    ours: () => inInches(forward),
    printed: 11.2,
    unit: 'in',
    lastDigit: 0.1,
  },
  {
    id: 'D3',
    what: 'forward loading, weight',
    source: `${AC}, fig. 10-10`,
    status: 'seen + recomputed',
    ours: () => massIn(valueOf(compositeCg(forward)).mass.value, 'lb'),
    printed: 1439,
    unit: 'lb',
    lastDigit: 1,
  },
  {
    id: 'D4',
    what: 'rearward loading (totals seen)',
    source: `${AC}, fig. 10-11`,
    status: 'recomputed',
    ours: () => inInches(rearward),
    printed: 21.3,
    unit: 'in',
    lastDigit: 0.1,
  },
  {
    id: 'D4',
    what: 'rearward loading, weight',
    source: `${AC}, fig. 10-11`,
    status: 'seen',
    ours: () => massIn(valueOf(compositeCg(rearward)).mass.value, 'lb'),
    printed: 2036,
    unit: 'lb',
    lastDigit: 1,
  },
  {
    id: 'D5',
    what: 'totals 2100 lb and 38466 lb·in as printed; the quotient printed beside them, 18.6, is wrong',
    source: `${AC}, fig. 10-13`,
    status: 'recomputed',
    ours: () => inInches(fig13),
    printed: 18.32,
    unit: 'in',
    lastDigit: 0.01,
  },
  {
    id: 'D6',
    what: 'loading',
    source: `${AC}, fig. 10-14`,
    status: 'seen + recomputed',
    ours: () => inInches(fig14),
    printed: 18.7,
    unit: 'in',
    lastDigit: 0.1,
  },
];

describe('composite CG (section D)', () => agreeWithPrint(ROWS));
