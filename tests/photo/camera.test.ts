import fc from 'fast-check';
import { det, multiply, transpose } from 'mathjs';
import { describe, expect, it } from 'vitest';
import {
  type Camera,
  type ViewPoint,
  cameraRotation,
  fitSimilarity,
  project,
  projectWithSlopes,
  unproject,
} from '../../src/photo/camera';
import { type Side, holdCamera, project as projectInWorld } from '../demo/world/camera';
import type { Vector } from '../demo/world/vector';
import { between } from '../physics/given';
import { tolerance } from '../tolerances';

const holds = fc.record({
  distance: between(0.9, 3),
  yaw: between(-0.15, 0.15),
  pitch: between(-0.15, 0.15),
  roll: between(-Math.PI, Math.PI),
  perPixel: between(0.0003, 0.001),
});
/** A place on or near the truck: ahead, left, up. */
const places = fc.tuple(between(-0.3, 0.6), between(-0.15, 0.15), between(-0.4, 0.5));
const sides = fc.constantFrom<Side>('right', 'left');
const views: fc.Arbitrary<Camera> = fc.record({
  roll: between(-Math.PI, Math.PI),
  yaw: between(-0.15, 0.15),
  pitch: between(-0.15, 0.15),
  a: between(-0.2, 0.4),
  b: between(-0.1, 0.4),
  scale: between(800, 3000),
  nearness: between(0, 1.1),
  centerX: between(300, 2000),
  centerY: between(300, 2000),
});
const points: fc.Arbitrary<ViewPoint> = fc.record({
  a: between(-0.4, 0.6),
  b: between(-0.4, 0.6),
  c: between(-0.12, 0.12),
});

/** Truck axes to view axes. */
const inView = (side: Side, [x, y, z]: Vector): ViewPoint =>
  side === 'right' ? { a: x, b: z, c: -y } : { a: -x, b: z, c: y };

/** The view that the world's camera has: read off its axes, aimed where it is aimed. */
function viewOf(hold: Parameters<typeof holdCamera>[0], side: Side, aim: Vector): Camera {
  const { right, down, forward, width, height } = holdCamera(hold, side, aim, 1200, 1440);
  const rows = [right, down, forward].map((axis) => inView(side, axis));
  const [across, below, away] = rows;
  if (!across || !below || !away) throw new Error('three axes');
  const { a, b } = inView(side, aim);
  return {
    roll: Math.atan2(-across.b, across.a),
    yaw: Math.asin(across.c),
    pitch: Math.atan2(below.c, -away.c),
    a,
    b,
    scale: 1 / hold.perPixel,
    nearness: 1 / hold.distance,
    centerX: width / 2,
    centerY: height / 2,
  };
}

const pixels = tolerance('camera: pixel');

describe('the camera', () => {
  it('sees what the camera of the invented world sees, from either side', () => {
    fc.assert(
      fc.property(holds, sides, places, places, (hold, side, [x, , z], place) => {
        const aim: Vector = [x, 0, z];
        const seen = project(viewOf(hold, side, aim), inView(side, place));
        const world = projectInWorld(holdCamera(hold, side, aim, 1200, 1440), place);
        expect(Math.hypot(seen.x - world.x, seen.y - world.y)).toBeLessThan(pixels);
      }),
    );
  });

  it('turns without stretching or mirroring', () => {
    fc.assert(
      fc.property(views, (view) => {
        const r = cameraRotation(view);
        const rows = [r.slice(0, 3), r.slice(3, 6), r.slice(6, 9)];
        const product = multiply(rows, transpose(rows));
        product.forEach((row, i) =>
          row.forEach((value, j) => expect(value).toBeCloseTo(i === j ? 1 : 0, 12)),
        );
        expect(det(rows)).toBeCloseTo(1, 12);
      }),
    );
  });

  it('finds the point again whose picture a pixel is, at its depth', () => {
    fc.assert(
      fc.property(views, points, (view, point) => {
        const { a, b, c } = unproject(view, project(view, point), point.c);
        expect(Math.hypot(a - point.a, b - point.b)).toBeLessThan(tolerance('camera: back at its depth'));
        expect(c).toBe(point.c);
      }),
    );
  });

  it('sees a mirrored truck mirrored: from the other side with yaw and roll turned round', () => {
    fc.assert(
      fc.property(views, points, (view, { a, b, c }) => {
        const mirrored = { ...view, roll: -view.roll, yaw: -view.yaw, a: -view.a };
        const seen = project(view, { a, b, c });
        const other = project(mirrored, { a: -a, b, c });
        expect(Math.abs(seen.x - view.centerX + other.x - view.centerX)).toBeLessThan(pixels);
        expect(Math.abs(seen.y - other.y)).toBeLessThan(pixels);
      }),
    );
  });

  it('has the slopes that differences have', () => {
    const steps = [1e-4, 1e-4, 1e-4, 1e-4, 1e-4, 0.1, 1e-4, 1e-4, 1e-4, 1e-4];
    const names = ['roll', 'yaw', 'pitch', 'a', 'b', 'scale', 'nearness'] as const;
    const axes = ['a', 'b', 'c'] as const;
    fc.assert(
      fc.property(views, points, (view, point) => {
        const { x, y, dx, dy } = projectWithSlopes(view, point);
        const middle = project(view, point);
        expect(Math.hypot(x - middle.x, y - middle.y)).toBeLessThan(pixels);
        steps.forEach((step, i) => {
          const name = names[i];
          const axis = axes[i - names.length];
          const moved = (by: number) =>
            project(
              name ? { ...view, [name]: view[name] + by } : view,
              axis ? { ...point, [axis]: point[axis] + by } : point,
            );
          const [above, below] = [moved(step), moved(-step)];
          const limit = tolerance('camera: slope') * (1 + Math.abs(dx[i] ?? NaN) + Math.abs(dy[i] ?? NaN));
          expect(Math.abs((above.x - below.x) / (2 * step) - (dx[i] ?? NaN))).toBeLessThan(limit);
          expect(Math.abs((above.y - below.y) / (2 * step) - (dy[i] ?? NaN))).toBeLessThan(limit);
        });
      }),
    );
  });
});

describe('the similarity that a fit starts from', () => {
  const plane = fc.record({ x: between(-1, 1), y: between(-1, 1) });
  const several = fc
    .array(plane, { minLength: 2, maxLength: 6 })
    .filter(([p, q]) => p !== undefined && q !== undefined && Math.hypot(p.x - q.x, p.y - q.y) > 0.05);
  const moves = fc.record({
    rotation: between(-3, 3),
    scale: between(0.1, 3000),
    shiftX: between(-1000, 1000),
    shiftY: between(-1000, 1000),
  });

  it('is found again from points it moved', () => {
    fc.assert(
      fc.property(several, moves, (from, { rotation, scale, shiftX, shiftY }) => {
        const [c, s] = [scale * Math.cos(rotation), scale * Math.sin(rotation)];
        const fit = fitSimilarity(
          from,
          from.map(({ x, y }) => ({ x: c * x - s * y + shiftX, y: s * x + c * y + shiftY })),
        );
        const near = (ours: number | undefined, theirs: number, size: number) =>
          expect(Math.abs((ours ?? NaN) - theirs)).toBeLessThan(tolerance('physics: rounding') * size);
        near(fit?.rotation, rotation, 1 + 1000 / scale);
        near(fit?.scale, scale, 1000 + scale);
        near(fit?.shiftX, shiftX, 1000 + scale);
        near(fit?.shiftY, shiftY, 1000 + scale);
        near(fit?.misfit ?? 0, 0, 1000 + scale);
      }),
    );
  });

  it('is that of the published example', () => {
    // Umeyama (1991), section IV, from memory: R = [0.832 0.555; -0.555 0.832], c = 0.721, t = (-0.800, 0.400).
    const from = [
      { x: 0, y: 0 },
      { x: 1, y: 0 },
      { x: 0, y: 2 },
    ];
    const to = [
      { x: 0, y: 0 },
      { x: -1, y: 0 },
      { x: 0, y: 2 },
    ];
    const fit = fitSimilarity(from, to);
    if (!fit) throw new Error('no fit');
    const meanSquare = fit.distances.reduce((sum, d) => sum + d * d, 0) / 3;
    for (const [ours, printed] of [
      [Math.cos(fit.rotation), 0.832],
      [Math.sin(fit.rotation), -0.555],
      [fit.scale, 0.721],
      [fit.shiftX, -0.8],
      [fit.shiftY, 0.4],
    ] as const)
      expect(Math.abs(ours - printed)).toBeLessThanOrEqual(tolerance('published: last digit') * 1e-3);
    // Recomputed from its eq. (33): variance of `to` 10/9, less c² = 13/25 of the variance of `from`, 10/9 too.
    expect(meanSquare).toBeCloseTo(8 / 15, 12);
    // Three points, 2·3 − 4 = 2 degrees of freedom.
    expect(fit.misfit).toBeCloseTo(Math.sqrt((3 * meanSquare) / 2), 12);
  });

  it('has no misfit to tell with two points, and none is found for one or for points in one place', () => {
    const p = { x: 1, y: 2 };
    const q = { x: 3, y: 1 };
    expect(fitSimilarity([p, q], [q, p])?.misfit).toBeNull();
    expect(fitSimilarity([p], [q])).toBeNull();
    expect(fitSimilarity([p, p, p], [p, q, p])).toBeNull();
  });
});
