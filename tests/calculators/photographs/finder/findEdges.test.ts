import { describe, expect, test } from 'vitest';
import { halved, roundIn, stringIn } from '../../../../src/calculators/photographs/finder/findEdges';
import type { Gray } from '../../../../src/photo/find';
import { tolerance } from '../../../tolerances';

/** A picture of levels by place, each pixel at its center, with a little noise that is the same every time. */
function drawn(width: number, height: number, level: (x: number, y: number) => number): Gray {
  let random = 1;
  const levels = Float32Array.from({ length: width * height }, (_, i) => {
    random = (random * 48271) % 2147483647;
    return level((i % width) + 0.5, Math.floor(i / width) + 0.5) + (random / 2147483647 - 0.5) * 8;
  });
  return { width, height, levels };
}

/** Part of a pixel that lies inside an edge `inside` pixels away. */
const covered = (inside: number): number => Math.min(1, Math.max(0, inside + 0.5));

test('a halved picture has the mean of each four pixels, without an odd last row or column', () => {
  const levels = Float32Array.from([1, 2, 9, 3, 6, 9, 9, 9, 9]);
  expect(halved({ width: 3, height: 3, levels })).toEqual({
    width: 1,
    height: 1,
    levels: Float32Array.from([3]),
  });
});

describe('a cord too wide for the finder', () => {
  /** Its middle line leans by a tenth. */
  const middle = (y: number) => 140 + 0.1 * y;
  const cord = (width: number) =>
    drawn(320, 800, (x, y) => 180 - 110 * covered(width / 2 - Math.abs(x - middle(y)) / Math.hypot(1, 0.1)));

  test.each([3, 8, 13, 22])('%d pixels wide is found as it is', (width) => {
    const found = stringIn(cord(width), { x: middle(40) + 4, y: 40 }, { x: middle(760) - 4, y: 760 });
    if (!found.ok) throw new Error(found.message);
    const { upper, lower } = found.value;
    const limit = tolerance('finder: drawn edge');
    expect(Math.abs(upper.x - middle(upper.y))).toBeLessThanOrEqual(limit);
    expect(Math.abs(lower.x - middle(lower.y))).toBeLessThanOrEqual(limit);
    expect(Math.abs(found.value.width - width)).toBeLessThanOrEqual(tolerance('finder: drawn width'));
  });

  test('does not make a string of plain ground', () => {
    const plain = drawn(320, 800, () => 180);
    expect(stringIn(plain, { x: middle(40), y: 40 }, { x: middle(760), y: 760 }).ok).toBe(false);
  });
});

describe('a round', () => {
  const center = { x: 273.4, y: 266.7 };
  const round = (diameter: number) =>
    drawn(540, 540, (x, y) => 180 - 110 * covered(diameter / 2 - Math.hypot(x - center.x, y - center.y)));

  test('large in the picture is found with half its pixels', () => {
    const found = roundIn(round(150), { x: 270, y: 270 }, true);
    if (!found.ok) throw new Error(found.message);
    const { x, y } = found.value.center;
    expect(Math.hypot(x - center.x, y - center.y)).toBeLessThanOrEqual(tolerance('finder: drawn edge'));
    expect(Math.abs(found.value.diameter - 150)).toBeLessThanOrEqual(tolerance('finder: drawn width'));
  });

  test('that is small is left to the crop with all its pixels', () => {
    expect(roundIn(round(40), { x: 270, y: 270 }, true).ok).toBe(false);
    expect(roundIn(round(40), { x: 270, y: 270 }, false).ok).toBe(true);
  });
});
