import { describe, expect, it } from 'vitest';
import { benchAnswer } from '../../src/answer/benchAnswer';
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

describe('a body mark far off', () => {
  it.each([0, 1, 2])('is named, in the picture it stands in: %i', (picture) => {
    for (const key of KEYS) {
      const { cg, next } = benchAnswer(moved(picture, `mark ${key}`, OFF, -OFF));
      if (cg.ok) throw new Error(`mark ${key} fits`);
      expect(cg.reason).toBe('wrong mark');
      expect(cg.message).toContain(
        `${state.pictures[picture]?.name}: needs mark ${key} on the same landmark`,
      );
      const [, off] = /about (\d+) px off/.exec(cg.message) ?? [];
      expect(Math.abs(Number(off) / Math.hypot(OFF, OFF) - 1)).toBeLessThan(
        tolerance('wrong mark: distance'),
      );
      expect(next.text).toBe(cg.message);
    }
  });

  it('is not named where there are only three', () => {
    const three = moved(1, 'mark A', OFF, -OFF);
    const keys = KEYS.slice(0, 3);
    const { cg } = benchAnswer({
      ...three,
      bodyMarks: three.bodyMarks.filter(({ key }) => keys.includes(key)),
    });
    if (cg.ok) throw new Error('fits');
    expect(cg.message).toContain('needs its body marks on the same landmarks as the standing picture');
  });
});
