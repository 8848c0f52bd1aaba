import { html, nothing, type TemplateResult } from 'lit';
import { edit, settle } from '../../../sheet/bench';
import { emptyHook } from '../../../sheet/empty';
import type { BuildState, Carrier, HangLine, Hook } from '../../../sheet/schema';
import { inHook } from '../../photographs/edits';
import { hookName } from '../../photographs/roles';
import type { EventOn } from '../../shared/events';
import { chevronDownIcon } from '../../shared/icons';
import { hookOf } from '../givensUsed';
import { tieToHook, tieToNewHook, usesOfHook } from '../edits';
import { asTyped } from '../typedWords';
import type { ReadingsParts } from '../parts';
import { givenAt } from '../readingGiven';
import { choice } from './choices';

const NEW = 'new';

/** Which hook a hang was tied to, one of the state's or a new one; and its place, by ruler, under a fold. */
export function hookFields(parts: ReadingsParts, hang: HangLine): TemplateResult {
  const { state } = parts;
  const hook = hookOf(state, hang.hook);
  return html`
    <label class="text-row"
      ><span>Hung from</span
      ><select @change=${(event: EventOn<HTMLSelectElement>) => tie(parts, hang, event.currentTarget.value)}>
        ${hook === null ? html`<option value="" selected disabled>choose a hook</option>` : nothing}
        ${state.hooks.map(
          (each) =>
            html`<option value=${each.id} .selected=${each.id === hang.hook}>
              ${hookName(state, each)}
            </option>`,
        )}
        <option value=${NEW}>a new hook</option>
      </select></label
    >
    ${hook === null ? nothing : hookFold(parts, hook)}
  `;
}

function tie({ toggle }: ReadingsParts, hang: HangLine, value: string): void {
  if (value !== NEW) {
    edit('Hook of a hang', tieToHook(hang.id, value));
    return;
  }
  const hook = emptyHook();
  edit('New hook of a hang', tieToNewHook(hang.id, hook));
  toggle(foldOf(hook), true);
}

const foldOf = ({ id }: Hook): string => `hook ${id}`;

function hookFold({ state, opened, toggle }: ReadingsParts, hook: Hook): TemplateResult {
  const open = opened.has(foldOf(hook));
  return html`<details
    class="fold"
    .open=${open}
    @toggle=${(event: EventOn<HTMLDetailsElement>) => toggle(foldOf(hook), event.currentTarget.open)}
  >
    <summary>
      <span>Its place<span class="quiet-text brief">${placeWords(hook)}</span></span
      >${chevronDownIcon}
    </summary>
    ${open ? placeOf(state, hook) : nothing}
  </details>`;
}

/** "251 mm ahead, 161.5 mm up"; what is wanting where it is not by ruler or not typed. */
function placeWords({ source, ahead, height }: Hook): string {
  const [x, z] = [asTyped(ahead), asTyped(height)];
  if (source !== 'ruler' || x === null || z === null) return 'still to measure by ruler';
  return `${x} ahead, ${z} up`;
}

const CARRIERS: readonly (readonly [Carrier, string])[] = [
  ['body', 'Body'],
  ['front axle', 'Front axle'],
  ['rear axle', 'Rear axle'],
];

function placeOf(state: BuildState, hook: Hook): TemplateResult {
  const index = state.hooks.indexOf(hook);
  const name = hookName(state, hook);
  const uses = usesOfHook(state, hook.id);
  const place = (axis: string, caption: string) => givenAt(state, `hooks/${index}/${axis}`, { caption });
  return html`
    <label class="text-row"
      ><span>Its name</span
      ><input
        type="text"
        autocomplete="off"
        maxlength="200"
        placeholder="where on the truck"
        .value=${hook.name}
        @input=${(event: EventOn<HTMLInputElement>) => {
          const { value } = event.currentTarget;
          edit(
            `Name of ${name}`,
            inHook(hook.id, (draft) => (draft.name = value)),
            `hook name ${hook.id}`,
          );
        }}
        @change=${settle}
    /></label>
    ${choice('Its place', `source-${hook.id}`, hook.source, SOURCES, (value) =>
      edit(
        `Place of ${name}`,
        inHook(hook.id, (draft) => (draft.source = value)),
      ),
    )}
    ${
      hook.source === 'ruler'
        ? html`${place('ahead', 'Hook ahead')} ${place('height', 'Hook height')} ${place('left', 'Hook left')}`
        : html`<p class="note">
            A hang without a picture needs the hook’s place by ruler: a place read off a picture lies in that
            picture’s scale.
          </p>`
    }
    ${choice('It sits on', `carrier-${hook.id}`, hook.carrier, CARRIERS, (value) =>
      edit(
        `Carrier of ${name}`,
        inHook(hook.id, (draft) => (draft.carrier = value)),
      ),
    )}
    <p class="note">
      Ahead of the rear axle, above ground and left of center, truck standing at ride height.
      ${uses > 1 ? `Used ${uses} times on this sheet; its place is the same in all of them.` : ''}
    </p>
  `;
}

const SOURCES: readonly (readonly [Hook['source'], string])[] = [
  ['ruler', 'By ruler'],
  ['standing picture', 'Off a picture'],
];
