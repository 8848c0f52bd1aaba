import { mkdtempSync, readFileSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { AxeBuilder } from '@axe-core/playwright';
import { describe, expect, test } from 'vitest';
import type { Locator, Page } from 'playwright-core';
import * as v from 'valibot';
import { KEYS } from '../../src/calculators/photographs/keysFold';
import { PLANE_COVERAGE } from '../../src/physics';
import { benchAnswer } from '../../src/answer/benchAnswer';
import { BenchSheet, type BuildState, type Mark } from '../../src/sheet/schema';
import { markRole } from '../demo/world/bench';
import { BRAMBLE } from '../demo/world/bramble';
import { demoPhotographs } from '../demo/world/demoSheet';
import { truePoints } from '../demo/world/photograph';
import { centerOfGravity } from '../demo/world/truck';
import { tolerance } from '../tolerances';
import { LAPTOP, PHONE, useSite } from './site';

/**
 * The photograph calculator, driven through its own controls on the built page. Where marks belong is taken from
 * the demo truck's world (projection of its points into its cameras), never from the shipped marks.
 */

const site = useSite();
const PAGE = 'resultant-lines.html#e3';
const demoFolder = fileURLToPath(new URL('../../assets/demo/', import.meta.url));
const shipped = (): BenchSheet =>
  v.parse(BenchSheet, JSON.parse(readFileSync(`${demoFolder}bramble.json`, 'utf8')));

function openStateOf(sheet: BenchSheet): BuildState {
  const state = sheet.states.find(({ id }) => id === sheet.openState);
  if (!state) throw new Error('The sheet has no open state.');
  return state;
}

/** The demo sheet with its open state changed, as the page fetches it. */
function changedDemo(change: (state: BuildState) => void): BenchSheet {
  const sheet = shipped();
  change(openStateOf(sheet));
  return sheet;
}

async function openWith(sheet: BenchSheet, options: Parameters<typeof site.newPage>[0] = {}): Promise<Page> {
  const page = await site.newPage(options);
  await page.route('**/demo/bramble.json', (route) => route.fulfill({ json: sheet }));
  await page.goto(site.url(PAGE));
  await page.locator('plumb-photographs plumb-film-strip').waitFor();
  if (openStateOf(sheet).pictures.length > 0) await choosePictureIsOpen(page);
  return page;
}

const calculator = (page: Page): Locator => page.locator('plumb-photographs');
const surface = (page: Page): Locator => calculator(page).locator('plumb-marking-surface .surface');
const sight = (page: Page, role: string): Locator => calculator(page).locator(`[data-role="${role}"]`);
const frames = (page: Page): Locator => calculator(page).locator('plumb-film-strip .frame');

async function choosePicture(page: Page, index: number): Promise<void> {
  await frames(page).nth(index).click();
  await page.waitForFunction((at) => {
    const root = document.querySelector('plumb-photographs')?.shadowRoot;
    const strip = root?.querySelector('plumb-film-strip')?.shadowRoot;
    const open = [...(strip?.querySelectorAll('.frame') ?? [])].findIndex((f) => f.ariaPressed === 'true');
    const marking = root?.querySelector('plumb-marking-surface')?.shadowRoot;
    return open === at && marking?.querySelector('.waiting') === null;
  }, index);
}

/** Clear of the frame's fields, which would take the presses. */
const bringToMiddle = (page: Page): Promise<void> =>
  surface(page).evaluate((element) => element.scrollIntoView({ block: 'center' }));

/** Screen place of a picture place while the whole picture is shown. */
async function onScreen(page: Page, picture: { width: number; height: number }, x: number, y: number) {
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

/** Where the marks of a picture stand by what the page tells screen readers, in pixels. */
async function toldMarks(page: Page): Promise<Map<string, { x: number; y: number }>> {
  const told = await calculator(page)
    .locator('[data-role]')
    .evaluateAll((all) =>
      all.map((mark) => [mark.getAttribute('data-role'), mark.getAttribute('aria-label')]),
    );
  return new Map(
    told.map(([role, label]) => {
      const place = /x (-?[\d.]+), y (-?[\d.]+) pixels/.exec(label ?? '');
      return [role ?? '', { x: Number(place?.[1]), y: Number(place?.[2]) }];
    }),
  );
}

/** Points of the demo world in each picture of a state, by the roles the sheet uses. */
function truth(state: BuildState): Map<string, Map<string, { x: number; y: number }>> {
  const photographs = demoPhotographs(BRAMBLE, 1);
  return new Map(
    state.pictures.map(({ id }) => {
      const photograph = photographs.find((candidate) => candidate.id === id);
      if (!photograph) throw new Error(`No photograph ${id} in the demo world.`);
      const points = truePoints(BRAMBLE, photograph).map(
        ({ role, x, y }) => [markRole(role), { x, y }] as const,
      );
      return [id, new Map(points)];
    }),
  );
}

/** Squared distance of the truth from the answer in units of its covariance, in the side plane. */
function distanceSquared(state: BuildState): number {
  const { cg } = benchAnswer(state);
  if (!cg.ok) throw new Error(cg.message);
  const [ahead, , height] = centerOfGravity(BRAMBLE);
  const dx = cg.value.ahead.value - ahead;
  const dz = cg.value.height.value - height;
  const c = (i: number, j: number) => cg.value.covariance[i]?.[j] ?? NaN;
  const determinant = c(0, 0) * c(2, 2) - c(0, 2) * c(2, 0);
  return (dx * dx * c(2, 2) - 2 * dx * dz * c(0, 2) + dz * dz * c(0, 0)) / determinant;
}

/** Ahead and above ground as the page shows them, mm. */
async function shownAnswer(page: Page): Promise<{ ahead: number; height: number }> {
  const values = await calculator(page).locator('plumb-result .value').allInnerTexts();
  return { ahead: Number(values[0]), height: Number(values[1]) };
}

async function expectTruthInEllipse(
  page: Page,
  state: BuildState,
  marked: ReadonlyMap<string, Mark[]>,
): Promise<void> {
  const read: BuildState = {
    ...state,
    pictures: state.pictures.map((picture) => ({ ...picture, marks: marked.get(picture.id) ?? [] })),
  };
  expect(distanceSquared(read)).toBeLessThanOrEqual(PLANE_COVERAGE ** 2);
  const { cg } = benchAnswer(read);
  if (!cg.ok) throw new Error(cg.message);
  const shown = await shownAnswer(page);
  const limit = tolerance('photographs: shown answer');
  expect(Math.abs(shown.ahead - cg.value.ahead.value * 1000)).toBeLessThanOrEqual(limit);
  expect(Math.abs(shown.height - cg.value.height.value * 1000)).toBeLessThanOrEqual(limit);
}

const marksFrom = (told: ReadonlyMap<string, { x: number; y: number }>): Mark[] =>
  [...told].map(([role, { x, y }]) => ({ role, x, y, plusMinus: '', counted: true, source: 'hand' }));

const withoutMarks = (state: BuildState): void => {
  for (const picture of state.pictures) picture.marks = [];
};

describe('marking the demo pictures', () => {
  test('by pointer gives the center of gravity within its ellipse', async () => {
    const sheet = changedDemo(withoutMarks);
    const state = openStateOf(sheet);
    const page = await openWith(sheet, { viewport: { width: 1440, height: 1000 } });
    // Marks alone: what the picture's edges add is for finder.test.ts.
    await calculator(page).locator('[data-fold="camera"] summary').click();
    await calculator(page)
      .getByRole('checkbox', { name: /edges move my marks/ })
      .uncheck();
    const marked = new Map<string, Mark[]>();
    for (const [index, picture] of state.pictures.entries()) {
      await choosePicture(page, index);
      const points = truth(state).get(picture.id);
      const count = await calculator(page).locator('[data-point]').count();
      expect(count).toBeGreaterThanOrEqual(8);
      await bringToMiddle(page);
      for (let placed = 0; placed < count; placed++) {
        // The next point is always in hand: no need to choose it.
        const role = (await calculator(page).locator('.next-step').getAttribute('data-next')) ?? '';
        const point = points?.get(role);
        if (!point) throw new Error(`The demo world has no ${role} in ${picture.id}.`);
        const at = await onScreen(page, picture, point.x, point.y);
        await page.mouse.click(at.x, at.y);
        await sight(page, role).waitFor();
      }
      marked.set(picture.id, marksFrom(await toldMarks(page)));
    }
    await expectTruthInEllipse(page, state, marked);
  });

  test('by keyboard alone gives the center of gravity within its ellipse', async () => {
    const sheet = changedDemo((state) => {
      withoutMarks(state);
      state.pictures = state.pictures.slice(0, 3);
      state.bodyMarks = state.bodyMarks.slice(0, 3);
    });
    const state = openStateOf(sheet);
    const page = await openWith(sheet);
    const marked = new Map<string, Mark[]>();
    for (const [index, picture] of state.pictures.entries()) {
      await frames(page).nth(index).focus();
      await page.keyboard.press('Enter');
      await choosePictureIsOpen(page);
      const points = truth(state).get(picture.id);
      const roles = await calculator(page)
        .locator('[data-point]')
        // Those that only help are left out, as a reader in a hurry would.
        .evaluateAll((all) =>
          all
            .filter((point) => point.querySelector('.point-state')?.textContent === 'to place')
            .map((point) => point.getAttribute('data-point') ?? ''),
        );
      for (const role of roles) {
        const point = points?.get(role);
        if (!point) throw new Error(`The demo world has no ${role} in ${picture.id}.`);
        await calculator(page).locator(`[data-point="${role}"]`).focus();
        await page.keyboard.press('Enter');
        await page.waitForFunction(overlayHasFocus);
        await page.keyboard.press('Enter');
        await sight(page, role).waitFor();
        await page.waitForFunction(markHasFocus, role);
        const placed = (await toldMarks(page)).get(role);
        if (!placed) throw new Error(`${role} was not placed.`);
        await nudge(page, 'ArrowRight', 'ArrowLeft', point.x - placed.x);
        await nudge(page, 'ArrowDown', 'ArrowUp', point.y - placed.y);
      }
      const told = await toldMarks(page);
      for (const [role, place] of told) {
        const point = points?.get(role);
        expect(Math.abs(place.x - (point?.x ?? NaN))).toBeLessThanOrEqual(
          tolerance('photographs: nudged mark'),
        );
        expect(Math.abs(place.y - (point?.y ?? NaN))).toBeLessThanOrEqual(
          tolerance('photographs: nudged mark'),
        );
      }
      marked.set(picture.id, marksFrom(told));
    }
    await expectTruthInEllipse(page, state, marked);
  });
});

const overlayHasFocus = (): boolean => {
  const marking = document
    .querySelector('plumb-photographs')
    ?.shadowRoot?.querySelector('plumb-marking-surface');
  return marking?.shadowRoot?.activeElement?.classList.contains('overlay') ?? false;
};

const markHasFocus = (role: string): boolean => {
  const marking = document
    .querySelector('plumb-photographs')
    ?.shadowRoot?.querySelector('plumb-marking-surface');
  return marking?.shadowRoot?.activeElement?.getAttribute('data-role') === role;
};

async function choosePictureIsOpen(page: Page): Promise<void> {
  await page.waitForFunction(() => {
    const marking = document
      .querySelector('plumb-photographs')
      ?.shadowRoot?.querySelector('plumb-marking-surface');
    return marking?.shadowRoot?.querySelector('.overlay') && !marking.shadowRoot.querySelector('.waiting');
  });
}

/** Arrow keys that move a mark by `distance` pixels, largest steps first. */
async function nudge(page: Page, forward: string, back: string, distance: number): Promise<void> {
  const key = distance < 0 ? back : forward;
  let tenths = Math.round(Math.abs(distance) * 10);
  for (const [modifiers, size] of [
    ['Control+Shift+', 1000],
    ['Shift+', 100],
    ['', 10],
    ['Alt+', 1],
  ] as const) {
    for (; tenths >= size; tenths -= size) await page.keyboard.press(modifiers + key);
  }
}

describe('a mark in hand', () => {
  test('moves by every key of the table', async () => {
    const page = await openWith(shipped());
    await sight(page, 'mark A').focus();
    const place = async () => (await toldMarks(page)).get('mark A') ?? { x: NaN, y: NaN };
    const start = await place();
    const moves: Readonly<Record<string, readonly [key: string, dx: number, dy: number]>> = {
      fine: ['Alt+ArrowRight', 0.1, 0],
      plain: ['ArrowDown', 0, 1],
      coarse: ['Shift+ArrowLeft', -10, 0],
      far: ['Control+Shift+ArrowRight', 100, 0],
    };
    const expected = { ...start };
    for (const [id, [key, dx, dy]] of Object.entries(moves)) {
      expect(KEYS.map((row) => row.id)).toContain(id);
      await page.keyboard.press(key);
      expected.x += dx;
      expected.y += dy;
      const now = await place();
      expect(now.x, id).toBeCloseTo(expected.x, 1);
      expect(now.y, id).toBeCloseTo(expected.y, 1);
    }
    const zoom = calculator(page).locator('plumb-marking-surface .tools button').nth(1);
    await page.keyboard.press('+');
    await page.keyboard.press('+');
    expect(await zoom.innerText()).toBe('3 ×');
    await page.keyboard.press('-');
    expect(await zoom.innerText()).toBe('2 ×');
    await page.keyboard.press('0');
    expect(await zoom.innerText()).toBe('1 ×');
    await page.keyboard.press('Delete');
    expect(await sight(page, 'mark A').count()).toBe(0);
    // The point taken away is in hand again.
    await page.waitForFunction(overlayHasFocus);
    await page.keyboard.press('Enter');
    await sight(page, 'mark A').waitFor();
    await page.waitForFunction(markHasFocus, 'mark A');
    await page.keyboard.press('Escape');
    expect(await sight(page, 'mark A').getAttribute('aria-pressed')).toBe('false');
  });

  test('is dragged as one step of undo, and Escape puts it back', async () => {
    const page = await openWith(shipped());
    await bringToMiddle(page);
    const before = await toldMarks(page);
    const answer = await shownAnswer(page);
    const box = await sight(page, 'mark B').boundingBox();
    if (!box) throw new Error('Mark B is not laid out.');
    const middle = { x: box.x + box.width / 2, y: box.y + box.height / 2 };
    const drag = async () => {
      await page.mouse.move(middle.x, middle.y);
      await page.mouse.down();
      await page.mouse.move(middle.x + 12, middle.y + 6, { steps: 4 });
      await page.waitForFunction(() =>
        document
          .querySelector('plumb-photographs')
          ?.shadowRoot?.querySelector('plumb-result')
          ?.shadowRoot?.querySelector('.trial-word'),
      );
    };
    await drag();
    await page.keyboard.press('Escape');
    await page.mouse.up();
    expect(await toldMarks(page)).toEqual(before);
    expect(await shownAnswer(page)).toEqual(answer);

    await drag();
    await page.mouse.up();
    expect((await toldMarks(page)).get('mark B')).not.toEqual(before.get('mark B'));
    const undo = calculator(page).getByRole('button', { name: 'Undo' });
    expect(await undo.getAttribute('title')).toContain('Move mark B');
    await undo.click();
    expect(await toldMarks(page)).toEqual(before);
    expect(await shownAnswer(page)).toEqual(answer);
  });

  test('is followed by a finger, with the loupe clear of it', async () => {
    const page = await openWith(shipped(), { viewport: PHONE, hasTouch: true, isMobile: true });
    await bringToMiddle(page);
    const before = (await toldMarks(page)).get('mark A');
    const box = await sight(page, 'mark A').boundingBox();
    if (!box) throw new Error('Mark A is not laid out.');
    const [x, y] = [box.x + box.width / 2, box.y + box.height / 2];
    const touch = await page.context().newCDPSession(page);
    const send = (
      type: 'touchStart' | 'touchMove' | 'touchEnd',
      points: readonly { x: number; y: number }[],
    ) =>
      touch.send('Input.dispatchTouchEvent', {
        type,
        touchPoints: points.map((point, id) => ({ ...point, id })),
      });
    await send('touchStart', [{ x, y }]);
    for (let step = 1; step <= 5; step++) await send('touchMove', [{ x: x + 5 * step, y: y - 3 * step }]);
    const loupe = await calculator(page).locator('plumb-marking-surface plumb-loupe').boundingBox();
    if (!loupe) throw new Error('No loupe while a finger drags.');
    const finger = { x: x + 25, y: y - 15 };
    const away = Math.hypot(loupe.x + loupe.width / 2 - finger.x, loupe.y + loupe.height / 2 - finger.y);
    expect(away).toBeGreaterThan(loupe.width / 2);
    await send('touchEnd', []);
    await expect.poll(async () => (await toldMarks(page)).get('mark A')).not.toEqual(before);
  });

  test('is moved by the buttons of the pad', async () => {
    const page = await openWith(shipped(), { viewport: PHONE, hasTouch: true, isMobile: true });
    await sight(page, 'mark C').focus();
    const before = (await toldMarks(page)).get('mark C');
    const pad = calculator(page).locator('plumb-nudge-pad');
    await pad.getByText('10', { exact: true }).click();
    await pad.getByRole('button', { name: /right/ }).click();
    expect((await toldMarks(page)).get('mark C')?.x).toBeCloseTo((before?.x ?? NaN) + 10, 1);
  });
});

describe('an empty sheet', () => {
  const empty = () =>
    changedDemo((state) => {
      Object.assign(state, { pictures: [], hooks: [], bodyMarks: [], readings: [], parts: [] });
      state.dimensions.wheelbase.text = '';
    });

  test('says what is needed, takes pictures in, and leads from step to step', async () => {
    const page = await openWith(empty());
    await calculator(page).getByText('Two strings cross at the center of gravity').waitFor();
    const picker = calculator(page).locator('plumb-film-strip input[type="file"]').first();
    await picker.setInputFiles(
      ['hang-1', 'standing', 'hang-2'].map((name) => join(demoFolder, `${name}.jpg`)),
    );
    // What each shows is for the reader to say: one press.
    const sort = (index: number, as: string) =>
      calculator(page).locator('plumb-film-strip li').nth(index).locator(`[data-sort="${as}"]`).click();
    await frames(page).nth(2).waitFor();
    for (const [index, as] of ['hanging', 'standing', 'hanging'].entries()) await sort(index, as);
    expect(await frames(page).allInnerTexts()).toEqual([
      expect.stringContaining('Hang 1'),
      expect.stringContaining('Standing'),
      expect.stringContaining('Hang 2'),
    ]);
    const answer = calculator(page).locator('.answer-cell');
    expect(await answer.innerText()).toMatch(/No answer yet\.[\s\S]*Still needed:[\s\S]*the wheelbase/);
    expect(await calculator(page).locator('plumb-result').count()).toBe(0);

    await answer.getByRole('button', { name: 'the wheelbase' }).click();
    await page.keyboard.type('313.5');
    await page.keyboard.press('Tab');
    expect(await answer.innerText()).not.toContain('the wheelbase');

    await answer.getByRole('button', { name: /front hub/ }).click();
    expect(await calculator(page).locator('.next-step').innerText()).toContain('Front hub');

    const undo = calculator(page).getByRole('button', { name: 'Undo' });
    await undo.click();
    await undo.click();
    await undo.click();
    expect(await frames(page).count()).toBe(3);
    expect(await frames(page).nth(2).innerText()).toContain('to sort');
    expect(await frames(page).nth(1).innerText()).toContain('to sort');
    await undo.click();
    await undo.click();
    expect(await frames(page).count()).toBe(2);
  });

  test('is one press away from the demo truck', async () => {
    const page = await openWith(shipped());
    await calculator(page).getByRole('button', { name: 'Measure your own truck' }).click();
    await calculator(page).getByText('Two strings cross at the center of gravity').waitFor();
    expect(await frames(page).count()).toBe(0);
    expect(await calculator(page).getByText('is the demo truck').count()).toBe(0);
  });

  test('takes a picture that is dropped on it', async () => {
    const page = await openWith(empty());
    const bytes = readFileSync(join(demoFolder, 'standing.jpg')).toString('base64');
    await calculator(page)
      .locator('plumb-panel')
      .evaluate((panel, content) => {
        const data = new DataTransfer();
        const binary = Uint8Array.from(atob(content), (letter) => letter.charCodeAt(0));
        data.items.add(new File([binary], 'mine.jpg', { type: 'image/jpeg' }));
        panel.dispatchEvent(
          new DragEvent('drop', { dataTransfer: data, bubbles: true, composed: true, cancelable: true }),
        );
      }, bytes);
    await frames(page).first().waitFor();
    expect(await frames(page).first().innerText()).toContain('Standing');
  });

  test('says what is wrong with a file that is no picture, and loses nothing', async () => {
    const page = await openWith(shipped());
    const file = join(mkdtempSync(join(tmpdir(), 'plumb-')), 'notes.txt');
    writeFileSync(file, 'wheelbase 313 mm');
    const count = await frames(page).count();
    await calculator(page).locator('plumb-film-strip input[type="file"]').first().setInputFiles(file);
    const problem = calculator(page).locator('.intake plumb-bracket');
    await problem.waitFor();
    expect(await problem.getAttribute('title-text')).toMatch(/^notes\.txt: .*;$/);
    expect(await frames(page).count()).toBe(count);
    await calculator(page).getByRole('button', { name: 'I have read it' }).click();
    expect(await problem.count()).toBe(0);
  });
});

describe('what cannot be', () => {
  test.each([
    ['', 'no answer yet.'],
    ['0', 'Wheelbase: needs a length above zero;'],
    ['-3', 'Wheelbase: needs a length above zero;'],
    ['1e9', 'Wheelbase: needs a length of at most'],
    ['abc', 'Wheelbase: '],
    ['12 kg', 'Wheelbase: '],
  ])('wheelbase “%s” leaves no number standing and says why', async (typed, message) => {
    // Other readings would still tell the place; here there are pictures alone.
    const page = await openWith(changedDemo((state) => void (state.readings = [])));
    const field = calculator(page).locator('#given-dimensions-wheelbase');
    await field.locator('#number').fill(typed);
    const answer = calculator(page).locator('.answer-cell');
    await expect.poll(() => calculator(page).locator('plumb-result').count()).toBe(0);
    const title = await answer
      .locator('plumb-bracket')
      .evaluateAll(([first]) => first?.getAttribute('title-text') ?? '');
    const said = `${title} ${await answer.innerText()}`;
    expect(said).toContain(message);
    if (typed !== '') await field.getByText('Wheelbase: ').waitFor();
    expect(await field.locator('#number').inputValue()).toBe(typed);
    await field.locator('#number').fill('313.5');
    await calculator(page).locator('plumb-result').first().waitFor();
  });

  test('words in any given are told at its field, and stand there until they are mended', async () => {
    const sheet = shipped();
    sheet.openState = 'free';
    const page = await openWith(sheet);
    await choosePicture(page, 1);
    for (const fold of await calculator(page).locator('.givens-cell summary').all())
      if (!(await fold.evaluate((summary) => summary.parentElement?.hasAttribute('open'))))
        await fold.click();
    const fields = await calculator(page).locator('.givens-cell plumb-given').all();
    expect(fields.length).toBeGreaterThan(20);
    for (const field of fields) {
      const number = field.locator('#number');
      const before = await number.inputValue();
      await number.fill('a hand');
      const message = await field.locator('#number-message').innerText();
      expect(message).toMatch(/^[^:]+: needs .*got “a hand”\. \S/);
      expect(await number.getAttribute('aria-invalid')).toBe('true');
      await number.fill(before);
      expect(await field.locator('#number-message').count()).toBe(0);
    }
    await calculator(page).locator('plumb-result').first().waitFor();
  });

  test('strings that run alike are refused with the remedy', async () => {
    const sheet = changedDemo((state) => {
      const [standing, first] = state.pictures;
      if (!standing || !first) throw new Error('The demo has no pictures.');
      // The same hang twice: two lines in one.
      state.pictures = [standing, first, { ...structuredClone(first), id: 'hang-2' }];
      state.readings = [];
    });
    const page = await openWith(sheet);
    const answer = calculator(page).locator('.answer-cell');
    expect(await calculator(page).locator('plumb-result').count()).toBe(0);
    expect(await answer.locator('plumb-bracket').first().getAttribute('title-text')).toMatch(
      /lines cross at only 0\.\d°/,
    );
    expect(await answer.innerText()).toContain('Hang the truck from a hook farther from the first');
  });

  test('hubs the wrong way round are noticed and set right in one step', async () => {
    const sheet = changedDemo((state) => {
      for (const picture of state.pictures) picture.view = 'left';
    });
    const page = await openWith(sheet);
    await calculator(page).getByRole('button', { name: 'All pictures show the right side' }).click();
    await calculator(page).locator('plumb-result').first().waitFor();
    expect(
      await calculator(page).getByRole('button', { name: 'All pictures show the right side' }).count(),
    ).toBe(0);
  });

  test('free suspension without hubs warns with the size', async () => {
    const sheet = shipped();
    sheet.openState = 'free';
    for (const picture of openStateOf(sheet).pictures)
      if (picture.kind === 'hanging')
        picture.marks = picture.marks.filter(({ role }) => !role.endsWith(' hub'));
    const page = await openWith(sheet);
    const warning = calculator(page).locator('plumb-bracket[title-text="Droop is not corrected."]').first();
    expect(await warning.innerText()).toMatch(/up to \d+\.\d\smm off/);
  });
});

describe('the answer', () => {
  test('sets a mark aside and counts it again', async () => {
    const page = await openWith(shipped());
    const misfits = () => calculator(page).locator('.registration tfoot').innerText();
    const before = await misfits();
    const answer = await shownAnswer(page);
    const box = calculator(page).getByRole('checkbox', { name: 'Count mark B in Hang 1' });
    await box.uncheck();
    await expect.poll(misfits).not.toBe(before);
    await box.check();
    await expect.poll(misfits).toBe(before);
    expect(await shownAnswer(page)).toEqual(answer);
  });

  test('is saved as a picture of full size', async () => {
    const page = await openWith(shipped());
    const saved = page.waitForEvent('download');
    await calculator(page).getByRole('button', { name: 'Save the picture with the answer' }).click();
    const download = await saved;
    expect(download.suggestedFilename()).toMatch(/\.png$/);
    const png = readFileSync(await download.path());
    // Width and height of a PNG's first chunk (ISO/IEC 15948, 11.2.2).
    const [standing] = openStateOf(shipped()).pictures;
    expect(png.readUInt32BE(16)).toBe(standing?.width);
    expect(png.readUInt32BE(20)).toBeGreaterThanOrEqual(standing?.height ?? Infinity);
  });
});

describe('on every screen', () => {
  test.each([
    ['laptop', LAPTOP, 'light'],
    ['phone, dark', PHONE, 'dark'],
  ] as const)(
    '%s: no accessibility violation, standing, and hanging with all folds open',
    async (_name, viewport, colorScheme) => {
      const page = await openWith(shipped(), { viewport, colorScheme });
      const found = async () => {
        const { violations } = await new AxeBuilder({ page }).include('plumb-photographs').analyze();
        return violations.map(
          ({ id, nodes }) => `${id}: ${nodes.map(({ target }) => target.join(' ')).join('; ')}`,
        );
      };
      expect(await found()).toEqual([]);
      await choosePicture(page, 1);
      await sight(page, 'string lower').focus();
      for (const fold of await calculator(page).locator('.givens-cell summary').all())
        if (!(await fold.evaluate((summary) => summary.parentElement?.hasAttribute('open'))))
          await fold.click();
      expect(await found()).toEqual([]);
    },
  );

  test('a phone of 360 px never scrolls sideways, in order figure, answer, marks, givens, working', async () => {
    const page = await openWith(shipped(), { viewport: PHONE, hasTouch: true, isMobile: true });
    for (const index of [0, 1]) {
      await choosePicture(page, index);
      const overflow = await page.evaluate(
        () => document.documentElement.scrollWidth - document.documentElement.clientWidth,
      );
      expect(overflow).toBeLessThanOrEqual(0);
    }
    const tops = await Promise.all(
      ['figure', 'answer', 'marks', 'givens', 'working'].map(async (name) => {
        const box = await calculator(page).locator(`.${name}-cell`).boundingBox();
        return box?.y ?? NaN;
      }),
    );
    expect(tops).toEqual(tops.toSorted((a, b) => a - b));
  });
});
