import { css, html, nothing, type TemplateResult } from 'lit';
import type { BenchAnswer } from '../../answer/benchAnswer';
import type { Missing } from '../../photo/readState';
import type { BuildState, MarkRole, Picture } from '../../sheet/schema';
import { missingWords } from './answerPart';
import { hangsOf } from '../../sheet/hangs';
import { swapMarks } from './edits';
import { change } from './foldParts';
import { feetSwapped, openSteps, pictureName, standingOf, type RoleSlot } from './roles';
import { viewWords } from './views';
import { lower } from './words';

export interface NextStepParts {
  readonly state: BuildState;
  readonly picture: Picture;
  /** The point the next press places. */
  readonly armed: RoleSlot | null;
  readonly answer: BenchAnswer;
  readonly choosePicture: (id: string) => void;
  readonly goTo: (missing: Missing) => void;
}

/** What to do next in the picture in hand, in a sentence; and where to go on once it has what it needs. */
export function nextStep(parts: NextStepParts): TemplateResult {
  const { state, picture, armed } = parts;
  const steps = openSteps(state, picture);
  if (!picture.counted)
    return html`<p class="next-step">
      <strong>Set aside.</strong> ${picture.note.trim() || 'No reason given.'} Not counted in the answer.
    </p>`;
  if (feetSwapped(picture)) return swapped(picture);
  const onward = steps.length === 0 ? goOn(parts) : nothing;
  if (armed)
    return html`<p class="next-step" data-next=${armed.role}>
      <strong>Next: ${armed.name}.</strong> ${armed.where}
      ${armed.need === 'helps' ? html`<span class="quiet-text">${helps(armed.role)}</span>` : nothing}
      ${onward}
    </p>`;
  if (steps.length === 0)
    return html`<p class="next-step">
      <strong>All points stand.</strong>
      ${onward === nothing ? html`<span class="quiet-text">Drag a mark, or press it and nudge it.</span>` : onward}
    </p>`;
  return html`<p class="next-step">
    <strong>Still needed:</strong> ${steps.map(({ what }) => what).join(', ')}.
  </p>`;
}

const helps = (role: MarkRole): string =>
  role.startsWith('base ')
    ? 'Not needed for the place; both ends give the tip angles.'
    : 'Not needed, but it lowers the ±.';

/** Left and right tire marked the other way round than the view has them. */
function swapped({ id, view }: Picture): TemplateResult {
  return html`<p class="next-step">
    <strong class="look-here">Left and right look swapped.</strong> Seen from ${viewWords(view)} the truck’s
    left tire is on the ${view === 'rear' ? 'left' : 'right'}.
    <button
      class="word-link"
      type="button"
      @click=${() => change('Swap left and right tire', swapMarks(id, 'ground left', 'ground right'))}
    >
      Swap the two marks</button
    >, or change the view.
  </p>`;
}

/** The next picture with something to mark, else the first thing missing anywhere. */
function goOn({
  state,
  picture,
  answer,
  choosePicture,
  goTo,
}: NextStepParts): TemplateResult | typeof nothing {
  // The standing picture first: the others are laid over it.
  const inTurn = state.pictures.toSorted(
    (a, b) => Number(b.kind === 'standing') - Number(a.kind === 'standing'),
  );
  const other = inTurn.find(
    (candidate) => candidate.id !== picture.id && candidate.counted && openSteps(state, candidate).length > 0,
  );
  if (other)
    return html`<button class="word-link" type="button" @click=${() => choosePicture(other.id)}>
      Go on to ${lower(pictureName(state, other))}
    </button>`;
  const [missing] = answer.missing;
  if (!missing) return nothing;
  return html`Still needed:
    <button class="word-link" type="button" @click=${() => goTo(missing)}>
      ${missingWords(state, missing)}
    </button>`;
}

/** What hangs by fewer than two strings, though the standing picture, where one is needed, is marked. */
export function timeToHang(state: BuildState): boolean {
  if (hangsOf(state).length >= 2) return false;
  if (state.body === 'object') return true;
  const standing = standingOf(state);
  return standing !== null && openSteps(state, standing).length === 0;
}

const ORDINALS = ['first', 'second', 'third', 'fourth', 'fifth', 'sixth'];

/** What the strip's empty place asks for. */
export function nextPicture(state: BuildState): string {
  if (state.pictures.some(({ kind }) => kind === 'unsorted')) return 'Add more pictures';
  const hangs = hangsOf(state).length;
  // Who began by hanging it needs no standing picture: it is one of the ways to the ground.
  if (state.body === 'truck' && !standingOf(state) && hangs === 0) return 'Add the standing picture';
  const ordinal = ORDINALS[hangs];
  return ordinal ? `Add a ${ordinal} hang` : 'Add a hang';
}

export const nextStepStyles = css`
  .look-here {
    color: var(--red);
  }
`;
