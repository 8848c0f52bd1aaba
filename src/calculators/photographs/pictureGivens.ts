import { html, nothing, type TemplateResult } from 'lit';
import type { Picture } from '../../sheet/schema';
import { countPicture, inPicture, removePicture, sortPicture } from './edits';
import { change, choice, fold, pick, textRow, type GivensParts } from './foldParts';
import { pictureName } from './roles';
import { standingOfView, VIEW_CHOICES, VIEW_NOTES, viewWords } from './views';
import { lower } from './words';

/** What the picture in hand shows, and whether it counts. */
export function pictureFold(parts: GivensParts, picture: Picture): TemplateResult {
  const { state } = parts;
  const name = pictureName(state, picture);
  return fold(
    parts,
    'picture',
    `Picture: ${lower(name)}`,
    brief(parts, picture),
    picture.kind === 'unsorted',
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
      ${choice<Picture['kind']>(
        `It shows the ${state.body}`,
        `kind-${picture.id}`,
        picture.kind,
        [
          ['standing', 'Standing'],
          ['hanging', 'Hanging'],
        ],
        (value) => change(`Kind of ${lower(name)}`, sortPicture(picture.id, value)),
      )}
      ${picture.kind === 'unsorted' || state.body === 'object' ? nothing : viewRow(parts, picture)}
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
          @click=${() => {
            change(
              picture.counted ? `Set aside ${lower(name)}` : `Count ${lower(name)} again`,
              countPicture(picture.id, !picture.counted, picture.note),
            );
            parts.pictureChanged(picture.counted ? `${name} set aside.` : `${name} counts again.`, false);
          }}
        >
          ${picture.counted ? 'Set it aside' : 'Count it again'}
        </button>
        <button
          class="quiet"
          type="button"
          @click=${() => {
            change(`Remove ${lower(name)}`, removePicture(picture.id));
            parts.pictureChanged(`${name} removed. Undo brings it back.`, true);
          }}
        >
          Remove this picture
        </button>
      </div>
      <p class="note">Both can be undone. Set aside, a picture is kept but not counted.</p>`,
  );
}

function brief({ state }: GivensParts, picture: Picture): string {
  const what =
    picture.kind === 'unsorted'
      ? 'not sorted yet'
      : state.body === 'object'
        ? picture.kind
        : `seen from ${viewWords(picture.view)}`;
  return picture.counted ? what : `${what}, set aside`;
}

/** From where the camera looked, what gives such a picture its scale, and what it needs beside it. */
function viewRow({ state }: GivensParts, picture: Picture): TemplateResult {
  const { view } = picture;
  const alone = picture.kind === 'hanging' && !standingOfView(state, view);
  return html`${pick(`view-${picture.id}`, 'Seen from the truck’s', view, VIEW_CHOICES, (value) =>
      change(
        `Side of ${lower(pictureName(state, picture))}`,
        inPicture(picture.id, (draft) => {
          draft.view = value;
        }),
      ),
    )}
    <p class="note">${VIEW_NOTES[view]}</p>
    ${
      alone
        ? html`<p class="note">
            No standing picture from ${viewWords(view)} yet. Add one, or type where the body marks sit (body
            marks, places by ruler).
          </p>`
        : nothing
    }`;
}
