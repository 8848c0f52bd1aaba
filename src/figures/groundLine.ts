import { nothing, svg, type SVGTemplateResult } from 'lit';
import { coordinate as c, direction, distance, polar, type Point } from './geometry';

/** Path of the short slanted strokes below a ground line, every 11 px, leaning back by 45°. */
export function groundStrokes(from: Point, to: Point, size = 11, spacing = 11): string {
  const along = direction(from, to);
  const count = Math.floor((distance(from, to) - size * 0.7) / spacing);
  let path = '';
  for (let i = 0; i <= count; i += 1) {
    const top = polar(from, size * 0.7 + i * spacing, along);
    const end = polar(top, size, along - (3 * Math.PI) / 4);
    path += `M${c(top.x)} ${c(top.y)}L${c(end.x)} ${c(end.y)}`;
  }
  return path;
}

/** The ground: a thick line, short slanted strokes below it. `from` is the left end. */
export function groundLine(from: Point, to: Point, strokes = true): SVGTemplateResult {
  return svg`<g aria-hidden="true">
    ${strokes ? svg`<path class="ground-strokes" d=${groundStrokes(from, to)}></path>` : nothing}
    <line class="ground" x1=${c(from.x)} y1=${c(from.y)} x2=${c(to.x)} y2=${c(to.y)}></line>
  </g>`;
}
