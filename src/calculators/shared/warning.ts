import { css, html, LitElement } from 'lit';
import { customElement, property } from 'lit/decorators.js';
import { baseStyles } from './styles';

/**
 * A warning or a remark: a bracket at the left, the first words bold, then why and what to do.
 *
 *     <plumb-bracket kind="warning" title-text="The two strings run almost alike.">They cross at 4°, so …</plumb-bracket>
 *
 * `kind`: 'warning' (red, something is wrong) or 'remark' (quiet, true but not wrong). `titleText` is set bold;
 * the slot holds the rest. A warning that appears is announced politely.
 */
@customElement('plumb-bracket')
export class Bracket extends LitElement {
  @property() kind: 'warning' | 'remark' = 'remark';
  @property({ attribute: 'title-text' }) titleText = '';

  static override styles = [
    baseStyles,
    css`
      :host {
        font-size: 0.9375rem;
        line-height: 1.42;
      }
      .bracket {
        position: relative;
        padding: 0.1rem 0 0.1rem 0.95rem;
      }
      .bracket::before {
        content: '';
        position: absolute;
        inset-block: 0;
        inset-inline-start: 0;
        width: 0.5rem;
        border: 1.3px solid var(--rule);
        border-inline-end: 0;
      }
      .warning::before {
        border-color: var(--red);
        border-width: 2px;
        border-inline-end: 0;
      }
      .warning strong {
        color: var(--red);
      }
      @media print {
        .bracket {
          break-inside: avoid;
        }
      }
    `,
  ];

  override render() {
    return html`<div class="bracket ${this.kind}" role=${this.kind === 'warning' ? 'status' : 'note'}>
      ${this.titleText ? html`<strong>${this.titleText}</strong> ` : ''}<slot></slot>
    </div>`;
  }
}

declare global {
  interface HTMLElementTagNameMap {
    'plumb-bracket': Bracket;
  }
}
