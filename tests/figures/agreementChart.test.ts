// @vitest-environment happy-dom
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  agreementChart,
  agreementWords,
  IN_DEGREES,
  IN_MILLIMETERS,
  type Agreement,
  type AgreementRow,
  type Standing,
} from '../../src/figures';
import { tolerance } from '../tolerances';
import { agreementScene, numberOf, rendered } from './scenes';
import { misplacedTexts, someWords, textBoxes } from './textBoxes';

const STANDINGS: readonly Standing[] = ['agrees', 'does not agree', 'set aside', 'recorded only'];

function drawn(chart: Agreement): Element {
  const figure = rendered(agreementChart(chart)).querySelector('svg');
  if (!figure) throw new Error('a figure expected');
  return figure;
}

const textsOf = (box: Element, selector: string): string[] =>
  [...box.querySelectorAll(selector)].map((text) => text.textContent?.trim() ?? '');

/** Numbers of a path of M, L, H, V, h and v commands, absolute where the letter is. */
const numbersIn = (element: Element | null | undefined): number[] =>
  (element?.getAttribute('d') ?? '').match(/-?\d+(\.\d+)?/g)?.map(Number) ?? [];

/** px per unit and px of zero, read off the numbered ticks as a reader would. */
function readScale(figure: Element): (value: number) => number {
  const ticks = [...figure.querySelectorAll('text.middle:not(.chart-word)')].map((text) => ({
    x: numberOf(text, 'x'),
    value: Number((text.textContent ?? '').replace('−', '-').replace('°', '')),
  }));
  const [first, last] = [ticks[0], ticks.at(-1)];
  if (!first || !last || first === last) throw new Error('two ticks expected');
  return (value) => first.x + ((value - first.value) / (last.value - first.value)) * (last.x - first.x);
}

const near = (a: number, b: number): void =>
  expect(Math.abs(a - b)).toBeLessThan(tolerance('figures: page coordinate'));

const row = (own: Partial<AgreementRow>): AgreementRow => ({
  id: 'one',
  title: 'Board, both sides',
  detail: '',
  alone: { value: 93.4, halfWidth: 2.4 },
  standing: 'agrees',
  ...own,
});

const withRows = (width: number, ...rows: AgreementRow[]): Element =>
  drawn({ ...agreementScene(width), rows, other: null });

describe.each([330, 680])('agreement chart, %i px wide', (width) => {
  const scene = agreementScene(width);
  const figure = drawn(scene);

  it('draws values and bars where its own scale says', () => {
    const at = readScale(figure);
    const dots = [...figure.querySelectorAll('.chart-agrees circle.chart-dot')];
    const agreeing = scene.rows.filter(({ alone, standing }) => alone && standing === 'agrees');
    expect(dots.length).toBe(agreeing.length);
    agreeing.forEach(({ alone }, i) => near(numberOf(dots[i] ?? null, 'cx'), at(alone?.value ?? NaN)));
    const bars = [...figure.querySelectorAll('.chart-agrees .chart-bar')];
    agreeing.forEach(({ alone }, i) => {
      const [from = NaN, , to = NaN] = numbersIn(bars[i]);
      near(from, at((alone?.value ?? NaN) - (alone?.halfWidth ?? NaN)));
      near(to, at((alone?.value ?? NaN) + (alone?.halfWidth ?? NaN)));
    });
  });

  it('hatches the joint answer across all rows, under a diamond at its value', () => {
    const at = readScale(figure);
    const { value, halfWidth } = scene.joint ?? { value: NaN, halfWidth: NaN };
    for (const wash of figure.querySelectorAll('.unsure-wash')) {
      const numbers = numbersIn(wash);
      near(numbers[0] ?? NaN, at(value - halfWidth));
      near(numbers[2] ?? NaN, at(value + halfWidth));
    }
    const strips = figure.querySelectorAll('.unsure-hatch').length;
    const withValue = scene.rows.filter(({ alone }) => alone).length + 2;
    expect(strips).toBe(width < 480 ? withValue : 1);
    const [left = NaN, , top = NaN] = numbersIn(figure.querySelector('.chart-answer path.chart-dot'));
    near(top, at(value));
    expect(left).toBeLessThan(top);
  });

  it('shows the other answer as an open diamond beside it', () => {
    const diamonds = [...figure.querySelectorAll('.chart-answer path.chart-dot')];
    expect(diamonds.map((each) => each.classList.contains('chart-open'))).toEqual([false, true]);
    expect(textsOf(figure, '.chart-answer .chart-number')).toEqual(['94.0', '95.4']);
  });

  it('says where a row stands in words and shape, not in color alone', () => {
    const struck = figure.querySelector('.chart-disagrees');
    expect(struck?.querySelectorAll('circle.chart-open').length).toBe(1);
    expect(struck?.querySelectorAll('path.chart-dot').length).toBe(1);
    expect(textsOf(figure, '.chart-disagrees .chart-word')).toEqual(['does not agree']);
    expect(textsOf(figure, '.chart-aside .chart-word')).toEqual(['set aside']);
    expect(figure.querySelectorAll('.chart-aside .chart-title.chart-struck').length).toBeGreaterThan(0);
    expect(textsOf(figure, '.chart-recorded .chart-word')).toEqual(['recorded only']);
    expect(textsOf(figure, '.chart-agrees .chart-word')).toEqual([]);
  });

  it('says that a method does not tell alone, without a bar', () => {
    const silent = withRows(width, row({ alone: null }));
    expect(textsOf(silent, '.chart-agrees .label-quiet').join(' ')).toContain('does not tell alone');
    expect(silent.querySelectorAll('.chart-agrees .chart-bar').length).toBe(0);
    const wild = withRows(width, row({ alone: { value: NaN, halfWidth: 1 } }));
    expect(wild.querySelectorAll('.chart-agrees .chart-bar').length).toBe(0);
  });

  it('ends a bar that runs out in an arrow and keeps its number', () => {
    const wide = withRows(width, row({ alone: { value: 96, halfWidth: 250 } }));
    expect(wide.querySelectorAll('.chart-agrees .chart-run-out').length).toBe(2);
    expect(wide.querySelectorAll('.chart-agrees circle').length).toBe(1);
    expect(textsOf(wide, '.chart-agrees .chart-value').join('')).toContain('± 250.0');
    // One bar of many times the answer's own does not make a line of the answer.
    const band = numbersIn(wide.querySelector('.unsure-wash'));
    expect((band[2] ?? 0) - (band[0] ?? 0)).toBeGreaterThan(15);
  });

  it('keeps a value beyond the scale as number and words, with an arrow to its side', () => {
    const off = withRows(
      width,
      row({}),
      row({ title: 'Axle lift', alone: { value: 3.7, halfWidth: 0.2 }, standing: 'does not agree' }),
    );
    const lost = off.querySelector('.chart-disagrees');
    expect(lost?.querySelectorAll('.chart-dot').length).toBe(0);
    expect(lost?.querySelectorAll('.chart-run-out').length).toBe(1);
    const [tip = NaN, , base = NaN] = numbersIn(lost?.querySelector('.chart-run-out'));
    expect(tip).toBeLessThan(base);
    expect(textsOf(off, '.chart-disagrees .chart-word').join(' ')).toBe('does not agree, beyond the scale');
    expect(textsOf(off, '.chart-disagrees .chart-number')).toEqual(['3.7']);
  });

  it('tells a cut title in full where the pointer rests', () => {
    const title =
      'Axle lift, tail up, with a name that goes on and on until there is no room left for all of it';
    const long = withRows(width, row({ title }));
    expect(long.querySelector('.chart-agrees title')?.textContent).toBe(title);
    expect(textsOf(long, '.chart-title').at(1)?.endsWith('…')).toBe(true);
    expect(withRows(width, row({})).querySelector('title')).toBeNull();
  });

  it('stands without a joint answer, and without any value', () => {
    expect(drawn({ ...scene, joint: null, other: null }).querySelectorAll('.unsure-hatch').length).toBe(0);
    const empty = drawn({ ...scene, rows: [row({ alone: null })], joint: null, other: null });
    expect(empty.querySelectorAll('.chart-bar, text.middle').length).toBe(0);
  });
});

describe('agreement chart, any rows', () => {
  const value = fc.record({
    value: fc.double({ min: -200, max: 400, noNaN: true }),
    halfWidth: fc.oneof(
      fc.double({ min: 0.01, max: 20, noNaN: true }),
      fc.double({ min: 0, max: 900, noNaN: true }),
    ),
  });
  const rows = fc.array(
    fc.record({
      id: fc.constant('row'),
      title: someWords,
      detail: fc.oneof(fc.constant(''), someWords),
      alone: fc.option(value),
      standing: fc.constantFrom(...STANDINGS),
    }),
    { maxLength: 20 },
  );
  const answer = fc
    .tuple(value, someWords, someWords)
    .map(([own, title, detail]) => ({ ...own, title, detail }));

  it('no text touches another or leaves the figure', () => {
    fc.assert(
      fc.property(
        fc.integer({ min: 260, max: 900 }),
        rows,
        fc.option(answer),
        fc.option(answer),
        fc.constantFrom(IN_MILLIMETERS, IN_DEGREES),
        (width, own, joint, other, unit) => {
          const figure = drawn({ width, rows: own, joint, other, axis: 'height above ground', unit });
          expect(misplacedTexts(figure)).toEqual([]);
          expect(figure.outerHTML).not.toMatch(/ (d|x|y|cx|cy|width|height|viewBox)="[^"]*[NIu]/);
        },
      ),
      { numRuns: 150 },
    );
  });

  it('no word stands on hatching', () => {
    fc.assert(
      fc.property(
        fc.integer({ min: 480, max: 900 }),
        fc.double({ min: 60, max: 130, noNaN: true }),
        fc.constantFrom(...STANDINGS.slice(1)),
        (width, at, standing) => {
          const figure = withRows(width, row({ standing, alone: { value: at, halfWidth: 4 } }));
          const word = textBoxes(figure).find(({ text }) => text.startsWith(standing));
          const band = numbersIn(figure.querySelector('.unsure-wash'));
          if (!word) throw new Error('words expected at the mark');
          const clear = word.right <= (band[0] ?? 0) || word.left >= (band[2] ?? 0);
          expect(clear || figure.querySelector('.chart-gap') !== null).toBe(true);
        },
      ),
    );
  });
});

describe('agreement, spoken', () => {
  it('says every row and answer in sentences', () => {
    const words = agreementWords(agreementScene(680));
    expect(drawn(agreementScene(680)).getAttribute('aria-label')).toBe(words);
    expect(words).toContain('height above ground, mm, plus or minus 19 in 20.');
    expect(words).toContain('Board, both sides: 93.4 plus or minus 2.4 millimeters.');
    expect(words).toContain('Axle lift, nose up 22°: 101.1 plus or minus 3.6 millimeters, does not agree.');
    expect(words).toContain('Axle scales: does not tell alone.');
    expect(words).toContain('set aside.');
    expect(words).toContain(
      'All, adjusted together, axle lift set aside: 94.0 plus or minus 1.8 millimeters.',
    );
    expect(words).toContain('With the axle lift: 95.4 plus or minus 1.6 millimeters.');
  });

  it('speaks minus signs and degrees, and a ± too small for the usual places', () => {
    const words = agreementWords({
      ...agreementScene(680),
      unit: IN_DEGREES,
      rows: [row({ alone: { value: -3, halfWidth: 0.02 } })],
    });
    expect(words).toContain('Board, both sides: minus 3.00 plus or minus 0.02 degrees.');
  });
});
