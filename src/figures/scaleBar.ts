import { svg, type SVGTemplateResult } from 'lit';
import { lengthIn, millimeters, type Length } from '../physics';
import { coordinate as c, type Point } from './geometry';

/** The longest of 1, 2 and 5 times a power of ten, in mm, that stays within `room` px at `scale` px per mm. */
export function scaleBarLength(scale: number, room: number): Length {
  const most = room / scale;
  const power = 10 ** Math.floor(Math.log10(most));
  const step = [5, 2, 1].find((n) => n * power <= most) ?? 1;
  return millimeters(step * power);
}

/**
 * A scale bar with ticks at every tenth, for paper and photographs, where there is no grid. `at` is its left
 * end on the bar line, px.
 */
export function scaleBar(at: Point, scale: number, size: Length): SVGTemplateResult {
  const sizeMm = lengthIn(size, 'mm');
  const width = sizeMm * scale;
  let ticks = '';
  for (let i = 0; i <= 10; i += 1) {
    ticks += `M${c(at.x + (width * i) / 10)} ${c(at.y)}v${i % 5 === 0 ? -9 : -5}`;
  }
  const bar = `M${c(at.x)} ${c(at.y)}h${c(width)}`;
  return svg`<g class="scale-bar" aria-hidden="true">
    <path class="casing" d=${bar + ticks}></path>
    <path class="line" d=${bar + ticks}></path>
    <text class="label-quiet cased middle" x=${c(at.x)} y=${c(at.y + 17)}>0</text>
    <text class="label-quiet cased middle" x=${c(at.x + width)} y=${c(at.y + 17)}>${Number(sizeMm.toPrecision(3))} mm</text>
  </g>`;
}
