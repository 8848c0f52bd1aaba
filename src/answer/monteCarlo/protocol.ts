import type { CaredQuantity, Result, TruckBench, Validation } from '../../physics';

/** What page and worker say to each other about a Monte Carlo run. */

export interface MonteCarloOrder {
  readonly bench: TruckBench;
  readonly draws: number;
  /** The same start gives the same draws. */
  readonly start: number;
}

export interface QuantityByDraws {
  readonly quantity: CaredQuantity;
  readonly value: number;
  readonly u: number;
  readonly validation: Validation;
}

export interface MonteCarloAnswer {
  readonly drawn: number;
  /** Draws without a solution; they are in no statistics. */
  readonly failed: number;
  readonly quantities: readonly QuantityByDraws[];
}

export type MonteCarloReason = 'no answer' | 'stopped' | 'all failed';

export interface MonteCarloWorker {
  readonly run: (
    order: MonteCarloOrder,
    progress: (drawn: number) => void,
  ) => Promise<Result<MonteCarloAnswer, MonteCarloReason>>;
}
