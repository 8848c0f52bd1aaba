import { css, html, LitElement } from 'lit';
import { customElement } from 'lit/decorators.js';
import { benchAnswer } from '../../answer/benchAnswer';
import { openState, ready } from '../../sheet/bench';
import { SheetController } from '../shared/sheetController';
import { baseStyles } from '../shared/styles';
import { sheetItems } from './sheetItems';

/** What is on the open sheet, and what is missing: a list, each line a link to where it is given. */
@customElement('plumb-on-the-sheet')
export class OnTheSheet extends LitElement {
  private readonly sheet = new SheetController(this, () => (ready.value ? openState.value : null));

  static override styles = [
    baseStyles,
    css`
      :host {
        margin-block-start: 1.6rem;
      }
      h2 {
        padding-block-end: 0.45rem;
        border-block-end: 1.3px solid var(--ink);
        font-size: 0.9375rem;
        font-weight: 680;
      }
      ul {
        list-style: none;
      }
      a {
        display: flex;
        align-items: center;
        justify-content: space-between;
        gap: 1rem;
        min-height: 2.75rem;
        border-block-end: 1px solid var(--hair);
        font-size: 0.9375rem;
        text-decoration: none;
      }
      a:hover span:first-child {
        text-decoration: underline;
        text-decoration-thickness: 1px;
        text-underline-offset: 0.2em;
      }
      .status {
        font-weight: 700;
        text-align: end;
      }
      .optional .status {
        font-weight: 400;
        color: var(--ink-2);
      }
      .missing .status {
        text-decoration: underline;
        text-decoration-thickness: 1px;
        text-underline-offset: 0.2em;
      }
      .disagrees {
        color: var(--red);
      }
    `,
  ];

  override render() {
    const state = this.sheet.value;
    if (state === null) return html`<slot></slot>`;
    return html`<h2 id="title">What is on the sheet</h2>
      <ul aria-labelledby="title">
        ${sheetItems(state, benchAnswer(state)).map(
          ({ what, status, kind, href }) =>
            html`<li class=${kind}>
              <a href=${href}><span>${what}</span><span class="status">${status}</span></a>
            </li>`,
        )}
      </ul>`;
  }
}

declare global {
  interface HTMLElementTagNameMap {
    'plumb-on-the-sheet': OnTheSheet;
  }
}
