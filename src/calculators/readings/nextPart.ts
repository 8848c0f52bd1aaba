import { html, nothing, type TemplateResult } from 'lit';
import { caredOf } from '../../answer/caredOf';
import { further, type FurtherInWords } from '../../answer/further';
import type { BenchAnswer } from '../../answer/benchAnswer';
import { COVERAGE, type CaredQuantity, type FurtherCaution } from '../../physics';
import { TRUCK_HREF } from '../../photo/readState';
import type { BuildState } from '../../sheet/schema';
import { edit } from '../../sheet/bench';
import { chevronDownIcon } from '../shared/icons';
import type { EventOn } from '../shared/events';
import type { AnswerParts } from './answerParts';
import { CARED_WORDS, inReadersUnit, isLength } from './caredWords';
import { fixed } from '../shared/format';
import { addReadings, readingsFor } from './furtherEdits';

const SHOWN = 4;
const MORE = 'measure-next-more';

/** One hazard at the line; the form it leads to has them all, before its fields. */
const CAUTIONS: Readonly<Record<FurtherCaution, string>> = {
  hang: 'Hang it low over foam; nobody reaches beneath.',
  board: 'Catch strap on, nobody on the downhill side.',
  lift: 'A firm block under it, foam around the low end.',
};

const told = new WeakMap<BenchAnswer, Map<CaredQuantity, readonly FurtherInWords[]>>();

function furtherOf(
  state: BuildState,
  answer: BenchAnswer,
  quantity: CaredQuantity,
): readonly FurtherInWords[] {
  const held = told.get(answer) ?? new Map<CaredQuantity, readonly FurtherInWords[]>();
  told.set(answer, held);
  const known = held.get(quantity);
  if (known) return known;
  const fresh = further(state, answer, quantity);
  held.set(quantity, fresh);
  return fresh;
}

/** What to measure next, by how far it narrows the ±, with its work; each leads to where it is entered. */
export function nextPart(parts: AnswerParts): TemplateResult | typeof nothing {
  const { state, answer, quantity, unit, opened, toggle } = parts;
  if (!answer.joint) return nothing;
  const list = furtherOf(state, answer, quantity);
  const found = caredOf(answer, quantity);
  const { name } = CARED_WORDS[quantity];
  const places = placesFor(list, quantity, unit);
  const rows = list.map((each, i) => nextRow(parts, each, i + 1, places));
  return html`<section class="next" id="measure-next" aria-labelledby="next-title">
    <div class="part-head">
      <h3 id="next-title">${found.ok ? 'Measure next' : 'What would determine it'}</h3>
      ${found.ok ? html`<p>${name} now ± ${plusMinus(quantity, found.value.u, unit, places)}</p>` : nothing}
    </div>
    ${
      answer.blunder?.named && answer.cg.ok
        ? html`<p class="note">First look at what does not agree: more readings do not mend a wrong one.</p>`
        : nothing
    }
    ${
      rows.length === 0
        ? html`<p class="said">
            ${found.ok ? 'Every reading that would help is on the sheet.' : 'Add a reading that tells it, below.'}
          </p>`
        : html`<ol class="next-list">
              ${rows.slice(0, SHOWN)}
            </ol>
            ${
              rows.length > SHOWN
                ? html`<details
                    class="fold"
                    .open=${opened.has(MORE)}
                    @toggle=${(event: EventOn<HTMLDetailsElement>) => toggle(MORE, event.currentTarget.open)}
                  >
                    <summary><span>${rows.length - SHOWN} more that help</span>${chevronDownIcon}</summary>
                    <ol class="next-list" start=${SHOWN + 1}>
                      ${rows.slice(SHOWN)}
                    </ol>
                  </details>`
                : nothing
            }
            <p class="note">
              At the right, what the ± of the ${name} would become. Minutes are estimates, tools at hand.
            </p>`
    }
  </section>`;
}

/** One place, or as many as tell the first from the present ±. */
function placesFor(list: readonly FurtherInWords[], quantity: CaredQuantity, unit: 'mm' | 'in'): number {
  const usual = isLength(quantity) && unit === 'in' ? 2 : 1;
  const hidden = list.some(({ gain: { now, then } }) => {
    if (now === null || then === null) return false;
    const [a, b] = [now, then].map((u) => (COVERAGE * inReadersUnit(quantity, u, unit)).toFixed(usual));
    return a === b;
  });
  return hidden ? usual + 1 : usual;
}

function plusMinus(quantity: CaredQuantity, u: number, unit: 'mm' | 'in', places: number): string {
  const number = fixed(COVERAGE * inReadersUnit(quantity, u, unit), places);
  return isLength(quantity) ? `${number}\u00a0${unit}` : `${number}°`;
}

function nextRow(parts: AnswerParts, each: FurtherInWords, number: number, places: number): TemplateResult {
  const { state, quantity, unit } = parts;
  const { what, needs, minutes, caution, gain, href } = each;
  const { work } = gain.candidate;
  const then = gain.then === null ? '' : plusMinus(quantity, gain.then, unit, places);
  const words = html`<span class="next-number" aria-hidden="true">${number}</span>
    <span class="next-words">
      <span class="next-what">${what}</span>
      <span class="next-work"
        >${minutes} min${needs === '' ? nothing : html`, with the ${needs} measured`}</span
      >
      ${caution === null ? nothing : html`<span class="next-work">${CAUTIONS[caution]}</span>`}
    </span>
    <span class="next-then"><span class="spoken">, then </span>± ${then}</span>`;
  const pictured = work.kind === 'hang' && work.view === 'side' && state.pictures.length > 0;
  const readings = pictured ? [] : readingsFor(state, gain.candidate);
  if (readings.length > 0)
    return html`<li>
      <button
        class="next-row"
        type="button"
        @click=${() => {
          const [first] = readings;
          edit(`Add a reading: ${what}`, addReadings(readings));
          parts.tell('Added, without numbers yet.');
          if (first) parts.goTo(first.id);
        }}
      >
        ${words}
      </button>
    </li>`;
  const target = work.kind === 'tip line' ? TRUCK_HREF : href;
  return html`<li>
    <a class="next-row" href=${target.startsWith('#') ? target : `./${target}`}>${words}</a>
  </li>`;
}
