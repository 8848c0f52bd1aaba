import 'fake-indexeddb/auto';
import { IDBFactory } from 'fake-indexeddb';
import { afterEach, beforeEach, describe, expect, test, vi } from 'vitest';
import {
  emptyChange,
  emptyHangLine,
  emptyHook,
  emptyPicture,
  emptySheet,
  emptyTotalMass,
} from '../../src/sheet/empty';
import { indexedDbStorage } from '../../src/sheet/indexedDbStorage';
import type { Journal } from '../../src/sheet/journal';
import { Bench, DEMO_SHEET_ID, type BenchSurroundings } from '../../src/sheet/openBench';
import type { BenchSheet } from '../../src/sheet/schema';

const NOW = new Date('2026-03-14T09:30:00');

function demoSheet(): BenchSheet {
  const sheet = { ...emptySheet('Demo'), id: 'as-shipped', demo: true };
  sheet.states[0]?.pictures.push({ ...emptyPicture('standing', 4000, 3000), id: 'standing' });
  return sheet;
}

function surroundings(changes: Partial<BenchSurroundings> = {}): BenchSurroundings {
  return {
    openStorage: () => indexedDbStorage(() => NOW),
    fetchDemo: async () => demoSheet(),
    fetchDemoPicture: async (id) => new Blob([`demo ${id}`], { type: 'image/jpeg' }),
    journal: null,
    now: () => NOW,
    ...changes,
  };
}

async function started(changes: Partial<BenchSurroundings> = {}): Promise<Bench> {
  const bench = new Bench(surroundings(changes));
  await bench.start();
  return bench;
}

const setWheelbase =
  (text: string) =>
  (draft: BenchSheet): void => {
    for (const state of draft.states) state.dimensions.wheelbase.text = text;
  };

const wheelbase = (sheet: BenchSheet): string | undefined => sheet.states[0]?.dimensions.wheelbase.text;

beforeEach(() => {
  vi.stubGlobal('indexedDB', new IDBFactory());
});
afterEach(() => {
  vi.unstubAllGlobals();
});

describe('a first visit', () => {
  test('opens the demo truck', async () => {
    const bench = await started();
    expect(bench.ready.value).toBe(true);
    expect(bench.kept.value).toMatchObject({ id: DEMO_SHEET_ID, name: 'Demo', demo: true });
    expect(bench.saveState.value).toEqual({ state: 'saved' });
  });

  test('does not store the demo truck before it is changed', async () => {
    const bench = await started();
    expect(await bench.listSheets()).toEqual([]);
    bench.edit('Wheelbase', setWheelbase('313'));
    expect((await bench.listSheets()).map(({ id }) => id)).toEqual([DEMO_SHEET_ID]);
  });

  test('without the demo file opens an empty sheet and says so', async () => {
    const bench = await started({ fetchDemo: () => Promise.reject(new Error('offline')) });
    expect(bench.kept.value.states).toHaveLength(1);
    expect(bench.notices.value.map(({ code }) => code)).toEqual(['demo-missing']);
    bench.dismissNotice('demo-missing');
    expect(bench.notices.value).toEqual([]);
  });

  test('in a browser that keeps nothing still works, and says "not saved"', async () => {
    const bench = await started({ openStorage: () => Promise.reject(new Error('refused')) });
    expect(bench.edit('Wheelbase', setWheelbase('313')).ok).toBe(true);
    await bench.saved();
    expect(bench.saveState.value).toMatchObject({ state: 'not saved', reason: 'no-storage' });
    expect((await bench.newSheet('Second')).ok).toBe(true);
    expect((await bench.openSheet(DEMO_SHEET_ID)).ok).toBe(true);
    expect(wheelbase(bench.kept.value)).toBe('313');
  });

  test('refuses edits until a sheet is open', () => {
    const bench = new Bench(surroundings());
    expect(bench.edit('Wheelbase', setWheelbase('313'))).toMatchObject({ ok: false, reason: 'not-ready' });
  });
});

describe('edits', () => {
  test('are undone and redone, 200 of them', async () => {
    const bench = await started();
    const before = bench.kept.value;
    for (let index = 1; index <= 200; index++) bench.edit(`Edit ${index}`, setWheelbase(String(index)));
    expect(bench.undoLabel.value).toBe('Edit 200');
    for (let index = 0; index < 200; index++) bench.undo();
    expect(bench.kept.value).toBe(before);
    expect(bench.canUndo.value).toBe(false);
    for (let index = 0; index < 200; index++) bench.redo();
    expect(wheelbase(bench.kept.value)).toBe('200');
    expect(bench.canRedo.value).toBe(false);
  });

  test('leave unchanged branches the same objects', async () => {
    const bench = await started();
    const before = bench.kept.value;
    bench.edit('Name', (draft) => {
      draft.name = 'Renamed';
    });
    expect(bench.kept.value).not.toBe(before);
    expect(bench.kept.value.states).toBe(before.states);
    expect(bench.openState.value).toBe(before.states[0]);
  });

  test('that change nothing are no step', async () => {
    const bench = await started();
    const before = bench.kept.value;
    bench.edit('Nothing', () => undefined);
    expect(bench.kept.value).toBe(before);
    expect(bench.canUndo.value).toBe(false);
  });

  test('in a row with one key are one step, until settled', async () => {
    const bench = await started();
    for (const text of ['3', '31', '313']) bench.edit('Wheelbase', setWheelbase(text), 'wheelbase');
    bench.settle();
    bench.edit('Wheelbase', setWheelbase('314'), 'wheelbase');
    bench.undo();
    expect(wheelbase(bench.kept.value)).toBe('313');
    bench.edit('Wheelbase', setWheelbase('315'), 'wheelbase');
    bench.undo();
    expect(wheelbase(bench.kept.value)).toBe('313');
    bench.undo();
    expect(wheelbase(bench.kept.value)).toBe('');
  });

  test('whose outcome is no valid sheet are refused whole', async () => {
    const bench = await started();
    const before = bench.kept.value;
    const result = bench.edit('Too long', setWheelbase('3'.repeat(61)));
    expect(result).toMatchObject({
      ok: false,
      message: `State 1, dimensions, wheelbase, text: needs at most 60 characters; got “${'3'.repeat(57)}…”. Look at states[0].dimensions.wheelbase.text in the file.`,
    });
    expect(bench.kept.value).toBe(before);
    expect(bench.canUndo.value).toBe(false);
  });

  test('that remove a hook take its marks and ties along', async () => {
    const bench = await started();
    const hook = { ...emptyHook(), id: 'roof' };
    bench.edit('Add hook', (draft) => {
      const state = draft.states[0];
      state?.hooks.push(hook);
      const picture = { ...emptyPicture('hanging', 100, 100), hook: 'roof' };
      picture.marks.push({ role: 'hook roof', x: 1, y: 2, plusMinus: '', counted: true, source: 'hand' });
      picture.marks.push({ role: 'string upper', x: 3, y: 4, plusMinus: '', counted: true, source: 'hand' });
      state?.pictures.push(picture);
      state?.readings.push({ ...emptyHangLine(), hook: 'roof' });
    });
    bench.edit('Remove hook', (draft) => {
      const state = draft.states[0];
      if (state) state.hooks = [];
    });
    const hanging = bench.openState.value.pictures.find(({ kind }) => kind === 'hanging');
    expect(hanging?.hook).toBeNull();
    expect(hanging?.marks.map(({ role }) => role)).toEqual(['string upper']);
    expect(bench.openState.value.readings).toMatchObject([{ kind: 'hang line', hook: null }]);
  });

  test('cannot be made around edit(): kept sheets are frozen', async () => {
    const bench = await started();
    expect(() => setWheelbase('1')(bench.kept.value)).toThrow(TypeError);
    bench.edit('Wheelbase', setWheelbase('313'));
    expect(() => setWheelbase('1')(bench.kept.value)).toThrow(TypeError);
  });
});

describe('a trial', () => {
  test('shows in current, never in kept, until it is kept', async () => {
    const bench = await started();
    const before = bench.kept.value;
    bench.tryOut(setWheelbase('300'));
    bench.tryOut(setWheelbase('301'));
    expect(bench.kept.value).toBe(before);
    expect(wheelbase(bench.current.value)).toBe('301');
    expect(bench.openState.value.dimensions.wheelbase.text).toBe('301');
    expect(bench.canUndo.value).toBe(false);
    bench.keepTrial('Keep wheelbase');
    expect(bench.trial.value).toBeNull();
    expect(wheelbase(bench.kept.value)).toBe('301');
    expect(bench.undoLabel.value).toBe('Keep wheelbase');
    bench.undo();
    expect(bench.kept.value).toBe(before);
  });

  test('leaves nothing behind when discarded', async () => {
    const bench = await started();
    const before = bench.kept.value;
    bench.beginTrial();
    expect(bench.trial.value).toBe(before);
    bench.tryOut(setWheelbase('300'));
    bench.discardTrial();
    expect(bench.current.value).toBe(before);
  });

  test('takes edits of the kept sheet along, and ends with undo', async () => {
    const bench = await started();
    bench.tryOut(setWheelbase('300'));
    bench.edit('Name', (draft) => {
      draft.name = 'Renamed';
    });
    expect(bench.current.value.name).toBe('Renamed');
    expect(wheelbase(bench.current.value)).toBe('300');
    expect(wheelbase(bench.kept.value)).toBe('');
    bench.undo();
    expect(bench.trial.value).toBeNull();
  });
});

describe('build states', () => {
  test('a new one keeps truck and instruments and leaves pictures, readings and changes behind', async () => {
    const bench = await started();
    bench.edit('Wheelbase', setWheelbase('313'));
    bench.edit('Readings', (draft) => {
      for (const state of draft.states) {
        state.readings.push(emptyTotalMass());
        state.changes.push(emptyChange());
        state.instruments.levelZero.text = '0.3';
      }
    });
    const first = bench.openState.value;
    bench.addState('With winch');
    expect(bench.openState.value).toMatchObject({
      name: 'With winch',
      date: '2026-03-14',
      pictures: [],
      readings: [],
      changes: [],
      instruments: { levelZero: { text: '0.3' } },
    });
    expect(bench.openState.value.dimensions.wheelbase.text).toBe('313');
    bench.switchState(first.id);
    expect(bench.openState.value).toBe(first);
    expect(bench.openState.value.pictures).toHaveLength(1);
  });

  test('the last one cannot be deleted; the open one hands over', async () => {
    const bench = await started();
    const first = bench.openState.value;
    bench.deleteState(first.id);
    expect(bench.kept.value.states).toHaveLength(1);
    bench.addState('Second');
    bench.deleteState(bench.openState.value.id);
    expect(bench.openState.value).toBe(first);
  });
});

describe('saving', () => {
  test('brings the sheet back on the next page', async () => {
    const first = await started();
    await first.newSheet('Mine');
    first.edit('Wheelbase', setWheelbase('12.3 in'));
    expect(first.saveState.value).toEqual({ state: 'saving' });
    await first.saved();
    expect(first.saveState.value).toEqual({ state: 'saved' });
    const second = await started();
    expect(second.kept.value).toEqual(first.kept.value);
  });

  test('happens by itself after a quiet moment', async () => {
    const bench = await started();
    bench.edit('Wheelbase', setWheelbase('313'));
    await vi.waitFor(() => expect(bench.saveState.value).toEqual({ state: 'saved' }), { timeout: 3000 });
    expect(wheelbase((await started()).kept.value)).toBe('313');
  });

  test('a sheet that does not validate is kept, reported, and never opened', async () => {
    const bench = await started();
    await bench.newSheet('Mine');
    const storage = await indexedDbStorage(() => NOW);
    const broken = structuredClone(bench.kept.value);
    Reflect.set(broken.states[0]?.dimensions.wheelbase ?? {}, 'unit', 'ft');
    await storage.writeSheet(broken, null);
    const next = await started();
    expect(next.kept.value.id).toBe(DEMO_SHEET_ID);
    expect(next.notices.value[0]).toEqual({
      code: 'sheet-unreadable',
      message:
        'State 1, dimensions, wheelbase, unit: needs mm or cm or m or in; got “ft”. Look at states[0].dimensions.wheelbase.unit in the file. It is kept as it is; the demo truck is open instead.',
    });
    const [entry] = await next.listSheets();
    expect(entry?.problem).toContain('wheelbase');
    expect(await next.rawSheet(broken.id)).toContain('"ft"');
    expect(await next.openSheet(broken.id)).toMatchObject({ ok: false, reason: 'invalid' });
  });

  test('what was left unsaved is taken up by the next page', async () => {
    const left = { ...emptySheet('Left'), id: 'left' };
    const storage = await indexedDbStorage(() => NOW);
    await storage.writeSheet({ ...left, name: 'Before' }, 0);
    await storage.writeOpenSheet('left');
    const journal: Journal = {
      write: () => undefined,
      take: () => ({ sheet: left, revision: 1 }),
      clear: () => undefined,
    };
    expect((await started({ journal })).kept.value.name).toBe('Left');
  });

  test('what was left unsaved never overwrites another tab', async () => {
    const left = { ...emptySheet('Left'), id: 'left' };
    const storage = await indexedDbStorage(() => NOW);
    await storage.writeSheet({ ...left, name: 'Before' }, 0);
    await storage.writeSheet({ ...left, name: 'Other tab' }, 1);
    await storage.writeOpenSheet('left');
    const journal: Journal = {
      write: () => undefined,
      take: () => ({ sheet: left, revision: 1 }),
      clear: () => undefined,
    };
    const bench = await started({ journal });
    expect(bench.kept.value.name).toBe('Other tab');
    expect(bench.notices.value[0]?.code).toBe('left-unsaved');
    expect((await bench.listSheets()).map(({ name }) => name).sort()).toEqual([
      'Left (left unsaved)',
      'Other tab',
    ]);
  });

  test('leaving writes the journal at once and clears it when the store has the sheet', async () => {
    const written: string[] = [];
    const clear = vi.fn();
    const bench = await started({
      journal: { write: (sheet) => written.push(sheet.name), take: () => null, clear },
    });
    bench.leave();
    expect(written).toEqual([]);
    bench.edit('Name', (draft) => {
      draft.name = 'Renamed';
    });
    bench.leave();
    expect(written).toEqual(['Renamed']);
    await vi.waitFor(() => expect(clear).toHaveBeenCalled());
    expect(bench.saveState.value).toEqual({ state: 'saved' });
  });
});

describe('two tabs', () => {
  const both = async (): Promise<[Bench, Bench]> => {
    const one = await started();
    await one.newSheet('Shared');
    return [one, await started()];
  };

  test('the later write is held, not silently lost', async () => {
    const [one, two] = await both();
    one.edit('Wheelbase', setWheelbase('313'));
    await one.saved();
    two.edit('Wheelbase', setWheelbase('320'));
    await two.saved();
    expect(two.saveState.value).toMatchObject({ state: 'not saved', reason: 'changed-elsewhere' });
    expect(await two.newSheet()).toMatchObject({ ok: false, reason: 'not-saved' });
    expect(wheelbase((await started()).kept.value)).toBe('313');
  });

  test('keeping mine overwrites on purpose', async () => {
    const [one, two] = await both();
    one.edit('Wheelbase', setWheelbase('313'));
    await one.saved();
    two.edit('Wheelbase', setWheelbase('320'));
    await two.saved();
    await two.keepMine();
    expect(two.saveState.value).toEqual({ state: 'saved' });
    expect(wheelbase((await started()).kept.value)).toBe('320');
  });

  test('taking the other can be undone', async () => {
    const [one, two] = await both();
    one.edit('Wheelbase', setWheelbase('313'));
    await one.saved();
    two.edit('Wheelbase', setWheelbase('320'));
    await two.saved();
    await two.takeOther();
    expect(wheelbase(two.kept.value)).toBe('313');
    two.undo();
    expect(wheelbase(two.kept.value)).toBe('320');
    await two.saved();
    expect(two.saveState.value).toEqual({ state: 'saved' });
  });

  test('a tab without unsaved edits shows the other tab’s when it comes back into view', async () => {
    const [one, two] = await both();
    one.edit('Wheelbase', setWheelbase('313'));
    await one.saved();
    await two.refresh();
    expect(wheelbase(two.kept.value)).toBe('313');
    expect(two.saveState.value).toEqual({ state: 'saved' });
    expect(two.undoLabel.value).toBe('Changes from another tab');
  });

  test('a sheet deleted elsewhere is held and can be kept', async () => {
    const [one, two] = await both();
    await one.deleteSheet(one.kept.value.id);
    expect(one.kept.value.id).toBe(DEMO_SHEET_ID);
    await two.refresh();
    expect(two.saveState.value).toMatchObject({ state: 'not saved', reason: 'deleted-elsewhere' });
    await two.keepMine();
    expect((await two.listSheets()).map(({ name }) => name)).toEqual(['Shared']);
  });

  test('a page brought back from the cache opens the sheet opened since', async () => {
    const [one, two] = await both();
    await two.newSheet('Newer');
    await one.reopen();
    expect(one.kept.value.name).toBe('Newer');
  });
});

describe('pictures', () => {
  test('of the demo truck come from its files until stored', async () => {
    const bench = await started();
    expect(await (await bench.pictureBlob('standing'))?.text()).toBe('demo standing');
    await bench.putPicture('standing', new Blob(['mine'], { type: 'image/png' }));
    const stored = await bench.pictureBlob('standing');
    expect(await stored?.text()).toBe('mine');
    expect(stored?.type).toBe('image/png');
  });

  test('go along when the demo truck becomes the reader’s own', async () => {
    const bench = await started();
    await bench.copySheet('My truck');
    expect(bench.kept.value).toMatchObject({ name: 'My truck', demo: false });
    expect(await (await bench.pictureBlob('standing'))?.text()).toBe('demo standing');
    await bench.openDemo();
    expect(bench.kept.value.name).toBe('Demo');
  });

  test('that no state shows any more are swept after a day, not before', async () => {
    let now = NOW;
    const openStorage = () => indexedDbStorage(() => now);
    const bench = await started({ openStorage });
    await bench.newSheet('Mine');
    await bench.putPicture('gone', new Blob(['x'], { type: 'image/png' }));
    await started({ openStorage });
    await new Promise((done) => setTimeout(done, 50));
    expect(await bench.pictureBlob('gone')).toBeDefined();
    now = new Date(NOW.getTime() + 25 * 3600 * 1000);
    await started({ openStorage });
    await vi.waitFor(async () => expect(await bench.pictureBlob('gone')).toBeUndefined());
  });
});

describe('the demo truck', () => {
  test('is put back as it ships, undoably', async () => {
    const bench = await started();
    bench.edit('Wheelbase', setWheelbase('999'));
    await bench.restoreDemo();
    expect(wheelbase(bench.kept.value)).toBe('');
    expect(bench.kept.value.id).toBe(DEMO_SHEET_ID);
  });
});

describe('files', () => {
  test('a sheet exported and imported is the same sheet, pictures included', async () => {
    const bench = await started();
    await bench.copySheet('Mine');
    bench.edit('Wheelbase', setWheelbase('12.3 in'));
    const before = bench.kept.value;
    const text = await bench.exportJson();
    await bench.deleteSheet(before.id);
    expect((await bench.importJson(text)).ok).toBe(true);
    expect(bench.kept.value).toEqual(before);
    expect(await (await bench.pictureBlob('standing'))?.text()).toBe('demo standing');
  });

  test('a sheet that is here already comes in beside it', async () => {
    const bench = await started();
    await bench.newSheet('Mine');
    const { id } = bench.kept.value;
    await bench.importJson(await bench.exportJson());
    expect(bench.kept.value.id).not.toBe(id);
    expect(await bench.listSheets()).toHaveLength(2);
  });

  test('a bad file leaves the open sheet untouched', async () => {
    const bench = await started();
    await bench.newSheet('Mine');
    const before = bench.kept.value;
    const text = (await bench.exportJson()).replace('"unit": "mm"', '"unit": "ft"');
    expect(await bench.importJson(text)).toEqual({
      ok: false,
      reason: 'invalid',
      message:
        'State 1, dimensions, wheelbase, unit: needs mm or cm or m or in; got “ft”. Look at states[0].dimensions.wheelbase.unit in the file.',
    });
    expect(bench.kept.value).toBe(before);
    expect(await bench.listSheets()).toHaveLength(1);
  });
});
