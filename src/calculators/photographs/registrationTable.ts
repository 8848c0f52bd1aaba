import { css, html, nothing, type TemplateResult } from 'lit';
import type { BenchAnswer } from '../../answer/benchAnswer';
import type { BuildState, Picture } from '../../sheet/schema';
import type { EventOn } from '../shared/events';
import { hangsOf } from '../../sheet/hangs';
import { pictureName } from './roles';

/** From four marks on, each mark's own misfit says something; three only fit or do not. */
const FEWEST_TO_NAME = 4;

const mm = (length: number): string => (length * 1000).toFixed(1);

/**
 * How well each hanging picture's body marks fit the standing picture's: misfit of the picture, off-by of each mark
 * where four or more let it be told, and a box that counts or sets aside every mark.
 */
export function registrationTable(
  state: BuildState,
  answer: BenchAnswer,
  count: (picture: Picture, key: string, counted: boolean) => void,
): TemplateResult | typeof nothing {
  const hangs = hangsOf(state).filter(({ counted }) => counted);
  if (hangs.length === 0 || state.bodyMarks.length === 0) return nothing;
  const checks = hangs.map((hang) => answer.pictures.find(({ pictureId }) => pictureId === hang.id) ?? null);
  const cell = (hang: Picture, index: number, key: string) => {
    const mark = hang.marks.find(({ role }) => role === `mark ${key}`);
    if (!mark)
      return html`<td class="number quiet-text">
        <span aria-hidden="true">–</span><span class="spoken">not marked</span>
      </td>`;
    const check = checks[index];
    const at = check?.keys.indexOf(key) ?? -1;
    const named = check && check.keys.length >= FEWEST_TO_NAME && at >= 0;
    const off = named ? mm(check.distances[at] ?? 0) : mark.counted ? '' : 'out';
    const worst = check?.worst === key;
    return html`<td class="number">
      <label class="count"
        >${worst ? html`<b class="look">${off}</b>` : off}
        <input
          type="checkbox"
          .checked=${mark.counted}
          aria-label="Count mark ${key} in ${pictureName(state, hang)}"
          @change=${(event: EventOn<HTMLInputElement>) => count(hang, key, event.currentTarget.checked)}
        />
      </label>
    </td>`;
  };
  // Boxes to tick are of no use on paper where no number stands beside them.
  const unknown = checks.every((check) => check === null);
  return html`<div
    class=${unknown ? 'registration unknown' : 'registration'}
    role="group"
    aria-label="How the body marks fit"
  >
    <table>
      <caption>
        Body marks, off by mm
      </caption>
      <thead>
        <tr>
          <th scope="col">Mark</th>
          ${hangs.map((hang) => html`<th scope="col" class="number">${pictureName(state, hang)}</th>`)}
        </tr>
      </thead>
      <tbody>
        ${state.bodyMarks.map(
          ({ key }) =>
            html`<tr>
              <th scope="row" class="key">${key}</th>
              ${hangs.map((hang, index) => cell(hang, index, key))}
            </tr>`,
        )}
      </tbody>
      <tfoot>
        <tr>
          <th scope="row">Misfit</th>
          ${checks.map(
            (check) =>
              html`<td class="number">
                ${check === null ? '–' : check.misfit === null ? 'no check' : mm(check.misfit)}
              </td>`,
          )}
        </tr>
      </tfoot>
    </table>
  </div>`;
}

export const registrationTableStyles = css`
  .registration {
    margin-block-start: 1rem;
    overflow-x: auto;
  }
  .registration thead th {
    padding-inline-start: 0.3rem;
    white-space: normal;
  }
  .registration .key {
    color: var(--blue);
    font-weight: 680;
  }
  .registration th,
  .registration td {
    padding-block: 0.1rem;
    padding-inline-end: 0;
    vertical-align: middle;
  }
  .registration tfoot > tr > * {
    padding-block: 0.5rem;
  }
  .count {
    display: inline-flex;
    align-items: center;
    justify-content: flex-end;
    gap: 0.25rem;
    min-height: 2.75rem;
    min-width: 2.75rem;
    cursor: pointer;
  }
  .count input {
    width: 1.15rem;
    height: 1.15rem;
    margin: 0;
    accent-color: var(--ink);
    cursor: pointer;
  }
  .look {
    color: var(--red);
  }
  @media print {
    .count {
      min-height: 0;
    }
    .count input:checked {
      display: none;
    }
  }
`;
