import { describe, expect, it } from 'vitest';
import { adjustPictures } from '../../src/photo/fit/adjustPictures';
import { readState } from '../../src/photo/readState';
import { wrongMark } from '../../src/photo/wrongMark';
import type { BuildState } from '../../src/sheet/schema';
import { MARKED_AGAIN, simulateBench } from '../demo/world/bench';
import { inventTruck } from '../demo/world/invent';
import { tolerance } from '../tolerances';

/** A mark set hundreds of pixels off, as on the wrong landmark: the fit cannot settle, but it can be said which one. */
const { state } = simulateBench({
  truck: inventTruck(3),
  pictureSeed: 3,
  suspension: 'locked',
  hooks: ['hood', 'hoop'],
  hookSource: 'ruler',
  markSigma: 1.5,
  redraw: MARKED_AGAIN,
});
const moved = (picture: number, role: string, dx: number, dy: number): BuildState => ({
  ...state,
  pictures: state.pictures.map((each, i) =>
    i === picture
      ? {
          ...each,
          marks: each.marks.map((mark) =>
            mark.role === role ? { ...mark, x: mark.x + dx, y: mark.y + dy } : mark,
          ),
        }
      : each,
  ),
});
const KEYS = state.bodyMarks.map(({ key }) => key);
const OFF = 3000;

/** What is found wrong in a state whose pictures are complete, and whether they fit all the same. */
const found = (moved: BuildState) => {
  const {
    truck,
    standings: [standing],
    hangs,
  } = readState(moved);
  if (!truck || !standing) throw new Error('a complete bench');
  const fit = adjustPictures(truck, [standing], hangs);
  // Fits that settle on nonsense miss their marks by hundreds of pixels.
  const fits = fit.ok && fit.value.adjustment.chiSquared < 100 * fit.value.adjustment.degreesOfFreedom;
  return { wrong: wrongMark(standing, hangs), fits };
};

describe('a body mark far off', () => {
  it.each([0, 1, 2])('is named, in the picture it stands in: %i', (picture) => {
    for (const key of KEYS) {
      const { wrong, fits } = found(moved(picture, `mark ${key}`, OFF, -OFF));
      expect(fits, `mark ${key}`).toBe(false);
      expect(wrong).toMatchObject({ picture: state.pictures[picture]?.id, key });
      expect(Math.abs((wrong?.off ?? NaN) / Math.hypot(OFF, OFF) - 1)).toBeLessThan(
        tolerance('wrong mark: distance'),
      );
    }
  });

  it('is not named where there are only three', () => {
    const three = moved(1, 'mark A', OFF, -OFF);
    const keys = KEYS.slice(0, 3);
    const { wrong } = found({
      ...three,
      bodyMarks: three.bodyMarks.filter(({ key }) => keys.includes(key)),
    });
    expect(wrong?.key).toBeNull();
  });

  it('is not looked for where all marks are in place', () => {
    expect(found(state)).toEqual({ wrong: null, fits: true });
  });
});
