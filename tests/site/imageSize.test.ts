import { describe, expect, it } from 'vitest';
import { imageSize } from '../../src/site/imageSize';

const bytes = (...parts: (string | number[])[]): Uint8Array =>
  Uint8Array.from(
    parts.flatMap((part) =>
      typeof part === 'string' ? [...part].map((letter) => letter.charCodeAt(0)) : part,
    ),
  );

/** Heads written out by hand from the formats' specifications; 300 is 0x012c, 200 is 0x00c8. */
describe('picture sizes', () => {
  it.each([
    ['PNG', bytes([0x89], 'PNG\r\n', [0x1a, 0x0a, 0, 0, 0, 13], 'IHDR', [0, 0, 0x01, 0x2c, 0, 0, 0, 0xc8])],
    [
      'JPEG with a segment before its frame',
      bytes([0xff, 0xd8, 0xff, 0xe1, 0, 4, 1, 2, 0xff, 0xc2, 0, 17, 8, 0, 0xc8, 0x01, 0x2c, 3], [0, 0, 0, 0]),
    ],
    [
      'WebP, lossy',
      bytes(
        'RIFF',
        [0, 0, 0, 0],
        'WEBPVP8 ',
        [0, 0, 0, 0, 0, 0, 0, 0x9d, 0x01, 0x2a, 0x2c, 0x01, 0xc8, 0x00],
      ),
    ],
    [
      'WebP, extended',
      bytes('RIFF', [0, 0, 0, 0], 'WEBPVP8X', [10, 0, 0, 0, 0, 0, 0, 0, 0x2b, 0x01, 0, 0xc7, 0, 0]),
    ],
    ['SVG', bytes('<svg xmlns="x" viewBox="0 0 300 200">')],
  ])('are read from a %s', (_name, head) => {
    expect(imageSize(head)).toEqual({ width: 300, height: 200 });
  });

  it('are unknown for anything else', () => {
    expect(
      imageSize(bytes('GIF89a', [0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0])),
    ).toBeNull();
  });
});
