import { css, html, LitElement, nothing, type TemplateResult } from 'lit';
import { customElement, query, state } from 'lit/decorators.js';
import type { Result } from '../../physics';
import {
  addState,
  canRedo,
  canUndo,
  copySheet,
  deleteSheet,
  deleteState,
  dismissNotice,
  edit,
  exportJson,
  importFile,
  keepMine,
  kept,
  listSheets,
  newSheet,
  notices,
  openDemo,
  openSheet,
  rawSheet,
  ready,
  redo,
  redoLabel,
  restoreDemo,
  saveState,
  settle,
  switchState,
  takeOther,
  undo,
  undoLabel,
  type SheetEntry,
} from '../../sheet/bench';
import type { BenchSheet, BuildState } from '../../sheet/schema';
import type { EventOn } from '../shared/events';
import { formStyles } from '../shared/formStyles';
import { chevronDownIcon, redoIcon, undoIcon } from '../shared/icons';
import { SheetController } from '../shared/sheetController';
import { draftState } from '../shared/sheetGiven';
import { baseStyles, buttonStyles, panelStyles } from '../shared/styles';
import '../shared/warning';
import '../truck-givens/plumb-truck-givens';

/** Anchor of this menu, where "do next" sends a reader for sizes and scales. */
const ANCHOR = 'truck';

/**
 * The bench sheet itself: its truck's name and dated states, sizes, mass, scales and parts list; new, copy, open,
 * export, import; undo and redo; and whether it is saved. Nothing leaves the device.
 */
@customElement('plumb-sheet-menu')
export class SheetMenu extends LitElement {
  @state() private sheets: readonly SheetEntry[] | null = null;
  /** What went wrong last, or what was done, in a sentence. */
  @state() private problem = '';
  @state() private done = '';
  /** What a reader is asked to confirm: a sheet's id, or 'state'. */
  @state() private confirming = '';
  @state() private busy = false;

  /** Whether the address the page was opened at has been followed. */
  private followed = false;

  @query('#file') private readonly fileInput!: HTMLInputElement;

  private readonly sheet = new SheetController(this, () => ({
    ready: ready.value,
    sheet: kept.value,
    save: saveState.value,
    notices: notices.value,
    undo: canUndo.value ? undoLabel.value : null,
    redo: canRedo.value ? redoLabel.value : null,
  }));

  static override styles = [
    baseStyles,
    buttonStyles,
    panelStyles,
    formStyles,
    css`
      :host {
        margin-block-start: 1.6rem;
      }
      /* Beside the contents, level with them. */
      @media (min-width: 62.5em) {
        :host {
          margin-block-start: 0;
        }
      }
      h2 {
        padding-block-end: 0.45rem;
        border-block-end: 1.3px solid var(--ink);
        font-size: 0.9375rem;
        font-weight: 680;
      }
      .saved {
        display: flex;
        flex-wrap: wrap;
        align-items: center;
        justify-content: space-between;
        min-height: 2.75rem;
        font-size: 0.9375rem;
        color: var(--ink-2);
      }
      .saved .with-icon {
        color: var(--ink);
      }
      .saved .with-icon:disabled {
        color: var(--ink-2);
      }
      .fold {
        border-block-end: 1px solid var(--rule);
      }
      .fold > summary .hint {
        flex: 1;
        font-weight: 400;
        color: var(--ink-2);
      }
      .fold > .inside {
        padding-block-end: 0.9rem;
      }
      .button-row {
        margin-block-start: 0.6rem;
        gap: 0.5rem 0.75rem;
      }
      .sheets {
        list-style: none;
      }
      .sheets li {
        display: flex;
        flex-wrap: wrap;
        align-items: center;
        gap: 0 0.75rem;
        border-block-end: 1px solid var(--hair);
        font-size: 0.9375rem;
      }
      .sheets .sheet-name {
        flex: 1;
        min-width: 9rem;
      }
      .sheets small {
        display: block;
        font-size: 0.8125rem;
        color: var(--ink-2);
      }
      .said {
        padding-block: 0.6rem;
        font-size: 0.9375rem;
        line-height: 1.4;
      }
      .file {
        position: absolute;
        opacity: 0;
        width: 1px;
        height: 1px;
        pointer-events: none;
      }
      @media print {
        :host {
          display: none;
        }
      }
    `,
  ];

  override connectedCallback(): void {
    super.connectedCallback();
    if (!this.id) this.id = ANCHOR;
    addEventListener('hashchange', this.followAnchor);
  }

  override disconnectedCallback(): void {
    super.disconnectedCallback();
    removeEventListener('hashchange', this.followAnchor);
  }

  protected override updated(): void {
    if (this.followed || !this.sheet.value.ready) return;
    this.followed = true;
    this.followAnchor();
  }

  override render() {
    const { ready: isReady, sheet } = this.sheet.value;
    if (!isReady) return html`<slot></slot>`;
    const build = sheet.states.find(({ id }) => id === sheet.openState) ?? sheet.states[0];
    const isObject = build?.body === 'object';
    return html`<h2>
        The bench sheet of ${sheet.name.trim() || `${isObject ? 'an object' : 'a truck'} without a name`}
      </h2>
      ${this.renderNotices()} ${this.renderSaved()} ${build ? this.renderTruck(sheet, build) : nothing}
      ${
        isObject
          ? html`<p class="note">
              An object is measured by <a href="./resultant-lines.html#e3">its pictures</a>.
            </p>`
          : html`<details class="fold" id="givens">
              <summary>
                Measure it<span class="hint">sizes, mass, scales, parts</span>${chevronDownIcon}
              </summary>
              <div class="inside"><plumb-truck-givens></plumb-truck-givens></div>
            </details>`
      }
      ${this.renderSheets(sheet)} ${this.renderFiles()}
      <div aria-live="polite">
        ${
          this.problem
            ? html`<div class="said">
                <plumb-bracket kind="warning" title-text="That did not work.">${this.problem}</plumb-bracket>
              </div>`
            : this.done
              ? html`<p class="said">${this.done}</p>`
              : nothing
        }
      </div>
      <p class="note">
        Everything stays on this device, in this browser. Export a file to carry a sheet elsewhere.
      </p>`;
  }

  // Saved, undone ----------------------------------------------------------------------------------------

  private renderNotices(): TemplateResult[] {
    return this.sheet.value.notices.map(
      ({ code, message }) =>
        html`<div class="said">
          <plumb-bracket kind="remark">${message}</plumb-bracket>
          <button class="quiet" type="button" @click=${() => dismissNotice(code)}>Dismiss</button>
        </div>`,
    );
  }

  private renderSaved(): TemplateResult {
    const { save, undo: undoes, redo: redoes } = this.sheet.value;
    const words =
      save.state === 'saving' ? 'Saving' : save.state === 'saved' ? 'Saved on this device' : 'Not saved';
    const held =
      save.state === 'not saved' &&
      (save.reason === 'changed-elsewhere' || save.reason === 'deleted-elsewhere');
    return html`<div class="saved">
        <span role="status">${words}</span>
        <span>
          <button
            class="with-icon"
            type="button"
            ?disabled=${undoes === null}
            title=${undoes === null ? 'Nothing to undo' : `Undo: ${undoes}`}
            @click=${undo}
          >
            ${undoIcon}Undo
          </button>
          <button
            class="with-icon"
            type="button"
            ?disabled=${redoes === null}
            title=${redoes === null ? 'Nothing to redo' : `Redo: ${redoes}`}
            @click=${redo}
          >
            ${redoIcon}Redo
          </button>
        </span>
      </div>
      ${
        save.state === 'not saved'
          ? html`<div class="said">
              <plumb-bracket kind="warning" title-text="Not saved."
                >${save.message.replace(/^Not saved: /, '')}</plumb-bracket
              >
              ${
                held
                  ? html`<div class="button-row">
                      <button class="button" type="button" @click=${() => void keepMine()}>
                        Keep what stands here
                      </button>
                      ${
                        save.reason === 'changed-elsewhere'
                          ? html`<button class="button" type="button" @click=${this.takeOther}>
                              Take the other tab’s
                            </button>`
                          : nothing
                      }
                    </div>`
                  : nothing
              }
            </div>`
          : nothing
      }`;
  }

  // Truck and states -------------------------------------------------------------------------------------

  private renderTruck(sheet: BenchSheet, build: BuildState): TemplateResult {
    const isObject = build.body === 'object';
    return html`<label class="text-row"
        ><span>${isObject ? 'Object' : 'Truck'}</span
        ><input
          type="text"
          maxlength="120"
          placeholder="its name"
          .value=${sheet.name}
          @input=${this.nameTruck}
          @change=${settle}
      /></label>
      ${
        sheet.states.length > 1
          ? html`<label class="text-row"
              ><span>State</span
              ><select @change=${this.chooseState}>
                ${sheet.states.map(
                  ({ id, name, date }) =>
                    html`<option value=${id} ?selected=${id === build.id}>
                      ${name || 'without a name'}${date ? `, ${date}` : ''}
                    </option>`,
                )}
              </select></label
            >`
          : nothing
      }
      <details class="fold">
        <summary>This state<span class="hint">name, date, note, new</span>${chevronDownIcon}</summary>
        <div class="inside">
          <label class="text-row"
            ><span>Name</span
            ><input
              type="text"
              maxlength="200"
              placeholder=${isObject ? 'what is on it, and what is in it' : 'pack in, body on, suspension as it sits'}
              .value=${build.name}
              @input=${this.nameState}
              @change=${settle}
          /></label>
          <label class="text-row"
            ><span>Date</span><input type="date" .value=${build.date} @change=${this.dateState}
          /></label>
          <label class="text-row"
            ><span>Note</span
            ><input
              type="text"
              maxlength="400"
              .value=${build.note}
              @input=${this.noteState}
              @change=${settle}
          /></label>
          <div class="button-row">
            <button class="button" type="button" @click=${this.addState}>Add a state</button>
            ${
              sheet.states.length > 1
                ? this.confirming === 'state'
                  ? html`<button class="button" type="button" @click=${() => this.removeState(build.id)}>
                        Yes, delete this state
                      </button>
                      <button class="quiet" type="button" @click=${() => this.ask('')}>Keep it</button>`
                  : html`<button class="quiet" type="button" @click=${() => this.ask('state')}>
                      Delete this state
                    </button>`
                : nothing
            }
          </div>
          <p class="note">
            ${
              isObject
                ? 'A state is the object as it was on a day: full or empty, with this handle or that.'
                : 'A state is the truck as it was on a day: pack in or out, body on, suspension locked or free.'
            }
            Only readings of one state are worked together. A new state takes over sizes, hooks and parts, not
            pictures and readings.
          </p>
        </div>
      </details>`;
  }

  private readonly nameTruck = (event: EventOn<HTMLInputElement>): void => {
    const { value } = event.currentTarget;
    edit('Name of the truck', (draft) => (draft.name = value), 'truck name');
  };

  private readonly nameState = (event: EventOn<HTMLInputElement>): void => {
    const { value } = event.currentTarget;
    edit('Name of the state', (draft) => (draftState(draft).name = value), 'state name');
  };

  private readonly noteState = (event: EventOn<HTMLInputElement>): void => {
    const { value } = event.currentTarget;
    edit('Note of the state', (draft) => (draftState(draft).note = value), 'state note');
  };

  private readonly dateState = (event: EventOn<HTMLInputElement>): void => {
    const { value } = event.currentTarget;
    edit('Date of the state', (draft) => (draftState(draft).date = value));
  };

  private readonly chooseState = (event: EventOn<HTMLSelectElement>): void => {
    this.tell(switchState(event.currentTarget.value), 'State opened.');
  };

  private readonly addState = (): void => {
    this.tell(addState('New state'), 'State added. Give it a name that says what differs.');
  };

  private removeState(id: string): void {
    this.confirming = '';
    this.tell(deleteState(id), 'State deleted. Undo brings it back.');
  }

  // Sheets -----------------------------------------------------------------------------------------------

  private renderSheets(sheet: BenchSheet): TemplateResult {
    return html`<details class="fold" @toggle=${this.listSheets}>
      <summary>Other sheets<span class="hint">new, open, delete</span>${chevronDownIcon}</summary>
      <div class="inside">
        <div class="button-row">
          <button class="button" type="button" ?disabled=${this.busy} @click=${this.startNew}>
            New sheet
          </button>
          <button class="button" type="button" ?disabled=${this.busy} @click=${() => this.copy(sheet)}>
            ${sheet.demo ? 'Copy the demo as my own' : 'Copy this sheet'}
          </button>
          ${
            sheet.demo
              ? html`<button class="quiet" type="button" ?disabled=${this.busy} @click=${this.restore}>
                  Demo truck as it ships
                </button>`
              : html`<button class="quiet" type="button" ?disabled=${this.busy} @click=${this.openDemo}>
                  Open the demo truck
                </button>`
          }
        </div>
        ${
          this.sheets === null
            ? nothing
            : html`<ul class="sheets" aria-label="Sheets on this device">
                ${this.sheets.map((entry) => this.renderEntry(entry, entry.id === sheet.id))}
              </ul>`
        }
      </div>
    </details>`;
  }

  private renderEntry({ id, name, savedAt, problem }: SheetEntry, open: boolean): TemplateResult {
    const named = name || 'Without a name';
    return html`<li>
      <span class="sheet-name"
        >${named}<small
          >${open ? 'open now, ' : ''}saved ${savedAt.slice(0, 10)}${problem ? `. ${problem}` : ''}</small
        ></span
      >
      ${
        this.confirming === id
          ? html`<button class="button" type="button" @click=${() => this.deleteSheet(id, named)}>
                Yes, delete for good
              </button>
              <button class="quiet" type="button" @click=${() => this.ask('')}>Keep it</button>`
          : html`${
                open || problem
                  ? nothing
                  : html`<button
                      class="quiet"
                      type="button"
                      aria-label="Open ${named}"
                      @click=${() => this.open(id)}
                    >
                      Open
                    </button>`
              }
              ${
                problem
                  ? html`<button
                      class="quiet"
                      type="button"
                      aria-label="Save ${named} to a file"
                      @click=${() => this.saveRaw(id, named)}
                    >
                      To a file
                    </button>`
                  : nothing
              }
              <button class="quiet" type="button" aria-label="Delete ${named}" @click=${() => this.ask(id)}>
                Delete
              </button>`
      }
    </li>`;
  }

  private readonly listSheets = async (event: EventOn<HTMLDetailsElement>): Promise<void> => {
    if (event.currentTarget.open) this.sheets = await listSheets();
  };

  private readonly startNew = (): Promise<void> =>
    this.run(
      () => newSheet(),
      'A new sheet is open. Name the truck, then measure its wheelbase; or photograph any object.',
    );

  private copy(sheet: BenchSheet): Promise<void> {
    return this.run(() => copySheet(`${sheet.name}, copy`), 'The copy is open; it is yours to change.');
  }

  private readonly openDemo = (): Promise<void> => this.run(() => openDemo(), 'The demo truck is open.');

  private readonly restore = (): Promise<void> =>
    this.run(() => restoreDemo(), 'The demo truck is as it ships. Undo brings your changes back.');

  private open(id: string): Promise<void> {
    return this.run(() => openSheet(id), 'Opened.');
  }

  private async deleteSheet(id: string, name: string): Promise<void> {
    this.confirming = '';
    await deleteSheet(id);
    this.problem = '';
    this.done = `${name} is deleted.`;
    this.sheets = await listSheets();
  }

  private readonly takeOther = (): Promise<void> =>
    this.run(() => takeOther(), 'The other tab’s sheet is open. Undo brings yours back.');

  // Files ------------------------------------------------------------------------------------------------

  private renderFiles(): TemplateResult {
    return html`<div class="button-row">
      <button class="button" type="button" @click=${this.export}>Export to a file</button>
      <button class="button" type="button" ?disabled=${this.busy} @click=${() => this.fileInput.click()}>
        Import a file
      </button>
      <input
        id="file"
        class="file"
        type="file"
        accept=".json,application/json"
        tabindex="-1"
        aria-label="Bench sheet file to import"
        @change=${this.import}
      />
    </div>`;
  }

  private readonly export = async (): Promise<void> => {
    const { name } = this.sheet.value.sheet;
    download(await exportJson(), `${fileName(name)}.json`);
    this.problem = '';
    this.done = 'Exported, pictures inside.';
  };

  private readonly import = async (event: EventOn<HTMLInputElement>): Promise<void> => {
    const input = event.currentTarget;
    const [file] = input.files ?? [];
    if (file) await this.run(() => importFile(file), 'Imported and open.');
    // The same file can be chosen again after it was mended.
    input.value = '';
  };

  private async saveRaw(id: string, name: string): Promise<void> {
    const text = await rawSheet(id);
    if (text !== undefined) download(text, `${fileName(name)}.json`);
  }

  // ------------------------------------------------------------------------------------------------------

  private ask(what: string): void {
    this.confirming = what;
  }

  private async run(act: () => Promise<Result<unknown>>, done: string): Promise<void> {
    this.busy = true;
    this.confirming = '';
    try {
      this.tell(await act(), done);
      if (this.sheets !== null) this.sheets = await listSheets();
    } finally {
      this.busy = false;
    }
  }

  private tell(result: Result<unknown>, done: string): void {
    this.problem = result.ok ? '' : result.message;
    this.done = result.ok ? done : '';
  }

  /** "…#truck" opens the fold with sizes and scales. */
  private readonly followAnchor = (): void => {
    if (location.hash !== `#${this.id}`) return;
    const fold = this.renderRoot.querySelector<HTMLDetailsElement>('#givens');
    if (fold) fold.open = true;
    this.scrollIntoView({ block: 'start' });
  };
}

/** A name that every file system takes. */
function fileName(name: string): string {
  const plain = name
    .trim()
    .toLowerCase()
    .replace(/[^\p{L}\p{N}]+/gu, '-')
    .replace(/^-|-$/g, '');
  return plain || 'bench-sheet';
}

function download(text: string, name: string): void {
  const address = URL.createObjectURL(new Blob([text], { type: 'application/json' }));
  const link = document.createElement('a');
  link.href = address;
  link.download = name;
  link.click();
  // The browser has taken the address over by the next task.
  setTimeout(() => URL.revokeObjectURL(address));
}

declare global {
  interface HTMLElementTagNameMap {
    'plumb-sheet-menu': SheetMenu;
  }
}
