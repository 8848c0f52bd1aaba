import { mkdtemp, rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { chromium, type Browser, type BrowserContext, type Page } from 'playwright-core';
import { build } from 'vite';
import { afterAll, afterEach, beforeAll, expect } from 'vitest';
import { CHROMIUM_FLAGS, findChromium } from '../../src/site/commands/chromium.mjs';
import { serve, type Served } from '../../src/site/commands/serve.mjs';
import { contentSecurityPolicy } from '../../src/site/contentSecurityPolicy';

const FOLDER = fileURLToPath(new URL('bare', import.meta.url));

export interface BareSite {
  /** A fresh profile: its own storage, shared by the pages opened in it. */
  profile(): Promise<BrowserContext>;
  /** The bare page, or the one a folder deeper, in a profile; open as soon as its sheet is. */
  open(profile: BrowserContext, page?: '' | 'deeper/'): Promise<Page>;
  /** What went wrong so far; emptied by reading, for a test that expects something of it. */
  takeProblems(): string[];
}

/** The bench and the picture intake, bundled as the notebook is and under its security policy, without its pages. */
export function useBareSite(): BareSite {
  let browser: Browser | undefined;
  let served: Served | undefined;
  let outDir = '';
  let profiles: BrowserContext[] = [];
  let problems: string[] = [];

  beforeAll(async () => {
    const executablePath = findChromium();
    if (!executablePath)
      throw new Error('Browser: none found. Install Chromium, Chrome or Edge, or set CHROME_PATH to one.');
    outDir = await mkdtemp(join(tmpdir(), 'plumb-bare-'));
    const policy = `<meta http-equiv="Content-Security-Policy" content="${contentSecurityPolicy}" />`;
    await build({
      configFile: false,
      root: FOLDER,
      base: './',
      logLevel: 'warn',
      worker: { format: 'es' },
      plugins: [
        { name: 'bare-policy', transformIndexHtml: (html) => html.replace('<!-- policy -->', policy) },
      ],
      build: {
        outDir,
        emptyOutDir: true,
        assetsInlineLimit: 0,
        modulePreload: { polyfill: false },
        rollupOptions: { input: [join(FOLDER, 'index.html'), join(FOLDER, 'deeper/index.html')] },
      },
    });
    served = await serve({ folder: outDir, prefix: '/sub/folder/' });
    browser = await chromium.launch({ executablePath, args: [...CHROMIUM_FLAGS, '--disable-dev-shm-usage'] });
  });
  afterEach(async () => {
    const found = problems;
    problems = [];
    await Promise.all(profiles.map((profile) => profile.close()));
    profiles = [];
    expect(found, 'console messages and page errors').toEqual([]);
  });
  afterAll(async () => {
    await browser?.close();
    await served?.close();
    if (outDir !== '') await rm(outDir, { recursive: true, force: true });
  });

  return {
    async profile() {
      if (!browser) throw new Error('The browser is not running yet: call profile() inside a test.');
      const profile = await browser.newContext();
      profiles.push(profile);
      return profile;
    },
    async open(profile, page = '') {
      const opened = await profile.newPage();
      opened.on('console', (message) => problems.push(`console ${message.type()}: ${message.text()}`));
      opened.on('pageerror', (error) => problems.push(`page error: ${error.message}`));
      await opened.goto(`${served?.address ?? ''}${page}index.html`);
      await sheetOpen(opened);
      return opened;
    },
    takeProblems() {
      const taken = problems;
      problems = [];
      return taken;
    },
  };
}

/** Waits until the page's bench has a sheet open. */
export async function sheetOpen(page: Page): Promise<void> {
  await page.waitForFunction(() => 'plumb' in window && window.plumb.bench.ready.value);
}
