import { html, nothing, type TemplateResult } from 'lit';
import { repeat } from 'lit/directives/repeat.js';
import { titleOf } from '../../answer/titles';
import { edit, settle } from '../../sheet/bench';
import type { Picture, Reading } from '../../sheet/schema';
import { countPicture } from '../photographs/edits';
import { lower } from '../photographs/words';
import type { EventOn } from '../shared/events';
import { chevronDownIcon } from '../shared/icons';
import { entriesOf, standingOf, type ListEntry } from '../shared/listEntries';
import { countReadings, readingsText } from '../shared/readingsCount';
import { addBehind, countPartsList, countReading, measuredAgain, noteReading, removeReading } from './edits';
import { entryFields } from './entryFields/entryFields';
import { partsListEntry } from './entryFields/partsListEntry';
import { pictureEntry } from './entryFields/pictureEntry';
import { entryWords, standingWords } from './entryWords';
import { givensUsed, pathOf } from './givensUsed';
import type { ReadingsParts } from './parts';
import { suggestions } from './readingGiven';

/** Every reading of the open state: its title and numbers, whether it counts, and its fields when opened. */
export function listPart(parts: ReadingsParts): TemplateResult {
  const { state, answer } = parts;
  const entries = entriesOf(state);
  return html`<section class="list" id="list" aria-labelledby="list-title">
    <div class="part-head">
      <h3 id="list-title">What was read</h3>
      <p>${readingsText(countReadings(state, answer))}</p>
    </div>
    ${
      entries.length === 0
        ? html`<p class="empty">
            Nothing yet.
            ${
              state.body === 'object'
                ? 'Begin with two photographs of it hung,'
                : 'Begin with two that share no slip: axles on scales and a tilt board; or two photographs of the truck hung,'
            }
            in <a href="./resultant-lines.html#e3">chapter 3, E3</a>.
          </p>`
        : html`<ol class="entries">
            ${repeat(
              entries,
              ({ id }) => id,
              (entry) => entryRow(parts, entry),
            )}
          </ol>`
    }
  </section>`;
}

/** Element id of an entry's fold. */
export const entryElementId = (id: string): string => `entry-${id.replaceAll(' ', '-')}`;

function entryRow(parts: ReadingsParts, entry: ListEntry): TemplateResult {
  const { state, answer, opened, toggle, whatIf } = parts;
  const { id } = entry;
  const { title, detail } = entryWords(state, entry);
  const standing = standingOf(entry, answer);
  const beside = standingWords(state, entry, standing);
  const { words, disagrees } = whatIf(entry, standing);
  const open = opened.has(id);
  const aside = standing?.because === 'set aside' && entry.kind !== 'parts list';
  return html`<li class=${aside ? 'entry aside' : 'entry'}>
    ${
      standing?.because === 'another kind'
        ? html`<span class="count kept" aria-hidden="true">–</span>`
        : html`<label class="count check"
            ><input
              type="checkbox"
              .checked=${isCounted(parts, entry)}
              aria-label=${`Count: ${title}`}
              @change=${(event: EventOn<HTMLInputElement>) => count(parts, entry, event.currentTarget.checked)}
          /></label>`
    }
    <details
      id=${entryElementId(id)}
      .open=${open}
      @toggle=${(event: EventOn<HTMLDetailsElement>) => toggle(id, event.currentTarget.open)}
    >
      <summary>
        <span class="entry-words">
          <span class="entry-title">${title}</span>
          ${detail === '' ? nothing : html`<span class="entry-detail">${spoken(detail)}</span>`}
          ${beside === '' ? nothing : html`<span class="entry-standing">${beside}</span>`}
          ${disagrees ? html`<span class="entry-if does-not">does not agree</span>` : nothing}
          ${words === '' ? nothing : html`<span class="entry-if">${words}</span>`}
        </span>
        ${chevronDownIcon}
      </summary>
      ${open ? html`<div class="inside">${entryInside(parts, entry)}</div>` : nothing}
    </details>
  </li>`;
}

/** An arrow is drawn, and read as "then". */
const spoken = (detail: string): TemplateResult => {
  const [before = '', after] = detail.split(' → ');
  return after === undefined
    ? html`${before}`
    : html`${before}<span aria-hidden="true"> → </span><span class="spoken">, then </span>${after}`;
};

function isCounted({ state }: ReadingsParts, entry: ListEntry): boolean {
  if (entry.kind === 'parts list') return state.countPartsList;
  return entry.kind === 'picture' ? entry.picture.counted : entry.reading.counted;
}

function count({ state, tell }: ReadingsParts, entry: ListEntry, counted: boolean): void {
  const { title } = entryWords(state, entry);
  const label = counted ? `Count ${title}` : `Set ${title} aside`;
  if (entry.kind === 'parts list') edit(label, countPartsList(counted));
  else if (entry.kind === 'picture') edit(label, countPicture(entry.id, counted, entry.picture.note));
  else edit(label, countReading(entry.id, counted));
  tell(counted ? `${title}: counted.` : `${title}: set aside, kept on the sheet.`);
}

function entryInside(parts: ReadingsParts, entry: ListEntry): TemplateResult {
  const { state } = parts;
  switch (entry.kind) {
    case 'parts list':
      return partsListEntry(state);
    case 'picture':
      return html`${pictureEntry(state, entry.picture)} ${noteOfPicture(entry.picture)}`;
    case 'reading':
      return readingInside(parts, entry.reading);
  }
}

function readingInside(parts: ReadingsParts, reading: Reading): TemplateResult {
  const { state, answer } = parts;
  const { id } = reading;
  const standing = standingOf({ kind: 'reading', id, reading }, answer);
  const paths = givensUsed(reading).map((name) => pathOf(state, reading, name));
  return html`
    <div class="fields">${entryFields(parts, reading)}</div>
    ${
      standing?.because === 'waiting' && standing.for !== 'hook'
        ? html`<a class="button" href="#readings/sizes">
            Measure the ${lower(titleOf(state, standing.for))}
          </a>`
        : nothing
    }
    ${suggestions(state, paths)}
    ${noteRow(reading.counted, reading.note, (note) =>
      edit('Note of a reading', noteReading(id, note), `reading note ${id}`),
    )}
    <div class="button-row">
      <button class="button" type="button" @click=${() => again(parts, reading)}>Measure it again</button>
      <button class="quiet" type="button" @click=${() => remove(parts, reading)}>Remove</button>
    </div>
  `;
}

const noteOfPicture = ({ id, counted, note }: Picture): TemplateResult =>
  noteRow(counted, note, (text) =>
    edit('Note of a picture', countPicture(id, counted, text), `picture note ${id}`),
  );

/** The reader's own words on a reading; where it is set aside, why. */
function noteRow(counted: boolean, note: string, write: (note: string) => void): TemplateResult {
  return html`<label class="text-row"
    ><span>${counted ? 'Note' : 'Note, and why set aside'}</span
    ><input
      type="text"
      autocomplete="off"
      maxlength="400"
      placeholder=${counted ? 'instrument, how it stood' : 'what speaks against it'}
      .value=${note}
      @input=${(event: EventOn<HTMLInputElement>) => write(event.currentTarget.value)}
      @change=${settle}
  /></label>`;
}

/** A fresh copy to fill in, beside the one it repeats: two readings that agree are worth more than one. */
function again({ state, goTo, tell }: ReadingsParts, reading: Reading): void {
  const copy = measuredAgain(reading);
  const { title } = entryWords(state, { kind: 'reading', id: reading.id, reading });
  edit(`Measure ${title} again`, addBehind(reading.id, copy));
  tell('A second reading of the same kind, without numbers yet.');
  goTo(copy.id);
}

function remove({ state, tell }: ReadingsParts, reading: Reading): void {
  const { title } = entryWords(state, { kind: 'reading', id: reading.id, reading });
  edit(`Remove ${title}`, removeReading(reading.id));
  tell(`${title}: removed. Undo brings it back.`);
}
