/**
 * What a string or an edge looks like across itself: a bar or a step, blurred by lens and pixel as by a normal law. The
 * square pixel has a variance of 1/12 in every direction, so its share of the blur does not depend on how it is turned.
 */
export interface Shape {
  /** A bar rises to 1 and falls again; a step rises from -0.5 to 0.5. */
  readonly kind: 'bar' | 'step';
  /** Width of the bar, px; 0 for a step. */
  readonly width: number;
  /** Standard deviation of the blur, px. */
  readonly blur: number;
}

/** Normal distribution function, within 1e-7. Abramowitz and Stegun (1964), 7.1.26. */
export function normalIntegral(x: number): number {
  const z = Math.abs(x) / Math.SQRT2;
  const t = 1 / (1 + 0.3275911 * z);
  const tail =
    0.5 *
    t *
    (0.254829592 + t * (-0.284496736 + t * (1.421413741 + t * (-1.453152027 + t * 1.061405429)))) *
    Math.exp(-z * z);
  return x > 0 ? 1 - tail : tail;
}

/** Level of a shape of contrast 1 at a distance across, px. */
export const shapeAt = ({ kind, width, blur }: Shape, across: number): number =>
  kind === 'bar'
    ? normalIntegral((across + width / 2) / blur) - normalIntegral((across - width / 2) / blur)
    : normalIntegral(across / blur) - 0.5;

const PER_PIXEL = 32;
const REACH = 12;

/** A shape and its slope as a table: the fits ask for it at thousands of places. */
export class ShapeTable {
  readonly shape: Shape;
  private readonly levels = new Float64Array(2 * REACH * PER_PIXEL + 2);

  constructor(shape: Shape) {
    this.shape = shape;
    for (let i = 0; i < this.levels.length; i++) this.levels[i] = shapeAt(shape, i / PER_PIXEL - REACH);
  }

  /** Distance from the middle beyond which nothing changes any more, px. */
  get extent(): number {
    return this.shape.width / 2 + 2.2 * this.shape.blur;
  }

  level(across: number): number {
    const place = Math.min(Math.max((across + REACH) * PER_PIXEL, 0), 2 * REACH * PER_PIXEL);
    const i = Math.floor(place);
    const low = this.levels[i] ?? 0;
    return low + (place - i) * ((this.levels[i + 1] ?? low) - low);
  }

  slope(across: number): number {
    return (this.level(across + 1 / PER_PIXEL) - this.level(across - 1 / PER_PIXEL)) * (PER_PIXEL / 2);
  }
}
