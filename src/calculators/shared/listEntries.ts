import type { BenchAnswer } from '../../answer/benchAnswer';
import { PARTS_LIST_ID, type NotCounted } from '../../answer/readBench';
import { hangsOf } from '../../sheet/hangs';
import type { BuildState, Picture, Reading } from '../../sheet/schema';

/** One entry of the list of readings: what the reader may count, set aside or take again. */
export type ListEntry =
  | { readonly kind: 'picture'; readonly id: string; readonly picture: Picture }
  | { readonly kind: 'reading'; readonly id: string; readonly reading: Reading }
  | { readonly kind: 'parts list'; readonly id: typeof PARTS_LIST_ID };

/** Everything that can be a reading of the truck: hangs in pictures, typed readings, the parts list where there is one. */
export function entriesOf(state: BuildState): readonly ListEntry[] {
  return [
    ...hangsOf(state).map((picture): ListEntry => ({ kind: 'picture', id: picture.id, picture })),
    ...state.readings.map((reading): ListEntry => ({ kind: 'reading', id: reading.id, reading })),
    ...(state.parts.length > 0 ? [{ kind: 'parts list', id: PARTS_LIST_ID } as const] : []),
  ];
}

/** What an answer tells of the readings it was made from. */
export type AnswerOfReadings = Pick<BenchAnswer, 'entries' | 'lines'>;

/**
 * Why an entry does not enter the answer; null where it does. 'unmarked': a picture that gives no line yet;
 * 'unread list': a part of the list has no mass or place.
 */
export type Standing = NotCounted | { readonly because: 'unmarked' | 'unread list' } | null;

export function standingOf(entry: ListEntry, { entries, lines }: AnswerOfReadings): Standing {
  if (entry.kind === 'picture') {
    if (!entry.picture.counted) return { because: 'set aside' };
    return lines.some(({ pictureId }) => pictureId === entry.id) ? null : { because: 'unmarked' };
  }
  const read = entries.find(({ id }) => id === entry.id);
  return read ? read.notCounted : { because: 'unread list' };
}
