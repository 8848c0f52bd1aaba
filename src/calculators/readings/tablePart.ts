import { html, type TemplateResult } from 'lit';
import { effectsOfUnseenBlunders } from '../../answer/blunderEffect';
import { numberTitle } from '../../answer/titles';
import { COVERAGE, type CaredQuantity, type Reliability, type TruckAdjustment } from '../../physics';
import { fixed, NO_BREAK } from '../shared/format';
import type { AnswerParts } from './answerParts';
import { CARED_WORDS, signedText } from './caredWords';
import { asTyped } from './typedWords';
import { givenOf, numberText } from './typedNumberOf';
import { outOf } from './verdict';

const effects = new WeakMap<TruckAdjustment, Map<CaredQuantity, ReadonlyMap<string, number | null>>>();

function effectsOf(truck: TruckAdjustment, quantity: CaredQuantity): ReadonlyMap<string, number | null> {
  const held = effects.get(truck) ?? new Map<CaredQuantity, ReadonlyMap<string, number | null>>();
  effects.set(truck, held);
  const known = held.get(quantity);
  if (known) return known;
  const fresh = effectsOfUnseenBlunders(truck, quantity);
  held.set(quantity, fresh);
  return fresh;
}

/** Every number read with its residual and how well the others check it, and the misfit of all. */
export function tablePart(parts: AnswerParts, truck: TruckAdjustment): TemplateResult {
  const { state, quantity, answer } = parts;
  const { name } = CARED_WORDS[quantity];
  const moves = effectsOf(truck, quantity);
  const numbers = truck.numbers();
  const threshold = answer.blunder?.threshold ?? Infinity;
  const named = answer.blunder?.named;
  const standing = ({ id }: Reliability): string =>
    !named || named.first.id === id || !named.group.some((suspect) => suspect.id === id)
      ? 'does not agree'
      : 'cannot be told from it';
  const read = new Map(truck.model.numbers.map(({ id, u }) => [id, u]));
  return html`${misfit(parts, truck)}
    <div class="scrolled" tabindex="0" role="region" aria-label="Every number read, a wide table">
      <table class="every-number">
        <caption>
          Every number read, and how well the others check it
        </caption>
        <thead>
          <tr>
            <th scope="col">Number</th>
            <th scope="col" class="number wide">As read</th>
            <th scope="col" class="number wide">Residual</th>
            <th scope="col" class="number">Normalized</th>
            <th scope="col" class="number wide">Redundancy</th>
            <th scope="col" class="number">Would show from</th>
            <th scope="col" class="number">Else moves ${name} by</th>
          </tr>
        </thead>
        <tbody>
          ${numbers.map((number) => {
            const large = number.normalized !== null && Math.abs(number.normalized) > threshold;
            const given = givenOf(state, number.id)?.given ?? null;
            const unit = given?.unit ?? null;
            const move = moves.get(number.id) ?? null;
            return html`<tr class=${large ? 'large' : ''}>
              <th scope="row">
                ${numberTitle(state, number.id)}${
                  large ? html` <span class="does-not">${standing(number)}</span>` : ''
                }
              </th>
              <td class="number wide">
                ${asTyped(given ?? EMPTY) ?? (answer.lines.some(({ pictureId }) => pictureId === number.id) ? '' : 'assumed')}
                ±${NO_BREAK}${numberText(number.kind, COVERAGE * (read.get(number.id) ?? 0), unit, true)}
              </td>
              <td class="number wide">${residualText(number, unit)}</td>
              ${
                number.normalized === null
                  ? html`<td colspan="4" class="unchecked">nothing checks it</td>`
                  : html`<td class="number">${fixed(number.normalized, 1)}</td>
                      <td class="number wide">${fixed(number.redundancy, 2)}</td>
                      <td class="number">
                        ${number.detectable === null ? '–' : numberText(number.kind, number.detectable, unit, true)}
                      </td>
                      <td class="number">
                        ${move === null ? '–' : signedText(quantity, Math.abs(move), parts.unit).replace(/^\+/, '')}
                      </td>`
              }
            </tr>`;
          })}
        </tbody>
      </table>
    </div>
    <p class="note">
      <b>Residual</b>: read less adjusted. <b>Normalized</b>: over its own standard deviation; beyond
      ${Number.isFinite(threshold) ? fixed(threshold, 2) : 'its limit'} a number does not agree, at 5 % false
      alarms for the whole set. <b>Redundancy</b>: the part of an error’s square that shows, 0 to 1.
      <b>Would show from</b>: the smallest slip found 4 times in 5 when tested at 1 in 1000; a smaller one may
      hide, and <b>moves the ${name}</b> by up to the last column (W. Baarda, 1968).
    </p>`;
}

const EMPTY = { text: '', unit: '', plusMinus: '', kind: 'expanded' } as const;

const residualText = ({ kind, residual }: Reliability, unit: string | null): string => {
  const text = numberText(kind, residual, unit, true);
  return residual > 0 && /[1-9]/.test(text) ? `+${text}` : text;
};

function misfit({ quantity }: AnswerParts, truck: TruckAdjustment): TemplateResult {
  const { chiSquared, degreesOfFreedom, probability, birgeRatio } = truck;
  if (probability === null || birgeRatio === null)
    return html`<p class="said">
      No degree of freedom is left: no more numbers were read than the ${CARED_WORDS[quantity].name} and the
      other unknowns take, so nothing checks them.
    </p>`;
  return html`<dl class="known">
      <div>
        <dt>chi-squared</dt>
        <dd>${fixed(chiSquared, 1)}</dd>
      </div>
      <div>
        <dt>degrees of freedom</dt>
        <dd>${degreesOfFreedom}</dd>
      </div>
      <div>
        <dt>chance of more misfit</dt>
        <dd>${outOf(probability)}</dd>
      </div>
      <div>
        <dt>Birge ratio</dt>
        <dd>${fixed(birgeRatio, 2)}</dd>
      </div>
    </dl>
    <p class="note">
      The Birge ratio is the square root of chi-squared over its degrees of freedom: 1 where the ± are right
      on the whole. It is told, and no ± is widened or narrowed by it.
    </p>`;
}
