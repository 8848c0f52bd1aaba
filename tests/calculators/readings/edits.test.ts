import { describe, expect, test } from 'vitest';
import {
  addBehind,
  addChange,
  addReading,
  countPartsList,
  countReading,
  emptyChangeOf,
  emptyReading,
  inChange,
  inReading,
  measuredAgain,
  noteReading,
  removeChange,
  removeReading,
  tieToHook,
  tieToNewHook,
  usesOfHook,
  type ReadingKind,
} from '../../../src/calculators/readings/edits';
import { KINDS } from '../../../src/calculators/readings/kinds';
import type { SheetRecipe } from '../../../src/calculators/photographs/edits';
import { emptyHook } from '../../../src/sheet/empty';
import { validSheet } from '../../../src/sheet/migrations';
import type { BuildState } from '../../../src/sheet/schema';
import { axles, hang, hook, lift, mass, sheetWith, stateWith, typed } from './states';

/** The state after recipes; every one must leave a valid sheet. */
function after(state: BuildState, ...recipes: SheetRecipe[]): BuildState {
  const draft = structuredClone(sheetWith(state));
  for (const recipe of recipes) {
    recipe(draft);
    const valid = validSheet(draft);
    expect(valid.ok ? '' : valid.message).toBe('');
  }
  const [changed] = draft.states;
  if (!changed) throw new Error('no state left');
  return changed;
}

const ids = (state: BuildState): string[] => state.readings.map(({ id }) => id);

describe('readings of a sheet', () => {
  test.each(KINDS.map(({ kind }) => kind))('%s: added empty and counted, at the end', (kind: ReadingKind) => {
    const reading = emptyReading(kind);
    const state = after(stateWith(mass('2939')), addReading(reading));
    expect(state.readings.at(-1)).toEqual(reading);
    expect(reading.counted).toBe(true);
  });

  test('every kind of the sheet is offered, once', () => {
    const kinds = KINDS.map(({ kind }) => kind);
    expect(new Set(kinds).size).toBe(7);
    expect(kinds).toHaveLength(7);
  });

  test('a hang takes the first hook there is', () => {
    const state = after({ ...stateWith(), hooks: [hook()] }, addReading(emptyReading('hang line')));
    expect(state.readings[0]).toMatchObject({ hook: 'hood' });
  });

  test('set aside and counted again, with a note', () => {
    const aside = after(stateWith(mass('2939')), countReading('mass', false), noteReading('mass', 'wet'));
    expect(aside.readings[0]).toMatchObject({ counted: false, note: 'wet', load: { text: '2939' } });
    expect(after(aside, countReading('mass', true)).readings[0]).toMatchObject({ counted: true });
  });

  test('measured again: a fresh copy behind it, choices, units and ± kept, numbers empty', () => {
    const first = lift({
      raised: 'rear axle',
      load: { ...typed('60.9', 'oz'), plusMinus: '0.1', kind: 'limits' },
      counted: false,
      note: 'sprung',
    });
    const again = measuredAgain(first);
    const state = after(stateWith(mass('2939'), first, axles('1388', '1551')), addBehind('lift', again));
    expect(ids(state)).toEqual(['mass', 'lift', again.id, 'axles']);
    expect(again).toMatchObject({
      raised: 'rear axle',
      by: 'angle',
      counted: true,
      note: '',
      angle: { text: '', unit: 'deg' },
      load: { text: '', unit: 'oz', plusMinus: '0.1', kind: 'limits' },
    });
    // The first one keeps its numbers.
    expect(state.readings[1]).toEqual(first);
  });

  test('a change for another kind of reading changes nothing', () => {
    const state = stateWith(mass('2939'));
    const changed = after(
      state,
      inReading('axle lift', 'mass', (reading) => (reading.by = 'angle')),
      countReading('gone', false),
    );
    expect(changed.readings).toEqual(state.readings);
  });

  test('removed, and its hook with it only where nobody needs that', () => {
    const named = { ...stateWith(hang()), hooks: [hook()] };
    expect(after(named, removeReading('hang')).hooks).toHaveLength(1);

    const untouched = { ...stateWith(hang({ hook: 'new' })), hooks: [{ ...emptyHook(), id: 'new' }] };
    expect(after(untouched, removeReading('hang')).hooks).toHaveLength(0);

    const shared = { ...untouched, readings: [...untouched.readings, hang({ id: 'other', hook: 'new' })] };
    expect(after(shared, removeReading('hang')).hooks).toHaveLength(1);
  });

  test('tied to a hook of the sheet, or to a new one', () => {
    const state = { ...stateWith(hang()), hooks: [hook(), hook({ id: 'rail', name: 'bed rail' })] };
    expect(after(state, tieToHook('hang', 'rail')).readings[0]).toMatchObject({ hook: 'rail' });

    const fresh = { ...emptyHook(), id: 'fresh' };
    const tied = after(state, tieToNewHook('hang', fresh));
    expect(tied.hooks.map(({ id }) => id)).toEqual(['hood', 'rail', 'fresh']);
    expect(usesOfHook(tied, 'fresh')).toBe(1);
    expect(usesOfHook(tied, 'hood')).toBe(0);
  });

  test('the parts list counts only when told to', () => {
    expect(after(stateWith(), countPartsList(true)).countPartsList).toBe(true);
  });
});

test('changes are added, edited and removed', () => {
  const change = { ...emptyChangeOf('added'), id: 'plate' };
  const state = after(
    stateWith(),
    addChange(change),
    inChange('plate', (own) => (own.name = 'Skid plate')),
  );
  expect(state.changes).toEqual([{ ...change, name: 'Skid plate' }]);
  expect(after(state, removeChange('plate')).changes).toEqual([]);
});
