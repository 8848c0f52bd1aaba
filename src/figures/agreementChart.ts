import { html, nothing, svg, type SVGTemplateResult, type TemplateResult } from 'lit';
import { agreementWords, aloneOf, TELLS_NOT_ALONE, type Agreement } from './agreement';
import {
  agreementScale,
  answerLines,
  gridAndBand,
  methodLine,
  numberSpan,
  numberText,
  wordsAtMark,
  type ChartLine,
} from './agreementParts';
import { axisBelow, HALF_LETTER, QUIET, textLines, TITLE, type DrawnPart } from './chartParts';
import { errorBar } from './errorBar';
import { clamp, coordinate as c } from './geometry';
import { fittedText, textSpan } from './textFit';

/** Below this a chart is laid out for a phone, px. */
export const PHONE_BELOW = 480;

/** A bar with its mark, and a word above it. */
const BAR_ROOM = 30;
const WORD_ROOM = 17;
/** Between columns. */
const GAP = 10;
/** More rows than this stand closer. */
const MANY_ROWS = 8;

/**
 * Each method's own value with its ± beside the answer from all of them, on one true scale: a quarrel shows before any
 * number is read. Wide, names stand left of the bars and numbers right of them; on a phone both stand above their bar.
 */
export function agreementChart(chart: Agreement): TemplateResult {
  const { bottom, content } = chart.width < PHONE_BELOW ? onPhone(chart) : wide(chart);
  return html`<svg
    class="figure agreement-chart"
    viewBox="0 0 ${c(chart.width)} ${c(bottom)}"
    role="img"
    aria-label=${agreementWords(chart)}
  >
    ${content}
  </svg>`;
}

/** What does not tell alone is no fault; where a row stands is said in its tone. */
const wordStyle = (words: string | undefined): string =>
  words === TELLS_NOT_ALONE ? 'label-quiet' : 'chart-word';

function wide(chart: Agreement): DrawnPart {
  const { width, unit, joint, other } = chart;
  const head = `${unit.name}, ± 19 in 20`;
  const values = [
    ...chart.rows.flatMap((row) => aloneOf(row) ?? []),
    ...[joint, other].flatMap((a) => a ?? []),
  ];
  const numbers = Math.max(textSpan(head, QUIET.size), ...values.map((own) => numberSpan(own, unit)));
  const names = clamp(width * 0.27, 130, 230);
  const scale = agreementScale(chart, names + GAP, width - numbers - GAP);
  const padding = chart.rows.length > MANY_ROWS ? 5 : 10;

  const top = 26;
  let y = top;
  /** The line with its words broken to the columns, below the one before it. */
  const placed = (line: ChartLine) => {
    const title = fittedText(line.title, names, TITLE.size, 2);
    const detail = fittedText(line.detail, names, QUIET.size, 2);
    const instead = line.own
      ? []
      : line.words.flatMap((words) =>
          fittedText(words, numbers, QUIET.size, 2).lines.map((text) => ({ text, name: wordStyle(words) })),
        );
    const text = title.lines.length * TITLE.line + detail.lines.length * QUIET.line;
    const word = line.own && line.words.length > 0 ? WORD_ROOM : 0;
    const height = Math.max(text, instead.length * QUIET.line, word + BAR_ROOM) + 2 * padding;
    const from = y;
    y += height;
    return { line, title, detail, instead, text, word, from, height };
  };
  type Placed = ReturnType<typeof placed>;
  const methods = chart.rows.map((row) => placed(methodLine(row, scale)));
  const divide = y;
  const answers = answerLines(chart).map(placed);

  const drawn = ({ line, title, detail, instead, text, word, from, height }: Placed): SVGTemplateResult => {
    const middle = from + height / 2;
    const first = middle - text / 2 + TITLE.line - 4;
    const barAt = middle + word / 2;
    return svg`<g class=${line.tone}>
      ${textLines(title, line.title, 0, first, TITLE.line, 'chart-title chart-struck')}
      ${textLines(detail, line.detail, 0, first + title.lines.length * TITLE.line, QUIET.line, 'label-quiet')}
      ${instead.map(
        (each, i) =>
          svg`<text class="${each.name} end" x=${c(width)} y=${c(middle + HALF_LETTER + (i - (instead.length - 1) / 2) * QUIET.line)}>${each.text}</text>`,
      )}
      ${line.own ? numberText(line.own, unit, width, middle + HALF_LETTER + 1) : nothing}
      ${
        line.own && scale
          ? svg`${wordsAtMark(line, joint, scale, barAt - 13)}${errorBar(scale, barAt, line.own, line.mark)}`
          : nothing
      }
    </g>`;
  };
  const rule = ({ from }: Placed): string => `M0 ${c(from)}H${c(width)}`;
  const axis = axisBelow(scale, y, chart.axis, scale?.right ?? 0);
  return {
    bottom: axis.bottom,
    content: svg`${scale ? svg`<text class="label-quiet end" x=${c(width)} y="14">${head}</text>` : nothing}
      <path class="chart-hair" d=${[...methods.slice(1), ...answers.slice(1)].map(rule).join('')}></path>
      ${scale ? gridAndBand(chart, scale, top, y) : nothing}
      ${methods.length > 0 && answers.length > 0 ? svg`<path class="line" d=${`M0 ${c(divide)}H${c(width)}`}></path>` : nothing}
      ${[...methods, ...answers].map(drawn)}
      ${axis.content}`,
  };
}

function onPhone(chart: Agreement): DrawnPart {
  const { width, unit } = chart;
  const scale = agreementScale(chart, 0, width);
  const methods = chart.rows.map((row) => methodLine(row, scale));
  let y = 0;
  const content = [...methods, ...answerLines(chart)].map((line, i) => {
    const from = y;
    const room = width - (line.own ? numberSpan(line.own, unit) + 12 : 0);
    const title = fittedText(line.title, room, TITLE.size, 2);
    const words = fittedText(line.words.join(', '), room, QUIET.size, 2);
    const first = from + TITLE.line + 2;
    const wordsFrom = first + title.lines.length * TITLE.line - 1;
    const textEnd = wordsFrom - TITLE.line + words.lines.length * QUIET.line + 7;
    const strip = line.own && scale ? BAR_ROOM + 4 : 0;
    y = textEnd + strip + (strip > 0 ? 0 : 4);
    const rule = i === methods.length ? 'line' : 'chart-hair';
    return svg`${i > 0 ? svg`<path class=${rule} d=${`M0 ${c(from)}H${c(width)}`}></path>` : nothing}
      <g class=${line.tone}>
        ${textLines(title, line.title, 0, first, TITLE.line, 'chart-title chart-struck')}
        ${textLines(words, line.words.join(', '), 0, wordsFrom, QUIET.line, wordStyle(line.words[0]))}
        ${line.own ? numberText(line.own, unit, width, first) : nothing}
        ${
          line.own && scale
            ? svg`${gridAndBand(chart, scale, textEnd, textEnd + strip)}${errorBar(scale, textEnd + strip / 2, line.own, line.mark)}`
            : nothing
        }
      </g>`;
  });
  const axis = axisBelow(scale, y, `${chart.axis}; ±\u00a019\u00a0in\u00a020`, scale?.right ?? 0);
  return { bottom: axis.bottom, content: svg`${content}${axis.content}` };
}
