import { css } from 'lit';

/** Layout of the readings panel: the list and what can be added; beside it, on a wide sheet, what readings share. */
export const readingsStyles = css`
  .readings {
    display: grid;
    /* A wide table scrolls in its own box. */
    grid-template-columns: minmax(0, 1fr);
    gap: 1.75rem;
    align-content: start;
  }
  .main,
  .beside {
    display: grid;
    gap: 1.5rem;
    align-content: start;
    min-width: 0;
  }
  .part-head {
    display: flex;
    flex-wrap: wrap;
    align-items: baseline;
    justify-content: space-between;
    gap: 0 1rem;
    padding-block-end: 0.4rem;
    border-block-end: 1.3px solid var(--ink);
  }
  h3,
  h4 {
    font-size: 1.0625rem;
    font-weight: 680;
    line-height: 1.3;
  }
  h4 {
    font-size: 0.9375rem;
  }
  .part-head p,
  .empty,
  .said {
    font-size: 0.9375rem;
    line-height: 1.45;
  }
  .part-head p {
    color: var(--ink-2);
  }
  .empty,
  .said {
    padding-block: 0.6rem;
  }

  /* One entry: its box at the left, title and numbers, and below them, when opened, its fields. */
  .entries {
    list-style: none;
  }
  .entry {
    position: relative;
    border-block-end: 1px solid var(--hair);
    scroll-margin-block-start: 0.5rem;
  }
  .entry .count {
    position: absolute;
    inset: 0 auto auto 0;
    width: 2.75rem;
    min-height: 3.25rem;
    justify-content: start;
    padding-inline-start: 0.1rem;
  }
  .entry .count.kept {
    display: flex;
    align-items: center;
    padding-inline-start: 0.45rem;
    color: var(--ink-2);
  }
  .entry > details > summary {
    min-height: 3.25rem;
    padding-block: 0.45rem;
    padding-inline-start: 2.75rem;
    font-weight: 400;
  }
  .entry.bare > details > summary {
    padding-inline-start: 0;
  }
  .entry-words {
    display: grid;
    gap: 0.1rem;
    min-width: 0;
  }
  .entry-title {
    font-weight: 680;
    overflow-wrap: anywhere;
  }
  .entry-detail,
  .entry-standing {
    font-size: 0.875rem;
    line-height: 1.35;
    color: var(--ink-2);
    overflow-wrap: anywhere;
  }
  .entry-standing {
    font-weight: 640;
    color: var(--ink);
  }
  .aside .entry-title,
  .aside .entry-detail {
    text-decoration: line-through;
    text-decoration-thickness: 1px;
    color: var(--ink-2);
  }
  .inside {
    display: grid;
    gap: 0.9rem;
    padding: 0.2rem 0 1.2rem;
  }
  .inside > .button {
    justify-self: start;
  }
  @container calculator (min-width: 34rem) {
    .entry:not(.bare) .inside {
      padding-inline-start: 2.75rem;
    }
  }
  .inside > * {
    min-width: 0;
    max-width: 34rem;
  }
  .fields {
    display: grid;
    gap: 0.5rem;
  }
  .fields > .caution {
    margin: 0;
  }
  .fields .note,
  .inside .said {
    margin: 0;
    padding: 0;
  }

  /* Choices */
  .choice {
    margin-block-start: 0.4rem;
  }
  .radio {
    display: flex;
    align-items: center;
    gap: 0.6rem;
    min-height: 2.75rem;
    font-size: 0.9375rem;
    line-height: 1.25;
    border-block-end: 1px solid var(--hair);
    cursor: pointer;
  }
  .radio input {
    flex: none;
    width: 1.25rem;
    height: 1.25rem;
    margin: 0;
    accent-color: var(--ink);
  }
  /* Four words do not fit beside each other in a hand. */
  @container calculator (max-width: 34rem) {
    .switch:has(label:nth-child(4)) {
      grid-template-columns: 1fr 1fr;
      grid-auto-flow: row;
    }
    .switch:has(label:nth-child(4)) label:nth-child(odd) {
      border-inline-start: 0;
    }
    .switch:has(label:nth-child(4)) label:nth-child(n + 3) {
      border-block-start: 1.3px solid var(--ink);
    }
  }

  .suggested {
    font-size: 0.875rem;
    line-height: 1.4;
    color: var(--ink-2);
  }
  .suggested ul {
    padding-inline-start: 1.1rem;
  }
  .suggested b {
    font-weight: 640;
  }

  /* Add a reading */
  .fold.add {
    border-block-end-color: var(--rule);
  }
  .kinds {
    list-style: none;
    display: grid;
    gap: 1rem;
    padding-block: 0.4rem 0.3rem;
  }
  @container calculator (min-width: 40rem) {
    .kinds {
      grid-template-columns: 1fr 1fr;
      column-gap: 1.75rem;
    }
  }
  .kinds li {
    font-size: 0.9375rem;
    line-height: 1.4;
  }
  .kinds .button {
    width: 100%;
    margin-block-end: 0.4rem;
  }
  .kinds .work {
    color: var(--ink-2);
    font-size: 0.875rem;
  }
  .seen {
    display: grid;
    gap: 0.6rem;
  }
  a.button {
    color: inherit;
  }

  @media print {
    .readings {
      display: block;
    }
    .main,
    .beside {
      display: block;
    }
    .fold.add,
    .caution,
    .suggested,
    /* Titles say what was chosen; notes are for the bench. */
    .inside .choice,
    .inside .note,
    .text-row:has(input:placeholder-shown),
    .entry > details > summary .icon {
      display: none;
    }
    .entry {
      break-inside: avoid;
    }
    .entry > details > summary {
      min-height: 0;
      padding-block: 0.25rem;
    }
    .entry .count {
      min-height: 0;
      padding-block-start: 0.25rem;
    }
    :focus-visible {
      outline: none;
    }
    .beside {
      margin-block-start: 1.2rem;
    }
  }
`;
