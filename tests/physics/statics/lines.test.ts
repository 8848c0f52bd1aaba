import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import {
  type PlaneLine,
  type PlanePoint,
  angleIn,
  crossingAngle,
  crossingPoint,
  crossings,
  degrees,
  distanceToLine,
  errorEllipse,
  leverAlongLine,
  meters,
  radians,
  triangleOfLines,
  uprightLine,
} from '../../../src/physics';
import { tolerance } from '../../tolerances';
import { between, reasonOf, valueOf } from '../given';

const rounding = tolerance('physics: rounding in a length');
const point = (x: number, z: number): PlanePoint => ({ x: meters(x), z: meters(z) });
const line = (angle: number, x: number, z: number): PlaneLine => ({
  angle: radians(angle),
  through: point(x, z),
});
const anyLine = fc
  .tuple(between(-4, 4), between(-0.4, 0.4), between(-0.2, 0.2))
  .map(([angle, x, z]) => line(angle, x, z));

describe('distance and lever', () => {
  test('are the two legs to the line’s own point', () => {
    fc.assert(
      fc.property(anyLine, between(-0.4, 0.4), between(-0.2, 0.2), (given, x, z) => {
        const to = point(x, z);
        const straight = Math.hypot(x - given.through.x, z - given.through.z);
        const legs = Math.hypot(distanceToLine(given, to), leverAlongLine(given, to));
        expect(Math.abs(legs - straight)).toBeLessThan(rounding);
      }),
    );
  });
  test('a point to the left of the direction counts above zero', () => {
    expect(distanceToLine(line(0, 0, 0), point(5, 2))).toBe(2);
    expect(leverAlongLine(line(0, 0, 0), point(5, 2))).toBe(5);
  });
  test('an upright line’s offset is the error of x, sign and all', () =>
    expect(distanceToLine(uprightLine(meters(0.1)), point(0.13, 0.5))).toBeCloseTo(0.03, 12));
});

describe('crossing', () => {
  test('turning a line end for end changes nothing', () => {
    fc.assert(
      fc.property(anyLine, anyLine, (a, b) => {
        const turned = { ...b, angle: radians(b.angle + Math.PI) };
        expect(Math.abs(crossingAngle(a, b) - crossingAngle(a, turned))).toBeLessThan(rounding);
        expect(crossingAngle(a, b)).toBe(crossingAngle(b, a));
        expect(crossingAngle(a, b)).toBeLessThanOrEqual(Math.PI / 2);
      }),
    );
  });
  test('the crossing lies on both lines', () => {
    fc.assert(
      fc.property(anyLine, anyLine, (a, b) => {
        fc.pre(crossingAngle(a, b) > degrees(10));
        const at = valueOf(crossingPoint(a, b));
        expect(Math.abs(distanceToLine(a, at))).toBeLessThan(rounding * 10);
        expect(Math.abs(distanceToLine(b, at))).toBeLessThan(rounding * 10);
      }),
    );
  });
  test.each([0, 1.9, 178.1, 180])('lines %d° apart do not cross', (apart) =>
    expect(reasonOf(crossingPoint(line(0.3, 0, 0), line(0.3 + degrees(apart), 0.1, 0.1)))).toBe(
      'nearly-parallel',
    ),
  );
  test('pairs come widest first', () => {
    const angles = crossings([line(0, 0, 0), line(0.2, 0, 1), line(1.4, 1, 0)]).map(({ angle }) => angle);
    expect(angles).toHaveLength(3);
    expect(angles).toEqual(angles.toSorted((a, b) => b - a));
  });
});

describe('triangle of three lines', () => {
  test('the 3-4-5 triangle', () => {
    const { vertices, longestSide } = valueOf(
      triangleOfLines([line(0, 0, 0), line(Math.PI / 2, 0, 0), line(Math.atan2(-3, 4), 4, 0)]),
    );
    expect(longestSide).toBeCloseTo(5, 12);
    for (const [i, [x, z]] of [[0, 0] as const, [0, 3] as const, [4, 0] as const].entries()) {
      expect(vertices[i]?.x).toBeCloseTo(x, 12);
      expect(vertices[i]?.z).toBeCloseTo(z, 12);
    }
  });
  test('two parallel lines make none', () =>
    expect(reasonOf(triangleOfLines([line(0, 0, 0), line(0, 0, 1), line(1, 0, 0)]))).toBe('nearly-parallel'));
});

describe('error ellipse', () => {
  test('two lines crossing at γ: semi-axes u/√(1 ∓ cos γ) (reference row H3)', () => {
    for (const [gamma, major, minor] of [
      [90, 1, 1],
      [60, Math.SQRT2, 0.8165],
      [30, 2.7321, 0.7321],
      [10, 8.1131, 0.7098],
    ] as const) {
      const c = Math.cos(degrees(gamma));
      const [big, small] = [1 / (1 - c), 1 / (1 + c)];
      const { semiMajor, semiMinor, angle } = errorEllipse(
        [
          [big, 0],
          [0, small],
        ],
        1,
      );
      const digit = 1e-4 * tolerance('published: last digit');
      expect(Math.abs(semiMajor - major)).toBeLessThanOrEqual(digit);
      expect(Math.abs(semiMinor - minor)).toBeLessThanOrEqual(digit);
      expect(angle).toBe(0);
    }
  });
  test('turns with its covariance', () => {
    fc.assert(
      fc.property(between(-1.5, 1.5), between(1.1, 30), (turn, ratio) => {
        const [c, s] = [Math.cos(turn), Math.sin(turn)];
        const [a, b] = [ratio ** 2, 1];
        const { semiMajor, semiMinor, angle } = errorEllipse(
          [
            [a * c * c + b * s * s, (a - b) * c * s],
            [(a - b) * c * s, a * s * s + b * c * c],
          ],
          1,
        );
        expect(semiMajor).toBeCloseTo(ratio, 9);
        expect(semiMinor).toBeCloseTo(1, 9);
        expect(Math.abs(angleIn(radians(angle - turn), 'deg'))).toBeLessThan(1e-6);
      }),
    );
  });
  test('an exact point has an ellipse of no size', () =>
    expect(
      errorEllipse([
        [0, 0],
        [0, 0],
      ]),
    ).toMatchObject({ semiMajor: 0, semiMinor: 0 }));
});
