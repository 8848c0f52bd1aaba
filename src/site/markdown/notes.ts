import type { MarkedExtension } from 'marked';
import { escapeHtml, type ChapterContext } from './context.ts';

/** Margin notes: "[^id]" in the text, "[^id]: kind **Title** text" after the paragraph. */

const DEFAULT_TITLES = { word: '', source: 'Source', need: 'You need', safety: 'Take care' } as const;

export type NoteKind = keyof typeof DEFAULT_TITLES;

const isNoteKind = (text: string): text is NoteKind => Object.hasOwn(DEFAULT_TITLES, text);

const DEFINITION = /^\[\^([a-z0-9-]+)\]:[ \t]*([^\n]*(?:\n[ \t]+[^\n]+)*)(?:\n+|$)/;
const REFERENCE = /^\[\^([a-z0-9-]+)\](?!:)/;

/** Numbers the notes in order of first reference. Definitions start a line with "[^id]:" and are no reference. */
export function numberNotes(text: string): Map<string, number> {
  const numbers = new Map<string, number>();
  for (const match of text.matchAll(/\[\^([a-z0-9-]+)\](?!:)/g)) {
    const id = match[1] ?? '';
    if (!numbers.has(id)) numbers.set(id, numbers.size + 1);
  }
  return numbers;
}

export function noteSyntax(context: ChapterContext): MarkedExtension {
  return {
    extensions: [
      {
        name: 'noteDefinition',
        level: 'block',
        start: (src) => /^\[\^[a-z0-9-]+\]:/m.exec(src)?.index,
        tokenizer(src) {
          const match = DEFINITION.exec(src);
          if (!match) return undefined;
          const id = match[1] ?? '';
          const { kind, title, text } = readDefinition(context, id, match[2] ?? '');
          if (context.notes.has(id)) context.fail(`margin note [^${id}] is defined twice. Rename one.`);
          context.notes.set(id, { id, kind, title });
          return { type: 'noteDefinition', raw: match[0], note: id, tokens: this.lexer.inlineTokens(text) };
        },
        renderer(token) {
          const note = context.notes.get(String(token['note']));
          if (!note) return false;
          return `${noteOpening(context, note)} ${this.parser.parseInline(token.tokens ?? [])}</div>\n`;
        },
      },
      {
        name: 'noteReference',
        level: 'inline',
        start: (src) => src.indexOf('[^'),
        tokenizer(src) {
          const match = REFERENCE.exec(src);
          return match ? { type: 'noteReference', raw: match[0], note: match[1] } : undefined;
        },
        renderer(token) {
          const id = String(token['note']);
          const note = context.notes.get(id);
          if (!note)
            context.fail(`margin note [^${id}] has no definition. Add “[^${id}]: word **Title** text”.`);
          const number = context.noteNumbers.get(id) ?? 0;
          const anchor = context.firstReference(id) ? ` id="${context.claim(`ref-${id}`)}"` : '';
          const name = escapeHtml(`Note ${number}: ${note.title}`);
          return `<sup class="note-reference"${anchor}><a href="#note-${id}" aria-label="${name}">${number}</a></sup>`;
        },
      },
    ],
  };
}

function readDefinition(context: ChapterContext, id: string, body: string) {
  const joined = body.replace(/\s*\n[ \t]+/g, ' ').trim();
  const match = /^([a-z]+)(?:\s+\*\*([^*]+)\*\*)?\s+([\s\S]+)$/.exec(joined);
  const kind = match?.[1] ?? '';
  if (!match || !isNoteKind(kind))
    context.fail(
      `margin note [^${id}] has no kind. Write “[^${id}]: word **Title** text”; kinds are word, source, need, safety.`,
    );
  const title = (match[2] ?? DEFAULT_TITLES[kind]).trim();
  if (!title) context.fail(`margin note [^${id}] has no title. Write “[^${id}]: word **Title** text”.`);
  return { kind, title, text: match[3] ?? '' };
}

function noteOpening(context: ChapterContext, note: { id: string; kind: NoteKind; title: string }): string {
  const number = context.noteNumbers.get(note.id);
  const label = number
    ? `<a class="note-number" href="#ref-${note.id}" aria-label="Note ${number}, back to the text">${number}</a> · `
    : '';
  return (
    `<div class="note note-${note.kind}" role="note" id="${context.claim(`note-${note.id}`)}">` +
    `<b class="note-title">${label}${escapeHtml(note.title)}</b>`
  );
}
