/**
 * Draws photographs of an invented truck: standing and three hangs locked, standing and three hangs free, the
 * last from an axle's hook. With the demo truck, its marked bench sheet; with any other, the bench notes a reader
 * needs, and apart the truth and the marked sheet.
 *
 *   node tests/demo/render.mjs [--truck bramble|number] [--camera number] [--out folder]
 *                              [--samples 64] [--only standing,hang-1] [--check]
 *
 * Needs Chromium: $CHROME_PATH, else /usr/bin/chromium. --check draws nothing to keep and reports how far the
 * renderer and the world's camera disagree.
 */
import { existsSync } from 'node:fs';
import { mkdir, writeFile } from 'node:fs/promises';
import { join, resolve } from 'node:path';
import { fileURLToPath } from 'node:url';
import { parseArgs } from 'node:util';
import { chromium } from 'playwright-core';
import { build } from 'vite';

const here = fileURLToPath(new URL('.', import.meta.url));
const { values } = parseArgs({
  options: {
    truck: { type: 'string', default: 'bramble' },
    camera: { type: 'string', default: '1' },
    out: { type: 'string' },
    samples: { type: 'string', default: '64' },
    limit: { type: 'string', default: '300000' },
    only: { type: 'string' },
    check: { type: 'boolean', default: false },
  },
});

const executablePath = [process.env.CHROME_PATH, '/usr/bin/chromium'].find(
  (path) => path && existsSync(path),
);
if (!executablePath) {
  console.error('No Chromium found: install it, or set CHROME_PATH to its program.');
  process.exit(1);
}

const bundle = await build({
  configFile: false,
  logLevel: 'error',
  build: {
    write: false,
    minify: false,
    lib: { entry: join(here, 'render/page.ts'), formats: ['iife'], name: 'plumbRenderPage' },
  },
});
const output = (Array.isArray(bundle) ? bundle : [bundle])[0].output;
const code = output.find((chunk) => chunk.type === 'chunk').code;

const browser = await chromium.launch({
  executablePath,
  args: ['--no-sandbox', '--use-angle=swiftshader', '--enable-unsafe-swiftshader', '--ignore-gpu-blocklist'],
});
try {
  const page = await browser.newPage();
  page.on('pageerror', (error) => console.error(error));
  await page.setContent('<!doctype html><title>Photographs</title>');
  await page.addScriptTag({ content: code });
  const request = {
    truck: values.truck,
    camera: Number(values.camera),
    samples: Number(values.samples),
    limit: Number(values.limit),
  };
  if (values.check) {
    const worst = await page.evaluate((asked) => window.plumbRender.disagreement(asked), request);
    console.log(`World and renderer agree within ${worst.toFixed(3)} px.`);
    if (!(worst < 0.05)) process.exitCode = 1;
  } else {
    const out = resolve(values.out ?? join(here, '../../assets/demo'));
    await mkdir(out, { recursive: true });
    for (const [name, text] of await page.evaluate((asked) => window.plumbRender.files(asked), request))
      await writeFile(join(out, name), text);
    const ids = await page.evaluate((asked) => window.plumbRender.photographs(asked), request);
    for (const id of ids.filter((each) => !values.only || values.only.split(',').includes(each))) {
      const started = Date.now();
      const base64 = await page.evaluate(
        ([asked, picture]) => window.plumbRender.draw(asked, picture),
        [request, id],
      );
      const bytes = Buffer.from(base64, 'base64');
      await writeFile(join(out, `${id}.jpg`), bytes);
      console.log(
        `${id}.jpg  ${Math.round(bytes.length / 1000)} kB  ${((Date.now() - started) / 1000).toFixed(1)} s`,
      );
    }
  }
} finally {
  await browser.close();
}
