import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';

/** The project folder, wherever the command is called from. */
export const root = join(dirname(fileURLToPath(import.meta.url)), '../../..');

/** Where the built notebook goes. */
export const dist = join(root, 'dist');

/** What is measured and cached, never committed. */
export const cache = join(root, '.cache');

export function say(text = '') {
  process.stdout.write(`${text}\n`);
}

/** Ends the command with one plain line that says what to do. */
export function stop(text) {
  process.stderr.write(`${text}\n`);
  process.exit(1);
}
