import { html, LitElement, nothing, svg, type PropertyValues, type SVGTemplateResult } from 'lit';
import { customElement, property, state } from 'lit/decorators.js';
import { repeat } from 'lit/directives/repeat.js';
import { figureStyles } from '../../figures';
import { baseStyles } from '../shared/styles';
import './loupe';
import { markingSurfaceStyles } from './markingSurface.styles';
import {
  bringing,
  fitted,
  held,
  insidePicture,
  loupePlace,
  panned,
  toPicture,
  toScreen,
  ZOOM_STEP,
  zoomed,
  type Place,
  type Size,
  type SurfaceView,
} from './surfaceView';

/** A mark as the surface shows it. */
export interface SurfaceMark {
  readonly role: string;
  /** Beside the sight. */
  readonly label: string;
  /** Spoken: "Mark C, roof front corner". */
  readonly name: string;
  readonly x: number;
  readonly y: number;
  /** false: set aside by the reader. */
  readonly counted: boolean;
  /** true: named by a warning. */
  readonly lookAgain: boolean;
  /** true: the picture's own edges placed it. */
  readonly found?: boolean;
  /** Body marks carry a letter and a sight with four ticks, all others a ring. */
  readonly body: boolean;
  /** true: a place that another picture suggests. It is no mark until the reader accepts or moves it. */
  readonly offered?: boolean;
  /** true: it may lie anywhere, so that a press or a slide that begins on it means the point in hand. */
  readonly yields?: boolean;
}

/**
 * Draws something under the marks, in screen pixels; `at` carries picture places there. `enlarged` while only a
 * part of the picture is shown.
 */
export type SurfaceScene = (at: (place: Place) => Place, box: Size, enlarged: boolean) => SVGTemplateResult;

/** What the surface asks of its owner. A drag is told from start to drop or cancel; nudges and placing at once. */
export type SurfaceEvent =
  | { readonly kind: 'place'; readonly place: Place; readonly by: 'pointer' | 'key' }
  /** A press on an offered mark, or Enter there: `exactly` where it is to stand just as it was offered. */
  | { readonly kind: 'accept'; readonly role: string; readonly place: Place; readonly exactly: boolean }
  | { readonly kind: 'drag'; readonly role: string; readonly place: Place }
  | { readonly kind: 'drop'; readonly role: string; readonly place: Place }
  | { readonly kind: 'cancel'; readonly role: string }
  | { readonly kind: 'nudge'; readonly role: string; readonly place: Place }
  | { readonly kind: 'select'; readonly role: string | null }
  | { readonly kind: 'remove'; readonly role: string }
  | { readonly kind: 'find'; readonly role: string }
  | { readonly kind: 'look'; readonly place: Place | null };

/** Pixels of one arrow key press, by the keys held with it. */
export const NUDGE_STEPS = { fine: 0.1, plain: 1, coarse: 10, far: 100 } as const;

/** Size of a nudge for a key event: Alt 0.1, alone 1, Shift 10, Ctrl or ⌘ with Shift 100. */
export function nudgeStep(event: Pick<KeyboardEvent, 'altKey' | 'shiftKey' | 'ctrlKey' | 'metaKey'>): number {
  if (event.altKey) return NUDGE_STEPS.fine;
  if (event.shiftKey) return event.ctrlKey || event.metaKey ? NUDGE_STEPS.far : NUDGE_STEPS.coarse;
  return NUDGE_STEPS.plain;
}

const ARROWS: Readonly<Record<string, readonly [number, number]>> = {
  ArrowLeft: [-1, 0],
  ArrowRight: [1, 0],
  ArrowUp: [0, -1],
  ArrowDown: [0, 1],
};

/** Screen pixels a pointer may stray before a press is a drag; a finger rolls more than a mouse. */
const STRAY = { mouse: 3, pen: 5, touch: 8 } as const;
/** Within this of a mark a press means the mark; screen pixels. 44 px across unless a point is in hand. */
const REACH = { free: 22, armed: 8, armedFinger: 13 } as const;
/** A finger that rests this long on the picture has the point in hand under it, to be carried into place; ms. */
const REST = 280;
/**
 * A finger that begins to slide later than this after it came down carries the point in hand; sooner is a swipe,
 * which scrolls the page or moves the picture. Swipes leave their spot within a tenth of a second; ms.
 */
const SLIDE = 140;
const LOUPE_ENLARGES = 6;
/** On a surface narrower than this the sights are drawn smaller, so that the truck still shows between them; px. */
const SMALL_SURFACE = 440;
/** Below this the loupe would show less than the surface does at a glance; screen pixels for one of the picture. */
const LEAST_LOUPE_SCALE = 2.5;
const MOST_LOUPE_SCALE = 24;

const BODY_SIGN = 'M-6 0A6 6 0 1 0 6 0A6 6 0 1 0-6 0M0-2.5V-10M0 2.5V10M-2.5 0H-10M2.5 0H10';
const OTHER_SIGN = 'M-5 0A5 5 0 1 0 5 0A5 5 0 1 0-5 0M-.6 0H.6M0-.6V.6';

/** A wide ring, open enough to show the corner in it. */
const OFFERED_SIGN = 'M-8 0A8 8 0 1 0 8 0A8 8 0 1 0-8 0M-.6 0H.6M0-.6V.6';

type Gesture =
  | {
      readonly kind: 'mark';
      readonly id: number;
      readonly role: string;
      readonly offset: Place;
      moved: boolean;
    }
  | { readonly kind: 'press'; readonly id: number; readonly from: Place; readonly since: number }
  | { readonly kind: 'carry'; readonly id: number; readonly role: string }
  | { readonly kind: 'pan'; readonly id: number; readonly since: number }
  | { readonly kind: 'pinch' };

const strayOf = (pointerType: string): number =>
  pointerType === 'touch' ? STRAY.touch : pointerType === 'pen' ? STRAY.pen : STRAY.mouse;

/**
 * A picture to place marks on: zoom (wheel, buttons, + and − keys, pinch), pan (drag, arrow keys, two fingers),
 * loupe, and marks that pointer and keyboard move through the same path. A finger that slides slowly carries the point
 * in hand; a swipe scrolls the page, or moves an enlarged picture.
 *
 * It shows what it is given and asks for changes with 'surface' events (SurfaceEvent as detail); it keeps only
 * its view and, while a drag is on, the place of the dragged mark.
 */
@customElement('plumb-marking-surface')
export class MarkingSurface extends LitElement {
  @property({ attribute: false }) picture: (Size & { readonly id: string }) | null = null;
  /** The decoded picture, or null while it is being read. */
  @property({ attribute: false }) bitmap: ImageBitmap | null = null;
  @property({ attribute: false }) marks: readonly SurfaceMark[] = [];
  @property({ attribute: false }) selected: string | null = null;
  /** The point that a press places, or null when none is in hand. */
  @property({ attribute: false }) armed: { readonly role: string; readonly name: string } | null = null;
  @property({ attribute: false }) scene: SurfaceScene | null = null;
  /** Said to screen readers: which picture this is. */
  @property() name = '';
  /** Shown in place of the picture while there is none. */
  @property() waiting = '';
  /** A mouse needs no loupe on the picture where a fixed one stands beside it. */
  @property({ type: Boolean }) loupeBeside = false;

  @state() private view: SurfaceView | null = null;
  @state() private box: Size = { width: 0, height: 0 };
  @state() private dragged: { readonly role: string; readonly place: Place } | null = null;
  @state() private finger: Place | null = null;
  @state() private panning = false;

  readonly #pointers = new Map<number, Place>();
  #gesture: Gesture | null = null;
  #restTimer: ReturnType<typeof setTimeout> | undefined;
  #observer: ResizeObserver | undefined;
  #drawn = '';

  static override styles = [baseStyles, figureStyles, markingSurfaceStyles];

  /** Screen pixels for one of the picture in the loupe, at the present zoom. */
  get loupeScale(): number {
    const wanted = (this.view?.scale ?? 1) * LOUPE_ENLARGES;
    return Math.min(MOST_LOUPE_SCALE, Math.max(LEAST_LOUPE_SCALE, wanted));
  }

  /** How many times larger than on the surface the loupe shows the picture. */
  get loupeEnlarges(): number {
    return this.loupeScale / (this.view?.scale ?? 1);
  }

  /** The picture place at the middle of what is shown: where the keyboard places a mark. */
  get middle(): Place {
    const { picture, view, box } = this;
    if (!picture || !view) return { x: 0, y: 0 };
    return insidePicture(toPicture(view, { x: box.width / 2, y: box.height / 2 }), picture);
  }

  /** Only a part of the picture is shown. */
  get #enlarged(): boolean {
    const { picture, view, box } = this;
    return view !== null && picture !== null && view.scale > fitted(picture, box).scale * 1.01;
  }

  /** Gives the keyboard to a mark and brings it into view; to the surface itself with null. */
  async focusMark(role: string | null): Promise<void> {
    await this.updateComplete;
    const target = role === null ? null : this.#sight(role);
    const mark = this.marks.find((candidate) => candidate.role === role);
    if (mark) this.bringIntoView(mark);
    (target ?? this.renderRoot.querySelector<SVGElement>('.overlay'))?.focus({ preventScroll: true });
  }

  /** Moves the view as little as needed to show a place. */
  bringIntoView(place: Place): void {
    const { picture, view, box } = this;
    if (picture && view) this.view = bringing(view, place, 48, picture, box);
  }

  /** Shows the whole picture. */
  fit(): void {
    if (this.picture) this.view = fitted(this.picture, this.box);
  }

  /** Enlarges about the mark in hand, or the middle. */
  zoom(factor: number, about?: Place): void {
    const { picture, view, box } = this;
    if (!picture || !view) return;
    const mark = this.marks.find(({ role }) => role === this.selected);
    const place = about ?? (mark && toScreen(view, mark));
    const inside =
      place && place.x >= 0 && place.y >= 0 && place.x <= box.width && place.y <= box.height
        ? place
        : { x: box.width / 2, y: box.height / 2 };
    this.view = zoomed(view, factor, inside, picture, box);
  }

  override connectedCallback(): void {
    super.connectedCallback();
    // Created here rather than in the constructor: the element may be built where no layout exists.
    this.#observer = new ResizeObserver(() => this.#measure());
    void this.updateComplete.then(() => {
      const surface = this.#surface();
      if (surface) this.#observer?.observe(surface);
      // Lit's own listeners cannot say that they prevent the default, which a wheel listener has to.
      surface?.addEventListener('wheel', this.#wheel, { passive: false });
      surface?.addEventListener('touchmove', this.#touchMoved, { passive: false });
    });
  }

  override disconnectedCallback(): void {
    super.disconnectedCallback();
    this.#observer?.disconnect();
    this.#surface()?.removeEventListener('wheel', this.#wheel);
    this.#surface()?.removeEventListener('touchmove', this.#touchMoved);
    this.#end();
  }

  protected override willUpdate(changes: PropertyValues<this>): void {
    if (!changes.has('picture')) return;
    const before = changes.get('picture');
    const same =
      before && this.picture && before.width === this.picture.width && before.height === this.picture.height;
    if (before?.id !== this.picture?.id || !same) {
      this.#end();
      this.view = this.picture && this.box.width > 0 ? fitted(this.picture, this.box) : null;
    }
  }

  override render() {
    const { view, picture, box } = this;
    const enlarged = this.#enlarged;
    const times = view && picture ? Math.max(1, Math.round(view.scale / fitted(picture, box).scale)) : 1;
    const classes = ['surface', enlarged && 'enlarged', this.armed && 'armed', this.panning && 'panning'];
    return html`
      <div
        class=${classes.filter(Boolean).join(' ')}
        @pointerdown=${this.#down}
        @pointermove=${this.#move}
        @pointerup=${this.#up}
        @pointercancel=${this.#cancelled}
        @pointerleave=${this.#left}
        @contextmenu=${this.#menu}
        @keydown=${this.#key}
      >
        <canvas aria-hidden="true"></canvas>
        <svg
          class="overlay figure"
          role="group"
          tabindex="0"
          aria-label=${this.#spokenName()}
          aria-keyshortcuts="Enter + - 0"
        >
          ${view && this.bitmap ? this.#content(view, enlarged) : ''}
        </svg>
        ${this.bitmap ? '' : html`<p class="waiting">${this.waiting}</p>`} ${this.#fingerLoupe()}
      </div>
      <div class="under">
        <slot></slot>
        <div class="tools" role="group" aria-label="Zoom">
          <button
            type="button"
            aria-label="Smaller"
            ?disabled=${!enlarged}
            @click=${() => this.zoom(1 / ZOOM_STEP)}
          >
            <svg viewBox="0 0 18 18" aria-hidden="true"><path d="M3 9h12"></path></svg>
          </button>
          <button
            type="button"
            aria-label="Whole picture, now ${times} ×"
            ?disabled=${!enlarged}
            @click=${this.fit}
          >
            ${times} ×
          </button>
          <button type="button" aria-label="Larger" ?disabled=${!view} @click=${() => this.zoom(ZOOM_STEP)}>
            <svg viewBox="0 0 18 18" aria-hidden="true"><path d="M3 9h12M9 3v12"></path></svg>
          </button>
        </div>
      </div>
    `;
  }

  override updated(changes: PropertyValues): void {
    if (changes.has('picture')) this.#shape();
    this.#drawPicture();
    this.#placeLoupe();
  }

  #spokenName(): string {
    if (!this.picture) return this.name;
    if (this.armed) return `${this.name}. Enter places ${this.armed.name} at the middle of what is shown.`;
    return `${this.name}. Arrow keys move the picture, plus and minus enlarge it.`;
  }

  #content(view: SurfaceView, enlarged: boolean): SVGTemplateResult {
    const at = (place: Place) => toScreen(view, place);
    return svg`<g class="scene">${this.scene ? this.scene(at, this.box, enlarged) : ''}</g>
      ${repeat(
        this.marks,
        ({ role }) => role,
        (mark) => this.#mark(mark, at),
      )}${this.#carried(at)}`;
  }

  /** The point in hand on its way to where it will be placed. */
  #carried(at: (place: Place) => Place): SVGTemplateResult | '' {
    const { dragged } = this;
    if (!dragged || this.#gesture?.kind !== 'carry') return '';
    const { x, y } = at(dragged.place);
    return svg`<g class="sight carried" transform="translate(${x.toFixed(2)} ${y.toFixed(2)})">
      <path class="halo" d=${OTHER_SIGN}></path><path class="ring" d=${OTHER_SIGN}></path>
    </g>`;
  }

  #mark(mark: SurfaceMark, at: (place: Place) => Place): SVGTemplateResult {
    const place = this.dragged?.role === mark.role ? this.dragged.place : mark;
    const { x, y } = at(place);
    const classes = ['sight', mark.body ? '' : 'other', mark.counted ? '' : 'aside'];
    if (mark.lookAgain) classes.push('look-again');
    if (mark.offered) classes.push('offered');
    if (mark.role === this.selected) classes.push('selected');
    if (mark.label.length > 2) classes.push('quiet-label');
    const shape = mark.offered ? OFFERED_SIGN : mark.body ? BODY_SIGN : OTHER_SIGN;
    const small = this.box.width < SMALL_SURFACE ? 0.78 : 1;
    const leftward = x > this.box.width - 70 && mark.label.length > 2;
    const state = `${mark.name}, x ${place.x.toFixed(1)}, y ${place.y.toFixed(1)} pixels${mark.found ? ', placed by the picture’s edges' : ''}${mark.offered ? ', offered. Enter accepts it' : mark.counted ? '' : ', set aside'}`;
    return svg`<g
      class=${classes.filter(Boolean).join(' ')}
      role="button"
      tabindex="0"
      data-role=${mark.offered ? nothing : mark.role}
      data-offered=${mark.offered ? mark.role : nothing}
      aria-label=${state}
      aria-pressed=${mark.role === this.selected ? 'true' : 'false'}
      transform="translate(${x.toFixed(2)} ${y.toFixed(2)})"
      @focus=${() => this.#ask({ kind: 'select', role: mark.role })}
    >
      <circle class="reach" r="22"></circle><g transform="scale(${small})">
      <circle class="focus-halo" r="15"></circle><circle class="focus" r="15"></circle>
      <path class="halo" d=${shape}></path><path class="ring" d=${shape}></path></g>
      <text x=${leftward ? -12 : 11} y="-8" text-anchor=${leftward ? 'end' : 'start'}>${mark.label}</text>
    </g>`;
  }

  #fingerLoupe() {
    const { finger, picture, view } = this;
    if (!finger || !picture || !view) return '';
    const place = this.dragged?.place ?? insidePicture(toPicture(view, finger), picture);
    return html`<plumb-loupe
      .source=${this.bitmap}
      .picture=${picture}
      .place=${place}
      .scale=${this.loupeScale}
      .diameter=${this.#loupeDiameter()}
    ></plumb-loupe>`;
  }

  #loupeDiameter = (): number => Math.min(150, Math.max(96, this.box.width * 0.36));

  #placeLoupe(): void {
    const loupe = this.renderRoot.querySelector<HTMLElement>('plumb-loupe');
    if (!loupe || !this.finger) return;
    const radius = this.#loupeDiameter() / 2;
    const { x, y } = loupePlace(this.finger, radius, this.box);
    loupe.style.setProperty('left', `${x - radius}px`);
    loupe.style.setProperty('top', `${y - radius}px`);
  }

  #surface = (): HTMLElement | null => this.renderRoot.querySelector<HTMLElement>('.surface');

  #sight(role: string): SVGElement | null {
    const name = CSS.escape(role);
    return this.renderRoot.querySelector<SVGElement>(`[data-role="${name}"], [data-offered="${name}"]`);
  }

  /** The surface has the picture's shape, within reason: neither a strip nor a tower. */
  #shape(): void {
    const { picture } = this;
    const ratio = picture ? Math.min(1.78, Math.max(0.95, picture.width / picture.height)) : 4 / 3;
    this.#surface()?.style.setProperty('aspect-ratio', String(ratio));
  }

  #measure(): void {
    const surface = this.#surface();
    if (!surface) return;
    const box = { width: surface.clientWidth, height: surface.clientHeight };
    if (box.width === this.box.width && box.height === this.box.height) return;
    const { picture, view } = this;
    const whole =
      picture && view && this.box.width > 0 && view.scale <= fitted(picture, this.box).scale * 1.01;
    this.box = box;
    if (picture && box.width > 0)
      this.view = !view || whole ? fitted(picture, box) : held(view, picture, box);
  }

  /** The picture is drawn again only when the view or the picture changed: a dragged mark costs no redraw of it. */
  #drawPicture(): void {
    const canvas = this.renderRoot.querySelector('canvas');
    const pen = canvas?.getContext('2d');
    if (!canvas || !pen) return;
    const dense = devicePixelRatio || 1;
    const width = Math.round(this.box.width * dense);
    const height = Math.round(this.box.height * dense);
    const { bitmap, picture, view } = this;
    const state = bitmap && picture && view ? `${picture.id} ${view.scale} ${view.x} ${view.y}` : 'none';
    const drawn = `${state} ${width} ${height}`;
    if (drawn === this.#drawn) return;
    this.#drawn = drawn;
    if (canvas.width !== width || canvas.height !== height) {
      canvas.width = width;
      canvas.height = height;
    }
    pen.setTransform(1, 0, 0, 1, 0, 0);
    pen.clearRect(0, 0, width, height);
    if (!bitmap || !picture || !view) return;
    const finer = bitmap.width / picture.width;
    const scale = (view.scale * dense) / finer;
    pen.imageSmoothingEnabled = view.scale < 6;
    pen.imageSmoothingQuality = 'high';
    pen.setTransform(scale, 0, 0, scale, -view.x * finer * scale, -view.y * finer * scale);
    pen.drawImage(bitmap, 0, 0);
  }

  // Pointers ---------------------------------------------------------------------------------------------

  #local(event: MouseEvent): Place {
    const frame = this.#surface()?.getBoundingClientRect();
    // The border is one pixel wide; places count from inside it.
    return { x: event.clientX - (frame?.left ?? 0) - 1, y: event.clientY - (frame?.top ?? 0) - 1 };
  }

  #roleAt(event: Event): string | null {
    const [target] = event.composedPath();
    const sight = target instanceof Element ? target.closest('[data-role], [data-offered]') : null;
    return sight?.getAttribute('data-role') ?? sight?.getAttribute('data-offered') ?? null;
  }

  /**
   * The mark a press means: the nearest within reach. While a point is in hand the reach is short, so that it can be
   * placed beside marks that stand already.
   */
  #nearest(view: SurfaceView, place: Place, pointerType: string): SurfaceMark | null {
    const finger = pointerType === 'touch';
    const reach = this.armed === null ? REACH.free : finger ? REACH.armedFinger : REACH.armed;
    let nearest: SurfaceMark | null = null;
    let shortest: number = reach;
    for (const mark of this.marks) {
      if (mark.yields && this.armed !== null) continue;
      const at = toScreen(view, mark);
      const distance = Math.hypot(at.x - place.x, at.y - place.y);
      if (distance > shortest) continue;
      shortest = distance;
      nearest = mark;
    }
    return nearest;
  }

  #down = (event: PointerEvent): void => {
    if (event.pointerType === 'mouse' && event.button !== 0) return;
    const { picture, view } = this;
    if (!picture || !view || !this.bitmap) return;
    const place = this.#local(event);
    this.#pointers.set(event.pointerId, place);
    if (this.#pointers.size === 2) {
      this.#abandon();
      this.#gesture = { kind: 'pinch' };
      this.finger = null;
      return;
    }
    if (this.#gesture) return;
    const mark = this.#nearest(view, place, event.pointerType);
    if (mark) {
      const at = toScreen(view, mark);
      this.#gesture = {
        kind: 'mark',
        id: event.pointerId,
        role: mark.role,
        offset: { x: at.x - place.x, y: at.y - place.y },
        moved: false,
      };
      this.#capture(event);
      this.#ask({ kind: 'select', role: mark.role });
      this.#sight(mark.role)?.focus({ preventScroll: true });
      event.preventDefault();
      return;
    }
    this.#gesture = { kind: 'press', id: event.pointerId, from: place, since: event.timeStamp };
    this.#capture(event);
    if (event.pointerType !== 'mouse' && this.armed !== null) {
      // The mouse events that follow a finger would give a mark nearby the keyboard, after this one has it.
      event.preventDefault();
      this.#restTimer = setTimeout(() => this.#rest(event.pointerId), REST);
    }
  };

  /** Later moves come here even when the pointer leaves the surface; a finger the browser took back has none. */
  #capture(event: PointerEvent): void {
    try {
      this.#surface()?.setPointerCapture(event.pointerId);
    } catch {
      // The pointer went up between the event and this line: there is nothing left to capture.
    }
  }

  /** A finger that stayed where it was has the point in hand under it. */
  #rest(id: number): void {
    const gesture = this.#gesture;
    const at = this.#pointers.get(id);
    if (gesture?.kind === 'press' && gesture.id === id && at) this.#carry(id, at, true);
  }

  /** The point in hand goes with the pointer; it is placed where the pointer is lifted. */
  #carry(id: number, at: Place, withLoupe: boolean): void {
    const { armed, view, picture } = this;
    if (armed === null || !view || !picture) return;
    const place = insidePicture(toPicture(view, at), picture);
    this.#gesture = { kind: 'carry', id, role: armed.role };
    this.panning = false;
    this.dragged = { role: armed.role, place };
    this.finger = withLoupe ? at : null;
    this.#ask({ kind: 'look', place });
  }

  /** A slide that carries the point in hand rather than moves the picture: a slow one, or where nothing can move. */
  #slides(gesture: { readonly since: number }, event: PointerEvent): boolean {
    if (this.armed === null) return false;
    return event.pointerType === 'mouse' ? !this.#enlarged : event.timeStamp - gesture.since >= SLIDE;
  }

  /** The browser would scroll the page under a finger that is carrying something, and cancel it. */
  #touchMoved = (event: TouchEvent): void => {
    const kind = this.#gesture?.kind;
    if (event.cancelable && (kind === 'mark' || kind === 'carry' || kind === 'pinch')) event.preventDefault();
  };

  #move = (event: PointerEvent): void => {
    const place = this.#local(event);
    const before = this.#pointers.get(event.pointerId);
    const { picture, view, box } = this;
    if (!picture || !view) return;
    if (!before) {
      if (event.pointerType === 'mouse') this.#hover(place, event);
      return;
    }
    const others = [...this.#pointers].filter(([id]) => id !== event.pointerId).map(([, other]) => other);
    this.#pointers.set(event.pointerId, place);
    const gesture = this.#gesture;
    if (!gesture) return;
    if (gesture.kind === 'pinch') {
      const [other] = others;
      if (!other) return;
      const factor =
        Math.hypot(place.x - other.x, place.y - other.y) /
        Math.max(1, Math.hypot(before.x - other.x, before.y - other.y));
      const middle = { x: (place.x + other.x) / 2, y: (place.y + other.y) / 2 };
      const moved = panned(view, (place.x - before.x) / 2, (place.y - before.y) / 2, picture, box);
      this.view = zoomed(moved, factor, middle, picture, box);
      return;
    }
    if (gesture.kind === 'carry') {
      this.#carry(event.pointerId, place, this.#needsLoupe(event));
      return;
    }
    if (gesture.kind === 'mark') {
      const mark = this.marks.find(({ role }) => role === gesture.role);
      if (!mark) return;
      if (!gesture.moved) {
        const start = toScreen(view, mark);
        const strayed = Math.hypot(
          place.x + gesture.offset.x - start.x,
          place.y + gesture.offset.y - start.y,
        );
        if (strayed < strayOf(event.pointerType)) return;
        gesture.moved = true;
      }
      const at = { x: place.x + gesture.offset.x, y: place.y + gesture.offset.y };
      this.dragged = { role: gesture.role, place: insidePicture(toPicture(view, at), picture) };
      this.finger = this.#needsLoupe(event) ? place : null;
      this.#ask({ kind: 'drag', ...this.dragged });
      return;
    }
    if (gesture.kind === 'press') {
      const strayed = Math.hypot(place.x - gesture.from.x, place.y - gesture.from.y);
      if (strayed < strayOf(event.pointerType)) return;
      clearTimeout(this.#restTimer);
      if (this.#slides(gesture, event)) {
        this.#carry(event.pointerId, place, this.#needsLoupe(event));
        return;
      }
      this.#gesture = { kind: 'pan', id: event.pointerId, since: gesture.since };
      this.panning = true;
      this.view = panned(view, place.x - gesture.from.x, place.y - gesture.from.y, picture, box);
      return;
    }
    // A finger that has begun fast but finds nothing to move has the point in hand after all.
    if (!this.#enlarged && this.#slides(gesture, event)) this.#carry(event.pointerId, place, true);
    else this.view = panned(view, place.x - before.x, place.y - before.y, picture, box);
  };

  #needsLoupe = ({ pointerType }: PointerEvent): boolean => pointerType !== 'mouse' || !this.loupeBeside;

  #hover(place: Place, event: PointerEvent): void {
    const { picture, view } = this;
    if (!picture || !view || !this.bitmap) return;
    const looks = this.armed !== null && this.#nearest(view, place, event.pointerType) === null;
    this.#ask({ kind: 'look', place: looks ? insidePicture(toPicture(view, place), picture) : null });
    this.finger = looks && !this.loupeBeside ? place : null;
  }

  #up = (event: PointerEvent): void => {
    const gesture = this.#gesture;
    const place = this.#local(event);
    this.#pointers.delete(event.pointerId);
    clearTimeout(this.#restTimer);
    if (!gesture) return;
    if (gesture.kind === 'pinch') {
      // The finger left on the picture goes on as nothing: lifting one of two is never meant as a press.
      if (this.#pointers.size === 0) this.#end();
      return;
    }
    if (gesture.id !== event.pointerId) return;
    const { picture, view, dragged } = this;
    this.#end();
    if (!picture || !view) return;
    if (gesture.kind === 'mark' && !gesture.moved && this.#isOffered(gesture.role)) {
      const exact = insidePicture(toPicture(view, place), picture);
      this.#ask({ kind: 'accept', role: gesture.role, place: exact, exactly: false });
    }
    if (gesture.kind === 'mark' && gesture.moved && dragged) this.#ask({ kind: 'drop', ...dragged });
    if (gesture.kind !== 'press' && gesture.kind !== 'carry') return;
    const at = toPicture(view, place);
    const inside = at.x >= 0 && at.y >= 0 && at.x <= picture.width && at.y <= picture.height;
    if (this.armed !== null && inside) this.#ask({ kind: 'place', place: at, by: 'pointer' });
    else if (gesture.kind === 'carry') this.#ask({ kind: 'look', place: null });
    else {
      this.#ask({ kind: 'select', role: null });
      this.renderRoot.querySelector<SVGElement>('.overlay')?.focus({ preventScroll: true });
    }
  };

  #isOffered = (role: string): boolean =>
    this.marks.some((mark) => mark.role === role && mark.offered === true);

  #cancelled = (event: PointerEvent): void => {
    this.#pointers.delete(event.pointerId);
    const gesture = this.#gesture;
    if (gesture && gesture.kind !== 'pinch' && gesture.id !== event.pointerId) return;
    this.#abandon();
    this.#end();
  };

  #left = (event: PointerEvent): void => {
    if (this.#pointers.has(event.pointerId)) return;
    this.finger = null;
    this.#ask({ kind: 'look', place: null });
  };

  /** A long press would open the browser's menu over the picture. */
  #menu = (event: Event): void => {
    if (this.#gesture) event.preventDefault();
  };

  /** Takes back what a drag has changed so far. */
  #abandon(): void {
    clearTimeout(this.#restTimer);
    const gesture = this.#gesture;
    if (gesture?.kind === 'mark' && gesture.moved) this.#ask({ kind: 'cancel', role: gesture.role });
    if (gesture?.kind === 'carry') this.#ask({ kind: 'look', place: null });
    this.dragged = null;
  }

  #end(): void {
    clearTimeout(this.#restTimer);
    this.#gesture = null;
    this.#pointers.clear();
    this.dragged = null;
    this.finger = null;
    this.panning = false;
  }

  /** The wheel enlarges once the picture has been pressed or focused, so that a page scrolled past it stays still. */
  #wheel = (event: WheelEvent): void => {
    if (!event.ctrlKey && !this.renderRoot.querySelector(':focus')) return;
    const unit = event.deltaMode === WheelEvent.DOM_DELTA_LINE ? 16 : 1;
    event.preventDefault();
    this.zoom(Math.exp((-event.deltaY * unit) / (event.ctrlKey ? 120 : 400)), this.#local(event));
  };

  // Keys -------------------------------------------------------------------------------------------------

  #key = (event: KeyboardEvent): void => {
    if (this.#handles(event)) event.preventDefault();
  };

  /** true where the key was one of the surface's own. */
  #handles(event: KeyboardEvent): boolean {
    const role = this.#roleAt(event);
    const mark = role === null ? undefined : this.marks.find((candidate) => candidate.role === role);
    const arrow = ARROWS[event.key];
    if (event.key === 'Escape') {
      const gesture = this.#gesture;
      if (gesture?.kind === 'mark' || gesture?.kind === 'carry') {
        this.#abandon();
        this.#end();
      } else if (mark) {
        this.#ask({ kind: 'select', role: null });
        void this.focusMark(null);
      } else return false;
      return true;
    }
    if (arrow && mark && this.picture) {
      const step = nudgeStep(event);
      const place = insidePicture({ x: mark.x + arrow[0] * step, y: mark.y + arrow[1] * step }, this.picture);
      this.bringIntoView(place);
      this.#ask({ kind: 'nudge', role: mark.role, place });
      return true;
    }
    if (event.ctrlKey || event.metaKey || event.altKey) return false;
    if (arrow && this.picture && this.view) {
      const step = event.shiftKey ? 200 : 50;
      this.view = panned(this.view, -arrow[0] * step, -arrow[1] * step, this.picture, this.box);
      return true;
    }
    if (mark?.offered && event.key === 'Enter')
      this.#ask({ kind: 'accept', role: mark.role, place: mark, exactly: true });
    else if (event.key === '+' || event.key === '=') this.zoom(ZOOM_STEP);
    else if (event.key === '-' || event.key === '−' || event.key === '_') this.zoom(1 / ZOOM_STEP);
    else if (event.key === '0') this.fit();
    else if (mark && (event.key === 'Delete' || event.key === 'Backspace'))
      this.#ask({ kind: 'remove', role: mark.role });
    else if (mark && (event.key === 'f' || event.key === 'F')) this.#ask({ kind: 'find', role: mark.role });
    else if (!mark && event.key === 'Enter' && this.armed !== null)
      this.#ask({ kind: 'place', place: this.middle, by: 'key' });
    else return false;
    return true;
  }

  #ask(detail: SurfaceEvent): void {
    this.dispatchEvent(new CustomEvent<SurfaceEvent>('surface', { detail }));
  }
}

declare global {
  interface HTMLElementTagNameMap {
    'plumb-marking-surface': MarkingSurface;
  }
}
