import { existsSync, readdirSync, readFileSync } from 'node:fs';
import { basename, join } from 'node:path';
import { runnerImport, type Plugin, type ViteDevServer } from 'vite';
import { COVER, pageOf } from './book.ts';
import { ChapterError } from './chapterError.ts';
import { contentSecurityPolicy } from './contentSecurityPolicy.ts';
import { elementModule, FRAME_ELEMENTS, modulePath } from './elements.ts';
import { classesIn, formulaCss } from './formulaCss.ts';
import { HANDOUTS, type Handout } from './handouts/index.ts';
import { imageSize } from './imageSize.ts';
import { readChapter, type Chapter } from './markdown/chapterText.ts';
import { handoutHtml, pageHtml } from './page.ts';
import { StyleClasses } from './styleClasses.ts';

export interface ChaptersOptions {
  /** Project folder, holding chapters/, assets/ and src/. */
  readonly root: string;
  /** Folder of the chapters, within root. @default 'chapters' */
  readonly folder?: string;
  /** Warn of missing pictures, drawings, elements and anchors instead of failing, while they are being made. @default false */
  readonly draft?: boolean;
}

const FORMULA_STYLES = 'virtual:formula-styles.css';
const BEFORE_PAINT = 'before-paint.js';

/**
 * Makes the pages of the notebook: one HTML input for each file in chapters/, formulas as modules ("import crossing
 * from './crossing.tex.ts'" gives its HTML), and the styles both need. Chapters are read once and again when one changes.
 */
export function chapters({ root, folder = 'chapters', draft = false }: ChaptersOptions): Plugin {
  const book = new Book(root, folder, draft);
  /** Page to chapter file; a handout stands for itself. */
  const pages = (): Map<string, string> =>
    new Map([
      ...book.files().map((file): [string, string] => [join(root, pageOf(file) ?? ''), file]),
      ...book.handouts().map(({ page }): [string, string] => [join(root, page), page]),
    ]);
  let building = false;

  return {
    name: 'plumb:chapters',
    enforce: 'pre',

    config(_config, { command }) {
      building = command === 'build';
      const input = Object.fromEntries([...pages().keys()].map((page) => [basename(page, '.html'), page]));
      return { build: { rollupOptions: { input } } };
    },

    async buildStart() {
      // A test run starts this plugin too, but asks for formulas only.
      if (!building) return;
      await book.read();
      for (const file of book.files()) this.addWatchFile(join(root, folder, file));
      this.emitFile({ type: 'asset', fileName: BEFORE_PAINT, source: book.beforePaint() });
    },

    resolveId(id) {
      if (id === FORMULA_STYLES) return `\0${FORMULA_STYLES}`;
      return pages().has(id) ? id : undefined;
    },

    async load(id) {
      if (id === `\0${FORMULA_STYLES}`) {
        await book.read();
        return formulaCss(root, book.styles.css(), book.classes());
      }
      const file = pages().get(id);
      if (!file) return undefined;
      await book.read();
      return book.page(file);
    },

    transformIndexHtml: {
      order: 'post',
      handler: () => [
        ...(building
          ? [
              {
                tag: 'meta',
                attrs: { 'http-equiv': 'Content-Security-Policy', content: contentSecurityPolicy },
                injectTo: 'head-prepend' as const,
              },
            ]
          : []),
        { tag: 'script', attrs: { src: `./${BEFORE_PAINT}` }, injectTo: 'head-prepend' as const },
      ],
    },

    configureServer(server) {
      serveChapters(server, book, pages);
    },

    hotUpdate({ file }) {
      if (!file.endsWith('.md') || !file.startsWith(join(root, folder))) return;
      book.forget();
      this.environment.hot.send({ type: 'full-reload' });
    },
  };
}

/** While writing: pages by name, from the chapters as they are now. */
function serveChapters(server: ViteDevServer, book: Book, pages: () => Map<string, string>): void {
  server.middlewares.use((request, response, next) => {
    const path = (request.url ?? '/').split('?')[0] ?? '/';
    if (path === `/${BEFORE_PAINT}`) {
      response.setHeader('Content-Type', 'text/javascript').end(book.beforePaint());
      return;
    }
    const name = path.endsWith('/') ? 'index.html' : path.slice(1);
    const file = [...pages()].find(([page]) => basename(page) === name)?.[1];
    if (!file) return next();
    book
      .read()
      .then(() => server.transformIndexHtml(path, book.page(file)))
      .then((html) => response.setHeader('Content-Type', 'text/html').end(html))
      .catch(next);
  });
}

/** The chapters of one folder, read and rendered once. */
class Book {
  styles = new StyleClasses();
  private chapters: Map<string, Chapter> | null = null;
  private drawings = new Map<string, string>();

  constructor(
    private readonly root: string,
    private readonly folder: string,
    private readonly draft: boolean,
  ) {}

  /** Chapter files, the cover first. A file whose name is no chapter's is an error. */
  files(): string[] {
    const files = readdirSync(join(this.root, this.folder))
      .filter((name) => name.endsWith('.md'))
      .sort();
    for (const file of files)
      if (!pageOf(file))
        throw new ChapterError(
          this.named(file),
          'is no chapter of src/site/book.ts. Add it there or rename the file.',
        );
    if (!files.includes(`${COVER}.md`))
      throw new ChapterError(this.named(`${COVER}.md`), 'is missing. The cover is the first page.');
    return files;
  }

  /** Pages to print, of the chapters that are written. */
  handouts(): readonly Handout[] {
    const files = this.files();
    return HANDOUTS.filter(({ chapter }) => files.includes(chapter));
  }

  forget(): void {
    this.chapters = null;
  }

  async read(): Promise<void> {
    if (this.chapters) return;
    this.styles = new StyleClasses();
    this.drawings = await readDrawings(this.root, this.styles);
    const files = this.files();
    const written = new Set(files);
    const read = new Map<string, Chapter>();
    for (const file of files)
      read.set(
        file,
        readChapter(this.named(file), readFileSync(join(this.root, this.folder, file), 'utf8'), {
          styles: this.styles,
          pageOf: (target) => (written.has(target) ? pageOf(target) : undefined),
          imageSize: (path) => this.imageSize(path),
          drawing: (name) => this.drawings.get(name),
          missing: (problem) => this.missing(this.named(file), problem),
        }),
      );
    for (const { file, problem } of brokenAnchors(read)) this.missing(file, problem);
    this.chapters = read;
  }

  /** A whole page, of a chapter's file or of a handout. */
  page(file: string): string {
    if (!this.chapters)
      throw new ChapterError(this.named(file), 'was asked for before the chapters were read.');
    const handout = HANDOUTS.find(({ page }) => page === file);
    if (handout) return handoutHtml(handout, this.chapters, this.modules(file, FRAME_ELEMENTS));
    const chapter = this.chapters.get(file);
    if (!chapter) throw new ChapterError(this.named(file), 'is no chapter that was read.');
    return pageHtml(
      file,
      this.chapters,
      this.modules(chapter.file, [...new Set([...FRAME_ELEMENTS, ...chapter.tags])]),
    );
  }

  private modules(file: string, tags: readonly string[]): string[] {
    return tags.flatMap((tag) => {
      const module = elementModule(this.root, tag);
      if (!module) this.missing(file, `<${tag}> has no module. Add ${modulePath(tag)}, or correct the tag.`);
      return module ?? [];
    });
  }

  /** Every class in the text of the chapters. */
  classes(): Set<string> {
    const chapters = [...(this.chapters?.values() ?? [])];
    return new Set(chapters.flatMap(({ hero, html, below }) => classesIn(hero + html + below)));
  }

  beforePaint(): string {
    return readFileSync(join(this.root, 'src/site/browser/beforePaint.js'), 'utf8');
  }

  /** Something a chapter needs is not there: an error, or a warning in a draft. */
  private missing(file: string, problem: string): void {
    const error = new ChapterError(file, problem);
    if (!this.draft) throw error;
    console.warn(error.message);
  }

  private named(file: string): string {
    return `${this.folder}/${file}`;
  }

  private imageSize(path: string) {
    const file = join(this.root, 'assets', path);
    return existsSync(file) ? imageSize(readFileSync(file)) : undefined;
  }
}

/** Links from one chapter into another that end at no place. */
function brokenAnchors(read: ReadonlyMap<string, Chapter>): { file: string; problem: string }[] {
  const byPage = new Map([...read].map(([file, chapter]) => [pageOf(file), chapter]));
  return [...read.values()].flatMap((chapter) =>
    chapter.links.flatMap((link) => {
      const [page, anchor] = link.split('#');
      const target = page ? byPage.get(page) : chapter;
      if (!target || !anchor || target.hasAnchor(anchor)) return [];
      return {
        file: chapter.file,
        problem: `link to “${link}”: ${target.file} has no such place. Check the heading or the address.`,
      };
    }),
  );
}

/** Every src/figures/drawings/*.ts, run once: its default export gives an svg as text. */
async function readDrawings(root: string, styles: StyleClasses): Promise<Map<string, string>> {
  const folder = join(root, 'src/figures/drawings');
  const drawings = new Map<string, string>();
  if (!existsSync(folder)) return drawings;
  for (const name of readdirSync(folder)
    .filter((file) => file.endsWith('.ts'))
    .sort()) {
    const { module } = await runnerImport<{ default?: () => string }>(join(folder, name), {
      configFile: false,
      root,
      logLevel: 'error',
    });
    if (!module.default)
      throw new ChapterError(
        `src/figures/drawings/${name}`,
        'has no default export. Export a function that gives the svg.',
      );
    drawings.set(basename(name, '.ts'), styles.rewrite(module.default()));
  }
  return drawings;
}
