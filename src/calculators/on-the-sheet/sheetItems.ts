import { PHOTOGRAPHS_HREF, TRUCK_HREF } from '../../photo/readState';
import type { BenchAnswer } from '../../answer/benchAnswer';
import { isAnotherKind } from '../../answer/readBench';
import { FIELDS } from '../../sheet/fields';
import { readGiven } from '../../sheet/given';
import type { BuildState, Reading } from '../../sheet/schema';

/** Opens the readings panel on any page. */
const READINGS_HREF = '#readings';

/** One line of what is on the sheet. */
export interface SheetItem {
  readonly what: string;
  readonly status: string;
  readonly kind: 'done' | 'missing' | 'optional' | 'disagrees';
  readonly href: string;
}

/** Chance below which three lines count as not agreeing: one truck in twenty. */
const ONE_IN_TWENTY = 0.05;

/** What the sheet of a state holds and what it lacks, in the order of the bench. */
export function sheetItems(state: BuildState, answer: BenchAnswer): readonly SheetItem[] {
  if (state.body === 'object') return [scale(state), hangs(state, answer), base(answer)];
  return [
    sizes(state),
    standing(state, answer),
    hangs(state, answer),
    scales(state),
    otherReadings(state),
    parts(state),
  ];
}

function sizes({ dimensions }: BuildState): SheetItem {
  const what = 'Wheelbase and tracks';
  const wanted = [
    { given: dimensions.wheelbase, field: FIELDS.wheelbase, name: 'wheelbase' },
    { given: dimensions.frontTrack, field: FIELDS.frontTrack, name: 'front track' },
    { given: dimensions.rearTrack, field: FIELDS.rearTrack, name: 'rear track' },
  ];
  const lacking = wanted.filter(({ given, field }) => !readGiven(given, field).ok).map(({ name }) => name);
  if (lacking.length === 0) return { what, status: 'done', kind: 'done', href: TRUCK_HREF };
  const status = lacking.length === wanted.length ? 'missing' : `${lacking.join(', ')} missing`;
  return { what, status, kind: 'missing', href: TRUCK_HREF };
}

/** Two points of known distance make an object's scale and its axes. */
function scale({ pictures, scaleDistance }: BuildState): SheetItem {
  const what = 'Two points of known distance';
  const href = PHOTOGRAPHS_HREF;
  const marked = pictures.some(({ counted, marks }) =>
    ['scale 1', 'scale 2'].every((wanted) => counted && marks.some(({ role }) => role === wanted)),
  );
  const measured = readGiven(scaleDistance, FIELDS.scaleDistance).ok;
  if (marked && measured) return { what, status: 'done', kind: 'done', href };
  const status = marked ? 'distance missing' : measured ? 'marks missing' : 'missing';
  return { what, status, kind: 'missing', href };
}

function base({ baseTips }: BenchAnswer): SheetItem {
  const what = 'Ends of its base';
  const href = PHOTOGRAPHS_HREF;
  return baseTips
    ? { what, status: 'done', kind: 'done', href }
    : { what, status: 'for tip angles', kind: 'optional', href };
}

function standing({ pictures }: BuildState, answer: BenchAnswer): SheetItem {
  const what = 'Standing picture';
  const href = PHOTOGRAPHS_HREF;
  if (!pictures.some(({ kind, counted }) => kind === 'standing' && counted))
    // Hubs in a hanging picture do as well.
    return answer.adjusted
      ? { what, status: 'not needed', kind: 'optional', href }
      : { what, status: 'missing', kind: 'missing', href };
  return answer.adjusted
    ? { what, status: 'done', kind: 'done', href }
    : { what, status: 'marks missing', kind: 'missing', href };
}

function hangs({ pictures }: BuildState, answer: BenchAnswer): SheetItem {
  const what = 'Hanging pictures';
  const href = PHOTOGRAPHS_HREF;
  const counted = pictures.filter((picture) => picture.kind === 'hanging' && picture.counted).length;
  const used = answer.lines.length + answer.otherLines.length;
  if (counted === 0) return { what, status: 'missing', kind: 'missing', href };
  if (answer.consistency && answer.consistency.probability < ONE_IN_TWENTY)
    return { what, status: 'do not agree', kind: 'disagrees', href };
  if (used < counted) return { what, status: `${used} of ${counted} marked`, kind: 'missing', href };
  return used === 1
    ? { what, status: 'one, needs a second', kind: 'missing', href }
    : { what, status: `${used}, done`, kind: 'done', href };
}

const countedOf = ({ readings }: BuildState): readonly Reading[] =>
  readings.filter((reading) => reading.counted && !isAnotherKind(reading));

function scales(state: BuildState): SheetItem {
  const what = 'Scales';
  const href = READINGS_HREF;
  const kinds = new Set(countedOf(state).map(({ kind }) => kind));
  if (kinds.has('wheel scales')) return { what, status: 'each wheel, done', kind: 'done', href };
  if (kinds.has('axle scales')) return { what, status: 'axles, done', kind: 'done', href };
  const status = kinds.has('total mass') ? 'total mass only' : 'not weighed';
  return { what, status, kind: 'optional', href };
}

/** Readings that are neither pictures nor scales on level ground. */
const OTHER_KINDS: ReadonlySet<Reading['kind']> = new Set([
  'axle lift',
  'hang line',
  'tilt board',
  'balance on an edge',
]);

function otherReadings(state: BuildState): SheetItem {
  const what = 'Lift, board, string, edge';
  const count = countedOf(state).filter(({ kind }) => OTHER_KINDS.has(kind)).length;
  return count === 0
    ? { what, status: 'none', kind: 'optional', href: READINGS_HREF }
    : { what, status: `${count} counted`, kind: 'done', href: READINGS_HREF };
}

function parts(state: BuildState): SheetItem {
  const what = 'Parts list';
  const href = TRUCK_HREF;
  const { length } = state.parts;
  if (length === 0) {
    const weighed = countedOf(state).some(({ kind }) => kind === 'total mass');
    return { what, status: weighed ? 'none, mass given' : 'none', kind: 'optional', href };
  }
  const status = length === 1 ? 'one part' : `${length} parts`;
  return { what, status: state.countPartsList ? `${status}, counted` : status, kind: 'done', href };
}
