import { readFileSync } from 'node:fs';
import { join } from 'node:path';

/**
 * KaTeX's style sheet as far as the notebook's formulas use it, with its woff2 fonts only, then the classes that stand
 * for its style attributes. No formula is set in the browser, so what no page uses now is never used.
 *
 * @param rules the rules collected by StyleClasses
 * @param used every class that occurs in the pages
 */
export function formulaCss(root: string, rules: string, used: ReadonlySet<string>): string {
  const folder = join(root, 'node_modules/katex/dist');
  const sheet = readFileSync(join(folder, 'katex.css'), 'utf8').replace(/\/\*[\s\S]*?\*\//g, '');
  const kept = usedRules(sheet, used)
    .replace(
      /src:\s*url\(["']?(fonts\/[^"')]+\.woff2)["']?\)[^;]*;/g,
      (_all, font: string) => `src: url("${join(folder, font)}") format("woff2");`,
    )
    .replace(/font-display:\s*block/g, 'font-display: swap');
  return `${kept}\n${rules}\n`;
}

/** The rules with at least one selector whose classes all occur, and the fonts these rules name. */
export function usedRules(sheet: string, used: ReadonlySet<string>): string {
  const blocks = [...sheet.matchAll(/([^{}]+)\{([^{}]*)\}/g)].map((match) => ({
    selector: (match[1] ?? '').trim(),
    text: match[0].trim(),
  }));
  const occurs = (selector: string): boolean =>
    [...selector.matchAll(/\.([\w-]+)/g)].every((match) => used.has(match[1] ?? ''));
  const rules = blocks
    .filter(({ selector }) => !selector.startsWith('@font-face') && selector.split(',').some(occurs))
    .map(({ text }) => text)
    .join('\n');
  const fonts = blocks
    .filter(({ selector }) => selector.startsWith('@font-face'))
    .filter(({ text }) => rules.includes(/font-family:\s*"?(\w+)"?/.exec(text)?.[1] ?? ' '))
    .map(({ text }) => text);
  return [...fonts, rules].join('\n');
}

/** Every class that occurs in a piece of HTML. */
export function classesIn(html: string): string[] {
  return [...html.matchAll(/\sclass="([^"]*)"/g)].flatMap((match) => (match[1] ?? '').split(/\s+/));
}
