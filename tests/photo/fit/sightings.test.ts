import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Observation } from '../../../src/physics';
import { project } from '../../../src/photo/camera';
import {
  type Place,
  along,
  cameraAt,
  inPlaneSighting,
  linearPlace,
  lineSighting,
  pointSighting,
} from '../../../src/photo/fit/sightings';
import { between } from '../../physics/given';
import { tolerance } from '../../tolerances';

/** Seven of a camera, then three of a point, an angle, a shift along a and one along c. */
const SEEN = { first: 0, centerX: 600, centerY: 720 };
const unknowns = fc
  .tuple(
    between(-0.5, 0.5),
    between(-0.15, 0.15),
    between(-0.15, 0.15),
    between(-0.1, 0.3),
    between(-0.1, 0.3),
    between(900, 2500),
    between(0.2, 1),
    between(-0.2, 0.4),
    between(-0.2, 0.4),
    between(-0.1, 0.1),
    between(-3, 3),
    between(-0.05, 0.05),
    between(-0.05, 0.05),
  )
  .map((values) => Float64Array.from(values));
const STEPS = [1e-4, 1e-4, 1e-4, 1e-4, 1e-4, 0.1, 1e-4, 1e-4, 1e-4, 1e-4, 1e-4, 1e-4, 1e-4];

const hook = linearPlace([
  { unknown: 7, axis: 'a' },
  { unknown: 8, axis: 'b' },
  { unknown: 9, axis: 'c' },
  { unknown: 11, axis: 'a', factor: -1 },
  { unknown: 12, axis: 'c', factor: 0.5 },
]);
/** A direction that shares one unknown with the hook. */
const direction: Place = {
  depends: [10, 12],
  at: (p) => ({ a: Math.cos(p[10] ?? NaN), b: Math.sin(p[10] ?? NaN), c: p[12] ?? NaN }),
  slopes: (p) => [
    { a: -Math.sin(p[10] ?? NaN), b: Math.cos(p[10] ?? NaN), c: 0 },
    { a: 0, b: 0, c: 1 },
  ],
};
const above = along(hook, direction, 0.3);
const pixel = { x: 500, y: 640, u: 1 };

const SIGHTINGS: readonly Observation[] = [
  pointSighting('a point', SEEN, hook, pixel),
  pointSighting('a point along a direction', SEEN, above, pixel),
  lineSighting('a line', SEEN, hook, above, pixel),
  inPlaneSighting('a direction', SEEN, direction, 0.05),
];

describe('sightings', () => {
  it.each(SIGHTINGS)(
    'of $name bring the slopes that differences have',
    ({ depends, predict, derivative }) => {
      expect(new Set(depends).size).toBe(depends.length);
      fc.assert(
        fc.property(unknowns, (p) => {
          const rows = derivative?.(p) ?? [];
          depends.forEach((index, column) => {
            const step = STEPS[index] ?? NaN;
            const moved = (by: number) => predict(p.map((value, i) => (i === index ? value + by : value)));
            const [up, down] = [moved(step), moved(-step)];
            rows.forEach((row, i) => {
              const slope = row[column] ?? NaN;
              const difference = ((up[i] ?? NaN) - (down[i] ?? NaN)) / (2 * step);
              const size = 1 + Math.max(...row.map(Math.abs));
              expect(Math.abs(difference - slope) / size, `unknown ${index}`).toBeLessThan(
                tolerance('sightings: slope'),
              );
            });
          });
        }),
      );
    },
  );

  it('see a point where the camera does', () => {
    fc.assert(
      fc.property(unknowns, (p) => {
        const [a, b, c] = [(p[7] ?? NaN) - (p[11] ?? NaN), p[8] ?? NaN, (p[9] ?? NaN) + 0.5 * (p[12] ?? NaN)];
        const { x, y } = project(cameraAt(p, SEEN), { a, b, c });
        const [ourX = NaN, ourY = NaN] = SIGHTINGS[0]?.predict(p) ?? [];
        expect(Math.hypot(ourX - x, ourY - y)).toBeLessThan(tolerance('camera: pixel'));
      }),
    );
  });

  it('measure the distance of a mark from a line by area over length', () => {
    fc.assert(
      fc.property(unknowns, (p) => {
        const camera = cameraAt(p, SEEN);
        const [from, to] = [project(camera, hook.at(p)), project(camera, above.at(p))];
        const sides = [
          Math.hypot(to.x - from.x, to.y - from.y),
          Math.hypot(pixel.x - from.x, pixel.y - from.y),
          Math.hypot(pixel.x - to.x, pixel.y - to.y),
        ] as const;
        // Heron's formula, in Kahan's order against cancellation.
        const [a, b, c] = sides.toSorted((first, second) => second - first);
        if (a === undefined || b === undefined || c === undefined || c < 1) return;
        const area =
          Math.sqrt(Math.max(0, (a + (b + c)) * (c - (a - b)) * (c + (a - b)) * (a + (b - c)))) / 4;
        const [distance = NaN] = SIGHTINGS[2]?.predict(p) ?? [];
        expect(Math.abs(Math.abs(distance) - (2 * area) / sides[0])).toBeLessThan(
          tolerance('sightings: distance by area'),
        );
      }),
    );
  });
});
