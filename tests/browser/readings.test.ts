import { AxeBuilder } from '@axe-core/playwright';
import { describe, expect, it } from 'vitest';
import type { Locator, Page } from 'playwright-core';
import { LAPTOP, PAGES, PHONE, useSite } from './site';

const site = useSite();

const dialog = (page: Page): Locator => page.getByRole('dialog', { name: 'Readings' });
const link = (page: Page): Locator => page.locator('plumb-title-block a.readings:visible');
const entry = (page: Page, title: string): Locator =>
  dialog(page).locator('.list .entry').filter({ hasText: title });
/** The fold at the end of the list that offers kinds of readings. */
const chooser = (page: Page): Locator => dialog(page).locator('#add > summary');

async function openAt(name: string, options = {}): Promise<Page> {
  const page = await site.open(name, options);
  await dialog(page).waitFor();
  return page;
}

async function violations(page: Page): Promise<string[]> {
  const { violations: found } = await new AxeBuilder({ page }).include('plumb-readings-sheet').analyze();
  return found.map(({ id, nodes }) => `${id}: ${nodes.map((node) => node.target.join(' ')).join('; ')}`);
}

/** What has the focus, through shadow trees: its label, its words, or its name. */
const focused = (page: Page): Promise<string> =>
  page.evaluate(() => {
    let element = document.activeElement;
    while (element?.shadowRoot?.activeElement) element = element.shadowRoot.activeElement;
    const labels = element instanceof HTMLInputElement ? [...(element.labels ?? [])] : [];
    return (
      element?.getAttribute('aria-label') ??
      labels[0]?.textContent?.trim() ??
      element?.textContent?.trim().replace(/\s+/g, ' ') ??
      ''
    );
  });

/** Where the reader is on the page. */
const place = (page: Page): Promise<number> => page.evaluate(() => Math.round(scrollY));

describe('the readings panel opens over every page', () => {
  it.each(PAGES)('%s: by its title block, and the place is kept', async (name) => {
    const page = await site.open(name);
    await page.evaluate(() => scrollTo(0, 400));
    // By key: a driven pointer scrolls the page to meet what it clicks.
    await link(page).evaluate((a) => a.focus({ preventScroll: true }));
    const before = await place(page);
    expect(before).toBeGreaterThan(0);
    await page.keyboard.press('Enter');
    await dialog(page).waitFor();
    expect(new URL(page.url()).hash).toBe('#readings');
    expect(await focused(page)).toBe('Readings');

    await page.keyboard.press('Escape');
    await dialog(page).waitFor({ state: 'hidden' });
    await page.waitForFunction(() => location.hash === '');
    expect(await place(page)).toBe(before);
    expect(await focused(page)).toMatch(/^Readings .*counted$/);
  });

  it('closes by "back" and opens again by "forward"', async () => {
    const page = await site.open('resultant-lines.html');
    await link(page).click();
    await dialog(page).waitFor();
    await page.goBack();
    await dialog(page).waitFor({ state: 'hidden' });
    await page.goForward();
    await dialog(page).waitFor();
    await dialog(page).getByRole('button', { name: 'Close' }).click();
    await dialog(page).waitFor({ state: 'hidden' });
    expect(new URL(page.url()).hash).toBe('');
  });

  it('loads nothing of itself before', async () => {
    const page = await site.newPage();
    const asked: string[] = [];
    page.on('request', (request) => asked.push(request.url()));
    await page.goto(site.url('stability-angles.html'), { waitUntil: 'networkidle' });
    expect(asked.filter((url) => url.includes('readingsSheet'))).toEqual([]);
    await link(page).click();
    await dialog(page).waitFor();
    expect(asked.some((url) => url.includes('readingsSheet'))).toBe(true);
  });

  it('from an address, at a reading with its first field in hand', async () => {
    const page = await openAt('stability-angles.html#readings/axles');
    await expect.poll(() => focused(page)).toMatch(/^Front axle on scales/);
    await page.keyboard.press('Escape');
    await dialog(page).waitFor({ state: 'hidden' });
    expect(new URL(page.url()).hash).toBe('');
  });

  it('from an address, at the kinds that can be added', async () => {
    const page = await openAt('index.html#readings/add');
    await dialog(page).getByRole('button', { name: 'Tilt board' }).waitFor();
  });

  it('from the drawer of a phone, over the whole window', async () => {
    const page = await site.open('resultant-lines.html', { viewport: PHONE });
    await page.getByRole('button', { name: 'Open the title block' }).click();
    await link(page).click();
    await dialog(page).waitFor();
    const box = await dialog(page).boundingBox();
    expect(box).toEqual({ x: 0, y: 0, width: PHONE.width, height: PHONE.height });
  });

  it('leaves for a place of the same page', async () => {
    const page = await openAt('resultant-lines.html#readings');
    await entry(page, 'Hang 1').locator('summary').click();
    await dialog(page).getByRole('link', { name: 'Open it in chapter 3, E3' }).click();
    await dialog(page).waitFor({ state: 'hidden' });
    expect(await page.locator('#e3').evaluate((e3) => Math.abs(e3.getBoundingClientRect().top))).toBeLessThan(
      200,
    );
  });

  it('without a script, the link leads to the sheet on the cover', async () => {
    const page = await site.open('resultant-lines.html', { javaScriptEnabled: false });
    await page.locator('.title-block-place').getByRole('link', { name: 'Readings' }).click();
    expect(page.url()).toBe(site.url('index.html#truck'));
    expect(await page.locator('#truck').isVisible()).toBe(true);
  });
});

describe('readings are entered by keyboard', () => {
  it('added, filled in, set aside with a reason, undone and done again', async () => {
    const page = await openAt('stability-angles.html#readings');
    await chooser(page).press('Enter');
    await dialog(page).getByRole('button', { name: 'Total mass' }).press('Enter');
    await expect.poll(() => focused(page)).toMatch(/^Total mass/);
    const added = entry(page, 'Total mass').last();
    expect(await added.textContent()).toContain('still to read: whole truck');

    await page.keyboard.type('2941 g');
    await page.keyboard.press('Tab');
    expect((await added.locator('.entry-detail').textContent())?.replace(/\s/g, ' ')).toBe('2941 g');

    await added.getByRole('checkbox').press('Space');
    await added.getByRole('textbox', { name: 'Why set aside' }).fill('pack was out');
    expect(await added.locator('.entry-standing').textContent()).toBe('set aside; note: pack was out');

    const undo = dialog(page).getByRole('button', { name: 'Undo' });
    await undo.press('Enter');
    await undo.press('Enter');
    expect(await added.getByRole('checkbox').isChecked()).toBe(true);
    await dialog(page).getByRole('button', { name: 'Redo' }).press('Enter');
    expect(await added.locator('.entry-standing').textContent()).toBe('set aside');
  });

  it('measured again beside the first, and removed', async () => {
    const page = await openAt('index.html#readings/axles');
    const axles = entry(page, 'Axle scales');
    expect(await axles.count()).toBe(1);
    await axles.getByRole('button', { name: 'Measure it again' }).press('Enter');
    expect(await axles.count()).toBe(2);
    await expect.poll(() => focused(page)).toMatch(/^Front axle on scales/);
    expect(await axles.nth(1).textContent()).toContain('still to read: front axle, rear axle');
    await axles.nth(1).getByRole('button', { name: 'Remove' }).press('Enter');
    expect(await axles.count()).toBe(1);
  });

  it('tells what is wrong at its field and does not count the reading', async () => {
    const page = await openAt('index.html#readings/axles');
    await expect.poll(() => focused(page)).toMatch(/^Front axle on scales/);
    await page.keyboard.type('-3');
    const axles = entry(page, 'Axle scales');
    const field = axles.getByRole('textbox', { name: /^Front axle on scales[^±]*$/ }).first();
    expect(await field.getAttribute('aria-invalid')).toBe('true');
    expect(await axles.locator('plumb-given').first().locator('#number-message').textContent()).toMatch(
      /^Front axle on scales: needs a mass above zero; got “-3 g”\. /,
    );
    expect(await axles.locator('.entry-standing').textContent()).toBe('has a number that cannot be read');
  });

  it('puts the cautions of a step before its fields, and keeps other slopes for what they are', async () => {
    const page = await openAt('stability-angles.html#readings');
    await chooser(page).press('Enter');
    await dialog(page).getByRole('button', { name: 'Tilt board' }).press('Enter');
    await expect.poll(() => focused(page)).toBe('Before you raise the board');
    const board = entry(page, 'Board, left side down').last();
    expect(await board.textContent()).toContain('catch strap');

    await board.getByRole('radio', { name: 'The first wheel lifts, no more' }).press('Space');
    expect(await board.locator('.entry-standing').textContent()).toBe('kept, not counted');
    expect(await board.getByText('A first wheel is not the tip.').isVisible()).toBe(true);
    expect(await board.getByRole('checkbox').count()).toBe(0);
  });

  it('ties a hang to a new hook and asks for its place', async () => {
    const page = await openAt('stability-angles.html#readings');
    await chooser(page).press('Enter');
    await dialog(page).getByRole('button', { name: 'Hang by ruler' }).press('Enter');
    await expect.poll(() => focused(page)).toMatch(/^Before you hang it/);
    const hang = entry(page, 'Hang by ruler').last();
    await hang.getByLabel('Hung from').selectOption({ label: 'a new hook' });
    await hang.getByLabel('Its name').fill('roof ring');
    expect(await hang.locator('.entry-detail').textContent()).toBe('from the roof ring');
    const standing = hang.locator('.entry-standing');
    expect(await standing.textContent()).toBe('still to read: point ahead, point height');
    await hang.getByRole('textbox', { name: /second point ahead[^±]*axle$/ }).fill('140');
    await hang.getByRole('textbox', { name: /second point above ground$/ }).fill('60');
    expect(await standing.textContent()).toBe('waits for the place of its hook, by ruler');
    await hang.getByRole('textbox', { name: /^roof ring, ahead of the rear axle$/ }).fill('180');
    await hang.getByRole('textbox', { name: /^roof ring, above ground$/ }).fill('190');
    expect(await standing.count()).toBe(0);
    await hang.getByText('Free', { exact: true }).click();
    expect(await hang.getByRole('textbox', { name: /front axle droop(?!.*plus or minus)/ }).count()).toBe(1);
  });

  it('keeps intended changes', async () => {
    const page = await openAt('index.html#readings');
    await dialog(page).getByRole('button', { name: 'Move a mass' }).press('Enter');
    await expect.poll(() => focused(page)).toMatch(/, mass$/);
    await page.keyboard.type('250');
    await dialog(page)
      .getByRole('textbox', { name: /, moved up$/ })
      .fill('-40');
    const detail = dialog(page).locator('.seen .entry-detail').last();
    expect((await detail.textContent())?.replace(/\s/g, ' ')).toBe('move 250 g down 40 mm');
  });

  it('offers everything where nothing was read yet', async () => {
    const page = await site.open('index.html');
    await page.locator('plumb-sheet-menu summary', { hasText: 'Other sheets' }).click();
    await page.getByRole('button', { name: 'New sheet' }).click();
    await page.getByRole('heading', { name: 'The bench sheet of My truck' }).waitFor();
    await page.evaluate(() => (location.hash = '#readings'));
    await dialog(page).waitFor();
    expect(await dialog(page).locator('.list').textContent()).toContain('Nothing yet.');
    expect(await dialog(page).getByRole('button', { name: 'Tilt board' }).isVisible()).toBe(true);
  });
});

describe('the readings panel fits', () => {
  it.each([
    ['light', LAPTOP],
    ['dark', LAPTOP],
    ['light', PHONE],
    ['dark', PHONE],
  ] as const)('%s, %o: no accessibility violation, folds open or closed', async (colorScheme, viewport) => {
    const page = await openAt('stability-angles.html#readings', { colorScheme, viewport });
    expect(await violations(page)).toEqual([]);
    await chooser(page).click();
    await dialog(page).getByRole('button', { name: 'Tilt board' }).click();
    await entry(page, 'Axle scales').locator('summary').first().click();
    await dialog(page).locator('#shared-errors > summary').click();
    await dialog(page).getByRole('button', { name: 'Add a mass' }).click();
    expect(await violations(page)).toEqual([]);
  });

  it.each([320, 360, 768, 1024, 1280])(
    'does not scroll sideways at %d px, every kind open',
    async (width) => {
      const page = await openAt('index.html#readings', { viewport: { width, height: 740 } });
      for (const kind of ['Axle lift', 'Hang by ruler', 'Tilt board', 'Wheel scales', 'Balance on an edge']) {
        await chooser(page).click();
        await dialog(page).getByRole('button', { name: kind, exact: true }).click();
      }
      const body = dialog(page).locator('.body');
      expect(await body.evaluate((element) => element.scrollWidth - element.clientWidth)).toBe(0);
    },
  );

  it('keeps targets at 44 px on a phone', async () => {
    const page = await openAt('index.html#readings/axles', { viewport: PHONE });
    await chooser(page).click();
    const small = await dialog(page)
      .locator('button:visible, summary:visible, label.check:visible, a.button:visible')
      .evaluateAll((targets) =>
        targets
          .map((target) => ({ words: target.textContent?.trim(), box: target.getBoundingClientRect() }))
          .filter(({ box }) => box.height < 44 || box.width < 44)
          .map(({ words, box }) => `${words}: ${box.width} × ${box.height}`),
      );
    expect(small).toEqual([]);
  });

  it('prints alone, on A4', async () => {
    const page = await openAt('resultant-lines.html#readings');
    await page.emulateMedia({ media: 'print' });
    expect(await page.locator('main').isVisible()).toBe(false);
    expect(await dialog(page).getByText('What was read').isVisible()).toBe(true);
    const pdf = (await page.pdf({ preferCSSPageSize: true })).toString('latin1');
    // Three sheets at most: answer, what is next, and the list; not the chapter behind it.
    expect([...pdf.matchAll(/\/MediaBox/g)].length).toBeLessThanOrEqual(3);
  });
});
