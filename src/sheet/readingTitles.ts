import type { BuildState, Reading } from './schema';

const VIEW_WORDS = {
  side: 'side view',
  rear: 'rear view',
  front: 'front view',
  top: 'top view',
} as const;

const EVENT_WORDS = {
  'tips, suspension locked': '',
  'tips, suspension free': ', suspension free',
  'first wheel lifts': ', first wheel lifts',
  slides: ', slides',
} as const;

/** What sort of reading it is, by its choices: "Front axle raised", "Board to the left". */
function sortOf(reading: Reading): string {
  switch (reading.kind) {
    case 'total mass':
      return 'Total mass';
    case 'axle scales':
      return 'Axle scales';
    case 'wheel scales':
      return 'Wheel scales';
    case 'axle lift':
      return reading.raised === 'front axle' ? 'Front axle raised' : 'Rear axle raised';
    case 'hang line':
      return `Hang line, ${VIEW_WORDS[reading.view]}`;
    case 'tilt board': {
      const { toward } = reading;
      const way = toward === 'left' || toward === 'right' ? `to the ${toward}` : toward;
      return `Board ${way}${EVENT_WORDS[reading.event]}`;
    }
    case 'balance on an edge':
      return reading.edge === 'across the truck' ? 'Balance on an edge across' : 'Balance on an edge along';
  }
}

/** How many readings of the same sort stand before it, itself counted: 1 for the first. */
export function numberAmongSort(state: BuildState, reading: Reading): number {
  const sort = sortOf(reading);
  const same = state.readings.filter((other) => sortOf(other) === sort);
  return Math.max(1, same.findIndex(({ id }) => id === reading.id) + 1);
}

/** Tells a second reading of a sort from the first: "", then ", reading 2". */
export function numberInWords(state: BuildState, reading: Reading): string {
  const number = numberAmongSort(state, reading);
  return number === 1 ? '' : `, reading ${number}`;
}

/** What a reader calls a reading, no two of a state alike: "Front axle raised", "Front axle raised, reading 2". */
export const readingTitle = (state: BuildState, reading: Reading): string =>
  `${sortOf(reading)}${numberInWords(state, reading)}`;
