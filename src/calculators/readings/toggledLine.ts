import { answerWith, answerWithout } from '../../answer/without';
import type { BenchAnswer } from '../../answer/benchAnswer';
import { caredOf } from '../../answer/caredOf';
import type { ListEntry, Standing } from '../shared/listEntries';
import type { AnswerParts } from './answerParts';
import { caredText } from './caredWords';

/** The answer with an entry set aside, or counted again; null until it has been worked out. */
export function toggledAnswer(
  { state, answer, later }: Pick<AnswerParts, 'state' | 'answer' | 'later'>,
  id: string,
  aside: boolean,
): BenchAnswer | null {
  const compute = () => (aside ? answerWith(state, id) : answerWithout(state, id));
  return later.toggled.get(answer, `${aside ? 'with' : 'without'} ${id}`, compute)?.value ?? null;
}

/** "without it: 95.4 ± 1.6 mm"; '' where that says nothing or is not worked out yet. */
export function toggledLine(parts: AnswerParts, { id }: ListEntry, standing: Standing): string {
  const aside = standing?.because === 'set aside';
  if (standing !== null && !aside) return '';
  const other = toggledAnswer(parts, id, aside);
  if (!other) return '';
  const found = caredOf(other, parts.quantity);
  const words = aside ? 'with it' : 'without it';
  if (found.ok) return `${words}: ${caredText(parts.quantity, found.value, parts.unit)}`;
  // Only what an answer would lose is worth saying.
  return aside || !caredOf(parts.answer, parts.quantity).ok ? '' : `${words}: no answer`;
}

/** Whether a counted entry is the one most likely wrong, or one set aside would be if it counted. */
export function disagrees(parts: AnswerParts, { id }: ListEntry, standing: Standing): boolean {
  if (standing === null) return parts.answer.blunder?.named?.first.reading === id;
  if (standing.because !== 'set aside') return false;
  const other = toggledAnswer(parts, id, true);
  const named = other?.blunder?.named;
  if (named) return named.first.reading === id;
  return other !== null && !other.cg.ok && other.cg.reason === 'contradiction' && parts.answer.cg.ok;
}
