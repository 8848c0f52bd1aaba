import { describe, expect, test } from 'vitest';
import {
  fileKind,
  HEAD_BYTES,
  isPicture,
  kindRefusal,
  type FileKind,
} from '../../../src/photo/decode/formats';
import { bytes, picture } from './pictures';

describe('files by an outside encoder', () => {
  test.each([
    ['plain.jpg', 'jpeg'],
    ['progressive.jpg', 'jpeg'],
    ['turned-6.jpg', 'jpeg'],
    ['plain.png', 'png'],
    ['lossy.webp', 'webp'],
    ['lossless.webp', 'webp'],
    ['turned-6.webp', 'webp'],
    ['plain.avif', 'avif'],
    ['plain.gif', 'gif'],
    ['plain.bmp', 'bmp'],
    ['plain.tif', 'tiff'],
    ['plain.pdf', 'pdf'],
    ['make.py', 'text'],
  ])('%s is %s', async (name, kind) => {
    expect(fileKind((await picture(name)).subarray(0, HEAD_BYTES))).toBe(kind);
  });
});

/** Signatures as the standard named beside each gives them. */
const SIGNATURES: readonly [string, FileKind, Uint8Array][] = [
  ['JPEG with EXIF first (CIPA DC-008, 4.5.4)', 'jpeg', bytes(0xff, 0xd8, 0xff, 0xe1, 0, 24, 'Exif', 0, 0)],
  ['HEIC still (ISO/IEC 23008-12, B.4.1)', 'heic', bytes(0, 0, 0, 24, 'ftypheic', 0, 0, 0, 0, 'mif1heic')],
  ['HEIF of major brand mif1', 'heic', bytes(0, 0, 0, 24, 'ftypmif1', 0, 0, 0, 0, 'mif1heic')],
  ['AVIF of major brand mif1', 'avif', bytes(0, 0, 0, 24, 'ftypmif1', 0, 0, 0, 0, 'mif1avif')],
  ['brands end with their box', 'video', bytes(0, 0, 0, 16, 'ftypmp42', 0, 0, 0, 0, 'heic')],
  ['MP4 (ISO/IEC 14496-14)', 'video', bytes(0, 0, 0, 24, 'ftypmp42', 0, 0, 0, 0, 'isommp42')],
  ['phone film (QuickTime File Format)', 'video', bytes(0, 0, 0, 20, 'ftypqt  ', 0, 0, 0, 0, 'qt  ')],
  ['WebM (RFC 8794)', 'video', bytes(0x1a, 0x45, 0xdf, 0xa3, 0x9f)],
  ['AVI', 'video', bytes('RIFF', 0, 0, 0, 0, 'AVI LIST')],
  ['sound', 'unknown', bytes('RIFF', 0, 0, 0, 0, 'WAVEfmt ')],
  ['JPEG XL codestream (ISO/IEC 18181-1)', 'jxl', bytes(0xff, 0x0a, 0, 0)],
  ['JPEG XL container (ISO/IEC 18181-2)', 'jxl', bytes(0, 0, 0, 12, 'JXL ', 13, 10, 0x87, 10)],
  ['TIFF, Motorola order (TIFF 6.0)', 'tiff', bytes('MM', 0, 42, 0, 0, 0, 8)],
  ['ZIP archive', 'archive', bytes('PK', 3, 4, 20, 0)],
  ['a page', 'text', bytes('<!doctype html>\n<title>x</title>')],
  ['nothing', 'empty', bytes()],
  ['one byte', 'unknown', bytes(0xff)],
  ['noise', 'unknown', bytes(1, 2, 3, 4, 5, 6, 7, 8, 9, 200, 201, 202)],
];

describe('signatures', () => {
  test.each(SIGNATURES)('%s is %s', (_name, kind, head) => {
    expect(fileKind(head)).toBe(kind);
  });

  test('every kind that is not decoded says what to do', () => {
    const seen = new Set<FileKind>();
    for (const [, kind] of SIGNATURES) {
      if (isPicture(kind)) continue;
      seen.add(kind);
      expect(kindRefusal(kind)).toMatch(
        /^Picture: needs a JPEG, PNG, WebP or AVIF file; (this|the file) [^.]+\. [A-Z].+\.$/,
      );
    }
    expect(seen.size).toBeGreaterThanOrEqual(8);
  });

  test('HEIC in words', () => {
    expect(kindRefusal('heic')).toBe(
      'Picture: needs a JPEG, PNG, WebP or AVIF file; this is HEIC, the space-saving format of many phones, which most browsers cannot read. Let the phone share or export it as JPEG; for the next pictures choose JPEG in the camera’s settings, often called “most compatible”.',
    );
  });

  test('a name that promises a picture is corrected', () => {
    expect(kindRefusal('pdf', 'side.jpg')).toBe(
      'Picture: needs a JPEG, PNG, WebP or AVIF file; this is, despite its name, a PDF document. Choose the picture it was made from.',
    );
    expect(kindRefusal('heic', 'IMG_0001.JPEG')).toContain('; this is, despite its name, HEIC, the');
    expect(kindRefusal('pdf', 'side.pdf')).toBe(kindRefusal('pdf'));
    expect(kindRefusal('empty', 'side.png')).toContain('; the file is empty.');
  });
});
