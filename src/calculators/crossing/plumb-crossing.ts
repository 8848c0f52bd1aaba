import { html, LitElement, nothing, svg, type TemplateResult } from 'lit';
import { customElement, property } from 'lit/decorators.js';
import {
  angleArc,
  casedLine,
  clamp,
  coordinate as c,
  direction,
  DragHandle,
  figureStyles,
  hatchedEllipse,
  inDegrees,
  padGrid,
  point,
  polar,
  toPage,
  view,
  type Point,
} from '../../figures';
import { angleIn, COVERAGE, degrees, type Result } from '../../physics';
import { fixed, keepNumbers } from '../shared/format';
import { knob } from '../shared/knob';
import { LocalGiven } from '../shared/localGiven';
import '../shared/panel';
import { figureBox } from '../shared/figureBox';
import { projected } from '../shared/projector';
import '../shared/resultView';
import type { ResultState } from '../shared/resultView';
import { smallStyles } from '../shared/smallStyles';
import { baseStyles, buttonStyles, panelStyles } from '../shared/styles';
import '../shared/warning';
import { crossingLines, inMillimeters, type CrossingLines } from './crossingLines';

const ANGLE_FIELD = {
  label: 'Lines cross at',
  dimension: 'angle',
  limits: { least: { number: 3, unit: 'deg' }, most: { number: 90, unit: 'deg' } },
  believable: null,
  often: null,
  whenEmpty: null,
  plusMinus: null,
  next: 'Try 90°, then 30°.',
} as const;
const OFF_FIELD = {
  label: 'Line 2 is off by',
  dimension: 'length',
  limits: { least: { number: -5, unit: 'mm' }, most: { number: 5, unit: 'mm' } },
  believable: null,
  often: null,
  whenEmpty: null,
  plusMinus: null,
  next: 'Try 1 mm.',
} as const;
const SURE_FIELD = {
  label: 'Each line is good to ±',
  dimension: 'length',
  limits: { above: { number: 0, unit: 'mm' }, most: { number: 5, unit: 'mm' } },
  believable: null,
  often: null,
  whenEmpty: null,
  plusMinus: null,
  next: 'Try 1 mm.',
} as const;

const HEIGHT = 330;
/** px a millimeter: the figure is a detail, its small squares are 1 mm. */
const SCALE = 16;

/**
 * Two lines and their crossing (D3.1): close them like scissors, move one sideways, and see what becomes of the
 * crossing and of its ±.
 *
 *     <plumb-crossing address="D3.1" heading="Two lines and their crossing" angle="60"></plumb-crossing>
 *
 * A worked example: it never touches the sheet. Handles: the end of line 2 turns (arrows 1°, Page keys 10°), its
 * middle moves sideways (arrows 0.1 mm, Page keys 1 mm).
 */
@customElement('plumb-crossing')
export class Crossing extends LitElement {
  @property() address = 'D3.1';
  @property() heading = 'Two lines and their crossing';
  /** Crossing angle to begin with, degrees. */
  @property({ type: Number }) angle = 60;

  private readonly gamma = new LocalGiven(this, ANGLE_FIELD, 'deg', 60, { decimals: 0, step: 1 });
  private readonly off = new LocalGiven(this, OFF_FIELD, 'mm', 1, { decimals: 1, step: 0.1 });
  private readonly sure = new LocalGiven(this, SURE_FIELD, 'mm', 1, { decimals: 1, step: 0.1 });
  private readonly box = figureBox(this, 520);
  private readonly turn = new DragHandle(this, {
    name: () => 'Lines cross at',
    range: () => ({ min: 3, max: 90, step: 1, bigStep: 10 }),
    value: () => this.gamma.number,
    spoken: (value) => `${value} degrees`,
    valueAt: (place) => 2 * inDegrees(direction(this.center, place)),
    moved: (value) => this.gamma.set(value),
  });
  private readonly shift = new DragHandle(this, {
    name: () => 'Line 2 is off by',
    range: () => ({ min: -5, max: 5, step: 0.1, bigStep: 1 }),
    value: () => this.off.number,
    spoken: (value) => `${fixed(value, 1)} millimeters`,
    valueAt: (place) => {
      const half = angleIn(this.gamma.value, 'rad') / 2;
      const [x, y] = [place.x - this.center.x, this.center.y - place.y];
      return (-Math.sin(half) * x + Math.cos(half) * y) / SCALE;
    },
    moved: (value) => this.off.set(value),
  });

  static override styles = [baseStyles, buttonStyles, panelStyles, smallStyles, figureStyles];

  override willUpdate(): void {
    if (!this.hasUpdated && this.angle !== 60) this.gamma.set(this.angle);
  }

  override render() {
    const lines = this.lines;
    return html`<plumb-panel
      .address=${this.address}
      .heading=${this.heading}
      remark="an example, off the sheet"
      no-undo
    >
      <div class="sections small ${projected() ? 'staged' : ''}">
        <div class="figure-cell on-pad"><div class="figure-box">${this.renderFigure(lines)}</div></div>
        <div class="answer stack">${this.renderAnswer(lines)}</div>
        <div class="givens">
          <h4 class="section-title">Two lines</h4>
          ${this.gamma.template()} ${this.off.template()} ${this.sure.template()}
          <p class="note">Drag the end of line 2 to turn it, its middle to move it sideways, or type.</p>
        </div>
      </div>
    </plumb-panel>`;
  }

  private get lines(): Result<CrossingLines> {
    const gamma = this.gamma.read;
    if (!gamma.ok) return gamma;
    const off = this.off.read;
    if (!off.ok) return off;
    const sure = this.sure.read;
    if (!sure.ok) return sure;
    return crossingLines(gamma.value.value, off.value.value, sure.value.value / COVERAGE);
  }

  private renderAnswer(lines: Result<CrossingLines>): TemplateResult {
    const state = (millimeters: number): ResultState =>
      lines.ok
        ? { kind: 'current', shown: { value: fixed(millimeters, 1), plusMinus: '', unit: 'mm' } }
        : { kind: 'needs', why: lines.message, missing: [] };
    if (!lines.ok)
      return html`<plumb-result label="the crossing moves by" .state=${state(0)}></plumb-result>`;
    const { moved, worst, best } = lines.value;
    const sure = inMillimeters(this.sure.value);
    const factor = inMillimeters(worst) / sure;
    return html`<plumb-result
        label="the crossing moves by"
        .state=${state(inMillimeters(moved))}
      ></plumb-result>
      <plumb-result
        label="± of the crossing, worst direction"
        .state=${state(inMillimeters(worst))}
      ></plumb-result>
      <p class="say">
        In the best direction ${keepNumbers(`± ${fixed(inMillimeters(best), 1)} mm`)}. Along the lines it is
        ${factor < 1.05 ? 'as sharp as the lines themselves' : `${fixed(factor, 1)} times worse than one line`}.
      </p>
      ${
        this.gamma.number < 30
          ? html`<plumb-bracket kind="warning" title-text="A narrow crossing."
              >Most of the error lies along the lines. Choose hooks so that the lines cross near
              90°.</plumb-bracket
            >`
          : nothing
      }`;
  }

  private get center(): Point {
    return point(this.box.width / 2, HEIGHT / 2);
  }

  /** How far the handles stand from the crossing, px. */
  private get arm(): number {
    return clamp(this.box.width / 2 - 34, 90, 150);
  }

  private renderFigure(lines: Result<CrossingLines>): TemplateResult {
    const { width } = this.box;
    const { center, arm } = this;
    const sheet = view(center, SCALE);
    const half = angleIn(this.gamma.value, 'rad') / 2;
    const off = this.off.number * SCALE;
    const foot = polar(center, off, half + Math.PI / 2);
    const far = Math.hypot(width, HEIGHT);
    const first: [Point, Point] = [polar(center, -far, -half), polar(center, far, -half)];
    const second: [Point, Point] = [polar(foot, -far, half), polar(foot, far, half)];
    const end = polar(center, arm, half);
    // Left of the crossing, clear of the ellipse and of the handle that turns.
    const middle = polar(foot, -arm * 0.62, half);
    const label = polar(center, -arm * 0.9, -half);
    const at = lines.ok ? toPage(sheet, lines.value.crossing.x, lines.value.crossing.z) : null;
    return html`<svg
      class="figure"
      viewBox="0 0 ${width} ${HEIGHT}"
      role="group"
      aria-label="Two lines crossing at ${fixed(this.gamma.number, 0)} degrees"
    >
      ${padGrid({ x: 0, y: 0, width, height: HEIGHT }, center, SCALE, 1)}
      ${
        lines.ok && at
          ? hatchedEllipse({
              center: at,
              semiMajor: SCALE * inMillimeters(lines.value.ellipse.semiMajor),
              semiMinor: SCALE * inMillimeters(lines.value.ellipse.semiMinor),
              angle: angleIn(lines.value.ellipse.angle, 'rad'),
            })
          : nothing
      }
      ${off === 0 ? nothing : casedLine(polar(center, -far, half), polar(center, far, half), 'line-former')}
      ${casedLine(...first, 'line-chain')} ${casedLine(...second, 'line-chain')}
      ${angleArc({
        center,
        radius: 58,
        from: -half,
        to: half,
        text: `${fixed(angleIn(degrees(this.gamma.number), 'deg'), 0)}°`,
        textAt: { direction: 0, distance: 84 },
        given: true,
        cased: true,
      })}
      ${at ? svg`<circle class="pivot" cx=${c(at.x)} cy=${c(at.y)} r="5.5"></circle>` : nothing}
      <text class="label-quiet cased middle" x=${c(label.x)} y=${c(label.y - 8)}>line 1</text>
      ${this.shift.template(middle, knob(middle, half + Math.PI / 2))}
      ${this.turn.template(end, knob(end, half + Math.PI / 2))}
      <text class="label-quiet cased end" x=${c(width - 8)} y="20">1 square 1 mm</text>
    </svg>`;
  }
}

declare global {
  interface HTMLElementTagNameMap {
    'plumb-crossing': Crossing;
  }
}
