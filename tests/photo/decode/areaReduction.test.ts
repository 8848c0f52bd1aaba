import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { areaReduction } from '../../../src/photo/decode/areaReduction';
import { jpegSize } from '../../../src/photo/decode/decodeReduced';
import { tolerance } from '../../tolerances';

type Gray = (x: number, y: number) => number;

/** Reduces a gray picture whose pixel (x, y) has the value gray(x, y); in bands of `band` rows. */
function reduced(
  gray: Gray,
  [columns, rows]: readonly [number, number],
  [width, height]: readonly [number, number],
  { band = 7, across = columns, down = rows } = {},
): Uint8ClampedArray {
  const reduction = areaReduction({ columns, across, down, width, height });
  for (let top = 0; top < rows; top += band) {
    const count = Math.min(band, rows - top);
    const bytes = new Uint8Array(count * columns * 4);
    for (let y = 0; y < count; y++)
      for (let x = 0; x < columns; x++)
        bytes.fill(gray(x, top + y), (y * columns + x) * 4, (y * columns + x) * 4 + 3);
    reduction.take(bytes, count);
  }
  return reduction.pixels;
}

const at = (pixels: Uint8ClampedArray, width: number, x: number, y: number): number =>
  pixels[(y * width + x) * 4] ?? NaN;

describe('reducing by areas', () => {
  test('halves are means of four', () => {
    const values = [0, 40, 80, 120, 20, 60, 100, 140];
    const pixels = reduced((x, y) => values[y * 4 + x] ?? 0, [4, 2], [2, 1]);
    // (0 + 40 + 20 + 60) / 4 and (80 + 120 + 100 + 140) / 4
    expect([...pixels]).toEqual([30, 30, 30, 255, 110, 110, 110, 255]);
  });

  test('two thirds share the pixel between them', () => {
    // Areas of 1.5 by 1.5: (1 · 90 + 0.5 · 30) / 1.5 = 70 and (0.5 · 30 + 1 · 120) / 1.5 = 90.
    const pixels = reduced((x) => [90, 30, 120][x] ?? 0, [3, 3], [2, 2]);
    expect([0, 1].flatMap((y) => [at(pixels, 2, 0, y), at(pixels, 2, 1, y)])).toEqual([70, 90, 70, 90]);
  });

  test('a part of the last column that the picture does not cover is left out', () => {
    // 3.5 columns onto 2 pixels of 1.75: (0.25 · 100 + 1 · 100 + 0.5 · 240) / 1.75 = 140.
    const pixels = reduced((x) => (x === 3 ? 240 : 100), [4, 2], [2, 1], { across: 3.5 });
    expect([at(pixels, 2, 0, 0), at(pixels, 2, 1, 0)]).toEqual([100, 140]);
  });

  test('one color stays that color, whatever the sizes and bands', () => {
    fc.assert(
      fc.property(
        fc.integer({ min: 1, max: 40 }),
        fc.integer({ min: 1, max: 40 }),
        fc.double({ min: 0.1, max: 1, noNaN: true }),
        fc.integer({ min: 1, max: 9 }),
        fc.integer({ min: 0, max: 255 }),
        (columns, rows, scale, band, value) => {
          const size = [Math.ceil(columns * scale), Math.ceil(rows * scale)] as const;
          const pixels = reduced(() => value, [columns, rows], size, { band });
          expect(pixels).toHaveLength(size[0] * size[1] * 4);
          expect(pixels.every((byte, n) => byte === (n % 4 === 3 ? 255 : value))).toBe(true);
        },
      ),
    );
  });

  test('a round mark keeps its center', () => {
    // A soft dot as a lens gives it: a Gaussian of 3 pixels; 8160 columns onto 4000 have this ratio.
    const [from, to] = [204, 100];
    for (const [cx, cy] of [
      [100, 100],
      [97.3, 104.8],
      [60.25, 131.6],
    ] as const) {
      const dot: Gray = (x, y) => 200 * Math.exp(-((x + 0.5 - cx) ** 2 + (y + 0.5 - cy) ** 2) / 18);
      const pixels = reduced((x, y) => Math.round(dot(x, y)), [from, from], [to, to]);
      let [mass, mx, my] = [0, 0, 0];
      for (let y = 0; y < to; y++)
        for (let x = 0; x < to; x++) {
          const value = at(pixels, to, x, y);
          mass += value;
          mx += value * (x + 0.5);
          my += value * (y + 0.5);
        }
      const far = tolerance('reduced mark: center');
      expect(Math.abs(mx / mass - (cx * to) / from)).toBeLessThan(far);
      expect(Math.abs(my / mass - (cy * to) / from)).toBeLessThan(far);
    }
  });
});

describe('JPEG at a fraction of its size', () => {
  test.each([
    // 4/8 of 8160 are 4080, 3/8 would be 3060.
    [8160, 6144, 4, 4080, 3072],
    [8161, 6145, 4, 4081, 3073],
    // 2/8 of 16320 are 4080.
    [16320, 12240, 2, 4080, 3060],
    [6000, 8000, 4, 3000, 4000],
    [7168, 5376, 5, 4480, 3360],
    [4032, 3024, 8, 4032, 3024],
    [4000, 3000, 8, 4000, 3000],
  ])('%i by %i: %i eighths', (width, height, eighths, w, h) => {
    expect(jpegSize({ width, height })).toEqual({ eighths, width: w, height: h });
  });
});
