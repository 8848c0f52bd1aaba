import { refusal, success } from '../physics/index';
import {
  CHANGED_ELSEWHERE,
  DELETED_ELSEWHERE,
  type SheetEntry,
  type SheetStorage,
  type StoredSheet,
} from './storage';

/** Stands in where the browser keeps nothing: sheets and pictures last as long as the page. */
export function memoryStorage(now: () => Date): SheetStorage {
  const sheets = new Map<string, StoredSheet & { readonly savedAt: string }>();
  const pictures = new Map<string, Map<string, Blob>>();
  let openSheet: string | undefined;

  const entry = ({ sheet, savedAt }: { sheet: StoredSheet['sheet']; savedAt: string }): SheetEntry => ({
    id: sheet.id,
    name: sheet.name,
    savedAt,
    problem: null,
  });

  return {
    lasting: false,
    async readSheet(id) {
      const stored = sheets.get(id);
      if (!stored) return refusal('not-found', 'This sheet is no longer here. Open another one.');
      return success({ sheet: stored.sheet, revision: stored.revision });
    },
    async revisionOf(id) {
      return sheets.get(id)?.revision ?? 0;
    },
    async writeSheet(sheet, expected) {
      const present = sheets.get(sheet.id)?.revision ?? 0;
      if (expected !== null && present !== expected)
        return present > 0
          ? refusal('changed-elsewhere', CHANGED_ELSEWHERE)
          : refusal('deleted-elsewhere', DELETED_ELSEWHERE);
      sheets.set(sheet.id, { sheet, revision: present + 1, savedAt: now().toISOString() });
      return success(present + 1);
    },
    async listSheets() {
      return [...sheets.values()].map(entry).sort((one, other) => other.savedAt.localeCompare(one.savedAt));
    },
    async rawSheet(id) {
      const stored = sheets.get(id);
      return stored && JSON.stringify(stored.sheet, null, 2);
    },
    async deleteSheet(id) {
      sheets.delete(id);
      pictures.delete(id);
    },
    async writePicture(sheetId, pictureId, picture) {
      const ofSheet = pictures.get(sheetId) ?? new Map<string, Blob>();
      pictures.set(sheetId, ofSheet.set(pictureId, picture));
      return success(null);
    },
    async readPicture(sheetId, pictureId) {
      return pictures.get(sheetId)?.get(pictureId);
    },
    // The page will be gone before a day is over.
    async sweepPictures() {},
    async readOpenSheet() {
      return openSheet;
    },
    async writeOpenSheet(id) {
      openSheet = id;
    },
  };
}
