import { html, LitElement, nothing, svg, type SVGTemplateResult, type TemplateResult } from 'lit';
import { customElement, property, state } from 'lit/decorators.js';
import {
  casedLine,
  centerOfGravitySign,
  clamp,
  coordinate as c,
  detailCircle,
  detailPlace,
  detailSquare,
  dimensionLine,
  DragHandle,
  figureStyles,
  formerCenterOfGravity,
  groundLine,
  hookSign,
  padGrid,
  pixels,
  placement,
  point,
  polar,
  toPage,
  truckFromTheSide,
  truckTones,
  type Point,
  type View,
} from '../../figures';
import { lengthIn, massIn, meters, radians, type Length, type Result } from '../../physics';
import {
  EXAMPLE_CG,
  EXAMPLE_FRONT_AXLE,
  EXAMPLE_HOOKS,
  EXAMPLE_MASS,
  EXAMPLE_REAR_AXLE,
  EXAMPLE_SIZES,
} from '../shared/exampleTruck';
import type { EventOn } from '../shared/events';
import { fixed } from '../shared/format';
import {
  formula,
  fraction,
  givenNumber,
  letter,
  number,
  resultNumber,
  row,
  sign,
  text,
  thinSpace,
  workingSteps,
  workingStyles,
} from '../shared/formula';
import { chevronDownIcon } from '../shared/icons';
import { knob } from '../shared/knob';
import { LocalGiven } from '../shared/localGiven';
import '../shared/panel';
import { figureBox } from '../shared/figureBox';
import { projected } from '../shared/projector';
import '../shared/resultView';
import type { ResultState } from '../shared/resultView';
import { sideScene } from '../shared/sideScene';
import { smallStyles } from '../shared/smallStyles';
import { baseStyles, buttonStyles, panelStyles } from '../shared/styles';
import '../shared/warning';
import { droopedHang, type DroopedHang } from './droopedHang';

const MOST_SAG = 30;

const sagField = (which: string) =>
  ({
    label: `${which} axle sags`,
    dimension: 'length',
    limits: { least: { number: 0, unit: 'mm' }, most: { number: MOST_SAG, unit: 'mm' } },
    believable: null,
    often: null,
    whenEmpty: null,
    plusMinus: null,
    next: 'Axles of small trail trucks sag 0 to 25 mm.',
  }) as const;
const axleField = (which: string) =>
  ({
    label: `${which} axle, mass`,
    dimension: 'mass',
    limits: { above: { number: 0, unit: 'g' }, most: { number: 1400, unit: 'g' } },
    believable: null,
    often: null,
    whenEmpty: null,
    plusMinus: null,
    next: 'Axle, wheels, tires and half the links, often 400 to 800 g.',
  }) as const;

/**
 * What the axles do to the line (D3.3): let the axles sag and see where the string's line goes, and where the
 * corrected one stays.
 *
 *     <plumb-droop address="D3.3" heading="What the axles do to the line"></plumb-droop>
 *
 * A worked example on the demo truck: it never touches the sheet. A knob at each hub pulls its axle down: arrows
 * 1 mm, Page keys 5 mm.
 */
@customElement('plumb-droop')
export class DroopCalculator extends LitElement {
  @property() address = 'D3.3';
  @property() heading = 'What the axles do to the line';
  @state() private hookIndex = 0;

  private readonly frontSag = new LocalGiven(this, sagField('Front'), 'mm', 14, { decimals: 0, step: 1 });
  private readonly rearSag = new LocalGiven(this, sagField('Rear'), 'mm', 17, { decimals: 0, step: 1 });
  private readonly frontMass = new LocalGiven(
    this,
    axleField('Front'),
    'g',
    massIn(EXAMPLE_FRONT_AXLE, 'g'),
    {
      decimals: 0,
      step: 10,
    },
  );
  private readonly rearMass = new LocalGiven(this, axleField('Rear'), 'g', massIn(EXAMPLE_REAR_AXLE, 'g'), {
    decimals: 0,
    step: 10,
  });
  private readonly box = figureBox(this, 560);
  private readonly frontHandle = this.sagHandle('Front axle sags', this.frontSag, () => this.hub('front'));
  private readonly rearHandle = this.sagHandle('Rear axle sags', this.rearSag, () => this.hub('rear'));

  static override styles = [
    baseStyles,
    buttonStyles,
    panelStyles,
    smallStyles,
    figureStyles,
    truckTones,
    workingStyles,
  ];

  override render() {
    const hang = this.hang;
    return html`<plumb-panel
      .address=${this.address}
      .heading=${this.heading}
      remark="an example, off the sheet"
      no-undo
    >
      <div class="sections small ${projected() ? 'staged' : ''}">
        <div class="figure-cell on-pad"><div class="figure-box">${this.renderFigure(hang)}</div></div>
        <div class="answer stack">${this.renderAnswer(hang)}</div>
        <div class="givens">
          <h4 class="section-title">The hang</h4>
          <fieldset>
            <legend class="spoken">Hung by</legend>
            <div class="switch">
              ${EXAMPLE_HOOKS.map(
                ({ name }, index) =>
                  html`<label
                    ><input
                      type="radio"
                      name="hook"
                      .value=${String(index)}
                      .checked=${index === this.hookIndex}
                      @change=${this.chooseHook}
                    /><span>${name}</span></label
                  >`,
              )}
            </div>
          </fieldset>
          ${this.frontSag.template()} ${this.rearSag.template()} ${this.frontMass.template()}
          ${this.rearMass.template()}
          <p class="note">The whole truck weighs 2,938&nbsp;g. Drag a hub down, or type.</p>
        </div>
        ${hang.ok ? this.renderWorking(hang.value) : nothing}
      </div>
    </plumb-panel>`;
  }

  private readonly chooseHook = (event: EventOn<HTMLInputElement>): void => {
    this.hookIndex = Number(event.currentTarget.value);
  };

  private get hang(): Result<DroopedHang> {
    for (const given of [this.frontSag, this.rearSag, this.frontMass, this.rearMass])
      if (!given.read.ok) return given.read;
    return droopedHang(
      EXAMPLE_HOOKS[this.hookIndex]?.at ?? EXAMPLE_HOOKS[0].at,
      EXAMPLE_CG,
      { mass: this.frontMass.value, sag: this.frontSag.value },
      { mass: this.rearMass.value, sag: this.rearSag.value },
      EXAMPLE_MASS,
    );
  }

  private renderAnswer(hang: Result<DroopedHang>): TemplateResult {
    if (!hang.ok)
      return html`<plumb-result
        label="the line is off by"
        .state=${{ kind: 'needs', why: hang.message, missing: [] } satisfies ResultState}
      ></plumb-result>`;
    const { off, lower } = hang.value;
    const shown = (size: Length): ResultState => ({
      kind: 'current',
      shown: { value: fixed(Math.abs(lengthIn(size, 'mm')), 1), plusMinus: '', unit: 'mm' },
    });
    return html`<plumb-result label="the line is off by, uncorrected" .state=${shown(off)}></plumb-result>
      <plumb-result label="the hanging truck’s CG lies lower by" .state=${shown(lower)}></plumb-result>`;
  }

  private renderWorking({ lower }: DroopedHang): TemplateResult {
    const grams = (given: LocalGiven<'mass'>): string => fixed(given.number, 0);
    const millimeters = (given: LocalGiven<'length'>): string => fixed(lengthIn(given.value, 'mm'), 0);
    return html`<div class="working">
      <details open>
        <summary>The working ${chevronDownIcon}</summary>
        ${workingSteps([
          {
            sentence: 'Each axle lowers the center of gravity by its share of its own sag.',
            numbers: formula(
              letter('s'),
              sign('='),
              fraction(
                row(
                  givenNumber(grams(this.frontMass)),
                  sign('×'),
                  givenNumber(millimeters(this.frontSag)),
                  sign('+'),
                  givenNumber(grams(this.rearMass)),
                  sign('×'),
                  givenNumber(millimeters(this.rearSag)),
                ),
                number('2938'),
              ),
            ),
            result: formula(
              letter('s'),
              sign('='),
              resultNumber(fixed(lengthIn(lower, 'mm'), 1)),
              thinSpace,
              text('mm'),
            ),
            after: 'Only the part square to the string moves the line.',
          },
        ])}
      </details>
    </div>`;
  }

  // Figure -----------------------------------------------------------------------------------------------

  private get scene(): { readonly view: View; readonly height: number; readonly groundY: number } {
    return sideScene(EXAMPLE_SIZES, this.box.width, 76 + this.box.width * 0.04, 46);
  }

  /** Page place of a hub at ride height. */
  private hub(axle: 'front' | 'rear'): Point {
    const { view } = this.scene;
    return axle === 'front'
      ? toPage(view, EXAMPLE_SIZES.wheelbase, EXAMPLE_SIZES.frontTireRadius)
      : toPage(view, meters(0), EXAMPLE_SIZES.rearTireRadius);
  }

  private sagHandle(name: string, sag: LocalGiven<'length'>, hub: () => Point): DragHandle {
    return new DragHandle(this, {
      name: () => name,
      range: () => ({ min: 0, max: MOST_SAG, step: 1, bigStep: 5 }),
      value: () => Math.round(sag.number),
      spoken: (value) => `${value} millimeters`,
      valueAt: (place) => (place.y - hub().y) / this.scene.view.scale,
      moved: (value) => sag.set(value),
    });
  }

  private renderFigure(hang: Result<DroopedHang>): TemplateResult {
    const { width } = this.box;
    const { view, height, groundY } = this.scene;
    const hook = EXAMPLE_HOOKS[this.hookIndex] ?? EXAMPLE_HOOKS[0];
    const hookAt = toPage(view, hook.at.x, hook.at.z);
    const cg = toPage(view, EXAMPLE_CG.x, EXAMPLE_CG.z);
    const radius = clamp(0.13 * width, 44, 84);
    const factor = 4;
    const labelEnd = Math.cos(this.direction(hang) + Math.PI) > 0.2 ? 'start' : 'end';
    return html`<svg
      class="figure"
      viewBox="0 0 ${width} ${height}"
      role="group"
      aria-label="Bramble hung by its ${hook.name}, drawn level: the axles sag from their ride height"
    >
      ${padGrid({ x: 0, y: 0, width, height }, view.origin, view.scale)}
      ${groundLine(point(0, groundY), point(width, groundY), false)}
      <g transform=${placement(view)}>
        ${truckFromTheSide(EXAMPLE_SIZES, { faded: true, small: width < 480 })}
      </g>
      ${this.renderWheel('rear', this.rearSag)} ${this.renderWheel('front', this.frontSag)}
      ${hang.ok ? this.renderLines(hang.value, hookAt, hook.name, labelEnd) : nothing}
      ${hang.ok ? formerCenterOfGravity(toPage(view, hang.value.hungCg.x, hang.value.hungCg.z), 6) : nothing}
      ${centerOfGravitySign(cg, 9)}
      ${
        hang.ok
          ? svg`${detailPlace(cg, 'X', 20)}${detailCircle({
              center: point(this.hookIndex === 2 ? width - radius - 10 : radius + 10, radius + 10),
              radius,
              letter: 'X',
              scale: view.scale,
              factor,
              at: EXAMPLE_CG,
              lines: [
                { angle: hang.value.direction, through: hook.at, halfBand: meters(0) },
                { ...hang.value.corrected, halfBand: meters(0) },
              ],
            })}`
          : nothing
      }
      <text class="label-quiet cased start" x="8" y=${c(height - 8)}>
        1 square 10 mm; in the detail ${detailSquare(view.scale * factor)} mm
      </text>
      ${this.frontHandle.template(this.drooped('front'), knob(this.drooped('front'), Math.PI / 2))}
      ${this.rearHandle.template(this.drooped('rear'), knob(this.drooped('rear'), Math.PI / 2))}
    </svg>`;
  }

  private direction(hang: Result<DroopedHang>): number {
    return hang.ok ? hang.value.direction : radians(-Math.PI / 2);
  }

  /** Where a hub hangs, on the page. */
  private drooped(axle: 'front' | 'rear'): Point {
    const { x, y } = this.hub(axle);
    const sag = axle === 'front' ? this.frontSag.value : this.rearSag.value;
    return point(x, y + pixels(this.scene.view, sag));
  }

  private renderWheel(axle: 'front' | 'rear', sag: LocalGiven<'length'>): SVGTemplateResult {
    const { view } = this.scene;
    const radius = pixels(
      view,
      axle === 'front' ? EXAMPLE_SIZES.frontTireRadius : EXAMPLE_SIZES.rearTireRadius,
    );
    const from = this.hub(axle);
    const to = this.drooped(axle);
    const side = axle === 'front' ? 1 : -1;
    const x = from.x + side * (radius + 14);
    const size = fixed(lengthIn(sag.value, 'mm'), 0);
    return svg`<circle class="line line-hidden" cx=${c(to.x)} cy=${c(to.y)} r=${c(radius)}></circle>
      ${
        to.y - from.y < 1
          ? nothing
          : dimensionLine({
              from: point(x, from.y),
              to: point(x, to.y),
              text: size,
              features: [point(from.x + side * 8, from.y), point(to.x + side * 16, to.y)],
              given: true,
              cased: true,
            })
      }`;
  }

  /** The string's line through the hook, and the corrected one beside it. */
  private renderLines(hang: DroopedHang, hookAt: Point, name: string, anchor: string): SVGTemplateResult {
    const { view } = this.scene;
    const reach = view.scale * 210;
    const out = hang.direction + Math.PI;
    const corrected = toPage(view, hang.corrected.through.x, hang.corrected.through.z);
    const end = polar(hookAt, 46, out);
    // Named at their lower ends, each on its own side.
    const ends = [polar(hookAt, reach, hang.direction), polar(corrected, reach, hang.direction)] as const;
    const [shown, right] = ends[0].x > ends[1].x ? ['start', 'end'] : ['end', 'start'];
    return svg`${casedLine(hookAt, polar(hookAt, reach, hang.direction), 'line-former')}
      ${casedLine(corrected, polar(corrected, reach, hang.direction), 'line-chain')}
      ${casedLine(hookAt, end, 'line-string')}
      ${hookSign(hookAt)}
      ${
        this.box.width < 480
          ? nothing
          : svg`<text class="label-quiet cased ${shown}" aria-hidden="true" x=${c(ends[0].x + (shown === 'start' ? 5 : -5))} y=${c(ends[0].y + 4)}>by the string</text>
      <text class="label-strong cased ${right}" aria-hidden="true" x=${c(ends[1].x + (right === 'start' ? 5 : -5))} y=${c(ends[1].y + 4)}>corrected</text>`
      }
      <text class="label-given cased ${anchor}" aria-hidden="true" x=${c(clamp(end.x + (anchor === 'start' ? 6 : -6), 8, this.box.width - 8))} y=${c(Math.max(16, end.y))}>${name}</text>`;
  }
}

declare global {
  interface HTMLElementTagNameMap {
    'plumb-droop': DroopCalculator;
  }
}
