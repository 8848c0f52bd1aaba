import katex from 'katex';
import { ChapterError } from './chapterError.ts';
import type { StyleClasses } from './styleClasses.ts';

/** Short forms for formulas that show the reader's numbers. */
const MACROS = {
  /** A number the reader gave. */
  '\\given': '\\htmlClass{given}{#1}',
  /** A place whose text a calculator may rewrite: \live{name}{0.00}. */
  '\\live': '\\htmlClass{live live-#1}{#2}',
  /** What follows from the working: double underline. */
  '\\result': '\\htmlClass{worked}{#1}',
};

export interface FormulaOptions {
  readonly file: string;
  readonly display: boolean;
  /** Whether a MathML copy for screen readers is added; leave it out where the page gives its own spoken form. */
  readonly spoken: boolean;
  readonly styles: StyleClasses;
}

/** A formula in TeX as HTML without style attributes. A mistake in it throws a ChapterError naming file and formula. */
export function renderFormula(tex: string, { file, display, spoken, styles }: FormulaOptions): string {
  try {
    const html = katex.renderToString(tex, {
      displayMode: display,
      output: spoken ? 'htmlAndMathml' : 'html',
      throwOnError: true,
      strict: (code: string) => (code === 'htmlExtension' ? 'ignore' : 'error'),
      trust: (context) => context.command === '\\htmlClass',
      macros: { ...MACROS },
    });
    return styles.rewrite(html);
  } catch (error) {
    const reason = error instanceof Error ? error.message : String(error);
    throw new ChapterError(file, `formula “${tex.trim()}”: ${reason}`);
  }
}
