import { nothing, svg, type SVGTemplateResult } from 'lit';
import { aloneOf, TELLS_NOT_ALONE } from './agreement';
import type { Agreement, AgreementAnswer, AgreementRow, Standing } from './agreement';
import { printedValue, type ChartUnit, type ChartValue } from './chartUnit';
import { minorTicks, QUIET, textLines } from './chartParts';
import type { BarMark } from './errorBar';
import { hatchedBar } from './errorEllipse';
import { clamp, coordinate as c } from './geometry';
import { printed } from './numbers';
import { fittedText, textSpan } from './textFit';
import { onScale, valueScale, type ValueScale } from './valueScale';

/** Parts of the agreement chart that its two layouts share. Sizes in px. */
/** Size of an answer's number; those of methods are a little smaller. */
const ANSWER_SIZE = 19;

/** One line of the chart, of a method or of an answer. */
export interface ChartLine {
  readonly title: string;
  readonly detail: string;
  readonly own: ChartValue | null;
  readonly mark: BarMark;
  readonly tone: string;
  /** Said at the mark, or where the number would be. */
  readonly words: readonly string[];
}

const STANDINGS: Readonly<Record<Standing, { readonly tone: string; readonly mark: BarMark }>> = {
  agrees: { tone: 'chart-agrees', mark: 'dot' },
  'does not agree': { tone: 'chart-disagrees', mark: 'struck' },
  'set aside': { tone: 'chart-aside', mark: 'struck' },
  'recorded only': { tone: 'chart-recorded', mark: 'ring' },
};

export function methodLine(row: AgreementRow, scale: ValueScale | null): ChartLine {
  const { title, detail, standing } = row;
  const own = aloneOf(row);
  const words: string[] = standing === 'agrees' ? [] : [standing];
  if (!own) words.push(TELLS_NOT_ALONE);
  else if (scale && !onScale(scale, own.value)) words.push('beyond the scale');
  return { title, detail, own, words, ...STANDINGS[standing] };
}

export function answerLines({ joint, other }: Agreement): ChartLine[] {
  const line = ({ title, detail, value, halfWidth }: AgreementAnswer, mark: BarMark): ChartLine => ({
    title,
    detail,
    own: { value, halfWidth },
    mark,
    tone: 'chart-answer',
    words: [],
  });
  return [...(joint ? [line(joint, 'diamond')] : []), ...(other ? [line(other, 'open diamond')] : [])];
}

/**
 * How far from the answer, in half-widths of it, a value and a bar may stretch the scale. What lies further runs out of the
 * picture, so that one wild reading does not squeeze all others into a line.
 */
const FURTHEST_VALUE = 16;
const FURTHEST_BAR = 8;
/** Of the bar of a value that far out, this much is shown on its far side. */
const FAR_SIDE = 2;

/** Scale between two px, over the answers and all bars, as far as they may stretch it; null where nothing has a value. */
export function agreementScale(
  { rows, joint, other, unit }: Agreement,
  start: number,
  stop: number,
): ValueScale | null {
  const alone = rows.flatMap((row) => aloneOf(row) ?? []);
  const surest = alone.toSorted((a, b) => a.halfWidth - b.halfWidth)[0];
  // The answer without a reading that does not agree stands among the honest ones; the one with it may be anywhere.
  const middle = other ?? joint ?? surest;
  if (!middle) return null;
  const size = middle.halfWidth || Infinity;
  const answers = [middle, joint ?? middle].filter(
    ({ value }) => Math.abs(value - middle.value) <= FURTHEST_VALUE * size,
  );
  const shown = [
    ...alone
      .filter(({ value }) => Math.abs(value - middle.value) <= FURTHEST_VALUE * size)
      .flatMap(({ value, halfWidth }) => [
        Math.max(value - halfWidth, Math.min(middle.value - FURTHEST_BAR * size, value - FAR_SIDE * size)),
        Math.min(value + halfWidth, Math.max(middle.value + FURTHEST_BAR * size, value + FAR_SIDE * size)),
      ]),
    ...answers.flatMap(({ value, halfWidth }) => [value - halfWidth, value + halfWidth]),
  ];
  return valueScale(
    Math.min(...shown),
    Math.max(...shown),
    start,
    stop,
    (value, decimals) => `${printed(value, decimals)}${unit.sign}`,
  );
}

/** Room that a line's number with its ± takes at most. */
export function numberSpan(own: ChartValue, unit: ChartUnit): number {
  const { value, plusMinus } = printedValue(own, unit);
  return textSpan(value, ANSWER_SIZE) + textSpan(` ${plusMinus}`, QUIET.size);
}

/** Number and ±, ending at x; the ± is smaller than its number. */
export function numberText(own: ChartValue, unit: ChartUnit, x: number, y: number): SVGTemplateResult {
  const { value, plusMinus } = printedValue(own, unit);
  return svg`<text class="chart-value end" x=${c(x)} y=${c(y)}><tspan class="chart-number chart-struck">${value}</tspan><tspan class="chart-plus-minus">\u00a0${plusMinus}</tspan></text>`;
}

/** px from where to where the joint answer's band reaches; null where there is no answer. */
const bandOf = (joint: ChartValue | null, scale: ValueScale): readonly [number, number] | null =>
  joint && [
    clamp(scale.x(joint.value - joint.halfWidth), scale.left, scale.right),
    clamp(scale.x(joint.value + joint.halfWidth), scale.left, scale.right),
  ];

/** A line's words above its mark: clear of the band where there is room beside it, else in a gap of the hatching. */
export function wordsAtMark(
  { own, words }: ChartLine,
  joint: ChartValue | null,
  scale: ValueScale,
  y: number,
): SVGTemplateResult | typeof nothing {
  if (!own || words.length === 0) return nothing;
  const { lines, whole } = fittedText(words.join(', '), scale.right - scale.left, QUIET.size, 1);
  const text = lines[0] ?? '';
  const half = textSpan(text, QUIET.size) / 2;
  const hold = (x: number): number => clamp(x, scale.left + half, scale.right - half);
  const at = hold(scale.x(own.value));
  const band = bandOf(joint, scale);
  const free = (x: number): boolean => !band || x + half <= band[0] + 0.01 || x - half >= band[1] - 0.01;
  const gap = half + 5;
  const beside = [at, ...(band ? [hold(band[1] + gap), hold(band[0] - gap)] : [])].filter(free);
  const x = beside.toSorted((a, b) => Math.abs(a - at) - Math.abs(b - at))[0];
  return svg`${
    x === undefined
      ? svg`<rect class="chart-gap" x=${c(at - half - 2)} y=${c(y - 14)} width=${c(2 * half + 4)} height="18"></rect>`
      : nothing
  }${textLines({ lines: [text], whole }, words.join(', '), x ?? at, y, 0, 'chart-word cased middle')}`;
}

/** Grid, the joint answer's hatched band with its middle, and where the other answer stands, between two heights. */
export function gridAndBand(
  { joint, other }: Agreement,
  scale: ValueScale,
  top: number,
  bottom: number,
): SVGTemplateResult {
  const band = bandOf(joint, scale);
  const upright = (x: number): string => `M${c(x)} ${c(top)}V${c(bottom)}`;
  return svg`<path class="grid" d=${minorTicks(scale).map(upright).join('')}></path>
    <path class="grid-fifth" d=${scale.ticks.map(({ value }) => upright(scale.x(value))).join('')}></path>
    ${band ? hatchedBar(band[0], top, band[1] - band[0], bottom - top) : nothing}
    ${joint && band ? svg`<path class="chart-middle" d=${upright(scale.x(joint.value))}></path>` : nothing}
    ${other ? svg`<path class="chart-dashed" d=${upright(scale.x(other.value))}></path>` : nothing}`;
}
