import type { BuildState, Reading } from './schema';

const VIEW_WORDS = {
  side: 'side view',
  rear: 'rear view',
  front: 'front view',
  top: 'top view',
} as const;

const DOWNHILL = {
  left: 'left side down',
  right: 'right side down',
  'nose up': 'nose up',
  'nose down': 'nose down',
} as const;

const EVENT_WORDS = {
  'tips, suspension locked': '',
  'tips, suspension free': ', suspension free',
  'first wheel lifts': ', first wheel lifts',
  slides: ', slides',
} as const;

/** What sort of reading it is, by its choices: "Axle lift, nose up", "Board, left side down". */
export function sortOfReading(reading: Reading): string {
  switch (reading.kind) {
    case 'total mass':
      return 'Total mass';
    case 'axle scales':
      return 'Axle scales';
    case 'wheel scales':
      return 'Wheel scales';
    case 'axle lift':
      return reading.raised === 'front axle' ? 'Axle lift, nose up' : 'Axle lift, tail up';
    case 'hang line':
      return `Hang by ruler, ${VIEW_WORDS[reading.view]}`;
    case 'tilt board':
      return `Board, ${DOWNHILL[reading.toward]}${EVENT_WORDS[reading.event]}`;
    case 'balance on an edge':
      return reading.edge === 'across the truck' ? 'Balance on an edge across' : 'Balance on an edge along';
  }
}

/** How many readings of the same sort stand before it, itself counted: 1 for the first. */
export function numberAmongSort(state: BuildState, reading: Reading): number {
  const sort = sortOfReading(reading);
  const same = state.readings.filter((other) => sortOfReading(other) === sort);
  return Math.max(1, same.findIndex(({ id }) => id === reading.id) + 1);
}

/** Tells a second reading of a sort from the first: "", then ", reading 2". */
export function numberInWords(state: BuildState, reading: Reading): string {
  const number = numberAmongSort(state, reading);
  return number === 1 ? '' : `, reading ${number}`;
}

/** What a reader calls a reading, no two of a state alike: "Axle lift, nose up", "Axle lift, nose up, reading 2". */
export const readingTitle = (state: BuildState, reading: Reading): string =>
  `${sortOfReading(reading)}${numberInWords(state, reading)}`;
