import { html, type TemplateResult } from 'lit';
import type { AxleScales, BuildState, TotalMass, WheelScales } from '../../../sheet/schema';
import { givensUsed } from '../givensUsed';
import { readingGiven } from '../readingGiven';

/** What the scales showed, truck level: the whole truck, its axles, or its wheels. */
export function weighingFields(
  state: BuildState,
  reading: TotalMass | AxleScales | WheelScales,
): TemplateResult {
  return html`${givensUsed(reading).map((name) => readingGiven(state, reading, name))}
    <p class="note">${NOTES[reading.kind]}</p>`;
}

const NOTES = {
  'total mass': 'Ready to drive: pack in, body on, mud off.',
  'axle scales':
    'Truck level, brakes released, so that no wheel is held back and loads the scale sideways. The other axle stands as high as the scale.',
  'wheel scales':
    'Four legs always share a load in one way too many: a shim under one wheel changes all four numbers. Only their sums and moments are used, which no shim changes.',
} as const;
