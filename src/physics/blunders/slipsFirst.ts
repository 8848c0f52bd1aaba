import type { TruckBench } from '../estimate/truckReadings';
import type { NamedBlunder, Suspect } from './blunderSearch';
import { likelySlips } from './likelySlips';

/** Suspects at least this likely beside the first may take its place; a slip tells them apart where residuals do not. */
const ABOUT_AS_LIKELY = 0.4;
/** More than this many suspects tell nothing, whatever slips fit them. */
const MOST = 8;

/**
 * The same group with a suspect first whose number a usual slip sets right, where several are about as likely to be wrong.
 * A slip with its size given (another unit, another axle) counts, one of any size does not; a size never goes before a
 * reading.
 */
export function slipsFirst(bench: TruckBench, named: NamedBlunder): NamedBlunder {
  const equals = named.group.filter(
    (suspect) => suspect.odds >= ABOUT_AS_LIKELY && ofSize(suspect) <= ofSize(named.first),
  );
  if (equals.length < 2 || equals.length > MOST) return named;
  const explained = equals.flatMap((suspect) => {
    const [slip] = likelySlips(bench, suspect.id)
      .filter(({ between }) => between === null)
      .toSorted((a, b) => Math.abs(a.normalized) - Math.abs(b.normalized));
    return slip ? [{ suspect, left: Math.abs(slip.normalized) }] : [];
  });
  const [best] = explained.toSorted((a, b) => ofSize(a.suspect) - ofSize(b.suspect) || a.left - b.left);
  if (!best || best.suspect === named.first) return named;
  return {
    ...named,
    first: best.suspect,
    group: [best.suspect, ...named.group.filter((suspect) => suspect !== best.suspect)],
  };
}

const ofSize = ({ reading }: Suspect): number => (reading === null ? 1 : 0);
