import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  between,
  beyond,
  chord,
  coordinate,
  direction,
  distance,
  ellipsePoints,
  hatchPath,
  point,
  polar,
  printed,
  rectangle,
  type Point,
} from '../../src/figures';
import { tolerance } from '../tolerances';

const place = fc
  .record({
    x: fc.double({ min: -500, max: 500, noNaN: true }),
    y: fc.double({ min: -500, max: 500, noNaN: true }),
  })
  .map(({ x, y }) => point(x, y));
const turn = fc.double({ min: -Math.PI, max: Math.PI, noNaN: true });

/** Ends of the strokes of a hatch path, read back from its text. */
const strokes = (path: string): [Point, Point][] =>
  path
    .split('M')
    .slice(1)
    .map((stroke) => {
      const [a = 0, b = 0, c = 0, d = 0] = stroke.split(/[L ]/).map(Number);
      return [point(a, b), point(c, d)];
    });

describe('page geometry', () => {
  it('goes a distance in a direction and finds both again', () => {
    fc.assert(
      fc.property(place, fc.double({ min: 1, max: 400, noNaN: true }), turn, (from, size, angle) => {
        const to = polar(from, size, angle);
        expect(Math.abs(distance(from, to) - size)).toBeLessThan(tolerance('figures: rounding'));
        expect(Math.abs(Math.sin((direction(from, to) - angle) / 2))).toBeLessThan(
          tolerance('figures: rounding'),
        );
      }),
    );
  });

  it('counts page directions counter-clockwise although y grows downward', () => {
    expect(polar(point(0, 0), 10, Math.PI / 2).y).toBeCloseTo(-10);
    expect(direction(point(0, 0), point(0, -3))).toBeCloseTo(Math.PI / 2);
  });

  it('extends a segment beyond its end by the length asked for', () => {
    fc.assert(
      fc.property(place, place, (a, b) => {
        fc.pre(distance(a, b) > 1);
        expect(distance(b, beyond(a, b, 7))).toBeCloseTo(7);
        expect(distance(a, between(a, b, 0.25))).toBeCloseTo(distance(a, b) / 4);
      }),
    );
    expect(beyond(point(1, 1), point(1, 1), 7)).toEqual(point(1, 1));
  });

  it('cuts a line to a circle: both ends on the circle and on the line', () => {
    fc.assert(
      fc.property(
        place,
        fc.double({ min: 5, max: 200, noNaN: true }),
        place,
        turn,
        (center, radius, through, angle) => {
          const ends = chord(center, radius, through, angle);
          const off = Math.abs(
            (center.x - through.x) * Math.sin(angle) + (center.y - through.y) * Math.cos(angle),
          );
          expect(ends === null).toBe(off >= radius);
          for (const end of ends ?? []) {
            expect(distance(center, end)).toBeCloseTo(radius, 6);
            expect(
              Math.abs((end.x - through.x) * Math.sin(angle) + (end.y - through.y) * Math.cos(angle)),
            ).toBeLessThan(1e-6);
          }
        },
      ),
    );
  });

  it('puts the points of an ellipse on the ellipse', () => {
    // Canonical equation u²/a² + v²/b² = 1 in the ellipse's own axes.
    const angle = 0.7;
    for (const { x, y } of ellipsePoints(point(10, 20), 30, 12, angle)) {
      const u = (x - 10) * Math.cos(angle) - (y - 20) * Math.sin(angle);
      const v = -(x - 10) * Math.sin(angle) - (y - 20) * Math.cos(angle);
      expect((u / 30) ** 2 + (v / 12) ** 2).toBeCloseTo(1, 9);
    }
  });

  it('writes coordinates with two decimals and never minus zero', () => {
    expect(coordinate(-0.001)).toBe('0');
    expect(coordinate(12.3456)).toBe('12.35');
  });

  it('prints numbers with a real minus sign, and no negative zero', () => {
    expect(printed(-3.04)).toBe('−3.0');
    expect(printed(-0.04)).toBe('0.0');
    expect(printed(148.26)).toBe('148.3');
  });
});

describe('hatching', () => {
  it('covers the area: length of the lines times their spacing', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 40, max: 120, noNaN: true }),
        fc.double({ min: 40, max: 120, noNaN: true }),
        turn,
        turn,
        (a, b, tilt, angle) => {
          const spacing = 4;
          const total = strokes(hatchPath([ellipsePoints(point(300, 300), a, b, tilt, 180)], spacing, angle))
            .map(([from, to]) => distance(from, to))
            .reduce((sum, size) => sum + size, 0);
          const area = Math.PI * a * b;
          expect(Math.abs(total * spacing - area) / area).toBeLessThan(tolerance('figures: hatched area'));
        },
      ),
    );
  });

  it('stays inside the outline and out of a hole', () => {
    const outer = rectangle(0, 0, 100, 80);
    const hole = rectangle(30, 20, 40, 40);
    const drawn = strokes(hatchPath([outer, hole], 5));
    expect(drawn.length).toBeGreaterThan(20);
    for (const [from, to] of drawn) {
      const { x, y } = between(from, to, 0.5);
      expect(x >= 0 && x <= 100 && y >= 0 && y <= 80).toBe(true);
      expect(x > 30.1 && x < 69.9 && y > 20.1 && y < 59.9).toBe(false);
    }
  });

  it('is empty for what is no area', () => {
    expect(hatchPath([], 5)).toBe('');
    expect(hatchPath([[point(0, 0), point(5, 5)]], 5)).toBe('');
  });
});
