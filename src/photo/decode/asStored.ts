import type { ByteRange } from './byteSource';
import type { PictureKind } from './formats';
import type { StoredPicture } from './stored';

/** The EXIF flag of a WebP's extended header, in its byte 20. RFC 9649, 2.7. */
const WEBP_EXIF_FLAG = 0x08;

/**
 * The file without a word on how it is to be turned, so that its pixels come as they are stored. Browsers differ in
 * which kinds of file they turn; without that word none of them turns any, and the turn is made once, by us. EXIF
 * data are left out whole; in an AVIF its turns are no longer ascribed to the picture (property 0 is none: ISO/IEC
 * 23008-12, 9.3.3). Its type says what it is, since some browsers go by it.
 */
export async function asStored(file: Blob, kind: PictureKind, picture: StoredPicture): Promise<Blob> {
  const type = `image/${kind}`;
  if (picture.exif.length === 0 && picture.turns.length === 0) return file.slice(0, file.size, type);
  const parts: BlobPart[] = [];
  let from = 0;
  const put = ({ start, end }: ByteRange, instead: BlobPart | null): void => {
    parts.push(file.slice(from, start));
    if (instead) parts.push(instead);
    from = end;
  };
  if (kind === 'webp') {
    const removed = picture.exif.reduce((sum, { start, end }) => sum + end - start, 0);
    const header = await file.slice(0, 30).arrayBuffer();
    const view = new DataView(header);
    view.setUint32(4, view.getUint32(4, true) - removed, true);
    view.setUint8(20, view.getUint8(20) & ~WEBP_EXIF_FLAG);
    put({ start: 0, end: 30 }, header);
  }
  for (const range of picture.exif) put(range, null);
  for (const range of picture.turns) put(range, new Uint8Array(range.end - range.start));
  parts.push(file.slice(from));
  return new Blob(parts, { type });
}
