import { describe, expect, test } from 'vitest';
import { type Camera, cameraRotation, project } from '../../src/photo/camera';
import type { KnownPoint } from '../../src/photo/pose/knownPoint';
import { type Pose, solvePose } from '../../src/photo/pose/solvePose';
import { cameraPlace } from '../../src/photo/pose/viewRotation';
import { normalNumbers } from '../../src/physics';
import { seeded, valueOf } from '../physics/given';
import { tolerance } from '../tolerances';
import { type OtherPose, openCv, otherPose, otherPoseAndFocal } from './openCv';
import { agreeWithPrint } from './published';

/** Size of an aerial photograph, mm; its center is where x and y are counted from, y up. */
const PLATE = 230;
const U_MM = 0.01;
/** Center of the pictures beside the library's, pixels. */
const CENTER = { centerX: 1500, centerY: 1000 };

/** Photograph's x and y, mm, and the ground's X, Y and Z, m. */
type GroundPoint = readonly [x: number, y: number, X: number, Y: number, Z: number];

/** Points of an aerial photograph, ground coordinates less those of `from`: a east, b north, c up. */
const aerial = (points: readonly GroundPoint[], from: readonly [number, number, number]): KnownPoint[] =>
  points.map(([x, y, X, Y, Z]) => ({
    place: { a: X - from[0], b: Y - from[1], c: Z - from[2] },
    u: [0, 0, 0],
    pixel: { x: PLATE / 2 + x, y: PLATE / 2 - y },
    uPixel: U_MM,
  }));

const solved = (points: readonly KnownPoint[], focal: number): Pose =>
  valueOf(solvePose(points, { width: PLATE, height: PLATE, focal: { value: focal, u: 0 } }));

const stationOf = ({ camera }: Pose, from: readonly [number, number, number]) => {
  const place = cameraPlace(camera);
  return [(place?.a ?? NaN) + from[0], (place?.b ?? NaN) + from[1], (place?.c ?? NaN) + from[2]] as const;
};

describe('resection of a vertical photograph of five points', () => {
  // Mikhail, Bethel and McGlone, Introduction to Modern Photogrammetry (2001): points and camera constant.
  const from = [914000, 575000, 0] as const;
  const pose = solved(
    aerial(
      [
        [56.515, -78.969, 913928.64, 575198.44, 189.64],
        [1.242, 1.134, 914270.77, 575432.35, 191.26],
        [95.576, 97.171, 914684.64, 575022.09, 186.72],
        [-70.988, 92.733, 914662.47, 575738.3, 191.94],
        [0.651, -30.068, 914137.97, 575435.45, 190.69],
      ],
      from,
    ),
    152.222,
  );
  const [X, Y, Z] = stationOf(pose, from);
  // Rotations about x, then y, then z: M = M(kappa) M(phi) M(omega).
  const r = cameraRotation(pose.camera);
  const at = (i: number) => r[i] ?? NaN;
  const row = (what: string, ours: number, printed: number, unit: string, lastDigit: number) => ({
    id: 'five points',
    what,
    source:
      'Mikhail, Bethel and McGlone 2001, resected with SciPy’s leastsq by J. T. Walton (photogrammetry-resection)',
    status: 'seen + recomputed' as const,
    ours: () => ours,
    printed,
    unit,
    lastDigit,
  });
  agreeWithPrint([
    row('station east', X, 914260.42186, 'm', 1e-5),
    row('station north', Y, 575441.83555, 'm', 1e-5),
    row('station height', Z, 839.13044, 'm', 1e-5),
    row('omega', Math.atan2(-at(7), at(8)), -0.00650748, 'rad', 1e-8),
    row('phi', Math.asin(at(6)), -0.0085218, 'rad', 1e-7),
    row('kappa', Math.atan2(-at(3), at(0)), -1.57532212, 'rad', 1e-8),
    row('sum of squared residuals', pose.chiSquared * U_MM ** 2, 0.0007511, 'mm²', 1e-7),
  ]);
});

describe('resection of four points near a tilted plane', () => {
  // Zhang, Pan and Wang, Photogrammetry (Wuhan University Press, 2003): an exercise much used in courses.
  const from = [38000, 28000, 0] as const;
  const pose = solved(
    aerial(
      [
        [-86.15, -68.99, 36589.41, 25273.32, 2195.17],
        [-53.4, 82.21, 37631.08, 31324.51, 728.69],
        [-14.78, -76.63, 39100.97, 24934.98, 2386.5],
        [10.46, 64.43, 40426.54, 30319.81, 757.31],
      ],
      from,
    ),
    153.24,
  );
  const [X, Y, Z] = stationOf(pose, from);
  const row = (what: string, ours: number, printed: number) => ({
    id: 'four points',
    what,
    source: 'Zhang, Pan and Wang 2003; result as printed by several courses’ programs',
    status: 'seen + recomputed' as const,
    ours: () => ours,
    printed,
    unit: 'm',
    lastDigit: 0.01,
  });
  agreeWithPrint([
    row('station east', X, 39795.45),
    row('station north', Y, 27476.46),
    row('station height', Z, 7572.69),
  ]);
});

/** Eight points seen aslant from about a meter, pixels read to 0.5. */
function eightPoints(scene: number, where: 'in space' | 'in a plane', focal: number): KnownPoint[] {
  const uniform = seeded(scene + 1);
  const normal = normalNumbers(seeded(scene + 101));
  const within = (low: number, high: number) => low + (high - low) * uniform();
  const nearness = 1 / within(0.9, 1.6);
  // Aslant enough for a plane not to look alike tilted the other way.
  const slant = () => (uniform() < 0.5 ? -1 : 1) * within(0.3, 0.9);
  const camera: Camera = {
    roll: within(-3, 3),
    yaw: slant(),
    pitch: slant(),
    a: within(0, 0.2),
    b: within(0, 0.2),
    scale: focal * nearness,
    nearness,
    ...CENTER,
  };
  return Array.from({ length: 8 }, (_, i) => {
    // One in each part of the frame.
    const place = {
      a: -0.2 + 0.15 * (i % 4) + within(0, 0.1),
      b: -0.1 + 0.2 * Math.floor(i / 4) + within(0, 0.15),
      c: where === 'in space' ? within(-0.12, 0.12) : 0.05,
    };
    const { x, y } = project(camera, place);
    return { place, u: [0, 0, 0], pixel: { x: x + 0.5 * normal(), y: y + 0.5 * normal() }, uPixel: 0.5 };
  });
}

function agree({ camera }: Pose, theirs: OtherPose, limit: number): void {
  cameraRotation(camera).forEach((value, i) =>
    expect(Math.abs(value - (theirs.rows[i] ?? NaN)), `row ${i}`).toBeLessThan(limit),
  );
  const place = cameraPlace(camera);
  [place?.a, place?.b, place?.c].forEach((value, i) =>
    expect(Math.abs((value ?? NaN) - (theirs.place[i] ?? NaN)) * camera.nearness, `place ${i}`).toBeLessThan(
      limit,
    ),
  );
}

describe('beside OpenCV', async () => {
  const { cv } = await openCv();
  const focal = 2500;
  const size = { width: 2 * CENTER.centerX, height: 2 * CENTER.centerY };
  const scenes = Array.from({ length: 20 }, (_, i) => [i % 2 === 0 ? 'in space' : 'in a plane', i] as const);

  test.each(scenes)('eight points %s, focal length known, scene %i', (where, scene) => {
    const points = eightPoints(scene, where, focal);
    const ours = valueOf(solvePose(points, { ...size, focal: { value: focal, u: 0 } }));
    agree(ours, otherPose(cv, points, { focal, ...CENTER }), tolerance('pose: other solver'));
  });

  test.each(scenes)('eight points %s, focal length solved with its u, scene %i', (where, scene) => {
    const points = eightPoints(scene, where, focal);
    const ours = valueOf(solvePose(points, size));
    const theirs = otherPoseAndFocal(cv, points, { focal: 0.9 * focal, ...CENTER });
    const limit = tolerance('pose: other solver in single precision');
    agree(ours, theirs, limit);
    const { camera, covariance } = ours;
    const found = camera.scale / camera.nearness;
    expect(Math.abs(found / theirs.focal - 1)).toBeLessThan(limit);
    const at = (i: number, j: number) => covariance[i]?.[j] ?? NaN;
    const relative =
      at(5, 5) / camera.scale ** 2 +
      at(6, 6) / camera.nearness ** 2 -
      (2 * at(5, 6)) / (camera.scale * camera.nearness);
    // Theirs is by what the fit leaves, ours by the stated u.
    const u = found * Math.sqrt((relative * ours.chiSquared) / ours.degreesOfFreedom);
    expect(Math.abs(u / theirs.focalU - 1)).toBeLessThan(tolerance('pose: other solver’s u'));
  });
});
