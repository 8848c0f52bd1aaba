import { spawnSync } from 'node:child_process';
import { createHash } from 'node:crypto';
import { existsSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { root, say, stop } from './project.mjs';

const OLDEST_NODE = [20, 19];

/**
 * Makes sure that Node is new enough and that the packages of the lock file are installed. Uses Node's own modules
 * only, since on a bare clone there is nothing else.
 */
export function ensureInstalled() {
  checkNode();
  const lock = createHash('sha256')
    .update(readFileSync(join(root, 'package-lock.json')))
    .digest('hex');
  const stamp = join(root, 'node_modules', '.plumb-low-lock');
  if (existsSync(stamp) && readFileSync(stamp, 'utf8') === lock) return;
  say('Installing the packages of package-lock.json …');
  const npm = npmCommand();
  const { status } = spawnSync(npm.command, [...npm.args, 'ci', '--include=dev', '--no-audit', '--no-fund'], {
    cwd: root,
    stdio: ['ignore', 'inherit', 'inherit'],
    shell: npm.shell,
  });
  if (status !== 0) stop('Install: npm ci failed; see above. Check the network and call the command again.');
  writeFileSync(stamp, lock);
}

function checkNode() {
  const [major = 0, minor = 0] = process.versions.node.split('.').map(Number);
  const [needMajor, needMinor] = OLDEST_NODE;
  if (major > needMajor || (major === needMajor && minor >= needMinor)) return;
  stop(
    `Node: needs ${OLDEST_NODE.join('.')} or newer; got ${process.versions.node}. Install a current Node from your system or nodejs.org.`,
  );
}

/** The npm that runs this command, else the one on the path. */
function npmCommand() {
  const running = process.env['npm_execpath'];
  if (running && running.endsWith('.js') && existsSync(running))
    return { command: process.execPath, args: [running], shell: false };
  return { command: 'npm', args: [], shell: process.platform === 'win32' };
}
