import fc from 'fast-check';

/** Where the words of a figure stand, worked out as a browser would, without one. */

/**
 * Advances of the sans face in em at weight 750 with tabular figures, measured in a browser with the font the pages ship
 * (Atkinson Hyperlegible Next, OFL): its widest letters that any figure uses.
 */
export const ADVANCES: Readonly<Record<string, number>> = Object.fromEntries(
  (
    "'0.222 ’0.247 |0.258 j0.262 ,0.285 .0.286 :0.286 ;0.286 i0.301 ·0.306 l0.331 (0.343 )0.343 -0.375 f0.377 t0.382 " +
    'r0.392 °0.404 /0.412 I0.432 “0.468 ”0.468 –0.5 c0.516 z0.516 s0.517 y0.518 T0.518 v0.526 ×0.537 x0.553 L0.554 ' +
    'a0.558 e0.569 F0.569 k0.57 J0.572 u0.573 h0.576 n0.576 o0.582 −0.592 +0.592 g0.601 b0.603 d0.603 p0.603 E0.604 ' +
    'q0.605 S0.614 Y0.617 ±0.618 Z0.621 V0.624 00.632 10.632 20.632 30.632 40.632 50.632 60.632 70.632 80.632 90.632 ' +
    'P0.637 B0.65 R0.658 C0.661 K0.671 U0.685 A0.69 D0.693 X0.699 H0.703 N0.723 G0.724 &0.724 w0.733 O0.754 Q0.764 ' +
    '…0.806 →0.838 M0.866 m0.89 W0.893 %0.98'
  )
    .split(' ')
    .map((entry): [string, number] => [entry.charAt(0), Number(entry.slice(1))])
    .concat([
      [' ', 0.32],
      ['\u00a0', 0.32],
    ]),
);

/** Width of a line in that face, px. */
export const advance = (text: string, size: number): number =>
  Array.from(text).reduce((sum, sign) => {
    const own = ADVANCES[sign];
    if (own === undefined) throw new Error(`No width is known of “${sign}”.`);
    return sum + own * size;
  }, 0);

/** Words of any letters, digits and signs that the table knows, some of them very long. */
export const someWords: fc.Arbitrary<string> = fc
  .array(
    fc.string({
      unit: fc.constantFrom(...Object.keys(ADVANCES).filter((sign) => sign.trim() !== '')),
      minLength: 1,
      maxLength: 16,
    }),
    { minLength: 1, maxLength: 14 },
  )
  .map((words) => words.join(' '));

const SIZES: readonly (readonly [string, number])[] = [
  ['label-quiet', 14],
  ['chart-word', 14],
  ['chart-plus-minus', 14],
];

const sizeOf = (element: Element): number => {
  const named = SIZES.find(([name]) => element.classList.contains(name));
  if (named) return named[1];
  if (element.classList.contains('chart-number')) return element.closest('.chart-answer') ? 19 : 17;
  return 15;
};

export interface TextBox {
  readonly text: string;
  readonly left: number;
  readonly right: number;
  readonly top: number;
  readonly bottom: number;
}

/** Every line of text in a figure. Letters reach 0.72 em over and 0.2 em under the baseline. */
export function textBoxes(figure: Element): TextBox[] {
  return [...figure.querySelectorAll('text')].map((element) => {
    const parts = [...element.childNodes].flatMap((node) => {
      const text = node.textContent ?? '';
      if (node.nodeType === 3) return [{ text, size: sizeOf(element) }];
      return node instanceof Element && node.localName === 'tspan' ? [{ text, size: sizeOf(node) }] : [];
    });
    const width = parts.reduce((sum, { text, size }) => sum + advance(text, size), 0);
    const size = Math.max(...parts.map((part) => part.size));
    const x = Number(element.getAttribute('x'));
    const y = Number(element.getAttribute('y'));
    const anchor = ['end', 'middle'].find((name) => element.classList.contains(name));
    const left = x - (anchor === 'end' ? width : anchor === 'middle' ? width / 2 : 0);
    return {
      text: parts.map((part) => part.text).join(''),
      left,
      right: left + width,
      top: y - 0.72 * size,
      bottom: y + 0.2 * size,
    };
  });
}

/** Pairs of texts that touch, and texts that leave the figure; none in a good one. */
export function misplacedTexts(figure: Element): string[] {
  const [, , width = NaN, height = NaN] = (figure.getAttribute('viewBox') ?? '').split(' ').map(Number);
  const boxes = textBoxes(figure);
  const outside = boxes
    .filter(
      ({ left, right, top, bottom }) =>
        !(left >= -0.02 && right <= width + 0.02 && top >= 0 && bottom <= height),
    )
    .map(({ text }) => `“${text}” leaves the figure`);
  const touching = boxes.flatMap((a, i) =>
    boxes
      .slice(i + 1)
      .filter(
        (b) =>
          Math.min(a.right, b.right) > Math.max(a.left, b.left) &&
          Math.min(a.bottom, b.bottom) > Math.max(a.top, b.top),
      )
      .map((b) => `“${a.text}” touches “${b.text}”`),
  );
  return [...outside, ...touching];
}
