import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import {
  bringing,
  fitted,
  held,
  loupePlace,
  panned,
  rounded,
  toPicture,
  toScreen,
  zoomed,
} from '../../../src/calculators/photographs/surfaceView';

const PICTURE = { width: 1600, height: 1200 };
const BOX = { width: 400, height: 300 };

const size = fc.record({
  width: fc.integer({ min: 200, max: 6000 }),
  height: fc.integer({ min: 200, max: 6000 }),
});
const box = fc.record({
  width: fc.integer({ min: 150, max: 1500 }),
  height: fc.integer({ min: 150, max: 1500 }),
});

describe('the view of a marking surface', () => {
  test('shows the whole picture at first', () => {
    expect(fitted(PICTURE, BOX)).toEqual({ scale: 0.25, x: 0, y: 0 });
    expect(fitted({ width: 600, height: 1200 }, BOX)).toEqual({ scale: 0.25, x: -500, y: 0 });
  });

  test('carries places to the screen and back', () => {
    fc.assert(
      fc.property(
        size,
        box,
        fc.double({ min: 0, max: 1, noNaN: true }),
        fc.double({ min: 0, max: 1, noNaN: true }),
        (picture, frame, a, b) => {
          const view = zoomed(fitted(picture, frame), 3, { x: 10, y: 20 }, picture, frame);
          const place = { x: a * picture.width, y: b * picture.height };
          const back = toPicture(view, toScreen(view, place));
          expect(Math.hypot(back.x - place.x, back.y - place.y)).toBeLessThan(1e-6);
        },
      ),
    );
  });

  test('keeps what lies under the pointer there while it zooms in', () => {
    const about = { x: 250, y: 110 };
    const before = fitted(PICTURE, BOX);
    const after = zoomed(before, 2.5, about, PICTURE, BOX);
    const was = toPicture(before, about);
    const is = toPicture(after, about);
    expect(Math.hypot(was.x - is.x, was.y - is.y)).toBeLessThan(1e-6);
  });

  test('never leaves the picture, whatever is done to it', () => {
    fc.assert(
      fc.property(
        size,
        box,
        fc.array(
          fc.record({
            factor: fc.double({ min: 0.2, max: 5, noNaN: true }),
            dx: fc.integer({ min: -3000, max: 3000 }),
            dy: fc.integer({ min: -3000, max: 3000 }),
          }),
          { maxLength: 8 },
        ),
        (picture, frame, moves) => {
          let view = fitted(picture, frame);
          for (const { factor, dx, dy } of moves)
            view = panned(zoomed(view, factor, { x: 30, y: 40 }, picture, frame), dx, dy, picture, frame);
          const middle = toPicture(view, { x: frame.width / 2, y: frame.height / 2 });
          expect(middle.x).toBeGreaterThanOrEqual(-1e-6);
          expect(middle.y).toBeGreaterThanOrEqual(-1e-6);
          expect(middle.x).toBeLessThanOrEqual(picture.width + 1e-6);
          expect(middle.y).toBeLessThanOrEqual(picture.height + 1e-6);
          expect(view.scale).toBeGreaterThanOrEqual(fitted(picture, frame).scale - 1e-9);
        },
      ),
    );
  });

  test('brings a place into view and moves no more than that', () => {
    const close = held({ scale: 2, x: 0, y: 0 }, PICTURE, BOX);
    expect(bringing(close, { x: 100, y: 75 }, 40, PICTURE, BOX)).toEqual(close);
    const moved = bringing(close, { x: 500, y: 75 }, 40, PICTURE, BOX);
    expect(toScreen(moved, { x: 500, y: 75 }).x).toBeCloseTo(BOX.width - 40, 9);
    expect(moved.y).toBe(close.y);
  });

  test('puts the loupe clear of the finger', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 0, max: 360, noNaN: true }),
        fc.double({ min: 0, max: 290, noNaN: true }),
        (x, y) => {
          const radius = 60;
          const at = loupePlace({ x, y }, radius, { width: 360, height: 290 });
          expect(Math.hypot(at.x - x, at.y - y)).toBeGreaterThan(radius + 20);
          expect(at.x - radius).toBeGreaterThanOrEqual(0);
          expect(at.x + radius).toBeLessThanOrEqual(360);
        },
      ),
    );
  });

  test('keeps a hundredth of a pixel', () => {
    expect(rounded({ x: 812.40612, y: 301 })).toEqual({ x: 812.41, y: 301 });
  });
});
