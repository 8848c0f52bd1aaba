import { css, html, LitElement, nothing } from 'lit';
import { customElement, property, state } from 'lit/decorators.js';
import { undo, undoLabel } from '../../sheet/bench';
import { printIcon, undoIcon } from './icons';
import { projected } from './projector';
import { SheetController } from './sheetController';
import { baseStyles, buttonStyles } from './styles';

/**
 * Frame of a calculator: address, plain title, quiet remark, undo and print above; the calculator's sections in
 * the slot (see panelStyles for how they are laid out).
 *
 *     <plumb-panel address="E5" heading="Tip lines and slope limits" remark="flat slope, at a crawl">…</plumb-panel>
 *
 * Undo takes back the last edit of the bench sheet and says which; `noUndo` for a calculator that keeps nothing.
 * Slot `actions`: further buttons before print.
 */
@customElement('plumb-panel')
export class Panel extends LitElement {
  @property() address = '';
  @property() heading = '';
  @property() remark = '';
  @property({ type: Boolean, attribute: 'no-undo' }) noUndo = false;

  @state() private told = '';

  private readonly undoable = new SheetController(this, () => undoLabel.value);

  static override styles = [
    baseStyles,
    buttonStyles,
    css`
      :host {
        container: panel / inline-size;
      }
      section {
        border: 1.5px solid var(--pad-edge);
        background: var(--paper);
      }
      header {
        display: flex;
        align-items: stretch;
        min-height: 3.25rem;
        border-block-end: 1px solid var(--pad-edge);
      }
      .address {
        display: grid;
        place-items: center;
        min-width: 3.25rem;
        padding-inline: 0.8rem;
        border-inline-end: 1px solid var(--pad-edge);
        font-size: 1.125rem;
        font-weight: 700;
      }
      .words {
        display: flex;
        flex-wrap: wrap;
        align-items: baseline;
        align-content: center;
        gap: 0 0.8rem;
        flex: 1;
        min-width: 0;
        padding: 0.4rem 1rem;
      }
      h3 {
        font-size: 1.125rem;
        font-weight: 680;
        line-height: 1.25;
      }
      .remark {
        font-size: 0.9375rem;
        color: var(--ink-2);
      }
      .actions {
        display: flex;
        align-items: center;
        padding-inline: 0.3rem 0.75rem;
      }
      @container panel (max-width: 34rem) {
        .words {
          padding-inline: 0.75rem;
        }
        .with-icon .word {
          position: absolute;
          width: 1px;
          height: 1px;
          overflow: hidden;
          clip-path: inset(50%);
        }
        .with-icon {
          min-width: 2.75rem;
        }
        .actions {
          padding-inline: 0 0.25rem;
        }
      }
      @media print {
        section {
          border: 0;
          background: none;
        }
        header {
          min-height: 0;
          border: 0;
          break-after: avoid;
        }
        .address {
          min-width: 0;
          padding-inline: 0 0.7rem;
          border: 0;
          font-size: 1.1rem;
        }
        .words {
          padding-inline: 0;
        }
      }
    `,
  ];

  override render() {
    // A projected page names the figure itself.
    if (projected()) return html`<slot></slot>`;
    const undoes = this.undoable.value;
    return html`<section aria-labelledby="heading">
      <header>
        <span class="address"><span class="spoken">Calculator </span>${this.address}</span>
        <span class="words">
          <h3 id="heading">${this.heading}</h3>
          ${this.remark ? html`<span class="remark">${this.remark}</span>` : nothing}
        </span>
        <span class="actions screen-only">
          ${
            this.noUndo
              ? nothing
              : html`<button
                  class="with-icon"
                  type="button"
                  title=${undoes === null ? 'Nothing to undo' : `Undo: ${undoes}`}
                  aria-disabled=${undoes === null ? 'true' : 'false'}
                  @click=${this.undo}
                >
                  ${undoIcon}<span class="word">Undo</span>
                </button>`
          }
          <slot name="actions"></slot>
          <button class="with-icon" type="button" title="Print this page" @click=${this.print}>
            ${printIcon}<span class="word">Print</span>
          </button>
        </span>
      </header>
      <slot></slot>
      <output class="spoken">${this.told}</output>
    </section>`;
  }

  /** Says what was undone. The button stays one when nothing is left, so that the keyboard is not lost with it. */
  private readonly undo = (): void => {
    const label = undoLabel.peek();
    undo();
    this.told = label === null ? 'Nothing to undo.' : `Undone: ${label}.`;
  };

  private readonly print = (): void => {
    window.print();
  };
}

declare global {
  interface HTMLElementTagNameMap {
    'plumb-panel': Panel;
  }
}
