import { html, nothing, type TemplateResult } from 'lit';
import type { MonteCarloAnswer, QuantityByDraws } from '../../answer/monteCarlo/protocol';
import '../shared/resultView';
import type { AnswerParts } from './answerParts';
import { CARED_WORDS, caredText, sizeText } from './caredWords';
import { DRAWS } from './monteCarloRun';

const count = (number: number): string => number.toLocaleString('en-US');

/** Whether first order may stand, by drawing all readings anew many times and solving each: JCGM 101. */
export function monteCarloPart(parts: AnswerParts): TemplateResult {
  const { monteCarlo, answer } = parts;
  const { state } = monteCarlo;
  const current = monteCarlo.isOf(answer.bench);
  const start = () => void monteCarlo.start(answer.bench);
  const button = (words: string) =>
    html`<button class="button" type="button" @click=${start}>${words}</button>`;
  return html`<section class="monte-carlo" aria-labelledby="monte-carlo-title">
    <h4 id="monte-carlo-title">Monte Carlo check of the ±</h4>
    <p class="said">
      The ± takes every effect as straight near the answer. This draws all readings anew, each by its own law,
      ${count(DRAWS)} times, solves every draw in full, and compares.
    </p>
    ${
      state.kind === 'running'
        ? html`<plumb-result
            label="Monte Carlo"
            .state=${{ kind: 'computing', done: state.drawn, total: DRAWS, unit: 'draws' } as const}
            @result-stop=${monteCarlo.stop}
          ></plumb-result>`
        : state.kind === 'done'
          ? html`${current ? results(parts, state.answer) : notCurrent()}
            ${current ? nothing : button('Draw again')}`
          : html`${
              state.kind === 'stopped'
                ? html`<p class="said"><b>Stopped.</b> What was drawn is dropped.</p>`
                : state.kind === 'failed'
                  ? html`<plumb-bracket kind="warning" title-text="No draws."
                      >${state.message}</plumb-bracket
                    >`
                  : nothing
            }
            ${button(`Draw ${count(DRAWS)} times`)}`
    }
  </section>`;
}

const notCurrent = (): TemplateResult =>
  html`<p class="said">
    <b>Not current.</b> The readings have changed since these draws; they are dropped.
  </p>`;

function results(parts: AnswerParts, { drawn, failed, quantities }: MonteCarloAnswer): TemplateResult {
  return html`<div
      class="scrolled"
      tabindex="0"
      role="region"
      aria-label="First order and Monte Carlo, a table"
    >
      <table>
        <caption>
          ${count(drawn)}
          draws${failed > 0 ? `, of them ${count(failed)} without a solution and left out` : ''}
        </caption>
        <thead>
          <tr>
            <th scope="col">Quantity</th>
            <th scope="col" class="number">First order</th>
            <th scope="col" class="number">By draws, 19 in 20</th>
            <th scope="col">May first order stand?</th>
          </tr>
        </thead>
        <tbody>
          ${quantities.map((each) => row(parts, each))}
        </tbody>
      </table>
    </div>
    <p class="note">
      It may where both ends of the two intervals are within half a unit of the first digit of u (JCGM 101,
      clause 8). Where it may not, the interval of the draws stands in place of the ± in this panel.
    </p>`;
}

const VERDICTS: Readonly<Record<QuantityByDraws['validation']['verdict'], string>> = {
  validated: 'yes',
  'not validated': 'no: the draws are shown',
  'more draws needed': 'more draws are needed to tell',
};

function row({ unit }: AnswerParts, draws: QuantityByDraws): TemplateResult {
  const { quantity, validation } = draws;
  const { low, high } = validation.monteCarlo.symmetric;
  return html`<tr>
    <th scope="row">${CARED_WORDS[quantity].name}</th>
    <td class="number">${caredText(quantity, draws, unit)}</td>
    <td class="number">${sizeText(quantity, low, unit)} to ${sizeText(quantity, high, unit)}</td>
    <td>${VERDICTS[validation.verdict]}</td>
  </tr>`;
}
