import { PHOTOGRAPHS_HREF } from '../photo/readState';
import { hangNumber, hangsOf } from '../sheet/hangs';
import type { BuildState } from '../sheet/schema';
import type { BenchAnswer, Computed } from './benchAnswer';
import { bestFurther } from './further';
import { titleOf } from './titles';
import type { Warning } from './warnings';

/** What to do next on the bench, and what it buys. */
export interface NextReading {
  readonly text: string;
  readonly href: string;
  /** Standard uncertainty of the weaker side tip angle (rad) or, without tracks, of the height (m), now and then. */
  readonly gain: { readonly of: 'side tip' | 'height'; readonly now: number; readonly then: number } | null;
}

export const READINGS_HREF = '#readings';
/** Where the sizes of the truck are typed, over any page. */
export const SIZES_HREF = '#readings/sizes';

/** What to do after refusals whose message tells only what is wrong. */
const AFTER_REFUSAL: Readonly<Record<string, string>> = {
  'not-converged':
    'Look for a mark on the wrong thing, a picture tied to the wrong hook, or a slip in a reading.',
  undetermined: 'Place the marks that are still open.',
  'marks coincide': 'Move the marks that lie on one point apart.',
};

/** The same of an object, which hangs by no hook of the sheet and is read from pictures alone. */
const AFTER_REFUSAL_OF_OBJECT: Readonly<Record<string, string>> = {
  ...AFTER_REFUSAL,
  'not-converged': 'Look for a mark on the wrong thing, or two marks taken for each other.',
};

/** One good bench in twenty has readings that disagree; the next step changes only where one in a hundred would. */
const UNLIKELY = 0.01;

/**
 * A fault, or the first missing reading; without an answer, what its refusal asks for; with one, a contradiction to look
 * at, then the tracks, then the further reading that buys most.
 */
export function nextReading(
  { state, readings, read }: Computed,
  answer: Omit<BenchAnswer, 'next'>,
): NextReading {
  const [fault] = readings.faults;
  if (fault) return { text: fault.message, href: fault.href, gain: null };
  const [other] = read.faults;
  if (other !== undefined) return { text: other, href: READINGS_HREF, gain: null };
  const unread = read.entries.find(({ notCounted }) => notCounted?.because === 'fault');
  if (unread?.notCounted?.because === 'fault')
    return { text: unread.notCounted.message, href: `${READINGS_HREF}/${unread.id}`, gain: null };
  const waiting = sizeAwaited(state, read);
  const [missing] = answer.missing;
  if (!answer.cg.ok) {
    if (waiting) return waiting;
    if (answer.cg.reason === 'missing' && missing)
      return { text: `Still needed: ${missing.what}.`, href: missing.href, gain: null };
    const further =
      answer.cg.reason === 'missing' && state.body === 'truck' ? bestFurther(state, answer) : null;
    if (further) return further;
    const after = state.body === 'object' ? AFTER_REFUSAL_OF_OBJECT : AFTER_REFUSAL;
    const text = after[answer.cg.reason] ?? answer.cg.message;
    return { text, href: state.pictures.length > 0 ? PHOTOGRAPHS_HREF : READINGS_HREF, gain: null };
  }
  // More readings do not mend a wrong one: a contradiction is looked at before anything new is hung or weighed.
  const wrong = contradiction(answer);
  if (wrong) return { ...lookAgain(state, wrong), gain: null };
  if (waiting) return waiting;
  if (missing) return { text: `Still needed: ${missing.what}.`, href: missing.href, gain: null };
  if (state.body === 'object') return nextOfObject(state, answer);
  if (!answer.stance.ok) return { text: sizesNeeded(read, answer), href: SIZES_HREF, gain: null };
  return (
    bestFurther(state, answer) ?? {
      text: 'Every reading that would help is on the sheet.',
      href: READINGS_HREF,
      gain: null,
    }
  );
}

/** An object has no wheels to weigh and no board to stand on: its base gives tip angles, a third hang a check. */
function nextOfObject(state: BuildState, { baseTips }: Omit<BenchAnswer, 'next'>): NextReading {
  const hangs = hangsOf(state).filter(({ counted }) => counted).length;
  const text =
    baseTips === null
      ? 'Mark both ends of the base it stands on, in one picture: the tip angles need them.'
      : hangs < 3
        ? 'Hang it a third time: two lines always cross, a third shows a slip.'
        : 'Every reading that would help is on the sheet.';
  return { text, href: PHOTOGRAPHS_HREF, gain: null };
}

/** A reading that is complete but for a size of the truck is worth more than a new one. */
function sizeAwaited(state: BuildState, { entries }: Computed['read']): NextReading | null {
  for (const { id, notCounted } of entries) {
    if (notCounted?.because !== 'waiting' || notCounted.for === 'hook') continue;
    const size = titleOf(state, notCounted.for).toLowerCase();
    const reading = titleOf(state, id);
    return {
      text: `Measure the ${size}: “${reading}” waits for it.`,
      href: SIZES_HREF,
      gain: null,
    };
  }
  return null;
}

/** Without tracks and wheelbase there are no tip angles, whatever else is measured. */
function sizesNeeded({ bench }: Computed['read'], { joint }: Omit<BenchAnswer, 'next'>): string {
  if (!joint?.wheelbase) return 'Measure the wheelbase, hub to hub: the tip angles need it.';
  const { frontTrack, rearTrack } = bench.dimensions;
  const which = frontTrack ? 'the rear track' : rearTrack ? 'the front track' : 'both tracks';
  return `Measure ${which}, tire center to tire center: the tip angles need it.`;
}

const MARKS: ReadonlySet<Warning['code']> = new Set(['worst mark', 'marks misfit']);

function contradiction({ warnings, blunder }: Omit<BenchAnswer, 'next'>): Warning | undefined {
  const mark = warnings.find(({ code }) => MARKS.has(code));
  if (mark) return mark;
  if (blunder?.named && blunder.named.chance < UNLIKELY)
    return warnings.find(({ code }) => code === 'reading disagrees');
  return warnings.find(({ code }) => code === 'readings scatter' || code === 'pictures unused');
}

function lookAgain(
  state: BuildState,
  { code, title, picture, reading }: Warning,
): { text: string; href: string } {
  if (code === 'reading disagrees' || code === 'readings scatter') {
    const isHang = reading !== undefined && hangNumber(state, reading) > 0;
    const known = state.readings.some(({ id }) => id === reading);
    return {
      text: `${title} Look at it again before you measure more.`,
      href: isHang ? PHOTOGRAPHS_HREF : known ? `${READINGS_HREF}/${reading}` : READINGS_HREF,
    };
  }
  const name = picture === undefined ? '' : pictureName(state, picture);
  const text =
    code === 'worst mark'
      ? name
        ? `${title.replace(/\.$/, '')}, in ${name}.`
        : title
      : `${title} Look again${name ? ` at ${name}` : ' at marks and hooks'} before you measure more.`;
  return { text, href: PHOTOGRAPHS_HREF };
}

/** A picture as the page calls it. */
function pictureName(state: BuildState, id: string): string {
  const number = hangNumber(state, id);
  return number === 0 ? 'the standing picture' : `hang ${number}`;
}
