import { html, nothing, type TemplateResult } from 'lit';
import { caredOf } from '../../answer/caredOf';
import { doesOrDo, either, groupTitles, suspectTitle } from '../../answer/disagreement';
import { separating } from '../../answer/separating';
import { numberTitle, titleOf } from '../../answer/titles';
import { PARTS_LIST_ID } from '../../answer/readBench';
import { COVERAGE, likelySlips, type LikelySlip, type NamedBlunder, type Suspect } from '../../physics';
import type { BuildState } from '../../sheet/schema';
import { edit } from '../../sheet/bench';
import { countPicture } from '../photographs/edits';
import { hookName } from '../photographs/roles';
import { capital, lower } from '../photographs/words';
import { keepNumbers, NO_BREAK } from '../shared/format';
import { entriesOf, standingOf, type ListEntry } from '../shared/listEntries';
import '../shared/warning';
import type { AnswerParts } from './answerParts';
import { CARED_WORDS, caredText, sizeText } from './caredWords';
import './decideReading';
import { countPartsList, countReading } from './edits';
import { hookOf } from './givensUsed';
import { withoutFirst } from './suspected';
import { disagrees, toggledAnswer } from './toggledLine';
import { givenOf, numberText, pathOfNumber } from './typedNumberOf';
import { outOf } from './verdict';

/** What disagrees, what it may come from, and what the reader can do; and what has been set aside and still disagrees. */
export function disagreementPart(parts: AnswerParts): TemplateResult | typeof nothing {
  const { answer } = parts;
  const named = answer.cg.ok ? answer.blunder?.named : null;
  const aside = asideThatDisagree(parts);
  const refused = contradiction(parts);
  const scatter = answer.cg.ok && answer.blunder?.wholeScatters ? scattering(parts) : nothing;
  if (!named && refused === nothing && scatter === nothing && aside.length === 0) return nothing;
  return html`<section class="disagreement" aria-label="What does not agree">
    ${named ? namedPart(parts, named) : nothing} ${scatter} ${refused}
    ${aside.map((entry) => asidePart(parts, entry))}
  </section>`;
}

function namedPart(parts: AnswerParts, named: NamedBlunder): TemplateResult {
  const { state } = parts;
  const { first, group, othersScatter } = named;
  const title = first.reading === null ? suspectTitle(state, first, group) : titleOf(state, first.reading);
  return html`<plumb-bracket kind="warning" title-text="${title} ${doesOrDo(title)} not agree with the rest.">
      ${offWords(parts, first)} By chance alone that happens on ${outOf(named.chance)} benches as good.
      ${
        othersScatter
          ? 'Even without it the others scatter more than their ± allow: more than one is wrong.'
          : nothing
      }
      ${bothAnswers(parts)} ${slipsPart(parts, slipsOf(parts, named))} ${groupWords(parts, named)}
      <p class="after">It counts until you set it aside.</p>
    </plumb-bracket>
    ${deciding(parts, first)}`;
}

/** "If it alone is wrong, its load reads 24 g ± 12 g too much." */
function offWords({ state, answer }: AnswerParts, { id, reading, off, offU }: Suspect): string {
  const number = answer.joint?.model.numbers.find((each) => each.id === id);
  if (!number) return '';
  const unit = givenOf(state, id)?.given.unit ?? null;
  const what = numberTitle(state, id);
  const colon = what.lastIndexOf(': ');
  const subject = reading === null || colon < 0 ? 'it' : `its ${what.slice(colon + 2)}`;
  const size = numberText(number.kind, Math.abs(off), unit, true);
  // Where the models bend over a gross error its first-order ± says nothing.
  const told = COVERAGE * offU < Math.abs(off);
  const range = told ? ` ±${NO_BREAK}${numberText(number.kind, COVERAGE * offU, unit, true)}` : '';
  const isLine = answer.lines.some(({ pictureId }) => pictureId === id);
  if (isLine) return `If it alone is wrong, its line is ${size}${range} off.`;
  return `If it alone is wrong, ${subject} reads ${size}${range} too ${off < 0 ? 'little' : 'much'}${orElse(answer, state, { id, reading, off })}.`;
}

/** ", or its rise 58 mm too much": another number of the same reading that would explain it as well. */
function orElse(
  answer: AnswerParts['answer'],
  state: BuildState,
  first: Pick<Suspect, 'id' | 'reading' | 'off'>,
): string {
  const other = answer.blunder?.named?.group.find(
    ({ id, reading, odds }) =>
      reading !== null && reading === first.reading && id !== first.id && odds > EQUALLY,
  );
  const number = other && answer.joint?.model.numbers.find(({ id }) => id === other.id);
  if (!other || !number) return '';
  const title = numberTitle(state, other.id);
  const unit = givenOf(state, other.id)?.given.unit ?? null;
  const size = numberText(number.kind, Math.abs(other.off), unit, true);
  return `, or its ${title.slice(title.lastIndexOf(': ') + 2)} ${size} too ${other.off < 0 ? 'little' : 'much'}`;
}

/** Odds from which two numbers of a reading are as likely to be the wrong one. */
const EQUALLY = 0.5;

/** Both answers in numbers, neither preferred. */
function bothAnswers(parts: AnswerParts): TemplateResult | typeof nothing {
  const { answer, quantity, unit } = parts;
  const found = caredOf(answer, quantity);
  const without = withoutFirst(parts);
  if (!found.ok) return nothing;
  const { name, more, less } = CARED_WORDS[quantity];
  if (!without)
    return html`<p class="after">Without it the ${name} is not determined; no other reading tells it.</p>`;
  const by = without.value - found.value.value;
  return html`<p class="after">
    ${capital(name)} with it: <b>${caredText(quantity, found.value, unit)}</b>; without it:
    <b>${caredText(quantity, without, unit)}</b>, ${sizeText(quantity, Math.abs(by), unit)}
    ${by < 0 ? less : more}.
  </p>`;
}

/** Who else could be wrong, most likely first, and what would tell them apart. */
function groupWords(parts: AnswerParts, named: NamedBlunder): TemplateResult | typeof nothing {
  const { state, answer, later } = parts;
  const first = suspectTitle(state, named.first, named.group);
  const own = named.first.reading === null ? null : titleOf(state, named.first.reading);
  const others = groupTitles(state, named.group).filter(
    (title) => title !== first && title !== own && !title.startsWith(`${own ?? first}: `),
  );
  if (others.length === 0) return nothing;
  const shown = others
    .slice(0, 4)
    .map((title) => (/ \d+$/.test(title) ? lower(title) : `the ${lower(title)}`));
  const left = others.length - shown.length;
  const more = left === 0 ? '' : left === 1 ? ' or one other' : ` or ${left} others`;
  const found = later.separating.get(answer, 'separating', () => separating(state, answer))?.value;
  return html`<p class="after">
    These readings cannot tell it from ${more === '' ? either(shown) : `${shown.join(', ')}${more}`}, most
    likely first.
    ${
      found
        ? html`<b>${found.what}</b>: that
            ${found.separates ? 'would tell them apart' : 'would help most to tell them apart'}.`
        : nothing
    }
  </p>`;
}

/** Slips that explain the first suspect, or another number of its reading. */
function slipsOf(
  { answer, later }: AnswerParts,
  { first, group }: NamedBlunder,
): readonly { readonly id: string; readonly slip: LikelySlip }[] {
  const ids = [
    first.id,
    ...group.flatMap(({ id, reading }) =>
      id !== first.id && reading !== null && reading === first.reading ? [id] : [],
    ),
  ];
  const all = ids.flatMap((id) =>
    (later.slips.get(answer, id, () => likelySlips(answer.bench, id))?.value ?? []).map((slip) => ({
      id,
      slip,
    })),
  );
  const codes = new Set<string>();
  // A slip that gives the number exactly says more than one that leaves it a range.
  const ranked = all.toSorted(
    (a, b) => Number(a.slip.between !== null) - Number(b.slip.between !== null) || b.slip.odds - a.slip.odds,
  );
  return ranked.filter(({ slip: { code } }) => !codes.has(code) && codes.add(code)).slice(0, 3);
}

function slipsPart(
  { state }: AnswerParts,
  slips: readonly { readonly id: string; readonly slip: LikelySlip }[],
): TemplateResult | typeof nothing {
  if (slips.length === 0) return nothing;
  return html`<p class="after">
      ${slips.length === 1 ? 'This slip fits' : 'These slips fit, likeliest first'}:
    </p>
    <ul class="slips">
      ${slips.map(({ id, slip }) => html`<li>${slip.sentence}${wouldBe(state, id, slip)}.</li>`)}
    </ul>`;
}

/** "; load would be 1744 g instead of 1768 g" */
function wouldBe(state: BuildState, id: string, { wouldBe: value, kind, between, hook }: LikelySlip): string {
  if (hook !== null) {
    const other = hookOf(state, hook);
    return other ? `: from ${lower(hookName(state, other))}` : '';
  }
  if (value === null) return '';
  const placed = givenOf(state, id);
  const unit = placed?.given.unit ?? null;
  const text = (si: number) => numberText(kind, si, unit);
  const title = numberTitle(state, id);
  const what = lower(title.slice(title.lastIndexOf(': ') + 1).trim());
  const range = between ? `, anywhere from ${text(between[0])} to ${text(between[1])}` : '';
  return `; ${what} would be ${text(value)}${range}`;
}

/** Buttons for a reading; a link to its field for a size of the truck. */
function deciding({ state, goTo, tell }: AnswerParts, { id, reading }: Suspect): TemplateResult {
  const own = state.readings.find((each) => each.id === reading);
  if (own)
    return html`<plumb-decide
      name=${titleOf(state, own.id)}
      .reading=${own}
      .note=${own.note}
      @measured-again=${(event: CustomEvent<string>) => {
        tell('A second reading of the same kind, without numbers yet.');
        goTo(event.detail);
      }}
      @set-aside=${() => tell(`${titleOf(state, own.id)}: set aside, kept on the sheet.`)}
    ></plumb-decide>`;
  if (reading === PARTS_LIST_ID)
    return html`<div class="button-row screen-only">
      <button
        class="button"
        type="button"
        @click=${() => edit('Set Parts list aside', countPartsList(false))}
      >
        Do not count the parts list
      </button>
    </div>`;
  if (reading !== null)
    return html`<plumb-decide
      name=${titleOf(state, reading)}
      picture-id=${reading}
      .note=${state.pictures.find((picture) => picture.id === reading)?.note ?? ''}
      @set-aside=${() => tell(`${titleOf(state, reading)}: set aside, kept on the sheet.`)}
    ></plumb-decide>`;
  return fieldLink(state, id);
}

/** To where a size of the truck, a hook's place or an instrument's zero is typed. */
function fieldLink(state: BuildState, id: string): TemplateResult {
  const path = pathOfNumber(state, id);
  const title = lower(numberTitle(state, id));
  const href = path?.startsWith('hooks/')
    ? './resultant-lines.html#e3'
    : path?.startsWith('instruments/')
      ? '#readings/shared'
      : '#readings/sizes';
  return html`<div class="button-row screen-only">
    <a class="button" href=${href}>Look at its field: ${title}</a>
  </div>`;
}

function scattering({ answer }: AnswerParts): TemplateResult {
  const chance = answer.consistency?.probability ?? 0;
  return html`<plumb-bracket kind="warning" title-text="The readings scatter more than their ± allow."
    >None stands out, but of benches as good only ${outOf(chance)} would scatter more. Some ± are too small,
    or two readings are wrong at once. Look at the largest residuals in the full table.</plumb-bracket
  >`;
}

/** No truck comes near the readings: the one that is most likely wrong, with what can be done. */
function contradiction(parts: AnswerParts): TemplateResult | typeof nothing {
  const { answer } = parts;
  if (answer.cg.ok || answer.cg.reason !== 'contradiction') return nothing;
  const named = answer.blunder?.named;
  if (!named) return nothing;
  return html`${slipsPart(parts, slipsOf(parts, named))} ${deciding(parts, named.first)}`;
}

function asideThatDisagree(parts: AnswerParts): readonly ListEntry[] {
  const { state, answer } = parts;
  return entriesOf(state).filter((entry) => {
    const standing = standingOf(entry, answer);
    if (standing?.because !== 'set aside' || entry.kind === 'parts list') return false;
    return disagrees(parts, entry, standing);
  });
}

/** A reading set aside that would not agree: kept, with both answers, until the reader counts it again. */
function asidePart(parts: AnswerParts, entry: ListEntry): TemplateResult {
  const { state, answer, quantity, unit, tell } = parts;
  const { id } = entry;
  const title = titleOf(state, id);
  const note = (
    entry.kind === 'picture' ? entry.picture.note : entry.kind === 'reading' ? entry.reading.note : ''
  ).trim();
  const other = toggledAnswer(parts, id, true);
  const counted = other && caredOf(other, quantity);
  const found = caredOf(answer, quantity);
  const by = counted?.ok && found.ok ? counted.value.value - found.value.value : null;
  const { name, more, less } = CARED_WORDS[quantity];
  return html`<plumb-bracket kind="remark" title-text="${title}: set aside, does not agree."
      >${note === '' ? nothing : html`Your note: ${note}. `}${
        counted?.ok && by !== null
          ? html`With it counted the ${name} would be ${caredText(quantity, counted.value, unit)}:
            ${sizeText(quantity, Math.abs(by), unit)}
            ${by < 0 ? less : more}${
              found.ok && counted.value.u < found.value.u
                ? ', and a smaller ± that the readings do not support'
                : ''
            }.`
          : keepNumbers(
              other && !other.cg.ok ? `With it counted there is no answer: ${other.cg.message}` : '',
            )
      }</plumb-bracket
    >
    <div class="button-row screen-only">
      <button
        class="quiet"
        type="button"
        @click=${() => {
          if (entry.kind === 'picture') edit(`Count ${title}`, countPicture(id, true, entry.picture.note));
          else edit(`Count ${title}`, countReading(id, true));
          tell(`${title}: counted again.`);
        }}
      >
        Count it again
      </button>
    </div>`;
}
