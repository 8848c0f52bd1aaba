import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import { afterEach, describe, expect, it } from 'vitest';
import { brokenLinks } from '../../src/site/commands/checkDist.mjs';

let folder = '';
afterEach(() => rmSync(folder, { recursive: true, force: true }));

function check(files: Record<string, string>): string[] {
  folder = mkdtempSync(join(tmpdir(), 'plumb-dist-'));
  for (const [name, text] of Object.entries(files)) {
    mkdirSync(dirname(join(folder, name)), { recursive: true });
    writeFileSync(join(folder, name), text);
  }
  return brokenLinks(folder);
}

describe('the link check', () => {
  it('passes links to files and ids that exist, and plain links to other hosts', () => {
    const page =
      '<a href="./b.html#x">b</a><a href="#top">t</a><i id="top"></i><img src="./p/a.png"><a href="https://example.org/">o</a>';
    expect(check({ 'a.html': page, 'b.html': '<i id="x"></i>', 'p/a.png': '' })).toEqual([]);
  });

  it.each([
    ['<a href="./c.html">', 'a.html: ./c.html: no such file'],
    ['<a href="./b.html#y">', 'a.html: ./b.html#y: no id “y” in b.html'],
    ['<a href="#none">', 'a.html: #none: no id “none” in a.html'],
    ['<img src="./p/none.png">', 'a.html: ./p/none.png: no such file'],
    ['<img srcset="./b.html 1x, ./no.png 2x">', 'a.html: ./no.png: no such file'],
    ['<script src="https://example.org/x.js">', 'a.html: https://example.org/x.js: loads from another host'],
    ['<a href="/b.html">', 'a.html: /b.html: starts at the host’s root and breaks in a sub-folder'],
    ['<a href="../outside.html">', 'a.html: ../outside.html: no such file'],
    ['<a href="">', 'a.html: (empty): empty link'],
  ])('names page and link of %s', (html, message) => {
    expect(check({ 'a.html': html, 'b.html': '<i id="x"></i>' })).toEqual([message]);
  });

  it('follows url() from a style sheet’s own folder', () => {
    expect(
      check({
        'parts/a.css': '@font-face{src:url("../fonts/x.woff2")} b{background:url(y.png)}',
        'fonts/x.woff2': '',
      }),
    ).toEqual(['parts/a.css: y.png: no such file']);
  });
});
