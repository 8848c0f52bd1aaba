import { css } from 'lit';

export const markingSurfaceStyles = css`
  :host {
    display: block;
    position: relative;
  }
  .surface {
    position: relative;
    width: 100%;
    /* The whole picture and the words under it stand on a laptop's screen between the frame's fields. */
    max-height: max(20rem, 100vh - 15rem);
    overflow: hidden;
    background: var(--pad);
    border: 1px solid var(--pad-edge);
    user-select: none;
    -webkit-user-select: none;
    -webkit-touch-callout: none;
    /* A finger that moves up or down scrolls the page, until the picture is enlarged. */
    touch-action: pan-y;
  }
  .surface.enlarged {
    touch-action: none;
    cursor: grab;
  }
  .surface.armed {
    cursor: crosshair;
  }
  .surface.panning {
    cursor: grabbing;
  }
  canvas {
    position: absolute;
    inset: 0;
    width: 100%;
    height: 100%;
    pointer-events: none;
  }
  .overlay {
    position: absolute;
    inset: 0;
    width: 100%;
    height: 100%;
    max-width: none;
    overflow: hidden;
    outline: none;
    --figure-ground: var(--paper);
    /* A layer of its own, so that a moving mark does not paint the page again. */
    will-change: transform;
  }
  .overlay:focus-visible {
    outline: 3px solid var(--blue);
    outline-offset: -4px;
  }
  .scene {
    pointer-events: none;
  }
  .sight {
    outline: none;
    cursor: grab;
    touch-action: none;
  }
  .sight:active {
    cursor: grabbing;
  }
  .sight.carried {
    pointer-events: none;
  }
  .sight .reach {
    fill: transparent;
    stroke: none;
  }
  /* With a point in hand the ground beside a mark is free to place it on (REACH in markingSurface.ts). */
  .surface.armed .sight .reach {
    r: 8px;
  }
  .sight .halo {
    fill: none;
    stroke: var(--paper);
    stroke-width: 4.6px;
  }
  .sight .ring {
    fill: none;
    stroke: var(--blue);
    stroke-width: 1.6px;
  }
  .sight.other .ring {
    stroke-width: 1.3px;
  }
  .sight.aside .ring,
  .sight.look-again .ring {
    stroke: var(--red);
  }
  .sight.offered .ring {
    stroke-dasharray: 3.2 2.6;
  }
  .sight.offered text {
    font-weight: 500;
    font-style: italic;
  }
  .sight text {
    fill: var(--blue);
    font-size: 15px;
    font-weight: 680;
    paint-order: stroke;
    stroke: var(--paper);
    stroke-width: 4px;
    stroke-linejoin: round;
  }
  .sight.quiet-label text {
    font-size: 13px;
    font-weight: 550;
  }
  /* Only body marks are lettered all the time: words at every point would hide the picture. */
  .sight.quiet-label:not(.selected, :hover, :focus-visible) text {
    display: none;
  }
  .sight.aside text,
  .sight.look-again text {
    fill: var(--red);
  }
  .sight.selected .ring {
    stroke-width: 2.4px;
  }
  .sight .focus {
    fill: none;
    stroke: none;
    stroke-width: 3px;
  }
  .sight:focus-visible .focus {
    stroke: var(--blue);
  }
  .sight:focus-visible .focus-halo {
    stroke: var(--paper);
  }
  .sight .focus-halo {
    fill: none;
    stroke: none;
    stroke-width: 7px;
  }
  .tools {
    display: flex;
    align-items: stretch;
    width: fit-content;
    margin-block-start: 0.5rem;
    margin-inline-start: auto;
    border: 1.3px solid var(--ink);
    border-radius: 3px;
    background: var(--paper);
  }
  .under {
    display: flex;
    gap: 1rem;
    align-items: flex-start;
    justify-content: space-between;
  }
  .under .tools {
    flex: none;
  }
  .tools button {
    min-width: 44px;
    min-height: 44px;
    padding: 0 6px;
    border: 0;
    background: none;
    font-weight: 640;
    font-size: 15px;
    color: var(--ink);
  }
  .tools button + button {
    border-inline-start: 1px solid var(--hair);
  }
  .tools button:disabled {
    color: var(--ink-2);
  }
  .tools svg {
    width: 18px;
    height: 18px;
    fill: none;
    stroke: currentcolor;
    stroke-width: 1.8;
    vertical-align: middle;
  }
  plumb-loupe {
    position: absolute;
    pointer-events: none;
  }
  .waiting {
    position: absolute;
    inset: 0;
    display: grid;
    place-content: center;
    padding: 1rem;
    text-align: center;
    color: var(--ink-2);
    font-size: 0.9375rem;
  }
  /* Projected: words the back of a hall can read, and the whole picture in the window. */
  :host([staged]) .surface {
    max-height: calc(100dvh - 8rem);
  }
  :host([staged]) .overlay text[class],
  :host([staged]) .sight text {
    font-size: 0.8125rem;
  }
  :host([staged]) .under {
    display: none;
  }
  @media (forced-colors: active) {
    .sight .ring {
      stroke: LinkText;
    }
    .sight .halo,
    .sight text {
      stroke: Canvas;
    }
    .sight text {
      fill: LinkText;
    }
    .sight:focus-visible .focus {
      stroke: Highlight;
    }
  }
  @media print {
    .tools,
    plumb-loupe {
      display: none;
    }
  }
`;
