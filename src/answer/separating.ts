import { USUAL_DIMENSIONS, furtherReadings, separators, usualCandidates } from '../physics';
import type { FurtherWork, HookPlace, NamedBlunder, TruckBench, TruckReading } from '../physics';
import type { BuildState } from '../sheet/schema';
import type { BenchAnswer } from './benchAnswer';
import { workInWords } from './further';

/** Which further reading would tell the members of a suspected group apart. */

export interface Separating {
  readonly work: FurtherWork;
  /** "Lift the rear axle on the scale to 25°, by height" */
  readonly what: string;
  /** It would tell the first from every other in 95 cases of 100; else it only helps most. */
  readonly separates: boolean;
}

interface Tried {
  readonly work: FurtherWork;
  readonly readings: readonly TruckReading[];
  readonly hooks: readonly HookPlace[];
  readonly minutes: number;
}

/**
 * The quickest reading that separates the group of a named blunder; where none does, the one that comes nearest. Null
 * where the group is one reading alone, or no reading helps. Members of one reading are not told from each other: the
 * reader sets aside whole readings. The readings tried are those of furtherReadings(), and the suspected one once more.
 */
export function separating(
  state: BuildState,
  { bench, joint, blunder }: Pick<BenchAnswer, 'bench' | 'joint' | 'blunder'>,
): Separating | null {
  const named = blunder?.named;
  if (!joint || !named) return null;
  const group = named.group.filter(
    ({ id, reading }) => id === named.first.id || reading === null || reading !== named.first.reading,
  );
  if (group.length < 2) return null;
  const apart: NamedBlunder = { ...named, group };
  const rated = candidatesFor(state, bench, joint, named).flatMap((tried) => {
    const last = tried.readings.at(-1);
    if (!last) return [];
    const grown: TruckBench = {
      ...bench,
      hooks: [...bench.hooks, ...tried.hooks],
      readings: [...bench.readings, ...tried.readings.slice(0, -1)],
    };
    const found = separators(grown, joint, apart, [last]);
    const [separator] = found.ok ? found.value : [];
    return separator && separator.pairs.length > 0 ? [{ tried, separator }] : [];
  });
  const [best] = rated.toSorted((a, b) => {
    const [first, second] = [a.separator, b.separator];
    if (first.separates !== second.separates) return first.separates ? -1 : 1;
    return first.separates ? a.tried.minutes - b.tried.minutes : second.apart - first.apart;
  });
  if (!best) return null;
  const pictured = bench.readings.some(({ kind }) => kind === 'picture lines');
  return {
    work: best.tried.work,
    what: workInWords(state, best.tried.work, pictured),
    separates: best.separator.separates,
  };
}

/** Minutes of the work once more, where the bench still stands as it was; only their order matters. */
const AGAIN = 6;

function candidatesFor(
  state: BuildState,
  bench: TruckBench,
  joint: NonNullable<BenchAnswer['joint']>,
  { first }: NamedBlunder,
): readonly Tried[] {
  const hooksInPictures = state.pictures.flatMap(({ kind, hook, counted }) =>
    kind === 'hanging' && counted && hook !== null ? [hook] : [],
  );
  const usual = usualCandidates(bench, joint, { hooksInPictures });
  const predicted = furtherReadings(bench, joint, 'height', usual, USUAL_DIMENSIONS);
  const further = (predicted.ok ? predicted.value : []).flatMap(({ candidate, expected, needs }): Tried[] =>
    expected.length > 0 && needs.length === 0
      ? [{ work: candidate.work, readings: expected, hooks: candidate.hooks, minutes: candidate.minutes }]
      : [],
  );
  const own = bench.readings.find(({ id }) => id === first.reading);
  if (!own || own.kind === 'picture lines' || own.kind === 'parts list') return further;
  const again: TruckReading = { ...own, id: `${own.id} again` };
  return [
    { work: { kind: 'again', reading: own.id }, readings: [again], hooks: [], minutes: AGAIN },
    ...further,
  ];
}
