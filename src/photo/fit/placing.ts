import { prior, refusal, success } from '../../physics';
import type { Result } from '../../physics';
import { unproject } from '../camera';
import type { Camera, PixelPoint, ViewPoint } from '../camera';
import { TRUCK_IN_VIEW, isSide, toTruck } from '../views';
import type { TruckPoint } from '../views';
import { Cameras, originDistance } from './cameras';
import type { HangingPicture, MarkedPoint, PictureGivens, StandingPicture, TruckGivens } from './givens';
import { solvePose } from '../pose/solvePose';
import { linearPlace } from './sightings';
import type { SeenBy } from './sightings';
import { startCamera } from './startCamera';
import { hubPlace, inView, tirePlace } from './truckUnknowns';
import type { TruckPlace, TruckUnknowns } from './truckUnknowns';
import { ruled } from './unknowns';
import type { Gathering } from './unknowns';

/**
 * Finds where every picture's camera and every body mark start: first the pictures that show the truck's own axes, then
 * those that share two points with what is known by then, until all stand.
 */

/** The unknowns of a place in truck axes: three in a row. */
export const freePlace = (index: number): TruckPlace => [
  { axis: 'x', unknown: index },
  { axis: 'y', unknown: index + 1 },
  { axis: 'z', unknown: index + 2 },
];

export interface PlacedPicture {
  readonly name: string;
  readonly block: number;
  readonly seen: SeenBy;
  readonly start: Camera;
  /** The earlier picture that shows its marks; null for the first, and where a ruler alone placed them. */
  readonly reference: string | null;
}

export interface Placed {
  readonly pictures: ReadonlyMap<string, PlacedPicture>;
  /** Index of the first of three unknowns of each body mark that tells something. */
  readonly marks: ReadonlyMap<string, number>;
}

export type PlacingRefusal = 'too few marks' | 'marks coincide' | 'no axes';

/** Where a mark lies along the line of sight of pictures that alone show it, while nobody measured it, m. */
const BEHIND = { value: 0, u: 0.05 };
const ABOVE = { value: 0.15, u: 0.05 };

export interface NamedPicture {
  readonly name: string;
  readonly picture: StandingPicture | HangingPicture;
}

export function placePictures(
  g: Gathering,
  truck: TruckGivens,
  t: TruckUnknowns,
  named: readonly NamedPicture[],
  /** Whether a picture of four known points or more starts from its pose, however far off square it was taken. */
  fromPose: boolean,
): Result<Placed, PlacingRefusal> {
  const cameras = new Cameras(g);
  const pictures = new Map<string, PlacedPicture>();
  const marks = new Map<string, number>();
  /** The picture by which a mark was placed; null for one measured by ruler. */
  const placedBy = new Map<string, string | null>();
  const all = named.map(({ picture }) => picture);
  const isObject = truck.axes === 'own';
  const seenIn = (key: string) => all.filter(({ bodyMarks }) => bodyMarks.has(key));

  const addMark = (key: string, at: TruckPoint, by: string | null) => {
    const index = g.length(`mark ${key}: ahead`, at.x);
    g.length(`mark ${key}: left`, at.y);
    g.length(`mark ${key}: height`, at.z);
    const place = truck.marks.get(key);
    if (place) {
      const { left, ahead, height } = place;
      g.observe('depths', prior(`mark ${key}: left`, index + 1, left.value, left.u));
      const shows = (axis: 'x' | 'z') => seenIn(key).some(({ view }) => TRUCK_IN_VIEW[view][axis][0] !== 'c');
      if (ahead) g.observe('depths', ruled(`mark ${key}: ahead`, index, t.rulerZero, ahead));
      else if (!shows('x')) {
        const { value, u } = aheadUnread(key);
        g.observe('depths', prior(`mark ${key}: ahead`, index, value, u));
      }
      if (height) g.observe('depths', ruled(`mark ${key}: height`, index + 2, t.rulerZero, height));
      else if (!shows('z'))
        g.observe('depths', prior(`mark ${key}: height`, index + 2, ABOVE.value, ABOVE.u));
    }
    marks.set(key, index);
    placedBy.set(key, by);
  };
  /** Ahead of the rear axle, by the end from which alone a mark is seen. */
  const aheadUnread = (key: string) => ({
    ...BEHIND,
    value: seenIn(key).some(({ view }) => view === 'front') ? truck.wheelbase.value : BEHIND.value,
  });
  for (const [key, { left, ahead, height }] of truck.marks)
    if (ahead && height && seenIn(key).length > 0)
      addMark(key, { x: ahead.value, y: left.value, z: height.value }, null);

  /** Where a mark lies along the line of sight of a picture, before the fit. */
  const depthOf = (key: string, { view }: PictureGivens): number => {
    const place = truck.marks.get(key);
    if (isSide(view)) return (view === 'left' ? 1 : -1) * (place?.left.value ?? 0);
    const ahead = place?.ahead?.value ?? aheadUnread(key).value;
    if (view === 'top') return place?.height?.value ?? ABOVE.value;
    return (view === 'front' ? 1 : -1) * ahead;
  };
  const startOf = (place: TruckPlace, { view }: PictureGivens): ViewPoint =>
    linearPlace(inView(view, place)).at(Float64Array.from(g.unknowns, ({ start }) => start));

  type Anchor = { readonly at: ViewPoint; readonly pixel: MarkedPoint; readonly key: string | null };
  const anchorsOf = (picture: StandingPicture | HangingPicture) => {
    const { view, frontHub, rearHub, tires, bodyMarks } = picture;
    const own: Anchor[] = [];
    const see = (place: TruckPlace | null, pixel: MarkedPoint | undefined) => {
      if (place && pixel) own.push({ at: startOf(place, picture), pixel, key: null });
    };
    if (isSide(view) && !droops(picture)) {
      see(hubPlace(t, 'rear', view), rearHub);
      see(hubPlace(t, 'front', view), frontHub);
    }
    for (const [point, pixel] of tires ?? []) see(tirePlace(t, point, view), pixel);
    const shared: Anchor[] = [];
    for (const [key, pixel] of bodyMarks) {
      const index = marks.get(key);
      if (index !== undefined) shared.push({ at: startOf(freePlace(index), picture), pixel, key });
    }
    return { own, shared };
  };

  const place = (
    { name, picture }: NamedPicture,
    anchors: readonly Anchor[],
    reference: string | null,
  ): boolean => {
    const distance = originDistance(picture, truck);
    const square = startCamera(
      picture,
      distance,
      anchors.map(({ at }) => at),
      anchors.map(({ pixel }): PixelPoint => pixel),
    );
    if (!square) return false;
    const start = (fromPose ? poseStart(picture, distance, anchors) : null) ?? square;
    const block = pictures.size;
    const seen = cameras.add(name, picture, start, distance, block);
    pictures.set(picture.id, { name, block, seen, start, reference });
    for (const [key, pixel] of picture.bodyMarks)
      if (!marks.has(key) && seenIn(key).length > 1) {
        const at = unproject(start, pixel, depthOf(key, picture));
        addMark(key, toTruck(picture.view, at), picture.id);
      }
    return true;
  };

  let waiting = [...named];
  while (waiting.length > 0) {
    // Pictures that show the axes come first, standing ones before others as they were given.
    const ready = waiting.map((each) => ({ each, ...anchorsOf(each.picture) }));
    const next =
      ready.find(({ own }) => own.length >= 2) ??
      ready.find(({ own, shared }) => own.length + shared.length >= 2);
    if (!next) break;
    const { each, own, shared } = next;
    const by = shared.map(({ key }) => (key === null ? null : (placedBy.get(key) ?? null)));
    const reference = by.find((id) => id !== null) ?? null;
    const anchors = own.length >= 2 ? own : [...own, ...shared];
    if (!place(each, anchors, reference)) {
      const points = isObject ? 'points of known distance' : isSide(each.picture.view) ? 'hubs' : 'tires';
      return refusal(
        'marks coincide',
        own.length >= 2
          ? `Both ${points} of the picture “${each.name}” are marked at one point. Move them apart, each onto its own.`
          : `The body marks of the picture “${each.name}” lie on one point. Move each onto its own corner.`,
      );
    }
    waiting = waiting.filter((other) => other !== each);
  }
  const [left] = waiting;
  if (!left) return success({ pictures, marks });
  if (pictures.size === 0)
    return refusal(
      'no axes',
      isObject
        ? 'No picture shows both points of known distance. Mark them in one of them.'
        : 'No picture shows where the truck’s own axes lie. Mark both hubs in one of them, or measure where two of its body marks lie.',
    );
  const { own, shared } = anchorsOf(left.picture);
  const count = own.length + shared.length;
  const others = isSide(left.picture.view) && !isObject ? 'the standing picture' : 'the other pictures';
  return refusal(
    'too few marks',
    `The picture “${left.name}” shares ${count === 0 ? 'no body mark' : 'one body mark'} with ${others}; it needs two.`,
  );
}

/** How surely points start where they are held to be, m: a depth by eye, or what an earlier picture made of them. */
const START_U = 0.006;

/** The camera as four or more points of known place show it; null where they do not tell. */
function poseStart(
  { width, height, focal, distance: told }: PictureGivens,
  distance: number,
  anchors: readonly { readonly at: ViewPoint; readonly pixel: MarkedPoint }[],
): Camera | null {
  const pose = solvePose(
    anchors.map(({ at, pixel }) => ({
      place: at,
      u: [START_U, START_U, START_U],
      pixel,
      uPixel: pixel.u,
    })),
    { width, height, ...(focal ? { focal } : { distance: { value: distance, u: told.u } }) },
  );
  return pose.ok ? pose.value.camera : null;
}

/** Whether the axles of a picture's truck hang away from their place at ride height. */
export const droops = (picture: StandingPicture | HangingPicture): boolean =>
  'string' in picture && picture.suspension === 'free';
