import type { MarkedExtension, Token } from 'marked';
import { escapeHtml, type ChapterContext } from './context.ts';

/** Block quotes that start with "[!kind]": brackets, the predict slip, worked examples, print-only and screen-only text. */

const KINDS = {
  warning: { opening: '<div class="bracket warning" role="note">', titled: false },
  remark: { opening: '<div class="bracket remark" role="note">', titled: false },
  predict: { opening: '<div class="slip">', titled: true },
  example: { opening: '<div class="panel example">', titled: true },
  print: { opening: '<div class="print-only">', titled: false },
  screen: { opening: '<div class="screen-only">', titled: false },
} as const;

const BOX = /^> ?\[!([a-z]+)\][ \t]*([^\n]*)((?:\n>[^\n]*)*)(?:\n+|$)/;

/** Room left on paper, "[[lines 3]]", and the two marks that shape a page. */
const ROOM = /^\[\[(lines|grid|page|contents)(?: (\d{1,2}))?\]\][ \t]*(?:\n+|$)/;

export function boxSyntax(context: ChapterContext): MarkedExtension {
  // Titles and button rows by their token's text: a token's own extra fields are untyped.
  const titles = new Map<string, Token[]>();
  const rows = new Map<string, Token[][]>();
  return {
    extensions: [
      {
        name: 'box',
        level: 'block',
        start: (src) => /^> ?\[!/m.exec(src)?.index,
        tokenizer(src) {
          const match = BOX.exec(src);
          if (!match) return undefined;
          const kind = match[1] ?? '';
          if (!Object.hasOwn(KINDS, kind))
            context.fail(
              `box “[!${kind}]” is not known. Use ${Object.keys(KINDS)
                .map((name) => `[!${name}]`)
                .join(', ')}.`,
            );
          const titled = kind === 'predict' || kind === 'example';
          const first = match[2] ?? '';
          const rest = (match[3] ?? '').replace(/\n> ?/g, '\n');
          const tokens = this.lexer.blockTokens(
            titled ? rest.trimStart() : `${first}${rest}`.trimStart(),
            [],
          );
          if (titled) titles.set(match[0], this.lexer.inlineTokens(first));
          return { type: 'box', raw: match[0], kind, tokens };
        },
        renderer(token) {
          const kind = String(token['kind']);
          const entry = Object.entries(KINDS).find(([name]) => name === kind)?.[1];
          if (!entry) return false;
          const title = entry.titled
            ? `<p class="box-title">${this.parser.parseInline(titles.get(token.raw) ?? [])}</p>\n`
            : '';
          return `${entry.opening}\n${title}${this.parser.parse(token.tokens ?? [])}</div>\n`;
        },
      },
      {
        name: 'room',
        level: 'block',
        start: (src) => /^\[\[/m.exec(src)?.index,
        tokenizer(src) {
          const match = ROOM.exec(src);
          return match
            ? { type: 'room', raw: match[0], kind: match[1], count: Number(match[2] ?? 1) }
            : undefined;
        },
        renderer: (token) => room(String(token['kind']), Number(token['count'])),
      },
      {
        name: 'buttons',
        level: 'block',
        start: (src) => /^\[\[buttons\]\]/m.exec(src)?.index,
        tokenizer(src) {
          const match = /^\[\[buttons\]\][ \t]*\n+((?:[-*] [^\n]*(?:\n|$))+)\n*/.exec(src);
          if (!match) return undefined;
          const links = (match[1] ?? '')
            .trim()
            .split('\n')
            .map((line) => this.lexer.inlineTokens(line.slice(2)));
          rows.set(match[0], links);
          return { type: 'buttons', raw: match[0] };
        },
        renderer(token) {
          const items = (rows.get(token.raw) ?? [])
            .map((link) => `<li>${this.parser.parseInline(link)}</li>`)
            .join('');
          return `<ul class="buttons">${items}</ul>\n`;
        },
      },
    ],
  };
}

/** Where the list of contents is put once every chapter is read. */
export const CONTENTS_MARK = '<!-- contents -->';

function room(kind: string, count: number): string {
  if (kind === 'contents') return `${CONTENTS_MARK}\n`;
  if (kind === 'page') return '<div class="new-sheet"></div>\n';
  if (kind === 'grid')
    return `<div class="print-only room grid-room grid-${escapeHtml(String(count))}"></div>\n`;
  return `<div class="print-only room">${'<div class="line"></div>'.repeat(count)}</div>\n`;
}
