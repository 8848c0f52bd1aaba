import { readFile } from 'node:fs/promises';
import { fileURLToPath } from 'node:url';

/** A file of pictures/, made by an outside encoder. */
export async function picture(name: string): Promise<Uint8Array<ArrayBuffer>> {
  return new Uint8Array(await readFile(fileURLToPath(new URL(`pictures/${name}`, import.meta.url))));
}

/** Bytes from numbers and ASCII texts. */
export const bytes = (...parts: readonly (string | number)[]): Uint8Array<ArrayBuffer> =>
  Uint8Array.from(
    parts.flatMap((part) => (typeof part === 'number' ? [part] : Array.from(part, (c) => c.charCodeAt(0)))),
  );
