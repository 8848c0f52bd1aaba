import type { Observation } from '../../physics';
import { cameraRotation, lensShift, projectStraight, projectWithSlopes, straightened } from '../camera';
import type { Camera, PixelPoint, ViewPoint } from '../camera';
import type { ViewAxis } from '../views';

/**
 * What is seen in a picture, as observations for the adjustment: a point where it was marked, a line that passes
 * through a mark, a direction that lies in the picture's plane. All bring their derivatives, so that the adjustment
 * need not find them by trying.
 */

/** Where a camera's seven unknowns stand among the fit's, its picture's center, and its lens's distortion. */
export interface SeenBy {
  readonly first: number;
  readonly centerX: number;
  readonly centerY: number;
  /** Index of the distortion, which pictures by one lens share; absent: it draws straight. */
  readonly distortion?: number;
}
/** Number of unknowns of a camera. */
const CAMERA = 7;

export const cameraAt = (p: Float64Array, { first, centerX, centerY, distortion }: SeenBy): Camera => ({
  roll: p[first] ?? 0,
  yaw: p[first + 1] ?? 0,
  pitch: p[first + 2] ?? 0,
  a: p[first + 3] ?? 0,
  b: p[first + 4] ?? 0,
  scale: p[first + 5] ?? 1,
  nearness: p[first + 6] ?? 0,
  centerX,
  centerY,
  ...(distortion === undefined ? {} : { distortion: p[distortion] ?? 0 }),
});

const cameraUnknowns = ({ first }: SeenBy, count: number): number[] =>
  Array.from({ length: count }, (_, i) => first + i);

/** A point or a direction in view axes that depends on unknowns, with its derivative by each of them. */
export interface Place {
  readonly depends: readonly number[];
  readonly at: (p: Float64Array) => ViewPoint;
  /** One an unknown, in the order of `depends`. */
  readonly slopes: (p: Float64Array) => readonly ViewPoint[];
}

/** An unknown that moves a place along one axis, by `factor` of itself. */
export interface Coordinate {
  readonly unknown: number;
  readonly axis: ViewAxis;
  readonly factor?: number;
}

/** A place whose coordinates are sums of unknowns. */
export function linearPlace(coordinates: readonly Coordinate[]): Place {
  const slopes = coordinates.map(({ axis, factor = 1 }) => ({ a: 0, b: 0, c: 0, [axis]: factor }));
  return {
    depends: coordinates.map(({ unknown }) => unknown),
    at: (p) => {
      let [a, b, c] = [0, 0, 0];
      for (const { unknown, axis, factor = 1 } of coordinates) {
        const by = factor * (p[unknown] ?? 0);
        if (axis === 'a') a += by;
        else if (axis === 'b') b += by;
        else c += by;
      }
      return { a, b, c };
    },
    slopes: () => slopes,
  };
}

/** The place `length` away from another along a direction. */
export function along(from: Place, direction: Place, length: number): Place {
  const { depends, fromAt, otherAt } = union(from, direction);
  return {
    depends,
    at: (p) => {
      const start = from.at(p);
      const way = direction.at(p);
      return { a: start.a + length * way.a, b: start.b + length * way.b, c: start.c + length * way.c };
    },
    slopes: (p) => {
      const starts = from.slopes(p);
      const ways = direction.slopes(p);
      return depends.map((_, i) => {
        const start = starts[fromAt[i] ?? -1];
        const way = ways[otherAt[i] ?? -1];
        return {
          a: (start?.a ?? 0) + length * (way?.a ?? 0),
          b: (start?.b ?? 0) + length * (way?.b ?? 0),
          c: (start?.c ?? 0) + length * (way?.c ?? 0),
        };
      });
    },
  };
}

/** The unknowns of two places, each once, and where it stands in either; −1 where it does not. */
function union(from: Place, other: Place) {
  const depends = [...new Set([...from.depends, ...other.depends])];
  return {
    depends,
    fromAt: depends.map((unknown) => from.depends.indexOf(unknown)),
    otherAt: depends.map((unknown) => other.depends.indexOf(unknown)),
  };
}

/** Derivative of a pixel coordinate by what moves its point: `by` is dx or dy of a projection. */
const through = (by: readonly number[], slope: ViewPoint | undefined): number =>
  slope ? (by[CAMERA] ?? 0) * slope.a + (by[CAMERA + 1] ?? 0) * slope.b + (by[CAMERA + 2] ?? 0) * slope.c : 0;

/** A derivative by camera and point made one by camera and the unknowns that move the point. */
function alongPlace(by: readonly number[], slopes: readonly ViewPoint[]): number[] {
  const row: number[] = [];
  for (let i = 0; i < CAMERA; i++) row.push(by[i] ?? 0);
  for (const slope of slopes) row.push(through(by, slope));
  return row;
}

/** A point marked at a pixel: predicted where a straight lens shows it, and from there where this one does. */
export function pointSighting(
  name: string,
  view: SeenBy,
  place: Place,
  pixel: PixelPoint & { readonly u: number },
): Observation {
  const shift = lensShift(view, pixel);
  const lens = view.distortion;
  return {
    name,
    depends: [...cameraUnknowns(view, CAMERA), ...place.depends, ...(lens === undefined ? [] : [lens])],
    predict: (p) => {
      const { x, y } = projectStraight(cameraAt(p, view), place.at(p));
      const by = lens === undefined ? 0 : (p[lens] ?? 0);
      return [x - by * shift.x, y - by * shift.y];
    },
    values: [pixel.x, pixel.y],
    uncertainty: [pixel.u, pixel.u],
    derivative: (p) => {
      const { dx, dy } = projectWithSlopes(cameraAt(p, view), place.at(p));
      const slopes = place.slopes(p);
      const ofLens = (by: number) => (lens === undefined ? [] : [-by]);
      return [
        [...alongPlace(dx, slopes), ...ofLens(shift.x)],
        [...alongPlace(dy, slopes), ...ofLens(shift.y)],
      ];
    },
  };
}

/**
 * A mark that lies on the picture of the line through two places: its distance from that line, as a straight lens would
 * show both, is zero.
 */
export function lineSighting(
  name: string,
  view: SeenBy,
  from: Place,
  to: Place,
  pixel: PixelPoint & { readonly u: number },
): Observation {
  const { depends, fromAt, otherAt } = union(from, to);
  const lens = view.distortion;
  const shift = lensShift(view, pixel);
  return {
    name,
    depends: [...cameraUnknowns(view, CAMERA), ...depends, ...(lens === undefined ? [] : [lens])],
    predict: (p) => {
      const camera = cameraAt(p, view);
      const start = projectStraight(camera, from.at(p));
      const end = projectStraight(camera, to.at(p));
      return [lineThrough(straightened(camera, pixel), start, end).distance];
    },
    values: [0],
    uncertainty: [pixel.u],
    derivative: (p) => {
      const camera = cameraAt(p, view);
      const start = projectWithSlopes(camera, from.at(p));
      const end = projectWithSlopes(camera, to.at(p));
      const { normalX, normalY, share } = lineThrough(straightened(camera, pixel), start, end);
      // Where the mark lies along the line says how much each of the two points swings the line there.
      const swing = (startX: number, startY: number, endX: number, endY: number) =>
        (share - 1) * (normalX * startX + normalY * startY) - share * (normalX * endX + normalY * endY);
      const row: number[] = [];
      for (let i = 0; i < CAMERA; i++)
        row.push(swing(start.dx[i] ?? 0, start.dy[i] ?? 0, end.dx[i] ?? 0, end.dy[i] ?? 0));
      const startSlopes = from.slopes(p);
      const endSlopes = to.slopes(p);
      for (let i = 0; i < depends.length; i++) {
        const startSlope = startSlopes[fromAt[i] ?? -1];
        const endSlope = endSlopes[otherAt[i] ?? -1];
        row.push(
          swing(
            through(start.dx, startSlope),
            through(start.dy, startSlope),
            through(end.dx, endSlope),
            through(end.dy, endSlope),
          ),
        );
      }
      if (lens !== undefined) row.push(normalX * shift.x + normalY * shift.y);
      return [row];
    },
  };
}

/** Signed distance of a pixel from the line through two others, the line's normal, and how far along it the pixel is. */
function lineThrough(pixel: PixelPoint, from: PixelPoint, to: PixelPoint) {
  const dx = to.x - from.x;
  const dy = to.y - from.y;
  const length = Math.hypot(dx, dy);
  const [px, py] = [pixel.x - from.x, pixel.y - from.y];
  return {
    distance: (px * dy - py * dx) / length,
    normalX: dy / length,
    normalY: -dx / length,
    share: (px * dx + py * dy) / length ** 2,
  };
}

/** A direction of length one that lies in the picture's plane, to within `u`, rad. */
export function inPlaneSighting(name: string, view: SeenBy, direction: Place, u: number): Observation {
  return {
    name,
    depends: [...cameraUnknowns(view, 3), ...direction.depends],
    predict: (p) => {
      const r = cameraRotation(cameraAt(p, view));
      const { a, b, c } = direction.at(p);
      return [(r[6] ?? 0) * a + (r[7] ?? 0) * b + (r[8] ?? 0) * c];
    },
    values: [0],
    uncertainty: [u],
    derivative: (p) => {
      const camera = cameraAt(p, view);
      const r = cameraRotation(camera);
      const n = (i: number) => r[i] ?? 0;
      const { a, b, c } = direction.at(p);
      return [
        [
          n(7) * a - n(6) * b,
          -Math.cos(camera.pitch) * (n(0) * a + n(1) * b + n(2) * c),
          n(3) * a + n(4) * b + n(5) * c,
          ...direction.slopes(p).map((slope) => n(6) * slope.a + n(7) * slope.b + n(8) * slope.c),
        ],
      ];
    },
  };
}
