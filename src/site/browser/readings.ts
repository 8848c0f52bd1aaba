import type { ReadingsSheet } from '../../calculators/readings/readingsSheet.ts';

/** "#readings", "#readings/next", "#readings/<id of a reading>" */
const ADDRESS = /^#readings(?:\/(.*))?$/;

/** Where links lead without a script, and where a reader is sent if the panel cannot be fetched. */
const WITHOUT_PANEL = './index.html#truck';

let sheet: Promise<ReadingsSheet> | undefined;
/** How many entries of the browser's history the open panel added; 0 where the page was opened with it. */
let steps = 0;

/**
 * The readings panel, over whatever page the reader is on: every link to "#readings" opens it; closing it or going
 * back leads to the same place of the page. Its script is fetched when it is first opened.
 */
export function startReadings(): void {
  for (const link of document.querySelectorAll<HTMLAnchorElement>('a[data-readings]'))
    link.href = `#${link.dataset['readings'] ?? ''}`;
  addEventListener('hashchange', (event) => follow(new URL(event.oldURL).hash));
  follow(null);
}

/** Does what the address says. `before`: the hash the reader came from on this page; null when it has just loaded. */
function follow(before: string | null): void {
  const target = targetOf(location.hash);
  if (target === null) {
    void sheet?.then((opened) => opened.close());
    return;
  }
  const known = stepsOfEntry();
  if (known !== null) steps = known;
  else {
    steps = before === null ? 0 : targetOf(before) === null ? 1 : steps === 0 ? 0 : steps + 1;
    history.replaceState({ readings: steps }, '');
  }
  void open(target);
}

async function open(target: string): Promise<void> {
  try {
    sheet ??= load();
    const opened = await sheet;
    if (targetOf(location.hash) === target) await opened.show(target);
  } catch {
    sheet = undefined;
    location.href = WITHOUT_PANEL;
  }
}

async function load(): Promise<ReadingsSheet> {
  await import('../../calculators/readings/readingsSheet.ts');
  const made = document.createElement('plumb-readings-sheet');
  made.addEventListener('readings-closed', leave);
  document.body.append(made);
  return made;
}

/** The reader closed the panel: back over its entries of the history, so that "back" does not open it again. */
function leave(): void {
  if (targetOf(location.hash) === null) return;
  if (steps > 0) history.go(-steps);
  else history.replaceState(null, '', location.pathname + location.search);
}

/** What an address leads to within the panel, '' for its beginning; null where it leads elsewhere. */
function targetOf(hash: string): string | null {
  const match = ADDRESS.exec(hash);
  return match ? decoded(match[1] ?? '') : null;
}

function decoded(text: string): string {
  try {
    return decodeURIComponent(text);
  } catch {
    return text;
  }
}

function stepsOfEntry(): number | null {
  const state: unknown = history.state;
  if (typeof state !== 'object' || state === null || !('readings' in state)) return null;
  return typeof state.readings === 'number' ? state.readings : null;
}
