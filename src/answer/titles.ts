import { hangNumber } from '../sheet/hangs';
import { readingTitle } from '../sheet/readingTitles';
import type { BuildState } from '../sheet/schema';
import { PARTS_LIST_ID } from './readBench';

/** What the estimate's readings and numbers are called on the page, by their ids. */

/** Title of a reading, a picture's hang, or a size of the truck. */
export function titleOf(state: BuildState, id: string): string {
  if (id === PARTS_LIST_ID) return 'Parts list';
  const reading = state.readings.find((each) => each.id === id);
  if (reading) return readingTitle(state, reading);
  const hang = hangNumber(state, id);
  return hang > 0 ? `Hang ${hang}` : (SIZES[id] ?? id);
}

/** "Hang 2" or "Standing": what a picture is called. */
export function pictureNamed(state: BuildState, id: string): string {
  const hang = hangNumber(state, id);
  return hang > 0 ? `Hang ${hang}` : 'Standing';
}

const SIZES: Readonly<Record<string, string>> = {
  wheelbase: 'Wheelbase',
  frontTrack: 'Front track',
  rearTrack: 'Rear track',
  frontTireRadius: 'Front tire radius',
  rearTireRadius: 'Rear tire radius',
  frontAxleShare: 'Front unsprung mass',
  rearAxleShare: 'Rear unsprung mass',
  lateral: 'Assumed lateral place',
  scaleZero: 'Scale’s zero',
  rulerZero: 'Ruler’s zero',
  levelZero: 'Level’s zero',
  'tip line': 'Place of the tip line',
};

/** What a single number of a reading is called: "rear scale of the axle lift, nose up". */
export function numberTitle(state: BuildState, id: string): string {
  const dot = id.lastIndexOf('.');
  const hook = /^hook (.+)\.([xyz])$/.exec(id);
  if (hook) {
    const named = state.hooks.find((each) => each.id === hook[1]);
    const axis = { x: 'ahead', y: 'left', z: 'height' }[hook[2] ?? ''] ?? '';
    const name = named?.name.trim() || 'hook';
    return `${name.charAt(0).toUpperCase()}${name.slice(1)}, ${axis}`;
  }
  if (dot < 0) return titleOf(state, id);
  const name = NUMBERS[id.slice(dot + 1)] ?? id.slice(dot + 1);
  return `${titleOf(state, id.slice(0, dot))}: ${name}`;
}

const NUMBERS: Readonly<Record<string, string>> = {
  load: 'load',
  front: 'front',
  rear: 'rear',
  frontLeft: 'front left',
  frontRight: 'front right',
  rearLeft: 'rear left',
  rearRight: 'rear right',
  rise: 'rise',
  angle: 'angle',
  first: 'second point',
  second: 'second point, other way',
  frontDroop: 'front droop',
  rearDroop: 'rear droop',
  place: 'place',
  mass: 'mass',
  ahead: 'ahead',
  left: 'left',
  height: 'height',
};
