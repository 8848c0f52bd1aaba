import katex from 'katex';
import { ChapterError } from './chapterError.ts';
import type { StyleClasses } from './styleClasses.ts';

/** Short forms for formulas that show the reader's numbers. */
const MACROS = {
  /** A number the reader gave. */
  '\\given': '\\htmlClass{given}{#1}',
  /** What follows from the working: double underline. */
  '\\result': '\\htmlClass{worked}{#1}',
};

export interface FormulaOptions {
  readonly file: string;
  readonly display: boolean;
  readonly styles: StyleClasses;
}

/** A formula in TeX as HTML, with a MathML copy for screen readers, without style attributes. A mistake in it throws a ChapterError naming file and formula. */
export function renderFormula(tex: string, { file, display, styles }: FormulaOptions): string {
  try {
    const html = katex.renderToString(tex, {
      displayMode: display,
      output: 'htmlAndMathml',
      throwOnError: true,
      strict: (code: string) => (code === 'htmlExtension' ? 'ignore' : 'error'),
      trust: (context) => context.command === '\\htmlClass',
      macros: { ...MACROS },
    });
    // The TeX source inside the spoken copy is for editors, not for readers.
    return styles.rewrite(html.replace(/<annotation[^>]*>[\s\S]*?<\/annotation>/g, ''));
  } catch (error) {
    const reason = error instanceof Error ? error.message : String(error);
    throw new ChapterError(file, `formula “${tex.trim()}”: ${reason}`);
  }
}
