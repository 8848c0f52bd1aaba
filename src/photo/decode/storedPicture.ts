import { asciiAt, type ByteRange, type ByteSource } from './byteSource';
import { NO_EXIF, readExif, type Exif } from './exif';
import { focalLength35 } from './focalLength35';
import type { PictureKind } from './formats';
import type { StoredPicture } from './stored';
import { storedAvif } from './storedAvif';

const stored = (width: number, height: number, exif: Exif, places: readonly ByteRange[]): StoredPicture => ({
  width,
  height,
  orientation: exif.orientation,
  focalLength35: width > 0 && height > 0 ? focalLength35(exif, width, height) : null,
  exif: places,
  turns: [],
});

/** EXIF data that begin `skip` bytes into the range; none where the range is cut. */
async function exifIn(source: ByteSource, { start, end }: ByteRange, skip: number): Promise<Exif> {
  const tiff = await source.view(start + skip, Math.min(end, source.size) - start - skip);
  return tiff ? readExif(tiff) : NO_EXIF;
}

/** Start of frame markers: all of C0 to CF except the tables C4, C8 and CC. ITU-T T.81, table B.1. */
const isFrame = (marker: number): boolean =>
  marker >= 0xc0 && marker <= 0xcf && marker !== 0xc4 && marker !== 0xc8 && marker !== 0xcc;

async function storedJpeg(source: ByteSource): Promise<StoredPicture | null> {
  let exif: Exif | null = null;
  const places: ByteRange[] = [];
  for (let at = 2; ;) {
    const head = await source.view(at, 9);
    if (head?.getUint8(0) !== 0xff) return null;
    const marker = head.getUint8(1);
    if (marker === 0xff) {
      at += 1; // fill byte
      continue;
    }
    const end = at + 2 + head.getUint16(2);
    if (isFrame(marker)) return stored(head.getUint16(7), head.getUint16(5), exif ?? NO_EXIF, places);
    if (marker === 0xe1 && asciiAt(head, 4, 4) === 'Exif') {
      exif ??= await exifIn(source, { start: at, end }, 10);
      places.push({ start: at, end });
    }
    at = end;
  }
}

async function storedPng(source: ByteSource): Promise<StoredPicture | null> {
  const header = await source.view(16, 8);
  if (!header) return null;
  const [width, height] = [header.getUint32(0), header.getUint32(4)];
  let exif = NO_EXIF;
  const places: ByteRange[] = [];
  for (let at = 8; ;) {
    const head = await source.view(at, 8);
    if (!head) break;
    const type = asciiAt(head, 4, 4);
    const end = at + 12 + head.getUint32(0);
    if (type === 'eXIf') {
      exif = await exifIn(source, { start: at, end: end - 4 }, 8);
      places.push({ start: at, end });
    }
    if (type === 'IEND') break;
    at = end;
  }
  return stored(width, height, exif, places);
}

/** RFC 9649: VP8 frame header (2.5), VP8L header (2.6), extended header and EXIF chunk (2.7). */
async function storedWebp(source: ByteSource): Promise<StoredPicture | null> {
  const first = await source.view(0, 30);
  if (!first) return null;
  const form = asciiAt(first, 12, 4);
  if (form === 'VP8 ')
    return stored(first.getUint16(26, true) & 0x3fff, first.getUint16(28, true) & 0x3fff, NO_EXIF, []);
  if (form === 'VP8L') {
    const bits = first.getUint32(21, true);
    return stored((bits & 0x3fff) + 1, ((bits >>> 14) & 0x3fff) + 1, NO_EXIF, []);
  }
  if (form !== 'VP8X') return null;
  const three = (at: number): number => first.getUint16(at, true) + first.getUint8(at + 2) * 65536;
  const [width, height] = [three(24) + 1, three(27) + 1];
  let exif = NO_EXIF;
  const places: ByteRange[] = [];
  for (let at = 12; ;) {
    const head = await source.view(at, 8);
    if (!head) break;
    const length = head.getUint32(4, true);
    const end = at + 8 + length + (length % 2);
    if (asciiAt(head, 0, 4) === 'EXIF') {
      // Some encoders put JPEG's "Exif" in front of the structure, against the standard.
      const content = await source.view(at + 8, 4);
      const skip = content && asciiAt(content, 0, 4) === 'Exif' ? 14 : 8;
      exif = await exifIn(source, { start: at, end: at + 8 + length }, skip);
      places.push({ start: at, end });
    }
    at = end;
  }
  return stored(width, height, exif, places);
}

const READERS = { jpeg: storedJpeg, png: storedPng, webp: storedWebp, avif: storedAvif } as const;

/**
 * Size, orientation and focal length of a picture from its bytes, without decoding it: what is too large is refused
 * before it takes the memory. Null where the bytes hold no size; a size of zero is possible in a broken file. Rejects
 * only where the file cannot be read.
 */
export const storedPicture = (kind: PictureKind, source: ByteSource): Promise<StoredPicture | null> =>
  READERS[kind](source);
