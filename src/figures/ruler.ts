import { html, nothing, svg, type SVGTemplateResult, type TemplateResult } from 'lit';
import type { DragHandle } from './dragHandle';
import { coordinate as c, point } from './geometry';

export interface GuessRuler {
  /** Width to lay out at, px. */
  readonly width: number;
  readonly min: number;
  readonly max: number;
  /** The guess, in the ruler's unit; null leaves the ruler blank, as on paper. */
  readonly value: number | null;
  readonly handle?: DragHandle;
  /** The flag's text; the number if not said. */
  readonly flag?: string;
  /** What lies toward the left end, and what the ruler counts. */
  readonly leftNote: string;
  readonly unitNote: string;
  /** The answer, once revealed: a mark under the line. */
  readonly answer?: { readonly value: number; readonly text: string } | null;
  readonly description: string;
}

const EDGE = 22;
const LINE_Y = 42;

/** px of a value on a ruler of this layout. */
export const rulerX = (
  { width, min, max }: Pick<GuessRuler, 'width' | 'min' | 'max'>,
  value: number,
): number => EDGE + ((value - min) / (max - min)) * (width - 2 * EDGE);

/** Value at a place on the ruler, for its handle; beyond the ends it goes on evenly. */
export const rulerValue = (
  { width, min, max }: Pick<GuessRuler, 'width' | 'min' | 'max'>,
  x: number,
): number => min + ((x - EDGE) / (width - 2 * EDGE)) * (max - min);

/** Smallest of 1, 2, 5 times a power of ten that is at least `least`. */
export function roundStep(least: number): number {
  const power = 10 ** Math.floor(Math.log10(least));
  return ([1, 2, 5].find((n) => n * power >= least * (1 - 1e-9)) ?? 10) * power;
}

/** A ruler to guess on: a flag slides along it; numbers stand at least 44 px apart. */
export function guessRuler(ruler: GuessRuler): TemplateResult {
  const { width, min, max, value, answer } = ruler;
  const perUnit = (width - 2 * EDGE) / (max - min);
  const major = roundStep(44 / perUnit);
  const minor = major / (major * perUnit > 60 ? 10 : 5);
  const notesY = LINE_Y + (answer ? 70 : 48);
  const height = notesY + 6;
  let ticks = '';
  const labels: SVGTemplateResult[] = [];
  const first = Math.ceil(min / minor - 1e-9);
  const last = Math.floor(max / minor + 1e-9);
  const perMajor = Math.round(major / minor);
  for (let i = first; i <= last; i += 1) {
    const x = rulerX(ruler, i * minor);
    const size = i % perMajor === 0 ? 13 : i % (perMajor / 2) === 0 ? 9 : 6;
    ticks += `M${c(x)} ${LINE_Y}v${size}`;
    if (i % perMajor === 0) {
      labels.push(
        svg`<text class="middle" x=${c(x)} y=${LINE_Y + 30}>${Number((i * minor).toPrecision(6))}</text>`,
      );
    }
  }
  return html`<svg
    class="figure"
    viewBox="0 0 ${width} ${height}"
    role="group"
    aria-label=${ruler.description}
  >
    <g aria-hidden="true">
      <path class="line" d=${`M${c(EDGE - 8)} ${LINE_Y}H${c(width - EDGE + 8)}${ticks}`}></path>
      ${labels}
      <text class="label-quiet start" x=${c(EDGE - 8)} y=${notesY}>${ruler.leftNote}</text>
      <text class="label-quiet end" x=${c(width - EDGE + 8)} y=${notesY}>${ruler.unitNote}</text>
      ${
        answer
          ? svg`<path class="line line-thick" d=${`M${c(rulerX(ruler, answer.value))} ${LINE_Y - 12}V${LINE_Y + 17}`}></path>
            <text class="label-strong cased middle" x=${c(rulerX(ruler, answer.value))} y=${LINE_Y + 50}>${answer.text}</text>`
          : nothing
      }
    </g>
    ${value === null ? nothing : flag(ruler, value)}
  </svg>`;
}

function flag(ruler: GuessRuler, value: number): SVGTemplateResult {
  const x = rulerX(ruler, value);
  const text = ruler.flag ?? String(value);
  const half = Math.max(22, text.length * 5 + 9);
  const d = `M${c(x)} ${LINE_Y - 1}L${c(x - 7)} ${LINE_Y - 9}H${c(x - half)}V${LINE_Y - 37}H${c(x + half)}V${LINE_Y - 9}H${c(x + 7)}Z`;
  const drawn = svg`<path class="flag" d=${d}></path>
    <text class="label-given middle" x=${c(x)} y=${LINE_Y - 17}>${text}</text>`;
  return ruler.handle ? ruler.handle.template(point(x, LINE_Y - 22), drawn, half + 3) : drawn;
}
