// @vitest-environment happy-dom
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { IN_DEGREES, IN_MILLIMETERS, seenChart, seenWords, type SeenChart } from '../../src/figures';
import { tolerance } from '../tolerances';
import { numberOf, rendered, seenScene } from './scenes';
import { misplacedTexts, someWords } from './textBoxes';

function drawn(chart: SeenChart): Element {
  const figure = rendered(seenChart(chart)).querySelector('svg');
  if (!figure) throw new Error('a figure expected');
  return figure;
}

const numbersIn = (element: Element | null | undefined): number[] =>
  (element?.getAttribute('d') ?? '').match(/-?\d+(\.\d+)?/g)?.map(Number) ?? [];

const labelsOf = (figure: Element): string[] =>
  [...figure.querySelectorAll('text.chart-change')].map((text) => text.textContent ?? '');

const near = (a: number, b: number): void =>
  expect(Math.abs(a - b)).toBeLessThan(tolerance('figures: page coordinate'));

/** px of a value, read off the scale's first and last number. */
function readScale(figure: Element): (value: number) => number {
  const ticks = [...figure.querySelectorAll('text.middle')];
  const [first, last] = [ticks[0] ?? null, ticks.at(-1) ?? null];
  const top = Number((last?.textContent ?? '').replace('°', ''));
  return (value) => numberOf(first, 'x') + (value / top) * (numberOf(last, 'x') - numberOf(first, 'x'));
}

describe.each([336, 440, 700])('what a bench sees, %i px wide', (width) => {
  const scene = seenScene(width);
  const figure = drawn(scene);

  it('counts from zero', () => {
    expect(figure.querySelector('text.middle')?.textContent).toBe('0°');
  });

  it('hatches from zero to the detection limit, and dashes the decision threshold', () => {
    const at = readScale(figure);
    const zones = [...figure.querySelectorAll('.unsure-wash')];
    expect(zones.length).toBeGreaterThan(0);
    for (const each of zones) {
      const numbers = numbersIn(each);
      near(numbers[0] ?? NaN, at(0));
      near(numbers[2] ?? NaN, at(1.8));
    }
    for (const each of figure.querySelectorAll('.chart-dashed')) near(numbersIn(each)[0] ?? NaN, at(0.98));
    expect(figure.querySelectorAll('.chart-dashed').length).toBe(zones.length);
  });

  it('has a dot at the size of each change, filled where it is seen; one beyond runs out', () => {
    const at = readScale(figure);
    const dots = [...figure.querySelectorAll('circle.chart-dot')];
    [2.6, 2.6, 1.1, 0.3].forEach((size, i) => {
      near(numberOf(dots[i] ?? null, 'cx'), at(size));
      expect(dots[i]?.classList.contains('chart-open')).toBe(size < 1.8);
    });
    expect(dots.length).toBe(4);
    expect(figure.querySelectorAll('.chart-run-out').length).toBe(1);
  });

  it('names every change with its number; a loss has its minus sign and says so', () => {
    const labels = labelsOf(figure).join(' ');
    for (const text of [
      '+2.6° Roof load off',
      '+2.6° Thin shell',
      '−1.1° Winch on, a loss',
      '+0.3° Skid plate',
    ])
      expect(labels).toContain(text);
    expect(labels).toContain('+31.0° Low body');
  });

  it('does not print an unseen change as the limit itself', () => {
    const almost = drawn({ ...scene, changes: [{ id: 'a', name: 'Almost', gain: 1.79 }] });
    expect(labelsOf(almost)).toEqual(['+1.79° Almost']);
    expect(almost.querySelector('circle.chart-open')).not.toBeNull();
    const just = drawn({ ...scene, changes: [{ id: 'a', name: 'Just', gain: 1.8 }] });
    expect(labelsOf(just)).toEqual(['+1.8° Just']);
    expect(just.querySelector('circle.chart-open')).toBeNull();
  });

  it('shows the zone alone where there is no change', () => {
    const empty = drawn({ ...scene, changes: [] });
    expect(empty.querySelectorAll('.unsure-hatch').length).toBe(1);
    expect(empty.querySelectorAll('circle, .chart-bar').length).toBe(0);
  });
});

describe('what a bench sees, any changes', () => {
  it('no text touches another or leaves the figure', () => {
    fc.assert(
      fc.property(
        fc.record({
          width: fc.integer({ min: 260, max: 900 }),
          changes: fc.array(
            fc.record({
              id: fc.constant('change'),
              name: someWords,
              gain: fc.oneof(
                fc.double({ min: -6, max: 6, noNaN: true }),
                fc.double({ min: -300, max: 300, noNaN: true }),
                fc.constantFrom(0, 1, -1),
              ),
            }),
            { maxLength: 8 },
          ),
          detectionLimit: fc.double({ min: 0.05, max: 40, noNaN: true }),
          axis: fc.constant('gain in side tip'),
          unit: fc.constantFrom(IN_DEGREES, IN_MILLIMETERS),
        }),
        (chart) => {
          const figure = drawn({ ...chart, decisionThreshold: (chart.detectionLimit * 1.96) / 3.6 });
          expect(misplacedTexts(figure)).toEqual([]);
          expect(figure.outerHTML).not.toMatch(/ (d|x|y|cx|cy|width|height|viewBox)="[^"]*[NIu]/);
        },
      ),
      { numRuns: 150 },
    );
  });

  it('no name stands on the hatching beside it', () => {
    fc.assert(
      fc.property(
        fc.integer({ min: 300, max: 900 }),
        fc.double({ min: 0.2, max: 9, noNaN: true }),
        (width, limit) => {
          const figure = drawn({ ...seenScene(width), detectionLimit: limit, decisionThreshold: limit / 2 });
          const zones = [...figure.querySelectorAll('.unsure-wash')].map(numbersIn);
          for (const text of figure.querySelectorAll('text.chart-change')) {
            for (const [left = 0, top = 0, right = 0, , , bottom = 0] of zones) {
              const [x, y] = [numberOf(text, 'x'), numberOf(text, 'y')];
              expect(x >= left && x <= right && y > top && y - 10 < bottom).toBe(false);
            }
          }
        },
      ),
    );
  });
});

describe('what a bench sees, spoken', () => {
  it('says limit, threshold and every change in sentences', () => {
    const words = seenWords(seenScene(440));
    expect(drawn(seenScene(440)).getAttribute('aria-label')).toBe(words);
    expect(words).toContain(
      '1.8 degrees and more is seen, less is not; the decision threshold is 1.0 degrees.',
    );
    expect(words).toContain('Roof load off: gains 2.6 degrees, seen.');
    expect(words).toContain('Winch on: loses 1.1 degrees, not seen.');
    expect(words).toContain('Skid plate: gains 0.3 degrees, not seen.');
  });

  it('gives no sign to what rounds away', () => {
    const tiny = { ...seenScene(440), changes: [{ id: 'a', name: 'Paint', gain: -0.01 }] };
    expect(seenWords(tiny)).toContain('Paint: changes next to nothing, not seen.');
    expect(labelsOf(drawn(tiny))).toEqual(['0.0° Paint']);
  });
});
