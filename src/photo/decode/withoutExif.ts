import type { PictureKind } from './formats';
import type { StoredPicture } from './storedPicture';

/** The EXIF flag of a WebP's extended header, in its byte 20. RFC 9649, 2.7. */
const WEBP_EXIF_FLAG = 0x08;

/**
 * The file without its EXIF data. Browsers differ in which kinds of file they turn by EXIF orientation; without
 * it none of them turns any, and the turn is made once, by us.
 */
export function withoutExif(file: Blob, kind: PictureKind, head: Uint8Array, stored: StoredPicture): Blob {
  if (stored.exif.length === 0) return file;
  const parts: BlobPart[] = [];
  let from = 0;
  if (kind === 'webp') {
    const removed = stored.exif.reduce((sum, { start, end }) => sum + end - start, 0);
    const header = head.slice(0, 30);
    const view = new DataView(header.buffer);
    view.setUint32(4, view.getUint32(4, true) - removed, true);
    view.setUint8(20, view.getUint8(20) & ~WEBP_EXIF_FLAG);
    parts.push(header);
    from = header.length;
  }
  for (const { start, end } of stored.exif) {
    parts.push(file.slice(from, start));
    from = end;
  }
  parts.push(file.slice(from));
  return new Blob(parts, { type: file.type });
}
