import { html, nothing, type TemplateResult } from 'lit';
import { seenChart } from '../../figures';
import { benchAnswer, type BenchAnswer } from '../../answer/benchAnswer';
import { caredOf } from '../../answer/caredOf';
import { changesSeen, type ChangeSeen } from '../../answer/changes';
import { canSee, differenceOf } from '../../answer/seen';
import {
  COVERAGE,
  type BothSeeings,
  type CaredQuantity,
  type EffectOn,
  type SeenVerdict,
} from '../../physics';
import type { BuildState } from '../../sheet/schema';
import type { EventOn } from '../shared/events';
import { keepNumbers, NO_BREAK } from '../shared/format';
import { chevronDownIcon } from '../shared/icons';
import type { AnswerParts } from './answerParts';
import { changesPart } from './changesPart';
import { CARED_WORDS, chartUnitOf, inReadersUnit, isLength, signedText, sizeText } from './caredWords';

const TERMS = 'seen-terms';

interface Seen {
  readonly seeing: BothSeeings | null;
  readonly changes: readonly ChangeSeen[];
}

const known = new WeakMap<BenchAnswer, Map<CaredQuantity, Seen>>();

function seenOf(state: BuildState, answer: BenchAnswer, quantity: CaredQuantity): Seen {
  const held = known.get(answer) ?? new Map<CaredQuantity, Seen>();
  known.set(answer, held);
  const before = held.get(quantity);
  if (before) return before;
  const fresh = { seeing: canSee(answer, quantity), changes: changesSeen(state, answer, quantity) };
  held.set(quantity, fresh);
  return fresh;
}

/** Whether this bench can see a difference: what it takes, each change of the sheet, and another build. */
export function seenPart(parts: AnswerParts): TemplateResult {
  const { state, answer, quantity } = parts;
  const found = caredOf(answer, quantity);
  const { seeing, changes } = seenOf(state, answer, quantity);
  return html`
    <div class="part-head"><h3>Can this bench see it?</h3></div>
    ${
      seeing && found.ok
        ? html`${limitWords(parts, seeing)} ${chartOf(parts, seeing, changes)}
          ${changesPart(parts, (id) => changeEffectWords(parts, id))} ${comparison(parts)}
          ${terms(parts, seeing)}`
        : html`<p class="said">
              ${
                found.ok
                  ? 'No reading tells this place; it is only assumed. Weigh the wheels, or tilt it to both sides.'
                  : 'It takes an answer first: then this says what a change must be worth to show.'
              }
            </p>
            ${changesPart(parts, () => '')}`
    }
  `;
}

/** What is kept between two builds of this bench, in words. */
const keptWords = (answer: BenchAnswer): string =>
  answer.lines.length > 0
    ? 'with the same hooks, marks, camera and ruler'
    : 'with the same sizes, hooks and instruments';

function limitWords(
  { answer, quantity, unit }: AnswerParts,
  { independent, reused }: BothSeeings,
): TemplateResult {
  const { name } = CARED_WORDS[quantity];
  return html`<p class="limit serif">
    Two builds must differ by <b>${sizeText(quantity, independent.limit, unit)}</b> of ${name} before this
    bench can tell them apart; ${keptWords(answer)}, ${sizeText(quantity, reused.limit, unit)}.
  </p>`;
}

function chartOf(
  { quantity, unit, widths }: AnswerParts,
  { independent }: BothSeeings,
  changes: readonly ChangeSeen[],
): TemplateResult | typeof nothing {
  const drawn = changes.flatMap(({ id, name, effect }) =>
    effect ? [{ id, name, gain: inReadersUnit(quantity, effect.difference.value, unit) }] : [],
  );
  if (drawn.length === 0) return nothing;
  return html`<div class="on-pad">
    <div class="seen-box">
      ${seenChart({
        width: widths.seen.width,
        changes: drawn,
        detectionLimit: inReadersUnit(quantity, independent.limit, unit),
        decisionThreshold: inReadersUnit(quantity, independent.threshold, unit),
        axis: `change of ${CARED_WORDS[quantity].name}`,
        unit: chartUnitOf(quantity, unit),
      })}
    </div>
  </div>`;
}

/** What a change does, and whether it would be seen; '' while there is no answer or it has no mass yet. */
export function changeEffectWords(parts: AnswerParts, id: string): string {
  const { state, answer, quantity } = parts;
  if (!answer.cg.ok) return '';
  const change = seenOf(state, answer, quantity).changes.find((each) => each.id === id);
  if (!change) return '';
  return change.why === null ? effectWords(parts, change) : keepNumbers(change.why);
}

/** "side tip +1.0°, height −3.2 mm. Would be seen." */
export function effectWords(
  { quantity, unit, answer }: Pick<AnswerParts, 'quantity' | 'unit' | 'answer'>,
  { effect, height, independent, reused }: ChangeSeen,
): string {
  if (!effect || independent === null || reused === null) return '';
  const told = (of: CaredQuantity, { difference: { value, u } }: EffectOn): string =>
    `${signedText(of, value, unit)}${NO_BREAK}±${NO_BREAK}${sizeText(of, COVERAGE * u, unit)}`;
  const own = `${CARED_WORDS[quantity].name} ${told(quantity, effect)}`;
  const also = height && quantity !== 'height' ? `, height ${told('height', height)}` : '';
  const turns =
    effect.sides && effect.sides.before !== effect.sides.after
      ? `; the ${effect.sides.after} side then goes first`
      : '';
  return `${own}${also}${turns}. ${seenWords(independent, reused, keptWords(answer))}`;
}

function seenWords(independent: SeenVerdict, reused: SeenVerdict, kept: string): string {
  if (independent === 'seen') return 'It would be seen.';
  if (reused === 'seen')
    return `${independent === 'between' ? 'It may be seen' : 'It would not be seen'}; ${kept} it would be.`;
  if (independent === 'between') return 'It may be seen, or missed.';
  return reused === 'between' ? `It would not be seen; ${kept} it may be.` : 'It would not be seen.';
}

function comparison(parts: AnswerParts): TemplateResult | typeof nothing {
  const { others, compared, compare } = parts;
  if (others.length === 0) return nothing;
  const other = others.find(({ id }) => id === compared);
  return html`<label class="text-row comparing"
      ><span>Compare with</span
      ><select @change=${(event: EventOn<HTMLSelectElement>) => compare(event.currentTarget.value || null)}>
        <option value="" ?selected=${!other}>another build, as measured</option>
        ${others.map(
          ({ id, name }) =>
            html`<option value=${id} ?selected=${id === compared}>
              ${name || 'a build without a name'}
            </option>`,
        )}
      </select></label
    >
    <div aria-live="polite">${other ? compareWords(parts, other) : nothing}</div>`;
}

/** The measured difference of two builds, and whether it is one. */
function compareWords({ answer, quantity, unit }: AnswerParts, other: BuildState): TemplateResult {
  const before = benchAnswer(other);
  const { name, more, less } = CARED_WORDS[quantity];
  const told = before.cg.ok ? differenceOf(before, answer, quantity) : null;
  if (!told) return html`<p class="said">“${other.name}” does not tell its ${name} yet.</p>`;
  const { difference, seeing } = told;
  const seen = (threshold: number) => Math.abs(difference) > threshold;
  const pm = (threshold: number) => `±${NO_BREAK}${sizeText(quantity, threshold, unit)}`;
  const verdict = seen(seeing.independent.threshold)
    ? 'That is a difference, hardly chance.'
    : seen(seeing.reused.threshold)
      ? `Measured independently that could be chance. If hooks, sizes and instruments were the same it is ${pm(seeing.reused.threshold)}, and a difference.`
      : `That could be chance; a true difference up to ${sizeText(quantity, seeing.independent.limit, unit)} may hide in it.`;
  const size = html`<b
    >${sizeText(quantity, Math.abs(difference), unit)} ${pm(seeing.independent.threshold)}</b
  >`;
  const way = difference < 0 ? less : more;
  return html`<p class="said">
    ${
      isLength(quantity)
        ? html`The center of gravity lies ${size} ${way} than in “${other.name}”.`
        : html`The ${name} is ${size} ${way} than in “${other.name}”.`
    }
    ${verdict}
  </p>`;
}

function terms(
  { quantity, unit, opened, toggle }: AnswerParts,
  { independent }: BothSeeings,
): TemplateResult {
  return html`<details
    class="fold"
    .open=${opened.has(TERMS)}
    @toggle=${(event: EventOn<HTMLDetailsElement>) => toggle(TERMS, event.currentTarget.open)}
  >
    <summary><span>Words for this</span>${chevronDownIcon}</summary>
    <p class="said">
      <b>Decision threshold</b>: a measured difference beyond it is hardly chance. Where nothing changed, it
      is passed once in 20 times: 1.96 u of the difference, here
      ${sizeText(quantity, independent.threshold, unit)}. <b>Detection limit</b>: the least true difference
      that passes the threshold 19 times in 20: 3.6 u, here ${sizeText(quantity, independent.limit, unit)}.
      Terms as in ISO 11929. An error that both builds share, such as a worn ruler’s, moves both alike and
      drops out of their difference.
    </p>
  </details>`;
}
