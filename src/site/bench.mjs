// npm run bench: every tests/bench/*.bench.mjs, as a table and as JSON in .cache/bench.json.
// Each file's default export is an async function that is given { root, dist, chromium } and returns rows
// { name, value, unit, goal? }; a goal is a number the value should not exceed; value is null where
// nothing could be measured.
import { mkdirSync, readdirSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import { ensureChromium } from './commands/chromium.mjs';
import { ensureInstalled } from './commands/install.mjs';
import { cache, dist, root, say } from './commands/project.mjs';

ensureInstalled();
const chromium = ensureChromium();
const { buildSite } = await import('./commands/buildSite.mjs');
await buildSite();

const only = process.argv[2];
const folder = join(root, 'tests/bench');
const files = readdirSync(folder)
  .filter((name) => name.endsWith('.bench.mjs') && (!only || name.includes(only)))
  .sort();
const results = [];
for (const file of files) {
  say(`\n${file.replace('.bench.mjs', '')}`);
  const { default: bench } = await import(pathToFileURL(join(folder, file)).href);
  const rows = await bench({ root, dist, chromium });
  for (const row of rows) say(line(row));
  results.push(...rows.map((row) => ({ bench: file.replace('.bench.mjs', ''), ...row })));
}

mkdirSync(cache, { recursive: true });
const path = join(cache, 'bench.json');
writeFileSync(path, `${JSON.stringify({ node: process.version, cpu: process.arch, results }, null, 2)}\n`);
say(`\nAs JSON: .cache/bench.json`);

function line({ name, value, unit, goal }) {
  const shown = `  ${name.padEnd(52)} ${format(value).padStart(10)} ${unit.padEnd(8)}`;
  return goal === undefined ? shown : `${shown} goal ${format(goal)} ${value <= goal ? 'met' : 'NOT MET'}`;
}

function format(value) {
  if (value === null) return '-';
  return Number.isInteger(value) ? String(value) : value.toFixed(Math.abs(value) < 10 ? 2 : 1);
}
