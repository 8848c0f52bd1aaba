import { css } from 'lit';

/**
 * Styles every calculator shares, for its static styles. Colors and fonts come from the page's tokens (custom
 * properties reach into shadow trees); sizes are the drawing sheet's: rows 44 px high, 52 on a phone, square
 * corners, hairlines, nothing by color alone.
 */
export const baseStyles = css`
  :host {
    display: block;
    box-sizing: border-box;
    color: var(--ink);
    font-family: var(--sans, 'Atkinson Hyperlegible Next', system-ui, sans-serif);
    font-size: 1rem;
    line-height: 1.3125;
    font-variant-numeric: tabular-nums;
    font-feature-settings: 'tnum';
  }
  :host([hidden]) {
    display: none;
  }
  *,
  *::before,
  *::after {
    box-sizing: border-box;
  }
  :focus-visible {
    outline: 3px solid var(--blue);
    outline-offset: 2px;
  }
  h2,
  h3,
  h4,
  h5,
  p,
  dl,
  dd,
  ol,
  ul,
  figure {
    margin: 0;
    padding: 0;
    font: inherit;
  }
  a {
    color: inherit;
    text-decoration-thickness: 1px;
    text-underline-offset: 0.2em;
  }
  strong,
  b {
    font-weight: 700;
  }
  .icon {
    flex: none;
    width: 1.25rem;
    height: 1.25rem;
    fill: none;
    stroke: currentcolor;
    stroke-width: 1.7;
    stroke-linejoin: round;
    stroke-linecap: round;
  }
  .quiet-text {
    color: var(--ink-2);
  }
  .given-number {
    color: var(--blue);
    font-weight: 650;
  }
  .serif {
    font-family: var(--serif, 'Literata', Georgia, serif);
    font-size: 1.0625rem;
    line-height: 1.65;
  }
  /* Read aloud, not drawn */
  .spoken {
    position: absolute;
    width: 1px;
    height: 1px;
    margin: -1px;
    overflow: hidden;
    clip-path: inset(50%);
    white-space: nowrap;
  }
  @media print {
    .screen-only {
      display: none !important;
    }
  }
`;

/** Buttons: .button (outlined), .button.filled (one in a view), .quiet (underlined words); .switch holds a choice. */
export const buttonStyles = css`
  button {
    font: inherit;
    color: inherit;
    margin: 0;
    border-radius: 3px;
    cursor: pointer;
    touch-action: manipulation;
  }
  .button,
  .quiet,
  .with-icon {
    display: inline-flex;
    align-items: center;
    justify-content: center;
    gap: 0.5rem;
    min-height: 2.75rem;
    padding: 0.4rem 1.05rem;
    background: none;
    border: 0;
    font-size: 0.9375rem;
    font-weight: 640;
    line-height: 1.2;
    text-align: center;
  }
  .button {
    background: var(--paper);
    border: 1.3px solid var(--ink);
    text-decoration: none;
  }
  .button.filled {
    background: var(--ink);
    color: var(--paper);
  }
  .quiet {
    min-width: 2.75rem;
    padding-inline: 0.3rem;
    text-decoration: underline;
    text-decoration-thickness: 1px;
    text-underline-offset: 0.22em;
    font-weight: 550;
  }
  .with-icon {
    padding-inline: 0.5rem;
    font-weight: 620;
  }
  button:disabled,
  button[aria-disabled='true'] {
    color: var(--ink-2);
    cursor: default;
    border-style: dashed;
  }
  .button.filled:disabled {
    background: none;
    border-color: var(--rule);
  }
  @media (hover: hover) {
    .button:not(.filled, :disabled):hover,
    .with-icon:not(:disabled, [aria-disabled='true']):hover {
      background: var(--paper-2);
    }
    .quiet:not(:disabled):hover {
      text-decoration-thickness: 2px;
    }
  }
  .button-row {
    display: flex;
    flex-wrap: wrap;
    align-items: center;
    gap: 0.75rem;
  }
  fieldset {
    min-width: 0;
    margin: 0;
    padding: 0;
    border: 0;
  }
  legend {
    padding: 0;
  }
  .switch {
    display: grid;
    grid-auto-flow: column;
    grid-auto-columns: minmax(0, 1fr);
    margin: 0;
    padding: 0;
    border: 1.3px solid var(--ink);
    border-radius: 3px;
  }
  .switch label {
    position: relative;
    display: flex;
    align-items: center;
    justify-content: center;
    min-height: 2.75rem;
    padding: 0.3rem 0.6rem;
    font-size: 0.9375rem;
    line-height: 1.2;
    text-align: center;
    cursor: pointer;
  }
  .switch label + label {
    border-inline-start: 1.3px solid var(--ink);
  }
  .switch input {
    position: absolute;
    inset: 0;
    width: 100%;
    height: 100%;
    margin: 0;
    opacity: 0;
    cursor: pointer;
  }
  .switch label:has(:checked) {
    background: var(--ink);
    color: var(--paper);
    font-weight: 680;
  }
  .switch label:has(:focus-visible) {
    outline: 3px solid var(--blue);
    outline-offset: 2px;
    z-index: 1;
  }
  @media print {
    .button,
    .quiet,
    .with-icon {
      display: none;
    }
    .switch label:has(:checked) {
      background: none;
      color: inherit;
      text-decoration: underline;
    }
  }
  @media (forced-colors: active) {
    .switch label:has(:checked) {
      outline: 3px solid Highlight;
      outline-offset: -5px;
    }
  }
`;

/** Tables and lists of rows: quiet small heads, hairlines between rows, numbers to the right (.number). */
export const tableStyles = css`
  table {
    width: 100%;
    border-collapse: collapse;
    font-size: 0.9375rem;
  }
  caption {
    padding-block-end: 0.4rem;
    font-weight: 680;
    text-align: start;
  }
  th,
  td {
    padding: 0.5rem 0.5rem 0.5rem 0;
    text-align: start;
    vertical-align: baseline;
    font-weight: 400;
  }
  thead th,
  thead td {
    font-size: 0.8125rem;
    font-weight: 600;
    color: var(--ink-2);
    border-block-end: 1.3px solid var(--ink);
    vertical-align: bottom;
  }
  tbody tr + tr > * {
    border-block-start: 1px solid var(--hair);
  }
  tfoot > tr > * {
    border-block-start: 1px solid var(--rule);
    font-weight: 700;
  }
  .number {
    text-align: end;
    white-space: nowrap;
  }
`;

/** The body of a <plumb-panel>: sections on paper (.givens, .answer, .working) and on the pad (.figure-cell). */
export const panelStyles = css`
  :host {
    container: calculator / inline-size;
  }
  .sections {
    display: grid;
    background: var(--pad-edge);
    gap: 1px;
  }
  .sections > * {
    min-width: 0;
    background: var(--paper);
    padding: 1rem 1.1rem 1.25rem;
  }
  .sections > .on-pad {
    background: var(--pad);
  }
  .section-title {
    margin: 0 0 0.5rem;
    font-size: 0.9375rem;
    font-weight: 680;
    line-height: 1.3;
  }
  .section-title .quiet-text {
    margin-inline-start: 0.4rem;
    font-weight: 400;
  }
  .note {
    margin-block-start: 0.6rem;
    font-size: 0.875rem;
    line-height: 1.35;
    color: var(--ink-2);
  }
  .group + .group {
    margin-block-start: 1.1rem;
  }
  .stack > * + * {
    margin-block-start: 0.9rem;
  }
  summary {
    display: flex;
    align-items: center;
    justify-content: space-between;
    gap: 0.75rem;
    min-height: 2.75rem;
    font-size: 0.9375rem;
    font-weight: 680;
    cursor: pointer;
    list-style: none;
  }
  summary::-webkit-details-marker {
    display: none;
  }
  summary .icon {
    transition: rotate 120ms;
  }
  details[open] > summary .icon {
    rotate: 180deg;
  }
  @media (prefers-reduced-motion: reduce) {
    summary .icon {
      transition: none;
    }
  }
  @media (forced-colors: active) {
    .sections > * {
      outline: 1px solid CanvasText;
    }
  }
  @media print {
    .sections {
      background: none;
      gap: 0;
    }
    .sections > *,
    .sections > .on-pad {
      background: none;
      padding: 0.4rem 0;
      break-inside: avoid;
    }
    summary .icon {
      display: none;
    }
    summary {
      break-after: avoid;
    }
  }
`;
