import { svg, type ReactiveController, type ReactiveControllerHost, type SVGTemplateResult } from 'lit';
import { clamp, coordinate as c, point, type Point } from './geometry';
import { PointerDrag } from './pointerDrag';

/** How far a handle goes and in what steps, in the unit its value is shown in. */
export interface HandleRange {
  readonly min: number;
  readonly max: number;
  readonly step: number;
  readonly bigStep: number;
  /** A full turn: beyond max it goes on from min. min and max then name the same place. */
  readonly wraps?: boolean;
}

/** Where a move came from. */
export type MoveSource = 'pointer' | 'keyboard';

export interface HandleOptions {
  /** Accessible name, as the field beside the figure is called. */
  readonly name: () => string;
  readonly range: () => HandleRange;
  /** The value now, from wherever the host keeps it. */
  readonly value: () => number;
  /** Number and unit, as a screen reader is to say them. */
  readonly spoken: (value: number) => string;
  /** The value a place in the figure stands for, in the SVG's user units; null if none. */
  readonly valueAt: (place: Point) => number | null;
  /** The one way out: called with every new value, clamped and on a step. */
  readonly moved: (value: number, source: MoveSource) => void;
  /** A drag or a key press is over; what was tried may be kept. */
  readonly finished?: () => void;
}

/**
 * Keys of a handle: [key, with shift, what it does]. Arrow keys one step, Page keys or shift a big step, Home and End
 * the limits; Escape during a drag goes back to where it began.
 */
export const HANDLE_KEYS = [
  { key: 'ArrowRight', shift: false, by: 'step', sign: 1 },
  { key: 'ArrowUp', shift: false, by: 'step', sign: 1 },
  { key: 'ArrowLeft', shift: false, by: 'step', sign: -1 },
  { key: 'ArrowDown', shift: false, by: 'step', sign: -1 },
  { key: 'ArrowRight', shift: true, by: 'bigStep', sign: 1 },
  { key: 'ArrowUp', shift: true, by: 'bigStep', sign: 1 },
  { key: 'ArrowLeft', shift: true, by: 'bigStep', sign: -1 },
  { key: 'ArrowDown', shift: true, by: 'bigStep', sign: -1 },
  { key: 'PageUp', shift: false, by: 'bigStep', sign: 1 },
  { key: 'PageDown', shift: false, by: 'bigStep', sign: -1 },
] as const;

/** Holds a value in a range and on its steps, counted from min; a wrapping range is taken around instead. */
export function inRange(value: number, range: HandleRange): number {
  const { min, max, step, wraps = false } = range;
  const span = max - min;
  const turned = wraps ? value - Math.floor((value - min) / span) * span : clamp(value, min, max);
  const stepped = min + Math.round((turned - min) / step) * step;
  // Rounding away the error of binary steps keeps 0.1 + 0.2 from being shown as 0.30000000000000004.
  const exact = Number(stepped.toPrecision(12));
  if (wraps) return exact >= max ? min : exact;
  return clamp(exact, min, max);
}

/** The value a key press leads to, or null for a key the handle does not use. */
export function valueAfterKey(key: string, shift: boolean, value: number, range: HandleRange): number | null {
  if (key === 'Home') return inRange(range.min, range);
  if (key === 'End') return inRange(range.wraps ? range.max - range.step : range.max, range);
  const row = HANDLE_KEYS.find((entry) => entry.key === key && entry.shift === shift);
  return row ? inRange(value + row.sign * range[row.by], range) : null;
}

/**
 * One draggable value of a figure: pointer, keys and speech through the same path, moveTo(). Works from the first
 * render on; it holds no value of its own but asks the host for it, and asks the host to update after a move.
 */
export class DragHandle implements ReactiveController {
  readonly #host: ReactiveControllerHost;
  readonly #options: HandleOptions;
  readonly #drag: PointerDrag;
  #center: Point = point(0, 0);
  #grip: Point = point(0, 0);
  #before = 0;

  constructor(host: ReactiveControllerHost, options: HandleOptions) {
    this.#host = host;
    this.#options = options;
    this.#drag = new PointerDrag({
      start: (place) => {
        // Held where it was gripped: the knob does not jump under the finger.
        this.#grip = point(place.x - this.#center.x, place.y - this.#center.y);
        this.#before = options.value();
        host.requestUpdate();
        return true;
      },
      move: (place) => {
        const value = options.valueAt(point(place.x - this.#grip.x, place.y - this.#grip.y));
        if (value !== null) this.moveTo(value, 'pointer');
      },
      end: () => {
        options.finished?.();
        host.requestUpdate();
      },
    });
    host.addController(this);
  }

  hostConnected(): void {}

  /** Whether the reader is dragging it now. */
  get dragging(): boolean {
    return this.#drag.active;
  }

  /** Moves to a value held in range; says so and asks for an update only if it is a new one. */
  moveTo(value: number, source: MoveSource): void {
    if (!Number.isFinite(value)) return;
    const next = inRange(value, this.#options.range());
    if (next === this.#options.value()) return;
    this.#options.moved(next, source);
    this.#host.requestUpdate();
  }

  readonly #key = (event: KeyboardEvent): void => {
    if (event.ctrlKey || event.metaKey || event.altKey) return;
    if (event.key === 'Escape' && this.#drag.active) {
      event.preventDefault();
      this.moveTo(this.#before, 'keyboard');
      return;
    }
    const range = this.#options.range();
    const next = valueAfterKey(event.key, event.shiftKey, this.#options.value(), range);
    if (next === null) return;
    event.preventDefault();
    this.moveTo(next, 'keyboard');
    this.#options.finished?.();
  };

  /**
   * The handle on the page: `content` drawn round `center` (px), 44 px to touch, a focus ring. It is a slider to
   * assistive technology; what it shows must also stand in a field beside the figure.
   */
  template(center: Point, content: SVGTemplateResult, focusRadius = 22): SVGTemplateResult {
    this.#center = center;
    const { name, range, value, spoken } = this.#options;
    const { min, max } = range();
    const now = value();
    return svg`<g class="handle" role="slider" tabindex="0" aria-label=${name()} aria-valuemin=${min}
      aria-valuemax=${max} aria-valuenow=${now} aria-valuetext=${spoken(now)}
      @pointerdown=${this.#drag.down} @pointermove=${this.#drag.move} @pointerup=${this.#drag.up}
      @pointercancel=${this.#drag.up} @lostpointercapture=${this.#drag.up} @keydown=${this.#key}>
      <circle class="handle-reach" cx=${c(center.x)} cy=${c(center.y)} r="22"></circle>
      ${content}
      <circle class="handle-focus" cx=${c(center.x)} cy=${c(center.y)} r=${c(focusRadius)}></circle>
    </g>`;
  }
}
