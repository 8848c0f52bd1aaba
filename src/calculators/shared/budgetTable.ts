import { css, html, nothing, svg, type TemplateResult } from 'lit';

/** One source of uncertainty and what it alone would make of each ± (already in the column's unit, as text). */
export interface BudgetRow {
  readonly source: string;
  readonly cells: readonly string[];
  /** Its part of the largest ± of the table, 0 to 1, drawn as a hatched bar. */
  readonly share: number;
}

/** "What makes the ±": sources by column, largest first, joined at the foot; for an element with budgetStyles and tableStyles. */
export const budgetTable = (
  caption: string,
  columns: readonly string[],
  rows: readonly BudgetRow[],
  together: readonly string[],
): TemplateResult =>
  html`<table class="budget">
    <caption>
      ${caption}
    </caption>
    <thead>
      <tr>
        <th scope="col"><span class="spoken">Source</span></th>
        ${columns.map((column) => html`<th scope="col" class="number">${column}</th>`)}
        <th class="bar-cell"></th>
      </tr>
    </thead>
    <tbody>
      ${rows.map(
        ({ source, cells, share }) =>
          html`<tr>
            <th scope="row">${source}</th>
            ${cells.map((cell) => html`<td class="number">${cell}</td>`)}
            <td class="bar-cell">${bar(share)}</td>
          </tr>`,
      )}
    </tbody>
    <tfoot>
      <tr>
        <th scope="row">Together (root of squares)</th>
        ${together.map((cell) => html`<td class="number">${cell}</td>`)}
        <td class="bar-cell"></td>
      </tr>
    </tfoot>
  </table>`;

const BAR_LENGTH = 64;

function bar(share: number): TemplateResult | typeof nothing {
  const long = Math.round(Math.max(0, Math.min(1, share)) * BAR_LENGTH);
  if (long < 2) return nothing;
  const strokes = Array.from({ length: Math.ceil(long / 5) }, (_, i) => {
    const x = i * 5;
    const reach = Math.min(8, long - x);
    return `M${x} 9l${reach} ${-reach}`;
  });
  return html`<svg class="budget-bar" viewBox="-1 0 ${BAR_LENGTH + 2} 10" aria-hidden="true">
    ${svg`<rect x="0" y="1" width=${long} height="8"></rect><path d=${strokes.join('')}></path>`}
  </svg>`;
}

export const budgetStyles = css`
  .budget {
    width: auto;
    min-width: min(100%, 24rem);
  }
  .budget th,
  .budget td {
    padding-inline-end: 1rem;
  }
  .bar-cell {
    width: 5rem;
  }
  .budget-bar {
    display: block;
    width: 4.6rem;
    height: 0.7rem;
    overflow: visible;
  }
  .budget-bar rect {
    fill: var(--teal-w);
    stroke: var(--teal);
    stroke-width: 1;
  }
  .budget-bar path {
    stroke: var(--teal);
    stroke-width: 0.9;
  }
  @media (max-width: 30rem) {
    .bar-cell {
      display: none;
    }
  }
`;
