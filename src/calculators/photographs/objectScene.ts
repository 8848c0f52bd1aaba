import { svg, type SVGTemplateResult } from 'lit';
import {
  angleArc,
  casedLine,
  dimensionLine,
  direction,
  distance,
  plumbLine,
  point,
  printedDegrees,
  printedMillimeters,
  type Point,
} from '../../figures';
import { meters } from '../../physics';
import type { BenchAnswer } from '../../answer/benchAnswer';
import type { BuildState, MarkRole, Picture } from '../../sheet/schema';
import type { Place } from './surfaceView';

/** What is drawn on a picture of an object beside its center of gravity: its own axes with the two sizes, its base. */

type OnSurface = (place: Place) => Point;

/** Foot of a place on the line through two others. */
function foot(from: Point, to: Point, place: Point): Point {
  const [dx, dy] = [to.x - from.x, to.y - from.y];
  const share = ((place.x - from.x) * dx + (place.y - from.y) * dy) / (dx * dx + dy * dy);
  return point(from.x + share * dx, from.y + share * dy);
}

/** A line shorter than this carries no drawing, px. */
const SHORTEST = 24;

/** Sizes in the object's own axes, and its tip angles, where the picture shows what they are measured from. */
export function objectOverlay(
  state: BuildState,
  answer: BenchAnswer,
  picture: Picture,
  center: Point,
  onSurface: OnSurface,
): SVGTemplateResult | '' {
  if (state.body !== 'object') return '';
  const ends = (first: MarkRole, second: MarkRole): readonly [Point, Point] | null => {
    const at = (role: MarkRole) => picture.marks.find((mark) => mark.role === role && mark.counted);
    const [a, b] = [at(first), at(second)];
    return a && b && distance(onSurface(a), onSurface(b)) >= SHORTEST ? [onSurface(a), onSurface(b)] : null;
  };
  const axis = ends('scale 1', 'scale 2');
  const base = ends('base 1', 'base 2');
  return svg`${base ? tipOver(answer, base, center) : ''}${axis ? sizes(answer, axis, center) : ''}`;
}

/** Room between what is measured and its dimension line, px. */
const CLEAR = 26;

/** Along the first axis and across it, each beside what it measures. */
function sizes(answer: BenchAnswer, [one, two]: readonly [Point, Point], center: Point): SVGTemplateResult {
  const beside = foot(one, two, center);
  const axis = casedLine(one, two, 'line-extension');
  if (!answer.cg.ok) return axis;
  const { ahead, height } = answer.cg.value;
  const size = (value: number) => printedMillimeters(meters(Math.abs(value)));
  const [long, high] = [distance(one, beside), distance(beside, center)];
  // Away from the center of gravity, and away from the second point.
  const out =
    high < 1 ? { x: 0, y: 0 } : { x: (beside.x - center.x) / high, y: (beside.y - center.y) / high };
  const back = long < 1 ? { x: 0, y: 0 } : { x: (one.x - beside.x) / long, y: (one.y - beside.y) / long };
  const by = (place: Point, way: Point, length: number) =>
    point(place.x + length * way.x, place.y + length * way.y);
  const aside = CLEAR + long;
  return svg`${axis}${
    long < SHORTEST
      ? ''
      : dimensionLine({
          from: by(one, out, CLEAR),
          to: by(beside, out, CLEAR),
          text: size(ahead.value),
          features: [one, center],
          cased: true,
        })
  }${
    high < SHORTEST
      ? ''
      : dimensionLine({
          from: by(beside, back, aside),
          to: by(center, back, aside),
          text: size(height.value),
          features: [one, center],
          cased: true,
        })
  }`;
}

/** The base, and from the center of gravity to it and to either end: the angle between is how far it leans. */
function tipOver(answer: BenchAnswer, base: readonly [Point, Point], center: Point): SVGTemplateResult {
  const below = foot(base[0], base[1], center);
  const high = distance(center, below);
  const down = direction(center, below);
  const angles = answer.baseTips?.map(({ base: end, angle }) => {
    const to = direction(center, base[end - 1] ?? below);
    // The way from plumb to the end, turned by less than half a turn.
    const turn = Math.atan2(Math.sin(to - down), Math.cos(to - down));
    const radius = Math.min(46, Math.max(22, high * 0.45));
    return angleArc({
      center,
      radius: end === 1 ? radius : radius * 1.25,
      from: down + Math.min(0, turn),
      to: down + Math.max(0, turn),
      text: printedDegrees(angle.value),
      arrows: turn > 0 ? 'to' : 'from',
      cased: true,
    });
  });
  return svg`${casedLine(base[0], base[1], 'line-dimension')}${base.map((end) => casedLine(center, end, 'line-extension'))}
    ${high > SHORTEST ? plumbLine(center, below) : ''}${angles ?? ''}`;
}
