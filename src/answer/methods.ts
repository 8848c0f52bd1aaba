import { adjustTruck, cared } from '../physics';
import type {
  CaredQuantity,
  Estimate,
  TruckAdjustment,
  TruckBench,
  TruckReading,
  TruckStance,
} from '../physics';

/**
 * Each method on its own: what the hangs alone, the board alone, one axle lift alone would say. A method borrows only what
 * tells nothing of the quantity itself: for the height, scales and balance, which never tell it.
 */

/** Quantities that methods are compared in. */
export type Compared = CaredQuantity;

/** Quantities that depend on the height. */
const isUpright = (quantity: Compared): boolean => quantity !== 'ahead' && quantity !== 'left';

export interface Method {
  /** Ids of its readings; those of pictures are the ids of their hangs. */
  readonly readings: readonly string[];
  readonly kind: TruckReading['kind'];
  /** What it says alone; null where it does not tell. */
  readonly alone: Estimate | null;
}

/** Readings that tell where the center of gravity stands over the ground, and never how high. */
const FLAT: ReadonlySet<TruckReading['kind']> = new Set([
  'total mass',
  'axle scales',
  'wheel scales',
  'balance',
]);

/** A lateral place that nothing assumes. */
const UNKNOWN_LATERAL = 10;

/** Two or more readings that only together are a method: both sides of a board; the scales. */
function groupOf(reading: TruckReading): string {
  switch (reading.kind) {
    case 'tilt':
      return reading.toward === 'left' || reading.toward === 'right' ? 'tilt sides' : reading.id;
    case 'total mass':
    case 'axle scales':
    case 'wheel scales':
      return 'scales';
    default:
      return reading.id;
  }
}

const idsOf = (reading: TruckReading): readonly string[] =>
  reading.kind === 'picture lines' ? reading.lines.map(({ id }) => id) : [reading.id];

/** What every method on the bench says of a quantity by itself, in the order of the readings. */
export function methodsOf(bench: TruckBench, quantity: Compared): Method[] {
  const groups = new Map<string, TruckReading[]>();
  for (const reading of bench.readings) {
    const group = groupOf(reading);
    groups.set(group, [...(groups.get(group) ?? []), reading]);
  }
  return [...groups.values()].flatMap((own): Method[] => {
    const [first] = own;
    if (!first) return [];
    return [{ readings: own.flatMap(idsOf), kind: first.kind, alone: aloneOf(bench, own, quantity) }];
  });
}

/** What the scales alone say of the place ahead; null where they do not tell. */
export function scalesAlone(bench: TruckBench): Estimate | null {
  const own = bench.readings.filter((reading) => groupOf(reading) === 'scales');
  return own.some(({ kind }) => kind !== 'total mass') ? aloneOf(bench, own, 'ahead') : null;
}

function aloneOf(bench: TruckBench, own: readonly TruckReading[], quantity: Compared): Estimate | null {
  const flatOnly = own.every(({ kind }) => FLAT.has(kind));
  if (flatOnly && isUpright(quantity)) return null;
  // Pictures of the side bring the assumed lateral place along.
  if (quantity === 'left' && own.some(({ kind }) => kind === 'picture lines')) return null;
  const borrowed = bench.readings.filter((reading) => {
    if (own.includes(reading)) return false;
    if (isUpright(quantity)) return FLAT.has(reading.kind);
    // A mass turns the load of one scale into a place and tells none itself.
    return reading.kind === 'total mass';
  });
  const adjusted = adjustTruck({
    ...bench,
    ...(quantity === 'left' ? { lateral: { ...bench.lateral, u: UNKNOWN_LATERAL } } : {}),
    readings: [...own, ...borrowed],
  });
  if (!adjusted.ok) return null;
  const told = comparedIn(adjusted.value, quantity);
  return told && told.u < UNKNOWN_LATERAL / 100 ? told : null;
}

/** A compared quantity of an adjustment; null where it is not determined. */
export function comparedIn(adjustment: TruckAdjustment, quantity: Compared): Estimate | null {
  const told = cared(adjustment, quantity);
  return told.ok ? { value: told.value.value, u: told.value.u } : null;
}

/** The adjusted truck on its contacts; null where CG, wheelbase or a track is not known. */
export function stanceOf(adjustment: TruckAdjustment): TruckStance | null {
  const { cg, wheelbase, frontTrack, rearTrack, stanceCovariance } = adjustment;
  if (!cg.x || !cg.y || !cg.z || !wheelbase || !frontTrack || !rearTrack) return null;
  return {
    cg: { x: cg.x.value, y: cg.y.value, z: cg.z.value },
    wheelbase: wheelbase.value,
    frontTrack: frontTrack.value,
    rearTrack: rearTrack.value,
    covariance: stanceCovariance,
  };
}
