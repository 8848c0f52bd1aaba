import { html, nothing, type TemplateResult } from 'lit';
import { repeat } from 'lit/directives/repeat.js';
import { edit, settle } from '../../sheet/bench';
import type { Change } from '../../sheet/schema';
import type { EventOn } from '../shared/events';
import { chevronDownIcon } from '../shared/icons';
import { changeWords } from './changeWords';
import { addChange, emptyChangeOf, inChange, removeChange } from './edits';
import { choice } from './entryFields/choices';
import { entryElementId } from './listPart';
import type { ReadingsParts } from './parts';
import { givenAt } from './readingGiven';

/**
 * The changes a reader intends or has made: a mass moved, or added at a place. `effectOf`: what one does to the truck, in
 * words; '' while that cannot be told.
 */
export function changesPart(parts: ReadingsParts, effectOf: (id: string) => string): TemplateResult {
  const { changes } = parts.state;
  return html`
    <h4>Changes, intended or made</h4>
    ${
      changes.length === 0
        ? html`<p class="empty">None yet. A pack moved down, a plate added: type what you have in mind.</p>`
        : html`<ol class="entries">
            ${repeat(
              changes,
              ({ id }) => id,
              (change, index) => changeRow(parts, change, index, effectOf(change.id)),
            )}
          </ol>`
    }
    <div class="button-row">
      <button class="button" type="button" @click=${() => add(parts, 'moved')}>Move a mass</button>
      <button class="button" type="button" @click=${() => add(parts, 'added')}>Add a mass</button>
    </div>
  `;
}

const KINDS: readonly (readonly [Change['kind'], string])[] = [
  ['moved', 'Moves'],
  ['added', 'Is added'],
];

function changeRow(parts: ReadingsParts, change: Change, index: number, effect: string): TemplateResult {
  const { state, opened, toggle } = parts;
  const { id, kind } = change;
  const { title, detail } = changeWords(change, index);
  const open = opened.has(id);
  const path = (name: string) => `changes/${index}/${name}`;
  const captions = CAPTIONS[kind];
  return html`<li class="entry bare">
    <details
      id=${entryElementId(id)}
      .open=${open}
      @toggle=${(event: EventOn<HTMLDetailsElement>) => toggle(id, event.currentTarget.open)}
    >
      <summary>
        <span class="entry-words">
          <span class="entry-title">${title}</span>
          <span class="entry-detail">${detail || 'no mass yet'}</span>
          ${effect === '' ? nothing : html`<span class="entry-effect">${effect}</span>`}
        </span>
        ${chevronDownIcon}
      </summary>
      ${
        open
          ? html`<div class="inside">
              <label class="text-row"
                ><span>Name</span
                ><input
                  type="text"
                  autocomplete="off"
                  maxlength="200"
                  placeholder="battery, skid plate"
                  .value=${change.name}
                  @input=${(event: EventOn<HTMLInputElement>) => {
                    const { value } = event.currentTarget;
                    edit(
                      `Name of ${title}`,
                      inChange(id, (own) => (own.name = value)),
                      `change name ${id}`,
                    );
                  }}
                  @change=${settle}
              /></label>
              ${choice('The mass', `change-${id}`, kind, KINDS, (value) =>
                edit(
                  `Kind of ${title}`,
                  inChange(id, (own) => (own.kind = value)),
                ),
              )}
              ${givenAt(state, path('mass'), { caption: 'Mass', note: kind === 'added' ? 'Taken away is negative.' : '' })}
              ${givenAt(state, path('ahead'), { caption: captions.ahead })}
              ${givenAt(state, path('left'), { caption: captions.left })}
              ${givenAt(state, path('height'), { caption: captions.height, note: captions.note })}
              <div class="button-row">
                <button class="quiet" type="button" @click=${() => remove(parts, change, title)}>
                  Remove
                </button>
              </div>
            </div>`
          : nothing
      }
    </details>
  </li>`;
}

const CAPTIONS: Readonly<
  Record<Change['kind'], { readonly [Name in 'ahead' | 'left' | 'height' | 'note']: string }>
> = {
  moved: {
    ahead: 'Forward by',
    left: 'Left by',
    height: 'Up by',
    note: 'Back, right and down are negative; empty is not at all.',
  },
  added: {
    ahead: 'Ahead of rear axle',
    left: 'Left of center',
    height: 'Above ground',
    note: 'The place of the added mass’s own middle.',
  },
};

function add({ goTo, tell }: ReadingsParts, kind: Change['kind']): void {
  const change = emptyChangeOf(kind);
  edit(kind === 'moved' ? 'Add a mass to move' : 'Add a mass to add', addChange(change));
  tell('A change, without numbers yet.');
  goTo(change.id);
}

function remove({ tell }: ReadingsParts, { id }: Change, title: string): void {
  edit(`Remove ${title}`, removeChange(id));
  tell(`${title}: removed. Undo brings it back.`);
}
