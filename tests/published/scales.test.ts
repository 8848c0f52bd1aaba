import { describe, expect, test } from 'vitest';
import {
  type Estimate,
  type Length,
  type Mass,
  cgFromAxleScales,
  cgFromWeighingPoints,
  cgFromWheelScales,
  kilograms,
  length,
  lengthIn,
  loadsOnThreePoints,
  mass,
  meters,
} from '../../src/physics';
import { valueOf } from '../physics/given';
import { type PublishedValue, agreeWithPrint } from './published';

const exactly = <Kind extends number>(value: Kind): Estimate<Kind> => ({ value, u: 0 });

const aheadOfRear = (frontShare: number, wheelbase: number): number =>
  valueOf(
    cgFromAxleScales(
      exactly(kilograms(frontShare)),
      exactly(kilograms(1 - frontShare)),
      exactly(meters(wheelbase)),
    ),
  ).x.value;

/** Weighing of an airplane: nose scale 340 lb, 78 in ahead of the main wheels (negative arm), 2006 lb in all. */
const noseAndMains = (datumAheadOfMains: number): number => {
  const point = (arm: number, pounds: number) => ({
    x: length(datumAheadOfMains + arm, 'in'),
    y: meters(0),
    load: exactly(mass(pounds, 'lb')),
  });
  return lengthIn(valueOf(cgFromWeighingPoints([point(-78, 340), point(0, 1666)])).x.value, 'in');
};

/** Three-wheeler: wheelbase 160 cm, track 100 cm, 1000 kg, CG 50 cm ahead of the rear axle, 20 cm to the left. */
const threeWheels = [
  { x: length(160, 'cm'), y: meters(0) },
  { x: meters(0), y: length(50, 'cm') },
  { x: meters(0), y: length(-50, 'cm') },
] as const;
const threeLoads = (wheel: 0 | 1 | 2): number =>
  valueOf(loadsOnThreePoints(threeWheels, { x: length(50, 'cm'), y: length(20, 'cm') }, kilograms(1000)))[
    wheel
  ];
const fromThreeLoads = () =>
  valueOf(
    cgFromWeighingPoints(
      threeWheels.map((wheel, i) => ({
        ...wheel,
        load: exactly(kilograms([312.5, 543.75, 143.75][i] ?? NaN)),
      })),
    ),
  );

const UP1 = 'OpenStax, University Physics Volume 1, 12.1';
const FAA = 'FAA Weight and Balance Handbook, electronic-calculator example';
const THREE = 'tkonaka.gozaru.jp, vector mechanics sample problem';

const ROWS: PublishedValue[] = [
  {
    id: 'C1',
    what: 'wheelbase 2.5 m, 52 % on the front wheels',
    source: `${UP1}, example Center of Gravity of a Car`,
    status: 'seen + recomputed',
    ours: () => aheadOfRear(0.52, 2.5),
    printed: 1.3,
    unit: 'm',
    lastDigit: 0.1,
  },
  {
    id: 'C3',
    what: 'nose scale on a negative arm, from the main wheels',
    source: FAA,
    status: 'seen + recomputed',
    ours: () => noseAndMains(0),
    printed: -13.2,
    unit: 'in',
    lastDigit: 0.1,
  },
  {
    id: 'C5',
    what: 'three-wheeler, front load',
    source: THREE,
    status: 'recomputed',
    ours: () => threeLoads(0),
    printed: 312.5,
    unit: 'kg',
    lastDigit: 0.1,
  },
  {
    id: 'C5',
    what: 'three-wheeler, near rear load',
    source: THREE,
    status: 'recomputed',
    ours: () => threeLoads(1),
    printed: 543.75,
    unit: 'kg',
    lastDigit: 0.01,
  },
  {
    id: 'C5',
    what: 'three-wheeler, far rear load',
    source: THREE,
    status: 'recomputed',
    ours: () => threeLoads(2),
    printed: 143.75,
    unit: 'kg',
    lastDigit: 0.01,
  },
  {
    id: 'C5',
    what: 'its CG back from the loads, ahead of the rear axle',
    source: THREE,
    status: 'recomputed',
    ours: () => lengthIn(fromThreeLoads().x.value, 'cm'),
    printed: 50,
    unit: 'cm',
    lastDigit: 1,
  },
  {
    id: 'C5',
    what: 'its CG back from the loads, off center',
    source: THREE,
    status: 'recomputed',
    ours: () => lengthIn(fromThreeLoads().y.value, 'cm'),
    printed: 20,
    unit: 'cm',
    lastDigit: 1,
  },
];

/** Kept apart: their answers were not seen in print. */
const APART: PublishedValue[] = [
  {
    id: 'C2',
    what: 'wheelbase 3.0 m, 60 % on the front wheels, behind the front axle',
    source: `${UP1}, problem`,
    status: 'recomputed',
    ours: () => 3 - aheadOfRear(0.6, 3),
    printed: 1.2,
    unit: 'm',
    lastDigit: 0.1,
  },
  {
    id: 'C4',
    what: 'C3 from a datum 128 in ahead of the main wheels',
    source: 'FAA Weight and Balance Handbook, ch. 3',
    status: 'from memory, recomputed',
    ours: () => noseAndMains(128),
    printed: 114.8,
    unit: 'in',
    lastDigit: 0.1,
  },
];

describe('CG from scales (section C)', () => agreeWithPrint(ROWS));
describe('CG from scales, answer not seen in print (C2, C4)', () => agreeWithPrint(APART));

/**
 * C6, seen: Penn State ME 481, Notes 07_04, p. 3. x from the rear axle = F_F l/W; y right of center =
 * (F_R − F_L) b/(2W).
 */
describe('wheel scales by formula (C6)', () => {
  test.each([
    [0.62, 0.58, 0.41, 0.39, 0.313, 0.17],
    [0.9, 0.7, 0.3, 0.5, 0.324, 0.205],
    [1, 0, 0, 1, 0.25, 0.2],
  ])('%d, %d, %d, %d kg', (fl, fr, rl, rr, l, b) => {
    const load = (value: number): Estimate<Mass> => exactly(kilograms(value));
    const size = (value: number): Estimate<Length> => exactly(meters(value));
    const cg = valueOf(
      cgFromWheelScales(
        { frontLeft: load(fl), frontRight: load(fr), rearLeft: load(rl), rearRight: load(rr) },
        size(l),
        size(b),
        size(b),
      ),
    );
    const weight = fl + fr + rl + rr;
    expect(cg.x.value).toBeCloseTo(((fl + fr) * l) / weight, 12);
    expect(-cg.y.value).toBeCloseTo(((fr + rr - fl - rl) * b) / (2 * weight), 12);
  });
});
