import { css } from 'lit';

/** Layout of the panel's answer side. */
export const answerStyles = css`
  @container calculator (min-width: 58rem) {
    /* What stands beside takes its own height: the list follows the figure. */
    .readings {
      grid-template: auto 1fr auto / minmax(0, 1.45fr) minmax(0, 1fr);
      column-gap: 2.5rem;
    }
    .readings > .main {
      grid-column: 1;
    }
    .readings > .beside {
      grid-area: 1 / 2 / 3 / 3;
    }
    .readings > .full {
      grid-column: 1 / -1;
    }
  }
  section {
    scroll-margin-block-start: 0.75rem;
  }

  /* The answer */
  .the-answer {
    display: grid;
    gap: 0.75rem;
  }
  .the-answer .said {
    padding: 0;
    max-width: 40rem;
  }
  .caring,
  .comparing {
    max-width: 28rem;
  }
  .caring select,
  .comparing select {
    height: 2.75rem;
    text-overflow: ellipsis;
  }
  .known {
    display: flex;
    flex-wrap: wrap;
    gap: 0.4rem 1.75rem;
  }
  .known dt {
    font-size: 0.8125rem;
    color: var(--ink-2);
  }
  .known dd {
    font-weight: 680;
  }

  .on-pad {
    padding: 0.75rem 0.9rem;
    background: var(--pad);
    border: 1px solid var(--pad-edge);
  }

  /* What does not agree */
  .disagreement {
    display: grid;
    gap: 0.8rem;
    max-width: 46rem;
  }
  .after {
    margin-block-start: 0.55rem;
  }
  .slips {
    padding-inline-start: 1.1rem;
  }
  .does-not {
    font-weight: 700;
    color: var(--red);
  }
  .entry-if {
    font-size: 0.875rem;
    line-height: 1.35;
  }

  /* Measure next */
  .next-list {
    list-style: none;
  }
  .next-list li {
    border-block-end: 1px solid var(--hair);
  }
  .next-row {
    display: grid;
    grid-template-columns: 1.4rem minmax(0, 1fr) auto;
    gap: 0.5rem;
    align-items: baseline;
    width: 100%;
    min-height: 2.75rem;
    padding: 0.55rem 0;
    background: none;
    border: 0;
    color: inherit;
    text-align: start;
    text-decoration: none;
    font-size: 0.9375rem;
    line-height: 1.3;
  }
  .next-number {
    color: var(--ink-2);
  }
  .next-what {
    display: block;
    text-decoration: underline;
    text-decoration-thickness: 1px;
    text-underline-offset: 0.2em;
  }
  .next-list li:first-child .next-what {
    font-weight: 680;
  }
  .fold .next-list li:first-child .next-what {
    font-weight: inherit;
  }
  .next-work {
    display: block;
    font-size: 0.875rem;
    color: var(--ink-2);
  }
  .next-then {
    font-size: 1.0625rem;
    font-weight: 700;
    white-space: nowrap;
  }
  @media (hover: hover) {
    .next-row:hover .next-what {
      text-decoration-thickness: 2px;
    }
  }

  /* Can this bench see it */
  .limit {
    font-size: 1.0625rem;
    line-height: 1.5;
  }
  .entry-effect {
    font-size: 0.9375rem;
    line-height: 1.4;
  }
  /* The next part's head keeps its distance. */
  .beside > section + section,
  .seen > .part-head {
    margin-block-start: 0.25rem;
  }
  .seen .fold .said,
  .seen > .said {
    padding-block: 0.2rem;
  }

  /* The full table */
  .full > summary {
    font-size: 1.0625rem;
  }
  .scrolled {
    overflow-x: auto;
    margin-block-start: 0.8rem;
  }
  .every-number {
    min-width: 40rem;
  }
  .scrolled th,
  .scrolled td {
    padding-inline-end: 1rem;
  }
  .scrolled :is(th, td):last-child {
    padding-inline-end: 0.25rem;
  }
  .unchecked {
    color: var(--ink-2);
    text-align: end;
  }
  .large > * {
    font-weight: 680;
  }
  .monte-carlo {
    display: grid;
    gap: 0.6rem;
    margin-block-start: 1.5rem;
    justify-items: start;
  }
  .monte-carlo .scrolled {
    max-width: 100%;
    margin: 0;
  }
  .monte-carlo .said {
    padding: 0;
    max-width: 40rem;
  }
  .full .note {
    max-width: 46rem;
  }
  @container calculator (max-width: 40rem) {
    .every-number {
      min-width: 0;
      font-size: 0.8125rem;
    }
    .every-number .wide {
      display: none;
    }
    .scrolled th,
    .scrolled td {
      padding-inline-end: 0.6rem;
    }
    .every-number .number {
      white-space: normal;
    }
    .on-pad {
      margin-inline: -1rem;
      padding-inline: 1rem;
      border-inline: 0;
    }
  }

  @media print {
    .readings > * {
      margin-block-end: 1rem;
    }
    .caring,
    .comparing,
    .full:not([open]),
    .next .fold:not([open]),
    .seen .fold:not([open]) {
      display: none;
    }
    .next-row {
      min-height: 0;
      padding-block: 0.2rem;
    }
    .next-what {
      text-decoration: none;
    }
    .on-pad {
      background: none;
      padding: 0;
      border: 0;
    }
    /* Drawn for the screen's width, a figure would fill the sheet with letters. */
    .agreement-box {
      max-width: 150mm;
    }
    .seen-box {
      max-width: 95mm;
    }
    .agreement,
    .disagreement,
    .next {
      break-inside: avoid;
    }
    .every-number {
      min-width: 0;
      font-size: 0.75rem;
    }
    .scrolled {
      overflow: visible;
    }
  }
`;
