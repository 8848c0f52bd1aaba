import { html, nothing, type TemplateResult } from 'lit';
import { isSide } from '../../photo/views';
import type { BuildState, Carrier, Hook, Picture } from '../../sheet/schema';
import type { EventOn } from '../shared/events';
import { chooseHook, inHook, inPicture, untieHook } from './edits';
import { change, choice, fold, problemAt, textRow, type GivensParts } from './foldParts';
import { givenBrief, givenRow } from './givenRow';
import { hookName, pictureName } from './roles';
import { viewWords } from './views';
import { lower } from './words';

/** The givens of one hang: which hook, where it sits and what it sits on, and how the suspension was. */
export function hangFold(parts: GivensParts, hang: Picture, open: boolean): TemplateResult {
  const { state } = parts;
  const hook = state.hooks.find(({ id }) => id === hang.hook);
  const brief = hook
    ? hook.source === 'ruler'
      ? `${hookName(state, hook)}, ${givenBrief(state, hookPath(state, hook, 'ahead'))} ahead, ${givenBrief(state, hookPath(state, hook, 'height'))} up`
      : `${hookName(state, hook)}, read off the standing picture`
    : hang.suspension === 'free'
      ? 'no hook chosen'
      : 'hook not known';
  return fold(
    parts,
    `hang ${hang.id}`,
    pictureName(state, hang),
    brief,
    open,
    html`${hookChoice(state, hang)} ${hook ? hookFields(state, hook) : nothing}
    ${suspensionChoice(state, hang)}`,
  );
}

function suspensionChoice(state: BuildState, hang: Picture): TemplateResult {
  const seen = viewWords(hang.view);
  return html`${choice(
    'Suspension while hung',
    `suspension-${hang.id}`,
    hang.suspension,
    [
      ['locked', 'Locked at ride height'],
      ['free', isSide(hang.view) ? 'Free, I mark the hubs' : 'Free'],
    ],
    (value) =>
      change(
        `Suspension of ${lower(pictureName(state, hang))}`,
        inPicture(hang.id, (picture) => {
          picture.suspension = value;
        }),
      ),
  )}
  ${
    isSide(hang.view)
      ? nothing
      : hang.suspension === 'free'
        ? problemAt(
            `Suspension: needs to be locked in a picture from ${seen}; got “Free”. A free axle also rolls, which cannot be told from there: lock it at ride height and take the picture again.`,
          )
        : html`<p class="note">From ${seen} only locked counts: a free axle also rolls.</p>`
  }`;
}

const hookPath = (state: BuildState, hook: Hook, name: string): string =>
  `hooks/${state.hooks.indexOf(hook)}/${name}`;

function hookChoice(state: BuildState, hang: Picture): TemplateResult {
  const [NEW, UNKNOWN] = ['new', 'unknown'];
  const free = hang.suspension === 'free';
  return html`<div class="text-row">
      <label for="hook-${hang.id}">Tied to</label>
      <select
        id="hook-${hang.id}"
        @change=${(event: EventOn<HTMLSelectElement>) => {
          const { value } = event.currentTarget;
          change(
            `Hook of ${lower(pictureName(state, hang))}`,
            value === UNKNOWN ? untieHook(hang.id) : chooseHook(hang.id, value === NEW ? null : value),
          );
        }}
      >
        ${
          // Axles that droop move the hook as well: its place is needed, and leaving it open is no choice.
          free
            ? hang.hook === null
              ? html`<option value="" selected disabled>choose a hook</option>`
              : nothing
            : html`<option value=${UNKNOWN} ?selected=${hang.hook === null}>not known, string only</option>`
        }
        ${state.hooks.map(
          (hook) =>
            html`<option value=${hook.id} ?selected=${hook.id === hang.hook}>
              ${hookName(state, hook)}
            </option>`,
        )}
        <option value=${NEW}>a new hook</option>
      </select>
    </div>
    ${
      hang.hook === null && !free
        ? html`<p class="note">
            The two marks of the string give the line. A hook measured by ruler makes it surer.
          </p>`
        : nothing
    }`;
}

const CARRIERS: readonly (readonly [Carrier, string])[] = [
  ['body', 'Body'],
  ['front axle', 'Front axle'],
  ['rear axle', 'Rear axle'],
];

function hookFields(state: BuildState, hook: Hook): TemplateResult {
  const index = state.hooks.indexOf(hook);
  const name = lower(hookName(state, hook));
  return html`
    ${textRow(
      `hook-name-${hook.id}`,
      'Hook’s name',
      hook.name,
      (text) =>
        change(
          `Name of ${name}`,
          inHook(hook.id, (draft) => {
            draft.name = text;
          }),
          `hook name ${hook.id}`,
        ),
      `Hook ${index + 1}`,
    )}
    ${choice(
      'Hook’s place',
      `source-${hook.id}`,
      hook.source,
      [
        ['ruler', 'By ruler'],
        ['standing picture', 'Off the standing picture'],
      ],
      (value) =>
        change(
          `Place of ${name}`,
          inHook(hook.id, (draft) => {
            draft.source = value;
          }),
        ),
    )}
    ${
      hook.source === 'ruler'
        ? html`${givenRow(state, `hooks/${index}/ahead`, { label: 'Hook ahead' })}
          ${givenRow(state, `hooks/${index}/height`, { label: 'Hook height' })}`
        : html`<p class="note">
            Read off, it is as sure as the depth of the hook and the camera’s distance let it be. A ruler is
            better.
          </p>`
    }
    ${givenRow(state, `hooks/${index}/left`, {
      label: 'Hook left',
      note: 'Left of the center plane; to the right is negative.',
    })}
    ${choice('Hook sits on', `carrier-${hook.id}`, hook.carrier, CARRIERS, (value) =>
      change(
        `Carrier of ${name}`,
        inHook(hook.id, (draft) => {
          draft.carrier = value;
        }),
      ),
    )}
    <p class="note">Ahead of the rear axle and above ground, truck standing at ride height.</p>
  `;
}
