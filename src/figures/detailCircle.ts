import { nothing, svg, type SVGTemplateResult } from 'lit';
import {
  angleIn,
  lengthIn,
  type Angle,
  type Ellipse,
  type Length,
  type PlaneLine,
  type PlanePoint,
} from '../physics';
import { centerOfGravitySign } from './centerOfGravitySign';
import { hatchedEllipse } from './errorEllipse';
import { chord, coordinate as c, point, polar, type Point } from './geometry';

/** A line with half the width of its 95 % band. */
export interface BandedLine extends PlaneLine {
  readonly halfBand: Length;
}

export interface DetailCircle {
  /** Where the circle stands, px. */
  readonly center: Point;
  readonly radius: number;
  readonly letter: string;
  /** px per mm of the figure it is a detail of, and how many times larger the detail is. */
  readonly scale: number;
  readonly factor: number;
  /** The truck place in the middle of the circle. */
  readonly at: PlanePoint;
  readonly lines: readonly BandedLine[];
  /** 95 % region of the middle. */
  readonly ellipse?: Ellipse | null;
  /** Whether the center of gravity stands in the middle. */
  readonly sign?: boolean;
  /** -1 where forward is to the left on the page. */
  readonly sense?: 1 | -1;
}

/** The largest of the usual scales at which an ellipse still fills at most two thirds of the detail's circle. */
export function detailFactor(semiMajor: Length, scale: number, radius: number): number {
  const fits = (factor: number): boolean => lengthIn(semiMajor, 'mm') * scale * factor <= radius * 0.66;
  return [20, 10, 8, 5, 4, 2].find(fits) ?? 1;
}

/** The ring round the place a detail belongs to, with its letter. */
export function detailPlace(center: Point, letter: string, radius = 17): SVGTemplateResult {
  const at = polar(center, radius + 13, (3 * Math.PI) / 4);
  return svg`<g aria-hidden="true"><circle class="detail-place" cx=${c(center.x)} cy=${c(center.y)} r=${c(radius)}></circle>
    <text class="label-strong cased middle" x=${c(at.x)} y=${c(at.y + 5)}>${letter}</text></g>`;
}

/**
 * A lettered detail circle: the crossing as it really is, magnified, with each line, its 95 % band and the 95 %
 * ellipse. Its own small squares are 1 mm where they can be told apart, else 10 mm.
 */
export function detailCircle(detail: DetailCircle): SVGTemplateResult {
  const { center, radius, letter, factor, sense = 1 } = detail;
  const scale = detail.scale * factor;
  const inner = radius - 1;
  const place = ({ x, z }: PlanePoint): Point =>
    point(
      center.x + sense * scale * (lengthIn(x, 'mm') - lengthIn(detail.at.x, 'mm')),
      center.y - scale * (lengthIn(z, 'mm') - lengthIn(detail.at.z, 'mm')),
    );
  const onPage = (angle: Angle): number => {
    const turn = angleIn(angle, 'rad');
    return sense === 1 ? turn : Math.PI - turn;
  };
  const cut = (through: Point, angle: number, classes: string): SVGTemplateResult | typeof nothing => {
    const ends = chord(center, inner, through, angle);
    if (!ends) return nothing;
    const [a, b] = ends;
    return svg`<line class="line ${classes}" x1=${c(a.x)} y1=${c(a.y)} x2=${c(b.x)} y2=${c(b.y)}></line>`;
  };
  const ellipse = detail.ellipse
    ? hatchedEllipse({
        center,
        semiMajor: Math.min(scale * lengthIn(detail.ellipse.semiMajor, 'mm'), inner),
        semiMinor: Math.min(scale * lengthIn(detail.ellipse.semiMinor, 'mm'), inner),
        angle: onPage(detail.ellipse.angle),
      })
    : nothing;
  return svg`<g class="detail" aria-hidden="true">
    <circle class="detail-rim" cx=${c(center.x)} cy=${c(center.y)} r=${c(radius)}></circle>
    ${detailGrid(center, inner, detailSquare(scale) * scale)}
    ${ellipse}
    ${detail.lines.map((line) => {
      const through = place(line.through);
      const angle = onPage(line.angle);
      const half = scale * lengthIn(line.halfBand, 'mm');
      return svg`${cut(polar(through, half, angle + Math.PI / 2), angle, 'line-unsure')}
        ${cut(polar(through, -half, angle + Math.PI / 2), angle, 'line-unsure')}`;
    })}
    ${detail.lines.map((line) => cut(place(line.through), onPage(line.angle), 'line-chain'))}
    ${detail.sign === false ? nothing : centerOfGravitySign(center, 9)}
    <circle class="line line-thick" cx=${c(center.x)} cy=${c(center.y)} r=${c(radius)}></circle>
    <text class="label-strong cased middle" x=${c(center.x)} y=${c(center.y + radius + 19)}>Detail ${letter} · ${factor} : 1</text>
  </g>`;
}

/** Small square of a detail at `scale` px per mm: 1 mm where the squares stay 4 px or larger, else 10 mm. */
export const detailSquare = (scale: number): number => (scale >= 4 ? 1 : 10);

/** Grid lines cut to the circle. */
function detailGrid(center: Point, radius: number, spacing: number): SVGTemplateResult {
  const count = Math.floor(radius / spacing);
  let d = '';
  for (let i = -count; i <= count; i += 1) {
    const half = Math.sqrt(radius * radius - (i * spacing) ** 2);
    d += `M${c(center.x - half)} ${c(center.y + i * spacing)}h${c(2 * half)}`;
    d += `M${c(center.x + i * spacing)} ${c(center.y - half)}v${c(2 * half)}`;
  }
  return svg`<path class="grid" d=${d}></path>`;
}
