import type { TemplateResult } from 'lit';
import type { Reading } from '../../../sheet/schema';
import type { ReadingsParts } from '../parts';
import { axleLiftFields } from './axleLiftFields';
import { balanceFields } from './balanceFields';
import { hangLineFields } from './hangLineFields';
import { tiltBoardFields } from './tiltBoardFields';
import { weighingFields } from './weighingFields';

/** The fields of a typed reading, by its kind. */
export function entryFields(parts: ReadingsParts, reading: Reading): TemplateResult {
  switch (reading.kind) {
    case 'total mass':
    case 'axle scales':
    case 'wheel scales':
      return weighingFields(parts.state, reading);
    case 'axle lift':
      return axleLiftFields(parts, reading);
    case 'hang line':
      return hangLineFields(parts, reading);
    case 'tilt board':
      return tiltBoardFields(parts, reading);
    case 'balance on an edge':
      return balanceFields(parts.state, reading);
  }
}
