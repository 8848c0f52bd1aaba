import { html, type TemplateResult } from 'lit';
import { edit, settle } from '../../sheet/bench';
import { emptyAxleScales, emptyWheelScales } from '../../sheet/empty';
import { FIELDS } from '../../sheet/fields';
import type { AxleScales, BuildState, Reading, WheelScales } from '../../sheet/schema';
import type { EventOn } from '../shared/events';
import { draftState, sheetGiven } from '../shared/sheetGiven';

/** One set of scale readings: its fields, whether it counts, its note, and its removal. */
export function scaleReading(state: BuildState, reading: Reading, index: number): TemplateResult {
  const { id } = reading;
  const title = reading.kind === 'axle scales' ? 'Axles on scales' : 'Wheels on scales';
  const change = (label: string, recipe: (draft: Reading) => void, key?: string): void => {
    edit(
      label,
      (draft) => {
        const own = draftState(draft).readings.find((other) => other.id === id);
        if (own) recipe(own);
      },
      key,
    );
  };
  return html`<div class="group">
    <h3 class="section-title">${title} <span class="quiet-text">reading ${index + 1}</span></h3>
    ${reading.kind === 'axle scales' ? axleFields(state, id, index) : wheelFields(state, id, index)}
    <label class="text-row"
      ><span>Note</span
      ><input
        type="text"
        maxlength="400"
        .value=${reading.note}
        placeholder="which scale, how it stood"
        @input=${(event: EventOn<HTMLInputElement>) => {
          const { value } = event.currentTarget;
          change(`Note of ${title}`, (draft) => (draft.note = value), `note ${id}`);
        }}
        @change=${settle}
    /></label>
    <div class="button-row">
      <label class="check"
        ><input
          type="checkbox"
          .checked=${reading.counted}
          @change=${(event: EventOn<HTMLInputElement>) => {
            const { checked } = event.currentTarget;
            change(checked ? `Count ${title}` : `Set ${title} aside`, (draft) => (draft.counted = checked));
          }}
        />${reading.counted ? 'counted' : 'set aside, kept'}</label
      >
      <button class="quiet" type="button" @click=${() => removeReading(id, title)}>Remove</button>
    </div>
  </div>`;
}

function axleFields(state: BuildState, id: string, index: number): TemplateResult[] {
  const at = (each: BuildState): AxleScales | undefined =>
    each.readings.find(
      (reading): reading is AxleScales => reading.id === id && reading.kind === 'axle scales',
    );
  const rows = [
    { place: (each: BuildState) => at(each)?.front, field: FIELDS.axleFront },
    { place: (each: BuildState) => at(each)?.rear, field: FIELDS.axleRear },
  ];
  return rows.map(({ place, field }) =>
    sheetGiven(state, place, field, { label: `${field.label}${count(index)}` }),
  );
}

function wheelFields(state: BuildState, id: string, index: number): TemplateResult[] {
  const at = (each: BuildState): WheelScales | undefined =>
    each.readings.find(
      (reading): reading is WheelScales => reading.id === id && reading.kind === 'wheel scales',
    );
  const rows = [
    { place: (each: BuildState) => at(each)?.frontLeft, field: FIELDS.wheelFrontLeft },
    { place: (each: BuildState) => at(each)?.frontRight, field: FIELDS.wheelFrontRight },
    { place: (each: BuildState) => at(each)?.rearLeft, field: FIELDS.wheelRearLeft },
    { place: (each: BuildState) => at(each)?.rearRight, field: FIELDS.wheelRearRight },
  ];
  return rows.map(({ place, field }) =>
    sheetGiven(state, place, field, { label: `${field.label}${count(index)}` }),
  );
}

/** Tells fields of a second set of readings from the first. */
const count = (index: number): string => (index === 0 ? '' : `, reading ${index + 1}`);

export const addAxleScales = (): void => {
  edit('Add axle scales', (draft) => {
    draftState(draft).readings.push(emptyAxleScales());
  });
};

export const addWheelScales = (): void => {
  edit('Add wheel scales', (draft) => {
    draftState(draft).readings.push(emptyWheelScales());
  });
};

function removeReading(id: string, title: string): void {
  edit(`Remove ${title}`, (draft) => {
    const state = draftState(draft);
    state.readings = state.readings.filter((reading) => reading.id !== id);
  });
}
