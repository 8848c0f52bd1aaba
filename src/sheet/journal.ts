import { migrate } from './migrations';
import type { BenchSheet } from './schema';

/**
 * One sheet written down at once while the page is being left, since a page on its way out cannot wait for the
 * database. Read back, and cleared, by the next page.
 */
export interface Journal {
  write(sheet: BenchSheet, revision: number): void;
  take(): { readonly sheet: BenchSheet; readonly revision: number } | null;
  clear(): void;
}

const KEY = 'plumb-low left unsaved';

/** A journal in the browser's small synchronous store. Does nothing where that is refused. */
export function storageJournal(store: Storage): Journal {
  return {
    write(sheet, revision) {
      try {
        store.setItem(KEY, JSON.stringify({ sheet, revision }));
      } catch {
        // Full or refused: the database write that runs beside this one is then the only one.
      }
    },
    take() {
      try {
        const left: unknown = JSON.parse(store.getItem(KEY) ?? 'null');
        store.removeItem(KEY);
        if (typeof left !== 'object' || left === null || !('sheet' in left) || !('revision' in left))
          return null;
        const sheet = migrate(left.sheet);
        return sheet.ok && typeof left.revision === 'number'
          ? { sheet: sheet.value, revision: left.revision }
          : null;
      } catch {
        return null;
      }
    },
    clear() {
      try {
        store.removeItem(KEY);
      } catch {
        // Refused before, so nothing is there.
      }
    },
  };
}
