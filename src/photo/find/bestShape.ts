import { ShapeTable } from './profiles';
import type { Shape } from './profiles';

const PER_PIXEL = 4;
/** Half the mean profile that shapes are compared with, px. */
export const SHAPE_REACH = 5;
/** Where across a mean profile is wanted, px. */
export const SHAPE_PLACES: readonly number[] = Array.from(
  { length: 2 * SHAPE_REACH * PER_PIXEL + 1 },
  (_, i) => i / PER_PIXEL - SHAPE_REACH,
);

const WIDTHS = Array.from({ length: 31 }, (_, i) => 0.75 + i / 4);
const BLURS = [0.3, 0.45, 0.6, 0.8, 1.05, 1.4, 1.9];

const STEP_BLUR = 1.2;

/** Bars and steps at the places of a mean profile. */
const SHAPES = BLURS.flatMap((blur): Shape[] => [
  // A step blurred more than that explains half of whatever stands beside it.
  ...(blur < STEP_BLUR ? [{ kind: 'step' as const, width: 0, blur }] : []),
  ...WIDTHS.map((width): Shape => ({ kind: 'bar', width, blur })),
]).map((shape) => {
  const table = new ShapeTable(shape);
  return { shape, levels: Float64Array.from(SHAPE_PLACES, (e) => table.level(e)) };
});

/** A step may turn out to lie this far beside the line, in places: beside an edge a bar is seen as well. */
const MOST_SHIFT = 3.5 * PER_PIXEL;

/** Standard deviation of lens and pixel together in an ordinary picture, px; and what other blurs are held against. */
const USUAL_BLUR = 0.6;
const UNUSUAL_BLUR = 0.02;
const STEP_HANDICAP = 1.07;

export interface ShapeFound {
  readonly shape: Shape;
  /** Where its middle is, px across; 0 for a bar. */
  readonly shift: number;
}

/**
 * The bar in the middle of a mean profile or the step near it that fits best, on a ground that may slope. `counts` are
 * the places' weights; null where too few places have any.
 */
export function bestShape(profile: Float64Array, counts: Float64Array): ShapeFound | null {
  const places = SHAPE_PLACES;
  let weight = 0;
  let first = 0;
  for (let i = 0; i < places.length; i++) {
    weight += counts[i] ?? 0;
    first += (counts[i] ?? 0) * (places[i] ?? 0);
  }
  if (!(weight > 0)) return null;
  const middle = first / weight;
  let spread = 0;
  let mean = 0;
  let slope = 0;
  for (let i = 0; i < places.length; i++) {
    const e = (places[i] ?? 0) - middle;
    const count = counts[i] ?? 0;
    spread += count * e * e;
    mean += (count * (profile[i] ?? 0)) / weight;
    slope += count * e * (profile[i] ?? 0);
  }
  if (!(spread > 0)) return null;
  slope /= spread;
  let best: ShapeFound | null = null;
  let most = 0;
  const compare = (shape: Shape, levels: Float64Array, shift: number): void => {
    // What the shape explains once level and slope are taken from both.
    let sum = 0;
    let turn = 0;
    let squares = 0;
    let shared = 0;
    for (let i = 0; i < places.length; i++) {
      const count = counts[i] ?? 0;
      const e = (places[i] ?? 0) - middle;
      const level = levels[Math.max(0, Math.min(levels.length - 1, i - shift))] ?? 0;
      const own = count * level;
      sum += own;
      turn += own * e;
      squares += own * level;
      shared += own * ((profile[i] ?? 0) - mean - slope * e);
    }
    const free = squares - (sum * sum) / weight - (turn * turn) / spread;
    if (!(free > 1e-6 * weight)) return;
    const explained = (shared * shared) / free;
    // A step explains part of any neighbor: it must do clearly better than a bar where the line was seen.
    // Along pixel rows the profile is seen at few places, where width, blur and contrast trade off: then an ordinary blur.
    const unusual = 1 + UNUSUAL_BLUR * Math.log(shape.blur / USUAL_BLUR) ** 2;
    const counted = explained / unusual / (shape.kind === 'bar' ? 1 : STEP_HANDICAP);
    if (counted > most) {
      most = counted;
      best = { shape, shift: shift / PER_PIXEL };
    }
  };
  for (const { shape, levels } of SHAPES) {
    compare(shape, levels, 0);
    if (shape.kind === 'step')
      for (let shift = 1; shift <= MOST_SHIFT; shift++) {
        compare(shape, levels, shift);
        compare(shape, levels, -shift);
      }
  }
  return best;
}
