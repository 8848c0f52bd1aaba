import { html, nothing, svg, type SVGTemplateResult, type TemplateResult } from 'lit';
import { lengthIn, meters, millimeters, type Angle, type Length, type SpacePoint } from '../physics';
import { angleArc } from './angleArc';
import { arrowhead } from './arrowhead';
import { centerOfGravitySign } from './centerOfGravitySign';
import { dimensionLine } from './dimensionLine';
import { coordinate as c, direction, point, polar, type Point } from './geometry';
import { groundLine } from './groundLine';
import { printedDegrees, printedMillimeters } from './numbers';
import { casedLine, plumbLine } from './plumbLine';
import {
  drawnHeight,
  OVERHANG,
  truckFromAbove,
  truckFromBehind,
  truckFromTheSide,
  type TruckSizes,
} from './truckDrawing';
import { placement, toPage, view, type View } from './viewTransform';

export interface ThreeViews {
  /** Width to lay out at, px. Below 560 only the side view is drawn. */
  readonly width: number;
  readonly sizes: TruckSizes;
  /** null while there is no answer: the views stand without it. */
  readonly cg: SpacePoint | null;
  readonly tips: {
    readonly left: Angle;
    readonly right: Angle;
    readonly climb: Angle;
    readonly descent: Angle;
  } | null;
  /** Which sizes the reader gave; only these are dimensioned. */
  readonly given: { readonly wheelbase: boolean; readonly track: boolean };
  readonly description: string;
}

/** Width from which all three views are drawn, px. */
export const THREE_VIEWS_FROM = 560;

const LEFT_ROOM = 58;
const ABOVE = 26;
const BELOW_GROUND = 84;

/**
 * The truck in three views with its CG, the tip angles where they arise, and its sizes. First-angle placement: the
 * view from behind stands to the right of the side view, the view from above below it, nose right.
 */
export function threeViews(figure: ThreeViews): TemplateResult {
  return figure.width < THREE_VIEWS_FROM ? sideOnly(figure) : allThree(figure);
}

function extents(sizes: TruckSizes) {
  const wheelbase = lengthIn(sizes.wheelbase, 'mm');
  const half = (lengthIn(sizes.rearTrack, 'mm') + lengthIn(sizes.tireWidth, 'mm')) / 2;
  return {
    back: wheelbase * OVERHANG.rear,
    length: wheelbase * (1 + OVERHANG.rear + OVERHANG.front),
    half,
    high: lengthIn(drawnHeight(sizes), 'mm'),
  };
}

function sideOnly(figure: ThreeViews): TemplateResult {
  const { width, sizes } = figure;
  const { back, length, high } = extents(sizes);
  const left = 6;
  const scale = (width - 2 * left) / length;
  const groundY = Math.ceil(ABOVE + 12 + high * scale);
  const sheet = view(point(left + back * scale, groundY), scale);
  const height = groundY + (figure.cg || figure.given.wheelbase ? BELOW_GROUND - 6 : 16);
  return html`<svg
    class="figure on-paper"
    viewBox="0 0 ${width} ${height}"
    role="img"
    aria-label=${figure.description}
  >
    ${forward(point(width - 12, 16))} ${groundLine(point(0, groundY), point(width, groundY), false)}
    ${sideView(figure, sheet, null)}
  </svg>`;
}

function allThree(figure: ThreeViews): TemplateResult {
  const { width, sizes } = figure;
  const { back, length, half, high } = extents(sizes);
  const apart = 0.3 * lengthIn(sizes.wheelbase, 'mm');
  const scale = (width - LEFT_ROOM - 14) / (length + apart + 2 * half);
  const groundY = Math.ceil(ABOVE + 14 + high * scale);
  const side = view(point(LEFT_ROOM + back * scale, groundY), scale);
  const rear = view(point(LEFT_ROOM + (length + apart + half) * scale, groundY), scale);
  const topY = groundY + BELOW_GROUND + 24 + half * scale;
  const above = view(point(side.origin.x, topY), scale);
  const height = Math.ceil(topY + half * scale + 16);
  return html`<svg
    class="figure on-paper"
    viewBox="0 0 ${width} ${height}"
    role="img"
    aria-label=${figure.description}
  >
    ${forward(point(LEFT_ROOM + (length + 0.35 * apart) * scale, 16))}
    ${groundLine(point(LEFT_ROOM - 6, groundY), point(width, groundY), false)}
    ${sideView(figure, side, LEFT_ROOM - 20)} ${rearView(figure, rear)}
    ${topView(figure, above, LEFT_ROOM - 22)}
  </svg>`;
}

const forward = (tip: Point): SVGTemplateResult =>
  svg`<g aria-hidden="true"><line class="line line-dimension" x1=${c(tip.x - 30)} y1=${c(tip.y)} x2=${c(tip.x)} y2=${c(tip.y)}></line>
    ${arrowhead(tip, 0)}<text class="label-quiet end" x=${c(tip.x - 38)} y=${c(tip.y + 5)}>forward</text></g>`;

/** Rays from the CG to two contacts, the arc between them through the plumb line, an angle on each side of it. */
function tipRays(
  cg: Point,
  contacts: readonly [Point, Point],
  angles: readonly [Angle, Angle] | null,
): SVGTemplateResult {
  const [left, right] = contacts;
  const ground = Math.max(left.y, right.y);
  const high = ground - cg.y;
  // The arc leaves a line of text between itself and the ground.
  const radius = Math.max(22, Math.min(0.575 * high, 0.5 * (right.x - left.x), high - 25));
  const from = direction(cg, left);
  const to = direction(cg, right);
  const turns = [from < 0 ? from + 2 * Math.PI : from, to < 0 ? to + 2 * Math.PI : to] as const;
  // Each number stands on its own side of the plumb line and above the ground.
  const number = (turn: number, text: string, side: 1 | -1): SVGTemplateResult => {
    const at = polar(cg, radius + 20, turn);
    const x = cg.x + side * Math.max(8, side * (at.x - cg.x) - 14);
    return svg`<text class="label-angle cased ${side === 1 ? 'start' : 'end'}" x=${c(x)} y=${c(Math.min(at.y + 5, ground - 7))}>${text}</text>`;
  };
  const down = (3 * Math.PI) / 2;
  return svg`${casedLine(cg, left, '')}${casedLine(cg, right, '')}
    ${angles ? angleArc({ center: cg, radius, from: turns[0], to: turns[1], cased: true }) : nothing}
    ${
      angles
        ? svg`${number(down - Math.min(0.34, (down - turns[0]) / 2), printedDegrees(angles[0]), -1)}
          ${number(down + Math.min(0.34, (turns[1] - down) / 2), printedDegrees(angles[1]), 1)}`
        : nothing
    }`;
}

function sideView(figure: ThreeViews, sheet: View, heightX: number | null): SVGTemplateResult {
  const { sizes, cg, tips, given } = figure;
  const ground = sheet.origin.y;
  const rear = toPage(sheet, meters(0), meters(0));
  const front = toPage(sheet, sizes.wheelbase, meters(0));
  const at = cg ? toPage(sheet, cg.x, cg.z) : null;
  return svg`<g transform=${placement(sheet)}>${truckFromTheSide(sizes)}</g>
    ${
      cg && at
        ? svg`${plumbLine(point(at.x, at.y - 0.24 * (front.x - rear.x)), point(at.x, ground + 14))}
          ${tipRays(at, [rear, front], tips ? [tips.climb, tips.descent] : null)}
          ${
            heightX === null
              ? nothing
              : dimensionLine({
                  from: point(heightX, at.y),
                  to: point(heightX, ground),
                  text: printedMillimeters(cg.z),
                  features: [at, null],
                })
          }
          ${dimensionLine({
            from: point(rear.x, ground + 34),
            to: point(at.x, ground + 34),
            text: printedMillimeters(cg.x),
            features: [rear, point(at.x, ground + 14)],
          })}
          ${centerOfGravitySign(at)}`
        : nothing
    }
    ${
      given.wheelbase
        ? dimensionLine({
            from: point(rear.x, ground + (cg ? 62 : 34)),
            to: point(front.x, ground + (cg ? 62 : 34)),
            text: printedMillimeters(sizes.wheelbase),
            features: [cg ? point(rear.x, ground + 38) : rear, front],
            given: true,
          })
        : nothing
    }`;
}

function rearView(figure: ThreeViews, sheet: View): SVGTemplateResult {
  const { sizes, cg, tips, given } = figure;
  const ground = sheet.origin.y;
  const half = meters(sizes.rearTrack / 2);
  const [left, right] = [toPage(sheet, meters(-half), meters(0)), toPage(sheet, half, meters(0))];
  const top = toPage(sheet, meters(0), drawnHeight(sizes));
  const at = cg ? toPage(sheet, meters(-cg.y), cg.z) : null;
  return svg`<g transform=${placement(sheet)}>${truckFromBehind(sizes)}</g>
    ${plumbLine(point(top.x, top.y - 14), point(top.x, ground + 12))}
    ${at ? svg`${tipRays(at, [left, right], tips ? [tips.left, tips.right] : null)}${centerOfGravitySign(at)}` : nothing}
    ${
      given.track
        ? dimensionLine({
            from: point(left.x, ground + 34),
            to: point(right.x, ground + 34),
            text: printedMillimeters(sizes.rearTrack),
            features: [left, right],
            given: true,
          })
        : nothing
    }`;
}

function topView(figure: ThreeViews, sheet: View, offsetX: number): SVGTemplateResult {
  const { sizes, cg } = figure;
  const corner = (ahead: Length, left: number): Point => toPage(sheet, ahead, meters(left));
  const none = meters(0);
  const frame = [
    corner(none, sizes.rearTrack / 2),
    corner(sizes.wheelbase, sizes.frontTrack / 2),
    corner(sizes.wheelbase, -sizes.frontTrack / 2),
    corner(none, -sizes.rearTrack / 2),
  ];
  const patchSize = {
    width: 0.47 * lengthIn(sizes.rearTireRadius, 'mm') * sheet.scale,
    height: 0.9 * lengthIn(sizes.tireWidth, 'mm') * sheet.scale,
  };
  const reach = OVERHANG.rear * lengthIn(sizes.wheelbase, 'mm');
  const at = cg ? toPage(sheet, cg.x, cg.y) : null;
  return svg`<g transform=${placement(sheet)}>${truckFromAbove(sizes)}</g>
    ${frame.map(
      ({ x, y }) =>
        svg`<rect class="contact" x=${c(x - patchSize.width / 2)} y=${c(y - patchSize.height / 2)} width=${c(patchSize.width)} height=${c(patchSize.height)}></rect>`,
    )}
    ${frame.map((from, i) => casedLine(from, frame[(i + 1) % 4] ?? from, 'line-thick'))}
    ${plumbLine(
      point(offsetX, sheet.origin.y),
      toPage(sheet, millimeters(lengthIn(sizes.wheelbase, 'mm') + reach), none),
    )}
    ${
      cg && at
        ? svg`<line class="casing" x1=${c(offsetX - 4)} y1=${c(at.y)} x2=${c(at.x)} y2=${c(at.y)}></line>
          <line class="line line-extension" x1=${c(offsetX - 4)} y1=${c(at.y)} x2=${c(at.x)} y2=${c(at.y)}></line>
          ${offset(offsetX, sheet.origin.y, at.y, printedMillimeters(meters(Math.abs(cg.y))))}
          ${centerOfGravitySign(at)}`
        : nothing
    }`;
}

/** The CG's distance from the center line: nearly always too small for a number between its ends. */
function offset(x: number, centerY: number, cgY: number, text: string): SVGTemplateResult {
  const upper = Math.min(centerY, cgY);
  const lower = Math.max(centerY, cgY);
  return svg`<g class="dimension" aria-hidden="true">
    <line class="line line-dimension" x1=${c(x)} y1=${c(upper - 24)} x2=${c(x)} y2=${c(lower + 24)}></line>
    ${arrowhead(point(x, upper), -Math.PI / 2)}${arrowhead(point(x, lower), Math.PI / 2)}
    <text class="label-size middle" x=${c(x)} y=${c(upper - 30)}>${text}</text></g>`;
}
