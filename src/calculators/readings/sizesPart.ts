import { html, nothing, type TemplateResult } from 'lit';
import { isEmpty } from '../../sheet/given';
import type { BuildState } from '../../sheet/schema';
import type { EventOn } from '../shared/events';
import { chevronDownIcon } from '../shared/icons';
import type { ReadingsParts } from './parts';
import { givenAt, suggestions } from './readingGiven';

/** Element id of the fold. */
export const SIZES_FOLD = 'sizes';

const SIZES: readonly {
  readonly name: keyof BuildState['dimensions'];
  readonly caption: string;
  readonly note: string;
}[] = [
  { name: 'wheelbase', caption: 'Wheelbase', note: 'Hub to hub. Axle scales and lifts need it.' },
  {
    name: 'frontTrack',
    caption: 'Front track',
    note: 'Tire center to tire center, not the outside width. Wheel scales, boards and every tip angle need both tracks.',
  },
  { name: 'rearTrack', caption: 'Rear track', note: 'Tire center to tire center.' },
  {
    name: 'frontTireRadius',
    caption: 'Front tire radius',
    note: 'Middle of the hub above ground, truck standing. Lifts need both.',
  },
  { name: 'rearTireRadius', caption: 'Rear tire radius', note: 'Middle of the hub above ground.' },
  {
    name: 'treadWidth',
    caption: 'Tread width',
    note: 'Across the tread where it meets the ground: how far outside its middle a tire can stand on a board.',
  },
];

/** Where the first size that is still empty stands among the fields; −1 where all are typed. */
export const firstUnmeasured = ({ dimensions }: BuildState): number =>
  SIZES.findIndex(({ name }) => isEmpty(dimensions[name]));

/** The sizes of the truck that readings are made of; every one is itself a reading with its ±. */
export function sizesPart({ state, opened, toggle }: ReadingsParts): TemplateResult {
  const open = opened.has(SIZES_FOLD);
  const typed = SIZES.filter(({ name }) => !isEmpty(state.dimensions[name])).length;
  return html`<details
    class="fold"
    id=${SIZES_FOLD}
    .open=${open}
    @toggle=${(event: EventOn<HTMLDetailsElement>) => toggle(SIZES_FOLD, event.currentTarget.open)}
  >
    <summary>
      <span>Sizes of the truck<span class="quiet-text brief">${typed} of ${SIZES.length} measured</span></span
      >${chevronDownIcon}
    </summary>
    ${
      open
        ? html`${SIZES.map(({ name, caption, note }) => givenAt(state, `dimensions/${name}`, { caption, note }))}
          ${suggestions(
            state,
            SIZES.map(({ name }) => `dimensions/${name}`),
          )}`
        : nothing
    }
  </details>`;
}
