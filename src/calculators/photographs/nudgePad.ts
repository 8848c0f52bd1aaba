import { css, html, LitElement } from 'lit';
import { customElement, property } from 'lit/decorators.js';
import { baseStyles, buttonStyles } from '../shared/styles';
import { NUDGE_STEPS } from './markingSurface';

/** Detail of 'nudge': how far to move the mark in hand, in picture pixels, x right and y down. */
export interface NudgeDetail {
  readonly dx: number;
  readonly dy: number;
}

const STEPS = [NUDGE_STEPS.fine, NUDGE_STEPS.plain, NUDGE_STEPS.coarse, NUDGE_STEPS.far] as const;

const ARROWS = [
  { name: 'up', dx: 0, dy: -1, path: 'M10 16V4.5M5 9l5-5 5 5' },
  { name: 'left', dx: -1, dy: 0, path: 'M16 10H4.5M9 5l-5 5 5 5' },
  { name: 'right', dx: 1, dy: 0, path: 'M4 10h11.5M11 5l5 5-5 5' },
  { name: 'down', dx: 0, dy: 1, path: 'M10 4v11.5M5 11l5 5 5-5' },
] as const;

/**
 * Four arrows and a step for moving the mark in hand without a keyboard. Asks with 'nudge' events.
 */
@customElement('plumb-nudge-pad')
export class NudgePad extends LitElement {
  /** What is moved, for the buttons' names: "Mark C". Empty: nothing is in hand. */
  @property() what = '';
  @property({ type: Number }) step: number = NUDGE_STEPS.plain;

  static override styles = [
    baseStyles,
    buttonStyles,
    css`
      .pad {
        display: grid;
        grid-template-columns: repeat(3, minmax(2.75rem, 3.4rem));
        grid-template-areas: '. up .' 'left middle right' '. down .';
        gap: 0.35rem;
        justify-content: center;
      }
      .pad button {
        min-height: 2.9rem;
        padding: 0;
      }
      .up {
        grid-area: up;
      }
      .left {
        grid-area: left;
      }
      .right {
        grid-area: right;
      }
      .down {
        grid-area: down;
      }
      .middle {
        grid-area: middle;
        display: grid;
        place-content: center;
        text-align: center;
        font-size: 0.875rem;
        line-height: 1.15;
        color: var(--ink-2);
      }
      fieldset {
        margin-block-start: 0.6rem;
      }
      legend {
        padding: 0;
        margin-block-end: 0.2rem;
        font-size: 0.875rem;
        color: var(--ink-2);
      }
      .switch label {
        padding: 0.2rem;
      }
      fieldset.frame {
        border: 0;
        padding: 0;
        margin-inline: 0;
        min-width: 0;
      }
    `,
  ];

  override render() {
    return html`
      <div class="pad" role="group" aria-label="Move the mark in hand">
        ${ARROWS.map(
          ({ name, dx, dy, path }) =>
            html`<button
              class="button ${name}"
              type="button"
              ?disabled=${this.what === ''}
              aria-label="Move ${this.what || 'the mark'} ${name}"
              @click=${() => this.#move(dx, dy)}
            >
              <svg class="icon" viewBox="0 0 20 20" aria-hidden="true"><path d=${path}></path></svg>
            </button>`,
        )}
        <span class="middle" aria-hidden="true">${this.step}<br />px</span>
      </div>
      <fieldset class="frame">
        <legend>Step, picture pixels</legend>
        <div class="switch">
          ${STEPS.map(
            (step) =>
              html`<label
                ><input
                  type="radio"
                  name="step"
                  .checked=${step === this.step}
                  @change=${() => {
                    this.step = step;
                  }}
                />${step}</label
              >`,
          )}
        </div>
      </fieldset>
    `;
  }

  #move(dx: number, dy: number): void {
    const detail: NudgeDetail = { dx: dx * this.step, dy: dy * this.step };
    this.dispatchEvent(new CustomEvent<NudgeDetail>('nudge', { detail }));
  }
}

declare global {
  interface HTMLElementTagNameMap {
    'plumb-nudge-pad': NudgePad;
  }
}
