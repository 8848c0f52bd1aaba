import { css, html, nothing, svg, type TemplateResult } from 'lit';
import type { Picture } from '../../sheet/schema';
import { chevronDownIcon } from '../shared/icons';
import type { RoleSlot } from './roles';

/** What the list needs to know and to ask. */
export interface PointsListParts {
  readonly picture: Picture;
  readonly slots: readonly RoleSlot[];
  /** The mark in hand, or the point the next press places. */
  readonly inHand: string | null;
  /** Whether the list is unfolded at first: room enough, or something left to place. */
  readonly open: boolean;
  readonly choose: (slot: RoleSlot) => void;
  /** Adds a body mark to look for; absent where there is no room for one. */
  readonly add?: () => void;
}

/**
 * The points to mark in a picture, in order, each a button: choosing an unplaced one takes it in hand, choosing a
 * placed one selects its mark. Placed ones have a tick, the others say what they are needed for.
 */
export function pointsList({ picture, slots, inHand, open, choose, add }: PointsListParts): TemplateResult {
  const left = slots.filter(({ placed, need }) => !placed && need === 'needed').length;
  return html`<details class="points-fold" ?open=${open}>
    <summary>
      <span
        >Points
        <span class="quiet-text brief"
          >${left === 0 ? `${slots.length}, all needed ones placed` : `${left} to place`}</span
        ></span
      >
      ${chevronDownIcon}
    </summary>
    <ul class="points" aria-label="Points to mark">
      ${slots.map((slot) => {
        const { role, name, need, placed } = slot;
        const mark = picture.marks.find((candidate) => candidate.role === role);
        const held = role === inHand;
        const state = !placed
          ? need === 'needed'
            ? 'to place'
            : 'helps'
          : mark?.counted === false
            ? 'set aside'
            : 'placed';
        return html`<li class=${held ? 'held' : ''}>
          <button
            class="point"
            type="button"
            aria-current=${held ? 'true' : nothing}
            data-point=${role}
            @click=${() => choose(slot)}
          >
            <svg class="tick" viewBox="0 0 16 16" aria-hidden="true">
              ${placed ? tick : need === 'needed' ? ring : dashedRing}
            </svg>
            <span class="point-name">${name}</span>
            <span class="point-state">${state}</span>
          </button>
        </li>`;
      })}
    </ul>
    ${add ? html`<button class="quiet add-mark" type="button" @click=${add}>Add a body mark</button>` : nothing}
  </details>`;
}

const tick = svg`<path d="M2.5 8.5l3.5 3.5 7.5-8.5"></path>`;
const ring = svg`<circle cx="8" cy="8" r="5"></circle>`;
const dashedRing = svg`<circle cx="8" cy="8" r="5" stroke-dasharray="2.5 2.2"></circle>`;

export const pointsListStyles = css`
  .points-fold > * {
    box-sizing: border-box;
  }
  .points {
    list-style: none;
  }
  .points li {
    display: flex;
    align-items: center;
    border-block-end: 1px solid var(--hair);
  }
  .points .held {
    background: var(--blue-w);
    box-shadow: inset 3px 0 0 var(--blue);
  }
  .point {
    display: flex;
    align-items: center;
    gap: 0.5rem;
    flex: 1;
    min-width: 0;
    min-height: 2.75rem;
    padding: 0.3rem 0.4rem;
    font-size: 0.9375rem;
    line-height: 1.2;
    text-align: start;
    background: none;
    border: 0;
  }
  .tick {
    flex: none;
    width: 1rem;
    height: 1rem;
    fill: none;
    stroke: var(--blue);
    stroke-width: 1.7;
  }
  .point-name {
    flex: 1;
    min-width: 0;
    overflow-wrap: anywhere;
  }
  .held .point-name {
    font-weight: 680;
  }
  .point-state {
    flex: none;
    font-size: 0.8125rem;
    color: var(--ink-2);
  }
  @media (forced-colors: active) {
    .points .held {
      outline: 2px solid Highlight;
      outline-offset: -2px;
    }
  }
  .add-mark {
    font-size: 0.875rem;
  }
  @media print {
    .points {
      display: none;
    }
  }
`;
