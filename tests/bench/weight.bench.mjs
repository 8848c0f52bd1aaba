import { readFileSync } from 'node:fs';
import { extname, join } from 'node:path';
import { gzipSync } from 'node:zlib';
import { chromium } from 'playwright-core';
import { CHROMIUM_FLAGS } from '../../src/site/commands/chromium.mjs';
import { serve } from '../../src/site/commands/serve.mjs';

/** Goals for one page, first visit, compressed as a web server would. */
const GOALS = { kilobytes: 120, requests: 12, textFonts: 130 };

const PAGES = ['index.html', 'resultant-lines.html', 'stability-angles.html'];
const PICTURES = ['.jpg', '.png', '.webp', '.svg', '.ico'];

/** What a first visit to each page loads: everything asked for until the network rests, in a fresh profile. */
export default async function weight({ dist, chromium: executablePath }) {
  const served = await serve({ folder: dist });
  const browser = await chromium.launch({ executablePath, args: CHROMIUM_FLAGS });
  try {
    const rows = [];
    for (const page of PAGES)
      rows.push(...(await firstVisit({ browser, address: served.address, dist, page })));
    return rows;
  } finally {
    await browser.close();
    await served.close();
  }
}

async function firstVisit({ browser, address, dist, page }) {
  const context = await browser.newContext({ viewport: { width: 1280, height: 800 } });
  const tab = await context.newPage();
  const files = new Set();
  tab.on('request', (request) => {
    if (request.url().startsWith(address)) files.add(new URL(request.url()).pathname.slice(1));
  });
  await tab.goto(address + page, { waitUntil: 'networkidle' });
  await context.close();

  const size = (file) => {
    const bytes = readFileSync(join(dist, file));
    // Fonts and pictures are compressed already.
    return (isFont(file) || isPicture(file) ? bytes.length : gzipSync(bytes, { level: 9 }).length) / 1000;
  };
  const sum = (of) => of.reduce((total, file) => total + size(file), 0);
  const all = [...files];
  const code = all.filter((file) => !isFont(file) && !isPicture(file));
  const fonts = all.filter(isFont);
  return [
    { name: `${page}: without pictures and fonts`, value: sum(code), unit: 'kB gzip', goal: GOALS.kilobytes },
    {
      name: `${page}: requests without pictures and fonts`,
      value: code.length,
      unit: '',
      goal: GOALS.requests,
    },
    {
      name: `${page}: text fonts`,
      value: sum(fonts.filter((file) => file.startsWith('fonts/'))),
      unit: 'kB',
      goal: GOALS.textFonts,
    },
    {
      name: `${page}: formula fonts`,
      value: sum(fonts.filter((file) => !file.startsWith('fonts/'))),
      unit: 'kB',
    },
    { name: `${page}: pictures`, value: sum(all.filter(isPicture)), unit: 'kB' },
  ];
}

const isFont = (file) => extname(file) === '.woff2';
const isPicture = (file) => PICTURES.includes(extname(file));
