/** What a file is, by its first bytes. Names and types that files carry are often wrong. */
export type FileKind =
  | 'jpeg'
  | 'png'
  | 'webp'
  | 'heic'
  | 'avif'
  | 'jxl'
  | 'gif'
  | 'bmp'
  | 'tiff'
  | 'pdf'
  | 'video'
  | 'archive'
  | 'text'
  | 'empty'
  | 'unknown';

/** The kinds that are decoded. */
export type PictureKind = 'jpeg' | 'png' | 'webp' | 'avif';

/** Bytes of the head of a file that fileKind() wants to see. */
export const HEAD_BYTES = 4096;

/** Whether files of this kind are decoded. */
export const isPicture = (kind: FileKind): kind is PictureKind =>
  kind === 'jpeg' || kind === 'png' || kind === 'webp' || kind === 'avif';

const ascii = (bytes: Uint8Array, start: number, length: number): string =>
  String.fromCharCode(...bytes.subarray(start, start + length));

const starts = (bytes: Uint8Array, ...wanted: readonly number[]): boolean =>
  bytes.length >= wanted.length && wanted.every((byte, index) => bytes[index] === byte);

/** Brands of the file type box. ISO/IEC 23008-12, annex B (HEIF); AV1 Image File Format, section 6. */
const HEIC_BRANDS = new Set(['heic', 'heix', 'heim', 'heis', 'hevc', 'hevx', 'hevm', 'hevs']);
const AVIF_BRANDS = new Set(['avif', 'avis']);
const HEIF_BRANDS = new Set(['mif1', 'msf1', 'mif2', 'miaf']);

/** Kind of an ISO base media file: the major brand at byte 8, compatible brands from byte 16 (ISO/IEC 14496-12, 4.3). */
function mediaKind(bytes: Uint8Array): FileKind {
  const size = new DataView(bytes.buffer, bytes.byteOffset).getUint32(0);
  const brands = [ascii(bytes, 8, 4)];
  for (let at = 16; at + 4 <= Math.min(size, bytes.length); at += 4) brands.push(ascii(bytes, at, 4));
  if (brands.some((brand) => AVIF_BRANDS.has(brand))) return 'avif';
  if (brands.some((brand) => HEIC_BRANDS.has(brand) || HEIF_BRANDS.has(brand))) return 'heic';
  return 'video';
}

function looksLikeText(bytes: Uint8Array): boolean {
  const head = bytes.subarray(0, 512);
  if (head.some((byte) => byte < 32 && byte !== 9 && byte !== 10 && byte !== 13)) return false;
  try {
    // As a stream: the last letter of the head may be cut.
    new TextDecoder('utf-8', { fatal: true }).decode(head, { stream: true });
    return head.some((byte) => byte < 128);
  } catch {
    return false;
  }
}

/** What a file is, from its first bytes (HEAD_BYTES of them, or all there are). */
export function fileKind(bytes: Uint8Array): FileKind {
  if (bytes.length === 0) return 'empty';
  if (starts(bytes, 0xff, 0xd8, 0xff)) return 'jpeg'; // ITU-T T.81, B.2.1: SOI and the next marker
  if (starts(bytes, 0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a)) return 'png'; // W3C PNG, 5.2
  if (ascii(bytes, 0, 4) === 'RIFF') {
    if (ascii(bytes, 8, 4) === 'WEBP') return 'webp'; // RFC 9649, 2.4
    return ascii(bytes, 8, 4) === 'AVI ' ? 'video' : 'unknown';
  }
  if (bytes.length >= 12 && ascii(bytes, 4, 4) === 'ftyp') return mediaKind(bytes);
  if (/^GIF8[79]a/.test(ascii(bytes, 0, 6))) return 'gif';
  if (starts(bytes, 0xff, 0x0a) || ascii(bytes, 4, 4) === 'JXL ') return 'jxl'; // ISO/IEC 18181-2
  if (starts(bytes, 0x49, 0x49, 0x2a, 0) || starts(bytes, 0x4d, 0x4d, 0, 0x2a)) return 'tiff'; // TIFF 6.0, section 2
  if (ascii(bytes, 0, 5) === '%PDF-') return 'pdf';
  if (starts(bytes, 0x1a, 0x45, 0xdf, 0xa3)) return 'video'; // EBML, RFC 8794: WebM and Matroska
  if (starts(bytes, 0, 0, 1, 0xba) || starts(bytes, 0, 0, 1, 0xb3)) return 'video'; // MPEG program stream
  if (ascii(bytes, 0, 4) === 'PK\u0003\u0004') return 'archive';
  if (ascii(bytes, 0, 2) === 'BM') return 'bmp';
  return looksLikeText(bytes) ? 'text' : 'unknown';
}

const NEEDS = 'Picture: needs a JPEG, PNG, WebP or AVIF file';

/** What is given, and what to do next, for every kind that is not decoded. */
const REFUSALS: Readonly<Record<Exclude<FileKind, PictureKind>, string>> = {
  heic: 'this is HEIC, the space-saving format of many phones, which most browsers cannot read. Let the phone share or export it as JPEG; for the next pictures choose JPEG in the camera’s settings, often called “most compatible”.',
  jxl: 'this is JPEG XL, which most browsers cannot read. Open it in a picture program and save it as JPEG.',
  gif: 'this is GIF, which keeps too few colors. Choose the camera’s own picture.',
  bmp: 'this is BMP. Open it in a picture program and save it as PNG.',
  tiff: 'this is TIFF or a camera’s raw file. Open it in a picture program and save it as JPEG.',
  pdf: 'this is a PDF document. Choose the picture it was made from.',
  video:
    'this is a film. Stop it where the truck hangs still, and take a picture there, or photograph the truck again.',
  archive: 'this is an archive. Unpack it and choose one picture.',
  text: 'this is text. Choose a picture; a saved bench sheet is opened by Import.',
  empty: 'the file is empty. It may still be on its way to this device: open it once, then choose it again.',
  unknown: 'this is something else. Choose a picture from the camera.',
};

/** Endings that promise a picture which is decoded. */
const PICTURE_NAME = /\.(jpe?g|png|webp|avif)$/i;

/** Why a file of this kind is not taken, in the common grammar; `name` is the file's, '' where it has none. */
export function kindRefusal(kind: Exclude<FileKind, PictureKind>, name = ''): string {
  const refused = REFUSALS[kind];
  const told = PICTURE_NAME.test(name) ? refused.replace(/^this is/, 'this is, despite its name,') : refused;
  return `${NEEDS}; ${told}`;
}
