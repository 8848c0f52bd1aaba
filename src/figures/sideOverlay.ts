import { meters, type Ellipse, type Length, type PlaneLine, type PlanePoint } from '../physics';
import { beyond, clamp, direction, distance, point, polar, type Point } from './geometry';
import type { PageBox } from './grid';
import { textWidth } from './numbers';

/**
 * What is drawn over a side view of the truck, drawing or photograph, as a list of plain items on the page. The
 * same list is shown as SVG (standingOverlay.ts) and painted into a picture file (annotatedPicture.ts), so the two
 * cannot disagree.
 */

/** A plumb line to be drawn. */
export interface DrawnLine extends PlaneLine {
  readonly label: string;
  /** Where the string holds the truck; null for a line without a string (axle scales). */
  readonly hook: PlanePoint | null;
  readonly halfBand: Length;
}

export interface SideAnswer {
  readonly cg: PlanePoint | null;
  /** 95 % region of the CG. */
  readonly ellipse: Ellipse | null;
  readonly lines: readonly DrawnLine[];
  /** Former or other places of the CG, with their names: before a change, from the parts list. */
  readonly others?: readonly { readonly place: PlanePoint; readonly label: string }[];
  readonly hubs?: readonly PlanePoint[];
  /** Ground from the first to the second place. */
  readonly ground?: readonly [PlanePoint, PlanePoint];
  /** Body marks where they were placed, px. */
  readonly marks?: readonly { readonly at: Point; readonly key: string; readonly aside: boolean }[];
}

/** Page place of a side-view place, px. */
export type Projection = (place: PlanePoint) => Point;

export type OverlayItem =
  | { readonly kind: 'chain' | 'string' | 'ground' | 'hub line'; readonly from: Point; readonly to: Point }
  | { readonly kind: 'ellipse'; readonly outline: readonly Point[] }
  | { readonly kind: 'hook' | 'cg' | 'former'; readonly at: Point }
  | { readonly kind: 'mark'; readonly at: Point; readonly aside: boolean }
  | {
      readonly kind: 'label';
      readonly at: Point;
      readonly text: string;
      readonly anchor: 'start' | 'middle' | 'end';
      readonly tone: 'ink' | 'given' | 'warning';
    };

/** Lengths of the parts of a drawn line, px. */
const STRING = 42;
const PAST_CG = 62;
const HUB_CROSS = 9;

/**
 * All items over a side view, in painting order: what matters most comes last. Labels are kept inside `frame`
 * where one is given.
 */
export function overlayItems(answer: SideAnswer, project: Projection, frame?: PageBox): OverlayItem[] {
  const items = unframedItems(answer, project);
  return frame ? items.map((item) => (item.kind === 'label' ? inFrame(item, frame) : item)) : items;
}

type Label = Extract<OverlayItem, { kind: 'label' }>;

/** Left and right end of a label's text, px. */
export function labelSpan({ at, anchor, text }: Label): readonly [number, number] {
  const width = textWidth(text);
  const left = anchor === 'start' ? at.x : anchor === 'end' ? at.x - width : at.x - width / 2;
  return [left, left + width];
}

function inFrame(label: Label, frame: PageBox): Label {
  const [left, right] = labelSpan(label);
  const room = 4;
  const shift = Math.max(0, frame.x + room - left) - Math.max(0, right - (frame.x + frame.width - room));
  const y = clamp(label.at.y, frame.y + 18, frame.y + frame.height - 6);
  return { ...label, at: point(label.at.x + shift, y) };
}

function unframedItems(answer: SideAnswer, project: Projection): OverlayItem[] {
  const items: OverlayItem[] = [];
  if (answer.ground) {
    items.push({ kind: 'ground', from: project(answer.ground[0]), to: project(answer.ground[1]) });
  }
  for (const hub of answer.hubs ?? []) {
    const { x, y } = project(hub);
    items.push({ kind: 'hub line', from: point(x - HUB_CROSS, y), to: point(x + HUB_CROSS, y) });
    items.push({ kind: 'hub line', from: point(x, y - HUB_CROSS), to: point(x, y + HUB_CROSS) });
  }
  if (answer.cg && answer.ellipse) {
    items.push({ kind: 'ellipse', outline: ellipseOutline(answer.cg, answer.ellipse).map(project) });
  }
  for (const line of answer.lines) items.push(...lineItems(line, answer, project));
  for (const { at, key, aside } of answer.marks ?? []) {
    items.push({ kind: 'mark', at, aside });
    items.push({
      kind: 'label',
      at: point(at.x + 13, at.y - 9),
      text: key,
      anchor: 'start',
      tone: aside ? 'warning' : 'given',
    });
  }
  for (const { place, label } of answer.others ?? []) {
    const at = project(place);
    items.push({ kind: 'former', at });
    items.push({ kind: 'label', at: point(at.x + 14, at.y + 20), text: label, anchor: 'start', tone: 'ink' });
  }
  if (answer.cg) items.push({ kind: 'cg', at: project(answer.cg) });
  return items;
}

/** The 95 % region as places of the side view; perspective is left to the projection. */
export function ellipseOutline(center: PlanePoint, ellipse: Ellipse, count = 72): PlanePoint[] {
  const cos = Math.cos(ellipse.angle);
  const sin = Math.sin(ellipse.angle);
  return Array.from({ length: count }, (_, i) => {
    const turn = (2 * Math.PI * i) / count;
    const u = ellipse.semiMajor * Math.cos(turn);
    const v = ellipse.semiMinor * Math.sin(turn);
    return { x: meters(center.x + u * cos - v * sin), z: meters(center.z + u * sin + v * cos) };
  });
}

/** A place of the line `along` further in its direction. */
const along = (line: PlaneLine, from: PlanePoint, distanceAlong: number): PlanePoint => ({
  x: meters(from.x + distanceAlong * Math.cos(line.angle)),
  z: meters(from.z + distanceAlong * Math.sin(line.angle)),
});

/** Foot of a place on a line. */
export function footOn(line: PlaneLine, place: PlanePoint): PlanePoint {
  const lever =
    (place.x - line.through.x) * Math.cos(line.angle) + (place.z - line.through.z) * Math.sin(line.angle);
  return along(line, line.through, lever);
}

/**
 * One line: chain through the truck past the CG, solid string outside the hook, label at the string's end. The
 * inner end lies past the CG, or 0.25 m from the hook while there is no CG, on the side of the truck's middle.
 */
function lineItems(line: DrawnLine, answer: SideAnswer, project: Projection): OverlayItem[] {
  const target = answer.cg ?? middleOf(answer);
  const inside = footOn(line, target);
  const start = line.hook ?? { x: inside.x, z: meters(inside.z + 0.14) };
  const outer = project(footOn(line, start));
  const reach = project(inside);
  const close = distance(outer, reach) < 4;
  const inner = close ? project(along(line, start, -0.25)) : beyond(outer, reach, answer.cg ? PAST_CG : 90);
  const items: OverlayItem[] = [{ kind: 'chain', from: outer, to: inner }];
  const away = direction(inner, outer);
  const end = polar(outer, line.hook ? STRING : 0, away);
  if (line.hook) {
    items.push({ kind: 'string', from: outer, to: end });
    items.push({ kind: 'hook', at: project(line.hook) });
  }
  // The label stands clear of the string, on the side it leans to.
  const leansRight = Math.cos(away) > 0.35;
  const leansLeft = Math.cos(away) < -0.35;
  items.push({
    kind: 'label',
    at: leansRight
      ? point(end.x - 4, end.y - 9)
      : leansLeft
        ? point(end.x - 7, end.y + 12)
        : point(end.x, end.y - 8),
    text: line.label,
    anchor: leansRight ? 'middle' : leansLeft ? 'end' : 'middle',
    tone: line.hook ? 'given' : 'ink',
  });
  return items;
}

/** Somewhere inside the truck, while there is no CG: between the hubs, or under the hooks. */
function middleOf(answer: SideAnswer): PlanePoint {
  const places = answer.hubs && answer.hubs.length > 0 ? answer.hubs : answer.lines.map((l) => l.through);
  const mean = (pick: (p: PlanePoint) => number): Length =>
    meters(places.reduce((sum, p) => sum + pick(p), 0) / Math.max(places.length, 1));
  return { x: mean((p) => p.x), z: mean((p) => p.z) };
}
