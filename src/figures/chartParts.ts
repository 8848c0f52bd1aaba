import { nothing, svg, type SVGTemplateResult } from 'lit';
import { coordinate as c } from './geometry';
import { fittedText, type FittedText } from './textFit';
import { TICK_SIZE, type ValueScale } from './valueScale';

/** Words and scale of a chart. Sizes in px. */

export const TITLE = { size: 15, line: 18 };
export const QUIET = { size: 14, line: 17 };
/** From the middle of a line of text down to its baseline. */
export const HALF_LETTER = 5;

/** Lines of text from x on, the first on baseline y; what had to be cut is told in full where the pointer rests. */
export const textLines = (
  { lines, whole }: FittedText,
  full: string,
  x: number,
  y: number,
  line: number,
  names: string,
): SVGTemplateResult =>
  svg`<g>${whole ? nothing : svg`<title>${full}</title>`}${lines.map(
    (text, i) => svg`<text class=${names} x=${c(x)} y=${c(y + i * line)}>${text}</text>`,
  )}</g>`;

/** px of the grid lines between the numbered ones. */
export function minorTicks({ from, left, right, minor, step, x }: ValueScale): number[] {
  const per = Math.round(step / minor);
  const count = Math.round((right - left) / (x(from + minor) - left));
  return Array.from({ length: count }, (_, i) => i)
    .filter((i) => i % per !== 0)
    .map((i) => x(from + i * minor));
}

export interface DrawnPart {
  /** Where it ends, px down. */
  readonly bottom: number;
  readonly content: SVGTemplateResult | typeof nothing;
}

/** The scale's line with its ticks and numbers at height y, and below it what it counts. */
export function axisBelow(scale: ValueScale | null, y: number, words: string, wordsRoom: number): DrawnPart {
  if (!scale) return { bottom: y + 4, content: nothing };
  const { left, right, ticks, x } = scale;
  const label = fittedText(words, wordsRoom, QUIET.size, 2);
  const numbersAt = y + 9 + TICK_SIZE;
  const marks = ticks.map(({ value }) => `M${c(x(value))} ${c(y)}v7`).join('');
  const between = minorTicks(scale)
    .map((at) => `M${c(at)} ${c(y)}v4`)
    .join('');
  return {
    bottom: numbersAt + label.lines.length * QUIET.line + 6,
    content: svg`<path class="line" d=${`M${c(left)} ${c(y)}H${c(right)}${marks}${between}`}></path>
      ${ticks.map(({ value, text }) => svg`<text class="middle" x=${c(x(value))} y=${c(numbersAt)}>${text}</text>`)}
      ${label.lines.map(
        (text, i) =>
          svg`<text class="label-quiet end" x=${c(right)} y=${c(numbersAt + 1 + (i + 1) * QUIET.line)}>${text}</text>`,
      )}`,
  };
}
