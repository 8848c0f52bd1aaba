import type { Result } from '../physics/index';
import type { MigrationReason } from './migrations';
import type { BenchSheet } from './schema';

/** A sheet as read back, with the number of times it was written. The revision tells two tabs apart. */
export interface StoredSheet {
  readonly sheet: BenchSheet;
  readonly revision: number;
}

/** A line of the list of sheets. `problem` says why the sheet cannot be opened; it is kept all the same. */
export interface SheetEntry {
  readonly id: string;
  readonly name: string;
  /** ISO date and time of the last write. */
  readonly savedAt: string;
  readonly problem: string | null;
}

export type ReadReason = MigrationReason | 'not-found' | 'storage-failed';
export type WriteReason = 'changed-elsewhere' | 'deleted-elsewhere' | 'no-room' | 'storage-failed';

/**
 * Where sheets and their pictures are kept. Nothing here throws for what a reader can meet: a full disk, a
 * second tab, a record that does not validate.
 */
export interface SheetStorage {
  /** false where the browser keeps nothing beyond this page. */
  readonly lasting: boolean;
  /** Validated on every read. */
  readSheet(id: string): Promise<Result<StoredSheet, ReadReason>>;
  /** The stored revision without reading the sheet; 0 where there is none. */
  revisionOf(id: string): Promise<number>;
  /**
   * Writes if the stored revision is still `expected` (0: not stored yet), else refuses and leaves the stored
   * sheet as it is. `expected` null writes in any case. Gives the new revision.
   */
  writeSheet(sheet: BenchSheet, expected: number | null): Promise<Result<number, WriteReason>>;
  listSheets(): Promise<SheetEntry[]>;
  /** The record exactly as stored, valid or not, as JSON text; undefined where there is none. */
  rawSheet(id: string): Promise<string | undefined>;
  /** Removes the sheet and its pictures. */
  deleteSheet(id: string): Promise<void>;
  writePicture(sheetId: string, pictureId: string, picture: Blob): Promise<Result<null, WriteReason>>;
  readPicture(sheetId: string, pictureId: string): Promise<Blob | undefined>;
  /** Removes pictures of the sheet that are not in `wanted` and older than a day (an undo may still want the rest). */
  sweepPictures(sheetId: string, wanted: ReadonlySet<string>): Promise<void>;
  readOpenSheet(): Promise<string | undefined>;
  writeOpenSheet(id: string): Promise<void>;
}

export const CHANGED_ELSEWHERE =
  'Not saved: this sheet was changed in another tab since you opened it here. Choose which of the two to keep.';
export const DELETED_ELSEWHERE =
  'Not saved: this sheet was deleted in another tab. Keep it from here, or open another sheet.';
export const NO_ROOM =
  'Not saved: this browser has no room left for the workbook. Export the sheet, then delete sheets or pictures you no longer need.';
export const STORAGE_FAILED =
  'Not saved: this browser refused to store the sheet. Export it to a file before you leave this page.';
