import fc from 'fast-check';
import { Matrix, inverse } from 'ml-matrix';
import { describe, expect, it, test } from 'vitest';
import { type Camera, cameraRotation, project } from '../../../src/photo/camera';
import type { KnownPoint, PoseGivens } from '../../../src/photo/pose/knownPoint';
import { CAMERA_UNKNOWNS } from '../../../src/photo/pose/refinePose';
import { type Pose, solvePose } from '../../../src/photo/pose/solvePose';
import { cameraPlace, obliqueness, towardCamera } from '../../../src/photo/pose/viewRotation';
import { normalNumbers } from '../../../src/physics';
import { between, reasonOf, seeded, valueOf } from '../../physics/given';
import { tolerance } from '../../tolerances';
import { CENTER, SIZE, type Scene, sceneOf } from './scenes';

const seeds = fc.integer({ min: 0, max: 2 ** 31 });
const kinds = ['focal known', 'distance known', 'all solved'] as const;
type How = Pose['how'];

const givensOf = (how: How, { focal, distance }: Scene): PoseGivens => ({
  ...SIZE,
  ...(how === 'focal known' ? { focal: { value: focal, u: 0.01 * focal } } : {}),
  ...(how === 'distance known' ? { distance: { value: distance, u: 0.05 * distance } } : {}),
});

/** Greatest difference of two cameras, each number by its size: angles and places as they are, scale and nearness as parts. */
const gap = (ours: Camera, theirs: Camera): number =>
  Math.max(
    ...cameraRotation(ours).map((value, i) => Math.abs(value - (cameraRotation(theirs)[i] ?? NaN))),
    Math.abs(ours.a - theirs.a),
    Math.abs(ours.b - theirs.b),
    Math.abs(ours.scale / theirs.scale - 1),
    Math.abs(ours.nearness / theirs.nearness - 1),
  );

const exact = tolerance('pose: exact pixels');

describe('the pose', () => {
  it.each(kinds)('is found again from exact pixels of points in space, %s', (how) => {
    fc.assert(
      fc.property(seeds, fc.integer({ min: 5, max: 9 }), (seed, count) => {
        const scene = sceneOf(seed, count, 'space');
        const pose = valueOf(solvePose(scene.points, givensOf(how, scene)));
        expect(gap(pose.camera, scene.camera)).toBeLessThan(exact);
        expect(pose.how).toBe(how);
        expect(pose.degreesOfFreedom).toBe(2 * count - (how === 'all solved' ? 7 : 6));
      }),
      { numRuns: 40 },
    );
  });

  it.each(kinds)('of points in a plane is found again from near, or said to be untold, %s', (how) => {
    let found = 0;
    const runs = 40;
    fc.assert(
      fc.property(seeds, fc.integer({ min: 4, max: 9 }), (seed, count) => {
        const scene = sceneOf(seed, count, 'plane');
        const pose = solvePose(scene.points, givensOf(how, scene));
        if (pose.ok) {
          expect(gap(pose.value.camera, scene.camera)).toBeLessThan(exact);
          found += 1;
        } else expect(['ambiguous', 'nearly in plane and no focal']).toContain(pose.reason);
      }),
      { numRuns: runs, endOnFailure: true },
    );
    // From 0.8 to 3 m, a plane of half a meter read to half a pixel is seldom untold.
    expect(found).toBeGreaterThan(0.7 * runs);
  });

  it('does not depend on the order of the points', () => {
    fc.assert(
      fc.property(seeds, fc.integer(), (seed, order) => {
        const scene = sceneOf(seed, 6, 'space');
        const uniform = seeded(order);
        const normal = normalNumbers(uniform);
        const noisy = scene.points.map((point): KnownPoint => ({
          ...point,
          u: [0.0005, 0.0005, 0.002],
          pixel: { x: point.pixel.x + 0.5 * normal(), y: point.pixel.y + 0.5 * normal() },
        }));
        const shuffled = noisy
          .map((point) => ({ point, at: uniform() }))
          .toSorted((p, q) => p.at - q.at)
          .map(({ point }) => point);
        const givens = givensOf('focal known', scene);
        const [one, other] = [valueOf(solvePose(noisy, givens)), valueOf(solvePose(shuffled, givens))];
        expect(gap(one.camera, other.camera)).toBeLessThan(tolerance('pose: same valley'));
        expect(Math.abs(one.chiSquared - other.chiSquared)).toBeLessThan(tolerance('pose: same valley'));
      }),
      { numRuns: 15 },
    );
  });

  it('takes a lens’s curve out of the pixels, and an uncertain one into its u', () => {
    fc.assert(
      fc.property(seeds, between(-0.04, 0.04), (seed, distortion) => {
        const scene = sceneOf(seed, 8, 'space');
        const bent: Camera = { ...scene.camera, distortion };
        const inside = scene.points.map((point) => ({ ...point, pixel: project(bent, point.place) }));
        const sure = valueOf(
          solvePose(inside, { ...givensOf('focal known', scene), distortion: { value: distortion, u: 0 } }),
        );
        expect(gap(sure.camera, scene.camera)).toBeLessThan(tolerance('pose: through a lens'));
        expect(sure.camera.distortion).toBe(distortion);
        const unsure = valueOf(
          solvePose(inside, {
            ...givensOf('focal known', scene),
            distortion: { value: distortion, u: 0.015 },
          }),
        );
        expect(gap(unsure.camera, scene.camera)).toBeLessThan(tolerance('pose: through a lens'));
        for (const name of CAMERA_UNKNOWNS)
          expect(unsure.u[name] / sure.u[name]).toBeGreaterThan(1 - tolerance('pose: same valley'));
      }),
      { numRuns: 15 },
    );
  });

  test('its covariance is that of 400 drawn readings', () => {
    const scene = sceneOf(7, 7, 'space');
    const u = [0.0005, 0.0005, 0.002] as const;
    const [uFocal, uPixel, draws] = [0.01 * scene.focal, 0.5, 400];
    const normal = normalNumbers(seeded(2718));
    const truth = CAMERA_UNKNOWNS.map((name) => scene.camera[name]);
    const errors: number[][] = [];
    let normalized = 0;
    let stated = Matrix.zeros(7, 7);
    for (let draw = 0; draw < draws; draw++) {
      const points = scene.points.map(({ place: { a, b, c }, pixel: { x, y } }) => ({
        place: { a: a + u[0] * normal(), b: b + u[1] * normal(), c: c + u[2] * normal() },
        u,
        pixel: { x: x + uPixel * normal(), y: y + uPixel * normal() },
        uPixel,
      }));
      const { camera, covariance } = valueOf(
        solvePose(points, { ...SIZE, focal: { value: scene.focal + uFocal * normal(), u: uFocal } }),
      );
      const error = CAMERA_UNKNOWNS.map((name, i) => camera[name] - (truth[i] ?? NaN));
      errors.push(error);
      const matrix = new Matrix(covariance.map((row) => [...row]));
      stated = stated.add(matrix.clone().div(draws));
      const column = Matrix.columnVector(error);
      normalized += column.transpose().mmul(inverse(matrix)).mmul(column).get(0, 0) / draws;
    }
    expect(Math.abs(normalized - 7)).toBeLessThan(tolerance('pose: mean normalized square'));
    CAMERA_UNKNOWNS.forEach((name, i) => {
      const square = errors.reduce((sum, error) => sum + (error[i] ?? NaN) ** 2, 0) / draws;
      expect(Math.abs(square / stated.get(i, i) - 1), name).toBeLessThan(
        tolerance('pose: variance of draws'),
      );
    });
  }, 120_000);

  test('stands at infinity where nothing tells a distance, and says so in its u', () => {
    const scene = sceneOf(3, 8, 'space', 2);
    const far: Camera = { ...scene.camera, nearness: 0 };
    const pose = valueOf(
      solvePose(
        scene.points.map((point) => ({ ...point, pixel: project(far, point.place) })),
        SIZE,
      ),
    );
    expect(pose.camera.nearness).toBeGreaterThanOrEqual(0);
    expect(pose.camera.nearness).toBeLessThan(pose.u.nearness);
    expect(gap({ ...pose.camera, nearness: 1 }, { ...far, nearness: 1 })).toBeLessThan(exact);
    expect(cameraPlace(far)).toBeNull();
  });
});

describe('refused', () => {
  const scene = sceneOf(11, 8, 'space');
  const givens = givensOf('focal known', scene);
  const messageOf = (points: readonly KnownPoint[], with_: PoseGivens) => {
    const pose = solvePose(points, with_);
    return pose.ok ? '' : pose.message;
  };

  test('fewer than four points, whatever else is known', () => {
    expect(reasonOf(solvePose(scene.points.slice(0, 3), givens))).toBe('too few points');
    expect(messageOf(scene.points.slice(0, 3), givens)).toContain('got 3');
  });

  it.each(kinds)('points nearly in line, always, %s', (how) => {
    fc.assert(
      fc.property(seeds, fc.integer({ min: 4, max: 12 }), (seed, count) => {
        const { camera, ...rest } = sceneOf(seed, count, 'space');
        const uniform = seeded(seed + 1);
        const toward = [uniform() - 0.5, uniform() - 0.5, uniform() - 0.5];
        const length = Math.hypot(...toward);
        const [a = 0, b = 0, c = 0] = toward.map((part) => part / length);
        const points = rest.points.map((point, i): KnownPoint => {
          const along = 0.4 * (i / (count - 1) - 0.5);
          // 4 mm to each side of 400 mm.
          const off = () => 0.008 * (uniform() - 0.5);
          const place = { a: 0.1 + along * a + off(), b: 0.1 + along * b + off(), c: along * c + off() };
          return { ...point, place, pixel: project(camera, place) };
        });
        expect(reasonOf(solvePose(points, givensOf(how, { camera, ...rest })))).toBe('nearly in line');
      }),
      { numRuns: 40 },
    );
  });

  test('widths that are only uncertain places', () => {
    const unsure = scene.points.map((point): KnownPoint => ({ ...point, u: [0.05, 0.05, 0.05] }));
    expect(reasonOf(solvePose(unsure, givens))).toBe('nearly in line');
  });

  test('but not for depths that are uncertain only', () => {
    const shallow = scene.points.map((point): KnownPoint => ({ ...point, u: [0.001, 0.001, 0.03] }));
    expect(gap(valueOf(solvePose(shallow, givens)).camera, scene.camera)).toBeLessThan(
      tolerance('pose: same valley'),
    );
  });

  test('with what was found and what to do next, at its label', () => {
    const line = [0, 0.1, 0.2, 0.3].map((a): KnownPoint => {
      const place = { a, b: 0.1, c: 0 };
      return { place, u: [0, 0, 0], pixel: project(scene.camera, place), uPixel: 0.5 };
    });
    expect(messageOf(line, givens)).toBe(
      'Known marks: need to lie off one line; got 0.0 mm to its sides over 112 mm along it. Mark a point well above, below or beside the others.',
    );
    expect(messageOf(scene.points, { ...SIZE, distance: { value: -2, u: 1 } })).toBe(
      'Camera distance: needs to be above zero; got “-2”. Type what was measured, or leave it empty.',
    );
  });

  test('a plane seen square with neither focal length nor distance', () => {
    const square = sceneOf(5, 8, 'plane');
    const camera = { ...square.camera, yaw: 0, pitch: 0 };
    const points = square.points.map((point) => ({ ...point, pixel: project(camera, point.place) }));
    expect(reasonOf(solvePose(points, SIZE))).toBe('nearly in plane and no focal');
  });

  test('a small plane far off, tilted either way alike', () => {
    const camera: Camera = { roll: 0, yaw: 0.3, pitch: 0, a: 0, b: 0, scale: 800, nearness: 0.05, ...CENTER };
    const points = [-0.1, 0, 0.1].flatMap((a) =>
      [-0.1, 0.1].map((b): KnownPoint => {
        const place = { a, b, c: 0 };
        return { place, u: [0, 0, 0], pixel: project(camera, place), uPixel: 1 };
      }),
    );
    const far = { ...SIZE, focal: { value: 16000, u: 10 } };
    expect(reasonOf(solvePose(points, far))).toBe('ambiguous');
    // A hand-breadth in front of the plane decides it.
    const place = { a: 0, b: 0, c: 0.1 };
    const decided = [...points, { place, u: [0, 0, 0] as const, pixel: project(camera, place), uPixel: 1 }];
    expect(gap(valueOf(solvePose(decided, far)).camera, camera)).toBeLessThan(exact);
  });

  test('a camera among its points', () => {
    const near = { ...SIZE, distance: { value: 0.02, u: 0.0001 } };
    expect(reasonOf(solvePose(scene.points, near))).toBe('behind the camera');
    expect(reasonOf(solvePose(scene.points, { ...SIZE, focal: { value: 0, u: 1 } }))).toBe(
      'behind the camera',
    );
  });

  test('what is no number', () => {
    const lost = scene.points.map((point) => ({ ...point, pixel: { x: NaN, y: 0 } }));
    expect(reasonOf(solvePose(lost, givens))).toBe('not settled');
  });
});

test('obliqueness is the angle from the normal that spherical trigonometry gives', () => {
  fc.assert(
    fc.property(between(-1.5, 1.5), between(-1.5, 1.5), between(-3, 3), (yaw, pitch, roll) => {
      const angle = obliqueness({ camera: { roll, yaw, pitch } });
      expect(Math.cos(angle)).toBeCloseTo(Math.cos(yaw) * Math.cos(pitch), 12);
      const { a, b, c } = towardCamera({ roll, yaw, pitch });
      expect(Math.hypot(a, b, c)).toBeCloseTo(1, 12);
    }),
  );
  expect(obliqueness({ camera: { roll: 2, yaw: 0, pitch: 0 } })).toBe(0);
  expect(obliqueness({ camera: { roll: 1, yaw: 1e-9, pitch: 0 } })).toBeCloseTo(1e-9, 18);
});
