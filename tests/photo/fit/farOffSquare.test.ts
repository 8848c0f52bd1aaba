import { describe, expect, it } from 'vitest';
import { project } from '../../../src/photo/camera';
import type { Camera, ViewPoint } from '../../../src/photo/camera';
import { adjustPictures } from '../../../src/photo/fit/adjustPictures';
import type { HangingPicture, MarkPlace, MarkedPoint, TruckGivens } from '../../../src/photo/fit/givens';
import { toView } from '../../../src/photo/views';
import { valueOf } from '../../physics/given';
import { tolerance } from '../../tolerances';

/** Marks measured with a ruler in three dimensions, some near the camera and some far from it. */
const MARKS: Readonly<Record<string, readonly [x: number, y: number, z: number]>> = {
  A: [-0.04, -0.09, 0.12],
  B: [0.33, -0.085, 0.11],
  C: [0.1, -0.03, 0.24],
  D: [0.22, -0.02, 0.23],
  E: [0.15, -0.095, 0.07],
};
const given = (value: number, u = 0.0005) => ({ value, u });
const marks = new Map(
  Object.entries(MARKS).map(([key, [x, y, z]]): [string, MarkPlace] => [
    key,
    { left: given(y), ahead: given(x), height: given(z) },
  ]),
);
const truck: TruckGivens = {
  axes: 'truck',
  wheelbase: given(0.31),
  frontTireRadius: given(0.055),
  rearTireRadius: given(0.055),
  hubDepth: given(0.1, 0.003),
  groundDepth: given(0.1, 0.01),
  marks,
  hooks: [],
  frontMassShare: given(0.2, 0.02),
  rearMassShare: given(0.2, 0.02),
  lateral: given(0, 0.005),
};
const CG: ViewPoint = toView('right', { x: 0.15, y: 0, z: 0.09 });

/** A hang seen so far round the truck, its string through the center of gravity at `up`. */
function hang(id: string, up: number, camera: Camera): HangingPicture {
  const marked = (point: ViewPoint): MarkedPoint => ({ ...project(camera, point), u: 1 });
  const along = (length: number): ViewPoint => ({
    a: CG.a + length * Math.cos(up),
    b: CG.b + length * Math.sin(up),
    c: CG.c,
  });
  return {
    id,
    view: 'right',
    width: 3000,
    height: 2400,
    distance: given(1.5, 0.02),
    oblique: 0.6,
    twist: 0.6,
    suspension: 'locked',
    hook: null,
    bodyMarks: new Map(
      Object.entries(MARKS).map(([key, [x, y, z]]) => [key, marked(toView('right', { x, y, z }))]),
    ),
    string: [marked(along(0.35)), marked(along(0.12))],
  };
}
const camera = (roll: number, yaw: number, pitch: number): Camera => ({
  roll,
  yaw,
  pitch,
  a: 0.14,
  b: 0.12,
  scale: 4500,
  nearness: 1 / 1.5,
  centerX: 1500,
  centerY: 1200,
});

describe('hangs by marks of known place alone', () => {
  it.each([0, 0.35, 0.7, 0.95])('are read where the view is %d rad off square', (off) => {
    const cameras = [camera(0.4, off, 0.1), camera(-1.2, -0.6 * off, 0.8 * off)] as const;
    const hangs = [hang('one', 1.1, cameras[0]), hang('two', 2.5, cameras[1])];
    const fit = valueOf(adjustPictures(truck, [], hangs));
    for (const [i, { id }] of hangs.entries()) {
      const [found, true_] = [fit.cameras.get(id), cameras[i]];
      expect(Math.abs((found?.yaw ?? NaN) - (true_?.yaw ?? NaN))).toBeLessThan(
        tolerance('pictures: solved view'),
      );
      expect(Math.abs((found?.pitch ?? NaN) - (true_?.pitch ?? NaN))).toBeLessThan(
        tolerance('pictures: solved view'),
      );
    }
    expect(fit.references.get('one')).toBeNull();
  });

  it('need two marks that lie apart', () => {
    const one = hang('one', 1.1, camera(0, 0, 0));
    const [mark] = one.bodyMarks;
    if (!mark) throw new Error('a mark');
    expect(adjustPictures(truck, [], [{ ...one, bodyMarks: new Map([mark]) }])).toMatchObject({
      reason: 'no axes',
    });
  });
});
