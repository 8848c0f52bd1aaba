import type { TemplateResult } from 'lit';
import type { BuildState, Reading } from '../../../sheet/schema';
import { axleLiftFields } from './axleLiftFields';
import { balanceFields } from './balanceFields';
import { hangLineFields } from './hangLineFields';
import { tiltBoardFields } from './tiltBoardFields';
import { weighingFields } from './weighingFields';

/** The fields of a typed reading, by its kind. `fresh`: the work is still to be done, so its cautions stand open. */
export function entryFields(state: BuildState, reading: Reading, fresh: boolean): TemplateResult {
  switch (reading.kind) {
    case 'total mass':
    case 'axle scales':
    case 'wheel scales':
      return weighingFields(state, reading);
    case 'axle lift':
      return axleLiftFields(state, reading, fresh);
    case 'hang line':
      return hangLineFields(state, reading, fresh);
    case 'tilt board':
      return tiltBoardFields(state, reading, fresh);
    case 'balance on an edge':
      return balanceFields(state, reading);
  }
}
