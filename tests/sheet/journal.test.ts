import { expect, test } from 'vitest';
import { emptySheet } from '../../src/sheet/empty';
import { storageJournal } from '../../src/sheet/journal';

/** The part of the browser's store that the journal uses. */
function store(entries = new Map<string, string>()): Storage {
  return {
    length: 0,
    clear: () => entries.clear(),
    key: () => null,
    getItem: (key) => entries.get(key) ?? null,
    setItem: (key, text) => void entries.set(key, text),
    removeItem: (key) => void entries.delete(key),
  };
}

test('what is written is taken once', () => {
  const journal = storageJournal(store());
  const sheet = emptySheet();
  journal.write(sheet, 4);
  expect(journal.take()).toEqual({ sheet, revision: 4 });
  expect(journal.take()).toBeNull();
});

test('what is cleared is gone', () => {
  const journal = storageJournal(store());
  journal.write(emptySheet(), 4);
  journal.clear();
  expect(journal.take()).toBeNull();
});

test('what is no sheet is not taken', () => {
  for (const text of ['', 'null', '{', '{"sheet": {}, "revision": 1}'])
    expect(storageJournal({ ...store(), getItem: () => text }).take()).toBeNull();
});

test('a store that refuses is no error', () => {
  const refuse = (): never => {
    throw new Error('refused');
  };
  const journal = storageJournal({ ...store(), getItem: refuse, setItem: refuse, removeItem: refuse });
  journal.write(emptySheet(), 1);
  journal.clear();
  expect(journal.take()).toBeNull();
});
