import { css, html, LitElement, nothing, type TemplateResult } from 'lit';
import { customElement, property } from 'lit/decorators.js';
import { asSpeech, type Shown } from './format';
import { baseStyles, buttonStyles } from './styles';
import './warning';

/** What a result can be. Only 'current' gets the double underline; no state shows an old number as if it held. */
export type ResultState =
  | {
      readonly kind: 'current';
      readonly shown: Shown;
      /** worked from a trial copy */ readonly trial?: boolean;
    }
  | {
      readonly kind: 'needs';
      /** One sentence why there is no answer yet. */
      readonly why: string;
      readonly missing: readonly { readonly what: string; readonly href: string }[];
    }
  | { readonly kind: 'computing'; readonly done?: number; readonly total?: number; readonly unit?: string }
  | {
      readonly kind: 'cannot';
      readonly title: string;
      readonly text: string;
      readonly href?: string;
      readonly link?: string;
    }
  | { readonly kind: 'stale'; readonly shown: Shown; readonly why: string };

/**
 * One result: label above, number, ± and unit, double underline as on a worked sheet.
 *
 *     <plumb-result label="above ground" .state=${{ kind: 'current', shown: showLength(height) }}></plumb-result>
 *
 * Show 'computing' only after 0.3 s. Events: `result-stop` (reader stops a computation), `result-again` (reader
 * wants a stale result worked again).
 */
@customElement('plumb-result')
export class ResultView extends LitElement {
  @property() label = '';
  @property({ attribute: false }) state: ResultState = { kind: 'needs', why: '', missing: [] };

  static override styles = [
    baseStyles,
    buttonStyles,
    css`
      .label {
        font-size: 0.875rem;
        color: var(--ink-2);
      }
      .trial-word {
        font-weight: 650;
        color: var(--blue);
      }
      .result {
        display: inline-flex;
        flex-wrap: wrap;
        align-items: baseline;
        column-gap: 0.55rem;
        line-height: 1.2;
      }
      .current {
        position: relative;
        padding-block-end: 0.55rem;
      }
      .current::after {
        content: '';
        position: absolute;
        inset-inline: 0;
        inset-block-end: 0;
        height: 5px;
        border-block: 1.3px solid var(--ink);
      }
      .value {
        font-size: 2.125rem;
        font-weight: 750;
      }
      .plus-minus {
        font-size: 1.3125rem;
        font-weight: 550;
      }
      .unit {
        font-size: 1.0625rem;
        font-weight: 500;
        margin-inline-start: -0.3rem;
      }
      .stale {
        color: var(--ink-2);
        text-decoration: line-through;
      }
      .stale .value,
      .stale .plus-minus,
      .stale .unit {
        font-size: 1.5rem;
        font-weight: 500;
      }
      p {
        font-size: 0.9375rem;
        line-height: 1.45;
      }
      .bar {
        display: block;
        width: min(100%, 16rem);
        height: 9px;
        margin-block: 0.45rem;
        stroke: var(--ink);
        fill: none;
      }
      .bar path {
        stroke: var(--teal);
      }
      .quiet {
        min-height: 0;
        min-width: 0;
        padding: 0.6rem 0.2rem;
        margin-block: -0.6rem;
        font-weight: inherit;
      }
      .redrawn::after {
        animation: draw 200ms ease-out;
        transform-origin: left;
      }
      @keyframes draw {
        from {
          transform: scaleX(0);
        }
      }
      @media (prefers-reduced-motion: reduce) {
        .redrawn::after {
          animation: none;
        }
      }
    `,
  ];

  override render() {
    const trial = this.state.kind === 'current' && this.state.trial === true;
    return html`
      <p class="label">
        ${this.label}${trial ? html` · <span class="trial-word">trial, not kept</span>` : nothing}
      </p>
      <div aria-live="polite" aria-atomic="true">${this.renderState()}</div>
    `;
  }

  private renderState(): TemplateResult {
    const { state } = this;
    switch (state.kind) {
      case 'current':
        return html`<span class="result current">${renderShown(state.shown)}</span>`;
      case 'needs':
        return html`<p>
          <strong>No answer yet.</strong> ${state.why}
          ${state.missing.length > 0 ? html`Still needed: ${links(state.missing)}.` : nothing}
        </p>`;
      case 'computing':
        return html`${progressBar(state.done, state.total)}
          <p>
            ${
              state.done !== undefined && state.total !== undefined
                ? `${state.done} of ${state.total} ${state.unit ?? 'draws'}. `
                : ''
            }The
            old number is gone until the new one is ready.
            <button class="quiet" type="button" @click=${() => this.tell('result-stop')}>Stop</button>
          </p>`;
      case 'cannot':
        return html`<plumb-bracket kind="warning" title-text=${state.title}
          >${state.text}${state.href && state.link ? html` <a href=${state.href}>${state.link}</a>` : nothing}</plumb-bracket
        >`;
      case 'stale':
        return html`<span class="result stale">${renderShown(state.shown)}</span>
          <p>
            <strong>Not current.</strong> ${state.why}
            <button class="quiet" type="button" @click=${() => this.tell('result-again')}>
              Compute again
            </button>
          </p>`;
    }
  }

  private tell(name: 'result-stop' | 'result-again'): void {
    this.dispatchEvent(new CustomEvent(name, { bubbles: true, composed: true }));
  }
}

/** Number, ± and unit in their three sizes, for a .result box; spoken as one phrase. */
function renderShown(shown: Shown): TemplateResult {
  const degree = shown.unit === '°';
  const sign = degree ? '°' : '';
  return html`<span class="spoken">${asSpeech(shown)}</span>
    <span class="value" aria-hidden="true">${shown.value}${sign}</span>
    ${
      shown.plusMinus
        ? html`<span class="plus-minus" aria-hidden="true">± ${shown.plusMinus}${sign}</span>`
        : nothing
    }
    ${degree ? nothing : html`<span class="unit" aria-hidden="true">${shown.unit}</span>`}`;
}

/** "the hook of hang 2, its string angle", each a link to its field. */
export const links = (
  missing: readonly { readonly what: string; readonly href: string }[],
): TemplateResult[] =>
  missing.map(({ what, href }, index) => html`${index > 0 ? ', ' : ''}<a href=${href}>${what}</a>`);

/** A hatched bar, counted where the total is known. */
function progressBar(done: number | undefined, total: number | undefined): TemplateResult {
  const share = done !== undefined && total !== undefined && total > 0 ? Math.min(1, done / total) : 0.5;
  const strokes = Array.from({ length: Math.floor(share * 40) }, (_, i) => `M${i * 6 + 1} 8l5 -7`).join('');
  return html`<svg class="bar" viewBox="0 0 246 9" preserveAspectRatio="none" aria-hidden="true">
    <rect x="0.5" y="0.5" width="245" height="8"></rect>
    <path d=${strokes}></path>
  </svg>`;
}

declare global {
  interface HTMLElementTagNameMap {
    'plumb-result': ResultView;
  }
}
