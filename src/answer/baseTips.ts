import { radians } from '../physics';
import type { Angle, Estimate } from '../physics';
import { unproject } from '../photo/camera';
import type { PictureAdjustment } from '../photo/fit/adjustPictures';
import { toTruck } from '../photo/views';
import { markUncertainty } from '../sheet/derived';
import type { BuildState, Picture } from '../sheet/schema';
import type { CgEstimate } from './cgEstimate';

/** How far an object leans before it tips over either end of the base it stands on. */

export interface BaseTip {
  readonly base: 1 | 2;
  /** From standing on both ends to its center of gravity above this one. */
  readonly angle: Estimate<Angle>;
}

interface BasePoint {
  readonly x: number;
  readonly z: number;
  /** Standard uncertainty of each coordinate, m. */
  readonly u: number;
}

/** Step of the derivatives, m: far below every uncertainty, far above rounding. */
const STEP = 1e-6;

/**
 * Tip angles over both ends of an object's base, marked in one counted picture, in the plane of the picture: atan of the
 * distance along the base over the height above it. Uncertainty to first order from the center of gravity's covariance
 * and both marks (JCGM 100:2008, 5.2.2). Below zero where it falls over that end by itself. Null for a truck, without both marks, or
 * where the center of gravity lies on the line through both.
 */
export function baseTips(
  state: BuildState,
  adjusted: PictureAdjustment | null,
  cg: CgEstimate,
): readonly BaseTip[] | null {
  if (state.body !== 'object' || !adjusted) return null;
  const shown = state.pictures.find(
    (picture) =>
      picture.counted && baseMark(picture, 1) && baseMark(picture, 2) && adjusted.cameras.has(picture.id),
  );
  const first = shown && placeOf(shown, 1, adjusted);
  const second = shown && placeOf(shown, 2, adjusted);
  if (!first || !second) return null;
  const start = [cg.ahead.value, cg.height.value, first.x, first.z, second.x, second.z];
  const variances = [
    cg.covariance[0]?.[0],
    cg.covariance[2]?.[2],
    first.u ** 2,
    first.u ** 2,
    second.u ** 2,
    second.u ** 2,
  ];
  const tips = ([1, 2] as const).map((base): BaseTip | null => {
    const value = tipAngle(start, base);
    if (value === null) return null;
    const slopes = start.map((_, i) => {
      const moved = (by: number) =>
        tipAngle(
          start.map((each, k) => (k === i ? each + by : each)),
          base,
        ) ?? NaN;
      return (moved(STEP) - moved(-STEP)) / (2 * STEP);
    });
    const own = slopes.reduce((sum, slope, i) => sum + slope ** 2 * (variances[i] ?? NaN), 0);
    const together = 2 * (slopes[0] ?? 0) * (slopes[1] ?? 0) * (cg.covariance[0]?.[2] ?? NaN);
    return { base, angle: { value: radians(value), u: Math.sqrt(Math.max(0, own + together)) } };
  });
  return tips.every((tip) => tip !== null) ? tips : null;
}

const baseMark = (picture: Picture, base: 1 | 2) =>
  picture.marks.find(({ role, counted }) => role === `base ${base}` && counted);

function placeOf(
  picture: Picture,
  base: 1 | 2,
  { cameras, layout, adjustment }: PictureAdjustment,
): BasePoint | null {
  const mark = baseMark(picture, base);
  const camera = cameras.get(picture.id);
  const u = mark && markUncertainty(picture, mark);
  if (!mark || !camera || !u?.ok) return null;
  // The base is seen about as far in front of the object's middle as its own two points.
  const depth = adjustment.unknowns[layout.hubDepth] ?? 0;
  const { x, z } = toTruck('right', unproject(camera, mark, depth));
  return { x, z, u: u.value / camera.scale };
}

/** Null where the center of gravity lies on the line through both ends, or between them there is no length. */
function tipAngle(p: readonly number[], base: 1 | 2): number | null {
  const [x = NaN, z = NaN, x1 = NaN, z1 = NaN, x2 = NaN, z2 = NaN] = p;
  const length = Math.hypot(x2 - x1, z2 - z1);
  const [ax, az] = [(x2 - x1) / length, (z2 - z1) / length];
  const along = (x - x1) * ax + (z - z1) * az;
  // Which side of its base an object is on does not matter: it stands with that side up.
  const above = Math.abs((z - z1) * ax - (x - x1) * az);
  if (!(above > 0)) return null;
  return Math.atan2(base === 1 ? along : length - along, above);
}
