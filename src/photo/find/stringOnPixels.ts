import { bestShape, SHAPE_PLACES, SHAPE_REACH } from './bestShape';
import { curveAt, fitCurve } from './curve';
import type { Center, Curve, FittedCurve } from './curve';
import type { Gray } from './gray';
import { NormalEquations } from './normalEquations';
import { ShapeTable } from './profiles';
import type { MarkFrame } from './strip';
import type { Structure } from './structures';

/** A string fitted to the pixels themselves. */
export interface RefinedString {
  readonly fit: FittedCurve;
  readonly table: ShapeTable;
  /** Median contrast, levels. */
  readonly contrast: number;
  /** Standard deviation of one pixel about the fitted string and ground, levels. */
  readonly noise: number;
  /** Part of the profiles between the marks that go with the line, 0 to 1. */
  readonly agreeing: number;
  /** Root mean square of the agreeing centers about the curve, px. */
  readonly scatter: number;
}

/** Length of one cross profile along the string, px. */
const PROFILE_LENGTH = 8;
/** How far past the marks the string is followed, as a part of their distance, and at most, px. */
const BEYOND = 0.05;
const MOST_BEYOND = 24;

/** A pixel near the string: where it is and what its level is without the neighbors. */
interface NearPixels {
  readonly count: number;
  readonly v: Float64Array;
  readonly across: Float64Array;
  readonly level: Float64Array;
}

/** What the other structures add at a place. */
function levelOfOthers(others: readonly Structure[], v: number, across: number): number {
  let sum = 0;
  for (const { table, curve, contrasts, contrast } of others) {
    const place = ((v + 1) / 2) * contrasts.length - 0.5;
    const block = Math.max(0, Math.min(contrasts.length - 1, Math.round(place)));
    const own = contrasts[block] ?? 0;
    if (own / contrast > 0) sum += own * table.level(across - curveAt(curve, v));
  }
  return sum;
}

/** Pixels within `reach` of the curve, v from -most to most. */
function pixelsNear(
  { width, height, levels }: Gray,
  { middle, along, half }: MarkFrame,
  curve: Curve,
  reach: number,
  most: number,
  others: readonly Structure[],
): NearPixels {
  const steep = Math.abs(along[1]) >= Math.abs(along[0]);
  const room = Math.ceil((2 * reach + 4) * Math.SQRT2) * Math.ceil(2 * half * most + 4 * reach + 8);
  const near = { v: new Float64Array(room), across: new Float64Array(room), level: new Float64Array(room) };
  let count = 0;
  const [lead, side] = steep ? [along[1], along[0]] : [along[0], along[1]];
  const [leadMiddle, sideMiddle] = steep ? [middle.y, middle.x] : [middle.x, middle.y];
  const leads = steep ? height : width;
  const sides = steep ? width : height;
  const span = half * most * Math.abs(lead) + reach;
  const first = Math.max(0, Math.floor(leadMiddle - span));
  const last = Math.min(leads - 1, Math.ceil(leadMiddle + span));
  for (let i = first; i <= last; i++) {
    const ahead = i + 0.5 - leadMiddle;
    const guess = ahead / lead / half;
    const shift = curveAt(curve, guess) * (steep ? -1 : 1);
    const center = sideMiddle + (ahead / lead) * side + shift / lead;
    const width2 = (reach + 1) / Math.abs(lead);
    const from = Math.max(0, Math.floor(center - width2));
    const to = Math.min(sides - 1, Math.ceil(center + width2));
    for (let j = from; j <= to; j++) {
      const x = (steep ? j : i) + 0.5 - middle.x;
      const y = (steep ? i : j) + 0.5 - middle.y;
      const v = (x * along[0] + y * along[1]) / half;
      if (Math.abs(v) > most) continue;
      const across = y * along[0] - x * along[1];
      if (Math.abs(across - curveAt(curve, v)) > reach || count >= room) continue;
      near.v[count] = v;
      near.across[count] = across;
      near.level[count] =
        (levels[steep ? i * width + j : j * width + i] ?? 0) - levelOfOthers(others, v, across);
      count++;
    }
  }
  return { count, ...near };
}

const medianOf = (values: readonly number[]): number => {
  const sorted = values.toSorted((a, b) => a - b);
  return sorted[sorted.length >> 1] ?? 0;
};

interface Profiles {
  readonly centers: Center[];
  readonly contrast: number;
  readonly noise: number;
  /** Mean profile for the shape, contrast 1 in the middle, and how many pixels each place has. */
  readonly profile: Float64Array;
  readonly counts: Float64Array;
}

/** Cross profiles: in each piece of the string the pixels tell ground, its slopes, contrast and center. */
function crossProfiles(
  near: NearPixels,
  table: ShapeTable,
  curve: Curve,
  reach: number,
  half: number,
  most: number,
  equations: NormalEquations[],
): Profiles {
  const pieces = Math.max(14, Math.round((2 * half) / PROFILE_LENGTH));
  const extra = Math.floor(((most - 1) / 2) * pieces);
  const all = pieces + 2 * extra;
  const pieceOf = (v: number) => Math.floor(((v + 1) / 2) * pieces) + extra;
  const middleOf = (piece: number) => (2 * (piece - extra) + 1) / pieces - 1;
  while (equations.length < all) equations.push(new NormalEquations(5));
  for (const own of equations) own.clear();
  const row = [1, 0, 0, 0, 0];
  for (let i = 0; i < near.count; i++) {
    const v = near.v[i] ?? 0;
    const piece = pieceOf(v);
    const own = equations[piece];
    if (!own) continue;
    const e = (near.across[i] ?? 0) - curveAt(curve, v);
    if (Math.abs(e) > reach) continue;
    row[1] = e;
    row[2] = (v - middleOf(piece)) * half;
    row[3] = table.level(e);
    row[4] = -table.slope(e);
    own.add(row, near.level[i] ?? 0);
  }
  const solved = equations.map((own) => (own.count > 4 * reach ? own.solve() : null));
  const variances = solved.map((solution, piece) =>
    solution ? solution.residual / ((equations[piece]?.count ?? 0) - 5) : NaN,
  );
  const usual = medianOf(variances.filter((value) => !Number.isNaN(value)));
  const contrast = medianOf(solved.flatMap((solution) => (solution ? [solution.values[3] ?? 0] : [])));
  const centers: Center[] = [];
  solved.forEach((solution, piece) => {
    if (!solution) return;
    const own = solution.values[3] ?? 0;
    if (!(own / contrast > 0.25)) return;
    const v = middleOf(piece);
    const shift = Math.max(-2, Math.min(2, (solution.values[4] ?? 0) / own));
    // 1/12 of a level squared is what rounding to whole levels leaves.
    const variance = Math.max(1 / 12, usual, variances[piece] ?? 0);
    centers.push({
      v,
      across: curveAt(curve, v) + shift,
      u: Math.sqrt(variance * (solution.covariance[24] ?? 0)) / Math.abs(own),
    });
  });
  const profile = new Float64Array(SHAPE_PLACES.length);
  const counts = new Float64Array(SHAPE_PLACES.length);
  const perPixel = (SHAPE_PLACES.length - 1) / (2 * SHAPE_REACH);
  for (let i = 0; i < near.count; i++) {
    const v = near.v[i] ?? 0;
    const solution = solved[pieceOf(v)];
    if (!solution || Math.abs(v) > 1) continue;
    const [ground = 0, slope = 0, run = 0, own = 0] = solution.values;
    if (!(own / contrast > 0.4)) continue;
    const e = (near.across[i] ?? 0) - curveAt(curve, v);
    const place = Math.round((e + SHAPE_REACH) * perPixel);
    if (place < 0 || place >= profile.length) continue;
    const rise = run * (v - middleOf(pieceOf(v))) * half;
    profile[place] = (profile[place] ?? 0) + (near.level[i] ?? 0) - ground - slope * e - rise;
    counts[place] = (counts[place] ?? 0) + 1;
  }
  profile.forEach((sum, i) => (profile[i] = sum / Math.max(1, counts[i] ?? 0)));
  return { centers, contrast, noise: Math.sqrt(Math.max(0, usual)), profile, counts };
}

/** Fits the string to the pixels, `others` taken away; null where it does not hold together. */
export function refinedString(
  picture: Gray,
  frame: MarkFrame,
  string: Structure,
  others: readonly Structure[],
): RefinedString | null {
  const beyond = Math.min(2 * BEYOND, MOST_BEYOND / frame.half);
  const most = 1 + beyond;
  const reach = Math.max(4.5, string.table.extent + 2.5);
  const near = pixelsNear(picture, frame, string.curve, reach + 1.5, most, others);
  let table = string.table;
  let curve = string.curve;
  let fit: FittedCurve | null = null;
  let profiles: Profiles | null = null;
  const equations: NormalEquations[] = [];
  for (let turn = 0; turn < 4; turn++) {
    profiles = crossProfiles(near, table, curve, reach, frame.half, most, equations);
    fit = fitCurve(profiles.centers, curve, turn === 0 ? 1.5 : 1);
    if (!fit) return null;
    curve = fit.curve;
    if (turn > 1) continue;
    const better = bestShape(profiles.profile, profiles.counts);
    if (better?.shape.kind === 'bar') table = new ShapeTable(better.shape);
  }
  if (!fit || !profiles) return null;
  let agreeing = 0;
  let inside = 0;
  let squares = 0;
  let weight = 0;
  const weights = fit.weights;
  profiles.centers.forEach(({ v, across }, i) => {
    const own = weights[i] ?? 0;
    squares += own * (across - curveAt(curve, v)) ** 2;
    weight += own;
    if (Math.abs(v) > 1) return;
    inside++;
    if (own > 0.2) agreeing++;
  });
  const pieces = Math.max(14, Math.round((2 * frame.half) / PROFILE_LENGTH));
  return {
    fit,
    table,
    contrast: profiles.contrast,
    noise: profiles.noise,
    agreeing: inside === 0 ? 0 : agreeing / pieces,
    scatter: Math.sqrt(squares / Math.max(1, weight)),
  };
}
