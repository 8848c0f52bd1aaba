import { css, html, LitElement, nothing, type TemplateResult } from 'lit';
import { customElement, state } from 'lit/decorators.js';
import { benchAnswer } from '../../answer/benchAnswer';
import { openState, ready } from '../../sheet/bench';
import { unsprungMasses } from '../../sheet/derived';
import { FIELDS } from '../../sheet/fields';
import { isEmpty } from '../../sheet/given';
import type { BuildState } from '../../sheet/schema';
import { asText, showLength, showMass } from '../shared/format';
import { formStyles } from '../shared/formStyles';
import { chevronDownIcon } from '../shared/icons';
import { lengthUnitOf } from '../shared/readersUnits';
import { SheetController } from '../shared/sheetController';
import { sheetGiven } from '../shared/sheetGiven';
import { baseStyles, buttonStyles, panelStyles } from '../shared/styles';
import { addPart, partRow } from './partsList';

/**
 * The givens of the open truck that belong to no one calculator: sizes, unsprung masses and the parts list. Mass and
 * scales are readings and stand in the readings panel. Everything typed goes to the sheet at once and can be undone.
 */
@customElement('plumb-truck-givens')
export class TruckGivens extends LitElement {
  @state() private openParts: ReadonlySet<string> = new Set();

  private readonly sheet = new SheetController(this, () => (ready.value ? openState.value : null));

  static override styles = [
    baseStyles,
    buttonStyles,
    panelStyles,
    formStyles,
    css`
      .fold {
        border-block-end: 1px solid var(--rule);
      }
      .fold > summary {
        min-height: 3rem;
      }
      .fold > summary .hint {
        flex: 1;
        font-weight: 400;
        color: var(--ink-2);
      }
      .fold > .inside {
        padding-block-end: 1.1rem;
      }
      .columns {
        display: grid;
        grid-template-columns: repeat(auto-fit, minmax(min(100%, 19rem), 1fr));
        column-gap: 2rem;
      }
      .part {
        border-block-end: 1px solid var(--hair);
      }
      .part > summary {
        font-weight: 500;
      }
      .part[open] > summary {
        font-weight: 680;
      }
      .part-name {
        flex: 1;
      }
      .part[open] {
        padding-block-end: 0.75rem;
      }
      .together {
        padding-block: 0.6rem;
        font-size: 0.9375rem;
        line-height: 1.45;
      }
      .button-row {
        margin-block-start: 0.6rem;
      }
    `,
  ];

  override render() {
    const build = this.sheet.value;
    if (build === null) return html`<slot></slot>`;
    return html`${this.fold('Sizes', sizesHint(build), this.renderSizes(build), true)}
    ${this.fold('Unsprung masses', unsprungHint(build), this.renderUnsprung(build), false)}
    ${this.fold('Parts list', partsHint(build), this.renderParts(build), false)}`;
  }

  private fold(title: string, hint: string, inside: TemplateResult, open: boolean): TemplateResult {
    return html`<details class="fold" ?open=${open}>
      <summary>${title}<span class="hint">${hint}</span>${chevronDownIcon}</summary>
      <div class="inside">${inside}</div>
    </details>`;
  }

  private renderSizes(build: BuildState): TemplateResult {
    return html`<div class="columns">
        ${sheetGiven(build, (each) => each.dimensions.wheelbase, FIELDS.wheelbase)}
        ${sheetGiven(build, (each) => each.dimensions.frontTrack, FIELDS.frontTrack)}
        ${sheetGiven(build, (each) => each.dimensions.rearTrack, FIELDS.rearTrack)}
        ${sheetGiven(build, (each) => each.dimensions.outsideWidth, FIELDS.outsideWidth)}
        ${sheetGiven(build, (each) => each.dimensions.treadWidth, FIELDS.treadWidth)}
        ${sheetGiven(build, (each) => each.dimensions.frontTireRadius, FIELDS.frontTireRadius)}
        ${sheetGiven(build, (each) => each.dimensions.rearTireRadius, FIELDS.rearTireRadius)}
        ${sheetGiven(build, (each) => each.lateral, FIELDS.lateral, {
          note: 'Used only while no wheels are weighed one by one.',
        })}
      </div>
      <p class="note">
        Track is tire center to tire center; outside width is over the tires’ outer faces. Tire radius is the
        height of the hub above ground, truck standing.
      </p>`;
  }

  private renderUnsprung(build: BuildState): TemplateResult {
    const unsprung = unsprungMasses(build);
    const from = {
      given: 'as given',
      'parts list': 'from the parts list',
      default: 'a usual share of the mass',
    };
    return html`<div class="columns">
        ${sheetGiven(build, (each) => each.unsprungFront, FIELDS.unsprungFront, { label: 'Front axle, unsprung' })}
        ${sheetGiven(build, (each) => each.unsprungRear, FIELDS.unsprungRear, { label: 'Rear axle, unsprung' })}
      </div>
      <p class="note">
        Unsprung: axle, wheels, tires and half the links; not what an axle scale reads.
        ${
          unsprung.ok
            ? html`Now front ${asText(showMass(unsprung.value.front))} (${from[unsprung.value.front.from]}),
              rear ${asText(showMass(unsprung.value.rear))} (${from[unsprung.value.rear.from]}).`
            : nothing
        }
      </p>
      <p class="note">
        The truck’s mass and all that scales show stand among its <a href="#readings">readings</a>.
      </p>`;
  }

  private renderParts(build: BuildState): TemplateResult {
    const { partsListCg } = benchAnswer(build);
    const unit = lengthUnitOf(build);
    return html`${build.parts.map((part, index) =>
        partRow(build, part, index, this.openParts.has(part.id), this.toggle),
      )}
      ${
        partsListCg
          ? html`<p class="together">
              <b>Together ${asText(showMass(partsListCg.mass))}</b>, its center of gravity
              ${asText(showLength(partsListCg.x, unit))} ahead of the rear axle,
              ${asText(showLength(partsListCg.y, unit))} left of center,
              ${asText(showLength(partsListCg.z, unit))} above ground.
              ${
                build.countPartsList
                  ? html`It counts among the <a href="#readings">readings</a>.`
                  : html`It stands beside the measured one; it enters that only if counted among the
                      <a href="#readings">readings</a>.`
              }
            </p>`
          : build.parts.length > 0
            ? html`<p class="together">
                A part has no mass or place yet, so the list has no center of gravity. Open it and complete
                it.
              </p>`
            : html`<p class="note">
                A list of parts with their places gives a center of gravity to compare with.
              </p>`
      }
      <div class="button-row">
        <button class="button" type="button" @click=${this.add}>Add a part</button>
      </div>`;
  }

  private readonly toggle = (id: string, open: boolean): void => {
    const next = new Set(this.openParts);
    if (open) next.add(id);
    else next.delete(id);
    this.openParts = next;
  };

  private readonly add = (): void => {
    this.toggle(addPart(), true);
  };
}

const givenText = ({ text, unit }: { readonly text: string; readonly unit: string }): string =>
  text === '' ? '' : `${text} ${unit}`;

function sizesHint({ dimensions }: BuildState): string {
  return isEmpty(dimensions.wheelbase) ? 'nothing yet' : `wheelbase ${givenText(dimensions.wheelbase)}`;
}

function unsprungHint(build: BuildState): string {
  const given = [build.unsprungFront, build.unsprungRear].filter((mass) => !isEmpty(mass));
  if (given.length === 0) return 'nothing typed';
  return given.map(givenText).join(', ');
}

function partsHint({ parts }: BuildState): string {
  return parts.length === 0 ? 'none' : parts.length === 1 ? 'one part' : `${parts.length} parts`;
}

declare global {
  interface HTMLElementTagNameMap {
    'plumb-truck-givens': TruckGivens;
  }
}
