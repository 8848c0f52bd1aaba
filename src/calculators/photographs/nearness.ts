import type { ReactiveController, ReactiveControllerHost } from 'lit';

/** How far below the window the host may lie to count as near, as an IntersectionObserver margin. */
const NEAR = '900px';
/** Latest time after the page has loaded at which the host is taken as near, so that a page can be printed unread; ms. */
const LATEST = 3500;

/**
 * Whether the host has come near the window, or the page has been quiet for a while: until then a calculator far
 * down a chapter leaves the network to what is being read. Once near it stays so.
 */
export class Nearness implements ReactiveController {
  #near = false;
  #observer: IntersectionObserver | undefined;
  #timer: ReturnType<typeof setTimeout> | undefined;

  constructor(private readonly host: ReactiveControllerHost & HTMLElement) {
    host.addController(this);
  }

  get near(): boolean {
    return this.#near;
  }

  hostConnected(): void {
    if (this.#near) return;
    this.#observer = new IntersectionObserver(
      (entries) => {
        if (entries.some(({ isIntersecting }) => isIntersecting)) this.#wake();
      },
      { rootMargin: NEAR },
    );
    this.#observer.observe(this.host);
    this.#timer = setTimeout(this.#wake, LATEST);
    addEventListener('beforeprint', this.#wake);
  }

  hostDisconnected(): void {
    this.#observer?.disconnect();
    clearTimeout(this.#timer);
    removeEventListener('beforeprint', this.#wake);
  }

  readonly #wake = (): void => {
    if (this.#near) return;
    this.#near = true;
    this.hostDisconnected();
    this.host.requestUpdate();
  };
}
