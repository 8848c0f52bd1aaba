// npm run picture: builds the notebook and takes the README's picture of it, assets/pictures/photographs.jpg.
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

const folder = await buildSite();
const { address, close } = await serve({ folder, port: 4190 });
const browser = await chromium.launch({ executablePath, args: CHROMIUM_FLAGS });
try {
  const page = await browser.newPage({ viewport: { width: 1280, height: 860 }, reducedMotion: 'reduce' });
  await page.goto(new URL('resultant-lines.html#e3', address).href);
  const photographs = page.locator('plumb-photographs');
  await photographs.getByText('above ground').first().waitFor();
  await page.waitForLoadState('networkidle');
  await page.evaluate(() => document.querySelector('plumb-photographs')?.scrollIntoView());
  mkdirSync(join(root, 'assets/pictures'), { recursive: true });
  const path = join(root, 'assets/pictures/photographs.jpg');
  await page.screenshot({ path, type: 'jpeg', quality: 85 });
  say(`Taken: ${path.slice(root.length + 1)}`);
} finally {
  await browser.close();
  await close();
}
