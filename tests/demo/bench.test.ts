import * as v from 'valibot';
import { describe, expect, it } from 'vitest';
import { BenchSheet } from '../../src/sheet/schema';
import type { BenchOptions } from './world/bench';
import { EVERYTHING, MARKED_AGAIN, NOTHING, hookPairs, simulateBench } from './world/bench';
import { project } from './world/camera';
import { inventTruck } from './world/invent';
import { truePoints } from './world/photograph';
import { dot, size, subtract } from './world/vector';

const options = (number: number): BenchOptions => {
  const truck = inventTruck(number);
  return {
    truck,
    pictureSeed: number,
    suspension: number % 2 ? 'free' : 'locked',
    hooks: truck.hooks.map(({ id }) => id),
    hookSource: 'ruler',
    markSigma: 1.5,
    redraw: MARKED_AGAIN,
    view: number % 3 ? 'right' : 'left',
    scales: 'both',
  };
};
const numbers = Array.from({ length: 25 }, (_, index) => index + 1);

describe('a simulated bench', () => {
  it('is a valid bench sheet, with and without its parts list', () => {
    for (const number of numbers)
      for (const partsList of [false, true])
        v.parse(BenchSheet, simulateBench({ ...options(number), partsList, redraw: EVERYTHING }).sheet);
  });

  it('shows every mark inside its picture and 300 pixels of string between the string marks', () => {
    for (const number of numbers)
      for (const redraw of [MARKED_AGAIN, EVERYTHING])
        for (const picture of simulateBench({ ...options(number), redraw }).state.pictures) {
          for (const { role, x, y } of picture.marks) {
            expect(Math.min(x, picture.width - x), `${picture.id} ${role}`).toBeGreaterThan(15);
            expect(Math.min(y, picture.height - y), `${picture.id} ${role}`).toBeGreaterThan(15);
          }
          const [lower, upper] = ['string lower', 'string upper'].map((role) =>
            picture.marks.find((mark) => mark.role === role),
          );
          if (picture.kind === 'hanging')
            expect(
              Math.hypot((upper?.x ?? 0) - (lower?.x ?? 0), (upper?.y ?? 0) - (lower?.y ?? 0)),
            ).toBeGreaterThan(300);
        }
  });

  it('keeps its photographs when marks and ruler are drawn again', () => {
    const first = simulateBench({ ...options(3), drawSeed: 1 });
    const second = simulateBench({ ...options(3), drawSeed: 2 });
    expect(second.truth.photographs).toEqual(first.truth.photographs);
    expect(second.state.pictures[0]?.marks).not.toEqual(first.state.pictures[0]?.marks);
    expect(second.state.hooks).not.toEqual(first.state.hooks);
    expect(second.state.dimensions).toEqual(first.state.dimensions);
  });

  it('states exactly the truth where nothing is redrawn', () => {
    const { state, truth } = simulateBench({ ...options(4), redraw: NOTHING });
    const axles = state.readings.find((reading) => reading.kind === 'axle scales');
    const front = Number(axles?.front.text);
    const rear = Number(axles?.rear.text);
    // Moments about the rear contacts, and about the center plane.
    expect((front / (front + rear)) * Number(state.dimensions.wheelbase.text)).toBeCloseTo(
      truth.cg[0] * 1000,
      1,
    );
    const wheels = state.readings.find((reading) => reading.kind === 'wheel scales');
    const lateral =
      ((Number(wheels?.frontLeft.text) - Number(wheels?.frontRight.text)) *
        Number(state.dimensions.frontTrack.text) +
        (Number(wheels?.rearLeft.text) - Number(wheels?.rearRight.text)) *
          Number(state.dimensions.rearTrack.text)) /
      2 /
      (front + rear);
    expect(lateral).toBeCloseTo(truth.cg[1] * 1000, 1);
    for (const photograph of truth.photographs)
      for (const { role, place } of truePoints(options(4).truck, photograph)) {
        const mark = state.pictures
          .find(({ id }) => id === photograph.id)
          ?.marks.find((each) => each.role === role);
        if (mark) expect({ x: mark.x, y: mark.y }).toEqual(project(photograph.camera, place));
      }
  });

  it('offers a pair of hooks crossing between 25 and 90 degrees on every truck', () => {
    for (const number of numbers)
      expect(hookPairs(inventTruck(number), (25 * Math.PI) / 180, Math.PI / 2).length).toBeGreaterThan(2);
  });
});

describe('the camera', () => {
  it('stands square to its picture at the stated distance, and its axes are right-handed', () => {
    for (const number of numbers)
      for (const { camera, side } of simulateBench({ ...options(number), redraw: EVERYTHING }).truth
        .photographs) {
        const { right, down, forward } = camera;
        for (const axis of [right, down, forward]) expect(size(axis)).toBeCloseTo(1, 12);
        expect(dot(right, down)).toBeCloseTo(0, 12);
        const cross = [
          right[1] * down[2] - right[2] * down[1],
          right[2] * down[0] - right[0] * down[2],
          right[0] * down[1] - right[1] * down[0],
        ];
        expect(cross[0]).toBeCloseTo(forward[0], 12);
        expect(cross[1]).toBeCloseTo(forward[1], 12);
        expect(cross[2]).toBeCloseTo(forward[2], 12);
        // Seen from the right the nose points right, from the left it points left.
        const ahead = project(camera, [camera.position[0] + 0.1, 0, 0]).x;
        const behind = project(camera, [camera.position[0] - 0.1, 0, 0]).x;
        expect(Math.sign(ahead - behind)).toBe(side === 'right' ? 1 : -1);
      }
  });

  it('shows a point at the height, scale and distance that similar triangles give', () => {
    const [standing] = simulateBench(options(5)).truth.photographs;
    if (!standing) throw new Error('no photograph');
    const { camera, hold } = standing;
    const aim = [0, 1, 2].map((at) => (camera.position[at] ?? 0) + hold.distance * (camera.forward[at] ?? 0));
    const off = (meters: number): readonly [number, number, number] => [
      (aim[0] ?? 0) + meters * camera.right[0],
      (aim[1] ?? 0) + meters * camera.right[1],
      (aim[2] ?? 0) + meters * camera.right[2],
    ];
    const { x, y } = project(camera, off(0.1));
    expect(x).toBeCloseTo(camera.width / 2 + 0.1 / hold.perPixel, 6);
    expect(y).toBeCloseTo(camera.height / 2, 6);
    expect(size(subtract(camera.position, off(0)))).toBeCloseTo(hold.distance, 9);
  });
});
