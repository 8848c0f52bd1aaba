import { fitSimilarity } from '../camera';
import type { Camera, PixelPoint, ViewPoint } from '../camera';
import type { PictureGivens } from './givens';

/**
 * A start for a camera square to the truck, from a similarity of points at their mean depth to pixels (y up); null
 * where all points, or all pixels, lie on one.
 */
export function startCamera(
  givens: Pick<PictureGivens, 'width' | 'height' | 'focal'>,
  /** Camera to the plane through the origin of the view axes, m, where no focal length tells. */
  distance: number,
  points: readonly ViewPoint[],
  pixels: readonly PixelPoint[],
): Camera | null {
  const centerX = givens.width / 2;
  const centerY = givens.height / 2;
  const from = points.map(({ a, b }) => ({ x: a, y: b }));
  const to = pixels.map(({ x, y }) => ({ x: x - centerX, y: centerY - y }));
  const fit = fitSimilarity(from, to);
  // Less than a pixel a meter: the marks lie on one point.
  if (!fit || !(fit.scale > 1)) return null;
  const depth = points.reduce((sum, { c }) => sum + c, 0) / points.length;
  // Magnification at depth c is f / (distance − c): f over it is the distance to the points themselves.
  const nearness = givens.focal ? 1 / (givens.focal.value / fit.scale + depth) : 1 / distance;
  const cos = Math.cos(fit.rotation) / fit.scale;
  const sin = Math.sin(fit.rotation) / fit.scale;
  return {
    roll: fit.rotation,
    yaw: 0,
    pitch: 0,
    a: -(cos * fit.shiftX + sin * fit.shiftY),
    b: -(-sin * fit.shiftX + cos * fit.shiftY),
    scale: fit.scale * (1 - nearness * depth),
    nearness,
    centerX,
    centerY,
  };
}
