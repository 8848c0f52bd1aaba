import { cared, overUnknowns, stanceAt, stanceQuantity, varianceOf, withoutNumber } from '../physics';
import type { CaredQuantity, Estimate, Suspect, TruckBench } from '../physics';
import type { BuildState } from '../sheet/schema';
import type { BenchAnswer } from './benchAnswer';
import { answerWithout } from './without';

/**
 * What a quantity would be without what is suspected: without the whole reading, which the reader can set aside, or, for
 * a size of the truck, with that size free. Null where it is not determined then.
 */
export function estimateWithout(
  state: BuildState,
  { bench }: Pick<BenchAnswer, 'bench'>,
  { id, reading }: Pick<Suspect, 'id' | 'reading'>,
  quantity: CaredQuantity,
): Estimate | null {
  if (reading === null) return withNumberFree(bench, id, quantity);
  const { cg, joint } = answerWithout(state, reading);
  if (!cg.ok || !joint) return null;
  const found = cared(joint, quantity);
  return found.ok ? { value: found.value.value, u: found.value.u } : null;
}

/** A quantity of the bench with one number free to be off by any amount. */
export function withNumberFree(bench: TruckBench, id: string, quantity: CaredQuantity): Estimate | null {
  const without = withoutNumber(bench, id);
  if (!without.ok) return null;
  const { model, unknowns, adjustment } = without.value;
  const found = stanceQuantity(stanceAt(model, unknowns), quantity);
  if (!found.ok) return null;
  const gradient = overUnknowns(model, found.value.gradient, adjustment.unknowns.length);
  const u = Math.sqrt(varianceOf(gradient, adjustment.covariance.to2DArray()));
  return Number.isFinite(u) ? { value: found.value.value, u } : null;
}
