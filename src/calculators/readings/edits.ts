import {
  emptyAxleLift,
  emptyAxleScales,
  emptyBalanceOnEdge,
  emptyChange,
  emptyHangLine,
  emptyTiltBoard,
  emptyTotalMass,
  emptyWheelScales,
} from '../../sheet/empty';
import { newId } from '../../sheet/ids';
import type { BenchSheet, BuildState, Change, Hook, Reading } from '../../sheet/schema';
import { openStateOf, type SheetRecipe } from '../photographs/edits';

/**
 * What the readings panel changes in a bench sheet. Every function gives a recipe for edit(); a recipe whose
 * reading, hook or change is gone by then changes nothing.
 */

export type ReadingKind = Reading['kind'];
export type ReadingOf<Kind extends ReadingKind> = Extract<Reading, { readonly kind: Kind }>;

const isOf = <Kind extends ReadingKind>(reading: Reading, kind: Kind): reading is ReadingOf<Kind> =>
  reading.kind === kind;

const inState =
  (change: (state: BuildState) => void): SheetRecipe =>
  (draft: BenchSheet) => {
    const state = openStateOf(draft);
    if (state) change(state);
  };

/** A new reading without numbers. */
export function emptyReading(kind: ReadingKind): Reading {
  switch (kind) {
    case 'total mass':
      return emptyTotalMass();
    case 'axle scales':
      return emptyAxleScales();
    case 'wheel scales':
      return emptyWheelScales();
    case 'axle lift':
      return emptyAxleLift();
    case 'hang line':
      return emptyHangLine();
    case 'tilt board':
      return emptyTiltBoard();
    case 'balance on an edge':
      return emptyBalanceOnEdge();
  }
}

/** Puts a reading at the end of the list. A hang takes the first hook on the sheet. */
export const addReading = (reading: Reading): SheetRecipe =>
  inState((state) => {
    const added = structuredClone(reading);
    if (added.kind === 'hang line') added.hook = state.hooks[0]?.id ?? null;
    state.readings.push(added);
  });

/** Changes one reading of a kind. */
export const inReading = <Kind extends ReadingKind>(
  kind: Kind,
  id: string,
  change: (reading: ReadingOf<Kind>) => void,
): SheetRecipe =>
  inState((state) => {
    const reading = state.readings.find((candidate) => candidate.id === id);
    if (reading && isOf(reading, kind)) change(reading);
  });

const inAnyReading = (id: string, change: (reading: Reading) => void): SheetRecipe =>
  inState((state) => {
    const reading = state.readings.find((candidate) => candidate.id === id);
    if (reading) change(reading);
  });

export const countReading = (id: string, counted: boolean): SheetRecipe =>
  inAnyReading(id, (reading) => {
    reading.counted = counted;
  });

export const noteReading = (id: string, note: string): SheetRecipe =>
  inAnyReading(id, (reading) => {
    reading.note = note;
  });

/** The same reading to be taken once more: choices, units and ± of the instrument kept, numbers and note empty. */
export function measuredAgain(reading: Reading): Reading {
  const again: Reading = { ...structuredClone(reading), id: newId(), counted: true, note: '' };
  for (const value of Object.values(again)) if (typeof value === 'object' && value !== null) value.text = '';
  return again;
}

/** Puts a reading right behind another; at the end where the other is gone. */
export const addBehind = (id: string, reading: Reading): SheetRecipe =>
  inState((state) => {
    const at = state.readings.findIndex((candidate) => candidate.id === id);
    state.readings.splice(at < 0 ? state.readings.length : at + 1, 0, structuredClone(reading));
  });

/** Takes a reading out, and its hook where nothing was typed for it and nothing else uses it. */
export const removeReading = (id: string): SheetRecipe =>
  inState((state) => {
    const reading = state.readings.find((candidate) => candidate.id === id);
    state.readings = state.readings.filter((candidate) => candidate.id !== id);
    if (reading?.kind !== 'hang line') return;
    const hook = state.hooks.find((candidate) => candidate.id === reading.hook);
    if (hook && isUntouched(hook) && usesOfHook(state, hook.id) === 0)
      state.hooks = state.hooks.filter((candidate) => candidate.id !== hook.id);
  });

const isUntouched = ({ name, ahead, left, height }: Hook): boolean =>
  [name, ahead.text, left.text, height.text].every((text) => text.trim() === '');

/** How many pictures and readings of a state hang by a hook or show it. */
export function usesOfHook(state: BuildState, id: string): number {
  const pictures = state.pictures.filter(
    (picture) => picture.hook === id || picture.marks.some(({ role }) => role === `hook ${id}`),
  );
  const lines = state.readings.filter((reading) => reading.kind === 'hang line' && reading.hook === id);
  return pictures.length + lines.length;
}

/** Ties a hang to a hook of the state. */
export const tieToHook = (readingId: string, hookId: string): SheetRecipe =>
  inReading('hang line', readingId, (hang) => {
    hang.hook = hookId;
  });

/** Puts a new hook on the sheet and ties a hang to it. */
export const tieToNewHook = (readingId: string, hook: Hook): SheetRecipe =>
  inState((state) => {
    const hang = state.readings.find((candidate) => candidate.id === readingId);
    if (hang?.kind !== 'hang line') return;
    state.hooks.push(structuredClone(hook));
    hang.hook = hook.id;
  });

export const countPartsList = (counted: boolean): SheetRecipe =>
  inState((state) => {
    state.countPartsList = counted;
  });

/** Puts a change at the end of the list. */
export const addChange = (change: Change): SheetRecipe =>
  inState((state) => {
    state.changes.push(structuredClone(change));
  });

export const inChange = (id: string, change: (own: Change) => void): SheetRecipe =>
  inState((state) => {
    const own = state.changes.find((candidate) => candidate.id === id);
    if (own) change(own);
  });

export const removeChange = (id: string): SheetRecipe =>
  inState((state) => {
    state.changes = state.changes.filter((candidate) => candidate.id !== id);
  });

/** A new change without numbers. */
export const emptyChangeOf = (kind: Change['kind']): Change => ({ ...emptyChange(), kind });
