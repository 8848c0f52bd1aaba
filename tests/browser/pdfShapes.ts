import { inflateSync } from 'node:zlib';

/** A filled or stroked path of a printed page, as the box around it in millimeters of paper. */
export interface PdfShape {
  readonly width: number;
  readonly height: number;
}

const MM_PER_POINT = 25.4 / 72;

/** How many pages a PDF has. */
export const pdfPages = (pdf: Buffer): number =>
  [...pdf.toString('latin1').matchAll(/\/Type\s*\/Page\b/g)].length;

/**
 * The paths of a PDF in the order in which they are painted, measured on the paper: what the printer is told, whatever
 * was scaled on the way. Reads the operators of ISO 32000-1, 8.4 and 8.5, that build paths and move the axes; boxes are
 * around the curves' control points, which for circles drawn in quarters is the box of the circle.
 */
export function pdfShapes(pdf: Buffer): PdfShape[] {
  return contentStreams(pdf).flatMap(shapesOf);
}

function contentStreams(pdf: Buffer): string[] {
  const text = pdf.toString('latin1');
  const streams: string[] = [];
  for (const match of text.matchAll(/<<([^]*?)>>\s*stream\r?\n/g)) {
    const start = match.index + match[0].length;
    const bytes = pdf.subarray(start, text.indexOf('endstream', start));
    // Fonts, pictures and tables have a type; a page's drawing has none.
    if (!/FlateDecode/.test(match[1] ?? '') || /\/(Type|Subtype|Length1)\b/.test(match[1] ?? '')) continue;
    streams.push(inflateSync(bytes).toString('latin1'));
  }
  return streams;
}

type Matrix = readonly [number, number, number, number, number, number];

/** Axes m moved by n before them. */
const moved = (n: Matrix, m: Matrix): Matrix => [
  n[0] * m[0] + n[1] * m[2],
  n[0] * m[1] + n[1] * m[3],
  n[2] * m[0] + n[3] * m[2],
  n[2] * m[1] + n[3] * m[3],
  n[4] * m[0] + n[5] * m[2] + m[4],
  n[4] * m[1] + n[5] * m[3] + m[5],
];

function shapesOf(stream: string): PdfShape[] {
  const shapes: PdfShape[] = [];
  const kept: Matrix[] = [];
  let axes: Matrix = [1, 0, 0, 1, 0, 0];
  let numbers: number[] = [];
  let points: { x: number; y: number }[] = [];
  const add = (x: number, y: number): void => {
    points.push({ x: axes[0] * x + axes[2] * y + axes[4], y: axes[1] * x + axes[3] * y + axes[5] });
  };
  const box = (along: 'x' | 'y'): number => {
    const values = points.map((point) => point[along]);
    return (Math.max(...values) - Math.min(...values)) * MM_PER_POINT;
  };
  for (const token of stream.split(/\s+/)) {
    const number = Number(token);
    if (token !== '' && Number.isFinite(number)) {
      numbers.push(number);
      continue;
    }
    const [a = 0, b = 0, c = 0, d = 0, e = 0, f = 0] = numbers;
    if (token === 'q') kept.push(axes);
    else if (token === 'Q') axes = kept.pop() ?? axes;
    else if (token === 'cm') axes = moved([a, b, c, d, e, f], axes);
    else if (token === 're') {
      add(a, b);
      add(a + c, b + d);
    } else if (['m', 'l', 'c', 'v', 'y'].includes(token)) {
      for (let i = 0; i + 1 < numbers.length; i += 2) add(numbers[i] ?? 0, numbers[i + 1] ?? 0);
    } else if (['f', 'f*', 'S', 's', 'B', 'b'].includes(token) && points.length > 0) {
      shapes.push({ width: box('x'), height: box('y') });
      points = [];
    } else if (token === 'n') points = [];
    numbers = [];
  }
  return shapes;
}
