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
import { hatchedEllipse, type PageEllipse } from './errorEllipse';
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

/** What a detail consists of, as plain shapes on the page, px. */
export interface DetailShapes {
  /** SVG path of its small squares, cut to the circle. */
  readonly grid: string;
  readonly ellipse: PageEllipse | null;
  /** Edges of the lines' 95 % bands. */
  readonly bands: readonly (readonly [Point, Point])[];
  readonly lines: readonly (readonly [Point, Point])[];
  readonly caption: { readonly at: Point; readonly text: string };
}

/**
 * The shapes of a detail circle, for SVG and canvas alike. Its small squares are 1 mm where they can be told apart,
 * else 10 mm.
 */
export function detailShapes(detail: DetailCircle): DetailShapes {
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
  const cut = (through: Point, angle: number): [Point, Point][] => {
    const ends = chord(center, inner, through, angle);
    return ends ? [ends] : [];
  };
  return {
    grid: detailGrid(center, inner, detailSquare(scale) * scale),
    ellipse: detail.ellipse
      ? {
          center,
          semiMajor: Math.min(scale * lengthIn(detail.ellipse.semiMajor, 'mm'), inner),
          semiMinor: Math.min(scale * lengthIn(detail.ellipse.semiMinor, 'mm'), inner),
          angle: onPage(detail.ellipse.angle),
        }
      : null,
    bands: detail.lines.flatMap((line) => {
      const through = place(line.through);
      const angle = onPage(line.angle);
      const half = scale * lengthIn(line.halfBand, 'mm');
      return [half, -half].flatMap((offset) => cut(polar(through, offset, angle + Math.PI / 2), angle));
    }),
    lines: detail.lines.flatMap((line) => cut(place(line.through), onPage(line.angle))),
    caption: { at: point(center.x, center.y + radius + 19), text: `Detail ${letter} · ${factor} : 1` },
  };
}

/**
 * A lettered detail circle: the crossing as it really is, magnified, with each line, its 95 % band and the 95 %
 * ellipse.
 */
export function detailCircle(detail: DetailCircle): SVGTemplateResult {
  const { center, radius } = detail;
  const { grid, ellipse, bands, lines, caption } = detailShapes(detail);
  const drawn = ([a, b]: readonly [Point, Point], classes: string): SVGTemplateResult =>
    svg`<line class="line ${classes}" x1=${c(a.x)} y1=${c(a.y)} x2=${c(b.x)} y2=${c(b.y)}></line>`;
  return svg`<g class="detail" aria-hidden="true">
    <circle class="detail-rim" cx=${c(center.x)} cy=${c(center.y)} r=${c(radius)}></circle>
    <path class="grid" d=${grid}></path>
    ${ellipse ? hatchedEllipse(ellipse) : nothing}
    ${bands.map((ends) => drawn(ends, 'line-unsure'))}
    ${lines.map((ends) => drawn(ends, 'line-chain'))}
    ${detail.sign === false ? nothing : centerOfGravitySign(center, 9)}
    <circle class="line line-thick" cx=${c(center.x)} cy=${c(center.y)} r=${c(radius)}></circle>
    <text class="label-strong cased middle" x=${c(caption.at.x)} y=${c(caption.at.y)}>${caption.text}</text>
  </g>`;
}

/** Small square of a detail at `scale` px per mm: 1 mm where the squares stay 4 px or larger, else 10 mm. */
export const detailSquare = (scale: number): number => (scale >= 4 ? 1 : 10);

/** Grid lines cut to the circle. */
function detailGrid(center: Point, radius: number, spacing: number): string {
  const count = Math.floor(radius / spacing);
  let d = '';
  for (let i = -count; i <= count; i += 1) {
    const half = Math.sqrt(radius * radius - (i * spacing) ** 2);
    d += `M${c(center.x - half)} ${c(center.y + i * spacing)}h${c(2 * half)}`;
    d += `M${c(center.x + i * spacing)} ${c(center.y - half)}v${c(2 * half)}`;
  }
  return d;
}
