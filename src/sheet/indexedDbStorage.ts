import { openDB, type DBSchema, type IDBPDatabase } from 'idb';
import { refusal, success, type Refusal } from '../physics/index';
import { migrate } from './migrations';
import {
  CHANGED_ELSEWHERE,
  DELETED_ELSEWHERE,
  NO_ROOM,
  STORAGE_FAILED,
  type SheetStorage,
  type WriteReason,
} from './storage';

/** `sheet` is unknown on purpose: what comes back from a store is validated before it is a sheet. */
interface SheetRecord {
  id: string;
  name: string;
  revision: number;
  savedAt: string;
  sheet: unknown;
}

/** Bytes and type rather than a Blob, which some browsers lose or refuse in private windows. */
interface PictureRecord {
  sheetId: string;
  pictureId: string;
  type: string;
  bytes: ArrayBuffer;
  addedAt: number;
}

interface Tables extends DBSchema {
  sheets: { key: string; value: SheetRecord };
  pictures: { key: [string, string]; value: PictureRecord; indexes: { bySheet: string } };
  settings: { key: string; value: string };
}

const DATABASE = 'plumb-low';
const OPEN_SHEET = 'open sheet';
const ONE_DAY_MS = 24 * 60 * 60 * 1000;

const open = (): Promise<IDBPDatabase<Tables>> =>
  openDB<Tables>(DATABASE, 1, {
    upgrade(database, oldVersion) {
      if (oldVersion >= 1) return;
      database.createObjectStore('sheets', { keyPath: 'id' });
      const pictures = database.createObjectStore('pictures', { keyPath: ['sheetId', 'pictureId'] });
      pictures.createIndex('bySheet', 'sheetId');
      database.createObjectStore('settings');
    },
    blocking(_old, _blocked, event) {
      // A newer workbook in another tab wants the database; this page goes on and says "not saved" when it must.
      if (event.target instanceof IDBDatabase) event.target.close();
    },
  });

function writeRefused(error: unknown): Refusal<WriteReason> {
  const full = error instanceof DOMException && error.name === 'QuotaExceededError';
  return full ? refusal('no-room', NO_ROOM) : refusal('storage-failed', STORAGE_FAILED);
}

/** Sheets and pictures in this browser's IndexedDB. Rejects where the browser has none. */
export async function indexedDbStorage(now: () => Date): Promise<SheetStorage> {
  const database = await open();
  return {
    lasting: true,

    async readSheet(id) {
      try {
        const record = await database.get('sheets', id);
        if (!record) return refusal('not-found', 'This sheet is no longer stored here. Open another one.');
        const sheet = migrate(record.sheet);
        return sheet.ok ? success({ sheet: sheet.value, revision: record.revision }) : sheet;
      } catch {
        return refusal(
          'storage-failed',
          'This browser could not read the sheet. Reload the page to try again.',
        );
      }
    },

    async revisionOf(id) {
      return (await database.get('sheets', id))?.revision ?? 0;
    },

    async writeSheet(sheet, expected) {
      try {
        const change = database.transaction('sheets', 'readwrite');
        const stored = await change.store.get(sheet.id);
        const present = stored?.revision ?? 0;
        if (expected !== null && present !== expected) {
          await change.done;
          return stored
            ? refusal('changed-elsewhere', CHANGED_ELSEWHERE)
            : refusal('deleted-elsewhere', DELETED_ELSEWHERE);
        }
        const revision = present + 1;
        await change.store.put({
          id: sheet.id,
          name: sheet.name,
          revision,
          savedAt: now().toISOString(),
          sheet,
        });
        await change.done;
        return success(revision);
      } catch (error) {
        return writeRefused(error);
      }
    },

    async listSheets() {
      const records = await database.getAll('sheets');
      return records
        .map(({ id, name, savedAt, sheet }) => {
          const checked = migrate(sheet);
          return { id, name, savedAt, problem: checked.ok ? null : checked.message };
        })
        .sort((one, other) => other.savedAt.localeCompare(one.savedAt));
    },

    async rawSheet(id) {
      const record = await database.get('sheets', id);
      return record && JSON.stringify(record.sheet, null, 2);
    },

    async deleteSheet(id) {
      const change = database.transaction(['sheets', 'pictures'], 'readwrite');
      await change.objectStore('sheets').delete(id);
      const pictures = change.objectStore('pictures');
      for (const key of await pictures.index('bySheet').getAllKeys(id)) await pictures.delete(key);
      await change.done;
    },

    async writePicture(sheetId, pictureId, picture) {
      try {
        const bytes = await picture.arrayBuffer();
        const addedAt = now().getTime();
        await database.put('pictures', { sheetId, pictureId, type: picture.type, bytes, addedAt });
        return success(null);
      } catch (error) {
        return writeRefused(error);
      }
    },

    async readPicture(sheetId, pictureId) {
      const record = await database.get('pictures', [sheetId, pictureId]);
      return record && new Blob([record.bytes], { type: record.type });
    },

    async sweepPictures(sheetId, wanted) {
      const change = database.transaction('pictures', 'readwrite');
      const oldest = now().getTime() - ONE_DAY_MS;
      for (const record of await change.store.index('bySheet').getAll(sheetId)) {
        if (wanted.has(record.pictureId) || record.addedAt > oldest) continue;
        await change.store.delete([sheetId, record.pictureId]);
      }
      await change.done;
    },

    readOpenSheet: () => database.get('settings', OPEN_SHEET),

    async writeOpenSheet(id) {
      await database.put('settings', id, OPEN_SHEET);
    },
  };
}
