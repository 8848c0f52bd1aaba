import { html, nothing, type TemplateResult } from 'lit';
import { massIn, type Mass } from '../../physics';
import { unsprungMasses } from '../../sheet/derived';
import type { BodyMark, BuildState, View } from '../../sheet/schema';
import { fixed, NO_BREAK } from '../shared/format';
import { addBodyMark, chooseBody, nameBodyMark, removeBodyMark } from './edits';
import { change, choice, fold, textRow, type GivensParts } from './foldParts';
import { givenBrief, givenRow } from './givenRow';
import { hangFold } from './hangGivens';
import { pictureFold } from './pictureGivens';
import { hangsOf } from '../../sheet/hangs';
import { FEWEST_BODY_MARKS, MOST_BODY_MARKS, pictureName } from './roles';
import { lower } from './words';

/** All givens: those of the picture in hand open, the others folded under their values. */
export function givensPart(parts: GivensParts): TemplateResult {
  const { state, picture } = parts;
  return html`
    ${picture?.kind === 'unsorted' ? pictureFold(parts, picture) : nothing}
    ${
      state.body === 'object'
        ? scaleFold(parts, picture === null || picture.kind !== 'unsorted')
        : html`${dimensionsFold(parts, picture === null || picture.kind === 'standing')}
          ${hangsOf(state).map((hang) => hangFold(parts, hang, picture?.id === hang.id))}`
    }
    ${bodyMarksFold(parts)} ${cameraFold(parts)} ${state.body === 'truck' ? axlesFold(parts) : nothing}
    ${picture && picture.kind !== 'unsorted' ? pictureFold(parts, picture) : nothing} ${bodyFold(parts)}
  `;
}

/** A truck or anything else: what there is to mark and to measure follows from it. */
function bodyFold(parts: GivensParts): TemplateResult {
  const { state } = parts;
  return fold(
    parts,
    'body',
    'What is measured',
    state.body === 'object' ? 'any object' : 'a truck on its wheels',
    false,
    html`${choice(
        'Body on the string',
        'body',
        state.body,
        [
          ['truck', 'A truck on its wheels'],
          ['object', 'Any object'],
        ],
        (value) => change('Change what is measured', chooseBody(value)),
      )}
      <p class="note">
        ${
          state.body === 'object'
            ? 'Of an object two marks of known distance make the axes: no wheels, no ground, no suspension.'
            : 'Any object has axes of its own, from two marks of known distance; no wheels and no ground are asked for.'
        }
      </p>`,
  );
}

/** The scale of an object, which makes its axes as well. */
function scaleFold(parts: GivensParts, open: boolean): TemplateResult {
  const { state } = parts;
  return fold(
    parts,
    'dimensions',
    'Scale and axes',
    `two points, ${givenBrief(state, 'scaleDistance')}`,
    open,
    html`${givenRow(state, 'scaleDistance', { label: 'Their distance' })}
      ${givenRow(state, 'scaleDepth', { label: 'Their depth' })}
      <p class="note">
        Two points you can mark and measure between, far apart. The first is the origin, the first axis runs
        toward the second. Depth: from the object’s middle toward the camera.
      </p>`,
  );
}

const shows = ({ pictures }: BuildState, ...views: readonly View[]): boolean =>
  pictures.some(({ kind, view }) => kind !== 'unsorted' && views.includes(view));

function dimensionsFold(parts: GivensParts, open: boolean): TemplateResult {
  const { state } = parts;
  return fold(
    parts,
    'dimensions',
    'Standing picture',
    `wheelbase ${givenBrief(state, 'dimensions/wheelbase')}`,
    open,
    html`${givenRow(state, 'dimensions/wheelbase')} ${tracks(state)}
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

/** Tracks, where a picture takes its scale from them. */
function tracks(state: BuildState): TemplateResult | typeof nothing {
  const rear = shows(state, 'rear', 'top');
  const front = shows(state, 'front', 'top');
  if (!rear && !front) return nothing;
  return html`${rear ? givenRow(state, 'dimensions/rearTrack') : nothing}
    ${front ? givenRow(state, 'dimensions/frontTrack') : nothing}
    <p class="note">
      Track: tire center to tire center. It gives the scale of pictures from rear, front and top.
    </p>`;
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
        ${
          state.body === 'object'
            ? 'Sharp corners of the object, far apart, that every picture shows. Depth: from the object’s middle, where the string hangs, toward the camera.'
            : 'Sharp corners of the body, far apart, that every picture shows; never the wheels, unless the suspension is locked. Depth: from the truck’s center plane toward the camera.'
        }
        Best of all are <a href="./sticker-sheet.html">printed stickers</a>.
      </p>
      ${state.body === 'truck' ? placesFold(parts) : nothing}`,
  );
}

/** Where body marks sit, by ruler: optional, and of use only where a picture cannot tell it by itself. */
function placesFold(parts: GivensParts): TemplateResult {
  const { state } = parts;
  const typed = state.bodyMarks.filter(isPlaced).map(({ key }) => key);
  return fold(
    parts,
    'mark-places',
    'Places by ruler',
    typed.length === 0 ? 'optional' : typed.join(' '),
    typed.length > 0 || shows(state, 'rear', 'front', 'top'),
    html`<p class="note">
        For pictures from the rear, front or top, and for a camera solved from known places: with depth, four
        such marks not in one plane tell where the camera stood.
      </p>
      ${state.bodyMarks.map(
        ({ key }, index) =>
          html`<div class="body-mark">
            ${givenRow(state, `bodyMarks/${index}/ahead`, { label: `${key} ahead` })}
            ${givenRow(state, `bodyMarks/${index}/height`, { label: `${key} height` })}
          </div>`,
      )}`,
  );
}

const isPlaced = ({ ahead, height }: BodyMark): boolean =>
  ahead.text.trim() !== '' || height.text.trim() !== '';

function cameraFold(parts: GivensParts): TemplateResult {
  const { state, picture } = parts;
  const index = picture ? state.pictures.indexOf(picture) : -1;
  if (!picture || picture.kind === 'unsorted' || index < 0) return html``;
  const path = `pictures/${index}`;
  return fold(
    parts,
    'camera',
    `Camera, ${lower(pictureName(state, picture))}`,
    `${givenBrief(state, `${path}/distance`)}, marks ±${NO_BREAK}${givenBrief(state, `${path}/markPlusMinus`)}`,
    false,
    html`${givenRow(state, `${path}/distance`, { label: 'Camera distance' })}
    ${givenRow(state, `${path}/focalLength`, {
      label: 'Focal length',
      note: 'As that of a 35 mm camera. Taken from the picture’s own data where it tells it; with body marks it tells the distance.',
    })}
    ${givenRow(state, `${path}/oblique`, { label: 'View off square' })}
    ${picture.kind === 'hanging' ? givenRow(state, `${path}/twist`, { label: 'Twist on the string' }) : nothing}
    ${givenRow(state, `${path}/markPlusMinus`, { label: 'Every mark, ±' })} ${parts.edges}
    ${state.body === 'truck' ? givenRow(state, 'hubDepth', { label: 'Hub depth' }) : nothing}`,
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
