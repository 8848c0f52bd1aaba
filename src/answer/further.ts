import {
  COVERAGE,
  USUAL_DIMENSIONS,
  angleIn,
  furtherReadings,
  lengthIn,
  meters,
  radians,
  usualCandidates,
} from '../physics';
import type { CaredQuantity, FurtherCaution, FurtherGain, FurtherWork, HungFrom } from '../physics';
import { PHOTOGRAPHS_HREF } from '../photo/readState';
import { called } from '../sheet/givens';
import type { BuildState } from '../sheet/schema';
import type { BenchAnswer } from './benchAnswer';
import type { NextReading } from './nextReading';
import { titleOf } from './titles';

/** What to measure next, ranked by what it buys, in the words of the bench. */

export interface FurtherInWords {
  /** Unique among those told. */
  readonly id: string;
  /** "Tilt it on a board to both sides" */
  readonly what: string;
  /** Dimensions that have to be measured with it, in words; empty where nothing else is needed. */
  readonly needs: string;
  readonly minutes: number;
  readonly caution: FurtherCaution | null;
  /** ± of the quantity now and then as printed, same decimals; null where it is not determined. */
  readonly now: string | null;
  readonly then: string | null;
  readonly gain: FurtherGain;
  readonly href: string;
}

/** Gains below this part of the present ± are no reason to go to the bench. */
const WORTH_TELLING = 0.02;

/** Every candidate that would make the quantity surer or determine it, best first. */
export function further(
  state: BuildState,
  { joint, bench }: Pick<BenchAnswer, 'joint' | 'bench'>,
  quantity: CaredQuantity,
): readonly FurtherInWords[] {
  if (!joint) return [];
  const hooksInPictures = state.pictures.flatMap(({ kind, hook, counted }) =>
    kind === 'hanging' && counted && hook !== null ? [hook] : [],
  );
  const candidates = usualCandidates(bench, joint, { hooksInPictures });
  const ranked = furtherReadings(bench, joint, quantity, candidates, USUAL_DIMENSIONS);
  if (!ranked.ok) return [];
  return ranked.value.flatMap((gain) => {
    if (gain.then === null || (gain.now !== null && gain.now - gain.then < WORTH_TELLING * gain.now))
      return [];
    const { candidate, needs } = gain;
    const [now, then] = told(quantity, gain.now, gain.then);
    return [
      {
        id: candidate.id,
        what: workInWords(
          state,
          candidate.work,
          bench.readings.some(({ kind }) => kind === 'picture lines'),
        ),
        needs: needs.map((name) => titleOf(state, name).toLowerCase()).join(', '),
        minutes: candidate.minutes,
        caution: candidate.caution,
        now,
        then,
        gain,
        href: hrefOf(candidate.work),
      },
    ];
  });
}

/** The best of them as the one line of "do next"; null where none is worth it. */
export function bestFurther(state: BuildState, answer: Omit<BenchAnswer, 'next'>): NextReading | null {
  const of = answer.stance.ok ? 'side tip' : 'height';
  const [best] = further(state, answer, of);
  if (!best) return null;
  const { gain, what, now, then, needs, href } = best;
  const unit = of === 'height' ? ' mm' : '°';
  const first = needs === '' ? what : `Measure ${needs}; ${what.charAt(0).toLowerCase()}${what.slice(1)}`;
  if (now === null || then === null || gain.now === null || gain.then === null)
    return { text: then === null ? `${first}.` : `${first}: ${of} to ± ${then}${unit}.`, href, gain: null };
  return {
    text: `${first}: ${of} ± ${now}${unit} becomes ± ${then}${unit}.`,
    href,
    gain: { of, now: gain.now, then: gain.then },
  };
}

/** A ± in the unit the page tells the quantity in: degrees, or millimeters. */
export function inCaredUnit(quantity: CaredQuantity, u: number): number {
  return quantity === 'height' || quantity === 'ahead' || quantity === 'left'
    ? COVERAGE * lengthIn(meters(u), 'mm')
    : COVERAGE * angleIn(radians(u), 'deg');
}

/** Two ± as told: one decimal, or two where one would hide the difference. */
function told(
  quantity: CaredQuantity,
  now: number | null,
  then: number,
): readonly [now: string | null, then: string] {
  const [from, to] = [now === null ? null : inCaredUnit(quantity, now), inCaredUnit(quantity, then)];
  const short = [from?.toFixed(1) ?? null, to.toFixed(1)] as const;
  return from !== null && short[0] === short[1] ? [from.toFixed(2), to.toFixed(2)] : short;
}

const TOWARD = { left: 'to the left', right: 'to the right', 'nose up': 'nose up', 'nose down': 'nose down' };
const VIEWS = { side: 'side', rear: 'rear', front: 'front', top: 'top' };
const DIMENSIONS: Readonly<Record<string, string>> = {
  wheelbase: 'wheelbase',
  frontTrack: 'front track',
  rearTrack: 'rear track',
  frontTireRadius: 'front tire radius',
  rearTireRadius: 'rear tire radius',
  treadWidth: 'tread width',
  frontAxleShare: 'front unsprung mass',
  rearAxleShare: 'rear unsprung mass',
};

function fromWhere(state: BuildState, from: HungFrom): string {
  if (!('hook' in from)) return `a new hook at the ${from.place}`;
  const index = state.hooks.findIndex(({ id }) => id === from.hook);
  return `the ${called(state.hooks[index]?.name ?? '', 'hook', Math.max(0, index))}`;
}

/** The work as an order: "Tilt it on a board to both sides". */
export function workInWords(state: BuildState, work: FurtherWork, pictured: boolean): string {
  switch (work.kind) {
    case 'total mass':
      return 'Weigh the whole truck';
    case 'axle scales':
      return 'Weigh both axles';
    case 'wheel scales':
      return 'Weigh the wheels one by one';
    case 'tip line':
      return 'Look where on the tread it stands when it tips';
    case 'axle lift': {
      const how = `Lift the ${work.raised} axle on the scale to 25°, by ${work.by}`;
      return work.weighing ? `Weigh both axles; then ${how.charAt(0).toLowerCase()}${how.slice(1)}` : how;
    }
    case 'hang': {
      const from = work.from.map((each) => fromWhere(state, each)).join(' and ');
      const seen = work.view === 'side' && pictured ? '' : `, seen from the ${VIEWS[work.view]}`;
      return `Hang it${pictured && work.view === 'side' ? ' once more' : ''} from ${from}${seen}`;
    }
    case 'board': {
      const sides = work.toward.length === 2 && work.toward.includes('left');
      const way = sides ? 'to both sides' : work.toward.map((each) => TOWARD[each]).join(' and ');
      return work.times > 1 ? `Tilt the board twice more ${way}` : `Tilt it on a board ${way}`;
    }
    case 'balance':
      return `Balance it on an edge ${work.edge === 'across' ? 'across' : 'along'}`;
    case 'again':
      return `Measure once more: ${titleOf(state, work.reading)}`;
    case 'dimension': {
      const names = work.names.map((name) => DIMENSIONS[name] ?? name).join(' and ');
      return `Measure ${names} with ${work.by === 'calipers' ? 'calipers' : 'a steel ruler'}`;
    }
  }
}

function hrefOf(work: FurtherWork): string {
  if (work.kind === 'dimension') return '#readings/sizes';
  return work.kind === 'hang' && work.view === 'side' ? PHOTOGRAPHS_HREF : '#readings/add';
}
