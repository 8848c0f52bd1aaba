import type { LitElement } from 'lit';
import { FigureWidth } from '../../figures';
import { stageFactor } from './projector';

/** Width of the figure drawn in the element's box `selector`, its text enlarged on a projected page. */
export const figureBox = (host: LitElement, initial: number, selector = '.figure-box'): FigureWidth =>
  new FigureWidth(host, {
    initial,
    target: () => host.renderRoot.querySelector(selector),
    enlarged: stageFactor,
  });
