import { halfAxes, lieOf } from './ellipse';
import type { Ellipse } from './ellipse';
import { ellipseStep } from './ellipseFit';
import type { EdgePlace, EllipseStep } from './ellipseFit';
import type { Gray } from './gray';
import { NormalEquations } from './normalEquations';
import { ShapeTable } from './profiles';

/** A border fitted to the pixels themselves. */
export interface RefinedRound {
  readonly step: EllipseStep;
  /** Level outside less level inside, levels, and its standard deviation around the border. */
  readonly contrast: number;
  readonly noise: number;
  readonly blur: number;
  /** Part of the border that is seen in its place, 0 to 1. */
  readonly agreeing: number;
  /** Part of the border that lies in the picture. */
  readonly inside: number;
}

const TABLES = [0.4, 0.55, 0.75, 1, 1.4, 2, 2.8].map(
  (blur) => new ShapeTable({ kind: 'step', width: 0, blur }),
);

/** Pixels near a border, by piece of the border. */
interface Piece {
  readonly outside: number[];
  readonly level: number[];
}

const piecesOf = (ellipse: Ellipse): number => {
  const [long, short] = halfAxes(ellipse);
  return Math.max(16, Math.min(64, Math.round((Math.PI * (long + short)) / 6)));
};

function pixelsNear({ width, height, levels }: Gray, ellipse: Ellipse, reach: number): Piece[] {
  const pieces = Array.from({ length: piecesOf(ellipse) }, (): Piece => ({ outside: [], level: [] }));
  const { x, y, a, b, d } = ellipse;
  const halfWidth = Math.hypot(a, b) + reach + 1;
  const halfHeight = Math.hypot(b, d) + reach + 1;
  const first = Math.max(0, Math.floor(y - halfHeight));
  const last = Math.min(height - 1, Math.ceil(y + halfHeight));
  const from = Math.max(0, Math.floor(x - halfWidth));
  const to = Math.min(width - 1, Math.ceil(x + halfWidth));
  // Row by row only where the border can be: between an ellipse larger and one smaller by `reach`.
  const [, short] = halfAxes(ellipse);
  const det = (a * d - b * b) ** 2;
  const square = (d * d + b * b) / det;
  const mixed = (-b * (a + d)) / det;
  const upright = (a * a + b * b) / det;
  const halfChord = (part: number, row: number): number =>
    Math.sqrt((mixed * row) ** 2 - square * (upright * row * row - part * part)) / square;
  for (let j = first; j <= last; j++) {
    const row = j + 0.5 - y;
    const middle = x - (mixed * row) / square;
    const outer = halfChord(1 + reach / short, row);
    if (Number.isNaN(outer)) continue;
    const inner = 1 > reach / short ? halfChord(1 - reach / short, row) : NaN;
    const end = Math.min(to, Math.ceil(middle + outer));
    for (let i = Math.max(from, Math.floor(middle - outer - 1)); i <= end; i++) {
      if (Math.abs(i + 0.5 - middle) < inner) {
        i = Math.floor(middle + inner - 0.5);
        continue;
      }
      const lie = lieOf(ellipse, i + 0.5, j + 0.5);
      if (Math.abs(lie.outside) > reach) continue;
      const place = Math.round((lie.turn / (2 * Math.PI)) * pieces.length);
      const piece = pieces[(place + pieces.length) % pieces.length];
      piece?.outside.push(lie.outside);
      piece?.level.push(levels[j * width + i] ?? 0);
    }
  }
  return pieces;
}

interface Edges {
  readonly places: EdgePlace[];
  readonly contrasts: number[];
  readonly contrast: number;
  readonly residual: number;
  readonly noise: number;
}

/** Edge place and contrast of each piece; `residual` is what the table leaves unexplained in all. */
function edgesOf(pieces: readonly Piece[], table: ShapeTable, sign: number): Edges {
  const equations = new NormalEquations(3);
  const row = [1, 0, 0];
  const found: { turn: number; contrast: number; shift: number; u: number; variance: number }[] = [];
  let residual = 0;
  pieces.forEach(({ outside, level }, k) => {
    equations.clear();
    outside.forEach((e, i) => {
      row[1] = table.level(e);
      row[2] = -table.slope(e);
      equations.add(row, level[i] ?? 0);
    });
    if (equations.count < 8) return;
    const solution = equations.solve();
    if (!solution) return;
    residual += solution.residual;
    found.push({
      turn: (2 * Math.PI * k) / pieces.length,
      contrast: solution.values[1] ?? 0,
      shift: solution.values[2] ?? 0,
      u: Math.sqrt(solution.covariance[8] ?? 0),
      variance: solution.residual / (equations.count - 3),
    });
  });
  const middle = (values: readonly number[]): number =>
    values.toSorted((a, b) => a - b)[values.length >> 1] ?? 0;
  const contrast = middle(found.map((edge) => edge.contrast));
  const usual = middle(found.map(({ variance }) => variance));
  const kept = found.filter((edge) => sign * edge.contrast > 0.25 * sign * contrast);
  return {
    places: kept.map((edge) => ({
      turn: edge.turn,
      outside: Math.max(-1.5, Math.min(1.5, edge.shift / edge.contrast)),
      u: (Math.sqrt(Math.max(1 / 12, usual, edge.variance)) * edge.u) / Math.abs(edge.contrast),
    })),
    contrasts: kept.map((edge) => edge.contrast),
    contrast,
    residual,
    noise: Math.sqrt(Math.max(0, usual)),
  };
}

const TURNS = 5;

/** Fits a border to the pixels near it; null where it does not hold together. */
export function refinedRound(picture: Gray, start: Ellipse, sign: number): RefinedRound | null {
  let ellipse = start;
  let table = TABLES[2];
  let step: EllipseStep | null = null;
  let edges: Edges | null = null;
  let pieces: Piece[] = [];
  for (let turn = 0; turn < TURNS; turn++) {
    const [, short] = halfAxes(ellipse);
    pieces = pixelsNear(picture, ellipse, Math.max(2, Math.min(4, 0.3 * short)));
    if (turn === 1) {
      let least = Infinity;
      for (const other of TABLES) {
        const { residual } = edgesOf(pieces, other, sign);
        if (residual < least) {
          least = residual;
          table = other;
        }
      }
    }
    if (!table) return null;
    edges = edgesOf(pieces, table, sign);
    step = ellipseStep(ellipse, edges.places, 0.05);
    if (!step) return null;
    ellipse = step.ellipse;
    // Most candidates are no rounds, and that shows at once.
    if (edges.places.length < 0.5 * pieces.length) return null;
  }
  if (!step || !edges || !table) return null;
  const weights = step.weights;
  const inside = pieces.filter(({ outside }) => Math.max(...outside) > 1).length / pieces.length;
  return {
    step,
    contrast: edges.contrast,
    noise: edges.noise,
    blur: table.shape.blur,
    agreeing: edges.places.filter((_, i) => (weights[i] ?? 0) > 0.2).length / pieces.length,
    inside,
  };
}
