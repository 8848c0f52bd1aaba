import { html, nothing, type TemplateResult } from 'lit';
import { massIn, type Mass } from '../../physics';
import { unsprungMasses } from '../../sheet/derived';
import type { BuildState } from '../../sheet/schema';
import { fixed, NO_BREAK } from '../shared/format';
import { addBodyMark, nameBodyMark, removeBodyMark } from './edits';
import { change, choice, fold, textRow, type GivensParts } from './foldParts';
import { givenBrief, givenRow } from './givenRow';
import { hangFold } from './hangGivens';
import { pictureFold } from './pictureGivens';
import { hangsOf } from '../../sheet/hangs';
import { FEWEST_BODY_MARKS, MOST_BODY_MARKS, pictureName, standingOf } from './roles';
import { lower } from './words';

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
    ${picture ? pictureFold(parts, picture) : nothing}
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
    `${givenBrief(state, `${path}/distance`)}, marks ±${NO_BREAK}${givenBrief(state, `${path}/markPlusMinus`)}`,
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
    html`${givenRow(state, 'unsprungFront', { label: 'Front axle' })}
      ${givenRow(state, 'unsprungRear', { label: 'Rear axle' })}
      <p class="note">
        Axle, wheels, tires and half the links; not what an axle scale reads. Empty: from the parts list, else
        45 % of the truck in two halves. The truck’s mass stands among its
        <a href="#readings">readings</a>.
      </p>`,
  );
}

/** The axle masses that hold, and where they come from: "front 729 g, rear 515 g, from the parts list". */
function unsprungBrief(state: BuildState): string {
  const masses = unsprungMasses(state);
  if (!masses.ok) return 'often 45 % of the truck';
  const { front, rear } = masses.value;
  const grams = (mass: Mass) => `${fixed(massIn(mass, 'g'), 0)}${NO_BREAK}g`;
  const from = new Set([front.from, rear.from].filter((source) => source !== 'given'));
  const words = [...from].map((source) => (source === 'default' ? 'assumed' : `from the ${source}`));
  return [`front ${grams(front.value)}`, `rear ${grams(rear.value)}`, ...words].join(', ');
}
