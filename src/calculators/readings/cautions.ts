import { html, nothing, type TemplateResult } from 'lit';
import { chevronDownIcon } from '../shared/icons';

/** Hazards of a step: one hazard, one instruction, one reason. Those of hanging stand with the photographs. */
const BOARD: readonly string[] = [
  'Stand uphill or beside it: the truck comes down the board when it goes.',
  'A catch strap, slack by a finger’s width, from the uphill side to the board: it may tip but not fall.',
  'Motor unplugged, pack strapped: a wheel that starts can bite, a pack that falls can short.',
  'Raise the board on a hinge and a prop, not by hand, so that it cannot drop on fingers.',
  'Models only. Never tilt a full-size vehicle at home. Local rules and qualified people come first.',
];

const LIFT: readonly string[] = [
  'A firm block or stand under the raised axle, wider than the truck is high: a pile of books slides.',
  'Foam around the low end: with its wheels free to roll the truck can roll off the scale.',
  'Motor unplugged, pack strapped: a wheel that starts throws it off its stand.',
  'Fingers out from beneath while it is let down.',
  'Models only. Never lift a full-size vehicle to measure it at home. Local rules and qualified people come first.',
];

/** Open until the reading is there. */
function cautions(title: string, list: readonly string[], open: boolean): TemplateResult {
  return html`<details class="caution" ?open=${open}>
    <summary>
      <span
        >${title}${
          open
            ? nothing
            : html`<span class="quiet-text brief">${WORDS[list.length] ?? list.length} cautions</span>`
        }</span
      >
      ${chevronDownIcon}
    </summary>
    <ul>
      ${list.map((caution) => html`<li>${caution}</li>`)}
    </ul>
  </details>`;
}

const WORDS: Readonly<Record<number, string>> = { 4: 'four', 5: 'five', 6: 'six' };

export const boardCautions = (open: boolean): TemplateResult =>
  cautions('Before you raise the board', BOARD, open);
export const liftCautions = (open: boolean): TemplateResult => cautions('Before you lift it', LIFT, open);
