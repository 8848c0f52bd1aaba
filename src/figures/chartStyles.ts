import { css } from 'lit';

/** What the charts of values need beyond figureStyles, for an element's static styles beside those. */
export const chartStyles = css`
  .figure .chart-title {
    font-weight: 680;
  }
  .figure .chart-word {
    font-size: 14px;
    font-weight: 680;
  }
  .figure .chart-number {
    font-size: 17px;
    font-weight: 700;
  }
  .figure .chart-answer .chart-number {
    font-size: 19px;
    font-weight: 750;
  }
  .figure .chart-plus-minus {
    font-size: 14px;
    font-weight: 500;
  }
  .figure .chart-gain {
    font-weight: 680;
  }

  .chart-hair {
    fill: none;
    stroke: var(--hair);
    stroke-width: 1px;
  }
  .chart-middle {
    fill: none;
    stroke: var(--teal);
    stroke-width: 1.6px;
  }
  .chart-dashed {
    fill: none;
    stroke: var(--teal);
    stroke-width: 1.1px;
    stroke-dasharray: 3 3;
  }
  /* A gap in the hatching for a word. */
  .chart-gap {
    fill: var(--figure-ground);
    stroke: none;
  }

  /* Bars and their marks, in the tone of their row. */
  .chart-bar {
    fill: none;
    stroke: var(--ink);
    stroke-width: 1.8px;
  }
  .chart-answer .chart-bar {
    stroke-width: 3px;
  }
  .chart-dot {
    fill: var(--ink);
    stroke: var(--ink);
    stroke-width: 1.8px;
  }
  .chart-open {
    fill: var(--figure-ground);
  }
  .figure .chart-disagrees text:not(.label-quiet) {
    fill: var(--red);
  }
  .chart-disagrees :is(.chart-bar, .chart-dot) {
    stroke: var(--red);
  }
  .chart-disagrees .chart-run-out {
    fill: var(--red);
  }
  .figure .chart-aside text,
  .figure .chart-recorded text {
    fill: var(--ink-2);
  }
  .chart-aside .chart-struck {
    text-decoration: line-through;
  }
  .chart-aside :is(.chart-bar, .chart-dot),
  .chart-recorded :is(.chart-bar, .chart-dot) {
    stroke: var(--ink-2);
  }
  .chart-aside .chart-bar {
    stroke-dasharray: 6 4;
  }
  .chart-run-out {
    fill: var(--ink);
    stroke: none;
  }
  .chart-aside .chart-run-out,
  .chart-recorded .chart-run-out {
    fill: var(--ink-2);
  }

  @media (forced-colors: active) {
    .figure {
      --hair: GrayText;
    }
    /* GrayText may be as strong as the bars; the scale's ticks are enough. */
    .agreement-chart :is(.grid, .grid-fifth) {
      display: none;
    }
  }
`;
