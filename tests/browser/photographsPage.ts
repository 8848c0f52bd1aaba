import { readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import type { CDPSession, Locator, Page } from 'playwright-core';
import * as v from 'valibot';
import { BenchSheet, type BuildState } from '../../src/sheet/schema';
import type { Site } from './site';

/** The photograph calculator on the built page, as tests of its pictures drive it. */

const PAGE = 'resultant-lines.html#e3';
const demo = fileURLToPath(new URL('../../assets/demo/bramble.json', import.meta.url));

export interface At {
  readonly x: number;
  readonly y: number;
}

/** The demo sheet with its open state changed. */
export function demoSheet(change: (state: BuildState) => void): BenchSheet {
  const sheet = v.parse(BenchSheet, JSON.parse(readFileSync(demo, 'utf8')));
  const state = sheet.states.find(({ id }) => id === sheet.openState);
  if (!state) throw new Error('The sheet has no open state.');
  change(state);
  return sheet;
}

/** Opens the chapter with this sheet; `pictures` are served in place of the demo truck's, by their ids. */
export async function openSheet(
  site: Site,
  sheet: BenchSheet,
  pictures: Readonly<Record<string, Buffer>> = {},
  options: Parameters<Site['newPage']>[0] = {},
): Promise<Page> {
  const page = await site.newPage(options);
  await page.route('**/demo/bramble.json', (route) => route.fulfill({ json: sheet }));
  for (const [id, body] of Object.entries(pictures))
    await page.route(`**/demo/${id}.jpg`, (route) => route.fulfill({ body, contentType: 'image/jpeg' }));
  await page.goto(site.url(PAGE));
  await page.waitForFunction(() => {
    const marking = document
      .querySelector('plumb-photographs')
      ?.shadowRoot?.querySelector('plumb-marking-surface');
    return marking?.shadowRoot?.querySelector('.overlay') && !marking.shadowRoot.querySelector('.waiting');
  });
  return page;
}

export const calculator = (page: Page): Locator => page.locator('plumb-photographs');
export const surface = (page: Page): Locator => calculator(page).locator('plumb-marking-surface .surface');
export const sight = (page: Page, role: string): Locator =>
  calculator(page).locator(`plumb-marking-surface [data-role="${role}"]`);

/** Clear of the frame's fields, which would take the presses. */
export const bringToMiddle = (page: Page): Promise<void> =>
  surface(page).evaluate((element) => element.scrollIntoView({ block: 'center' }));

/** Screen place of a picture place while the whole picture is shown. */
export async function onScreen(
  page: Page,
  picture: { readonly width: number; readonly height: number },
  { x, y }: At,
): Promise<At> {
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

/** A mark as the page tells it to screen readers. */
export interface ToldMark extends At {
  readonly found: boolean;
}

/** The marks of the picture in hand by their roles, in pixels. */
export async function toldMarks(page: Page): Promise<Map<string, ToldMark>> {
  const told = await calculator(page)
    .locator('plumb-marking-surface [data-role]')
    .evaluateAll((all) =>
      all.map((mark) => [mark.getAttribute('data-role') ?? '', mark.getAttribute('aria-label') ?? '']),
    );
  return new Map(
    told.map(([role = '', label = '']) => {
      const place = /x (-?[\d.]+), y (-?[\d.]+) pixels/.exec(label);
      const found = label.includes('placed by the picture’s edges');
      return [role, { x: Number(place?.[1]), y: Number(place?.[2]), found }];
    }),
  );
}

export async function toldMark(page: Page, role: string): Promise<ToldMark> {
  const mark = (await toldMarks(page)).get(role);
  if (!mark) throw new Error(`No ${role} stands in the picture.`);
  return mark;
}

/** Fingers on the screen, sent as the browser gets them from a touch screen. */
export class Fingers {
  readonly #session: Promise<CDPSession>;

  constructor(page: Page) {
    this.#session = page.context().newCDPSession(page);
  }

  async send(type: 'touchStart' | 'touchMove' | 'touchEnd', at: readonly At[]): Promise<void> {
    const touchPoints = at.map(({ x, y }, id) => ({ x, y, id }));
    await (await this.#session).send('Input.dispatchTouchEvent', { type, touchPoints });
  }

  /** One finger from place to place in `steps`, each taking `pause` ms; it stays down. */
  async slide(from: At, to: At, steps: number, pause: number): Promise<void> {
    for (let step = 1; step <= steps; step++) {
      await new Promise((done) => setTimeout(done, pause));
      const part = step / steps;
      await this.send('touchMove', [
        { x: from.x + (to.x - from.x) * part, y: from.y + (to.y - from.y) * part },
      ]);
    }
  }
}
