// npm test: types, lint, format, build, then every test, in Node and in a browser over the built pages.
// Exits non-zero when anything failed; a step that cannot run has failed.
import { mkdirSync, readFileSync, rmSync } from 'node:fs';
import { join } from 'node:path';
import { ensureInstalled } from './commands/install.mjs';
import { ensureChromium } from './commands/chromium.mjs';
import { cache, say } from './commands/project.mjs';
import { run, step } from './commands/steps.mjs';

ensureInstalled();
process.env['CHROME_PATH'] = ensureChromium();
const { buildSite } = await import('./commands/buildSite.mjs');

const checks = [
  await step('types', () => run('typescript/bin/tsc', ['--noEmit', '-p', '.'])),
  await step('lint', () => run('oxlint/bin/oxlint', ['--type-aware', 'src', 'tests', 'vite.config.ts'])),
  await step('format', () => run('prettier/bin/prettier.cjs', ['--check', '--log-level', 'warn', '.'])),
  await step('build', () =>
    buildSite().then(
      () => ({ ok: true, output: '' }),
      (error) => ({ ok: false, output: error instanceof Error ? error.message : String(error) }),
    ),
  ),
];
say();

const counted = join(cache, 'tests.json');
mkdirSync(cache, { recursive: true });
rmSync(counted, { force: true });
const reporters = ['--reporter=default', '--reporter=src/site/commands/countReporter.mjs'];
const tests = await run('vitest/vitest.mjs', ['run', ...reporters], {
  show: true,
  env: { PLUMB_BUILT: checks[3] ? '1' : '', PLUMB_COUNT: counted },
});

const failedChecks = checks.filter((ok) => !ok).length;
const { passed, failed } = countTests();
// A run that ends badly without a failed test, an error between tests for one, still counts as a failure.
const failures = failed + failedChecks + (!tests.ok && failed === 0 ? 1 : 0);
say(`${passed} passed, ${failures} failed`);
process.exit(failures > 0 ? 1 : 0);

function countTests() {
  try {
    return JSON.parse(readFileSync(counted, 'utf8'));
  } catch {
    return { passed: 0, failed: 0 };
  }
}
