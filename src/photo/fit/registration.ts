import { fitSimilarity } from '../camera';
import type { ViewPoint } from '../camera';

/** How the body marks of one picture lie on those of another, by similarity alone. */

export interface Registration {
  readonly keys: readonly string[];
  /** Root mean square misfit per degree of freedom, m; null with two marks: there is no check. */
  readonly misfit: number | null;
  /** What the marks' own uncertainty lets one expect of that misfit, m. */
  readonly expected: number;
  readonly distances: readonly number[];
  /** Largest distance between two marks, m. */
  readonly span: number;
  /** Smaller over larger spread of the marks about their middle: 0 when they lie in one line. */
  readonly roundness: number;
}

/** Registration of marks `from` onto the same marks `to`, both in the plane of the marks, m. */
export function registrationOf(
  keys: readonly string[],
  from: readonly ViewPoint[],
  to: readonly ViewPoint[],
  expected: number,
): Registration {
  const plane = (points: readonly ViewPoint[]) => points.map(({ a, b }) => ({ x: a, y: b }));
  const fit = fitSimilarity(plane(from), plane(to));
  let span = 0;
  for (const p of to) for (const q of to) span = Math.max(span, Math.hypot(p.a - q.a, p.b - q.b));
  const n = to.length;
  const [ma, mb] = [to.reduce((s, p) => s + p.a, 0) / n, to.reduce((s, p) => s + p.b, 0) / n];
  let [saa, sab, sbb] = [0, 0, 0];
  for (const { a, b } of to) {
    saa += (a - ma) ** 2;
    sab += (a - ma) * (b - mb);
    sbb += (b - mb) ** 2;
  }
  const middle = (saa + sbb) / 2;
  const half = Math.hypot((saa - sbb) / 2, sab);
  const roundness = middle + half > 0 ? Math.sqrt(Math.max(0, middle - half) / (middle + half)) : 0;
  return {
    keys,
    misfit: fit?.misfit ?? null,
    expected,
    distances: fit?.distances ?? [],
    span,
    roundness,
  };
}
