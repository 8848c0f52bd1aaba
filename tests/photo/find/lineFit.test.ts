import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { footOn, orthogonalLine } from '../../../src/photo/find';
import type { WeightedPoint } from '../../../src/photo/find';
import { valueOf } from '../../physics/given';
import { tolerance } from '../../tolerances';

const place = fc.double({ min: -100, max: 100, noNaN: true });
const point = fc.record({ x: place, y: place, weight: fc.constantFrom(1, 2, 3) });
const points = fc.array(point, { minLength: 4, maxLength: 12 });

const distance = (list: readonly WeightedPoint[], x: number, y: number, turn: number): number =>
  list.reduce((sum, p) => sum + p.weight * ((p.y - y) * Math.cos(turn) - (p.x - x) * Math.sin(turn)) ** 2, 0);

describe('orthogonal line', () => {
  it('has the least weighted sum of squared distances of all lines', () => {
    fc.assert(
      fc.property(points, fc.double({ min: 0, max: Math.PI, noNaN: true }), place, (list, turn, shift) => {
        const line = orthogonalLine(list);
        if (!line.ok) return;
        const { centroid, squares } = line.value;
        const other = distance(list, centroid.x, centroid.y + shift / 10, turn);
        expect(squares).toBeLessThanOrEqual(other + tolerance('finders: line squares') * (1 + other));
      }),
    );
  });

  it('counts a point of weight 2 or 3 as two or three points', () => {
    fc.assert(
      fc.property(points, (list) => {
        const once = orthogonalLine(list);
        const repeated = orthogonalLine(
          list.flatMap((p) => Array.from({ length: p.weight }, () => ({ ...p, weight: 1 }))),
        );
        expect(once.ok).toBe(repeated.ok);
        if (!once.ok || !repeated.ok) return;
        const scale = 1 + once.value.squares + once.value.spread;
        expect(Math.abs(once.value.squares - repeated.value.squares) / scale).toBeLessThan(
          tolerance('finders: line squares'),
        );
      }),
    );
  });

  it('turns with its points, upright lines too', () => {
    for (let turn = 0; turn < Math.PI; turn += 0.1) {
      const list = [-3, -1, 2, 5].map((s) => ({
        x: 7 + s * Math.cos(turn),
        y: -2 + s * Math.sin(turn),
        weight: 1,
      }));
      const { direction, squares } = valueOf(orthogonalLine(list));
      expect(Math.abs(direction[0] * Math.sin(turn) - direction[1] * Math.cos(turn))).toBeLessThan(1e-9);
      expect(squares).toBeLessThan(1e-9);
    }
  });

  it('gives the foot of a point', () => {
    const line = valueOf(
      orthogonalLine([
        { x: 0, y: 0, weight: 1 },
        { x: 2, y: 2, weight: 1 },
      ]),
    );
    const foot = footOn(line, { x: 3, y: 1 });
    expect(foot.x).toBeCloseTo(2, 9);
    expect(foot.y).toBeCloseTo(2, 9);
  });

  it('refuses one point, and points without a direction', () => {
    expect(orthogonalLine([{ x: 1, y: 1, weight: 1 }])).toMatchObject({ reason: 'too few points' });
    const cross = [
      [1, 0],
      [-1, 0],
      [0, 1],
      [0, -1],
    ].map(([x = 0, y = 0]) => ({ x, y, weight: 1 }));
    expect(orthogonalLine(cross)).toMatchObject({ reason: 'no direction' });
  });
});
