import { css, html, LitElement, nothing } from 'lit';
import { customElement, query } from 'lit/decorators.js';
import { current, openState, ready, redo, redoLabel, undo, undoLabel } from '../../sheet/bench';
import { lower } from '../photographs/words';
import { closeIcon, printIcon, redoIcon, undoIcon } from '../shared/icons';
import { SheetController } from '../shared/sheetController';
import { baseStyles, buttonStyles } from '../shared/styles';
import './plumb-readings';
import type { Readings } from './plumb-readings';

/** What the page behind the open panel does: keep its place on screen, and leave paper to the panel alone. */
const pageStyles = css`
  @media screen {
    :root[data-readings] {
      overflow: hidden;
    }
  }
  @media screen and (min-width: 62.5em) {
    :root[data-readings] {
      scrollbar-gutter: stable;
    }
  }
  @media print {
    :root[data-readings] body {
      display: block;
    }
    :root[data-readings] body::before,
    :root[data-readings] body::after,
    :root[data-readings] body > :not(plumb-readings-sheet) {
      display: none !important;
    }
  }
`;

/**
 * The sheet that holds the readings panel over any page: a modal dialog, the whole window on a phone. `show()` opens
 * it at a reading or a section, `close()` closes it; the event `readings-closed` tells that the reader did.
 */
@customElement('plumb-readings-sheet')
export class ReadingsSheet extends LitElement {
  @query('dialog') private readonly dialog!: HTMLDialogElement;
  @query('plumb-readings') private readonly panel!: Readings;

  private readonly sheet = new SheetController(this, () => ({
    truck: ready.value ? current.value.name.trim() || 'a truck without a name' : '',
    state: ready.value ? lower(openState.value.name.trim()) : '',
    undo: undoLabel.value,
    redo: redoLabel.value,
  }));

  static override styles = [
    baseStyles,
    buttonStyles,
    css`
      dialog {
        width: min(76rem, 100% - 3rem);
        max-width: none;
        height: calc(100dvh - 3rem);
        max-height: none;
        margin: auto;
        padding: 0;
        overflow: clip;
        color: inherit;
        background: var(--paper);
        border: 2px solid var(--ink);
      }
      dialog[open] {
        display: grid;
        grid-template-rows: auto minmax(0, 1fr);
      }
      dialog::backdrop {
        background: light-dark(rgb(20 39 43 / 45%), rgb(0 0 0 / 60%));
      }
      .head {
        display: flex;
        align-items: stretch;
        min-height: 3.25rem;
        background: var(--paper-2);
        border-block-end: 2px solid var(--ink);
      }
      .words {
        display: flex;
        flex-wrap: wrap;
        align-items: baseline;
        align-content: center;
        gap: 0 0.8rem;
        flex: 1;
        min-width: 0;
        padding: 0.4rem 1.5rem;
      }
      h2 {
        font-size: 1.25rem;
        font-weight: 720;
        line-height: 1.25;
      }
      h2:focus {
        outline: none;
      }
      .of {
        font-size: 0.9375rem;
        color: var(--ink-2);
        overflow-wrap: anywhere;
      }
      .actions {
        display: flex;
        align-items: center;
      }
      .close {
        align-self: stretch;
        min-width: 3.25rem;
        border-inline-start: 1px solid var(--rule);
        border-radius: 0;
        padding-inline: 1rem;
      }
      .close:focus-visible {
        outline-offset: -4px;
      }
      .body {
        /* Holds what is only spoken, which would else stretch the dialog. */
        position: relative;
        overflow-y: auto;
        overscroll-behavior: contain;
        padding: 1.25rem 1.5rem 2rem;
      }
      @media (max-width: 62.49em) {
        dialog {
          inset: 0;
          width: 100%;
          height: 100dvh;
          margin: 0;
          border: 0;
        }
        .words {
          padding-inline: 1rem;
        }
        .body {
          padding: 1rem 1rem calc(2rem + env(safe-area-inset-bottom));
        }
      }
      @media (max-width: 40rem) {
        .of {
          display: none;
        }
        .with-icon {
          min-width: 2.75rem;
        }
        .with-icon .word {
          position: absolute;
          width: 1px;
          height: 1px;
          overflow: hidden;
          clip-path: inset(50%);
        }
      }
      @media print {
        dialog,
        dialog[open] {
          position: absolute;
          inset: 0 0 auto;
          display: block;
          width: 100%;
          height: auto;
          margin: 0;
          border: 0;
          overflow: visible;
        }
        .head {
          min-height: 0;
          padding-block-end: 2mm;
          background: none;
        }
        .words {
          padding-inline: 0;
        }
        .of {
          display: inline;
        }
        .body {
          overflow: visible;
          padding: 4mm 0 0;
        }
      }
    `,
  ];

  override render() {
    const { truck, state, undo: undoes, redo: redoes } = this.sheet.value;
    return html`<dialog aria-labelledby="title" closedby="any" @close=${this.onClose}>
      <div class="head">
        <span class="words">
          <h2 id="title" tabindex="-1" autofocus>Readings</h2>
          <span class="of">${truck}${state === '' ? nothing : html`, ${state}`}</span>
        </span>
        <span class="actions screen-only">
          <button
            class="with-icon"
            type="button"
            title=${undoes === null ? 'Nothing to undo' : `Undo: ${undoes}`}
            ?disabled=${undoes === null}
            @click=${undo}
          >
            ${undoIcon}<span class="word">Undo</span>
          </button>
          <button
            class="with-icon"
            type="button"
            title=${redoes === null ? 'Nothing to redo' : `Redo: ${redoes}`}
            ?disabled=${redoes === null}
            @click=${redo}
          >
            ${redoIcon}<span class="word">Redo</span>
          </button>
          <button class="with-icon" type="button" title="Print the readings" @click=${this.print}>
            ${printIcon}<span class="word">Print</span>
          </button>
          <button class="with-icon close" type="button" title="Close, back to the page" @click=${this.close}>
            ${closeIcon}<span class="word">Close</span>
          </button>
        </span>
      </div>
      <div class="body"><plumb-readings></plumb-readings></div>
    </dialog>`;
  }

  /** Opens the sheet, if it is closed, at a reading's id or at a section; '' for its beginning. */
  async show(target: string): Promise<void> {
    await this.updateComplete;
    if (!this.dialog.open) {
      takePage();
      document.documentElement.dataset['readings'] = '';
      this.dialog.showModal();
    }
    await this.panel.show(target);
  }

  readonly close = (): void => {
    this.dialog?.close();
  };

  private readonly onClose = (): void => {
    delete document.documentElement.dataset['readings'];
    this.dispatchEvent(new CustomEvent('readings-closed'));
  };

  private readonly print = (): void => {
    window.print();
  };
}

let taken = false;

/** The page's own style sheets cannot know of the panel, which not every visit opens. */
function takePage(): void {
  const { styleSheet } = pageStyles;
  if (taken || !styleSheet) return;
  taken = true;
  document.adoptedStyleSheets = [...document.adoptedStyleSheets, styleSheet];
}

declare global {
  interface HTMLElementTagNameMap {
    'plumb-readings-sheet': ReadingsSheet;
  }
}
