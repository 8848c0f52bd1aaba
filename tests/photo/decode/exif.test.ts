import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { byteSource } from '../../../src/photo/decode/byteSource';
import { NO_EXIF, readExif, type Exif } from '../../../src/photo/decode/exif';
import { focalLength35 } from '../../../src/photo/decode/focalLength35';
import type { PictureKind } from '../../../src/photo/decode/formats';
import { storedPicture } from '../../../src/photo/decode/storedPicture';
import { bytes, picture } from './pictures';

const read = (tiff: Uint8Array<ArrayBuffer>): Exif => readExif(new DataView(tiff.buffer));

/** Little-endian numbers of 2 and 4 bytes. */
const short = (value: number): number[] => [value & 255, value >> 8];
const long = (value: number): number[] => [...short(value & 0xffff), ...short(value >>> 16)];

/**
 * A TIFF structure with an EXIF directory of these entries: tag, type (3 short, 4 long, 5 rational), value; a rational
 * as its two numbers. CIPA DC-008-2019, 4.6.2.
 */
function tiff(entries: readonly (readonly [number, 3 | 4 | 5, number, number?])[]): Uint8Array<ArrayBuffer> {
  const directory = 26;
  const after = directory + 2 + 12 * entries.length + 4;
  const head = [
    ...bytes('II', 42, 0),
    ...long(8),
    ...short(1),
    ...short(0x8769),
    ...short(4),
    ...long(1),
    ...long(directory),
    ...long(0),
  ];
  const rationals: number[] = [];
  const rows = entries.flatMap(([tag, type, value, below]) => {
    const content =
      type === 5 ? long(after + rationals.length) : type === 3 ? [...short(value), 0, 0] : long(value);
    if (type === 5) rationals.push(...long(value), ...long(below ?? 1));
    return [...short(tag), ...short(type), ...long(1), ...content];
  });
  return Uint8Array.from([...head, ...short(entries.length), ...rows, ...long(0), ...rationals]);
}

describe('EXIF', () => {
  test('reads what is used here', () => {
    const found = read(
      tiff([
        [0x920a, 5, 543, 100],
        [0xa002, 4, 4000],
        [0xa003, 3, 3000],
        [0xa20e, 5, 4000 * 254, 48],
        [0xa20f, 5, 3000 * 254, 36],
        [0xa210, 3, 2],
        [0xa404, 5, 1, 1],
        [0xa405, 3, 26],
      ]),
    );
    expect(found).toMatchObject({
      orientation: 1,
      focalLength35: 26,
      focalLength: 5.43,
      taken: { width: 4000, height: 3000 },
      digitalZoom: 1,
    });
    // 4000 pixels on 4.8 mm, 3000 on 3.6 mm.
    expect(found.sensorPixels?.x).toBeCloseTo(4000 / 4.8, 9);
    expect(found.sensorPixels?.y).toBeCloseTo(3000 / 3.6, 9);
  });

  test('big-endian, as many cameras write it', () => {
    const motorola = bytes(
      ...['MM', 0, 42, 0, 0, 0, 8, 0, 2, 0x01, 0x12, 0, 3, 0, 0, 0, 1, 0, 8, 0, 0],
      ...[0x87, 0x69, 0, 4, 0, 0, 0, 1, 0, 0, 0, 38, 0, 0, 0, 0],
      ...[0, 1, 0xa4, 0x05, 0, 3, 0, 0, 0, 1, 0, 27, 0, 0, 0, 0, 0, 0],
    );
    expect(read(motorola)).toEqual({ ...NO_EXIF, orientation: 8, focalLength35: 27 });
  });

  test('takes 0 and what is not there for unknown', () => {
    expect(read(tiff([[0xa405, 3, 0]]))).toEqual(NO_EXIF);
    expect(read(tiff([[0x920a, 5, 5, 0]]))).toEqual(NO_EXIF);
    expect(read(bytes())).toEqual(NO_EXIF);
    expect(read(bytes('II', 42, 0, 255, 255, 255, 255))).toEqual(NO_EXIF);
  });

  test('is never an error, cut or wrong anywhere', () => {
    const whole = tiff([
      [0x920a, 5, 543, 100],
      [0xa405, 3, 26],
      [0xa20e, 5, 100, 3],
    ]);
    for (let length = 0; length <= whole.length; length++)
      expect(read(whole.slice(0, length)).orientation).toBe(1);
    fc.assert(
      fc.property(fc.nat(whole.length - 1), fc.nat(255), (at, byte) => {
        const wrong = whole.slice();
        wrong[at] = byte;
        const found = read(wrong);
        expect(found.focalLength35 === null || found.focalLength35 > 0).toBe(true);
      }),
    );
  });
});

describe('focal length of a picture', () => {
  const of = (facts: Partial<Exif>, width = 4000, height = 3000): number | null =>
    focalLength35({ ...NO_EXIF, ...facts }, width, height);

  test('is as the camera wrote it, however the picture is turned or reduced', () => {
    expect(of({ focalLength35: 26 })).toBe(26);
    const taken = { width: 4000, height: 3000 };
    expect(of({ focalLength35: 26, taken }, 1500, 2000)).toBe(26);
    expect(of({ focalLength35: 26, taken, digitalZoom: 1 })).toBe(26);
    expect(of({ focalLength35: 26, taken, digitalZoom: 0 })).toBe(26);
  });

  test('else from the lens and the sensor', () => {
    // A sensor of 36 by 24 mm is the film's own: 50 mm are 50 mm.
    const full = { x: 6000 / 36, y: 4000 / 24 };
    expect(
      of({ focalLength: 50, sensorPixels: full, taken: { width: 6000, height: 4000 } }, 6000, 4000),
    ).toBeCloseTo(50, 9);
    // 4.8 by 3.6 mm: a diagonal of 6 mm. 43.2666 / 6 = 7.2111 times 4 mm are 28.844 mm.
    const small = { x: 4000 / 4.8, y: 3000 / 3.6 };
    expect(of({ focalLength: 4, sensorPixels: small, taken: { width: 4000, height: 3000 } })).toBeCloseTo(
      28.844,
      3,
    );
    expect(of({ focalLength: 4, taken: { width: 4000, height: 3000 } })).toBeNull();
    expect(of({ focalLength: 4, sensorPixels: small })).toBeNull();
  });

  test('is unknown where the pixels are no longer those it was written for', () => {
    expect(of({})).toBeNull();
    expect(of({ focalLength35: 26, digitalZoom: 2 })).toBeNull();
    expect(of({ focalLength35: 26, taken: { width: 4000, height: 3000 } }, 3000, 3000)).toBeNull();
    expect(of({ focalLength35: 1 })).toBeNull();
    expect(of({ focalLength35: 65535 })).toBeNull();
  });

  test.each(['jpg', 'png', 'webp', 'avif'])('in a %s by an outside encoder', async (ending) => {
    const kind: PictureKind =
      ending === 'jpg' ? 'jpeg' : ending === 'png' || ending === 'webp' ? ending : 'avif';
    const stored = await storedPicture(kind, byteSource(new Blob([await picture(`lens.${ending}`)])));
    expect(stored).toMatchObject({ focalLength35: 26, orientation: 6 });
  });
});
