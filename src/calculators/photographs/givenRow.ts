import { html, type TemplateResult } from 'lit';
import { edit, settle } from '../../sheet/bench';
import { placeholder } from '../../sheet/given';
import type { PlacedGiven } from '../../sheet/givens';
import type { BuildState, Given } from '../../sheet/schema';
import '../shared/givenField';
import { NO_BREAK, typedNumber } from '../shared/format';
import type { GivenEvent } from '../shared/givenField';
import { givensByPath } from '../shared/givensByPath';
import { openStateOf, type SheetRecipe } from './edits';

const isRecord = (value: unknown): value is object => typeof value === 'object' && value !== null;

/** Puts a given at a path of the open state; a path that leads nowhere changes nothing. */
export const setGiven =
  (path: PlacedGiven['path'], given: Given): SheetRecipe =>
  (draft) => {
    let place: unknown = openStateOf(draft);
    for (const key of path.slice(0, -1)) place = isRecord(place) ? Reflect.get(place, key) : undefined;
    const last = path.at(-1);
    if (isRecord(place) && last !== undefined && Reflect.has(place, last))
      Reflect.set(place, last, { ...given });
  };

export interface GivenRowWords {
  /** Short label where the group's title already says the rest: "Hook ahead" under "Hang 2". */
  readonly label?: string;
  readonly note?: string;
}

/** The element id of the row of a path. */
export const rowId = (path: string): string => `given-${path.replaceAll('/', '-')}`;

/**
 * A given of the open state as a row that edits the sheet: typing is one undoable step until the field is left.
 * Nothing where the path leads nowhere.
 */
export function givenRow(
  state: BuildState,
  path: string,
  { label, note = '' }: GivenRowWords = {},
): TemplateResult | '' {
  const placed = givensByPath(state).get(path);
  if (!placed) return '';
  const { given, field } = placed;
  const assumed = given.text.trim() === '' && field.whenEmpty ? `Empty: ${field.whenEmpty.reason}.` : '';
  const write = (event: GivenEvent) => {
    edit(
      `Change ${field.label.charAt(0).toLowerCase()}${field.label.slice(1)}`,
      setGiven(placed.path, event.detail.given),
      path,
    );
  };
  return html`<plumb-given
    id=${rowId(path)}
    .field=${field}
    .label=${label ?? field.label}
    .given=${given}
    .noPlusMinus=${field.plusMinus === null}
    .limits=${field.plusMinus !== null}
    .note=${note || assumed}
    @given-input=${write}
    @given-change=${() => settle()}
  ></plumb-given>`;
}

/** What holds in a given, for a fold's label: "313 mm", "often 1.5 m" while empty, "?" where nothing holds. */
export function givenBrief(state: BuildState, path: string): string {
  const placed = givensByPath(state).get(path);
  if (!placed) return '';
  const { given, field } = placed;
  const unit = given.unit === 'deg' ? '°' : `${NO_BREAK}${given.unit}`;
  if (given.text.trim() !== '') return `${typedNumber(given.text)}${unit}`;
  return field.whenEmpty ? `${placeholder(field, given.unit)}${unit} assumed` : 'to measure';
}
