import { html, nothing, type TemplateResult } from 'lit';
import type { EventOn } from '../shared/events';
import { chevronDownIcon } from '../shared/icons';
import type { AnswerParts } from './answerParts';
import { monteCarloPart } from './monteCarloPart';
import { tablePart } from './tablePart';

/** Element id of the fold that holds the diagnosis in full. */
export const FULL_FOLD = 'full-table';

/** The diagnosis in full, behind a fold: every number read, and the Monte Carlo check. */
export function fullTablePart(parts: AnswerParts): TemplateResult | typeof nothing {
  const { answer, opened, toggle } = parts;
  const { joint } = answer;
  if (!joint || !answer.cg.ok) return nothing;
  const open = opened.has(FULL_FOLD);
  return html`<details
    class="fold full"
    id=${FULL_FOLD}
    .open=${open}
    @toggle=${(event: EventOn<HTMLDetailsElement>) => toggle(FULL_FOLD, event.currentTarget.open)}
  >
    <summary><span>Full table, and the check of the ±</span>${chevronDownIcon}</summary>
    ${open ? html`${tablePart(parts, joint)} ${monteCarloPart(parts)}` : nothing}
  </details>`;
}
