import { readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { describe, expect, test } from 'vitest';
import { PHONE, useSite } from './site';

declare global {
  /** What the list of files said so far. */
  var said: string[];
}

const site = useSite();

const file = (name: string, as = name) => ({
  name: as,
  mimeType: 'image/jpeg',
  buffer: readFileSync(fileURLToPath(new URL(`../photo/decode/pictures/${name}`, import.meta.url))),
});

describe('pictures on their way in', () => {
  test('each with its name, its size and what is being done with it', async () => {
    const page = await site.open('resultant-lines.html#e3', { viewport: PHONE });
    const calculator = page.locator('plumb-photographs');
    // Everything the list said, in order, as text of one line a file.
    await calculator.evaluate((element) => {
      const said: string[] = [];
      globalThis.said = said;
      const root = element.shadowRoot;
      if (!root) throw new Error('not drawn');
      new MutationObserver(() => {
        const lines = [...root.querySelectorAll('.files li')].map((line) =>
          (line.textContent ?? '').replaceAll(/\s+/g, ' ').trim(),
        );
        const all = lines.join(' | ');
        if (all !== '' && said.at(-1) !== all) said.push(all);
      }).observe(root, { subtree: true, childList: true, characterData: true });
    });
    await calculator
      .locator('plumb-film-strip input[type="file"]')
      .first()
      .setInputFiles([file('wall.jpg'), file('plain.pdf', 'side.jpg'), file('wall.avif')]);
    await calculator.locator('.intake plumb-bracket').waitFor();
    const said = await page.evaluate(() => globalThis.said);
    // 193,509 and 1,834 bytes, and those of the document; in MB and kB of the SI.
    for (const line of [
      'wall.jpg, 194 kB: decoding | side.jpg, 4 kB: waits | wall.avif, 2 kB: waits',
      'wall.jpg, 194 kB: reducing | side.jpg, 4 kB: waits | wall.avif, 2 kB: waits',
      'wall.jpg, 194 kB: keeping | side.jpg, 4 kB: waits | wall.avif, 2 kB: waits',
      'wall.jpg, 194 kB: done | side.jpg, 4 kB: done | wall.avif, 2 kB: decoding',
    ])
      expect(said).toContain(line);
    const problem = calculator.locator('.intake plumb-bracket');
    expect(await problem.count()).toBe(1);
    expect(await problem.getAttribute('title-text')).toBe('side.jpg: needs a JPEG, PNG, WebP or AVIF file;');
    expect((await problem.textContent())?.trim()).toBe(
      'this is, despite its name, a PDF document. Choose the picture it was made from.',
    );
  });

  test('and those given while others are being read come after them', async () => {
    const page = await site.open('resultant-lines.html#e3');
    const calculator = page.locator('plumb-photographs');
    const frames = calculator.locator('plumb-film-strip .frame');
    const before = await frames.count();
    await calculator
      .locator('plumb-film-strip input[type="file"]')
      .first()
      .setInputFiles([file('wall50.jpg'), file('plain.pdf', 'side.jpg')]);
    await calculator.locator('.reading').waitFor({ state: 'attached' });
    await page.evaluate((content) => {
      const bytes = Uint8Array.from(atob(content), (letter) => letter.charCodeAt(0));
      const clipboardData = new DataTransfer();
      clipboardData.items.add(new File([bytes], 'image.png', { type: 'image/png' }));
      document.body.dispatchEvent(
        new ClipboardEvent('paste', { clipboardData, bubbles: true, composed: true, cancelable: true }),
      );
    }, file('plain.png').buffer.toString('base64'));
    await expect.poll(() => frames.count(), { timeout: 30_000 }).toBe(before + 2);
    await calculator.locator('.reading').waitFor({ state: 'detached' });
    // What could not be read of the first still stands there after the second.
    expect(await calculator.locator('.intake plumb-bracket').getAttribute('title-text')).toContain(
      'side.jpg',
    );
  });
});
