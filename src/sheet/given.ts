import {
  COVERAGE,
  refusal,
  success,
  uncertaintyFromLimits,
  type Measured,
  type Refusal,
  type Result,
} from '../physics/index';
import {
  DIMENSION_WORDS,
  inside,
  outside,
  shortNumber,
  UNITS,
  withUnit,
  type Dimension,
  type Kinds,
} from './dimensions';
import { parseNumber } from './parseNumber';
import type { Given } from './schema';

/** A number with its unit, as a reader would type it. */
export interface Typed {
  readonly number: number;
  readonly unit: string;
}

/** A ± that holds while none is typed, and why. */
export type UsualPlusMinus = Typed & { readonly kind: Given['kind']; readonly reason: string };

/** What may be typed into one field, and what holds while nothing is. */
export interface GivenField<D extends Dimension = Dimension> {
  readonly label: string;
  readonly dimension: D;
  /** Hard rule: outside of it there is no reading. `above` excludes its own value, `least` and `most` do not. */
  readonly limits: {
    readonly above?: Typed;
    readonly least?: Typed;
    readonly most: Typed;
    readonly notZero?: boolean;
  };
  /** Where trucks of this size lie; outside of it the page remarks, and computes all the same. */
  readonly believable: readonly [Typed, Typed] | null;
  /** A common value, shown in the empty field and in messages; never used as one. */
  readonly often: Typed | null;
  /** The value that holds while the field is empty, and why; null where there is no answer without a reading. */
  readonly whenEmpty: (Typed & { readonly reason: string }) | null;
  /** The ± that holds while none is typed, and why; null where the field is a ± itself (u is 0). */
  readonly plusMinus: UsualPlusMinus | null;
  /** Where a usual value is far less sure than a measured one: the ± that holds once a value is typed. */
  readonly plusMinusWhenTyped?: UsualPlusMinus;
  /** What to do next when the value is missing or wrong: a sentence. */
  readonly next: string;
}

export type GivenReason =
  'empty' | 'not-a-number' | 'ambiguous' | 'wrong-unit' | 'out-of-range' | 'bad-plus-minus';

/** The field under another name, where one row of the table serves several: "Hook 2, height". */
export const labeled = <D extends Dimension>(field: GivenField<D>, label: string): GivenField<D> => ({
  ...field,
  label,
});

/** Nothing typed yet. What then holds is the field's `whenEmpty`. */
export const isEmpty = (given: Given): boolean => given.text.trim() === '';

const asTyped = (text: string, typedUnit: string | null, unit: string): string =>
  typedUnit === null ? withUnit(text.trim(), unit) : text.trim();

const fail = <Reason extends GivenReason>(
  field: GivenField,
  reason: Reason,
  ruleAndValue: string,
): Refusal<Reason> => refusal(reason, `${field.label}: ${ruleAndValue}. ${field.next}`);

/** Which hard rule a value breaks, as the middle of a sentence; null if none. */
function brokenLimit<D extends Dimension>(
  field: GivenField<D>,
  value: Kinds[D],
  unit: string,
): string | null {
  const { dimension, limits } = field;
  const [kind = ''] = DIMENSION_WORDS[dimension].split(' in ');
  const bound = (typed: Typed | undefined): Kinds[D] | null =>
    typed === undefined ? null : inside(dimension, typed.number, typed.unit);
  const words = (bounding: Kinds[D]): string =>
    withUnit(shortNumber(outside(dimension, bounding, unit)), unit);
  const above = bound(limits.above);
  if (above !== null && value <= above) return `needs ${kind} above ${above === 0 ? 'zero' : words(above)}`;
  const least = bound(limits.least);
  if (least !== null && value < least)
    return `needs ${kind} of at least ${least === 0 ? 'zero' : words(least)}`;
  const most = bound(limits.most);
  if (most !== null && value > most) return `needs ${kind} of at most ${words(most)}`;
  if (limits.notZero === true && value === 0) return `needs ${kind} other than zero`;
  return null;
}

interface Read<D extends Dimension> {
  readonly value: Kinds[D];
  /** The unit it was typed in. */
  readonly unit: string;
}

function readValue<D extends Dimension>(given: Given, field: GivenField<D>): Result<Read<D>, GivenReason> {
  const { dimension } = field;
  const typed = parseNumber(given.text);
  if (!typed.ok) {
    // An ambiguous number brings its own remedy; everything else gets the field's.
    if (typed.reason === 'ambiguous') return refusal('ambiguous', `${field.label}: ${typed.message}`);
    return fail(field, typed.reason === 'too-big' ? 'out-of-range' : typed.reason, typed.message);
  }
  const unit = typed.value.unit ?? given.unit;
  const got = `got “${asTyped(given.text, typed.value.unit, unit)}”`;
  const value = inside(dimension, typed.value.number, unit);
  if (value === null) return fail(field, 'wrong-unit', `needs ${DIMENSION_WORDS[dimension]}; ${got}`);
  const broken = brokenLimit(field, value, unit);
  return broken === null ? success({ value, unit }) : fail(field, 'out-of-range', `${broken}; ${got}`);
}

/**
 * Half width of a ±, inside. For lengths and masses '%' is a share of the value; for an angle it is percent
 * grade, which is worth less in angle the steeper the slope: d(atan g) = cos² dg.
 */
function halfWidth<D extends Dimension>(
  dimension: D,
  value: Kinds[D],
  number: number,
  unit: string,
): number | null {
  if (unit === '%' && dimension === 'angle') return (number / 100) * Math.cos(value) ** 2;
  if (unit === '%' && (dimension === 'length' || dimension === 'mass'))
    return (number / 100) * Math.abs(value);
  return inside(dimension, number, unit);
}

const standardFrom = (width: number, kind: Given['kind']): number =>
  kind === 'limits' ? uncertaintyFromLimits(width) : width / COVERAGE;

const usualPlusMinus = (field: GivenField, typed: boolean): UsualPlusMinus | null =>
  (typed ? field.plusMinusWhenTyped : undefined) ?? field.plusMinus;

/** A value with the law that its kind of ± stands for. */
const measured = <D extends Dimension>(
  value: Kinds[D],
  u: number,
  kind: Given['kind'],
): Measured<Kinds[D]> => (kind === 'limits' ? { value, u, law: 'rectangular' } : { value, u });

function withUsualPlusMinus<D extends Dimension>(
  field: GivenField<D>,
  value: Kinds[D],
  typed: boolean,
): Measured<Kinds[D]> {
  const usual = usualPlusMinus(field, typed);
  if (usual === null) return { value, u: 0 };
  const width = halfWidth(field.dimension, value, usual.number, usual.unit) ?? 0;
  return measured(value, standardFrom(width, usual.kind), usual.kind);
}

function typedU<D extends Dimension>(
  given: Given,
  field: GivenField<D>,
  read: Read<D>,
): Result<number, 'bad-plus-minus'> {
  const { dimension } = field;
  const usual = usualPlusMinus(field, true);
  const remedy =
    usual === null
      ? ''
      : ` Leave it empty for the usual ± ${withUnit(shortNumber(usual.number), usual.unit)}.`;
  const bad = (ruleAndValue: string): Refusal<'bad-plus-minus'> =>
    refusal('bad-plus-minus', `${field.label}, ±: ${ruleAndValue}.${remedy}`);
  const text = given.plusMinus.replace(/^\s*(±|\+\/-|\+-)/, '');
  const typed = parseNumber(text);
  if (!typed.ok) return bad(typed.message.replace(/\. Type.*$/, ''));
  const unit = typed.value.unit ?? read.unit;
  const got = `got “${asTyped(text, typed.value.unit, unit)}”`;
  const width = halfWidth(dimension, read.value, typed.value.number, unit);
  if (width === null) return bad(`needs ${DIMENSION_WORDS[dimension]}; ${got}`);
  // A weight of 1/u² must stay finite, and no reading is exact.
  if (width <= 0) return bad(`needs a number above zero, since no reading is exact; ${got}`);
  const most = inside(dimension, field.limits.most.number, field.limits.most.unit);
  if (most !== null && width > most)
    return bad(
      `needs at most ${withUnit(shortNumber(outside(dimension, most, read.unit)), read.unit)}; ${got}`,
    );
  return success(standardFrom(width, given.kind));
}

/**
 * A given in SI with its standard uncertainty and, under hard limits, their law; or a message for its field. An empty
 * one takes the field's `whenEmpty`, or is refused with reason 'empty'. The ± is read in its own unit, else in the
 * value's.
 */
export function readGiven<D extends Dimension>(
  given: Given,
  field: GivenField<D>,
): Result<Measured<Kinds[D]>, GivenReason> {
  let read: Result<Read<D>, GivenReason>;
  if (isEmpty(given) && field.whenEmpty !== null) {
    const { number, unit } = field.whenEmpty;
    const value = inside(field.dimension, number, unit);
    if (value === null) throw new Error(`${field.label}: the table's own value has unit ${unit}`);
    read = success({ value, unit: given.unit });
  } else read = readValue(given, field);
  if (!read.ok) return read;
  const { value } = read.value;
  if (given.plusMinus.trim() === '' || field.plusMinus === null)
    return success(withUsualPlusMinus(field, value, !isEmpty(given)));
  const u = typedU(given, field, read.value);
  return u.ok ? success(measured(value, u.value, given.kind)) : u;
}

/** A quiet sentence where a value is possible but unusual for a truck of this size; null where nothing is odd. */
export function remarkOn(given: Given, field: GivenField): string | null {
  if (field.believable === null || isEmpty(given)) return null;
  const read = readValue(given, field);
  if (!read.ok) return null;
  const { value, unit } = read.value;
  const [low, high] = field.believable;
  const least = inside(field.dimension, low.number, low.unit);
  const most = inside(field.dimension, high.number, high.unit);
  if (least === null || most === null || (value >= least && value <= most)) return null;
  const words = (bound: number): string => shortNumber(outside(field.dimension, bound, unit));
  const got = withUnit(words(value), unit);
  return `${field.label}: ${got} is unusual; small trail trucks have ${words(least)} to ${withUnit(words(most), unit)}. Check number and unit.`;
}

/** What an empty field shows in quiet ink, in the field's present unit: "often 313", or "1.5" where that holds. */
export function placeholder(field: GivenField, unit: string): string {
  const typed = field.whenEmpty ?? field.often;
  if (typed === null) return '';
  const value = inside(field.dimension, typed.number, typed.unit);
  const text = value === null ? '' : shortNumber(outside(field.dimension, value, unit));
  return field.whenEmpty === null ? `often ${text}` : text;
}

/** What an empty ± shows in quiet ink: the default that holds, beside a typed value or an empty one. */
export function plusMinusPlaceholder(field: GivenField, unit: string, typed = false): string {
  const usual = usualPlusMinus(field, typed);
  if (usual === null) return '';
  const value = inside(field.dimension, usual.number, usual.unit);
  return value === null ? '' : shortNumber(outside(field.dimension, value, unit));
}

/**
 * Puts typed text into a given of a draft. A unit typed behind the number becomes the given's unit, if the
 * dimension has it; a ± typed before keeps the unit it was meant in.
 */
export function typeInto(
  draft: { text: string; unit: string; plusMinus: string },
  text: string,
  dimension: Dimension,
): void {
  const typed = parseNumber(text);
  const unit = typed.ok ? typed.value.unit : null;
  if (!typed.ok || unit === null || !UNITS[dimension].includes(unit)) {
    draft.text = text;
    return;
  }
  const width = parseNumber(draft.plusMinus);
  if (unit !== draft.unit && width.ok && width.value.unit === null)
    draft.plusMinus = `${draft.plusMinus.trim()} ${draft.unit}`;
  draft.text = typed.value.digits;
  draft.unit = unit;
}
