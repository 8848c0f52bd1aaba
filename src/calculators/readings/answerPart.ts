import { html, nothing, type TemplateResult } from 'lit';
import { CARED_QUANTITIES, type Cared } from '../../physics';
import type { QuantityByDraws } from '../../answer/monteCarlo/protocol';
import { caredOf } from '../../answer/caredOf';
import { TRUCK_HREF } from '../../photo/readState';
import type { EventOn } from '../shared/events';
import { keepNumbers, showMass, asText } from '../shared/format';
import { countReadings } from '../shared/readingsCount';
import '../shared/resultView';
import type { ResultState } from '../shared/resultView';
import '../shared/warning';
import { chartedQuantity, linesOf } from './agreementPart';
import type { AnswerParts } from './answerParts';
import { CARED_WORDS, caredText, isCared, showCared, sizeText } from './caredWords';
import { verdictOf } from './verdict';

/** The answer in the quantity the reader cares about, and whether the readings agree. */
export function answerPart(parts: AnswerParts): TemplateResult {
  const { state, answer, quantity, care } = parts;
  const { counted, all } = countReadings(state, answer);
  const found = caredOf(answer, quantity);
  const from = all === 0 ? '' : `, from ${counted} of ${all} readings`;
  return html`<section class="the-answer" aria-label="The answer">
    <label class="text-row caring"
      ><span>What matters</span
      ><select
        @change=${(event: EventOn<HTMLSelectElement>) => {
          const { value } = event.currentTarget;
          if (isCared(value)) care(value);
        }}
      >
        ${CARED_QUANTITIES.map(
          (each) =>
            html`<option value=${each} ?selected=${each === quantity}>${CARED_WORDS[each].choice}</option>`,
        )}
      </select></label
    >
    <plumb-result
      label=${found.ok ? `${labelOf(parts, found.value)}${from}` : CARED_WORDS[quantity].label}
      .state=${resultState(parts)}
    ></plumb-result>
    ${found.ok ? html`${drawn(parts)}${verdict(parts)}` : knownSoFar(parts)}
  </section>`;
}

function labelOf({ quantity }: AnswerParts, { side, tied }: Cared): string {
  const { label } = CARED_WORDS[quantity];
  if (side === null) return label;
  return tied ? `${label}, both sides alike` : `${label}, ${side} side down`;
}

function resultState(parts: AnswerParts): ResultState {
  const { answer, quantity, unit, trial, monteCarlo } = parts;
  const found = caredOf(answer, quantity);
  if (found.ok) {
    const shown = showCared(quantity, found.value, unit);
    const replaced = replacing(monteCarlo.of(answer.bench, quantity)) !== null;
    return { kind: 'current', shown: replaced ? { ...shown, plusMinus: '' } : shown, trial };
  }
  if (!answer.cg.ok && answer.joint === null)
    return {
      kind: 'cannot',
      title: 'No answer.',
      text: keepNumbers(answer.cg.message),
      href: '#readings/list',
      link: 'Go to the readings',
    };
  if (!answer.cg.ok && answer.cg.reason === 'nearly-parallel')
    return { kind: 'cannot', title: 'No answer.', text: keepNumbers(answer.cg.message) };
  if (found.reason === 'missing dimension')
    return {
      kind: 'needs',
      why: found.message,
      missing: [{ what: 'the truck’s sizes, on the cover', href: `./${TRUCK_HREF}` }],
    };
  if (found.reason === 'undetermined' || found.reason === 'no answer')
    return { kind: 'needs', why: found.message, missing: [] };
  return { kind: 'cannot', title: 'No answer.', text: keepNumbers(found.message) };
}

/** The draws of a quantity where first order may not stand for it. */
const replacing = (draws: QuantityByDraws | null): QuantityByDraws | null =>
  draws?.validation.verdict === 'not validated' ? draws : null;

/** Where the ± does not hold, the interval of the draws in its place. */
function drawn({ answer, quantity, unit, monteCarlo }: AnswerParts): TemplateResult | typeof nothing {
  const draws = replacing(monteCarlo.of(answer.bench, quantity));
  if (!draws) return nothing;
  const { monteCarlo: law } = draws.validation;
  const { low, high } = law.symmetric;
  return html`<p class="said">
    <b>Between ${sizeText(quantity, low, unit)} and ${sizeText(quantity, high, unit)}</b>, 19 in 20, by
    ${law.count.toLocaleString('en-US')} Monte Carlo draws. It stands in place of the ±, which does not hold
    here: first order would say ${caredText(quantity, draws, unit)}.
  </p>`;
}

function verdict({ state, answer, quantity }: AnswerParts): TemplateResult | typeof nothing {
  const compared = chartedQuantity(quantity);
  const telling = linesOf(state, answer, compared).filter(
    ({ alone, standing }) => alone !== null && standing !== 'recorded only' && standing !== 'set aside',
  );
  const [only] = telling;
  const one =
    only && telling.length === 1 && only.readings.length <= 2
      ? { quantity: CARED_WORDS[compared].name, method: only.title }
      : null;
  const told = answer.cg.ok ? verdictOf(answer, one) : null;
  return told ? html`<p class="said"><b>${told.title}</b> ${told.text}</p>` : nothing;
}

/** What the readings tell although the answer is open. */
function knownSoFar({ answer, unit }: AnswerParts): TemplateResult | typeof nothing {
  const { joint, known, cg } = answer;
  if (!joint || (!cg.ok && cg.reason === 'nearly-parallel')) return nothing;
  const rows = [
    known.ahead && { name: 'ahead of the rear axle', text: caredText('ahead', known.ahead, unit) },
    known.left && { name: 'left of center', text: caredText('left', known.left, unit) },
    joint.cg.z && { name: 'above ground', text: caredText('height', joint.cg.z, unit) },
    joint.mass && { name: 'mass', text: asText(showMass(joint.mass, 'g')) },
  ].filter((row) => row !== null);
  if (rows.length === 0) return nothing;
  return html`<p class="said">The readings do tell this much:</p>
    <dl class="known">
      ${rows.map(
        ({ name, text }) =>
          html`<div>
            <dt>${name}</dt>
            <dd>${text}</dd>
          </div>`,
      )}
    </dl>`;
}
