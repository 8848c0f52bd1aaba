import { html, type TemplateResult } from 'lit';
import { edit } from '../../sheet/bench';
import type { EventOn } from '../shared/events';
import { chevronDownIcon } from '../shared/icons';
import { entriesOf } from '../shared/listEntries';
import { addReading, emptyReading, type ReadingKind } from './edits';
import { KINDS } from './kinds';
import type { ReadingsParts } from './parts';

/** Element id of the chooser's fold. */
export const ADD_FOLD = 'add';

/** The chooser of kinds: what each tells, and the bench work it takes. */
export function addPart(parts: ReadingsParts): TemplateResult {
  const { state, opened, toggle } = parts;
  const open = opened.has(ADD_FOLD) || entriesOf(state).length === 0;
  return html`<details
    class="fold add"
    id=${ADD_FOLD}
    .open=${open}
    @toggle=${(event: EventOn<HTMLDetailsElement>) => toggle(ADD_FOLD, event.currentTarget.open)}
  >
    <summary><span>Add a reading</span>${chevronDownIcon}</summary>
    <ul class="kinds">
      ${KINDS.map(
        ({ kind, name, tells, work, minutes }) =>
          html`<li>
            <button class="button" type="button" @click=${() => add(parts, kind, name)}>${name}</button>
            <p>${tells}</p>
            <p class="work">${work} About ${minutes} min.</p>
          </li>`,
      )}
      <li>
        <a class="button" href="./resultant-lines.html#e3">Hang with a picture</a>
        <p>The same line, read off a photograph; two of them cross at the height.</p>
        <p class="work">
          A standing picture and two hanging ones, marked in chapter 3, E3. About 10 min each.
        </p>
      </li>
    </ul>
    <p class="note">
      Models only: never hang, lift or tilt a full-size vehicle at home. Every kind brings its own cautions.
    </p>
  </details>`;
}

function add({ goTo, toggle, tell }: ReadingsParts, kind: ReadingKind, name: string): void {
  const reading = emptyReading(kind);
  edit(`Add ${name.toLowerCase()}`, addReading(reading));
  toggle(ADD_FOLD, false);
  tell(`${name}: added, without numbers yet.`);
  goTo(reading.id);
}
