import { dot, gridY, plot, lineY, ruleX, text, axisX, axisY } from '@observablehq/plot';
import { Window } from 'happy-dom';
import { angleIn, lengthIn, type Angle, type Length } from '../physics';

/**
 * The error of the crossing against the angle at which two lines cross, drawn with Observable Plot when the pages
 * are built: the reader gets plain SVG and no chart library. Only the build imports this file.
 */

/** Error of the CG, in its worst direction, where lines cross at this angle. */
export interface CrossingError {
  readonly crossing: Angle;
  readonly error: Length;
}

export interface CrossingChart {
  /** Along the curve, in order of angle. */
  readonly curve: readonly CrossingError[];
  /** Points to be named on the curve. */
  readonly notes: readonly (CrossingError & { readonly text: string })[];
  readonly xLabel: string;
  readonly yLabel: string;
  /** What a reader who does not see the chart must know. */
  readonly description: string;
  /** Upper end of the value scale; the curve leaves the chart there. */
  readonly top: Length;
}

/** Layouts for a page and for a phone; the page's style sheet shows one of the two. */
const LAYOUTS = [
  { name: 'wide', width: 580, height: 320 },
  { name: 'narrow', width: 320, height: 280 },
] as const;

/**
 * The chart as HTML text: one image to assistive technology, with the description as its name, holding a wide and a
 * narrow drawing (classes chart-wide and chart-narrow). No style attribute, no style element: colors are the page's
 * tokens in presentation attributes. Throws if Plot ever emits a style.
 */
export function renderCrossingChart(chart: CrossingChart): string {
  const drawings = LAYOUTS.map((layout) => {
    const drawn = drawing(chart, layout.width, layout.height);
    return drawn.replace('<svg ', `<svg class="chart-${layout.name}" aria-hidden="true" focusable="false" `);
  });
  return `<div class="chart" role="img" aria-label="${escaped(chart.description)}">${drawings.join('')}</div>`;
}

const escaped = (words: string): string =>
  words.replaceAll('&', '&amp;').replaceAll('"', '&quot;').replaceAll('<', '&lt;');

function drawing(chart: CrossingChart, width: number, height: number): string {
  const window = new Window();
  const points = (each: CrossingError) => ({
    angle: angleIn(each.crossing, 'deg'),
    error: lengthIn(each.error, 'mm'),
  });
  const top = lengthIn(chart.top, 'mm');
  const curve = chart.curve.map(points).filter(({ error }) => error <= top);
  const notes = chart.notes.map((note) => ({ ...points(note), text: note.text }));
  const ink = 'var(--ink)';
  const svg = plot({
    document: builtDocument(window.document),
    width,
    height,
    marginLeft: 40,
    marginRight: 24,
    marginTop: 34,
    marginBottom: 46,
    x: { domain: [0, 90], ticks: [0, 15, 30, 45, 60, 75, 90] },
    y: { domain: [0, top] },
    marks: [
      gridY({ stroke: 'var(--grid-5)', strokeOpacity: 1, ticks: 6 }),
      axisX({
        ticks: [0, 15, 30, 45, 60, 75, 90],
        tickFormat: (degrees: number) => `${degrees}°`,
        label: chart.xLabel,
        labelArrow: 'none',
        labelAnchor: 'right',
        labelOffset: 40,
        color: ink,
        fontSize: 14,
        tickSize: 6,
      }),
      axisY({
        ticks: 6,
        label: chart.yLabel,
        labelArrow: 'none',
        color: ink,
        fontSize: 14,
        tickSize: 0,
      }),
      ruleX([0], { stroke: ink, strokeWidth: 1 }),
      lineY(curve, { x: 'angle', y: 'error', stroke: ink, strokeWidth: 2 }),
      dot(notes, { x: 'angle', y: 'error', r: 4.5, fill: 'var(--paper)', stroke: ink, strokeWidth: 2 }),
      ...(['start', 'end'] as const).map((textAnchor) =>
        text(
          notes.filter(({ angle }) => (angle > LABELS_TURN_AT ? 'end' : 'start') === textAnchor),
          {
            x: 'angle',
            y: 'error',
            text: 'text',
            textAnchor,
            dx: textAnchor === 'start' ? 7 : 4,
            dy: -15,
            fontSize: 15,
            fontWeight: 650,
            fill: ink,
            stroke: 'var(--paper)',
            strokeWidth: 5,
          },
        ),
      ),
    ],
  });
  const markup = withoutStyles(svg.outerHTML);
  window.close();
  return markup;
}

/** Names of points beyond this angle, degrees, end at their point, so that they stay on the chart. */
const LABELS_TURN_AT = 60;

/** Plot draws into any document that makes elements; happy-dom's has all it uses, under another type's name. */
function builtDocument(candidate: unknown): Document {
  if (!isDocument(candidate)) throw new Error('The chart needs a document to draw in.');
  return candidate;
}

const isDocument = (candidate: unknown): candidate is Document =>
  typeof candidate === 'object' && candidate !== null && 'createElementNS' in candidate;

/** Plot's own style element and the document's namespaces are not needed: the page's sheet has the classes. */
function withoutStyles(markup: string): string {
  const clean = markup
    .replace(/<style>[\s\S]*?<\/style>/g, '')
    .replace(/^<svg class="[^"]*"/, '<svg')
    .replace(/ (?:width|height|font-family|font-size)="[^"]*"(?=[^<>]*viewBox)/g, '')
    .replace(/ aria-label="[^"]*"/g, '')
    .replace(/-?\d+\.\d{3,}/g, (number) => String(Number(Number(number).toFixed(2))))
    .replace(/ aria-description="[^"]*"/g, '');
  if (/<style|\sstyle=/.test(clean))
    throw new Error('The chart carries a style that the pages would refuse.');
  return clean;
}
