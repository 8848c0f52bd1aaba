import { css, html, nothing, type TemplateResult } from 'lit';
import type { MarkRole, Picture } from '../../../sheet/schema';
import type { EventOn } from '../../shared/events';
import { keepNumbers } from '../../shared/format';
import type { EdgeFinder } from './edgeFinder';
import { findingOf, marksOf, sameMarks, standingOfFinding, type Finding } from './finding';
import { findingWords } from './findingWords';

export interface FinderNoteParts {
  readonly finder: EdgeFinder;
  readonly picture: Picture;
  /** The mark in hand. */
  readonly selected: MarkRole | null;
  /** What a mark is called. */
  readonly nameOf: (role: MarkRole) => string;
  readonly pixelsPerMm: number | null;
}

/**
 * Under the picture: what its edges say of the string's marks and of the mark in hand, to take or to refuse; and the
 * offer to look where nothing was looked for.
 */
export function finderNote(parts: FinderNoteParts): TemplateResult | typeof nothing {
  const { finder, picture, selected } = parts;
  const findings = finder.of(picture);
  const inHand = selected === null ? null : findingOf(selected);
  // The mark in hand comes first: below what is said of the string it would lie out of sight on a phone.
  const shown = findings
    .filter(({ of }) => of === 'string' || of === inHand)
    .toSorted((a, b) => Number(b.of === inHand) - Number(a.of === inHand));
  const looked = [
    ...(picture.kind === 'hanging' && marksOf(picture, 'string') ? (['string'] as const) : []),
    ...(inHand !== null && inHand !== 'string' ? [inHand] : []),
  ];
  const looking = looked.filter((of) => finder.looksFor(picture.id, of));
  const asks = looked.filter((of) => !looking.includes(of) && !shown.some((finding) => finding.of === of));
  // Marks accepted together may have snapped together; the others are named, and told when they are in hand.
  const others = findings.filter(
    (finding) => !shown.includes(finding) && standingOfFinding(finding, picture) === 'taken',
  );
  if (shown.length + looking.length + asks.length + others.length === 0) return nothing;
  return html`<div class="finder-note">
    ${looking.map((of) => html`<p class="quiet-text">Looking for the ${of === 'string' ? 'string' : 'round'} …</p>`)}
    ${shown.filter(({ of }) => !looking.includes(of)).map((finding) => told(parts, finding))}
    ${
      others.length === 0
        ? nothing
        : html`<p class="quiet-text">
            Snapped to ${others.length === 1 ? 'its round' : 'their rounds'}:
            ${others.map(({ of }) => parts.nameOf(of)).join('; ')}.
          </p>`
    }
    ${
      asks.length === 0
        ? nothing
        : html`<div class="asks">
            ${asks.map(
              (of) =>
                html`<button
                  class="quiet"
                  type="button"
                  data-find=${of}
                  @click=${() => finder.ask(picture.id, of === 'string' ? 'string upper' : of)}
                >
                  ${of === 'string' ? 'Find the string' : html`Find the round here<span class="spoken">, ${parts.nameOf(of)}</span>`}
                </button>`,
            )}
          </div>`
    }
  </div>`;
}

function told({ finder, picture, pixelsPerMm }: FinderNoteParts, finding: Finding): TemplateResult {
  const standing = standingOfFinding(finding, picture) ?? 'unsure';
  const { lead, rest } = findingWords(finding, standing, pixelsPerMm);
  const string = finding.of === 'string';
  const [label, act] =
    standing === 'taken'
      ? [string ? 'Keep my own marks' : 'Keep my own mark', () => finder.keepOwn(finding)]
      : [string ? 'Take the string found' : 'Take its center', () => finder.take(finding)];
  return html`<div class="finding" data-finding=${finding.of} data-standing=${standing}>
    <p><strong>${lead}</strong> ${keepNumbers(rest)}</p>
    ${
      standing === 'unsure' || sameMarks(finding.own, finding.placed)
        ? nothing
        : // One button for both ways, so that the keyboard stays on it.
          html`<button class="quiet" type="button" @click=${act}>${label}</button>`
    }
  </div>`;
}

/** Among the camera's givens: whether the edges may move marks by themselves. */
export const edgesSwitch = (finder: EdgeFinder): TemplateResult =>
  html`<label class="edges-switch"
    ><input
      type="checkbox"
      .checked=${finder.allowed}
      @change=${(event: EventOn<HTMLInputElement>) => {
        finder.allowed = event.currentTarget.checked;
      }}
    />Let the picture’s edges move my marks</label
  >`;

export const finderNoteStyles = css`
  .blur {
    display: block;
    margin-block-start: 0.8rem;
  }
  .finder-note {
    margin-block-start: 0.4rem;
    font-size: 0.9375rem;
    line-height: 1.4;
  }
  .finding {
    display: flex;
    flex-wrap: wrap;
    align-items: center;
    gap: 0 1rem;
  }
  .finding p {
    flex: 1 1 20rem;
  }
  .finding .quiet {
    flex: none;
    margin-inline-start: -0.3rem;
  }
  .finding + .finding,
  .finding + .asks {
    margin-block-start: 0.3rem;
  }
  .asks {
    display: flex;
    flex-wrap: wrap;
    gap: 0 1rem;
  }
  .edges-switch {
    display: flex;
    align-items: center;
    gap: 0.6rem;
    min-height: 2.9rem;
    font-size: 0.9375rem;
    line-height: 1.25;
    border-block-end: 1px solid var(--hair);
    cursor: pointer;
  }
  .edges-switch input {
    flex: none;
    width: 1.25rem;
    height: 1.25rem;
    margin: 0;
    accent-color: var(--blue);
  }
  @media print {
    .finder-note {
      display: none;
    }
  }
`;
