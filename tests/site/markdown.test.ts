import { describe, expect, it } from 'vitest';
import { readChapter, type Chapter } from '../../src/site/markdown/chapterText';
import { StyleClasses } from '../../src/site/styleClasses';

const FRONT = `---
number: 3
title: Resultant lines
lead: Hang it **twice**.
description: About lines.
---
`;

/** A chapter text with pictures "demo/side.jpg" (800 × 600) and the drawing "error", in a book where 05 is written. */
function read(text: string, front = FRONT): Chapter {
  return readChapter('chapters/03-resultant-lines.md', front + text, {
    styles: new StyleClasses(),
    pageOf: (file) => (file === '05-stability-angles.md' ? 'stability-angles.html' : undefined),
    imageSize: (path) => (path === 'demo/side.jpg' ? { width: 800, height: 600 } : undefined),
    drawing: (name) => (name === 'error' ? '<svg viewBox="0 0 1 1"><path d="M0 0"/></svg>' : undefined),
    missing: (problem) => {
      throw new Error(problem);
    },
  });
}

const problem = (text: string, front?: string) => () => read(text, front);

describe('parts', () => {
  it('become sections with letter, word and remark', () => {
    const { html, parts } = read('## A Aim\n\nWhy.\n\n## C Small case | one string, one line\n\nFirst.');
    expect(parts).toEqual([
      { letter: 'A', word: 'Aim' },
      { letter: 'C', word: 'Small case' },
    ]);
    expect(html).toContain('<section class="part" id="c" aria-labelledby="c-name">');
    expect(html).toContain('<p class="part-remark">one string, one line</p>');
  });

  it('put the title and the lead at the head of the first part, whose label is then no heading', () => {
    const { html } = read('## A Aim\n\nWhy.\n\n## B Predict\n\nGuess.');
    expect(
      html.match(
        /<h1 id="title">Resultant lines<\/h1><p class="lead">Hang it <strong>twice<\/strong>\.<\/p>/g,
      ),
    ).toHaveLength(1);
    expect(html.match(/<h2 /g)).toHaveLength(1);
  });

  it('set a heading right after the part as its title, later ones as sections, each linked to itself', () => {
    const { html } = read('## A Aim\n\n### Which way is down?\n\nText.\n\n### Two strings {#pair}\n\nText.');
    expect(html).toContain(
      '<h3 class="part-title" id="which-way-is-down"><a href="#which-way-is-down">Which way is down?</a></h3>',
    );
    expect(html).toContain('<h3 id="pair"><a href="#pair">Two strings</a></h3>');
  });

  it('keep a heading with the block below it', () => {
    const { html } = read('## A Aim\n\n### One\n\nFirst.\n\nSecond.');
    expect(html).toContain(
      '<div class="keep">\n<h3 class="part-title" id="one"><a href="#one">One</a></h3>\n<p>First.</p>\n</div>\n<p>Second.</p>',
    );
  });

  it.each([
    ['## A Goal\n\nx', 'chapters/03-resultant-lines.md: part A is called “Aim”, not “Goal”.'],
    [
      '## B Predict\n\nx\n\n## A Aim\n\ny',
      'chapters/03-resultant-lines.md: part A after part B. Keep the letters in order, each once.',
    ],
    [
      'Text.\n\n## A Aim\n\nx',
      'chapters/03-resultant-lines.md: text before the first part: “Text.”. Start with “## A Aim”.',
    ],
    [
      '# Title\n\n## A Aim',
      'chapters/03-resultant-lines.md: a “#” heading in the text. The title stands in the front matter.',
    ],
    [
      '## A Aim\n\n### Same\n\nx\n\n### Same\n\ny',
      'chapters/03-resultant-lines.md: the id “same” stands twice. Give one heading an id of its own: “{#other-id}”.',
    ],
  ])('refuse %j', (text, message) => {
    expect(problem(text)).toThrow(message);
  });
});

describe('margin notes', () => {
  const text = `## A Aim

First.[^b] Second.[^a]

[^a]: word **Tip line** The line through
  two contacts.

[^b]: source JCGM 100:2008, 5.1.2.

[^c]: need string.
`;

  it('are numbered in order of first reference, with links both ways', () => {
    const { html } = read(text);
    expect(html).toContain(
      'First.<sup class="note-reference" id="ref-b"><a href="#note-b" aria-label="Note 1: Source">1</a></sup>',
    );
    expect(html).toContain(
      'aria-label="Note 2, back to the text">2</a> · Tip line</b> The line through two contacts.</div>',
    );
  });

  it('have no number when nothing refers to them, and then stand beside the title in the first part', () => {
    const { html } = read(text);
    expect(html).toContain(
      '<div class="note note-need" role="note" id="note-c"><b class="note-title">You need</b> string.</div>',
    );
    expect(html.indexOf('note-c')).toBeLessThan(html.indexOf('First.'));
  });

  it('stand right after the block that first refers to them', () => {
    const { html } = read('## A Aim\n\nFirst.[^a]\n\nSecond.\n\n[^a]: word **A** Text.\n');
    expect(html.indexOf('id="note-a"')).toBeLessThan(html.indexOf('Second.'));
  });

  it.each([
    ['A.[^x]', 'margin note [^x] has no definition. Add “[^x]: word **Title** text”.'],
    [
      'A.\n\n[^x]: remark Text.',
      'margin note [^x] has no kind. Write “[^x]: word **Title** text”; kinds are word, source, need, safety.',
    ],
    ['A.\n\n[^x]: word Text.', 'margin note [^x] has no title. Write “[^x]: word **Title** text”.'],
    ['A.\n\n[^x]: need a\n\n[^x]: need b', 'margin note [^x] is defined twice. Rename one.'],
  ])('refuse %j', (body, message) => {
    expect(problem(`## A Aim\n\n${body}`)).toThrow(`chapters/03-resultant-lines.md: ${message}`);
  });
});

describe('boxes', () => {
  it('are brackets, slips and paper-only text, with Markdown inside', () => {
    const { html } = read(
      '## A Aim\n\n> [!warning] **Narrow.** They cross at $4^\\circ$.\n\n> [!predict] Your guess *first*\n> How high?\n>\n> [[lines 2]]\n\n> [!print]\n> On paper.',
    );
    expect(html).toContain(
      '<div class="bracket warning" role="note">\n<p><strong>Narrow.</strong> They cross at <span class="together"><span class="katex">',
    );
    expect(html).toContain(
      '<div class="slip">\n<p class="box-title">Your guess <em>first</em></p>\n<p>How high?</p>',
    );
    expect(html.match(/<div class="line"><\/div>/g)).toHaveLength(2);
    expect(html).toContain('<div class="print-only">\n<p>On paper.</p>');
  });

  it('leave an ordinary quotation alone and refuse an unknown kind', () => {
    expect(read('## A Aim\n\n> Quoted.').html).toContain('<blockquote>\n<p>Quoted.</p>');
    expect(problem('## A Aim\n\n> [!tip] x')).toThrow('box “[!tip]” is not known. Use [!warning], [!remark]');
  });
});

describe('calculators', () => {
  const calculator = (attributes: string): string =>
    `## E Calculate\n\n<plumb-cross ${attributes}>\n\nAt **84°**.\n\n| a | b |\n|--|--:|\n| 1 | 2 |\n\n</plumb-cross>\n\nAfter.`;

  it('stand in a panel that reads without a script, under the id of their address', () => {
    const chapter = read(calculator('address="E3" heading="Two photographs" angle="90"'));
    expect(chapter.html).toContain(
      '<plumb-cross id="e3" class="calculator wide" address="E3" heading="Two photographs" angle="90">',
    );
    expect(chapter.html).toContain('<p>At <strong>84°</strong>.</p>\n<table>');
    expect(chapter.html).toContain('</section></plumb-cross>\n<p>After.</p>');
    expect(chapter.calculators).toEqual([{ id: 'e3', address: 'E3', heading: 'Two photographs', part: 'E' }]);
    expect(chapter.tags).toEqual(['plumb-cross']);
  });

  it('keep slotted children and small elements without an address', () => {
    const { html, tags } = read(
      '## E Calculate\n\n<plumb-cross address="E3" heading="X">\n\nText.\n\n<div slot="more">More</div>\n\n</plumb-cross>\n\n<plumb-small></plumb-small>\n',
    );
    expect(html).toContain('</section><div slot="more">More</div></plumb-cross>');
    expect(html).toContain('\n<plumb-small class="element"></plumb-small>\n');
    expect(tags).toEqual(['plumb-cross', 'plumb-small']);
  });

  it.each([
    ['address="E5" heading="X"', '<plumb-cross> has the address “E5” but stands in part E of chapter 3.'],
    ['address="D3.1" heading="X"', '<plumb-cross> has the address “D3.1” but stands in part E of chapter 3.'],
    [
      'address="three" heading="X"',
      '<plumb-cross> has the address “three”. Write a letter and the chapter’s number: “E3”, “D3.1”.',
    ],
    ['address="E3"', '<plumb-cross> at E3 has no heading. Add heading="…", the plain title of its panel.'],
  ])('refuse %j', (attributes, message) => {
    expect(problem(calculator(attributes))).toThrow(message);
  });
});

describe('formulas', () => {
  it('have a spoken copy, the reader’s numbers marked, and no style attribute', () => {
    const { html } = read(
      '## A Aim\n\nThe angle $\\beta = \\arctan\\frac{\\given{90}}{h}$ and\n\n$$\n\\sqrt{2}\n$$\n',
    );
    expect(html).toContain('<math');
    expect(html).toContain('class="enclosing given mtight"');
    expect(html).not.toMatch(/\sstyle=/);
  });

  it('hold a short formula and its punctuation together', () => {
    expect(read('## A Aim\n\nWith $d$, then.').html).toMatch(
      /<span class="together"><span class="katex">.*<\/span>,<\/span> then/s,
    );
  });

  it('leave prices alone', () => {
    expect(read('## A Aim\n\nIt costs $5 or $6, or \\$7.').html).toContain('It costs $5 or $6, or $7.');
  });

  it('name file and formula when they are wrong', () => {
    expect(problem('## A Aim\n\n$\\fracc{1}{2}$')).toThrow(
      /^chapters\/03-resultant-lines\.md: formula “\\fracc\{1\}\{2\}”: .*Undefined control sequence/,
    );
  });
});

describe('pictures and links', () => {
  it('give a figure its size and caption, a drawing its words', () => {
    const { html } = read(
      '## A Aim\n\n![A truck](demo/side.jpg "Standing, **level**.")\n\n![Error grows](drawing:error) {.wide}\n',
    );
    expect(html).toContain(
      '<figure><img src="./demo/side.jpg" alt="A truck" width="800" height="600" loading="lazy" decoding="async">',
    );
    expect(html).toContain('<figcaption>Standing, <strong>level</strong>.</figcaption>');
    expect(html).toContain(
      '<figure class="wide"><div class="drawing" role="img" aria-label="Error grows"><div aria-hidden="true"><svg viewBox',
    );
  });

  it('take a caption in single quotes, as the formatter writes it', () => {
    const { html } = read('## A Aim\n\n![A truck](demo/side.jpg \'It says “level”, or "flat".\')\n');
    expect(html).toContain('<figcaption>It says “level”, or &quot;flat&quot;.</figcaption>');
  });

  it('lead to the page of a written chapter', () => {
    const { html, links } = read(
      '## A Aim\n\n[Angles](05-stability-angles.md#e5), [out](https://example.org/).',
    );
    expect(html).toContain('<a href="./stability-angles.html#e5">Angles</a>');
    expect(html).toContain('<a href="https://example.org/">out</a>');
    expect(links).toEqual(['stability-angles.html#e5']);
  });

  it('open the readings panel, and lead to the sheet on the cover without a script', () => {
    const { html, links } = read(
      '## A Aim\n\nSee [the readings](#readings) and [what next](#readings/next).',
    );
    expect(html).toContain('<a href="./index.html#truck" data-readings="readings">the readings</a>');
    expect(html).toContain('data-readings="readings/next"');
    expect(links).toEqual([]);
  });

  it.each([
    [
      '![](demo/side.jpg)',
      'picture “demo/side.jpg” has no alt text. Say between the brackets what it shows.',
    ],
    ['![x](demo/none.jpg)', 'picture “demo/none.jpg” is not in assets/. Write the path relative to assets/.'],
    ['![x](drawing:none)', 'drawing “none” is not known. Add src/figures/drawings/none.ts.'],
    ['[x](04-tilt-test.md)', 'link to “04-tilt-test.md”: that chapter is not written.'],
    ['<p style="color:red">x</p>', '“<p style=”: no script, style or on… in a chapter.'],
    ['<script>1</script>', '“<script”: no script, style or on… in a chapter.'],
  ])('refuse %j', (text, message) => {
    expect(problem(`## A Aim\n\n${text}\n`)).toThrow(message);
  });
});

describe('front matter', () => {
  it.each([
    ['x', 'no front matter. Start the file with "---", "title: …", "---".'],
    [
      '---\ntitle: A\ntitel: B\n---\n',
      'front matter key “titel” is not known. Use number, title, lead, description, layout.',
    ],
    ['---\ntitle: A\ntitle: B\n---\n', 'front matter key “title” stands twice. Keep one.'],
    ['---\nnumber: 3\ntitle: A\nlead: B\n---\n', 'front matter has no “description”. Add “description: …”.'],
    ['---\nnumber: x\ntitle: A\nlead: B\ndescription: C\n---\n', 'number “x” is not a whole number.'],
  ])('refuses %j', (front, message) => {
    expect(problem('## A Aim', front)).toThrow(`chapters/03-resultant-lines.md: ${message}`);
  });

  it('goes on in indented lines', () => {
    const front = '---\nnumber: 3\ntitle: A\nlead: one\n  two\ndescription: C\n---\n';
    expect(read('## A Aim\n\nx', front).front.lead).toBe('one two');
  });
});

describe('the cover', () => {
  const front = '---\ntitle: Plumb Low\nlayout: cover\nlead: L\ndescription: D\n---\n';

  it('sets its first element apart and makes a list of links into buttons', () => {
    const { hero, html } = read(
      '<plumb-truck>\n\nA truck.\n\n</plumb-truck>\n\n[[buttons]]\n- [Go](05-stability-angles.md)\n',
      front,
    );
    expect(hero).toBe('<plumb-truck class="element"><p>A truck.</p>\n</plumb-truck>\n');
    expect(html).toContain('<ul class="buttons"><li><a href="./stability-angles.html">Go</a></li></ul>');
  });

  it('ends its first screen at a rule', () => {
    const { html, below } = read('Above.\n\n---\n\n### Contents\n\nBelow.', front);
    expect(html).toContain('<p>Above.</p>');
    expect(below).toBe('<h2 id="contents"><a href="#contents">Contents</a></h2>\n<p>Below.</p>\n');
  });

  it('has no parts', () => {
    expect(problem('## A Aim', front)).toThrow('the cover has no lettered parts. Use ### for a heading.');
  });
});

describe('numbers', () => {
  const paragraph = (text: string) => /<p>([\s\S]*?)<\/p>/.exec(read(`## A Aim\n\n${text}\n`).html)?.[1];

  it('stay on the line of their unit and their ±, across a line end of the file too', () => {
    expect(paragraph('It is 93.5 ±\n1.5\nmm up, 10 % of 2 kg, 200 mm or more.')).toBe(
      'It is 93.5\u00a0±\u00a01.5\u00a0mm up, 10\u00a0% of 2\u00a0kg, 200\u00a0mm or more.',
    );
    expect(paragraph('At **44.0°** ± 0.5° or **12** mm')).toBe(
      'At <strong>44.0°</strong>\u00a0±\u00a00.5° or <strong>12</strong>\u00a0mm',
    );
    expect(paragraph('In chapter 3, part C')).toBe('In chapter\u00a03, part\u00a0C');
  });

  it('leave words, code and formulas alone', () => {
    expect(paragraph('take 3 more or 4 gears, `5 mm`')).toBe('take 3 more or 4 gears, <code>5 mm</code>');
    expect(paragraph('so $h=60$ mm')).toMatch(/<\/span>\u00a0mm$/);
  });

  it('lose the marks by which the tests find them', () => {
    expect(paragraph('170.8<!--=demo.ahead--> ± 0.6<!--=demo.u-->\nmm')).toBe(
      '170.8\u00a0±\u00a00.6\u00a0mm',
    );
  });
});
