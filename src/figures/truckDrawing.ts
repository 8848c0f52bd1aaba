import { svg, type SVGTemplateResult } from 'lit';
import { unsafeSVG } from 'lit/directives/unsafe-svg.js';
import { lengthIn, millimeters, type Length } from '../physics';
import { REAR_BODY, REAR_LOAD, REAR_RUNNING_GEAR } from './truck/rear';
import { SIDE_BODY, SIDE_LOAD, SIDE_RUNNING_GEAR } from './truck/side';
import { TOP_AXLE, TOP_BODY, TOP_LOAD } from './truck/top';
import { DRAWN_HUB_HEIGHT, DRAWN_TIRE_WIDTH, endTire, sideWheel, topTire } from './truck/wheel';

/**
 * The truck in three views, at the reader's own sizes. Each function gives a group in truck millimeters, up
 * (seen from above: left) positive; put it on the page with the placement of a View:
 *
 *     svg`<g transform=${placement(view)}>${truckFromTheSide(sizes)}</g>`
 *
 * Hubs, tires and contacts stand exactly where the sizes say. The body between them is stretched evenly to the
 * wheelbase and carried at hub height, so it is a likeness, never a measurement.
 *
 * The drawing itself is fixed text made in this folder, parsed once; a change of sizes only moves it.
 */

/** What the drawing must know of a truck. Tire radius is hub height above ground, under load. */
export interface TruckSizes {
  readonly wheelbase: Length;
  readonly frontTrack: Length;
  readonly rearTrack: Length;
  readonly frontTireRadius: Length;
  readonly rearTireRadius: Length;
  readonly tireWidth: Length;
}

export interface TruckLook {
  /** Fades to 60 %, where lines drawn over the truck matter more. */
  readonly faded?: boolean;
  /** Thinner lines for a small picture. */
  readonly small?: boolean;
  /** Box and blanket on the roof; true if not said. */
  readonly load?: boolean;
}

const DRAWN_WHEELBASE = 313;
const DRAWN_TRACK = 186;
/** Length of the axle tube in truck/top.ts; it is stretched to end inside the tires. */
const DRAWN_AXLE = 144;

/** The sizes the truck was drawn at; also what a figure shows before the reader has given theirs. */
export const DRAWN_SIZES: TruckSizes = {
  wheelbase: millimeters(DRAWN_WHEELBASE),
  frontTrack: millimeters(DRAWN_TRACK),
  rearTrack: millimeters(DRAWN_TRACK),
  frontTireRadius: millimeters(DRAWN_HUB_HEIGHT),
  rearTireRadius: millimeters(DRAWN_HUB_HEIGHT),
  tireWidth: millimeters(DRAWN_TIRE_WIDTH),
};

/** Extent of the drawing beyond the hubs, shares of the wheelbase: how much room a figure must leave. */
export const OVERHANG = { front: 97 / DRAWN_WHEELBASE, rear: 112 / DRAWN_WHEELBASE } as const;

/**
 * The reader's sizes where they are known and can be drawn, the drawn ones elsewhere: a size that is missing,
 * not finite or not above zero is replaced, so a half-filled sheet still has a picture.
 */
export function drawableSizes(known: Partial<TruckSizes>): TruckSizes {
  const size = (value: Length | undefined, fallback: Length): Length =>
    value !== undefined && Number.isFinite(value) && value > 0 ? value : fallback;
  const wheelbase = size(known.wheelbase, DRAWN_SIZES.wheelbase);
  const share = wheelbase / DRAWN_SIZES.wheelbase;
  const scaled = (drawn: Length): Length => millimeters(lengthIn(drawn, 'mm') * share);
  const rearTrack = size(known.rearTrack ?? known.frontTrack, scaled(DRAWN_SIZES.rearTrack));
  const rearTireRadius = size(
    known.rearTireRadius ?? known.frontTireRadius,
    scaled(DRAWN_SIZES.rearTireRadius),
  );
  return {
    wheelbase,
    rearTrack,
    frontTrack: size(known.frontTrack, rearTrack),
    rearTireRadius,
    frontTireRadius: size(known.frontTireRadius, rearTireRadius),
    tireWidth: size(known.tireWidth, scaled(DRAWN_SIZES.tireWidth)),
  };
}

/** Height of the drawing above ground with its load, to leave room for it. */
export const drawnHeight = (sizes: TruckSizes): Length => {
  const body = bodyScale(sizes);
  const hub = lengthIn(sizes.rearTireRadius, 'mm');
  return millimeters(hub + body * (272 - DRAWN_HUB_HEIGHT));
};

/** SVG transforms of the parts of the side view, from drawn to truck millimeters. */
export function sideParts(sizes: TruckSizes) {
  const { wheelbase, rear, front } = inMillimeters(sizes);
  const stretch = bodyScale(sizes);
  const wheel = (radius: number, ahead: number): string =>
    matrix(radius / DRAWN_HUB_HEIGHT, 0, 0, radius / DRAWN_HUB_HEIGHT, ahead, radius);
  return {
    // Even stretch, hub line to hub line. Unequal tires tilt the body by a shear, which keeps uprights upright.
    body: matrix(stretch, (front - rear) / DRAWN_WHEELBASE, 0, stretch, 0, rear - stretch * DRAWN_HUB_HEIGHT),
    rearWheel: wheel(rear, 0),
    frontWheel: wheel(front, wheelbase),
  };
}

/** Seen from the right: x ahead of the rear axle, z above ground. */
export function truckFromTheSide(sizes: TruckSizes, look: TruckLook = {}): SVGTemplateResult {
  const { body, rearWheel, frontWheel } = sideParts(sizes);
  return group(
    look,
    svg`<g transform=${body}>${unsafeSVG(SIDE_RUNNING_GEAR)}</g>
      <g transform=${rearWheel}>${unsafeSVG(REAR_WHEEL)}</g>
      <g transform=${frontWheel}>${unsafeSVG(FRONT_WHEEL)}</g>
      <g transform=${body}>${unsafeSVG(look.load === false ? SIDE_BODY : SIDE_BODY_LOADED)}</g>`,
  );
}

/** SVG transforms of the parts of the view from behind. */
export function rearParts(sizes: TruckSizes) {
  const { rear, rearTrack, tireWidth } = inMillimeters(sizes);
  const stretch = bodyScale(sizes);
  const tire = (side: 1 | -1): string =>
    matrix((side * tireWidth) / DRAWN_TIRE_WIDTH, 0, 0, rear / DRAWN_HUB_HEIGHT, (side * rearTrack) / 2, 0);
  return {
    body: matrix(rearTrack / DRAWN_TRACK, 0, 0, stretch, 0, rear - stretch * DRAWN_HUB_HEIGHT),
    leftTire: tire(-1),
    rightTire: tire(1),
  };
}

/** Seen from behind: x to the right of the center plane, z above ground. */
export function truckFromBehind(sizes: TruckSizes, look: TruckLook = {}): SVGTemplateResult {
  const { rear, rearTrack } = inMillimeters(sizes);
  const { body, leftTire, rightTire } = rearParts(sizes);
  const tube = 9 * bodyScale(sizes);
  return group(
    look,
    svg`<rect class="t-metal o-mid" x=${-rearTrack / 2} y=${rear - tube / 2} width=${rearTrack} height=${tube}></rect>
      <g transform=${body}>${unsafeSVG(REAR_RUNNING_GEAR)}</g>
      <g transform=${leftTire}>${unsafeSVG(END_TIRE)}</g>
      <g transform=${rightTire}>${unsafeSVG(END_TIRE)}</g>
      <g transform=${body}>${unsafeSVG(look.load === false ? REAR_BODY : REAR_BODY_LOADED)}</g>`,
  );
}

/** SVG transforms of the parts of the view from above. */
export function topParts(sizes: TruckSizes) {
  const { wheelbase, rear, front, rearTrack, frontTrack, tireWidth } = inMillimeters(sizes);
  const stretch = bodyScale(sizes);
  const axle = (track: number, ahead: number): string => matrix(stretch, 0, 0, track / DRAWN_AXLE, ahead, 0);
  const tire = (side: 1 | -1, track: number, radius: number, ahead: number): string =>
    matrix(radius / DRAWN_HUB_HEIGHT, 0, 0, (side * tireWidth) / DRAWN_TIRE_WIDTH, ahead, (side * track) / 2);
  return {
    body: matrix(stretch, 0, 0, (rearTrack + frontTrack) / (2 * DRAWN_TRACK), 0, 0),
    axles: [axle(rearTrack, 0), axle(frontTrack, wheelbase)],
    /** Rear left, rear right, front left, front right. */
    tires: [
      tire(1, rearTrack, rear, 0),
      tire(-1, rearTrack, rear, 0),
      tire(1, frontTrack, front, wheelbase),
      tire(-1, frontTrack, front, wheelbase),
    ],
  };
}

/** Seen from above: x ahead of the rear axle, y left of the center plane. */
export function truckFromAbove(sizes: TruckSizes, look: TruckLook = {}): SVGTemplateResult {
  const { body, axles, tires } = topParts(sizes);
  return group(
    look,
    svg`${axles.map((axle) => svg`<g transform=${axle}>${unsafeSVG(TOP_AXLE)}</g>`)}
      ${tires.map((tire) => svg`<g transform=${tire}>${unsafeSVG(TOP_TIRE)}</g>`)}
      <g transform=${body}>${unsafeSVG(look.load === false ? TOP_BODY : TOP_BODY_LOADED)}</g>`,
  );
}

// One string each, so that unsafeSVG sees the same text at every render and parses it once.
const SIDE_BODY_LOADED = SIDE_BODY + SIDE_LOAD;
const REAR_BODY_LOADED = REAR_BODY + REAR_LOAD;
const TOP_BODY_LOADED = TOP_BODY + TOP_LOAD;
const REAR_WHEEL = sideWheel(0);
const FRONT_WHEEL = sideWheel(0.37);
const END_TIRE = endTire();
const TOP_TIRE = topTire();

const bodyScale = (sizes: TruckSizes): number => lengthIn(sizes.wheelbase, 'mm') / DRAWN_WHEELBASE;

const inMillimeters = (sizes: TruckSizes) => ({
  wheelbase: lengthIn(sizes.wheelbase, 'mm'),
  rear: lengthIn(sizes.rearTireRadius, 'mm'),
  front: lengthIn(sizes.frontTireRadius, 'mm'),
  rearTrack: lengthIn(sizes.rearTrack, 'mm'),
  frontTrack: lengthIn(sizes.frontTrack, 'mm'),
  tireWidth: lengthIn(sizes.tireWidth, 'mm'),
});

const matrix = (...numbers: [number, number, number, number, number, number]): string =>
  `matrix(${numbers.map((n) => String(Number(n.toFixed(5)))).join(' ')})`;

const group = (look: TruckLook, content: SVGTemplateResult): SVGTemplateResult =>
  svg`<g class="truck ${look.faded ? 'truck-faded' : ''} ${look.small ? 'truck-small' : ''}" aria-hidden="true">${content}</g>`;
