import { batch, computed, signal, type ReadonlySignal } from '@preact/signals-core';
import { refusal, success, type Result } from '../physics/index';
import { Autosave, type SaveState } from './autosave';
import { emptySheet, emptyState } from './empty';
import { sheetFromText, sheetToText, textOfFile, type FileReason } from './file';
import { History } from './history';
import { newId } from './ids';
import { copyOf, shareUnchanged } from './immutable';
import type { Journal } from './journal';
import { memoryStorage } from './memoryStorage';
import { migrate } from './migrations';

import { mendReferences } from './references';
import type { BenchSheet, BuildState } from './schema';
import type { ReadReason, SheetEntry, SheetStorage, WriteReason } from './storage';
import { validChange } from './validChange';

/** Id under which the demo truck's sheet is kept once the reader has changed it. */
export const DEMO_SHEET_ID = 'bramble';

export type Recipe = (draft: BenchSheet) => void;

/** Something the reader should know of the bench as a whole; shown until dismissed. */
export interface Notice {
  readonly code: string;
  readonly message: string;
}

/** What the bench needs from the page around it. Tests pass their own. */
export interface BenchSurroundings {
  readonly openStorage: () => Promise<SheetStorage>;
  /** The demo sheet as fetched, not validated. Rejects when it cannot be had. */
  readonly fetchDemo: () => Promise<unknown>;
  readonly fetchDemoPicture: (pictureId: string) => Promise<Blob | undefined>;
  readonly journal: Journal | null;
  readonly now: () => Date;
}

export type EditReason = 'not-ready' | 'invalid';
export type OpenReason = ReadReason | 'not-ready' | 'not-saved';

const NOT_READY = refusal('not-ready', 'The bench sheet is still being opened. Try again in a moment.');

/** YYYY-MM-DD by the reader's own clock. */
const dateOf = (time: Date): string =>
  [time.getFullYear(), time.getMonth() + 1, time.getDate()]
    .map((part) => String(part).padStart(2, '0'))
    .join('-');

const freeze = (sheet: BenchSheet): BenchSheet => {
  shareUnchanged<unknown>(null, sheet);
  return sheet;
};

/**
 * The one open sheet: what is kept, what is tried, undo, saving. Every change of a kept value goes through
 * edit() or keepTrial(). Sheets are frozen; an edit gives a new one that shares all unchanged branches.
 */
export class Bench {
  readonly #surroundings: BenchSurroundings;
  readonly #kept = signal(freeze(emptySheet()));
  readonly #trial = signal<BenchSheet | null>(null);
  readonly #ready = signal(false);
  readonly #notices = signal<readonly Notice[]>([]);
  readonly #history = new History();
  #storage: SheetStorage;
  readonly #autosave = signal<Autosave>(this.#newAutosave(memoryStorage(() => new Date())));

  /** The sheet of kept values. An empty sheet until `ready`. */
  readonly kept: ReadonlySignal<BenchSheet> = this.#kept;
  /** The trial copy, or null while nothing is being tried. */
  readonly trial: ReadonlySignal<BenchSheet | null> = this.#trial;
  /** What calculators compute from: the trial copy if there is one, else the kept sheet. */
  readonly current: ReadonlySignal<BenchSheet> = computed(() => this.#trial.value ?? this.#kept.value);
  /** The build state that is open. Only what belongs to it is computed together. */
  readonly openState: ReadonlySignal<BuildState> = computed(() => {
    const { states, openState } = this.current.value;
    const state = states.find(({ id }) => id === openState) ?? states[0];
    if (!state) throw new Error('A sheet without states passed validation.');
    return state;
  });
  /** true once a sheet has been opened, from storage or the demo truck's. */
  readonly ready: ReadonlySignal<boolean> = this.#ready;
  readonly saveState: ReadonlySignal<SaveState> = computed(() => this.#autosave.value.saveState.value);
  readonly notices: ReadonlySignal<readonly Notice[]> = this.#notices;
  /** The label of the edit that undo takes back (redo brings again); null where there is none. */
  readonly undoLabel: ReadonlySignal<string | null> = this.#history.undoLabel;
  readonly redoLabel: ReadonlySignal<string | null> = this.#history.redoLabel;
  readonly canUndo: ReadonlySignal<boolean> = computed(() => this.undoLabel.value !== null);
  readonly canRedo: ReadonlySignal<boolean> = computed(() => this.redoLabel.value !== null);

  constructor(surroundings: BenchSurroundings) {
    this.#surroundings = surroundings;
    this.#storage = memoryStorage(surroundings.now);
  }

  /** Opens storage and the sheet that was open last; the demo truck's on a first visit. Call once. */
  async start(): Promise<void> {
    try {
      this.#storage = await this.#surroundings.openStorage();
    } catch {
      this.#storage = memoryStorage(this.#surroundings.now);
    }
    this.#autosave.value = this.#newAutosave(this.#storage);
    await this.#takeJournal();
    const id = await this.#storage.readOpenSheet().catch(() => undefined);
    if (id !== undefined && id !== DEMO_SHEET_ID) {
      const opened = await this.#openStored(id);
      if (opened.ok) return;
      if (opened.reason !== 'not-found')
        this.#notify(
          'sheet-unreadable',
          `${opened.message} It is kept as it is; the demo truck is open instead.`,
        );
    }
    await this.#openDemoSheet();
  }

  // Kept and trial ---------------------------------------------------------------------------------------

  /**
   * Changes the kept sheet, undoably; saved by itself. The trial, if any, takes the same change. Refuses a recipe
   * whose outcome is no valid sheet, and changes nothing then.
   * @param label what undo will say it takes back, e.g. "Move mark C"
   * @param mergeKey edits in a row with the same key are one step (a drag, typing in one field), until settle()
   */
  edit(label: string, recipe: Recipe, mergeKey?: string): Result<BenchSheet, EditReason> {
    if (!this.#ready.peek()) return NOT_READY;
    const before = this.#kept.peek();
    const after = this.#apply(before, recipe);
    if (!after.ok) return after;
    const trial = this.#trial.peek();
    const tried = trial && this.#apply(trial, recipe);
    batch(() => {
      if (tried) this.#trial.value = tried.ok ? tried.value : null;
      if (after.value !== before) this.#keep(label, after.value, mergeKey);
    });
    return after;
  }

  /** Ends a run of merged edits, e.g. when the pointer is let go or the field is left. */
  settle(): void {
    this.#history.settle();
  }

  undo(): void {
    this.#step(this.#history.undo());
  }

  redo(): void {
    this.#step(this.#history.redo());
  }

  /** Starts a trial from the kept sheet, if none is on. */
  beginTrial(): void {
    if (this.#ready.peek() && this.#trial.peek() === null) this.#trial.value = this.#kept.peek();
  }

  /** Changes the trial copy, begun if need be. The kept sheet stays as it is, and nothing is saved. */
  tryOut(recipe: Recipe): Result<BenchSheet, EditReason> {
    if (!this.#ready.peek()) return NOT_READY;
    const after = this.#apply(this.#trial.peek() ?? this.#kept.peek(), recipe);
    if (after.ok) this.#trial.value = after.value;
    return after;
  }

  /** Makes the trial copy the kept sheet, as one undoable edit. */
  keepTrial(label = 'Keep what was tried'): void {
    const trial = this.#trial.peek();
    if (trial === null) return;
    batch(() => {
      this.#trial.value = null;
      if (trial !== this.#kept.peek()) this.#keep(label, trial);
    });
  }

  discardTrial(): void {
    this.#trial.value = null;
  }

  // States -----------------------------------------------------------------------------------------------

  /**
   * Adds a state dated today and opens it: the open one's dimensions, parts, hooks, body marks and instruments.
   * Pictures, readings and intended changes stay behind, since they were of the truck as it was.
   */
  addState(name: string): Result<BenchSheet, EditReason> {
    const date = dateOf(this.#surroundings.now());
    return this.edit(`Add state ${name}`, (draft) => {
      const from = draft.states.find(({ id }) => id === draft.openState) ?? emptyState();
      const state: BuildState = {
        ...copyOf(from),
        id: newId(),
        name,
        date,
        pictures: [],
        readings: [],
        changes: [],
        note: '',
      };
      draft.states.push(state);
      draft.openState = state.id;
    });
  }

  switchState(id: string): Result<BenchSheet, EditReason> {
    const name = this.#kept.peek().states.find((state) => state.id === id)?.name ?? '';
    return this.edit(`Open state ${name}`, (draft) => {
      if (draft.states.some((state) => state.id === id)) draft.openState = id;
    });
  }

  /** Removes a state; the last one cannot be removed. */
  deleteState(id: string): Result<BenchSheet, EditReason> {
    const name = this.#kept.peek().states.find((state) => state.id === id)?.name ?? '';
    return this.edit(`Delete state ${name}`, (draft) => {
      if (draft.states.length > 1) draft.states = draft.states.filter((state) => state.id !== id);
    });
  }

  // Sheets -----------------------------------------------------------------------------------------------

  /** Opens a new empty sheet. The one open so far is saved first; if it cannot be, nothing changes. */
  async newSheet(name = 'My truck'): Promise<Result<BenchSheet, OpenReason | WriteReason>> {
    return this.#openNew(emptySheet(name), new Map());
  }

  /** Opens a copy of the open sheet as a sheet of its own, pictures included: how the demo truck becomes yours. */
  async copySheet(name: string): Promise<Result<BenchSheet, OpenReason | WriteReason>> {
    const copy: BenchSheet = { ...copyOf(this.#kept.peek()), id: newId(), name, demo: false };
    return this.#openNew(copy, await this.#pictures());
  }

  /** Opens the demo truck's sheet, with the reader's changes to it if there are any. */
  async openDemo(): Promise<Result<BenchSheet, OpenReason>> {
    const saved = await this.#saveFirst();
    if (!saved.ok) return saved;
    await this.#openDemoSheet();
    return success(this.#kept.peek());
  }

  /** Puts the demo truck's sheet back as it ships, undoably. */
  async restoreDemo(): Promise<Result<BenchSheet, OpenReason | EditReason>> {
    const opened = await this.openDemo();
    if (!opened.ok) return opened;
    const demo = await this.#fetchDemo();
    if (!demo.ok) return demo;
    return this.edit('Restore the demo truck', (draft) => {
      Object.assign(draft, copyOf(demo.value), { id: draft.id });
    });
  }

  async openSheet(id: string): Promise<Result<BenchSheet, OpenReason>> {
    const saved = await this.#saveFirst();
    return saved.ok ? this.#openStored(id) : saved;
  }

  /** All stored sheets, last written first. The open one is saved before, so that it is among them. */
  async listSheets(): Promise<SheetEntry[]> {
    await this.#autosave.peek().flush();
    return this.#storage.listSheets();
  }

  /** Deletes a sheet and its pictures for good. Deleting the open one opens the next, or the demo truck's. */
  async deleteSheet(id: string): Promise<void> {
    await this.#autosave.peek().flush();
    await this.#storage.deleteSheet(id);
    if (id !== this.#kept.peek().id) return;
    for (const entry of await this.#storage.listSheets())
      if (entry.problem === null && (await this.#openStored(entry.id)).ok) return;
    await this.#openDemoSheet();
  }

  /** The stored record as it is, even where it cannot be opened, so that a reader can save it to a file. */
  rawSheet(id: string): Promise<string | undefined> {
    return this.#storage.rawSheet(id);
  }

  // Two tabs ---------------------------------------------------------------------------------------------

  /** Keeps this tab's sheet and overwrites the other tab's. */
  async keepMine(): Promise<void> {
    await this.#autosave.peek().overwrite();
  }

  /** Takes what the other tab stored; undo brings this tab's back. */
  async takeOther(): Promise<Result<BenchSheet, OpenReason>> {
    const stored = await this.#storage.readSheet(this.#kept.peek().id);
    if (!stored.ok) return stored;
    this.#adopt(stored.value.sheet, stored.value.revision);
    return success(this.#kept.peek());
  }

  /**
   * Looks whether another tab wrote the open sheet meanwhile, and shows that, if nothing is unsaved here. Call
   * when the page comes back into view.
   */
  async refresh(): Promise<void> {
    const autosave = this.#autosave.peek();
    if (!this.#ready.peek() || autosave.held || !this.#storage.lasting) return;
    const { id } = this.#kept.peek();
    const revision = await this.#storage.revisionOf(id).catch(() => autosave.revision);
    if (revision === autosave.revision || this.#kept.peek().id !== id) return;
    if (autosave.unsaved) autosave.hold(revision === 0 ? 'deleted-elsewhere' : 'changed-elsewhere');
    else if (revision > 0) await this.takeOther();
    else autosave.hold('deleted-elsewhere');
  }

  /** refresh() for a page brought back from the browser's cache: another sheet may have been opened since. */
  async reopen(): Promise<void> {
    const id = await this.#storage.readOpenSheet().catch(() => undefined);
    const other = id !== undefined && id !== this.#kept.peek().id;
    if (other && this.#ready.peek() && !this.#autosave.peek().unsaved && (await this.#openStored(id)).ok)
      return;
    await this.refresh();
  }

  /** Saves at once. Call when the page goes out of view or is left. */
  leave(): void {
    const autosave = this.#autosave.peek();
    if (!this.#ready.peek() || !autosave.unsaved || autosave.held) return;
    const { journal } = this.#surroundings;
    if (this.#storage.lasting) journal?.write(this.#kept.peek(), autosave.revision);
    void autosave.flush().then(() => {
      if (!autosave.unsaved) journal?.clear();
    });
  }

  /** Resolves when all that can be saved is saved. */
  saved(): Promise<void> {
    return this.#autosave.peek().flush();
  }

  // Files and pictures -----------------------------------------------------------------------------------

  /** Opens a sheet from exported text as a sheet of its own. Bad text changes nothing and says what is wrong. */
  async importJson(text: string): Promise<Result<BenchSheet, FileReason | OpenReason | WriteReason>> {
    const file = sheetFromText(text);
    if (!file.ok) return file;
    const { sheet, pictures } = file.value;
    const taken = sheet.id === DEMO_SHEET_ID || (await this.#storage.revisionOf(sheet.id)) > 0;
    const named: BenchSheet = { ...sheet, id: taken ? newId() : sheet.id, demo: false };
    return this.#openNew(named, pictures);
  }

  /** importJson() of a file the reader chose; says so when it is no text at all. */
  async importFile(file: Blob): Promise<Result<BenchSheet, FileReason | OpenReason | WriteReason>> {
    const text = await textOfFile(file);
    return text.ok ? this.importJson(text.value) : text;
  }

  /** The kept sheet as JSON text, pictures inside. */
  async exportJson(): Promise<string> {
    const sheet = this.#kept.peek();
    return sheetToText(sheet, await this.#pictures());
  }

  /** Stores the file of a picture of the open sheet, under the picture's id. */
  async putPicture(pictureId: string, picture: Blob): Promise<Result<null, WriteReason>> {
    return this.#storage.writePicture(this.#kept.peek().id, pictureId, picture);
  }

  /** The file of a picture of the open sheet; undefined where it is missing. */
  async pictureBlob(pictureId: string): Promise<Blob | undefined> {
    const { id, demo } = this.#kept.peek();
    const stored = await this.#storage.readPicture(id, pictureId).catch(() => undefined);
    if (stored || !demo) return stored;
    return this.#surroundings.fetchDemoPicture(pictureId).catch(() => undefined);
  }

  dismissNotice(code: string): void {
    this.#notices.value = this.#notices.peek().filter((notice) => notice.code !== code);
  }

  // ------------------------------------------------------------------------------------------------------

  #newAutosave(storage: SheetStorage): Autosave {
    return new Autosave(storage, () => this.#kept.peek());
  }

  #notify(code: string, message: string): void {
    this.dismissNotice(code);
    this.#notices.value = [...this.#notices.peek(), { code, message }];
  }

  #apply(sheet: BenchSheet, recipe: Recipe): Result<BenchSheet, 'invalid'> {
    const draft = copyOf(sheet);
    recipe(draft);
    mendReferences(draft);
    const after = shareUnchanged(sheet, draft);
    if (after === sheet) return success(sheet);
    return validChange(sheet, after);
  }

  #keep(label: string, after: BenchSheet, mergeKey?: string): void {
    this.#history.record(label, this.#kept.peek(), after, mergeKey);
    this.#kept.value = after;
    this.#autosave.peek().changed();
  }

  /** Undo and redo end a trial: it was begun from values that no longer stand. */
  #step(sheet: BenchSheet | null): void {
    if (sheet === null) return;
    batch(() => {
      this.#trial.value = null;
      this.#kept.value = sheet;
    });
    this.#autosave.peek().changed();
  }

  /** Another tab's sheet in place of ours, as a step that undo takes back. */
  #adopt(sheet: BenchSheet, revision: number): void {
    const before = this.#kept.peek();
    const after = shareUnchanged(before, copyOf(sheet));
    batch(() => {
      this.#trial.value = null;
      if (after !== before) this.#history.record('Changes from another tab', before, after);
      this.#kept.value = after;
      this.#autosave.peek().opened(after, revision);
    });
  }

  #open(sheet: BenchSheet, revision: number): void {
    const frozen = freeze(sheet);
    batch(() => {
      this.#trial.value = null;
      this.#history.clear();
      this.#kept.value = frozen;
      this.#autosave.peek().opened(frozen, revision);
      this.#ready.value = true;
    });
    const wanted = new Set(frozen.states.flatMap((state) => state.pictures.map(({ id }) => id)));
    // Housekeeping: whether it succeeds changes nothing the reader sees now.
    this.#storage.writeOpenSheet(frozen.id).catch(() => undefined);
    this.#storage.sweepPictures(frozen.id, wanted).catch(() => undefined);
  }

  async #openStored(id: string): Promise<Result<BenchSheet, OpenReason>> {
    const stored = await this.#storage.readSheet(id);
    if (!stored.ok) return stored;
    this.#open(stored.value.sheet, stored.value.revision);
    return success(this.#kept.peek());
  }

  async #saveFirst(): Promise<Result<null, 'not-ready' | 'not-saved'>> {
    if (!this.#ready.peek()) return NOT_READY;
    const autosave = this.#autosave.peek();
    await autosave.flush();
    const now = autosave.saveState.peek();
    if (!autosave.unsaved || now.state !== 'not saved') return success(null);
    return refusal('not-saved', `${now.message} The open sheet stays open until then.`);
  }

  async #openNew(
    sheet: BenchSheet,
    pictures: ReadonlyMap<string, Blob>,
  ): Promise<Result<BenchSheet, OpenReason | WriteReason>> {
    const saved = await this.#saveFirst();
    if (!saved.ok) return saved;
    const written = await this.#storage.writeSheet(sheet, 0);
    if (!written.ok) return written;
    for (const [id, picture] of pictures) {
      const stored = await this.#storage.writePicture(sheet.id, id, picture);
      if (stored.ok) continue;
      await this.#storage.deleteSheet(sheet.id);
      return stored;
    }
    this.#open(sheet, written.value);
    return success(this.#kept.peek());
  }

  async #fetchDemo(): Promise<Result<BenchSheet, 'storage-failed'>> {
    try {
      const demo = migrate(await this.#surroundings.fetchDemo());
      if (demo.ok) return success({ ...demo.value, id: DEMO_SHEET_ID, demo: true });
      return refusal('storage-failed', `Demo truck: ${demo.message}`);
    } catch {
      return refusal(
        'storage-failed',
        'Demo truck: needs the network once; it could not be fetched. Reload when you are online, or start a sheet of your own.',
      );
    }
  }

  /** The stored demo sheet, else the shipped one, else an empty sheet and a notice. */
  async #openDemoSheet(): Promise<void> {
    const stored = await this.#storage.readSheet(DEMO_SHEET_ID);
    if (stored.ok) return this.#open(stored.value.sheet, stored.value.revision);
    const demo = await this.#fetchDemo();
    if (!demo.ok) {
      this.#notify('demo-missing', demo.message);
      return this.#open(emptySheet(), 0);
    }
    if (stored.reason === 'not-found') return this.#open(demo.value, 0);
    this.#notify(
      'sheet-unreadable',
      `${stored.message} It is kept as it is; the demo truck is open as it ships.`,
    );
    return this.#open({ ...demo.value, id: newId() }, 0);
  }

  async #pictures(): Promise<Map<string, Blob>> {
    const pictures = new Map<string, Blob>();
    for (const state of this.#kept.peek().states)
      for (const { id } of state.pictures) {
        const picture = await this.pictureBlob(id);
        if (picture) pictures.set(id, picture);
      }
    return pictures;
  }

  /** Stores what the last page could not save while it was being left. */
  async #takeJournal(): Promise<void> {
    const left = this.#surroundings.journal?.take();
    if (!left || !this.#storage.lasting) return;
    const written = await this.#storage.writeSheet(left.sheet, left.revision);
    if (written.ok || written.reason !== 'changed-elsewhere') return;
    const stored = await this.#storage.readSheet(left.sheet.id);
    if (stored.ok && shareUnchanged(stored.value.sheet, copyOf(left.sheet)) === stored.value.sheet) return;
    const name = `${left.sheet.name} (left unsaved)`;
    await this.#storage.writeSheet({ ...left.sheet, id: newId(), name, demo: false }, 0);
    this.#notify(
      'left-unsaved',
      `Another tab changed ${left.sheet.name} before it was saved here. What stood here is kept as “${name}”.`,
    );
  }
}
