import { svg, type SVGTemplateResult } from 'lit';
import { pathThrough, polar, type Point } from './geometry';

/** Slender and filled, 10 by 3 px. */
export const ARROW_LENGTH = 10;
const HALF_WIDTH = 1.7;

/** An arrowhead with its point at `tip`, flying in page direction `angle` (rad). */
export function arrowhead(tip: Point, angle: number, given = false): SVGTemplateResult {
  const base = polar(tip, -ARROW_LENGTH, angle);
  const corners = [
    tip,
    polar(base, HALF_WIDTH, angle + Math.PI / 2),
    polar(base, -HALF_WIDTH, angle + Math.PI / 2),
  ];
  return svg`<path class="arrowhead ${given ? 'arrowhead-given' : ''}" d=${pathThrough(corners, true)}></path>`;
}
