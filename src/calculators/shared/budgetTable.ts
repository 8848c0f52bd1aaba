import { css, html, type TemplateResult } from 'lit';
import { contributionBar } from '../../figures';

/** One source of uncertainty and what it alone would make of each ± (already in the column's unit, as text). */
export interface BudgetRow {
  readonly source: string;
  readonly cells: readonly string[];
  /** Its part of the largest ± of the table, 0 to 1, drawn as a hatched bar. */
  readonly share: number;
}

/**
 * "What makes the ±": sources by column, largest first, joined at the foot; for an element
 * with budgetStyles, tableStyles and figureStyles.
 */
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
        <td class="bar-cell"></td>
      </tr>
    </thead>
    <tbody>
      ${rows.map(
        ({ source, cells, share }) =>
          html`<tr>
            <th scope="row">${source}</th>
            ${cells.map((cell) => html`<td class="number">${cell}</td>`)}
            <td class="bar-cell">${contributionBar(share)}</td>
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
  @media print {
    .budget th,
    .budget td {
      padding-block: 0.12rem;
      font-size: 0.8125rem;
    }
  }
  @media (max-width: 30rem) {
    .bar-cell {
      display: none;
    }
  }
`;
