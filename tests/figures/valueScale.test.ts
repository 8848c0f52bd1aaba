import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { onScale, printed, valueScale } from '../../src/figures';
import { tolerance } from '../tolerances';
import { advance } from './textBoxes';

const scaled = (low: number, high: number, width = 340) => valueScale(low, high, 0, width, printed);

describe('value scale', () => {
  it('goes from one numbered tick to another, evenly, around the values', () => {
    fc.assert(
      fc.property(
        fc.double({ min: -500, max: 500, noNaN: true }),
        fc.double({ min: 1e-3, max: 500, noNaN: true }),
        fc.integer({ min: 160, max: 700 }),
        (low, span, width) => {
          const scale = scaled(low, low + span, width);
          const slack = 1e-6 * scale.step;
          expect(scale.from).toBeLessThanOrEqual(low + slack);
          expect(scale.to).toBeGreaterThanOrEqual(low + span - slack);
          expect(scale.ticks[0]?.value).toBeCloseTo(scale.from, 9);
          expect(scale.ticks.at(-1)?.value).toBeCloseTo(scale.to, 9);
          expect(scale.x(scale.from)).toBeCloseTo(scale.left, 9);
          expect(scale.x(scale.to)).toBeCloseTo(scale.right, 6);
          expect(['1', '2', '5']).toContain(scale.step.toExponential(3).charAt(0));
          // What the number says is where its tick stands.
          for (const { value, text } of scale.ticks) expect(Number(text.replace('−', '-'))).toBe(value);
        },
      ),
    );
  });

  it('has numbers that neither touch nor leave the room', () => {
    fc.assert(
      fc.property(
        fc.double({ min: -500, max: 500, noNaN: true }),
        fc.double({ min: 1e-2, max: 500, noNaN: true }),
        fc.integer({ min: 200, max: 700 }),
        (low, span, width) => {
          const scale = scaled(low, low + span, width);
          let end = 0;
          for (const { value, text } of scale.ticks) {
            const half = advance(text, 15) / 2;
            expect(scale.x(value) - half).toBeGreaterThanOrEqual(end - tolerance('figures: rounding'));
            end = scale.x(value) + half;
          }
          expect(end).toBeLessThanOrEqual(width + tolerance('figures: rounding'));
        },
      ),
    );
  });

  it('is as tight as its numbers allow', () => {
    const { from, to, ticks } = scaled(91.0, 104.7);
    expect([from, to]).toEqual([90, 105]);
    expect(ticks.map(({ text }) => text)).toEqual(['90', '95', '100', '105']);
    expect(scaled(0, 0.42).ticks.map(({ text }) => text)).toEqual(['0.0', '0.1', '0.2', '0.3', '0.4', '0.5']);
  });

  it('opens around a single value', () => {
    const scale = scaled(94, 94);
    expect(scale.from).toBeLessThan(94);
    expect(scale.to).toBeGreaterThan(94);
    expect(onScale(scale, 94)).toBe(true);
    expect(onScale(scale, scale.to + 0.01)).toBe(false);
  });
});
