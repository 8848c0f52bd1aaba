import { nothing, svg, html, type TemplateResult } from 'lit';
import { lengthIn, meters, millimeters, type Length } from '../physics';
import { detailCircle, detailFactor, detailPlace, detailSquare } from './detailCircle';
import { dimensionLine } from './dimensionLine';
import { clamp, coordinate as c, point } from './geometry';
import { padGrid } from './grid';
import { groundLine } from './groundLine';
import { printedMillimeters } from './numbers';
import { scaleBar } from './scaleBar';
import { labelSpan, overlayItems, type SideAnswer } from './sideOverlay';
import { standingOverlay } from './standingOverlay';
import { drawnHeight, OVERHANG, truckFromTheSide, type TruckSizes } from './truckDrawing';
import { placement, toPage, view } from './viewTransform';

export interface ResultantScene {
  /** Width to lay out at, px. */
  readonly width: number;
  readonly sizes: TruckSizes;
  readonly answer: SideAnswer;
  /** Whether the crossing is shown magnified in a lettered circle. */
  readonly detail?: boolean;
  /** Whether the wheelbase was given by the reader (blue) or stands in for it (then it is not dimensioned). */
  readonly wheelbaseGiven?: boolean;
  /** Text alternative: what a reader who does not see the figure must know. */
  readonly description: string;
}

/** Scale bar of the printed figure. */
const BAR = millimeters(100);
const BELOW_GROUND = 104;
const SIDE_MARGIN = 14;
const STRING_ROOM = 62;

/**
 * The truck from its right side with the lines of its hangs, their crossing, the 95 % ellipse and its detail, on
 * the pad with its 10 mm grid; CG dimensioned from the rear hub and the ground.
 */
export function resultantScene(scene: ResultantScene): TemplateResult {
  const { width, sizes, answer, detail = true } = scene;
  const wheelbase = lengthIn(sizes.wheelbase, 'mm');
  const drawnWidth = wheelbase * (1 + OVERHANG.front + OVERHANG.rear);
  const scale = (width - 2 * SIDE_MARGIN) / (drawnWidth + 12);
  const originX = SIDE_MARGIN + scale * (wheelbase * OVERHANG.rear + 6);
  const radius = clamp(0.215 * wheelbase * scale, 38, 78);
  const detailShown = detail && answer.cg !== null;
  const place = detailShown ? detailPlacement(answer, scale, originX, width, radius, wheelbase) : null;
  const highest = Math.max(
    lengthIn(drawnHeight(sizes), 'mm') * scale + 16,
    ...answer.lines.map((line) => (line.hook ? lengthIn(line.hook.z, 'mm') * scale + STRING_ROOM : 0)),
    place?.headroom ?? 0,
  );
  const groundY = Math.ceil(highest + 12);
  const height = groundY + BELOW_GROUND;
  const sheet = view(point(originX, groundY), scale);
  const page = (x: Length, z: Length) => toPage(sheet, x, z);
  const { cg } = answer;
  const at = cg ? page(cg.x, cg.z) : null;
  const rearHub = page(meters(0), sizes.rearTireRadius);
  const frontHub = page(sizes.wheelbase, sizes.frontTireRadius);
  const factor = answer.ellipse ? detailFactor(answer.ellipse.semiMajor, scale, radius) : 8;
  const barAt = point(place && place.x > width / 2 ? 14 : width - 100 * scale - 44, 24);
  const square = detailSquare(scale * factor);
  const note = `1 square 10 mm${detailShown ? `; in the detail ${square} mm` : ''}`;
  return html`<svg class="figure" viewBox="0 0 ${width} ${height}" role="img" aria-label=${scene.description}>
    ${padGrid({ x: 0, y: 0, width, height }, point(originX, groundY), scale)}
    <g transform=${placement(sheet)}>${truckFromTheSide(sizes)}</g>
    ${groundLine(point(0, groundY), point(width, groundY))}
    ${
      at && cg
        ? svg`${dimensionLine({
            from: point(rearHub.x, groundY + 36),
            to: point(at.x, groundY + 36),
            text: printedMillimeters(cg.x),
            features: [rearHub, point(at.x, at.y + 18)],
            cased: true,
          })}
          ${dimensionLine({
            from: point(at.x + clamp(62 * scale, 40, 110), groundY),
            to: point(at.x + clamp(62 * scale, 40, 110), at.y),
            text: printedMillimeters(cg.z),
            features: [null, point(at.x + 17, at.y)],
            cased: true,
            at: 0.36,
          })}`
        : nothing
    }
    ${
      scene.wheelbaseGiven === false
        ? nothing
        : dimensionLine({
            from: point(rearHub.x, groundY + 68),
            to: point(frontHub.x, groundY + 68),
            text: printedMillimeters(sizes.wheelbase),
            features: [at ? point(rearHub.x, groundY + 40) : rearHub, frontHub],
            given: true,
            cased: true,
          })
    }
    ${standingOverlay(answer, ({ x, z }) => page(x, z), 1, { x: 0, y: 0, width, height })}
    ${
      place && cg && at
        ? svg`${detailPlace(at, 'X')}
          ${detailCircle({
            center: point(place.x, radius + 8),
            radius,
            letter: 'X',
            scale,
            factor,
            at: cg,
            lines: answer.lines,
            ellipse: answer.ellipse,
          })}`
        : nothing
    }
    <text class="label-quiet cased end screen-only" x=${c(width - 8)} y=${c(height - 8)}>${note}</text>
    <g class="print-only">${scaleBar(barAt, scale, BAR)}</g>
  </svg>`;
}

/**
 * Where the detail circle stands: at the upper left or right, whichever costs less height, above whatever strings
 * and labels are there. `x` px; `headroom` px above ground that it needs.
 */
function detailPlacement(
  answer: SideAnswer,
  scale: number,
  originX: number,
  width: number,
  radius: number,
  wheelbase: number,
): { readonly x: number; readonly headroom: number } {
  const aboveGround = view(point(originX, 0), scale);
  const items = overlayItems(answer, ({ x, z }) => toPage(aboveGround, x, z));
  const needed = (x: number): number => {
    const left = x - Math.max(radius, DETAIL_LABEL / 2) - 6;
    const right = x + Math.max(radius, DETAIL_LABEL / 2) + 6;
    // Bed and hood end at about 0.62 of the wheelbase above ground.
    let top = 0.62 * wheelbase * scale;
    for (const item of items) {
      if (item.kind === 'label') {
        const [from, to] = labelSpan(item);
        if (to > left && from < right) top = Math.max(top, 16 - item.at.y);
      } else if (item.kind === 'string') {
        const { from, to } = item;
        if (Math.max(from.x, to.x) > left && Math.min(from.x, to.x) < right) {
          top = Math.max(top, 4 - Math.min(from.y, to.y));
        }
      }
    }
    return top + 2 * radius + 38;
  };
  const edge = Math.max(radius + 10, DETAIL_LABEL / 2 + 6);
  const [best] = [edge, width - edge]
    .map((x) => ({ x, headroom: needed(x) }))
    .sort((a, b) => a.headroom - b.headroom);
  return best ?? { x: edge, headroom: 0 };
}

/** Room for "Detail X · 10 : 1", px. */
const DETAIL_LABEL = 128;

/** A place in the side view from millimeters, for fixed scenes in a chapter. */
export const sidePlace = (aheadMm: number, upMm: number): { readonly x: Length; readonly z: Length } => ({
  x: millimeters(aheadMm),
  z: millimeters(upMm),
});
