import type { Estimate, TruckReading } from '../physics';
import type { BuildState } from '../sheet/schema';
import type { BenchAnswer } from './benchAnswer';
import { methodsOf, type Compared, type Method } from './methods';
import { titleOf } from './titles';

/** Each method beside the answer from all of them. */

export type MethodStanding = 'agrees' | 'does not agree' | 'set aside' | 'recorded only';

export interface AgreementLine {
  readonly title: string;
  /** Ids of its readings; of pictures those of their hangs. */
  readonly readings: readonly string[];
  readonly kind: TruckReading['kind'];
  readonly alone: Estimate | null;
  readonly standing: MethodStanding;
}

/** What every method says by itself: those counted, then those set aside, then what is only recorded. */
export function agreementOf(
  state: BuildState,
  { bench, entries, blunder }: Pick<BenchAnswer, 'bench' | 'entries' | 'blunder'>,
  quantity: Compared,
): AgreementLine[] {
  const suspects = new Set(
    blunder?.named ? [blunder.named.first.reading ?? '', blunder.named.reading ?? ''] : [],
  );
  const line = (method: Method, standing: MethodStanding): AgreementLine => ({
    ...method,
    title: methodTitle(state, method),
    standing,
  });
  const counted = methodsOf(bench, quantity).map((method) =>
    line(method, method.readings.some((id) => suspects.has(id)) ? 'does not agree' : 'agrees'),
  );
  const aside = entries.flatMap(({ reading, notCounted }) =>
    reading && notCounted?.because === 'set aside' ? [reading] : [],
  );
  // A reading set aside borrows what is counted, and nothing borrows from it.
  const setAside = aside.flatMap((reading) =>
    methodsOf({ ...bench, readings: [...bench.readings, reading] }, quantity)
      .filter(({ readings }) => readings.includes(reading.id))
      .map((method) =>
        line(
          aloneWith(method, reading, bench.readings, quantity, bench),
          // A list that was never counted is not a reading that was struck.
          reading.kind === 'parts list' ? 'recorded only' : 'set aside',
        ),
      ),
  );
  const recorded = entries.flatMap(({ id, reading, notCounted }) =>
    reading && notCounted?.because === 'another kind'
      ? [line({ readings: [id], kind: reading.kind, alone: null }, 'recorded only')]
      : [],
  );
  return [...counted, ...setAside, ...recorded];
}

/** A board's side that is set aside is no part of the sides that count. */
function aloneWith(
  method: Method,
  reading: TruckReading,
  counted: readonly TruckReading[],
  quantity: Compared,
  bench: BenchAnswer['bench'],
): Method {
  if (method.readings.length === 1) return method;
  const others = counted.filter(({ id }) => !method.readings.includes(id));
  return (
    methodsOf({ ...bench, readings: [...others, reading] }, quantity).find(({ readings }) =>
      readings.includes(reading.id),
    ) ?? method
  );
}

function methodTitle(state: BuildState, { kind, readings }: Method): string {
  const [first = ''] = readings;
  switch (kind) {
    case 'picture lines':
      return readings.length === 1 ? 'Photograph, one hang' : `Photographs, ${readings.length} hangs`;
    case 'total mass':
    case 'axle scales':
    case 'wheel scales':
      return 'Scales';
    case 'tilt':
      return readings.length > 1 ? 'Board, both sides' : titleOf(state, first);
    default:
      return titleOf(state, first);
  }
}
