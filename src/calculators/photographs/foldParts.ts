import { css, html, nothing, type TemplateResult } from 'lit';
import { edit } from '../../sheet/bench';
import type { BuildState, Picture } from '../../sheet/schema';
import type { EventOn } from '../shared/events';
import { chevronDownIcon } from '../shared/icons';
import type { SheetRecipe } from './edits';

/** What the folds of the givens share: the fold itself, and rows for what is not a number. */

/** Which folds the reader has opened or closed; the picture in hand decides where they have not. */
export type FoldMemory = Map<string, boolean>;

export interface GivensParts {
  readonly state: BuildState;
  readonly picture: Picture | null;
  readonly folds: FoldMemory;
  readonly redraw: () => void;
  /** Called with what happened to a picture that was set aside, counted again or removed, to be told. */
  readonly pictureChanged: (what: string, removed: boolean) => void;
  /** The switch that lets the picture's edges move marks. */
  readonly edges: TemplateResult;
}

/** A fold whose label carries the values inside, so that a phone shows them without opening it. */
export function fold(
  { folds, redraw }: GivensParts,
  key: string,
  title: string,
  brief: string,
  openByDefault: boolean,
  content: TemplateResult,
): TemplateResult {
  const open = folds.get(key) ?? openByDefault;
  return html`<details
    class="group fold"
    ?open=${open}
    data-fold=${key}
    @toggle=${(event: EventOn<HTMLDetailsElement>) => {
      const now = event.currentTarget.open;
      if (now === (folds.get(key) ?? openByDefault)) return;
      folds.set(key, now);
      redraw();
    }}
  >
    <summary>
      <span>${title}${open ? nothing : html`<span class="quiet-text brief">${brief}</span>`}</span>
      ${chevronDownIcon}
    </summary>
    ${content}
  </details>`;
}

/** An edit of the sheet as a listener makes it. */
export const change = (label: string, recipe: SheetRecipe, mergeKey?: string): void => {
  edit(label, recipe, mergeKey);
};

/**
 * A choice between two or three things, as one box of 44 px. Where the name changes with the picture, what is checked is
 * set before the name: an option that came under the new name first would be unchecked by the next one, still checked.
 */
export function choice<Value extends string>(
  legend: string,
  name: string,
  value: Value,
  options: readonly (readonly [Value, string])[],
  choose: (value: Value) => void,
): TemplateResult {
  return html`<fieldset class="choice">
    <legend>${legend}</legend>
    <div class="switch">
      ${options.map(
        ([option, words]) =>
          html`<label
            ><input
              type="radio"
              .checked=${option === value}
              name=${name}
              @change=${() => choose(option)}
            />${words}</label
          >`,
      )}
    </div>
  </fieldset>`;
}

/** A choice among more things than a box holds side by side, as a list to open. */
export function pick<Value extends string>(
  id: string,
  label: string,
  value: Value,
  options: readonly (readonly [Value, string])[],
  choose: (value: Value) => void,
): TemplateResult {
  return html`<div class="text-row">
    <label for=${id}>${label}</label>
    <select
      id=${id}
      @change=${(event: EventOn<HTMLSelectElement>) => {
        const picked = options[event.currentTarget.selectedIndex];
        if (picked) choose(picked[0]);
      }}
    >
      ${options.map(
        ([option, words]) => html`<option value=${option} .selected=${option === value}>${words}</option>`,
      )}
    </select>
  </div>`;
}

/** What is wrong with a choice, at its place: rule broken, what stands, what to do next. */
export const problemAt = (message: string): TemplateResult =>
  html`<p class="choice-problem" role="status">${message}</p>`;

/** A row for words. */
export function textRow(
  id: string,
  label: string,
  value: string,
  write: (text: string) => void,
  placeholder = '',
): TemplateResult {
  return html`<div class="text-row">
    <label for=${id}>${label}</label>
    <input
      id=${id}
      type="text"
      autocomplete="off"
      maxlength="200"
      placeholder=${placeholder}
      .value=${value}
      @input=${(event: EventOn<HTMLInputElement>) => write(event.currentTarget.value)}
    />
  </div>`;
}

export const foldStyles = css`
  /* The browser's own box inside details would hand its content-box on. */
  .fold > * {
    box-sizing: border-box;
  }
  .fold {
    border-block-end: 1px solid var(--hair);
  }
  .fold[open] {
    padding-block-end: 0.9rem;
  }
  .group.fold + .group.fold {
    margin-block-start: 0;
  }
  .brief {
    margin-inline-start: 0.5rem;
    font-weight: 400;
    font-size: 0.875rem;
  }
  .text-row {
    display: grid;
    grid-template-columns: minmax(4.2rem, 1fr) minmax(0, 1.9fr);
    align-items: center;
    gap: 0.5rem;
    min-height: 2.9rem;
    border-block-end: 1px solid var(--hair);
    font-size: 0.9375rem;
  }
  .text-row label {
    line-height: 1.2;
  }
  .text-row input,
  .text-row select {
    width: 100%;
    min-width: 0;
    height: 2.75rem;
    padding: 0 0.5rem;
    font: inherit;
    color: var(--blue);
    background: var(--paper);
    border: 1px solid var(--hair);
    border-block-end: 2px solid var(--blue);
    border-radius: 2px;
  }
  .text-row input::placeholder {
    color: var(--ink-2);
    opacity: 1;
  }
  .text-row input:focus {
    background: var(--blue-w);
  }
  .choice {
    margin: 0.7rem 0 0;
    padding: 0;
    border: 0;
    min-width: 0;
  }
  .choice legend {
    padding: 0;
    margin-block-end: 0.3rem;
    font-size: 0.875rem;
    font-weight: 640;
  }
  .choice-problem {
    margin-block-start: 0.5rem;
    padding-inline-start: 0.7rem;
    font-size: 0.875rem;
    line-height: 1.35;
    color: var(--red);
    border-inline-start: 2px solid var(--red);
  }
  .fold .fold {
    margin-block-start: 0.6rem;
    border-block-end: 0;
  }
  .body-mark + .body-mark {
    margin-block-start: 0.5rem;
  }
  .fold .button-row,
  .fold > .button {
    margin-block-start: 0.8rem;
  }
`;
