import { describe, expect, test } from 'vitest';
import {
  angleIn,
  degrees,
  length,
  limitSlope,
  meters,
  staticStabilityFactor,
  supportPolygon,
  truckContacts,
} from '../../src/physics';
import { valueOf } from '../physics/given';
import { type PublishedValue, agreeWithPrint } from './published';

const factor = (track: number, height: number): number =>
  valueOf(staticStabilityFactor(meters(track), meters(height)));

/** Side tip angle of a rigid car with its CG on center, anywhere along the wheelbase. */
const sideTip = (wheelbase: number, track: number, height: number): number => {
  const polygon = valueOf(supportPolygon(truckContacts(meters(wheelbase), meters(track), meters(track))));
  const cg = { x: meters(wheelbase / 2), y: meters(0), z: meters(height) };
  return angleIn(valueOf(limitSlope(polygon, cg, degrees(90))).slope, 'deg');
};

/** Force at the CG's height that tips a body of half base 9.0 cm, CG 20 cm high, 2.50 kg, in weights: d/h. */
const push = valueOf(staticStabilityFactor(length(2 * 9, 'cm'), length(20, 'cm')));

const VIP =
  'class mean of Heydinger et al., SAE 1999-01-1336, through Penn State ME 481 Notes 07_04, p. 5 (track and height seen)';
const CP2E = 'OpenStax, College Physics 2e, 9.3, problem';

const ROWS: PublishedValue[] = [
  {
    id: 'J2',
    what: 'small cars, track 1.446 m, CG 0.519 m: static stability factor',
    source: VIP,
    status: 'recomputed',
    ours: () => factor(1.446, 0.519),
    printed: 1.393,
    unit: '',
    lastDigit: 0.001,
  },
  {
    id: 'J2',
    what: 'small cars, wheelbase 2.524 m: side tip angle of the rigid car',
    source: VIP,
    status: 'recomputed',
    ours: () => sideTip(2.524, 1.446, 0.519),
    printed: 54.33,
    unit: '°',
    lastDigit: 0.01,
  },
  {
    id: 'J3',
    what: 'large cars, track 1.468 m, CG 0.585 m: static stability factor',
    source: VIP,
    status: 'recomputed',
    ours: () => factor(1.468, 0.585),
    printed: 1.255,
    unit: '',
    lastDigit: 0.001,
  },
  {
    id: 'J3',
    what: 'large cars, wheelbase 2.679 m: side tip angle of the rigid car',
    source: VIP,
    status: 'recomputed',
    ours: () => sideTip(2.679, 1.468, 0.585),
    printed: 51.45,
    unit: '°',
    lastDigit: 0.01,
  },
  {
    id: 'K7',
    what: 'push over weight that tips, half base 9.0 cm, CG 20 cm high',
    source: CP2E,
    status: 'recomputed',
    ours: () => push,
    printed: 0.45,
    unit: '',
    lastDigit: 0.01,
  },
  {
    id: 'K7',
    what: 'that push on 2.50 kg, with the book’s 9.80 m/s²',
    source: CP2E,
    status: 'recomputed',
    ours: () => push * 2.5 * 9.8,
    printed: 11.0,
    unit: 'N',
    lastDigit: 0.1,
  },
];

describe('stability (sections J and K)', () => agreeWithPrint(ROWS));

/** J1, seen: NHTSA, Why Choose SSF?: SSF = (t/2)/h. */
describe('static stability factor by formula (J1)', () => {
  test.each([
    [1.5, 0.6],
    [0.17, 0.08],
    [0.2, 0.1],
  ])('track %d m, height %d m', (t, h) => expect(factor(t, h)).toBeCloseTo(t / 2 / h, 14));
});
