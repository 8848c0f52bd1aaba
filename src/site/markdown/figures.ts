import type { MarkedExtension } from 'marked';
import { escapeHtml, type ChapterContext } from './context.ts';

/** A picture alone in its paragraph becomes a figure; "drawing:name" is an svg drawn at build. */

const FIGURE = /^!\[([^\]]*)\]\(([^)\s]+)(?:\s+(?:"([^"]*)"|'([^']*)'))?\)[ \t]*(\{\.wide\})?[ \t]*(?:\n+|$)/;

export function figureSyntax(context: ChapterContext): MarkedExtension {
  return {
    extensions: [
      {
        name: 'figure',
        level: 'block',
        start: (src) => /^!\[/m.exec(src)?.index,
        tokenizer(src) {
          const match = FIGURE.exec(src);
          if (!match) return undefined;
          const [raw, alt, href, caption, quoted, wide] = match;
          const tokens = this.lexer.inlineTokens(caption ?? quoted ?? '');
          return { type: 'figure', raw, alt, href, wide, tokens };
        },
        renderer(token) {
          const caption = this.parser.parseInline(token.tokens ?? []);
          const picture = pictureHtml(context, String(token['href']), String(token['alt']));
          const below = caption ? `<figcaption>${caption}</figcaption>` : '';
          return `<figure${token['wide'] ? ' class="wide"' : ''}>${picture}${below}</figure>\n`;
        },
      },
    ],
    renderer: {
      image: ({ href, text }) => pictureHtml(context, href, text),
    },
  };
}

function pictureHtml(context: ChapterContext, href: string, alt: string): string {
  if (!alt.trim()) context.fail(`picture “${href}” has no alt text. Say between the brackets what it shows.`);
  if (href.startsWith('drawing:')) {
    const name = href.slice('drawing:'.length);
    const svg = context.surroundings.drawing(name);
    if (svg === undefined)
      context.surroundings.missing(`drawing “${name}” is not known. Add src/figures/drawings/${name}.ts.`);
    // Its own text would be read word by word; the alt text says it better.
    return `<div class="drawing" role="img" aria-label="${escapeHtml(alt)}"><div aria-hidden="true">${svg ?? ''}</div></div>`;
  }
  const size = context.surroundings.imageSize(href);
  if (size === undefined) {
    context.surroundings.missing(`picture “${href}” is not in assets/. Write the path relative to assets/.`);
    return `<span>${escapeHtml(alt)}</span>`;
  }
  if (size === null)
    context.fail(`picture “${href}” is no PNG, JPEG, WebP or SVG with a viewBox. Save it as one of these.`);
  return (
    `<img src="./${escapeHtml(href)}" alt="${escapeHtml(alt)}" width="${size.width}" height="${size.height}"` +
    ' loading="lazy" decoding="async">'
  );
}
