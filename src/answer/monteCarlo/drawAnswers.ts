import {
  CARED_QUANTITIES,
  adjustTruck,
  cared,
  monteCarloOfAdjustment,
  refusal,
  stanceAt,
  stanceQuantity,
  success,
  validateFirstOrder,
} from '../../physics';
import type { Result } from '../../physics';
import { seededUniform } from '../seededUniform';
import type { MonteCarloAnswer, MonteCarloOrder, MonteCarloReason } from './protocol';

/** Draws between two reports, some 20 ms of work. */
const PORTION = 1000;
/** The clause 8 comparison is to one digit of u: two would ask for millions of draws. */
const DIGITS = 1;

/**
 * A whole Monte Carlo run: every draw is new readings, each from its own law, and one new solution of the whole
 * adjustment (JCGM 101:2008, clause 7), set beside first order (clause 8). Gives way between portions.
 */
export async function drawAnswers(
  { bench, draws, start }: MonteCarloOrder,
  progress: (drawn: number) => void,
  pause: () => Promise<void>,
): Promise<Result<MonteCarloAnswer, MonteCarloReason>> {
  const adjusted = adjustTruck(bench);
  if (!adjusted.ok) return refusal('no answer', adjusted.message);
  const truck = adjusted.value;
  if (truck.undetermined.length > 0)
    return refusal('no answer', 'The readings do not determine the center of gravity yet.');
  const { model, adjustment } = truck;
  const estimates = CARED_QUANTITIES.flatMap((quantity) => {
    const estimate = cared(truck, quantity);
    return estimate.ok ? [{ quantity, value: estimate.value.value, u: estimate.value.u }] : [];
  });
  const run = monteCarloOfAdjustment({
    unknowns: model.unknowns,
    observations: model.observations,
    laws: model.laws,
    solution: adjustment,
    uniform: seededUniform(start),
    results: (unknowns) => {
      const stance = stanceAt(model, unknowns);
      const values: number[] = [];
      for (const { quantity } of estimates) {
        const told = stanceQuantity(stance, quantity);
        if (!told.ok) return null;
        values.push(told.value.value);
      }
      return values;
    },
  });
  while (run.drawn() < draws) {
    run.draw(Math.min(PORTION, draws - run.drawn()));
    progress(run.drawn());
    await pause();
  }
  if (run.failed() === run.drawn()) return refusal('all failed', 'No draw had a solution.');
  return success({
    drawn: run.drawn(),
    failed: run.failed(),
    quantities: estimates.map((estimate, i) => ({
      ...estimate,
      validation: validateFirstOrder(estimate, run.draws(i), { significantDigits: DIGITS }),
    })),
  });
}
