import type { Page } from 'playwright-core';
import { describe, expect, test } from 'vitest';
import { bytes, picture } from '../photo/decode/pictures';
import { tolerance } from '../tolerances';
import { useBareSite } from './bareSite';

const site = useBareSite();
const MARK = tolerance('decoded mark: center');

interface Decoded {
  readonly ok: boolean;
  readonly message?: string;
  readonly size?: readonly number[];
  readonly original?: readonly number[];
  readonly type?: string;
  readonly focalLength35?: number | null;
  readonly stages?: readonly string[];
  /** Middles of the yellow marks of a wall, in pixels of the kept picture: upper left, upper right, lower left, lower right. */
  readonly marks?: readonly (readonly [number, number])[];
  /** Quadrants of the kept picture, as red, green and blue seen or not: upper left, upper right, lower left, lower right. */
  readonly quadrants?: readonly string[];
}

/** Decodes through the page, and looks at what was kept with the browser's own eyes. */
async function decoded(page: Page, file: Uint8Array, name = ''): Promise<Decoded> {
  const given = { base64: Buffer.from(file).toString('base64'), name };
  return page.evaluate(async ({ base64, name }): Promise<Decoded> => {
    const bytes = Uint8Array.from(atob(base64), (letter) => letter.charCodeAt(0));
    const stages: string[] = [];
    const result = await window.plumb.decodePicture(
      name === '' ? new Blob([bytes]) : new File([bytes], name),
      {
        progress: (stage) => stages.push(stage),
      },
    );
    if (!result.ok) return { ok: false, message: result.message };
    const { blob, width, height, originalWidth, originalHeight, focalLength35 } = result.value;
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
    /** Middle of what is yellow, by its color over the gray of the wall, around a quarter's middle. */
    const mark = (across: number, down: number): [number, number] => {
      const side = 160;
      const left = Math.round(across * width - side / 2);
      const top = Math.round(down * height - side / 2);
      const { data } = context.getImageData(left, top, side, side);
      let [mass, x, y] = [0, 0, 0];
      for (let n = 0; n < side * side; n++) {
        const weight = Math.max(0, (data[4 * n] ?? 0) - 100);
        mass += weight;
        x += weight * ((n % side) + 0.5);
        y += weight * (Math.floor(n / side) + 0.5);
      }
      return [left + x / mass, top + y / mass];
    };
    return {
      ok: true,
      size: [width, height],
      original: [originalWidth, originalHeight],
      type: blob.type,
      focalLength35,
      stages,
      marks: [mark(0.25, 0.25), mark(0.75, 0.25), mark(0.25, 0.75), mark(0.75, 0.75)],
      quadrants: [seen(0.25, 0.25), seen(0.75, 0.25), seen(0.25, 0.75), seen(0.75, 0.75)],
    };
  }, given);
}

/** As tests/photo/decode/pictures/make.py draws them: red, green, blue, white. */
const UPRIGHT = ['r--', '-g-', '--b', 'rgb'];

describe('a picture is kept upright', () => {
  test('whatever its EXIF orientation, in every kind of file', async () => {
    const page = await site.open(await site.profile());
    for (const kind of ['jpg', 'png', 'webp', 'avif'])
      for (let orientation = 1; orientation <= 8; orientation++) {
        const name = `turned-${orientation}.${kind}`;
        expect(await decoded(page, await picture(name)), name).toMatchObject({
          ok: true,
          size: [320, 240],
          original: [320, 240],
          type: 'image/jpeg',
          focalLength35: null,
          stages: ['reading', 'decoding', 'keeping'],
          quadrants: UPRIGHT,
        });
      }
  });

  test('and reduced to 4000 pixels', async () => {
    const page = await site.open(await site.profile());
    expect(await decoded(page, await picture('large.png'))).toMatchObject({
      size: [4000, 3000],
      original: [4800, 3600],
      stages: ['reading', 'decoding', 'reducing', 'keeping'],
      quadrants: UPRIGHT,
    });
  });

  /** As make.py draws the walls: marks in the middle of each quarter of 3024 by 4032, seen upright. */
  const QUARTERS = [
    [0.25, 0.25],
    [0.75, 0.25],
    [0.25, 0.75],
    [0.75, 0.75],
  ] as const;

  test('as a phone held upright takes it, its marks in their places, with its focal length', async () => {
    const page = await site.open(await site.profile());
    for (const [name, original] of [
      ['wall.jpg', [3024, 4032]],
      ['wall.avif', [3024, 4032]],
      ['wall50.jpg', [6120, 8160]],
    ] as const) {
      const kept = await decoded(page, await picture(name));
      expect(kept, name).toMatchObject({
        ok: true,
        size: [3000, 4000],
        original,
        focalLength35: 26,
        stages: ['reading', 'decoding', 'reducing', 'keeping'],
      });
      for (const [n, [across, down]] of QUARTERS.entries()) {
        const [x = NaN, y = NaN] = kept.marks?.[n] ?? [];
        // make.py pastes squares of 201 pixels from 100 before: their middles are half a pixel further on.
        expect(Math.abs(x - 3000 * (across + 0.5 / 3024)), `${name} ${n} across`).toBeLessThan(MARK);
        expect(Math.abs(y - 4000 * (down + 0.5 / 4032)), `${name} ${n} down`).toBeLessThan(MARK);
      }
    }
  });

  test('without the image decoder too', async () => {
    const profile = await site.profile();
    // In the page, where it then works: what a worker has cannot be taken from it from here.
    await profile.addInitScript(() => {
      Reflect.deleteProperty(window, 'OffscreenCanvas');
      Reflect.deleteProperty(window, 'ImageDecoder');
    });
    const page = await site.open(profile);
    for (const name of ['wall.jpg', 'wall.avif']) {
      const kept = await decoded(page, await picture(name));
      expect(kept, name).toMatchObject({ size: [3000, 4000], stages: ['reading', 'decoding', 'keeping'] });
      for (const [n, [across, down]] of QUARTERS.entries()) {
        const [x = NaN, y = NaN] = kept.marks?.[n] ?? [];
        expect(Math.hypot(x - 3000 * across - 0.5, y - 4000 * down - 0.5), `${name} ${n}`).toBeLessThan(MARK);
      }
    }
  });

  test('what is see-through becomes paper, reduced or not', async () => {
    const page = await site.open(await site.profile());
    for (const width of [400, 4400])
      expect(
        await page.evaluate(async (width) => {
          const canvas = new OffscreenCanvas(width, 330);
          const context = canvas.getContext('2d');
          if (!context) throw new Error('no canvas');
          // Left nothing, right half-transparent blue.
          context.fillStyle = 'rgb(0 0 255 / 50%)';
          context.fillRect(width / 2, 0, width / 2, 330);
          const result = await window.plumb.decodePicture(await canvas.convertToBlob({ type: 'image/png' }));
          if (!result.ok) throw new Error(result.message);
          const kept = await createImageBitmap(result.value.blob);
          const look = new OffscreenCanvas(kept.width, kept.height).getContext('2d', {
            willReadFrequently: true,
          });
          if (!look) throw new Error('no canvas');
          look.drawImage(kept, 0, 0);
          return [0.25, 0.75].map((across) =>
            [...look.getImageData(Math.round(across * kept.width), 100, 1, 1).data.subarray(0, 3)].map(
              // To the nearest of 0, 128 and 255: JPEG changes a level or two.
              (level) => Math.round(level / 127.5) * 127.5,
            ),
          );
        }, width),
        String(width),
      ).toEqual([
        [255, 255, 255],
        [127.5, 127.5, 255],
      ]);
  });

  test('whatever its name says', async () => {
    const page = await site.open(await site.profile());
    expect(await decoded(page, await picture('turned-6.avif'), 'side.jpg')).toMatchObject({
      quadrants: UPRIGHT,
    });
    expect(await decoded(page, await picture('turned-6.png'), 'side.pdf')).toMatchObject({
      quadrants: UPRIGHT,
    });
  });

  test('without a worker too', async () => {
    const profile = await site.profile();
    await profile.addInitScript(() => Reflect.deleteProperty(window, 'OffscreenCanvas'));
    const page = await site.open(profile);
    for (const name of ['large.png', 'turned-6.jpg', 'progressive.jpg', 'lossless.webp', 'turned-7.avif'])
      expect(await decoded(page, await picture(name)), name).toMatchObject({ quadrants: UPRIGHT });
  });
});

describe('what is no picture says what to do', () => {
  const DAMAGED =
    'Picture: needs a whole picture; this file is damaged or cut short. Copy it to this device again, or take the picture again.';

  test('damaged files', async () => {
    const page = await site.open(await site.profile());
    for (const name of ['plain.jpg', 'plain.png', 'lossy.webp', 'plain.avif', 'large.png', 'wall.jpg']) {
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
    expect(await message('plain.gif')).toContain('this is GIF');
    expect(await message('plain.pdf')).toContain('this is a PDF document');
    expect(await message('small.png')).toBe(
      'Picture: needs at least 300 pixels on its long side; this one is 100 by 75. Choose the camera’s own picture, not a preview.',
    );
    expect((await decoded(page, new Uint8Array())).message).toContain('the file is empty');
    expect((await decoded(page, await picture('plain.pdf'), 'side.jpg')).message).toContain(
      'this is, despite its name, a PDF document',
    );
    const heic = bytes(0, 0, 0, 24, 'ftypheic', 0, 0, 0, 0, 'mif1heic', 0, 0, 0, 8, 'mdat');
    expect((await decoded(page, heic)).message).toContain(
      'this is HEIC, the space-saving format of many phones',
    );
  });

  test('huge pictures, before they are decoded', async () => {
    const page = await site.open(await site.profile());
    const jpeg = await picture('plain.jpg');
    // Height and width of the frame header: ITU-T T.81, B.2.2.
    const frame = jpeg.findIndex((byte, at) => byte === 0xff && jpeg[at + 1] === 0xc0);
    new DataView(jpeg.buffer).setUint32(frame + 5, (20_000 << 16) + 20_000);
    expect((await decoded(page, jpeg)).message).toBe(
      'Picture: needs at most 210 million pixels; this one is 20000 by 20000. Reduce it in a picture program first.',
    );
    const png = await picture('plain.png');
    // Width and height of IHDR: W3C PNG, 11.2.1.
    new DataView(png.buffer).setUint32(16, 12_000);
    new DataView(png.buffer).setUint32(20, 9000);
    expect((await decoded(page, png)).message).toBe(
      'Picture: needs at most 64 million pixels unless it is JPEG; this one is 12000 by 9000. Save it as JPEG, or reduce it in a picture program first.',
    );
    expect(
      await page.evaluate(async () => {
        const jpegHead = Uint8Array.from([0xff, 0xd8, 0xff, 0xe0]);
        const result = await window.plumb.decodePicture(new Blob([jpegHead, new Uint8Array(151e6)]));
        return result.ok ? '' : result.message;
      }),
    ).toBe('Picture: needs at most 150 MB; this file has 151 MB. Save it as JPEG first.');
  });

  test('AVIF where the browser does not read it', async () => {
    const profile = await site.profile();
    await profile.addInitScript(() => {
      Reflect.deleteProperty(window, 'OffscreenCanvas');
      window.createImageBitmap = () => Promise.reject(new DOMException('', 'InvalidStateError'));
    });
    const page = await site.open(profile);
    expect((await decoded(page, await picture('plain.avif'))).message).toBe(
      'Picture: needs a kind of picture that this browser reads; this is AVIF, which it does not. Open it in a picture program and save it as JPEG, or use a newer browser.',
    );
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
