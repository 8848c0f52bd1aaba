import { lengthIn, millimeters, type GroundPoint, type Length } from '../physics';
import { coordinate, point, type Point } from './geometry';

/**
 * From the truck to the page and back. A view looks square at one plane of the truck: `across` is the truck's
 * direction that runs to the right on the page (forward, seen from the right; right, seen from behind),
 * `up` the one that runs up.
 */
export interface View {
  /** Where the truck's origin lies on the page, px. */
  readonly origin: Point;
  /** px per mm, positive. */
  readonly scale: number;
  /** -1 where `across` runs to the left on the page: a truck seen from its left side. */
  readonly sense: 1 | -1;
}

/** A place in the plane a view looks at. */
export interface PlanePlace {
  readonly across: Length;
  readonly up: Length;
}

export const view = (origin: Point, scale: number, sense: 1 | -1 = 1): View => ({ origin, scale, sense });

/** Page place of a truck place. */
export const toPage = ({ origin, scale, sense }: View, across: Length, up: Length): Point =>
  point(origin.x + sense * scale * lengthIn(across, 'mm'), origin.y - scale * lengthIn(up, 'mm'));

/** Truck place of a page place: the inverse of toPage. */
export const toTruck = ({ origin, scale, sense }: View, place: Point): PlanePlace => ({
  across: millimeters((sense * (place.x - origin.x)) / scale),
  up: millimeters((origin.y - place.y) / scale),
});

/** Page length of a truck length, px. */
export const pixels = ({ scale }: View, size: Length): number => scale * lengthIn(size, 'mm');

/** SVG transform that puts a drawing in truck millimeters (up positive) on the page. */
export const placement = ({ origin, scale, sense }: View): string =>
  `matrix(${[sense * scale, 0, 0, -scale].map((n) => String(Number(n.toFixed(5)))).join(' ')} ` +
  `${coordinate(origin.x)} ${coordinate(origin.y)})`;

/** SVG transform for the drawing seen from above with its nose up: ahead runs up the page, left stays left. */
export const placementNoseUp = ({ origin, scale }: Pick<View, 'origin' | 'scale'>): string => {
  const s = String(Number((-scale).toFixed(5)));
  return `matrix(0 ${s} ${s} 0 ${coordinate(origin.x)} ${coordinate(origin.y)})`;
};

/** Page place, seen from above with the nose up. */
export const toPageNoseUp = (
  { origin, scale }: Pick<View, 'origin' | 'scale'>,
  { x, y }: GroundPoint,
): Point => point(origin.x - scale * lengthIn(y, 'mm'), origin.y - scale * lengthIn(x, 'mm'));

/** A box in the plane of a view, SI. */
export interface PlaneBox {
  readonly left: Length;
  readonly right: Length;
  readonly bottom: Length;
  readonly top: Length;
}

/** Room to keep free around a box, px. */
export interface Margins {
  readonly left: number;
  readonly right: number;
  readonly top: number;
  readonly bottom: number;
}

/**
 * The view that fits a box into `width` px between the margins, and the height it then takes. The scale never
 * exceeds `largestScale` px per mm (the box is centered then) and never falls below a hundredth.
 */
export function fitWidth(
  box: PlaneBox,
  width: number,
  margins: Margins,
  largestScale = Infinity,
): { readonly view: View; readonly height: number } {
  const boxWidth = lengthIn(box.right, 'mm') - lengthIn(box.left, 'mm');
  const boxHeight = lengthIn(box.top, 'mm') - lengthIn(box.bottom, 'mm');
  const room = width - margins.left - margins.right;
  const scale = Math.max(0.01, Math.min(largestScale, room / boxWidth));
  const slack = Math.max(0, room - scale * boxWidth) / 2;
  const origin = point(
    margins.left + slack - scale * lengthIn(box.left, 'mm'),
    margins.top + scale * lengthIn(box.top, 'mm'),
  );
  return { view: view(origin, scale), height: margins.top + margins.bottom + scale * boxHeight };
}

/**
 * Place of a pointer in the user units of an SVG element, through its screen matrix, so that zoom, scrolling
 * and viewBox are all taken care of. null while the element is not laid out.
 */
export function pointerPlace(
  svg: SVGGraphicsElement,
  event: { readonly clientX: number; readonly clientY: number },
): Point | null {
  const matrix = svg.getScreenCTM();
  if (!matrix) return null;
  const determinant = matrix.a * matrix.d - matrix.b * matrix.c;
  if (determinant === 0) return null;
  const x = event.clientX - matrix.e;
  const y = event.clientY - matrix.f;
  return point((matrix.d * x - matrix.c * y) / determinant, (matrix.a * y - matrix.b * x) / determinant);
}
