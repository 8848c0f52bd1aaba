import * as v from 'valibot';
import { BenchSheet } from './schema';

/** Start of every picture in a file. The rest is base64; a whole-text pattern would be slow on megabytes. */
export const PICTURE_DATA_URL = /^data:image\/(jpeg|png|webp);base64,/;

/**
 * What an exported file holds: the bench sheet, and its pictures as data URLs by picture id. A picture without
 * file is allowed: its marks still count, and the page says that the picture itself is missing.
 */
export const BenchFile = v.strictObject({
  ...BenchSheet.entries,
  pictureFiles: v.optional(
    v.record(
      v.pipe(v.string(), v.minLength(1), v.maxLength(60)),
      v.pipe(v.string(), v.regex(PICTURE_DATA_URL)),
    ),
  ),
});
export type BenchFile = v.InferOutput<typeof BenchFile>;
