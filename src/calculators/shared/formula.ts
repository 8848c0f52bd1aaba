import { css, html, mathml, nothing, type TemplateResult } from 'lit';

/**
 * Live formulas as MathML: set by the browser, read aloud by screen readers, a fraction of a typesetter's weight.
 * Fixed formulas of the text are set at build instead. Everything here returns a fragment to be put inside
 * formula().
 */
export type MathFragment = TemplateResult<3>;

/** A formula on a line of its own. */
export const formula = (...content: readonly MathFragment[]): TemplateResult<1> =>
  html`<div class="formula"><math display="block">${content}</math></div>`;
/** A formula within a sentence. */
export const inlineFormula = (...content: readonly MathFragment[]): TemplateResult<1> =>
  html`<math>${content}</math>`;

/** A quantity's letter: one letter italic, with an upright `index` if given ("d", "left"). */
export function letter(name: string, index?: string): MathFragment {
  const sign = mathml`<mi>${name}</mi>`;
  return index === undefined ? sign : mathml`<msub>${sign}<mtext>${index}</mtext></msub>`;
}
/** A worked-out number. */
export const number = (text: string): MathFragment => mathml`<mn>${text}</mn>`;
/** A number the reader gave: blue. */
export const givenNumber = (text: string): MathFragment => mathml`<mn class="given">${text}</mn>`;
/** The number that was asked for: bold. */
export const resultNumber = (text: string): MathFragment => mathml`<mn class="result">${text}</mn>`;
/** A sign between terms: "=", "+", "−", "·"; brackets keep the size of their text. */
export const sign = (text: string): MathFragment => mathml`<mo stretchy="false">${text}</mo>`;
/** A function by name, upright: "arctan". */
export const named = (name: string): MathFragment =>
  mathml`<mi mathvariant="normal" class="name">${name}</mi><mspace width="0.17em"></mspace>`;
export const text = (words: string): MathFragment => mathml`<mtext>${words}</mtext>`;
/** A thin space, between a quantity and the function that multiplies it, or a number and its unit. */
export const thinSpace = mathml`<mspace width="0.22em"></mspace>`;
export const row = (...content: readonly MathFragment[]): MathFragment => mathml`<mrow>${content}</mrow>`;
export const fraction = (above: MathFragment, below: MathFragment): MathFragment =>
  mathml`<mfrac>${above}${below}</mfrac>`;
/** `content` in round brackets that grow with it. */
export const brackets = (...content: readonly MathFragment[]): MathFragment =>
  mathml`<mrow><mo>(</mo>${content}<mo>)</mo></mrow>`;
export const squared = (base: MathFragment): MathFragment => mathml`<msup>${base}<mn>2</mn></msup>`;
export const squareRoot = (content: MathFragment): MathFragment => mathml`<msqrt>${content}</msqrt>`;

/** One step of the working: a sentence, the relation in symbols, the same with the reader's numbers, what follows. */
export interface WorkingStep {
  readonly sentence: TemplateResult | string;
  readonly symbols?: TemplateResult;
  readonly numbers?: TemplateResult;
  /** Set with the double underline. */
  readonly result?: TemplateResult;
  readonly after?: TemplateResult | string;
}

/** Steps of the working in order, for an element with workingStyles. */
export const workingSteps = (steps: readonly WorkingStep[]): TemplateResult =>
  html`<ol class="working-steps">
    ${steps.map(
      ({ sentence, symbols, numbers, result, after }) =>
        html`<li>
          <p>${sentence}</p>
          ${symbols ?? nothing} ${numbers ?? nothing}
          ${result ? html`<div class="formula-result"><span>${result}</span></div>` : nothing}
          ${after ? html`<p>${after}</p>` : nothing}
        </li>`,
    )}
  </ol>`;

/** The formulas take the fonts of the formulas in the text where the page has loaded them. */
export const workingStyles = css`
  .working-steps {
    display: grid;
    grid-template-columns: minmax(0, 1fr);
    gap: 1rem;
    list-style: none;
    max-width: 42rem;
  }
  .working-steps p {
    font-size: 0.9375rem;
    line-height: 1.5;
  }
  math {
    font-family: KaTeX_Main, 'Latin Modern Math', 'STIX Two Math', 'Cambria Math', math, serif;
    font-size: 1.12em;
    font-variant-numeric: normal;
    font-feature-settings: normal;
  }
  .formula {
    padding: 0.3rem 0 0.3rem 1rem;
    overflow-x: auto;
    overflow-y: hidden;
  }
  math[display='block'] {
    display: inline math;
    math-style: normal;
  }
  mi:not(.name) {
    font-family: KaTeX_Math, KaTeX_Main, 'Latin Modern Math', 'Cambria Math', math, serif;
    font-style: italic;
    text-transform: none;
  }
  mtext {
    font-size: 0.92em;
  }
  msub > mtext {
    font-size: 0.72em;
  }
  mn.given {
    color: var(--blue);
  }
  mn.result {
    font-weight: 700;
  }
  .formula-result > span {
    display: inline-block;
    margin-inline-start: 1rem;
    border-block-end: 4px double var(--ink);
  }
  .formula-result .formula {
    padding-inline: 0.1rem 0.3rem;
    overflow: visible;
  }
  /* On a phone a long formula gets smaller before it has to be pushed sideways. */
  @container calculator (max-width: 38rem) {
    math {
      font-size: clamp(0.6875rem, 3.7cqi, 1.12em);
    }
    .formula {
      padding-inline-start: 0;
    }
  }
  @media print {
    mn.given {
      color: inherit;
      text-decoration: underline;
    }
    .working-steps li {
      break-inside: avoid;
    }
  }
`;
