import { describe, expect, it } from 'vitest';
import { classesIn, usedRules } from '../../src/site/formulaCss';

describe('the formulas’ style sheet', () => {
  it('keeps rules whose classes occur, and the fonts these name', () => {
    const sheet = `@font-face { font-family: "F_Main"; src: url(m.woff2); }
@font-face { font-family: "F_Script"; src: url(s.woff2); }
.k { font-family: F_Main; }
.k .script, .k .frac { color: red; }
.k .script { font-family: F_Script; }
.k > .frac::before { content: ""; }`;
    expect(usedRules(sheet, new Set(['k', 'frac'])))
      .toBe(`@font-face { font-family: "F_Main"; src: url(m.woff2); }
.k { font-family: F_Main; }
.k .script, .k .frac { color: red; }
.k > .frac::before { content: ""; }`);
  });

  it('knows every class of a page', () => {
    expect(classesIn('<i class="a b"><b id="x" class="c">')).toEqual(['a', 'b', 'c']);
  });
});
