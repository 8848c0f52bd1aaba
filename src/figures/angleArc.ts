import { nothing, svg, type SVGTemplateResult } from 'lit';
import { ARROW_LENGTH, arrowhead } from './arrowhead';
import { coordinate as c, polar, type Point } from './geometry';

export interface AngleArc {
  readonly center: Point;
  readonly radius: number;
  /** Page directions the arc runs between, rad, counter-clockwise from right; it runs from `from` up to `to`. */
  readonly from: number;
  readonly to: number;
  readonly text?: string;
  /** Where the number stands: page direction and distance from the center; middle of the arc, 22 px out, if not said. */
  readonly textAt?: { readonly direction: number; readonly distance: number };
  readonly arrows?: 'both' | 'from' | 'to' | 'none';
  readonly given?: boolean;
  /** The number as the figure's answer, large. */
  readonly large?: boolean;
  readonly cased?: boolean;
}

/** SVG path of a circular arc from page direction `from` counter-clockwise to `to`, rad. */
export function arcPath(center: Point, radius: number, from: number, to: number): string {
  const start = polar(center, radius, from);
  const end = polar(center, radius, to);
  const r = c(radius);
  return `M${c(start.x)} ${c(start.y)}A${r} ${r} 0 ${to - from > Math.PI ? 1 : 0} 0 ${c(end.x)} ${c(end.y)}`;
}

/** An arrowed arc for an angle, with its number. */
export function angleArc(arc: AngleArc): SVGTemplateResult {
  const { center, radius, from, to, arrows = 'both', given = false } = arc;
  const at = arc.textAt ?? { direction: (from + to) / 2, distance: radius + 22 };
  const place = polar(center, at.distance, at.direction);
  // An arrowhead is straight and the arc is not: turned by half the angle it spans, its base lies on the arc.
  const lean = ARROW_LENGTH / (2 * radius);
  const kind = given ? 'line-given' : '';
  const d = arcPath(center, radius, from, to);
  const label = `${given ? 'label-given' : arc.large ? 'label-answer' : 'label-angle'} middle cased`;
  return svg`<g class="angle" aria-hidden="true">
    ${arc.cased ? svg`<path class="casing" d=${d}></path>` : nothing}
    <path class="line ${kind}" d=${d}></path>
    ${
      arrows === 'both' || arrows === 'from'
        ? arrowhead(polar(center, radius, from), from - Math.PI / 2 + lean, given)
        : nothing
    }
    ${
      arrows === 'both' || arrows === 'to'
        ? arrowhead(polar(center, radius, to), to + Math.PI / 2 - lean, given)
        : nothing
    }
    ${arc.text === undefined ? nothing : svg`<text class=${label} x=${c(place.x)} y=${c(place.y + (arc.large ? 7 : 5))}>${arc.text}</text>`}
  </g>`;
}
