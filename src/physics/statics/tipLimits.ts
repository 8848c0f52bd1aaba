import type { SpacePoint } from '../places';
import {
  type Angle,
  type Estimate,
  type Length,
  type Result,
  meters,
  radians,
  refusal,
  success,
} from '../quantities';
import {
  type Contact,
  type PolygonRefusal,
  type SupportPolygon,
  type TipRefusal,
  distanceFromEdge,
  edgeLimit,
  limitSlope,
  supportPolygon,
  tipOverEdges,
  truckContacts,
} from './supportPolygon';
import { type Covariance, covarianceFault, firstOrder, minimumOfTwo, propagate } from '../fit/uncertainty';

/**
 * Tip angles and limit slopes with their uncertainty, jointly from the CG and the contacts.
 */

/** A polygon, a CG over it and what is known of their errors. */
export interface UncertainStance {
  readonly polygon: SupportPolygon;
  readonly cg: SpacePoint;
  /** Order: x, y, z of the CG, then x, y of each of polygon.contacts (m²). */
  readonly covariance: Covariance;
}

export type StanceRefusal = TipRefusal | PolygonRefusal | 'dimension' | 'covariance';

const contactsOf = (polygon: SupportPolygon, places: readonly number[]): Contact[] =>
  polygon.contacts.map(({ name }, i) => ({
    name,
    x: meters(places[2 * i] ?? NaN),
    y: meters(places[2 * i + 1] ?? NaN),
  }));

const inputsOf = ({ polygon, cg }: UncertainStance): number[] => [
  cg.x,
  cg.y,
  cg.z,
  ...polygon.contacts.flatMap(({ x, y }) => [x, y]),
];

/** Edges of moved contacts, keeping the polygon's order and their headings. */
const placedEdges = (
  stance: UncertainStance,
  inputs: readonly number[],
): { distance: Length; height: Length; squareHeading: number }[] => {
  const [x = NaN, y = NaN, z = NaN, ...places] = inputs;
  const contacts = contactsOf(stance.polygon, places);
  return contacts.map((from, i) => {
    const to = contacts[(i + 1) % contacts.length] ?? from;
    const squareHeading = Math.atan2(-(to.x - from.x), to.y - from.y);
    const distance = distanceFromEdge(
      { from, to, squareHeading: radians(squareHeading) },
      { x: meters(x), y: meters(y) },
    );
    return { distance, height: meters(z), squareHeading };
  });
};

const stanceFault = (stance: UncertainStance): string | null =>
  covarianceFault(stance.covariance, 3 + 2 * stance.polygon.contacts.length);

/** Tip angle over one edge with its uncertainty. */
export interface UncertainEdgeTip {
  readonly distance: Estimate<Length>;
  /** Downhill square to the edge. */
  readonly angle: Estimate<Angle>;
}

/** Tip angles over all edges, in the polygon's order, with their joint covariance (rad²). */
export interface UncertainTips {
  readonly edges: readonly UncertainEdgeTip[];
  readonly covariance: number[][];
}

/**
 * Tip angle over every edge with first-order uncertainty (JCGM 100:2008, eq. (13)), jointly: all edges share the
 * CG and its height. Refusals as in tipOverEdges().
 */
export const uncertainTips = (stance: UncertainStance): Result<UncertainTips, StanceRefusal> => {
  const tips = tipOverEdges(stance.polygon, stance.cg);
  if (!tips.ok) return tips;
  const fault = stanceFault(stance);
  if (fault !== null) return refusal('covariance', fault);
  const count = tips.value.length;
  const joint = firstOrder(
    (inputs) => {
      const edges = placedEdges(stance, inputs);
      return [
        ...edges.map(({ distance, height }) => edgeLimit(distance, height, radians(0))),
        ...edges.map(({ distance }) => distance),
      ];
    },
    inputsOf(stance),
    stance.covariance,
  );
  const u = (i: number): number => Math.sqrt(joint.covariance[i]?.[i] ?? NaN);
  return success({
    edges: tips.value.map(({ distance, angle }, i) => ({
      distance: { value: distance, u: u(count + i) },
      angle: { value: angle, u: u(i) },
    })),
    covariance: joint.covariance.slice(0, count).map((row) => row.slice(0, count)),
  });
};

/** Two edges count as tied at a heading while their limits differ by no more than this many u of the difference. */
const TIED_WITHIN = 2;

/** Limit slope at one heading with its uncertainty. */
export interface UncertainLimit {
  /**
   * The slope at which the truck tips over whichever edge comes first. Where two edges are tied, mean and standard
   * deviation of the smaller of the two limits; the mean is then lower than `atEstimate`, by up to 0.6 u.
   */
  readonly slope: Estimate<Angle>;
  /** Limit at the best estimate of CG and contacts, as limitSlope() gives it. */
  readonly atEstimate: Angle;
  /** Index of the edge that governs at the best estimate. */
  readonly governing: number;
  /** Index of the edge tied with it, or null. */
  readonly tiedWith: number | null;
}

/**
 * Limit slope at a heading with first-order uncertainty. The limits over the two edges that come first are
 * correlated through the CG; where they lie within 2 u (of their difference) of each other, the limit is the minimum of both
 * (minimumOfTwo(), Clark 1961), else that of the governing edge alone. At the switch the two differ by less than
 * 0.01 u. Refusals as in limitSlope().
 */
export const uncertainLimit = (
  stance: UncertainStance,
  heading: Angle,
): Result<UncertainLimit, StanceRefusal> => {
  const limit = limitSlope(stance.polygon, stance.cg, heading);
  if (!limit.ok) return limit;
  const fault = stanceFault(stance);
  if (fault !== null) return refusal('covariance', fault);
  const { perEdge, governing, slope } = limit.value;
  const second = perEdge
    .map((angle, edge) => ({ angle, edge }))
    .filter(({ angle, edge }) => edge !== governing && angle < Math.PI / 2)
    .sort((a, b) => a.angle - b.angle)[0]?.edge;
  const candidates = second === undefined ? [governing] : [governing, second];
  const { values, covariance } = firstOrder(
    (inputs) => {
      const edges = placedEdges(stance, inputs);
      return candidates.map((candidate) => {
        const edge = edges[candidate];
        return edge === undefined
          ? NaN
          : edgeLimit(edge.distance, edge.height, radians(heading - edge.squareHeading));
      });
    },
    inputsOf(stance),
    stance.covariance,
  );
  const [a = NaN, b = Infinity] = values;
  const ua = Math.sqrt(covariance[0]?.[0] ?? NaN);
  const ub = Math.sqrt(covariance[1]?.[1] ?? 0);
  const shared = covariance[0]?.[1] ?? 0;
  const uDifference = Math.sqrt(Math.max(ua ** 2 + ub ** 2 - 2 * shared, 0));
  const tied = second !== undefined && b - a <= TIED_WITHIN * uDifference;
  const least = tied ? minimumOfTwo({ value: a, u: ua }, { value: b, u: ub }, shared) : { value: a, u: ua };
  return success({
    slope: { value: radians(least.value), u: least.u },
    atEstimate: slope,
    governing,
    tiedWith: tied ? second : null,
  });
};

/** A truck on four wheels: its CG and the dimensions that place its contacts. */
export interface TruckStance {
  readonly cg: SpacePoint;
  readonly wheelbase: Length;
  /** Tire center to tire center. */
  readonly frontTrack: Length;
  readonly rearTrack: Length;
  /**
   * 6 × 6 (m²), order: CG x, y, z, wheelbase, front track, rear track. A CG from pictures scaled by the wheelbase
   * is correlated with it; joinCovariances() and independent() build it where nothing is shared.
   */
  readonly covariance: Covariance;
}

/** Sensitivity of the contacts (x, y of rear right, front right, front left, rear left) to wheelbase and tracks. */
const CONTACTS_BY_DIMENSION = [
  [0, 0, 0],
  [0, 0, -0.5],
  [1, 0, 0],
  [0, -0.5, 0],
  [1, 0, 0],
  [0, 0.5, 0],
  [0, 0, 0],
  [0, 0, 0.5],
];

/** Contacts of a truck and their joint covariance with the CG. Refused: a dimension not above zero. */
export const stanceOfTruck = (truck: TruckStance): Result<UncertainStance, StanceRefusal> => {
  const { cg, wheelbase, frontTrack, rearTrack, covariance } = truck;
  if (![wheelbase, frontTrack, rearTrack].every((size) => size > 0 && size < Infinity)) {
    return refusal(
      'dimension',
      'Wheelbase and tracks must be above zero. Measure hub to hub and tire center to tire center.',
    );
  }
  const fault = covarianceFault(covariance, 6);
  if (fault !== null) return refusal('covariance', fault);
  const contacts = truckContacts(wheelbase, frontTrack, rearTrack);
  const polygon = supportPolygon(contacts);
  if (!polygon.ok) return polygon;
  const toStance = [
    [1, 0, 0, 0, 0, 0],
    [0, 1, 0, 0, 0, 0],
    [0, 0, 1, 0, 0, 0],
    ...CONTACTS_BY_DIMENSION.map((row) => [0, 0, 0, ...row]),
  ];
  return success({ polygon: polygon.value, cg, covariance: propagate(toStance, covariance) });
};

/** A tip angle as the reader sees it. */
export interface TipAngle {
  /** At tire centers: comparable and cautious. */
  readonly angle: Estimate<Angle>;
  /** If the tires stand on their outer edges; null over the nose and the tail, or without a tread width. */
  readonly edgeAngle: Angle | null;
}

/** Tip angles of a truck over its four edges, each with downhill square to that edge. */
export interface TruckTips {
  /** Falling over the left wheels. */
  readonly left: TipAngle;
  readonly right: TipAngle;
  /** Nose up, over the rear tires. */
  readonly climb: TipAngle;
  /** Nose down, over the front tires. */
  readonly descent: TipAngle;
  /** 4 × 4 (rad²), order left, right, climb, descent. */
  readonly covariance: number[][];
}

/** Places of left, right, climb, descent among the edges of truckContacts(). */
const NAMED_EDGES = { right: 0, descent: 1, left: 2, climb: 3 } as const;

/**
 * Side, climb and descent angles of a rigid truck with uncertainty, and the bracket to the tires' outer edges when
 * `treadWidth` is known. With unequal tracks the side edges are not parallel to the truck; the angle is then the least
 * at which it tips over that edge. Refusals as in stanceOfTruck() and tipOverEdges().
 */
export const truckTipAngles = (
  truck: TruckStance,
  treadWidth: Length | null,
): Result<TruckTips, StanceRefusal> => {
  const stance = stanceOfTruck(truck);
  if (!stance.ok) return stance;
  const tips = uncertainTips(stance.value);
  if (!tips.ok) return tips;
  const outer = supportPolygon(
    truckContacts(
      truck.wheelbase,
      meters(truck.frontTrack + (treadWidth ?? 0)),
      meters(truck.rearTrack + (treadWidth ?? 0)),
    ),
  );
  const hasTread = treadWidth !== null && treadWidth > 0 && treadWidth < Infinity;
  const edgeAngle = (edge: number): Angle | null => {
    if (!hasTread || !outer.ok) return null;
    const outerEdge = outer.value.edges[edge];
    return outerEdge === undefined
      ? null
      : edgeLimit(distanceFromEdge(outerEdge, truck.cg), truck.cg.z, radians(0));
  };
  const angle = (edge: number): Estimate<Angle> =>
    tips.value.edges[edge]?.angle ?? { value: radians(NaN), u: NaN };
  const order = [NAMED_EDGES.left, NAMED_EDGES.right, NAMED_EDGES.climb, NAMED_EDGES.descent];
  return success({
    left: { angle: angle(NAMED_EDGES.left), edgeAngle: edgeAngle(NAMED_EDGES.left) },
    right: { angle: angle(NAMED_EDGES.right), edgeAngle: edgeAngle(NAMED_EDGES.right) },
    climb: { angle: angle(NAMED_EDGES.climb), edgeAngle: null },
    descent: { angle: angle(NAMED_EDGES.descent), edgeAngle: null },
    covariance: order.map((i) => order.map((j) => tips.value.covariance[i]?.[j] ?? NaN)),
  });
};
