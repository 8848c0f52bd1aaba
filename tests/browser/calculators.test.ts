import { readFile } from 'node:fs/promises';
import { AxeBuilder } from '@axe-core/playwright';
import { describe, expect, it } from 'vitest';
import type { Locator, Page } from 'playwright-core';
import { LAPTOP, PHONE, useSite } from './site';

const site = useSite();

/** The demo sheet is open and its answer drawn. */
async function opened(page: Page): Promise<Page> {
  await page.locator('plumb-title-block .truck-name').first().waitFor({ state: 'attached' });
  return page;
}
async function open(name: string, options = {}): Promise<Page> {
  const page = await site.open(name, options);
  page.setDefaultTimeout(15_000);
  return opened(page);
}

/** A given field by its label, within a page or an element. */
function field(scope: Page | Locator, label: string): Locator {
  const page = 'page' in scope ? scope.page() : scope;
  return scope.locator('plumb-given', { has: page.locator(`label:text-is("${label}")`) });
}

async function typeInto(given: Locator, text: string): Promise<void> {
  const input = given.locator('#number');
  await input.fill(text);
  await input.blur();
}

const numberIn = async (of: Locator): Promise<number> =>
  Number((await of.innerText()).replace('−', '-').replace(/[^\d.-]/g, ''));

/** Opens every fold; of the parts list only its own, or its fields would be a hundred. */
const foldsOpen = (page: Page): Promise<void> =>
  page.evaluate(() => {
    const all = (root: ParentNode): void => {
      for (const element of root.querySelectorAll('*')) {
        if (element instanceof HTMLDetailsElement && !element.matches('.chapter-menu, .part'))
          element.open = true;
        if (element.shadowRoot) all(element.shadowRoot);
      }
    };
    all(document);
  });

describe('the title block', () => {
  it('says the same on the cover and at the foot of a chapter', async () => {
    const cover = await open('index.html');
    const full = await cover.locator('plumb-title-block .full .value').allInnerTexts();
    const chapter = await open('stability-angles.html');
    const strip = await chapter.locator('plumb-title-block .strip .value').allInnerTexts();

    expect(full).toHaveLength(7);
    expect(strip).toEqual(full);
    expect(full.every((text) => /^−?\d+\.\d$/.test(text))).toBe(true);
  });

  it('on a phone shows two values and opens upward to the whole', async () => {
    const page = await open('stability-angles.html', { viewport: PHONE });
    expect(await page.locator('plumb-title-block .short .value').allInnerTexts()).toHaveLength(2);

    await page.getByRole('button', { name: 'Open the title block' }).click();
    const drawer = await page.locator('plumb-title-block .drawer').boundingBox();
    const short = await page.locator('plumb-title-block .short').boundingBox();
    if (!drawer || !short) throw new Error('the block is not laid out');

    expect(await page.locator('plumb-title-block .drawer .value').count()).toBe(7);
    expect(drawer.y + drawer.height).toBeLessThanOrEqual(short.y + 1);
    expect(drawer.y).toBeGreaterThanOrEqual(0);
  });

  it('of an empty sheet holds no number and links to the first thing missing', async () => {
    const page = await open('index.html');
    await foldsOpen(page);
    await page.getByRole('button', { name: 'New sheet' }).click();
    await page.locator('plumb-title-block .truck-name', { hasText: 'My truck' }).waitFor();

    expect(await page.locator('plumb-title-block .full .value').allInnerTexts()).toEqual(Array(7).fill('–'));
    expect(await page.locator('plumb-title-block .next').getAttribute('href')).toContain('#');
    expect(await page.locator('plumb-on-the-sheet .status').first().innerText()).toBe('missing');
  });
});

describe('a guess', () => {
  it('is made by keys on the slip, kept over a reload, and comes back beside the answer', async () => {
    const page = await open('resultant-lines.html');
    const guess = page.locator('plumb-guess:not([recall])');
    const slip = guess.getByRole('slider', { name: 'Your guess' });
    expect(await slip.getAttribute('aria-valuetext')).toBe('no guess yet');

    await slip.focus();
    await page.keyboard.press('Home');
    await page.keyboard.press('PageUp');
    await page.keyboard.press('ArrowRight');
    expect(await slip.getAttribute('aria-valuetext')).toBe('51 millimeters');
    expect(await field(guess, 'or as a number').locator('#number').inputValue()).toBe('51');

    await guess.getByRole('button', { name: 'Keep my guess' }).click();
    await guess.getByText('Your guess, kept').waitFor();
    await page.reload();
    await opened(page);
    await page.locator('plumb-guess:not([recall])').getByText('Your guess, kept').waitFor();
    const recall = page.locator('plumb-guess[recall]');
    await recall.getByText(/^Your guess was/).waitFor();
    expect(await recall.locator('.guessed').innerText()).toContain('51');
  });

  it('asks for a number before it keeps one, at the field', async () => {
    const page = await open('resultant-lines.html');
    const guess = page.locator('plumb-guess:not([recall])');
    await guess.getByRole('button', { name: 'Keep my guess' }).click();
    expect(await guess.locator('#number-message').innerText()).toContain(
      'needs a number; nothing is entered',
    );
  });

  it('can be skipped', async () => {
    const page = await open('stability-angles.html');
    const guess = page.locator('plumb-guess:not([recall])');
    await guess.getByRole('button', { name: 'Skip, I am at the bench' }).click();
    await guess.getByText('Skipped.').waitFor();
    expect(await guess.getByRole('button', { name: 'Keep my guess' }).count()).toBe(0);
  });
});

describe('tip lines', () => {
  const dial = (page: Page): Locator =>
    page.locator('plumb-tip-lines').getByRole('slider', { name: 'Downhill lies' });
  const headingField = (page: Page): Locator =>
    field(page.locator('plumb-tip-lines'), 'Downhill lies').locator('#number');
  const limit = (page: Page): Promise<number> =>
    numberIn(page.locator('plumb-tip-lines plumb-result .value').first());

  it.each([
    ['ArrowRight', '119'],
    ['ArrowUp', '119'],
    ['ArrowLeft', '117'],
    ['ArrowDown', '117'],
    ['PageUp', '133'],
    ['PageDown', '103'],
    ['Shift+ArrowRight', '133'],
    ['Home', '0'],
    ['End', '359'],
  ])('%s turns the dial from 118° to %s°, and the field with it', async (key, after) => {
    const page = await open('stability-angles.html');
    await dial(page).focus();
    await page.keyboard.press(key);
    expect(await dial(page).getAttribute('aria-valuenow')).toBe(after);
    expect(await headingField(page).inputValue()).toBe(after);
  });

  it('typing and dragging to the same heading give the same limit', async () => {
    const page = await open('stability-angles.html');
    await headingField(page).fill('90');
    const typed = await limit(page);
    await headingField(page).fill('180');

    const handle = dial(page);
    await handle.scrollIntoViewIfNeeded();
    const svg = await page.locator('plumb-tip-lines .dial-box svg').boundingBox();
    const knob = await handle.locator('.handle-knob').boundingBox();
    if (!svg || !knob) throw new Error('the dial is not laid out');
    const center = { x: svg.x + svg.width / 2, y: svg.y + svg.height / 2 };
    await page.mouse.move(knob.x + knob.width / 2, knob.y + knob.height / 2);
    await page.mouse.down();
    await page.mouse.move(center.x - 60, center.y + 90);
    await page.mouse.move(center.x - 140, center.y);
    await page.mouse.up();

    expect(await dial(page).getAttribute('aria-valuenow')).toBe('90');
    expect(await limit(page)).toBe(typed);
  });

  it('straight to the left agrees with the title block', async () => {
    const page = await open('stability-angles.html');
    await headingField(page).fill('90');
    const block = await page.locator('plumb-title-block .strip .value').allInnerTexts();
    expect(await limit(page)).toBe(Number(block[3]));
  });

  it.each([
    ['', 'nothing is entered'],
    ['abc', 'got “abc”'],
    ['500', 'got “500°”'],
    ['12 mm', 'got “12 mm”'],
  ])('says of the heading %j what is wrong, keeps it, and shows no number', async (text, said) => {
    const page = await open('stability-angles.html');
    const given = field(page.locator('plumb-tip-lines'), 'Downhill lies');
    await typeInto(given, text);
    expect(await given.locator('#number-message').innerText()).toContain(said);
    expect(await given.locator('#number').inputValue()).toBe(text);
    expect(await page.locator('plumb-tip-lines plumb-result .current').count()).toBe(0);
  });

  it('a tried track is a trial everywhere until it is kept, and one undo takes it back', async () => {
    const page = await open('stability-angles.html');
    const tips = page.locator('plumb-tip-lines');
    const leftDown = page.locator('plumb-title-block .strip .value').nth(3);
    const before = await leftDown.innerText();

    await tips.getByRole('radio', { name: 'Try other values' }).check();
    await typeInto(field(tips, 'Rear track'), '220');
    await typeInto(field(tips, 'Front track'), '220');
    await page.locator('plumb-title-block .strip .trial').waitFor();
    expect(await leftDown.innerText()).not.toBe(before);

    await tips.getByRole('button', { name: /Discard/ }).click();
    await page.locator('plumb-title-block .strip .trial').waitFor({ state: 'detached' });
    expect(await leftDown.innerText()).toBe(before);

    await tips.getByRole('radio', { name: 'Try other values' }).check();
    await typeInto(field(tips, 'Rear track'), '220');
    await tips.getByRole('button', { name: /Keep the tracks/ }).click();
    await page.locator('plumb-title-block .strip .trial').waitFor({ state: 'detached' });
    expect(await leftDown.innerText()).not.toBe(before);

    await tips.getByRole('button', { name: 'Undo' }).click();
    await expect.poll(() => leftDown.innerText()).toBe(before);
  });

  it('projected, it hides the answer until its step', async () => {
    const page = await open('stability-angles.html?projector#e5');
    const stage = page.locator('plumb-tip-lines .stage');
    await stage.waitFor();
    expect(await stage.locator('.stage-row dd').first().innerText()).toBe('?');
    await page.getByRole('button', { name: 'Show the answer' }).click();
    await expect.poll(() => stage.locator('.stage-row dd').first().innerText()).toMatch(/line$/);

    const smallest = await stage.evaluate((root) => {
      const sizes = [...root.querySelectorAll('text, p, dt, dd')].map((element) => {
        const box = element instanceof SVGGraphicsElement ? element.getScreenCTM() : null;
        return parseFloat(getComputedStyle(element).fontSize) * (box?.a ?? 1);
      });
      return Math.min(...sizes);
    });
    // Smallest text of a projected page on a screen 1280 wide.
    expect(Math.round(smallest)).toBeGreaterThanOrEqual(22);
  });
});

describe('the small calculators', () => {
  it('crossing: at 30° the worst ± is 1/(√2 sin 15°) of one line’s, by key, by typing and by drag alike', async () => {
    const page = await open('resultant-lines.html');
    const crossing = page.locator('plumb-crossing');
    const worst = crossing.locator('plumb-result .value').nth(1);
    const expected = (1 / (Math.SQRT2 * Math.sin(Math.PI / 12))).toFixed(1);
    await typeInto(field(crossing, 'Lines cross at'), '30');
    expect(await worst.innerText()).toBe(expected);

    const handle = crossing.getByRole('slider', { name: 'Lines cross at' });
    await handle.focus();
    await page.keyboard.press('End');
    expect(await worst.innerText()).toBe('1.0');
    for (let press = 0; press < 6; press += 1) await page.keyboard.press('PageDown');
    expect(await field(crossing, 'Lines cross at').locator('#number').inputValue()).toBe('30');
    expect(await worst.innerText()).toBe(expected);
  });

  it('triangle: true lines agree, one moved by key does not', async () => {
    const page = await open('resultant-lines.html');
    const triangle = page.locator('plumb-triangle');
    await triangle.getByRole('button', { name: 'All true' }).click();
    await triangle.getByText('The three lines agree.').waitFor();
    await triangle.getByRole('slider', { name: 'Line 2 off by' }).focus();
    for (let press = 0; press < 3; press += 1) await page.keyboard.press('PageUp');
    await triangle.getByText('The three lines do not agree.').waitFor();
  });

  it('droop: no sag, no shift; a hub dragged down by key shifts the line', async () => {
    const page = await open('resultant-lines.html');
    const droop = page.locator('plumb-droop');
    const off = droop.locator('plumb-result .value').first();
    await typeInto(field(droop, 'Front axle sags'), '0');
    await typeInto(field(droop, 'Rear axle sags'), '0');
    expect(await off.innerText()).toBe('0.0');
    await droop.getByRole('slider', { name: 'Front axle sags' }).focus();
    await page.keyboard.press('End');
    expect(Number(await off.innerText())).toBeGreaterThan(0);
  });

  it('one change at a time: half as high doubles the tangent', async () => {
    const page = await open('stability-angles.html');
    const vary = page.locator('plumb-vary-one');
    await typeInto(field(vary, 'CG above ground'), '46');
    // atan(2 · 93/92)
    const expected = ((Math.atan((2 * 93) / 92) * 180) / Math.PI).toFixed(1);
    expect(await vary.locator('plumb-result .value').first().innerText()).toBe(`${expected}°`);
  });
});

describe('the sheet menu', () => {
  const menu = (page: Page): Locator => page.locator('plumb-sheet-menu');

  it('every given field takes bad input with a message and loses nothing', async () => {
    const page = await open('index.html');
    await foldsOpen(page);
    const givens = menu(page).locator('plumb-truck-givens .columns plumb-given');
    const count = await givens.count();
    expect(count).toBeGreaterThanOrEqual(10);
    for (let index = 0; index < count; index += 1) {
      const given = givens.nth(index);
      const label = await given.locator('label').innerText();
      for (const text of ['twelve', '1e9', '5 furlongs']) {
        await typeInto(given, text);
        const message = given.locator('#number-message');
        expect(await message.innerText(), `${label}: ${text}`).toContain(`got “${text}`);
        expect(await message.innerText()).toContain(label);
        expect(await given.locator('#number').inputValue()).toBe(text);
      }
    }
  });

  it('exports the sheet, and imports it as a sheet of its own', async () => {
    const page = await open('index.html');
    const [download] = await Promise.all([
      page.waitForEvent('download'),
      menu(page).getByRole('button', { name: 'Export to a file' }).click(),
    ]);
    const text = await readFile(await download.path(), 'utf8');
    expect(download.suggestedFilename()).toBe('bramble.json');
    expect(JSON.parse(text)).toMatchObject({ format: 'plumb-low-bench-sheet', name: 'Bramble' });

    await menu(page)
      .locator('#file')
      .setInputFiles({ name: 'b.json', mimeType: 'application/json', buffer: Buffer.from(text) });
    await menu(page).getByText('Imported and open.').waitFor({ timeout: 20_000 });
    expect(await page.locator('plumb-title-block .full .value').allInnerTexts()).toHaveLength(7);
  });

  it('says what is wrong with a bad file and leaves the open sheet as it is', async () => {
    const page = await open('index.html');
    const block = page.locator('plumb-title-block .full .value');
    const before = await block.allInnerTexts();
    await menu(page)
      .locator('#file')
      .setInputFiles({
        name: 'b.json',
        mimeType: 'application/json',
        buffer: Buffer.from('{"format":"plumb-low-bench-sheet","version":1,"name":7}'),
      });
    await menu(page).getByText('That did not work.').waitFor();
    expect(await block.allInnerTexts()).toEqual(before);
  });

  it('undoes and redoes, naming the edit', async () => {
    const page = await open('index.html');
    const name = menu(page).getByRole('textbox', { name: 'Truck' });
    await name.fill('Thistle');
    await page.locator('plumb-title-block .truck-name', { hasText: 'Thistle' }).waitFor();
    const undo = menu(page).getByRole('button', { name: 'Undo' });
    expect(await undo.getAttribute('title')).toBe('Undo: Name of the truck');
    await undo.click();
    await page.locator('plumb-title-block .truck-name', { hasText: 'Bramble' }).waitFor();
    await menu(page).getByRole('button', { name: 'Redo' }).click();
    await page.locator('plumb-title-block .truck-name', { hasText: 'Thistle' }).waitFor();
  });

  it('is opened at its sizes by “#truck”', async () => {
    const page = await open('index.html#truck');
    await field(menu(page), 'Wheelbase').waitFor();
  });
});

describe('everywhere', () => {
  it.each([
    ['index.html', 'a laptop', LAPTOP],
    ['index.html', 'a phone', PHONE],
    ['resultant-lines.html', 'a phone', PHONE],
    ['stability-angles.html', 'a phone', PHONE],
  ] as const)(
    '%s on %s with all folds open has no accessibility violation and no sideways scroll',
    async (name, _screen, viewport) => {
      const page = await open(name, { viewport });
      await foldsOpen(page);
      const { violations } = await new AxeBuilder({ page }).analyze();
      expect(
        violations.map(({ id, nodes }) => `${id}: ${nodes.map((node) => node.target.join(' ')).join('; ')}`),
      ).toEqual([]);
      const over = await page.evaluate(
        () => document.documentElement.scrollWidth - document.documentElement.clientWidth,
      );
      expect(over).toBeLessThanOrEqual(0);
    },
  );

  it('buttons of the calculators are 44 px high', async () => {
    const page = await open('stability-angles.html', { viewport: PHONE });
    const small = await page.evaluate(() => {
      const found: string[] = [];
      const all = (root: ParentNode): void => {
        for (const element of root.querySelectorAll('*')) {
          if (element.localName === 'button' && element.getRootNode() !== document) {
            const { width, height } = element.getBoundingClientRect();
            if (height > 0 && (height < 43.5 || width < 43.5)) found.push(element.textContent?.trim() ?? '');
          }
          if (element.shadowRoot) all(element.shadowRoot);
        }
      };
      all(document);
      return found;
    });
    expect(small).toEqual([]);
  });

  it('a printed guess is a blank ruler with room to write', async () => {
    const page = await open('resultant-lines.html');
    await page.emulateMedia({ media: 'print' });
    const guess = page.locator('plumb-guess:not([recall])');
    expect(await guess.locator('.write-lines').isVisible()).toBe(true);
    expect(await guess.getByRole('slider').isVisible()).toBe(false);
    expect(await guess.getByRole('button', { name: 'Keep my guess' }).isVisible()).toBe(false);
  });
});
