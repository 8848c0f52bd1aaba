import { svg, type SVGTemplateResult } from 'lit';
import {
  beyond,
  centerOfGravitySign,
  clamp,
  coordinate as c,
  distance,
  hatchedEllipse,
  plumbLine,
  point,
  stringLine,
  textWidth,
  type Point,
} from '../../figures';
import { errorEllipse } from '../../physics';
import type { BenchAnswer } from '../../answer/benchAnswer';
import type { CrossedPicture } from '../../photo/crossOnPictures';
import { hangNumber } from '../../sheet/hangs';
import type { BuildState, Picture } from '../../sheet/schema';
import { cgInHang } from './answerView';
import type { SurfaceScene } from './markingSurface';
import { objectOverlay } from './objectScene';
import { hangingScene, pointScene } from './scenes';
import { crossedIn } from './smallestPathView';
import type { Place, Size } from './surfaceView';

/** How far a line runs on past the center of gravity, px. */
const PAST_CG = 56;

/**
 * What is drawn on a hanging picture, and on any of an object: the center of gravity of the whole answer where there is
 * one, else where the strings cross on the pictures themselves, with its ellipse; else the string's own line.
 */
export function sceneOfHang(state: BuildState, answer: BenchAnswer, picture: Picture): SurfaceScene {
  const place = cgInHang(answer, picture);
  const crossed = place ? null : crossedIn(state, picture);
  const scene = crossed
    ? crossedScene(state, crossed)
    : picture.kind === 'hanging'
      ? hangingScene(picture, place)
      : pointScene(place);
  const center = place ?? crossed?.place;
  if (!center || state.body !== 'object') return scene;
  return (at, box, enlarged) => {
    const onSurface = (each: Place): Point => {
      const { x, y } = at(each);
      return point(x, y);
    };
    return svg`${objectOverlay(state, answer, picture, onSurface(center), onSurface)}${scene(at, box, enlarged)}`;
  };
}

/** Every line as it lies in this picture, the 95 % region, and the quartered circle where they cross. */
export function crossedScene(state: BuildState, crossed: CrossedPicture): SurfaceScene {
  const [[xx = 0, xy = 0] = [], [, yy = 0] = []] = crossed.covariance;
  // Pixels run down, angles on the page turn upward.
  const region = errorEllipse([
    [xx, -xy],
    [-xy, yy],
  ]);
  return (at, box, enlarged) => {
    const onSurface = (place: Point): Point => {
      const { x, y } = at(place);
      return point(x, y);
    };
    const center = onSurface(crossed.place);
    const scale = distance(onSurface({ x: 0, y: 0 }), onSurface({ x: 1, y: 0 }));
    const lines = crossed.lines.map(({ pictureId, from, to }) => {
      const [upper, lower] = [onSurface(from), onSurface(to)];
      const end = beyond(lower, center, PAST_CG);
      if (pictureId === crossed.pictureId) return svg`${stringLine(upper, lower)}${plumbLine(lower, end)}`;
      // A string carried over reaches far; the whole picture shows it as far as it goes.
      const outer = enlarged || !crossed.inside ? upper : within(center, upper, box, 0);
      return svg`${plumbLine(outer, end)}${label(`hang ${hangNumber(state, pictureId)}`, upper, center, box)}`;
    });
    return svg`${hatchedEllipse({
      center,
      semiMajor: region.semiMajor * scale,
      semiMinor: region.semiMinor * scale,
      angle: region.angle,
    })} ${lines} ${crossed.inside ? centerOfGravitySign(center) : ''}`;
  };
}

/** The way from a place in the box toward another, as far as the box goes less a margin. */
function within(from: Point, toward: Point, { width, height }: Size, margin: number): Point {
  const long = distance(from, toward) || 1;
  const [dx, dy] = [(toward.x - from.x) / long, (toward.y - from.y) / long];
  const room = Math.min(
    dx > 0 ? (width - margin - from.x) / dx : dx < 0 ? (margin - from.x) / dx : Infinity,
    dy > 0 ? (height - margin - from.y) / dy : dy < 0 ? (margin - from.y) / dy : Infinity,
    long,
  );
  return point(from.x + room * dx, from.y + room * dy);
}

/** A line's name beside it, out where its string is, held inside the picture. */
function label(text: string, outer: Point, center: Point, box: Size): SVGTemplateResult {
  const at = within(center, outer, box, 28);
  const long = distance(center, outer) || 1;
  const [dx, dy] = [(outer.x - center.x) / long, (outer.y - center.y) / long];
  // To the right of the line, where the text runs away from it.
  const [nx, ny] = dy > 0 ? [dy, -dx] : [-dy, dx];
  const x = clamp(at.x + 12 * nx, 6, box.width - textWidth(text) - 6);
  const y = clamp(at.y + 12 * ny + 5, 18, box.height - 8);
  return svg`<text class="cased label-strong start" x=${c(x)} y=${c(y)}>${text}</text>`;
}
