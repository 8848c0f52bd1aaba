import { css } from 'lit';

/** Words typed by the reader, choices and check boxes, in the measures of the given fields. */
export const formStyles = css`
  .text-row {
    display: grid;
    grid-template-columns: minmax(4.2rem, 6.5rem) minmax(0, 1fr);
    align-items: center;
    gap: 0.4rem;
    min-height: 2.75rem;
    padding-block: 2px;
    border-block-end: 1px solid var(--hair);
    font-size: 0.9375rem;
  }
  .text-row input,
  .text-row select {
    width: 100%;
    min-width: 0;
    height: 2.5rem;
    margin: 0;
    padding: 0 0.6rem;
    font: inherit;
    font-weight: 600;
    color: var(--blue);
    background: var(--paper);
    border: 1px solid var(--given-edge, var(--hair));
    border-block-end: 2px solid var(--blue);
    border-radius: 2px;
  }
  .text-row input:focus {
    background: var(--blue-w);
  }
  .text-row input::placeholder {
    font-weight: 400;
    color: var(--ink-2);
    opacity: 1;
  }
  .check {
    display: inline-flex;
    align-items: center;
    gap: 0.55rem;
    min-height: 2.75rem;
    font-size: 0.9375rem;
    cursor: pointer;
  }
  .check input {
    appearance: none;
    display: grid;
    place-items: center;
    flex: none;
    width: 1.35rem;
    height: 1.35rem;
    margin: 0;
    background: var(--paper);
    border: 1.3px solid var(--ink);
    border-radius: 2px;
    cursor: pointer;
  }
  .check input:checked::before {
    content: '';
    width: 0.7rem;
    height: 0.4rem;
    margin-block-start: -0.15rem;
    border: solid var(--ink);
    border-width: 0 0 2px 2px;
    rotate: -45deg;
  }
  .message {
    font-size: 0.9375rem;
    line-height: 1.4;
  }
  .message strong {
    color: var(--red);
  }
  @media (forced-colors: active) {
    .check input {
      appearance: auto;
    }
  }
`;
