import { meters } from '../physics';
import type { Estimate, Length } from '../physics';
import { hubDepth, markUncertainty, truckMass, unsprungMass, USUAL_AXLE_SHARE } from '../sheet/derived';
import { FIELDS } from '../sheet/fields';
import { isEmpty, labeled, readGiven } from '../sheet/given';
import type { GivenField } from '../sheet/given';
import { called } from '../sheet/givens';
import type { BuildState, Given, Hook, Mark, MarkRole, Picture } from '../sheet/schema';
import type { HangingPicture, HookGivens, MarkedPoint, StandingPicture, TruckGivens } from './adjustPictures';

/**
 * From a build state as typed to what the picture adjustment takes: everything in SI and view axes, and the list of
 * what the pictures still miss, in the order in which a reader would measure it.
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
  readonly standing: StandingPicture | null;
  /** Counted hanging pictures that are complete. */
  readonly hangs: readonly HangingPicture[];
  /** Number of counted hanging pictures, complete or not. */
  readonly hanging: number;
  readonly truck: TruckGivens | null;
  /** +1 seen from the right (nose to the right in the picture), −1 seen from the left. */
  readonly noseDirection: 1 | -1;
  /** Left of center, before anything is measured. */
  readonly lateral: Estimate<Length>;
  readonly wheelbase: Estimate<Length> | null;
  /** Hanging pictures seen from the other side than the standing one; they cannot be joined to it. */
  readonly otherSide: readonly string[];
  /** Counted standing pictures beside the first, which alone is used. */
  readonly moreStanding: readonly string[];
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

const counted = (picture: Picture, role: MarkRole): Mark | undefined =>
  picture.marks.find((mark) => mark.role === role && mark.counted);

export function readState(state: BuildState): StateReadings {
  const missing: Missing[] = [];
  const faults: Fault[] = [];
  const read = <D extends GivenField['dimension']>(given: Given, field: GivenField<D>, href: string) => {
    const result = readGiven(given, field);
    if (result.ok) return result.value;
    if (result.reason !== 'empty') faults.push({ message: result.message, href });
    return null;
  };
  const { dimensions } = state;
  const wheelbase = read(dimensions.wheelbase, FIELDS.wheelbase, PHOTOGRAPHS_HREF);
  const frontTireRadius = read(dimensions.frontTireRadius, FIELDS.frontTireRadius, PHOTOGRAPHS_HREF);
  const rearTireRadius = read(dimensions.rearTireRadius, FIELDS.rearTireRadius, PHOTOGRAPHS_HREF);

  const lateral = read(state.lateral, FIELDS.lateral, TRUCK_HREF) ?? LATERAL_UNREAD;
  const rulerZero = read(state.instruments.rulerZero, FIELDS.rulerZero, TRUCK_HREF);

  const [standing, ...moreStanding] = state.pictures.filter(
    (picture) => picture.kind === 'standing' && picture.counted,
  );
  const hanging = state.pictures.filter((picture) => picture.kind === 'hanging' && picture.counted);
  const hookNames = new Map(state.hooks.map(({ id, name }, index) => [id, called(name, 'Hook', index)]));
  const base = {
    missing,
    faults,
    hanging: hanging.length,
    lateral,
    wheelbase,
    moreStanding: moreStanding.map(({ id }) => id),
    hookNames,
  };
  const need = (what: string, picture?: Picture, role?: MarkRole) =>
    missing.push({
      what,
      href: PHOTOGRAPHS_HREF,
      ...(picture ? { picture: picture.id } : {}),
      ...(role ? { role } : {}),
    });
  const twoPoints = state.scaleFrom === 'two points';
  if (!wheelbase && !twoPoints) missing.push({ what: 'the wheelbase', href: PHOTOGRAPHS_HREF });
  if (!standing) need('a side picture of the truck standing');
  const nose = (standing?.view ?? hanging[0]?.view ?? 'right') === 'right' ? 1 : -1;
  const otherSide = standing ? hanging.filter(({ view }) => view !== standing.view).map(({ id }) => id) : [];

  const pointOf = (picture: Picture, mark: Mark | undefined): MarkedPoint | undefined => {
    if (!mark) return undefined;
    const u = markUncertainty(picture, mark);
    if (!u.ok) {
      faults.push({ message: u.message, href: PHOTOGRAPHS_HREF });
      return undefined;
    }
    return { x: mark.x, y: mark.y, u: u.value };
  };
  const bodyMarksOf = (picture: Picture) => {
    const marks = new Map<string, MarkedPoint>();
    for (const { key } of state.bodyMarks) {
      const point = pointOf(picture, counted(picture, `mark ${key}`));
      if (point) marks.set(key, point);
    }
    return marks;
  };
  const viewOf = (picture: Picture, name: string) => {
    const distance = read(
      picture.distance,
      labeled(FIELDS.distance, `${name}, camera distance`),
      PHOTOGRAPHS_HREF,
    );
    const oblique = read(
      picture.oblique,
      labeled(FIELDS.oblique, `${name}, view off square`),
      PHOTOGRAPHS_HREF,
    );
    const twist = read(picture.twist, labeled(FIELDS.twist, `${name}, twist`), PHOTOGRAPHS_HREF);
    if (!distance || !oblique || !twist) return null;
    // To which side the view is off is not asked; a typed size widens what the fit must allow.
    return {
      distance,
      oblique: Math.hypot(oblique.value, oblique.u),
      twist: Math.hypot(twist.value, twist.u),
      width: picture.width,
      height: picture.height,
    };
  };

  let standingReading: StateReadings['standing'] = null;
  if (standing) {
    const name = called(standing.name, 'Standing picture', 0);
    const view = viewOf(standing, name);
    const rearHub = pointOf(standing, counted(standing, 'rear hub'));
    const frontHub = pointOf(standing, counted(standing, 'front hub'));
    if (!rearHub) need(`the rear hub in ${name}`, standing, 'rear hub');
    if (!frontHub) need(`the front hub in ${name}`, standing, 'front hub');
    const groundRear = pointOf(standing, counted(standing, 'ground rear'));
    const groundFront = pointOf(standing, counted(standing, 'ground front'));
    if ((!frontTireRadius || !rearTireRadius) && (!groundRear || !groundFront)) {
      if (!groundRear) need(`the ground under the rear tire in ${name}`, standing, 'ground rear');
      if (!groundFront) need(`the ground under the front tire in ${name}`, standing, 'ground front');
    }
    const scale1 = pointOf(standing, counted(standing, 'scale 1'));
    const scale2 = pointOf(standing, counted(standing, 'scale 2'));
    if (twoPoints) {
      if (!scale1) need(`the first point of known distance in ${name}`, standing, 'scale 1');
      if (!scale2) need(`the second point of known distance in ${name}`, standing, 'scale 2');
      if (isEmpty(state.scaleDistance)) need('the distance of the two points');
    }
    const bodyMarks = bodyMarksOf(standing);
    const spare = state.bodyMarks.filter(({ key }) => !bodyMarks.has(key));
    for (const { key } of spare.slice(0, Math.max(0, 2 - bodyMarks.size)))
      need(`mark ${key} in ${name}`, standing, `mark ${key}`);
    if (state.bodyMarks.length < 2) need('two body marks at least');
    const hooks = new Map<string, MarkedPoint>();
    for (const hook of state.hooks) {
      const point = pointOf(standing, counted(standing, `hook ${hook.id}`));
      if (point) hooks.set(hook.id, point);
      else if (hook.source === 'standing picture' && hanging.some((picture) => picture.hook === hook.id))
        need(`the ${hook.name || 'hook'} in ${name}`, standing, `hook ${hook.id}`);
    }
    if (view && rearHub && frontHub) {
      standingReading = {
        ...view,
        id: standing.id,
        rearHub,
        frontHub,
        ground: [groundRear, groundFront].filter((point) => point !== undefined),
        bodyMarks,
        hooks,
        ...(twoPoints && scale1 && scale2 ? { scalePoints: [scale1, scale2] as const } : {}),
      };
    }
  }

  const hangs: HangingPicture[] = [];
  for (const [index, picture] of hanging.entries()) {
    if (otherSide.includes(picture.id)) continue;
    const name = called(picture.name, 'Hang', index);
    const view = viewOf(picture, name);
    const upper = pointOf(picture, counted(picture, 'string upper'));
    const lower = pointOf(picture, counted(picture, 'string lower'));
    if (!upper) need(`the upper end of the string in ${name}`, picture, 'string upper');
    if (!lower) need(`the lower end of the string in ${name}`, picture, 'string lower');
    const bodyMarks = bodyMarksOf(picture);
    const shared = [...bodyMarks.keys()].filter((key) => standingReading?.bodyMarks.has(key));
    if (standing && shared.length < 2) {
      const spare = state.bodyMarks.filter(({ key }) => !bodyMarks.has(key)).slice(0, 2 - shared.length);
      for (const { key } of spare) need(`mark ${key} in ${name}`, picture, `mark ${key}`);
    }
    const hook = state.hooks.find(({ id }) => id === picture.hook);
    if (!hook) need(`the hook of ${name}`, picture);
    const place = hook && hookGivens(hook, hookNames.get(hook.id) ?? 'Hook', standingReading, nose, read);
    if (hook?.source === 'ruler' && !place && (isEmpty(hook.ahead) || isEmpty(hook.height)))
      need(`the place of the ${hook.name || 'hook'}`, picture);
    if (!view || !upper || !lower || !hook || !place || shared.length < 2) continue;
    if (upper.x === lower.x && upper.y === lower.y) {
      faults.push({
        message: `${name}: both ends of the string are marked at one point. Mark them far apart.`,
        href: PHOTOGRAPHS_HREF,
      });
      continue;
    }
    const hookMark = pointOf(picture, counted(picture, `hook ${hook.id}`));
    const frontHub = pointOf(picture, counted(picture, 'front hub'));
    const rearHub = pointOf(picture, counted(picture, 'rear hub'));
    hangs.push({
      ...view,
      id: picture.id,
      hook: hook.id,
      suspension: picture.suspension,
      bodyMarks,
      string: [upper, lower],
      ...(hookMark ? { hookMark } : {}),
      ...(frontHub ? { frontHub } : {}),
      ...(rearHub ? { rearHub } : {}),
    });
  }

  const depth = hubDepth(state);
  if (!depth.ok) faults.push({ message: depth.message, href: PHOTOGRAPHS_HREF });
  const markDepths = new Map<string, Estimate>();
  for (const mark of state.bodyMarks) {
    const own = read(mark.depth, labeled(FIELDS.markDepth, `Mark ${mark.key}, depth`), PHOTOGRAPHS_HREF);
    if (own) markDepths.set(mark.key, own);
  }
  const scaleDistance = twoPoints ? read(state.scaleDistance, FIELDS.scaleDistance, PHOTOGRAPHS_HREF) : null;
  const scaleDepth = twoPoints ? read(state.scaleDepth, FIELDS.scaleDepth, PHOTOGRAPHS_HREF) : null;
  const axles = axleShares(state, read);
  const unsprung = axles.front.value + axles.rear.value;
  if (unsprung > 1)
    faults.push({
      message: `Unsprung mass: needs front and rear together below the truck’s mass; got ${Math.round(100 * unsprung)} % of it. Weigh axle, wheels, tires and half the links, or leave both empty.`,
      href: TRUCK_HREF,
    });
  const scaleReady = wheelbase !== null || (twoPoints && scaleDistance !== null && scaleDepth !== null);
  const truck: TruckGivens | null =
    scaleReady && depth.ok
      ? {
          ...(rulerZero ? { rulerZero } : {}),
          wheelbase: wheelbase ?? WHEELBASE_UNREAD,
          ...(frontTireRadius ? { frontTireRadius } : {}),
          ...(rearTireRadius ? { rearTireRadius } : {}),
          hubDepth: depth.value,
          groundDepth: { value: depth.value.value, u: Math.hypot(depth.value.u, GROUND_DEPTH_U) },
          markDepths,
          hooks: state.hooks
            .map((hook) => hookGivens(hook, hook.name, standingReading, nose, readQuietly))
            .filter((hook) => hook !== null),
          frontMassShare: axles.front,
          rearMassShare: axles.rear,
          lateral: { value: -nose * lateral.value, u: lateral.u },
          noseDirection: nose,
          ...(scaleDistance && scaleDepth ? { scale: { distance: scaleDistance, depth: scaleDepth } } : {}),
        }
      : null;
  return { ...base, standing: standingReading, hangs, truck, noseDirection: nose, otherSide };
}

const readQuietly = <D extends GivenField['dimension']>(given: Given, field: GivenField<D>) => {
  const result = readGiven(given, field);
  return result.ok ? result.value : null;
};

type Read = <D extends GivenField['dimension']>(
  given: Given,
  field: GivenField<D>,
  href: string,
) => ReturnType<typeof readQuietly<D>>;

function hookGivens(
  hook: Hook,
  name: string,
  standing: StandingPicture | null,
  nose: 1 | -1,
  read: Read,
): HookGivens | null {
  const left = read(hook.left, labeled(FIELDS.hookLeft, `${name}, left of center`), PHOTOGRAPHS_HREF);
  if (!left) return null;
  const depth = { value: -nose * left.value, u: left.u };
  if (hook.source === 'standing picture')
    return standing?.hooks.has(hook.id) ? { id: hook.id, carrier: hook.carrier, depth } : null;
  const ahead = read(
    hook.ahead,
    labeled(FIELDS.hookAhead, `${name}, ahead of the rear axle`),
    PHOTOGRAPHS_HREF,
  );
  const height = read(hook.height, labeled(FIELDS.hookHeight, `${name}, above ground`), PHOTOGRAPHS_HREF);
  if (!ahead || !height) return null;
  return {
    id: hook.id,
    carrier: hook.carrier,
    depth,
    ruled: { a: { value: nose * ahead.value, u: ahead.u }, b: height },
  };
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
