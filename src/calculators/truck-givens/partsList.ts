import { html, nothing, type TemplateResult } from 'lit';
import { edit, settle } from '../../sheet/bench';
import { emptyPart } from '../../sheet/empty';
import { FIELDS } from '../../sheet/fields';
import { readGiven } from '../../sheet/given';
import { called } from '../../sheet/givens';
import type { BuildState, Carrier, Part } from '../../sheet/schema';
import type { EventOn } from '../shared/events';
import { showMass } from '../shared/format';
import { chevronDownIcon } from '../shared/icons';
import { draftState, sheetGiven } from '../shared/sheetGiven';

const CARRIERS: readonly { readonly value: Carrier; readonly words: string }[] = [
  { value: 'body', words: 'the body, on its springs' },
  { value: 'front axle', words: 'the front axle' },
  { value: 'rear axle', words: 'the rear axle' },
];

/** One part, folded to its name and mass; its fields are made when it is opened. */
export function partRow(
  state: BuildState,
  part: Part,
  index: number,
  open: boolean,
  toggle: (id: string, open: boolean) => void,
): TemplateResult {
  const { id } = part;
  const name = called(part.name, 'Part', index);
  const mass = readGiven(part.mass, FIELDS.partMass);
  const shown = mass.ok ? showMass({ value: mass.value.value, u: 0 }) : null;
  const at = (each: BuildState): Part | undefined => each.parts.find((other) => other.id === id);
  const change = (label: string, recipe: (draft: Part) => void, key?: string): void => {
    edit(
      label,
      (draft) => {
        const own = at(draftState(draft));
        if (own) recipe(own);
      },
      key,
    );
  };
  return html`<details
    class="part"
    .open=${open}
    @toggle=${(event: EventOn<HTMLDetailsElement>) => toggle(id, event.currentTarget.open)}
  >
    <summary>
      <span class="part-name">${name}</span>
      <span class="part-mass"
        >${shown ? `${shown.value} g` : html`<span class="quiet-text">no mass yet</span>`}</span
      >
      ${chevronDownIcon}
    </summary>
    ${
      open
        ? html`<label class="text-row"
              ><span>Name</span
              ><input
                type="text"
                maxlength="200"
                .value=${part.name}
                placeholder="what it is"
                @input=${(event: EventOn<HTMLInputElement>) => {
                  const { value } = event.currentTarget;
                  change(`Name of ${name}`, (draft) => (draft.name = value), `part name ${id}`);
                }}
                @change=${settle}
            /></label>
            <label class="text-row"
              ><span>Moves with</span
              ><select
                @change=${(event: EventOn<HTMLSelectElement>) => {
                  const carrier =
                    CARRIERS.find(({ value }) => value === event.currentTarget.value)?.value ?? 'body';
                  change(`Carrier of ${name}`, (draft) => (draft.carrier = carrier));
                }}
              >
                ${CARRIERS.map(
                  ({ value, words }) =>
                    html`<option value=${value} ?selected=${value === part.carrier}>${words}</option>`,
                )}
              </select></label
            >
            ${sheetGiven(state, (each) => at(each)?.mass, FIELDS.partMass, {
              label: `${name}, mass`,
              caption: 'Mass',
              note: 'A removed part has a negative mass.',
            })}
            ${sheetGiven(state, (each) => at(each)?.ahead, FIELDS.partAhead, {
              label: `${name}, ahead of the rear axle`,
              caption: 'Ahead of the rear axle',
            })}
            ${sheetGiven(state, (each) => at(each)?.left, FIELDS.partLeft, {
              label: `${name}, left of center`,
              caption: 'Left of center',
            })}
            ${sheetGiven(state, (each) => at(each)?.height, FIELDS.partHeight, {
              label: `${name}, above ground`,
              caption: 'Above ground',
            })}
            <div class="button-row">
              <button
                class="quiet"
                type="button"
                ?disabled=${index === 0}
                @click=${() => movePart(id, name, -1)}
              >
                Up
              </button>
              <button
                class="quiet"
                type="button"
                ?disabled=${index === state.parts.length - 1}
                @click=${() => movePart(id, name, 1)}
              >
                Down
              </button>
              <button class="quiet" type="button" @click=${() => removePart(id, name)}>Remove</button>
            </div>`
        : nothing
    }
  </details>`;
}

/** Adds an empty part at the end of the list and gives its id. */
export function addPart(): string {
  const part = emptyPart();
  edit('Add a part', (draft) => {
    draftState(draft).parts.push(part);
  });
  return part.id;
}

function movePart(id: string, name: string, by: 1 | -1): void {
  edit(`Move ${name}`, (draft) => {
    const { parts } = draftState(draft);
    const from = parts.findIndex((part) => part.id === id);
    const [part] = parts.splice(from, 1);
    if (part) parts.splice(from + by, 0, part);
  });
}

function removePart(id: string, name: string): void {
  edit(`Remove ${name}`, (draft) => {
    const state = draftState(draft);
    state.parts = state.parts.filter((part) => part.id !== id);
  });
}
