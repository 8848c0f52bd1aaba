import { css, html, nothing, type TemplateResult } from 'lit';
import { edit, settle } from '../../sheet/bench';
import { markUncertainty } from '../../sheet/derived';
import { FIELDS } from '../../sheet/fields';
import type { Mark, Picture } from '../../sheet/schema';
import type { EventOn } from '../shared/events';
import { keepNumbers } from '../shared/format';
import { countMark, setMarkPlusMinus } from './edits';
import { lower } from './words';

export interface InHandParts {
  readonly picture: Picture;
  readonly mark: Mark;
  readonly name: string;
  /** How many times larger than in the picture the loupe shows it. */
  readonly enlarged: number;
  readonly takeAway: () => void;
}

/** The mark in hand: its name and place, its own ±, set aside, take away. */
export function inHandPart({ picture, mark, name, enlarged, takeAway }: InHandParts): TemplateResult {
  const { role, counted, plusMinus } = mark;
  const u = markUncertainty(picture, mark);
  const usual = picture.markPlusMinus.text.trim() || String(FIELDS.markPlusMinus.whenEmpty.number);
  const typed = (event: EventOn<HTMLInputElement>) =>
    edit(
      `± of ${lower(name)}`,
      setMarkPlusMinus(picture.id, role, event.currentTarget.value),
      `mark ± ${picture.id} ${role}`,
    );
  const count = () =>
    edit(`${counted ? 'Set aside' : 'Count'} ${lower(name)}`, countMark(picture.id, role, !counted));
  return html`<div class="in-hand">
    <p>
      <b>${name}</b> · ${enlarged.toFixed(0)} ×
      <span class="quiet-text place"
        >x ${mark.x.toFixed(1)}, y ${keepNumbers(`${mark.y.toFixed(1)} px`)}</span
      >
    </p>
    <label class="own-plus-minus"
      >±
      <input
        type="text"
        inputmode="decimal"
        autocomplete="off"
        maxlength="20"
        placeholder=${usual}
        aria-label="${name}, plus or minus, pixels"
        aria-invalid=${u.ok ? 'false' : 'true'}
        .value=${plusMinus}
        @input=${typed}
        @change=${() => settle()}
      />
      px</label
    >
    ${u.ok ? nothing : html`<p class="field-problem" role="status">${u.message}</p>`}
    <div class="button-row">
      <button class="quiet" type="button" @click=${count}>
        ${counted ? 'Set aside' : 'Count again'}<span class="spoken"> ${name}</span>
      </button>
      <button class="quiet" type="button" @click=${takeAway}>
        Take away<span class="spoken"> ${name}</span>
      </button>
    </div>
  </div>`;
}

export const inHandStyles = css`
  .in-hand {
    display: flex;
    flex-wrap: wrap;
    align-items: center;
    justify-content: space-between;
    gap: 0 0.6rem;
    margin-block: 0.6rem;
    font-size: 0.9375rem;
    line-height: 1.35;
  }
  .in-hand b {
    color: var(--blue);
  }
  .in-hand .place {
    display: block;
    font-size: 0.875rem;
  }
  .in-hand .quiet {
    font-size: 0.875rem;
  }
  .in-hand .button-row {
    flex-basis: 100%;
    gap: 0 0.9rem;
  }
  .own-plus-minus {
    display: inline-flex;
    align-items: center;
    gap: 0.3rem;
    min-height: 2.75rem;
    color: var(--blue);
  }
  .own-plus-minus input {
    width: 3.2rem;
    height: 2.5rem;
    padding: 0 0.4rem;
    font: inherit;
    color: var(--blue);
    text-align: end;
    background: var(--paper);
    border: 1px solid var(--hair);
    border-radius: 2px;
  }
  .own-plus-minus input::placeholder {
    color: var(--ink-2);
    opacity: 1;
  }
  .own-plus-minus input[aria-invalid='true'] {
    border: 2px solid var(--red);
  }
  .field-problem {
    flex-basis: 100%;
    color: var(--red);
    font-weight: 600;
  }
  @media print {
    .in-hand {
      display: none;
    }
  }
`;
