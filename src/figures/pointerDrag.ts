import type { Point } from './geometry';
import { pointerPlace } from './viewTransform';

/** What a drag tells its owner; places in the user units of the surrounding SVG. */
export interface DragSteps {
  /** A press by the main button; false refuses it. */
  start(place: Point): boolean;
  move(place: Point): void;
  /** The pointer was lifted, or the browser took it away (then `cancelled`). */
  end(cancelled: boolean): void;
}

/**
 * Follows one pointer from press to release on an SVG element. Other pointers and other buttons are ignored, a
 * cancelled pointer ends the drag as a lifted one does. Bind the four handlers on the element itself; the
 * pointer is captured, so nothing listens on the window.
 */
export class PointerDrag {
  readonly #steps: DragSteps;
  #pointer: number | null = null;

  constructor(steps: DragSteps) {
    this.#steps = steps;
  }

  /** Whether a drag is going on. */
  get active(): boolean {
    return this.#pointer !== null;
  }

  readonly down = (event: PointerEvent): void => {
    if (this.#pointer !== null || event.button !== 0) return;
    const place = placeOf(event);
    if (!place || !this.#steps.start(place)) return;
    this.#pointer = event.pointerId;
    const handle = event.currentTarget;
    if (handle instanceof SVGElement) {
      handle.setPointerCapture(event.pointerId);
      handle.focus({ preventScroll: true });
    }
    event.preventDefault();
  };

  readonly move = (event: PointerEvent): void => {
    if (event.pointerId !== this.#pointer) return;
    const place = placeOf(event);
    if (place) this.#steps.move(place);
  };

  readonly up = (event: PointerEvent): void => {
    if (event.pointerId !== this.#pointer) return;
    this.#pointer = null;
    this.#steps.end(event.type !== 'pointerup');
  };
}

function placeOf(event: PointerEvent): Point | null {
  const handle = event.currentTarget;
  if (!(handle instanceof SVGElement)) return null;
  const svg = handle.ownerSVGElement;
  return svg ? pointerPlace(svg, event) : null;
}
