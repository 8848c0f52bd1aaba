import type { SVGTemplateResult } from 'lit';
import { svg } from 'lit';
import { coordinate as c, polar, type Point } from '../../figures';

/** A blue knob with a double arrow along the page direction it can be moved in (rad). */
export function knob(at: Point, along: number, radius = 13): SVGTemplateResult {
  const ends = [polar(at, 7, along), polar(at, -7, along)] as const;
  const barb = (tip: Point, way: number): string => {
    const [p, q] = [polar(tip, -5, way + 0.75), polar(tip, -5, way - 0.75)];
    return `M${c(p.x)} ${c(p.y)}L${c(tip.x)} ${c(tip.y)}L${c(q.x)} ${c(q.y)}`;
  };
  const shaft = `M${c(ends[0].x)} ${c(ends[0].y)}L${c(ends[1].x)} ${c(ends[1].y)}`;
  return svg`<circle class="cg-casing" cx=${c(at.x)} cy=${c(at.y)} r=${c(radius + 3)}></circle>
    <circle class="handle-knob" cx=${c(at.x)} cy=${c(at.y)} r=${c(radius)}></circle>
    <path class="handle-sign" d=${shaft + barb(ends[0], along) + barb(ends[1], along + Math.PI)}></path>`;
}
