import { describe, expect, test } from 'vitest';
import { crossingLines } from '../../src/calculators/crossing/crossingLines';
import { droopedHang } from '../../src/calculators/droop/droopedHang';
import { guessKey } from '../../src/calculators/guess/guessQuantities';
import {
  EXAMPLE_CG,
  EXAMPLE_FRONT_AXLE,
  EXAMPLE_HOOKS,
  EXAMPLE_MASS,
  EXAMPLE_REAR_AXLE,
} from '../../src/calculators/shared/exampleTruck';
import { judgeThreeLines } from '../../src/calculators/triangle/threeLines';
import { sideTips } from '../../src/calculators/vary-one/varyOne';
import { angleIn, COVERAGE, degrees, kilograms, lengthIn, meters, millimeters } from '../../src/physics';
import type { Result } from '../../src/physics';
import { BRAMBLE } from '../demo/world/bramble';
import { centerOfGravity, massOf } from '../demo/world/truck';
import { tolerance } from '../tolerances';

const must = <Value>(result: Result<Value>): Value => {
  if (!result.ok) throw new Error(result.message);
  return result.value;
};
const near = (
  actual: number | null,
  expected: number,
  within: Parameters<typeof tolerance>[0] = 'calculators: rounding',
): void => {
  expect(Math.abs((actual ?? NaN) - expected), `${actual} against ${expected}`).toBeLessThanOrEqual(
    tolerance(within),
  );
};
const mm = (length: ReturnType<typeof meters>): number => lengthIn(length, 'mm');

describe('the example truck', () => {
  test('is the demo truck: its masses and its center of gravity', () => {
    const [x, , z] = centerOfGravity(BRAMBLE);
    near(EXAMPLE_CG.x, x, 'example truck: place');
    near(EXAMPLE_CG.z, z, 'example truck: place');
    near(EXAMPLE_MASS, massOf(BRAMBLE));
    const axle = (carrier: string): number =>
      BRAMBLE.parts.filter((part) => part.carrier === carrier).reduce((sum, { mass }) => sum + mass, 0);
    near(EXAMPLE_FRONT_AXLE, axle('front axle'));
    near(EXAMPLE_REAR_AXLE, axle('rear axle'));
  });

  test('hangs by the demo truck’s body hooks', () => {
    for (const { name, at } of EXAMPLE_HOOKS) {
      const hook = BRAMBLE.hooks.find((other) => other.name === name);
      near(at.x, hook?.place[0] ?? NaN);
      near(at.z, hook?.place[2] ?? NaN);
    }
  });
});

describe('two lines crossing', () => {
  // Law of the crossing: the covariance of two equal lines at gamma has the eigenvalues u²/(1 ∓ cos gamma).
  test.each([90, 60, 45, 30, 20, 10])('at %d° the worst and best ± follow the law', (gamma) => {
    const u = 0.001 / COVERAGE;
    const { worst, best } = must(crossingLines(degrees(gamma), meters(0), u));
    const cos = Math.cos((gamma * Math.PI) / 180);
    near(mm(worst), 1 / Math.sqrt(1 - cos));
    near(mm(best), 1 / Math.sqrt(1 + cos));
  });

  test.each([90, 60, 30, 10])('at %d° a line off by 1 mm moves the crossing 1/sin', (gamma) => {
    const { moved } = must(crossingLines(degrees(gamma), millimeters(1), 0.001));
    near(mm(moved), 1 / Math.sin((gamma * Math.PI) / 180));
  });

  test('nearly parallel lines are refused', () => {
    expect(crossingLines(degrees(1), meters(0), 0.001).ok).toBe(false);
  });
});

describe('three lines', () => {
  const none = meters(0);

  test('true lines meet in the center of gravity and agree fully', () => {
    const { moved, triangle, meeting } = must(judgeThreeLines([none, none, none], millimeters(3)));
    near(mm(moved), 0);
    near(mm(triangle.longestSide), 0);
    near(meeting.probability, 1);
  });

  test('chi-squared grows with the square of the miss', () => {
    const chi = (off: number): number =>
      must(judgeThreeLines([none, none, millimeters(off)], millimeters(3))).meeting.chiSquared;
    near(chi(6) / chi(3), 4);
  });

  test('whichever line is off by the same amount, moved all together nothing shows', () => {
    // Lines moved so that all pass through one other point: a shared error of place.
    const by = { x: 0.004, z: -0.003 };
    const offs = EXAMPLE_HOOKS.map(({ at }) => {
      const angle = Math.atan2(EXAMPLE_CG.z - at.z, EXAMPLE_CG.x - at.x);
      return meters(-Math.sin(angle) * by.x + Math.cos(angle) * by.z);
    });
    const [a, b, c] = offs;
    if (a === undefined || b === undefined || c === undefined) throw new Error('three hooks are needed');
    const { moved, meeting } = must(judgeThreeLines([a, b, c], millimeters(3)));
    near(mm(moved), 5);
    near(meeting.chiSquared, 0);
  });
});

describe('a hang with sagging axles', () => {
  const [hood] = EXAMPLE_HOOKS;

  test('the corrected line holds the center of gravity of the standing truck', () => {
    const hang = must(
      droopedHang(
        hood.at,
        EXAMPLE_CG,
        { mass: EXAMPLE_FRONT_AXLE, sag: millimeters(14) },
        { mass: EXAMPLE_REAR_AXLE, sag: millimeters(17) },
        EXAMPLE_MASS,
      ),
    );
    const { angle, through } = hang.corrected;
    const miss = -Math.sin(angle) * (EXAMPLE_CG.x - through.x) + Math.cos(angle) * (EXAMPLE_CG.z - through.z);
    near(mm(meters(miss)), 0);
    // By hand: (729 · 14 + 515 · 17) / 2938.
    near(mm(hang.lower), (729 * 14 + 515 * 17) / 2938);
  });

  test('without sag nothing is corrected', () => {
    const still = { mass: kilograms(0.6), sag: meters(0) };
    const hang = must(droopedHang(hood.at, EXAMPLE_CG, still, still, EXAMPLE_MASS));
    near(mm(hang.off), 0);
  });
});

describe('one change at a time', () => {
  const start = { height: millimeters(92), halfTrack: millimeters(93), left: meters(0) };

  test('half the height doubles the tangent', () => {
    const whole = must(sideTips(start));
    const half = must(sideTips({ ...start, height: millimeters(46) }));
    near(Math.tan(half.left) / Math.tan(whole.left), 2);
  });

  test('what one side gains the other loses in distance', () => {
    const { leftDistance, rightDistance, left, right } = must(sideTips({ ...start, left: millimeters(3) }));
    near(leftDistance + rightDistance, 0.186);
    near(angleIn(left, 'deg'), (Math.atan2(90, 92) * 180) / Math.PI);
    near(angleIn(right, 'deg'), (Math.atan2(96, 92) * 180) / Math.PI);
  });

  test('outside the tires it does not stand', () => {
    expect(sideTips({ ...start, left: millimeters(94) })).toMatchObject({ ok: false, reason: 'cg-outside' });
  });
});

test('a guess is kept by chapter and part', () => {
  expect(guessKey('B3')).toBe('3/B');
  expect(guessKey('D5.2')).toBe('5/D.2');
});
