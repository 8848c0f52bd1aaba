import { changeEffect, kilograms, meters, seeChange } from '../physics';
import type { BothSeeings, CaredQuantity, EffectOn, SeenVerdict, TruckChange } from '../physics';
import { readGiven } from '../sheet/given';
import { called, givensOf } from '../sheet/givens';
import type { BuildState } from '../sheet/schema';
import type { BenchAnswer } from './benchAnswer';
import { sharedErrorsOf } from './seen';

/** The sheet's intended or made changes: what each does to the truck, and whether this bench would see it. */

export interface ChangeSeen {
  readonly id: string;
  readonly name: string;
  /** What it does to the quantity; null with its reason where that cannot be told. */
  readonly effect: EffectOn | null;
  readonly why: string | null;
  readonly seeings: BothSeeings | null;
  readonly independent: SeenVerdict | null;
  readonly reused: SeenVerdict | null;
  /** The same change in the other quantities worth a sentence. */
  readonly height: EffectOn | null;
}

/** All changes of a state, in the order of the sheet. */
export function changesSeen(state: BuildState, answer: BenchAnswer, quantity: CaredQuantity): ChangeSeen[] {
  return state.changes.map((change, index): ChangeSeen => {
    const name = called(change.name, 'Change', index);
    const none = { effect: null, seeings: null, independent: null, reused: null, height: null };
    const read = readChange(state, index);
    if (typeof read === 'string') return { id: change.id, name, why: read, ...none };
    if (!answer.joint || !answer.cg.ok)
      return { id: change.id, name, why: answer.cg.ok ? 'No answer yet.' : answer.cg.message, ...none };
    const shared = sharedErrorsOf(answer, quantity);
    const seen = seeChange(answer.joint, read, quantity, shared);
    if (!seen.ok) return { id: change.id, name, why: seen.message, ...none };
    const all = changeEffect(answer.joint, read);
    return {
      id: change.id,
      name,
      why: null,
      ...seen.value,
      height: all.ok && all.value.on.height.ok ? all.value.on.height.value : null,
    };
  });
}

/** A change in SI, or why it cannot be read yet. */
function readChange(state: BuildState, index: number): TruckChange | string {
  const change = state.changes[index];
  if (!change) return 'No such change.';
  const placed = new Map([...givensOf(state)].map((given) => [given.path.join('/'), given]));
  const read = (name: string) => {
    const given = placed.get(`changes/${index}/${name}`);
    if (!given) throw new Error(`no given changes/${index}/${name}`);
    return readGiven(given.given, given.field);
  };
  const mass = read('mass');
  if (!mass.ok) return mass.message;
  const x = read('ahead');
  if (!x.ok) return x.message;
  const y = read('left');
  if (!y.ok) return y.message;
  const z = read('height');
  if (!z.ok) return z.message;
  const place = {
    x: { ...x.value, value: meters(x.value.value) },
    y: { ...y.value, value: meters(y.value.value) },
    z: { ...z.value, value: meters(z.value.value) },
  };
  const of = { ...mass.value, value: kilograms(mass.value.value) };
  return change.kind === 'moved'
    ? { kind: 'moved', mass: of, by: place }
    : { kind: 'added', mass: of, at: place };
}
