import { AxeBuilder } from '@axe-core/playwright';
import { describe, expect, test } from 'vitest';
import type { Locator, Page } from 'playwright-core';
import type { BenchSheet } from '../../src/sheet/schema';
import { centroidIn, platePng } from '../answer/platePicture';
import { plateSheet, SHOTS, type PlateOptions, type PlateShot } from '../answer/plateState';
import { tolerance } from '../tolerances';
import { LAPTOP, PHONE, useSite } from './site';

/** Two hanging pictures of a plate whose centroid a handbook gives, and nothing else; then step by step to more. */

const site = useSite();
const PAGE = 'resultant-lines.html#e3';
const pictures = new Map(SHOTS.map((shot) => [shot.id, platePng(shot)]));

type PageOptions = Parameters<typeof site.newPage>[0];

async function openWith(sheet: BenchSheet, options: PageOptions = {}): Promise<Page> {
  const page = await site.newPage(options);
  await page.route('**/demo/bramble.json', (route) => route.fulfill({ json: sheet }));
  await page.route('**/demo/hang-*.jpg', (route) => {
    const id = /(hang-\d)\.jpg/.exec(route.request().url())?.[1] ?? '';
    const body = pictures.get(id);
    return body ? route.fulfill({ body, contentType: 'image/png' }) : route.abort();
  });
  await page.goto(site.url(PAGE));
  await calculator(page).locator('plumb-film-strip').waitFor();
  await pictureIsOpen(page);
  return page;
}

const openPlate = (plate: PlateOptions, options: PageOptions = {}): Promise<Page> =>
  openWith({ ...plateSheet(plate), demo: true }, options);

const calculator = (page: Page): Locator => page.locator('plumb-photographs');
const answer = (page: Page): Locator => calculator(page).locator('.answer-cell');
const rung = (page: Page, key: string): Locator => calculator(page).locator(`[data-rung="${key}"]`);
const states = (page: Page): Promise<readonly (string | null)[]> =>
  calculator(page)
    .locator('[data-rung]')
    .evaluateAll((rungs) => rungs.map((each) => each.getAttribute('data-state')));

async function pictureIsOpen(page: Page): Promise<void> {
  await page.waitForFunction(() => {
    const marking = document
      .querySelector('plumb-photographs')
      ?.shadowRoot?.querySelector('plumb-marking-surface');
    return marking?.shadowRoot?.querySelector('.overlay') && !marking.shadowRoot.querySelector('.waiting');
  });
}

async function choosePicture(page: Page, index: number): Promise<void> {
  await calculator(page).locator('plumb-film-strip .frame').nth(index).click();
  await pictureIsOpen(page);
}

/** How far the quartered circle is drawn from the centroid, in pixels of the picture. */
async function offTruth(page: Page, shot: PlateShot): Promise<number> {
  const surface = calculator(page).locator('plumb-marking-surface .surface');
  const box = await surface.boundingBox();
  const sign = await surface.locator('.cg-ring').boundingBox();
  if (!box || !sign) throw new Error('No center of gravity is drawn.');
  // A border of one pixel all around; the whole picture shown in the middle.
  const [width, height] = [box.width - 2, box.height - 2];
  const scale = Math.min(width / 900, height / 1200);
  const truth = centroidIn(shot);
  const x = box.x + 1 + (width - 900 * scale) / 2 + truth.x * scale;
  const y = box.y + 1 + (height - 1200 * scale) / 2 + truth.y * scale;
  return Math.hypot(sign.x + sign.width / 2 - x, sign.y + sign.height / 2 - y) / scale;
}

const violations = async (page: Page): Promise<string[]> => {
  const found = await new AxeBuilder({ page }).include('plumb-photographs').analyze();
  return found.violations.map(
    ({ id, nodes }) => `${id}: ${nodes.map(({ target }) => target.join(' ')).join('; ')}`,
  );
};

describe('two hangs, three marks, nothing else', () => {
  test('show the point on whichever picture is open', async () => {
    const page = await openPlate({ body: 'truck' });
    for (const [index, shot] of SHOTS.entries()) {
      await choosePicture(page, index);
      expect(await offTruth(page, shot)).toBeLessThan(tolerance('smallest path: drawn point'));
      const said = await answer(page).innerText();
      expect(said).toMatch(/The center of gravity lies here, ±\s\d+\spx/);
      expect(said).toMatch(/of the way from mark [A-C] toward mark [A-C]/);
      // Both lines and the region in which it lies.
      const surface = calculator(page).locator('plumb-marking-surface .surface');
      expect(await surface.locator('.line-chain').count()).toBe(2);
      expect(await surface.locator('.unsure').count()).toBe(1);
      expect(await surface.getByText(`hang ${2 - index}`, { exact: true }).count()).toBe(1);
    }
    expect(await states(page)).toEqual(['done', 'next', 'later', 'later']);
    // No number of millimeters stands anywhere, and no standing picture is asked for before the ground is.
    expect(await calculator(page).locator('plumb-result').count()).toBe(0);
    expect(await rung(page, 'length').innerText()).not.toContain('standing');
  });

  test('ask first for what is missing: hang, string, marks', async () => {
    const page = await openPlate({ body: 'truck', hangs: 1 });
    expect(await states(page)).toEqual(['next', 'later', 'later', 'later']);
    expect(await rung(page, 'point').innerText()).toContain('a second hanging picture');
    expect(await answer(page).innerText()).toContain('No answer yet.');

    const sheet = plateSheet({ body: 'truck' });
    const second = sheet.states[0]?.pictures[1];
    if (!second) throw new Error('two pictures');
    second.marks = second.marks.filter(({ role }) => role !== 'mark C' && role !== 'mark B');
    // On a phone the step stands a screen below the picture, which has to come into sight.
    const open = await openWith({ ...sheet, demo: true }, { viewport: PHONE, hasTouch: true });
    const link = rung(open, 'point').getByRole('button', { name: 'mark B in hang 2' });
    await link.focus();
    await open.keyboard.press('Enter');
    await pictureIsOpen(open);
    expect(await calculator(open).locator('.next-step').innerText()).toContain('Mark B');
    const surface = calculator(open).locator('plumb-marking-surface .surface');
    const line = await calculator(open).locator('.progress').boundingBox();
    const under = (line?.y ?? NaN) + (line?.height ?? NaN);
    await expect.poll(async () => (await surface.boundingBox())?.y ?? NaN).toBeGreaterThanOrEqual(under - 1);
    const box = await surface.boundingBox();
    expect((box?.y ?? NaN) + (box?.height ?? NaN)).toBeLessThanOrEqual(PHONE.height);
  });

  test('strings that run alike are refused with the remedy', async () => {
    const sheet = plateSheet({ body: 'truck' });
    const [state] = sheet.states;
    const [first] = state?.pictures ?? [];
    if (!state || !first) throw new Error('a picture');
    state.pictures = [first, { ...structuredClone(first), id: 'hang-2' }];
    const page = await openWith({ ...sheet, demo: true });
    const bracket = answer(page).locator('plumb-bracket').first();
    expect(await bracket.getAttribute('title-text')).toMatch(/cross at only 0\.0°/);
    expect(await bracket.innerText()).toContain('Hang it from a hook farther from the first.');
    expect(await calculator(page).locator('.cg-ring').count()).toBe(0);
  });

  test('a mark on the wrong corner is named, and the ± widened', async () => {
    const sheet = plateSheet({ body: 'truck', keys: ['A', 'B', 'C', 'D'] });
    const wrong = sheet.states[0]?.pictures[1]?.marks.find(({ role }) => role === 'mark C');
    if (!wrong) throw new Error('mark C');
    wrong.x += 40;
    const page = await openWith({ ...sheet, demo: true });
    const bracket = answer(page).locator('plumb-bracket[title-text="Mark C does not fit."]').first();
    expect(await bracket.innerText()).toMatch(/times as wide/);
  });
});

describe('step by step', () => {
  test('a length buys millimeters, told what it needs', async () => {
    const page = await openPlate({ body: 'truck' });
    const length = rung(page, 'length');
    expect(await length.innerText()).toMatch(
      /the rear hub in hang 1, the front hub in hang 1, the wheelbase/,
    );
    await length.getByRole('button', { name: 'two points of known distance' }).click();
    expect(await length.innerText()).toMatch(/the first point of known distance in hang 1/);
    await length.getByRole('button', { name: 'the distance of the two points' }).click();
    await page.keyboard.type('180');
    await page.keyboard.press('Tab');
    expect(await length.innerText()).not.toContain('the distance of the two points');

    const scaled = await openPlate({ body: 'truck', scaled: true });
    expect(await answer(scaled).innerText()).toMatch(/\d\smm from mark [A-C] toward mark [A-C]/);
    expect(await states(scaled)).toEqual(['done', 'done', 'next', 'later']);
    const ground = await rung(scaled, 'ground').innerText();
    expect(ground).toMatch(/the rear tire’s radius/);
    expect(ground).toMatch(/or a picture of the truck standing/);
    await rung(scaled, 'ground').getByRole('button', { name: 'the rear tire’s radius' }).click();
    const field = calculator(scaled).locator('#given-dimensions-rearTireRadius');
    expect(await field.evaluate((element) => element.matches(':focus-within'))).toBe(true);
  });

  test('says what makes it sharper', async () => {
    const page = await openPlate({ body: 'truck' });
    const more = await calculator(page).locator('.sharper').innerText();
    expect(more).toMatch(/a third hang, the hooks’ places by ruler, the camera’s distance/);
  });
});

describe('any object', () => {
  const NO_TRUCK = /wheel|axle|ground|truck|hub|tire/i;

  test('has axes of its own, its tip angles, and no words of a truck', async () => {
    const page = await openPlate({ scaled: true, based: true });
    const said = await answer(page).innerText();
    expect(said).toMatch(/from scale point 1 toward point 2, [\d.]+\s±\s[\d.]+\smm to its left\./);
    expect(said).not.toMatch(NO_TRUCK);
    // From the scale's first point, (10, 10) mm, to the centroid of the plate.
    const values = await calculator(page).locator('plumb-result .value').allInnerTexts();
    const limit = tolerance('smallest path: object');
    expect(Math.abs(Number(values[0]) - (71.176 - 10))).toBeLessThan(limit);
    expect(Math.abs(Number(values[1]) - (71.176 - 10))).toBeLessThan(limit);
    for (const [index, shot] of SHOTS.entries()) {
      await choosePicture(page, index);
      expect(await offTruth(page, shot)).toBeLessThan(tolerance('smallest path: drawn point'));
    }
    // Standing on its lower edge: 71.2 mm from one end, 128.8 from the other, 71.2 above.
    expect(said).toMatch(/over base 1 at 45\.0°\s±\s[\d.]+°, over base 2 at 61\.1°\s±/);
    const block = page.locator('plumb-title-block');
    const told = await block.evaluate((element) => element.shadowRoot?.textContent ?? '');
    expect(told).toContain('from point 1 toward point 2');
    expect(told).not.toMatch(/axle|ground|left down|climb/);
  });

  test('has its own words in the readings panel and on the cover', async () => {
    const page = await openPlate({ scaled: true, based: true });
    const textOf = (selector: string): Promise<string> =>
      page.locator(selector).evaluate((element) => element.shadowRoot?.textContent ?? '');
    await page.evaluate(() => (location.hash = '#readings'));
    const panel = page.locator('plumb-readings');
    await panel.getByText('The center of gravity:').waitFor();
    const said = await textOf('plumb-readings');
    expect(said).toMatch(/from scale point 1 toward point 2/);
    expect(said).toMatch(/It tips over base 1 at 45\.0°/);
    expect(said).toContain('2 of 2 counted');
    expect(said).not.toMatch(NO_TRUCK);
    await page.goto(site.url('index.html'));
    await page.locator('plumb-sheet-menu').getByText('An object is measured by').waitFor();
    expect(await page.locator('plumb-truck-givens').count()).toBe(0);
  });

  test('is asked for a scale, then for its base', async () => {
    const page = await openPlate({});
    expect(await states(page)).toEqual(['done', 'next', 'later']);
    expect(await rung(page, 'length').innerText()).toContain('the first point of known distance');
    expect(await calculator(page).locator('.path').innerText()).not.toMatch(NO_TRUCK);
    const scaled = await openPlate({ scaled: true });
    expect(await states(scaled)).toEqual(['done', 'done', 'next']);
    await rung(scaled, 'base').getByRole('button', { name: 'the first end of the base in hang 1' }).click();
    expect(await calculator(scaled).locator('.next-step').innerText()).toContain('Base, first point');
  });
});

describe('on every screen', () => {
  test.each([
    ['laptop', LAPTOP, 'light'],
    ['phone, dark', PHONE, 'dark'],
  ] as const)('%s: no accessibility violation, nothing too wide', async (_name, viewport, colorScheme) => {
    for (const plate of [{ body: 'truck' }, { scaled: true, based: true }] as const) {
      const page = await openPlate(plate, { viewport, colorScheme });
      expect(await violations(page)).toEqual([]);
      const overflow = await page.evaluate(
        () => document.documentElement.scrollWidth - document.documentElement.clientWidth,
      );
      expect(overflow).toBeLessThanOrEqual(0);
    }
  });

  test('on paper the hanging picture is printed with the point', async () => {
    const page = await openPlate({ body: 'truck' });
    await page.emulateMedia({ media: 'print' });
    const figure = calculator(page).locator('.printed-figure');
    await figure.waitFor();
    expect(await figure.locator('.cg-ring').count()).toBe(1);
    // The marks that the words on paper refer to.
    for (const key of ['A', 'B', 'C']) expect(await figure.getByText(key, { exact: true }).count()).toBe(1);
  });
});
