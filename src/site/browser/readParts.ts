/** Which parts of which page have been read, kept on this device only. */

const KEY = 'plumb-read';

type Read = Record<string, string[]>;

export function readParts(page: string): Set<string> {
  return new Set(load()[page] ?? []);
}

export function markRead(page: string, parts: readonly string[]): Set<string> {
  const all = load();
  const read = new Set([...(all[page] ?? []), ...parts]);
  all[page] = [...read].sort();
  try {
    localStorage.setItem(KEY, JSON.stringify(all));
  } catch {
    // Where storage is forbidden the ticks last for this page.
  }
  return read;
}

function load(): Read {
  const read: Read = {};
  try {
    const kept: unknown = JSON.parse(localStorage.getItem(KEY) ?? '{}');
    if (typeof kept !== 'object' || kept === null) return read;
    for (const [page, parts] of Object.entries(kept))
      if (Array.isArray(parts)) read[page] = parts.filter((part): part is string => typeof part === 'string');
  } catch {
    // Nothing readable kept: nothing read yet.
  }
  return read;
}
