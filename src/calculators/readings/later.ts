import type { ReactiveController, ReactiveControllerHost } from 'lit';

/** Before the first of a batch is computed: typing goes first. */
const QUIET_MS = 250;

/**
 * Values worked out when the page has nothing else to do, one at a time, held as long as what they are worked from. A value
 * not yet there is null; the host is asked to draw again as they come. Nothing is worked out off the page.
 */
export class Later<Value> implements ReactiveController {
  readonly #host: ReactiveControllerHost;
  readonly #known = new WeakMap<object, Map<string, Value>>();
  /** Wanted by the last drawing, in the order asked for. */
  #wanted: { readonly from: object; readonly name: string; readonly compute: () => Value }[] = [];
  #timer: ReturnType<typeof setTimeout> | undefined;
  #connected = false;

  constructor(host: ReactiveControllerHost) {
    this.#host = host;
    host.addController(this);
  }

  /** The value that `compute` gives, known by what it is worked from and a name; null until it has been worked out. */
  get(from: object, name: string, compute: () => Value): { readonly value: Value } | null {
    const held = this.#known.get(from);
    const value = held?.get(name);
    if (value !== undefined && held?.has(name)) return { value };
    this.#wanted.push({ from, name, compute });
    return null;
  }

  hostConnected(): void {
    this.#connected = true;
  }

  hostUpdate(): void {
    this.#wanted = [];
  }

  hostUpdated(): void {
    clearTimeout(this.#timer);
    if (this.#wanted.length > 0 && this.#connected) this.#timer = setTimeout(this.#next, QUIET_MS);
  }

  hostDisconnected(): void {
    this.#connected = false;
    clearTimeout(this.#timer);
  }

  readonly #next = (): void => {
    const job = this.#wanted.shift();
    if (!job || !this.#connected) return;
    const held = this.#known.get(job.from) ?? new Map<string, Value>();
    this.#known.set(job.from, held);
    if (!held.has(job.name)) held.set(job.name, job.compute());
    // All of a batch are drawn together: the page does not flicker line by line.
    if (this.#wanted.length === 0) this.#host.requestUpdate();
    else this.#timer = setTimeout(this.#next, 0);
  };
}
