import { fitCurve, curveAt } from './curve';
import type { Center, Curve } from './curve';
import { NormalEquations } from './normalEquations';
import { ShapeTable } from './profiles';
import type { Shape } from './profiles';
import { bestShape, SHAPE_PLACES } from './bestShape';
import type { ShapeFound } from './bestShape';
import { acrossOf, blockPlace, COLUMNS_PER_PIXEL, STRIP_REACH } from './strip';
import type { Strip } from './strip';

/**
 * Everything long that runs between the marks: the string, and whatever else could be taken for it. The strongest is
 * found, fitted and taken away from the strip, until nothing is left; then each is fitted again with all the
 * others taken away, so that a neighbor shifts nothing. (Mallat and Zhang 1993 call this matching pursuit with back-fitting.)
 */
export interface Structure {
  readonly table: ShapeTable;
  readonly curve: Curve;
  /** Signed contrast in each block, levels. */
  readonly contrasts: Float64Array;
  /** Median of the contrasts where it is seen. */
  readonly contrast: number;
  /** Part of the length between the marks where it is seen in its place, 0 to 1. */
  readonly coverage: number;
  /** The same of the outer seventh of the length, at the mark where less is seen: a string reaches both marks. */
  readonly atMarks: number;
}

/** Shapes that are looked for at first; their true width and blur are fitted afterwards. */
const LOOKED_FOR: readonly Shape[] = [
  { kind: 'bar', width: 1.6, blur: 0.7 },
  { kind: 'bar', width: 4, blur: 0.7 },
  { kind: 'step', width: 0, blur: 0.8 },
];
/** Half the window in which a shape is compared with the ground beside it, px. */
const WINDOW = 5.5;
const TAPS = 2 * WINDOW * COLUMNS_PER_PIXEL + 1;
const SIDE = (TAPS - 1) / 2;
const BOWS = [-2.5, 0, 2.5];
const MOST_STRUCTURES = 5;
/** What is fainter is no string and disturbs none, levels. */
const LEAST_CONTRAST = 4;

/** A shape as a filter that sees neither the ground's level nor its slope; sum of squares 1. */
function matchedFilter(shape: Shape): Float64Array {
  const across = Array.from({ length: TAPS }, (_, i) => i / COLUMNS_PER_PIXEL - WINDOW);
  const table = new ShapeTable(shape);
  const raw = across.map((e) => table.level(e));
  const mean = raw.reduce((a, b) => a + b, 0) / TAPS;
  const spread = across.reduce((sum, e) => sum + e * e, 0);
  const slope = raw.reduce((sum, value, i) => sum + value * (across[i] ?? 0), 0) / spread;
  const free = raw.map((value, i) => value - mean - slope * (across[i] ?? 0));
  const norm = Math.sqrt(free.reduce((sum, value) => sum + value * value, 0));
  return Float64Array.from(free, (value) => value / norm);
}

const FILTERS = LOOKED_FOR.map(matchedFilter);

/** Response of a filter in each block and column, levels; 0 where the picture ends. */
function responses({ blocks, columns }: Strip, levels: Float32Array, filter: Float64Array): Float32Array {
  const response = new Float32Array(blocks * columns);
  for (let block = 0; block < blocks; block++)
    for (let column = SIDE; column < columns - SIDE; column++) {
      let sum = 0;
      const at = block * columns + column - SIDE;
      for (let tap = 0; tap < TAPS; tap++) sum += (filter[tap] ?? 0) * (levels[at + tap] ?? 0);
      response[block * columns + column] = Number.isNaN(sum) ? 0 : sum;
    }
  return response;
}

/** Responses in units of their own scatter, growing ever more slowly: a short strong thing must not outweigh a long faint one. */
function evidence({ blocks, columns }: Strip, response: Float32Array): Float32Array {
  // What runs along the strip cancels between neighbors; what remains is noise and texture.
  const differences: number[] = [];
  for (let block = 1; block < blocks; block++)
    for (let column = SIDE + (block % 4); column < columns - SIDE; column += 4) {
      const here = response[block * columns + column] ?? 0;
      const before = response[(block - 1) * columns + column] ?? 0;
      if (here !== 0 && before !== 0) differences.push(Math.abs(here - before));
    }
  const sorted = Float64Array.from(differences).sort();
  const scatter = Math.max(0.5, (sorted[sorted.length >> 1] ?? 0) * (1.4826 / Math.SQRT2));
  return response.map((value) => {
    const z = value / scatter;
    return z < 0 ? -4 * Math.log1p(-z / 4) : 4 * Math.log1p(z / 4);
  });
}

interface Candidate {
  readonly shape: Shape;
  readonly curve: Curve;
}

/** Columns between the ends that lines are tried at, and furthest parallel shift when the shape is chosen. */
const LINE_STEP = 2;
const MOST_SHIFT = 4 * COLUMNS_PER_PIXEL;

/** An edge explains part of two lines side by side: it must do clearly better than a bar. */
const BAR_FIRST = 1.1;

/** The line or slight curve with the most evidence along it. */
function strongest(strip: Strip, levels: Float32Array): Candidate | null {
  const { blocks, columns } = strip;
  const last = columns - SIDE - 1;
  const raw = FILTERS.map((filter) => responses(strip, levels, filter));
  const stride = blocks >= 32 ? 2 : 1;
  let score = 0;
  let line = { top: 0, bottom: 0, bow: 0 };
  const columnOf = ({ top, bottom, bow }: typeof line, block: number): number => {
    const v = blockPlace(block, blocks);
    return Math.floor(top + ((bottom - top) * (v + 1)) / 2 + bow * COLUMNS_PER_PIXEL * (1 - v * v) + 0.5);
  };
  // Where each block's share of top and bottom lies, and its bow; looked up millions of times.
  const places: number[] = [];
  for (let block = 0; block < blocks; block += stride) places.push(block);
  const shares = Float64Array.from(places, (block) => (blockPlace(block, blocks) + 1) / 2);
  const offsets = Int32Array.from(places, (block) => block * columns);
  for (const response of raw) {
    const proof = evidence(strip, response);
    for (const bow of BOWS) {
      const bends = shares.map((share) => bow * COLUMNS_PER_PIXEL * 4 * share * (1 - share) + 0.5);
      for (let top = SIDE; top <= last; top += LINE_STEP)
        for (let bottom = SIDE; bottom <= last; bottom += LINE_STEP) {
          const run = bottom - top;
          let sum = 0;
          for (let i = 0; i < shares.length; i++) {
            const column = top + run * (shares[i] ?? 0) + (bends[i] ?? 0);
            sum += proof[(offsets[i] ?? 0) + (column | 0)] ?? 0;
          }
          sum = Math.abs(sum) * stride;
          if (sum > score) {
            score = sum;
            line = { top, bottom, bow };
          }
        }
    }
  }
  if (score < Math.max(blocks, 6 * Math.sqrt(blocks))) return null;
  // Beside an edge a bar shows evidence too: the shape and the place that explain most of the mean profile decide.
  let most = 0;
  let shape = LOOKED_FOR[0];
  let shift = 0;
  raw.forEach((response, which) => {
    for (let by = -MOST_SHIFT; by <= MOST_SHIFT; by++) {
      let sum = 0;
      for (let block = 0; block < blocks; block++) {
        const column = columnOf(line, block) + by;
        if (column >= SIDE && column <= last) sum += response[block * columns + column] ?? 0;
      }
      const explained = Math.abs(sum) * (LOOKED_FOR[which]?.kind === 'bar' ? BAR_FIRST : 1);
      if (explained > most) {
        most = explained;
        shape = LOOKED_FOR[which];
        shift = by;
      }
    }
  });
  if (!shape) return null;
  const upper = acrossOf(line.top + shift);
  const lower = acrossOf(line.bottom + shift);
  return { shape, curve: [(upper + lower) / 2 + line.bow, (lower - upper) / 2, -line.bow] };
}

interface Profiles {
  readonly centers: readonly Center[];
  readonly contrasts: Float64Array;
  readonly contrastUs: Float64Array;
}

/** Center and contrast in each block of a strip, near a curve. A block without enough columns has contrast 0. */
function profilesNear(strip: Strip, levels: Float32Array, table: ShapeTable, curve: Curve): Profiles {
  const { blocks, columns } = strip;
  const equations = new NormalEquations(4);
  const row = [1, 0, 0, 0];
  const reach = table.extent + 2.5;
  const contrasts = new Float64Array(blocks);
  const contrastUs = new Float64Array(blocks).fill(Infinity);
  const centers: Center[] = [];
  const found: { block: number; slope: number; u: number; contrastU: number; variance: number }[] = [];
  for (let block = 0; block < blocks; block++) {
    const middle = curveAt(curve, blockPlace(block, blocks));
    equations.clear();
    const from = Math.max(0, Math.ceil((middle - reach + STRIP_REACH) * COLUMNS_PER_PIXEL));
    const to = Math.min(columns - 1, Math.floor((middle + reach + STRIP_REACH) * COLUMNS_PER_PIXEL));
    for (let column = from; column <= to; column++) {
      const level = levels[block * columns + column] ?? 0;
      if (Number.isNaN(level)) continue;
      const e = acrossOf(column) - middle;
      row[1] = e;
      row[2] = table.level(e);
      row[3] = -table.slope(e);
      equations.add(row, level);
    }
    if (equations.count < 2 * reach) continue;
    const solution = equations.solve();
    if (!solution) continue;
    const variance = solution.residual / (equations.count - 4);
    contrasts[block] = solution.values[2] ?? 0;
    found.push({
      block,
      slope: solution.values[3] ?? 0,
      u: Math.sqrt(solution.covariance[15] ?? 0),
      contrastU: Math.sqrt(solution.covariance[10] ?? 0),
      variance,
    });
  }
  // One noise for all blocks: a single block's residuals are too few to tell its own.
  const variances = found.map(({ variance }) => variance).sort((a, b) => a - b);
  const noise = Math.sqrt(Math.max(0.05, variances[variances.length >> 1] ?? 0));
  for (const { block, slope, u, contrastU } of found) {
    const contrast = contrasts[block] ?? 0;
    contrastUs[block] = noise * contrastU;
    if (Math.abs(contrast) < 1e-6) continue;
    const v = blockPlace(block, blocks);
    const shift = Math.max(-2, Math.min(2, slope / contrast));
    centers.push({ v, across: curveAt(curve, v) + shift, u: (noise * u) / Math.abs(contrast) });
  }
  return { centers, contrasts, contrastUs };
}

const quantile = (values: readonly number[], part: number): number =>
  values[Math.min(values.length - 1, Math.floor(part * values.length))] ?? 0;

/** Median contrast where a structure is there at all: it may be seen along less than half of the length. */
function usualContrast(contrasts: Float64Array): number {
  const sign = Math.sign(contrasts.reduce((sum, value) => sum + value, 0));
  const sorted = Array.from(contrasts, (value) => sign * value).sort((a, b) => a - b);
  const strong = 0.4 * quantile(sorted, 0.8);
  return (
    sign *
    quantile(
      sorted.filter((value) => value > strong),
      0.5,
    )
  );
}

/** The shape that fits the mean profile along a curve best. */
function shapeAlong(
  strip: Strip,
  levels: Float32Array,
  curve: Curve,
  contrasts: Float64Array,
): ShapeFound | null {
  const { blocks, columns } = strip;
  const usual = usualContrast(contrasts);
  const sums = new Float64Array(SHAPE_PLACES.length);
  let used = 0;
  for (let block = 0; block < blocks; block++) {
    const contrast = contrasts[block] ?? 0;
    // Only where it is plainly there, and each block by how plainly.
    if (!(contrast / usual > 0.4)) continue;
    const first = (curveAt(curve, blockPlace(block, blocks)) - 5 + STRIP_REACH) * COLUMNS_PER_PIXEL;
    if (first < 0 || first + 10 * COLUMNS_PER_PIXEL >= columns - 1) continue;
    let whole = 0;
    const row = SHAPE_PLACES.map((e) => {
      const place = first + (e + 5) * COLUMNS_PER_PIXEL;
      const i = Math.floor(place);
      const low = levels[block * columns + i] ?? 0;
      const level = low + (place - i) * ((levels[block * columns + i + 1] ?? 0) - low);
      whole += level;
      return level;
    });
    if (Number.isNaN(whole)) continue;
    row.forEach((level, i) => (sums[i] = (sums[i] ?? 0) + level));
    used++;
  }
  if (used < 4) return null;
  return bestShape(sums, new Float64Array(sums.length).fill(1));
}

/** A structure fitted to a strip from which all others are taken away; null where there is none after all. */
function fitted(strip: Strip, levels: Float32Array, shape: Shape, start: Curve): Structure | null {
  let table = new ShapeTable(shape);
  let curve = start;
  for (let turn = 0; turn < 3; turn++) {
    const { centers } = profilesNear(strip, levels, table, curve);
    const fit = fitCurve(centers, curve, turn === 0 ? 2 : 1.2);
    if (!fit) return null;
    curve = fit.curve;
    if (turn === 2) break;
    const { contrasts } = profilesNear(strip, levels, table, curve);
    const better = shapeAlong(strip, levels, curve, contrasts);
    if (better) {
      table = new ShapeTable(better.shape);
      curve = [curve[0] + better.shift, curve[1], curve[2]];
    }
  }
  const { centers, contrasts, contrastUs } = profilesNear(strip, levels, table, curve);
  const contrast = usualContrast(contrasts);
  const inPlace = new Set(
    centers
      .filter(({ v, across, u }) => Math.abs(across - curveAt(curve, v)) < Math.max(0.8, 3 * u))
      .map(({ v }) => v),
  );
  const seen: boolean[] = [];
  contrasts.forEach((value, block) => {
    seen[block] =
      value / contrast > 0.35 &&
      Math.abs(value) > 1.6 * (contrastUs[block] ?? Infinity) &&
      inPlace.has(blockPlace(block, strip.blocks));
  });
  const part = (blocks: readonly boolean[]): number => blocks.filter(Boolean).length / blocks.length;
  const outer = Math.ceil(strip.blocks / 7);
  return {
    table,
    curve,
    contrasts,
    contrast,
    coverage: part(seen),
    atMarks: Math.min(part(seen.slice(0, outer)), part(seen.slice(-outer))),
  };
}

/** Adds a structure to a strip's levels (sign 1) or takes it away (sign -1). */
function addTo(
  levels: Float32Array,
  { blocks, columns }: Strip,
  { table, curve, contrasts, contrast }: Structure,
  sign: number,
): void {
  for (let block = 0; block < blocks; block++) {
    const middle = curveAt(curve, blockPlace(block, blocks));
    const own = contrasts[block] ?? 0;
    const amplitude = own / contrast > 0 ? own : 0;
    for (let column = 0; column < columns; column++)
      levels[block * columns + column] =
        (levels[block * columns + column] ?? 0) + sign * amplitude * table.level(acrossOf(column) - middle);
  }
}

/**
 * Whether a structure is only what the shape of a stronger one has left over: inside its blur, or too faint beside it.
 */
function isRemnant(structure: Structure, stronger: readonly Structure[]): boolean {
  return stronger.some((other) => {
    const apart = Math.max(
      ...[-1, 0, 1].map((v) => Math.abs(curveAt(structure.curve, v) - curveAt(other.curve, v))),
    );
    const ratio = Math.abs(structure.contrast / other.contrast);
    if (apart < other.table.extent + 0.6) return ratio < 0.4;
    return apart < WINDOW + 2 && ratio < 0.09;
  });
}

export interface Structures {
  /** The most evident first. */
  readonly structures: readonly Structure[];
  /** Where evidence was left that could not be told apart; null where all of it is explained. */
  readonly left: Curve | null;
}

/** All long structures of a strip. */
export function structuresIn(strip: Strip): Structures {
  const levels = Float32Array.from(strip.levels);
  let structures: Structure[] = [];
  let left = strongest(strip, levels);
  while (left) {
    const structure = fitted(strip, levels, left.shape, left.curve);
    if (!structure) break;
    if (Math.abs(structure.contrast) < LEAST_CONTRAST) {
      left = null;
      break;
    }
    if (structure.coverage < 0.2) break;
    structures.push(structure);
    addTo(levels, strip, structure, -1);
    if (structures.length > 1) structures = fittedAgain(strip, levels, structures);
    left = strongest(strip, levels);
    if (structures.length === MOST_STRUCTURES) break;
  }
  if (structures.length > 1) structures = fittedAgain(strip, levels, structures);
  return {
    structures: structures.filter(
      (structure) => Math.abs(structure.contrast) >= LEAST_CONTRAST && !isRemnant(structure, structures),
    ),
    left: left?.curve ?? null,
  };
}

/** Each structure fitted once more with all the others taken away. */
const fittedAgain = (strip: Strip, levels: Float32Array, structures: readonly Structure[]): Structure[] =>
  structures.map((structure) => {
    addTo(levels, strip, structure, 1);
    const again = fitted(strip, levels, structure.table.shape, structure.curve) ?? structure;
    addTo(levels, strip, again, -1);
    return again;
  });
