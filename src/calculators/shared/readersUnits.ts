import type { LengthUnit } from '../../physics';
import type { BuildState } from '../../sheet/schema';

/** Unit in which a truck's places are shown: inches where its wheelbase was typed in inches, else millimeters. */
export const lengthUnitOf = (state: BuildState): Extract<LengthUnit, 'mm' | 'in'> =>
  state.dimensions.wheelbase.unit === 'in' ? 'in' : 'mm';
