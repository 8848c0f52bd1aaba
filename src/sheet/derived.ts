import {
  COVERAGE,
  kilograms,
  meters,
  refusal,
  success,
  uncertaintyFromLimits,
  type Estimate,
  type Length,
  type Mass,
  type Result,
} from '../physics/index';
import { FIELDS } from './fields';
import { isEmpty, labeled, readGiven, type GivenField, type GivenReason } from './given';
import { called } from './givens';
import { numberInWords } from './readingTitles';
import type { BuildState, Carrier, Given, Mark, Part, Picture, Reading } from './schema';

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

export interface TruckMass extends Estimate<Mass> {
  /** Where it comes from, shown beside the number. */
  readonly from: 'total mass' | 'scales' | 'parts list';
}

/** What scales show of one reading, each number with its field; nothing where it is no weighing of the whole truck. */
function loadsOf(reading: Reading): readonly (readonly [Given, GivenField<'mass'>])[] {
  switch (reading.kind) {
    case 'total mass':
      return [[reading.load, FIELDS.totalMass]];
    case 'axle scales':
      return [
        [reading.front, FIELDS.axleFront],
        [reading.rear, FIELDS.axleRear],
      ];
    case 'wheel scales':
      return [
        [reading.frontLeft, FIELDS.wheelFrontLeft],
        [reading.frontRight, FIELDS.wheelFrontRight],
        [reading.rearLeft, FIELDS.wheelRearLeft],
        [reading.rearRight, FIELDS.wheelRearRight],
      ];
    default:
      return [];
  }
}

/** The truck weighed once: what its scales show together, and how many times their zero is in it. */
interface Weighing {
  readonly sum: number;
  readonly variance: number;
  readonly zeros: number;
}

function weighing(state: BuildState, reading: Reading): Result<Weighing, GivenReason> {
  let [sum, variance, zeros] = [0, 0, 0];
  for (const [given, field] of loadsOf(reading)) {
    const load = readGiven(given, labeled(field, `${field.label}${numberInWords(state, reading)}`));
    if (!load.ok) return load;
    sum += load.value.value;
    variance += load.value.u ** 2;
    zeros += 1;
  }
  return success({ sum, variance, zeros });
}

/** Mean of several weighings by their weights; the scale's zero is the same error in all of them. */
function meanMass(weighings: readonly Weighing[], zero: Estimate<Mass>): Estimate<Mass> | null {
  if (weighings.length === 0) return null;
  const weight = weighings.reduce((total, { variance }) => total + 1 / variance, 0);
  const mean = (name: 'sum' | 'zeros'): number =>
    weighings.reduce((total, each) => total + each[name] / each.variance, 0) / weight;
  const value = mean('sum') - mean('zeros') * zero.value;
  return value > 0
    ? { value: kilograms(value), u: Math.hypot(Math.sqrt(1 / weight), mean('zeros') * zero.u) }
    : null;
}

/**
 * The truck's mass: from the counted readings of the whole truck, else from the counted axle and wheel scales, else
 * from the parts list; several of one source by their weighted mean, less the scale's zero. A reading that is not
 * complete or cannot be read does not enter; where no other is left, the first that cannot be read refuses.
 */
export function truckMass(state: BuildState): Result<TruckMass, GivenReason> {
  const counted = state.readings.filter((reading) => reading.counted && loadsOf(reading).length > 0);
  const read = counted.map((reading) => ({ kind: reading.kind, result: weighing(state, reading) }));
  const zero = readGiven(state.instruments.scaleZero, FIELDS.scaleZero);
  const from = (isWanted: (kind: Reading['kind']) => boolean): Estimate<Mass> | null =>
    meanMass(
      read.flatMap(({ kind, result }) => (isWanted(kind) && result.ok ? [result.value] : [])),
      zero.ok ? zero.value : { value: kilograms(0), u: 0 },
    );
  const whole = from((kind) => kind === 'total mass');
  if (whole) return success({ ...whole, from: 'total mass' });
  const scales = from((kind) => kind !== 'total mass');
  if (scales) return success({ ...scales, from: 'scales' });
  const list = listMass(state);
  if (list) return success({ ...list, from: 'parts list' });
  for (const { result } of read) if (!result.ok && result.reason !== 'empty') return result;
  return refusal(
    'empty',
    `${FIELDS.totalMass.label}: needs a number; nothing is entered. ${FIELDS.totalMass.next}`,
  );
}

function listMass(state: BuildState): Estimate<Mass> | null {
  const parts = partsList(state);
  return parts.ok ? massOfParts(parts.value) : null;
}

/** Parts together; null where they take off more than they put on, which says nothing. */
function massOfParts(parts: readonly ListedPart[]): Estimate<Mass> | null {
  const value = parts.reduce((sum, { mass }) => sum + mass.value, 0);
  return value > 0 ? { value: kilograms(value), u: Math.hypot(...parts.map(({ mass }) => mass.u)) } : null;
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
 * share of `wholeTruck` with a wide ±. Refuses where a given, the list or the mass cannot be read.
 */
export function unsprungMass(
  state: BuildState,
  axle: 'front axle' | 'rear axle',
  wholeTruck: Result<Estimate<Mass>, GivenReason> = truckMass(state),
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
    const mass = massOfParts(parts.value.filter((part) => part.carrier === axle));
    if (mass) return success({ ...mass, from: 'parts list' });
  }
  if (!wholeTruck.ok) return wholeTruck;
  const whole = wholeTruck.value.value;
  return success({
    value: kilograms(USUAL_AXLE_SHARE.value * whole),
    u: USUAL_AXLE_SHARE.u * whole,
    from: 'default',
  });
}

/** unsprungMass() of both axles. */
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
