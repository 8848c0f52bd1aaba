import { readFileSync, readdirSync } from 'node:fs';
import { fileURLToPath } from 'node:url';

/**
 * Worked-out numbers in the chapters. Each is followed by its name: `3.3<!--=crossing.worst25-->` in text and
 * `14.0^\circ %=card.angleSharp` at the end of a line in a formula. The name belongs to the last number before it on
 * that line.
 */
export interface PrintedNumber {
  readonly file: string;
  readonly line: number;
  readonly name: string;
  /** As printed, with a true minus sign. */
  readonly text: string;
  /** Place of the number in its file. */
  readonly start: number;
  readonly end: number;
  readonly inFormula: boolean;
}

const CHAPTERS = fileURLToPath(new URL('../../chapters/', import.meta.url));
const MARKER = /<!--=([\w.-]+)-->|%=([\w.-]+)[ \t]*$/gm;
const LAST_NUMBER = /([+−]?\d[\d,]*(?:\.\d+)?|(?<=[\s({=])-\d[\d,]*(?:\.\d+)?)(?![a-z])(?=\D*$)/;
const MINUS = '−';

export const chapterFiles = (): { file: string; path: string; text: string }[] =>
  readdirSync(CHAPTERS)
    .filter((file) => file.endsWith('.md'))
    .sort()
    .map((file) => ({ file, path: CHAPTERS + file, text: readFileSync(CHAPTERS + file, 'utf8') }));

/** All named numbers of a chapter. A name without a number before it throws. */
export const printedNumbers = (file: string, text: string): PrintedNumber[] =>
  [...text.matchAll(MARKER)].map((marker) => {
    const name = marker[1] ?? marker[2] ?? '';
    const lineStart = text.lastIndexOf('\n', marker.index) + 1;
    const line = text.slice(0, marker.index).split('\n').length;
    const before = text.slice(lineStart, marker.index);
    // A name standing directly before is no number of its own, and the same number may carry no second name.
    const number = LAST_NUMBER.exec(before.slice(before.lastIndexOf('-->') + 1));
    if (!number) throw new Error(`${file}:${line}: no number before ${name}`);
    const start = lineStart + before.lastIndexOf('-->') + 1 + number.index;
    const printed = number[0];
    return {
      file,
      line,
      name,
      text: printed.replace(/^-/, MINUS),
      start,
      end: start + printed.length,
      inFormula: marker[2] !== undefined,
    };
  });

/** The chapter with every named number set to its worked-out text. */
export const withNumbers = (file: string, text: string, numbers: ReadonlyMap<string, string>): string =>
  printedNumbers(file, text)
    .reverse()
    .reduce((result, { name, start, end, inFormula }) => {
      const worked = numbers.get(name);
      if (worked === undefined) return result;
      const asTex = inFormula || text[start] === '-';
      return result.slice(0, start) + (asTex ? worked.replace(MINUS, '-') : worked) + result.slice(end);
    }, text);

/** A number as the chapters print it: `decimals` places, a true minus sign, commas by thousands. */
export const printed = (value: number, decimals: number): string => {
  const [whole = '', part] = Math.abs(value).toFixed(decimals).split('.');
  const grouped = whole.replace(/\B(?=(\d{3})+$)/g, ',');
  const text = part === undefined ? grouped : `${grouped}.${part}`;
  return value < 0 && /[1-9]/.test(text) ? MINUS + text : text;
};

/** A difference, with its sign always shown. */
export const signed = (value: number, decimals: number): string => {
  const text = printed(value, decimals);
  return text.startsWith(MINUS) || !/[1-9]/.test(text) ? text : `+${text}`;
};
