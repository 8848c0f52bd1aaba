import type { PlaneLine } from './lines';
import type { PlanePoint, SpacePoint } from '../places';
import {
  type Angle,
  type Length,
  type Mass,
  type Result,
  kilograms,
  meters,
  radians,
  refusal,
  success,
} from '../quantities';

/**
 * A truck hung by one hook: the string's line, carried down through the hook, passes through the center of
 * gravity. Everything is in truck axes, which are fixed to the sprung body at ride height.
 */

/** What a hook or a part is fastened to, and moves with. */
export type Carrier = 'body' | 'front axle' | 'rear axle';

/** A displacement in the side plane of the truck axes (m). */
export interface PlaneShift {
  readonly x: Length;
  readonly z: Length;
}

/** What one axle does when the truck hangs: its own mass and how far it moved from ride height, in truck axes. */
export interface AxleDroop {
  readonly mass: Mass;
  readonly shift: PlaneShift;
}

/** How the axles hang. With the suspension locked see lockedSuspension(). */
export interface Droop {
  readonly mass: Mass;
  readonly front: AxleDroop;
  readonly rear: AxleDroop;
}

const NO_SHIFT: PlaneShift = { x: meters(0), z: meters(0) };

/** Droop of a truck whose suspension is locked at ride height: nothing moves, whatever the axles weigh. */
export const lockedSuspension = (mass: Mass): Droop => ({
  mass,
  front: { mass: kilograms(0), shift: NO_SHIFT },
  rear: { mass: kilograms(0), shift: NO_SHIFT },
});

const carrierShift = (carrier: Carrier, droop: Droop): PlaneShift => {
  if (carrier === 'body') return NO_SHIFT;
  return carrier === 'front axle' ? droop.front.shift : droop.rear.shift;
};

/** Where a point of the truck hangs, from its place at ride height. */
export const hungPlace = (atRideHeight: PlanePoint, carrier: Carrier, droop: Droop): PlanePoint => {
  const shift = carrierShift(carrier, droop);
  return { x: meters(atRideHeight.x + shift.x), z: meters(atRideHeight.z + shift.z) };
};

/** How far the CG moves when the axles droop: Σ (m_axle/M) d_axle (m). Needs a total mass above zero. */
export const droopOfCg = (droop: Droop): PlaneShift => {
  const front = droop.front.mass / droop.mass;
  const rear = droop.rear.mass / droop.mass;
  return {
    x: meters(front * droop.front.shift.x + rear * droop.rear.shift.x),
    z: meters(front * droop.front.shift.z + rear * droop.rear.shift.z),
  };
};

/**
 * How far `through` of a corrected line moves for a unit of each input, the same along x and z where one number is
 * given. Across the line only the part along its normal counts.
 */
export interface HangSensitivities {
  /** Per m of the hook's place at ride height: 1. */
  readonly hook: number;
  /** Per m of each axle's displacement: (1 if the hook rides on it) − m_axle/M. */
  readonly frontShift: number;
  readonly rearShift: number;
  /** Per kg of each axle's mass: −d_axle/M (m/kg). */
  readonly frontMass: { readonly x: number; readonly z: number };
  readonly rearMass: { readonly x: number; readonly z: number };
  /** Per kg of the whole mass: Σ m_axle d_axle/M² (m/kg). */
  readonly mass: { readonly x: number; readonly z: number };
}

/** A line of hang, brought back to ride height. */
export interface HangLine {
  /** The line on which the CG of the truck at ride height lies. */
  readonly line: PlaneLine;
  /** From the hook's ride-height place to the line's `through`. */
  readonly shift: PlaneShift;
  /** How far the correction moves the line across itself, along its normal (−sin angle, cos angle) (m). */
  readonly acrossLine: Length;
  readonly sensitivities: HangSensitivities;
}

/**
 * Line of a hang, corrected for its own droop.
 *
 * `hook` is the hook's place at ride height; `direction` the way the string runs down through the hook, in truck
 * axes (angle from x, turning up toward z; −90° when the truck hangs level). The hung CG lies at
 * CG + Σ (m_axle/M) d_axle, the hung hook at hook + d_carrier, so the line through the hung hook, shifted by
 * −Σ (m_axle/M) d_axle, holds the CG at ride height (weighted mean of positions; no approximation).
 *
 * Refused: total mass not above zero, an axle heavier than the truck or negative, a number that is none.
 */
export const hangLine = (
  hook: PlanePoint,
  carrier: Carrier,
  direction: Angle,
  droop: Droop,
): Result<HangLine, 'mass' | 'not-finite'> => {
  const { mass, front, rear } = droop;
  const numbers = [hook.x, hook.z, direction, front.shift.x, front.shift.z, rear.shift.x, rear.shift.z];
  if (!numbers.every(Number.isFinite)) {
    return refusal('not-finite', 'The hook, the string or an axle has no place yet. Complete the marks.');
  }
  if (!(mass > 0 && mass < Infinity)) {
    return refusal('mass', 'The truck’s mass must be above zero. Weigh the truck as it hung.');
  }
  if (!(front.mass >= 0 && rear.mass >= 0 && front.mass + rear.mass <= mass)) {
    return refusal(
      'mass',
      'The two axles cannot weigh less than nothing or more than the whole truck. Check their masses.',
    );
  }
  const own = carrierShift(carrier, droop);
  const cg = droopOfCg(droop);
  const shift = { x: meters(own.x - cg.x), z: meters(own.z - cg.z) };
  const perMass = (axle: AxleDroop): { x: number; z: number } => ({
    x: -axle.shift.x / mass,
    z: -axle.shift.z / mass,
  });
  return success({
    line: { angle: direction, through: { x: meters(hook.x + shift.x), z: meters(hook.z + shift.z) } },
    shift,
    acrossLine: meters(-Math.sin(direction) * shift.x + Math.cos(direction) * shift.z),
    sensitivities: {
      hook: 1,
      frontShift: (carrier === 'front axle' ? 1 : 0) - front.mass / mass,
      rearShift: (carrier === 'rear axle' ? 1 : 0) - rear.mass / mass,
      frontMass: perMass(front),
      rearMass: perMass(rear),
      mass: { x: cg.x / mass, z: cg.z / mass },
    },
  });
};

/** Nearer than this to the hook (m) the CG gives the truck no direction to hang in. */
const TOO_NEAR = 1e-9;

/**
 * Direction of gravity in the side plane of a rigid body hung at `hook`, its CG known: from hook to CG, as an angle
 * from x turning up toward z (rad, −90° for a level truck). Refused when the CG is at the hook: every attitude is
 * then in balance.
 */
export const hangDirection = (
  hook: PlanePoint,
  cg: PlanePoint,
): Result<Angle, 'cg-at-the-hook' | 'not-finite'> => {
  const hung = hangDirectionInSpace(
    { x: hook.x, y: meters(0), z: hook.z },
    { x: cg.x, y: meters(0), z: cg.z },
  );
  return hung.ok ? success(radians(Math.atan2(hung.value.z, hung.value.x))) : hung;
};

/**
 * Unit vector of gravity in the axes of a rigid body hung at `hook`, its CG known: from hook to CG, the only
 * attitude of least potential energy. Refused when the CG is at the hook.
 */
export const hangDirectionInSpace = (
  hook: SpacePoint,
  cg: SpacePoint,
): Result<
  { readonly x: number; readonly y: number; readonly z: number },
  'cg-at-the-hook' | 'not-finite'
> => {
  const x = cg.x - hook.x;
  const y = cg.y - hook.y;
  const z = cg.z - hook.z;
  const distance = Math.hypot(x, y, z);
  if (!Number.isFinite(distance)) return refusal('not-finite', 'The hook or the CG has no place yet.');
  if (distance < TOO_NEAR) {
    return refusal(
      'cg-at-the-hook',
      'The hook sits at the CG, so the truck rests in any attitude. Choose another hook.',
    );
  }
  return success({ x: x / distance, y: y / distance, z: z / distance });
};
