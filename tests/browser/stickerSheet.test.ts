import { AxeBuilder } from '@axe-core/playwright';
import { describe, expect, it } from 'vitest';
import { BAR, INNER_PART, STICKER_SIZES, stickerCount } from '../../src/site/handouts/stickers';
import { tolerance } from '../tolerances';
import { pdfPages, pdfShapes } from './pdfShapes';
import { LAPTOP, PHONE, useSite } from './site';

const site = useSite();
const PAGE = 'sticker-sheet.html';

/** Paper, whole millimeters. */
const PAPERS = [
  ['A4', 210, 297],
  ['Letter', 216, 279],
] as const;

describe.each(PAPERS)('the printed sheet on %s', (format, width, height) => {
  it('is one page, its bar and its rounds true to size', async () => {
    const page = await site.open(PAGE, { colorScheme: 'dark' });
    const pdf = await page.pdf({ format, preferCSSPageSize: true });
    const shapes = pdfShapes(pdf);
    const near = tolerance('sticker sheet: printed size');
    const is = (value: number, wanted: number): boolean => Math.abs(value - wanted) <= near;
    const [box] = [...pdf.toString('latin1').matchAll(/\/MediaBox\s*\[\s*0 0 ([\d.]+) ([\d.]+)\s*\]/g)];

    expect(pdfPages(pdf)).toBe(1);
    expect(Math.round((Number(box?.[1]) * 25.4) / 72)).toBe(width);
    expect(Math.round((Number(box?.[2]) * 25.4) / 72)).toBe(height);
    const bars = shapes.filter(({ width: long, height: high }) => is(high, 0) && long > 99 && long < 103);
    expect(bars.map(({ width: long }) => Math.round(long * 10) / 10)).toEqual([
      BAR.millimeters,
      BAR.inches * BAR.millimetersPerInch,
    ]);
    const rounds = (diameter: number): number =>
      shapes.filter(({ width: w, height: h }) => is(w, diameter) && is(h, diameter)).length;
    for (const size of STICKER_SIZES) {
      expect(rounds(size), `black rounds of ${size} mm`).toBe(stickerCount(size));
      // The white middle of the 6 mm round is 2 mm, of the 12 mm round 4 mm: none as large as a black one.
      expect(rounds(size * INNER_PART), `white rounds of ${size} mm`).toBe(stickerCount(size));
    }
  });
});

describe('the page of the sheet', () => {
  it.each([
    ['light', 'light', LAPTOP],
    ['dark', 'dark', LAPTOP],
    ['light on a phone', 'light', PHONE],
    ['dark on a phone', 'dark', PHONE],
  ] as const)('has no accessibility violation, %s', async (_case, colorScheme, viewport) => {
    const page = await site.open(PAGE, { colorScheme, viewport });
    const { violations } = await new AxeBuilder({ page }).analyze();
    expect(violations.map(({ id, nodes }) => [id, nodes.map(({ html }) => html)])).toEqual([]);
  });

  it.each([320, 360, 768, 1280])('does not scroll sideways at %d px', async (width) => {
    const page = await site.open(PAGE, { viewport: { width, height: 740 } });
    const excess = await page.evaluate(
      () => document.documentElement.scrollWidth - document.documentElement.clientWidth,
    );
    expect(excess).toBeLessThanOrEqual(0);
  });

  it('carries the content security policy, one main heading and no inline style or script', async () => {
    const page = await site.open(PAGE);
    const html = await (await page.request.get(site.url(PAGE))).text();
    const policy = await page.locator('meta[http-equiv="Content-Security-Policy"]').getAttribute('content');

    expect(policy).toContain("default-src 'none'");
    expect(html).not.toMatch(/<style|\sstyle=|<script(?![^>]*\ssrc=)/);
    expect(await page.locator('h1').count()).toBe(1);
  });

  it('keeps the paper white in the dark drawing', async () => {
    const page = await site.open(PAGE, { colorScheme: 'dark' });
    const ground = await page.locator('.paper').evaluate((paper) => getComputedStyle(paper).backgroundColor);
    expect(ground).toBe('rgb(255, 255, 255)');
  });

  it('reads fully without a script, then without the button', async () => {
    const page = await site.open(PAGE, { javaScriptEnabled: false });
    expect(await page.locator('main').innerText()).toContain('Where to put them');
    expect(await page.getByRole('button', { name: 'Print this sheet' }).count()).toBe(0);
  });

  it('prints by its button', async () => {
    const page = await site.newPage();
    await page.addInitScript(() => {
      window.print = () => document.documentElement.setAttribute('data-printed', '');
    });
    await page.goto(site.url(PAGE));
    await page.getByRole('button', { name: 'Print this sheet' }).click();
    expect(await page.locator('html[data-printed]').count()).toBe(1);
  });

  it('is reached from chapter 3 and from the cover, and leads back', async () => {
    for (const from of ['resultant-lines.html', 'index.html']) {
      const page = await site.open(from);
      expect(await page.locator('main a[href="./sticker-sheet.html"]').count(), from).toBeGreaterThan(0);
    }
    const page = await site.open(PAGE);
    await page.locator('.page-turn a').click();
    await page.waitForURL(/resultant-lines\.html$/);
  });
});
