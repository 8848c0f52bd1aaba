import { css } from 'lit';

/**
 * The title block in its forms: a strip along the foot of the sheet (two values that open upward where there is
 * no room for more), drawn in full on the cover, and a short form on every printed sheet. Thick lines between groups,
 * thin ones within.
 */
export const titleBlockStyles = css`
  :host {
    container: title-block / inline-size;
    background: var(--paper);
  }
  dl {
    display: contents;
  }
  .value {
    font-size: 1.375rem;
    font-weight: 700;
    line-height: 1.15;
    white-space: nowrap;
  }
  .value.none {
    font-weight: 400;
    color: var(--ink-2);
  }
  .plus-minus,
  .cell-remark {
    font-size: 0.875rem;
    font-weight: 500;
    white-space: nowrap;
  }
  .cell-remark {
    color: var(--ink-2);
  }
  dt,
  .group-label,
  .field-label {
    font-size: 0.8125rem;
    line-height: 1.25;
    color: var(--ink-2);
  }
  .truck-name {
    font-size: 1.125rem;
    font-weight: 750;
    line-height: 1.2;
  }
  .state-words {
    font-size: 0.8125rem;
    line-height: 1.3;
    color: var(--ink-2);
  }
  .apart {
    color: var(--red);
    font-size: 0.8125rem;
    font-weight: 700;
    white-space: nowrap;
    border-inline-start: 3px solid currentColor;
    padding-inline: 0.3rem;
  }
  .trial {
    color: var(--blue);
    font-weight: 700;
  }
  .next {
    color: inherit;
    text-decoration: none;
    display: flex;
    align-items: center;
    gap: 0.6rem;
    font-size: 0.9375rem;
    line-height: 1.35;
  }
  .next .words {
    flex: 1;
  }
  .next:hover .words {
    text-decoration: underline;
    text-decoration-thickness: 1px;
    text-underline-offset: 0.2em;
  }
  .next:focus-visible,
  .readings:focus-visible {
    outline-offset: -4px;
  }
  .readings {
    color: inherit;
    text-decoration: none;
  }
  .readings-name {
    display: block;
    font-weight: 640;
    text-decoration: underline;
    text-decoration-thickness: 1px;
    text-underline-offset: 0.2em;
  }
  .readings:hover .readings-name {
    text-decoration-thickness: 2px;
  }
  .opener,
  .short,
  .printed {
    display: none;
  }

  /* Strip */
  .strip {
    display: grid;
    grid-template-columns:
      minmax(9rem, 1.5fr) repeat(3, auto) repeat(4, auto)
      minmax(12rem, 2.4fr) auto;
    grid-template-rows: auto minmax(0, 1fr);
    height: 100%;
    min-height: 3.75rem;
    overflow: hidden;
  }
  .strip > .group-label {
    padding: 0.15rem 0.75rem;
    border-block-end: 1px solid var(--hair);
    white-space: nowrap;
    overflow: hidden;
    text-overflow: ellipsis;
  }
  .strip > .thick {
    border-inline-start: 2px solid var(--ink);
  }
  .strip > .group-label:nth-of-type(2) {
    grid-column: 2 / span 3;
  }
  .strip > .group-label:nth-of-type(3) {
    grid-column: 5 / span 4;
  }
  .strip > .truck,
  .strip .cell,
  .strip > .next {
    grid-row: 2;
    padding: 0.2rem 0.75rem;
    min-width: 0;
    align-content: center;
  }
  /* An object has two places and two ends to tip over. */
  .strip.object {
    grid-template-columns:
      minmax(9rem, 1.5fr) repeat(2, auto) repeat(2, auto)
      minmax(12rem, 2.4fr) auto;
  }
  .strip.object > .group-label:nth-of-type(2) {
    grid-column: 2 / span 2;
  }
  .strip.object > .group-label:nth-of-type(3) {
    grid-column: 4 / span 2;
  }
  .strip > .readings {
    grid-row: 1 / -1;
    grid-column: -2;
    align-content: center;
    padding: 0.2rem 0.75rem;
  }
  .strip .readings-name {
    font-size: 0.9375rem;
  }
  .strip .cell {
    border-inline-start: 1px solid var(--hair);
  }
  .strip .cell.thick {
    border-inline-start: 2px solid var(--ink);
  }
  .strip .cell dd {
    display: flex;
    align-items: baseline;
    gap: 0.35rem;
  }
  .strip dt {
    white-space: nowrap;
  }

  .strip .state-words,
  .strip .next .words {
    display: -webkit-box;
    -webkit-box-orient: vertical;
    -webkit-line-clamp: 2;
    overflow: hidden;
  }
  .strip .truck-name,
  .strip .state-words {
    line-height: 1.2;
  }
  .strip .next {
    font-size: 0.8125rem;
    line-height: 1.2;
  }
  .strip .next .words {
    -webkit-line-clamp: 3;
  }

  /* In full */
  .full {
    display: grid;
    grid-template-columns: repeat(24, minmax(0, 1fr));
    border-block-start: 2px solid var(--ink);
  }
  .full > *,
  .full .cell {
    padding: 0.5rem 0.75rem;
    min-width: 0;
  }
  .full > dl {
    padding: 0;
  }
  .full .truck {
    grid-column: span 10;
  }
  .full .truck-name {
    font-size: 1.75rem;
    line-height: 1.15;
    overflow-wrap: anywhere;
  }
  .full .state {
    grid-column: span 14;
    border-inline-start: 1px solid var(--rule);
  }
  .full .state-words {
    display: block;
    font-size: 0.9375rem;
    color: inherit;
  }
  .full .group-label {
    grid-column: 1 / -1;
    padding-block: 0.25rem;
    border-block-start: 2px solid var(--ink);
    border-block-end: 1px solid var(--hair);
  }
  .full .cell {
    grid-column: span 8;
    padding-inline: 0.65rem;
  }
  .full .cell:first-child {
    grid-column: span 9;
  }
  .full .cell:nth-child(2) {
    grid-column: span 7;
  }
  .full .cell.tip {
    grid-column: span 6;
  }
  .full.object .cell,
  .full.object .cell.tip {
    grid-column: span 12;
  }
  .full .cell + .cell {
    border-inline-start: 1px solid var(--rule);
  }
  .full .cell .value {
    display: block;
    font-size: 1.5rem;
  }
  .full .next {
    grid-column: 1 / -1;
    border-block-start: 2px solid var(--ink);
    padding-block: 0.7rem;
  }
  .full .next .field-label {
    flex: 0 0 3.4rem;
  }
  .full .foot {
    border-block-start: 2px solid var(--ink);
    font-size: 0.9375rem;
  }
  .full .foot + .foot {
    border-inline-start: 1px solid var(--rule);
  }
  .full .sign-cell {
    grid-column: span 6;
    display: grid;
    place-items: center;
  }
  .full .readings-cell {
    grid-column: span 9;
  }
  .full .holds-cell {
    grid-column: span 9;
  }
  .full .field-label {
    display: block;
  }
  .projection {
    width: 4rem;
    height: 1.9rem;
    fill: none;
    stroke: var(--ink);
    stroke-width: 1.3;
  }
  .projection .thin {
    stroke-width: 0.8;
  }

  /* Where the window is low, the group labels fold away */
  .strip > .truck .apart {
    display: none;
  }
  @media (max-height: 51.24rem) {
    .strip > .group-label {
      display: none;
    }
    .strip > .truck .apart {
      display: inline;
      white-space: normal;
    }
  }
  @container title-block (max-width: 68rem) {
    .strip {
      grid-template-columns:
        minmax(7rem, 1.5fr) repeat(3, auto) repeat(4, auto)
        minmax(9rem, 2.4fr) auto;
    }
    .strip.object {
      grid-template-columns:
        minmax(7rem, 1.5fr) repeat(2, auto) repeat(2, auto)
        minmax(9rem, 2.4fr) auto;
    }
    .strip > .truck,
    .strip .cell,
    .strip > .next,
    .strip > .readings,
    .strip > .group-label {
      padding-inline: 0.55rem;
    }
    .strip > .readings {
      max-width: 5.6rem;
    }
    .strip .cell dd {
      display: block;
    }
    .strip .value,
    .strip .plus-minus {
      display: block;
    }
    .strip .value {
      font-size: 1.1875rem;
    }
    .strip .plus-minus {
      font-size: 0.8125rem;
    }
  }
  @container title-block (max-width: 61rem) {
    .strip {
      display: none;
    }
    .short {
      display: grid;
      grid-template-columns: 1fr 1fr 3.5rem;
      min-height: 3.75rem;
      border-block-start: 2px solid var(--ink);
    }
    .short .cell {
      min-width: 0;
      padding: 0.4rem 0.65rem;
    }
    .short .cell + .cell,
    .short .opener {
      border: 0;
      border-inline-start: 1px solid var(--hair);
    }
    .short dd {
      display: flex;
      flex-wrap: wrap;
      align-items: baseline;
      column-gap: 0.35rem;
    }
    .opener {
      display: grid;
      place-items: center;
      padding: 0;
      background: none;
      border-radius: 0;
    }
    .opener:focus-visible {
      outline-offset: -4px;
    }
    .opener .icon {
      transition: rotate 120ms;
    }
    .opener[aria-expanded='true'] .icon {
      rotate: 180deg;
    }
    .drawer {
      max-height: 70vh;
      max-height: 70dvh;
      overflow-y: auto;
    }
  }
  @container title-block (min-width: 61.01rem) {
    .drawer {
      display: none;
    }
  }
  @container title-block (max-width: 22rem) {
    .full > *,
    .full .cell,
    .short .cell {
      padding-inline: 0.55rem;
    }
    .full .cell .value {
      font-size: 1.375rem;
    }
  }
  @media (prefers-reduced-motion: reduce) {
    .opener .icon {
      transition: none;
    }
  }
  :host([data-projector]) {
    display: none;
  }

  @media print {
    .strip,
    .short,
    .drawer {
      display: none !important;
    }
    :host([form='strip']) .printed {
      display: grid;
      grid-template-columns: minmax(8rem, 1fr) auto auto;
      border: 1px solid var(--ink);
    }
    .printed > * {
      padding: 0.25rem 0.5rem;
    }
    .printed > * + * {
      border-inline-start: 1.5px solid var(--ink);
    }
    .printed .holds {
      white-space: nowrap;
    }
    .printed .truck-name {
      font-size: 1rem;
    }
    .printed .state-words,
    .printed .field-label {
      font-size: 0.6875rem;
    }
    .printed .row {
      display: flex;
      gap: 1rem;
    }
    .printed .value {
      font-size: 0.9375rem;
    }
    .printed .plus-minus {
      font-size: 0.75rem;
    }
    .icon {
      display: none;
    }
    .readings-name {
      font-size: 0.8125rem;
      font-weight: 400;
      text-decoration: none;
    }
  }
`;
