import type { SVGTemplateResult, TemplateResult } from 'lit';
import { html, render } from 'lit';
import {
  agreementChart,
  angleArc,
  contributionBar,
  dialLayout,
  DRAWN_SIZES,
  guessRuler,
  headingAt,
  IN_DEGREES,
  IN_MILLIMETERS,
  objectPlan,
  polarLimit,
  resultantScene,
  scaleBar,
  seenChart,
  sidePlace,
  standingOverlay,
  threeViews,
  tiltedView,
  tipLines,
  type Agreement,
  type DragHandle,
  type SeenChart,
  type SideAnswer,
} from '../../src/figures';
import {
  degrees,
  limitSlope,
  millimeters,
  supportPolygon,
  tipOverEdges,
  truckContacts,
  type Result,
} from '../../src/physics';

/** Invented scenes, one of each figure, for tests that must hold for all of them. */

export function given<Value>(result: Result<Value>): Value {
  if (!result.ok) throw new Error(result.message);
  return result.value;
}

export const sizes = DRAWN_SIZES;
export const cg = { x: millimeters(148), y: millimeters(3), z: millimeters(94) };
export const polygon = given(
  supportPolygon(truckContacts(sizes.wheelbase, sizes.frontTrack, sizes.rearTrack)),
);
export const tips = given(tipOverEdges(polygon, cg));

export const answer: SideAnswer = {
  cg: sidePlace(148, 94),
  ellipse: { semiMajor: millimeters(14), semiMinor: millimeters(9), angle: degrees(-55) },
  hubs: [sidePlace(0, 55), sidePlace(313, 55)],
  ground: [sidePlace(-120, 0), sidePlace(420, 0)],
  marks: [
    { at: { x: 200, y: 150 }, key: 'A', aside: false },
    { at: { x: 300, y: 120 }, key: 'B', aside: true },
  ],
  lines: [
    {
      label: 'hang 1',
      hook: sidePlace(372, 172),
      through: sidePlace(372, 172),
      angle: degrees(19.2),
      halfBand: millimeters(2),
    },
    {
      label: 'hang 2',
      hook: sidePlace(80, 238),
      through: sidePlace(80, 238),
      angle: degrees(115.3),
      halfBand: millimeters(2),
    },
    {
      label: 'axle scales',
      hook: null,
      through: sidePlace(149, 0),
      angle: degrees(-90),
      halfBand: millimeters(3),
    },
  ],
};

export const samples = Array.from({ length: 360 }, (_, i) => {
  const heading = degrees(i);
  return { heading, slope: given(limitSlope(polygon, cg, heading)).slope, u: degrees(0.4) };
});

export const polar = (width: number) =>
  polarLimit({
    width,
    samples,
    noseDown: degrees(60.3),
    leftDown: degrees(43.8),
    noseUp: degrees(57.6),
    rightDown: degrees(45.6),
    heading: degrees(118),
    limit: degrees(47.3),
    slides: [{ name: 'mat', slope: degrees(51) }],
    band: true,
    description: 'Limit slope for every heading',
  });

export const fromAbove = (width: number, handle?: DragHandle) =>
  tipLines({
    width,
    sizes,
    polygon,
    cg,
    heading: degrees(118),
    governing: 2,
    ...(handle ? { handle } : {}),
    distances: true,
    description: 'From above',
  });

const WAYS = [
  { way: 'right', edge: 0 },
  { way: 'descent', edge: 1 },
  { way: 'left', edge: 2 },
  { way: 'climb', edge: 3 },
] as const;

export const tilted = (width: number) =>
  WAYS.map(({ way, edge }) => {
    const tip = tips[edge];
    if (!tip) throw new Error('four edges expected');
    return {
      way,
      template: tiltedView({
        width,
        way,
        sizes,
        cg,
        distance: tip.distance,
        limit: tip.angle,
        description: `At its limit, ${way}`,
      }),
    };
  });

const method = (
  title: string,
  standing: Agreement['rows'][number]['standing'],
  alone: readonly [value: number, halfWidth: number] | null,
): Agreement['rows'][number] => ({
  id: title,
  title,
  detail: 'as read on the bench',
  alone: alone && { value: alone[0], halfWidth: alone[1] },
  standing,
});

/** Rows of every standing, an answer and the other one. */
export const agreementScene = (width: number): Agreement => ({
  width,
  rows: [
    method('Hang, two photographs', 'agrees', [94.5, 2.7]),
    method('Board, both sides', 'agrees', [93.4, 2.4]),
    method('Axle lift, nose up 22°', 'does not agree', [101.1, 3.6]),
    method('Hang from the bed rail', 'set aside', [95.2, 4.1]),
    method('Board, suspension live', 'recorded only', [90.8, 3]),
    method('Axle scales', 'agrees', null),
  ],
  joint: { title: 'All, adjusted together', detail: 'axle lift set aside', value: 94, halfWidth: 1.8 },
  other: { title: 'With the axle lift', detail: '', value: 95.4, halfWidth: 1.6 },
  axis: 'height above ground, mm',
  unit: IN_MILLIMETERS,
});

/** Changes seen and not, a loss, a tie, and one far beyond the scale. */
export const seenScene = (width: number): SeenChart => ({
  width,
  changes: [
    { id: 'a', name: 'Roof load off', gain: 2.6 },
    { id: 'b', name: 'Thin shell', gain: 2.6 },
    { id: 'c', name: 'Winch on', gain: -1.1 },
    { id: 'd', name: 'Skid plate', gain: 0.3 },
    { id: 'e', name: 'Low body', gain: 31 },
  ],
  detectionLimit: 1.8,
  decisionThreshold: 0.98,
  axis: 'gain in side tip',
  unit: IN_DEGREES,
});

/** Every figure at one width, by name. */
export function everyFigure(width: number): { name: string; template: TemplateResult }[] {
  const inSvg = (content: SVGTemplateResult): TemplateResult =>
    html`<svg class="figure" viewBox="0 0 ${width} 300">${content}</svg>`;
  return [
    { name: 'resultant scene', template: resultantScene({ width, sizes, answer, description: 'Two lines' }) },
    { name: 'tip lines', template: fromAbove(width) },
    { name: 'polar limit', template: polar(width) },
    ...tilted(width).map(({ way, template }) => ({ name: `tilted, ${way}`, template })),
    {
      name: 'three views',
      template: threeViews({
        width,
        sizes,
        cg,
        tips: {
          left: degrees(43.8),
          right: degrees(45.6),
          climb: degrees(57.6),
          descent: degrees(60.3),
        },
        given: { wheelbase: true, track: true },
        description: 'Three views',
      }),
    },
    ...(
      [
        ['object', 61, 34],
        ['object, right of its axis and behind it', -42, -90],
        ['object, on its axis', 90, 0],
      ] as const
    ).map(([name, x, z]) => ({
      name,
      template: objectPlan({
        width,
        distance: millimeters(180),
        cg: sidePlace(x, z),
        ellipse: { semiMajor: millimeters(4), semiMinor: millimeters(2), angle: degrees(20) },
        description: 'An object in its own axes',
      }),
    })),
    {
      name: 'overlay',
      template: inSvg(
        standingOverlay(answer, ({ x, z }) => ({ x: 120 + 1000 * x, y: 280 - 1000 * z }), 1, {
          x: 0,
          y: 0,
          width,
          height: 300,
        }),
      ),
    },
    {
      name: 'ruler',
      template: guessRuler({
        width,
        min: 36,
        max: 164,
        value: 82,
        leftNote: 'nearer the ground',
        unitNote: 'mm above ground',
        description: 'Guess',
      }),
    },
    { name: 'agreement', template: agreementChart(agreementScene(width)) },
    { name: 'seen or not', template: seenChart(seenScene(width)) },
    { name: 'bar', template: contributionBar(0.5) },
    { name: 'scale bar', template: inSvg(scaleBar({ x: 10, y: 30 }, 1.2, millimeters(100))) },
    {
      name: 'angle',
      template: inSvg(
        angleArc({ center: { x: 50, y: 80 }, radius: 30, from: 0, to: 1, text: '57.3°', cased: true }),
      ),
    },
  ];
}

/** The figure in a document, as a reader's browser would hold it. */
export function rendered(template: TemplateResult): HTMLElement {
  const box = document.createElement('div');
  render(template, box);
  return box;
}

export const numberOf = (element: Element | null, attribute: string): number =>
  Number(element?.getAttribute(attribute) ?? NaN);

export { dialLayout, headingAt };
