import { html, LitElement, type TemplateResult } from 'lit';
import { customElement, state } from 'lit/decorators.js';
import { benchAnswer } from '../../answer/benchAnswer';
import { openState, ready, redo, undo } from '../../sheet/bench';
import type { BuildState } from '../../sheet/schema';
import { foldStyles } from '../photographs/foldParts';
import { cautionStyles } from '../photographs/cautions';
import { formStyles } from '../shared/formStyles';
import { entriesOf, standingOf } from '../shared/listEntries';
import { SheetController } from '../shared/sheetController';
import { baseStyles, buttonStyles, panelStyles } from '../shared/styles';
import { ADD_FOLD, addPart } from './addPart';
import { changesPart } from './changesPart';
import { entryElementId, listPart } from './listPart';
import type { ReadingsParts } from './parts';
import { readingsStyles } from './readings.styles';
import { sharedErrorsPart } from './sharedErrorsPart';

/** Sections a link can lead to: "#readings/next" and the like. */
const SECTIONS: Readonly<Record<string, string>> = {
  add: ADD_FOLD,
  next: 'measure-next',
  seen: 'can-it-see',
  full: 'full-table',
};

/**
 * The readings panel: every reading of the open state, counted or set aside, and what they share. It shows and edits
 * the bench sheet and holds only what is open. Anywhere on a page "#readings" opens it, "#readings/<id>" with that
 * reading open.
 */
@customElement('plumb-readings')
export class Readings extends LitElement {
  @state() private opened: ReadonlySet<string> = new Set();
  @state() private fresh: ReadonlySet<string> = new Set();
  @state() private told = '';

  private readonly sheet = new SheetController(this, () => (ready.value ? openState.value : null));
  /** Where a link led before the sheet was open. */
  #waiting: string | null = null;

  static override styles = [
    baseStyles,
    buttonStyles,
    panelStyles,
    foldStyles,
    formStyles,
    cautionStyles,
    readingsStyles,
  ];

  override render() {
    const build = this.sheet.value;
    if (build === null) return html`<p class="empty">Opening the bench sheet …</p>`;
    return html`
      <div class="readings" @keydown=${this.onKey}>${this.renderParts(build)}</div>
      <p class="spoken" role="status">${this.told}</p>
    `;
  }

  private renderParts(build: BuildState): TemplateResult {
    const parts: ReadingsParts = {
      state: build,
      answer: benchAnswer(build),
      opened: this.opened,
      fresh: this.fresh,
      toggle: this.toggle,
      goTo: (id) => void this.show(id),
      tell: (words) => (this.told = words),
    };
    return html`
      <div class="main">${listPart(parts)} ${addPart(parts)}</div>
      <div class="beside">
        ${sharedErrorsPart(parts)}
        <section class="seen" id="can-it-see" aria-label="Changes">${changesPart(parts)}</section>
      </div>
    `;
  }

  protected override updated(): void {
    if (this.#waiting === null || this.sheet.value === null) return;
    const target = this.#waiting;
    this.#waiting = null;
    void this.show(target);
  }

  /** Leads to a section ("next", "seen", "full") or opens a reading or a change and puts the cursor into its first field. */
  async show(target: string): Promise<void> {
    if (target === '') return;
    if (this.sheet.value === null) {
      this.#waiting = target;
      return;
    }
    const section = SECTIONS[target];
    if (section !== undefined) {
      if (section === ADD_FOLD) this.toggle(ADD_FOLD, true);
      await this.updateComplete;
      this.renderRoot.querySelector(`#${section}`)?.scrollIntoView({ block: 'start' });
      return;
    }
    this.toggle(target, true);
    await this.updateComplete;
    const entry = this.renderRoot.querySelector<HTMLDetailsElement>(`#${CSS.escape(entryElementId(target))}`);
    if (!entry) return;
    await Promise.all([...entry.querySelectorAll('plumb-given')].map((given) => given.updateComplete));
    entry.scrollIntoView({ block: 'start' });
    // Before bench work that can hurt, its cautions come first.
    const caution = entry.querySelector<HTMLElement>('.caution[open] > summary');
    const field = entry.querySelector('plumb-given');
    if (caution) caution.focus();
    else if (field) field.select();
    else entry.querySelector('summary')?.focus();
  }

  private readonly toggle = (id: string, open: boolean): void => {
    if (this.opened.has(id) === open) return;
    this.opened = withOrWithout(this.opened, id, open);
    this.fresh = withOrWithout(this.fresh, id, open && this.isToBeRead(id));
  };

  private isToBeRead(id: string): boolean {
    const build = this.sheet.value;
    const entry = build && entriesOf(build).find((each) => each.id === id);
    if (build === null || !entry) return false;
    const standing = standingOf(entry, benchAnswer(build));
    return standing?.because === 'incomplete' || standing?.because === 'waiting';
  }

  private readonly onKey = (event: KeyboardEvent): void => {
    const [target] = event.composedPath();
    if (!(event.ctrlKey || event.metaKey) || event.altKey || target instanceof HTMLInputElement) return;
    const key = event.key.toLowerCase();
    if (key === 'z' && !event.shiftKey) undo();
    else if ((key === 'z' && event.shiftKey) || key === 'y') redo();
    else return;
    event.preventDefault();
  };
}

function withOrWithout(set: ReadonlySet<string>, id: string, include: boolean): ReadonlySet<string> {
  const next = new Set(set);
  if (include) next.add(id);
  else next.delete(id);
  return next;
}

declare global {
  interface HTMLElementTagNameMap {
    'plumb-readings': Readings;
  }
}
