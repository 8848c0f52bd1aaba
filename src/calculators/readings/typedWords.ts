import type { Given } from '../../sheet/schema';
import { NO_BREAK, typedNumber } from '../shared/format';

/** "22°", "1551 g"; null while nothing is typed. */
export function asTyped({ text, unit }: Given): string | null {
  const number = typedNumber(text);
  if (number === '') return null;
  // A unit typed with the number stands there already: "3 lb 1.04 oz"; the e of "1.5e2" is none.
  if (/[a-z°%]/i.test(number.replace(/\de[+-]?\d/gi, ''))) return number;
  return unit === 'deg' ? `${number}°` : `${number}${NO_BREAK}${unit}`;
}

/** "40 mm ahead"; null while there is no number. */
export const typedThen = (given: Given, words: string): string | null => {
  const typed = asTyped(given);
  return typed === null ? null : `${typed} ${words}`;
};

/** "front 1604 g"; null while there is no number. */
export const thenTyped = (words: string, given: Given): string | null => {
  const typed = asTyped(given);
  return typed === null ? null : `${words} ${typed}`;
};

/** What there is, with commas between. */
export const joined = (...parts: readonly (string | null | false)[]): string =>
  parts.filter(Boolean).join(', ');
