import { ChapterError } from './chapterError.ts';

export interface FrontMatter {
  /** Chapter number; null for the cover. */
  readonly number: number | null;
  readonly title: string;
  /** Opening sentence in inline Markdown. */
  readonly lead: string;
  /** Plain sentence for the page's description and the contents. */
  readonly description: string;
  readonly layout: 'chapter' | 'cover';
}

const KEYS = ['number', 'title', 'lead', 'description', 'layout'] as const;

/**
 * Splits a chapter file into its front matter and its text.
 *
 * Front matter stands between two lines "---" at the head of the file, one "key: value" a line; a value goes on
 * in following lines that start with two spaces. Unknown, doubled and missing keys throw a ChapterError.
 */
export function readFrontMatter(file: string, source: string): { front: FrontMatter; text: string } {
  const match = /^---\r?\n([\s\S]*?)\r?\n---\r?\n/.exec(source);
  if (!match) throw new ChapterError(file, 'no front matter. Start the file with "---", "title: …", "---".');

  const values = new Map<string, string>();
  let lastKey = '';
  for (const line of (match[1] ?? '').split(/\r?\n/)) {
    const entry = /^([a-z]+):\s*(.*)$/.exec(line);
    if (entry) {
      lastKey = entry[1] ?? '';
      if (!KEYS.some((key) => key === lastKey))
        throw new ChapterError(file, `front matter key “${lastKey}” is not known. Use ${KEYS.join(', ')}.`);
      if (values.has(lastKey))
        throw new ChapterError(file, `front matter key “${lastKey}” stands twice. Keep one.`);
      values.set(lastKey, (entry[2] ?? '').trim());
    } else if (/^ {2}\S/.test(line) && lastKey) {
      values.set(lastKey, `${values.get(lastKey) ?? ''} ${line.trim()}`.trim());
    } else if (line.trim()) {
      throw new ChapterError(
        file,
        `front matter line “${line}” is not “key: value”. Indent it to continue a value.`,
      );
    }
  }

  const need = (key: string): string => {
    const value = values.get(key);
    if (!value) throw new ChapterError(file, `front matter has no “${key}”. Add “${key}: …”.`);
    return value;
  };

  const layout = values.get('layout') ?? 'chapter';
  if (layout !== 'chapter' && layout !== 'cover')
    throw new ChapterError(file, `layout “${layout}” is not known. Use “cover”, or leave it out.`);

  let number: number | null = null;
  if (layout === 'chapter') {
    number = Number(need('number'));
    if (!Number.isInteger(number))
      throw new ChapterError(file, `number “${need('number')}” is not a whole number.`);
  }
  return {
    front: { number, title: need('title'), lead: need('lead'), description: need('description'), layout },
    text: source.slice(match[0].length),
  };
}
