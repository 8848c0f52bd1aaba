import { nothing, svg, type SVGTemplateResult } from 'lit';
import { ARROW_LENGTH, arrowhead } from './arrowhead';
import { between, beyond, coordinate as c, direction, distance, polar, type Point } from './geometry';
import { textWidth } from './numbers';

export interface Dimension {
  /** Ends of the dimension line, px. */
  readonly from: Point;
  readonly to: Point;
  /** The number, upright in the broken line. */
  readonly text: string;
  /** Blue: a size the reader gave. Ink: one worked out. */
  readonly given?: boolean;
  /** Feature points the extension lines start from, for each end; they run 6 px past the dimension line. */
  readonly features?: readonly [Point | null, Point | null];
  /** Where along the line the number stands, 0 to 1; the middle if not said. */
  readonly at?: number;
  /** Puts a casing under line and number, where they cross the truck. */
  readonly cased?: boolean;
}

const TEXT_SIZE = 15;
const EXTENSION_START = 2;
const EXTENSION_PAST = 6;
const OUTSIDE = 22;

/** Half the gap the number needs in a line of this page direction, px. */
function halfGap(text: string, angle: number): number {
  const halfWidth = textWidth(text, TEXT_SIZE) / 2 + 3;
  const halfHeight = TEXT_SIZE / 2 + 2;
  const along = Math.abs(Math.cos(angle));
  const across = Math.abs(Math.sin(angle));
  return Math.min(
    along > 1e-9 ? halfWidth / along : Infinity,
    across > 1e-9 ? halfHeight / across : Infinity,
  );
}

/** Whether number and arrowheads fit between the ends, so that the arrows need not come from outside. */
export const dimensionFits = (from: Point, to: Point, text: string): boolean =>
  distance(from, to) >= 2 * halfGap(text, direction(from, to)) + 2 * ARROW_LENGTH;

/** How a dimension of this span is set: number in the broken line, beside the whole line, or beyond its end. */
const setting = (from: Point, to: Point, text: string): 'broken' | 'beside' | 'beyond' =>
  dimensionFits(from, to, text) ? 'broken' : distance(from, to) >= 2 * ARROW_LENGTH + 8 ? 'beside' : 'beyond';

/**
 * A dimension: arrowed line broken for its number, extension lines from the features. Where number and arrows do not
 * both fit, the number stands beside the line, on its upper side; where not even the arrows fit, they point in from
 * outside and the number stands beyond the far end.
 */
export function dimensionLine(dimension: Dimension): SVGTemplateResult {
  const { from, to, text, given = false, at = 0.5, cased = false } = dimension;
  const span = distance(from, to);
  const angle = direction(from, to);
  const gap = halfGap(text, angle);
  const set = setting(from, to, text);
  const tight = set === 'beyond';
  const room = span / 2 - ARROW_LENGTH - gap;
  // The number keeps clear of the arrowheads wherever it is asked to stand.
  const share = 0.5 + clampShare(at - 0.5, room / span);
  const place =
    set === 'broken'
      ? between(from, to, share)
      : set === 'beside'
        ? beside(between(from, to, 0.5), angle, text)
        : polar(to, OUTSIDE + gap + 2, angle);
  const runs: [Point, Point][] =
    set === 'broken'
      ? [
          [from, polar(place, -gap, angle)],
          [polar(place, gap, angle), to],
        ]
      : set === 'beside'
        ? [[from, to]]
        : [
            [polar(from, -OUTSIDE, angle), from],
            [to, polar(to, OUTSIDE, angle)],
          ];
  const kind = given ? 'line-given' : '';
  const extension = (feature: Point | null | undefined, end: Point): SVGTemplateResult | typeof nothing => {
    if (!feature || distance(feature, end) < EXTENSION_START) return nothing;
    const start = between(feature, end, EXTENSION_START / distance(feature, end));
    const stop = beyond(feature, end, EXTENSION_PAST);
    return svg`<line class="line line-extension ${kind}" x1=${c(start.x)} y1=${c(start.y)} x2=${c(stop.x)} y2=${c(stop.y)}></line>`;
  };
  return svg`<g class="dimension" aria-hidden="true">
    ${extension(dimension.features?.[0], from)}${extension(dimension.features?.[1], to)}
    ${
      cased
        ? runs.map(
            ([a, b]) => svg`<line class="casing" x1=${c(a.x)} y1=${c(a.y)} x2=${c(b.x)} y2=${c(b.y)}></line>`,
          )
        : nothing
    }
    ${runs.map(
      ([a, b]) =>
        svg`<line class="line line-dimension ${kind}" x1=${c(a.x)} y1=${c(a.y)} x2=${c(b.x)} y2=${c(b.y)}></line>`,
    )}
    ${arrowhead(from, tight ? angle : angle + Math.PI, given)}${arrowhead(to, tight ? angle + Math.PI : angle, given)}
    <text class="${given ? 'label-given' : 'label-size'} middle ${cased ? 'cased' : ''}" x=${c(place.x)} y=${c(place.y + 5)}>${text}</text>
  </g>`;
}

/** Middle of a number that stands beside a line: above it, or to the right of an upright one. */
function beside(middle: Point, angle: number, text: string): Point {
  const upper =
    Math.cos(angle) > 1e-6 ? angle + Math.PI / 2 : Math.cos(angle) < -1e-6 ? angle - Math.PI / 2 : 0;
  const clear =
    Math.abs(Math.cos(upper)) * (textWidth(text, TEXT_SIZE) / 2) + Math.abs(Math.sin(upper)) * 6 + 5;
  return polar(middle, clear, upper);
}

const clampShare = (offset: number, limit: number): number =>
  Math.max(-Math.max(limit, 0), Math.min(Math.max(limit, 0), offset));
