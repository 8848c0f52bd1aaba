import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { focalPixels } from '../../src/photo/focalLength';
import { tolerance } from '../tolerances';

describe('focal length in pixels', () => {
  // CIPA DCG-001, converted focal length: the diagonals stand as 43.27 mm to that of the picture.
  test.each([
    // 26 · 5000 / 43.27
    [26, 4000, 3000, 3004.4],
    [26, 3000, 4000, 3004.4],
    // 50 · √(6000² + 4000²) / 43.27 = 50 · 7211.10 / 43.27, which is 50 · 6000 / 36 = 8333.
    [50, 6000, 4000, 8332.7],
    // 24 · √(1920² + 1080²) / 43.27 = 24 · 2202.91 / 43.27
    [24, 1920, 1080, 1221.9],
  ])('%i mm, %i by %i pixels', (mm, width, height, pixels) => {
    expect(Math.abs(focalPixels(mm, width, height).value / pixels - 1)).toBeLessThan(
      tolerance('focal length: pixels'),
    );
  });

  test('at 3:2 equals the long side of the frame, 36 mm', () => {
    expect(focalPixels(35, 3600, 2400).value).toBeCloseTo(3500, 9);
  });

  test('u: 3 % and rounding at 4:3; the shape of the sensor beyond', () => {
    const share = (mm: number, width: number, height: number): number => {
      const { value, u } = focalPixels(mm, width, height);
      return u / value;
    };
    // 1 mm / √12 = 0.2887 mm; of 26 mm 1.110 %. √(3² + 1.110²) = 3.199 %.
    expect(share(26, 4000, 3000)).toBeCloseTo(0.03199, 4);
    // A frame of 4:3 around 16:9 of the same width: its diagonal is 1.25 · 16 = 20 against √(16² + 9²) = 18.358,
    // 8.95 % more; / √3 = 5.167 %. √(3.199² + 5.167²) = 6.077 %.
    expect(share(26, 1600, 900)).toBeCloseTo(0.06077, 4);
    // A square: 5/3 against √2, 17.85 % more; / √3 = 10.306 %. √(3.199² + 10.306²) = 10.791 %.
    expect(share(26, 1000, 1000)).toBeCloseTo(0.10791, 4);
  });

  test('grows with the picture, and does not mind how it is held', () => {
    fc.assert(
      fc.property(
        fc.integer({ min: 10, max: 300 }),
        fc.integer({ min: 300, max: 9000 }),
        fc.integer({ min: 300, max: 9000 }),
        fc.integer({ min: 2, max: 9 }),
        (mm, width, height, times) => {
          const one = focalPixels(mm, width, height);
          const many = focalPixels(mm, width * times, height * times);
          expect(many.value / one.value).toBeCloseTo(times, 9);
          expect(many.u / one.u).toBeCloseTo(times, 9);
          expect(focalPixels(mm, height, width)).toEqual(one);
        },
      ),
    );
  });
});
