import { css, html, LitElement, nothing, svg, type SVGTemplateResult, type TemplateResult } from 'lit';
import { customElement, property } from 'lit/decorators.js';
import {
  angleArc,
  casedLine,
  centerOfGravitySign,
  coordinate as c,
  dimensionLine,
  direction,
  DragHandle,
  drawableSizes,
  DRAWN_SIZES,
  drawnHeight,
  figureStyles,
  formerCenterOfGravity,
  groundLine,
  padGrid,
  placement,
  plumbLine,
  point,
  toPage,
  truckFromBehind,
  truckTones,
  view,
  type Point,
  type View,
} from '../../figures';
import { angleIn, lengthIn, meters, millimeters, type Result } from '../../physics';
import { fixed } from '../shared/format';
import { knob } from '../shared/knob';
import { LocalGiven } from '../shared/localGiven';
import '../shared/panel';
import { figureBox } from '../shared/figureBox';
import { projected } from '../shared/projector';
import '../shared/resultView';
import type { ResultState } from '../shared/resultView';
import { smallStyles } from '../shared/smallStyles';
import { baseStyles, buttonStyles, panelStyles } from '../shared/styles';
import { sideTips, type SideTips } from './varyOne';

/** The truck of the chapter's table. */
const START = { height: 92, halfTrack: 93, left: 0 } as const;

const field = (label: string, least: number, most: number, next: string) =>
  ({
    label,
    dimension: 'length',
    limits: { least: { number: least, unit: 'mm' }, most: { number: most, unit: 'mm' } },
    believable: null,
    often: null,
    whenEmpty: null,
    plusMinus: null,
    next,
  }) as const;

/**
 * One change at a time: height, half track and side place of the center of gravity, and what each does to both side
 * tip angles.
 *
 *     <plumb-vary-one address="D5" heading="One change at a time"></plumb-vary-one>
 *
 * An example: it never touches the sheet. Drag the center of gravity up and down or sideways by its two knobs, the
 * right tire by its own; arrows 1 mm, Page keys 10 mm.
 */
@customElement('plumb-vary-one')
export class VaryOne extends LitElement {
  @property() address = 'D5';
  @property() heading = 'One change at a time';

  private readonly height = new LocalGiven(
    this,
    field('CG above ground', 10, 180, 'Try 46 mm, half as high.'),
    'mm',
    START.height,
    { decimals: 0, step: 1 },
  );
  private readonly halfTrack = new LocalGiven(
    this,
    field('Half the track', 50, 140, 'Try 98 mm, 5 mm wider on each side.'),
    'mm',
    START.halfTrack,
    { decimals: 0, step: 1 },
  );
  private readonly left = new LocalGiven(
    this,
    field('CG left of center', -60, 60, 'Try 3 mm; to the right is negative.'),
    'mm',
    START.left,
    { decimals: 0, step: 1 },
  );
  private readonly box = figureBox(this, 520);
  private readonly upHandle = this.handleFor('CG above ground', this.height, 10, 180, (place) => {
    const { scene } = this;
    return (scene.view.origin.y - place.y) / scene.view.scale;
  });
  private readonly sideHandle = this.handleFor(
    'CG left of center',
    this.left,
    -60,
    60,
    (place) => (this.scene.view.origin.x - place.x) / this.scene.view.scale,
  );
  private readonly trackHandle = this.handleFor(
    'Half the track',
    this.halfTrack,
    50,
    140,
    (place) => (place.x - this.scene.view.origin.x) / this.scene.view.scale,
  );

  static override styles = [
    baseStyles,
    buttonStyles,
    panelStyles,
    smallStyles,
    figureStyles,
    truckTones,
    css`
      .changed {
        margin-block-start: 0.25rem;
        font-size: 0.9375rem;
        color: var(--ink-2);
      }
    `,
  ];

  override render() {
    const tips = this.tips;
    return html`<plumb-panel
      .address=${this.address}
      .heading=${this.heading}
      remark="an example, off the sheet"
      no-undo
    >
      <div class="sections small ${projected() ? 'staged' : ''}">
        <div class="figure-cell on-pad"><div class="figure-box">${this.renderFigure(tips)}</div></div>
        <div class="answer stack">${this.renderAnswer(tips)}</div>
        <div class="givens">
          <h4 class="section-title">Change one, leave the rest</h4>
          ${this.height.template()} ${this.halfTrack.template()} ${this.left.template()}
          <div class="button-row screen-only">
            <button class="quiet" type="button" @click=${this.reset}>Back to the start</button>
          </div>
        </div>
      </div>
    </plumb-panel>`;
  }

  private readonly reset = (): void => {
    this.height.set(START.height);
    this.halfTrack.set(START.halfTrack);
    this.left.set(START.left);
  };

  private get tips(): Result<SideTips> {
    for (const given of [this.height, this.halfTrack, this.left]) if (!given.read.ok) return given.read;
    return sideTips({ height: this.height.value, halfTrack: this.halfTrack.value, left: this.left.value });
  }

  private renderAnswer(tips: Result<SideTips>): TemplateResult {
    if (!tips.ok) {
      const state: ResultState =
        tips.reason === 'cg-outside'
          ? { kind: 'cannot', title: 'It does not stand.', text: tips.message }
          : { kind: 'needs', why: tips.message, missing: [] };
      return html`<plumb-result label="side tip" .state=${state}></plumb-result>`;
    }
    const start = sideTips({
      height: millimeters(START.height),
      halfTrack: millimeters(START.halfTrack),
      left: millimeters(START.left),
    });
    const side = (name: 'left' | 'right'): TemplateResult => {
      const now = angleIn(tips.value[name], 'deg');
      const change = start.ok ? now - angleIn(start.value[name], 'deg') : 0;
      const sign = change > 0 ? '+' : '';
      const size = fixed(change, 1);
      return html`<plumb-result
          .label=${`${name} side down, tips at`}
          .state=${{ kind: 'current', shown: { value: fixed(now, 1), plusMinus: '', unit: '°' } } satisfies ResultState}
        ></plumb-result>
        <p class="changed">
          ${Number(size.replace('−', '-')) === 0 ? 'as at the start' : `changed by ${sign}${size}°`}
        </p>`;
    };
    return html`${side('left')} ${side('right')}`;
  }

  // Figure -----------------------------------------------------------------------------------------------

  private handleFor(
    name: string,
    given: LocalGiven<'length'>,
    min: number,
    max: number,
    valueAt: (place: Point) => number,
  ): DragHandle {
    return new DragHandle(this, {
      name: () => name,
      range: () => ({ min, max, step: 1, bigStep: 10 }),
      value: () => Math.round(given.number),
      spoken: (value) => `${fixed(value, 0)} millimeters`,
      valueAt,
      moved: (value) => given.set(value),
    });
  }

  private get scene(): { readonly view: View; readonly height: number; readonly groundY: number } {
    const { width } = this.box;
    const scale = Math.min(1.35, (width - 40) / 340);
    const groundY = Math.round(scale * lengthIn(drawnHeight(DRAWN_SIZES), 'mm') + 30);
    return { view: view(point(width / 2, groundY), scale), height: groundY + 66, groundY };
  }

  private renderFigure(tips: Result<SideTips>): TemplateResult {
    const { width } = this.box;
    const { view: sheet, height, groundY } = this.scene;
    const half = this.halfTrack.value;
    const track = meters(2 * half);
    const sizes = drawableSizes({ ...DRAWN_SIZES, frontTrack: track, rearTrack: track });
    const cg = toPage(sheet, meters(-this.left.value), this.height.value);
    const leftFoot = toPage(sheet, meters(-half), meters(0));
    const rightFoot = toPage(sheet, half, meters(0));
    const start = toPage(sheet, meters(0), millimeters(START.height));
    const foot = point(cg.x, groundY);
    const up = point(cg.x, cg.y - 40);
    const aside = point(cg.x + 44, cg.y);
    const tire = point(rightFoot.x, groundY + 26);
    return html`<svg
      class="figure"
      viewBox="0 0 ${width} ${height}"
      role="group"
      aria-label="A truck from behind with its center of gravity and the lines to its tire contacts"
    >
      ${padGrid({ x: 0, y: 0, width, height }, sheet.origin, sheet.scale)}
      <g transform=${placement(sheet)}>${truckFromBehind(sizes, { faded: true, load: false })}</g>
      ${groundLine(point(0, groundY), point(width, groundY), false)}
      ${plumbLine(point(cg.x, Math.max(8, cg.y - 90)), point(cg.x, groundY + 10))}
      ${casedLine(cg, leftFoot, '')} ${casedLine(cg, rightFoot, '')}
      ${tips.ok ? this.renderAngles(tips.value, cg, leftFoot, rightFoot) : nothing}
      ${
        tips.ok
          ? svg`${dimensionLine({ from: point(leftFoot.x, groundY + 48), to: point(foot.x, groundY + 48), text: fixed(lengthIn(tips.value.leftDistance, 'mm'), 0), features: [leftFoot, foot], cased: true })}
            ${dimensionLine({ from: point(foot.x, groundY + 48), to: point(rightFoot.x, groundY + 48), text: fixed(lengthIn(tips.value.rightDistance, 'mm'), 0), features: [null, rightFoot], cased: true })}`
          : nothing
      }
      ${Math.hypot(start.x - cg.x, start.y - cg.y) > 3 ? formerCenterOfGravity(start, 7) : nothing}
      ${centerOfGravitySign(cg, 9)}
      <text class="label-quiet cased start" x="8" y="20">1 square 10 mm</text>
      ${this.upHandle.template(up, knob(up, Math.PI / 2, 11))}
      ${this.sideHandle.template(aside, knob(aside, 0, 11))}
      ${this.trackHandle.template(tire, knob(tire, 0, 11))}
    </svg>`;
  }

  private renderAngles(tips: SideTips, cg: Point, leftFoot: Point, rightFoot: Point): SVGTemplateResult {
    const radius = Math.max(20, Math.min(58, 0.62 * (leftFoot.y - cg.y)));
    const turn = (foot: Point): number => {
      const way = direction(cg, foot);
      return way < 0 ? way + 2 * Math.PI : way;
    };
    const text = (angle: number): string => `${fixed(angle, 1)}°`;
    const y = cg.y + radius + 22;
    return svg`${angleArc({ center: cg, radius, from: turn(leftFoot), to: turn(rightFoot), cased: true })}
      <text class="label-angle cased end" x=${c(cg.x - 8)} y=${c(Math.min(y, leftFoot.y - 6))}>${text(angleIn(tips.left, 'deg'))}</text>
      <text class="label-angle cased start" x=${c(cg.x + 8)} y=${c(Math.min(y, leftFoot.y - 6))}>${text(angleIn(tips.right, 'deg'))}</text>`;
  }
}

declare global {
  interface HTMLElementTagNameMap {
    'plumb-vary-one': VaryOne;
  }
}
