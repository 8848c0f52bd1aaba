import { css, html, LitElement, svg } from 'lit';
import { customElement, property } from 'lit/decorators.js';
import type { Place, Size } from './surfaceView';

/** From four screen pixels for one of the picture on, the picture's own pixels are shown as squares. */
const SQUARES_FROM = 4;

/**
 * A circle that shows the picture around a place enlarged, with a sight at its middle. Decoration for the eye: the
 * place itself is told in words beside it, so it is hidden from assistive technology.
 */
@customElement('plumb-loupe')
export class Loupe extends LitElement {
  /** The decoded picture; null shows the empty circle. */
  @property({ attribute: false }) source: ImageBitmap | null = null;
  /** Size of the picture that places refer to; the bitmap may be smaller. */
  @property({ attribute: false }) picture: Size | null = null;
  /** Picture pixels; null shows the empty circle. */
  @property({ attribute: false }) place: Place | null = null;
  /** Screen pixels for one of the picture. */
  @property({ type: Number }) scale = 3;
  /** Screen pixels across. */
  @property({ type: Number }) diameter = 160;

  static override styles = css`
    :host {
      display: block;
    }
    canvas,
    svg {
      position: absolute;
      inset: 0;
      border-radius: 50%;
    }
    .glass {
      position: relative;
      overflow: hidden;
      border-radius: 50%;
      background: var(--pad);
    }
    .rim {
      fill: none;
      stroke: var(--ink);
      stroke-width: 2px;
    }
    .casing {
      fill: none;
      stroke: #fff;
      stroke-opacity: 0.75;
      stroke-width: 3.4px;
    }
    .sight {
      fill: none;
      stroke: #1a579c;
      stroke-width: 1.4px;
    }
    .point {
      fill: #1a579c;
    }
    @media (forced-colors: active) {
      .glass {
        forced-color-adjust: none;
      }
    }
  `;

  override render() {
    const size = this.diameter;
    const half = size / 2;
    const sight = `M0 ${half}H${half - 5}M${half + 5} ${half}H${size}M${half} 0V${half - 5}M${half} ${half + 5}V${size}`;
    return html`<div class="glass" aria-hidden="true">
      <canvas></canvas>
      <svg width=${size} height=${size} viewBox="0 0 ${size} ${size}">
        ${
          this.place
            ? svg`<path class="casing" d=${sight}></path><path class="sight" d=${sight}></path>
              <circle class="point" cx=${half} cy=${half} r="1.4"></circle>`
            : ''
        }
        <circle class="rim" cx=${half} cy=${half} r=${half - 1}></circle>
      </svg>
    </div>`;
  }

  override updated(): void {
    const glass = this.renderRoot.querySelector<HTMLElement>('.glass');
    const canvas = this.renderRoot.querySelector('canvas');
    if (!glass || !canvas) return;
    // Set from here, since the page's content security policy allows no style attribute in markup.
    glass.style.setProperty('width', `${this.diameter}px`);
    glass.style.setProperty('height', `${this.diameter}px`);
    const dense = devicePixelRatio || 1;
    const pixels = Math.round(this.diameter * dense);
    if (canvas.width !== pixels) {
      canvas.width = pixels;
      canvas.height = pixels;
      canvas.style.setProperty('width', `${this.diameter}px`);
      canvas.style.setProperty('height', `${this.diameter}px`);
    }
    const pen = canvas.getContext('2d');
    if (!pen) return;
    pen.setTransform(1, 0, 0, 1, 0, 0);
    pen.clearRect(0, 0, pixels, pixels);
    const { source, picture, place } = this;
    if (!source || !picture || !place) return;
    const finer = source.width / picture.width;
    const scale = (this.scale * dense) / finer;
    pen.imageSmoothingEnabled = this.scale < SQUARES_FROM;
    pen.setTransform(
      scale,
      0,
      0,
      scale,
      pixels / 2 - place.x * finer * scale,
      pixels / 2 - place.y * finer * scale,
    );
    pen.drawImage(source, 0, 0);
  }
}

declare global {
  interface HTMLElementTagNameMap {
    'plumb-loupe': Loupe;
  }
}
