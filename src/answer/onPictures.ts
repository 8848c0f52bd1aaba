import type { Estimate, Length, Result } from '../physics';
import { meters } from '../physics';
import { FLAT_ASIDE, USUAL_ASIDE, crossOnPictures } from '../photo/crossOnPictures';
import type { CrossingHang, PixelCrossing, PixelMark } from '../photo/crossOnPictures';
import { markUncertainty } from '../sheet/derived';
import { FIELDS } from '../sheet/fields';
import { readGiven } from '../sheet/given';
import type { BuildState, MarkRole, Picture, View } from '../sheet/schema';

/** What the hanging pictures of a state show by themselves, before any length is known. */

const crossings = new WeakMap<BuildState, Result<PixelCrossing> | null>();

/**
 * Where the strings of a state's hanging pictures cross, on the pictures; null while it has none that count. Pictures
 * of one view are crossed with each other, those of the view with most complete hangs. With free suspension the
 * crossing is that of the body with its axles hanging. The same state object gives the same result object.
 */
export function onPictures(state: BuildState): Result<PixelCrossing> | null {
  const held = crossings.get(state);
  if (held !== undefined) return held;
  const fresh = compute(state);
  crossings.set(state, fresh);
  return fresh;
}

function compute(state: BuildState): Result<PixelCrossing> | null {
  const hanging = state.pictures.filter(({ kind, counted }) => kind === 'hanging' && counted);
  if (hanging.length === 0) return null;
  const byView = new Map<View, CrossingHang[]>();
  for (const picture of hanging) {
    const hang = hangOf(state, picture);
    // An object has one visible side, whatever the pictures say.
    const view = state.body === 'object' ? 'right' : picture.view;
    if (hang) byView.set(view, [...(byView.get(view) ?? []), hang]);
  }
  const [most = []] = [...byView.values()].toSorted((a, b) => b.length - a.length);
  return crossOnPictures(most, { aside: state.body === 'object' ? FLAT_ASIDE : USUAL_ASIDE });
}

/** A counted mark of a picture with its uncertainty; null where it is not placed or its ± cannot be read. */
function markIn(picture: Picture, role: MarkRole): PixelMark | null {
  const mark = picture.marks.find((each) => each.role === role && each.counted);
  const u = mark ? markUncertainty(picture, mark) : null;
  return mark && u?.ok ? { x: mark.x, y: mark.y, u: u.value } : null;
}

/** A hang whose string is marked at both ends. */
function hangOf(state: BuildState, picture: Picture): CrossingHang | null {
  const upper = markIn(picture, 'string upper');
  const lower = markIn(picture, 'string lower');
  if (!upper || !lower) return null;
  const bodyMarks = new Map<string, PixelMark>();
  for (const { key } of state.bodyMarks) {
    const mark = markIn(picture, `mark ${key}`);
    if (mark) bodyMarks.set(key, mark);
  }
  return { id: picture.id, width: picture.width, height: picture.height, bodyMarks, string: [upper, lower] };
}

/** Length that one pixel of a picture spans, and what tells it. */
export interface PictureScale extends Estimate<Length> {
  readonly from: 'two points' | 'wheelbase';
}

/**
 * What stands 90 mm nearer than the plane of the center of gravity looks 6 % larger from 1.5 m; half of it as u. Of
 * flatter objects a third of that.
 */
const NEARER = { truck: 0.03, object: 0.01 } as const;

/**
 * Scale of a hanging picture from two points of known distance, or from the hubs and the wheelbase; null while
 * either is missing. Its u holds the marks', the length's, and that the points stand nearer to the camera.
 */
export function pictureScale(state: BuildState, picture: Picture): PictureScale | null {
  const byPoints = state.body === 'object' || state.scaleFrom === 'two points';
  const [first, second] = byPoints
    ? [markIn(picture, 'scale 1'), markIn(picture, 'scale 2')]
    : [markIn(picture, 'rear hub'), markIn(picture, 'front hub')];
  const length = byPoints
    ? readGiven(state.scaleDistance, FIELDS.scaleDistance)
    : readGiven(state.dimensions.wheelbase, FIELDS.wheelbase);
  if (!first || !second || !length.ok) return null;
  const apart = Math.hypot(first.x - second.x, first.y - second.y);
  if (!(apart > 0)) return null;
  const { value, u } = length.value;
  const relative = Math.hypot(u / value, first.u / apart, second.u / apart, NEARER[state.body]);
  return {
    value: meters(value / apart),
    u: (value / apart) * relative,
    from: byPoints ? 'two points' : 'wheelbase',
  };
}
