import { html, svg, type TemplateResult } from 'lit';
import { meters, type Ellipse, type Length, type PlanePoint } from '../physics';
import { centerOfGravitySign } from './centerOfGravitySign';
import { dimensionLine } from './dimensionLine';
import { hatchedEllipse } from './errorEllipse';
import { coordinate as c, point, type Point } from './geometry';
import { printedMillimeters } from './numbers';
import { casedLine } from './plumbLine';

export interface ObjectPlan {
  /** Width to lay out at, px. */
  readonly width: number;
  /** Between its two scale points; null while not measured. */
  readonly distance: Length | null;
  /** In its own axes: x from point 1 toward point 2, z to the left of that way; null while unknown. */
  readonly cg: PlanePoint | null;
  readonly ellipse: Ellipse | null;
  readonly description: string;
}

const ROOM = { left: 64, right: 96, above: 44, below: 84 } as const;
const HIGHEST = 380;
/** Drawn at while nothing is measured: only the two points and the way between them mean anything. */
const UNMEASURED = 0.2;

/**
 * An object in its own axes: its two scale points, the way between them, and its center of gravity with both sizes. Its
 * outline is not known and not drawn.
 */
export function objectPlan(figure: ObjectPlan): TemplateResult {
  const { width, distance: measured, cg, ellipse } = figure;
  const span = measured ?? meters(UNMEASURED);
  const xs = [0, span, cg?.x ?? 0];
  const zs = [0, cg?.z ?? 0];
  const [left, right] = [Math.min(...xs), Math.max(...xs)];
  const [low, high] = [Math.min(...zs), Math.max(...zs)];
  const scale = Math.min(
    (width - ROOM.left - ROOM.right) / (right - left),
    high > low ? (HIGHEST - ROOM.above - ROOM.below) / (high - low) : Infinity,
  );
  const at = (x: number, z: number): Point =>
    point(ROOM.left + (x - left) * scale, ROOM.above + (high - z) * scale);
  const height = ROOM.above + (high - low) * scale + ROOM.below;
  const [one, two] = [at(0, 0), at(span, 0)];
  // Sizes stand below everything that is drawn: the reader's own lowest.
  const base = at(0, low).y;
  const level = (x: number, down: number) => point(at(x, 0).x, base + down);
  return html`<svg
    class="figure on-paper"
    viewBox="0 0 ${width} ${c(height)}"
    role="img"
    aria-label=${figure.description}
  >
    ${casedLine(one, two, 'line-dimension')}
    ${[one, two].map(
      ({ x, y }, i) =>
        svg`<circle class="hook" cx=${c(x)} cy=${c(y)} r="5"></circle>
          <text class="label-given ${i === 0 ? 'end' : 'start'}" x=${c(x + (i === 0 ? -9 : 9))} y=${c(y - 8)}>${i + 1}</text>`,
    )}
    ${
      measured
        ? dimensionLine({
            from: level(0, 62),
            to: level(span, 62),
            text: printedMillimeters(span),
            given: true,
            features: [one, two],
          })
        : ''
    }
    ${cg ? placed(cg, ellipse, at, level, right, scale) : ''}
  </svg>`;
}

function placed(
  cg: PlanePoint,
  ellipse: Ellipse | null,
  at: (x: number, z: number) => Point,
  level: (x: number, down: number) => Point,
  right: number,
  scale: number,
) {
  const center = at(cg.x, cg.z);
  const edge = at(right, 0).x + 40;
  const from = cg.x < 0 ? cg.x : 0;
  const to = cg.x < 0 ? 0 : cg.x;
  const ends: readonly [Point, Point] = cg.x < 0 ? [center, at(0, 0)] : [at(0, 0), center];
  return svg`${
    ellipse
      ? hatchedEllipse({
          center,
          semiMajor: ellipse.semiMajor * scale,
          semiMinor: ellipse.semiMinor * scale,
          angle: ellipse.angle,
        })
      : ''
  }
    ${dimensionLine({
      from: level(from, 30),
      to: level(to, 30),
      text: printedMillimeters(meters(Math.abs(cg.x))),
      features: [ends[0], ends[1]],
    })}
    ${dimensionLine({
      from: point(edge, at(0, Math.min(0, cg.z)).y),
      to: point(edge, at(0, Math.max(0, cg.z)).y),
      text: printedMillimeters(meters(Math.abs(cg.z))),
      features: cg.z < 0 ? [center, at(right, 0)] : [at(right, 0), center],
    })}
    ${centerOfGravitySign(center)}`;
}
