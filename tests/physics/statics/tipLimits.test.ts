import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import {
  type SpacePoint,
  type TruckStance,
  angleIn,
  degrees,
  independent,
  limitSlope,
  meters,
  millimeters,
  monteCarlo,
  propagate,
  radians,
  stanceOfTruck,
  supportPolygon,
  tipOverEdges,
  truckContacts,
  truckTipAngles,
  uncertainLimit,
  uncertainTips,
} from '../../../src/physics';
import { tolerance } from '../../tolerances';
import { between, correlation, covarianceGap, covarianceOf, reasonOf, seeded, valueOf } from '../given';

const DRAWS = 20_000;
const at = (x: number, y: number, z: number): SpacePoint => ({ x: meters(x), y: meters(y), z: meters(z) });
const U = [0.0015, 0.001, 0.0012, 0.0005, 0.0008, 0.0008];
const truck: TruckStance = {
  cg: at(0.165, 0.003, 0.09),
  wheelbase: millimeters(313),
  frontTrack: millimeters(178),
  rearTrack: millimeters(170),
  covariance: independent(U),
};
const inputs = (given: TruckStance): number[] => [
  given.cg.x,
  given.cg.y,
  given.cg.z,
  given.wheelbase,
  given.frontTrack,
  given.rearTrack,
];
const drawnTruck = (x: readonly number[]) => {
  const [a = NaN, b = NaN, c = NaN, wheelbase = NaN, front = NaN, rear = NaN] = x;
  const polygon = valueOf(supportPolygon(truckContacts(meters(wheelbase), meters(front), meters(rear))));
  return { polygon, cg: at(a, b, c) };
};
const covariances = correlation(6).map((correlations) => covarianceOf(U, correlations));

describe('tip angles with uncertainty', () => {
  test('joint covariance of all edges against Monte Carlo, CG and dimensions correlated', () => {
    fc.assert(
      fc.property(covariances, fc.integer(), (covariance, seed) => {
        const given = { ...truck, covariance };
        const tips = valueOf(uncertainTips(valueOf(stanceOfTruck(given))));
        const drawn = monteCarlo(
          (x) => {
            const { polygon, cg } = drawnTruck(x);
            return valueOf(tipOverEdges(polygon, cg)).map(({ angle }) => angle);
          },
          inputs(given),
          covariance,
          DRAWS,
          seeded(seed),
        );
        expect(covarianceGap(drawn.covariance, tips.covariance)).toBeLessThan(
          tolerance('physics: first order against Monte Carlo'),
        );
        tips.edges.forEach(({ angle }, i) => {
          const drift = Math.abs((drawn.means[i] ?? NaN) - angle.value);
          expect(drift).toBeLessThan(2 * tolerance('physics: Monte Carlo mean') * angle.u);
        });
      }),
      { numRuns: 4, seed: 41 },
    );
  });

  test('the textbook formula where only height is uncertain: u(θ) = d/(d² + h²) u(h)', () => {
    const covariance = independent([0, 0, 0.001, 0, 0, 0]);
    const { left } = valueOf(
      truckTipAngles({ ...truck, cg: at(0.15, 0, 0.08), frontTrack: meters(0.17), covariance }, null),
    );
    expect(left.angle.u).toBeCloseTo((0.085 / (0.085 ** 2 + 0.08 ** 2)) * 0.001, 9);
  });

  test('names the four edges: left, right, climb, descent', () => {
    const tips = valueOf(truckTipAngles(truck, null));
    const polygon = valueOf(
      supportPolygon(truckContacts(truck.wheelbase, truck.frontTrack, truck.rearTrack)),
    );
    const board = (heading: number) => valueOf(limitSlope(polygon, truck.cg, degrees(heading))).slope;
    // Side edges of unequal tracks stand off square by atan(4/313): the board reads a little more, cos apart.
    const slant = Math.atan2(4, 313);
    for (const [name, heading] of [
      ['left', 90],
      ['right', 270],
    ] as const) {
      expect(Math.tan(tips[name].angle.value)).toBeCloseTo(Math.tan(board(heading)) * Math.cos(slant), 9);
    }
    expect(tips.climb.angle.value).toBeCloseTo(board(180), 12);
    expect(tips.descent.angle.value).toBeCloseTo(board(0), 12);
    expect(tips.climb.angle.value).toBeCloseTo(Math.atan2(165, 90), 12);
    expect(tips.left.angle.value).toBeLessThan(tips.right.angle.value);
    expect(Math.sqrt(tips.covariance[0]?.[0] ?? NaN)).toBeCloseTo(tips.left.angle.u, 12);
    expect(Math.sqrt(tips.covariance[3]?.[3] ?? NaN)).toBeCloseTo(tips.descent.angle.u, 12);
  });

  test('the bracket to the tire’s outer edge: half track 85, tread 45, height 80', () => {
    const wide = { ...truck, cg: at(0.15, 0, 0.08), frontTrack: millimeters(170) };
    const { left, right, climb } = valueOf(truckTipAngles(wide, millimeters(45)));
    const digit = 0.1 * tolerance('published: last digit');
    expect(Math.abs(angleIn(left.angle.value, 'deg') - 46.7)).toBeLessThanOrEqual(digit);
    expect(Math.abs(angleIn(left.edgeAngle ?? radians(NaN), 'deg') - 53.3)).toBeLessThanOrEqual(digit);
    expect(right.edgeAngle).toBeCloseTo(left.edgeAngle ?? NaN, 12);
    expect(climb.edgeAngle).toBeNull();
    expect(valueOf(truckTipAngles(wide, null)).left.edgeAngle).toBeNull();
  });

  test('a mirrored truck swaps left and right, uncertainty too', () => {
    fc.assert(
      fc.property(covariances, between(-0.02, 0.02), (covariance, y) => {
        const given = { ...truck, cg: at(0.16, y, 0.09), covariance };
        const by = [1, -1, 1, 1, 1, 1].map((sign, i) => [0, 1, 2, 3, 4, 5].map((j) => (i === j ? sign : 0)));
        const mirrored = { ...given, cg: at(0.16, -y, 0.09), covariance: propagate(by, covariance) };
        const [a, b] = [valueOf(truckTipAngles(given, null)), valueOf(truckTipAngles(mirrored, null))];
        expect(a.left.angle.value).toBeCloseTo(b.right.angle.value, 10);
        expect(a.left.angle.u).toBeCloseTo(b.right.angle.u, 10);
        expect(a.climb.angle.u).toBeCloseTo(b.climb.angle.u, 10);
      }),
    );
  });
});

describe('governing limit with uncertainty', () => {
  /** Heading at which side and nose limits tie, for the truck above. */
  const tie = (given: TruckStance): number => {
    const { polygon, cg } = drawnTruck(inputs(given));
    let [low, high] = [0, 90];
    for (let i = 0; i < 60; i += 1) {
      const middle = (low + high) / 2;
      if (valueOf(limitSlope(polygon, cg, degrees(middle))).governing === 1) low = middle;
      else high = middle;
    }
    return low;
  };

  test('at a tie the ± is that of the smaller of both limits, against Monte Carlo', () => {
    fc.assert(
      fc.property(covariances, between(-1.5, 1.5), fc.integer(), (covariance, off, seed) => {
        const given = { ...truck, covariance };
        const heading = degrees(tie(given) + off);
        const limit = valueOf(uncertainLimit(valueOf(stanceOfTruck(given)), heading));
        fc.pre(limit.tiedWith !== null);
        const drawn = monteCarlo(
          (x) => {
            const { polygon, cg } = drawnTruck(x);
            return [valueOf(limitSlope(polygon, cg, heading)).slope];
          },
          inputs(given),
          covariance,
          DRAWS,
          seeded(seed),
        );
        const drift = Math.abs((drawn.means[0] ?? NaN) - limit.slope.value);
        expect(drift).toBeLessThan(2 * tolerance('physics: Clark minimum') * limit.slope.u);
        expect(Math.abs(Math.sqrt(drawn.covariance[0]?.[0] ?? NaN) / limit.slope.u - 1)).toBeLessThan(
          tolerance('physics: first order against Monte Carlo'),
        );
      }),
      { numRuns: 6, seed: 43 },
    );
  });

  test('away from a tie it is the governing edge’s own, and the two meet where they change over', () => {
    const stance = valueOf(stanceOfTruck(truck));
    const side = valueOf(uncertainLimit(stance, degrees(90)));
    expect(side.tiedWith).toBeNull();
    expect(side.slope.value).toBe(side.atEstimate);
    for (const away of [-30, 30]) {
      let [tied, alone] = [tie(truck), tie(truck) + away];
      for (let i = 0; i < 40; i += 1) {
        const middle = (tied + alone) / 2;
        if (valueOf(uncertainLimit(stance, degrees(middle))).tiedWith === null) alone = middle;
        else tied = middle;
      }
      const both = valueOf(uncertainLimit(stance, degrees(tied))).slope;
      const one = valueOf(uncertainLimit(stance, degrees(alone))).slope;
      expect(Math.abs(tied - alone)).toBeLessThan(1e-9);
      expect(Math.abs(both.value - one.value)).toBeLessThan(tolerance('physics: switch at a tie') * one.u);
      expect(Math.abs(both.u - one.u)).toBeLessThan(2 * tolerance('physics: switch at a tie') * one.u);
    }
  });

  test('the mean of a tie is below both limits, by up to 0.6 u', () => {
    const limit = valueOf(uncertainLimit(valueOf(stanceOfTruck(truck)), degrees(tie(truck))));
    expect(limit.slope.value).toBeLessThan(limit.atEstimate);
    expect(limit.atEstimate - limit.slope.value).toBeLessThan(limit.slope.u);
  });

  test('exact inputs have an exact limit', () => {
    const exact = { ...truck, covariance: independent([0, 0, 0, 0, 0, 0]) };
    const limit = valueOf(uncertainLimit(valueOf(stanceOfTruck(exact)), degrees(50)));
    expect(limit.slope).toEqual({ value: limit.atEstimate, u: 0 });
  });
});

describe('refusals', () => {
  test.each([
    ['a CG outside the wheels', { ...truck, cg: at(0.15, 0.12, 0.1) }, 'cg-outside'],
    ['a CG below ground', { ...truck, cg: at(0.15, 0, -0.1) }, 'height'],
    ['a missing track', { ...truck, rearTrack: meters(0) }, 'dimension'],
    ['a covariance that is none', { ...truck, covariance: independent([1, 1]) }, 'covariance'],
    ['a CG not known yet', { ...truck, cg: at(NaN, 0, 0.1) }, 'not-finite'],
  ])('%s', (_, given, reason) => expect(reasonOf(truckTipAngles(given, null))).toBe(reason));

  test('any numbers: angles or a refusal, never NaN', () => {
    const wild = fc.oneof(between(-1, 1), fc.constantFrom(NaN, Infinity, 0, 1e-200, 1e200));
    fc.assert(
      fc.property(fc.tuple(wild, wild, wild, wild, wild, wild), between(-400, 400), (x, heading) => {
        const [a, b, c, wheelbase, front, rear] = x;
        const given: TruckStance = {
          cg: at(a, b, c),
          wheelbase: meters(wheelbase),
          frontTrack: meters(front),
          rearTrack: meters(rear),
          covariance: independent(U),
        };
        const tips = truckTipAngles(given, meters(0.04));
        if (tips.ok) expect(tips.value.covariance.flat().every(Number.isFinite)).toBe(true);
        const stance = stanceOfTruck(given);
        const limit = stance.ok ? uncertainLimit(stance.value, degrees(heading)) : stance;
        if (limit.ok)
          expect(Number.isFinite(limit.value.slope.u) && Number.isFinite(limit.value.slope.value)).toBe(true);
      }),
      { numRuns: 400 },
    );
  });
});
