import { html, nothing, svg, type SVGTemplateResult, type TemplateResult } from 'lit';
import {
  clamp,
  detailCircle,
  detailFactor,
  detailPlace,
  dimensionLine,
  distance,
  plumbLine,
  point,
  polar,
  direction,
  printedMillimeters,
  standingOverlay,
  stringLine,
  centerOfGravitySign,
  type Point,
  type SideAnswer,
} from '../../figures';
import { meters, type PlanePoint } from '../../physics';
import { project as projected, type Camera } from '../../photo/camera';
import type { Picture } from '../../sheet/schema';
import type { SurfaceScene } from './markingSurface';
import type { Place, Size } from './surfaceView';

/** A standing picture's camera and the side it looks at: what carries truck places into the picture. */
export interface PictureEye {
  readonly camera: Camera;
  /** +1 seen from the right (nose to the right in the picture), −1 seen from the left. */
  readonly nose: 1 | -1;
}

/** Picture pixel of a place in the truck's center plane, `depth` toward the camera. */
export const inPicture = ({ camera, nose }: PictureEye, place: PlanePoint, depth = 0): Place =>
  projected(camera, { a: nose * place.x, b: place.z, c: depth });

/** Picture pixels per millimeter in the center plane at a place. */
export function pixelsPerMm(eye: PictureEye, place: PlanePoint): number {
  const here = inPicture(eye, place);
  const there = inPicture(eye, { x: meters(place.x + 0.01), z: place.z });
  return Math.hypot(there.x - here.x, there.y - here.y) / 10;
}

/** Surfaces narrower than this leave the detail to a figure of its own (detailFigure), px. */
const ROOM_FOR_DETAIL = 440;
const DETAIL_RADIUS = { largest: 78, smallest: 44, share: 0.125 } as const;

/**
 * The answer drawn on the standing picture: lines extended, ellipse, quartered circle, the two sizes, and while the
 * whole picture is shown a detail circle in the upper corner farther from the center of gravity.
 */
export function standingScene(answer: SideAnswer, eye: PictureEye): SurfaceScene {
  return (at, box, enlarged) => {
    const onSurface = (place: PlanePoint): Point => {
      const { x, y } = at(inPicture(eye, place));
      return point(x, y);
    };
    return svg`${standingOverlay(answer, onSurface, 1, { x: 0, y: 0, ...box })} ${answer.cg ? sizes(answer.cg, eye, onSurface, answer.others ? 0.072 : 0.045) : ''}
      ${enlarged || box.width < ROOM_FOR_DETAIL ? '' : detail(answer, eye, at, box, onSurface)}`;
  };
}

/** Ahead of the rear axle and above ground, dimensioned in the truck's center plane. */
function sizes(
  cg: PlanePoint,
  eye: PictureEye,
  onSurface: (place: PlanePoint) => Point,
  clearOfCg: number,
): SVGTemplateResult {
  const zero = meters(0);
  const below = meters(-0.022);
  const aside = meters(cg.x + clearOfCg);
  const ends = [onSurface({ x: zero, z: below }), onSurface({ x: cg.x, z: below })] as const;
  // Dimension lines run level where the rear axle lies left of the CG, and the same way where it lies right.
  const [from, to] = eye.nose === 1 ? ends : [ends[1], ends[0]];
  const features: [Point, Point] = [
    onSurface({ x: eye.nose === 1 ? zero : cg.x, z: eye.nose === 1 ? meters(0.01) : cg.z }),
    onSurface({ x: eye.nose === 1 ? cg.x : zero, z: eye.nose === 1 ? cg.z : meters(0.01) }),
  ];
  return svg`${dimensionLine({ from, to, text: printedMillimeters(cg.x), features, cased: true })}
    ${dimensionLine({
      from: onSurface({ x: aside, z: zero }),
      to: onSurface({ x: aside, z: cg.z }),
      text: printedMillimeters(cg.z),
      features: [null, onSurface(cg)],
      cased: true,
      at: 0.42,
    })}`;
}

function detail(
  answer: SideAnswer,
  eye: PictureEye,
  at: (place: Place) => Place,
  box: Size,
  onSurface: (place: PlanePoint) => Point,
): SVGTemplateResult | '' {
  const { cg, ellipse } = answer;
  if (!cg || !ellipse) return '';
  const radius = clamp(box.width * DETAIL_RADIUS.share, DETAIL_RADIUS.smallest, DETAIL_RADIUS.largest);
  const here = onSurface(cg);
  const center = clearest(
    [point(radius + 10, radius + 10), point(box.width - radius - 10, radius + 10)],
    radius,
    answer,
    onSurface,
  );
  const origin = at({ x: 0, y: 0 });
  const unit = at({ x: 1, y: 0 });
  const scale = pixelsPerMm(eye, cg) * (unit.x - origin.x);
  return svg`${detailPlace(here, 'X')} ${detailCircle({
    center,
    radius,
    letter: 'X',
    scale,
    factor: detailFactor(ellipse.semiMajor, scale, radius),
    at: cg,
    lines: answer.lines,
    ellipse,
    sense: eye.nose,
  })}`;
}

/** The crossing enlarged, as a small figure beside the numbers, for screens too narrow to draw it into the picture. */
export function detailFigure(answer: SideAnswer, sense: 1 | -1): TemplateResult | typeof nothing {
  const { cg, ellipse } = answer;
  if (!cg || !ellipse) return nothing;
  const radius = 52;
  // As on a picture that shows the truck at one screen pixel a millimeter.
  const scale = 1;
  return html`<svg class="figure" viewBox="0 0 120 132" width="120" height="132" aria-hidden="true">
    ${detailCircle({
      center: point(60, radius + 4),
      radius,
      letter: 'X',
      scale,
      factor: detailFactor(ellipse.semiMajor, scale, radius),
      at: cg,
      lines: answer.lines,
      ellipse,
      sense,
    })}
  </svg>`;
}

/** Room the words under a detail circle take, px. */
const DETAIL_WORDS = 26;

/** The corner whose circle and words hide least of the hooks, string labels and the center of gravity. */
function clearest(
  corners: readonly [Point, Point],
  radius: number,
  answer: SideAnswer,
  onSurface: (place: PlanePoint) => Point,
): Point {
  const { cg } = answer;
  const taken = cg ? [onSurface(cg)] : [];
  for (const { hook } of answer.lines) {
    if (!hook || !cg) continue;
    const outer = onSurface(hook);
    // A string's label stands about this far out along it.
    taken.push(outer, polar(outer, 56, direction(onSurface(cg), outer)));
  }
  const room = (corner: Point) =>
    Math.min(...taken.map((place) => distance(place, point(corner.x, corner.y + DETAIL_WORDS / 2)))) - radius;
  return room(corners[1]) > room(corners[0]) ? corners[1] : corners[0];
}

/** A standing picture from an end or the top: the center of gravity where the answer puts it. */
export const pointScene =
  (cg: Place | null): SurfaceScene =>
  (at) => {
    if (!cg) return svg``;
    const { x, y } = at(cg);
    return svg`${centerOfGravitySign(point(x, y))}`;
  };

/**
 * A hanging picture: the marked string solid, carried on as a plumb line through the truck; the center of gravity
 * where the answer puts it, which must lie on that line.
 */
export function hangingScene(picture: Picture, cg: Place | null): SurfaceScene {
  return (at, box) => {
    const mark = (role: string) => picture.marks.find((candidate) => candidate.role === role);
    const upper = mark('string upper');
    const lower = mark('string lower');
    if (!upper || !lower) return svg``;
    const a = at(upper);
    const b = at(lower);
    const from = point(a.x, a.y);
    const to = point(b.x, b.y);
    if (distance(from, to) < 1) return svg``;
    const target = cg ? at(cg) : null;
    const reach = target
      ? distance(to, point(target.x, target.y)) + 40
      : Math.hypot(box.width, box.height) / 2;
    return svg`${stringLine(from, to)}
      ${plumbLine(to, polar(to, reach, direction(from, to)))}
      ${target ? centerOfGravitySign(point(target.x, target.y)) : ''}`;
  };
}
