import { mkdirSync, mkdtempSync, rmSync, symlinkSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import { build } from 'vite';
import { afterEach, describe, expect, it } from 'vitest';
import { chapters } from '../../src/site/chapters';
import { contentSecurityPolicy } from '../../src/site/contentSecurityPolicy';
import { root as project } from '../../src/site/commands/project.mjs';

const COVER = '---\ntitle: Plumb Low\nlayout: cover\nlead: L\ndescription: D\n---\n\n[[contents]]\n';
const LINES =
  '---\nnumber: 3\ntitle: Resultant lines\nlead: L\ndescription: About lines.\n---\n\n## A Aim\n\nTo find $x$.\n\n## E Calculate\n\n<plumb-cross address="E3" heading="Crossing">\n\nAt 84°.\n\n</plumb-cross>\n';

let root = '';
afterEach(() => rmSync(root, { recursive: true, force: true }));

/** Builds a small notebook of its own and gives its files by name. */
async function buildBook(files: Record<string, string>): Promise<Map<string, string>> {
  root = mkdtempSync(join(tmpdir(), 'plumb-book-'));
  const all = {
    'chapters/00-cover.md': COVER,
    'src/site/styles/page.css': 'b{color:red}',
    'src/site/browser/page.ts': 'document.title;',
    'src/site/browser/formulas.ts': "import 'virtual:formula-styles.css';",
    'src/site/browser/beforePaint.js': '// before paint',
    'src/site/browser/printButton.ts': 'document.title;',
    'src/site/styles/stickerSheet.css': 'b{color:black}',
    'src/calculators/title-block/plumb-title-block.ts': 'document.title;',
    'src/calculators/cross/plumb-cross.ts': 'console.warn("cross");',
    'assets/icon.svg': '<svg/>',
    'assets/fonts/literata.woff2': '',
    'assets/fonts/atkinson-hyperlegible-next.woff2': '',
    ...files,
  };
  for (const [name, text] of Object.entries(all)) {
    mkdirSync(dirname(join(root, name)), { recursive: true });
    writeFileSync(join(root, name), text);
  }
  symlinkSync(join(project, 'node_modules'), join(root, 'node_modules'));
  const result = await build({
    root,
    base: './',
    publicDir: 'assets',
    configFile: false,
    logLevel: 'silent',
    plugins: [chapters({ root })],
    build: { write: false, assetsInlineLimit: 0 },
  });
  if (!('output' in result)) throw new Error('expected one output');
  return new Map(
    result.output.map((file) => [file.fileName, file.type === 'chunk' ? file.code : String(file.source)]),
  );
}

describe('the build of a notebook', () => {
  it('makes a page for each chapter, with its policy, its scripts and its formulas’ styles', async () => {
    const files = await buildBook({ 'chapters/03-resultant-lines.md': LINES });
    const page = files.get('resultant-lines.html') ?? '';
    const cover = files.get('index.html') ?? '';

    expect(page).toContain(contentSecurityPolicy.replaceAll("'", '&#39;'));
    expect(page.indexOf('before-paint.js')).toBeLessThan(page.indexOf('rel="stylesheet"'));
    expect(page).toContain('<a href="./resultant-lines.html" aria-current="page">');
    expect(page).toContain('<span class="unwritten"><b>4</b>');
    expect(cover).toContain('<a href="./resultant-lines.html#e3"><b>E3</b> Crossing</a>');
    expect(cover).not.toContain('katex');
    const scripts = [...page.matchAll(/src="\.\/([^"]+\.js)"/g)].map(
      (match) => files.get(match[1] ?? '') ?? '',
    );
    expect(scripts.join('')).toContain('cross');
    const styles = [...page.matchAll(/href="\.\/([^"]+\.css)"/g)].map(
      (match) => files.get(match[1] ?? '') ?? '',
    );
    expect(styles.join('')).toContain('.katex');
    expect([...files.keys()].some((name) => name.includes('KaTeX_Fraktur'))).toBe(false);
  });

  it('makes the pages to print of the chapters that are written, and lists them on the cover', async () => {
    const written = await buildBook({ 'chapters/03-resultant-lines.md': LINES });
    rmSync(root, { recursive: true });
    const unwritten = await buildBook({});

    expect(written.get('sticker-sheet.html')).toContain('<a rel="prev" href="./resultant-lines.html">');
    expect(written.get('index.html')).toContain('<a href="./sticker-sheet.html">Stickers for body marks</a>');
    expect(unwritten.has('sticker-sheet.html')).toBe(false);
    expect(unwritten.get('index.html')).not.toContain('sticker-sheet');
  });

  it.each([
    [
      'an element without a module',
      { 'chapters/03-resultant-lines.md': LINES.replaceAll('plumb-cross', 'plumb-none') },
      'chapters/03-resultant-lines.md: <plumb-none> has no module. Add src/calculators/none/plumb-none.ts, or correct the tag.',
    ],
    [
      'an anchor that is not there',
      { 'chapters/03-resultant-lines.md': `${LINES}\nSee [there](#nowhere).\n` },
      'chapters/03-resultant-lines.md: link to “#nowhere”: chapters/03-resultant-lines.md has no such place.',
    ],
    [
      'a file that is no chapter',
      { 'chapters/03-other-lines.md': LINES },
      'chapters/03-other-lines.md: is no chapter of src/site/book.ts. Add it there or rename the file.',
    ],
  ])('fails on %s, naming the file', async (_case, files, message) => {
    await expect(buildBook(files)).rejects.toThrow(message);
  });
});
