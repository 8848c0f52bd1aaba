import { Marked, type MarkedExtension, type Token, type Tokens } from 'marked';
import { isPartLetter, PART_WORDS, type PartLetter } from '../book.ts';
import { readFrontMatter, type FrontMatter } from '../frontMatter.ts';
import { boxSyntax } from './boxes.ts';
import { calculatorSyntax } from './calculators.ts';
import {
  ChapterContext,
  escapeHtml,
  slugOf,
  type CalculatorPlace,
  type ChapterSurroundings,
  type HeadingPlace,
} from './context.ts';
import { figureSyntax } from './figures.ts';
import { formulaSyntax } from './formulaSyntax.ts';
import { linkSyntax } from './links.ts';
import { noteSyntax, numberNotes } from './notes.ts';
import { tieNumbers } from './ties.ts';

export interface Part {
  readonly letter: PartLetter;
  readonly word: string;
}

/** One chapter as HTML, with what the frame, the contents and the link check need to know of it. */
export interface Chapter {
  readonly file: string;
  readonly front: FrontMatter;
  readonly parts: readonly Part[];
  readonly calculators: readonly CalculatorPlace[];
  readonly headings: readonly HeadingPlace[];
  /** Tags of the custom elements in the text, sorted. */
  readonly tags: readonly string[];
  /** Links into the notebook, "page.html#id" or "#id"; whether they end somewhere is checked once all chapters are read. */
  readonly links: readonly string[];
  hasAnchor(id: string): boolean;
  /** The cover's first element, set at its right; empty in a chapter. */
  readonly hero: string;
  readonly html: string;
  /** What the cover holds below a rule, "---": it takes the full width under the first screen; empty in a chapter. */
  readonly below: string;
}

/**
 * Turns a chapter file into HTML: front matter, lettered parts, margin notes, boxes, formulas, calculators.
 * The convention is written down in DEVELOPERS.md, "Chapters". Any mistake throws a ChapterError naming the file.
 */
export function readChapter(file: string, source: string, surroundings: ChapterSurroundings): Chapter {
  const { front, text } = readFrontMatter(file, source);
  const context = new ChapterContext(file, front.number, surroundings);
  for (const [id, number] of numberNotes(text)) context.noteNumbers.set(id, number);
  const marked = new Marked(
    { gfm: true },
    formulaSyntax(context),
    noteSyntax(context),
    boxSyntax(context),
    calculatorSyntax(context),
    figureSyntax(context),
    linkSyntax(context),
    headingSyntax(context),
  );
  const tokens = marked.lexer(text).filter((token) => token.type !== 'space');
  const written =
    front.layout === 'cover'
      ? coverHtml(context, marked, front, tokens)
      : chapterHtml(context, marked, front, tokens);
  const all = written.hero + written.html + written.below;
  refuseInlineCode(context, all);
  return {
    file,
    front,
    parts: written.parts,
    calculators: context.calculators,
    headings: context.headings,
    tags: [...new Set(all.match(/(?<=<)plumb-[a-z-]+/g))].sort(),
    links: context.links,
    hasAnchor: (id) => context.has(id),
    hero: tieNumbers(written.hero),
    html: tieNumbers(written.html),
    below: tieNumbers(written.below),
  };
}

interface Written {
  readonly parts: readonly Part[];
  readonly hero: string;
  readonly html: string;
  readonly below: string;
}

function coverHtml(context: ChapterContext, marked: Marked, front: FrontMatter, tokens: Token[]): Written {
  const part = tokens.find((token) => isHeading(token) && token.depth === 2);
  if (part) context.fail('the cover has no lettered parts. Use ### for a heading.');
  const first = tokens[0]?.type === 'calculator' ? tokens.slice(0, 1) : [];
  const rule = tokens.findIndex((token) => token.type === 'hr');
  const end = rule < 0 ? tokens.length : rule;
  const hero = marked.parser(first);
  const html = `${chapterHead(marked, front)}\n${marked.parser(tokens.slice(first.length, end))}`;
  return { parts: [], hero, html, below: marked.parser(tokens.slice(end + 1)) };
}

function chapterHtml(context: ChapterContext, marked: Marked, front: FrontMatter, tokens: Token[]): Written {
  const groups: { heading: Tokens.Heading; body: Token[] }[] = [];
  for (const token of tokens) {
    if (isHeading(token) && token.depth === 1)
      context.fail('a “#” heading in the text. The title stands in the front matter.');
    if (isHeading(token) && token.depth === 2) groups.push({ heading: token, body: [] });
    else {
      const group = groups.at(-1);
      if (!group)
        context.fail(
          `text before the first part: “${token.raw.trim().slice(0, 40)}”. Start with “## A Aim”.`,
        );
      group.body.push(token);
    }
  }
  if (!groups[0]) context.fail('no parts. Start with “## A Aim”.');

  const parts: Part[] = [];
  const sections: string[] = [];
  for (const { heading, body } of groups) {
    const { letter, remark } = readPartHeading(context, heading.text, parts.at(-1)?.letter);
    const opening = parts.length === 0;
    parts.push({ letter, word: PART_WORDS[letter] });
    context.part = letter;
    sections.push(
      partHtml(context, marked, { letter, remark, head: opening ? chapterHead(marked, front) : '', body }),
    );
  }
  return { parts, hero: '', html: sections.join('\n'), below: '' };
}

const isHeading = (token: Token): token is Tokens.Heading => token.type === 'heading';

function readPartHeading(context: ChapterContext, text: string, previous: PartLetter | undefined) {
  const match = /^([A-H]) ([^|]+?)(?:\s*\|\s*(.+))?$/.exec(text);
  const letter = match?.[1] ?? '';
  if (!match || !isPartLetter(letter))
    context.fail(
      `part heading “${text}”. Write a letter, its word and a remark: “## C Small case | one string, one line”.`,
    );
  if (match[2] !== PART_WORDS[letter])
    context.fail(`part ${letter} is called “${PART_WORDS[letter]}”, not “${match[2] ?? ''}”.`);
  if (previous && letter <= previous)
    context.fail(`part ${letter} after part ${previous}. Keep the letters in order, each once.`);
  return { letter, remark: match[3] ?? '' };
}

interface PartText {
  readonly letter: PartLetter;
  readonly remark: string;
  readonly head: string;
  readonly body: Token[];
}

/** A part: its letter column, then its text. The opening part is headed by the chapter's title, so its label is no heading. */
function partHtml(context: ChapterContext, marked: Marked, { letter, remark, head, body }: PartText): string {
  const id = context.claim(letter.toLowerCase());
  const level = head ? 'p' : 'h2';
  const under = remark ? `<p class="part-remark">${marked.parseInline(remark, { async: false })}</p>` : '';
  const { beside, rest } = head ? notesBesideTitle(context, body) : { beside: [], rest: [...body] };
  let text = keepHeadings(marked, notesAfterReference(context, rest));
  const first = rest[0];
  if (first && isHeading(first)) text = text.replace('<h3 ', '<h3 class="part-title" ');
  return (
    `<section class="part" id="${id}" aria-labelledby="${head ? 'title' : `${id}-name`}">\n` +
    `<header class="part-label"><${level} class="part-name" id="${id}-name"><a href="#${id}">` +
    `<span class="part-letter">${letter}</span> <span class="part-word">${PART_WORDS[letter]}</span></a></${level}>${under}</header>\n` +
    `<div class="part-body">\n${head}\n${marked.parser(beside)}${text}</div>\n</section>`
  );
}

/** Notes of the opening part that nothing refers to (what you need, what to take care of) stand level with the title. */
function notesBesideTitle(
  context: ChapterContext,
  body: readonly Token[],
): { beside: Token[]; rest: Token[] } {
  const isBeside = (token: Token): boolean =>
    token.type === 'noteDefinition' && 'note' in token && !context.noteNumbers.has(String(token.note));
  return { beside: body.filter(isBeside), rest: body.filter((token) => !isBeside(token)) };
}

/** A heading and the block below it in one box, so that no printed sheet ends with a heading. */
function keepHeadings(marked: Marked, blocks: readonly Token[]): string {
  let html = '';
  for (let i = 0; i < blocks.length; i++) {
    const [block, next] = blocks.slice(i, i + 2);
    if (!block) break;
    const together = isHeading(block) && next && ['paragraph', 'list', 'table', 'box'].includes(next.type);
    html += together ? `<div class="keep">\n${marked.parser([block, next])}</div>\n` : marked.parser([block]);
    if (together) i++;
  }
  return html;
}

/** Each numbered note right after the block that first refers to it, so that the two stand level. */
function notesAfterReference(context: ChapterContext, body: readonly Token[]): Token[] {
  const noteOf = (token: Token): string =>
    token.type === 'noteDefinition' && 'note' in token ? String(token.note) : '';
  const blocks = body.filter((token) => !context.noteNumbers.has(noteOf(token)));
  const notes = body.filter((token) => context.noteNumbers.has(noteOf(token)));
  const placed = blocks.flatMap((block) => {
    const own = notes.filter((note) => block.raw.includes(`[^${noteOf(note)}]`));
    for (const note of own) notes.splice(notes.indexOf(note), 1);
    return [block, ...own];
  });
  return [...placed, ...notes];
}

function chapterHead(marked: Marked, front: FrontMatter): string {
  const lead = marked.parseInline(front.lead, { async: false });
  return `<div class="chapter-head"><h1 id="title">${escapeHtml(front.title)}</h1><p class="lead">${lead}</p></div>`;
}

/** Headings below the part: an id from the words, or from "{#id}" behind them; the words link to themselves. */
function headingSyntax(context: ChapterContext): MarkedExtension {
  return {
    renderer: {
      heading({ tokens, depth, text }) {
        const own = /\s*\{#([a-z0-9-]+)\}\s*$/.exec(text);
        const plain = text
          .replace(own?.[0] ?? '', '')
          .replace(/\$|\*|\[\^[^\]]*\]/g, '')
          .trim();
        const id = context.claim(own?.[1] ?? slugOf(plain));
        context.headings.push({ id, text: plain, level: depth, part: context.part });
        const words = this.parser.parseInline(tokens).replace(/\s*\{#[a-z0-9-]+\}\s*$/, '');
        // Without parts there is no level between the title and these.
        const level = context.number === null ? depth - 1 : depth;
        return `<h${level} id="${id}"><a href="#${id}">${words}</a></h${level}>\n`;
      },
      // A corner cell of a table is no heading of anything.
      tablecell({ header, tokens, align }) {
        const words = this.parser.parseInline(tokens);
        const tag = header && words.trim() ? 'th' : 'td';
        return `<${tag}${align ? ` align="${align}"` : ''}>${words}</${tag}>\n`;
      },
    },
  };
}

/** Raw HTML in a chapter may not carry what the content security policy forbids. */
function refuseInlineCode(context: ChapterContext, html: string): void {
  const bad = /<(?:script|style)\b|<[a-z][^>]*\s(?:style|on[a-z]+)=/i.exec(html);
  if (bad)
    context.fail(
      `“${bad[0].slice(0, 60)}”: no script, style or on… in a chapter. Use a class or an element.`,
    );
}
