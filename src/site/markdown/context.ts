import { ChapterError } from '../chapterError.ts';
import type { ImageSize } from '../imageSize.ts';
import type { PartLetter } from '../book.ts';
import type { StyleClasses } from '../styleClasses.ts';
import type { NoteKind } from './notes.ts';

/** What a chapter's text may ask of the outside while it is turned into HTML. */
export interface ChapterSurroundings {
  readonly styles: StyleClasses;
  /** Page of a written chapter file, undefined for others. */
  pageOf(file: string): string | undefined;
  /** Pixel size of a picture in assets/; undefined when there is no such file. */
  imageSize(path: string): ImageSize | null | undefined;
  /** The svg of a drawing made at build; undefined when there is no such drawing. */
  drawing(name: string): string | undefined;
  /** Called for something the text needs that does not exist: throws, or warns in a draft. */
  missing(problem: string): void;
}

export interface CalculatorPlace {
  readonly id: string;
  readonly address: string;
  readonly heading: string;
  readonly part: PartLetter;
}

export interface HeadingPlace {
  readonly id: string;
  readonly text: string;
  readonly level: number;
  readonly part: PartLetter | null;
}

export interface Note {
  readonly id: string;
  readonly kind: NoteKind;
  readonly title: string;
}

/** Everything met so far while one chapter is turned into HTML. */
export class ChapterContext {
  readonly notes = new Map<string, Note>();
  /** Note id to number, in order of first reference. */
  readonly noteNumbers = new Map<string, number>();
  readonly calculators: CalculatorPlace[] = [];
  readonly headings: HeadingPlace[] = [];
  /** Links to places in the notebook as "page.html#id", or "#id" for this page. */
  readonly links: string[] = [];
  part: PartLetter | null = null;
  private readonly ids = new Set<string>();
  private readonly referred = new Set<string>();

  constructor(
    readonly file: string,
    readonly number: number | null,
    readonly surroundings: ChapterSurroundings,
  ) {}

  fail(problem: string): never {
    throw new ChapterError(this.file, problem);
  }

  /** Takes an id for this page; the same id twice is an error. */
  claim(id: string): string {
    if (this.ids.has(id))
      this.fail(`the id “${id}” stands twice. Give one heading an id of its own: “{#other-id}”.`);
    this.ids.add(id);
    return id;
  }

  has(id: string): boolean {
    return this.ids.has(id);
  }

  /** True the first time a note is referred to. */
  firstReference(id: string): boolean {
    if (this.referred.has(id)) return false;
    this.referred.add(id);
    return true;
  }
}

export function escapeHtml(text: string): string {
  return text.replace(/&/g, '&amp;').replace(/</g, '&lt;').replace(/>/g, '&gt;').replace(/"/g, '&quot;');
}

/** Words as an anchor: "Which way is down?" becomes "which-way-is-down". */
export function slugOf(text: string): string {
  return text
    .toLowerCase()
    .normalize('NFKD')
    .replace(/[^a-z0-9]+/g, '-')
    .replace(/^-|-$/g, '');
}
