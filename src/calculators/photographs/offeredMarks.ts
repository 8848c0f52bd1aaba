import { fitSimilarity } from '../../photo/camera';
import type { BuildState, MarkRole, Picture } from '../../sheet/schema';
import { rolesOf } from './roleSlots';
import { rounded, type Place } from './surfaceView';

/**
 * Places at which a picture's points may lie, by another picture of the same view: a start, not a measurement. None
 * is in the sheet, and none counts, until the reader accepts it or moves it.
 */
export interface Offer {
  /** The picture the places come from. */
  readonly from: Picture;
  /** 'similarity': laid over the points already marked here; 'layout': as they lie there, scaled to this picture. */
  readonly by: 'similarity' | 'layout';
  readonly marks: readonly OfferedMark[];
}

export interface OfferedMark {
  readonly role: MarkRole;
  readonly place: Place;
}

/** Two marks turn and scale the others: nearer together than this share of the picture, they would throw them off. */
const LEAST_APART = 0.04;

/**
 * What another picture offers for the points of `picture` that are not placed; null where nothing is to be had.
 * Of the pictures of the same view the most recently marked one is taken: the first of `recent`, ids, else the last in
 * the list.
 */
export function offerFor(state: BuildState, picture: Picture, recent: readonly string[]): Offer | null {
  if (picture.kind === 'unsorted') return null;
  const open = rolesOf(state, picture).filter(({ role, placed }) => !placed && staysOnBody(role));
  const rank = ({ id }: Picture) => (recent.includes(id) ? recent.indexOf(id) : Infinity);
  const from = state.pictures
    .filter((other) => other.id !== picture.id && other.kind !== 'unsorted' && other.view === picture.view)
    .toReversed()
    .toSorted((a, b) => compare(rank(a), rank(b)))
    .find((other) => bodyMarks(other) >= 2 && open.some(({ role }) => markIn(other, role)));
  if (!from) return null;
  const shared = picture.marks.flatMap(({ role, x, y }) => {
    const there = staysOnBody(role) && rigid(state, [picture, from], role) ? markIn(from, role) : undefined;
    return there ? [{ there, here: { x, y } }] : [];
  });
  const carried = similarity(shared, from, picture) ?? layout(from, picture);
  const marks = open.flatMap(({ role }) => {
    const there = markIn(from, role);
    if (!there || !rigid(state, [picture, from], role)) return [];
    const place = carried.carry(there);
    // Outside the picture there is nothing to mark.
    return isInside(place, picture) ? [{ role, place: rounded(place) }] : [];
  });
  return marks.length === 0 ? null : { from, by: carried.by, marks };
}

const isInside = ({ x, y }: Place, { width, height }: Picture): boolean =>
  x >= 0 && y >= 0 && x <= width && y <= height;

const compare = (a: number, b: number): number => (a === b ? 0 : a - b);

const markIn = ({ marks }: Picture, role: MarkRole) =>
  marks.find((mark) => mark.role === role && mark.counted);

const bodyMarks = ({ marks }: Picture): number => marks.filter(({ role }) => role.startsWith('mark ')).length;

/** Points of the truck itself; ends of a string and feet on the ground lie elsewhere in every picture. */
const staysOnBody = (role: MarkRole): boolean =>
  /^(mark|hook|scale|base|tire) /.test(role) || role.endsWith(' hub');

/** What an axle carries keeps its place in the body only where the suspension is locked, or the truck stands. */
function rigid({ hooks, body }: BuildState, pictures: readonly Picture[], role: MarkRole): boolean {
  const onAxle =
    role.endsWith(' hub') || hooks.some(({ id, carrier }) => role === `hook ${id}` && carrier !== 'body');
  const droops = pictures.some(({ kind, suspension }) => kind === 'hanging' && suspension === 'free');
  return !(onAxle && droops && body === 'truck');
}

interface Carried {
  readonly by: Offer['by'];
  readonly carry: (place: Place) => Place;
}

function similarity(
  shared: readonly { readonly there: Place; readonly here: Place }[],
  from: Picture,
  to: Picture,
): Carried | null {
  const spread = (places: readonly Place[], { width, height }: Picture) =>
    Math.max(...places.map(({ x, y }) => Math.hypot(x - (places[0]?.x ?? x), y - (places[0]?.y ?? y)))) /
    Math.hypot(width, height);
  const [there, here] = [shared.map((pair) => pair.there), shared.map((pair) => pair.here)];
  if (shared.length < 2 || spread(there, from) < LEAST_APART || spread(here, to) < LEAST_APART) return null;
  const fit = fitSimilarity(there, here);
  if (!fit) return null;
  const [cos, sin] = [fit.scale * Math.cos(fit.rotation), fit.scale * Math.sin(fit.rotation)];
  return {
    by: 'similarity',
    carry: ({ x, y }) => ({ x: cos * x - sin * y + fit.shiftX, y: sin * x + cos * y + fit.shiftY }),
  };
}

/** The earlier picture laid into this one as large as it goes, its shape kept. */
function layout(from: Picture, to: Picture): Carried {
  const scale = Math.min(to.width / from.width, to.height / from.height);
  const shiftX = (to.width - scale * from.width) / 2;
  const shiftY = (to.height - scale * from.height) / 2;
  return { by: 'layout', carry: ({ x, y }) => ({ x: scale * x + shiftX, y: scale * y + shiftY }) };
}
