import { html, LitElement, nothing, svg, type SVGTemplateResult, type TemplateResult } from 'lit';
import { customElement, property } from 'lit/decorators.js';
import {
  casedLine,
  centerOfGravitySign,
  clamp,
  coordinate as c,
  detailCircle,
  detailFactor,
  detailPlace,
  detailSquare,
  DragHandle,
  figureStyles,
  formerCenterOfGravity,
  groundLine,
  hookSign,
  padGrid,
  placement,
  point,
  polar,
  textWidth,
  toPage,
  truckFromTheSide,
  truckTones,
  type Point,
  type View,
} from '../../figures';
import { lengthIn, meters, millimeters, type PlaneLine, type Result } from '../../physics';
import { EXAMPLE_CG, EXAMPLE_HOOKS, EXAMPLE_SIZES } from '../shared/exampleTruck';
import { fixed, keepNumbers, showLength } from '../shared/format';
import { knob } from '../shared/knob';
import { LocalGiven } from '../shared/localGiven';
import '../shared/panel';
import { figureBox } from '../shared/figureBox';
import { projected } from '../shared/projector';
import '../shared/resultView';
import { sideScene } from '../shared/sideScene';
import { smallStyles } from '../shared/smallStyles';
import { baseStyles, buttonStyles, panelStyles, tableStyles } from '../shared/styles';
import '../shared/warning';
import { judgeThreeLines, threeLines, type ThreeLines, type ThreeOffsets } from './threeLines';

/** Probability below which three lines do not agree: one set of readings in twenty as good as stated. */
const ONE_IN_TWENTY = 0.05;
const LARGEST_OFF = 15;

const offField = (index: number) =>
  ({
    label: `Line ${index + 1} off by`,
    dimension: 'length',
    limits: { least: { number: -LARGEST_OFF, unit: 'mm' }, most: { number: LARGEST_OFF, unit: 'mm' } },
    believable: null,
    often: null,
    whenEmpty: null,
    plusMinus: null,
    next: 'Try 6 mm for the third line.',
  }) as const;
const SURE_FIELD = {
  label: 'Each line is good to ±',
  dimension: 'length',
  limits: { least: { number: 0.2, unit: 'mm' }, most: { number: 20, unit: 'mm' } },
  believable: null,
  often: null,
  whenEmpty: null,
  plusMinus: null,
  next: 'Try 3 mm.',
} as const;

/**
 * A third line checks the other two (D3.2): three lines of hang on the demo truck, each movable sideways; the
 * triangle they make, the point nearest to all, and whether they agree.
 *
 *     <plumb-triangle address="D3.2" heading="A third line checks the other two"></plumb-triangle>
 *
 * A worked example: it never touches the sheet. A knob at each hook moves its line: arrows 0.5 mm, Page keys 3 mm.
 */
@customElement('plumb-triangle')
export class Triangle extends LitElement {
  @property() address = 'D3.2';
  @property() heading = 'A third line checks the other two';

  private readonly offs = [0, 0, 6].map(
    (start, index) => new LocalGiven(this, offField(index), 'mm', start, { decimals: 1, step: 0.5 }),
  );
  private readonly sure = new LocalGiven(this, SURE_FIELD, 'mm', 3, { decimals: 1, step: 0.5 });
  private readonly box = figureBox(this, 560);
  private readonly handles = this.offs.map(
    (off, index) =>
      new DragHandle(this, {
        name: () => `Line ${index + 1} off by`,
        range: () => ({ min: -LARGEST_OFF, max: LARGEST_OFF, step: 0.5, bigStep: 3 }),
        value: () => off.number,
        spoken: (value) => `${fixed(value, 1)} millimeters`,
        valueAt: (place) => this.offsetAt(index, place),
        moved: (value) => off.set(value),
      }),
  );

  static override styles = [
    baseStyles,
    buttonStyles,
    panelStyles,
    tableStyles,
    smallStyles,
    figureStyles,
    truckTones,
  ];

  override render() {
    const judged = this.judged;
    return html`<plumb-panel
      .address=${this.address}
      .heading=${this.heading}
      remark="an example, off the sheet"
      no-undo
    >
      <div class="sections small ${projected() ? 'staged' : ''}">
        <div class="figure-cell on-pad"><div class="figure-box">${this.renderFigure(judged)}</div></div>
        <div class="answer stack">${this.renderAnswer(judged)}</div>
        <div class="givens">
          <h4 class="section-title">Three lines <span class="quiet-text">off sideways</span></h4>
          ${this.offs.map((off) => off.template())} ${this.sure.template()}
          <div class="button-row screen-only">
            <button class="quiet" type="button" @click=${() => this.setAll(0)}>All true</button>
            <button class="quiet" type="button" @click=${() => this.setAll(6)}>Third off by 6 mm</button>
          </div>
        </div>
      </div>
    </plumb-panel>`;
  }

  private setAll(third: number): void {
    this.offs.forEach((off, index) => off.set(index === 2 ? third : 0));
  }

  private get offsets(): ThreeOffsets {
    const [a, b, third] = this.offs.map(({ value }) => value);
    return [a ?? meters(0), b ?? meters(0), third ?? meters(0)];
  }

  private get judged(): Result<ThreeLines> {
    for (const given of [...this.offs, this.sure]) if (!given.read.ok) return given.read;
    return judgeThreeLines(this.offsets, this.sure.value);
  }

  private renderAnswer(judged: Result<ThreeLines>): TemplateResult {
    if (!judged.ok) {
      return html`<plumb-result
        label="the best point moves by"
        .state=${{ kind: 'needs', why: judged.message, missing: [] }}
      ></plumb-result>`;
    }
    const { triangle, meeting, moved } = judged.value;
    const probability = meeting.probability ?? 1;
    const percent = 100 * probability;
    const chance = percent < 0.1 ? 'less than 0.1 %' : `${fixed(percent, percent < 10 ? 1 : 0)} %`;
    return html`<plumb-result
        label="the best point moves by"
        .state=${{ kind: 'current', shown: { ...showLength({ value: moved, u: 0 }), plusMinus: '' } }}
      ></plumb-result>
      <table>
        <tbody>
          <tr>
            <th scope="row">longest side of the triangle</th>
            <td class="number">${keepNumbers(`${fixed(lengthIn(triangle.longestSide, 'mm'), 1)} mm`)}</td>
          </tr>
          <tr>
            <th scope="row">chi-squared, one degree of freedom</th>
            <td class="number">${fixed(meeting.chiSquared, 1)}</td>
          </tr>
          <tr>
            <th scope="row">chance of so much or more</th>
            <td class="number">${chance}</td>
          </tr>
        </tbody>
      </table>
      ${
        probability < ONE_IN_TWENTY
          ? html`<plumb-bracket kind="warning" title-text="The three lines do not agree."
              >Of trucks measured as well as stated, fewer than one in twenty does this. Which line is off
              they cannot say: each pair blames the third.</plumb-bracket
            >`
          : html`<plumb-bracket kind="remark" title-text="The three lines agree."
              >So they would for most trucks measured as well as stated. An error that all three share would
              not show.</plumb-bracket
            >`
      }`;
  }

  private get scene(): { readonly view: View; readonly height: number; readonly groundY: number } {
    const { width } = this.box;
    // On a phone the detail is as high as the truck's cab: the strings need room below it.
    return sideScene(EXAMPLE_SIZES, width, 74 + width * 0.07 + (width < 520 ? 64 : 0));
  }

  /** Page direction of a line's string, up and out of the truck. */
  private stringDirection(line: PlaneLine): number {
    return line.angle + Math.PI;
  }

  /** Where the knob of a line stands: on its string, over the hook. */
  private knobPlace(line: PlaneLine): Point {
    return polar(toPage(this.scene.view, line.through.x, line.through.z), 34, this.stringDirection(line));
  }

  private offsetAt(index: number, place: Point): number | null {
    const lines = threeLines([meters(0), meters(0), meters(0)]);
    const line = lines.ok ? lines.value[index] : undefined;
    if (!line) return null;
    const zero = this.knobPlace(line);
    const [dx, dz] = [place.x - zero.x, zero.y - place.y];
    return (-Math.sin(line.angle) * dx + Math.cos(line.angle) * dz) / this.scene.view.scale;
  }

  private renderFigure(judged: Result<ThreeLines>): TemplateResult {
    const { width } = this.box;
    const { view, height, groundY } = this.scene;
    const moved = threeLines(this.offsets);
    const lines = moved.ok ? moved.value : [];
    const half = millimeters(lengthIn(this.sure.value, 'mm'));
    const best = judged.ok ? judged.value.meeting : null;
    const at = best ?? EXAMPLE_CG;
    const bestOnPage = toPage(view, at.x, at.z);
    const radius = clamp(0.13 * width, 46, 92);
    const factor = Math.min(8, detailFactor(best?.ellipse.semiMajor ?? millimeters(4), view.scale, radius));
    const detail = point(radius + 10, radius + 10);
    return html`<svg
      class="figure"
      viewBox="0 0 ${width} ${height}"
      role="group"
      aria-label="Bramble from its right side with three lines of hang"
    >
      ${padGrid({ x: 0, y: 0, width, height }, view.origin, view.scale)}
      <g transform=${placement(view)}>
        ${truckFromTheSide(EXAMPLE_SIZES, { faded: true, small: width < 480 })}
      </g>
      ${groundLine(point(0, groundY), point(width, groundY))}
      ${lines.map((line, index) => this.renderLine(line, index))}
      ${formerCenterOfGravity(toPage(view, EXAMPLE_CG.x, EXAMPLE_CG.z))}
      ${best ? centerOfGravitySign(bestOnPage, 9) : nothing}
      ${
        best
          ? svg`${detailPlace(bestOnPage, 'X', 20)}
          ${detailCircle({
            center: detail,
            radius,
            letter: 'X',
            scale: view.scale,
            factor,
            at: best,
            lines: lines.map((line) => ({ ...line, halfBand: half })),
            ellipse: best.ellipse,
          })}`
          : nothing
      }
      <text class="label-quiet cased start" x="8" y=${c(height - 8)}>
        1 square 10 mm; in the detail ${detailSquare(view.scale * factor)} mm
      </text>
      ${lines.map((line, index) => this.handles[index]?.template(this.knobPlace(line), knob(this.knobPlace(line), line.angle + Math.PI / 2)))}
    </svg>`;
  }

  private renderLine(line: PlaneLine, index: number): SVGTemplateResult {
    const { view } = this.scene;
    const hook = toPage(view, line.through.x, line.through.z);
    const through = polar(hook, view.scale * 290, line.angle);
    const out = this.stringDirection(line);
    const name = EXAMPLE_HOOKS[index]?.name ?? '';
    const text = `${index + 1} ${name}`;
    const knobAt = this.knobPlace(line);
    const half = textWidth(text) / 2 + 6;
    const label = point(clamp(knobAt.x, half, this.box.width - half), knobAt.y - 22);
    return svg`${casedLine(hook, through, 'line-chain')}
      ${casedLine(hook, polar(hook, 50, out), 'line-string')}
      ${hookSign(hook)}
      <text class="label-given cased middle" aria-hidden="true" x=${c(label.x)} y=${c(label.y)}>${text}</text>`;
  }
}

declare global {
  interface HTMLElementTagNameMap {
    'plumb-triangle': Triangle;
  }
}
