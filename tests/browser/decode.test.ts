import type { Page } from 'playwright-core';
import { describe, expect, test } from 'vitest';
import { picture } from '../photo/decode/pictures';
import { useBareSite } from './bareSite';

const site = useBareSite();

interface Decoded {
  readonly ok: boolean;
  readonly message?: string;
  readonly size?: readonly number[];
  readonly original?: readonly number[];
  readonly type?: string;
  /** Quadrants of the kept picture, as red, green and blue seen or not: upper left, upper right, lower left, lower right. */
  readonly quadrants?: readonly string[];
}

/** Decodes through the page, and looks at what was kept with the browser's own eyes. */
async function decoded(page: Page, file: Uint8Array): Promise<Decoded> {
  return page.evaluate(async (base64): Promise<Decoded> => {
    const bytes = Uint8Array.from(atob(base64), (letter) => letter.charCodeAt(0));
    const result = await window.plumb.decodePicture(new Blob([bytes]));
    if (!result.ok) return { ok: false, message: result.message };
    const { blob, width, height, originalWidth, originalHeight } = result.value;
    const bitmap = await createImageBitmap(blob);
    const canvas = document.createElement('canvas');
    canvas.width = bitmap.width;
    canvas.height = bitmap.height;
    const context = canvas.getContext('2d', { willReadFrequently: true });
    if (!context) throw new Error('no canvas');
    context.drawImage(bitmap, 0, 0);
    const seen = (across: number, down: number): string => {
      const [red = 0, green = 0, blue = 0] = context.getImageData(
        Math.floor(across * bitmap.width),
        Math.floor(down * bitmap.height),
        1,
        1,
      ).data;
      return `${red > 127 ? 'r' : '-'}${green > 127 ? 'g' : '-'}${blue > 127 ? 'b' : '-'}`;
    };
    if (bitmap.width !== width || bitmap.height !== height) throw new Error('size is not what was said');
    return {
      ok: true,
      size: [width, height],
      original: [originalWidth, originalHeight],
      type: blob.type,
      quadrants: [seen(0.25, 0.25), seen(0.75, 0.25), seen(0.25, 0.75), seen(0.75, 0.75)],
    };
  }, Buffer.from(file).toString('base64'));
}

/** As tests/photo/decode/pictures/make.py draws them: red, green, blue, white. */
const UPRIGHT = ['r--', '-g-', '--b', 'rgb'];

describe('a picture is kept upright', () => {
  test('whatever its EXIF orientation, in every kind of file', async () => {
    const page = await site.open(await site.profile());
    for (const kind of ['jpg', 'png', 'webp'])
      for (let orientation = 1; orientation <= 8; orientation++) {
        const name = `turned-${orientation}.${kind}`;
        expect(await decoded(page, await picture(name)), name).toEqual({
          ok: true,
          size: [320, 240],
          original: [320, 240],
          type: 'image/jpeg',
          quadrants: UPRIGHT,
        });
      }
  });

  test('and reduced to 4000 pixels', async () => {
    const page = await site.open(await site.profile());
    expect(await decoded(page, await picture('large.png'))).toMatchObject({
      size: [4000, 3000],
      original: [4800, 3600],
      quadrants: UPRIGHT,
    });
  });

  test('without a worker too', async () => {
    const profile = await site.profile();
    await profile.addInitScript(() => Reflect.deleteProperty(window, 'OffscreenCanvas'));
    const page = await site.open(profile);
    for (const name of ['large.png', 'turned-6.jpg', 'progressive.jpg', 'lossless.webp'])
      expect(await decoded(page, await picture(name)), name).toMatchObject({ quadrants: UPRIGHT });
  });
});

describe('what is no picture says what to do', () => {
  const DAMAGED =
    'Picture: needs a whole picture; this file is damaged or cut short. Copy it to this device again, or take the picture again.';

  test('damaged files', async () => {
    const page = await site.open(await site.profile());
    for (const name of ['plain.jpg', 'plain.png', 'lossy.webp']) {
      const file = await picture(name);
      expect(await decoded(page, file.slice(0, Math.floor(file.length * 0.6))), name).toEqual({
        ok: false,
        message: DAMAGED,
      });
    }
  });

  test('other files, and previews', async () => {
    const page = await site.open(await site.profile());
    const message = async (name: string): Promise<string | undefined> =>
      (await decoded(page, await picture(name))).message;
    expect(await message('plain.avif')).toContain('this is AVIF. Open it in a picture program');
    expect(await message('plain.gif')).toContain('this is GIF');
    expect(await message('plain.pdf')).toContain('this is a PDF document');
    expect(await message('small.png')).toBe(
      'Picture: needs at least 300 pixels on its long side; this one is 100 by 75. Choose the camera’s own picture, not a preview.',
    );
    expect((await decoded(page, new Uint8Array())).message).toContain('the file is empty');
  });

  test('a decode that is stopped says so, and the next one works', async () => {
    const page = await site.open(await site.profile());
    const base64 = Buffer.from(await picture('large.png')).toString('base64');
    expect(
      await page.evaluate(async (text) => {
        const file = new Blob([Uint8Array.from(atob(text), (letter) => letter.charCodeAt(0))]);
        const control = new AbortController();
        const first = window.plumb.decodePicture(file, { signal: control.signal });
        const second = window.plumb.decodePicture(file);
        setTimeout(() => control.abort(), 20);
        const [one, two] = await Promise.all([first, second]);
        return [one.ok ? 'kept' : one.reason, two.ok ? 'kept' : two.reason];
      }, base64),
    ).toEqual(['stopped', 'kept']);
  });
});
