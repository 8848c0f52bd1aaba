import { svg, type SVGTemplateResult } from 'lit';
import { coordinate as c, type Point } from './geometry';

/** Radius of the sign, px, unless a figure says otherwise; 8 to 11 by the drawing's rules. */
export const SIGN_RADIUS = 10;

/** The quartered circle: center of gravity. Quarters upper right and lower left are filled; nothing else may look like it. */
export function centerOfGravitySign(center: Point, radius = SIGN_RADIUS): SVGTemplateResult {
  const { x, y } = center;
  return svg`<g class="cg" aria-hidden="true">
    <circle class="cg-casing" cx=${c(x)} cy=${c(y)} r=${c(radius + 2.6)}></circle>
    <circle class="cg-ring" cx=${c(x)} cy=${c(y)} r=${c(radius)}></circle>
    <path class="cg-quarters" d=${quarters(center, radius)}></path>
  </g>`;
}

/** An open ring: where the center of gravity was before. */
export const formerCenterOfGravity = ({ x, y }: Point, radius = SIGN_RADIUS - 2): SVGTemplateResult =>
  svg`<circle class="cg-former" cx=${c(x)} cy=${c(y)} r=${c(radius)}></circle>`;

/** Path of the two filled quarters. */
export const quarters = ({ x, y }: Point, radius: number): string => {
  const r = c(radius);
  return (
    `M${c(x)} ${c(y)}V${c(y - radius)}A${r} ${r} 0 0 1 ${c(x + radius)} ${c(y)}Z` +
    `M${c(x)} ${c(y)}V${c(y + radius)}A${r} ${r} 0 0 1 ${c(x - radius)} ${c(y)}Z`
  );
};
