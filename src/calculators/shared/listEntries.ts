import { partsList } from '../../sheet/derived';
import { readGiven } from '../../sheet/given';
import { hangsOf } from '../../sheet/hangs';
import type { BuildState, Hook, Picture, Reading } from '../../sheet/schema';
import { givensByPath } from './givensByPath';

/** One entry of the list of readings: what the reader may count, set aside or take again. */
export type ListEntry =
  | { readonly kind: 'picture'; readonly id: string; readonly picture: Picture }
  | { readonly kind: 'reading'; readonly id: string; readonly reading: Reading }
  | { readonly kind: 'parts list'; readonly id: typeof PARTS_LIST };

/** Id of the parts list among the readings. */
export const PARTS_LIST = 'parts list';

/** Everything that can be a reading of the truck: hangs in pictures, typed readings, the parts list where there is one. */
export function entriesOf(state: BuildState): readonly ListEntry[] {
  return [
    ...hangsOf(state).map((picture): ListEntry => ({ kind: 'picture', id: picture.id, picture })),
    ...state.readings.map((reading): ListEntry => ({ kind: 'reading', id: reading.id, reading })),
    ...(state.parts.length > 0 ? [{ kind: 'parts list', id: PARTS_LIST } as const] : []),
  ];
}

/** Of an answer: the hangs in pictures that gave a line. */
export interface LinesOfAnswer {
  readonly lines: readonly { readonly pictureId: string }[];
}

/**
 * How an entry stands. 'kept': it tells another thing than the center of gravity and never counts. 'incomplete':
 * `missing` are the paths of givens still empty. 'faulty': a given cannot be read, or marks are missing.
 */
export type EntryStanding =
  | { readonly kind: 'counted' | 'set aside' | 'kept' }
  | { readonly kind: 'incomplete'; readonly missing: readonly string[] }
  | { readonly kind: 'faulty'; readonly at: string };

export function entryStanding(state: BuildState, entry: ListEntry, { lines }: LinesOfAnswer): EntryStanding {
  switch (entry.kind) {
    case 'picture':
      if (!entry.picture.counted) return { kind: 'set aside' };
      return lines.some(({ pictureId }) => pictureId === entry.id)
        ? { kind: 'counted' }
        : { kind: 'incomplete', missing: [] };
    case 'parts list':
      if (!state.countPartsList) return { kind: 'set aside' };
      return partsList(state).ok ? { kind: 'counted' } : { kind: 'faulty', at: 'parts' };
    case 'reading':
      return readingStanding(state, entry.reading);
  }
}

function readingStanding(state: BuildState, reading: Reading): EntryStanding {
  if (tellsAnotherThing(reading)) return { kind: 'kept' };
  if (!reading.counted) return { kind: 'set aside' };
  if (reading.kind === 'hang line' && hookOf(state, reading.hook)?.source !== 'ruler')
    return { kind: 'incomplete', missing: ['hook'] };
  const missing: string[] = [];
  for (const path of pathsNeeded(state, reading)) {
    const placed = givensByPath(state).get(path);
    if (!placed) continue;
    const read = readGiven(placed.given, placed.field);
    if (read.ok) continue;
    if (read.reason !== 'empty') return { kind: 'faulty', at: path };
    missing.push(path);
  }
  return missing.length > 0 ? { kind: 'incomplete', missing } : { kind: 'counted' };
}

/** A board's slope of another event, or a lift on free springs: right to keep, wrong to count for height. */
export const tellsAnotherThing = (reading: Reading): boolean =>
  (reading.kind === 'tilt board' && reading.event !== 'tips, suspension locked') ||
  (reading.kind === 'axle lift' && reading.suspension === 'free');

export const hookOf = (state: BuildState, id: string | null): Hook | null =>
  state.hooks.find((hook) => hook.id === id) ?? null;

/** The two truck axes a view shows, by the names givens of places have. */
export const VIEW_AXES = {
  side: ['ahead', 'height'],
  rear: ['left', 'height'],
  front: ['left', 'height'],
  top: ['ahead', 'left'],
} as const;

/** Names of the givens that a reading uses as its choices stand, in the order they are asked for. */
export function givensUsed(reading: Reading): readonly string[] {
  switch (reading.kind) {
    case 'total mass':
      return ['load'];
    case 'axle scales':
      return ['front', 'rear'];
    case 'wheel scales':
      return ['frontLeft', 'frontRight', 'rearLeft', 'rearRight'];
    case 'axle lift':
      return [reading.by === 'height' ? 'rise' : 'angle', 'load'];
    case 'hang line':
      return [
        ...(reading.by === 'angle' ? ['angle'] : VIEW_AXES[reading.view]),
        ...(reading.suspension === 'free' ? ['frontDroop', 'rearDroop'] : []),
      ];
    case 'tilt board':
      return ['angle'];
    case 'balance on an edge':
      return ['place'];
  }
}

/** Paths of a reading's own givens, by name. */
export const pathOf = (state: BuildState, reading: Reading, name: string): string =>
  `readings/${state.readings.findIndex(({ id }) => id === reading.id)}/${name}`;

/** Everything a reading cannot do without: its own givens and its hook's place, measured with a ruler. */
function pathsNeeded(state: BuildState, reading: Reading): readonly string[] {
  const own = givensUsed(reading).map((name) => pathOf(state, reading, name));
  if (reading.kind !== 'hang line') return own;
  const hook = state.hooks.findIndex(({ id }) => id === reading.hook);
  return [`hooks/${hook}/ahead`, `hooks/${hook}/height`, `hooks/${hook}/left`, ...own];
}
