import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import {
  type Contact,
  type SpacePoint,
  type SupportPolygon,
  angleIn,
  degrees,
  distanceFromEdge,
  limitSlope,
  meters,
  radians,
  staticStabilityFactor,
  supportPolygon,
  tipOverEdges,
  truckContacts,
} from '../../../src/physics';
import { tolerance } from '../../tolerances';
import { between, reasonOf, valueOf } from '../given';

const rounding = tolerance('physics: rounding in an angle');
const half = tolerance('published: last digit');
const contact = (name: string, x: number, y: number): Contact => ({ name, x: meters(x), y: meters(y) });
const at = (x: number, y: number, z: number): SpacePoint => ({ x: meters(x), y: meters(y), z: meters(z) });
const truck = (wheelbase: number, front: number, rear: number): SupportPolygon =>
  valueOf(supportPolygon(truckContacts(meters(wheelbase), meters(front), meters(rear))));
const limit = (polygon: SupportPolygon, cg: SpacePoint, heading: number) =>
  valueOf(limitSlope(polygon, cg, degrees(heading)));

/** Trucks that stand, and headings in degrees. */
const standing = fc
  .record({
    wheelbase: between(0.2, 0.4),
    front: between(0.12, 0.25),
    rear: between(0.12, 0.25),
    share: between(0.2, 0.8),
    offset: between(-0.03, 0.03),
    height: between(0.05, 0.2),
  })
  .map(({ wheelbase, front, rear, share, offset, height }) => ({
    wheelbase,
    front,
    rear,
    cg: at(share * wheelbase, offset, height),
  }));
const headings = between(-720, 720);

describe('support polygon', () => {
  test('a truck keeps its contacts counter-clockwise from the rear right', () => {
    const polygon = truck(0.3, 0.2, 0.18);
    expect(polygon.contacts.map(({ name }) => name)).toEqual([
      'rear right',
      'front right',
      'front left',
      'rear left',
    ]);
    const square = truck(0.3, 0.2, 0.2).edges.map(({ squareHeading }) => angleIn(squareHeading, 'deg'));
    expect(square).toEqual([270, 0, 90, 180].map((degree) => expect.closeTo(degree, 9)));
  });

  test('contacts inside, along an edge or twice do not count, in any order', () => {
    fc.assert(
      fc.property(
        fc.shuffledSubarray([0, 1, 2, 3, 4, 5, 6], { minLength: 7 }),
        between(0.05, 0.25),
        between(-0.05, 0.05),
        (order, x, y) => {
          const contacts = [
            ...truckContacts(meters(0.3), meters(0.2), meters(0.2)),
            contact('inside', x, y),
            contact('along the side', x, 0.1),
            contact('again', 0.3, 0.1),
          ];
          const shuffled = order.map((i) => contacts[i] ?? contact('none', NaN, NaN));
          const polygon = valueOf(supportPolygon(shuffled));
          expect(polygon.contacts).toHaveLength(4);
          for (const each of contacts)
            for (const edge of polygon.edges) expect(distanceFromEdge(edge, each)).toBeGreaterThan(-1e-12);
        },
      ),
    );
  });

  test('a wheel in the air leaves three contacts', () => {
    const [rearRight, frontRight, frontLeft] = truckContacts(meters(0.3), meters(0.2), meters(0.2));
    expect(valueOf(supportPolygon([rearRight, frontRight, frontLeft])).edges).toHaveLength(3);
  });

  test.each([
    ['two contacts', [contact('a', 0, 0), contact('b', 1, 0)], 'too-few-contacts'],
    ['none', [], 'too-few-contacts'],
    ['three in one line', [contact('a', 0, 0), contact('b', 1, 1), contact('c', 3, 3)], 'in-one-line'],
    ['three in one place', [contact('a', 1, 1), contact('b', 1, 1), contact('c', 1, 1)], 'in-one-line'],
    ['one without a place', [contact('a', 0, 0), contact('b', NaN, 1), contact('c', 3, 3)], 'not-finite'],
  ])('%s: refused', (_, contacts, reason) => expect(reasonOf(supportPolygon(contacts))).toBe(reason));
});

/** Constructed reference rows: exact geometry, in millimeters and degrees. */
describe('reference rows', () => {
  test('half track 85, height 75: 48.58° (K1)', () => {
    const tips = valueOf(tipOverEdges(truck(0.313, 0.17, 0.17), at(0.178, 0, 0.075)));
    expect(Math.abs(angleIn(tips[2]?.angle ?? radians(NaN), 'deg') - 48.58)).toBeLessThanOrEqual(0.01 * half);
  });

  test.each([
    [30, 52.62],
    [45, 58.04],
    [60, 66.19],
  ])('downhill %d° off square to that edge (K2)', (off, expected) => {
    const polygon = truck(0.313, 0.17, 0.17);
    const side = limit(polygon, at(0.178, 0, 0.075), 90 + off).perEdge[2] ?? radians(NaN);
    expect(Math.abs(angleIn(side, 'deg') - expected)).toBeLessThanOrEqual(0.01 * half);
  });

  test.each([
    [0, 60.95, 1],
    [20, 62.43, 1],
    [40, 60.44, 2],
    [60, 52.62, 2],
    [90, 48.58, 2],
  ])('front 135, rear 178, sides 85, height 75; heading %d° (K3)', (heading, expected, edge) => {
    const { slope, governing } = limit(truck(0.313, 0.17, 0.17), at(0.178, 0, 0.075), heading);
    expect(Math.abs(angleIn(slope, 'deg') - expected)).toBeLessThanOrEqual(0.01 * half);
    expect(governing).toBe(edge);
  });

  test('three wheels: the slanting side edge, not half the rear track (K4)', () => {
    const polygon = valueOf(
      supportPolygon([
        contact('rear right', 0, -0.05),
        contact('front', 0.16, 0),
        contact('rear left', 0, 0.05),
      ]),
    );
    const tips = valueOf(tipOverEdges(polygon, at(0.05, 0, 0.06)));
    const least = tips.toSorted((a, b) => a.angle - b.angle)[0];
    expect(Math.abs((least?.distance ?? NaN) * 1000 - 32.81)).toBeLessThanOrEqual(0.01 * half);
    expect(Math.abs(angleIn(least?.angle ?? radians(NaN), 'deg') - 28.67)).toBeLessThanOrEqual(0.01 * half);
  });

  test('both sides of an off-center CG give its height and offset back (J15)', () => {
    const tips = valueOf(tipOverEdges(truck(0.313, 0.17, 0.17), at(0.15, 0.005, 0.08)));
    const [left, right] = [tips[2]?.angle ?? radians(NaN), tips[0]?.angle ?? radians(NaN)];
    expect(angleIn(left, 'deg')).toBeCloseTo(45, 9);
    expect(Math.abs(angleIn(right, 'deg') - 48.37)).toBeLessThanOrEqual(0.01 * half);
    const height = 0.17 / (Math.tan(left) + Math.tan(right));
    expect(height).toBeCloseTo(0.08, 12);
    expect((height * (Math.tan(right) - Math.tan(left))) / 2).toBeCloseTo(0.005, 12);
  });

  test.each([
    [0.8, 38.66],
    [1.0, 45.0],
    [1.04, 46.12],
    [1.13, 48.49],
    [1.25, 51.34],
    [1.45, 55.41],
  ])('static stability factor %d and the side tip angle (J8)', (factor, expected) => {
    const height = 0.1;
    const track = 2 * height * factor;
    expect(valueOf(staticStabilityFactor(meters(track), meters(height)))).toBeCloseTo(factor, 12);
    const tips = valueOf(tipOverEdges(truck(0.3, track, track), at(0.15, 0, height)));
    expect(Math.abs(angleIn(tips[0]?.angle ?? radians(NaN), 'deg') - expected)).toBeLessThanOrEqual(
      0.01 * half,
    );
  });
});

describe('laws', () => {
  test('at the limit the CG’s plumb line meets an edge, and no edge is passed', () => {
    fc.assert(
      fc.property(standing, headings, ({ wheelbase, front, rear, cg }, heading) => {
        const polygon = truck(wheelbase, front, rear);
        const { slope, governing } = limit(polygon, cg, heading);
        const reach = cg.z * Math.tan(slope);
        const h = degrees(heading);
        const foot = { x: meters(cg.x + reach * Math.cos(h)), y: meters(cg.y + reach * Math.sin(h)) };
        const gaps = polygon.edges.map((edge) => distanceFromEdge(edge, foot));
        expect(Math.abs(gaps[governing] ?? NaN)).toBeLessThan(1e-9);
        expect(Math.min(...gaps)).toBeGreaterThan(-1e-9);
      }),
    );
  });

  test('a full turn of the heading changes nothing', () => {
    fc.assert(
      fc.property(standing, headings, ({ wheelbase, front, rear, cg }, heading) => {
        const polygon = truck(wheelbase, front, rear);
        const gap = limit(polygon, cg, heading).slope - limit(polygon, cg, heading + 360).slope;
        expect(Math.abs(gap)).toBeLessThan(rounding);
      }),
    );
  });

  test('left for right mirrors the heading', () => {
    fc.assert(
      fc.property(standing, headings, ({ wheelbase, front, rear, cg }, heading) => {
        const polygon = truck(wheelbase, front, rear);
        const gap = limit(polygon, cg, heading).slope - limit(polygon, at(cg.x, -cg.y, cg.z), -heading).slope;
        expect(Math.abs(gap)).toBeLessThan(rounding);
      }),
    );
  });

  test('nose for tail mirrors it too', () => {
    fc.assert(
      fc.property(standing, headings, ({ wheelbase, front, rear, cg }, heading) => {
        const gap =
          limit(truck(wheelbase, front, rear), cg, heading).slope -
          limit(truck(wheelbase, rear, front), at(wheelbase - cg.x, cg.y, cg.z), 180 - heading).slope;
        expect(Math.abs(gap)).toBeLessThan(rounding);
      }),
    );
  });

  test('a truck twice the size tips at the same slope; a datum elsewhere too', () => {
    fc.assert(
      fc.property(standing, headings, between(0.1, 10), ({ wheelbase, front, rear, cg }, heading, by) => {
        const slope = limit(truck(wheelbase, front, rear), cg, heading).slope;
        const bigger = limit(
          truck(by * wheelbase, by * front, by * rear),
          at(by * cg.x, by * cg.y, by * cg.z),
          heading,
        );
        expect(Math.abs(bigger.slope - slope)).toBeLessThan(rounding);
        const moved = truckContacts(meters(wheelbase), meters(front), meters(rear)).map(({ name, x, y }) =>
          contact(name, x - 0.7, y + 0.3),
        );
        const elsewhere = limit(valueOf(supportPolygon(moved)), at(cg.x - 0.7, cg.y + 0.3, cg.z), heading);
        expect(Math.abs(elsewhere.slope - slope)).toBeLessThan(rounding * 10);
      }),
    );
  });

  test('lower, or wider, is never worse', () => {
    fc.assert(
      fc.property(standing, headings, between(0.5, 1), ({ wheelbase, front, rear, cg }, heading, by) => {
        const slope = limit(truck(wheelbase, front, rear), cg, heading).slope;
        const lower = limit(truck(wheelbase, front, rear), at(cg.x, cg.y, by * cg.z), heading).slope;
        const wider = limit(truck(wheelbase, front / by, rear / by), cg, heading).slope;
        expect(lower).toBeGreaterThanOrEqual(slope - rounding);
        expect(wider).toBeGreaterThanOrEqual(slope - rounding);
      }),
    );
  });

  test('no heading is worse than square to the worst edge', () => {
    fc.assert(
      fc.property(standing, headings, ({ wheelbase, front, rear, cg }, heading) => {
        const polygon = truck(wheelbase, front, rear);
        const worst = Math.min(...valueOf(tipOverEdges(polygon, cg)).map(({ angle }) => angle));
        expect(limit(polygon, cg, heading).slope).toBeGreaterThanOrEqual(worst - rounding);
      }),
    );
  });

  test('limits: a CG at the ground never tips, one over an edge tips at once', () => {
    const polygon = truck(0.3, 0.2, 0.2);
    expect(angleIn(limit(polygon, at(0.15, 0, 1e-9), 37).slope, 'deg')).toBeGreaterThan(89.99);
    expect(limit(polygon, at(0.15, 0.1, 0.1), 90).slope).toBe(0);
  });

  test('downhill along an edge never tips over it', () => {
    const { perEdge } = limit(truck(0.3, 0.2, 0.2), at(0.15, 0, 0.1), 0);
    expect(perEdge.map((angle) => angleIn(angle, 'deg'))).toEqual([
      expect.closeTo(90, 9),
      expect.closeTo(angleIn(radians(Math.atan2(0.15, 0.1)), 'deg'), 9),
      expect.closeTo(90, 9),
      90,
    ]);
  });
});

describe('no number where there is none', () => {
  const polygon = truck(0.3, 0.2, 0.2);
  test('a CG outside the wheels, with edge and distance said', () => {
    const result = tipOverEdges(polygon, at(0.15, 0.112, 0.1));
    expect(result).toMatchObject({ ok: false, reason: 'cg-outside' });
    expect(!result.ok && result.message).toContain('12.0 mm');
    expect(!result.ok && result.message).toContain('front left');
    expect(reasonOf(limitSlope(polygon, at(-0.01, 0, 0.1), degrees(0)))).toBe('cg-outside');
  });
  test.each([
    ['below ground', at(0.15, 0, -0.01), 'height'],
    ['at the ground', at(0.15, 0, 0), 'height'],
    ['not known', at(0.15, 0, NaN), 'not-finite'],
  ])('a CG %s', (_, cg, reason) => {
    expect(reasonOf(tipOverEdges(polygon, cg))).toBe(reason);
    expect(reasonOf(limitSlope(polygon, cg, degrees(90)))).toBe(reason);
  });
  test('a heading that is no number', () =>
    expect(reasonOf(limitSlope(polygon, at(0.15, 0, 0.1), radians(NaN)))).toBe('not-finite'));
  test('a stability factor of nothing', () => {
    expect(reasonOf(staticStabilityFactor(meters(0.2), meters(0)))).toBe('dimension');
    expect(reasonOf(staticStabilityFactor(meters(NaN), meters(0.1)))).toBe('dimension');
  });
});
