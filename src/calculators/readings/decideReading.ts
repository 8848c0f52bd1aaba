import { css, html, LitElement, nothing, type TemplateResult } from 'lit';
import { customElement, property, state } from 'lit/decorators.js';
import { edit } from '../../sheet/bench';
import type { Reading } from '../../sheet/schema';
import { countPicture } from '../photographs/edits';
import { lower } from '../photographs/words';
import type { EventOn } from '../shared/events';
import { formStyles } from '../shared/formStyles';
import { baseStyles, buttonStyles } from '../shared/styles';
import { addBehind, countReading, measuredAgain, noteReading } from './edits';

/**
 * What the reader decides on a reading that does not agree: measure it again, the old one kept or set aside, or set it
 * aside with a reason. Nothing is set aside unasked.
 *
 *     <plumb-decide name="Axle lift, nose up" .reading=${lift} @measured-again=${(event) => goTo(event.detail)}></plumb-decide>
 *
 * `reading` is null for a hang in a picture, which is hung again in chapter 3; its id is then `pictureId`. Event
 * `measured-again`: a fresh reading of the same kind is on the sheet, its id the detail.
 */
@customElement('plumb-decide')
export class DecideReading extends LitElement {
  @property() name = '';
  @property({ attribute: false }) reading: Reading | null = null;
  @property({ attribute: 'picture-id' }) pictureId = '';
  /** What the reader noted on it before; kept behind the reason. */
  @property() note = '';

  @state() private asked: 'again' | 'aside' | null = null;
  @state() private aside = false;
  @state() private reason = '';

  static override styles = [
    baseStyles,
    buttonStyles,
    formStyles,
    css`
      form {
        display: grid;
        gap: 0.6rem;
        padding: 0.8rem 0.9rem 0.9rem;
        border: 1.3px solid var(--ink);
        max-width: 34rem;
        background: var(--paper);
      }
      form p {
        font-size: 0.9375rem;
        line-height: 1.4;
      }
      @media print {
        :host {
          display: none;
        }
      }
    `,
  ];

  override render() {
    return this.asked === null ? this.buttons() : this.form(this.asked);
  }

  private buttons(): TemplateResult {
    return html`<div class="button-row">
      ${
        this.reading
          ? html`<button class="button" type="button" @click=${() => this.ask('again')}>
              Measure it again
            </button>`
          : html`<a class="button" href="./resultant-lines.html#e3">Hang it again, in chapter 3, E3</a>`
      }
      <button class="quiet" type="button" @click=${() => this.ask('aside')}>Set it aside</button>
    </div>`;
  }

  private form(asked: 'again' | 'aside'): TemplateResult {
    const again = asked === 'again';
    const writes = !again || this.aside;
    return html`<form @submit=${this.decide} @keydown=${this.onKey}>
      <p>
        ${
          again
            ? html`A fresh reading like ${lower(this.name)} is added, without numbers. The first one stays as
              it is unless you set it aside.`
            : html`${this.name} stays on the sheet, struck through with your reason, and no longer counts.`
        }
      </p>
      ${
        again
          ? html`<label class="check"
              ><input
                type="checkbox"
                .checked=${this.aside}
                @change=${(event: EventOn<HTMLInputElement>) => (this.aside = event.currentTarget.checked)}
              />Set the first one aside</label
            >`
          : nothing
      }
      ${
        writes
          ? html`<label class="text-row"
              ><span>Why</span
              ><input
                type="text"
                autocomplete="off"
                maxlength="400"
                placeholder="what speaks against it"
                .value=${this.reason}
                @input=${(event: EventOn<HTMLInputElement>) => (this.reason = event.currentTarget.value)}
            /></label>`
          : nothing
      }
      <div class="button-row">
        <button class="button" type="submit">${again ? 'Add the new reading' : 'Set it aside'}</button>
        <button class="quiet" type="button" @click=${this.cancel}>Leave it as it is</button>
      </div>
    </form>`;
  }

  private ask(asked: 'again' | 'aside'): void {
    this.asked = asked;
    this.aside = false;
    this.reason = '';
    void this.updateComplete.then(() => this.renderRoot.querySelector('input')?.focus());
  }

  private readonly cancel = (): void => {
    this.asked = null;
    void this.updateComplete.then(() => this.renderRoot.querySelector<HTMLElement>('.button')?.focus());
  };

  private readonly onKey = (event: KeyboardEvent): void => {
    if (event.key !== 'Escape') return;
    // The panel stays open.
    event.preventDefault();
    event.stopPropagation();
    this.cancel();
  };

  private readonly decide = (event: Event): void => {
    event.preventDefault();
    const { reading, asked, name, pictureId } = this;
    const reason = withNote(this.reason, this.note);
    this.asked = null;
    if (asked === 'again' && reading) {
      const copy = measuredAgain(reading);
      edit(`Measure ${name} again`, (draft) => {
        if (this.aside) {
          countReading(reading.id, false)(draft);
          noteReading(reading.id, reason)(draft);
        }
        addBehind(reading.id, copy)(draft);
      });
      this.dispatchEvent(new CustomEvent<string>('measured-again', { detail: copy.id }));
    } else if (asked === 'aside') {
      edit(`Set ${name} aside`, (draft) => {
        if (reading) {
          countReading(reading.id, false)(draft);
          noteReading(reading.id, reason)(draft);
        } else countPicture(pictureId, false, reason)(draft);
      });
      this.dispatchEvent(new CustomEvent<string>('set-aside', { detail: reading?.id ?? pictureId }));
    }
  };
}

/** A reason, and behind it what was noted before. */
function withNote(reason: string, note: string): string {
  const own = reason.trim();
  const before = note.trim();
  if (own === '' || before === '') return own || before;
  return `${own.replace(/\.$/, '')}. ${before}`.slice(0, LONGEST_NOTE);
}
/** As long as a note may be. */
const LONGEST_NOTE = 400;

declare global {
  interface HTMLElementTagNameMap {
    'plumb-decide': DecideReading;
  }
}
