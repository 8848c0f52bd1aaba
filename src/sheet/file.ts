import { refusal, success, type Result } from '../physics/index';
import { dataUrl, fromDataUrl } from './base64';
import type { BenchFile } from './fileFormat';
import { brokenRule } from './invalid';
import { migrate, type MigrationReason } from './migrations';
import type { BenchSheet } from './schema';

/** A sheet with the pictures that came in its file, by picture id. */
export interface FiledSheet {
  readonly sheet: BenchSheet;
  readonly pictures: ReadonlyMap<string, Blob>;
}

export type FileReason = MigrationReason | 'empty' | 'too-big' | 'not-text' | 'not-json';

/** Some hundred pictures. More than this in one text exhausts a phone's memory. */
export const LARGEST_FILE_BYTES = 200_000_000;

const CHOOSE = 'Choose a .json file that this workbook exported.';

/** Everything of a sheet as JSON text, pictures inside. The format is assets/bench-sheet.schema.json. */
export async function sheetToText(sheet: BenchSheet, pictures: ReadonlyMap<string, Blob>): Promise<string> {
  const pictureFiles: Record<string, string> = {};
  for (const [id, picture] of pictures) pictureFiles[id] = await dataUrl(picture);
  const file: BenchFile = { ...sheet, pictureFiles };
  return `${JSON.stringify(file, null, 2)}\n`;
}

const isRecord = (value: unknown): value is Record<string, unknown> =>
  typeof value === 'object' && value !== null && !Array.isArray(value);

function readPictures(files: unknown): Result<Map<string, Blob>, FileReason> {
  const pictures = new Map<string, Blob>();
  if (files === undefined) return success(pictures);
  if (!isRecord(files))
    return refusal(
      'invalid',
      brokenRule(['pictureFiles'], 'needs a record of pictures', `got ${typeof files}`),
    );
  for (const [id, text] of Object.entries(files)) {
    const picture = typeof text === 'string' ? fromDataUrl(text) : null;
    if (picture === null)
      return refusal(
        'invalid',
        brokenRule(
          ['pictureFiles', id],
          'needs a JPEG, PNG or WebP picture as a base64 data URL',
          `got “${String(text).slice(0, 40)}…”`,
        ),
      );
    pictures.set(id, picture);
  }
  return success(pictures);
}

/** The sheet in a JSON text of any version, or a message naming the field in words and in the file. */
export function sheetFromText(text: string): Result<FiledSheet, FileReason> {
  if (text.trim() === '') return refusal('empty', `File: needs a bench sheet; it is empty. ${CHOOSE}`);
  let record: unknown;
  try {
    record = JSON.parse(text.replace(/^\uFEFF/, ''));
  } catch (error) {
    const why = error instanceof Error ? error.message : 'it cannot be read';
    return refusal('not-json', `File: needs complete JSON; ${why}. It may be cut short: export it again.`);
  }
  if (!isRecord(record))
    return refusal('not-a-sheet', `File: needs a bench sheet; this is other JSON. ${CHOOSE}`);
  const { pictureFiles, ...rest } = record;
  const sheet = migrate(rest);
  if (!sheet.ok) return sheet;
  const pictures = readPictures(pictureFiles);
  return pictures.ok ? success({ sheet: sheet.value, pictures: pictures.value }) : pictures;
}

/** The text of a file a reader chose, or why it cannot be a bench sheet. */
export async function textOfFile(file: Blob): Promise<Result<string, FileReason>> {
  if (file.size === 0) return refusal('empty', `File: needs a bench sheet; it is empty. ${CHOOSE}`);
  if (file.size > LARGEST_FILE_BYTES)
    return refusal(
      'too-big',
      `File: needs at most ${LARGEST_FILE_BYTES / 1e6} MB; it has ${Math.round(file.size / 1e6)} MB. ${CHOOSE}`,
    );
  const head = new Uint8Array(await file.slice(0, 4096).arrayBuffer());
  // JSON holds no zero byte; pictures, films and archives do.
  if (head.includes(0) || (head[0] === 0xff && head[1] === 0xd8))
    return refusal(
      'not-text',
      `File: needs JSON text; this is a picture or another binary file. ${CHOOSE} Pictures are added beside the photographs.`,
    );
  return success(await file.text());
}
