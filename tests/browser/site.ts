import { afterAll, afterEach, beforeAll, expect, inject } from 'vitest';
import { chromium, type Browser, type BrowserContextOptions, type Page } from 'playwright-core';
import { CHROMIUM_FLAGS, findChromium } from '../../src/site/commands/chromium.mjs';
import { serve, type Served } from '../../src/site/commands/serve.mjs';

/** Served below this, as the notebook must work from any sub-folder. */
const SUB_FOLDER = '/some/sub/folder/';

/** Every page of the built notebook. */
export const PAGES = ['index.html', 'resultant-lines.html', 'stability-angles.html'] as const;

export const PHONE = { width: 360, height: 740 };
export const LAPTOP = { width: 1280, height: 800 };

export interface Site {
  /** Address of a page: "stability-angles.html#e5". */
  url(page: string): string;
  /**
   * A new page in a fresh profile. The test fails at its end on any console message, page error, failed request, or
   * request to another host.
   */
  newPage(options?: BrowserContextOptions): Promise<Page>;
  /** newPage() opened at a page of the notebook, its elements defined and its fonts loaded. */
  open(page: string, options?: BrowserContextOptions): Promise<Page>;
  /** What went wrong so far in the pages of this test; emptied by reading, for a test that expects something of it. */
  takeProblems(): string[];
}

/** One browser and one server for the tests of a file. Call it at the top of the file. */
export function useSite(): Site {
  let browser: Browser | undefined;
  let served: Served | undefined;
  let pages: Page[] = [];
  let problems: string[] = [];

  beforeAll(async () => {
    const executablePath = findChromium();
    if (!executablePath)
      throw new Error('Browser: none found. Install Chromium, Chrome or Edge, or set CHROME_PATH to one.');
    served = await serve({ folder: inject('siteFolder'), prefix: SUB_FOLDER });
    browser = await chromium.launch({ executablePath, args: [...CHROMIUM_FLAGS, '--disable-dev-shm-usage'] });
  });
  afterEach(async () => {
    const found = problems;
    problems = [];
    await Promise.all(pages.map((page) => page.context().close()));
    pages = [];
    expect(found, 'console messages, page errors, failed or foreign requests').toEqual([]);
  });
  afterAll(async () => {
    await browser?.close();
    await served?.close();
  });

  const site: Site = {
    url: (page) => `${served?.address ?? ''}${page}`,
    async newPage(options = {}) {
      if (!browser) throw new Error('The browser is not running yet: call newPage() inside a test.');
      const context = await browser.newContext({ viewport: LAPTOP, ...options });
      const page = await context.newPage();
      pages.push(page);
      const host = new URL(site.url('')).host;
      page.on('console', (message) => problems.push(`console ${message.type()}: ${message.text()}`));
      page.on('pageerror', (error) => problems.push(`page error: ${error.message}`));
      page.on('requestfailed', (request) => {
        // A page left while a picture loads aborts it; that is no fault.
        const reason = request.failure()?.errorText ?? '';
        // Nor is a script that a browser without scripts does not fetch.
        const unwanted = reason === 'csp' && options.javaScriptEnabled === false;
        if (reason !== 'net::ERR_ABORTED' && !unwanted)
          problems.push(`request failed: ${request.url()} ${reason}`);
      });
      page.on('request', (request) => {
        const { protocol, host: asked } = new URL(request.url());
        if (protocol.startsWith('http') && asked !== host)
          problems.push(`request to another host: ${request.url()}`);
      });
      return page;
    },
    async open(name, options = {}) {
      const page = await site.newPage(options);
      await page.goto(site.url(name), { waitUntil: 'load' });
      if (options.javaScriptEnabled !== false) await ready(page);
      return page;
    },
    takeProblems() {
      const taken = problems;
      problems = [];
      return taken;
    },
  };
  return site;
}

/** Waits until the page's elements are defined and drawn and its fonts are there. */
export async function ready(page: Page): Promise<void> {
  await page.waitForFunction(() => document.querySelector(':not(:defined)') === null);
  await page.evaluate(() => document.fonts.ready.then(() => new Promise(requestAnimationFrame)));
}
