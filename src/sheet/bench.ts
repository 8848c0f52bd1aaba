/**
 * The one bench of the page: the open sheet as signals. Elements import from here; what the members do and refuse
 * is said at class Bench. In a page the sheet opens by itself and is saved by itself.
 */
import { indexedDbStorage } from './indexedDbStorage';
import { storageJournal, type Journal } from './journal';
import { Bench } from './openBench';
import { demoPictureUrl, demoSheetUrl } from './siteRoot';

export type { BenchSurroundings, EditReason, Notice, OpenReason, Recipe } from './openBench';
export type { SaveState } from './autosave';
export type { SheetEntry } from './storage';
export { DEMO_SHEET_ID } from './openBench';

const now = (): Date => new Date();

/** Reading `localStorage` itself throws where the browser blocks it. */
function pageJournal(): Journal | null {
  try {
    return storageJournal(localStorage);
  } catch {
    return null;
  }
}

async function fetched(address: string): Promise<Response> {
  const response = await fetch(address);
  if (!response.ok) throw new Error(`${address}: ${response.status}`);
  return response;
}

const inPage = typeof document !== 'undefined';

export const bench = new Bench({
  openStorage: () => indexedDbStorage(now),
  fetchDemo: async (): Promise<unknown> => (await fetched(demoSheetUrl())).json(),
  fetchDemoPicture: async (pictureId) => (await fetched(demoPictureUrl(pictureId))).blob(),
  journal: inPage ? pageJournal() : null,
  now,
});

export const { kept, trial, current, openState, ready, saveState, notices } = bench;
export const { canUndo, canRedo, undoLabel, redoLabel } = bench;

export const edit = bench.edit.bind(bench);
export const settle = bench.settle.bind(bench);
export const undo = bench.undo.bind(bench);
export const redo = bench.redo.bind(bench);
export const beginTrial = bench.beginTrial.bind(bench);
export const tryOut = bench.tryOut.bind(bench);
export const keepTrial = bench.keepTrial.bind(bench);
export const discardTrial = bench.discardTrial.bind(bench);

export const addState = bench.addState.bind(bench);
export const switchState = bench.switchState.bind(bench);
export const deleteState = bench.deleteState.bind(bench);

export const newSheet = bench.newSheet.bind(bench);
export const copySheet = bench.copySheet.bind(bench);
export const openDemo = bench.openDemo.bind(bench);
export const restoreDemo = bench.restoreDemo.bind(bench);
export const openSheet = bench.openSheet.bind(bench);
export const listSheets = bench.listSheets.bind(bench);
export const deleteSheet = bench.deleteSheet.bind(bench);
export const rawSheet = bench.rawSheet.bind(bench);
export const keepMine = bench.keepMine.bind(bench);
export const takeOther = bench.takeOther.bind(bench);
export const saved = bench.saved.bind(bench);

export const importJson = bench.importJson.bind(bench);
export const importFile = bench.importFile.bind(bench);
export const exportJson = bench.exportJson.bind(bench);
export const putPicture = bench.putPicture.bind(bench);
export const pictureBlob = bench.pictureBlob.bind(bench);
export const dismissNotice = bench.dismissNotice.bind(bench);

if (inPage) {
  void bench.start();
  addEventListener('pagehide', () => bench.leave());
  document.addEventListener('visibilitychange', () =>
    document.visibilityState === 'hidden' ? bench.leave() : void bench.refresh(),
  );
  // A page brought back from the browser's own cache still shows what stood when it was left.
  addEventListener('pageshow', (event) => {
    if (event.persisted) void bench.reopen();
  });
}
