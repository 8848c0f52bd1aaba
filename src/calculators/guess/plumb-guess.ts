import { css, html, LitElement, nothing, type TemplateResult } from 'lit';
import { customElement, property, state } from 'lit/decorators.js';
import { DragHandle, figureStyles, guessRuler, rulerValue } from '../../figures';
import { benchAnswer } from '../../answer/benchAnswer';
import { edit, kept, openState, ready } from '../../sheet/bench';
import { outside } from '../../sheet/dimensions';
import { readGiven } from '../../sheet/given';
import type { Given } from '../../sheet/schema';
import { asSpeech, fixed, NO_BREAK, unitSign, unitWord } from '../shared/format';
import '../shared/givenField';
import type { GivenEvent } from '../shared/givenField';
import '../shared/resultView';
import { figureBox } from '../shared/figureBox';
import { projected, stageFactor } from '../shared/projector';
import { SheetController } from '../shared/sheetController';
import { baseStyles, buttonStyles } from '../shared/styles';
import { guessKey, guessQuantity, type GuessQuantity } from './guessQuantities';

/**
 * A guess before the answer: a slip on a ruler, or a number; kept on the sheet, or skipped.
 *
 *     <plumb-guess address="B3" heading="Your guess first" of="height">How high …?</plumb-guess>
 *     <plumb-guess recall from="B3" address="G3" heading="Your guess, beside the answer" of="height"></plumb-guess>
 *
 * `of`: a name of guessQuantities.ts, 'height' for one; `min`, `max`, `step` change the ruler. With `recall` it shows
 * the guess made at `from` beside the measured value. The question is the slotted text. Keys on the slip: arrows one
 * step, Page keys or Shift ten, Home and End the ruler's ends.
 */
@customElement('plumb-guess')
export class Guess extends LitElement {
  @property() address = '';
  @property() heading = 'Your guess first';
  @property() of = 'height';
  @property({ type: Number }) min: number | null = null;
  @property({ type: Number }) max: number | null = null;
  @property({ type: Number }) step = 1;
  @property({ type: Boolean }) recall = false;
  @property() from = '';

  @state() private text = '';
  @state() private unit = '';
  @state() private asked = false;
  @state() private skipped = false;

  private readonly sheet = new SheetController(this, () => ({
    ready: ready.value,
    guess: kept.value.guesses[this.key],
    state: openState.value,
  }));
  private readonly figure = figureBox(this, 500, '.ruler');
  private readonly handle = new DragHandle(this, {
    name: () => 'Your guess',
    range: () => ({ min: this.scale.min, max: this.scale.max, step: this.step, bigStep: this.step * 10 }),
    value: () => this.number ?? this.middle,
    spoken: (value) =>
      this.number === null ? 'no guess yet' : `${value} ${unitWord(this.quantity?.unit ?? '')}`,
    valueAt: ({ x }) => rulerValue(this.scale, x),
    moved: (value) => this.set(String(value)),
  });

  static override styles = [
    baseStyles,
    buttonStyles,
    figureStyles,
    css`
      section {
        border: 1.5px solid var(--ink);
        background: var(--paper);
        padding: 1rem 1.25rem 1.1rem;
      }
      h3 {
        margin-block-end: 0.35rem;
        font-size: 0.9375rem;
        font-weight: 680;
      }
      ::slotted(*) {
        font-family: var(--serif, Georgia, serif);
        font-size: 1.0625rem;
        line-height: 1.55;
      }
      .ruler {
        --pad: var(--paper);
        touch-action: pan-y;
        cursor: pointer;
      }
      .number-row {
        max-width: 17rem;
        margin-block: 0.1rem 0.9rem;
      }
      .write-lines {
        display: none;
      }
      .kept {
        display: grid;
        gap: 0.4rem;
        justify-items: start;
      }
      .kept b {
        font-size: 1.3125rem;
      }
      .beside {
        display: grid;
        grid-template-columns: repeat(auto-fit, minmax(11rem, 1fr));
        gap: 1rem;
        margin-block-start: 0.4rem;
      }
      .beside .label {
        font-size: 0.875rem;
        color: var(--ink-2);
      }
      .guessed {
        font-size: 2.125rem;
        line-height: 1.2;
        font-weight: 650;
        color: var(--blue);
      }
      .guessed small {
        font-size: 1.0625rem;
        font-weight: 500;
      }
      @media print {
        .handle,
        .number-row,
        .kept {
          display: none;
        }
        .write-lines {
          display: block;
          margin-block-start: 0.5rem;
        }
        .write-lines i {
          display: block;
          height: 1.9rem;
          border-block-end: 1px solid var(--rule);
        }
        section {
          break-inside: avoid;
        }
      }
    `,
  ];

  override render() {
    const quantity = guessQuantity(this.of);
    if (!quantity.ok) return html`<p>${quantity.message}</p>`;
    if (this.recall) return this.renderRecall(quantity.value);
    return html`<section aria-label=${this.heading}>
      ${projected() ? nothing : html`<h3>${this.heading}</h3>`}
      <slot></slot>
      ${this.renderRuler(quantity.value)}
      <div class="write-lines" aria-hidden="true"><i></i><i></i></div>
      ${this.sheet.value.guess ? this.renderKept() : this.skipped ? this.renderSkipped() : this.renderChoice(quantity.value)}
    </section>`;
  }

  private renderRuler(quantity: GuessQuantity): TemplateResult {
    const { guess } = this.sheet.value;
    const kept = guess ? this.inRulerUnit(guess.text, guess.unit) : null;
    const number = guess ? kept : this.number;
    return html`<div class="ruler" @pointerdown=${this.press}>
      ${guessRuler({
        ...this.scale,
        value: number ?? this.middle,
        flag: number === null ? '?' : fixed(number, Number.isInteger(number) ? 0 : 1),
        leftNote: quantity.low,
        unitNote: quantity.scale,
        description: `A ruler from ${this.scale.min} to ${this.scale.max} ${unitWord(quantity.unit)}`,
        ...(guess ? {} : { handle: this.handle }),
      })}
    </div>`;
  }

  private renderChoice(quantity: GuessQuantity): TemplateResult {
    const given: Given = {
      text: this.text,
      unit: this.unit || quantity.unit,
      plusMinus: '',
      kind: 'expanded',
    };
    const read = readGiven(given, quantity.field);
    const message = this.asked && !read.ok ? read.message : '';
    return html`<div class="number-row">
        <plumb-given
          label="or as a number"
          .given=${given}
          .field=${quantity.field}
          .message=${message}
          no-plus-minus
          @given-input=${this.typed}
        ></plumb-given>
      </div>
      <div class="button-row">
        <button class="button filled" type="button" ?disabled=${!this.sheet.value.ready} @click=${this.keep}>
          Keep my guess
        </button>
        <button class="quiet" type="button" @click=${this.skip}>Skip, I am at the bench</button>
      </div>`;
  }

  private renderKept(): TemplateResult {
    const { guess } = this.sheet.value;
    if (!guess) return html``;
    return html`<div class="kept" role="status">
      <p>
        Your guess, kept: <b class="given-number">${withUnit(guess)}</b>. It comes back beside the answer in
        part G.
      </p>
      <button class="quiet" type="button" @click=${this.again}>Guess again</button>
    </div>`;
  }

  private renderSkipped(): TemplateResult {
    return html`<div class="kept">
      <p>Skipped.</p>
      <button class="quiet" type="button" @click=${this.unskip}>Guess after all</button>
    </div>`;
  }

  private renderRecall(quantity: GuessQuantity): TemplateResult {
    const { guess, state: build } = this.sheet.value;
    const answer = quantity.answer(benchAnswer(build));
    const place = `#${this.from.toLowerCase()}`;
    return html`<section aria-label=${this.heading}>
      ${projected() ? nothing : html`<h3>${this.heading}</h3>`}
      <div class="beside">
        <div>
          <p class="label">your guess</p>
          ${
            guess
              ? html`<p class="guessed">${withUnit(guess)}</p>`
              : html`<p>You made none. <a href=${place}>Guess at ${this.from}</a>, before you look.</p>`
          }
        </div>
        ${
          guess
            ? html`<plumb-result
                .label=${quantity.measured}
                .state=${
                  answer.ok
                    ? { kind: 'current', shown: answer.value.shown }
                    : { kind: 'needs', why: answer.message, missing: [] }
                }
              ></plumb-result>`
            : nothing
        }
      </div>
      ${guess && answer.ok ? html`<p>${this.difference(quantity, guess, answer.value.number)}</p>` : nothing}
    </section>`;
  }

  /** How far off the guess was, both in the ruler's unit. */
  private difference(
    quantity: GuessQuantity,
    guess: { text: string; unit: string },
    measured: number,
  ): string {
    const own = this.inRulerUnit(guess.text, guess.unit);
    if (own === null) return '';
    const off = own - measured;
    const size = fixed(Math.abs(off), quantity.unit === 'mm' ? 0 : 1);
    const shown = { value: size, plusMinus: '', unit: unitSign(quantity.unit) };
    if (Number(size) === 0) return 'Your guess and the answer are the same.';
    const sign = shown.unit === '°' ? `${size}°` : `${size}${NO_BREAK}${shown.unit}`;
    return `Your guess was ${sign} ${off > 0 ? quantity.more : quantity.less}.`;
  }

  private get key(): string {
    return guessKey(this.recall ? this.from : this.address);
  }

  private get quantity(): GuessQuantity | null {
    const quantity = guessQuantity(this.of);
    return quantity.ok ? quantity.value : null;
  }

  private get scale(): { readonly min: number; readonly max: number; readonly width: number } {
    const quantity = this.quantity;
    return {
      min: this.min ?? quantity?.min ?? 0,
      max: this.max ?? quantity?.max ?? 100,
      width: this.figure.width,
    };
  }

  private get middle(): number {
    return Math.round((this.scale.min + this.scale.max) / 2);
  }

  /** The guess as typed or dragged, in the ruler's unit; null while it is none. */
  private get number(): number | null {
    return this.inRulerUnit(this.text, this.unit || (this.quantity?.unit ?? ''));
  }

  private inRulerUnit(text: string, unit: string): number | null {
    const { quantity } = this;
    if (!quantity) return null;
    const read = readGuess(quantity, text, unit);
    return read.ok ? outside(quantity.field.dimension, read.value.value, quantity.unit) : null;
  }

  private set(text: string): void {
    this.text = text;
    this.unit = this.quantity?.unit ?? '';
  }

  private readonly typed = (event: GivenEvent): void => {
    this.text = event.detail.given.text;
    this.unit = event.detail.given.unit;
  };

  /** A press anywhere on the ruler brings the slip there. */
  private readonly press = (event: PointerEvent & { readonly currentTarget: HTMLElement }): void => {
    if (this.sheet.value.guess || event.defaultPrevented || event.button !== 0) return;
    const box = event.currentTarget.getBoundingClientRect();
    this.handle.moveTo(rulerValue(this.scale, (event.clientX - box.left) / stageFactor()), 'pointer');
  };

  private readonly keep = (): void => {
    this.asked = true;
    const { quantity } = this;
    if (!quantity) return;
    const given: Given = {
      text: this.text,
      unit: this.unit || quantity.unit,
      plusMinus: '',
      kind: 'expanded',
    };
    if (!readGiven(given, quantity.field).ok) return;
    edit('Keep a guess', (draft) => {
      draft.guesses[this.key] = { text: given.text, unit: given.unit };
    });
  };

  private readonly again = (): void => {
    const { guess } = this.sheet.value;
    this.text = guess?.text ?? '';
    this.unit = guess?.unit ?? '';
    this.asked = false;
    edit('Take back a guess', (draft) => {
      delete draft.guesses[this.key];
    });
  };

  private readonly skip = (): void => {
    this.skipped = true;
  };

  private readonly unskip = (): void => {
    this.skipped = false;
  };
}

/** One path for both kinds of guess; the field's dimension decides what number comes out. */
const readGuess = ({ field }: GuessQuantity, text: string, unit: string) =>
  readGiven<'length' | 'angle' | 'share'>({ text, unit, plusMinus: '', kind: 'expanded' }, field);

/** "82 mm", "45°" as typed. */
function withUnit({ text, unit }: { readonly text: string; readonly unit: string }): TemplateResult {
  const sign = unitSign(unit);
  return html`<span class="spoken">${asSpeech({ value: text, plusMinus: '', unit })}</span
    ><span aria-hidden="true">${text}${sign === '°' ? '°' : html` <small>${sign}</small>`}</span>`;
}

declare global {
  interface HTMLElementTagNameMap {
    'plumb-guess': Guess;
  }
}
