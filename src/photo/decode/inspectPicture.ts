import { refusal, success, type Result } from '../../physics/index';
import { asStored } from './asStored';
import { byteSource } from './byteSource';
import { fileKind, HEAD_BYTES, isPicture, kindRefusal, type PictureKind } from './formats';
import { MOST_BYTES, MOST_PIXELS, SHORTEST_LONG_SIDE, type PictureReason } from './protocol';
import { broken } from './refusals';
import type { StoredPicture } from './stored';
import { storedPicture } from './storedPicture';

/** What can be known of a file from its bytes alone. */
export interface Inspected {
  readonly kind: PictureKind;
  /** The file to decode: without a word on its turn, so that nobody but us turns it. */
  readonly file: Blob;
  /** null where only decoding tells. */
  readonly stored: StoredPicture | null;
}

const tooBig = (message: string): Result<never, PictureReason> => refusal('too-big', `Picture: ${message}`);

/** Kind, size and orientation of a file, or why it is not taken. Rejects where the file cannot be read. */
export async function inspectPicture(file: Blob): Promise<Result<Inspected, PictureReason>> {
  const kind = fileKind(new Uint8Array(await file.slice(0, HEAD_BYTES).arrayBuffer()));
  if (!isPicture(kind)) {
    const name = typeof File !== 'undefined' && file instanceof File ? file.name : '';
    return refusal('not-a-picture', kindRefusal(kind, name));
  }
  if (file.size > MOST_BYTES)
    return tooBig(
      `needs at most ${MOST_BYTES / 1e6} MB; this file has ${Math.round(file.size / 1e6)} MB. Save it as JPEG first.`,
    );
  const stored = await storedPicture(kind, byteSource(file));
  if (stored === null) return success({ kind, file: file.slice(0, file.size, `image/${kind}`), stored });
  const { width, height } = stored;
  if (width === 0 || height === 0) return broken();
  const most = kind === 'jpeg' ? MOST_PIXELS.jpeg : MOST_PIXELS.other;
  if (width * height > most)
    return tooBig(
      kind === 'jpeg' || width * height > MOST_PIXELS.jpeg
        ? `needs at most ${most / 1e6} million pixels; this one is ${width} by ${height}. Reduce it in a picture program first.`
        : `needs at most ${most / 1e6} million pixels unless it is JPEG; this one is ${width} by ${height}. Save it as JPEG, or reduce it in a picture program first.`,
    );
  if (Math.max(width, height) < SHORTEST_LONG_SIDE)
    return refusal(
      'too-small',
      `Picture: needs at least ${SHORTEST_LONG_SIDE} pixels on its long side; this one is ${width} by ${height}. Choose the camera’s own picture, not a preview.`,
    );
  return success({ kind, file: await asStored(file, kind, stored), stored });
}
