import { html, nothing, type TemplateResult } from 'lit';
import type { BenchAnswer } from '../../answer/benchAnswer';
import type { Missing } from '../../photo/readState';
import type { Warning } from '../../answer/warnings';
import type { BuildState } from '../../sheet/schema';
import { asText, keepNumbers, NO_BREAK, showLength } from '../shared/format';
import { lengthUnitOf } from '../shared/readersUnits';
import '../shared/resultView';
import type { ResultState } from '../shared/resultView';
import '../shared/warning';
import {
  consistencySentence,
  crossingSentence,
  listApart,
  listIsDrawn,
  sideAnswer,
  standingEye,
} from './answerView';
import { detailFigure } from './scenes';
import { pictureName } from './roles';
import { lower } from './words';

export interface AnswerParts {
  readonly state: BuildState;
  readonly answer: BenchAnswer;
  /** Worked from photographs alone; null where nothing else counts, since it would be the same. */
  readonly alone: BenchAnswer | null;
  readonly trial: boolean;
  /** Takes the reader to what is missing. */
  readonly goTo: (missing: Missing) => void;
  /** Takes the reader to the picture of a warning, with a mark in hand where it names one. */
  readonly lookAt: (warning: Warning) => void;
}

/** The answer's two numbers alone, for a projected page; or why there are none. */
export const stageAnswer = (parts: AnswerParts): TemplateResult | typeof nothing =>
  parts.answer.cg.ok ? twoNumbers(parts) : refused(parts);

/** The answer with its ±, what it rests on, and what is wrong with it. */
export function answerPart(parts: AnswerParts): TemplateResult {
  const { answer } = parts;
  return html`
    ${answer.cg.ok ? numbers(parts) : refused(parts)}
    <div class="stack remarks">${answer.warnings.map((warning) => warningBracket(parts, warning))}</div>
  `;
}

function twoNumbers({ state, answer, trial }: AnswerParts): TemplateResult | typeof nothing {
  if (!answer.cg.ok) return nothing;
  const { ahead, height } = answer.cg.value;
  const unit = lengthUnitOf(state);
  const current = (estimate: typeof ahead): ResultState => ({
    kind: 'current',
    shown: showLength(estimate, unit),
    trial,
  });
  return html`<div class="answer-numbers">
    <plumb-result label="ahead of the rear axle" .state=${current(ahead)}></plumb-result>
    <plumb-result label="above ground" .state=${current(height)}></plumb-result>
  </div>`;
}

function numbers(parts: AnswerParts): TemplateResult {
  const { state, answer, alone } = parts;
  const unit = lengthUnitOf(state);
  const agree = consistencySentence(alone ?? answer);
  return html`
    <div class="answer-row">
      ${twoNumbers(parts)}
      <div class="answer-detail">
        ${detailFigure(sideAnswer(state, answer), standingEye(answer)?.nose ?? 1)}
      </div>
    </div>
    <div class="answer-words">
      <p class="crossing">${crossingSentence(state, answer)}</p>
      ${agree ? html`<p class="crossing">${agree}</p>` : nothing}
      ${
        alone
          ? html`<p class="crossing quiet-text">
              ${
                alone.cg.ok
                  ? `From the photographs alone: ${asText(showLength(alone.cg.value.ahead, unit))} ahead, ${asText(showLength(alone.cg.value.height, unit))} up. The title block, like the numbers above, counts all readings.`
                  : 'The photographs alone do not give a point yet; the other readings do the rest.'
              }
            </p>`
          : nothing
      }
      ${listSentence(state, answer)}
    </div>
  `;
}

function listSentence(state: BuildState, answer: BenchAnswer): TemplateResult | typeof nothing {
  const { partsListCg: list, cg } = answer;
  if (!list || !cg.ok) return nothing;
  const unit = lengthUnitOf(state);
  return html`<p class="crossing quiet-text">
    The parts list says ${asText(showLength(list.x, unit))} ahead, ${asText(showLength(list.z, unit))} up:
    ${`${listApart(answer).toFixed(1)}${NO_BREAK}mm`} away${listIsDrawn(answer) ? ', the open ring' : ''}.
  </p>`;
}

/** "the place of the hook" says not which: the picture's name is added where the words leave it out. */
export function missingWords(state: BuildState, { what, picture: id }: Missing): string {
  const picture = state.pictures.find((candidate) => candidate.id === id);
  if (!picture || !what.endsWith('the hook')) return what;
  return `${what} of ${lower(pictureName(state, picture))}`;
}

/** No number: what is missing, each a link; or why it cannot be, and the remedy. */
function refused({ state, answer, goTo }: AnswerParts): TemplateResult | typeof nothing {
  const { cg, missing, crossings } = answer;
  if (cg.ok) return nothing;
  if (cg.reason === 'missing') {
    const lines = answer.lines.length + (answer.foreAft ? 1 : 0);
    const why =
      state.pictures.length === 0
        ? ''
        : lines === 0 && crossings.length === 0
          ? 'Two plumb lines are needed.'
          : 'One string gives a line, not a place.';
    return html`<p class="no-answer" role="status">
      <strong>No answer yet.</strong> ${why}
      ${
        missing.length > 0
          ? html`Still needed:
            ${missing.map(
              (each, index) =>
                html`${index > 0 ? ', ' : nothing}<button
                    class="word-link"
                    type="button"
                    @click=${() => goTo(each)}
                  >
                    ${missingWords(state, each)}
                  </button>`,
            )}.`
          : cg.message
      }
      ${
        state.pictures.length === 0
          ? html`Scales and one lifted axle, or a tilt board, tell the height as well:
              <a href="#readings/add">add such a reading</a>.`
          : nothing
      }
    </p>`;
  }
  const { message } = cg;
  const cut = message.includes(';') ? message.indexOf(';') + 1 : message.search(/[.:] /) + 1;
  const [title, rest] = cut > 0 ? [message.slice(0, cut), message.slice(cut)] : [message, ''];
  return html`<plumb-bracket kind="warning" title-text=${title}
    >${rest} ${REMEDIES[cg.reason] ?? ''} There is no answer until then.</plumb-bracket
  >`;
}

/** What to do about refusals whose message tells only what is wrong. */
const REMEDIES: Readonly<Record<string, string>> = {
  'nearly-parallel':
    'Hang the truck from a hook far from the first, best so that the strings would cross near 90°.',
  'not-converged': 'Look for a mark on the wrong thing, or a picture tied to the wrong hook.',
  undetermined: 'Place the marks that are still open.',
};

function warningBracket({ state, lookAt }: AnswerParts, warning: Warning): TemplateResult {
  const picture = state.pictures.find(({ id }) => id === warning.picture);
  const name = picture ? lower(pictureName(state, picture)) : '';
  return html`<plumb-bracket kind=${warning.kind} title-text=${warning.title}
    >${keepNumbers(warning.text)}
    ${
      picture
        ? html`<button class="word-link" type="button" @click=${() => lookAt(warning)}>
            Look at ${name}
          </button>`
        : nothing
    }</plumb-bracket
  >`;
}
