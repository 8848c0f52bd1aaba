import { css, html, nothing, type TemplateResult } from 'lit';
import { massIn, type Mass } from '../../physics';
import { edit } from '../../sheet/bench';
import { unsprungMasses } from '../../sheet/derived';
import type { BuildState, Carrier, Hook, Picture } from '../../sheet/schema';
import type { EventOn } from '../shared/events';
import { chevronDownIcon } from '../shared/icons';
import {
  addBodyMark,
  chooseHook,
  countPicture,
  inHook,
  inPicture,
  nameBodyMark,
  removeBodyMark,
  removePicture,
  type SheetRecipe,
} from './edits';
import { givenBrief, givenRow } from './givenRow';
import { FEWEST_BODY_MARKS, hangsOf, hookName, MOST_BODY_MARKS, pictureName, standingOf } from './roles';
import { lower } from './words';

/** Which folds the reader has opened or closed; the picture in hand decides where they have not. */
export type FoldMemory = Map<string, boolean>;

export interface GivensParts {
  readonly state: BuildState;
  readonly picture: Picture | null;
  readonly folds: FoldMemory;
  readonly redraw: () => void;
}

/** A fold whose label carries the values inside, so that a phone shows them without opening it. */
function fold(
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

const change = (label: string, recipe: SheetRecipe, mergeKey?: string): void => {
  edit(label, recipe, mergeKey);
};

/** A choice between two or three things, as one box of 44 px. */
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
              name=${name}
              .checked=${option === value}
              @change=${() => choose(option)}
            />${words}</label
          >`,
      )}
    </div>
  </fieldset>`;
}

function textRow(
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

/** All givens: those of the picture in hand open, the others folded under their values. */
export function givensPart(parts: GivensParts): TemplateResult {
  const { state, picture } = parts;
  const standing = standingOf(state);
  return html`
    ${dimensionsFold(parts, picture === null || picture === standing)}
    ${state.pictures
      .filter(({ kind }) => kind === 'hanging')
      .map((hang) => hangFold(parts, hang, picture?.id === hang.id))}
    ${bodyMarksFold(parts)} ${cameraFold(parts)} ${axlesFold(parts)}
    ${picture ? thisPictureFold(parts, picture) : nothing}
  `;
}

function dimensionsFold(parts: GivensParts, open: boolean): TemplateResult {
  const { state } = parts;
  return fold(
    parts,
    'dimensions',
    'Standing picture',
    `wheelbase ${givenBrief(state, 'dimensions/wheelbase')}`,
    open,
    html`${givenRow(state, 'dimensions/wheelbase')}
      ${givenRow(state, 'dimensions/rearTireRadius', { label: 'Rear tire radius' })}
      ${givenRow(state, 'dimensions/frontTireRadius', { label: 'Front tire radius' })}
      <p class="note">Radius: hub above ground, truck standing. The ground marks check it.</p>
      ${choice(
        'Scale of the picture',
        'scale-from',
        state.scaleFrom,
        [
          ['wheelbase', 'Wheelbase'],
          ['two points', 'Two points'],
        ],
        (value) =>
          change('Change the scale', (draft) => {
            const open = draft.states.find(({ id }) => id === draft.openState);
            if (open) open.scaleFrom = value;
          }),
      )}
      ${
        state.scaleFrom === 'two points'
          ? html`${givenRow(state, 'scaleDistance', { label: 'Their distance' })}
            ${givenRow(state, 'scaleDepth', { label: 'Their depth' })}`
          : nothing
      }`,
  );
}

function hangFold(parts: GivensParts, hang: Picture, open: boolean): TemplateResult {
  const { state } = parts;
  const hook = state.hooks.find(({ id }) => id === hang.hook);
  const brief = hook
    ? hook.source === 'ruler'
      ? `${hookName(state, hook)}, ${givenBrief(state, hookPath(state, hook, 'ahead'))} ahead, ${givenBrief(state, hookPath(state, hook, 'height'))} up`
      : `${hookName(state, hook)}, read off the standing picture`
    : 'no hook chosen';
  return fold(
    parts,
    `hang ${hang.id}`,
    pictureName(state, hang),
    brief,
    open,
    html`${hookChoice(state, hang)} ${hook ? hookFields(state, hook) : nothing}
    ${choice(
      'Suspension while hung',
      `suspension-${hang.id}`,
      hang.suspension,
      [
        ['locked', 'Locked at ride height'],
        ['free', 'Free, I mark the hubs'],
      ],
      (value) =>
        change(
          `Suspension of ${lower(pictureName(state, hang))}`,
          inPicture(hang.id, (picture) => {
            picture.suspension = value;
          }),
        ),
    )}`,
  );
}

const hookPath = (state: BuildState, hook: Hook, name: string): string =>
  `hooks/${state.hooks.indexOf(hook)}/${name}`;

function hookChoice(state: BuildState, hang: Picture): TemplateResult {
  const NEW = 'new';
  return html`<div class="text-row">
    <label for="hook-${hang.id}">Tied to</label>
    <select
      id="hook-${hang.id}"
      @change=${(event: EventOn<HTMLSelectElement>) => {
        const { value } = event.currentTarget;
        change(
          `Hook of ${lower(pictureName(state, hang))}`,
          chooseHook(hang.id, value === NEW ? null : value),
        );
      }}
    >
      ${hang.hook === null ? html`<option value="" selected disabled>choose a hook</option>` : nothing}
      ${state.hooks.map(
        (hook) =>
          html`<option value=${hook.id} ?selected=${hook.id === hang.hook}>${hookName(state, hook)}</option>`,
      )}
      <option value=${NEW}>a new hook</option>
    </select>
  </div>`;
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

function bodyMarksFold(parts: GivensParts): TemplateResult {
  const { state } = parts;
  return fold(
    parts,
    'marks',
    'Body marks',
    state.bodyMarks.length === 0 ? 'none yet' : state.bodyMarks.map(({ key }) => key).join(' '),
    false,
    html`${state.bodyMarks.map(
        ({ key, name }, index) =>
          html`<div class="body-mark">
            ${textRow(
              `mark-name-${key}`,
              `Mark ${key}`,
              name,
              (text) => change(`Name of mark ${key}`, nameBodyMark(key, text), `mark name ${key}`),
              'where on the body',
            )}
            ${givenRow(state, `bodyMarks/${index}/depth`, { label: `Depth of ${key}` })}
            ${
              state.bodyMarks.length > FEWEST_BODY_MARKS
                ? html`<button
                    class="quiet"
                    type="button"
                    @click=${() => change(`Take away mark ${key}`, removeBodyMark(key))}
                  >
                    Take away mark ${key}
                  </button>`
                : nothing
            }
          </div>`,
      )}
      ${
        state.bodyMarks.length < MOST_BODY_MARKS
          ? html`<button
              class="button"
              type="button"
              @click=${() => change('Add a body mark', addBodyMark())}
            >
              Add a body mark
            </button>`
          : nothing
      }
      <p class="note">
        Sharp corners of the body, far apart, that every picture shows; never the wheels, unless the
        suspension is locked. Depth: from the truck’s center plane toward the camera.
      </p>`,
  );
}

function cameraFold(parts: GivensParts): TemplateResult {
  const { state, picture } = parts;
  const index = picture ? state.pictures.indexOf(picture) : -1;
  if (!picture || index < 0) return html``;
  const path = `pictures/${index}`;
  return fold(
    parts,
    'camera',
    `Camera, ${lower(pictureName(state, picture))}`,
    `${givenBrief(state, `${path}/distance`)}, marks ± ${givenBrief(state, `${path}/markPlusMinus`)}`,
    false,
    html`${givenRow(state, `${path}/distance`, { label: 'Camera distance' })}
    ${givenRow(state, `${path}/oblique`, { label: 'View off square' })}
    ${picture.kind === 'hanging' ? givenRow(state, `${path}/twist`, { label: 'Twist on the string' }) : nothing}
    ${givenRow(state, `${path}/markPlusMinus`, { label: 'Every mark, ±' })}
    ${givenRow(state, 'hubDepth', { label: 'Hub depth' })}`,
  );
}

function axlesFold(parts: GivensParts): TemplateResult | typeof nothing {
  const { state } = parts;
  const free = hangsOf(state).some(({ suspension }) => suspension === 'free');
  if (!free) return nothing;
  return fold(
    parts,
    'axles',
    'Unsprung mass',
    unsprungBrief(state),
    false,
    html`${givenRow(state, 'mass', { label: 'Truck’s mass' })}
      ${givenRow(state, 'unsprungFront', { label: 'Front axle' })}
      ${givenRow(state, 'unsprungRear', { label: 'Rear axle' })}
      <p class="note">
        Axle, wheels, tires and half the links; not what an axle scale reads. Empty: from the parts list, else
        45 % of the truck in two halves.
      </p>`,
  );
}

/** The axle masses that hold, and where they come from: "front 729 g, rear 515 g, from the parts list". */
function unsprungBrief(state: BuildState): string {
  const masses = unsprungMasses(state);
  if (!masses.ok) return 'often 45 % of the truck';
  const { front, rear } = masses.value;
  const grams = (mass: Mass) => `${massIn(mass, 'g').toFixed(0)} g`;
  const from = new Set([front.from, rear.from].filter((source) => source !== 'given'));
  const words = [...from].map((source) => (source === 'default' ? 'assumed' : `from the ${source}`));
  return [`front ${grams(front.value)}`, `rear ${grams(rear.value)}`, ...words].join(', ');
}

function thisPictureFold(parts: GivensParts, picture: Picture): TemplateResult {
  const { state } = parts;
  const name = pictureName(state, picture);
  return fold(
    parts,
    'picture',
    `Picture: ${lower(name)}`,
    `seen from the ${picture.view}${picture.counted ? '' : ', set aside'}`,
    false,
    html`${textRow(
        `picture-name-${picture.id}`,
        'Name',
        picture.name,
        (text) =>
          change(
            `Name of ${lower(name)}`,
            inPicture(picture.id, (draft) => {
              draft.name = text;
            }),
            `picture name ${picture.id}`,
          ),
        name,
      )}
      ${choice(
        'It shows the truck',
        `kind-${picture.id}`,
        picture.kind,
        [
          ['standing', 'Standing'],
          ['hanging', 'Hanging'],
        ],
        (value) =>
          change(
            `Kind of ${lower(name)}`,
            inPicture(picture.id, (draft) => {
              draft.kind = value;
            }),
          ),
      )}
      ${choice(
        'Seen from the truck’s',
        `view-${picture.id}`,
        picture.view,
        [
          ['left', 'Left side'],
          ['right', 'Right side'],
        ],
        (value) =>
          change(
            `Side of ${lower(name)}`,
            inPicture(picture.id, (draft) => {
              draft.view = value;
            }),
          ),
      )}
      <p class="note">From the right side the nose points right, standing.</p>
      ${textRow(
        `picture-note-${picture.id}`,
        picture.counted ? 'Reason, to set it aside' : 'Set aside because',
        picture.note,
        (text) =>
          change(
            `Note on ${lower(name)}`,
            inPicture(picture.id, (draft) => {
              draft.note = text;
            }),
            `picture note ${picture.id}`,
          ),
        'still swinging, twisted, …',
      )}
      <div class="button-row">
        <button
          class="button"
          type="button"
          @click=${() =>
            change(
              picture.counted ? `Set aside ${lower(name)}` : `Count ${lower(name)} again`,
              countPicture(picture.id, !picture.counted, picture.note),
            )}
        >
          ${picture.counted ? 'Set it aside' : 'Count it again'}
        </button>
        <button
          class="quiet"
          type="button"
          @click=${() => change(`Remove ${lower(name)}`, removePicture(picture.id))}
        >
          Remove this picture
        </button>
      </div>
      <p class="note">Both can be undone. Set aside, a picture is kept but not counted.</p>`,
  );
}

export const givensPartStyles = css`
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
    height: 2.5rem;
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
  .body-mark + .body-mark {
    margin-block-start: 0.5rem;
  }
  .fold .button-row,
  .fold > .button {
    margin-block-start: 0.8rem;
  }
`;
