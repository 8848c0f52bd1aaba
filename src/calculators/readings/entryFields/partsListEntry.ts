import { html, type TemplateResult } from 'lit';
import { partsList } from '../../../sheet/derived';
import type { BuildState } from '../../../sheet/schema';
import '../../shared/warning';

/** The parts list: whether it counts is a choice, since uncounted it checks all the rest. */
export function partsListEntry(state: BuildState): TemplateResult {
  const list = partsList(state);
  return html`
    <p class="said">
      ${
        state.countPartsList
          ? 'It counts as one reading of mass and center of gravity, with the ± of its parts. Leave it out, and it checks the others as something that shares none of their slips.'
          : 'It stands beside the answer as a check that shares none of its slips. Counted, it becomes one reading of mass and center of gravity, with the ± of its parts.'
      }
    </p>
    ${
      list.ok
        ? ''
        : html`<plumb-bracket kind="warning" title-text="It cannot be added up yet."
            >${list.message}</plumb-bracket
          >`
    }
    <a class="button" href="./index.html#truck">Open the parts list on the cover</a>
  `;
}
