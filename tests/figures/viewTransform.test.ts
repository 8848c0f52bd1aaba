import fc from 'fast-check';
import { inv, multiply } from 'mathjs';
import { describe, expect, it } from 'vitest';
import {
  fitWidth,
  placement,
  placementNoseUp,
  pointerPlace,
  toPage,
  toPageNoseUp,
  toTruck,
  view,
} from '../../src/figures';
import { lengthIn, millimeters } from '../../src/physics';
import { tolerance } from '../tolerances';

const mm = fc.double({ min: -600, max: 600, noNaN: true });
const aView = fc
  .record({
    x: mm,
    y: mm,
    scale: fc.double({ min: 0.2, max: 5, noNaN: true }),
    sense: fc.constantFrom(1 as const, -1 as const),
  })
  .map(({ x, y, scale, sense }) => view({ x, y }, scale, sense));

/** A place through an SVG matrix(…) as SVG 2 defines it. */
const through = (transform: string, x: number, y: number): { x: number; y: number } => {
  const [a = 0, b = 0, c = 0, d = 0, e = 0, f = 0] = transform
    .replace(/^matrix\(|\)$/g, '')
    .split(' ')
    .map(Number);
  return { x: a * x + c * y + e, y: b * x + d * y + f };
};

describe('view', () => {
  it('takes a place to the page and back', () => {
    fc.assert(
      fc.property(aView, mm, mm, (sheet, across, up) => {
        const back = toTruck(sheet, toPage(sheet, millimeters(across), millimeters(up)));
        expect(lengthIn(back.across, 'mm')).toBeCloseTo(across, 8);
        expect(lengthIn(back.up, 'mm')).toBeCloseTo(up, 8);
      }),
    );
  });

  it('places a drawing where it places its points', () => {
    fc.assert(
      fc.property(aView, mm, mm, (sheet, across, up) => {
        const drawn = through(placement(sheet), across, up);
        const placed = toPage(sheet, millimeters(across), millimeters(up));
        const limit = tolerance('figures: placed drawing') + tolerance('figures: page coordinate');
        expect(Math.abs(drawn.x - placed.x)).toBeLessThan(limit);
        expect(Math.abs(drawn.y - placed.y)).toBeLessThan(limit);
      }),
    );
  });

  it('turns the view from above nose up: ahead up the page, left to the left', () => {
    const sheet = view({ x: 100, y: 200 }, 0.5);
    const place = toPageNoseUp(sheet, { x: millimeters(40), y: millimeters(10) });
    expect(place).toEqual({ x: 95, y: 180 });
    expect(through(placementNoseUp(sheet), 40, 10)).toEqual(place);
  });

  it('fits a box between its margins, and centers what it may not enlarge', () => {
    const box = {
      left: millimeters(-100),
      right: millimeters(400),
      bottom: millimeters(0),
      top: millimeters(250),
    };
    const margins = { left: 20, right: 30, top: 10, bottom: 40 };
    const { view: sheet, height } = fitWidth(box, 550, margins);
    expect(sheet.scale).toBeCloseTo(1);
    expect(toPage(sheet, box.left, box.top)).toEqual({ x: 20, y: 10 });
    expect(height).toBeCloseTo(300);
    const small = fitWidth(box, 550, margins, 0.5).view;
    expect(toPage(small, box.left, box.top).x - 20).toBeCloseTo(
      550 - 30 - toPage(small, box.right, box.top).x,
    );
  });
});

describe('pointer place', () => {
  /** What pointerPlace() reads of an element. */
  const element = (matrix: DOMMatrix | null): SVGGraphicsElement =>
    Object.assign(Object.create(null), { getScreenCTM: () => matrix });

  it('inverts the screen matrix, as mathjs inverts it', () => {
    const size = fc.double({ min: 0.4, max: 3, noNaN: true });
    const skew = fc.double({ min: -0.3, max: 0.3, noNaN: true });
    fc.assert(
      fc.property(size, skew, skew, size, mm, mm, mm, mm, (a, b, c, d, e, f, clientX, clientY) => {
        const place = pointerPlace(element(Object.assign(Object.create(null), { a, b, c, d, e, f })), {
          clientX,
          clientY,
        });
        const inverse = inv([
          [a, c, e],
          [b, d, f],
          [0, 0, 1],
        ]);
        const [x, y] = multiply(inverse, [clientX, clientY, 1]);
        expect(place?.x).toBeCloseTo(Number(x), 6);
        expect(place?.y).toBeCloseTo(Number(y), 6);
      }),
    );
  });

  it('is nowhere while the figure is not laid out or has no size', () => {
    expect(pointerPlace(element(null), { clientX: 1, clientY: 2 })).toBeNull();
    const flat = Object.assign(Object.create(null), { a: 0, b: 0, c: 0, d: 0, e: 0, f: 0 });
    expect(pointerPlace(element(flat), { clientX: 1, clientY: 2 })).toBeNull();
  });
});
