import { describe, expect, it } from 'vitest';
import { grayOf, levelAt } from '../../../src/photo/find';
import { tolerance } from '../../tolerances';

const pixels = (...rgb: readonly (readonly [number, number, number])[]) =>
  Uint8ClampedArray.from(rgb.flatMap(([red, green, blue]) => [red, green, blue, 255]));

describe('luma of a picture', () => {
  // ITU-R BT.709-6, item 3.2: the luma of full red, green and blue, and of white, which is their sum.
  it.each([
    ['red', [255, 0, 0], 0.2126 * 255],
    ['green', [0, 255, 0], 0.7152 * 255],
    ['blue', [0, 0, 255], 0.0722 * 255],
    ['white', [255, 255, 255], 255],
    ['gray', [90, 90, 90], 90],
  ] as const)('%s', (_, rgb, expected) => {
    const [level = NaN] = grayOf(pixels(rgb), 1, 1).levels;
    expect(Math.abs(level - expected)).toBeLessThan(tolerance('finders: level'));
  });

  it('keeps rows and columns', () => {
    const { width, height, levels } = grayOf(
      pixels([0, 0, 0], [10, 10, 10], [20, 20, 20], [30, 30, 30]),
      2,
      2,
    );
    expect([width, height]).toEqual([2, 2]);
    expect(Array.from(levels, Math.round)).toEqual([0, 10, 20, 30]);
  });
});

describe('level between pixels', () => {
  const slope = { width: 3, height: 3, levels: Float32Array.from([0, 1, 2, 10, 11, 12, 20, 21, 22]) };

  it('has pixel centers at halves, and is a plane where the levels are one', () => {
    expect(levelAt(slope, 0.5, 0.5)).toBe(0);
    expect(levelAt(slope, 2.5, 2.5)).toBe(22);
    expect(levelAt(slope, 1.25, 1.75)).toBeCloseTo(0.75 + 12.5, 5);
  });

  it('is nothing closer than half a pixel to the border', () => {
    expect(levelAt(slope, 0.4, 1)).toBeNaN();
    expect(levelAt(slope, 1, 2.6)).toBeNaN();
    expect(levelAt(slope, NaN, 1)).toBeNaN();
  });
});
