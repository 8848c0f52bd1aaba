import { estimateWithout } from '../../answer/withoutSuspect';
import type { BenchAnswer } from '../../answer/benchAnswer';
import type { CaredQuantity, Estimate } from '../../physics';
import type { AnswerParts } from './answerParts';

const known = new WeakMap<BenchAnswer, Map<CaredQuantity, Estimate | null>>();

/** The quantity without the reading that is most likely wrong; null where none is named, or nothing is left to tell it. */
export function withoutFirst({
  state,
  answer,
  quantity,
}: Pick<AnswerParts, 'state' | 'answer' | 'quantity'>): Estimate | null {
  const first = answer.blunder?.named?.first;
  if (!first) return null;
  const held = known.get(answer) ?? new Map<CaredQuantity, Estimate | null>();
  known.set(answer, held);
  const before = held.get(quantity);
  if (before !== undefined) return before;
  const fresh = estimateWithout(state, answer, first, quantity);
  held.set(quantity, fresh);
  return fresh;
}
