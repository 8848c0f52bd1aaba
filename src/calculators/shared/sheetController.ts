import { effect, untracked } from '@preact/signals-core';
import type { ReactiveController, ReactiveControllerHost } from 'lit';

/**
 * Keeps an element in step with signals of the bench sheet. `read` takes what the element needs from the signals;
 * whenever one of them changes, `value` is renewed and the host asked to draw again. It listens from
 * hostConnected to hostDisconnected, so an element taken off the page costs nothing.
 *
 *     readonly #sheet = new SheetController(this, () => ({ state: openState.value, trial: trial.value !== null }));
 */
export class SheetController<Value> implements ReactiveController {
  #value: Value;
  #stop: (() => void) | undefined;

  constructor(
    private readonly host: ReactiveControllerHost,
    private readonly read: () => Value,
  ) {
    this.#value = untracked(read);
    host.addController(this);
  }

  /** What `read` gave last. */
  get value(): Value {
    return this.#value;
  }

  hostConnected(): void {
    this.#stop = effect(() => {
      this.#value = this.read();
      this.host.requestUpdate();
    });
  }

  hostDisconnected(): void {
    this.#stop?.();
    this.#stop = undefined;
  }
}
