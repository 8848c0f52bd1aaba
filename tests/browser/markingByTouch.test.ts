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
  surface,
  toldMark,
  type At,
} from './photographsPage';
import { PHONE, useSite } from './site';

/** Marking with fingers on a phone of 360 px, sent as touch events so that the browser's own scrolling takes part. */

const site = useSite();
const PICTURE = { width: 1280, height: 920 };

/** The demo truck's standing picture on a phone, without the mark that is then in hand. */
async function openOnPhone(): Promise<Page> {
  const sheet = demoSheet((state) => {
    for (const picture of state.pictures)
      if (picture.kind === 'standing') picture.marks = picture.marks.filter(({ role }) => role !== 'mark A');
  });
  const page = await openSheet(site, sheet, {}, { viewport: PHONE, hasTouch: true, isMobile: true });
  // Where no sticker is, marks stay where they are put; the switch keeps the test to fingers alone.
  await page.waitForFunction(() =>
    document.querySelector('plumb-photographs')?.shadowRoot?.querySelector('[data-next="mark A"]'),
  );
  await calculator(page).locator('.next-step').waitFor();
  await turnOffEdges(page);
  await bringToMiddle(page);
  return page;
}

async function turnOffEdges(page: Page): Promise<void> {
  const fold = calculator(page).locator('[data-fold="camera"]');
  await fold.locator('summary').click();
  await fold.getByRole('checkbox', { name: /edges move my marks/ }).uncheck();
}

const zoomShown = (page: Page): Promise<string> =>
  calculator(page).locator('plumb-marking-surface .tools button').nth(1).innerText();

const scrolled = (page: Page): Promise<number> => page.evaluate(() => scrollY);

/** Where no mark stands, in the upper left part of the picture. */
const FREE: At = { x: 300, y: 200 };

async function expectMarkAt(page: Page, finger: At): Promise<void> {
  await sight(page, 'mark A').waitFor();
  const mark = await toldMark(page, 'mark A');
  const at = await onScreen(page, PICTURE, mark);
  const limit = tolerance('touch: mark under the finger');
  expect(Math.abs(at.x - finger.x)).toBeLessThanOrEqual(limit);
  expect(Math.abs(at.y - finger.y)).toBeLessThanOrEqual(limit);
}

describe('a finger on the picture', () => {
  test('that taps places the point in hand', async () => {
    const page = await openOnPhone();
    const at = await onScreen(page, PICTURE, FREE);
    const fingers = new Fingers(page);
    await fingers.send('touchStart', [at]);
    await fingers.send('touchEnd', []);
    await expectMarkAt(page, at);
  });

  test.each([
    ['to the side', 90, 0],
    ['up, where it would scroll', 0, -70],
  ])('that slides slowly %s carries the point in hand, with the loupe clear of it', async (_way, dx, dy) => {
    const page = await openOnPhone();
    const from = await onScreen(page, PICTURE, { x: FREE.x, y: 640 });
    const to = { x: from.x + dx, y: from.y + dy };
    const top = await scrolled(page);
    const fingers = new Fingers(page);
    await fingers.send('touchStart', [from]);
    await fingers.slide(from, to, 10, 60);
    const loupe = await calculator(page).locator('plumb-marking-surface plumb-loupe').boundingBox();
    if (!loupe) throw new Error('No loupe while a finger carries a point.');
    const away = Math.hypot(loupe.x + loupe.width / 2 - to.x, loupe.y + loupe.height / 2 - to.y);
    expect(away).toBeGreaterThan(loupe.width / 2 + tolerance('touch: half a thumb'));
    // Nothing is placed until the finger is lifted, so that a slip costs no undo.
    expect(await sight(page, 'mark A').count()).toBe(0);
    await fingers.send('touchEnd', []);
    await expectMarkAt(page, to);
    expect(await scrolled(page)).toBe(top);
    await calculator(page).getByRole('button', { name: 'Undo' }).click();
    await expect.poll(() => sight(page, 'mark A').count()).toBe(0);
  });

  test('that rests and then slides carries the point in hand', async () => {
    const page = await openOnPhone();
    const from = await onScreen(page, PICTURE, { x: FREE.x, y: 640 });
    const to = { x: from.x + 20, y: from.y - 50 };
    const top = await scrolled(page);
    const fingers = new Fingers(page);
    await fingers.send('touchStart', [from]);
    await calculator(page).locator('plumb-marking-surface plumb-loupe').waitFor();
    await fingers.slide(from, to, 3, 10);
    await fingers.send('touchEnd', []);
    await expectMarkAt(page, to);
    expect(await scrolled(page)).toBe(top);
  });

  test('that taps beside another mark leaves the new one in hand', async () => {
    const page = await openOnPhone();
    const beside = await onScreen(page, PICTURE, await toldMark(page, 'mark B'));
    // Farther than a press on that mark reaches, nearer than the half of its 44 px.
    const at = { x: beside.x + 13, y: beside.y - 13 };
    await page.touchscreen.tap(at.x, at.y);
    await expectMarkAt(page, at);
    // The mouse events that a browser sends after a tap have come by now.
    await page.waitForTimeout(400);
    expect(await sight(page, 'mark A').getAttribute('aria-pressed')).toBe('true');
  });

  test('that swipes scrolls the page and places nothing', async () => {
    const page = await openOnPhone();
    const from = await onScreen(page, PICTURE, { x: FREE.x, y: 640 });
    const top = await scrolled(page);
    const fingers = new Fingers(page);
    await fingers.send('touchStart', [from]);
    await fingers.slide(from, { x: from.x, y: from.y - 120 }, 6, 8);
    await fingers.send('touchEnd', []);
    await expect.poll(() => scrolled(page)).toBeGreaterThan(top + 40);
    expect(await sight(page, 'mark A').count()).toBe(0);
  });

  test('that leaves the picture while it carries a point places nothing', async () => {
    const page = await openOnPhone();
    const from = await onScreen(page, PICTURE, FREE);
    const box = await surface(page).boundingBox();
    if (!box) throw new Error('The surface is not laid out.');
    const fingers = new Fingers(page);
    await fingers.send('touchStart', [from]);
    await fingers.slide(from, { x: from.x, y: box.y - 30 }, 10, 60);
    await fingers.send('touchEnd', []);
    expect(await sight(page, 'mark A').count()).toBe(0);
    expect(await calculator(page).locator('plumb-marking-surface plumb-loupe').count()).toBe(0);
  });

  test('drags a mark up and down without scrolling the page', async () => {
    const page = await openOnPhone();
    const before = await toldMark(page, 'mark B');
    const from = await onScreen(page, PICTURE, before);
    const to = { x: from.x, y: from.y - 60 };
    const top = await scrolled(page);
    const fingers = new Fingers(page);
    await fingers.send('touchStart', [from]);
    await fingers.slide(from, to, 8, 12);
    await fingers.send('touchEnd', []);
    await expect.poll(async () => (await toldMark(page, 'mark B')).y).toBeLessThan(before.y - 100);
    expect(await scrolled(page)).toBe(top);
  });
});

describe('two fingers', () => {
  test('enlarge the picture about their middle and move it, and place nothing', async () => {
    const page = await openOnPhone();
    const middle = await onScreen(page, PICTURE, { x: 640, y: 460 });
    const spread = (half: number, down = 0): readonly At[] => [
      { x: middle.x - half, y: middle.y + down },
      { x: middle.x + half, y: middle.y + down },
    ];
    const top = await scrolled(page);
    const fingers = new Fingers(page);
    await fingers.send('touchStart', spread(30));
    for (let half = 35; half <= 90; half += 5) await fingers.send('touchMove', spread(half));
    await expect.poll(() => zoomShown(page)).toBe('3 ×');
    const place = async () => (await sight(page, 'mark B').boundingBox())?.y ?? NaN;
    const before = await place();
    for (let down = 5; down <= 40; down += 5) await fingers.send('touchMove', spread(90, down));
    const moved = (await place()) - before;
    expect(Math.abs(moved - 40)).toBeLessThanOrEqual(tolerance('touch: mark under the finger'));
    // Lifting one of the two is no press.
    await fingers.send('touchEnd', spread(90, 40).slice(0, 1));
    await fingers.send('touchEnd', []);
    expect(await sight(page, 'mark A').count()).toBe(0);
    expect(await scrolled(page)).toBe(top);
    expect(await page.evaluate(() => visualViewport?.scale)).toBe(1);
  });

  test('take back a point that the first of them carried', async () => {
    const page = await openOnPhone();
    const from = await onScreen(page, PICTURE, FREE);
    const to = { x: from.x + 40, y: from.y };
    const fingers = new Fingers(page);
    await fingers.send('touchStart', [from]);
    await fingers.slide(from, to, 6, 60);
    await fingers.send('touchStart', [to, { x: to.x + 60, y: to.y }]);
    await fingers.send('touchEnd', []);
    expect(await sight(page, 'mark A').count()).toBe(0);
  });

  test('move an enlarged picture with one finger by a swipe, and carry by a slow slide', async () => {
    const page = await openOnPhone();
    for (let press = 0; press < 3; press++)
      await calculator(page).getByRole('button', { name: 'Larger' }).click();
    const box = await surface(page).boundingBox();
    if (!box) throw new Error('The surface is not laid out.');
    const from = { x: box.x + box.width * 0.8, y: box.y + box.height * 0.75 };
    const place = async () => (await sight(page, 'mark B').boundingBox())?.x ?? NaN;
    const before = await place();
    const fingers = new Fingers(page);
    await fingers.send('touchStart', [from]);
    await fingers.slide(from, { x: from.x - 60, y: from.y }, 6, 6);
    await fingers.send('touchEnd', []);
    expect(await sight(page, 'mark A').count()).toBe(0);
    expect(Math.abs((await place()) - before)).toBeGreaterThan(40);
    await fingers.send('touchStart', [from]);
    await fingers.slide(from, { x: from.x - 30, y: from.y }, 6, 90);
    await fingers.send('touchEnd', []);
    await sight(page, 'mark A').waitFor();
  });
});
