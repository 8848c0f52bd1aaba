import { html, type TemplateResult } from 'lit';
import { edit } from '../../../sheet/bench';
import type { BalanceOnEdge, BuildState } from '../../../sheet/schema';
import { inReading } from '../edits';
import { readingGiven } from '../readingGiven';
import { choice } from './choices';

/** A balance on a straight edge: how the edge ran, and where. */
export function balanceFields(state: BuildState, balance: BalanceOnEdge): TemplateResult {
  const { id, edge } = balance;
  const across = edge === 'across the truck';
  return html`
    ${choice(
      'The edge ran',
      `edge-${id}`,
      edge,
      [
        ['across the truck', 'Across the truck'],
        ['along the truck', 'Along the truck'],
      ],
      (value) =>
        edit(
          'Edge of a balance',
          inReading('balance on an edge', id, (draft) => (draft.edge = value)),
        ),
    )}
    ${readingGiven(
      state,
      balance,
      'place',
      across ? 'From the rear axle forward to the edge.' : 'From the center plane; to the right is negative.',
    )}
    <p class="note">Level when it balances: nose up or down, the height creeps into the place.</p>
  `;
}
