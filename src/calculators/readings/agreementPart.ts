import { html, nothing, type TemplateResult } from 'lit';
import { agreementChart, type AgreementAnswer, type AgreementRow } from '../../figures';
import { agreementOf, type AgreementLine } from '../../answer/agreement';
import type { BenchAnswer } from '../../answer/benchAnswer';
import { caredOf } from '../../answer/caredOf';
import type { Compared } from '../../answer/methods';
import { suspectTitle } from '../../answer/disagreement';
import { titleOf } from '../../answer/titles';
import { angleIn, type CaredQuantity } from '../../physics';
import type { BuildState } from '../../sheet/schema';
import { lower } from '../photographs/words';
import { entriesOf, standingOf } from '../shared/listEntries';
import type { AnswerParts } from './answerParts';
import { axisOf, chartUnitOf, chartValueOf } from './caredWords';
import { entryWords } from './entryWords';
import { withoutFirst } from './suspected';
import { asTyped } from './typedWords';

const lines = new WeakMap<BenchAnswer, Map<Compared, readonly AgreementLine[]>>();

/** What methods are compared in: a tip angle hides in its ± what the height shows at once. */
export const chartedQuantity = (quantity: CaredQuantity): Compared =>
  quantity === 'ahead' || quantity === 'left' ? quantity : 'height';

/** Adjusting every method alone takes a while; an answer is drawn many times. */
export function linesOf(
  state: BuildState,
  answer: BenchAnswer,
  quantity: Compared,
): readonly AgreementLine[] {
  const held = lines.get(answer) ?? new Map<Compared, readonly AgreementLine[]>();
  lines.set(answer, held);
  const known = held.get(quantity);
  if (known) return known;
  const fresh = agreementOf(state, answer, quantity);
  held.set(quantity, fresh);
  return fresh;
}

/** Each method beside the answer from all; while one disagrees and is not decided on, both answers stand. */
export function agreementPart(told: AnswerParts): TemplateResult | typeof nothing {
  const quantity = chartedQuantity(told.quantity);
  return agreementIn({ ...told, quantity }, quantity, told.quantity !== quantity);
}

function agreementIn(
  parts: AnswerParts,
  quantity: Compared,
  instead: boolean,
): TemplateResult | typeof nothing {
  const { state, answer, unit, widths } = parts;
  const told = linesOf(state, answer, quantity);
  // The one that does not agree is shown even where it tells nothing by itself.
  const telling = told.filter(({ alone, standing }) => alone !== null || standing === 'does not agree');
  if (telling.length === 0) return nothing;
  const found = caredOf(answer, quantity);
  const joint: AgreementAnswer | null = found.ok
    ? {
        title: 'All, adjusted together',
        detail: asideWords(parts),
        ...chartValueOf(quantity, found.value, unit),
      }
    : null;
  return html`<section class="agreement" aria-label="Each method beside the answer">
    <div class="on-pad">
      <div class="agreement-box">
        ${agreementChart({
          width: widths.agreement.width,
          rows: telling.map((line) => rowOf(parts, line)),
          joint,
          other: otherAnswer(parts),
          axis: axisOf(quantity, unit),
          unit: chartUnitOf(quantity, unit),
        })}
      </div>
    </div>
    ${instead ? html`<p class="note">Compared in height, where a reading that stands apart shows best.</p>` : nothing}
    ${boardWords(telling)} ${silentWords(told)}
  </section>`;
}

function rowOf({ state, answer, quantity, unit }: AnswerParts, line: AgreementLine): AgreementRow {
  const { title, readings, alone, standing } = line;
  return {
    id: readings.join(' '),
    title,
    detail: detailOf(state, answer, line),
    alone: alone && chartValueOf(quantity, alone, unit),
    standing,
  };
}

/** What the reader typed for it: "44.0° left, 45.7° right"; of pictures, how their lines cross. */
function detailOf(state: BuildState, answer: BenchAnswer, { kind, readings }: AgreementLine): string {
  if (kind === 'picture lines') {
    const [widest] = answer.crossings;
    return widest && readings.length > 1 ? `lines cross at ${angleIn(widest.angle, 'deg').toFixed(0)}°` : '';
  }
  const own = entriesOf(state).filter(({ id }) => readings.includes(id));
  const sides = own.flatMap((entry) =>
    entry.kind === 'reading' && entry.reading.kind === 'tilt board'
      ? [`${asTyped(entry.reading.angle) ?? ''} ${entry.reading.toward}`]
      : [],
  );
  if (sides.length > 1) return sides.join(', ');
  const [entry] = own;
  // A board's number stands in its entry's title.
  if (entry?.kind === 'reading' && entry.reading.kind === 'tilt board')
    return asTyped(entry.reading.angle) ?? '';
  return entry ? entryWords(state, entry).detail : '';
}

/** "axle lift, tail up set aside" */
function asideWords({ state, answer }: AnswerParts): string {
  const aside = entriesOf(state).filter(
    (entry) => entry.kind !== 'parts list' && standingOf(entry, answer)?.because === 'set aside',
  );
  const [first] = aside;
  if (!first) return '';
  return aside.length === 1 ? `${lower(titleOf(state, first.id))} set aside` : `${aside.length} set aside`;
}

function otherAnswer(parts: AnswerParts): AgreementAnswer | null {
  const { state, answer, quantity, unit } = parts;
  const named = answer.blunder?.named;
  const without = withoutFirst(parts);
  if (!named || !without) return null;
  return {
    title: `Without ${lower(named.first.reading === null ? suspectTitle(state, named.first, named.group) : titleOf(state, named.first.reading))}`,
    detail: 'until you decide, both stand',
    ...chartValueOf(quantity, without, unit),
  };
}

/** A board's number is not the slope that was read: that one was read at wider tip lines. */
const boardWords = (told: readonly AgreementLine[]): TemplateResult | typeof nothing =>
  told.some(({ kind, readings }) => kind === 'tilt' && readings.length > 1)
    ? html`<p class="note">
        On a board the tires stand on their tip lines, up to half a tread outside their centers. Where is not
        known, which makes a board's ± wide; tip angles are told at the centers, so they are smaller than the
        slopes read.
      </p>`
    : nothing;

/** Methods that tell nothing of the quantity alone are named, not drawn. */
function silentWords(told: readonly AgreementLine[]): TemplateResult | typeof nothing {
  const silent = told.filter(({ alone, standing }) => alone === null && standing === 'agrees');
  if (silent.length === 0) return nothing;
  const names = silent.map(({ title }, i) => (i === 0 ? title : lower(title)));
  const all = names.length > 1 ? `${names.slice(0, -1).join(', ')} and ${names.at(-1)}` : names[0];
  return html`<p class="note">
    ${all} ${names.length > 1 || names[0] === 'Scales' ? 'do' : 'does'} not tell it alone; the others lean on
    ${names.length > 1 || names[0] === 'Scales' ? 'them' : 'it'}.
  </p>`;
}
