import { signal, type ReadonlySignal } from '@preact/signals-core';
import type { BenchSheet } from './schema';
import { CHANGED_ELSEWHERE, DELETED_ELSEWHERE, type SheetStorage, type WriteReason } from './storage';

export type SaveState =
  | { readonly state: 'saved' | 'saving' }
  | { readonly state: 'not saved'; readonly reason: WriteReason | 'no-storage'; readonly message: string };

export const NO_STORAGE: SaveState = {
  state: 'not saved',
  reason: 'no-storage',
  message:
    'Not saved: this browser keeps nothing for this page, so the sheet lasts until you close it. Export it to a file before you leave.',
};

/** Long enough to gather a drag, short enough that a closed lid loses nothing worth naming. */
const QUIET_MS = 300;

/**
 * Writes the open sheet a moment after its last change. Stops when another tab wrote the same sheet, until the
 * reader decides; every other failure is tried again with the next change.
 */
export class Autosave {
  readonly #storage: SheetStorage;
  readonly #current: () => BenchSheet;
  readonly #saveState = signal<SaveState>({ state: 'saved' });
  #written: BenchSheet | null = null;
  #revision = 0;
  #timer: ReturnType<typeof setTimeout> | undefined;
  #running: Promise<void> | null = null;

  readonly saveState: ReadonlySignal<SaveState> = this.#saveState;

  constructor(storage: SheetStorage, current: () => BenchSheet) {
    this.#storage = storage;
    this.#current = current;
    if (!storage.lasting) this.#saveState.value = NO_STORAGE;
  }

  /** How often the open sheet had been written when this page last read or wrote it. */
  get revision(): number {
    return this.#revision;
  }

  /** Whether the open sheet differs from what this page last read or wrote. */
  get unsaved(): boolean {
    return this.#current() !== this.#written;
  }

  /** Whether another tab changed or deleted the sheet and the reader has not decided yet. */
  get held(): boolean {
    const now = this.#saveState.peek();
    return (
      now.state === 'not saved' && (now.reason === 'changed-elsewhere' || now.reason === 'deleted-elsewhere')
    );
  }

  /** Starts anew for a sheet just read (or fetched: revision 0). */
  opened(sheet: BenchSheet, revision: number): void {
    clearTimeout(this.#timer);
    this.#written = sheet;
    this.#revision = revision;
    this.#saveState.value = this.#storage.lasting ? { state: 'saved' } : NO_STORAGE;
  }

  /** The open sheet changed: it will be written after a quiet moment. */
  changed(): void {
    clearTimeout(this.#timer);
    if (this.held) return;
    if (this.#storage.lasting) this.#saveState.value = { state: 'saving' };
    this.#timer = setTimeout(() => void this.flush(), QUIET_MS);
  }

  /** Writes now what is unsaved. Resolves when nothing more can be written. */
  async flush(): Promise<void> {
    clearTimeout(this.#timer);
    while (this.#running) await this.#running;
    if (this.held || !this.unsaved) return;
    this.#running = this.#write(this.#revision).finally(() => (this.#running = null));
    await this.#running;
  }

  /** Writes over whatever is stored: the reader's decision to keep what stands here. */
  async overwrite(): Promise<void> {
    while (this.#running) await this.#running;
    this.#running = this.#write(null).finally(() => (this.#running = null));
    await this.#running;
  }

  /** Another tab is known to have changed or deleted the sheet: hold until the reader decides. */
  hold(reason: 'changed-elsewhere' | 'deleted-elsewhere'): void {
    const message = reason === 'changed-elsewhere' ? CHANGED_ELSEWHERE : DELETED_ELSEWHERE;
    this.#saveState.value = { state: 'not saved', reason, message };
  }

  async #write(expected: number | null): Promise<void> {
    const sheet = this.#current();
    const result = await this.#storage.writeSheet(sheet, expected);
    // Another sheet may have been opened meanwhile; its own state stands then.
    if (this.#current().id !== sheet.id) return;
    if (!result.ok) {
      const { reason, message } = result;
      this.#saveState.value = { state: 'not saved', reason, message };
      return;
    }
    this.#revision = result.value;
    this.#written = sheet;
    if (!this.#storage.lasting) this.#saveState.value = NO_STORAGE;
    else if (this.unsaved) this.changed();
    else this.#saveState.value = { state: 'saved' };
  }
}
