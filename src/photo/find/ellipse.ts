import type { PixelPoint } from '../camera';

/**
 * An ellipse as the picture of the unit circle: center + M (cos t, sin t), M symmetric and positive. Five numbers, none of
 * them special where the ellipse is a circle.
 */
export interface Ellipse {
  readonly x: number;
  readonly y: number;
  /** M by rows: (a, b), (b, d); px. */
  readonly a: number;
  readonly b: number;
  readonly d: number;
}

export const circle = (center: PixelPoint, radius: number): Ellipse => ({
  x: center.x,
  y: center.y,
  a: radius,
  b: 0,
  d: radius,
});

/** Half the long and half the short axis, px. */
export function halfAxes({ a, b, d }: Ellipse): readonly [number, number] {
  const mean = (a + d) / 2;
  const half = Math.hypot((a - d) / 2, b);
  return [mean + half, mean - half];
}

/** How a point lies to an ellipse. */
export interface Lie {
  /** Distance from its center, as a part of the way to its border: 1 on the border. */
  readonly part: number;
  /** Distance from the border along its normal, px, positive outside; to first order. */
  readonly outside: number;
  /** Parameter t of the point of the border, rad. */
  readonly turn: number;
}

export function lieOf({ x, y, a, b, d }: Ellipse, px: number, py: number): Lie {
  const det = a * d - b * b;
  const rx = px - x;
  const ry = py - y;
  const wx = (d * rx - b * ry) / det;
  const wy = (a * ry - b * rx) / det;
  const part = Math.hypot(wx, wy);
  if (part < 1e-9) return { part: 0, outside: -Math.sqrt(Math.abs(det)), turn: 0 };
  const slope = Math.hypot(d * wx - b * wy, a * wy - b * wx) / (det * part);
  return { part, outside: (part - 1) / slope, turn: Math.atan2(wy, wx) };
}

/** Point of the border at parameter t and its outward unit normal. */
export function borderAt({ x, y, a, b, d }: Ellipse, turn: number) {
  const c = Math.cos(turn);
  const s = Math.sin(turn);
  const nx = d * c - b * s;
  const ny = a * s - b * c;
  const norm = Math.hypot(nx, ny);
  return { x: x + a * c + b * s, y: y + b * c + d * s, nx: nx / norm, ny: ny / norm };
}

/** How far the border moves along its normal at t by the five numbers x, y, a, b, d: one row of the fit. */
export function borderRow(ellipse: Ellipse, turn: number): number[] {
  const { nx, ny } = borderAt(ellipse, turn);
  const c = Math.cos(turn);
  const s = Math.sin(turn);
  return [nx, ny, nx * c, nx * s + ny * c, ny * s];
}

/** The ellipse with its five numbers changed; null where it would be none. */
export function changed({ x, y, a, b, d }: Ellipse, by: ArrayLike<number>): Ellipse | null {
  const next = {
    x: x + (by[0] ?? 0),
    y: y + (by[1] ?? 0),
    a: a + (by[2] ?? 0),
    b: b + (by[3] ?? 0),
    d: d + (by[4] ?? 0),
  };
  const [long, short] = halfAxes(next);
  return short > 0.3 * long && long < 1e4 ? next : null;
}
