import type { TruckAdjustment } from './adjustTruck';
import { type Result, lengthIn, meters, refusal, success } from '../quantities';
import type { TruckModel } from './truckModel';
import { type Covariance, propagate } from '../fit/uncertainty';

/**
 * Quantities that a reader may care about, as functions of the stance: center of gravity, wheelbase and tracks. Tip
 * angles are those of a rigid truck at tire centers (tipLimits.ts), here in closed form with their slopes.
 */

export const CARED_QUANTITIES = ['side tip', 'height', 'ahead', 'left', 'climb', 'descent'] as const;

/** Side tip: the smaller of the tip angles over the left and the right wheels. Ahead, left, height: of the CG. */
export type CaredQuantity = (typeof CARED_QUANTITIES)[number];

/** CG x, y, z, wheelbase, front track, rear track (m), in the order of `stanceCovariance`; NaN where there is none. */
export type Stance = readonly [
  x: number,
  y: number,
  z: number,
  L: number,
  frontTrack: number,
  rearTrack: number,
];

export type Side = 'left' | 'right';

/** A quantity at one stance: m or rad, and its slopes by the six numbers of the stance. */
export interface StanceQuantity {
  readonly value: number;
  readonly gradient: readonly number[];
  /** The side that tips first; null for all but 'side tip'. */
  readonly side: Side | null;
}

export type StanceQuantityRefusal = 'missing dimension' | 'height' | 'cg-outside';

/** A quantity of an adjusted truck. */
export interface Cared extends StanceQuantity {
  readonly u: number;
  /** True where the other side's angle lies within 2 u (of their difference): either may be the smaller. */
  readonly tied: boolean;
}

export type CaredRefusal = StanceQuantityRefusal | 'undetermined';

/** Sides count as tied while they differ by no more than this many u of the difference, as in uncertainLimit(). */
const TIED_WITHIN = 2;

/** Stance of a truck model at the unknowns given. */
export function stanceAt({ at }: TruckModel, unknowns: ArrayLike<number>): Stance {
  const of = (index: number | undefined): number => (index === undefined ? NaN : (unknowns[index] ?? NaN));
  return [of(at.x), of(at.y), of(at.z), of(at.wheelbase), of(at.frontTrack), of(at.rearTrack)];
}

/** Slopes by the stance as slopes by all unknowns of the model, `count` of them. */
export function overUnknowns({ at }: TruckModel, gradient: readonly number[], count: number): number[] {
  const all = new Array<number>(count).fill(0);
  [at.x, at.y, at.z, at.wheelbase, at.frontTrack, at.rearTrack].forEach((index, i) => {
    if (index !== undefined) all[index] = gradient[i] ?? 0;
  });
  return all;
}

/** Horizontal distance of the CG inside an edge (m) with its slopes. */
interface Inside {
  readonly distance: number;
  readonly gradient: readonly number[];
}

/**
 * Inside the line through the left or the right tire centers, square to it: with f = (T_f − T_r)/2 the line leans by
 * f in L, d = (L (T_r/2 ∓ y) + f x)/√(L² + f²).
 */
function insideSide([x, y, , L, front, rear]: Stance, side: Side): Inside {
  const own = side === 'left' ? -1 : 1;
  const f = (front - rear) / 2;
  const n = Math.hypot(L, f);
  const distance = (L * (rear / 2 + own * y) + f * x) / n;
  // d·n = …; n by L is L/n and by f is f/n.
  const byF = x / n - (distance * f) / (n * n);
  return {
    distance,
    gradient: [
      f / n,
      (own * L) / n,
      0,
      (rear / 2 + own * y) / n - (distance * L) / (n * n),
      byF / 2,
      L / (2 * n) - byF / 2,
    ],
  };
}

function tip(
  { distance, gradient }: Inside,
  z: number,
  name: string,
): Result<StanceQuantity, StanceQuantityRefusal> {
  if (distance < 0) {
    const beyond = lengthIn(meters(-distance), 'mm').toFixed(1);
    return refusal(
      'cg-outside',
      `The CG stands ${beyond} mm outside the ${name}: the truck falls over on level ground. ` +
        'Check the CG and the dimensions.',
    );
  }
  const square = distance * distance + z * z;
  return success({
    value: Math.atan2(distance, z),
    gradient: gradient.map((slope, i) => ((i === 2 ? -distance : 0) + z * slope) / square),
    side: null,
  });
}

const along = (value: number, which: number): StanceQuantity => ({
  value,
  gradient: [0, 1, 2, 3, 4, 5].map((i) => (i === which ? 1 : 0)),
  side: null,
});

/** Tip angles over the left and over the right wheels. */
function sides(stance: Stance): Result<Readonly<Record<Side, StanceQuantity>>, StanceQuantityRefusal> {
  const left = tip(insideSide(stance, 'left'), stance[2], 'line through the left tires');
  if (!left.ok) return left;
  const right = tip(insideSide(stance, 'right'), stance[2], 'line through the right tires');
  return right.ok ? success({ left: left.value, right: right.value }) : right;
}

const smaller = (both: Readonly<Record<Side, StanceQuantity>>): Side =>
  both.left.value <= both.right.value ? 'left' : 'right';

/**
 * A quantity at one stance. Refused: a dimension it needs is NaN ('missing dimension'), a CG not above ground ('height'),
 * a CG beyond the edge asked for ('cg-outside').
 */
export function stanceQuantity(
  stance: Stance,
  quantity: CaredQuantity,
): Result<StanceQuantity, StanceQuantityRefusal> {
  const [x, y, z, L, frontTrack, rearTrack] = stance;
  if (quantity === 'ahead') return success(along(x, 0));
  if (quantity === 'left') return success(along(y, 1));
  if (quantity === 'height') return success(along(z, 2));
  if (quantity !== 'climb' && !(L > 0))
    return refusal('missing dimension', 'This angle needs the wheelbase. Measure hub to hub.');
  if (quantity === 'side tip' && !(frontTrack > 0 && rearTrack > 0))
    return refusal(
      'missing dimension',
      'The side tip angle needs both tracks. Measure tire center to tire center.',
    );
  if (!(z > 0))
    return refusal(
      'height',
      'The CG must lie above the ground to have a tip angle. Check the hooks’ heights.',
    );
  if (quantity === 'climb')
    return tip({ distance: x, gradient: [1, 0, 0, 0, 0, 0] }, z, 'line through the rear tires');
  if (quantity === 'descent')
    return tip({ distance: L - x, gradient: [-1, 0, 0, 1, 0, 0] }, z, 'line through the front tires');
  const both = sides(stance);
  if (!both.ok) return both;
  const side = smaller(both.value);
  return success({ ...both.value[side], side });
}

const NAMES = {
  x: 'how far ahead the CG lies',
  y: 'how far left the CG lies',
  z: 'the height of the CG',
} as const;

/**
 * Value, u and slopes of a quantity of an adjusted truck; u by JCGM 100:2008, eq. (13). The side tip is that of the side
 * that governs at the estimate, `tied` or not. Refused as stanceQuantity(), and 'undetermined' where it depends on a
 * coordinate that no reading determines.
 */
export function cared(truck: TruckAdjustment, quantity: CaredQuantity): Result<Cared, CaredRefusal> {
  const stance = stanceAt(truck.model, truck.adjustment.unknowns);
  const found = stanceQuantity(stance, quantity);
  const open = (['x', 'y', 'z'] as const).filter((name) => truck.undetermined.includes(name));
  const needed = open.find((name) => !found.ok || found.value.gradient['xyz'.indexOf(name)] !== 0);
  if (needed && (found.ok || found.reason !== 'missing dimension'))
    return refusal('undetermined', `No reading determines ${NAMES[needed]} yet.`);
  if (!found.ok) return found;
  const { value, gradient, side } = found.value;
  const u = Math.sqrt(varianceOf(gradient, truck.stanceCovariance));
  if (side === null) return success({ value, gradient, side, u, tied: false });
  const both = sides(stance);
  if (!both.ok) return both;
  const { left, right } = both.value;
  const apart = left.gradient.map((slope, i) => slope - (right.gradient[i] ?? 0));
  const uApart = Math.sqrt(varianceOf(apart, truck.stanceCovariance));
  const tied = Math.abs(left.value - right.value) <= TIED_WITHIN * uApart;
  return success({ value, gradient, side, u, tied });
}

/** Variance of a linear function: gᵀ C g, never below zero. */
export const varianceOf = (gradient: readonly number[], covariance: Covariance): number =>
  Math.max(0, propagate([gradient], covariance)[0]?.[0] ?? NaN);
