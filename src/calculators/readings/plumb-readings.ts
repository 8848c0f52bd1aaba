import { html, LitElement, type TemplateResult } from 'lit';
import { customElement, state } from 'lit/decorators.js';
import { benchAnswer, type BenchAnswer } from '../../answer/benchAnswer';
import type { Separating } from '../../answer/separating';
import { chartStyles, figureStyles } from '../../figures';
import type { CaredQuantity, LikelySlip } from '../../physics';
import { current, openState, ready, redo, trial, undo } from '../../sheet/bench';
import type { BuildState } from '../../sheet/schema';
import { foldStyles } from '../photographs/foldParts';
import { cautionStyles } from '../photographs/cautions';
import { figureBox } from '../shared/figureBox';
import { formStyles } from '../shared/formStyles';
import { entriesOf, standingOf } from '../shared/listEntries';
import { lengthUnitOf } from '../shared/readersUnits';
import { SheetController } from '../shared/sheetController';
import { baseStyles, buttonStyles, panelStyles, tableStyles } from '../shared/styles';
import { ADD_FOLD, addPart } from './addPart';
import { agreementPart } from './agreementPart';
import { answerPart } from './answerPart';
import { answerStyles } from './answer.styles';
import type { AnswerParts } from './answerParts';
import { disagreementPart } from './disagreementPart';
import { FULL_FOLD, fullTablePart } from './fullTablePart';
import { Later } from './later';
import { entryElementId, listPart } from './listPart';
import { MonteCarloRun } from './monteCarloRun';
import { nextPart } from './nextPart';
import { objectPart } from './objectPart';
import { readingsStyles } from './readings.styles';
import { seenPart } from './seenPart';
import { SHARED_FOLD, sharedErrorsPart } from './sharedErrorsPart';
import { SIZES_FOLD, firstUnmeasured, sizesPart } from './sizesPart';
import { disagrees, toggledLine } from './toggledLine';

/** Sections a link can lead to: "#readings/next" and the like. */
const SECTIONS: Readonly<Record<string, string>> = {
  list: 'list',
  add: ADD_FOLD,
  next: 'measure-next',
  seen: 'can-it-see',
  sizes: SIZES_FOLD,
  shared: SHARED_FOLD,
  full: FULL_FOLD,
};
const FOLDS: ReadonlySet<string> = new Set([ADD_FOLD, SIZES_FOLD, SHARED_FOLD, FULL_FOLD]);

/**
 * The readings panel: the answer of all readings of the open state and how sure it is, what does not agree, what to
 * measure next, what the bench can see; and every reading, counted or set aside. It shows and edits the bench sheet and
 * holds only what is open and what the reader cares about. Anywhere on a page "#readings" opens it, "#readings/<id>" with that
 * reading open.
 */
@customElement('plumb-readings')
export class Readings extends LitElement {
  @state() private opened: ReadonlySet<string> = new Set();
  @state() private fresh: ReadonlySet<string> = new Set();
  @state() private told = '';
  @state() private quantity: CaredQuantity = 'side tip';
  @state() private compared: string | null = null;

  private readonly sheet = new SheetController(this, () => (ready.value ? openState.value : null));
  private readonly around = new SheetController(this, () =>
    ready.value ? { states: current.value.states, trial: trial.value !== null } : null,
  );
  private readonly later: AnswerParts['later'] = {
    toggled: new Later<BenchAnswer>(this),
    separating: new Later<Separating | null>(this),
    slips: new Later<readonly LikelySlip[]>(this),
  };
  private readonly monteCarlo = new MonteCarloRun(this);
  private readonly widths = {
    agreement: figureBox(this, 640, '.agreement-box'),
    seen: figureBox(this, 400, '.seen-box'),
  };
  /** Where a link led before the sheet was open. */
  #waiting: string | null = null;

  static override styles = [
    baseStyles,
    buttonStyles,
    panelStyles,
    foldStyles,
    tableStyles,
    formStyles,
    cautionStyles,
    figureStyles,
    chartStyles,
    readingsStyles,
    answerStyles,
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
    const answer = benchAnswer(build);
    this.monteCarlo.stopUnless(answer.bench);
    const parts: AnswerParts = {
      state: build,
      answer,
      opened: this.opened,
      fresh: this.fresh,
      toggle: this.toggle,
      goTo: (id) => void this.show(id),
      tell: (words) => (this.told = words),
      whatIf: (entry, standing) => ({
        words: toggledLine(parts, entry, standing),
        disagrees: disagrees(parts, entry, standing),
      }),
      trial: this.around.value?.trial ?? false,
      others: (this.around.value?.states ?? []).filter(({ id }) => id !== build.id),
      quantity: this.quantity,
      care: (quantity) => (this.quantity = quantity),
      unit: lengthUnitOf(build),
      later: this.later,
      monteCarlo: this.monteCarlo,
      widths: this.widths,
      compared: this.compared,
      compare: (id) => (this.compared = id),
    };
    if (build.body === 'object')
      return html`<div class="main">
        ${objectPart(parts)} ${listPart({ ...parts, whatIf: () => ({ words: '', disagrees: false }) })}
      </div>`;
    const list = html`<div class="main">
      ${listPart(parts)} ${addPart(parts)} ${sizesPart(parts)} ${sharedErrorsPart(parts)}
    </div>`;
    if (entriesOf(build).length === 0) return list;
    return html`
      <div class="main">${answerPart(parts)} ${agreementPart(parts)} ${disagreementPart(parts)}</div>
      <div class="beside">
        ${nextPart(parts)}
        <section class="seen" id="can-it-see" aria-label="Can this bench see it?">${seenPart(parts)}</section>
      </div>
      ${list} ${fullTablePart(parts)}
    `;
  }

  protected override updated(): void {
    if (this.#waiting === null || this.sheet.value === null) return;
    const target = this.#waiting;
    this.#waiting = null;
    void this.show(target);
  }

  /** Leads to a section ("list", "next", "seen", "full") or opens a reading or a change and puts the cursor into its first field. */
  async show(target: string): Promise<void> {
    if (target === '') return;
    if (this.sheet.value === null) {
      this.#waiting = target;
      return;
    }
    const section = SECTIONS[target];
    if (section !== undefined) {
      if (FOLDS.has(section)) this.toggle(section, true);
      await this.updateComplete;
      const place = this.renderRoot.querySelector(`#${section}`);
      place?.scrollIntoView({ block: 'start' });
      // Who comes for the sizes comes to type one: the first that nobody measured, else the first.
      if (section === SIZES_FOLD)
        place?.querySelectorAll('plumb-given')[Math.max(0, firstUnmeasured(this.sheet.value))]?.select();
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
