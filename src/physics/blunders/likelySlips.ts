import { adjustTruck } from '../estimate/adjustTruck';
import { withValue } from '../estimate/benchNumbers';
import { scattersTooMuch } from './blunderSearch';
import { normalProbability } from '../fit/chiSquared';
import { grossStarts } from './grossStarts';
import { type WithoutNumber, withoutNumber } from './leaveOut';
import { type Correction, type NumberRole, SLIP_ROWS, type SlipRow, type Suspected } from './slipRows';
import { type NumberKind, truckModel } from '../estimate/truckModel';
import type { TruckBench } from '../estimate/truckReadings';

/**
 * The slip that may have made a number wrong, where size and sign fit. Judge is what all other readings say: the number is
 * left out, and what it would be without the slip is held against what the others predict.
 */

/** A corrected number agrees with all others when it is no farther off than this: a right one 99 times in 100. */
const AGREES = 2.58;
/** By how much smaller the square of that distance must be than before: 20 times as likely. */
const BETTER = 2 * Math.log(20);
const MOST = 3;

export interface LikelySlip {
  /** As in the table of slips: "ounces for grams". */
  readonly code: string;
  /** For the reader, after "This fits": "a number read in ounces and entered as grams". */
  readonly sentence: string;
  /** What the number would be (SI): corrected, or where the slip's size is open what the others say within it. */
  readonly wouldBe: number | null;
  readonly kind: NumberKind;
  /** Where the slip's size is open, from where to where the number would be. */
  readonly between: readonly [low: number, high: number] | null;
  /** The hook, or line of a picture, that was used instead; null for other slips. */
  readonly hook: string | null;
  /** Distance of the corrected number from what all others say, in its standard deviations. */
  readonly normalized: number;
  /** How likely, beside the likeliest of the list as 1. */
  readonly odds: number;
  /** The bench with the slip corrected. */
  readonly corrected: TruckBench;
}

/**
 * Slips that would explain number `numberId` of `bench`, likeliest first, at most three; none where nothing checks the
 * number or it agrees with all others as it is.
 */
export function likelySlips(bench: TruckBench, numberId: string): readonly LikelySlip[] {
  const without = leftOut(bench, numberId);
  if (!without) return [];
  const reading = bench.readings.find(({ id }) => id === without.number.reading) ?? null;
  const value = without.number.value;
  const suspected: Suspected = {
    ...{ bench, id: numberId, reading, value, without },
    role: roleOf(bench, numberId),
  };
  const before = (without.off / without.offU) ** 2;
  const found = SLIP_ROWS.filter(({ roles }) => roles === 'all' || roles.includes(suspected.role))
    .flatMap((row) => row.corrections(suspected).map((correction) => judged(row, correction, suspected)))
    .filter((found) => found !== null)
    .filter(({ slip: { normalized } }) => {
      return Math.abs(normalized) <= AGREES && before - normalized ** 2 >= BETTER;
    })
    .toSorted((a, b) => b.log - a.log);
  const codes = new Set<string>();
  const [best] = found;
  return found
    .filter(({ slip: { code } }) => !codes.has(code) && codes.add(code))
    .slice(0, MOST)
    .map(({ slip, log }) => ({ ...slip, odds: Math.exp(log - (best?.log ?? log)) }));
}

/** The number left out, from where it was read or, if that leads nowhere, from another unit or side. */
function leftOut(bench: TruckBench, id: string): WithoutNumber | null {
  const model = truckModel(bench);
  if (!model.ok) return null;
  const number = model.value.numbers.find((each) => each.id === id);
  if (!number) return null;
  const own = withoutNumber(bench, id);
  if (own.ok && !scattersTooMuch(own.value.chiSquared, own.value.adjustment.degreesOfFreedom))
    return own.value;
  return grossStarts(number, model.value.numbers)
    .map((start) => withoutNumber(bench, id, { start }))
    .reduce(
      (best: WithoutNumber | null, next) =>
        next.ok && (!best || next.value.chiSquared < best.chiSquared) ? next.value : best,
      own.ok ? own.value : null,
    );
}

/** Logarithm of the likelihood of a number this far off, of normal law. */
const misfit = (normalized: number, u: number): number =>
  -(normalized ** 2) / 2 - Math.log(u * Math.sqrt(2 * Math.PI));

interface Judged {
  readonly slip: LikelySlip;
  readonly log: number;
}

function judged(row: SlipRow, correction: Correction, suspected: Suspected): Judged | null {
  const { without, bench, id } = suspected;
  const { predicted, offU } = without;
  const common = { code: row.code, sentence: row.sentence, kind: without.number.kind, hook: null, odds: 1 };
  switch (correction.by) {
    case 'value': {
      const { value, u = 0 } = correction;
      const spread = Math.hypot(offU, u);
      const normalized = (value - predicted) / spread;
      const corrected = withValue(bench, id, value);
      return {
        slip: { ...common, wouldBe: value, between: null, normalized, corrected },
        log: misfit(normalized, spread),
      };
    }
    case 'range': {
      // Anywhere between, without preference.
      const { low, high } = correction;
      const value = Math.min(high, Math.max(low, predicted));
      const part = normalProbability((high - predicted) / offU) - normalProbability((low - predicted) / offU);
      const normalized = (value - predicted) / offU;
      const corrected = withValue(bench, id, value);
      return part > 0
        ? {
            slip: { ...common, wouldBe: value, between: [low, high], normalized, corrected },
            log: Math.log(part / (high - low)),
          }
        : null;
    }
    case 'bench': {
      const adjusted = adjustTruck(correction.bench);
      if (!adjusted.ok) return null;
      const normalized = Math.sqrt(Math.max(0, adjusted.value.chiSquared - without.chiSquared));
      const now = adjusted.value.model.numbers.find((number) => number.id === id);
      return {
        slip: {
          ...common,
          wouldBe: now && now.value !== without.number.value ? now.value : null,
          between: null,
          hook: correction.hook ?? null,
          normalized,
          corrected: correction.bench,
        },
        log: misfit(normalized, offU),
      };
    }
  }
}

/** What a number stands for. */
function roleOf(bench: TruckBench, id: string): NumberRole {
  const hook = /^hook .+\.([xyz])$/.exec(id)?.[1];
  if (hook) return hook === 'x' ? 'ahead' : hook === 'y' ? 'left' : 'height';
  if (id === 'wheelbase') return 'wheelbase';
  if (id === 'tip line') return 'tip line';
  if (id === 'frontTrack' || id === 'rearTrack') return 'track';
  if (id === 'frontTireRadius' || id === 'rearTireRadius') return 'radius';
  const reading = bench.readings.find((each) =>
    each.kind === 'picture lines' ? each.lines.some((line) => line.id === id) : id.startsWith(`${each.id}.`),
  );
  const name = id.slice((reading?.id.length ?? 0) + 1);
  switch (reading?.kind) {
    case 'total mass':
    case 'axle scales':
    case 'wheel scales':
      return 'load';
    case 'axle lift':
      return name === 'load' ? 'load' : name === 'rise' ? 'rise' : 'lift angle';
    case 'tilt':
      return 'tilt angle';
    case 'balance':
      return reading.edge === 'across' ? 'ahead' : 'left';
    case 'hang':
      if (name === 'angle') return 'hang angle';
      if (name === 'first') return reading.view === 'side' || reading.view === 'top' ? 'ahead' : 'left';
      if (name === 'second') return reading.view === 'top' ? 'left' : 'height';
      return 'droop';
    case 'parts list':
      return name === 'mass' ? 'load' : name === 'ahead' || name === 'left' ? name : 'height';
    case 'picture lines':
      return 'line';
    default:
      return 'other';
  }
}
