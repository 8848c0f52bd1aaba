import { html, LitElement, nothing, type TemplateResult } from 'lit';
import { customElement, property, state } from 'lit/decorators.js';
import { benchAnswer } from '../../answer/benchAnswer';
import { current, openState, ready, trial } from '../../sheet/bench';
import { asSpeech } from '../shared/format';
import { arrowIcon, chevronUpIcon } from '../shared/icons';
import { SheetController } from '../shared/sheetController';
import { baseStyles, buttonStyles } from '../shared/styles';
import { titleBlockStyles } from './titleBlockStyles';
import { titleBlockView, type BlockCell, type TitleBlockView } from './titleBlockView';

/**
 * The title block: truck or object, state, center of gravity and tip angles with their ±, and what to do next; always
 * from all readings that count, of the sheet as tried if something is being tried.
 *
 * `form`: 'strip' along the foot of a page (on a phone two values and an arrow that opens the full block upward; in
 * print a short block), or 'full' on the cover. Reads the bench; keeps nothing.
 */
@customElement('plumb-title-block')
export class TitleBlock extends LitElement {
  @property({ reflect: true }) form: 'strip' | 'full' = 'strip';
  @state() private open = false;

  private readonly sheet = new SheetController(this, () =>
    ready.value ? { sheet: current.value, state: openState.value, trial: trial.value !== null } : null,
  );

  static override styles = [baseStyles, buttonStyles, titleBlockStyles];

  override render() {
    const now = this.sheet.value;
    if (now === null) return html`<slot></slot>`;
    const answer = benchAnswer(now.state, { quick: now.trial });
    const view = titleBlockView(now.sheet, now.state, answer, now.trial);
    if (this.form === 'full') return renderFull(view);
    return html`
      ${renderStrip(view)}
      <div class="drawer" id="drawer" ?hidden=${!this.open}>${renderFull(view)}</div>
      ${this.renderShort(view)} ${renderPrinted(view)}
    `;
  }

  private renderShort({ short: [place, tip], body }: TitleBlockView): TemplateResult {
    return html`<div class="short">
      <dl>${renderCell(place, 'cell')} ${renderCell(tip, 'cell', body === 'truck' ? '°' : '')}</dl>
      <button
        class="opener"
        type="button"
        aria-expanded=${this.open}
        aria-controls="drawer"
        aria-label=${this.open ? 'Close the title block' : 'Open the title block'}
        @click=${this.toggle}
      >
        ${chevronUpIcon}
      </button>
    </div>`;
  }

  private readonly toggle = (): void => {
    this.open = !this.open;
  };
}

function renderStrip(view: TitleBlockView): TemplateResult {
  return html`<div class="strip ${view.body}">
    <div class="group-label">${view.named}</div>
    <div class="group-label thick">Center of gravity, ${view.lengthUnit}${renderApart(view.apart)}</div>
    <div class="group-label thick">Tips at, degrees of slope · ± holds 19 times in 20</div>
    <div class="group-label thick">Do next</div>
    <div class="truck">
      <div class="truck-name">${view.truck}</div>
      <div class="state-words">${renderApart(view.apart)} ${renderTrial(view)}${view.state}</div>
    </div>
    <dl>
      ${view.cg.map((cell, index) => renderCell(cell, index === 0 ? 'cell thick' : 'cell'))}
      ${view.tips.map((cell, index) => renderCell(cell, index === 0 ? 'cell thick' : 'cell'))}
    </dl>
    <a class="next thick" href=${view.next.href}><span class="words">${view.next.text}</span>${arrowIcon}</a>
    <a class="readings thick" href="#readings">
      <span class="readings-name">Readings</span>
      <span class="state-words">${view.readings}</span>
    </a>
  </div>`;
}

function renderFull(view: TitleBlockView): TemplateResult {
  return html`<div class="full ${view.body}">
    <div class="truck">
      <span class="field-label">${view.body}</span>
      <span class="truck-name">${view.truck}</span>
    </div>
    <div class="state">
      <span class="field-label">state</span>
      <span class="state-words">${renderTrial(view)}${view.state}</span>
    </div>
    <div class="group-label">Center of gravity, ${view.lengthUnit}${renderApart(view.apart)}</div>
    <dl>${view.cg.map((cell) => renderCell(cell, 'cell'))}</dl>
    <div class="group-label">Tips at, degrees of slope</div>
    <dl>${view.tips.map((cell) => renderCell(cell, 'cell tip'))}</dl>
    <a class="next" href=${view.next.href}>
      <span class="field-label">do next</span>
      <span class="words">${view.why === null ? nothing : html`<b>${view.why}</b> `}${view.next.text}</span>
      ${arrowIcon}
    </a>
    <div class="foot sign-cell">${firstAngleSign}</div>
    <a class="foot readings readings-cell" href="#readings">
      <span class="readings-name">Readings</span>
      <span class="count">${view.readings}</span>
    </a>
    <div class="foot holds-cell"><span class="field-label">± holds</span>19 times in 20</div>
  </div>`;
}

/** The short block of a printed sheet. */
function renderPrinted(view: TitleBlockView): TemplateResult {
  const values = (cells: readonly BlockCell[], sign = ''): TemplateResult[] =>
    cells.map(({ shown }) =>
      shown
        ? html`<span
            ><span class="value">${shown.value}${sign}</span>
            <span class="plus-minus">± ${shown.plusMinus}</span></span
          >`
        : html`<span class="value none">–</span>`,
    );
  return html`<div class="printed" aria-hidden="true">
    <div>
      <span class="field-label">${view.named.toLowerCase()}</span>
      <div class="truck-name">${view.truck}</div>
      <div class="state-words">${view.state}</div>
    </div>
    <div>
      <div class="field-label">CG, ${view.lengthUnit}: ${view.printed.cg}${renderApart(view.apart)}</div>
      <div class="row">${values(view.cg)}</div>
      <div class="field-label">tips at: ${view.printed.tips}</div>
      <div class="row">${values(view.tips, '°')}</div>
    </div>
    <div class="holds field-label">± holds<br />19 times<br />in 20</div>
  </div>`;
}

const renderApart = (apart: string | null | undefined): TemplateResult | typeof nothing =>
  apart ? html` <strong class="apart">${apart}</strong>` : nothing;

function renderCell(cell: BlockCell, classes: string, sign = ''): TemplateResult {
  const { label, shown, remark } = cell;
  return html`<div class=${classes}>
    <dt>${label}</dt>
    <dd>
      ${
        shown
          ? html`<span class="spoken">${asSpeech(shown)}</span>
              <span class="value" aria-hidden="true">${shown.value}${sign}</span>
              <span class="plus-minus" aria-hidden="true">± ${shown.plusMinus}${sign}</span>`
          : html`<span class="spoken">not known yet</span
              ><span class="value none" aria-hidden="true">–</span>`
      }
      ${remark ? html`<span class="cell-remark">${remark}</span>` : nothing} ${renderApart(cell.apart)}
    </dd>
  </div>`;
}

const renderTrial = ({ trial: isTrial }: TitleBlockView): TemplateResult | typeof nothing =>
  isTrial ? html`<span class="trial">trial, not kept</span> · ` : nothing;

/** Views are placed by first-angle projection: the frustum stands left of its end view. */
const firstAngleSign = html`<svg
  class="projection"
  viewBox="0 0 64 30"
  role="img"
  aria-label="First-angle projection"
>
  <path d="M6 9 28 4v22L6 21z"></path>
  <circle cx="48" cy="15" r="11"></circle>
  <circle cx="48" cy="15" r="6"></circle>
  <path class="thin" d="M2 15h10m2 0h2m2 0h14m4-0h2m2 0h22M48 1v28"></path>
</svg>`;

declare global {
  interface HTMLElementTagNameMap {
    'plumb-title-block': TitleBlock;
  }
}
