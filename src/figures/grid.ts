import { svg, type SVGTemplateResult } from 'lit';
import { coordinate as c, type Point } from './geometry';

/** A box on the page, px. */
export interface PageBox {
  readonly x: number;
  readonly y: number;
  readonly width: number;
  readonly height: number;
}

/** Grid paths, thin lines and every fifth apart, aligned to `origin`. Spacing in px, positive. */
export function gridPaths(box: PageBox, origin: Point, spacing: number): { fine: string; fifth: string } {
  let fine = '';
  let fifth = '';
  const each = (start: number, size: number, zero: number, draw: (at: number) => string): void => {
    const first = Math.ceil((start - zero) / spacing);
    const last = Math.floor((start + size - zero) / spacing);
    for (let i = first; i <= last; i += 1) {
      const line = draw(zero + i * spacing);
      if (i % 5 === 0) fifth += line;
      else fine += line;
    }
  };
  each(box.x, box.width, origin.x, (x) => `M${c(x)} ${c(box.y)}v${c(box.height)}`);
  each(box.y, box.height, origin.y, (y) => `M${c(box.x)} ${c(y)}h${c(box.width)}`);
  return { fine, fifth };
}

/**
 * The pad's grid, a scale and no decoration: one small square is 10 mm (at `scale` px per mm), aligned to the
 * truck's origin. The figure states it in words.
 */
export function padGrid(box: PageBox, origin: Point, scale: number, squareMm = 10): SVGTemplateResult {
  const { fine, fifth } = gridPaths(box, origin, squareMm * scale);
  return svg`<g class="pad-grid" aria-hidden="true">
    <path class="grid" d=${fine}></path><path class="grid-fifth" d=${fifth}></path>
  </g>`;
}
