import { nothing, svg, type SVGTemplateResult } from 'lit';
import type { ChartValue } from './chartUnit';
import { coordinate as c, pathThrough, point, type Point } from './geometry';
import { onScale, type ValueScale } from './valueScale';

/** What stands at the value: counted, struck (out of line or set aside), only recorded, the answer, another answer. */
export type BarMark = 'dot' | 'struck' | 'ring' | 'diamond' | 'open diamond';

const CAP = 7;
const DOT = 5.5;
const RING = 7;
const DIAMOND = 8.5;
/** Length and half width of the arrow of a bar that runs out, px. */
export const RUN_OUT = 9;
const RUN_OUT_HALF = 5;
/** What is left of a bar that lies beyond the scale altogether, px. */
const STUB = 22;

/**
 * A value with its ± on a scale, at height `y`: end caps, and a mark at the value. Where the bar leaves the scale it ends
 * in an arrow at the edge; a value beyond the edge has no mark.
 */
export function errorBar(scale: ValueScale, y: number, own: ChartValue, mark: BarMark): SVGTemplateResult {
  const { left, right } = scale;
  const [low, high] = [own.value - own.halfWidth, own.value + own.halfWidth];
  const outLeft = low < scale.from;
  const outRight = high > scale.to;
  const start = outLeft ? left : Math.min(scale.x(low), right - STUB);
  const end = outRight ? right : Math.max(scale.x(high), left + STUB);
  const bar =
    `M${c(start + (outLeft ? RUN_OUT - 1 : 0))} ${c(y)}H${c(end - (outRight ? RUN_OUT - 1 : 0))}` +
    (outLeft || low > scale.to ? '' : cap(start, y)) +
    (outRight || high < scale.from ? '' : cap(end, y));
  return svg`<path class="casing" d=${bar}></path>
    <path class="chart-bar" d=${bar}></path>
    ${outLeft ? runOut(point(left, y), 1) : nothing}
    ${outRight ? runOut(point(right, y), -1) : nothing}
    ${onScale(scale, own.value) ? markAt(point(scale.x(own.value), y), mark) : nothing}`;
}

const cap = (x: number, y: number): string => `M${c(x)} ${c(y - CAP)}v${2 * CAP}`;

/** The arrow of what runs out of a scale. `inward`: which way its base lies from its tip, 1 to the right. */
export function runOut(tip: Point, inward: 1 | -1): SVGTemplateResult {
  const base = tip.x + inward * RUN_OUT;
  const corners = [tip, point(base, tip.y - RUN_OUT_HALF), point(base, tip.y + RUN_OUT_HALF)];
  return svg`<path class="chart-run-out" d=${pathThrough(corners, true)}></path>`;
}

function markAt({ x, y }: Point, mark: BarMark): SVGTemplateResult {
  switch (mark) {
    case 'dot':
      return svg`<circle class="chart-dot" cx=${c(x)} cy=${c(y)} r=${DOT}></circle>`;
    case 'ring':
      return svg`<circle class="chart-dot chart-open" cx=${c(x)} cy=${c(y)} r=${DOT}></circle>`;
    case 'struck': {
      const reach = RING * Math.SQRT1_2;
      return svg`<circle class="chart-dot chart-open" cx=${c(x)} cy=${c(y)} r=${RING}></circle>
        <path class="chart-dot" d=${`M${c(x - reach)} ${c(y + reach)}L${c(x + reach)} ${c(y - reach)}`}></path>`;
    }
    case 'diamond':
    case 'open diamond': {
      const corners = [
        point(x - DIAMOND, y),
        point(x, y - DIAMOND),
        point(x + DIAMOND, y),
        point(x, y + DIAMOND),
      ];
      return svg`<path class="chart-dot ${mark === 'diamond' ? '' : 'chart-open'}" d=${pathThrough(corners, true)}></path>`;
    }
  }
}
