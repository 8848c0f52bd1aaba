/** Pixels as stored, and whether EXIF orientation turns the picture a quarter, so that width and height change places. */
export interface StoredSize {
  readonly width: number;
  readonly height: number;
  readonly quarterTurn: boolean;
}

const ascii = (bytes: DataView, start: number, length: number): string => {
  let text = '';
  for (let at = start; at < Math.min(start + length, bytes.byteLength); at++)
    text += String.fromCharCode(bytes.getUint8(at));
  return text;
};

/**
 * EXIF orientation, 1 to 8, from a TIFF structure at `start`; 1 where there is none.
 * CIPA DC-008-2019, 4.6.2 (structure) and 4.6.4 (tag 0112).
 */
function orientation(bytes: DataView, start: number): number {
  if (start + 8 > bytes.byteLength) return 1;
  const little = bytes.getUint16(start) === 0x4949;
  const directory = start + bytes.getUint32(start + 4, little);
  if (directory + 2 > bytes.byteLength) return 1;
  const count = bytes.getUint16(directory, little);
  for (let entry = 0; entry < count; entry++) {
    const at = directory + 2 + 12 * entry;
    if (at + 12 > bytes.byteLength) return 1;
    if (bytes.getUint16(at, little) === 0x0112) return bytes.getUint16(at + 8, little);
  }
  return 1;
}

const turns = (number: number): boolean => number >= 5 && number <= 8;

/** Start of frame markers: all of C0 to CF except the tables C4, C8 and CC. ITU-T T.81, table B.1. */
const isFrame = (marker: number): boolean =>
  marker >= 0xc0 && marker <= 0xcf && marker !== 0xc4 && marker !== 0xc8 && marker !== 0xcc;

function jpegSize(bytes: DataView): StoredSize | null {
  let quarterTurn = false;
  for (let at = 2; at + 9 <= bytes.byteLength;) {
    if (bytes.getUint8(at) !== 0xff) return null;
    const marker = bytes.getUint8(at + 1);
    if (marker === 0xff) {
      at += 1; // fill byte
      continue;
    }
    if (isFrame(marker))
      return { width: bytes.getUint16(at + 7), height: bytes.getUint16(at + 5), quarterTurn };
    if (marker === 0xe1 && ascii(bytes, at + 4, 4) === 'Exif')
      quarterTurn = turns(orientation(bytes, at + 10));
    at += 2 + bytes.getUint16(at + 2);
  }
  return null;
}

function pngSize(bytes: DataView): StoredSize | null {
  if (bytes.byteLength < 24) return null;
  let quarterTurn = false;
  for (let at = 8; at + 8 <= bytes.byteLength; at += 12 + bytes.getUint32(at)) {
    const type = ascii(bytes, at + 4, 4);
    if (type === 'eXIf') quarterTurn = turns(orientation(bytes, at + 8));
    if (type === 'IEND') break;
  }
  return { width: bytes.getUint32(16), height: bytes.getUint32(20), quarterTurn };
}

/** RFC 9649: VP8 frame header (2.5), VP8L header (2.6), extended header and EXIF chunk (2.7). */
function webpSize(bytes: DataView): StoredSize | null {
  if (bytes.byteLength < 30) return null;
  const form = ascii(bytes, 12, 4);
  if (form === 'VP8 ')
    return {
      width: bytes.getUint16(26, true) & 0x3fff,
      height: bytes.getUint16(28, true) & 0x3fff,
      quarterTurn: false,
    };
  if (form === 'VP8L') {
    const bits = bytes.getUint32(21, true);
    return { width: (bits & 0x3fff) + 1, height: ((bits >>> 14) & 0x3fff) + 1, quarterTurn: false };
  }
  if (form !== 'VP8X') return null;
  const three = (at: number): number => bytes.getUint16(at, true) + bytes.getUint8(at + 2) * 65536;
  let quarterTurn = false;
  for (let at = 12; at + 8 <= bytes.byteLength;) {
    const length = bytes.getUint32(at + 4, true);
    const start = ascii(bytes, at + 8, 4) === 'Exif' ? at + 14 : at + 8;
    if (ascii(bytes, at, 4) === 'EXIF') quarterTurn = turns(orientation(bytes, start));
    at += 8 + length + (length % 2);
  }
  return { width: three(24) + 1, height: three(27) + 1, quarterTurn };
}

/**
 * Size of a JPEG, PNG or WebP from its bytes, without decoding it: what is too large is refused before it takes
 * the memory. Null where the bytes hold no size; a size of zero is possible in a broken file.
 */
export function storedSize(kind: 'jpeg' | 'png' | 'webp', bytes: Uint8Array): StoredSize | null {
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
  if (kind === 'jpeg') return jpegSize(view);
  return kind === 'png' ? pngSize(view) : webpSize(view);
}
