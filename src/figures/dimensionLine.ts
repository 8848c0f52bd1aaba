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
  const halfWidth = textWidth(text, TEXT_SIZE) / 2 + 4;
  const halfHeight = TEXT_SIZE / 2 + 3;
  const along = Math.abs(Math.cos(angle));
  const across = Math.abs(Math.sin(angle));
  return Math.min(
    along > 1e-9 ? halfWidth / along : Infinity,
    across > 1e-9 ? halfHeight / across : Infinity,
  );
}

/**
 * A dimension: arrowed line broken for its number, extension lines from the features. Where the line is too
 * short for number and arrows, the arrows point in from outside and the number stands beyond the far end.
 */
export function dimensionLine(dimension: Dimension): SVGTemplateResult {
  const { from, to, text, given = false, at = 0.5, cased = false } = dimension;
  const span = distance(from, to);
  const angle = direction(from, to);
  const gap = halfGap(text, angle);
  const tight = span < 2 * gap + 2 * ARROW_LENGTH + 4;
  const room = span / 2 - ARROW_LENGTH - gap;
  // The number keeps clear of the arrowheads wherever it is asked to stand.
  const share = tight ? 0.5 : 0.5 + clampShare(at - 0.5, room / span);
  const place = tight ? polar(to, OUTSIDE + gap + 2, angle) : between(from, to, share);
  const runs: [Point, Point][] = tight
    ? [
        [polar(from, -OUTSIDE, angle), from],
        [to, polar(to, OUTSIDE, angle)],
      ]
    : [
        [from, polar(place, -gap, angle)],
        [polar(place, gap, angle), to],
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

const clampShare = (offset: number, limit: number): number =>
  Math.max(-Math.max(limit, 0), Math.min(Math.max(limit, 0), offset));
