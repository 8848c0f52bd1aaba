import { describe, expect, test } from 'vitest';
import { sheetItems } from '../../src/calculators/on-the-sheet/sheetItems';
import { titleBlockView } from '../../src/calculators/title-block/titleBlockView';
import { benchAnswer } from '../../src/answer/benchAnswer';
import { emptySheet } from '../../src/sheet/empty';
import type { BenchSheet, BuildState } from '../../src/sheet/schema';
import { plateSheet, plateState } from '../answer/plateState';
import { BRAMBLE } from '../demo/world/bramble';
import { demoSheet } from '../demo/world/demoSheet';

const stateOf = (sheet: BenchSheet): BuildState => {
  const [state] = sheet.states;
  if (!state) throw new Error('no state');
  return state;
};
const empty = emptySheet('Thistle');
const demo = demoSheet(BRAMBLE, 1);

describe('what is on the sheet', () => {
  test('of an empty one: what is missing, each with its place', () => {
    const items = sheetItems(stateOf(empty), benchAnswer(stateOf(empty)));
    expect(items.map(({ what, kind }) => `${what}: ${kind}`)).toEqual([
      'Wheelbase and tracks: missing',
      'Standing picture: missing',
      'Hanging pictures: missing',
      'Scales: optional',
      'Lift, board, string, edge: optional',
      'Parts list: optional',
    ]);
    expect(items.every(({ href }) => /\.html#|^#readings$/.test(href))).toBe(true);
  });

  test('of an object: scale, hangs and base, and not a word of a truck', () => {
    const bare = plateState();
    const told = (state: BuildState) =>
      sheetItems(state, benchAnswer(state)).map(({ what, status }) => `${what}: ${status}`);
    expect(told(bare)).toEqual([
      'Two points of known distance: missing',
      expect.stringMatching(/^Hanging pictures: /),
      'Ends of its base: for tip angles',
    ]);
    expect(told(plateState({ scaled: true, based: true }))).toEqual([
      'Two points of known distance: done',
      'Hanging pictures: 2, done',
      'Ends of its base: done',
    ]);
  });

  test('of the demo truck: all done', () => {
    const items = sheetItems(stateOf(demo), benchAnswer(stateOf(demo)));
    expect(items.map(({ kind }) => kind)).toEqual(['done', 'done', 'done', 'done', 'done', 'done']);
  });

  test('counts no reading that is set aside or tells another thing', () => {
    const state = structuredClone(stateOf(demo));
    for (const reading of state.readings) {
      if (reading.kind === 'axle lift') reading.suspension = 'free';
      if (reading.kind === 'tilt board') reading.event = 'first wheel lifts';
      if (reading.kind !== 'axle lift' && reading.kind !== 'total mass') reading.counted = false;
    }
    state.parts = [];
    const items = sheetItems(state, benchAnswer(state)).slice(3);
    expect(items.map(({ status }) => status)).toEqual(['total mass only', 'none', 'none, mass given']);
  });

  test('names the one size that is missing', () => {
    const state = structuredClone(stateOf(demo));
    state.dimensions.rearTrack.text = '';
    const [sizes] = sheetItems(state, benchAnswer(state));
    expect(sizes).toMatchObject({ status: 'rear track missing', kind: 'missing' });
  });
});

describe('the title block', () => {
  test('shows no number while there is none, and the first thing to do', () => {
    const view = titleBlockView(empty, stateOf(empty), benchAnswer(stateOf(empty)), false);
    expect([...view.cg, ...view.tips].every(({ shown }) => shown === null)).toBe(true);
    expect(view.next.text).toContain('wheelbase');
    expect(view.readings).toBe('none yet');
  });

  test('shows every number with its ±', () => {
    const view = titleBlockView(demo, stateOf(demo), benchAnswer(stateOf(demo)), false);
    for (const { shown } of [...view.cg, ...view.tips]) {
      expect(shown?.value).toMatch(/^−?\d+\.\d$/);
      expect(shown?.plusMinus).toMatch(/^\d+\.\d$/);
    }
    expect(view.why).toBeNull();
  });

  test('of an object in its own axes', () => {
    const sheet = plateSheet({ scaled: true, based: true });
    const state = stateOf(sheet);
    const view = titleBlockView(sheet, state, benchAnswer(state), false);
    expect(view.named).toBe('Object, state');
    expect(view.cg.map(({ label }) => label)).toEqual([
      'from point 1 toward point 2',
      'to the left of that line',
    ]);
    expect(view.tips.map(({ label }) => label)).toEqual(['over base 1', 'over base 2']);
    const all = [...view.cg, ...view.tips, ...view.short];
    for (const { label, shown } of all) {
      expect(label).not.toMatch(/axle|ground|wheel/);
      expect(shown, label).not.toBeNull();
    }
    expect(view.next.text).not.toMatch(/truck|wheel|axle|track/);
  });

  test('in inches where the wheelbase was typed in inches', () => {
    const state = structuredClone(stateOf(demo));
    // 313.5 mm by the definition of the inch.
    Object.assign(state.dimensions.wheelbase, { text: String(313.5 / 25.4), unit: 'in' });
    const view = titleBlockView(demo, state, benchAnswer(state), false);
    expect(view.lengthUnit).toBe('in');
    expect(view.cg[2]?.shown?.unit).toBe('in');
  });
});
