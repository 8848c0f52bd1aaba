import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { fileKind, isPicture, type PictureKind } from '../../../src/photo/decode/formats';
import { asStored } from '../../../src/photo/decode/asStored';
import { byteSource } from '../../../src/photo/decode/byteSource';
import { storedPicture } from '../../../src/photo/decode/storedPicture';
import { isQuarterTurn, uprightTurn } from '../../../src/photo/decode/turn';
import { bytes, picture } from './pictures';

const kindOf = (file: Uint8Array): PictureKind => {
  const kind = fileKind(file);
  if (!isPicture(kind)) throw new Error(kind);
  return kind;
};

const read = (file: Uint8Array<ArrayBuffer>, kind = kindOf(file)) =>
  storedPicture(kind, byteSource(new Blob([file])));

const UPRIGHT = { orientation: 1, focalLength35: null, exif: [], turns: [] };

describe('size and orientation without decoding', () => {
  test.each([
    ['plain.jpg', 320, 240],
    ['progressive.jpg', 320, 240],
    ['plain.png', 320, 240],
    ['large.png', 4800, 3600],
    ['lossy.webp', 320, 240],
    ['lossless.webp', 320, 240],
    ['plain.avif', 320, 240],
  ])('%s', async (name, width, height) => {
    expect(await read(await picture(name))).toEqual({ width, height, ...UPRIGHT });
  });

  test.each(
    ['jpg', 'png', 'webp', 'avif'].flatMap((kind) =>
      [1, 2, 3, 4, 5, 6, 7, 8].map((turn) => [kind, turn] as const),
    ),
  )('%s turned %i', async (kind, orientation) => {
    const [width, height] = orientation >= 5 ? [240, 320] : [320, 240];
    const stored = await read(await picture(`turned-${orientation}.${kind}`));
    expect(stored).toMatchObject({ width, height, orientation });
    if (kind === 'avif') expect(stored?.turns.length).toBe([0, 0, 1, 1, 1, 2, 1, 2, 1][orientation]);
    else expect(stored?.exif).toHaveLength(1);
  });

  test('is null or a number, never an error, wherever a file is cut', async () => {
    for (const name of [
      'turned-6.jpg',
      'turned-6.png',
      'turned-6.webp',
      'lossy.webp',
      'lossless.webp',
      'turned-5.avif',
    ]) {
      const file = await picture(name);
      const kind = kindOf(file);
      for (let length = 0; length < file.length; length++) {
        const stored = await read(file.slice(0, length), kind);
        if (stored !== null) expect(Number.isInteger(stored.width + stored.height)).toBe(true);
      }
    }
  });

  test('is null or a number, never an error, whatever single bytes are wrong', async () => {
    for (const name of [
      'turned-6.jpg',
      'turned-6.png',
      'turned-6.webp',
      'turned-5.avif',
      'lens.jpg',
      'lens.avif',
    ]) {
      const file = await picture(name);
      const kind = kindOf(file);
      await fc.assert(
        fc.asyncProperty(
          fc.array(fc.tuple(fc.nat(Math.min(file.length, 700) - 1), fc.nat(255)), {
            minLength: 1,
            maxLength: 4,
          }),
          async (wrong) => {
            const damaged = file.slice();
            for (const [at, byte] of wrong) damaged[at] = byte;
            const stored = await read(damaged, kind);
            if (stored === null) return;
            expect(Number.isInteger(stored.width + stored.height)).toBe(true);
            expect(stored.orientation).toBeGreaterThanOrEqual(1);
            expect(stored.orientation).toBeLessThanOrEqual(8);
            expect(stored.focalLength35 === null || stored.focalLength35 > 0).toBe(true);
          },
        ),
        { numRuns: 300 },
      );
    }
  });

  test('is found in noise of every kind without an error', async () => {
    await fc.assert(
      fc.asyncProperty(
        fc.constantFrom('jpeg' as const, 'png' as const, 'webp' as const, 'avif' as const),
        fc.uint8Array({ maxLength: 300 }),
        async (kind, noise) => {
          const stored = await read(Uint8Array.from(noise), kind);
          if (stored !== null) expect(Number.isInteger(stored.width + stored.height)).toBe(true);
        },
      ),
    );
  });

  /** APP1 with one directory entry. CIPA DC-008-2019, 4.5.2 and 4.6.2: II is little-endian. */
  const withOrientation = async (type: number, value: number): Promise<Uint8Array<ArrayBuffer>> => {
    const app1 = bytes(
      ...[0xff, 0xd8, 0xff, 0xe1, 0, 34, 'Exif', 0, 0, 'II', 42, 0, 8, 0, 0, 0, 1, 0],
      ...[0x12, 0x01, type, 0, 1, 0, 0, 0, value, 0, 0, 0, 0, 0, 0, 0],
    );
    const frame = (await picture('plain.jpg')).subarray(2);
    const joined = new Uint8Array(app1.length + frame.length);
    joined.set(app1);
    joined.set(frame, app1.length);
    return joined;
  };

  test('reads the other byte order, and takes what is no orientation for upright', async () => {
    expect((await read(await withOrientation(3, 6)))?.orientation).toBe(6);
    expect((await read(await withOrientation(4, 8)))?.orientation).toBe(8);
    expect((await read(await withOrientation(3, 0)))?.orientation).toBe(1);
    expect((await read(await withOrientation(3, 9)))?.orientation).toBe(1);
    expect((await read(await withOrientation(2, 6)))?.orientation).toBe(1);
  });
});

describe('as stored, without a word on its turn', () => {
  test.each(['turned-6.jpg', 'turned-6.png', 'turned-6.webp'])('%s is a whole file', async (name) => {
    const file = await picture(name);
    const stored = await read(file);
    if (!stored) throw new Error('no size');
    const blob = await asStored(new Blob([file]), kindOf(file), stored);
    const left = new Uint8Array(await blob.arrayBuffer());
    const [range] = stored.exif;
    expect(left.length).toBe(file.length - ((range?.end ?? 0) - (range?.start ?? 0)));
    expect(await read(left)).toEqual({ width: 240, height: 320, ...UPRIGHT });
    expect(blob.type).toBe(`image/${kindOf(file)}`);
  });

  test.each([2, 3, 4, 5, 6, 7, 8])('turned-%i.avif differs in its turns only', async (orientation) => {
    const file = await picture(`turned-${orientation}.avif`);
    const stored = await read(file);
    if (!stored) throw new Error('no size');
    const left = new Uint8Array(await (await asStored(new Blob([file]), 'avif', stored)).arrayBuffer());
    expect(left.length).toBe(file.length);
    expect([...left.keys()].filter((at) => left[at] !== file[at])).toEqual(
      stored.turns.map(({ start }) => start),
    );
    expect(await read(left)).toMatchObject({ width: stored.width, height: stored.height, ...UPRIGHT });
  });

  test('a WebP says its new length', async () => {
    const file = await picture('turned-6.webp');
    const stored = await read(file);
    if (!stored) throw new Error('no size');
    const left = await (await asStored(new Blob([file]), 'webp', stored)).arrayBuffer();
    // RFC 9649, 2.4: the size field counts all bytes after itself.
    expect(new DataView(left).getUint32(4, true)).toBe(left.byteLength - 8);
  });
});

describe('turning upright', () => {
  const W = 30;
  const H = 20;
  const shown = (orientation: number, x: number, y: number): [number, number] => {
    const [a, b, c, d, e, f] = uprightTurn(orientation, W, H);
    return [a * x + c * y + e, b * x + d * y + f];
  };

  // CIPA DC-008-2019, 4.6.4, tag 0112: where stored row 0 and column 0 are seen.
  test.each([
    [1, 'top', 'left'],
    [2, 'top', 'right'],
    [3, 'bottom', 'right'],
    [4, 'bottom', 'left'],
    [5, 'left', 'top'],
    [6, 'right', 'top'],
    [7, 'right', 'bottom'],
    [8, 'left', 'bottom'],
  ])('%i: row 0 at the %s, column 0 at the %s', (orientation, row, column) => {
    const [width, height] = isQuarterTurn(orientation) ? [H, W] : [W, H];
    const at = ([x, y]: [number, number], side: string): number =>
      ({ top: y, bottom: height - y, left: x, right: width - x })[side] ?? NaN;
    // Both ends of stored row 0 lie on that side of the upright picture, and both ends of column 0 on the other.
    expect([at(shown(orientation, 0, 0), row), at(shown(orientation, W, 0), row)]).toEqual([0, 0]);
    expect([at(shown(orientation, 0, 0), column), at(shown(orientation, 0, H), column)]).toEqual([0, 0]);
  });
});
