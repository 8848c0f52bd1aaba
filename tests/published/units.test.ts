import { describe } from 'vitest';
import { force, length, lengthIn, mass, massIn } from '../../src/physics';
import { type PublishedValue, agreeWithPrint } from './published';

const TABLE = 'school board conversion table; NIST SP 811 (2008), B.8';

const ROWS: PublishedValue[] = [
  {
    id: 'A1',
    what: 'kilogram-force',
    source: `3rd CGPM 1901; ${TABLE}`,
    status: 'seen',
    ours: () => force(1, 'kgf'),
    printed: 9.80665,
    unit: 'N',
    lastDigit: 1e-12,
  },
  {
    id: 'A2',
    what: 'pound-force',
    source: `${TABLE}; US Navy facilities SI table`,
    status: 'seen + recomputed',
    ours: () => force(1, 'lbf'),
    printed: 4.448222,
    unit: 'N',
    lastDigit: 1e-6,
  },
  {
    id: 'A3',
    what: 'pound',
    source: TABLE,
    status: 'seen',
    ours: () => massIn(mass(1, 'lb'), 'kg'),
    printed: 0.45359237,
    unit: 'kg',
    lastDigit: 1e-12,
  },
  {
    id: 'A4',
    what: 'ounce',
    source: TABLE,
    status: 'seen + recomputed',
    ours: () => massIn(mass(1, 'oz'), 'g'),
    printed: 28.349523,
    unit: 'g',
    lastDigit: 1e-6,
  },
  {
    id: 'A5',
    what: 'inch',
    source: `${TABLE}; US DOT SI table`,
    status: 'seen',
    ours: () => lengthIn(length(1, 'in'), 'mm'),
    printed: 25.4,
    unit: 'mm',
    lastDigit: 1e-12,
  },
];

describe('units (section A)', () => agreeWithPrint(ROWS));
