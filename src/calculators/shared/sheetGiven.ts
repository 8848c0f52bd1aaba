import { html, type TemplateResult } from 'lit';
import { edit, settle, tryOut } from '../../sheet/bench';
import type { GivenField } from '../../sheet/given';
import type { BenchSheet, BuildState, Given } from '../../sheet/schema';
import './givenField';
import type { GivenEvent } from './givenField';

/** The open state within a draft of the sheet. */
export function draftState(draft: BenchSheet): BuildState {
  const state = draft.states.find(({ id }) => id === draft.openState) ?? draft.states[0];
  if (!state) throw new Error('A sheet without states passed validation.');
  return state;
}

/** Where a given sits in a state. The function is run on the shown state and on drafts of it. */
export type GivenPlace = (state: BuildState) => Given | undefined;

export interface SheetGivenOptions {
  readonly label?: string;
  /** Shown in place of the label where the surroundings say the rest. */
  readonly caption?: string;
  readonly note?: string;
  readonly from?: string;
  readonly noPlusMinus?: boolean;
  /** The reader may say that the ± are hard limits. */
  readonly limits?: boolean;
  /** Edits go to the trial copy, and the row says so. */
  readonly trial?: boolean;
  /** Wins over what the field itself finds wrong. */
  readonly message?: string;
}

/**
 * A <plumb-given> for a given of the open state, edits included: typing in one field is one step of undo.
 *
 *     sheetGiven(state, (s) => s.dimensions.wheelbase, FIELDS.wheelbase)
 */
export function sheetGiven(
  state: BuildState,
  place: GivenPlace,
  field: GivenField,
  options: SheetGivenOptions = {},
): TemplateResult {
  const given = place(state);
  if (!given) throw new Error(`${field.label}: there is no such given in the state.`);
  const label = options.label ?? field.label;
  return html`<plumb-given
    .given=${given}
    .field=${field}
    .label=${label}
    .caption=${options.caption ?? ''}
    .note=${options.note ?? ''}
    .from=${options.from ?? ''}
    .message=${options.message ?? ''}
    ?no-plus-minus=${options.noPlusMinus ?? field.plusMinus === null}
    ?limits=${options.limits ?? true}
    ?trial=${options.trial ?? false}
    @given-input=${(event: GivenEvent) => editGiven(label, place, event, options.trial ?? false)}
    @given-change=${settle}
  ></plumb-given>`;
}

function editGiven(label: string, place: GivenPlace, { detail }: GivenEvent, trial: boolean): void {
  const recipe = (draft: BenchSheet): void => {
    const given = place(draftState(draft));
    if (given) Object.assign(given, detail.given);
  };
  if (trial) tryOut(recipe);
  else edit(label, recipe, `given ${label}`);
}
