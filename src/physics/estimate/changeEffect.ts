import type { TruckAdjustment } from './adjustTruck';
import {
  type CaredQuantity,
  type CaredRefusal,
  type Side,
  type Stance,
  type StanceQuantity,
  cared,
  stanceAt,
  stanceQuantity,
  varianceOf,
} from './caredQuantity';
import {
  type Estimate,
  type Length,
  type Mass,
  type Result,
  kilograms,
  refusal,
  success,
} from '../quantities';
import {
  type BothSeeings,
  type SeenVerdict,
  type SharedErrors,
  differenceUncertainty,
  restsOnAssumedPlace,
  verdictOn,
} from './seenOrNot';
import type { Measured } from './truckReadings';

/**
 * What an intended change does to a truck, and whether its bench would see it. Exact: first moments of mass before and
 * after; u to first order (JCGM 100:2008, eq. (13)), jointly from truck and change, so that what both states share
 * cancels in their difference.
 */

type Along = Readonly<Record<'x' | 'y' | 'z', Measured<Length>>>;

/** A mass of the truck moved, or one added; taken off where it is negative. Truck axes. */
export type TruckChange =
  | { readonly kind: 'moved'; readonly mass: Measured<Mass>; readonly by: Along }
  | { readonly kind: 'added'; readonly mass: Measured<Mass>; readonly at: Along };

/** One quantity before and after (m, rad or kg); before and after are null where only their difference is determined. */
export interface EffectOn {
  readonly before: Estimate | null;
  readonly after: Estimate | null;
  /** After minus before, exact, with its own u. */
  readonly difference: Estimate;
  /** For 'side tip': the side that tips first, before and after. */
  readonly sides: { readonly before: Side; readonly after: Side } | null;
}

export type ChangeRefusal = CaredRefusal | 'total-mass';

export interface ChangeEffect {
  readonly mass: EffectOn;
  readonly on: Readonly<Record<CaredQuantity, Result<EffectOn, ChangeRefusal>>>;
}

const AXES = ['x', 'y', 'z'] as const;

/** The changed stance, and its slopes by CG, wheelbase, tracks, mass, then the change's mass and three lengths. */
interface Changed {
  readonly stance: Stance;
  readonly slopes: readonly (readonly number[])[];
  readonly mass: number;
}
const INPUTS = 11;

/**
 * Effect of a change on mass and on every quantity. Refused: no reading determines the truck's mass ('undetermined'), or
 * nothing is left of it ('total-mass'). A quantity is refused as in cared(), before or after the change.
 */
export function changeEffect(
  truck: TruckAdjustment,
  change: TruckChange,
): Result<ChangeEffect, ChangeRefusal> {
  const { model, adjustment, mass } = truck;
  const place = model.at.mass;
  if (mass === null || place === undefined)
    return refusal('undetermined', 'No reading determines the truck’s mass yet. Weigh it.');
  const stance = stanceAt(model, adjustment.unknowns);
  const changed = changedBy(stance, mass.value, change);
  if (!(changed.mass > 0))
    return refusal('total-mass', 'This takes off as much as the truck weighs. Check the mass of the change.');

  const inputs = [
    model.at.x,
    model.at.y,
    model.at.z,
    model.at.wheelbase,
    model.at.frontTrack,
    model.at.rearTrack,
  ];
  const own = [change.mass, ...AXES.map((axis) => (change.kind === 'moved' ? change.by : change.at)[axis])];
  const covariance = Array.from({ length: INPUTS }, (_, i) =>
    Array.from({ length: INPUTS }, (__, j) => {
      const [a, b] = [[...inputs, place][i], [...inputs, place][j]];
      if (a !== undefined && b !== undefined) return adjustment.covariance.get(a, b);
      return i === j && i > inputs.length ? (own[i - inputs.length - 1]?.u ?? NaN) ** 2 : 0;
    }),
  );
  const open = AXES.filter((axis) => truck.undetermined.includes(axis)).map((axis) => AXES.indexOf(axis));

  const of = (quantity: CaredQuantity): Result<EffectOn, ChangeRefusal> => {
    const first = stanceQuantity(stance, quantity);
    if (!first.ok) return first;
    const second = stanceQuantity(changed.stance, quantity);
    if (!second.ok) return second;
    const before = [...first.value.gradient, ...new Array<number>(INPUTS - 6).fill(0)];
    const after = throughChange(second.value, changed);
    const apart = after.map((slope, i) => slope - (before[i] ?? 0));
    const isOpen = (gradient: readonly number[]): boolean => open.some((i) => gradient[i] !== 0);
    if (isOpen(apart)) {
      const present = cared(truck, quantity);
      if (!present.ok) return present;
      return refusal('undetermined', 'No reading determines yet where the CG lies.');
    }
    const estimate = (value: number, gradient: readonly number[]): Estimate => ({
      value,
      u: Math.sqrt(varianceOf(gradient, covariance)),
    });
    const [one, other] = [first.value, second.value];
    return success({
      before: isOpen(before) ? null : estimate(one.value, before),
      after: isOpen(after) ? null : estimate(other.value, after),
      difference: estimate(other.value - one.value, apart),
      sides: one.side && other.side && { before: one.side, after: other.side },
    });
  };
  const added = change.kind === 'added' ? change.mass : { value: kilograms(0), u: 0 };
  return success({
    mass: {
      before: mass,
      after: { value: changed.mass, u: Math.hypot(mass.u, added.u) },
      difference: { value: added.value, u: added.u },
      sides: null,
    },
    on: {
      'side tip': of('side tip'),
      height: of('height'),
      ahead: of('ahead'),
      left: of('left'),
      climb: of('climb'),
      descent: of('descent'),
    },
  });
}

/** Moved by d: CG + m d/M. Added at r: (M·CG + m r)/(M + m). */
function changedBy(stance: Stance, whole: number, change: TruckChange): Changed {
  const part = change.mass.value;
  const moved = change.kind === 'moved';
  const mass = moved ? whole : whole + part;
  const slopes: number[][] = [];
  const cg = AXES.map((axis, i) => {
    const old = stance[i] ?? NaN;
    const given = moved ? change.by[axis].value : change.at[axis].value;
    const now = moved ? old + (part * given) / mass : (whole * old + part * given) / mass;
    const row = new Array<number>(INPUTS).fill(0);
    row[i] = moved ? 1 : whole / mass;
    row[6] = (old - now) / mass;
    row[7] = moved ? given / mass : (given - now) / mass;
    row[8 + i] = part / mass;
    slopes.push(row);
    return now;
  });
  for (let i = 3; i < 6; i++) slopes.push(Array.from({ length: INPUTS }, (_, j) => (i === j ? 1 : 0)));
  const [x = NaN, y = NaN, z = NaN] = cg;
  return { stance: [x, y, z, stance[3], stance[4], stance[5]], slopes, mass };
}

/** Slopes of a quantity of the changed stance by all inputs. */
const throughChange = ({ gradient }: StanceQuantity, { slopes }: Changed): number[] =>
  Array.from({ length: INPUTS }, (_, j) =>
    gradient.reduce((sum, slope, i) => sum + (slope === 0 ? 0 : slope * (slopes[i]?.[j] ?? 0)), 0),
  );

/** Part of a quantity from which on it is only the lateral place that was assumed. */
const ONLY_ASSUMED = 1 - 1e-6;

/** An effect beside what the bench can see of it. */
export interface SeenChange {
  readonly effect: EffectOn;
  /** What of the difference the readings would follow: without the part that an assumed lateral place hides. */
  readonly followed: number;
  readonly seeings: BothSeeings;
  /** Both builds measured from scratch, and with everything kept that is usually kept. */
  readonly independent: SeenVerdict;
  readonly reused: SeenVerdict;
}

/**
 * Would this bench, measuring before and after as it measured now, see what the change does to a quantity? An assumed
 * lateral place stays where it is when a mass goes sideways: to first order the difference measured falls short by as
 * much as the quantity rests on it. Refused as changeEffect(), and where the bench does not measure the quantity itself.
 */
export function seeChange(
  truck: TruckAdjustment,
  change: TruckChange,
  quantity: CaredQuantity,
  shared: SharedErrors,
): Result<SeenChange, ChangeRefusal> {
  const all = changeEffect(truck, change);
  if (!all.ok) return all;
  const effect = all.value.on[quantity];
  if (!effect.ok) return effect;
  const present = cared(truck, quantity);
  if (!present.ok) return present;
  const assumed = restsOnAssumedPlace(truck, present.value.gradient);
  if (quantity === 'left' && assumed > ONLY_ASSUMED)
    return refusal('undetermined', 'No reading tells how far left the CG lies; it is only assumed.');
  const seeings = differenceUncertainty(truck, present.value.gradient, shared);
  const { left } = all.value.on;
  const hidden = left.ok ? assumed * left.value.difference.value : 0;
  const followed = effect.value.difference.value - hidden;
  return success({
    effect: effect.value,
    followed,
    seeings,
    independent: verdictOn(followed, seeings.independent),
    reused: verdictOn(followed, seeings.reused),
  });
}
