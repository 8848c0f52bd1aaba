// npm run picture: builds the notebook and takes the README's pictures of it into assets/pictures/.
import { mkdirSync } from 'node:fs';
import { join } from 'node:path';
import { CHROMIUM_FLAGS, ensureChromium } from './commands/chromium.mjs';
import { ensureInstalled } from './commands/install.mjs';
import { root, say } from './commands/project.mjs';

ensureInstalled();
const executablePath = ensureChromium();
const { buildSite } = await import('./commands/buildSite.mjs');
const { serve } = await import('./commands/serve.mjs');
const { chromium } = await import('playwright-core');

/** What each picture shows, and how its page gets there. */
const PICTURES = [
  {
    file: 'photographs.jpg',
    at: 'resultant-lines.html#e3',
    height: 860,
    settle: async (page) => {
      await page.locator('plumb-photographs .answer-numbers').first().waitFor();
      await page.waitForLoadState('networkidle');
      await page.evaluate(() => document.querySelector('plumb-photographs')?.scrollIntoView());
    },
  },
  {
    file: 'readings.jpg',
    at: 'index.html#readings',
    height: 1000,
    settle: async (page) => {
      await page.locator('plumb-readings').getByText('Measure next').first().waitFor();
      await page.locator('plumb-readings .agreement-chart').first().waitFor();
      await page.waitForLoadState('networkidle');
    },
  },
];

const folder = await buildSite();
const { address, close } = await serve({ folder, port: 4190 });
const browser = await chromium.launch({ executablePath, args: CHROMIUM_FLAGS });
try {
  mkdirSync(join(root, 'assets/pictures'), { recursive: true });
  for (const { file, at, height, settle } of PICTURES) {
    const page = await browser.newPage({ viewport: { width: 1280, height }, reducedMotion: 'reduce' });
    await page.goto(new URL(at, address).href);
    await settle(page);
    const path = join(root, 'assets/pictures', file);
    await page.screenshot({ path, type: 'jpeg', quality: 85 });
    say(`Taken: ${path.slice(root.length + 1)}`);
    await page.close();
  }
} finally {
  await browser.close();
  await close();
}
