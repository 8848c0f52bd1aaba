import { html, nothing, svg, type SVGTemplateResult, type TemplateResult } from 'lit';
import { angleIn, COVERAGE, radians, type Angle } from '../physics';
import { hatchedOutline } from './errorEllipse';
import { coordinate as c, pathThrough, point, polar, type Point } from './geometry';
import { printedDegrees } from './numbers';
import { headingOnPage } from './tipLines';

/** Limit slope at one heading. u: its standard uncertainty, rad; null if not known. */
export interface LimitSample {
  readonly heading: Angle;
  readonly slope: Angle;
  readonly u: number | null;
}

export interface PolarLimit {
  /** Width to lay out at, px. */
  readonly width: number;
  /** Round the truck in order of heading; every degree draws the corners sharp enough. */
  readonly samples: readonly LimitSample[];
  /** Slope limits over the four ways down, for the labels; null where there is none. */
  readonly noseDown: Angle | null;
  readonly leftDown: Angle | null;
  readonly noseUp: Angle | null;
  readonly rightDown: Angle | null;
  /** The heading now, and the limit there. */
  readonly heading: Angle;
  readonly limit: Angle | null;
  /** Slopes at which the truck slides, whatever the heading. */
  readonly slides?: readonly { readonly name: string; readonly slope: Angle }[];
  /** Whether the ± of the limit is hatched; it needs the samples' u. */
  readonly band?: boolean;
  readonly description: string;
}

const SIDE_ROOM = 66;
const END_ROOM = 42;
const LARGEST_RADIUS = 150;

/** The steepest slope for every heading, out from the middle in degrees; nose up on the page. */
export function polarLimit(figure: PolarLimit): TemplateResult {
  const { width, samples, heading, limit } = figure;
  const radius = Math.min(LARGEST_RADIUS, Math.max(60, width / 2 - SIDE_ROOM));
  const center = point(width / 2, radius + END_ROOM);
  const height = 2 * (radius + END_ROOM);
  const slides = figure.slides ?? [];
  const steepest = Math.max(
    30,
    ...samples.map(({ slope, u }) =>
      angleIn(radians(slope + (figure.band && u !== null ? COVERAGE * u : 0)), 'deg'),
    ),
    ...slides.map(({ slope }) => angleIn(slope, 'deg')),
  );
  const perDegree = radius / (steepest * 1.02);
  const at = (way: Angle, slope: Angle): Point =>
    polar(center, perDegree * angleIn(slope, 'deg'), headingOnPage(way));
  const outline = samples.map((sample) => at(sample.heading, sample.slope));
  const step = steepest > 45 ? 20 : 10;
  const rings = [1, 2, 3, 4].map((i) => i * step).filter((ring) => ring <= steepest);
  // Every ring has its number, or every other one where they would touch.
  const numbered = rings.filter((_, i) => step * perDegree > 36 || i % 2 === 0);
  const marker = limit === null ? null : at(heading, limit);
  const far = polar(center, radius + 6, headingOnPage(heading));
  return html`<svg
    class="figure"
    viewBox="0 0 ${width} ${height}"
    role="img"
    aria-label=${figure.description}
  >
    <path class="polar-inside" d=${pathThrough(outline, true)}></path>
    <g class="polar-rings">
      ${rings.map((ring) => svg`<circle class="grid-fifth" cx=${c(center.x)} cy=${c(center.y)} r=${c(ring * perDegree)}></circle>`)}
      <path class="grid-fifth" d=${spokes(center, radius + 8)}></path>
    </g>
    ${figure.band ? band(samples, at) : nothing}
    <path class="line polar-edge" d=${pathThrough(outline, true)}></path>
    ${slides.map(
      ({ slope }) =>
        svg`<circle class="line line-hidden" cx=${c(center.x)} cy=${c(center.y)} r=${c(perDegree * angleIn(slope, 'deg'))}></circle>`,
    )}
    ${numbered.map((ring) => {
      const place = polar(center, ring * perDegree, Math.PI / 9);
      return svg`<text class="label-quiet cased middle" x=${c(place.x)} y=${c(place.y + 5)}>${ring}°</text>`;
    })}
    ${slides.map(
      ({ name, slope }) =>
        svg`<text class="label-quiet cased middle" x=${c(center.x)} y=${c(center.y + perDegree * angleIn(slope, 'deg') - 6)}>${name}</text>`,
    )}
    <line class="casing" x1=${c(center.x)} y1=${c(center.y)} x2=${c(far.x)} y2=${c(far.y)}></line>
    <line class="line line-string" x1=${c(center.x)} y1=${c(center.y)} x2=${c(far.x)} y2=${c(far.y)}></line>
    ${marker ? svg`<circle class="pivot" cx=${c(marker.x)} cy=${c(marker.y)} r="6"></circle>` : nothing}
    ${sideLabel('nose down', figure.noseDown, point(center.x, 20))}
    ${sideLabel('nose up', figure.noseUp, point(center.x, height - 10))}
    ${stackedLabel('left', figure.leftDown, point(center.x - radius - 14, center.y), 'end')}
    ${stackedLabel('right', figure.rightDown, point(center.x + radius + 14, center.y), 'start')}
  </svg>`;
}

/** Ring between limit − ± and limit + ±, as two outlines. */
function band(
  samples: readonly LimitSample[],
  at: (heading: Angle, slope: Angle) => Point,
): SVGTemplateResult | typeof nothing {
  const known = samples.flatMap(({ heading, slope, u }) => (u === null ? [] : [{ heading, slope, u }]));
  if (known.length < samples.length || known.length < 3) return nothing;
  return hatchedOutline([
    known.map(({ heading, slope, u }) => at(heading, radians(slope + COVERAGE * u))),
    known.map(({ heading, slope, u }) => at(heading, radians(Math.max(0, slope - COVERAGE * u)))),
  ]);
}

const spokes = (center: Point, size: number): string =>
  Array.from({ length: 12 }, (_, i) => {
    const end = polar(center, size, (i * Math.PI) / 6);
    return `M${c(center.x)} ${c(center.y)}L${c(end.x)} ${c(end.y)}`;
  }).join('');

const sideLabel = (name: string, slope: Angle | null, at: Point): SVGTemplateResult =>
  svg`<text class="label-strong middle" x=${c(at.x)} y=${c(at.y)}>${name}${slope === null ? '' : ` ${printedDegrees(slope)}`}</text>`;

const stackedLabel = (name: string, slope: Angle | null, at: Point, anchor: string): SVGTemplateResult =>
  svg`<text class="label-quiet ${anchor}" x=${c(at.x)} y=${c(at.y - 6)}>${name}</text>
    <text class="label-strong ${anchor}" x=${c(at.x)} y=${c(at.y + 13)}>${slope === null ? '' : printedDegrees(slope)}</text>`;
