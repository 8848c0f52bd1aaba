import { css } from 'lit';

export const photographsStyles = css`
  .sections {
    grid-template-columns: minmax(0, 1fr);
  }
  .sections > .givens-cell {
    padding-inline: 0.9rem;
  }
  /* A dragged mark changes numbers in one cell and lines in another: neither lays the others out again. */
  .sections > * {
    contain: layout style;
  }
  .answer-row {
    display: flex;
    flex-wrap: wrap;
    align-items: flex-start;
    justify-content: space-between;
    gap: 0.75rem;
  }
  .answer-numbers {
    display: grid;
    gap: 0.75rem;
  }
  .strip {
    margin-block-end: 0.9rem;
  }
  .loupe-row {
    display: grid;
    grid-template-columns: auto minmax(0, 1fr);
    gap: 0.9rem;
    align-items: center;
    justify-items: center;
  }
  .loupe-place {
    position: relative;
  }
  .loupe-place p {
    position: absolute;
    inset: 0;
    display: grid;
    place-content: center;
    padding: 1.6rem;
    font-size: 0.875rem;
    line-height: 1.35;
    text-align: center;
    color: var(--ink-2);
  }
  .next-step {
    flex: 1;
    margin-block-start: 0.65rem;
    line-height: 1.4;
    font-size: 0.9375rem;
    color: var(--ink);
  }
  .steps {
    margin: 0.6rem 0 1rem;
    padding-inline-start: 1.4rem;
    font-size: 0.9375rem;
    line-height: 1.5;
  }
  .steps li + li {
    margin-block-start: 0.35rem;
  }
  .keys {
    margin-block-start: 0.6rem;
    font-size: 0.8125rem;
    line-height: 1.4;
    color: var(--ink-2);
  }
  .keys summary {
    min-height: 2.75rem;
    font-size: 0.875rem;
    font-weight: 550;
  }
  .keys > * {
    box-sizing: border-box;
  }
  .keys dl > div {
    padding-block: 0.2rem;
  }
  kbd {
    font: inherit;
    font-weight: 640;
    color: var(--ink);
  }
  .word-link {
    display: inline;
    padding: 0.55rem 0.1rem;
    margin-block: -0.55rem;
    font: inherit;
    text-align: start;
    text-decoration: underline;
    text-decoration-thickness: 1px;
    text-underline-offset: 0.2em;
    background: none;
    border: 0;
  }
  .crossing,
  .no-answer {
    margin-block-start: 0.9rem;
    font-size: 0.9375rem;
    line-height: 1.45;
  }
  .no-answer {
    margin-block-start: 0;
  }
  .remarks:not(:empty) {
    margin-block-start: 1.1rem;
  }
  .answer-cell > plumb-bracket,
  .answer-cell > :is(plumb-bracket, .point-on-pictures) + .no-answer {
    margin-block-start: 0.9rem;
  }
  .save {
    margin-block-start: 1.2rem;
    font-size: 0.9375rem;
  }
  .working > * {
    box-sizing: border-box;
  }
  .working {
    position: relative;
  }
  /* Numbers of a moment ago are not shown as if they held. */
  .awaiting .worked {
    visibility: hidden;
  }
  .await {
    position: absolute;
    color: var(--ink-2);
    font-size: 0.9375rem;
  }
  .working .budget-row {
    display: grid;
    gap: 0.8rem 2rem;
    margin-block-start: 1.4rem;
    padding-block-start: 1rem;
    border-block-start: 1px solid var(--pad-edge);
  }
  .budget-advice {
    max-width: 34rem;
    font-size: 0.9375rem;
    line-height: 1.45;
  }
  .sections > .marks-cell {
    padding-inline: 0.85rem;
  }
  @container calculator (max-width: 43.99rem) {
    .loupe-row.idle,
    .loupe-row.idle plumb-nudge-pad {
      display: none;
    }
  }
  @container calculator (min-width: 44rem) {
    .answer-detail {
      display: none;
    }
    .sections {
      grid-template-columns: minmax(0, 1fr) minmax(0, 1fr);
      grid-template-areas:
        'figure figure'
        'marks answer'
        'givens answer'
        'working working';
    }
    .sections.empty {
      grid-template-areas: 'figure figure' 'givens givens';
    }
    .figure-cell {
      grid-area: figure;
    }
    .answer-cell {
      grid-area: answer;
    }
    .marks-cell {
      grid-area: marks;
    }
    .givens-cell {
      grid-area: givens;
    }
    .working-cell {
      grid-area: working;
    }
  }
  @container calculator (min-width: 62rem) {
    .answer-detail {
      display: none;
    }
    .sections {
      grid-template-columns: 18rem minmax(0, 1fr) 13.5rem;
      grid-template-rows: auto 1fr auto;
      grid-template-areas:
        'givens figure marks'
        'givens answer marks'
        'working working working';
    }
    .answer-cell {
      display: grid;
      grid-template-columns: auto minmax(0, 1fr);
      grid-auto-flow: dense;
      align-content: start;
      column-gap: 2rem;
    }
    .answer-cell > :not(.answer-row, .answer-words) {
      grid-column: 1 / -1;
    }
    .answer-words > :first-child {
      margin-block-start: 0.1rem;
    }
    .worked {
      display: grid;
      grid-template-columns: minmax(0, 1.25fr) minmax(0, 1fr);
      gap: 2.5rem;
      align-items: start;
    }
    .working .budget-row {
      margin-block-start: 0;
      padding-block-start: 0;
      border: 0;
    }
    .sections.empty {
      grid-template-areas: 'givens figure figure';
    }
    /* It stays beside the picture: by keyboard a mark is placed by what the loupe shows. */
    .loupe-row {
      position: sticky;
      z-index: 1;
      top: calc(var(--frame-head, 0px) + 2.75rem);
      grid-template-columns: minmax(0, 1fr);
      padding-block: 0.4rem;
      background: var(--pad);
    }
    .sections > .marks-cell :is(button, input, summary) {
      scroll-margin-block-start: 14rem;
    }
    plumb-nudge-pad {
      display: none;
    }
  }
  /* Projected: the picture and the answer, nothing to type. */
  .sections.staged {
    grid-template: 'figure answer' / minmax(0, 2fr) minmax(0, 1fr);
    background: none;
  }
  .staged > .figure-cell {
    background: none;
  }
  .staged > .answer-cell {
    display: block;
    align-self: center;
  }
  @media (pointer: coarse) {
    .keys {
      display: none;
    }
    @container calculator (min-width: 62rem) {
      plumb-nudge-pad {
        display: block;
      }
    }
  }
  @media print {
    /* A sheet of its own: it can be handed out alone. */
    :host {
      break-before: page;
    }
    .sections > .working-cell,
    .sections > .answer-cell {
      break-inside: auto;
    }
    .working > summary {
      break-after: avoid;
    }
    .working .budget-row {
      display: block;
      margin-block-start: 0.6rem;
      padding-block-start: 0.5rem;
      break-inside: avoid;
    }
    .budget-advice {
      margin-block-start: 0.3rem;
      font-size: 0.8125rem;
    }
    .crossing {
      margin-block-start: 0.45rem;
      font-size: 0.8125rem;
      line-height: 1.35;
    }
    .sections,
    .sections.empty {
      display: grid;
      grid-template-columns: 1.1fr 0.9fr 1.2fr;
      grid-template-areas:
        'figure figure figure'
        'printed marks answer'
        'working working working';
      column-gap: 1.4rem;
    }
    .sections > * {
      contain: none;
    }
    .answer-cell,
    .worked {
      display: block;
    }
    .own-truck {
      display: none;
    }
    .printed-givens-cell {
      grid-area: printed;
    }
    /* What is folded on the screen still prints. */
    .working::details-content {
      display: block;
      content-visibility: visible;
      block-size: auto;
    }
    .working summary .icon,
    .sections > .givens-cell,
    .marks-cell > .section-title,
    .points-fold,
    plumb-marking-surface,
    .loupe-row,
    .save,
    .keys,
    .answer-detail,
    .caution {
      display: none;
    }
    .marks-cell .registration {
      margin-block-start: 0;
      font-size: 0.8125rem;
    }
    .registration.unknown,
    .answer-cell plumb-bracket button {
      display: none;
    }
    .answer-cell plumb-bracket {
      font-size: 0.8125rem;
      line-height: 1.35;
    }
  }
`;
