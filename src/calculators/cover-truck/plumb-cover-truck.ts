import { css, html, LitElement } from 'lit';
import { customElement } from 'lit/decorators.js';
import { FigureWidth, figureStyles, objectPlan, threeViews, truckTones } from '../../figures';
import { benchAnswer, type BenchAnswer } from '../../answer/benchAnswer';
import { current, openState, ready, trial } from '../../sheet/bench';
import { FIELDS } from '../../sheet/fields';
import { isEmpty, readGiven } from '../../sheet/given';
import type { BuildState } from '../../sheet/schema';
import { asSpeech, showAngle, showLength } from '../shared/format';
import { objectSentence } from '../shared/objectWords';
import { SheetController } from '../shared/sheetController';
import { baseStyles } from '../shared/styles';
import { truckSizes } from '../shared/truckSizes';

/**
 * The open truck in three views, with its center of gravity, the tip angles where they arise, and the sizes the
 * reader gave; an object in its own axes. Until the sheet is open the slotted picture stands in.
 */
@customElement('plumb-cover-truck')
export class CoverTruck extends LitElement {
  private readonly sheet = new SheetController(this, () =>
    ready.value ? { name: current.value.name, state: openState.value, trial: trial.value !== null } : null,
  );
  private readonly box = new FigureWidth(this, { initial: 840 });

  static override styles = [
    baseStyles,
    figureStyles,
    truckTones,
    css`
      .trial {
        padding-inline: 1rem;
        font-size: 0.9375rem;
        font-weight: 650;
        color: var(--blue);
      }
    `,
  ];

  override render() {
    const now = this.sheet.value;
    if (now === null) return html`<slot></slot>`;
    const answer = benchAnswer(now.state);
    const { dimensions } = now.state;
    const cg = answer.cg.ok ? answer.cg.value : null;
    const tips = answer.tips.ok ? answer.tips.value : null;
    const trialWords = now.trial ? html`<p class="trial">Trial values, not kept.</p>` : '';
    if (now.state.body === 'object') {
      const distance = readGiven(now.state.scaleDistance, FIELDS.scaleDistance);
      return html`${trialWords}
      ${objectPlan({
        width: this.box.width,
        distance: distance.ok ? distance.value.value : null,
        cg: cg && { x: cg.ahead.value, z: cg.height.value },
        ellipse: cg?.ellipse ?? null,
        description: describeObject(now.name, now.state, answer),
      })}`;
    }
    return html`${trialWords}
    ${threeViews({
      width: this.box.width,
      sizes: truckSizes(now.state),
      cg: cg && { x: cg.ahead.value, y: cg.left.value, z: cg.height.value },
      tips: tips && {
        left: tips.left.angle.value,
        right: tips.right.angle.value,
        climb: tips.climb.angle.value,
        descent: tips.descent.angle.value,
      },
      given: { wheelbase: !isEmpty(dimensions.wheelbase), track: !isEmpty(dimensions.rearTrack) },
      description: describe(now.name, answer),
    })}`;
  }
}

/** What the drawing shows, in words. */
function describe(name: string, { cg, tips }: BenchAnswer): string {
  if (!cg.ok) return `${name} in three views; its center of gravity is not known yet.`;
  const place = `center of gravity ${asSpeech(showLength(cg.value.ahead))} ahead of the rear axle and ${asSpeech(showLength(cg.value.height))} above ground`;
  if (!tips.ok) return `${name} in three views: ${place}.`;
  const { left, right, climb, descent } = tips.value;
  return `${name} in three views: ${place}. Tips at ${asSpeech(showAngle(left.angle))} left side down, ${asSpeech(showAngle(right.angle))} right side down, ${asSpeech(showAngle(climb.angle))} in climb, ${asSpeech(showAngle(descent.angle))} in descent.`;
}

/** The same of an object, in its own axes. */
function describeObject(name: string, state: BuildState, answer: BenchAnswer): string {
  return answer.cg.ok
    ? `${name} in its own axes: center of gravity ${objectSentence(state, answer)}`
    : `${name} in its own axes; its center of gravity is not known yet.`;
}

declare global {
  interface HTMLElementTagNameMap {
    'plumb-cover-truck': CoverTruck;
  }
}
