import type { ReactiveController, ReactiveControllerHost } from 'lit';
import { runMonteCarlo } from '../../answer/monteCarlo/runMonteCarlo';
import type { MonteCarloAnswer, QuantityByDraws } from '../../answer/monteCarlo/protocol';
import type { CaredQuantity, TruckBench } from '../../physics';

/** Enough for one digit of u at the ends of a 95 % interval: JCGM 101:2008, 7.2.1 recommends 10⁶ for two. */
export const DRAWS = 100_000;
/** Seed of the draws: the same readings give the same result. */
const START = 20_260;

export type RunState =
  | { readonly kind: 'none' }
  | { readonly kind: 'running'; readonly drawn: number }
  | { readonly kind: 'stopped' }
  | { readonly kind: 'failed'; readonly message: string }
  | { readonly kind: 'done'; readonly answer: MonteCarloAnswer };

/** A Monte Carlo run of the open readings; what it gives holds for these readings only. */
export class MonteCarloRun implements ReactiveController {
  readonly #host: ReactiveControllerHost;
  #state: RunState = { kind: 'none' };
  #of: string | null = null;
  #stop: AbortController | null = null;

  constructor(host: ReactiveControllerHost) {
    this.#host = host;
    host.addController(this);
  }

  get state(): RunState {
    return this.#state;
  }

  /** Whether it was made from these readings. */
  isOf(bench: TruckBench): boolean {
    return this.#of !== null && this.#of === fingerprint(bench);
  }

  /** What the draws say of a quantity of this bench; null where there is no current result. */
  of(bench: TruckBench, quantity: CaredQuantity): QuantityByDraws | null {
    if (this.#state.kind !== 'done' || !this.isOf(bench)) return null;
    return this.#state.answer.quantities.find((each) => each.quantity === quantity) ?? null;
  }

  async start(bench: TruckBench): Promise<void> {
    this.#stop?.abort();
    const stop = new AbortController();
    this.#stop = stop;
    this.#of = fingerprint(bench);
    this.#become({ kind: 'running', drawn: 0 });
    const result = await runMonteCarlo(
      { bench, draws: DRAWS, start: START },
      (drawn) => {
        if (this.#stop === stop && this.#state.kind === 'running') this.#become({ kind: 'running', drawn });
      },
      stop.signal,
    );
    if (this.#stop !== stop) return;
    this.#stop = null;
    if (result.ok) this.#become({ kind: 'done', answer: result.value });
    else if (result.reason === 'stopped') this.#become({ kind: 'stopped' });
    else this.#become({ kind: 'failed', message: result.message });
  }

  /** Stops a run at once; what was drawn so far is dropped. */
  readonly stop = (): void => {
    this.#stop?.abort();
  };

  /** A run of readings that have changed since is of no use. */
  stopUnless(bench: TruckBench): void {
    if (this.#state.kind === 'running' && !this.isOf(bench)) this.stop();
  }

  hostDisconnected(): void {
    this.stop();
  }

  #become(state: RunState): void {
    this.#state = state;
    this.#host.requestUpdate();
  }
}

/** The same text for the same readings; a fit started elsewhere differs in digits beyond these. */
const fingerprint = (bench: TruckBench): string =>
  JSON.stringify(bench, (_key, value: unknown) =>
    typeof value === 'number' ? Number(value.toPrecision(7)) : value,
  );
