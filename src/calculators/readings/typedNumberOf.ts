import type { NumberKind } from '../../physics';
import { angleIn, kilograms, lengthIn, massIn, meters, radians } from '../../physics';
import type { AngleUnit, LengthUnit, MassUnit } from '../../physics';
import type { PlacedGiven } from '../../sheet/givens';
import type { BuildState } from '../../sheet/schema';
import { fixed, NO_BREAK, placesToShow } from '../shared/format';
import { givensByPath } from '../shared/givensByPath';
import { pathOf, VIEW_AXES } from './givensUsed';

/** From a number of the estimate to what the reader typed for it, and back into the reader's units. */

/** The given that a number was read from; null for what is not typed, as lines of pictures. */
export function givenOf(state: BuildState, numberId: string): PlacedGiven | null {
  const path = pathOfNumber(state, numberId);
  return (path !== null && givensByPath(state).get(path)) || null;
}

/** Path of a number's given in the state: "readings/2/load", "hooks/0/ahead", "dimensions/wheelbase". */
export function pathOfNumber(state: BuildState, numberId: string): string | null {
  const top = TOP[numberId];
  if (top !== undefined) return top;
  const hook = /^hook (.+)\.([xyz])$/.exec(numberId);
  if (hook) {
    const index = state.hooks.findIndex(({ id }) => id === hook[1]);
    const axis = { x: 'ahead', y: 'left', z: 'height' }[hook[2] ?? ''];
    return index < 0 || axis === undefined ? null : `hooks/${index}/${axis}`;
  }
  const dot = numberId.lastIndexOf('.');
  const reading = state.readings.find(({ id }) => id === numberId.slice(0, dot));
  if (dot < 0 || !reading) return null;
  const name = numberId.slice(dot + 1);
  if (reading.kind === 'hang line' && (name === 'first' || name === 'second'))
    return pathOf(state, reading, VIEW_AXES[reading.view][name === 'first' ? 0 : 1]);
  return pathOf(state, reading, name);
}

const TOP: Readonly<Record<string, string>> = {
  wheelbase: 'dimensions/wheelbase',
  frontTrack: 'dimensions/frontTrack',
  rearTrack: 'dimensions/rearTrack',
  frontTireRadius: 'dimensions/frontTireRadius',
  rearTireRadius: 'dimensions/rearTireRadius',
  lateral: 'lateral',
  scaleZero: 'instruments/scaleZero',
  rulerZero: 'instruments/rulerZero',
  levelZero: 'instruments/levelZero',
};

const LENGTHS: Readonly<Record<string, LengthUnit>> = { mm: 'mm', cm: 'cm', m: 'm', in: 'in' };
const MASSES: Readonly<Record<string, MassUnit>> = { g: 'g', kg: 'kg', oz: 'oz', lb: 'lb' };
const ANGLES: Readonly<Record<string, AngleUnit>> = { deg: 'deg', rad: 'rad', '%': '%' };
const PLACES: Readonly<Record<string, number>> = {
  ...{ mm: 1, cm: 2, m: 4, in: 2, g: 0, kg: 3, oz: 1, lb: 2, deg: 1, rad: 3, '%': 1 },
};

/**
 * A number in the unit its given was typed in (`unit`; the usual one where it was not typed): "1551 g", "3.1 mm", "1.4°".
 * Differences of grades in percent are told in degrees, since a percent is no fixed angle.
 */
export function numberText(kind: NumberKind, value: number, unit: string | null, difference = false): string {
  switch (kind) {
    case 'mass': {
      const own = MASSES[unit ?? ''] ?? 'g';
      return withUnitSign(massIn(kilograms(value), own), own);
    }
    case 'length': {
      const own = LENGTHS[unit ?? ''] ?? 'mm';
      return withUnitSign(lengthIn(meters(value), own), own);
    }
    case 'angle': {
      const typed = ANGLES[unit ?? ''] ?? 'deg';
      const own = difference && typed === '%' ? 'deg' : typed;
      return withUnitSign(angleIn(radians(value), own), own);
    }
    case 'share':
      return withUnitSign(100 * value, '%');
  }
}

function withUnitSign(value: number, unit: string): string {
  const places = placesToShow(value, PLACES[unit] ?? 1);
  return unit === 'deg' ? `${fixed(value, places)}°` : `${fixed(value, places)}${NO_BREAK}${unit}`;
}
