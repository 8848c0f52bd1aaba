import type { BuildState } from '../sheet/schema';
import { benchAnswer, type BenchAnswer } from './benchAnswer';
import { PARTS_LIST_ID } from './readBench';

/** The answer with one reading left out, or taken in, while the sheet stays as it is. */

const toggled = new WeakMap<BuildState, Map<string, BuildState>>();

/** The state with a reading, a hang's picture or the parts list counted or not. The same state for the same question. */
export function withCounted(state: BuildState, id: string, counted: boolean): BuildState {
  const held = toggled.get(state) ?? new Map<string, BuildState>();
  toggled.set(state, held);
  const key = `${String(counted)} ${id}`;
  const known = held.get(key);
  if (known) return known;
  const changed: BuildState =
    id === PARTS_LIST_ID
      ? { ...state, countPartsList: counted }
      : {
          ...state,
          readings: state.readings.map((reading) => (reading.id === id ? { ...reading, counted } : reading)),
          pictures: state.pictures.map((picture) => (picture.id === id ? { ...picture, counted } : picture)),
        };
  held.set(key, changed);
  return changed;
}

/** The answer without a reading that counts. */
export const answerWithout = (state: BuildState, id: string): BenchAnswer =>
  benchAnswer(withCounted(state, id, false), { from: benchAnswer(state) });

/** The answer with a reading that is set aside. */
export const answerWith = (state: BuildState, id: string): BenchAnswer =>
  benchAnswer(withCounted(state, id, true), { from: benchAnswer(state) });
