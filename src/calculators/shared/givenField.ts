import { css, html, LitElement, nothing, type PropertyValues } from 'lit';
import { customElement, property, query } from 'lit/decorators.js';
import { live } from 'lit/directives/live.js';
import { UNITS } from '../../sheet/dimensions';
import {
  labeled,
  placeholder,
  isEmpty,
  plusMinusPlaceholder,
  readGiven,
  remarkOn,
  type GivenField as GivenFieldRule,
} from '../../sheet/given';
import { parseNumber } from '../../sheet/parseNumber';
import type { Given } from '../../sheet/schema';
import type { EventOn } from './events';
import { unitSign, unitWord } from './format';
import { stepTyped } from './stepTyped';
import { baseStyles } from './styles';

/** Detail of 'given-input' (while typing, stepping, choosing) and of 'given-change' (when the reader is done). */
export interface GivenEventDetail {
  readonly given: Given;
  /** 'typed' or 'stepped' by an arrow key: what undo may merge into one step. */
  readonly by: 'typed' | 'stepped' | 'chosen';
}
export type GivenEvent = CustomEvent<GivenEventDetail>;

/**
 * One given: label, number, unit and ± in one row, blue because it is the reader's own.
 *
 *     <plumb-given .given=${state.dimensions.wheelbase} .field=${FIELDS.wheelbase} @given-input=${this.edit}></plumb-given>
 *
 * A row of the sheet's table of fields (`field`) brings label, units, the hint of the empty field, the default ±,
 * the arrow keys' step, and what is wrong or unusual about the entry. Without one, all of that is given by hand.
 * The field edits nothing but itself: its owner listens and changes the sheet, usually with sheetGiven().
 *
 * Text that cannot be read stays as typed. The unit stays as typed too: "12.3 in" moves the unit to in, and
 * choosing another unit never converts the number.
 *
 * Properties
 * - `given`, `field`
 * - `label`, `units` (more than one gives a choice), `often` (placeholder of the empty field, "often 313"),
 *   `defaultPlusMinus` (shown in quiet ink while no ± is typed): in place of what the field says
 * - `caption`: a shorter label where the surroundings say the rest; the full one is still spoken and used in messages
 * - `message`, `plusMinusMessage`: what is wrong, in place of what the field says; set off below the row and tied
 *   to its input
 * - `noPlusMinus`: no ± at all; `limits`: the reader may say that the ± are hard limits
 * - `step`: what an arrow key adds, Shift and the Page keys ten times as much; 0 for the unit's usual step
 * - `note`: quiet line below; `from`: the chapter a number comes from, when it is another's ("chapter 1, part E")
 * - `trial`: the number belongs to a trial copy, and the row says so
 *
 * Events: `given-input`, `given-change` (GivenEvent, bubbling, composed).
 */
@customElement('plumb-given')
export class GivenField extends LitElement {
  @property({ attribute: false }) field: GivenFieldRule | null = null;
  @property() label = '';
  @property() caption = '';
  @property({ attribute: false }) given: Given = { text: '', unit: '', plusMinus: '', kind: 'expanded' };
  @property({ attribute: false }) units: readonly string[] = [];
  @property() often = '';
  @property({ attribute: 'default-plus-minus' }) defaultPlusMinus = '';
  @property({ type: Boolean, attribute: 'no-plus-minus' }) noPlusMinus = false;
  @property({ type: Boolean }) limits = false;
  @property({ type: Number }) step = 0;
  @property() note = '';
  @property() from = '';
  @property({ type: Boolean }) trial = false;
  @property() message = '';
  @property({ attribute: 'plus-minus-message' }) plusMinusMessage = '';

  @query('#number') private readonly numberInput!: HTMLInputElement;

  static override shadowRootOptions: ShadowRootInit = {
    ...LitElement.shadowRootOptions,
    delegatesFocus: true,
  };

  static override styles = [
    baseStyles,
    css`
      :host {
        container: given / inline-size;
        border-block-end: 1px solid var(--hair);
        padding-block: 2px;
      }
      .row {
        display: grid;
        grid-template-columns: minmax(4.2rem, 1fr) 5.4rem 2.15rem 4.15rem;
        column-gap: 0.4rem;
        align-items: center;
        min-height: 2.75rem;
      }
      .row.bare {
        grid-template-columns: minmax(4.2rem, 1fr) 5.4rem 2.15rem;
      }
      .row.wide-unit {
        grid-template-columns: minmax(4.2rem, 1fr) 5.4rem 4rem 4.15rem;
      }
      label {
        font-size: 0.9375rem;
        line-height: 1.2;
      }
      input {
        width: 100%;
        min-width: 0;
        margin: 0;
        font: inherit;
        color: var(--blue);
        text-align: end;
        background: var(--paper);
        border: 1px solid var(--given-edge, var(--hair));
        border-radius: 2px;
      }
      .number {
        height: 2.5rem;
        padding: 0 0.6rem;
        font-size: 1.0625rem;
        font-weight: 650;
        border-block-end: 2px solid var(--blue);
      }
      .number::placeholder,
      .plus-minus input::placeholder {
        color: var(--ink-2);
        font-weight: 400;
        opacity: 1;
      }
      .number::placeholder {
        font-size: 0.9375rem;
      }
      .elsewhere .number,
      .trial .number {
        border-color: transparent;
        border-block-end: 2px dashed var(--blue);
      }
      input:focus {
        background: var(--blue-w);
      }
      input[aria-invalid='true'] {
        border-color: var(--red);
        border-width: 2px;
      }
      .unit {
        font-size: 0.9375rem;
        white-space: nowrap;
      }
      select {
        width: 100%;
        min-height: 2.75rem;
        margin: 0;
        padding: 0 0.1rem;
        font: inherit;
        color: inherit;
        background: none;
        border: 0;
        border-radius: 2px;
        cursor: pointer;
      }
      select.plain {
        appearance: none;
        text-decoration: underline dotted 1px;
        text-underline-offset: 0.25em;
      }
      .plus-minus {
        position: relative;
        display: flex;
        align-items: center;
        height: 2.5rem;
        color: var(--blue);
        background: var(--paper);
        border: 1px solid var(--given-edge, var(--hair));
        border-radius: 2px;
      }
      .plus-minus .sign {
        flex: none;
        padding-inline-start: 0.45rem;
        font-size: 0.9375rem;
        line-height: 1;
      }
      .plus-minus .sign small {
        display: block;
        font-size: 0.625rem;
      }
      .plus-minus input {
        height: 100%;
        padding: 0 0.45rem 0 0.15rem;
        font-size: 0.9375rem;
        background: none;
        border: 0;
      }
      .plus-minus:has(input:focus) {
        background: var(--blue-w);
      }
      .plus-minus:has(input[aria-invalid='true']) {
        border: 2px solid var(--red);
      }
      .plus-minus select {
        position: absolute;
        inset: 0 auto 0 0;
        width: 1.7rem;
        min-height: 0;
        opacity: 0;
      }
      .plus-minus:has(select:focus-visible) .sign {
        outline: 3px solid var(--blue);
        outline-offset: 2px;
      }
      .below {
        padding-block: 0.15rem 0.45rem;
        font-size: 0.9375rem;
        line-height: 1.35;
      }
      .below strong {
        color: var(--red);
      }
      .below.quiet-text {
        font-size: 0.875rem;
      }
      @container given (max-width: 19rem) {
        .row:not(.bare) {
          grid-template-columns: minmax(3.6rem, 1fr) 4.9rem 1.9rem 3.7rem;
          column-gap: 0.3rem;
        }
        .row:not(.bare) .number {
          padding-inline: 0.3rem;
        }
        .row:not(.bare) .number::placeholder {
          font-size: 0.8125rem;
        }
      }
      @media (pointer: coarse), (max-width: 40rem) {
        .row {
          min-height: 3.25rem;
        }
        .number,
        .plus-minus {
          height: 2.9rem;
        }
      }
      @media print {
        .row {
          min-height: 0;
        }
        input,
        .number,
        .plus-minus {
          height: 1.5rem;
          color: inherit;
          background: none;
          border: 0;
        }
        .number {
          text-decoration: underline;
          text-underline-offset: 0.25em;
        }
        select {
          appearance: none;
          min-height: 0;
          text-decoration: none;
        }
      }
    `,
  ];

  override render() {
    const { given } = this;
    const { message, plusMinusMessage } = this.messages;
    const classes = [
      'row',
      this.noPlusMinus ? 'bare' : '',
      this.from ? 'elsewhere' : '',
      this.trial ? 'trial' : '',
    ];
    return html`
      <div class=${classes.filter(Boolean).join(' ')}>
        <label for="number">${this.caption || this.labelText}</label>
        <input
          id="number"
          class="number"
          type="text"
          inputmode="decimal"
          autocomplete="off"
          spellcheck="false"
          maxlength="60"
          aria-label=${this.caption ? this.labelText : nothing}
          placeholder=${this.placeholderText || nothing}
          .value=${live(given.text)}
          aria-invalid=${message ? 'true' : nothing}
          aria-describedby=${this.describedBy('number-message', message)}
          @input=${this.onNumber}
          @change=${this.onDone}
          @keydown=${this.onKey}
        />
        ${this.renderUnit()} ${this.noPlusMinus ? nothing : this.renderPlusMinus(plusMinusMessage)}
      </div>
      ${renderMessage('number-message', message)} ${renderMessage('plus-minus-message', plusMinusMessage)}
      ${this.noteText ? html`<p id="note" class="below quiet-text">${this.noteText}</p>` : nothing}
    `;
  }

  /** Selects the number, so that typing replaces it. */
  select(): void {
    this.numberInput.focus();
    this.numberInput.select();
  }

  private get labelText(): string {
    return this.label || (this.field?.label ?? '');
  }

  private get unitChoice(): readonly string[] {
    return this.field && this.units.length === 0 ? UNITS[this.field.dimension] : this.units;
  }

  private get placeholderText(): string {
    if (this.often) return `often ${this.often}`;
    return this.field ? placeholder(this.field, this.given.unit) : '';
  }

  private get usualPlusMinus(): string {
    return this.field ? plusMinusPlaceholder(this.field, this.given.unit, !isEmpty(this.given)) : '';
  }

  /** What the owner says is wrong, else what the field's rule says. An empty field is no mistake. */
  private get messages(): { readonly message: string; readonly plusMinusMessage: string } {
    const { message, plusMinusMessage, field } = this;
    if (!field || message || plusMinusMessage) return { message, plusMinusMessage };
    const read = readGiven(this.given, labeled(field, this.labelText));
    if (read.ok || read.reason === 'empty') return { message, plusMinusMessage };
    return read.reason === 'bad-plus-minus'
      ? { message, plusMinusMessage: read.message }
      : { message: read.message, plusMinusMessage };
  }

  private get noteText(): string {
    const unusual = this.field ? remarkOn(this.given, labeled(this.field, this.labelText)) : null;
    const parts = [
      unusual ?? '',
      this.trial ? 'Trial: not on the sheet yet.' : '',
      this.from ? `From ${this.from}. Edit it here and it changes there.` : '',
      this.note,
    ];
    return parts.filter(Boolean).join(' ');
  }

  private describedBy(messageId: string, message: string): string | typeof nothing {
    const ids = [message ? messageId : '', this.noteText ? 'note' : ''].filter(Boolean);
    return ids.length > 0 ? ids.join(' ') : nothing;
  }

  private renderUnit() {
    const { unit } = this.given;
    const units = this.unitChoice;
    if (units.length < 2) {
      return html`<span class="unit"
        ><span aria-hidden="true">${unitSign(unit)}</span><span class="spoken">${unitWord(unit)}</span></span
      >`;
    }
    return html`<select class="unit plain" aria-label="Unit of ${this.labelText}" @change=${this.onUnit}>
      ${units.map(
        (each) =>
          html`<option value=${each} ?selected=${each === unit} aria-label=${unitWord(each)}>
            ${unitSign(each)}
          </option>`,
      )}
    </select>`;
  }

  private renderPlusMinus(plusMinusMessage: string) {
    const { given } = this;
    const hard = given.kind === 'limits';
    return html`<span class="plus-minus">
      <span class="sign" aria-hidden="true">±${hard ? html`<small>limit</small>` : nothing}</span>
      ${
        this.limits
          ? html`<select
              aria-label="How the plus or minus of ${this.labelText} is meant"
              @change=${this.onKind}
            >
              <option value="expanded" ?selected=${!hard}>holds 19 times in 20</option>
              <option value="limits" ?selected=${hard}>hard limits</option>
            </select>`
          : nothing
      }
      <input
        type="text"
        inputmode="decimal"
        autocomplete="off"
        spellcheck="false"
        maxlength="60"
        aria-label="${this.labelText}, plus or minus, ${unitWord(given.unit)}"
        placeholder=${this.defaultPlusMinus || this.usualPlusMinus || nothing}
        .value=${live(given.plusMinus)}
        aria-invalid=${plusMinusMessage ? 'true' : nothing}
        aria-describedby=${this.describedBy('plus-minus-message', plusMinusMessage)}
        @input=${this.onPlusMinus}
        @change=${this.onDone}
      />
    </span>`;
  }

  protected override updated(changed: PropertyValues<this>): void {
    // A select keeps its own value once touched; the sheet may have moved on (undo, another truck).
    if (!changed.has('given')) return;
    const unit = this.renderRoot.querySelector<HTMLSelectElement>('select.unit');
    if (unit) unit.value = this.given.unit;
    const kind = this.renderRoot.querySelector<HTMLSelectElement>('.plus-minus select');
    if (kind) kind.value = this.given.kind;
  }

  private readonly onNumber = (event: EventOn<HTMLInputElement>): void => {
    this.tell('given-input', { ...this.given, text: event.currentTarget.value }, 'typed');
  };

  private readonly onPlusMinus = (event: EventOn<HTMLInputElement>): void => {
    this.tell('given-input', { ...this.given, plusMinus: event.currentTarget.value }, 'typed');
  };

  /** Leaving the field: a unit typed behind the number moves to its place. A ± typed before keeps its own. */
  private readonly onDone = (): void => {
    const given = { ...this.given };
    const typed = parseNumber(given.text);
    const unit = typed.ok ? typed.value.unit : null;
    if (typed.ok && unit !== null && this.unitChoice.includes(unit)) {
      const width = parseNumber(given.plusMinus);
      if (unit !== given.unit && width.ok && width.value.unit === null)
        given.plusMinus = `${given.plusMinus.trim()} ${given.unit}`;
      given.text = typed.value.digits;
      given.unit = unit;
    }
    this.tell('given-input', given, 'typed');
    this.tell('given-change', given, 'typed');
  };

  private readonly onUnit = (event: EventOn<HTMLSelectElement>): void => {
    const given: Given = { ...this.given, unit: event.currentTarget.value };
    this.tell('given-input', given, 'chosen');
    this.tell('given-change', given, 'chosen');
  };

  private readonly onKind = (event: EventOn<HTMLSelectElement>): void => {
    const kind = event.currentTarget.value === 'limits' ? 'limits' : 'expanded';
    const given: Given = { ...this.given, kind };
    this.tell('given-input', given, 'chosen');
    this.tell('given-change', given, 'chosen');
  };

  private readonly onKey = (event: KeyboardEvent): void => {
    if (event.altKey || event.ctrlKey || event.metaKey) return;
    const steps = KEY_STEPS[event.key];
    const step = this.step || UNIT_STEPS[this.given.unit];
    if (steps === undefined || step === undefined) return;
    const text = stepTyped(this.given.text, steps * step * (event.shiftKey ? 10 : 1));
    if (text === null) return;
    event.preventDefault();
    this.tell('given-input', { ...this.given, text }, 'stepped');
  };

  private tell(name: 'given-input' | 'given-change', given: Given, by: GivenEventDetail['by']): void {
    this.given = given;
    const detail: GivenEventDetail = { given, by };
    this.dispatchEvent(new CustomEvent(name, { detail, bubbles: true, composed: true }));
  }
}

/** What one arrow key is worth in each unit: about what a ruler, a scale or a protractor shows. */
const UNIT_STEPS: Readonly<Record<string, number>> = {
  ...{ mm: 1, cm: 0.1, m: 0.01, in: 0.05 },
  ...{ g: 1, kg: 0.01, oz: 0.1, lb: 0.01 },
  ...{ deg: 1, rad: 0.01, '%': 1, px: 0.1 },
};
const KEY_STEPS: Readonly<Record<string, number>> = { ArrowUp: 1, ArrowDown: -1, PageUp: 10, PageDown: -10 };

/** "Wheelbase: needs a length above zero; got …": the part up to the semicolon bold and red, the rest plain. */
function renderMessage(id: string, message: string) {
  if (!message) return nothing;
  const cut = message.indexOf(';');
  const [rule, rest] = cut < 0 ? [message, ''] : [message.slice(0, cut + 1), message.slice(cut + 1)];
  return html`<p id=${id} class="below" role="status"><strong>${rule}</strong>${rest}</p>`;
}

declare global {
  interface HTMLElementTagNameMap {
    'plumb-given': GivenField;
  }
  interface HTMLElementEventMap {
    'given-input': GivenEvent;
    'given-change': GivenEvent;
  }
}
