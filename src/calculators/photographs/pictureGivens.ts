import { html, type TemplateResult } from 'lit';
import type { Picture } from '../../sheet/schema';
import { countPicture, inPicture, removePicture } from './edits';
import { change, choice, fold, textRow, type GivensParts } from './foldParts';
import { pictureName } from './roles';
import { lower } from './words';

/** What the picture in hand shows, and whether it counts. */
export function pictureFold(parts: GivensParts, picture: Picture): TemplateResult {
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
