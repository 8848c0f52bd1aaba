import type { Carrier } from './hanging';
import {
  type Estimate,
  type Length,
  type Mass,
  type Result,
  kilograms,
  meters,
  refusal,
  success,
} from '../quantities';

/** CG of a whole from the masses and places of its parts, in truck axes. */

/** One part: its mass, negative for a part taken away, and the place of its own CG. */
export interface PartMass {
  readonly mass: Estimate<Mass>;
  readonly x: Estimate<Length>;
  readonly y: Estimate<Length>;
  readonly z: Estimate<Length>;
}

/** How the composite CG moves with one part. */
export interface PartSensitivity {
  /** Per kg of the part's mass: (part's place − CG)/M (m/kg). */
  readonly mass: { readonly x: number; readonly y: number; readonly z: number };
  /** Per m of the part's place: m/M, the same along each axis. */
  readonly place: number;
}

/** CG of several parts with its uncertainty. */
export interface CompositeCg {
  readonly mass: Estimate<Mass>;
  readonly x: Estimate<Length>;
  readonly y: Estimate<Length>;
  readonly z: Estimate<Length>;
  /** 3 × 3, order x, y, z (m²). Masses make the coordinates correlated. */
  readonly covariance: number[][];
  /** One a part, in the order given. */
  readonly sensitivities: readonly PartSensitivity[];
}

export type CompositeRefusal = 'no-parts' | 'not-finite' | 'total-mass';

const AXES = ['x', 'y', 'z'] as const;

/**
 * CG of a parts list: Σ m_i r_i / Σ m_i (first moment of mass). Parts are independent of each other; u by JCGM
 * 100:2008, eqs. (10) and (13). A group of parts may stand in for them; its u then counts, but that its mass and CG share
 * errors is lost. Refused: no part, a number that is none, a total mass not above zero (or too small
 * a difference of large masses to divide by).
 */
export const compositeCg = (parts: readonly PartMass[]): Result<CompositeCg, CompositeRefusal> => {
  if (parts.length === 0)
    return refusal('no-parts', 'The parts list is empty. Enter the heaviest part first.');
  const numbers = parts.flatMap((part) => [part.mass, part.x, part.y, part.z]);
  if (!numbers.every(({ value, u }) => Number.isFinite(value) && u >= 0 && u < Infinity)) {
    return refusal('not-finite', 'A part has no mass or place yet. Complete its row.');
  }
  const mass = parts.reduce((sum, part) => sum + part.mass.value, 0);
  const moved = parts.reduce((sum, part) => sum + Math.abs(part.mass.value), 0);
  if (!(mass > 1e-9 * moved)) {
    return refusal(
      'total-mass',
      'The parts taken away weigh as much as all the others or more. Check the signs of the masses.',
    );
  }
  const mean = (axis: (typeof AXES)[number]): number =>
    parts.reduce((sum, part) => sum + part.mass.value * part[axis].value, 0) / mass;
  const cg = { x: mean('x'), y: mean('y'), z: mean('z') };
  const sensitivities = parts.map((part) => ({
    mass: {
      x: (part.x.value - cg.x) / mass,
      y: (part.y.value - cg.y) / mass,
      z: (part.z.value - cg.z) / mass,
    },
    place: part.mass.value / mass,
  }));
  const covariance = AXES.map((a) =>
    AXES.map((b) =>
      parts.reduce((sum, part, i) => {
        const by = sensitivities[i];
        if (by === undefined) return NaN;
        const fromMass = by.mass[a] * by.mass[b] * part.mass.u ** 2;
        return sum + fromMass + (a === b ? (by.place * part[a].u) ** 2 : 0);
      }, 0),
    ),
  );
  const along = (axis: (typeof AXES)[number], i: number): Estimate<Length> => ({
    value: meters(cg[axis]),
    u: Math.sqrt(covariance[i]?.[i] ?? NaN),
  });
  return success({
    mass: { value: kilograms(mass), u: Math.hypot(...parts.map((part) => part.mass.u)) },
    x: along('x', 0),
    y: along('y', 1),
    z: along('z', 2),
    covariance,
    sensitivities,
  });
};

/** A part and what carries it. */
export interface CarriedPart extends PartMass {
  readonly carrier: Carrier;
}

/** The whole truck, its sprung body and the unsprung mass of each axle. */
export interface CarrierCgs {
  readonly whole: Result<CompositeCg, CompositeRefusal>;
  readonly body: Result<CompositeCg, CompositeRefusal>;
  readonly 'front axle': Result<CompositeCg, CompositeRefusal>;
  readonly 'rear axle': Result<CompositeCg, CompositeRefusal>;
}

/** CG of the whole list and of each carrier's own parts; a carrier without parts is refused with 'no-parts'. */
export const cgByCarrier = (parts: readonly CarriedPart[]): CarrierCgs => {
  const of = (carrier: Carrier): Result<CompositeCg, CompositeRefusal> =>
    compositeCg(parts.filter((part) => part.carrier === carrier));
  return {
    whole: compositeCg(parts),
    body: of('body'),
    'front axle': of('front axle'),
    'rear axle': of('rear axle'),
  };
};
