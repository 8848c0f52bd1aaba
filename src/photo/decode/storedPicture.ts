import type { PictureKind } from './formats';

/** From byte `start` up to, not including, byte `end`. */
export interface ByteRange {
  readonly start: number;
  readonly end: number;
}

/** What a picture file says of itself, without decoding it. */
export interface StoredPicture {
  /** Pixels as stored. */
  readonly width: number;
  readonly height: number;
  /** EXIF orientation, 1 to 8: how the stored pixels are to be turned; 1 is upright. */
  readonly orientation: number;
  /** Where the file keeps its EXIF data, in whole segments or chunks. */
  readonly exif: readonly ByteRange[];
}

const ascii = (bytes: DataView, start: number, length: number): string => {
  let text = '';
  for (let at = start; at < Math.min(start + length, bytes.byteLength); at++)
    text += String.fromCharCode(bytes.getUint8(at));
  return text;
};

/** Types of a directory entry's value. CIPA DC-008-2019, 4.6.2. */
const SHORT = 3;
const LONG = 4;

/**
 * EXIF orientation, 1 to 8, from a TIFF structure at `start`; 1 where there is none or it is no such number.
 * CIPA DC-008-2019, 4.6.2 (structure) and 4.6.4 (tag 0112).
 */
function orientationIn(bytes: DataView, start: number): number {
  if (start + 8 > bytes.byteLength) return 1;
  const little = bytes.getUint16(start) === 0x4949;
  const directory = start + bytes.getUint32(start + 4, little);
  if (directory + 2 > bytes.byteLength) return 1;
  const count = bytes.getUint16(directory, little);
  for (let entry = 0; entry < count; entry++) {
    const at = directory + 2 + 12 * entry;
    if (at + 12 > bytes.byteLength) return 1;
    if (bytes.getUint16(at, little) !== 0x0112) continue;
    const type = bytes.getUint16(at + 2, little);
    // Some programs write it as LONG against the standard; viewers read that too.
    const value = type === LONG ? bytes.getUint32(at + 8, little) : bytes.getUint16(at + 8, little);
    return (type === SHORT || type === LONG) && value >= 1 && value <= 8 ? value : 1;
  }
  return 1;
}

/** Start of frame markers: all of C0 to CF except the tables C4, C8 and CC. ITU-T T.81, table B.1. */
const isFrame = (marker: number): boolean =>
  marker >= 0xc0 && marker <= 0xcf && marker !== 0xc4 && marker !== 0xc8 && marker !== 0xcc;

function storedJpeg(bytes: DataView): StoredPicture | null {
  let orientation: number | null = null;
  const exif: ByteRange[] = [];
  for (let at = 2; at + 9 <= bytes.byteLength;) {
    if (bytes.getUint8(at) !== 0xff) return null;
    const marker = bytes.getUint8(at + 1);
    if (marker === 0xff) {
      at += 1; // fill byte
      continue;
    }
    const end = at + 2 + bytes.getUint16(at + 2);
    if (isFrame(marker))
      return {
        width: bytes.getUint16(at + 7),
        height: bytes.getUint16(at + 5),
        orientation: orientation ?? 1,
        exif,
      };
    if (marker === 0xe1 && ascii(bytes, at + 4, 4) === 'Exif') {
      orientation ??= orientationIn(bytes, at + 10);
      exif.push({ start: at, end });
    }
    at = end;
  }
  return null;
}

function storedPng(bytes: DataView): StoredPicture | null {
  if (bytes.byteLength < 24) return null;
  let orientation = 1;
  const exif: ByteRange[] = [];
  for (let at = 8; at + 8 <= bytes.byteLength;) {
    const type = ascii(bytes, at + 4, 4);
    const end = at + 12 + bytes.getUint32(at);
    if (type === 'eXIf') {
      orientation = orientationIn(bytes, at + 8);
      exif.push({ start: at, end });
    }
    if (type === 'IEND') break;
    at = end;
  }
  return { width: bytes.getUint32(16), height: bytes.getUint32(20), orientation, exif };
}

/** RFC 9649: VP8 frame header (2.5), VP8L header (2.6), extended header and EXIF chunk (2.7). */
function storedWebp(bytes: DataView): StoredPicture | null {
  if (bytes.byteLength < 30) return null;
  const form = ascii(bytes, 12, 4);
  if (form === 'VP8 ')
    return {
      width: bytes.getUint16(26, true) & 0x3fff,
      height: bytes.getUint16(28, true) & 0x3fff,
      orientation: 1,
      exif: [],
    };
  if (form === 'VP8L') {
    const bits = bytes.getUint32(21, true);
    return { width: (bits & 0x3fff) + 1, height: ((bits >>> 14) & 0x3fff) + 1, orientation: 1, exif: [] };
  }
  if (form !== 'VP8X') return null;
  const three = (at: number): number => bytes.getUint16(at, true) + bytes.getUint8(at + 2) * 65536;
  let orientation = 1;
  const exif: ByteRange[] = [];
  for (let at = 12; at + 8 <= bytes.byteLength;) {
    const length = bytes.getUint32(at + 4, true);
    const end = at + 8 + length + (length % 2);
    if (ascii(bytes, at, 4) === 'EXIF') {
      // Some encoders put JPEG's "Exif" in front of the structure, against the standard.
      orientation = orientationIn(bytes, ascii(bytes, at + 8, 4) === 'Exif' ? at + 14 : at + 8);
      exif.push({ start: at, end });
    }
    at = end;
  }
  return { width: three(24) + 1, height: three(27) + 1, orientation, exif };
}

/**
 * Size and orientation of a JPEG, PNG or WebP from its bytes, without decoding it: what is too large is refused
 * before it takes the memory. Null where the bytes hold no size; a size of zero is possible in a broken file.
 */
export function storedPicture(kind: PictureKind, bytes: Uint8Array): StoredPicture | null {
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
  if (kind === 'jpeg') return storedJpeg(view);
  return kind === 'png' ? storedPng(view) : storedWebp(view);
}
