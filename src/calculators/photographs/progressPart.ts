import { css, html, nothing, svg, type TemplateResult } from 'lit';
import type { BuildState, Picture } from '../../sheet/schema';
import { markingProgress, pictureName, type RoleSlot } from './roles';
import { lower } from './words';

export interface ProgressParts {
  readonly state: BuildState;
  /** The picture in hand. */
  readonly picture: Picture;
  /** Takes the reader to a picture, with its next point in hand where there is one. */
  readonly goTo: (picture: Picture, next: RoleSlot | null) => void;
}

/** Length of the line under a picture's words, px. */
const LINE = 60;

/**
 * What is still to mark, picture by picture, in one line that stays in sight: each entry leads to its picture and to
 * the next point there. Pictures set aside are left out, since nothing in them waits.
 */
export function progressPart({ state, picture, goTo }: ProgressParts): TemplateResult | typeof nothing {
  const counted = state.pictures.filter((each) => each.counted);
  const [standing, hanging] = [ofKind(counted, 'standing'), ofKind(counted, 'hanging')];
  const unsorted = ofKind(state.pictures, 'unsorted');
  const [first] = unsorted;
  if (!first && standing.length + hanging.length === 0) return nothing;
  return html`<nav class="progress" aria-label="Still to mark">
    <ul>
      ${
        first
          ? html`<li>
              <button type="button" class="to-do" data-progress="sort" @click=${() => goTo(first, null)}>
                <span><b>${unsorted.length} to sort</b></span
                >${line(0)}
              </button>
            </li>`
          : nothing
      }
      ${[...standing, ...hanging].map((each) => entry(state, each, each.id === picture.id, goTo))}
    </ul>
  </nav>`;
}

const ofKind = (pictures: readonly Picture[], kind: Picture['kind']): readonly Picture[] =>
  pictures.filter((picture) => picture.kind === kind);

function entry(
  state: BuildState,
  picture: Picture,
  inHand: boolean,
  goTo: ProgressParts['goTo'],
): TemplateResult {
  const { placed, needed, next } = markingProgress(state, picture);
  const words = next === null ? `all ${needed}` : placed === 0 ? 'not begun' : `${placed} of ${needed}`;
  const spoken = `${placed === 0 ? '' : ' marked'}${next ? `, next: ${lower(next.name)}` : ''}`;
  return html`<li>
    <button
      type="button"
      class=${next ? 'to-do' : ''}
      data-progress=${picture.id}
      aria-current=${inHand ? 'true' : nothing}
      @click=${() => goTo(picture, next)}
    >
      <span><b>${pictureName(state, picture)}</b> ${words}<span class="spoken">${spoken}</span></span
      >${line(needed === 0 ? 1 : placed / needed)}
    </button>
  </li>`;
}

/** Brings the entry of the picture in hand into a line that is longer than the screen is wide. */
export function showInHand(root: ParentNode): void {
  const entry = root.querySelector<HTMLElement>('.progress [aria-current]')?.parentElement;
  const row = entry?.parentElement;
  if (!entry || !row) return;
  const [start, end] = [
    entry.offsetLeft - row.offsetLeft,
    entry.offsetLeft - row.offsetLeft + entry.offsetWidth,
  ];
  if (start < row.scrollLeft) row.scrollLeft = start;
  else if (end > row.scrollLeft + row.clientWidth) row.scrollLeft = end - row.clientWidth;
}

/** The share that is done, drawn: ink over a hairline. */
const line = (share: number): TemplateResult =>
  html`<svg viewBox="0 0 ${LINE} 4" preserveAspectRatio="none" aria-hidden="true">
    ${svg`<path class="whole" d="M0 2H${LINE}"></path><path class="part" d="M0 2H${(LINE * share).toFixed(1)}"></path>`}
  </svg>`;

export const progressStyles = css`
  .progress {
    position: sticky;
    z-index: 3;
    top: var(--frame-head, 0px);
    background: var(--paper);
    border-block-end: 1px solid var(--pad-edge);
  }
  .progress ul {
    display: flex;
    margin: 0;
    padding: 0;
    overflow-x: auto;
    list-style: none;
    scrollbar-width: none;
  }
  .progress li {
    flex: none;
  }
  .progress li + li {
    border-inline-start: 1px solid var(--hair);
  }
  .progress button {
    position: relative;
    display: grid;
    align-content: center;
    gap: 0.15rem;
    min-width: 2.75rem;
    min-height: 2.75rem;
    padding: 0.2rem 0.75rem;
    font-size: 0.875rem;
    line-height: 1.2;
    text-align: start;
    white-space: nowrap;
    color: var(--ink-2);
    background: none;
    border: 0;
    border-radius: 0;
  }
  .progress .to-do {
    color: var(--ink);
  }
  .progress b {
    font-weight: 650;
  }
  .progress [aria-current] {
    background: var(--paper-2);
    box-shadow: inset 0 -3px 0 var(--ink);
  }
  .progress [aria-current] b {
    font-weight: 750;
  }
  .progress button:focus-visible {
    outline-offset: -4px;
  }
  .progress svg {
    width: 100%;
    height: 0.25rem;
  }
  .progress path {
    fill: none;
    stroke: var(--rule);
    stroke-width: 1;
    vector-effect: non-scaling-stroke;
  }
  .progress .part {
    stroke: var(--ink);
    stroke-width: 2.5;
  }
  /* What the keyboard comes to does not stop under the line. */
  .sections :is(button, input, select, summary, a) {
    scroll-margin-block-start: 2.5rem;
  }
  .sections plumb-marking-surface {
    scroll-margin-block-start: 2rem;
  }
  @media (max-width: 40rem) {
    .progress button {
      padding-inline: 0.6rem;
    }
  }
  @media (forced-colors: active) {
    .progress [aria-current] {
      outline: 2px solid Highlight;
      outline-offset: -2px;
    }
  }
  @media print {
    .progress {
      display: none;
    }
  }
`;
