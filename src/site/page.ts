import { CHAPTERS, chapterFile, COVER, pageOf, type ChapterPlace } from './book.ts';
import type { Chapter } from './markdown/chapterText.ts';
import { CONTENTS_MARK } from './markdown/boxes.ts';
import { escapeHtml } from './markdown/context.ts';
import { HANDOUTS, type Handout } from './handouts/index.ts';
import { arrowSign, centerOfGravitySign, chevronSign, projectorSign, themeSign, tickSign } from './signs.ts';

/** The pages of the notebook by chapter file. */
export type Chapters = ReadonlyMap<string, Chapter>;

/**
 * A whole page: the sheet frame with numbered chapter fields and lettered part fields, the chapter in it, and the
 * place of the title block. Reads fully without a script; the scripts of `modules` make its elements live.
 */
export function pageHtml(file: string, chapters: Chapters, modules: readonly string[]): string {
  const chapter = chapters.get(file);
  if (!chapter) throw new Error(`no chapter ${file}`);
  const cover = chapter.front.layout === 'cover';
  const hasFormulas = /class="katex/.test(chapter.html + chapter.below);
  const title = cover
    ? 'Plumb Low: the center of gravity of small trail trucks'
    : `${chapter.front.title} · Plumb Low`;
  return documentHtml({
    title,
    description: chapter.front.description,
    styles: [],
    modules: [...(hasFormulas ? ['/src/site/browser/formulas.ts'] : []), PAGE_SCRIPT, ...modules],
    kind: cover ? 'cover-page' : 'chapter-page',
    body: `${topFields(file, chapters)}
${printHead(chapter)}
${cover ? '' : letterFields(chapter)}
<main id="text" class="sheet" tabindex="-1">
${cover ? coverSheet(chapter) : chapter.html}
${cover ? '' : pageTurn(file, chapters)}
</main>
${cover ? '' : titleBlockPlace('strip')}`,
  }).replace(CONTENTS_MARK, () => contents(chapters));
}

/** A page to print, in the frame of the chapters but with no parts of its own. */
export function handoutHtml(handout: Handout, chapters: Chapters, modules: readonly string[]): string {
  const chapter = chapters.get(handout.chapter);
  const page = pageOf(handout.chapter);
  if (!chapter || !page) throw new Error(`no chapter ${handout.chapter} for ${handout.page}`);
  return documentHtml({
    title: `${handout.title} · Plumb Low`,
    description: handout.description,
    styles: handout.styles,
    modules: [PAGE_SCRIPT, ...modules, ...handout.modules],
    kind: 'chapter-page handout-page',
    body: `${topFields(handout.page, chapters)}
<main id="text" class="sheet" tabindex="-1">
${handout.html}
<nav class="page-turn" aria-label="Chapter of this sheet">${turnLink('prev', page, chapter)}</nav>
</main>
${titleBlockPlace('strip')}`,
  });
}

const PAGE_SCRIPT = '/src/site/browser/page.ts';

interface PageDocument {
  readonly title: string;
  readonly description: string;
  /** Beyond those of every page. */
  readonly styles: readonly string[];
  readonly modules: readonly string[];
  /** Classes of the body. */
  readonly kind: string;
  readonly body: string;
}

function documentHtml({ title, description, styles, modules, kind, body }: PageDocument): string {
  const sheets = ['/src/site/styles/page.css', ...styles];
  return `<!doctype html>
<html lang="en">
<head>
<meta charset="utf-8">
<title>${escapeHtml(title)}</title>
<meta name="viewport" content="width=device-width, initial-scale=1">
<meta name="description" content="${escapeHtml(description)}">
<meta name="color-scheme" content="light dark">
<meta name="plumb-root" content="./">
<link rel="icon" href="/icon.svg" type="image/svg+xml">
<link rel="preload" href="/fonts/literata.woff2" as="font" type="font/woff2" crossorigin>
<link rel="preload" href="/fonts/atkinson-hyperlegible-next.woff2" as="font" type="font/woff2" crossorigin>
${sheets.map((path) => `<link rel="stylesheet" href="${path}">`).join('\n')}
${modules.map((path) => `<script type="module" src="${path}"></script>`).join('\n')}
</head>
<body class="${kind}">
<a class="skip" href="#text">Skip to the text</a>
${body}
</body>
</html>
`;
}

/** Fields along the top: the cover, the nine chapters, theme and projector. On a phone the chapters fold into one field. */
function topFields(file: string, chapters: Chapters): string {
  const current = CHAPTERS.find((place) => chapterFile(place) === file);
  const coverNow = file === `${COVER}.md`;
  const fields = CHAPTERS.map(
    (place) => `<li${place === current ? ' class="open"' : ''}>${chapterField(place, file, chapters)}</li>`,
  ).join('\n');
  const rows = CHAPTERS.map((place) => `<li>${chapterField(place, file, chapters)}</li>`).join('\n');
  const here = current ? `<b>${current.number}</b> ${escapeHtml(current.words.join(' '))}` : 'Chapters';
  return `<header class="top">
<a class="cover-field${coverNow ? ' open' : ''}" href="./index.html"${coverNow ? ' aria-current="page"' : ''} aria-label="Plumb Low, the cover">${centerOfGravitySign}</a>
<nav class="chapter-fields" aria-label="Chapters"><ol>
${fields}
</ol></nav>
<details class="chapter-menu"><summary><span>${here}</span>${chevronSign}</summary>
<nav aria-label="Chapters"><ol>
<li><a href="./index.html"${coverNow ? ' aria-current="page"' : ''}>${centerOfGravitySign}<span>Cover</span></a></li>
${rows}
</ol></nav></details>
<button class="frame-button theme-button" type="button" aria-label="Dark drawing" hidden>${themeSign}</button>
<button class="frame-button projector-button" type="button" aria-label="Projector" hidden>${projectorSign}</button>
</header>`;
}

function chapterField(place: ChapterPlace, file: string, chapters: Chapters): string {
  const own = chapterFile(place);
  const inside = `<b>${place.number}</b><span>${place.words.map(escapeHtml).join(' <br>')}</span>`;
  if (!chapters.has(own)) return `<span class="unwritten">${inside}</span>`;
  const current = own === file ? ' aria-current="page"' : '';
  return `<a href="./${pageOf(own) ?? ''}"${current}>${inside}</a>`;
}

/** Fields down the side: the chapter's parts. The script of the frame opens the one being read and ticks those read. */
function letterFields(chapter: Chapter): string {
  const fields = chapter.parts
    .map(
      ({ letter, word }) =>
        `<li><a href="#${letter.toLowerCase()}" data-part="${letter.toLowerCase()}"><b>${letter}</b>` +
        `<span class="letter-word">${word}</span>${tickSign}</a></li>`,
    )
    .join('\n');
  return `<nav class="letter-fields" aria-label="Parts of this chapter"><ol>\n${fields}\n</ol></nav>`;
}

function coverSheet(chapter: Chapter): string {
  const below = chapter.below ? `\n<div class="cover-below">\n${chapter.below}\n</div>` : '';
  return `<div class="cover-text">\n${chapter.html}\n</div>
<div class="cover-hero">\n${chapter.hero}\n</div>
${titleBlockPlace('full')}${below}`;
}

/** The title block's place. The words stand there until its element takes over. */
function titleBlockPlace(form: 'strip' | 'full'): string {
  const tag = form === 'full' ? 'aside' : 'footer';
  return `<${tag} class="title-block-place ${form}" aria-label="Title block: the answer so far">
<plumb-title-block form="${form}"><p class="title-block-stand-in"><b>The answer so far</b> stands here once scripts run. <a href="./index.html#truck" data-readings="readings">Readings</a></p></plumb-title-block>
</${tag}>`;
}

/** Head of a printed sheet, with room for a name and a date. */
function printHead(chapter: Chapter): string {
  const { number, title } = chapter.front;
  const place =
    number === null ? '' : `<span class="print-chapter"><b>${number}</b> ${escapeHtml(title)}</span>`;
  return `<div class="print-head" aria-hidden="true"><span class="print-name">${centerOfGravitySign} Plumb Low</span>${place}<span class="print-box">name</span><span class="print-box">date</span></div>`;
}

/** Links to the chapters before and after, as far as they are written. */
function pageTurn(file: string, chapters: Chapters): string {
  const files = [...chapters.keys()];
  const at = files.indexOf(file);
  const link = (target: string | undefined, rel: 'prev' | 'next'): string => {
    const chapter = target ? chapters.get(target) : undefined;
    return target && chapter ? turnLink(rel, pageOf(target) ?? '', chapter) : '';
  };
  return `<nav class="page-turn" aria-label="Chapter before and next">${link(files[at - 1], 'prev')}${link(files[at + 1], 'next')}</nav>`;
}

function turnLink(rel: 'prev' | 'next', page: string, chapter: Chapter): string {
  const { number, title } = chapter.front;
  const name = number === null ? 'Cover' : `<b>${number}</b> ${escapeHtml(title)}`;
  return `<a rel="${rel}" href="./${page}">${arrowSign}<span><small>${rel === 'prev' ? 'before' : 'next'}</small> ${name}</span></a>`;
}

/** The written chapters with their parts and calculators, each a deep link, and what there is to print. */
function contents(chapters: Chapters): string {
  const rows = CHAPTERS.map((place) => {
    const chapter = chapters.get(chapterFile(place));
    if (!chapter) return '';
    const page = pageOf(chapterFile(place)) ?? '';
    const calculators = chapter.calculators
      .map(
        ({ id, address, heading }) =>
          `<li><a href="./${page}#${id}"><b>${address}</b> ${escapeHtml(heading)}</a></li>`,
      )
      .join('\n');
    return `<li><h2><a href="./${page}"><b>${place.number}</b> ${escapeHtml(chapter.front.title)}</a></h2>
<p>${escapeHtml(chapter.front.description)}</p>${calculators ? `\n<ul class="contents-places">\n${calculators}\n</ul>` : ''}</li>`;
  });
  const sheets = HANDOUTS.filter(({ chapter }) => chapters.has(chapter)).map(
    ({ page, title, description }) =>
      `<li><h2><a href="./${page}">${escapeHtml(title)}</a></h2>\n<p>${escapeHtml(description)}</p></li>`,
  );
  return `<ol class="contents">\n${[...rows.filter(Boolean), ...sheets].join('\n')}\n</ol>`;
}
