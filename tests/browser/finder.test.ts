import { AxeBuilder } from '@axe-core/playwright';
import type { Page } from 'playwright-core';
import { describe, expect, test } from 'vitest';
import { tolerance } from '../tolerances';
import {
  bringToMiddle,
  calculator,
  demoSheet,
  Fingers,
  onScreen,
  openSheet,
  sight,
  toldMark,
  toldMarks,
  type At,
} from './photographsPage';
import { renderHang, type RenderedHang } from './renderedHang';
import { LAPTOP, PHONE, useSite } from './site';

/** The picture's edges place marks, on a picture whose string and stickers are where the test drew them. */

const site = useSite();

const STRING = { upper: { x: 822.3, y: 0 }, lower: { x: 789.6, y: 620 }, width: 3.2 };
const STICKER = { x: 612.37, y: 771.64 };
const HANG: RenderedHang = { width: 1600, height: 1200, string: STRING, stickers: [STICKER] };

/** A place of the string's middle line. */
const onString = (y: number): At => {
  const { upper, lower } = STRING;
  return { x: upper.x + ((lower.x - upper.x) * (y - upper.y)) / (lower.y - upper.y), y };
};

/** How far a place lies from the string's middle line, pixels. */
function offString({ x, y }: At): number {
  const { upper, lower } = STRING;
  const [dx, dy] = [lower.x - upper.x, lower.y - upper.y];
  return Math.abs(dx * (y - upper.y) - dy * (x - upper.x)) / Math.hypot(dx, dy);
}

const beside = ({ x, y }: At, by: number): At => ({ x: x + by, y });

/** The calculator with the rendered picture as its only one, nothing marked. */
async function openHang(
  hang: RenderedHang = HANG,
  options: Parameters<typeof site.newPage>[0] = {},
): Promise<Page> {
  const picture = await renderHang(await site.newPage(), hang);
  const sheet = demoSheet((state) => {
    state.pictures = state.pictures.filter(({ id }) => id === 'hang-1');
    for (const draft of state.pictures)
      Object.assign(draft, { width: hang.width, height: hang.height, marks: [] });
    state.readings = [];
  });
  const page = await openSheet(site, sheet, { 'hang-1': picture }, options);
  await bringToMiddle(page);
  return page;
}

/** Takes a point in hand and clicks it into the picture. */
async function place(page: Page, role: string, at: At): Promise<void> {
  await calculator(page).locator(`[data-point="${role}"]`).click();
  await bringToMiddle(page);
  const { x, y } = await onScreen(page, HANG, at);
  await page.mouse.click(x, y);
  await sight(page, role).waitFor();
}

const finding = (page: Page, of: string) => calculator(page).locator(`[data-finding="${of}"]`);

async function standingOf(page: Page, of: string): Promise<string | null> {
  await finding(page, of).waitFor();
  return finding(page, of).getAttribute('data-standing');
}

async function expectOnString(page: Page): Promise<void> {
  for (const role of ['string upper', 'string lower']) {
    const mark = await toldMark(page, role);
    expect(mark.found, role).toBe(true);
    expect(offString(mark), role).toBeLessThanOrEqual(tolerance('finder: rendered string'));
  }
}

/** Both string marks by pointer, five pixels off to either side. */
async function markString(page: Page): Promise<void> {
  await place(page, 'string upper', beside(onString(90), 5));
  await place(page, 'string lower', beside(onString(560), -5));
}

describe('the string', () => {
  test('takes marks set by pointer five pixels off, and gives them back', async () => {
    const page = await openHang();
    await place(page, 'string upper', beside(onString(90), 5));
    const upper = await toldMark(page, 'string upper');
    expect(upper.found).toBe(false);
    expect(await finding(page, 'string').count()).toBe(0);
    await place(page, 'string lower', beside(onString(560), -5));
    expect(await standingOf(page, 'string')).toBe('taken');
    await expectOnString(page);
    const words = await finding(page, 'string').innerText();
    expect(words).toMatch(/String found, \d\.\d\spx wide\./);
    expect(words).toMatch(/Your marks moved [45]\.\d\spx and [45]\.\d\spx onto its middle/);
    expect(words).toMatch(/±\s0\.\d\spx/);

    // Undo takes back the move alone; redo brings it again.
    await calculator(page).getByRole('button', { name: 'Undo' }).click();
    await expect.poll(() => standingOf(page, 'string')).toBe('offered');
    const own = await toldMarks(page);
    expect(own.get('string upper')).toEqual(upper);
    expect(own.get('string lower')?.found).toBe(false);
    await sight(page, 'string upper').focus();
    await page.keyboard.press('Control+Shift+z');
    await expect.poll(() => standingOf(page, 'string')).toBe('taken');

    await finding(page, 'string').getByRole('button', { name: 'Keep my own marks' }).click();
    await expect.poll(() => standingOf(page, 'string')).toBe('offered');
    expect(await toldMarks(page)).toEqual(own);
    expect(await finding(page, 'string').innerText()).toContain('Your own marks stand.');
    await finding(page, 'string').getByRole('button', { name: 'Take the string found' }).click();
    await expect.poll(() => standingOf(page, 'string')).toBe('taken');
    await expectOnString(page);
  });

  test('once refused is not forced on the same marks again', async () => {
    const page = await openHang();
    await markString(page);
    await finding(page, 'string').getByRole('button', { name: 'Keep my own marks' }).click();
    await expect.poll(() => standingOf(page, 'string')).toBe('offered');
    const mark = await toldMark(page, 'string lower');
    await bringToMiddle(page);
    const from = await onScreen(page, HANG, mark);
    await page.mouse.move(from.x, from.y);
    await page.mouse.down();
    await page.mouse.move(from.x, from.y - 6, { steps: 4 });
    await page.mouse.up();
    await expect.poll(async () => (await toldMark(page, 'string lower')).y).toBeLessThan(mark.y - 5);
    expect(await standingOf(page, 'string')).toBe('offered');
    expect((await toldMark(page, 'string lower')).found).toBe(false);
  });

  test('is offered to marks moved by keys, and taken with F', async () => {
    const page = await openHang();
    await markString(page);
    await expect.poll(() => standingOf(page, 'string')).toBe('taken');
    await sight(page, 'string upper').focus();
    await page.keyboard.press('ArrowRight');
    await page.keyboard.press('ArrowRight');
    const nudged = await toldMark(page, 'string upper');
    expect(nudged.found).toBe(false);
    await expect.poll(() => finding(page, 'string').count()).toBe(1);
    expect(await standingOf(page, 'string')).toBe('offered');
    expect(await toldMark(page, 'string upper')).toEqual(nudged);
    await page.keyboard.press('f');
    await expect.poll(() => standingOf(page, 'string')).toBe('taken');
    await expectOnString(page);
    await expect
      .poll(() => calculator(page).locator('[role="status"].spoken').innerText())
      .toContain('String found,');
  });

  test('that is not there is told, and the marks stay', async () => {
    const page = await openHang({ ...HANG, string: null });
    await place(page, 'string upper', onString(90));
    const upper = await toldMark(page, 'string upper');
    await place(page, 'string lower', onString(560));
    expect(await standingOf(page, 'string')).toBe('unsure');
    expect(await finding(page, 'string').innerText()).toMatch(
      /No string is sure here\. \S.*Your marks stay/s,
    );
    expect(await toldMark(page, 'string upper')).toEqual(upper);
    expect((await toldMark(page, 'string lower')).found).toBe(false);
  });
});

test('a picture dropped with another and sorted has its string found by finger', async () => {
  const picture = await renderHang(await site.newPage(), HANG);
  const sheet = demoSheet((state) => {
    Object.assign(state, { pictures: [], hooks: [], bodyMarks: [], readings: [], parts: [] });
  });
  const page = await site.newPage({ viewport: PHONE, hasTouch: true, isMobile: true });
  await page.route('**/demo/bramble.json', (route) => route.fulfill({ json: sheet }));
  await page.goto(site.url('resultant-lines.html#e3'));
  await calculator(page).locator('plumb-film-strip').waitFor();
  await calculator(page)
    .locator('plumb-panel')
    .evaluate((panel, content) => {
      const data = new DataTransfer();
      const bytes = Uint8Array.from(atob(content), (letter) => letter.charCodeAt(0));
      for (const name of ['one.jpg', 'two.jpg'])
        data.items.add(new File([bytes], name, { type: 'image/jpeg' }));
      panel.dispatchEvent(
        new DragEvent('drop', { dataTransfer: data, bubbles: true, composed: true, cancelable: true }),
      );
    }, picture.toString('base64'));
  const strip = calculator(page).locator('plumb-film-strip li');
  await strip.nth(0).locator('[data-sort="hanging"]').click();
  await strip.nth(0).locator('.frame').click();
  await bringToMiddle(page);
  const fingers = new Fingers(page);
  // Within what a finger misses by on a phone, where a pixel of the screen is five of the picture.
  for (const [role, at] of [
    ['string upper', beside(onString(90), 4)],
    ['string lower', beside(onString(560), -4)],
  ] as const) {
    await calculator(page).locator(`[data-next="${role}"]`).waitFor();
    await bringToMiddle(page);
    const finger = await onScreen(page, HANG, at);
    await fingers.send('touchStart', [finger]);
    await fingers.send('touchEnd', []);
    await sight(page, role).waitFor();
  }
  await expect.poll(() => standingOf(page, 'string')).toBe('taken');
  await expectOnString(page);
});

describe('a round', () => {
  test('takes the mark set near it, and gives it back', async () => {
    const page = await openHang();
    await place(page, 'mark A', { x: STICKER.x + 4, y: STICKER.y - 3 });
    await calculator(page).locator('[data-point="mark A"]').click();
    expect(await standingOf(page, 'mark A')).toBe('taken');
    const mark = await toldMark(page, 'mark A');
    expect(mark.found).toBe(true);
    expect(Math.hypot(mark.x - STICKER.x, mark.y - STICKER.y)).toBeLessThanOrEqual(
      tolerance('finder: rendered round'),
    );
    expect(await finding(page, 'mark A').innerText()).toMatch(
      /Snapped to the round, [45]\.\d\spx from your mark/,
    );
    const plusMinus = calculator(page).getByRole('textbox', { name: /^Mark A.*plus or minus/ });
    expect(Number(await plusMinus.inputValue())).toBeGreaterThan(0);
    await finding(page, 'mark A').getByRole('button', { name: 'Keep my own mark' }).click();
    await expect.poll(async () => (await toldMark(page, 'mark A')).found).toBe(false);
    expect(Math.hypot((await toldMark(page, 'mark A')).x - STICKER.x - 4)).toBeLessThan(1);
    expect(await plusMinus.inputValue()).toBe('');
  });

  test('that is not there is told only when asked for', async () => {
    const page = await openHang();
    await place(page, 'mark B', { x: 1250, y: 300 });
    const mark = await toldMark(page, 'mark B');
    expect(await finding(page, 'mark B').count()).toBe(0);
    await calculator(page)
      .getByRole('button', { name: /^Find the round here/ })
      .click();
    expect(await standingOf(page, 'mark B')).toBe('unsure');
    expect(await finding(page, 'mark B').innerText()).toMatch(/No round is sure here\. \S.*Your mark stays/s);
    expect(await toldMark(page, 'mark B')).toEqual(mark);
  });
});

describe('a picture', () => {
  /** Marks on the truck, so that its surroundings are looked at. */
  async function markTruck(page: Page): Promise<void> {
    await place(page, 'mark A', STICKER);
    await place(page, 'mark B', { x: 640, y: 560 });
    await place(page, 'mark C', { x: 1080, y: 860 });
  }
  const warning = (page: Page) => calculator(page).locator('[data-blur]');

  test('that moved while it was taken is told with its damage and the remedy', async () => {
    const smear = 10;
    const page = await openHang({ ...HANG, smear });
    await markTruck(page);
    await warning(page).waitFor();
    const title = (await warning(page).getAttribute('title-text')) ?? '';
    const told = Number(/Blurred by about (\d+)\spx/.exec(title)?.[1]);
    expect(Math.abs(told - smear)).toBeLessThanOrEqual(tolerance('finder: told blur'));
    const words = await warning(page).innerText();
    expect(words).toMatch(
      /Phone or truck moved, level in the picture, so a mark may be up to [3-7]\.\d\spx off\./,
    );
    expect(words).toContain('self-timer');
    await warning(page)
      .getByRole('button', { name: /^count its marks/ })
      .click();
    await expect.poll(() => warning(page).count()).toBe(0);
  });

  test('that is sharp is not warned of', async () => {
    const page = await openHang();
    await markTruck(page);
    await markString(page);
    await expect.poll(() => standingOf(page, 'string')).toBe('taken');
    await page.waitForTimeout(1500);
    expect(await warning(page).count()).toBe(0);
  });
});

test('switched off, no mark moves by itself, and asking still finds', async () => {
  const page = await openHang();
  const fold = calculator(page).locator('[data-fold="camera"]');
  await fold.locator('summary').click();
  await fold.getByRole('checkbox', { name: /edges move my marks/ }).uncheck();
  await markString(page);
  expect(await finding(page, 'string').count()).toBe(0);
  expect((await toldMark(page, 'string lower')).found).toBe(false);
  await calculator(page).getByRole('button', { name: 'Find the string' }).click();
  await expect.poll(() => standingOf(page, 'string')).toBe('taken');
  await expectOnString(page);
});

test.each([
  ['laptop', LAPTOP, 'light'],
  ['phone, dark', PHONE, 'dark'],
] as const)('%s: no accessibility violation with findings shown', async (_name, viewport, colorScheme) => {
  const page = await openHang(HANG, { viewport, colorScheme });
  await markString(page);
  await place(page, 'mark A', STICKER);
  await expect.poll(() => standingOf(page, 'string')).toBe('taken');
  const { violations } = await new AxeBuilder({ page }).include('plumb-photographs').analyze();
  expect(
    violations.map(({ id, nodes }) => `${id}: ${nodes.map(({ target }) => target.join(' ')).join('; ')}`),
  ).toEqual([]);
  const overflow = await page.evaluate(
    () => document.documentElement.scrollWidth - document.documentElement.clientWidth,
  );
  expect(overflow).toBeLessThanOrEqual(0);
});
