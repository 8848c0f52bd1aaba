import { css } from 'lit';

/** Layout of a small calculator: givens, figure, answer side by side; on a phone figure, answer, givens. */
export const smallStyles = css`
  .small {
    grid-template: 'givens figure answer' / minmax(0, 15.5rem) minmax(0, 1fr) minmax(0, 15rem);
  }
  .small > .givens {
    grid-area: givens;
  }
  .small > .figure-cell {
    grid-area: figure;
  }
  .small > .answer {
    grid-area: answer;
  }
  .small > .working {
    grid-column: 1 / -1;
  }
  /* The figure fills its cell; lines that go on forever end at its edge. */
  .small > .figure-cell {
    padding: 0;
  }
  .small .figure-box {
    overflow: hidden;
  }
  .small .say {
    font-size: 0.9375rem;
    line-height: 1.45;
  }
  .small .button-row {
    margin-block-start: 0.6rem;
  }
  @container calculator (max-width: 60rem) {
    .small {
      grid-template:
        'figure figure' auto
        'givens answer' auto / minmax(0, 1fr) minmax(0, 1fr);
    }
  }
  @container calculator (max-width: 38rem) {
    .small {
      grid-template: 'figure' 'answer' 'givens' / minmax(0, 1fr);
    }
    .small > * {
      padding-inline: 0.8rem;
    }
    .small > .figure-cell {
      padding: 0;
    }
  }
  /* Projected: the figure and its answer, nothing to type. */
  .small.staged {
    grid-template: 'figure answer' / minmax(0, 1.7fr) minmax(0, 1fr);
    background: none;
  }
  .small.staged > .answer {
    align-self: center;
  }
  .small.staged > :is(.givens, .working) {
    display: none;
  }
  @media print {
    .small .handle {
      display: none;
    }
    .small {
      grid-template:
        'figure answer' auto
        'figure givens' 1fr / minmax(0, 1.6fr) minmax(0, 1fr);
      column-gap: 5mm;
    }
  }
`;
