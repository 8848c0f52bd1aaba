import { AxeBuilder } from '@axe-core/playwright';
import { describe, expect, it } from 'vitest';
import type { Page } from 'playwright-core';
import { LAPTOP, PAGES, PHONE, useSite } from './site';

const site = useSite();

const CHAPTERS = PAGES.filter((page) => page !== 'index.html');

async function violations(page: Page): Promise<string[]> {
  const { violations: found } = await new AxeBuilder({ page }).analyze();
  return found.map(({ id, nodes }) => `${id}: ${nodes.map((node) => node.target.join(' ')).join('; ')}`);
}

async function sidewaysOverflow(page: Page): Promise<number> {
  return page.evaluate(() => document.documentElement.scrollWidth - document.documentElement.clientWidth);
}

describe.each(PAGES)('%s', (name) => {
  it('carries the content security policy and no inline style or script', async () => {
    const page = await site.open(name);
    const html = await (await page.request.get(site.url(name))).text();
    const policy = await page.locator('meta[http-equiv="Content-Security-Policy"]').getAttribute('content');

    expect(policy).toContain("default-src 'none'");
    expect(policy).not.toContain('unsafe');
    expect(html).not.toMatch(/<style|\sstyle=|<script(?![^>]*\ssrc=)/);
  });

  it('has one main heading, one main landmark and a skip link that works', async () => {
    const page = await site.open(name);
    await page.keyboard.press('Tab');
    const first = await page.evaluate(() => document.activeElement?.textContent);
    await page.keyboard.press('Enter');

    expect(first).toBe('Skip to the text');
    expect(await page.evaluate(() => document.activeElement?.id)).toBe('text');
    expect(await page.locator('h1').count()).toBe(1);
    expect(await page.locator('main').count()).toBe(1);
  });

  it.each([
    ['light', 'light', LAPTOP],
    ['dark', 'dark', LAPTOP],
    ['light on a phone', 'light', PHONE],
    ['dark on a phone', 'dark', PHONE],
  ] as const)('has no accessibility violation, %s', async (_case, colorScheme, viewport) => {
    const page = await site.open(name, { colorScheme, viewport });
    expect(await violations(page)).toEqual([]);
  });

  it.each([360, 320, 768, 1024, 1280, 1920])('does not scroll sideways at %d px', async (width) => {
    const page = await site.open(name, { viewport: { width, height: 740 } });
    expect(await sidewaysOverflow(page)).toBeLessThanOrEqual(0);
  });

  it('reads fully without a script', async () => {
    const page = await site.open(name, { javaScriptEnabled: false });
    const text = await page.locator('main').innerText();

    expect(text.length).toBeGreaterThan(name === 'index.html' ? 300 : 3000);
    for (const calculator of await page.locator('.calculator').all())
      expect(
        (await calculator.innerText()).length,
        await calculator.getAttribute('address').then(String),
      ).toBeGreaterThan(80);
  });

  it('prints on A4', async () => {
    const page = await site.open(name);
    const pdf = await page.pdf({ preferCSSPageSize: true });
    const boxes = [...pdf.toString('latin1').matchAll(/\/MediaBox\s*\[\s*0 0 ([\d.]+) ([\d.]+)\s*\]/g)];

    expect(boxes.length).toBeGreaterThan(0);
    // A4 is 210 × 297 mm: 595.3 × 841.9 points.
    for (const [, width, height] of boxes) {
      expect(Math.round(Number(width))).toBe(595);
      expect(Math.round(Number(height))).toBe(842);
    }
  });

  it('survives forced colors and reduced motion', async () => {
    const page = await site.open(name, { forcedColors: 'active', reducedMotion: 'reduce' });
    const current = page.locator('.top [aria-current="page"]:visible').first();
    expect(await current.evaluate((field) => getComputedStyle(field).outlineStyle)).toBe('solid');
  });
});

describe('the frame', () => {
  it('reaches every written chapter and every part by keyboard', async () => {
    const page = await site.open('resultant-lines.html');
    const reached: string[] = [];
    for (let i = 0; i < 16; i++) {
      await page.keyboard.press('Tab');
      reached.push(await page.evaluate(() => document.activeElement?.getAttribute('href') ?? ''));
    }
    const parts = await page
      .locator('.letter-fields a')
      .evaluateAll((links) => links.map((link) => link.getAttribute('href')));

    expect(reached).toEqual(
      expect.arrayContaining(['./index.html', './resultant-lines.html', './stability-angles.html', ...parts]),
    );
  });

  it('links no chapter that is not written', async () => {
    const page = await site.open('index.html');
    const links = await page
      .locator('.chapter-fields a')
      .evaluateAll((all) => all.map((link) => link.getAttribute('href')));
    expect(links).toEqual(['./resultant-lines.html', './stability-angles.html']);
    expect(await page.locator('.chapter-fields .unwritten').count()).toBe(7);
  });

  it('opens the field of the part being read and ticks it once read', async () => {
    const page = await site.open('resultant-lines.html');
    const open = page.locator('.letter-fields [aria-current]');
    expect(await open.getAttribute('href')).toBe('#a');

    await page.locator('#c .part-name').scrollIntoViewIfNeeded();
    await page.evaluate(() => document.getElementById('c')?.scrollIntoView());
    await page.waitForFunction(
      () => document.querySelector('.letter-fields [aria-current]')?.getAttribute('href') === '#c',
    );
    await page.reload();
    expect(await page.locator('.letter-fields a[href="#a"] .tick').isVisible()).toBe(true);
  });

  it('keeps the chosen drawing, set before the first paint', async () => {
    const page = await site.open('index.html', { colorScheme: 'light' });
    await page.locator('.theme-button').click();
    await page.goto(site.url('stability-angles.html'));
    const ground = await page.evaluate(() => getComputedStyle(document.documentElement).backgroundColor);

    // Paper of the dark drawing, #101b1e.
    expect(ground).toBe('rgb(16, 27, 30)');
    expect(await page.locator('head script').first().getAttribute('src')).toBe('./before-paint.js');
  });

  it('folds the chapters into one field on a phone, closed again by Escape', async () => {
    const page = await site.open('resultant-lines.html', { viewport: PHONE });
    await page.locator('.chapter-menu summary').click();
    expect(await page.locator('.chapter-menu a[href="./stability-angles.html"]').isVisible()).toBe(true);
    await page.keyboard.press('Escape');
    expect(await page.locator('.chapter-menu').getAttribute('open')).toBeNull();
  });

  it('has targets at least 44 px high on a phone', async () => {
    const page = await site.open('resultant-lines.html', { viewport: PHONE });
    const heights = await page
      .locator('.top :is(a, summary, button):visible, .letter-fields a:visible')
      .evaluateAll((all) => all.map((field) => field.getBoundingClientRect().height));
    expect(Math.min(...heights)).toBeGreaterThanOrEqual(44);
  });
});

describe.each(CHAPTERS)('deep links of %s', (name) => {
  it('lead to every heading, part and calculator, clear of the frame', async () => {
    const page = await site.open(name);
    // The page's own places; what stands inside a calculator is its own affair.
    const ids = await page.evaluate(() =>
      [...document.querySelectorAll('main :is(.part, h3[id], h4[id], .calculator)')].map((place) => place.id),
    );
    expect(ids.length).toBeGreaterThan(5);
    expect(new Set(ids).size).toBe(ids.length);
    for (const id of ids) {
      await page.goto(site.url(`${name}#${id}`));
      const place = await page.evaluate((anchor) => {
        const top = document.getElementById(anchor)?.getBoundingClientRect().top ?? -1;
        const head = document.querySelector('.top')?.getBoundingClientRect().bottom ?? 0;
        return { top, head, height: innerHeight };
      }, id);
      expect(place.top, id).toBeGreaterThanOrEqual(place.head);
      expect(place.top, id).toBeLessThan(place.height);
    }
  });
});

describe('the projector', () => {
  it.each(CHAPTERS)('shows one figure of %s, no text below 22 px', async (name) => {
    const page = await site.open(`${name}?projector`, { viewport: { width: 1280, height: 720 } });
    expect(await page.locator('.calculator:visible').count()).toBe(1);
    const sizes = await page
      .locator('.stage-head *, .stage-foot *')
      .evaluateAll((all) =>
        all
          .filter((part) => part.textContent?.trim())
          .map((part) => parseFloat(getComputedStyle(part).fontSize)),
      );
    expect(Math.min(...sizes)).toBeGreaterThanOrEqual(22);
  });

  it('steps by number keys and leaves by Escape', async () => {
    const page = await site.open('stability-angles.html?projector', {
      viewport: { width: 1280, height: 720 },
    });
    await page.keyboard.press('1');
    expect(await page.locator('.stage-step').first().getAttribute('aria-current')).toBe('step');
    await page.keyboard.press('Escape');
    await page.waitForURL((url) => !url.search.includes('projector'));
  });
});
