import { html, nothing, type TemplateResult } from 'lit';
import { asText, keepNumbers, showAngle } from '../shared/format';
import { objectSentence } from '../shared/objectWords';
import '../shared/warning';
import type { ReadingsParts } from './parts';

/**
 * The answer of an object in place of a truck's: it is read from its pictures alone, and what else the panel offers
 * asks for wheels, a ground and a wheelbase.
 */
export function objectPart({ state, answer }: ReadingsParts): TemplateResult {
  const tips = (answer.baseTips ?? []).map(
    ({ base, angle }) => `over base ${base} at ${asText(showAngle(angle))}`,
  );
  return html`<section class="the-answer" aria-label="The answer">
    ${
      answer.cg.ok
        ? html`<p class="said"><b>The center of gravity:</b> ${objectSentence(state, answer)}</p>`
        : html`<p class="said"><b>No answer yet.</b> ${keepNumbers(answer.cg.message)}</p>`
    }
    ${tips.length === 0 ? nothing : html`<p class="said">It tips ${keepNumbers(tips.join(', '))}.</p>`}
    ${answer.warnings.map(
      ({ kind, title, text }) =>
        html`<plumb-bracket kind=${kind} title-text=${title}>${keepNumbers(text)}</plumb-bracket>`,
    )}
    <p class="said">
      An object is read from its pictures alone, each hang one more line:
      <a href="./resultant-lines.html#e3">chapter 3, E3</a>.
    </p>
  </section>`;
}
