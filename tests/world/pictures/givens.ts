import { emptyGiven, emptyPicture } from '../../../src/sheet/empty';
import type { Mark, MarkRole, Picture } from '../../../src/sheet/schema';
import { project } from '../../demo/world/camera';
import type { Camera, Pixel } from '../../demo/world/camera';
import type { Random } from '../../demo/world/random';
import type { Vector } from '../../demo/world/vector';
import { inWorld, isInside, stringEnds } from './shots';
import type { Pose, Seen } from './shots';

/** From the truth to what a reader types and marks, off by the stated ± as often as it says. */

/** A ± holds 19 times in 20. */
export const COVERAGE = 1.96;

/** Standard deviation of a mark per coordinate, px. */
export const MARK_SIGMA = 1.5;

/** A number typed in thousandths of the SI unit (mm, g), off by its ± (in the same unit). */
export const typed = <Unit extends 'mm' | 'g'>(
  draw: Random,
  value: number,
  unit: Unit,
  plusMinus: number,
) => ({
  text: (1000 * value + (plusMinus / COVERAGE) * draw.normal()).toFixed(3),
  unit,
  plusMinus: String(plusMinus),
  kind: 'expanded' as const,
});

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

const mark = (draw: Random, role: MarkRole, { x, y }: Pixel, sigma: number): Mark => {
  const [dx, dy] = [sigma * draw.normal(), sigma * draw.normal()];
  return { role, x: x + dx, y: y + dy, plusMinus: '', counted: true, source: 'hand' };
};

/** A photograph as the sheet holds it, its marks off by what it states or exact. Every mark must lie in the picture. */
export const pictureOf = (draw: Random, shot: Shot, off = true): Picture => {
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
    focalLength: { ...emptyGiven('mm'), text: shot.focalLength === null ? '' : shot.focalLength.toFixed(2) },
    markPlusMinus: { ...emptyGiven('px'), text: String(COVERAGE * MARK_SIGMA) },
    hook: shot.hook,
    suspension: shot.suspension,
    marks: seen.map(({ role, pixel }) => mark(draw, role, pixel, off ? MARK_SIGMA : 0)),
  };
};
