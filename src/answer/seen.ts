import {
  cared,
  differenceUncertainty,
  measuredDifference,
  usuallyReused,
  valueSensitivities,
} from '../physics';
import type { BothSeeings, CaredQuantity, Observation, SharedErrors } from '../physics';
import type { Source } from '../photo/fit/unknowns';
import { PICTURES_ID } from '../photo/plumbLines';
import type { BenchAnswer } from './benchAnswer';
import { tellsLateral } from './cgEstimate';

/** Can this bench see a change: what two builds must differ by before the readings can tell them apart. */

/** What stays as it was when the same truck is photographed again from the same stand, with the same hooks and marks. */
const REUSED: ReadonlySet<Source> = new Set<Source>([
  'wheelbase and scale',
  'ground and tire radius',
  'hook place',
  'depths',
  'camera distance',
  'lateral place',
  'ruler',
]);

type Measured = Pick<BenchAnswer, 'joint' | 'bench' | 'adjusted' | 'plumbLines'>;

/** Errors that two builds measured on one bench share, for a quantity with these slopes. */
function sharedErrors(
  { joint, bench, adjusted, plumbLines }: Measured,
  gradient: readonly number[],
): SharedErrors {
  const number = usuallyReused(bench);
  if (!joint || !adjusted || !plumbLines) return { number };
  return {
    number,
    part: ({ name, uncertainty }: Observation) => {
      if (name !== PICTURES_ID) return null;
      const at = joint.model.observations.findIndex((each) => each.name === name);
      const gain = valueSensitivities(joint, gradient)[at] ?? [];
      const slopes = Array.from({ length: adjusted.adjustment.unknowns.length }, (_, k) =>
        gain.reduce((sum, g, value) => sum + g * (plumbLines.sensitivities[value]?.[k] ?? 0), 0),
      );
      const shares = adjusted.adjustment.varianceShares(slopes);
      const whole = shares.reduce((sum, share) => sum + share, 0);
      const reused = shares.reduce((sum, share, i) => {
        const source = adjusted.sources[i];
        return source && REUSED.has(source) ? sum + share : sum;
      }, 0);
      // Along this quantity it is this part of the whole; across it nothing is asked.
      const part = whole > 0 ? reused / whole : 0;
      return uncertainty.map((row) => (typeof row === 'number' ? [] : row.map((value) => part * value)));
    },
  };
}

/** What two builds measured on this bench share, for a quantity; nothing where the quantity is not known. */
export function sharedErrorsOf(answer: Measured, quantity: CaredQuantity): SharedErrors {
  const now = answer.joint && cared(answer.joint, quantity);
  return now?.ok ? sharedErrors(answer, now.value.gradient) : { number: usuallyReused(answer.bench) };
}

/** A lateral place that is only assumed is the same in every build, and tells of none. */
const isAssumed = ({ bench }: Measured, quantity: CaredQuantity): boolean =>
  quantity === 'left' && !tellsLateral(bench.readings);

/** What a change must be worth for this bench to see it; null where the quantity is not known, or only assumed. */
export function canSee(answer: Measured, quantity: CaredQuantity): BothSeeings | null {
  if (!answer.joint || isAssumed(answer, quantity)) return null;
  const now = cared(answer.joint, quantity);
  if (!now.ok) return null;
  return differenceUncertainty(answer.joint, now.value.gradient, sharedErrors(answer, now.value.gradient));
}

export interface MeasuredDifference {
  /** Second minus first, SI. */
  readonly difference: number;
  readonly seeing: BothSeeings;
}

/**
 * Two builds that were both measured: by how much they differ, and what that difference must be to be seen. Null where
 * the quantity is not known in both, or only assumed in one.
 */
export function differenceOf(
  first: Measured,
  second: Measured,
  quantity: CaredQuantity,
): MeasuredDifference | null {
  if (!first.joint || !second.joint) return null;
  if (isAssumed(first, quantity) || isAssumed(second, quantity)) return null;
  const [a, b] = [cared(first.joint, quantity), cared(second.joint, quantity)];
  if (!a.ok || !b.ok) return null;
  const seeing = measuredDifference(
    { truck: first.joint, gradient: a.value.gradient },
    { truck: second.joint, gradient: b.value.gradient },
    sharedErrors(first, a.value.gradient),
  );
  return { difference: b.value.value - a.value.value, seeing };
}
