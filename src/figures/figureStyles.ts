import { css } from 'lit';

/**
 * Styles of every figure in this layer, for an element's static styles. Colors come from the page's tokens;
 * stroke widths are those of the drawing's line types. --figure-ground is what casings and gaps are filled
 * with: the pad, or the paper where a figure stands outside a panel (class on-paper).
 */
export const figureStyles = css`
  .figure {
    --figure-ground: var(--pad);
    display: block;
    width: 100%;
    height: auto;
    overflow: visible;
    font-family: var(--sans, 'Atkinson Hyperlegible Next', system-ui, sans-serif);
    font-variant-numeric: tabular-nums;
    font-feature-settings: 'tnum';
    -webkit-text-size-adjust: none;
    text-size-adjust: none;
    print-color-adjust: exact;
  }
  .figure.on-paper {
    --figure-ground: var(--paper);
  }

  /* Text */
  .figure text {
    fill: var(--ink);
    font-size: 15px;
    stroke: none;
  }
  .figure .label-quiet {
    fill: var(--ink-2);
    font-size: 14px;
  }
  .figure .label-strong {
    font-weight: 680;
  }
  .figure .label-given {
    fill: var(--blue);
    font-weight: 680;
  }
  .figure .label-warning {
    fill: var(--red);
    font-weight: 680;
  }
  .figure .label-size {
    font-weight: 650;
  }
  .figure .label-angle {
    font-weight: 700;
  }
  .figure .label-answer {
    font-size: 21px;
    font-weight: 750;
  }
  .figure .cased {
    paint-order: stroke;
    stroke: var(--figure-ground);
    stroke-width: 4.5px;
    stroke-linejoin: round;
  }
  .figure .start {
    text-anchor: start;
  }
  .figure .middle {
    text-anchor: middle;
  }
  .figure .end {
    text-anchor: end;
  }

  /* Line types */
  .line {
    fill: none;
    stroke: var(--ink);
    stroke-width: 1.3px;
    stroke-linecap: butt;
  }
  .line-thick {
    stroke-width: 2px;
  }
  .line-governing {
    stroke-width: 4px;
  }
  .line-dimension {
    stroke-width: 0.9px;
  }
  .line-extension {
    stroke-width: 0.7px;
  }
  .line-chain {
    stroke-dasharray: 16 4 2.5 4;
  }
  .line-former {
    stroke-dasharray: 16 4 2.5 4 2.5 4;
  }
  .line-hidden {
    stroke-dasharray: 6 4;
  }
  .line-given {
    stroke: var(--blue);
  }
  .line-string {
    stroke: var(--blue);
    stroke-width: 1.8px;
  }
  .line-unsure {
    stroke: var(--teal);
    stroke-dasharray: 4 3;
    stroke-width: 1.1px;
  }
  .line-warning {
    stroke: var(--red);
  }
  .line-quiet {
    stroke: var(--rule);
    stroke-width: 1px;
  }
  .casing {
    fill: none;
    stroke: var(--figure-ground);
    stroke-width: 4.6px;
    stroke-linecap: butt;
  }
  .casing-wide {
    stroke-width: 7px;
  }
  .arrowhead {
    fill: var(--ink);
    stroke: none;
  }
  .arrowhead-given {
    fill: var(--blue);
  }

  /* Grid and ground */
  .grid {
    fill: none;
    stroke: var(--grid);
    stroke-width: 1px;
  }
  .grid-fifth {
    fill: none;
    stroke: var(--grid-5);
    stroke-width: 1px;
  }
  .pad {
    fill: var(--figure-ground);
    stroke: none;
  }
  .ground {
    fill: none;
    stroke: var(--ink);
    stroke-width: 2px;
  }
  .ground-strokes {
    fill: none;
    stroke: var(--rule);
    stroke-width: 1px;
  }

  /* Center of gravity */
  .cg-casing {
    fill: var(--figure-ground);
    stroke: none;
  }
  .cg-ring {
    fill: var(--figure-ground);
    stroke: var(--ink);
    stroke-width: 1.6px;
  }
  .cg-quarters {
    fill: var(--ink);
    stroke: none;
  }
  .cg-former {
    fill: var(--figure-ground);
    stroke: var(--ink-2);
    stroke-width: 1.6px;
  }

  /* Not sure: hatching only */
  .unsure-wash {
    fill: var(--teal-w);
    stroke: none;
  }
  .unsure-hatch {
    fill: none;
    stroke: var(--teal);
    stroke-width: 0.9px;
  }
  .unsure-edge {
    fill: none;
    stroke: var(--teal);
    stroke-width: 1.6px;
  }

  /* Marks */
  .mark {
    fill: none;
    stroke: var(--blue);
    stroke-width: 1.6px;
  }
  .mark-aside {
    stroke: var(--red);
  }
  .hook {
    fill: var(--figure-ground);
    stroke: var(--blue);
    stroke-width: 1.6px;
  }
  .pivot {
    fill: var(--figure-ground);
    stroke: var(--ink);
    stroke-width: 2.4px;
  }
  .detail-rim {
    fill: var(--paper);
    stroke: var(--ink);
    stroke-width: 1.8px;
  }
  .detail-place {
    fill: none;
    stroke: var(--ink);
    stroke-width: 1px;
  }
  .contact {
    fill: var(--ink);
    fill-opacity: 0.82;
    stroke: none;
  }

  .dial-face {
    fill: var(--paper);
    stroke: none;
  }
  .polar-inside {
    fill: var(--grid);
    fill-opacity: 0.38;
    stroke: none;
  }
  .polar-edge {
    stroke-width: 2.4px;
    stroke-linejoin: round;
  }
  .flag {
    fill: var(--paper);
    stroke: var(--blue);
    stroke-width: 1.8px;
    stroke-linejoin: round;
  }
  .contribution {
    display: inline-block;
    vertical-align: middle;
  }

  /* Drag handles: blue, 44 px to touch, a ring when focused */
  .handle {
    cursor: grab;
    touch-action: none;
    outline: none;
  }
  .handle:active {
    cursor: grabbing;
  }
  .handle-reach {
    fill: transparent;
    stroke: none;
  }
  .handle-knob {
    fill: var(--blue);
    stroke: none;
  }
  .handle-sign {
    fill: none;
    stroke: var(--paper);
    stroke-width: 2.2px;
    stroke-linecap: round;
    stroke-linejoin: round;
  }
  .handle-focus {
    fill: none;
    stroke: none;
    stroke-width: 3px;
  }
  .handle:focus-visible .handle-focus {
    stroke: var(--blue);
  }

  /* The truck: quiet fills, one ink */
  .truck-faded {
    opacity: 0.6;
  }
  .t-none {
    fill: none;
  }
  .t-tire {
    fill: var(--k-tire);
  }
  .t-lug {
    fill: var(--k-lug);
  }
  .t-lug2 {
    fill: var(--k-lug2);
  }
  .t-side {
    fill: var(--k-side);
  }
  .t-ring {
    fill: var(--k-ring);
  }
  .t-rim {
    fill: var(--k-rim);
  }
  .t-rimdark {
    fill: var(--k-rimd);
  }
  .t-bolt {
    fill: var(--k-bolt);
  }
  .t-dark {
    fill: var(--k-dark);
  }
  .t-metal {
    fill: var(--k-metal);
  }
  .t-body {
    fill: var(--k-body);
  }
  .t-body2 {
    fill: var(--k-body2);
  }
  .t-body3 {
    fill: var(--k-body3);
  }
  .t-flare {
    fill: var(--k-flare);
  }
  .t-glass {
    fill: var(--k-glass);
  }
  .t-well {
    fill: var(--k-well);
  }
  .t-lens {
    fill: var(--k-lens);
  }
  .t-lamp {
    fill: var(--k-lamp);
  }
  .t-lamp2 {
    fill: var(--k-lamp2);
  }
  .t-box {
    fill: var(--k-box);
  }
  .t-rail {
    fill: var(--k-rail);
  }
  .t-bed {
    fill: var(--k-bed);
  }
  .t-shade {
    fill: var(--k-ring);
  }
  .o-thick,
  .o-mid,
  .o-thin,
  .o-hair {
    stroke: var(--k-line);
    stroke-linecap: round;
    stroke-linejoin: round;
    vector-effect: non-scaling-stroke;
  }
  .o-thick {
    stroke-width: 1.7px;
  }
  .o-mid {
    stroke-width: 1.15px;
  }
  .o-thin {
    stroke-width: 0.8px;
  }
  .o-hair {
    stroke: var(--k-line2);
    stroke-width: 0.5px;
  }
  .truck-small .o-thick {
    stroke-width: 1.1px;
  }
  .truck-small .o-mid {
    stroke-width: 0.7px;
  }
  .truck-small .o-thin {
    stroke-width: 0.45px;
  }
  .truck-small .o-hair {
    stroke-width: 0.2px;
  }
  .t-tube-edge,
  .t-tube-middle,
  .t-tube-light {
    fill: none;
    stroke-linecap: round;
    stroke-linejoin: round;
  }
  .t-tube-edge {
    stroke: var(--k-line);
  }
  .t-tube-middle {
    stroke: var(--k-ring);
  }
  .t-tube-light {
    stroke: var(--k-tubehi);
    opacity: 0.85;
  }
  .t-coil-edge {
    stroke: var(--k-line);
    stroke-linecap: round;
    stroke-width: 3.4px;
  }
  .t-coil-middle {
    stroke: var(--k-metal);
    stroke-linecap: round;
    stroke-width: 2px;
  }
  .t-inside {
    opacity: 0.5;
  }
  .t-stroke {
    opacity: 0.8;
  }

  /* On paper a scale bar stands for the grid. */
  .print-only {
    display: none;
  }
  @media print {
    .grid,
    .grid-fifth,
    .screen-only {
      display: none;
    }
    .polar-rings .grid-fifth {
      display: inline;
    }
    .print-only {
      display: inline;
    }
  }

  /* Lines and hatching carry the figure; the reader's own colors draw them. */
  @media (forced-colors: active) {
    .figure,
    .contribution {
      --figure-ground: Canvas;
      --paper: Canvas;
      --pad: Canvas;
      --grid: GrayText;
      --grid-5: GrayText;
      --ink: CanvasText;
      --ink-2: CanvasText;
      --rule: GrayText;
      --blue: LinkText;
      --red: CanvasText;
      --teal: CanvasText;
      --teal-w: Canvas;
      --k-line: CanvasText;
      --k-line2: GrayText;
    }
    .polar-inside {
      fill: none;
    }
    .truck [class*='t-']:not(.t-none):not([class*='t-coil']):not([class*='t-tube']) {
      fill: Canvas;
    }
    .t-tube-middle,
    .t-tube-light,
    .t-coil-middle {
      stroke: Canvas;
    }
  }
`;
