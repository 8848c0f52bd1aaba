import { spawnSync } from 'node:child_process';
import { existsSync, mkdirSync, readFileSync, statSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { chromium } from 'playwright-core';
import { CHROMIUM_FLAGS } from '../../src/site/commands/chromium.mjs';
import { serve } from '../../src/site/commands/serve.mjs';

/** What is asked for: 50 million pixels within 300 MB. */
const GOALS = { megabytes: 300 };
/** Each file this many times, in a fresh browser: the median time, and the most memory of all. */
const RUNS = 3;
/** ms between two looks at the memory. */
const EVERY = 3;

const FILES = [
  { name: '12 MP JPEG', file: '12.jpg' },
  { name: '12 MP PNG', file: '12.png' },
  { name: '12 MP WebP', file: '12.webp' },
  { name: '12 MP AVIF', file: '12.avif' },
  { name: '50 MP JPEG', file: '50.jpg' },
  { name: '50 MP JPEG, progressive', file: '50p.jpg' },
  { name: '50 MP WebP', file: '50.webp' },
  { name: '50 MP AVIF', file: '50.avif' },
];

/**
 * Pictures of 12 and 50 million pixels with the grain of a camera, decoded by the page's own worker: time until the
 * kept picture is there, processor time of the whole browser, since other programs share the machine, and how much memory the whole browser takes at most beyond what it had before. Pages that
 * are only mapped files are not counted; pages that two processes share are counted with the page's process.
 */
export default async function decode({ root, chromium: executablePath }) {
  const folder = join(root, '.cache/benchDecode');
  const site = await bundled(root, join(folder, 'site'));
  const served = await serve({ folder: site });
  try {
    await makeFiles({ folder, executablePath, address: served.address });
    const rows = [];
    for (const { name, file } of FILES) {
      const path = join(folder, file);
      if (!existsSync(path)) {
        rows.push({ name, value: null, unit: 'not made: Python has no Pillow' });
        continue;
      }
      const runs = [];
      for (let n = 0; n < RUNS; n++)
        runs.push(await measured({ executablePath, address: served.address, path }));
      const size = `${(statSync(path).size / 1e6).toFixed(1)} MB`;
      const times = runs.map(({ ms }) => ms).toSorted((a, b) => a - b);
      rows.push({ name: `${name}, ${size}: time, median`, value: times[Math.floor(RUNS / 2)], unit: 'ms' });
      const cpu = runs.map(({ cpuMs }) => cpuMs).toSorted((a, b) => a - b);
      rows.push({
        name: `${name}, ${size}: processor, median`,
        value: cpu[Math.floor(RUNS / 2)],
        unit: 'ms CPU',
      });
      rows.push({
        name: `${name}, ${size}: memory, most`,
        value: Math.max(...runs.map(({ megabytes }) => megabytes)),
        unit: 'MB',
        goal: GOALS.megabytes,
      });
    }
    return rows;
  } finally {
    await served.close();
  }
}

/** A page with the picture intake alone, bundled as the notebook is. */
async function bundled(root, outDir) {
  const { build } = await import('vite');
  await build({
    configFile: false,
    root: join(root, 'tests/bench/decodePage'),
    base: './',
    logLevel: 'warn',
    worker: { format: 'es' },
    build: { outDir, emptyOutDir: true, assetsInlineLimit: 0, modulePreload: { polyfill: false } },
  });
  return outDir;
}

/** Draws the pictures once, in sizes that phones have, in the browser; AVIF and progressive JPEG, which no browser writes, by Pillow where it is. */
async function makeFiles({ folder, executablePath, address }) {
  mkdirSync(folder, { recursive: true });
  const wanted = [
    { file: '12.jpg', width: 4032, height: 3024, type: 'image/jpeg' },
    { file: '12.png', width: 4032, height: 3024, type: 'image/png' },
    { file: '12.webp', width: 4032, height: 3024, type: 'image/webp' },
    { file: '50.jpg', width: 8160, height: 6144, type: 'image/jpeg' },
    { file: '50.webp', width: 8160, height: 6144, type: 'image/webp' },
  ].filter(({ file }) => !existsSync(join(folder, file)));
  if (wanted.length > 0) {
    const browser = await chromium.launch({ executablePath, args: CHROMIUM_FLAGS });
    try {
      const tab = await browser.newPage();
      await tab.goto(`${address}index.html`);
      for (const { file, ...picture } of wanted) {
        const address = await tab.evaluate(drawPicture, picture);
        writeFileSync(join(folder, file), Buffer.from(address.slice(address.indexOf(',') + 1), 'base64'));
      }
    } finally {
      await browser.close();
    }
  }
  const script = [
    'from PIL import Image',
    ...[12, 50].map((size) => `Image.open("${size}.jpg").save("${size}.avif", quality=60, speed=9)`),
    'Image.open("50.jpg").save("50p.jpg", quality=92, progressive=True)',
  ].join('\n');
  if (['12.avif', '50.avif', '50p.jpg'].some((file) => !existsSync(join(folder, file))))
    spawnSync(process.env.PYTHON ?? 'python3', ['-c', script], { cwd: folder, stdio: 'ignore' });
}

/** In the page: a scene with grain, strings and round marks, as the data address of a file of that type. */
async function drawPicture({ width, height, type }) {
  const canvas = new OffscreenCanvas(width, height);
  const context = canvas.getContext('2d');
  const sky = context.createLinearGradient(0, 0, width, height);
  sky.addColorStop(0, 'rgb(120 110 140)');
  sky.addColorStop(1, 'rgb(200 170 90)');
  context.fillStyle = sky;
  context.fillRect(0, 0, width, height);
  context.lineWidth = 5;
  for (let n = 0; n < 40; n++) {
    context.strokeStyle = `rgb(${30 + n} ${200 - 3 * n} 90)`;
    context.beginPath();
    context.moveTo((width * n) / 40, 0);
    context.lineTo((width * (n + 7)) / 40, height);
    context.stroke();
    context.fillStyle = 'rgb(240 240 20)';
    context.beginPath();
    context.arc((width * ((n * 17) % 40)) / 40, (height * n) / 40, 60, 0, 7);
    context.fill();
  }
  // Grain in bands, so that the picture is not in memory twice.
  let seed = 1;
  const rows = 64;
  for (let top = 0; top < height; top += rows) {
    const band = context.getImageData(0, top, width, Math.min(rows, height - top));
    for (let n = 0; n < band.data.length; n += 4) {
      seed = (Math.imul(seed, 1664525) + 1013904223) | 0;
      const grain = ((seed >>> 24) + ((seed >>> 16) & 255) - 255) / 40;
      for (let c = 0; c < 3; c++) band.data[n + c] += grain;
    }
    context.putImageData(band, 0, top);
  }
  const blob = await canvas.convertToBlob({ type, quality: 0.92 });
  const reader = new FileReader();
  return new Promise((done) => {
    reader.addEventListener('load', () => done(reader.result));
    reader.readAsDataURL(blob);
  });
}

/** Time and memory of one decode in a fresh browser. */
async function measured({ executablePath, address, path }) {
  const browser = await chromium.launch({
    executablePath,
    args: [...CHROMIUM_FLAGS, '--disable-dev-shm-usage'],
  });
  try {
    const tab = await browser.newPage();
    await tab.goto(`${address}index.html`);
    await tab.setInputFiles('input', path);
    // The worker's program is loaded, as it is after the first picture; the small picture leaves no memory behind.
    await tab.evaluate(() => globalThis.warmUp());
    await tab.waitForTimeout(500);
    const session = await browser.newBrowserCDPSession();
    const { processInfo } = await session.send('SystemInfo.getProcessInfo');
    const memory = watchMemory(processInfo);
    const before = processorTime(processInfo);
    const result = await tab.evaluate(() => globalThis.decodeChosen());
    const cpuMs = processorTime(processInfo) - before;
    const megabytes = memory.stop();
    if (!result.ok) throw new Error(result.message);
    return { ms: result.ms, cpuMs, megabytes };
  } finally {
    await browser.close();
  }
}

/** The most that a browser's processes have of their own, together, beyond what they have now; in MB of 10^6 bytes. */
function watchMemory(processes) {
  const own = ({ id, type }) => {
    const status = fileOf(id, 'status');
    const of = (field) => Number(new RegExp(`${field}:\\s+(\\d+)`).exec(status)?.[1] ?? 0) * 1024;
    return of('RssAnon') + (type === 'renderer' ? of('RssShmem') : 0);
  };
  const total = () => processes.reduce((sum, process) => sum + own(process), 0);
  const before = total();
  let most = 0;
  const look = () => {
    most = Math.max(most, total() - before);
  };
  const timer = setInterval(look, EVERY);
  return {
    stop() {
      clearInterval(timer);
      look();
      return most / 1e6;
    },
  };
}

/** Processor time of these processes so far, in ms: user and system time, the 14th and 15th field, of 10 ms each. */
function processorTime(processes) {
  return processes.reduce((sum, { id }) => {
    const stat = fileOf(id, 'stat');
    // The program's name stands in brackets and may hold spaces.
    const fields = stat.slice(stat.lastIndexOf(')') + 2).split(' ');
    return sum + 10 * (Number(fields[11] ?? 0) + Number(fields[12] ?? 0));
  }, 0);
}

/** What the system tells of a process; nothing of one that has ended. */
function fileOf(id, name) {
  try {
    return readFileSync(`/proc/${id}/${name}`, 'utf8');
  } catch {
    return '';
  }
}
