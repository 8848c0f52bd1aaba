// @vitest-environment happy-dom
import fc from 'fast-check';
import { html, LitElement, svg } from 'lit';
import { beforeEach, describe, expect, it } from 'vitest';
import {
  DragHandle,
  DragPoint,
  HANDLE_KEYS,
  inRange,
  shiftOfKey,
  valueAfterKey,
  type HandleRange,
  type Point,
} from '../../src/figures';

const dial: HandleRange = { min: 0, max: 360, step: 1, bigStep: 15, wraps: true };
const ruler: HandleRange = { min: 40, max: 160, step: 0.5, bigStep: 10 };

describe('handle range', () => {
  it('holds any value within the ends and on a step', () => {
    fc.assert(
      fc.property(fc.double({ min: -1e4, max: 1e4, noNaN: true }), (value) => {
        const held = inRange(value, ruler);
        expect(held).toBeGreaterThanOrEqual(40);
        expect(held).toBeLessThanOrEqual(160);
        expect((held - 40) / 0.5).toBe(Math.round((held - 40) / 0.5));
        const turned = inRange(value, dial);
        expect(turned).toBeGreaterThanOrEqual(0);
        expect(turned).toBeLessThan(360);
        expect(Math.cos(((turned - Math.round(value)) * Math.PI) / 180)).toBeCloseTo(1, 3);
      }),
    );
  });

  it('writes steps of a tenth without binary tails', () => {
    expect(inRange(0.1 + 0.2, { min: 0, max: 1, step: 0.1, bigStep: 0.5 })).toBe(0.3);
  });
});

describe('handle keys', () => {
  it.each(HANDLE_KEYS)('$key, shift $shift: $by times $sign', ({ key, shift, by, sign }) => {
    expect(valueAfterKey(key, shift, 100, ruler)).toBe(100 + sign * ruler[by]);
  });
  it('Home and End go to the limits', () => {
    expect(valueAfterKey('Home', false, 100, ruler)).toBe(40);
    expect(valueAfterKey('End', false, 100, ruler)).toBe(160);
    expect(valueAfterKey('End', false, 100, dial)).toBe(359);
  });
  it('stops at the ends, and goes round on a dial', () => {
    expect(valueAfterKey('ArrowUp', false, 160, ruler)).toBe(160);
    expect(valueAfterKey('ArrowDown', false, 40, ruler)).toBe(40);
    expect(valueAfterKey('ArrowRight', false, 359, dial)).toBe(0);
    expect(valueAfterKey('ArrowLeft', false, 0, dial)).toBe(359);
  });
  it('leaves other keys to the page', () => {
    expect(valueAfterKey('Tab', false, 100, ruler)).toBeNull();
    expect(valueAfterKey('a', false, 100, ruler)).toBeNull();
  });
});

describe('point keys', () => {
  it.each([
    ['plain', false, false, 1],
    ['alt', false, true, 0.1],
    ['shift', true, false, 10],
    ['shift and alt', true, true, 100],
  ])('arrows move by the step of %s', (_, shift, alt, size) => {
    expect(shiftOfKey('ArrowLeft', shift, alt)).toEqual({ x: -size, y: 0 });
    expect(shiftOfKey('ArrowDown', shift, alt)).toEqual({ x: 0, y: size });
  });
  it('leaves other keys to the page', () => {
    expect(shiftOfKey('Enter', false, false)).toBeNull();
  });
});

class HandleHost extends LitElement {
  value = 100;
  place: Point = { x: 30, y: 40 };
  finished = 0;
  readonly handle = new DragHandle(this, {
    name: () => 'Guess',
    range: () => ruler,
    value: () => this.value,
    spoken: (value) => `${value} millimeters`,
    valueAt: ({ x }) => x,
    moved: (value) => (this.value = value),
    finished: () => (this.finished += 1),
  });
  readonly point = new DragPoint(this, {
    name: () => 'Mark A',
    place: () => this.place,
    box: () => ({ x: 0, y: 0, width: 100, height: 80 }),
    spoken: ({ x, y }) => `${x} right, ${y} down`,
    moved: (place) => (this.place = place),
  });
  override render() {
    return html`<svg>
      ${this.handle.template({ x: this.value, y: 10 }, svg``)}${this.point.template(svg``)}
    </svg>`;
  }
}
customElements.define('handle-host', HandleHost);

describe('handle on the page', () => {
  let host: HandleHost;
  const part = (role: string): SVGElement => {
    const found = host.renderRoot.querySelector<SVGElement>(`[role=${role}]`);
    if (!found) throw new Error(`no ${role}`);
    return found;
  };
  const press = (target: SVGElement, key: string, shiftKey = false): KeyboardEvent => {
    const event = new KeyboardEvent('keydown', { key, shiftKey, cancelable: true, bubbles: true });
    target.dispatchEvent(event);
    return event;
  };
  const pointer = (target: SVGElement, type: string, x: number, init: PointerEventInit = {}): void => {
    target.dispatchEvent(
      new PointerEvent(type, { clientX: x, clientY: 10, pointerId: 7, button: 0, ...init }),
    );
  };

  beforeEach(async () => {
    document.body.replaceChildren();
    host = new HandleHost();
    document.body.append(host);
    await host.updateComplete;
    const surface = host.renderRoot.querySelector('svg');
    // The test document lays nothing out: one user unit is one px here.
    if (surface) Object.assign(surface, { getScreenCTM: () => ({ a: 1, b: 0, c: 0, d: 1, e: 0, f: 0 }) });
    for (const target of host.renderRoot.querySelectorAll('[role]')) {
      Object.assign(target, { setPointerCapture: () => undefined });
    }
  });

  it('says its name, limits, number and unit', async () => {
    const slider = part('slider');
    expect(slider.getAttribute('aria-label')).toBe('Guess');
    expect(slider.getAttribute('aria-valuemin')).toBe('40');
    expect(slider.getAttribute('aria-valuemax')).toBe('160');
    press(slider, 'ArrowRight');
    await host.updateComplete;
    expect(slider.getAttribute('aria-valuenow')).toBe('100.5');
    expect(slider.getAttribute('aria-valuetext')).toBe('100.5 millimeters');
    expect(slider.getAttribute('tabindex')).toBe('0');
  });

  it('takes the keys it handles and no others', () => {
    expect(press(part('slider'), 'PageUp').defaultPrevented).toBe(true);
    expect(host.value).toBe(110);
    expect(press(part('slider'), 'Tab').defaultPrevented).toBe(false);
  });

  it('follows the pointer without jumping to its middle, held at the ends', async () => {
    const slider = part('slider');
    pointer(slider, 'pointerdown', 104);
    pointer(slider, 'pointermove', 110);
    expect(host.value).toBe(106);
    pointer(slider, 'pointermove', 900);
    expect(host.value).toBe(160);
    pointer(slider, 'pointerup', 900);
    expect(host.finished).toBe(1);
    pointer(slider, 'pointermove', 60);
    expect(host.value).toBe(160);
  });

  it('keeps to one pointer and the main button', () => {
    const slider = part('slider');
    pointer(slider, 'pointerdown', 100, { button: 2 });
    pointer(slider, 'pointermove', 120);
    expect(host.value).toBe(100);
    pointer(slider, 'pointerdown', 100);
    pointer(slider, 'pointermove', 130, { pointerId: 8 });
    expect(host.value).toBe(100);
  });

  it('lets go when the browser takes the pointer away', () => {
    const slider = part('slider');
    pointer(slider, 'pointerdown', 100);
    pointer(slider, 'pointercancel', 100);
    expect(host.handle.dragging).toBe(false);
    pointer(slider, 'pointermove', 150);
    expect(host.value).toBe(100);
  });

  it('goes back to where a drag began on Escape', () => {
    const slider = part('slider');
    pointer(slider, 'pointerdown', 100);
    pointer(slider, 'pointermove', 140);
    press(slider, 'Escape');
    expect(host.value).toBe(100);
  });

  it('moves a point by keys and pointer through one path, inside its box, to tenths', async () => {
    const mark = part('button');
    press(mark, 'ArrowUp', true);
    expect(host.place).toEqual({ x: 30, y: 30 });
    pointer(mark, 'pointerdown', 30);
    pointer(mark, 'pointermove', 47.26);
    expect(host.place).toEqual({ x: 47.3, y: 30 });
    pointer(mark, 'pointermove', 4000);
    expect(host.place.x).toBe(100);
    await host.updateComplete;
    expect(mark.getAttribute('aria-label')).toBe('Mark A, 100 right, 30 down');
  });
});
