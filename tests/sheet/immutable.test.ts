import fc from 'fast-check';
import { expect, test } from 'vitest';
import { changed, copyOf, shareUnchanged } from '../../src/sheet/immutable';

const before = () => ({
  name: 'a',
  list: [
    { id: 'one', at: { x: 1 } },
    { id: 'two', at: { x: 2 } },
  ],
  other: { deep: [1, 2, 3] },
});

test('an equal copy is the original', () => {
  const original = before();
  expect(shareUnchanged(original, structuredClone(original))).toBe(original);
});

test('a change gives new objects along its path and none beside it', () => {
  const original = before();
  const after = changed(original, (draft) => {
    for (const entry of draft.list) if (entry.id === 'two') entry.at.x = 3;
  });
  expect(original).toEqual(before());
  expect(after.list[1]).toEqual({ id: 'two', at: { x: 3 } });
  expect(after.list).not.toBe(original.list);
  expect(after.list[0]).toBe(original.list[0]);
  expect(after.other).toBe(original.other);
});

test('list entries keep their identity when others are removed or moved', () => {
  const original = before();
  const [, two] = original.list;
  expect(changed(original, (draft) => void draft.list.shift()).list[0]).toBe(two);
  const reversed = changed(original, (draft) => void draft.list.reverse());
  expect(reversed.list).not.toBe(original.list);
  expect(reversed.list[0]).toBe(two);
});

test('added and removed keys are changes', () => {
  const original: Record<string, number> = { a: 1, b: 2 };
  expect(changed(original, (draft) => void delete draft['b'])).toEqual({ a: 1 });
  expect(changed(original, (draft) => void (draft['c'] = 3))).toEqual({ a: 1, b: 2, c: 3 });
  // As many keys as before, but other ones.
  expect(
    changed<Record<string, number | undefined>>({ a: 1, b: undefined }, (draft) => {
      delete draft['b'];
      draft['c'] = undefined;
    }),
  ).toHaveProperty('c');
});

test('the outcome is frozen', () => {
  const after = changed(before(), (draft) => void (draft.name = 'b'));
  expect(Object.isFrozen(after)).toBe(true);
});

test('what is new is frozen too, even where it is empty', () => {
  const after = changed<Record<string, unknown>>({}, (draft) => {
    draft['list'] = [];
    draft['branch'] = {};
  });
  expect([after['list'], after['branch']].every(Object.isFrozen)).toBe(true);
});

test('a copy is equal and shares nothing', () => {
  fc.assert(
    // A key of this name is no property like others.
    fc.property(
      fc.oneof(fc.jsonValue(), fc.constant(JSON.parse('{"__proto__":{"a":1}}'))),
      (value: unknown) => {
        const copy = copyOf(value);
        expect(copy).toEqual(value);
        if (typeof value === 'object' && value !== null) expect(copy).not.toBe(value);
      },
    ),
  );
});

test('sharing never changes what a value is', () => {
  fc.assert(
    fc.property(fc.jsonValue(), fc.jsonValue(), (one, other) => {
      const shared = shareUnchanged(one, structuredClone(other));
      expect(shared).toEqual(other);
      // Zero and minus zero are told apart by both.
      expect(Object.is(JSON.stringify(shared), JSON.stringify(other)) || shared === other).toBe(true);
    }),
  );
});
