import { html, nothing, type TemplateResult } from 'lit';
import { edit, settle } from '../../../sheet/bench';
import type { BuildState, Carrier, HangLine, Hook } from '../../../sheet/schema';
import { inHook } from '../../photographs/edits';
import { hookName } from '../../photographs/roles';
import type { EventOn } from '../../shared/events';
import { hookOf } from '../../shared/listEntries';
import { tieToHook, usesOfHook } from '../edits';
import { givenAt } from '../readingGiven';
import { choice } from './choices';

const NEW = 'new';

/** Which hook a hang was tied to: one of the state's, or a new one; and its place, by ruler. */
export function hookFields(state: BuildState, hang: HangLine): TemplateResult {
  const hook = hookOf(state, hang.hook);
  return html`
    <label class="text-row"
      ><span>Hung from</span
      ><select
        @change=${(event: EventOn<HTMLSelectElement>) => {
          const { value } = event.currentTarget;
          edit('Hook of a hang', tieToHook(hang.id, value === NEW ? null : value));
        }}
      >
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
    ${hook === null ? nothing : placeOf(state, hook)}
  `;
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
