import { html, nothing, svg, type SVGTemplateResult, type TemplateResult } from 'lit';
import { axisBelow, HALF_LETTER, QUIET, textLines, TITLE } from './chartParts';
import { spokenNumber, withUnit, type ChartUnit } from './chartUnit';
import { RUN_OUT, runOut } from './errorBar';
import { hatchedBar } from './errorEllipse';
import { coordinate as c, point } from './geometry';
import { printed } from './numbers';
import { fittedText, textSpan, type FittedText } from './textFit';
import { onScale, valueScale, type ValueScale } from './valueScale';

export interface SeenChange {
  readonly id: string;
  readonly name: string;
  /** What the change is worth, in the chart's unit; a loss is negative. */
  readonly gain: number;
}

export interface SeenChart {
  /** Width to lay out at, px. */
  readonly width: number;
  /** In the order to show them; as many as there is room for down the page. */
  readonly changes: readonly SeenChange[];
  /** Least difference that this bench can be trusted to see (3.6 u of a difference), in the chart's unit. */
  readonly detectionLimit: number;
  /** Measured difference beyond which there is one at all (1.96 u of a difference). */
  readonly decisionThreshold: number;
  /** What the scale counts: "gain in side tip". */
  readonly axis: string;
  readonly unit: ChartUnit;
}

/**
 * A change beyond both of these, so many detection limits and so many times the middle change, runs out of the picture:
 * the others and the unseen zone stay to be seen.
 */
const FURTHEST_LIMITS = 8;
const FURTHEST_MIDDLE = 3;
/** The scale goes on beyond the detection limit by at least this factor. */
const BEYOND_LIMIT = 1.25;

const DOT = 5.5;
/** Between a dot, or the unseen zone, and the words behind it. */
const GAP = 9;
const ROW = 26;
const SECOND_LINE = 17;
const STRIP = 20;
const HEAD = 24;

/**
 * Whether a bench can see a change: the unseen zone hatched from zero to the detection limit, and each change a line with a
 * dot. Losses are drawn by their size, with a minus sign and the words "a loss": seeing depends on size alone, so both
 * ways share one zone and the scale keeps its whole width. A filled dot is seen, an open one is not.
 */
export function seenChart(chart: SeenChart): TemplateResult {
  const { bottom, content } = besideDots(chart) ?? aboveLines(chart);
  return html`<svg
    class="figure seen-chart"
    viewBox="0 0 ${c(chart.width)} ${c(bottom)}"
    role="img"
    aria-label=${seenWords(chart)}
  >
    ${content}
  </svg>`;
}

/** What the chart says, in sentences; its name to assistive technology. */
export function seenWords(chart: SeenChart): string {
  const { changes, detectionLimit, decisionThreshold, axis, unit } = chart;
  const number = (value: number, places = unit.decimals): string =>
    spokenNumber(printed(value, places), unit);
  const told = changes.map((change) => {
    const { name, gain } = change;
    const seen = sees(chart, change) ? 'seen' : 'not seen';
    const size = number(Math.abs(gain), placesOf(chart, change));
    const does = roundsAway(chart, change)
      ? 'changes next to nothing'
      : `${gain > 0 ? 'gains' : 'loses'} ${size}`;
    return `${name}: ${does}, ${seen}.`;
  });
  return [
    `Can this bench see it, ${axis}.`,
    `${number(detectionLimit)} and more is seen, less is not; the decision threshold is ${number(decisionThreshold)}.`,
    ...told,
  ].join(' ');
}

const sees = ({ detectionLimit }: SeenChart, { gain }: SeenChange): boolean =>
  gain !== 0 && Math.abs(gain) >= detectionLimit;

/** Places at which an unseen change is not printed as the limit itself. */
function placesOf(chart: SeenChart, change: SeenChange): number {
  const { detectionLimit, unit } = chart;
  const size = Math.abs(change.gain);
  let places = unit.decimals;
  if (sees(chart, change)) return places;
  while (
    places < unit.decimals + 3 &&
    Number(size.toFixed(places)) >= Number(detectionLimit.toFixed(unit.decimals))
  )
    places += 1;
  return places;
}

function numberOf(chart: SeenChart, change: SeenChange): string {
  const text = withUnit(change.gain, chart.unit, placesOf(chart, change));
  return change.gain > 0 && !roundsAway(chart, change) ? `+${text}` : text;
}

/** Too small for the places it is printed to: it has no sign. */
const roundsAway = (chart: SeenChart, change: SeenChange): boolean =>
  Number(change.gain.toFixed(placesOf(chart, change))) === 0;

const wordsOf = (chart: SeenChart, change: SeenChange): string =>
  `${numberOf(chart, change)} ${change.name}${change.gain < 0 && !roundsAway(chart, change) ? ', a loss' : ''}`;

function scaleTo({ changes, detectionLimit, unit }: SeenChart, right: number): ValueScale {
  const sizes = changes.map(({ gain }) => Math.abs(gain)).toSorted((a, b) => a - b);
  const furthest = Math.max(
    FURTHEST_LIMITS * detectionLimit,
    FURTHEST_MIDDLE * (sizes[Math.floor((sizes.length - 1) / 2)] ?? 0),
  );
  const largest = Math.max(BEYOND_LIMIT * detectionLimit, ...sizes.filter((size) => size <= furthest));
  return valueScale(
    0,
    largest || 1,
    0,
    right,
    (value, decimals) => `${value === 0 ? '0' : printed(value, decimals)}${unit.sign}`,
  );
}

/** px where the line of a change ends: at its dot, or at the tip of its arrow. */
const endOf = (scale: ValueScale, { gain }: SeenChange): number =>
  onScale(scale, Math.abs(gain)) ? scale.x(Math.abs(gain)) : scale.right;

interface Drawn {
  readonly bottom: number;
  readonly content: SVGTemplateResult;
}

/** How much of the width the scale may take while the names stand behind the dots, the widest first. */
const SHARES = [1, 0.9, 0.8, 0.7, 0.6, 0.5];
const LEAST_SCALE = 150;

/** Names behind the dots, none of them cut; null where there is no room for that. */
function besideDots(chart: SeenChart): Drawn | null {
  const layouts = SHARES.map((share) => share * chart.width)
    .filter((right) => right >= LEAST_SCALE)
    .flatMap((right) => {
      const scale = scaleTo(chart, right);
      const clear = scale.x(chart.detectionLimit);
      const labels = chart.changes.map((change) => {
        const x = Math.max(endOf(scale, change) + DOT, clear) + GAP;
        return { change, x, fit: fittedText(wordsOf(chart, change), chart.width - x, TITLE.size, 2) };
      });
      if (!labels.every(({ x, fit }) => fit.whole && chart.width - x > 0)) return [];
      const most = Math.max(1, ...labels.map(({ fit }) => fit.lines.length));
      return [{ scale, labels, most }];
    });
  const layout = layouts.find(({ most }) => most === 1) ?? layouts[0];
  if (!layout) return null;
  const { scale, labels } = layout;
  const head = headOf(chart, scale);
  let y = head.bottom + 4;
  const rows = labels.map(({ change, x, fit }) => {
    const height = ROW + (fit.lines.length - 1) * SECOND_LINE;
    const middle = y + height / 2;
    y += height;
    const first = middle + HALF_LETTER - ((fit.lines.length - 1) * SECOND_LINE) / 2;
    return svg`${lollipop(chart, scale, change, middle)}${label(chart, change, fit, x, first)}`;
  });
  if (rows.length === 0) y += ROW;
  y += 4;
  const below = belowAxis(chart, scale, y);
  return {
    bottom: below.bottom,
    content: svg`${zone(chart, scale, head.bottom, y)}${head.content}${rows}${below.content}`,
  };
}

/** Each name on a line above its own strip of the scale. */
function aboveLines(chart: SeenChart): Drawn {
  const scale = scaleTo(chart, chart.width);
  const head = headOf(chart, scale);
  let y = head.bottom;
  const rows = chart.changes.map((change) => {
    const fit = fittedText(wordsOf(chart, change), chart.width - scale.left, TITLE.size, 2);
    const first = y + TITLE.line;
    const strip = first + (fit.lines.length - 1) * TITLE.line + 6;
    y = strip + STRIP + 2;
    return svg`${zone(chart, scale, strip, strip + STRIP)}${label(chart, change, fit, scale.left, first)}
      ${lollipop(chart, scale, change, strip + STRIP / 2)}`;
  });
  const below = belowAxis(chart, scale, y);
  return { bottom: below.bottom, content: svg`${head.content}${rows}${below.content}` };
}

/** "1.8° and more: seen", right of the limit, and what lies left of it, as far as there is room. */
function headOf({ width, detectionLimit, unit }: SeenChart, scale: ValueScale): Drawn {
  const at = scale.x(detectionLimit);
  const seen = `${withUnit(detectionLimit, unit)} and more: seen`;
  const span = textSpan(seen, TITLE.size);
  const behind = at + 6 + span <= width;
  const less = ['less: not seen', 'unseen'].find((words) => textSpan(words, QUIET.size) <= at - 6);
  const bottom = behind || !less ? HEAD : HEAD + QUIET.line;
  return {
    bottom,
    content: svg`<path class="chart-middle" d=${`M${c(at)} 2V${c(bottom)}`}></path>
      ${
        behind
          ? svg`<text class="label-strong" x=${c(at + 6)} y="16">${seen}</text>`
          : svg`<text class="label-strong end" x=${c(Math.max(at - 6, span))} y="16">${seen}</text>`
      }
      ${less ? svg`<text class="label-quiet end" x=${c(at - 6)} y=${c(bottom - 8)}>${less}</text>` : nothing}`,
  };
}

/** The unseen zone between two heights, edged by the detection limit; the decision threshold is a thin dashed line. */
function zone(
  { detectionLimit, decisionThreshold }: SeenChart,
  scale: ValueScale,
  top: number,
  bottom: number,
): SVGTemplateResult {
  const upright = (value: number): string => `M${c(scale.x(value))} ${c(top)}V${c(bottom)}`;
  return svg`${hatchedBar(scale.left, top, scale.x(detectionLimit) - scale.left, bottom - top)}
    ${
      decisionThreshold > 0
        ? svg`<path class="casing" d=${upright(decisionThreshold)}></path>
          <path class="chart-dashed" d=${upright(decisionThreshold)}></path>`
        : nothing
    }
    <path class="line" d=${upright(0)}></path>`;
}

function lollipop(chart: SeenChart, scale: ValueScale, change: SeenChange, y: number): SVGTemplateResult {
  const end = endOf(scale, change);
  const out = !onScale(scale, Math.abs(change.gain));
  const line = `M${c(scale.left)} ${c(y)}H${c(out ? end - RUN_OUT + 1 : end)}`;
  return svg`<path class="casing" d=${line}></path><path class="chart-bar" d=${line}></path>
    ${
      out
        ? runOut(point(end, y), -1)
        : svg`<circle class="chart-dot ${sees(chart, change) ? '' : 'chart-open'}" cx=${c(end)} cy=${c(y)} r=${DOT}></circle>`
    }`;
}

/** Number and name of a change; the number, which always leads, is strong. */
function label(
  chart: SeenChart,
  change: SeenChange,
  fit: FittedText,
  x: number,
  y: number,
): SVGTemplateResult {
  const number = numberOf(chart, change);
  const [first = ''] = fit.lines;
  if (!first.startsWith(number))
    return textLines(fit, wordsOf(chart, change), x, y, SECOND_LINE, 'chart-change');
  return svg`<g>${fit.whole ? nothing : svg`<title>${wordsOf(chart, change)}</title>`}
    <text class="chart-change" x=${c(x)} y=${c(y)}><tspan class="chart-gain">${number}</tspan>${first.slice(number.length)}</text>
    ${fit.lines
      .slice(1)
      .map(
        (line, i) =>
          svg`<text class="chart-change" x=${c(x)} y=${c(y + (i + 1) * SECOND_LINE)}>${line}</text>`,
      )}
  </g>`;
}

/** Scale, what it counts, and what the dashed line is. */
function belowAxis(chart: SeenChart, scale: ValueScale, y: number): Drawn {
  const { width, decisionThreshold, unit } = chart;
  const axis = axisBelow(scale, y, chart.axis, scale.right);
  if (!(decisionThreshold > 0)) return { bottom: axis.bottom, content: svg`${axis.content}` };
  const note = fittedText(
    `Dashed at ${withUnit(decisionThreshold, unit)}: decision threshold. A measured difference beyond it is hardly chance.`,
    width - scale.left,
    QUIET.size,
    3,
  );
  const first = axis.bottom + QUIET.line;
  return {
    bottom: first + (note.lines.length - 1) * QUIET.line + 8,
    content: svg`${axis.content}${textLines(note, '', scale.left, first, QUIET.line, 'label-quiet')}`,
  };
}
