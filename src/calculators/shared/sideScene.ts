import { drawnHeight, OVERHANG, view, point, type TruckSizes, type View } from '../../figures';
import { lengthIn } from '../../physics';

const SIDE_MARGIN = 10;

/** View of a truck from its right that fills `width`, with `above` px over it for strings and `below` px under the ground. */
export function sideScene(
  sizes: TruckSizes,
  width: number,
  above = 34,
  below = 26,
): { readonly view: View; readonly height: number; readonly groundY: number } {
  const wheelbase = lengthIn(sizes.wheelbase, 'mm');
  const scale = Math.min(1.9, (width - 2 * SIDE_MARGIN) / (wheelbase * (1 + OVERHANG.front + OVERHANG.rear)));
  const drawn = scale * wheelbase * (1 + OVERHANG.front + OVERHANG.rear);
  const originX = (width - drawn) / 2 + scale * wheelbase * OVERHANG.rear;
  const groundY = Math.round(above + scale * lengthIn(drawnHeight(sizes), 'mm'));
  return { view: view(point(originX, groundY), scale), height: groundY + below, groundY };
}
