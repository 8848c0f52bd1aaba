import { Matrix, solve } from 'ml-matrix';
import { fitSimilarity } from '../../src/photo/camera';

/** Two ways to carry points of one picture onto another, to show what each does with marks nearly in line. */

interface Point {
  readonly x: number;
  readonly y: number;
}

export interface Pair {
  readonly from: Point;
  readonly to: Point;
}

/** The pictures' own: turn, enlargement and shift, by least squares. */
export function similarityOf(pairs: readonly Pair[]): (point: Point) => Point {
  const fit = fitSimilarity(
    pairs.map(({ from }) => from),
    pairs.map(({ to }) => to),
  );
  if (!fit) throw new Error('the marks coincide');
  const [cos, sin] = [fit.scale * Math.cos(fit.rotation), fit.scale * Math.sin(fit.rotation)];
  return ({ x, y }) => ({ x: cos * x - sin * y + fit.shiftX, y: sin * x + cos * y + fit.shiftY });
}

/**
 * The homography through four pairs, which the notebook never uses: eight numbers from eight equations. Hartley and
 * Zisserman, Multiple View Geometry, 2nd ed., 4.1, with the last element set to one.
 */
export function homographyThrough(pairs: readonly Pair[]): (point: Point) => Point {
  if (pairs.length !== 4) throw new Error('a homography through points takes four');
  const rows = pairs.flatMap(({ from: { x, y }, to }) => [
    [x, y, 1, 0, 0, 0, -to.x * x, -to.x * y],
    [0, 0, 0, x, y, 1, -to.y * x, -to.y * y],
  ]);
  const right = Matrix.columnVector(pairs.flatMap(({ to }) => [to.x, to.y]));
  const h = solve(new Matrix(rows), right).to1DArray();
  const n = (i: number): number => h[i] ?? NaN;
  return ({ x, y }) => {
    const w = n(6) * x + n(7) * y + 1;
    return { x: (n(0) * x + n(1) * y + n(2)) / w, y: (n(3) * x + n(4) * y + n(5)) / w };
  };
}
