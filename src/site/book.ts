/** The nine numbered chapters of the notebook in reading order, written or not, and the letters of their parts. */

export interface ChapterPlace {
  readonly number: number;
  readonly slug: string;
  /** The name in the frame, split where it breaks into two lines. */
  readonly words: readonly [string] | readonly [string, string];
}

export const CHAPTERS: readonly ChapterPlace[] = [
  { number: 1, slug: 'moments', words: ['Moments'] },
  { number: 2, slug: 'tension-only-supports', words: ['Tension-only', 'supports'] },
  { number: 3, slug: 'resultant-lines', words: ['Resultant', 'lines'] },
  { number: 4, slug: 'tilt-test', words: ['Tilt', 'test'] },
  { number: 5, slug: 'stability-angles', words: ['Stability', 'angles'] },
  { number: 6, slug: 'changing-the-build', words: ['Changing', 'the build'] },
  { number: 7, slug: 'side-by-side', words: ['Side', 'by side'] },
  { number: 8, slug: 'problems', words: ['Problems'] },
  { number: 9, slug: 'handouts', words: ['Handouts'] },
];

/** Name of the cover's file, without .md; its page is index.html. */
export const COVER = '00-cover';

/** The lettered parts, the same in every chapter, in reading order. */
export const PART_WORDS = {
  A: 'Aim',
  B: 'Predict',
  C: 'Small case',
  D: 'Vary one',
  E: 'Calculate',
  F: 'Misleads',
  G: 'Recap',
  H: 'Problems',
} as const;

export type PartLetter = keyof typeof PART_WORDS;

export function isPartLetter(text: string): text is PartLetter {
  return Object.hasOwn(PART_WORDS, text);
}

/** File of a chapter, "03-resultant-lines.md". */
export function chapterFile(place: ChapterPlace): string {
  return `${String(place.number).padStart(2, '0')}-${place.slug}.md`;
}

/** Page of a chapter file, "resultant-lines.html"; index.html for the cover. Undefined when the name is no chapter's. */
export function pageOf(file: string): string | undefined {
  if (file === `${COVER}.md`) return 'index.html';
  const place = CHAPTERS.find((chapter) => chapterFile(chapter) === file);
  return place && `${place.slug}.html`;
}
