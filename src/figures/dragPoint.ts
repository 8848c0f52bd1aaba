import { svg, type ReactiveController, type ReactiveControllerHost, type SVGTemplateResult } from 'lit';
import { clamp, coordinate as c, point, type Point } from './geometry';
import type { PageBox } from './grid';
import { PointerDrag } from './pointerDrag';
import type { MoveSource } from './dragHandle';

/** Arrow-key steps of a point: plain, with alt (fine), with shift (coarse), with both. In the SVG's user units. */
export const POINT_STEPS = { plain: 1, fine: 0.1, coarse: 10, coarsest: 100 } as const;

const ARROWS: Readonly<Record<string, readonly [number, number]>> = {
  ArrowLeft: [-1, 0],
  ArrowRight: [1, 0],
  ArrowUp: [0, -1],
  ArrowDown: [0, 1],
};

/** How far a key press moves a point, or null for a key it does not use. */
export function shiftOfKey(key: string, shift: boolean, alt: boolean): Point | null {
  const arrow = ARROWS[key];
  if (!arrow) return null;
  const size = POINT_STEPS[shift && alt ? 'coarsest' : shift ? 'coarse' : alt ? 'fine' : 'plain'];
  return point(arrow[0] * size, arrow[1] * size);
}

export interface PointOptions {
  readonly name: () => string;
  readonly place: () => Point;
  /** The box the point stays in, user units of its SVG. */
  readonly box: () => PageBox;
  /** Where it is, as a screen reader is to say it. */
  readonly spoken: (place: Point) => string;
  readonly moved: (place: Point, source: MoveSource) => void;
  readonly finished?: () => void;
}

/**
 * A point a reader places in a picture, by pointer or by keys, through one path. Both ways lie on a grid of 0.1
 * user units. It is a button with a spoken place to assistive technology, since a slider has one value only.
 */
export class DragPoint implements ReactiveController {
  readonly #host: ReactiveControllerHost;
  readonly #options: PointOptions;
  readonly #drag: PointerDrag;
  #grip: Point = point(0, 0);
  #before: Point = point(0, 0);

  constructor(host: ReactiveControllerHost, options: PointOptions) {
    this.#host = host;
    this.#options = options;
    this.#drag = new PointerDrag({
      start: (place) => {
        this.#before = options.place();
        this.#grip = point(place.x - this.#before.x, place.y - this.#before.y);
        host.requestUpdate();
        return true;
      },
      move: (place) => this.moveTo(point(place.x - this.#grip.x, place.y - this.#grip.y), 'pointer'),
      end: () => {
        options.finished?.();
        host.requestUpdate();
      },
    });
    host.addController(this);
  }

  hostConnected(): void {}

  get dragging(): boolean {
    return this.#drag.active;
  }

  /** Moves to a place held in its box; says so and asks for an update only if it is a new one. */
  moveTo(place: Point, source: MoveSource): void {
    if (!Number.isFinite(place.x) || !Number.isFinite(place.y)) return;
    const { x, y, width, height } = this.#options.box();
    const tenth = (value: number): number => Math.round(value * 10) / 10;
    const next = point(tenth(clamp(place.x, x, x + width)), tenth(clamp(place.y, y, y + height)));
    const now = this.#options.place();
    if (next.x === now.x && next.y === now.y) return;
    this.#options.moved(next, source);
    this.#host.requestUpdate();
  }

  readonly #key = (event: KeyboardEvent): void => {
    if (event.ctrlKey || event.metaKey) return;
    if (event.key === 'Escape' && this.#drag.active) {
      event.preventDefault();
      this.moveTo(this.#before, 'keyboard');
      return;
    }
    const shift = shiftOfKey(event.key, event.shiftKey, event.altKey);
    if (!shift) return;
    event.preventDefault();
    const now = this.#options.place();
    this.moveTo(point(now.x + shift.x, now.y + shift.y), 'keyboard');
    this.#options.finished?.();
  };

  /** The point on the page. `unitsPerPixel` keeps its target 44 px wide in an SVG that counts in picture pixels. */
  template(content: SVGTemplateResult, unitsPerPixel = 1): SVGTemplateResult {
    const { name, place, spoken } = this.#options;
    const { x, y } = place();
    return svg`<g class="handle" role="button" aria-roledescription="movable point" tabindex="0"
      aria-label=${`${name()}, ${spoken(place())}`}
      @pointerdown=${this.#drag.down} @pointermove=${this.#drag.move} @pointerup=${this.#drag.up}
      @pointercancel=${this.#drag.up} @lostpointercapture=${this.#drag.up} @keydown=${this.#key}>
      <circle class="handle-reach" cx=${c(x)} cy=${c(y)} r=${c(22 * unitsPerPixel)}></circle>
      ${content}
      <circle class="handle-focus" cx=${c(x)} cy=${c(y)} r=${c(16 * unitsPerPixel)}></circle>
    </g>`;
  }
}
