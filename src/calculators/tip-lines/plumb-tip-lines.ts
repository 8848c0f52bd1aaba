import { html, LitElement, nothing, type TemplateResult } from 'lit';
import { customElement, property, state } from 'lit/decorators.js';
import {
  dialLayout,
  DragHandle,
  FigureWidth,
  figureStyles,
  headingAt,
  polarLimit,
  tiltedView,
  tipLines,
  truckTones,
  type WayDown,
} from '../../figures';
import { benchAnswer, type BenchAnswer } from '../../answer/benchAnswer';
import { PHOTOGRAPHS_HREF } from '../../photo/readState';
import {
  angleIn,
  degrees,
  distanceFromEdge,
  lengthIn,
  type Angle,
  type Estimate,
  type Length,
  type Result,
} from '../../physics';
import { beginTrial, current, discardTrial, keepTrial, openState, trial } from '../../sheet/bench';
import { FIELDS } from '../../sheet/fields';
import type { BuildState } from '../../sheet/schema';
import { asSpeech, asText, fixed, NO_BREAK, showAngle, showLength } from '../shared/format';
import { workingStyles } from '../shared/formula';
import { chevronDownIcon } from '../shared/icons';
import { LocalGiven } from '../shared/localGiven';
import '../shared/panel';
import { projected, stageFactor, stageStyles } from '../shared/projector';
import { lengthUnitOf } from '../shared/readersUnits';
import '../shared/resultView';
import type { ResultState } from '../shared/resultView';
import { SheetController } from '../shared/sheetController';
import { sheetGiven } from '../shared/sheetGiven';
import { baseStyles, buttonStyles, panelStyles, tableStyles } from '../shared/styles';
import { truckSizes } from '../shared/truckSizes';
import '../shared/warning';
import {
  headingView,
  headingWords,
  LINE_WORDS,
  sideOfNose,
  tipLimits,
  turnDegrees,
  type HeadingView,
  type TipLimits,
} from './tipLimits';
import { tipLinesStyles } from './tipLinesStyles';
import { tipLinesWorking } from './tipLinesWorking';

const FIRST_HEADING = 118;

const HEADING_FIELD = {
  label: 'Downhill lies',
  dimension: 'angle',
  limits: { least: { number: -360, unit: 'deg' }, most: { number: 360, unit: 'deg' } },
  believable: null,
  often: null,
  whenEmpty: null,
  plusMinus: null,
  next: 'Turn the dial, or type degrees left of the nose, 0 to 360.',
} as const;

const TRIED_HEIGHT_FIELD = {
  label: 'CG above ground, tried',
  dimension: 'length',
  limits: { above: { number: 0, unit: 'mm' }, most: { number: 2, unit: 'm' } },
  believable: null,
  often: null,
  whenEmpty: null,
  plusMinus: null,
  next: 'Try a height above zero, or go back to the measured values.',
} as const;

const WAY_WORDS: Readonly<Record<WayDown, string>> = {
  left: 'left side down',
  right: 'right side down',
  climb: 'nose up (climb)',
  descent: 'nose down (descent)',
};

const degreesText = (slope: Angle): string => `${fixed(angleIn(slope, 'deg'), 1)}°`;

const slopeTitle = (way: WayDown): string =>
  way === 'left' || way === 'right'
    ? `From behind, ${way} side straight down`
    : `From its right, ${WAY_WORDS[way]}`;

/** Height of the CG the limits were worked from. */
const heightOf = ({ truck }: TipLimits): Estimate<Length> => ({
  value: truck.cg.z,
  u: Math.sqrt(truck.covariance[2]?.[2] ?? 0),
});

/** The way down with the least limit. */
function weakestWay({ tips }: TipLimits): { readonly way: WayDown; readonly angle: Angle } {
  const ways: readonly WayDown[] = ['left', 'right', 'climb', 'descent'];
  return ways
    .map((way) => ({ way, angle: tips[way].angle.value }))
    .reduce((least, each) => (each.angle < least.angle ? each : least));
}

/**
 * Tip lines and slope limits: the truck from above with a dial for where downhill lies, the steepest slope at every
 * heading, the truck on its limit, and the four tip angles, each with its ±.
 *
 *     <plumb-tip-lines address="E5" heading="Tip lines and slope limits"></plumb-tip-lines>
 *
 * Reads the bench sheet. Tracks can be changed on the sheet or tried on a trial copy; a height can only be tried,
 * since it is kept by readings alone. Dial keys: arrows 1°, Page keys or Shift 15°, Home and End the nose. Projected,
 * it has three steps: predict, turn the dial, show the answer.
 */
@customElement('plumb-tip-lines')
export class TipLines extends LitElement {
  @property() address = 'E5';
  @property() heading = 'Tip lines and slope limits';
  @state() private step = 0;

  /** A height tried in place of the measured one, in m; null while none is. */
  @state() private triedHeight: Length | null = null;

  private readonly sheet = new SheetController(this, () => ({
    name: current.value.name,
    state: openState.value,
    trial: trial.value !== null,
  }));
  private readonly downhill = new LocalGiven(this, HEADING_FIELD, 'deg', FIRST_HEADING, {
    decimals: 0,
    step: 1,
  });
  private readonly height = new LocalGiven(this, TRIED_HEIGHT_FIELD, 'mm', 90, {
    decimals: 1,
    changed: () => {
      const { read } = this.height;
      this.triedHeight = read.ok ? read.value.value : this.triedHeight;
    },
    note: 'Tried only: a height is kept by readings.',
  });
  private readonly dial = new DragHandle(this, {
    name: () => 'Downhill lies',
    range: () => ({ min: 0, max: 360, step: 1, bigStep: 15, wraps: true }),
    value: () => turnDegrees(this.downhill.value),
    spoken: (value) => `${sideOfNose(value)}, ${headingWords(value)}`,
    valueAt: (place) => {
      const heading = headingAt(dialLayout(this.dialWidth.width).center, place);
      return heading === null ? null : angleIn(heading, 'deg');
    },
    moved: (value) => this.downhill.set(value),
  });
  private readonly dialWidth = this.widthOf('.dial-box', 430);
  private readonly polarWidth = this.widthOf('.polar-box', 330);
  private readonly slopeWidth = this.widthOf('.slope-box', 420);

  #limits: { state: BuildState; height: Length | null; limits: Result<TipLimits> } | null = null;

  static override styles = [
    baseStyles,
    buttonStyles,
    tableStyles,
    panelStyles,
    figureStyles,
    truckTones,
    workingStyles,
    stageStyles,
    tipLinesStyles,
  ];

  override render() {
    const { state: build } = this.sheet.value;
    const answer = benchAnswer(build);
    const limits = this.limitsOf(build, answer);
    const view = limits.ok ? headingView(limits.value, this.headingNow) : limits;
    if (projected()) return this.renderStage(limits, view);
    return html`<plumb-panel
      .address=${this.address}
      .heading=${this.heading}
      remark="flat slope, four wheels down, at a crawl"
    >
      <div class="sections tip-lines ${limits.ok && view.ok ? '' : 'without-figures'}">
        <div class="dial on-pad">
          <h4 class="section-title">From above: turn the dial to where downhill is</h4>
          <div class="dial-box">
            ${limits.ok && view.ok ? this.renderDial(limits.value, view.value) : this.renderEmpty()}
          </div>
        </div>
        <div class="answer stack">${apartWords(answer)} ${this.renderAnswer(answer, limits, view)}</div>
        ${limits.ok && view.ok ? this.renderOtherFigures(limits.value, view.value) : nothing}
        <div class="lines stack">
          ${limits.ok ? this.renderLines(limits.value) : nothing} ${this.renderTrial(answer)}
          <plumb-bracket kind="remark" title-text="Flat slope only."
            >On a rock one wheel is higher, the contacts are not in one plane, and the limit is lower. A
            static estimate for a model; local rules and a spotter come first.</plumb-bracket
          >
        </div>
        ${limits.ok && view.ok ? this.renderWorking(limits.value, view.value) : nothing}
      </div>
    </plumb-panel>`;
  }

  // Figures ----------------------------------------------------------------------------------------------

  private renderOtherFigures(limits: TipLimits, view: HeadingView): TemplateResult {
    return html`<div class="polar on-pad">
        <h4 class="section-title">Steepest slope, every heading</h4>
        <div class="polar-box">${this.renderPolar(limits, view)}</div>
        <p class="note polar-note">Degrees of slope, out from the middle; hatched, its ±.</p>
      </div>
      <div class="slope on-pad">
        <h4 class="section-title">${slopeTitle(view.way)}</h4>
        <div class="slope-box">${this.renderSlope(limits, view)}</div>
      </div>`;
  }

  private renderDial({ stance, truck }: TipLimits, view: HeadingView): TemplateResult {
    return tipLines({
      width: this.dialWidth.width,
      sizes: truckSizes(this.sheet.value.state, truck.wheelbase),
      polygon: stance.polygon,
      cg: truck.cg,
      heading: this.headingNow,
      governing: view.limit.governing,
      handle: this.dial,
      distances: true,
      description: `From above: the truck, its tip lines and a dial for where downhill lies`,
    });
  }

  private renderPolar({ samples, tips }: TipLimits, { limit }: HeadingView): TemplateResult {
    return polarLimit({
      width: this.polarWidth.width,
      samples,
      noseDown: tips.descent.angle.value,
      leftDown: tips.left.angle.value,
      noseUp: tips.climb.angle.value,
      rightDown: tips.right.angle.value,
      heading: this.headingNow,
      limit: limit.slope.value,
      band: true,
      description: `Steepest slope at every heading: nose down ${degreesText(tips.descent.angle.value)}, left side down ${degreesText(tips.left.angle.value)}, nose up ${degreesText(tips.climb.angle.value)}, right side down ${degreesText(tips.right.angle.value)}; at the dial's heading ${degreesText(limit.slope.value)}`,
    });
  }

  private renderSlope({ truck }: TipLimits, view: HeadingView): TemplateResult {
    return tiltedView({
      width: this.slopeWidth.width,
      way: view.way,
      sizes: truckSizes(this.sheet.value.state, truck.wheelbase),
      cg: truck.cg,
      distance: view.distance,
      limit: view.square,
      description: `The truck on a slope of ${degreesText(view.square)}, ${WAY_WORDS[view.way]}: its center of gravity stands plumb above the ${LINE_WORDS[view.way]} tip line`,
    });
  }

  private renderEmpty(): TemplateResult {
    return html`<div class="empty">
      <p class="note">Drawn as soon as the center of gravity and the tracks are known.</p>
    </div>`;
  }

  // Answer -----------------------------------------------------------------------------------------------

  private renderAnswer(
    answer: BenchAnswer,
    limits: Result<TipLimits>,
    view: Result<HeadingView>,
  ): TemplateResult {
    const { read } = this.downhill;
    const heading = html`<div class="heading-field">
      <h4 class="section-title">Heading</h4>
      ${this.downhill.template()}
      <p class="note">${read.ok ? `${sideOfNose(this.degree)}: ${headingWords(this.degree)}.` : nothing}</p>
    </div>`;
    if (!limits.ok || !view.ok || !read.ok) {
      return html`${heading}
        <plumb-result
          label="tips at"
          .state=${this.refusalState(answer, limits.ok ? view : limits, read.ok)}
        ></plumb-result>`;
    }
    const { limit, way, edgeAngle } = view.value;
    const line = LINE_WORDS[way];
    const weakest = weakestWay(limits.value);
    const trying = this.trying;
    return html`${heading}
      <plumb-result
        .label=${`tips over the ${line} tip line at`}
        .state=${{ kind: 'current', shown: showAngle(limit.slope), trial: trying } satisfies ResultState}
      ></plumb-result>
      <p class="factor">
        The same slope in percent grade: ${fixed(angleIn(limit.slope.value, '%'), 0)} %.
        ${
          weakest.way === way && Math.abs(view.value.offSquare) < 1e-9
            ? 'No heading is worse.'
            : `The least of any heading is ${degreesText(weakest.angle)}, ${WAY_WORDS[weakest.way]}.`
        }
      </p>
      ${
        edgeAngle === null
          ? nothing
          : html`<p class="factor">
              Standing on the outer edges of its tires: up to ${degreesText(edgeAngle)}. Tire centers are the
              cautious end.
            </p>`
      }
      ${
        limit.tiedWith === null
          ? nothing
          : html`<plumb-bracket kind="remark" title-text="Two tip lines are close here."
              >Which of them it goes over is not sure, so the limit and its ± come from both together; either
              alone would be ${degreesText(limit.atEstimate)}.</plumb-bracket
            >`
      }`;
  }

  private renderWorking(limits: TipLimits, view: HeadingView): TemplateResult {
    return html`<div class="working">
      <details ?open=${!this.isNarrow}>
        <summary>The working ${chevronDownIcon}</summary>
        ${tipLinesWorking(limits, view, this.degree, lengthUnitOf(this.sheet.value.state))}
      </details>
    </div>`;
  }

  private refusalState(answer: BenchAnswer, refused: Result<unknown>, headingRead: boolean): ResultState {
    if (!headingRead)
      return { kind: 'needs', why: 'The heading cannot be read; see its field.', missing: [] };
    if (!answer.cg.ok) {
      const { missing, next } = answer;
      // The message of a missing reading names the same readings as the links.
      return missing.length > 0
        ? { kind: 'needs', why: 'Tip angles need a center of gravity.', missing }
        : {
            kind: 'cannot',
            title: 'No center of gravity.',
            text: answer.cg.message,
            href: next.href,
            link: 'Go there.',
          };
    }
    if (refused.ok) return { kind: 'needs', why: '', missing: answer.missing };
    if (refused.reason === 'object') {
      const { baseTips } = answer;
      const tips = baseTips?.map(({ base, angle }) => `over base ${base} at ${asText(showAngle(angle))}`);
      return {
        kind: 'cannot',
        title: 'The sheet holds an object, which has no four wheels to stand on.',
        text: tips ? `On its base it tips ${tips.join(', ')}.` : 'Mark both ends of its base for tip angles.',
        href: PHOTOGRAPHS_HREF,
        link: 'Its pictures.',
      };
    }
    return refused.reason === 'empty' || refused.reason === 'dimension'
      ? { kind: 'needs', why: refused.message, missing: [] }
      : { kind: 'cannot', title: 'It does not stand.', text: refused.message };
  }

  private renderLines({ tips, truck, sizes, stabilityFactor, stance }: TipLimits): TemplateResult {
    const unit = lengthUnitOf(this.sheet.value.state);
    const order: readonly { way: WayDown; edge: number }[] = [
      { way: 'left', edge: 2 },
      { way: 'right', edge: 0 },
      { way: 'climb', edge: 3 },
      { way: 'descent', edge: 1 },
    ];
    const tread = sizes.treadWidth !== null;
    return html`<table>
        <caption>
          Straight down over each tip line
        </caption>
        <thead>
          <tr>
            <th scope="col">downhill</th>
            <th scope="col" class="number wide-only">from the CG, ${unit}</th>
            <th scope="col" class="number">tips at</th>
            <th scope="col" class="number wide-only">grade</th>
            ${tread ? html`<th scope="col" class="number">on outer edges</th>` : nothing}
          </tr>
        </thead>
        <tbody>
          ${order.map(({ way, edge }) => {
            const tip = tips[way];
            const line = stance.polygon.edges[edge];
            const shown = showAngle(tip.angle);
            return html`<tr>
              <th scope="row">${WAY_WORDS[way]}</th>
              <td class="number wide-only">
                ${line ? fixed(lengthIn(distanceFromEdge(line, truck.cg), unit), unit === 'mm' ? 1 : 2) : ''}
              </td>
              <td class="number"><b>${shown.value}°</b>${`${NO_BREAK}±${NO_BREAK}${shown.plusMinus}°`}</td>
              <td class="number wide-only">${fixed(angleIn(tip.angle.value, '%'), 0)} %</td>
              ${tread ? html`<td class="number">${tip.edgeAngle === null ? '–' : degreesText(tip.edgeAngle)}</td>` : nothing}
            </tr>`;
          })}
        </tbody>
      </table>
      ${
        stabilityFactor.ok
          ? html`<p class="factor">
              Static stability factor, half the track over the height:
              <b>${fixed(stabilityFactor.value, 2)}</b
              >${truck.frontTrack === truck.rearTrack ? '' : ' with the narrower track'}.
            </p>`
          : nothing
      }`;
  }

  // Trial ------------------------------------------------------------------------------------------------

  private renderTrial(answer: BenchAnswer): TemplateResult {
    const { state: build, trial: onTrial } = this.sheet.value;
    const trying = this.trying;
    return html`<fieldset class="screen-only">
      <legend class="section-title">Tracks and height</legend>
      <div class="switch mode">
        <label
          ><input type="radio" name="mode" .checked=${!trying} @change=${this.discard} /><span
            >As measured</span
          ></label
        >
        <label
          ><input
            type="radio"
            name="mode"
            .checked=${trying}
            ?disabled=${!answer.cg.ok}
            @change=${this.begin}
          /><span>Try other values</span></label
        >
      </div>
      <div class="trial-fields">
        ${sheetGiven(build, (each) => each.dimensions.frontTrack, FIELDS.frontTrack, { trial: onTrial })}
        ${sheetGiven(build, (each) => each.dimensions.rearTrack, FIELDS.rearTrack, { trial: onTrial })}
        ${sheetGiven(build, (each) => each.dimensions.treadWidth, FIELDS.treadWidth, { trial: onTrial })}
        ${trying ? this.height.template() : nothing}
      </div>
      ${
        trying
          ? html`<div class="button-row">
                <button class="button" type="button" @click=${this.keep}>Keep the tracks on the sheet</button>
                <button class="quiet" type="button" @click=${this.discard}>Discard, back to measured</button>
              </div>
              <p class="note">Everything shown is a trial until you keep it; the sheet is as it was.</p>`
          : nothing
      }
    </fieldset>`;
  }

  private get trying(): boolean {
    return this.sheet.value.trial || this.triedHeight !== null;
  }

  private readonly begin = (): void => {
    beginTrial();
    const answer = benchAnswer(this.sheet.value.state);
    if (!answer.cg.ok) return;
    const unit = lengthUnitOf(this.sheet.value.state);
    const shown = showLength(answer.cg.value.height, unit);
    this.height.take({ text: shown.value, unit, plusMinus: '', kind: 'expanded' });
  };

  private readonly keep = (): void => {
    this.triedHeight = null;
    keepTrial('Keep the tracks tried');
  };

  private readonly discard = (): void => {
    this.triedHeight = null;
    discardTrial();
  };

  // Projected --------------------------------------------------------------------------------------------

  get projectorSteps(): readonly string[] {
    return ['Predict', 'Turn the dial', 'Show the answer'];
  }

  get projectorStep(): number {
    return this.step;
  }

  set projectorStep(step: number) {
    this.step = step;
  }

  private renderStage(limits: Result<TipLimits>, view: Result<HeadingView>): TemplateResult {
    if (!limits.ok || !view.ok)
      return html`<p class="stage-words">${limits.ok ? (view.ok ? '' : view.message) : limits.message}</p>`;
    const shown = showAngle(view.value.limit.slope);
    const { stance, truck } = limits.value;
    const revealed = this.step >= 2;
    return html`<div class="stage">
      <div class="dial-box">
        ${tipLines({
          width: this.dialWidth.width,
          sizes: truckSizes(this.sheet.value.state, truck.wheelbase),
          polygon: stance.polygon,
          cg: truck.cg,
          heading: this.headingNow,
          governing: revealed ? view.value.limit.governing : null,
          ...(this.step >= 1 ? { handle: this.dial } : {}),
          description: 'From above: the truck, its tip lines and a dial for where downhill lies',
        })}
      </div>
      <div>
        <p class="stage-question">
          Downhill is ${sideOfNose(this.degree)}. Which tip line does it go over, and how steep?
        </p>
        <dl class="stage-rows" aria-live="polite">
          <div class="stage-row">
            <dt>tips over the</dt>
            <dd>${revealed ? html`${LINE_WORDS[view.value.way]} line` : '?'}</dd>
          </div>
          <div class="stage-row">
            <dt>at</dt>
            <dd>
              ${revealed ? html`<span class="spoken">${asSpeech(shown)}</span>${shown.value}° <small>${`±${NO_BREAK}${shown.plusMinus}°`}</small>` : '?'}
            </dd>
          </div>
          <div class="stage-row">
            <dt>height of the CG</dt>
            <dd>
              <small
                >${asText(showLength(heightOf(limits.value), lengthUnitOf(this.sheet.value.state)))}</small
              >
            </dd>
          </div>
        </dl>
      </div>
    </div>`;
  }

  // ------------------------------------------------------------------------------------------------------

  private get degree(): number {
    return turnDegrees(this.downhill.value);
  }

  private get headingNow(): Angle {
    return degrees(this.degree);
  }

  private get isNarrow(): boolean {
    return this.clientWidth > 0 && this.clientWidth < 640;
  }

  /** Limits change with the sheet and the tried height only, not while the dial turns. */
  private limitsOf(build: BuildState, answer: BenchAnswer): Result<TipLimits> {
    const known = this.#limits;
    if (known && known.state === build && known.height === this.triedHeight) return known.limits;
    const limits = tipLimits(build, answer, this.triedHeight);
    this.#limits = { state: build, height: this.triedHeight, limits };
    return limits;
  }

  private widthOf(selector: string, initial: number): FigureWidth {
    return new FigureWidth(this, {
      initial,
      target: () => this.renderRoot.querySelector(selector),
      enlarged: stageFactor,
    });
  }
}

/** No limit stands unmarked while the readings behind it do not agree. */
function apartWords({ warnings }: BenchAnswer): TemplateResult | typeof nothing {
  const wrong = warnings.find(({ code }) => code === 'reading disagrees' || code === 'readings scatter');
  return wrong
    ? html`<plumb-bracket kind="warning" title-text=${wrong.title}
        >These limits rest on readings that do not agree. <a href="#readings">Look at the readings</a> before
        you trust them.</plumb-bracket
      >`
    : nothing;
}

declare global {
  interface HTMLElementTagNameMap {
    'plumb-tip-lines': TipLines;
  }
}
