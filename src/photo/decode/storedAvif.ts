import { asciiAt, type ByteRange, type ByteSource } from './byteSource';
import { NO_EXIF, readExif, type Exif } from './exif';
import { focalLength35 } from './focalLength35';
import type { StoredPicture } from './stored';

/** Boxes below this size are read whole; no camera's description of a picture comes near. */
const LARGEST_META = 4_000_000;

interface Box {
  readonly type: string;
  /** First byte of the content, and the byte after the last. */
  readonly start: number;
  readonly end: number;
}

/** Header of a box at `at`. ISO/IEC 14496-12, 4.2.2: size 1 is followed by 64 bits, size 0 goes to the end. */
function boxAt(bytes: DataView, at: number, end: number): Box | null {
  if (at + 8 > end) return null;
  const size = bytes.getUint32(at);
  const type = asciiAt(bytes, at + 4, 4);
  if (size === 0) return { type, start: at + 8, end };
  if (size !== 1) return size >= 8 && at + size <= end ? { type, start: at + 8, end: at + size } : null;
  if (at + 16 > end) return null;
  const long = bytes.getUint32(at + 8) * 2 ** 32 + bytes.getUint32(at + 12);
  return long >= 16 && at + long <= end ? { type, start: at + 16, end: at + long } : null;
}

function boxes(bytes: DataView, start: number, end: number): readonly Box[] {
  const found: Box[] = [];
  for (let box = boxAt(bytes, start, end); box; box = boxAt(bytes, box.end, end)) found.push(box);
  return found;
}

/** The box that describes the items, with its place in the file. */
async function metaOf(source: ByteSource): Promise<{ readonly bytes: DataView; readonly at: number } | null> {
  for (let at = 0; at + 8 <= source.size;) {
    const head = await source.view(at, Math.min(16, source.size - at));
    if (!head) return null;
    const short = head.getUint32(0);
    if (short === 1 && head.byteLength < 16) return null;
    const size =
      short === 0 ? source.size - at : short === 1 ? head.getUint32(8) * 2 ** 32 + head.getUint32(12) : short;
    if (size < 8) return null;
    if (asciiAt(head, 4, 4) === 'meta') {
      const bytes = size <= LARGEST_META ? await source.view(at, size) : null;
      return bytes && { bytes, at };
    }
    at += size;
  }
  return null;
}

interface Association {
  /** Counted from 1, as in the file. */
  readonly property: number;
  /** Place of the entry in the box. */
  readonly start: number;
  readonly end: number;
}

/** Properties of one item, in their order. ISO/IEC 23008-12, 9.3 (ItemPropertyAssociationBox). */
function associationsOf(bytes: DataView, { start, end }: Box, item: number): readonly Association[] {
  const version = bytes.getUint8(start);
  const wide = (bytes.getUint8(start + 3) & 1) === 1 ? 2 : 1;
  const idSize = version < 1 ? 2 : 4;
  let at = start + 8;
  for (let left = bytes.getUint32(start + 4); left > 0 && at + idSize + 1 <= end; left--) {
    const id = idSize === 2 ? bytes.getUint16(at) : bytes.getUint32(at);
    const count = bytes.getUint8(at + idSize);
    at += idSize + 1;
    if (at + count * wide > end) return [];
    if (id === item)
      return Array.from({ length: count }, (_, n) => {
        const from = at + n * wide;
        const property = wide === 2 ? bytes.getUint16(from) & 0x7fff : bytes.getUint8(from) & 0x7f;
        return { property, start: from, end: from + wide };
      });
    at += count * wide;
  }
  return [];
}

/**
 * EXIF orientation of a turn by `quarters` counter-clockwise, then a mirror: 0 changes top and bottom, 1 left and right,
 * null none. ISO/IEC 23008-12, 6.5.10 (irot) and 6.5.12 (imir).
 */
export function orientationOf(quarters: number, mirror: 0 | 1 | null): number {
  const turned = mirror === null ? [1, 8, 3, 6] : mirror === 0 ? [4, 5, 2, 7] : [2, 7, 4, 5];
  return turned[quarters % 4] ?? 1;
}

/** Where the EXIF item of a file lies. ISO/IEC 14496-12, 8.11.3 (iloc) and 8.11.6 (iinf). */
function exifPlace(bytes: DataView, info: Box, places: Box): ByteRange | null {
  const wideInfo = bytes.getUint8(info.start) > 0;
  const exif = boxes(bytes, info.start + (wideInfo ? 8 : 6), info.end).find(
    (entry) => entry.type === 'infe' && asciiAt(bytes, infoType(bytes, entry), 4) === 'Exif',
  );
  if (!exif) return null;
  const wanted =
    bytes.getUint8(exif.start) < 3 ? bytes.getUint16(exif.start + 4) : bytes.getUint32(exif.start + 4);
  const version = bytes.getUint8(places.start);
  const sizes = bytes.getUint16(places.start + 4);
  const [offsetSize, lengthSize, baseSize] = [sizes >> 12, (sizes >> 8) & 15, (sizes >> 4) & 15];
  const indexSize = version > 0 ? sizes & 15 : 0;
  const number = (at: number, size: number): number => {
    let value = 0;
    for (let n = 0; n < size; n++) value = value * 256 + bytes.getUint8(at + n);
    return value;
  };
  const idSize = version < 2 ? 2 : 4;
  let at = places.start + 6 + idSize;
  for (let left = number(places.start + 6, idSize); left > 0; left--) {
    const id = number(at, idSize);
    at += idSize;
    const inFile = version === 0 || (bytes.getUint16(at) & 15) === 0;
    at += (version > 0 ? 2 : 0) + 2;
    const base = number(at, baseSize);
    const extents = bytes.getUint16(at + baseSize);
    at += baseSize + 2;
    if (id === wanted && inFile && extents === 1) {
      const start = base + number(at + indexSize, offsetSize);
      return { start, end: start + number(at + indexSize + offsetSize, lengthSize) };
    }
    at += extents * (indexSize + offsetSize + lengthSize);
  }
  return null;
}

/** Place of an item's type in its entry, versions 2 and 3. */
const infoType = (bytes: DataView, { start }: Box): number => start + (bytes.getUint8(start) < 3 ? 8 : 10);

/** The EXIF item, after the four bytes that say where in it the TIFF structure begins. ISO/IEC 23008-12, annex A.2.1. */
async function exifOf(source: ByteSource, place: ByteRange): Promise<Exif> {
  const item =
    place.end - place.start <= LARGEST_META ? await source.view(place.start, place.end - place.start) : null;
  if (!item || item.byteLength < 4) return NO_EXIF;
  const from = 4 + item.getUint32(0);
  return from > item.byteLength
    ? NO_EXIF
    : readExif(new DataView(item.buffer, item.byteOffset + from, item.byteLength - from));
}

/**
 * Size and turn of an AVIF from the properties of its primary item: ispe, irot, imir. Their turn counts, and EXIF's does
 * not (ISO/IEC 23008-12, annex A; AVIF leaves it so).
 */
export async function storedAvif(source: ByteSource): Promise<StoredPicture | null> {
  const meta = await metaOf(source);
  if (!meta) return null;
  try {
    const { bytes, at } = meta;
    // A full box: four bytes of version and flags before its content.
    const [outer] = boxes(bytes, 0, bytes.byteLength);
    if (!outer) return null;
    const inside = boxes(bytes, outer.start + 4, outer.end);
    const one = (type: string): Box | undefined => inside.find((box) => box.type === type);
    const [primary, properties] = [one('pitm'), one('iprp')];
    if (!primary || !properties) return null;
    const item =
      bytes.getUint8(primary.start) === 0
        ? bytes.getUint16(primary.start + 4)
        : bytes.getUint32(primary.start + 4);
    const parts = boxes(bytes, properties.start, properties.end);
    const shelf = parts.find(({ type }) => type === 'ipco');
    if (!shelf) return null;
    const kinds = boxes(bytes, shelf.start, shelf.end);
    const own = parts
      .filter(({ type }) => type === 'ipma')
      .flatMap((box) => associationsOf(bytes, box, item))
      .flatMap((association) => {
        const box = kinds[association.property - 1];
        return box ? [{ ...association, box }] : [];
      });
    const size = own.find(({ box }) => box.type === 'ispe')?.box;
    if (!size) return null;
    const width = bytes.getUint32(size.start + 4);
    const height = bytes.getUint32(size.start + 8);
    const turns = own.filter(({ box }) => box.type === 'irot' || box.type === 'imir');
    let quarters = 0;
    let mirror: 0 | 1 | null = null;
    for (const { box } of turns) {
      const value = bytes.getUint8(box.start);
      if (box.type === 'imir') mirror = (value & 1) === 1 ? 1 : 0;
      // A turn after a mirror is the opposite turn before it.
      else quarters = mirror === null ? value & 3 : (4 - (value & 3)) % 4;
    }
    const [info, places] = [one('iinf'), one('iloc')];
    const place = info && places ? exifPlace(bytes, info, places) : null;
    const exif = place ? await exifOf(source, place) : NO_EXIF;
    return {
      width,
      height,
      orientation: orientationOf(quarters, mirror),
      focalLength35: width > 0 && height > 0 ? focalLength35(exif, width, height) : null,
      exif: [],
      turns: turns.map(({ start, end }) => ({ start: at + start, end: at + end })),
    };
  } catch (error) {
    // A box that says more than it holds.
    if (error instanceof RangeError) return null;
    throw error;
  }
}
