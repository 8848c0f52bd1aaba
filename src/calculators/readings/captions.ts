import type { Reading } from '../../sheet/schema';

/** What a given of a reading is called inside its entry, where the title says the rest. */
export function captionOf(reading: Reading, name: string): string {
  if (reading.kind === 'balance on an edge')
    return reading.edge === 'across the truck' ? 'Ahead of rear axle' : 'Left of center';
  return CAPTIONS[reading.kind][name] ?? name;
}

const CAPTIONS: Readonly<
  Record<Exclude<Reading['kind'], 'balance on an edge'>, Readonly<Record<string, string>>>
> = {
  'total mass': { load: 'Whole truck' },
  'axle scales': { front: 'Front axle', rear: 'Rear axle' },
  'wheel scales': {
    frontLeft: 'Front left',
    frontRight: 'Front right',
    rearLeft: 'Rear left',
    rearRight: 'Rear right',
  },
  'axle lift': { rise: 'Rise', angle: 'Slope', load: 'Scale shows' },
  'hang line': {
    ahead: 'Point ahead',
    left: 'Point left',
    height: 'Point height',
    angle: 'Slope',
    frontDroop: 'Front axle droop',
    rearDroop: 'Rear axle droop',
  },
  'tilt board': { angle: 'Slope' },
};
