import { meters } from '../physics';
import type { Estimate, Length } from '../physics';
import { hubDepth, truckMass, unsprungMass, USUAL_AXLE_SHARE } from '../sheet/derived';
import { FIELDS } from '../sheet/fields';
import { isEmpty, labeled, readGiven } from '../sheet/given';
import type { GivenField } from '../sheet/given';
import { called } from '../sheet/givens';
import type { BodyMark, BuildState, Given, Hook, MarkRole, Picture } from '../sheet/schema';
import type { HangingPicture, HookGivens, MarkPlace, StandingPicture, TruckGivens } from './fit/givens';
import { counted, PictureReader } from './readPicture';
import { tied } from './tied';
import { isSide } from './views';

/**
 * From a build state as typed to what the fit of pictures takes: everything in SI and truck axes, and the list of what
 * the pictures still miss, in the order in which a reader would measure it.
 */

export interface Missing {
  /** What is missing, as the end of "Still needed: …". */
  readonly what: string;
  /** Page and anchor where it can be entered. */
  readonly href: string;
  /** The mark to place, where it is one. */
  readonly picture?: string;
  readonly role?: MarkRole;
}

/** Something that stops the answer at a field or picture, in words. */
export interface Fault {
  readonly message: string;
  readonly href: string;
}

export interface StateReadings {
  /** What the pictures on the sheet still miss to give their lines; how many hangs are enough is for others to say. */
  readonly missing: readonly Missing[];
  readonly faults: readonly Fault[];
  /** Counted standing pictures that are complete, from every side. */
  readonly standings: readonly StandingPicture[];
  /** Counted hanging pictures that are complete, from every side. */
  readonly hangs: readonly HangingPicture[];
  /** Number of counted hanging pictures, complete or not. */
  readonly hanging: number;
  readonly truck: TruckGivens | null;
  /** Of the pictures from a side: +1 seen from the right (nose to the right in the picture), −1 seen from the left. */
  readonly noseDirection: 1 | -1;
  /** Left of center, before anything is measured. */
  readonly lateral: Estimate<Length>;
  readonly wheelbase: Estimate<Length> | null;
  /** Hanging pictures seen from a side that no standing picture shows; they cannot be joined to the others. */
  readonly otherSide: readonly string[];
  /** Hanging pictures from an end or the top whose suspension was free, so that an axle may have rolled. */
  readonly rolledAxles: readonly string[];
  /** What the reader calls each hook, by id. */
  readonly hookNames: ReadonlyMap<string, string>;
}

export const PHOTOGRAPHS_HREF = 'resultant-lines.html#e3';
export const TRUCK_HREF = 'index.html#truck';

/** The near foot of a tire stands about as far out as its hub; where the reader clicked on it is less sure. */
const GROUND_DEPTH_U = 0.01;
/** Lateral place of the CG where what was typed cannot be read: the field's own usual value. */
const LATERAL_UNREAD = { value: meters(0), u: 0.005 };
/** Wheelbase while only two points of known distance give the scale. */
const WHEELBASE_UNREAD: Estimate = { value: 0.3, u: 0.1 };
/** A body mark that no picture from a side shows may lie anywhere across the truck, m. */
const ACROSS_UNREAD: Estimate = { value: 0, u: 0.1 };

/** The side that a state's pictures are taken from: of the first standing one, else of the first at all. */
function mainSide(pictures: readonly Picture[]): 'left' | 'right' {
  const sides = pictures.filter(
    ({ counted: counts, kind, view }) => counts && kind !== 'unsorted' && isSide(view),
  );
  const first = sides.find(({ kind }) => kind === 'standing') ?? sides[0];
  return first?.view === 'left' ? 'left' : 'right';
}

export function readState(state: BuildState): StateReadings {
  const missing: Missing[] = [];
  const faults: Fault[] = [];
  const read: Read = (given, field, href) => {
    const result = readGiven(given, field);
    if (result.ok) return result.value;
    if (result.reason !== 'empty') faults.push({ message: result.message, href });
    return null;
  };
  const need = (what: string, picture?: Picture, role?: MarkRole) => {
    // Two pictures may want the same third one.
    if (!picture && missing.some((other) => other.what === what)) return;
    missing.push({
      what,
      href: PHOTOGRAPHS_HREF,
      ...(picture ? { picture: picture.id } : {}),
      ...(role ? { role } : {}),
    });
  };
  const { dimensions } = state;
  const isObject = state.body === 'object';
  const wheelbase = isObject ? null : read(dimensions.wheelbase, FIELDS.wheelbase, PHOTOGRAPHS_HREF);
  // An object has no tires: a size left over from a truck must not stop its answer.
  const [frontTireRadius, rearTireRadius] = isObject
    ? [null, null]
    : [
        read(dimensions.frontTireRadius, FIELDS.frontTireRadius, PHOTOGRAPHS_HREF),
        read(dimensions.rearTireRadius, FIELDS.rearTireRadius, PHOTOGRAPHS_HREF),
      ];
  const lateral = read(state.lateral, FIELDS.lateral, TRUCK_HREF) ?? LATERAL_UNREAD;
  const rulerZero = read(state.instruments.rulerZero, FIELDS.rulerZero, TRUCK_HREF);
  const main = mainSide(state.pictures);
  const nose = main === 'right' ? 1 : -1;
  // An object has one visible side, whatever the pictures say.
  const shown = state.pictures
    .filter(({ counted: counts, kind }) => counts && kind !== 'unsorted')
    .map((picture): Picture => (isObject ? { ...picture, view: 'right' } : picture));
  const standingPictures = shown.filter(({ kind }) => kind === 'standing');
  const hangingPictures = shown.filter(({ kind }) => kind === 'hanging');
  const hookNames = new Map(state.hooks.map(({ id, name }, index) => [id, called(name, 'Hook', index)]));
  const twoPoints = isObject || state.scaleFrom === 'two points';
  if (!wheelbase && !twoPoints) missing.push({ what: 'the wheelbase', href: PHOTOGRAPHS_HREF });
  const reader = new PictureReader(state, {
    read,
    need,
    faults,
    isObject,
    twoPoints,
    href: PHOTOGRAPHS_HREF,
  });

  const marksMeasured = state.bodyMarks.filter(
    ({ ahead, height }) => !isEmpty(ahead) && !isEmpty(height),
  ).length;
  /** Sides of which a picture shows where the truck's axes lie. */
  const placed = new Set(standingPictures.map(({ view }) => view).filter(isSide));
  const onlyEnds = hangingPictures.length > 0 && !hangingPictures.some(({ view }) => isSide(view));
  // Hangs seen from the rear, the front or the top have their axes from a standing picture of the same view.
  const ends = onlyEnds && standingPictures.length > 0;
  if (isObject) needOwnAxes(state, shown, need);
  else if (placed.size === 0 && marksMeasured < 2 && !ends) needTruckAxes(hangingPictures, need);
  const hubbed = (picture: Picture) =>
    picture.suspension === 'locked' && counted(picture, 'rear hub') && counted(picture, 'front hub');
  for (const picture of hangingPictures) {
    const { view } = picture;
    if (isSide(view) && hubbed(picture)) placed.add(view);
  }
  const grounded =
    isObject ||
    (frontTireRadius && rearTireRadius) ||
    standingPictures.some((picture) => counted(picture, 'ground rear') && counted(picture, 'ground front'));
  const names = new Map([
    ...standingPictures.map(({ id, name }, index) => [id, called(name, 'Standing picture', index)] as const),
    ...hangingPictures.map(({ id, name }, index) => [id, called(name, 'Hang', index)] as const),
  ]);
  const standings = standingPictures.flatMap((picture) => {
    const name = names.get(picture.id) ?? '';
    return reader.standing(picture, name, { radiiKnown: Boolean(frontTireRadius && rearTireRadius) }) ?? [];
  });
  if (twoPoints && isEmpty(state.scaleDistance)) need('the distance of the two points');
  if (!grounded && standingPictures.length === 0 && hangingPictures.some(hubbed))
    need('the radii of the tires');
  if (shown.length > 0 && state.bodyMarks.length < 2) need('two body marks at least');
  const otherSide =
    isObject || marksMeasured >= 2 || placed.size === 0
      ? []
      : hangingPictures.flatMap(({ id, view }) => (isSide(view) && !placed.has(view) ? [id] : []));
  const rolledAxles = isObject
    ? []
    : hangingPictures
        .filter(({ view, suspension }) => !isSide(view) && suspension === 'free')
        .map(({ id }) => id);
  // A hook that no counted picture hangs by decides nothing; of an object the string alone tells the line.
  const hooks = (isObject ? [] : state.hooks)
    .filter(({ id }) => hangingPictures.some(({ hook }) => hook === id))
    .flatMap((hook) => hookGivens(hook, hookNames.get(hook.id) ?? 'Hook', standings, read) ?? []);
  const hangs = hangingPictures.flatMap((picture) => {
    if (otherSide.includes(picture.id) || rolledAxles.includes(picture.id)) return [];
    const name = names.get(picture.id) ?? '';
    const others = shown.filter(({ id }) => id !== picture.id);
    return reader.hanging(picture, name, { hooks, others }) ?? [];
  });

  const truck = truckOf();
  // A picture that nothing ties to the truck must not keep the others from an answer.
  const ids = tied(truck?.marks ?? new Map(), [...standings, ...hangs]);
  const isTied = ({ id }: { readonly id: string }) => ids.size === 0 || ids.has(id);
  if (truck)
    for (const picture of shown)
      if ([...standings, ...hangs].some(({ id }) => id === picture.id) && !isTied(picture))
        reader.untied(picture, names.get(picture.id) ?? '', shown.filter(isTied));
  return {
    missing,
    faults,
    standings: truck ? standings.filter(isTied) : standings,
    hangs: truck ? hangs.filter(isTied) : hangs,
    hanging: hangingPictures.length,
    truck,
    noseDirection: isObject ? 1 : nose,
    lateral,
    wheelbase,
    otherSide,
    rolledAxles,
    hookNames,
  };

  function truckOf(): TruckGivens | null {
    const scaleDistance = twoPoints
      ? read(state.scaleDistance, FIELDS.scaleDistance, PHOTOGRAPHS_HREF)
      : null;
    const scaleDepth = twoPoints ? depthOf(state.scaleDepth, FIELDS.scaleDepth) : null;
    const marks = new Map<string, MarkPlace>();
    for (const mark of state.bodyMarks) {
      // Where nobody sees it, what was typed of it decides nothing.
      if (!shown.some((picture) => counted(picture, `mark ${mark.key}`))) continue;
      const place = markPlace(mark);
      if (place) marks.set(mark.key, place);
    }
    const axles = isObject ? NO_AXLES : axleShares(state, read);
    const unsprung = axles.front.value + axles.rear.value;
    if (unsprung > 1)
      faults.push({
        message: `Unsprung mass: needs front and rear together below the truck’s mass; got ${Math.round(100 * unsprung)} % of it. Weigh axle, wheels, tires and half the links, or leave both empty.`,
        href: TRUCK_HREF,
      });
    const common = {
      ...(rulerZero ? { rulerZero } : {}),
      marks,
      hooks,
      frontMassShare: axles.front,
      rearMassShare: axles.rear,
      lateral,
    };
    if (isObject) {
      if (!scaleDistance || !scaleDepth) return null;
      return {
        ...common,
        axes: 'own',
        wheelbase: scaleDistance,
        hubDepth: scaleDepth,
        groundDepth: scaleDepth,
      };
    }
    const depth = hubDepth(state);
    if (!depth.ok) faults.push({ message: depth.message, href: PHOTOGRAPHS_HREF });
    const scaleReady = wheelbase !== null || (scaleDistance !== null && scaleDepth !== null);
    if (!scaleReady || !depth.ok) return null;
    // A track that no picture needs has its message elsewhere.
    const tracks = shown.some(({ view }) => !isSide(view));
    const frontTrack = tracks ? read(dimensions.frontTrack, FIELDS.frontTrack, TRUCK_HREF) : null;
    const rearTrack = tracks ? read(dimensions.rearTrack, FIELDS.rearTrack, TRUCK_HREF) : null;
    return {
      ...common,
      axes: 'truck',
      wheelbase: wheelbase ?? WHEELBASE_UNREAD,
      ...(frontTrack ? { frontTrack } : {}),
      ...(rearTrack ? { rearTrack } : {}),
      ...(frontTireRadius ? { frontTireRadius } : {}),
      ...(rearTireRadius ? { rearTireRadius } : {}),
      hubDepth: depth.value,
      groundDepth: { value: depth.value.value, u: Math.hypot(depth.value.u, GROUND_DEPTH_U) },
      ...(scaleDistance && scaleDepth ? { scale: { distance: scaleDistance, depth: scaleDepth } } : {}),
    };
  }

  /** A depth toward the camera; of an object, unlike a truck, a little one while nothing is typed. */
  function depthOf(given: Given, field: GivenField<'length'>): Estimate | null {
    return read(given, isObject ? labeled(FIELDS.objectDepth, field.label) : field, PHOTOGRAPHS_HREF);
  }

  function markPlace(mark: BodyMark): MarkPlace | null {
    const { key } = mark;
    const depth = depthOf(mark.depth, labeled(FIELDS.markDepth, `Mark ${key}, depth`));
    const ahead = read(
      mark.ahead,
      labeled(FIELDS.markAhead, `Mark ${key}, ahead of the rear axle`),
      PHOTOGRAPHS_HREF,
    );
    const height = read(
      mark.height,
      labeled(FIELDS.markHeight, `Mark ${key}, above ground`),
      PHOTOGRAPHS_HREF,
    );
    if (!depth) return null;
    const side = shown.find((picture) => isSide(picture.view) && counted(picture, `mark ${key}`))?.view;
    const toward = (side ?? main) === 'left' ? 1 : -1;
    const untold = !side && isEmpty(mark.depth);
    return {
      left: untold ? ACROSS_UNREAD : { value: toward * depth.value, u: depth.u },
      ...(ahead ? { ahead } : {}),
      ...(height ? { height } : {}),
    };
  }
}

const NO_AXLES = { front: { value: 0, u: 0 }, rear: { value: 0, u: 0 } };

/** What is missing of an object's own axes: both of its points, in one picture. */
function needOwnAxes(state: BuildState, shown: readonly Picture[], need: Need): void {
  const has = (picture: Picture, role: MarkRole) => counted(picture, role) !== undefined;
  if (shown.some((picture) => has(picture, 'scale 1') && has(picture, 'scale 2'))) return;
  const begun = shown.find((picture) => has(picture, 'scale 1') || has(picture, 'scale 2')) ?? shown[0];
  if (!begun) {
    if (state.pictures.length === 0) need('a picture of it hanging');
    return;
  }
  for (const [role, what] of [
    ['scale 1', 'first'],
    ['scale 2', 'second'],
  ] as const)
    if (!has(begun, role)) need(`the ${what} of the two points of known distance`, begun, role);
}

/** Without a standing picture the hubs of a hang say where the truck's axes lie. */
function needTruckAxes(hangs: readonly Picture[], need: Need): void {
  const locked = hangs.filter(({ view, suspension }) => isSide(view) && suspension === 'locked');
  const begun =
    locked.find((picture) => counted(picture, 'rear hub') || counted(picture, 'front hub')) ?? locked[0];
  if (!begun || hangs.length < 2) {
    need('a side picture of the truck standing');
    return;
  }
  const open = (['rear hub', 'front hub'] as const).filter((role) => !counted(begun, role));
  for (const role of open)
    need(`the ${role}, in a hanging picture or one of the truck standing`, begun, role);
}

export type Need = (what: string, picture?: Picture, role?: MarkRole) => void;

export type Read = <D extends GivenField['dimension']>(
  given: Given,
  field: GivenField<D>,
  href: string,
) => ReturnType<typeof readQuietly<D>>;

const readQuietly = <D extends GivenField['dimension']>(given: Given, field: GivenField<D>) => {
  const result = readGiven(given, field);
  return result.ok ? result.value : null;
};

/** A hook whose place a ruler or a standing picture gives; null where neither does. */
function hookGivens(
  hook: Hook,
  name: string,
  standings: readonly StandingPicture[],
  read: Read,
): HookGivens | null {
  const left = read(hook.left, labeled(FIELDS.hookLeft, `${name}, left of center`), PHOTOGRAPHS_HREF);
  if (!left) return null;
  const own = { id: hook.id, carrier: hook.carrier, left };
  if (hook.source === 'standing picture')
    return standings.some(({ hooks }) => hooks.has(hook.id)) ? own : null;
  const ahead = read(
    hook.ahead,
    labeled(FIELDS.hookAhead, `${name}, ahead of the rear axle`),
    PHOTOGRAPHS_HREF,
  );
  const height = read(hook.height, labeled(FIELDS.hookHeight, `${name}, above ground`), PHOTOGRAPHS_HREF);
  return ahead && height ? { ...own, ruled: { ahead, height } } : null;
}

function axleShares(state: BuildState, read: Read): { front: Estimate; rear: Estimate } {
  // A typed mass that cannot be read must not give way to the usual one unseen.
  read(state.unsprungFront, FIELDS.unsprungFront, TRUCK_HREF);
  read(state.unsprungRear, FIELDS.unsprungRear, TRUCK_HREF);
  return { front: axleShare(state, 'front axle'), rear: axleShare(state, 'rear axle') };
}

/** Mass of an axle as a part of the truck's, from the sheet or, where it says nothing, common practice. */
export function axleShare(state: BuildState, axle: 'front axle' | 'rear axle'): Estimate {
  const whole = truckMass(state);
  if (!whole.ok) return USUAL_AXLE_SHARE;
  const own = unsprungMass(state, axle, whole);
  if (!own.ok || own.value.from === 'default') return USUAL_AXLE_SHARE;
  const { value, u } = own.value;
  const total = whole.value.value;
  return { value: value / total, u: Math.hypot(u / total, (value * whole.value.u) / total ** 2) };
}

/**
 * What is missing, hanging pictures counted in where `hangsNeeded` asks for more than the sheet has: behind what
 * belongs to no picture, before the marks.
 */
export function missingWithHangs(
  { missing, hanging }: Pick<StateReadings, 'missing' | 'hanging'>,
  hangsNeeded: number,
): readonly Missing[] {
  const what = hangsInWords(hanging, hangsNeeded);
  if (what === null) return missing;
  const firstMark = missing.findIndex(({ picture }) => picture !== undefined);
  const at = firstMark < 0 ? missing.length : firstMark;
  return [...missing.slice(0, at), { what, href: PHOTOGRAPHS_HREF }, ...missing.slice(at)];
}

function hangsInWords(hanging: number, needed: number): string | null {
  if (hanging >= needed) return null;
  if (hanging > 0) return hanging === 1 ? 'a second picture of it hanging' : 'another picture of it hanging';
  return needed === 1 ? 'a picture of it hanging' : 'two pictures of it hanging';
}
