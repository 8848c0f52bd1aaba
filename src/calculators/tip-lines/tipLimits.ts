import {
  angleIn,
  degrees,
  distanceFromEdge,
  edgeLimit,
  meters,
  radians,
  refusal,
  stanceOfTruck,
  staticStabilityFactor,
  truckTipAngles,
  uncertainLimit,
  type Angle,
  type Estimate,
  type Length,
  type Result,
  type SupportEdge,
  type TruckStance,
  type TruckTips,
  type UncertainLimit,
  type UncertainStance,
} from '../../physics';
import type { BenchAnswer } from '../../answer/benchAnswer';
import type { LimitSample, WayDown } from '../../figures';
import { FIELDS } from '../../sheet/fields';
import { readGiven } from '../../sheet/given';
import type { BuildState } from '../../sheet/schema';

/** The three sizes that place the contacts, and the tread width where it is known. */
export interface ContactSizes {
  readonly wheelbase: Estimate<Length>;
  readonly frontTrack: Estimate<Length>;
  readonly rearTrack: Estimate<Length>;
  readonly treadWidth: Length | null;
}

/** Sizes that place the contacts, as adjusted, and the tread width as typed. */
function contactSizes({ dimensions }: BuildState, truck: TruckStance): ContactSizes {
  const sized = (value: Length, row: number): Estimate<Length> => ({
    value,
    u: Math.sqrt(truck.covariance[row]?.[row] ?? NaN),
  });
  const tread = readGiven(dimensions.treadWidth, FIELDS.treadWidth);
  return {
    wheelbase: sized(truck.wheelbase, 3),
    frontTrack: sized(truck.frontTrack, 4),
    rearTrack: sized(truck.rearTrack, 5),
    treadWidth: tread.ok ? tread.value.value : null,
  };
}

/** Everything the tip-line calculator shows that does not depend on the heading. */
export interface TipLimits {
  readonly truck: TruckStance;
  readonly stance: UncertainStance;
  readonly tips: TruckTips;
  readonly sizes: ContactSizes;
  /** A limit for every degree of heading. */
  readonly samples: readonly LimitSample[];
  /** Static stability factor of the narrower track. */
  readonly stabilityFactor: Result<number>;
}

/**
 * Limits of the state's truck; `height` takes the place of the measured CG height where a reader tries another.
 * Refused where the CG or a size is missing, with its message.
 */
export function tipLimits(state: BuildState, answer: BenchAnswer, height: Length | null): Result<TipLimits> {
  if (!answer.cg.ok) return answer.cg;
  if (!answer.stance.ok) return answer.stance;
  const adjusted = answer.stance.value;
  const sizes = contactSizes(state, adjusted);
  const { frontTrack, rearTrack, treadWidth } = sizes;
  const truck: TruckStance = height === null ? adjusted : { ...adjusted, cg: { ...adjusted.cg, z: height } };
  const stance = stanceOfTruck(truck);
  if (!stance.ok) return stance;
  const tips = height === null ? answer.tips : truckTipAngles(truck, treadWidth);
  if (!tips.ok) return tips;
  const narrower = frontTrack.value < rearTrack.value ? frontTrack.value : rearTrack.value;
  return {
    ok: true,
    value: {
      truck,
      stance: stance.value,
      tips: tips.value,
      sizes,
      samples: limitSamples(stance.value),
      stabilityFactor: staticStabilityFactor(narrower, truck.cg.z),
    },
  };
}

function limitSamples(stance: UncertainStance): LimitSample[] {
  return Array.from({ length: 360 }, (_, degree): LimitSample[] => {
    const heading = degrees(degree);
    const limit = uncertainLimit(stance, heading);
    return limit.ok ? [{ heading, slope: limit.value.atEstimate, u: limit.value.slope.u }] : [];
  }).flat();
}

/** The limit at one heading, with the edge the truck then goes over. */
export interface HeadingView {
  readonly limit: UncertainLimit;
  readonly edge: SupportEdge;
  readonly way: WayDown;
  /** From square to the edge (rad), −180° to 180°. */
  readonly offSquare: Angle;
  readonly distance: Length;
  /** Least slope over that edge, downhill square to it. */
  readonly square: Angle;
  /** Limit at this heading if the tires stand on their outer edges; null where that is not known. */
  readonly edgeAngle: Angle | null;
}

/** Names of the four edges in the order of truckContacts(). */
const WAYS: readonly WayDown[] = ['right', 'descent', 'left', 'climb'];
/** What the reader calls the tip line of each. */
export const LINE_WORDS: Readonly<Record<WayDown, string>> = {
  left: 'left',
  right: 'right',
  climb: 'rear',
  descent: 'front',
};

/** The limit at a heading. Refusals as in uncertainLimit(). */
export function headingView({ stance, truck, tips }: TipLimits, heading: Angle): Result<HeadingView> {
  const limit = uncertainLimit(stance, heading);
  if (!limit.ok) return limit;
  const { governing } = limit.value;
  const edge = stance.polygon.edges[governing];
  const way = WAYS[governing];
  if (!edge || !way) return refusal('edges', 'The contacts make no four tip lines. Check the tracks.');
  const tip = tips[way];
  const turned = heading - edge.squareHeading;
  const offSquare = radians(Math.atan2(Math.sin(turned), Math.cos(turned)));
  const { z } = truck.cg;
  // The outer edge is known by its least slope: d = h tan(limit).
  const outer = tip.edgeAngle === null ? null : meters(z * Math.tan(tip.edgeAngle));
  return {
    ok: true,
    value: {
      limit: limit.value,
      edge,
      way,
      offSquare,
      distance: distanceFromEdge(edge, truck.cg),
      square: tip.angle.value,
      edgeAngle: outer === null ? null : edgeLimit(outer, z, offSquare),
    },
  };
}

/** Degrees of an angle, 0 up to 360. */
export const turnDegrees = (heading: Angle): number => {
  const degree = angleIn(heading, 'deg');
  return degree - Math.floor(degree / 360) * 360;
};

/** Where downhill lies, in words: "28° behind the left side". */
export function headingWords(degree: number): string {
  const words = ['nose down', 'left side down', 'nose up', 'right side down'];
  const between = [
    'nose and left side down',
    'left side and tail down',
    'tail and right side down',
    'right side and nose down',
  ];
  const quarter = Math.floor(degree / 90) % 4;
  return (degree % 90 === 0 ? words[quarter] : between[quarter]) ?? '';
}

/** "118° left of nose", "90° right of nose". */
export const sideOfNose = (degree: number): string =>
  degree <= 180 ? `${Math.round(degree)}° left of nose` : `${Math.round(360 - degree)}° right of nose`;
