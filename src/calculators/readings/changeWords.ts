import type { Change, Given } from '../../sheet/schema';
import type { EntryWords } from './entryWords';
import { asTyped, joined, typedThen } from './typedWords';

/** "Battery": "move 250 g down 40 mm"; "Skid plate": "add 90 g at 160 mm ahead, 45 mm up". */
export function changeWords(change: Change, index: number): EntryWords {
  const title = change.name.trim() || `Change ${index + 1}`;
  const mass = asTyped(change.mass);
  if (mass === null) return { title, detail: '' };
  if (change.kind === 'added') {
    const place = joined(
      typedThen(change.ahead, 'ahead'),
      typedThen(change.left, 'left'),
      typedThen(change.height, 'up'),
    );
    const what = mass.startsWith('−') ? `take off ${mass.slice(1)}` : `add ${mass}`;
    return { title, detail: `${what}${place === '' ? '' : ` at ${place}`}` };
  }
  const way = joined(
    moved(change.ahead, 'forward', 'back'),
    moved(change.left, 'left', 'right'),
    moved(change.height, 'up', 'down'),
  );
  return { title, detail: `move ${mass}${way === '' ? '' : ` ${way}`}` };
}

/** "down 40 mm" for −40 mm of height; null for nothing or zero. */
function moved(given: Given, plus: string, minus: string): string | null {
  const typed = asTyped(given);
  if (typed === null || /^[−+]?[0.,]+\D*$/.test(typed)) return null;
  return typed.startsWith('−') ? `${minus} ${typed.slice(1)}` : `${plus} ${typed.replace(/^\+/, '')}`;
}
