import { existsSync, readdirSync, readFileSync } from 'node:fs';
import { dirname, join, relative } from 'node:path';

/**
 * Broken links of a built folder: every href, src, srcset, poster and url() of its pages and style sheets must be a
 * file in the folder, and every #id an id of the page it points to. Links to other hosts are not followed; scripts,
 * styles, pictures and fonts from other hosts are reported.
 *
 * @param {string} folder
 * @returns {string[]} one line for each broken link, naming page and link
 */
export function brokenLinks(folder) {
  const files = readdirSync(folder, { recursive: true, encoding: 'utf8' });
  const pages = files.filter((file) => file.endsWith('.html'));
  const ids = new Map(pages.map((page) => [page, pageIds(readFileSync(join(folder, page), 'utf8'))]));
  const broken = pages.flatMap((page) => {
    const html = readFileSync(join(folder, page), 'utf8');
    return pageLinks(html).flatMap((link) => check({ folder, from: page, ids, ...link }));
  });
  for (const sheet of files.filter((file) => file.endsWith('.css'))) {
    const css = readFileSync(join(folder, sheet), 'utf8');
    for (const [, , target] of css.matchAll(/url\((["']?)([^"')]+)\1\)/g))
      broken.push(...check({ folder, from: sheet, ids, target, loads: true }));
  }
  return broken;
}

/** @param {string} html */
function pageIds(html) {
  return new Set([...html.matchAll(/<[a-z][^>]*?\sid="([^"]+)"/g)].map((match) => match[1]));
}

/** Every place a page points to, and whether the page loads it by itself. */
function pageLinks(html) {
  const links = [];
  for (const [tag, name] of html.matchAll(/<([a-z][\w-]*)\b[^>]*>/g)) {
    for (const [, attribute, value] of tag.matchAll(/\s(href|src|srcset|poster)="([^"]*)"/g)) {
      const targets =
        attribute === 'srcset' ? value.split(',').map((part) => part.trim().split(/\s+/)[0]) : [value];
      for (const target of targets) links.push({ target: decode(target), loads: name !== 'a' });
    }
  }
  return links;
}

function check({ folder, from, ids, target, loads }) {
  const fault = (reason) => [`${from}: ${target || '(empty)'}: ${reason}`];
  if (!target) return fault('empty link');
  if (/^data:|^blob:/.test(target)) return [];
  if (/^[a-z][a-z+.-]*:|^\/\//i.test(target)) return loads ? fault('loads from another host') : [];
  if (target.startsWith('/')) return fault('starts at the host’s root and breaks in a sub-folder');
  const [path, anchor] = target.split('#');
  const file = path ? join(dirname(from), decodeURIComponent(path.split('?')[0])) : from;
  if (file.startsWith('..') || !existsSync(join(folder, file))) return fault('no such file');
  const page = relative('.', file);
  const known = ids.get(page);
  if (anchor && known && !known.has(decodeURIComponent(anchor))) return fault(`no id “${anchor}” in ${page}`);
  return [];
}

function decode(text) {
  return text
    .replace(/&amp;/g, '&')
    .replace(/&quot;/g, '"')
    .replace(/&#39;/g, "'");
}
