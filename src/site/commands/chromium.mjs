import { spawnSync } from 'node:child_process';
import { existsSync } from 'node:fs';
import { join } from 'node:path';
import { say, stop } from './project.mjs';

/** Flags that keep the browser from calling home or choosing another protocol. */
export const CHROMIUM_FLAGS = [
  '--disable-quic',
  '--no-first-run',
  '--disable-background-networking',
  '--disable-component-update',
  '--disable-sync',
];

/**
 * Path of a Chromium: $CHROME_PATH, the system's Chromium, an installed Chrome or Edge; undefined when there is none.
 * @returns {string | undefined}
 */
export function findChromium() {
  const asked = process.env['CHROME_PATH'];
  if (asked) return existsSync(asked) ? asked : undefined;
  const programs = [
    process.env['PROGRAMFILES'],
    process.env['PROGRAMFILES(X86)'],
    process.env['LOCALAPPDATA'],
  ].filter((folder) => folder !== undefined);
  return [
    '/usr/bin/chromium',
    '/usr/bin/chromium-browser',
    '/opt/google/chrome/chrome',
    '/opt/microsoft/msedge/msedge',
    '/Applications/Google Chrome.app/Contents/MacOS/Google Chrome',
    '/Applications/Microsoft Edge.app/Contents/MacOS/Microsoft Edge',
    ...programs.flatMap((folder) => [
      join(folder, 'Google/Chrome/Application/chrome.exe'),
      join(folder, 'Microsoft/Edge/Application/msedge.exe'),
    ]),
  ].find((path) => existsSync(path));
}

/** A Chromium, installed from Debian's packages where that is allowed; else ends the command with one line. */
export function ensureChromium() {
  const found = findChromium();
  if (found) return found;
  const asked = process.env['CHROME_PATH'];
  if (asked)
    stop(`Browser: CHROME_PATH is “${asked}”, where there is no file. Set it to a Chromium, or unset it.`);
  const mayInstall = existsSync('/etc/debian_version') && process.getuid?.() === 0;
  if (mayInstall) {
    say('No browser found: installing Debian’s chromium with apt-get …');
    const quiet = { stdio: 'inherit', env: { ...process.env, DEBIAN_FRONTEND: 'noninteractive' } };
    spawnSync('apt-get', ['update', '-qq'], quiet);
    spawnSync('apt-get', ['install', '-y', '-qq', '--no-install-recommends', 'chromium'], quiet);
  }
  const installed = findChromium();
  if (!installed) stop('Browser: none found. Install Chromium, Chrome or Edge, or set CHROME_PATH to one.');
  return installed;
}
