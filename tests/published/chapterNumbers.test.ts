import { writeFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { CHAPTER_NUMBERS } from './chapterCases';
import { chapterFiles, printedNumbers, withNumbers } from './chapterNumbers';

/**
 * A page that teaches with a wrong number is worse than none. Every worked-out number of the chapters is worked out
 * again; `UPDATE=1 npx vitest run tests/published/chapterNumbers` writes them into the chapters instead.
 */
if (process.env['UPDATE'] === '1') {
  for (const { file, path, text } of chapterFiles()) {
    const updated = withNumbers(file, text, CHAPTER_NUMBERS);
    if (updated !== text) writeFileSync(path, updated);
  }
}

const found = chapterFiles().flatMap(({ file, text }) => printedNumbers(file, text));

describe('numbers printed in the chapters', () => {
  it.each(found)('$file:$line $name', ({ name, text }) => {
    expect(text).toBe(CHAPTER_NUMBERS.get(name) ?? `a number named ${name}`);
  });

  it('prints every number that is worked out', () => {
    const used = new Set(found.map(({ name }) => name));
    expect([...CHAPTER_NUMBERS.keys()].filter((name) => !used.has(name))).toEqual([]);
  });
});

describe('finding the numbers', () => {
  it('reads the last number before a name, in text and in formulas', () => {
    const text =
      'near 90° it is 3.3<!--=a--> mm, or −2.9°<!--=b-->;\n$$\nx = 1 + (-1.45) %=c\n{}\n$$\n1,938<!--=d-->\n';
    expect(printedNumbers('x.md', text).map(({ name, text: number, line }) => [name, number, line])).toEqual([
      ['a', '3.3', 1],
      ['b', '−2.9', 1],
      ['c', '−1.45', 3],
      ['d', '1,938', 6],
    ]);
  });

  it('sees a number that differs, and puts it right', () => {
    const right = new Map([
      ['a', '3.3'],
      ['c', '−1.46'],
    ]);
    expect(withNumbers('x.md', 'is 3.4<!--=a--> mm\n$$\n(-1.45) %=c\n{}\n$$', right)).toBe(
      'is 3.3<!--=a--> mm\n$$\n(-1.46) %=c\n{}\n$$',
    );
  });

  it('refuses a name without a number', () => {
    expect(() => printedNumbers('x.md', 'none here<!--=a-->')).toThrow('x.md:1: no number before a');
  });
});
