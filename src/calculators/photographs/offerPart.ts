import { css, html, nothing, type TemplateResult } from 'lit';
import { isSide } from '../../photo/views';
import type { BuildState, Picture } from '../../sheet/schema';
import type { Offer, OfferedMark } from './offeredMarks';
import { pictureName } from './roles';
import { viewWords } from './views';
import { capital, lower } from './words';

export interface OfferParts {
  readonly state: BuildState;
  readonly offer: Offer;
  /** What each offered point is called. */
  readonly nameOf: (mark: OfferedMark) => string;
  /** The offered mark that has the keyboard, or was pressed last; null for none. */
  readonly inHand: OfferedMark | null;
  readonly accept: (marks: readonly OfferedMark[]) => void;
  readonly decline: () => void;
}

/** What the dashed marks on the picture are, and how they become marks or go away. */
export function offerPart({ state, offer, nameOf, inHand, accept, decline }: OfferParts): TemplateResult {
  const { from, by, marks } = offer;
  const source = from.kind === 'standing' ? standingWords(from.view) : lower(pictureName(state, from));
  const count = marks.length;
  return html`<div class="offer" role="group" aria-label="Offered marks">
    <p>
      <strong>Offered, dashed: ${listed(marks.map(({ role }) => shortName(role)))}.</strong>
      ${
        by === 'similarity'
          ? html`${capital(source)}, laid over the points you marked here. Not measured, and not counted until
            you accept: look at each, and drag what sits beside its corner.`
          : html`As they lie in ${source}. Mark two of them at their corners here, far apart: the others
            follow.`
      }
    </p>
    <div class="button-row">
      ${
        by === 'similarity'
          ? html`<button class="button" type="button" data-accept="all" @click=${() => accept(marks)}>
              ${count === 1 ? 'Accept it' : `Accept all ${count}`}
            </button>`
          : nothing
      }
      ${
        inHand && (count > 1 || by === 'layout')
          ? html`<button class="button" type="button" data-accept="one" @click=${() => accept([inHand])}>
              Accept ${lower(nameOf(inHand))}
            </button>`
          : nothing
      }
      <button class="quiet" type="button" @click=${decline}>No, I mark them myself</button>
    </div>
  </div>`;
}

const standingWords = (view: Picture['view']): string =>
  isSide(view) ? 'the standing picture' : `the standing picture from ${viewWords(view)}`;

/** "A", "rear hub": what stands at the dashed mark. */
const shortName = (role: string): string =>
  role.startsWith('mark ') ? role.slice('mark '.length) : role.startsWith('hook ') ? 'hook' : role;

const listed = (names: readonly string[]): string =>
  names.length > 1 ? `${names.slice(0, -1).join(', ')} and ${names.at(-1)}` : names.join('');

export const offerStyles = css`
  .offer {
    margin-block-start: 0.75rem;
    padding: 0.6rem 0.8rem 0.4rem;
    font-size: 0.9375rem;
    line-height: 1.4;
    background: var(--paper);
    border: 1.3px dashed var(--blue);
  }
  .offer .button-row {
    margin-block-start: 0.4rem;
    gap: 0.3rem 0.75rem;
  }
  @media print {
    .offer {
      display: none;
    }
  }
`;
