import fc from 'fast-check';
import { expect, test } from 'vitest';
import {
  emptyAxleScales,
  emptyChange,
  emptyHangLine,
  emptyHook,
  emptyPart,
  emptyPicture,
  emptySheet,
  emptyState,
} from '../../src/sheet/empty';
import { copyOf, shareUnchanged } from '../../src/sheet/immutable';
import { validSheet } from '../../src/sheet/migrations';
import type { BenchSheet } from '../../src/sheet/schema';
import { validChange } from '../../src/sheet/validChange';

function fullSheet(): BenchSheet {
  const sheet = emptySheet();
  sheet.states.push(emptyState('Second'));
  for (const state of sheet.states) {
    state.parts.push(emptyPart(), emptyPart());
    state.hooks.push(emptyHook());
    const hook = state.hooks[0]?.id ?? null;
    state.readings.push(emptyAxleScales(), { ...emptyHangLine(), hook });
    state.changes.push(emptyChange());
    const mark = {
      role: 'front hub' as const,
      x: 1,
      y: 2,
      plusMinus: '',
      counted: true,
      source: 'hand' as const,
    };
    state.pictures.push({ ...emptyPicture('standing', 10, 10), marks: [mark] });
  }
  return sheet;
}

/** Every leaf of a record: the record it stands in, and its key there. Branches have their type from the compiler. */
function leaves(record: unknown): { holder: object; key: string }[] {
  if (typeof record !== 'object' || record === null) return [];
  return Object.entries(record).flatMap(([key, value]) =>
    typeof value === 'object' && value !== null ? leaves(value) : [{ holder: record, key }],
  );
}

test('agrees with the check of the whole sheet, whatever is put anywhere', () => {
  const before = fullSheet();
  shareUnchanged<unknown>(null, before);
  const count = leaves(before).length;
  fc.assert(
    fc.property(
      fc.nat(count - 1),
      fc.oneof(fc.constantFrom<unknown>('', 'mm', 'g', 3, -1, true, null, undefined, [], {}), fc.jsonValue()),
      (index, value) => {
        const draft = copyOf(before);
        const leaf = leaves(draft)[index];
        if (!leaf) throw new Error('no such leaf');
        Reflect.set(leaf.holder, leaf.key, copyOf(value));
        const after = shareUnchanged(before, draft);
        const whole = validSheet(after);
        const change = validChange(before, after);
        expect(change.ok).toBe(whole.ok);
        if (!change.ok && !whole.ok) expect(change.message).toBe(whole.message);
      },
    ),
    { numRuns: 1000 },
  );
});
