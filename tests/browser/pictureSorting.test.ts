import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { AxeBuilder } from '@axe-core/playwright';
import { describe, expect, test } from 'vitest';
import type { Locator, Page } from 'playwright-core';
import * as v from 'valibot';
import { BenchSheet, type BuildState, type Picture } from '../../src/sheet/schema';
import { markRole } from '../demo/world/bench';
import { BRAMBLE } from '../demo/world/bramble';
import { demoPhotographs } from '../demo/world/demoSheet';
import { truePoints } from '../demo/world/photograph';
import { tolerance } from '../tolerances';
import { LAPTOP, PHONE, useSite } from './site';

/**
 * Pictures that come in together, and the way from them to marks: sorting, offered marks, progress, views, objects.
 * Where points lie is taken from the demo truck's world, never from the shipped marks.
 */

const site = useSite();
const PAGE = 'resultant-lines.html#e3';
const demoFolder = fileURLToPath(new URL('../../assets/demo/', import.meta.url));

function openStateOf(sheet: BenchSheet): BuildState {
  const state = sheet.states.find(({ id }) => id === sheet.openState);
  if (!state) throw new Error('The sheet has no open state.');
  return state;
}

function changedDemo(change: (state: BuildState) => void): BenchSheet {
  const sheet = v.parse(BenchSheet, JSON.parse(readFileSync(`${demoFolder}bramble.json`, 'utf8')));
  change(openStateOf(sheet));
  return sheet;
}

const empty = (): BenchSheet =>
  changedDemo((state) => {
    Object.assign(state, { pictures: [], hooks: [], bodyMarks: [], readings: [], parts: [] });
  });

/** Only the first picture is marked. */
const hangsUnmarked = (): BenchSheet =>
  changedDemo((state) => {
    for (const picture of state.pictures.slice(1)) picture.marks = [];
  });

async function openWith(sheet: BenchSheet, options: Parameters<typeof site.newPage>[0] = {}): Promise<Page> {
  const page = await site.newPage(options);
  await page.route('**/demo/bramble.json', (route) => route.fulfill({ json: sheet }));
  await page.goto(site.url(PAGE));
  await page.locator('plumb-photographs plumb-film-strip').waitFor();
  return page;
}

const calculator = (page: Page): Locator => page.locator('plumb-photographs');
const frames = (page: Page): Locator => calculator(page).locator('plumb-film-strip .frame');
const surface = (page: Page): Locator => calculator(page).locator('plumb-marking-surface .surface');
const offered = (page: Page, role?: string): Locator =>
  calculator(page).locator(role === undefined ? '[data-offered]' : `[data-offered="${role}"]`);
const sight = (page: Page, role: string): Locator => calculator(page).locator(`[data-role="${role}"]`);
const told = (page: Page): Promise<string> => calculator(page).locator('p.spoken[role="status"]').innerText();
const progress = async (page: Page): Promise<readonly string[]> => {
  const words = await calculator(page).locator('.progress button').allInnerTexts();
  return words.map((each) => each.replaceAll(/\s+/g, ' ').trim());
};

async function choosePicture(page: Page, index: number): Promise<void> {
  await frames(page).nth(index).click();
  await page.waitForFunction((at) => {
    const root = document.querySelector('plumb-photographs')?.shadowRoot;
    const strip = root?.querySelector('plumb-film-strip')?.shadowRoot;
    const open = [...(strip?.querySelectorAll('.frame') ?? [])].findIndex((f) => f.ariaPressed === 'true');
    const marking = root?.querySelector('plumb-marking-surface')?.shadowRoot;
    return open === at && marking?.querySelector('.waiting') === null;
  }, index);
  await surface(page).evaluate((element) => element.scrollIntoView({ block: 'center' }));
}

/** Files held over the calculator and let go there. */
async function drop(page: Page, names: readonly string[]): Promise<void> {
  const files = names.map((name, index) => ({
    name: `photo-${index + 1}.jpg`,
    content: readFileSync(join(demoFolder, `${name}.jpg`)).toString('base64'),
  }));
  await calculator(page)
    .locator('plumb-panel')
    .evaluate((panel, given) => {
      const data = new DataTransfer();
      for (const { name, content } of given) {
        const bytes = Uint8Array.from(atob(content), (letter) => letter.charCodeAt(0));
        data.items.add(new File([bytes], name, { type: 'image/jpeg' }));
      }
      panel.dispatchEvent(
        new DragEvent('drop', { dataTransfer: data, bubbles: true, composed: true, cancelable: true }),
      );
    }, files);
}

/** Where the demo world puts a point in a picture, pixels. */
function truePlace(picture: Picture, role: string): { x: number; y: number } {
  const photograph = demoPhotographs(BRAMBLE, 1).find(({ id }) => id === picture.id);
  const point =
    photograph && truePoints(BRAMBLE, photograph).find((candidate) => markRole(candidate.role) === role);
  if (!point) throw new Error(`The demo world has no ${role} in ${picture.id}.`);
  return point;
}

/** Screen place of a picture place while the whole picture is shown. */
async function onScreen(page: Page, picture: Picture, { x, y }: { x: number; y: number }) {
  const box = await surface(page).boundingBox();
  if (!box) throw new Error('The surface is not laid out.');
  // A border of one pixel all around.
  const [width, height] = [box.width - 2, box.height - 2];
  const scale = Math.min(width / picture.width, height / picture.height);
  return {
    x: box.x + 1 + (width - picture.width * scale) / 2 + x * scale,
    y: box.y + 1 + (height - picture.height * scale) / 2 + y * scale,
  };
}

/** The place a sight tells screen readers, pixels. */
async function placeOf(mark: Locator): Promise<{ x: number; y: number }> {
  const found = /x (-?[\d.]+), y (-?[\d.]+) pixels/.exec((await mark.getAttribute('aria-label')) ?? '');
  return { x: Number(found?.[1]), y: Number(found?.[2]) };
}

/** Marks alone: what the picture's edges add to them is for finder.test.ts. */
async function withoutEdges(page: Page): Promise<void> {
  await calculator(page).locator('[data-fold="camera"] > summary').click();
  await calculator(page)
    .getByRole('checkbox', { name: /edges move my marks/ })
    .uncheck();
}

async function mark(page: Page, picture: Picture, role: string): Promise<void> {
  await calculator(page).locator(`[data-point="${role}"]`).click();
  await surface(page).evaluate((element) => element.scrollIntoView({ block: 'center' }));
  const at = await onScreen(page, picture, truePlace(picture, role));
  await page.mouse.click(at.x, at.y);
  await sight(page, role).waitFor();
}

const violations = async (page: Page): Promise<readonly string[]> => {
  const found = await new AxeBuilder({ page }).include('plumb-photographs').analyze();
  return found.violations.map(
    ({ id, nodes }) => `${id}: ${nodes.map(({ target }) => target.join(' ')).join('; ')}`,
  );
};

describe('three pictures dropped together', () => {
  test('are sorted by one key each, spoken, and each sort is one step of undo', async () => {
    const page = await openWith(empty());
    await drop(page, ['hang-1', 'standing', 'hang-2']);
    await frames(page).nth(2).waitFor();
    await expect.poll(() => told(page)).toMatch(/3 pictures added\. Say of each/);
    expect(await frames(page).allInnerTexts()).toEqual(
      [1, 2, 3].map((number) => expect.stringMatching(new RegExp(`Picture ${number}\\s+to sort`))),
    );
    expect(await progress(page)).toEqual(['3 to sort']);
    // Nothing counts before it is sorted.
    expect(await calculator(page).locator('[data-point]').count()).toBe(0);

    // The first picture to sort has the keyboard, and then the next.
    await page.keyboard.press('h');
    await expect.poll(() => told(page)).toBe('Picture 1: hanging. 2 left to sort.');
    await page.keyboard.press('s');
    await expect.poll(() => told(page)).toBe('Picture 2: standing. 1 left to sort.');
    await page.keyboard.press('h');
    await expect.poll(() => told(page)).toBe('Picture 3: hanging. All are sorted.');
    expect(await frames(page).allInnerTexts()).toEqual([
      expect.stringContaining('Hang 1'),
      expect.stringContaining('Standing'),
      expect.stringContaining('Hang 2'),
    ]);
    // The standing picture is the one to begin with.
    expect((await progress(page))[0]).toMatch(/^Standing not begun ?, next: rear hub$/);
    expect(await calculator(page).locator('.next-step').getAttribute('data-next')).toBe('rear hub');
    // Every hang has a hook of its own.
    expect(await calculator(page).locator('[data-fold^="hang "]').count()).toBe(2);

    const undo = calculator(page).getByRole('button', { name: 'Undo' });
    expect(await undo.getAttribute('title')).toContain('Sort picture 3 as hanging');
    await undo.click();
    expect(await frames(page).nth(2).innerText()).toMatch(/Picture 3\s+to sort/);
    expect(await frames(page).nth(1).innerText()).toContain('Standing');
  });

  test('are sorted by one tap each on a phone, and one may be left out', async () => {
    const page = await openWith(empty(), { viewport: PHONE, hasTouch: true, isMobile: true });
    await drop(page, ['hang-1', 'standing', 'hang-2']);
    await frames(page).nth(2).waitFor();
    const choice = (index: number, as: string) =>
      calculator(page).locator('plumb-film-strip li').nth(index).locator(`[data-sort="${as}"]`);
    for (const as of ['standing', 'hanging', 'left out']) {
      const box = await choice(0, as).boundingBox();
      expect(Math.min(box?.width ?? 0, box?.height ?? 0)).toBeGreaterThanOrEqual(44);
    }
    expect(
      await page.evaluate(() => document.documentElement.scrollWidth - document.documentElement.clientWidth),
    ).toBeLessThanOrEqual(0);
    await choice(1, 'standing').tap();
    await choice(0, 'hanging').tap();
    await choice(2, 'left out').tap();
    await expect.poll(() => frames(page).count()).toBe(2);
    expect(await frames(page).allInnerTexts()).toEqual([
      expect.stringContaining('Hang 1'),
      expect.stringContaining('Standing'),
    ]);
  });

  test('can be said to show something else later', async () => {
    const page = await openWith(empty());
    await drop(page, ['hang-1', 'standing']);
    await frames(page).nth(1).waitFor();
    await page.keyboard.press('s');
    await page.keyboard.press('h');
    await choosePicture(page, 0);
    await calculator(page).locator('[data-fold="picture"] > summary').click();
    await calculator(page).locator('[data-fold="picture"]').getByText('Hanging', { exact: true }).click();
    await expect.poll(() => frames(page).first().innerText()).toContain('Hang 1');
    await choosePicture(page, 1);
    await calculator(page).locator('[data-fold="picture"]').getByText('Standing', { exact: true }).click();
    await expect.poll(() => frames(page).nth(1).innerText()).toContain('Standing');
  });

  test('an empty sheet turns to any object by one press', async () => {
    const page = await openWith(empty());
    await calculator(page).getByRole('button', { name: 'Measure another object' }).click();
    await expect
      .poll(() => calculator(page).locator('.invitation').innerText())
      .toContain('from points far apart');
    expect(await calculator(page).getByRole('button', { name: 'Measure another object' }).count()).toBe(0);
    // The keyboard goes on to the place for pictures, not back to the page's head.
    expect(await page.evaluate(() => document.activeElement?.tagName)).toBe('PLUMB-PHOTOGRAPHS');
  });

  test('may be pasted; the page says so, and that nothing is sent', async () => {
    const page = await openWith(empty());
    const invitation = await calculator(page).locator('.invitation').innerText();
    expect(invitation).toMatch(/choose them, drop them here, or paste them/);
    expect(invitation).toMatch(/never leave this device/);
    const content = readFileSync(join(demoFolder, 'standing.jpg')).toString('base64');
    await page.evaluate((base64) => {
      const data = new DataTransfer();
      const bytes = Uint8Array.from(atob(base64), (letter) => letter.charCodeAt(0));
      for (const name of ['one.jpg', 'two.jpg'])
        data.items.add(new File([bytes], name, { type: 'image/jpeg' }));
      document.body.dispatchEvent(new ClipboardEvent('paste', { clipboardData: data, bubbles: true }));
    }, content);
    await frames(page).nth(1).waitFor();
    expect(await frames(page).first().innerText()).toContain('to sort');
    // Still said where the next picture goes in.
    expect(await calculator(page).locator('plumb-film-strip .add').innerText()).toContain(
      'Stays on this device',
    );
  });
});

describe('what a picture shows', () => {
  test('stays chosen in its givens from picture to picture', async () => {
    const page = await openWith(hangsUnmarked());
    const fold = calculator(page).locator('[data-fold="picture"]');
    await fold.locator('summary').click();
    for (const [index, shows] of [
      [1, 'Hanging'],
      [0, 'Standing'],
      [1, 'Hanging'],
    ] as const) {
      await choosePicture(page, index);
      expect(await fold.getByRole('radio', { name: shows }).isChecked(), shows).toBe(true);
    }
  });
});

describe('offered marks', () => {
  test('follow two marks by turn and scale, do not count, and are accepted by Enter or all at once', async () => {
    const sheet = hangsUnmarked();
    const [, hang] = openStateOf(sheet).pictures;
    if (!hang) throw new Error('The demo has no hang.');
    const page = await openWith(sheet, { viewport: { width: 1440, height: 1000 } });
    await choosePicture(page, 1);
    await withoutEdges(page);
    expect((await progress(page))[1]).toMatch(/^Hang 1 not begun/);
    // As they lie in the standing picture, until two are marked here.
    await offered(page, 'mark C').waitFor();
    expect(await calculator(page).locator('.offer').innerText()).toContain(
      'As they lie in the standing picture',
    );
    expect(await calculator(page).locator('[data-accept="all"]').count()).toBe(0);
    for (const role of ['mark A', 'mark D']) await mark(page, hang, role);
    expect(await calculator(page).locator('.offer').innerText()).toContain('not counted until you accept');
    const others = ['mark B', 'mark C', 'mark E'];
    for (const role of others) {
      const [place, truth] = [await placeOf(offered(page, role)), truePlace(hang, role)];
      expect(Math.hypot(place.x - truth.x, place.y - truth.y), role).toBeLessThan(
        tolerance('offered mark: near its corner'),
      );
    }
    expect((await progress(page))[1]).toMatch(/^Hang 1 2 of 7/);

    // By keyboard: one.
    await offered(page, 'mark B').focus();
    const before = await placeOf(offered(page, 'mark B'));
    await page.keyboard.press('Enter');
    await sight(page, 'mark B').waitFor();
    expect(await placeOf(sight(page, 'mark B'))).toEqual(before);
    expect(await offered(page, 'mark B').count()).toBe(0);
    expect((await progress(page))[1]).toMatch(/^Hang 1 3 of 7/);
    await expect.poll(() => told(page)).toMatch(/^Mark B.*Hang 1: 3 of 7\.$/);

    // The rest, as one step of undo.
    await calculator(page).locator('[data-accept="all"]').click();
    await sight(page, 'mark C').waitFor();
    expect(await offered(page).count()).toBe(0);
    expect((await progress(page))[1]).toMatch(/^Hang 1 5 of 7 marked, next: string, upper end$/);
    await calculator(page).getByRole('button', { name: 'Undo' }).click();
    await offered(page, 'mark C').waitFor();
    expect(await sight(page, 'mark B').count()).toBe(1);
  });

  test('are adjusted by arrow keys, by dragging, or placed where they are pressed', async () => {
    const sheet = hangsUnmarked();
    const [, hang] = openStateOf(sheet).pictures;
    if (!hang) throw new Error('The demo has no hang.');
    const page = await openWith(sheet, { viewport: { width: 1440, height: 1000 } });
    await choosePicture(page, 1);
    await withoutEdges(page);
    for (const role of ['mark A', 'mark D']) await mark(page, hang, role);
    await offered(page, 'mark C').focus();
    const before = await placeOf(offered(page, 'mark C'));
    await page.keyboard.press('ArrowRight');
    await sight(page, 'mark C').waitFor();
    expect((await placeOf(sight(page, 'mark C'))).x).toBeCloseTo(before.x + 1, 1);

    await surface(page).evaluate((element) => element.scrollIntoView({ block: 'center' }));
    const from = await onScreen(page, hang, await placeOf(offered(page, 'mark E')));
    await page.mouse.move(from.x, from.y);
    await page.mouse.down();
    await page.mouse.move(from.x + 20, from.y + 10, { steps: 4 });
    await page.mouse.up();
    await sight(page, 'mark E').waitFor();

    const near = await onScreen(page, hang, await placeOf(offered(page, 'mark B')));
    await page.mouse.click(near.x + 3, near.y);
    await sight(page, 'mark B').waitFor();
    const at = await onScreen(page, hang, await placeOf(sight(page, 'mark B')));
    expect(at.x - near.x).toBeCloseTo(3, 0);
  });

  test('go away where the reader would rather mark alone', async () => {
    const page = await openWith(hangsUnmarked());
    await choosePicture(page, 1);
    await offered(page, 'mark C').waitFor();
    await calculator(page).getByRole('button', { name: 'No, I mark them myself' }).click();
    expect(await offered(page).count()).toBe(0);
  });
});

describe('progress', () => {
  test('stays in sight beside the picture on a phone, and leads to the next point', async () => {
    const page = await openWith(hangsUnmarked(), { viewport: PHONE, hasTouch: true, isMobile: true });
    await choosePicture(page, 1);
    const line = calculator(page).locator('.progress');
    const [bar, picture] = [await line.boundingBox(), await surface(page).boundingBox()];
    if (!bar || !picture) throw new Error('Progress or picture is not laid out.');
    expect(bar.y).toBeGreaterThanOrEqual(0);
    expect(bar.y + bar.height).toBeLessThanOrEqual(PHONE.height);
    // It hides nothing of the picture.
    expect(bar.y + bar.height).toBeLessThanOrEqual(picture.y + 1);
    const entry = line.locator('button').nth(2);
    const box = await entry.boundingBox();
    expect(box?.height ?? 0).toBeGreaterThanOrEqual(44);
    await entry.tap();
    await expect.poll(() => frames(page).nth(2).getAttribute('aria-pressed')).toBe('true');
    expect(await calculator(page).locator('.next-step').getAttribute('data-next')).toBe('string upper');
    // The entry of the picture in hand is scrolled into the line.
    await expect
      .poll(async () => {
        const now = await line.locator('[aria-current]').boundingBox();
        return now !== null && now.x >= 0 && now.x + now.width <= PHONE.width + 1;
      })
      .toBe(true);
  });
});

describe('by touch at 360 px', () => {
  test('two fingers enlarge and move the picture, and leave no mark', async () => {
    const page = await openWith(hangsUnmarked(), { viewport: PHONE, hasTouch: true, isMobile: true });
    await choosePicture(page, 1);
    const box = await surface(page).boundingBox();
    if (!box) throw new Error('The surface is not laid out.');
    const [x, y] = [box.x + box.width / 2, box.y + box.height / 2];
    const touch = await page.context().newCDPSession(page);
    const send = (
      type: 'touchStart' | 'touchMove' | 'touchEnd',
      points: readonly (readonly [number, number])[],
    ) =>
      touch.send('Input.dispatchTouchEvent', {
        type,
        touchPoints: points.map(([px, py], id) => ({ x: px, y: py, id })),
      });
    const zoom = calculator(page).locator('plumb-marking-surface .tools button').nth(1);
    // Upright, as thumb and finger often lie: the page must not take it for a scroll.
    await send('touchStart', [[x, y - 20]]);
    await send('touchStart', [
      [x, y - 20],
      [x, y + 20],
    ]);
    const scrolled = await page.evaluate(() => scrollY);
    for (let step = 1; step <= 6; step++)
      await send('touchMove', [
        [x, y - 20 - 10 * step],
        [x, y + 20 + 10 * step],
      ]);
    await send('touchEnd', []);
    await expect.poll(() => zoom.innerText()).toBe('4 ×');
    expect(await page.evaluate(() => scrollY)).toBe(scrolled);
    expect(await page.evaluate(() => visualViewport?.scale)).toBe(1);

    // Two fingers side by side move what is shown.
    await sight(page, 'mark A').waitFor({ state: 'detached' });
    const offer = offered(page, 'mark A');
    const place = () => offer.evaluate((element) => element.getAttribute('transform'));
    const before = await place();
    await send('touchStart', [[x - 30, y]]);
    await send('touchStart', [
      [x - 30, y],
      [x + 30, y],
    ]);
    for (let step = 1; step <= 4; step++)
      await send('touchMove', [
        [x - 30 + 8 * step, y + 6 * step],
        [x + 30 + 8 * step, y + 6 * step],
      ]);
    await send('touchEnd', []);
    expect(await place()).not.toBe(before);
    expect(await zoom.innerText()).toBe('4 ×');
    expect(await calculator(page).locator('[data-role]').count()).toBe(0);
  });
});

describe('views and objects', () => {
  test('a picture from the rear asks for the feet of its tires, and says that a free axle does not do', async () => {
    const sheet = changedDemo((state) => {
      const hang = state.pictures.at(-1);
      if (hang) Object.assign(hang, { view: 'rear', marks: [], suspension: 'free' });
    });
    const page = await openWith(sheet);
    await choosePicture(page, 3);
    const fold = calculator(page).locator('[data-fold="hang hang-3"]');
    expect(await fold.locator('.choice-problem').innerText()).toMatch(
      /^Suspension: needs to be locked in a picture from the rear; got “Free”\./,
    );
    await calculator(page).locator('[data-fold="picture"] > summary').click();
    await calculator(page).locator('[data-fold="picture"]').getByText('Standing', { exact: true }).click();
    await expect.poll(() => frames(page).nth(3).innerText()).toContain('Standing, rear');
    const points = await calculator(page)
      .locator('[data-point]')
      .evaluateAll((all) => all.map((point) => point.getAttribute('data-point')));
    expect(points.slice(0, 2)).toEqual(['ground left', 'ground right']);
    expect(await calculator(page).locator('.next-step').innerText()).toContain('level come from the track');
    await calculator(page).locator('select[id^="view-"]').selectOption('top');
    await expect
      .poll(() => calculator(page).locator('[data-point="tire rear right"] .point-state').innerText())
      .toBe('helps');
  });

  test('a picture’s own focal length fills its field, and can be typed over', async () => {
    const page = await openWith(empty());
    const lens = fileURLToPath(new URL('../photo/decode/pictures/lens.jpg', import.meta.url));
    await calculator(page).locator('plumb-film-strip input[type="file"]').first().setInputFiles(lens);
    await frames(page).first().waitFor();
    await calculator(page).locator('[data-fold="camera"] > summary').click();
    const field = calculator(page).locator('#given-pictures-0-focalLength #number');
    expect(await field.inputValue()).toBe('26');
    await field.fill('28');
    expect(await field.inputValue()).toBe('28');
  });

  test('any object asks for its own scale, and for no wheels', async () => {
    const page = await openWith(empty());
    await calculator(page).locator('[data-fold="body"] > summary').click();
    await calculator(page).getByText('Any object', { exact: true }).click();
    expect(await calculator(page).locator('plumb-film-strip .add').innerText()).toContain('Add a first hang');
    await drop(page, ['hang-1']);
    await frames(page).first().waitFor();
    const points = await calculator(page)
      .locator('[data-point]')
      .evaluateAll((all) => all.map((point) => point.getAttribute('data-point')));
    expect(points).toEqual([
      'string upper',
      'string lower',
      'mark A',
      'mark B',
      'mark C',
      'scale 1',
      'scale 2',
      'base 1',
      'base 2',
    ]);
    expect(await calculator(page).locator('#given-dimensions-wheelbase').count()).toBe(0);
    await calculator(page).locator('#given-scaleDistance').waitFor();
    expect(await violations(page)).toEqual([]);
  });
});

describe('no accessibility violation', () => {
  test.each([
    ['laptop', LAPTOP, 'light'],
    ['phone, dark', PHONE, 'dark'],
  ] as const)('%s: to sort, offered, from the rear', async (_name, viewport, colorScheme) => {
    const page = await openWith(
      changedDemo((state) => {
        const [, hang, other, last] = state.pictures;
        if (hang) hang.marks = [];
        if (other) other.kind = 'unsorted';
        if (last) Object.assign(last, { view: 'rear', suspension: 'free' });
      }),
      { viewport, colorScheme },
    );
    await choosePicture(page, 2);
    expect(await violations(page)).toEqual([]);
    await choosePicture(page, 1);
    await offered(page, 'mark C').focus();
    expect(await violations(page)).toEqual([]);
    await choosePicture(page, 3);
    expect(await violations(page)).toEqual([]);
  });
});
