import { html, nothing, type TemplateResult } from 'lit';
import { angleIn, lengthIn, type Angle, type Length, type SpacePoint } from '../physics';
import { angleArc } from './angleArc';
import { arrowhead } from './arrowhead';
import { centerOfGravitySign } from './centerOfGravitySign';
import { dimensionLine } from './dimensionLine';
import { beyond, coordinate as c, inDegrees, point, polar, type Point } from './geometry';
import { groundLine } from './groundLine';
import { printedDegrees, printedMillimeters } from './numbers';
import { plumbLine } from './plumbLine';
import { drawnHeight, OVERHANG, truckFromBehind, truckFromTheSide, type TruckSizes } from './truckDrawing';

/** The way down: left or right side, nose up (climb) or nose down (descent). */
export type WayDown = 'left' | 'right' | 'climb' | 'descent';

export interface TiltedView {
  /** Width to lay out at, px. */
  readonly width: number;
  readonly way: WayDown;
  readonly sizes: TruckSizes;
  readonly cg: SpacePoint;
  /** From the tip line to the CG, seen from above. */
  readonly distance: Length;
  /** The slope at which the truck tips that way. */
  readonly limit: Angle;
  /** What the tip line is called; "left tip line" and so on if not said. */
  readonly lineName?: string;
  readonly description: string;
}

/** Where the tip line and the CG lie across the view, mm, and the sense of the tilt on the page. */
interface Pose {
  readonly pivot: number;
  readonly cg: number;
  /** 1: the slope rises to the right, the truck turns counter-clockwise. */
  readonly sense: 1 | -1;
  readonly reach: readonly [number, number];
}

function poseOf({ way, sizes, cg, distance }: TiltedView): Pose {
  const away = lengthIn(distance, 'mm');
  const wheelbase = lengthIn(sizes.wheelbase, 'mm');
  const half = (lengthIn(sizes.rearTrack, 'mm') + lengthIn(sizes.tireWidth, 'mm')) / 2;
  const ahead = lengthIn(cg.x, 'mm');
  const right = -lengthIn(cg.y, 'mm');
  const long: readonly [number, number] = [-wheelbase * OVERHANG.rear, wheelbase * (1 + OVERHANG.front)];
  switch (way) {
    case 'left':
      return { pivot: right - away, cg: right, sense: 1, reach: [-half, half] };
    case 'right':
      return { pivot: right + away, cg: right, sense: -1, reach: [-half, half] };
    case 'climb':
      return { pivot: ahead - away, cg: ahead, sense: 1, reach: long };
    case 'descent':
      return { pivot: ahead + away, cg: ahead, sense: -1, reach: long };
  }
}

const LINE_NAMES: Readonly<Record<WayDown, string>> = {
  left: 'left tip line',
  right: 'right tip line',
  climb: 'rear tip line',
  descent: 'front tip line',
};

const MARGIN = 14;
/** The angle's number stands this far outside its arc, px; half its width. */
const ANSWER_OUT = 43;
const ANSWER_HALF = 33;

interface Fit {
  readonly scale: number;
  /** Place of the tip line, px. */
  readonly origin: Point;
  readonly arcRadius: number;
  /** Page direction of the middle of the angle. */
  readonly middle: number;
}

/** Largest scale at which slope, truck and the angle's number fit the width; extents in mm about the tip line. */
function fitted(
  width: number,
  extent: { readonly left: number; readonly right: number; readonly upper: number; readonly lower: number },
  turn: number,
  sense: 1 | -1,
  slopeEnds: readonly [number, number],
): Fit {
  const { left, right, upper, lower } = extent;
  const middle = sense === 1 ? turn / 2 : Math.PI + turn / 2;
  const tallest = (0.98 * Math.max(width, 280)) / (lower - upper);
  const arcAt = (scale: number): number => Math.min(96, Math.max(46, 0.5 * scale * Math.abs(slopeEnds[1])));
  // px the number needs beside the tip line; it hardly depends on the scale, so one correction settles it.
  const answer = (scale: number): number =>
    (arcAt(scale) + ANSWER_OUT) * Math.abs(Math.cos(middle)) + ANSWER_HALF;
  const fitting = (aside: number): number =>
    Math.min(tallest, 1.25, (width - 2 * MARGIN - aside) / (sense === 1 ? -left : right));
  const plain = Math.min(tallest, 1.25, (width - 2 * MARGIN) / (right - left));
  const uphillSide = sense === 1 ? right : -left;
  const scale =
    answer(plain) > plain * uphillSide ? Math.max(0.1, Math.min(plain, fitting(answer(plain)))) : plain;
  const room = Math.max(answer(scale), scale * uphillSide);
  const other = scale * (sense === 1 ? -left : right);
  const slack = Math.max(0, width - 2 * MARGIN - room - other) / 2;
  const x = sense === 1 ? MARGIN + slack + other : MARGIN + slack + room;
  return { scale, origin: point(x, MARGIN - scale * upper), arcRadius: arcAt(scale), middle };
}

/**
 * The truck on the slope it just stands on: from behind for the sides, from its right for climb and descent. Its
 * CG is plumb above the tip line; height, distance and limit angle are dimensioned.
 */
export function tiltedView(scene: TiltedView): TemplateResult {
  const { width, way, sizes, limit } = scene;
  const pose = poseOf(scene);
  const { sense } = pose;
  const turn = sense * angleIn(limit, 'rad');
  const high = lengthIn(scene.cg.z, 'mm');
  const top = lengthIn(drawnHeight(sizes), 'mm');
  // Slope, truck and plumb line in mm about the tip line, turned, to find the room they take.
  const uphill = sense * (sense === 1 ? pose.reach[1] - pose.pivot : pose.pivot - pose.reach[0]);
  const downhill = -sense * (sense === 1 ? pose.pivot - pose.reach[0] : pose.reach[1] - pose.pivot);
  const slopeEnds = [downhill - sense * 38, uphill + sense * 50] as const;
  const turned = (across: number, up: number): Point =>
    point(across * Math.cos(turn) - up * Math.sin(turn), -(across * Math.sin(turn) + up * Math.cos(turn)));
  const extent = [
    turned(slopeEnds[0], 0),
    turned(slopeEnds[1], 0),
    turned(pose.reach[0] - pose.pivot, top),
    turned(pose.reach[1] - pose.pivot, top),
  ];
  const [left, right] = [Math.min(...extent.map((p) => p.x)), Math.max(...extent.map((p) => p.x))];
  const [upper, lower] = [Math.min(...extent.map((p) => p.y)), Math.max(...extent.map((p) => p.y))];
  const { scale, origin, arcRadius, middle } = fitted(
    width,
    { left, right, upper, lower },
    turn,
    sense,
    slopeEnds,
  );
  const below = Math.max(scale * lower, 66);
  const height = Math.ceil(origin.y + below + MARGIN);
  const page = (across: number, up: number): Point => {
    const p = turned(across, up);
    return point(origin.x + scale * p.x, origin.y + scale * p.y);
  };
  const pivot = origin;
  const cg = page(pose.cg - pose.pivot, high);
  const foot = page(pose.cg - pose.pivot, 0);
  const ends = [page(slopeEnds[0], 0), page(slopeEnds[1], 0)] as const;
  const [groundLeft, groundRight] = sense === 1 ? ends : [ends[1], ends[0]];
  const rise = sense === 1 ? turn : Math.PI + turn;
  const level = point(
    pivot.x + sense * Math.min(arcRadius * 2.1, sense === 1 ? width - pivot.x - 6 : pivot.x - 6),
    pivot.y,
  );
  // Below the slope, square to it.
  const down = turn - Math.PI / 2;
  const plumbEnd = point(pivot.x, pivot.y + 46);
  const drawing = way === 'left' || way === 'right' ? truckFromBehind(sizes) : truckFromTheSide(sizes);
  const place = `translate(${c(pivot.x)} ${c(pivot.y)}) rotate(${c(-inDegrees(turn))}) scale(${scale.toFixed(5)} ${(-scale).toFixed(5)}) translate(${c(-pose.pivot)} 0)`;
  const arc = {
    center: pivot,
    radius: arcRadius,
    from: sense === 1 ? 0 : rise,
    to: sense === 1 ? rise : Math.PI,
  };
  return html`<svg class="figure" viewBox="0 0 ${width} ${height}" role="img" aria-label=${scene.description}>
    <g transform=${place}>${drawing}</g>
    ${groundLine(groundLeft, groundRight)}
    <line
      class="line line-dimension"
      x1=${c(pivot.x)}
      y1=${c(pivot.y)}
      x2=${c(level.x)}
      y2=${c(level.y)}
    ></line>
    ${angleArc({ ...arc, text: printedDegrees(limit), textAt: { direction: middle, distance: arcRadius + ANSWER_OUT }, large: true })}
    ${plumbLine(point(cg.x, Math.max(8, cg.y - 118)), plumbEnd)}
    ${arrowhead(point(plumbEnd.x, plumbEnd.y + 8), -Math.PI / 2)}
    ${dimensionLine({ from: beyond(foot, cg, -10), to: foot, text: printedMillimeters(scene.cg.z), cased: true })}
    ${
      scene.distance > 0
        ? dimensionLine({
            from: polar(pivot, 30, down),
            to: polar(foot, 30, down),
            text: printedMillimeters(scene.distance),
            features: [pivot, foot],
            cased: true,
          })
        : nothing
    }
    <circle class="pivot" cx=${c(pivot.x)} cy=${c(pivot.y)} r="5.5"></circle>
    ${centerOfGravitySign(cg)}
    <text
      class="label-quiet cased ${sense === 1 ? 'start' : 'end'}"
      x=${c(pivot.x + sense * 14)}
      y=${c(plumbEnd.y + 4)}
    >
      ${scene.lineName ?? LINE_NAMES[way]}
    </text>
  </svg>`;
}
