/**
 * Plane geometry that the figures share.
 *
 * Two kinds of coordinates occur in this layer. Figures take physical sizes as SI quantities of the physics
 * module; signs and lines take places on the page in CSS pixels, x right and y down (Point). viewTransform.ts
 * is the only way from one to the other. Angles on the page are counter-clockwise from "to the right", as a
 * reader sees them, although y grows downward.
 */

/** A place on the page, px: x right, y down. */
export interface Point {
  readonly x: number;
  readonly y: number;
}

export const point = (x: number, y: number): Point => ({ x, y });

export const distance = (a: Point, b: Point): number => Math.hypot(b.x - a.x, b.y - a.y);

/** The place `share` of the way from a to b; 0 is a, 1 is b, other values lie on the line's extension. */
export const between = (a: Point, b: Point, share: number): Point =>
  point(a.x + (b.x - a.x) * share, a.y + (b.y - a.y) * share);

/** The place `length` px from `from` in the page direction `angle` (rad, counter-clockwise from right). */
export const polar = (from: Point, length: number, angle: number): Point =>
  point(from.x + length * Math.cos(angle), from.y - length * Math.sin(angle));

/** Page direction from a to b, rad, counter-clockwise from right, in (-pi, pi]. */
export const direction = (a: Point, b: Point): number => Math.atan2(a.y - b.y, b.x - a.x);

/** b, moved on beyond itself by `length` px along the line from a. Two equal points have no line: b itself. */
export const beyond = (a: Point, b: Point, length: number): Point => {
  const span = distance(a, b);
  return span === 0 ? b : between(a, b, 1 + length / span);
};

/** Number for an SVG attribute: two decimals are finer than any screen, and -0 is written 0. */
export const coordinate = (value: number): string => String(Math.round(value * 100) / 100 + 0);

/** SVG path through the points, closed if asked. No points give an empty path. */
export const pathThrough = (points: readonly Point[], closed = false): string =>
  points.length === 0
    ? ''
    : 'M' + points.map((p) => `${coordinate(p.x)} ${coordinate(p.y)}`).join('L') + (closed ? 'Z' : '');

/**
 * The part of the straight line through `through` in page direction `angle` that lies inside a circle, as its
 * two ends in the sense of the direction; null where the line misses the circle.
 */
export function chord(center: Point, radius: number, through: Point, angle: number): [Point, Point] | null {
  const ux = Math.cos(angle);
  const uy = -Math.sin(angle);
  const along = (center.x - through.x) * ux + (center.y - through.y) * uy;
  const foot = point(through.x + along * ux, through.y + along * uy);
  const off = distance(center, foot);
  if (off >= radius) return null;
  const half = Math.sqrt(radius * radius - off * off);
  return [point(foot.x - half * ux, foot.y - half * uy), point(foot.x + half * ux, foot.y + half * uy)];
}

/** Points of an ellipse, for hatching and hit tests. `angle` turns the major axis, rad, counter-clockwise. */
export function ellipsePoints(
  center: Point,
  semiMajor: number,
  semiMinor: number,
  angle: number,
  count = 72,
): Point[] {
  const cos = Math.cos(angle);
  const sin = Math.sin(angle);
  return Array.from({ length: count }, (_, i) => {
    const turn = (2 * Math.PI * i) / count;
    const u = semiMajor * Math.cos(turn);
    const v = semiMinor * Math.sin(turn);
    return point(center.x + u * cos - v * sin, center.y - u * sin - v * cos);
  });
}

/** Degrees of an angle in radians. */
export const inDegrees = (radians: number): number => (radians * 180) / Math.PI;

/** `value` held between `low` and `high`. */
export const clamp = (value: number, low: number, high: number): number =>
  Math.min(high, Math.max(low, value));
