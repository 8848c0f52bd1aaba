import { readFileSync } from 'node:fs';
import { join } from 'node:path';

/** KaTeX's style sheet with its woff2 fonts only, then the classes that stand for its style attributes. */
export function formulaCss(root: string, rules: string): string {
  const katex = join(root, 'node_modules/katex/dist');
  const sheet = readFileSync(join(katex, 'katex.css'), 'utf8')
    .replace(
      /src:\s*url\(["']?(fonts\/[^"')]+\.woff2)["']?\)[^;]*;/g,
      (_all, font: string) => `src: url("${join(katex, font)}") format("woff2");`,
    )
    .replace(/font-display:\s*block/g, 'font-display: swap');
  return `${sheet}\n${rules}\n`;
}
