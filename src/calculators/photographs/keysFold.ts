import { html, type TemplateResult } from 'lit';
import { chevronDownIcon } from '../shared/icons';

/**
 * The keys of the marking surface, one row each; the browser test presses every one of them. `id` names the row
 * to the test.
 */
export const KEYS: readonly { readonly id: string; readonly keys: string; readonly does: string }[] = [
  { id: 'fine', keys: 'Alt + arrow', does: 'move the mark 0.1 px' },
  { id: 'plain', keys: 'arrow', does: 'move the mark 1 px; with no mark in hand, the picture' },
  { id: 'coarse', keys: 'Shift + arrow', does: 'move the mark 10 px' },
  { id: 'far', keys: 'Ctrl or ⌘ + Shift + arrow', does: 'move the mark 100 px' },
  { id: 'place', keys: 'Enter', does: 'place the next point at the middle; with a mark in hand, Esc first' },
  { id: 'accept', keys: 'Enter on a dashed mark', does: 'accept it as offered' },
  { id: 'find', keys: 'F', does: 'find the string, or the round under the mark' },
  { id: 'zoom', keys: '+ and −', does: 'larger, smaller' },
  { id: 'whole', keys: '0', does: 'whole picture' },
  { id: 'remove', keys: 'Delete', does: 'take the mark away' },
  { id: 'leave', keys: 'Esc', does: 'let go of a drag, or of the mark' },
];

export function keysFold(): TemplateResult {
  return html`<details class="keys">
    <summary><span>Keys</span>${chevronDownIcon}</summary>
    <dl>
      ${KEYS.map(
        ({ keys, does }) =>
          html`<div>
            <dt><kbd>${keys}</kbd></dt>
            <dd>${does}</dd>
          </div>`,
      )}
    </dl>
  </details>`;
}
