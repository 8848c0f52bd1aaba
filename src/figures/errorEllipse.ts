import { svg, type SVGTemplateResult } from 'lit';
import { ellipsePoints, pathThrough, type Point } from './geometry';
import { hatchPath } from './hatch';

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
export function errorEllipse(ellipse: PageEllipse, spacing = 5): SVGTemplateResult {
  if (ellipse.semiMajor < 2) return svg``;
  const outline = ellipsePoints(
    ellipse.center,
    ellipse.semiMajor,
    Math.max(ellipse.semiMinor, 0.6),
    ellipse.angle,
  );
  const edge = pathThrough(outline, true);
  return svg`<g class="unsure" aria-hidden="true">
    <path class="unsure-wash" d=${edge}></path>
    <path class="unsure-hatch" d=${hatchPath([outline], spacing, Math.PI / 9)}></path>
    <path class="unsure-edge" d=${edge}></path>
  </g>`;
}

/** A hatched rectangle: ± along a scale. Upper left corner (x, y), px. */
export function hatchedBar(x: number, y: number, width: number, height: number): SVGTemplateResult {
  if (!(width > 0) || !(height > 0)) return svg``;
  const corners = [
    { x, y },
    { x: x + width, y },
    { x: x + width, y: y + height },
    { x, y: y + height },
  ];
  const edge = pathThrough(corners, true);
  return svg`<g class="unsure" aria-hidden="true">
    <path class="unsure-wash" d=${edge}></path>
    <path class="unsure-hatch" d=${hatchPath([corners], 5)}></path>
    <path class="unsure-edge" d=${edge}></path>
  </g>`;
}
