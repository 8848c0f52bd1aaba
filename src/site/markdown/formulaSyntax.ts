import type { MarkedExtension } from 'marked';
import { renderFormula } from '../formulas.ts';
import type { ChapterContext } from './context.ts';

/** "$…$" opens only before a non-space and closes only when no digit follows, so that prices stay text. */
const INLINE = /^\$(?![\s$])((?:\\[\s\S]|[^\\$\n])*?(?:\\[\s\S]|[^\\$\s]))\$(?!\d)([,.;:)?!]*)/;

/** Up to this many letters of TeX a formula stays on one line, with the punctuation behind it. */
const SHORT = 24;
const DISPLAY = /^\$\$[ \t]*\n?([\s\S]+?)\n?[ \t]*\$\$[ \t]*(?:\n+|$)/;

/** Formulas between dollar signs, rendered at build. */
export function formulaSyntax(context: ChapterContext): MarkedExtension {
  const render = (tex: string, display: boolean): string =>
    renderFormula(tex, { file: context.file, display, styles: context.surroundings.styles });
  return {
    extensions: [
      {
        name: 'displayFormula',
        level: 'block',
        start: (src) => /^\$\$/m.exec(src)?.index,
        tokenizer(src) {
          const match = DISPLAY.exec(src);
          return match ? { type: 'displayFormula', raw: match[0], tex: match[1] } : undefined;
        },
        renderer: (token) => `<div class="formula">${render(String(token['tex']), true)}</div>\n`,
      },
      {
        name: 'inlineFormula',
        level: 'inline',
        start: (src) => src.indexOf('$'),
        tokenizer(src) {
          const match = INLINE.exec(src);
          return match ? { type: 'inlineFormula', raw: match[0], tex: match[1], after: match[2] } : undefined;
        },
        renderer(token) {
          const tex = String(token['tex']);
          const after = String(token['after']);
          const html = render(tex, false) + after;
          return tex.length <= SHORT ? `<span class="together">${html}</span>` : html;
        },
      },
    ],
  };
}
