/**
 * Room for words. SVG text neither wraps nor stops, so a figure with names in it breaks its lines itself, on widths
 * that err on the wide side.
 */

/** Widths of signs in em, at least those of the sans face in its boldest weight used (750); the first class fits. */
const ADVANCES: readonly (readonly [RegExp, number])[] = [
  [/[\s'’.,:;|ijl·]/, 0.34],
  [/[()[\]ftrI°/-]/, 0.44],
  [/["“”]/, 0.48],
  [/[a-hknopqsu-z–−+×]/, 0.61],
  [/[\d±]/, 0.64],
  [/[mMW→…%]/, 0.99],
  [/[A-Z&]/, 0.78],
];
const WIDE_SIGN = 1.05;

/** Width that a line of text stays within, px: for the sans face in any weight up to 750. */
export function textSpan(text: string, size: number): number {
  const em = Array.from(text).reduce(
    (sum, sign) =>
      sum + (sign === 'w' ? 0.75 : (ADVANCES.find(([signs]) => signs.test(sign))?.[1] ?? WIDE_SIGN)),
    0,
  );
  return em * size;
}

export interface FittedText {
  readonly lines: readonly string[];
  /** False where something had to be cut; the last line then ends in "…". */
  readonly whole: boolean;
}

/**
 * `text` broken at its spaces into at most `most` lines (1 or more) of at most `room` px at `size` px. A word wider than
 * the room, and whatever is left after the last line, is cut. Empty text gives no lines; a room too small even for one
 * sign gives that sign.
 */
export function fittedText(text: string, room: number, size: number, most: number): FittedText {
  const lines: string[] = [];
  // A no-break space keeps a number and its unit together.
  const words = text.split(/[^\S\u00a0\u202f]+/u).filter(Boolean);
  let line = '';
  let cut = false;
  for (const word of words) {
    const longer = line ? `${line} ${word}` : word;
    if (textSpan(longer, size) <= room) {
      line = longer;
      continue;
    }
    if (lines.length === most - 1) {
      line = cutTo(longer, room, size);
      cut = true;
      break;
    }
    if (line) lines.push(line);
    line = word;
    if (textSpan(word, size) > room) {
      line = cutTo(word, room, size);
      cut = true;
      break;
    }
  }
  if (line) lines.push(line);
  return { lines, whole: !cut };
}

function cutTo(text: string, room: number, size: number): string {
  const signs = Array.from(text);
  while (signs.length > 1 && textSpan(`${signs.join('').trimEnd()}…`, size) > room) signs.pop();
  return `${signs.join('').trimEnd()}…`;
}
