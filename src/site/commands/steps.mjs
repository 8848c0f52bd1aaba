import { spawn } from 'node:child_process';
import { join } from 'node:path';
import { root, say } from './project.mjs';

/**
 * Runs one program of the project's packages and waits for it.
 * @param {string} script path below node_modules
 * @param {readonly string[]} args
 * @param {{ show?: boolean, env?: Record<string, string> }} options show: let it write as it goes; else its output is
 *   returned, for when it fails
 * @returns {Promise<{ ok: boolean, output: string }>}
 */
export function run(script, args, { show = false, env = {} } = {}) {
  return new Promise((resolve) => {
    const child = spawn(process.execPath, [join(root, 'node_modules', script), ...args], {
      cwd: root,
      env: { ...process.env, ...env },
      stdio: ['ignore', show ? 'inherit' : 'pipe', show ? 'inherit' : 'pipe'],
    });
    const output = [];
    child.stdout?.on('data', (chunk) => output.push(chunk));
    child.stderr?.on('data', (chunk) => output.push(chunk));
    child.on('error', (error) => resolve({ ok: false, output: error.message }));
    child.on('close', (code) => resolve({ ok: code === 0, output: Buffer.concat(output).toString() }));
  });
}

/**
 * One named step of the test command: its time, and what it said if it failed.
 * @param {string} name
 * @param {() => Promise<{ ok: boolean, output: string }>} work
 */
export async function step(name, work) {
  const start = performance.now();
  const { ok, output } = await work();
  const seconds = ((performance.now() - start) / 1000).toFixed(1);
  if (!ok && output) say(output.trimEnd());
  say(`${ok ? 'ok    ' : 'FAILED'}  ${name.padEnd(8)} ${seconds.padStart(6)} s`);
  return ok;
}
