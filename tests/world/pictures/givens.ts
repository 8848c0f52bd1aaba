import { emptyGiven, emptyPicture } from '../../../src/sheet/empty';
import type { BuildState, Mark, MarkRole, Picture } from '../../../src/sheet/schema';
import { project } from '../../demo/world/camera';
import type { Camera, Pixel } from '../../demo/world/camera';
import type { Random } from '../../demo/world/random';
import type { Vector } from '../../demo/world/vector';
import { COVERAGE } from './laws';
import type { Without } from './laws';
import { inWorld, isInside, stringEnds } from './shots';
import type { Pose, Seen } from './shots';

/** From the truth to what a reader types and marks, off by the stated ± as often as it says. */

/** Standard deviation of a mark per coordinate, px. */
export const MARK_SIGMA = 1.5;

/** The ruler's own ±, m, where nothing is typed: the same in all it measures. */
const RULER_ZERO = 0.0003;

const given = <Unit extends 'mm' | 'g'>(value: number, unit: Unit, plusMinus: number) => ({
  text: (1000 * value).toFixed(3),
  unit,
  plusMinus: String(plusMinus),
  kind: 'expanded' as const,
});

/** A reader who types numbers (m, kg), each off by its ± (mm, g); lengths by one ruler, depths by eye. */
export function typist(draw: Random, without: Without) {
  const zero = without.has('ruler') ? 0 : (RULER_ZERO / COVERAGE) * draw.normal();
  const off = (plusMinus: number, isExact: boolean): number => {
    const drawn = (plusMinus / COVERAGE / 1000) * draw.normal();
    return isExact ? 0 : drawn;
  };
  return {
    ruled: (meters: number, plusMinus: number) =>
      given(meters + zero + off(plusMinus, without.has('ruler')), 'mm', plusMinus),
    depth: (meters: number, plusMinus: number) =>
      given(meters + off(plusMinus, without.has('depths')), 'mm', plusMinus),
    grams: (kilograms: number, plusMinus: number) => given(kilograms + off(plusMinus, false), 'g', plusMinus),
  };
}

/** A point of the body that is marked, body axes with its axle's droop in it, m. */
export interface Marked {
  readonly role: MarkRole;
  readonly place: Vector;
}

export interface Shot {
  readonly id: string;
  readonly view: Seen;
  readonly hook: string | null;
  readonly hanging: boolean;
  readonly suspension: 'locked' | 'free';
  readonly pose: Pose;
  readonly camera: Camera;
  readonly marked: readonly Marked[];
  /** 35 mm equivalent as the file tells it, mm; null where it does not. */
  readonly focalLength: number | null;
}

/** A set of photographs as a sheet holds it, with the truth beside it. */
export interface Drawn {
  readonly state: BuildState;
  /** Truck axes, or the hammer's own: ahead, left, height, m. */
  readonly cg: Vector;
  readonly shots: readonly Shot[];
}

/** From the camera to the plane through string or wheels, m. */
const distanceOf = ({ camera, view }: Shot): number =>
  Math.abs(view === 'right' ? camera.position[1] : camera.position[0]);

const mark = (draw: Random, role: MarkRole, { x, y }: Pixel, sigma: number): Mark => {
  const [dx, dy] = [sigma * draw.normal(), sigma * draw.normal()];
  return { role, x: x + dx, y: y + dy, plusMinus: '', counted: true, source: 'hand' };
};

/** A photograph as the sheet holds it, its marks off by what it states or exact. Every mark must lie in the picture. */
export const pictureOf = (draw: Random, shot: Shot, without: Without): Picture => {
  const { camera, pose } = shot;
  const seen: { role: MarkRole; pixel: Pixel }[] = shot.marked.map(({ role, place }) => ({
    role,
    pixel: project(camera, inWorld(pose, place)),
  }));
  if (shot.hanging) {
    const { lower, upper } = stringEnds(camera);
    seen.push({ role: 'string upper', pixel: upper }, { role: 'string lower', pixel: lower });
  }
  for (const { role, pixel } of seen)
    if (!isInside(camera, pixel))
      throw new Error(
        `${role} of ${shot.id} lies outside its picture: ${pixel.x.toFixed(0)}, ${pixel.y.toFixed(0)}.`,
      );
  return {
    ...emptyPicture(shot.hanging ? 'hanging' : 'standing', camera.width, camera.height),
    id: shot.id,
    name: shot.id,
    view: shot.view,
    focalLength: { ...emptyGiven('mm'), text: shot.focalLength === null ? '' : String(shot.focalLength) },
    distance: without.has('distance')
      ? { ...emptyGiven('m'), text: distanceOf(shot).toFixed(3), plusMinus: '0.1' }
      : emptyGiven('m'),
    markPlusMinus: { ...emptyGiven('px'), text: String(COVERAGE * MARK_SIGMA) },
    hook: shot.hook,
    suspension: shot.suspension,
    marks: seen.map(({ role, pixel }) => mark(draw, role, pixel, without.has('marks') ? 0 : MARK_SIGMA)),
  };
};
