import { drawableSizes, type TruckSizes } from '../../figures';
import type { Length } from '../../physics';
import { FIELDS } from '../../sheet/fields';
import { readGiven, type GivenField } from '../../sheet/given';
import type { BuildState, Given } from '../../sheet/schema';

/**
 * Sizes a state's truck is drawn at: the reader's where they can be read, likely ones elsewhere; `wheelbase` where a
 * fit knows it.
 */
export function truckSizes({ dimensions }: BuildState, wheelbase?: Length): TruckSizes {
  const known = new Map<keyof TruckSizes, Length>();
  const take = (name: keyof TruckSizes, given: Given, field: GivenField<'length'>): void => {
    const read = readGiven(given, field);
    if (read.ok) known.set(name, read.value.value);
  };
  take('wheelbase', dimensions.wheelbase, FIELDS.wheelbase);
  if (wheelbase !== undefined) known.set('wheelbase', wheelbase);
  take('frontTrack', dimensions.frontTrack, FIELDS.frontTrack);
  take('rearTrack', dimensions.rearTrack, FIELDS.rearTrack);
  take('frontTireRadius', dimensions.frontTireRadius, FIELDS.frontTireRadius);
  take('rearTireRadius', dimensions.rearTireRadius, FIELDS.rearTireRadius);
  take('tireWidth', dimensions.treadWidth, FIELDS.treadWidth);
  return drawableSizes(Object.fromEntries(known));
}
