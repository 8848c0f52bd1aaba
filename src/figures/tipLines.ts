import { html, nothing, svg, type SVGTemplateResult, type TemplateResult } from 'lit';
import {
  angleIn,
  degrees,
  distanceFromEdge,
  lengthIn,
  meters,
  type Angle,
  type GroundPoint,
  type SupportEdge,
  type SupportPolygon,
} from '../physics';
import { centerOfGravitySign } from './centerOfGravitySign';
import { dimensionLine } from './dimensionLine';
import type { DragHandle } from './dragHandle';
import { between, beyond, coordinate as c, direction, distance, point, polar, type Point } from './geometry';
import { printedDegrees, printedMillimeters } from './numbers';
import { OVERHANG, truckFromAbove, type TruckSizes } from './truckDrawing';
import { placementNoseUp, toPageNoseUp } from './viewTransform';

export interface TipLinesScene {
  /** Width to lay out at, px. */
  readonly width: number;
  readonly sizes: TruckSizes;
  readonly polygon: SupportPolygon;
  /** null before there is an answer: the dial then stands about the middle of the contacts. */
  readonly cg: GroundPoint | null;
  /** Direction of downhill, counter-clockwise from the nose. */
  readonly heading: Angle;
  /** The edge the truck goes over at this heading, as index into polygon.edges; null if it stands over none. */
  readonly governing: number | null;
  /** The dial's handle; without one the dial only shows the heading. */
  readonly handle?: DragHandle;
  /** Whether the distances of the CG from the tip lines are dimensioned. */
  readonly distances?: boolean;
  /** Text alternative of what stands in the figure beside the handle. */
  readonly description: string;
}

const SIDE_ROOM = 56;
const END_ROOM = 46;
const LARGEST_RADIUS = 196;
const KNOB = 17.5;
/** Tip distances drawn shorter than this, px, are left to the numbers beside the figure. */
const SHORTEST_DIMENSION = 40;
/** Dial words and numbers closer to the knob than this give way to it. */
const CLEAR_OF_KNOB = 15;

/** Page direction of a heading, nose up: rad, counter-clockwise from right. */
export const headingOnPage = (heading: Angle): number => Math.PI / 2 + angleIn(heading, 'rad');

/** Heading, 0 up to 360°, of a place on the page seen from the dial's center. */
export function headingAt(center: Point, place: Point): Angle | null {
  if (distance(center, place) < 1) return null;
  const turn = (direction(center, place) - Math.PI / 2) * (180 / Math.PI);
  return degrees(turn - Math.floor(turn / 360) * 360);
}

/** What the reader calls an edge: the word its two contacts share ("left"), or both contacts' names. */
export function edgeName({ from, to }: SupportEdge): string {
  const shared = from.name.split(' ').find((word) => to.name.split(' ').includes(word));
  return shared ?? `${from.name} to ${to.name}`;
}

/** Center and radius of the dial for a width, px: what a handle needs to turn a place into a heading. */
export function dialLayout(width: number): {
  readonly center: Point;
  readonly radius: number;
  readonly height: number;
} {
  const radius = Math.min(LARGEST_RADIUS, Math.max(60, width / 2 - SIDE_ROOM));
  return { center: point(width / 2, radius + END_ROOM), radius, height: 2 * (radius + END_ROOM) };
}

/**
 * From above, nose up: the truck, its contacts and tip lines, its CG, and round it a dial to turn to where
 * downhill is. The edge the truck goes over is drawn heavy; a ring marks where downhill from the CG meets it.
 */
export function tipLines(scene: TipLinesScene): TemplateResult {
  const { width, sizes, polygon, heading, governing } = scene;
  const cg = scene.cg ?? middleOf(polygon);
  const { center, radius, height } = dialLayout(width);
  const wheelbase = lengthIn(sizes.wheelbase, 'mm');
  const cgAhead = lengthIn(cg.x, 'mm');
  // The truck fills the dial about its CG, wherever that lies.
  const reach = Math.max(wheelbase * (1 + OVERHANG.front) - cgAhead, wheelbase * OVERHANG.rear + cgAhead);
  const scale = (radius - 8) / (1.03 * reach);
  const sheet = {
    scale,
    origin: point(center.x + scale * lengthIn(cg.y, 'mm'), center.y + scale * cgAhead),
  };
  const page = (place: GroundPoint): Point => toPageNoseUp(sheet, place);
  const corners = polygon.contacts.map(page);
  const turn = headingOnPage(heading);
  const knob = polar(center, radius, turn);
  const edge = governing === null ? undefined : polygon.edges[governing];
  const pivot = edge ? crossing(center, turn, page(edge.from), page(edge.to)) : null;
  const patch = { width: lengthIn(sizes.tireWidth, 'mm') * 0.9 * scale, height: 0.47 * scale };
  return html`<svg
    class="figure"
    viewBox="0 0 ${width} ${height}"
    role="group"
    aria-label=${scene.description}
  >
    <circle class="dial-face" cx=${c(center.x)} cy=${c(center.y)} r=${c(radius)}></circle>
    <g transform=${placementNoseUp(sheet)}>${truckFromAbove(sizes, { faded: true })}</g>
    ${corners.map((corner, i) => {
      const front = (polygon.contacts[i]?.x ?? 0) > sizes.wheelbase / 2;
      const size = patch.height * lengthIn(front ? sizes.frontTireRadius : sizes.rearTireRadius, 'mm');
      return svg`<rect class="contact" x=${c(corner.x - patch.width / 2)} y=${c(corner.y - size / 2)} width=${c(patch.width)} height=${c(size)}></rect>`;
    })}
    ${polygon.edges.map((each) => edgeLine(page(each.from), page(each.to), false))}
    ${edge ? edgeLine(page(edge.from), page(edge.to), true) : nothing}
    ${scene.distances && scene.cg ? distances(polygon, cg, page, center, scale * widest(sizes) + 20) : nothing}
    ${dial(center, radius, heading)}
    <line class="casing" x1=${c(center.x)} y1=${c(center.y)} x2=${c(knob.x)} y2=${c(knob.y)}></line>
    <line class="line line-string" x1=${c(center.x)} y1=${c(center.y)} x2=${c(knob.x)} y2=${c(knob.y)}></line>
    ${pivot ? svg`<circle class="pivot" cx=${c(pivot.x)} cy=${c(pivot.y)} r="5.5"></circle>` : nothing}
    ${scene.cg ? centerOfGravitySign(center, 9) : nothing}
    ${scene.handle ? scene.handle.template(knob, dialKnob(knob, turn)) : dialKnob(knob, turn)}
    ${knobLabel(center, radius, turn, printedDegrees(heading, 0), width)}
  </svg>`;
}

const middleOf = ({ contacts }: SupportPolygon): GroundPoint => ({
  x: meters(contacts.reduce((sum, { x }) => sum + x, 0) / contacts.length),
  y: meters(contacts.reduce((sum, { y }) => sum + y, 0) / contacts.length),
});

const edgeLine = (from: Point, to: Point, governing: boolean): SVGTemplateResult => {
  const [a, b] = governing ? [beyond(to, from, 20), beyond(from, to, 20)] : [from, to];
  return svg`<line class="casing ${governing ? 'casing-wide' : ''}" x1=${c(a.x)} y1=${c(a.y)} x2=${c(b.x)} y2=${c(b.y)}></line>
    <line class="line ${governing ? 'line-governing' : 'line-thick'}" x1=${c(a.x)} y1=${c(a.y)} x2=${c(b.x)} y2=${c(b.y)}></line>`;
};

/** Where the ray from `start` in page direction `turn` meets the line through a and b; null if it runs away from it. */
export function crossing(start: Point, turn: number, a: Point, b: Point): Point | null {
  const ux = Math.cos(turn);
  const uy = -Math.sin(turn);
  const dx = b.x - a.x;
  const dy = b.y - a.y;
  const across = ux * dy - uy * dx;
  if (Math.abs(across) < 1e-9) return null;
  const along = ((a.x - start.x) * dy - (a.y - start.y) * dx) / across;
  return along < 0 ? null : point(start.x + along * ux, start.y + along * uy);
}

/** Difference of two headings, 0 to 180°, in degrees. */
const apart = (a: number, b: number): number => Math.abs(((((a - b) % 360) + 540) % 360) - 180);

function dial(center: Point, radius: number, heading: Angle): SVGTemplateResult {
  const now = angleIn(heading, 'deg');
  const ticks: string[] = [];
  const labels: SVGTemplateResult[] = [];
  for (let turn = 0; turn < 360; turn += 5) {
    const size = turn % 30 === 0 ? 13 : turn % 15 === 0 ? 9 : 5;
    const angle = headingOnPage(degrees(turn));
    const outer = polar(center, radius, angle);
    const inner = polar(center, radius - size, angle);
    ticks.push(`M${c(outer.x)} ${c(outer.y)}L${c(inner.x)} ${c(inner.y)}`);
    if (turn % 30 !== 0 || apart(turn, now) < CLEAR_OF_KNOB) continue;
    const word = DIAL_WORDS[turn];
    const side = Math.cos(angle);
    const anchor = side > 0.2 ? 'start' : side < -0.2 ? 'end' : 'middle';
    const at = polar(center, radius + (word ? 12 : 9), angle);
    const lift = 5 - 9 * Math.sin(angle);
    labels.push(
      svg`<text class="${word ? 'label-strong' : 'label-quiet'} ${anchor}" x=${c(at.x)} y=${c(at.y + lift)}>${word ?? `${turn}°`}</text>`,
    );
  }
  return svg`<g aria-hidden="true">
    <circle class="line" cx=${c(center.x)} cy=${c(center.y)} r=${c(radius)}></circle>
    <path class="line" d=${ticks.join('')}></path>${labels}</g>`;
}

const DIAL_WORDS: Readonly<Record<number, string>> = { 0: 'nose', 90: 'left', 180: 'tail', 270: 'right' };

/** The blue knob with its arrow, pointing where downhill is. */
function dialKnob(knob: Point, turn: number): SVGTemplateResult {
  const tail = polar(knob, -8, turn);
  const tip = polar(knob, 8, turn);
  const barbs = [polar(tip, -8, turn + 0.7), polar(tip, -8, turn - 0.7)];
  const [first = tip, second = tip] = barbs;
  return svg`<circle class="cg-casing" cx=${c(knob.x)} cy=${c(knob.y)} r=${c(KNOB + 3)}></circle>
    <circle class="handle-knob" cx=${c(knob.x)} cy=${c(knob.y)} r=${c(KNOB)}></circle>
    <path class="handle-sign" d=${`M${c(tail.x)} ${c(tail.y)}L${c(tip.x)} ${c(tip.y)}M${c(first.x)} ${c(first.y)}L${c(tip.x)} ${c(tip.y)}L${c(second.x)} ${c(second.y)}`}></path>`;
}

/** The heading's number outside the knob, kept inside the figure. */
function knobLabel(
  center: Point,
  radius: number,
  turn: number,
  text: string,
  width: number,
): SVGTemplateResult {
  const side = Math.cos(turn);
  const below = polar(center, radius, turn);
  // Beside the knob near the nose and the tail, under or over it elsewhere: never across the dial's line.
  const at =
    Math.abs(side) < 0.5
      ? polar(center, radius + KNOB + 16, turn)
      : point(below.x + Math.sign(side) * 16, below.y + (Math.sin(turn) > 0.05 ? -KNOB - 9 : KNOB + 19));
  const x = Math.min(width - 22, Math.max(22, at.x));
  return svg`<text class="label-given middle cased" aria-hidden="true" x=${c(x)} y=${c(at.y + (Math.abs(side) < 0.5 ? 5 : 0))}>${text}</text>`;
}

/** From the center plane to the widest tire's outer face, mm. */
const widest = (sizes: TruckSizes): number =>
  (lengthIn(sizes.tireWidth, 'mm') +
    Math.max(lengthIn(sizes.frontTrack, 'mm'), lengthIn(sizes.rearTrack, 'mm'))) /
  2;

/** The CG's distance from each tip line, square to it; left out where there is no room for the number. */
function distances(
  polygon: SupportPolygon,
  cg: GroundPoint,
  page: (place: GroundPoint) => Point,
  center: Point,
  uprightShift: number,
): SVGTemplateResult {
  return svg`${polygon.edges.map((edge) => {
    const [a, b] = [page(edge.from), page(edge.to)];
    const text = printedMillimeters(distanceFromEdge(edge, cg));
    const span = distance(a, b);
    if (span === 0) return nothing;
    const share = ((center.x - a.x) * (b.x - a.x) + (center.y - a.y) * (b.y - a.y)) / (span * span);
    const foot = between(a, b, share);
    // Moved along the edge so that it does not run through the sign: toward the nose for the sides, out of the
    // truck to the right for the ends.
    const sideways = Math.abs(foot.x - center.x) > Math.abs(foot.y - center.y);
    const along = direction(a, b);
    const shift = sideways
      ? polar(point(0, 0), 36, Math.sin(along) > 0 ? along : along + Math.PI)
      : polar(point(0, 0), uprightShift, Math.cos(along) > 0 ? along : along + Math.PI);
    const from = point(center.x + shift.x, center.y + shift.y);
    const to = point(foot.x + shift.x, foot.y + shift.y);
    if (distance(from, to) < SHORTEST_DIMENSION) return nothing;
    const corner = distance(a, to) < distance(b, to) ? a : b;
    return dimensionLine({ from, to, text, features: [center, sideways ? null : corner], cased: true });
  })}`;
}
