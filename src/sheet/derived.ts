import {
  COVERAGE,
  kilograms,
  meters,
  success,
  uncertaintyFromLimits,
  type Estimate,
  type Length,
  type Mass,
  type Result,
} from '../physics/index';
import { FIELDS } from './fields';
import { isEmpty, labeled, readGiven, type GivenReason } from './given';
import { called } from './givens';
import type { BuildState, Carrier, Mark, Part, Picture } from './schema';

/** A part of the list in SI, truck axes: ahead of the rear axle, left of center, above ground. */
export interface ListedPart {
  readonly id: string;
  readonly name: string;
  readonly carrier: Carrier;
  readonly mass: Estimate<Mass>;
  readonly ahead: Estimate<Length>;
  readonly left: Estimate<Length>;
  readonly height: Estimate<Length>;
}

function listedPart(part: Part, index: number): Result<ListedPart, GivenReason> {
  const name = called(part.name, 'Part', index);
  const mass = readGiven(part.mass, labeled(FIELDS.partMass, `${name}, mass`));
  if (!mass.ok) return mass;
  const ahead = readGiven(part.ahead, labeled(FIELDS.partAhead, `${name}, ahead of the rear axle`));
  if (!ahead.ok) return ahead;
  const left = readGiven(part.left, labeled(FIELDS.partLeft, `${name}, left of center`));
  if (!left.ok) return left;
  const height = readGiven(part.height, labeled(FIELDS.partHeight, `${name}, above ground`));
  if (!height.ok) return height;
  return success({
    id: part.id,
    name,
    carrier: part.carrier,
    mass: mass.value,
    ahead: ahead.value,
    left: left.value,
    height: height.value,
  });
}

/** Lists already read. The open sheet is frozen and shares unchanged branches, so a dragged mark leaves its list be. */
const lists = new WeakMap<readonly Part[], Result<readonly ListedPart[], GivenReason>>();

/** The parts list in SI. The first part that cannot be read refuses the whole list: its sum would be wrong. */
export function partsList({ parts }: BuildState): Result<readonly ListedPart[], GivenReason> {
  const held = lists.get(parts);
  if (held) return held;
  const list = readList(parts);
  if (Object.isFrozen(parts)) lists.set(parts, list);
  return list;
}

function readList(parts: readonly Part[]): Result<readonly ListedPart[], GivenReason> {
  const read: ListedPart[] = [];
  for (const [index, part] of parts.entries()) {
    const listed = listedPart(part, index);
    if (!listed.ok) return listed;
    read.push(listed.value);
  }
  return success(read);
}

export interface UnsprungMass extends Estimate<Mass> {
  /** Where it comes from, shown beside the number. */
  readonly from: 'given' | 'parts list' | 'default';
}

/**
 * One axle's mass over the truck's while nothing says. Common practice: scale bodies carry 45 to 65 % of the truck
 * on their springs, so 35 to 55 % is unsprung; taken in equal halves. Competition rigs with motors on the axles are
 * far outside: they weigh their axles.
 */
export const USUAL_AXLE_SHARE: Estimate = { value: 0.225, u: 0.08 / COVERAGE };

/**
 * Mass that moves with one axle when the suspension droops: as given, else the parts list's group, else the usual
 * share of `truckMass` with a wide ±. Refuses where a given, the list or the mass cannot be read.
 */
export function unsprungMass(
  state: BuildState,
  axle: 'front axle' | 'rear axle',
  truckMass: Result<Estimate<Mass>, GivenReason> = readGiven(state.mass, FIELDS.mass),
): Result<UnsprungMass, GivenReason> {
  const front = axle === 'front axle';
  const given = front ? state.unsprungFront : state.unsprungRear;
  if (!isEmpty(given)) {
    const read = readGiven(given, front ? FIELDS.unsprungFront : FIELDS.unsprungRear);
    return read.ok ? success({ ...read.value, from: 'given' }) : read;
  }
  if (state.parts.some((part) => part.carrier === axle)) {
    const parts = partsList(state);
    if (!parts.ok) return parts;
    const masses = parts.value.filter((part) => part.carrier === axle).map((part) => part.mass);
    const value = kilograms(masses.reduce((sum, mass) => sum + mass.value, 0));
    // A list that takes off more than it puts on says nothing of the axle.
    if (value > 0)
      return success({ value, u: Math.hypot(...masses.map((mass) => mass.u)), from: 'parts list' });
  }
  if (!truckMass.ok) return truckMass;
  const whole = truckMass.value.value;
  return success({
    value: kilograms(USUAL_AXLE_SHARE.value * whole),
    u: USUAL_AXLE_SHARE.u * whole,
    from: 'default',
  });
}

/** unsprungMass() of both axles, with the truck's mass as typed. */
export function unsprungMasses(
  state: BuildState,
): Result<{ readonly front: UnsprungMass; readonly rear: UnsprungMass }, GivenReason> {
  const front = unsprungMass(state, 'front axle');
  if (!front.ok) return front;
  const rear = unsprungMass(state, 'rear axle');
  return rear.ok ? success({ front: front.value, rear: rear.value }) : rear;
}

/** Visible hubs sit about this far inside the tires' outer faces; common practice. */
const HUB_INSIDE_TIRE: Estimate<Length> = { value: meters(0.01), u: 0.012 / COVERAGE };

/**
 * How far the marked hubs stand from the center plane: as given, else from the outside width, else the field's
 * usual value.
 */
export function hubDepth(state: BuildState): Result<Estimate<Length>, GivenReason> {
  if (
    isEmpty(state.hubDepth) &&
    state.hubDepth.plusMinus.trim() === '' &&
    !isEmpty(state.dimensions.outsideWidth)
  ) {
    const width = readGiven(state.dimensions.outsideWidth, FIELDS.outsideWidth);
    // A width that cannot be read has its own message at its own field.
    if (width.ok && width.value.value / 2 > HUB_INSIDE_TIRE.value)
      return success({
        value: meters(width.value.value / 2 - HUB_INSIDE_TIRE.value),
        u: Math.hypot(width.value.u / 2, HUB_INSIDE_TIRE.u),
      });
  }
  return readGiven(state.hubDepth, FIELDS.hubDepth);
}

/** Standard uncertainty of a mark in pixels, per coordinate: the mark's own ±, else the picture's, else the usual. */
export function markUncertainty(
  picture: Picture,
  mark: Pick<Mark, 'plusMinus'>,
): Result<number, GivenReason> {
  const text = mark.plusMinus.trim() === '' ? picture.markPlusMinus.text : mark.plusMinus;
  const width = readGiven({ ...picture.markPlusMinus, text }, FIELDS.markPlusMinus);
  if (!width.ok) return width;
  const limits = text.trim() !== '' && picture.markPlusMinus.kind === 'limits';
  return success(limits ? uncertaintyFromLimits(width.value.value) : width.value.value / COVERAGE);
}
