import { html, nothing, type TemplateResult } from 'lit';
import type { Missing } from '../../photo/readState';
import { isSide } from '../../photo/views';
import { onPictures } from '../../answer/onPictures';
import type { Warning } from '../../answer/warnings';
import type { Refusal } from '../../physics';
import type { BuildState } from '../../sheet/schema';
import { asText, keepNumbers, NO_BREAK, showAngle, showLength } from '../shared/format';
import { objectPlace, objectSentence } from '../shared/objectWords';
import { lengthUnitOf } from '../shared/readersUnits';
import '../shared/resultView';
import type { ResultState } from '../shared/resultView';
import '../shared/warning';
import { consistencySentence, crossingSentence, listApart, listIsDrawn, sideAnswer } from './answerView';
import { pictureName, standingOf } from './roles';
import { detailFigure } from './scenes';
import { ladder, onSmallestPath, pointOnPictures, type SmallestPathParts } from './smallestPathPart';
import { capital, lower } from './words';

export interface AnswerParts extends SmallestPathParts {
  /** Worked from photographs alone; null where nothing else counts, since it would be the same. */
  readonly alone: SmallestPathParts['answer'] | null;
  readonly trial: boolean;
  /** Takes the reader to the picture of a warning, with a mark in hand where it names one. */
  readonly lookAt: (warning: Warning) => void;
}

/** The answer's two numbers alone, for a projected page; or why there are none. */
export const stageAnswer = (parts: AnswerParts): TemplateResult | typeof nothing =>
  parts.answer.cg.ok ? twoNumbers(parts) : html`${pointOnPictures(parts)}${refused(parts)}`;

/** The answer with its ±, what it rests on, and what is wrong with it. */
export function answerPart(parts: AnswerParts): TemplateResult {
  const { answer } = parts;
  return html`
    ${answer.cg.ok ? numbers(parts) : html`${pointOnPictures(parts)}${refused(parts)}`} ${ladder(parts)}
    <div class="stack remarks">${alike(answer.warnings).map((same) => warningBracket(parts, same))}</div>
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
  const own = state.body === 'object' ? objectPlace(answer) : null;
  if (own)
    return html`<div class="answer-numbers">
      <plumb-result label=${own.along.label} .state=${current(own.along.estimate)}></plumb-result>
      <plumb-result label=${own.aside.label} .state=${current(own.aside.estimate)}></plumb-result>
    </div>`;
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
      <div class="answer-detail">${detailFigure(sideAnswer(state, answer), answer.noseDirection)}</div>
    </div>
    <div class="answer-words">
      ${
        state.body === 'object'
          ? html`<p class="crossing">${capital(objectSentence(state, answer))}</p>
              ${tipSentence(answer)}`
          : nothing
      }
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

function tipSentence({ baseTips }: AnswerParts['answer']): TemplateResult | typeof nothing {
  if (!baseTips) return nothing;
  const tips = baseTips.map(({ base, angle }) => `over base ${base} at ${asText(showAngle(angle))}`);
  return html`<p class="crossing">Standing on its base it tips ${keepNumbers(tips.join(', '))}.</p>`;
}

function listSentence(state: BuildState, answer: AnswerParts['answer']): TemplateResult | typeof nothing {
  const { partsListCg: list, cg } = answer;
  if (!list || !cg.ok) return nothing;
  const unit = lengthUnitOf(state);
  return html`<p class="crossing quiet-text">
    The parts list says ${asText(showLength(list.x, unit))} ahead, ${asText(showLength(list.z, unit))} up:
    ${`${listApart(answer).toFixed(1)}${NO_BREAK}mm`} away${listIsDrawn(answer) ? ', the open ring' : ''}.
  </p>`;
}

/** What is missing, its picture called as it is everywhere else: "mark A in hang 1", "the place of the hook of hang 2". */
export function missingWords(state: BuildState, { what, picture: id }: Missing): string {
  const picture = state.pictures.find((candidate) => candidate.id === id);
  if (!picture) return what;
  const standing = picture.kind === 'standing' && isSide(picture.view);
  const name = standing ? 'the standing picture' : lower(pictureName(state, picture));
  return what.endsWith('the hook')
    ? `${what} of ${name}`
    : what.replace(/ in (?:Standing picture|Hang) \d+$/u, ` in ${name}`);
}

/**
 * What is missing, each a link: the sizes and what the picture in hand lacks. Of the other pictures only how much, since
 * the line of progress leads to each; all of it where nothing is missing here.
 */
function stillNeeded({ state, answer, picture, goTo }: AnswerParts): TemplateResult {
  const { missing } = answer;
  const here = missing.filter((each) => each.picture === undefined || each.picture === picture?.id);
  const listed = here.length > 0 ? here : missing;
  const elsewhere = missing.length - listed.length;
  // Of the picture in sight its name need not be said again.
  const words = (each: Missing) =>
    each.picture !== undefined && each.picture === picture?.id
      ? each.what.replace(/ in (?:Standing picture|Hang) \d+$/u, '')
      : missingWords(state, each);
  return html`Still needed:
  ${listed.map(
    (each, index) =>
      html`${index > 0 ? ' ' : nothing}<button class="word-link" type="button" @click=${() => goTo(each)}>
          ${words(each)}</button
        >${index < listed.length - 1 ? ',' : elsewhere > 0 ? '; ' : '.'}`,
  )}
  ${elsewhere > 0 ? html`and ${elsewhere} more in the other pictures.` : nothing}`;
}

/** No number: what is missing, each a link; or why it cannot be, and the remedy. */
function refused(parts: AnswerParts): TemplateResult | typeof nothing {
  const { state, answer, picture } = parts;
  const { cg, missing, crossings } = answer;
  if (cg.ok) return nothing;
  const crossing = onPictures(state);
  const shown = crossing?.ok === true;
  const waits = WAITING.has(cg.reason);
  if (waits && onSmallestPath(state, answer, picture)) {
    if (crossing && !crossing.ok && WRONG_HANGS.has(crossing.reason)) return warningOf(state, crossing);
    // The ladder says what is still needed, in its order.
    if (shown && (state.body === 'object' || !standingOf(state))) return nothing;
    if (!shown && !standingOf(state))
      return html`<p class="no-answer" role="status">
        <strong>No answer yet.</strong> Two plumb lines are needed.
      </p>`;
  }
  if (waits) {
    const lines = answer.lines.length + (answer.foreAft ? 1 : 0);
    const why =
      state.pictures.length === 0
        ? ''
        : lines === 0 && crossings.length === 0
          ? 'Two plumb lines are needed.'
          : 'One string gives a line, not a place.';
    // Only that there is none is announced: the list changes with every mark.
    return html`<p class="no-answer">
      <span role="status"
        >${shown ? html`<strong>On the truck itself, no answer yet.</strong>` : html`<strong>No answer yet.</strong> ${why}`}</span
      >
      ${missing.length > 0 ? stillNeeded(parts) : cg.message}
      ${
        state.pictures.length === 0
          ? html`Scales and one lifted axle, or a tilt board, tell the height as well:
              <a href="#readings/add">add such a reading</a>.`
          : nothing
      }
    </p>`;
  }
  return warningOf(state, cg);
}

/** Refusals that more marks or sizes mend. */
const WAITING: ReadonlySet<string> = new Set(['missing', 'no axes', 'too few marks']);

/** Hangs that are complete and still cross nowhere: more marks would not mend it. */
const WRONG_HANGS: ReadonlySet<string> = new Set(['nearly parallel', 'marks coincide']);

function warningOf({ body }: BuildState, { message, reason }: Refusal): TemplateResult {
  const cut = message.includes(';') ? message.indexOf(';') + 1 : message.search(/[.:] /) + 1;
  const [title, rest] = cut > 0 ? [message.slice(0, cut), message.slice(cut)] : [message, ''];
  return html`<plumb-bracket kind="warning" title-text=${title}
    >${rest} ${REMEDIES[reason]?.(body) ?? ''} There is no answer until then.</plumb-bracket
  >`;
}

/** What to do about refusals whose message tells only what is wrong. */
const REMEDIES: Readonly<Record<string, (body: BuildState['body']) => string>> = {
  'nearly-parallel': () => 'Best so that the strings would cross near 90°.',
  'not-converged': (body) =>
    `Look for a mark on the wrong thing, or ${body === 'object' ? 'two marks taken for each other' : 'a picture tied to the wrong hook'}.`,
  undetermined: () => 'Place the marks that are still open.',
};

/** Warnings that say the same of several pictures, together. */
function alike(warnings: readonly Warning[]): readonly (readonly [Warning, ...Warning[]])[] {
  const groups = new Map<string, [Warning, ...Warning[]]>();
  for (const warning of warnings) {
    const key = `${warning.kind} ${warning.title} ${warning.text}`;
    const group = groups.get(key);
    if (group) group.push(warning);
    else groups.set(key, [warning]);
  }
  return [...groups.values()];
}

function warningBracket(
  { state, lookAt }: AnswerParts,
  warnings: readonly [Warning, ...Warning[]],
): TemplateResult {
  const [{ kind, title, text }] = warnings;
  return html`<plumb-bracket kind=${kind} title-text=${title}
    >${keepNumbers(text)}
    ${warnings.map((warning) => {
      const picture = state.pictures.find(({ id }) => id === warning.picture);
      return picture
        ? html`<button class="word-link" type="button" @click=${() => lookAt(warning)}>
            Look at ${lower(pictureName(state, picture))}
          </button> `
        : nothing;
    })}</plumb-bracket
  >`;
}
