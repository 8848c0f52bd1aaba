import { describe } from 'vitest';
import {
  type PartMass,
  type PlanePoint,
  angleIn,
  compositeCg,
  crossingAngle,
  hangDirection,
  kilograms,
  meters,
  radians,
} from '../../src/physics';
import { valueOf } from '../physics/given';
import { type PublishedValue, agreeWithPrint } from './published';

/** A lamina as areas (negative where cut out) at their centroids; lengths in units of a. */
const lamina = (pieces: readonly (readonly [area: number, x: number, z: number])[]): PlanePoint => {
  const cg = valueOf(
    compositeCg(
      pieces.map(([area, x, z]): PartMass => ({
        mass: { value: kilograms(area), u: 0 },
        x: { value: meters(x), u: 0 },
        y: { value: meters(0), u: 0 },
        z: { value: meters(z), u: 0 },
      })),
    ),
  );
  return { x: cg.x.value, z: cg.z.value };
};
const point = (x: number, z: number): PlanePoint => ({ x: meters(x), z: meters(z) });

/** Angle in degrees between the vertical and a level side of the lamina, when it hangs from `hook`. */
const sideToVertical = (hook: PlanePoint, cg: PlanePoint): number =>
  angleIn(
    crossingAngle(
      { angle: valueOf(hangDirection(hook, cg)), through: hook },
      { angle: radians(0), through: hook },
    ),
    'deg',
  );

/** F1: right angle at B (0, 0), A (0, 1), C (2, 0); a triangle's centroid is the mean of its corners. */
const rightTriangle = lamina([
  [1, 0, 0],
  [1, 0, 1],
  [1, 2, 0],
]);

/** F2: sides 5, 5, 8; base from (−4, 0) to (4, 0), apex (0, 3), the triangle from base to centroid cut out. */
const cutTriangle: readonly (readonly [number, number, number])[] = [
  [12, 0, 1],
  [-4, 0, 1 / 3],
];
const apexToCg = 3 - lamina(cutTriangle).z;
const loadedTriangle = lamina([...cutTriangle, [8, -4, 0]]);

/** F3: square of side 4, A (0, 0); the corner (4, 4) with legs 3 folded along the line from E (1, 4) to (4, 1). */
const folded = lamina([
  [16, 2, 2],
  [-4.5, 3, 3],
  [4.5, 2, 2],
]);

/** F4: square of side 10 cm less the semicircle on its lower side; D (0, 10). */
const squareLessSemicircle = lamina([
  [100, 5, 5],
  [(-Math.PI * 25) / 2, 5, (4 * 5) / (3 * Math.PI)],
]);

/** F5: square of side 18 with the isosceles triangle 15, 15, 18 upon it; B (0, 18) and D (18, 18). */
const house = lamina([
  [324, 9, 9],
  [108, 9, 18 + 12 / 3],
]);

/**
 * F6: rectangle 3 × 2 less a corner triangle with legs 1 and 2; AD is the side x = 0, the top runs from (0, 2) to
 * (3, 2). A mass of 7/45 of the lamina's at the far end of the top brings the CG under its middle.
 */
const trapezoid: readonly (readonly [number, number, number])[] = [
  [6, 1.5, 1],
  [-1, 3 - 1 / 3, 2 / 3],
];
const balanced = lamina([...trapezoid, [(5 * 7) / 45, 3, 2]]);

const BANK = 'a.simonm.io exam bank';

const ROWS: PublishedValue[] = [
  {
    id: 'F1',
    what: 'right triangle hung from a corner, BC to the vertical',
    source: 'physicsforums.com thread 14569',
    status: 'recomputed',
    ours: () => sideToVertical(point(2, 0), rightTriangle),
    printed: 14.04,
    unit: '°',
    lastDigit: 0.01,
  },
  {
    id: 'F2',
    what: 'triangle with its inner triangle cut out, CG below the apex',
    source: 'mathhelpforum.com thread 28453',
    status: 'seen + recomputed',
    ours: () => 3 * apexToCg,
    printed: 5,
    unit: 'a/3',
    lastDigit: 1e-9,
  },
  {
    id: 'F2',
    what: 'loaded at B and hung from C, BC to the vertical',
    source: 'mathhelpforum.com thread 28453',
    status: 'seen + recomputed',
    ours: () => sideToVertical(point(4, 0), loadedTriangle),
    printed: 6.34,
    unit: '°',
    lastDigit: 0.01,
  },
  {
    id: 'F3',
    what: 'square with a corner folded in, CG from AB',
    source: `${BANK}, paper 3191`,
    status: 'seen + recomputed',
    ours: () => 32 * folded.x,
    printed: 55,
    unit: 'a/32',
    lastDigit: 1e-9,
  },
  {
    id: 'F3',
    what: 'hung from E, ED to the vertical',
    source: `${BANK}, paper 3191`,
    status: 'recomputed',
    ours: () => sideToVertical(point(1, 4), folded),
    printed: 72.5,
    unit: '°',
    lastDigit: 0.1,
  },
  {
    id: 'F4',
    what: 'square less a semicircle hung from D, CD to the vertical',
    source: `${BANK}, paper 3271`,
    status: 'recomputed',
    ours: () => sideToVertical(point(0, 10), squareLessSemicircle),
    printed: 32.1,
    unit: '°',
    lastDigit: 0.1,
  },
  {
    id: 'F5',
    what: 'square and triangle hung from B, BD to the vertical',
    source: 'OCR Mechanics 2, June 2006, question 5',
    status: 'recomputed',
    ours: () => sideToVertical(point(0, 18), house),
    printed: 32.6,
    unit: '°',
    lastDigit: 0.1,
  },
  {
    id: 'F6',
    what: 'rectangle less a corner, CG from AD',
    source: `${BANK}, type 1843`,
    status: 'recomputed',
    ours: () => 15 * lamina(trapezoid).x,
    printed: 19,
    unit: 'a/15',
    lastDigit: 1e-9,
  },
  {
    id: 'F6',
    what: 'balanced by 7/45 of its mass, hung from the middle of its top: the top to the vertical',
    source: `${BANK}, type 1843`,
    status: 'recomputed',
    ours: () => sideToVertical(point(1.5, 2), balanced),
    printed: 90,
    unit: '°',
    lastDigit: 1e-6,
  },
];

describe('hanging bodies (section F)', () => agreeWithPrint(ROWS));
