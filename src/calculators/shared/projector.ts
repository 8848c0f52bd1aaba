import { css } from 'lit';

/** Whether this page is being projected; fixed for the life of a page. */
export const projected = (): boolean => document.documentElement.dataset['projector'] !== undefined;

/** How many times larger the words in a figure are on a projected page, so that the back of a hall can read them. */
export const stageFactor = (): number => (projected() ? 1.6 : 1);

/** A projected figure: question or answer at the right, at most four numbers, nothing smaller than the root size. */
export const stageStyles = css`
  .stage {
    display: grid;
    grid-template-columns: minmax(0, 1.15fr) minmax(0, 1fr);
    gap: 2rem;
    align-items: center;
    min-height: 100%;
    padding: 0.6rem 1.5rem;
  }
  .stage-words {
    font-size: 1.3rem;
  }
  .stage-question {
    font-family: var(--serif, Georgia, serif);
    font-size: 1.55rem;
    line-height: 1.4;
  }
  .stage-rows {
    margin-block-start: 1.2rem;
    border-block-end: 2px solid var(--ink);
  }
  .stage-row {
    display: flex;
    align-items: baseline;
    justify-content: space-between;
    gap: 1rem;
    padding-block: 0.5rem;
    border-block-start: 2px solid var(--ink);
  }
  .stage-row dt {
    font-size: 1.1rem;
  }
  .stage-row dd {
    font-size: 2.2rem;
    font-weight: 750;
    line-height: 1.1;
    white-space: nowrap;
  }
  .stage-row small {
    font-size: 1.2rem;
    font-weight: 550;
  }
`;
