import { html, nothing, type TemplateResult } from 'lit';
import type { BuildState } from '../../sheet/schema';
import type { EventOn } from '../shared/events';
import { chevronDownIcon } from '../shared/icons';
import type { ReadingsParts } from './parts';
import { givenAt, suggestions } from './readingGiven';
import { asTyped } from './typedWords';

/** Element id of the fold. */
export const SHARED_FOLD = 'shared-errors';
const PATHS = ['instruments/scaleZero', 'instruments/rulerZero', 'instruments/levelZero'] as const;

/** What all readings of one instrument share, and why it matters. */
export function sharedErrorsPart({ state, opened, toggle }: ReadingsParts): TemplateResult {
  const open = opened.has(SHARED_FOLD);
  return html`<details
    class="fold"
    id=${SHARED_FOLD}
    .open=${open}
    @toggle=${(event: EventOn<HTMLDetailsElement>) => toggle(SHARED_FOLD, event.currentTarget.open)}
  >
    <summary>
      <span>Shared errors<span class="quiet-text brief">${brief(state)}</span></span
      >${chevronDownIcon}
    </summary>
    ${
      open
        ? html`<p class="said">
              An instrument that reads 3 g or 0.3° too much does so every time. Reading it ten times over
              shrinks the scatter, never that; so it is counted once, for all of its readings together.
            </p>
            ${givenAt(state, PATHS[0], {
              caption: 'Scale, empty',
              note: 'What it shows with nothing on it. Added to every axle alike, it pulls the place toward the middle of the wheelbase.',
            })}
            ${givenAt(state, PATHS[1], {
              caption: 'Ruler’s worn end',
              note: 'How much a length comes out too long. Start at the 100 mm line to go around it, then type 0.',
            })}
            ${givenAt(state, PATHS[2], {
              caption: 'Level, turned round',
              note: 'Read it, turn it end for end, read again: half the difference is what it reads too much. Near 45° a degree is about 3.5 mm of height.',
            })}
            ${suggestions(state, PATHS)}`
        : nothing
    }
  </details>`;
}

/** The zeros that were typed; else what the fold holds. */
function brief({ instruments: { scaleZero, rulerZero, levelZero } }: BuildState): string {
  const typed = [
    ['scale', scaleZero],
    ['ruler', rulerZero],
    ['level', levelZero],
  ] as const;
  const words = typed.flatMap(([name, given]) => {
    const value = asTyped(given);
    return value === null ? [] : [`${name} ${value}`];
  });
  return words.length > 0 ? words.join(', ') : 'scale, ruler, level';
}
