import { svg, type SVGTemplateResult } from 'lit';
import { ellipsePoints, pathThrough, type Point } from './geometry';
import { hatchPath, rectangle } from './hatch';

/** An ellipse on the page: semi-axes in px, `angle` of the major axis in rad, counter-clockwise from right. */
export interface PageEllipse {
  readonly center: Point;
  readonly semiMajor: number;
  readonly semiMinor: number;
  readonly angle: number;
}

/**
 * Where a point may lie, 19 times in 20: hatched, edged, nothing behind text. Below 2 px it is too small to see
 * and is left to a detail circle: nothing is drawn.
 */
export function hatchedEllipse(ellipse: PageEllipse, spacing = 5): SVGTemplateResult {
  if (ellipse.semiMajor < 2) return svg``;
  const outline = ellipsePoints(
    ellipse.center,
    ellipse.semiMajor,
    Math.max(ellipse.semiMinor, 0.6),
    ellipse.angle,
  );
  return hatchedOutline([outline], spacing, ELLIPSE_HATCH);
}

/** Ellipses are hatched nearer to level than bars, so that lines crossing in them stay readable. */
export const ELLIPSE_HATCH = Math.PI / 9;

/** A hatched area of one or more closed rings; an inner ring is a hole. */
export function hatchedOutline(
  rings: readonly (readonly Point[])[],
  spacing = 5,
  angle = Math.PI / 4,
): SVGTemplateResult {
  const edge = rings.map((ring) => pathThrough(ring, true)).join('');
  return svg`<g class="unsure" aria-hidden="true">
    <path class="unsure-wash" fill-rule="evenodd" d=${edge}></path>
    <path class="unsure-hatch" d=${hatchPath(rings, spacing, angle)}></path>
    <path class="unsure-edge" d=${edge}></path>
  </g>`;
}

/** A hatched rectangle: ± along a scale. Upper left corner (x, y), px. */
export function hatchedBar(x: number, y: number, width: number, height: number): SVGTemplateResult {
  if (!(width > 0) || !(height > 0)) return svg``;
  return hatchedOutline([rectangle(x, y, width, height)]);
}
