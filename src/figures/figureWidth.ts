import type { ReactiveController, ReactiveControllerHost } from 'lit';

/**
 * Watches how wide an element is, so that a figure is laid out at its true size and its text stays 14 to 15 px
 * on every screen. Observes from hostConnected to hostDisconnected and asks for an update when the width, in
 * whole px, has changed.
 */
export class FigureWidth implements ReactiveController {
  /** Width to lay the figure out at, px; `initial` until the element has been measured. */
  width: number;
  readonly #host: ReactiveControllerHost & HTMLElement;
  readonly #target: () => Element | null;
  readonly #enlarged: () => number;
  #observer: ResizeObserver | null = null;
  #observed: Element | null = null;

  /**
   * `target`: the box the figure fills, the host itself if not said; it is looked up after every update.
   * `enlarged`: how many times larger than usual text is to appear (a projected page): the figure is laid out
   * that much narrower and scales up to its box.
   */
  constructor(
    host: ReactiveControllerHost & HTMLElement,
    {
      initial = 640,
      target = () => host,
      enlarged = () => 1,
    }: { initial?: number; target?: () => Element | null; enlarged?: () => number } = {},
  ) {
    this.#host = host;
    this.#target = target;
    this.#enlarged = enlarged;
    this.width = initial;
    host.addController(this);
  }

  hostConnected(): void {
    if (typeof ResizeObserver === 'undefined') return;
    this.#observer = new ResizeObserver((entries) => {
      const box = entries.at(-1)?.contentRect;
      if (!box || box.width < 1) return;
      const width = Math.round(box.width / this.#enlarged());
      if (width === this.width) return;
      this.width = width;
      this.#host.requestUpdate();
    });
    this.#observe();
  }

  hostUpdated(): void {
    this.#observe();
  }

  hostDisconnected(): void {
    this.#observer?.disconnect();
    this.#observer = null;
    this.#observed = null;
  }

  #observe(): void {
    const target = this.#target();
    if (!this.#observer || !target || target === this.#observed) return;
    if (this.#observed) this.#observer.unobserve(this.#observed);
    this.#observed = target;
    this.#observer.observe(target);
  }
}
