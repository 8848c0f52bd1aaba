import type { MarkedExtension } from 'marked';
import { escapeHtml, type ChapterContext } from './context.ts';

const READINGS = /^#readings(\/|$)/;

/** Links between chapters are written to the Markdown file, "03-resultant-lines.md#e3", and lead to its page. */
export function linkSyntax(context: ChapterContext): MarkedExtension {
  return {
    renderer: {
      link({ href, tokens }) {
        const text = this.parser.parseInline(tokens);
        // The readings panel opens over any page; without a script its place is the sheet on the cover.
        if (READINGS.test(href))
          return `<a href="./index.html#truck" data-readings="${escapeHtml(href.slice(1))}">${text}</a>`;
        return `<a href="${escapeHtml(pageLink(context, href))}">${text}</a>`;
      },
    },
  };
}

function pageLink(context: ChapterContext, href: string): string {
  if (/^[a-z][a-z+.-]*:/.test(href)) return href;
  if (href.startsWith('#')) {
    context.links.push(href);
    return href;
  }
  const [file = '', anchor] = href.split('#');
  if (!file.endsWith('.md')) return href;
  const page = context.surroundings.pageOf(file);
  if (!page)
    context.fail(
      `link to “${href}”: that chapter is not written. Link to a file in chapters/, or say it without a link.`,
    );
  const target = anchor ? `${page}#${anchor}` : page;
  context.links.push(target);
  return `./${target}`;
}
