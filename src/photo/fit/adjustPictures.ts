import { adjust, prior, refusal, success } from '../../physics';
import type { Adjustment, AdjustmentRefusal, Estimate, Refusal, Result } from '../../physics';
import { unproject } from '../camera';
import type { Camera, PixelPoint } from '../camera';
import { TRUCK_IN_VIEW, isSide, toTruck, toView } from '../views';
import { MIDDLE_HEIGHT } from './cameras';
import type { HangingPicture, MarkedPoint, StandingPicture, TruckGivens } from './givens';
import { misplacedMarks } from './misplaced';
import type { MisplacedMark, Suspect } from './misplaced';
import { droops, freePlace, placePictures } from './placing';
import type { NamedPicture, PlacedPicture, PlacingRefusal } from './placing';
import { registrationOf } from './registration';
import type { Registration } from './registration';
import { along, cameraAt, inPlaneSighting, linearPlace, lineSighting, pointSighting } from './sightings';
import type { Place } from './sightings';
import { acrossString, stringUp } from './stringDirection';
import type { Lean } from './stringDirection';
import { bases, isPlainlyWrong } from '../wrongMark';
import { addTruck, hubPlace, inView, tirePlace } from './truckUnknowns';
import type { TruckPlace, TruckUnknowns } from './truckUnknowns';
import { Gathering, ruled } from './unknowns';
import type { Source } from './unknowns';

/**
 * All pictures of one truck, from all sides, adjusted together.
 *
 * A similarity of what two pictures share starts each camera. The fit then holds, beside scale, rotation and shift,
 * what a similarity leaves out: the camera's distance, the lens's distortion, the place of marks, hubs, hooks and string
 * along the line of sight, and the few degrees by which each view is off square, each with the uncertainty it was
 * given. A mark that lies 90 mm in front of the string shifts by 1.6 mm for every degree; because hooks, marks and hubs
 * at different depths are fitted together, most of that is found instead of merely feared.
 *
 * Unknowns are in truck axes, cameras in the view axes of their picture (views.ts); SI and pixels.
 */

/** Where each quantity stands among the fit's unknowns. Marks and hooks have three in a row: x, y, z. */
export interface Layout extends TruckUnknowns {
  readonly marks: ReadonlyMap<string, number>;
  readonly hooks: ReadonlyMap<string, number>;
  readonly hangs: ReadonlyMap<string, HangLayout>;
}
export interface HangLayout {
  /** First of the seven camera unknowns. */
  readonly camera: number;
  /** Where the string bears, first of three. */
  readonly hook: number;
  /** Direction of the string, upward, in the view's plane. */
  readonly stringAngle: number;
  /** First of two coordinates, ahead and up, of each axle's displacement from ride height; null where locked. */
  readonly frontDroop: number | null;
  readonly rearDroop: number | null;
}

export type AdjustmentStart = Pick<Adjustment, 'unknowns' | 'covariance'>;

export interface AdjustmentOptions {
  /** An adjustment of nearly the same pictures, to begin there. */
  readonly start?: AdjustmentStart;
  /** Whether what it leads to is taken even where the marks disagree there, as while one of them is dragged. */
  readonly hurried?: boolean;
}

export interface PictureAdjustment {
  readonly adjustment: Adjustment;
  readonly layout: Layout;
  readonly sources: readonly Source[];
  /** Where an adjustment of nearly the same pictures may start. */
  readonly start: AdjustmentStart;
  /** Of every picture, standing or hanging, by its id. */
  readonly cameras: ReadonlyMap<string, Camera>;
  /** By picture, the earlier one that shows its marks; null for the first, and where a ruler alone placed them. */
  readonly references: ReadonlyMap<string, string | null>;
  /** Of each picture onto the one whose marks placed it, by similarity, in the plane of the marks, m. */
  readonly registrations: ReadonlyMap<string, Registration>;
  /** By picture, standing or hanging: body marks that lie elsewhere than all other readings say, beyond chance. */
  readonly misplaced: ReadonlyMap<string, MisplacedMark>;
}

export type PictureRefusal = AdjustmentRefusal | PlacingRefusal | 'unknown hook';

/** Droop of a free axle whose hub was not marked: up to 25 mm (common practice), so u = 12 mm; fore and aft 3 mm. */
const DROOP_UNREAD = { along: 0.012, across: 0.003 };
/** String length used to give the string a direction in the picture, m. */
const STRING_PIECE = 0.3;
/** Where along the string a hook sits that nobody told and nobody marked does not matter; it needs some place, m. */
const HOOK_UNTOLD = 0.02;
/** How far such a hook, or one of an end or top view, may stand along the line of sight, m. */
const HOOK_DEPTH_UNTOLD: Estimate = { value: 0, u: 0.02 };
/** Height of a hook that only pictures from the top show, m: hooks stand 40 to 250 mm up (common practice). */
const HOOK_HEIGHT_UNREAD: Estimate = { value: 0.15, u: 0.06 };
/**
 * Hung by a side, a truck also leans toward or away from the camera until its center of gravity is below the hook: by
 * up to 17°, two times in three, where the hook was chosen near the middle.
 */
const LEAN_UNTOLD = 0.3;
/** The string is taken to be at least this long down to the center of gravity, m. */
const SHORTEST_LEVER = 0.05;
/** The contact of a tire seen from its end lies about below its hub, m. */
const CONTACT_U = 0.01;

/**
 * Benches settle in 3 to 10 steps, damaged ones whose marks agree in 16, an object hung at a poor angle in 30; a mark hundreds of pixels off may take any
 * number, and tells nothing then. From a fit that is near, it takes fewer or it is not near.
 */
const MOST_STEPS = { alone: 45, led: 12 } as const;
const contradiction = ({ axes }: TruckGivens) =>
  refusal(
    'not-converged',
    `The marks contradict each other: no place of ${axes === 'own' ? 'object' : 'truck'} and cameras comes near them all.`,
  );

/** The fit's own names of its unknowns say nothing to who marks pictures; a mark that nothing holds does. */
function undeterminedInWords({ reason, message }: Refusal<AdjustmentRefusal>): Refusal<AdjustmentRefusal> {
  const [, key] = /mark ([A-F]):/.exec(message) ?? [];
  return refusal(
    reason,
    key === undefined
      ? 'The marks leave open how a camera stood. Mark more points, farther apart, in every picture.'
      : `Nothing tells where mark ${key} lies. Mark it in another picture, or measure its place.`,
  );
}

/** What the sightings of one picture are made of. */
interface Sight {
  readonly g: Gathering;
  readonly truck: TruckGivens;
  readonly t: TruckUnknowns;
  readonly placed: PlacedPicture;
  readonly marks: ReadonlyMap<string, number>;
  readonly hooks: ReadonlyMap<string, number>;
}

/**
 * Adjusts standing and hanging pictures of one truck, or of an object with axes of its own.
 *
 * Each picture needs two points in common with what is known: hubs (tires, from an end or the top), body marks measured
 * by ruler, or body marks of other pictures. A hang has a string of two marks; its hook may be among `truck.hooks` or
 * unknown. Refusals name what is missing.
 */
export function adjustPictures(
  truck: TruckGivens,
  standings: readonly StandingPicture[],
  hangs: readonly HangingPicture[],
  options: AdjustmentOptions = {},
): Result<PictureAdjustment, PictureRefusal> {
  const from = options.start;
  const near = from ? adjustFrom(truck, standings, hangs, { from }) : null;
  // What an earlier fit leads into need not be where the marks lead by themselves.
  if (near?.ok && (options.hurried || misfitOf(near.value) < FAR_OFF)) return near;
  const square = adjustFrom(truck, standings, hangs, {});
  if (!square.ok && square.reason !== 'not-converged') return square;
  if (square.ok && misfitOf(square.value) < FAR_OFF) return square;
  // A mark on another thing leads nowhere from any start.
  if (bases(standings, hangs).some(([base, others]) => isPlainlyWrong(base, others))) return square;
  // Views far off square may lead nowhere from a square start.
  const posed = adjustFrom(truck, standings, hangs, { posed: true });
  if (!posed.ok) return square;
  return square.ok && misfitOf(square.value) <= misfitOf(posed.value) ? square : posed;
}

/** Chi-squared per degree of freedom above which a fit is tried again from where the marks by themselves lead. */
const FAR_OFF = 10;
const misfitOf = ({ adjustment: { chiSquared, degreesOfFreedom } }: PictureAdjustment): number =>
  chiSquared / Math.max(1, degreesOfFreedom);

function adjustFrom(
  truck: TruckGivens,
  standings: readonly StandingPicture[],
  hangs: readonly HangingPicture[],
  { from, posed = false }: { readonly from?: AdjustmentStart; readonly posed?: boolean },
): Result<PictureAdjustment, PictureRefusal> {
  const g = new Gathering();
  const named: NamedPicture[] = [
    ...standings.map((picture) => ({
      name: isSide(picture.view) ? 'standing' : `standing, ${picture.view}`,
      picture,
    })),
    ...hangs.map((picture, i) => ({ name: `hang ${i + 1}`, picture })),
  ];
  const t = addTruck(
    g,
    truck,
    named.some(({ picture }) => (picture.tires?.size ?? 0) > 0),
  );
  const places = placePictures(g, truck, t, named, posed);
  if (!places.ok) return places;
  const { pictures, marks } = places.value;
  const hooks = addHooks(g, truck, t, standings, hangs, pictures);

  /** Which observation reads which body mark in which picture. */
  const markReadings: { picture: string; key: string; observation: number }[] = [];
  const hangLayouts = new Map<string, HangLayout>();
  for (const { picture } of named) {
    const placed = pictures.get(picture.id);
    if (!placed) continue;
    const sight: Sight = { g, truck, t, placed, marks, hooks };
    if ('string' in picture) {
      const layout = seeHanging(sight, picture);
      if (!layout) return refusal('unknown hook', `The hook of ${placed.name} has no place yet.`);
      hangLayouts.set(picture.id, layout);
    } else seeStanding(sight, picture);
    for (const [key, pixel] of picture.bodyMarks) {
      const index = marks.get(key);
      if (index === undefined) continue;
      markReadings.push({ picture: picture.id, key, observation: g.observations.length });
      const place = linearPlace(inView(picture.view, freePlace(index)));
      g.observe('body marks', pointSighting(`${placed.name}: mark ${key}`, placed.seen, place, pixel));
    }
  }

  const { unknowns, observations, sources } = g;
  const fits = from?.unknowns.length === unknowns.length && from.unknowns.every(Number.isFinite);
  // What was fitted before has other unknowns: nothing to begin from.
  if (from && !fits) return contradiction(truck);
  const fitted = adjust(unknowns, observations, {
    ...(from ? { start: from } : {}),
    curvature: true,
    maxIterations: from ? MOST_STEPS.led : MOST_STEPS.alone,
  });
  if (!fitted.ok)
    return fitted.reason === 'not-converged' ? contradiction(truck) : undeterminedInWords(fitted);
  const p = fitted.value.unknowns;
  const cameras = new Map<string, Camera>();
  for (const [id, { seen }] of pictures) cameras.set(id, cameraAt(p, seen));

  // Where the whole fits better than chance lets expect, there is no misplaced mark to look for.
  const { chiSquared, degreesOfFreedom } = fitted.value;
  const suspects = (chiSquared > degreesOfFreedom ? markReadings : []).flatMap(
    ({ picture, key, observation }): Suspect[] => {
      const without = fitted.value.leftOut(observation);
      if (!without) return [];
      const { residuals, chiSquaredLess } = without;
      const scale = cameras.get(picture)?.scale ?? NaN;
      return [{ picture, key, off: Math.hypot(...residuals) / scale, chiSquaredLess }];
    },
  );
  const references = new Set([...pictures.values()].flatMap(({ reference }) => reference ?? []));
  return success({
    adjustment: fitted.value,
    layout: { ...t, marks, hooks, hangs: hangLayouts },
    sources,
    start: fitted.value,
    cameras,
    references: new Map([...pictures].map(([id, { reference }]) => [id, reference])),
    registrations: registrations(named, pictures, cameras, marks, p),
    misplaced: misplacedMarks(suspects, references),
  });
}

/** Hooks that hangs use and whose place is ruled or read off a standing picture. */
function addHooks(
  g: Gathering,
  truck: TruckGivens,
  t: TruckUnknowns,
  standings: readonly StandingPicture[],
  hangs: readonly HangingPicture[],
  pictures: ReadonlyMap<string, PlacedPicture>,
): Map<string, number> {
  const hooks = new Map<string, number>();
  for (const { id, left, ruled: read } of truck.hooks) {
    if (!hangs.some(({ hook }) => hook === id)) continue;
    const shown = standings.find((standing) => standing.hooks.has(id));
    if (!read && !shown) continue;
    const zero = g.start(t.rulerZero);
    let [x, z] = [(read?.ahead.value ?? 0) - zero, (read?.height.value ?? 0) - zero];
    const pixel = shown?.hooks.get(id);
    const placed = shown && pictures.get(shown.id);
    if (!read && shown && pixel && placed) {
      const usual = { x: truck.wheelbase.value / 2, y: left.value, z: HOOK_HEIGHT_UNREAD.value };
      const depth = toView(shown.view, usual).c;
      ({ x, z } = toTruck(shown.view, unproject(placed.start, pixel, depth)));
    }
    const index = g.length(`hook ${id}: ahead`, x);
    g.length(`hook ${id}: left`, left.value);
    g.length(`hook ${id}: height`, z);
    g.observe('depths', prior(`hook ${id}: left`, index + 1, left.value, left.u));
    if (read) {
      g.observe('hook place', ruled(`hook ${id}: ahead`, index, t.rulerZero, read.ahead));
      g.observe('hook place', ruled(`hook ${id}: height`, index + 2, t.rulerZero, read.height));
    } else {
      const views = [
        ...standings.filter(({ hooks: seen }) => seen.has(id)),
        ...hangs.filter(({ hook }) => hook === id),
      ].map(({ view }) => view);
      // What lies along the line of sight of every picture that shows it, nobody has read.
      for (const [i, axis, unread] of [
        [0, 'ahead', { value: truck.wheelbase.value / 2, u: truck.wheelbase.value / 3 }],
        [2, 'height', HOOK_HEIGHT_UNREAD],
      ] as const)
        if (views.every((view) => TRUCK_IN_VIEW[view][i === 0 ? 'x' : 'z'][0] === 'c'))
          g.observe('hook place', prior(`hook ${id}: ${axis}`, index + i, unread.value, unread.u));
    }
    hooks.set(id, index);
  }
  return hooks;
}

const seeIn =
  ({ g, placed }: Sight, picture: StandingPicture | HangingPicture) =>
  (source: Source, what: string, place: TruckPlace, pixel: MarkedPoint) =>
    g.observe(
      source,
      pointSighting(`${placed.name}: ${what}`, placed.seen, linearPlace(inView(picture.view, place)), pixel),
    );

/** What standing and hanging pictures show alike: hubs at ride height, tires, points of known distance. */
function seeTruck(sight: Sight, picture: StandingPicture | HangingPicture): void {
  const { g, truck, t, placed } = sight;
  const { view, tires } = picture;
  const see = seeIn(sight, picture);
  if (isSide(view) && !droops(picture)) {
    if (picture.rearHub) see('wheelbase and scale', 'rear hub', hubPlace(t, 'rear', view), picture.rearHub);
    if (picture.frontHub)
      see('wheelbase and scale', 'front hub', hubPlace(t, 'front', view), picture.frontHub);
  }
  for (const [point, pixel] of tires ?? []) {
    const place = tirePlace(t, point, view);
    if (!place) continue;
    if (!point.startsWith('ground')) {
      see('wheelbase and scale', point, place, pixel);
      continue;
    }
    const contact = g.length(`${placed.name}: ${point}`, 0, placed.block);
    g.observe('depths', prior(`${placed.name}: ${point}, depth`, contact, 0, CONTACT_U));
    see('wheelbase and scale', point, [...place, { axis: 'x', unknown: contact }], pixel);
  }
  if (picture.scalePoints && truck.scale) seeScale(sight, picture, picture.scalePoints, truck.scale);
}

function seeScale(
  { g, t, placed }: Sight,
  { view }: StandingPicture | HangingPicture,
  points: readonly [MarkedPoint, MarkedPoint],
  scale: NonNullable<TruckGivens['scale']>,
): void {
  const { name, block, seen, start } = placed;
  const depth = g.length(`${name}: depth of the scale points`, scale.depth.value, block);
  g.observe('depths', prior(`${name}: depth of the scale points`, depth, scale.depth.value, scale.depth.u));
  const [i = 0, j = 0] = points.map((pixel, n) => {
    const at = unproject(start, pixel, scale.depth.value);
    const index = g.length(`${name}: scale point ${n + 1}, across`, at.a, block);
    g.length(`${name}: scale point ${n + 1}, up`, at.b, block);
    const place = linearPlace([
      { unknown: index, axis: 'a' },
      { unknown: index + 1, axis: 'b' },
      { unknown: depth, axis: 'c' },
    ]);
    g.observe(
      'wheelbase and scale',
      pointSighting(`${name}: scale point ${n + 1}, from the ${view}`, seen, place, pixel),
    );
    return index;
  });
  const between = (p: Float64Array) =>
    [(p[i] ?? 0) - (p[j] ?? 0), (p[i + 1] ?? 0) - (p[j + 1] ?? 0)] as const;
  g.observe('wheelbase and scale', {
    name: `${name}: distance of the two points`,
    depends: [i, i + 1, j, j + 1, t.rulerZero],
    predict: (p) => [Math.hypot(...between(p)) + (p[t.rulerZero] ?? 0)],
    values: [scale.distance.value],
    uncertainty: [scale.distance.u],
    derivative: (p) => {
      const [a, b] = between(p);
      const size = Math.hypot(a, b);
      return [[a / size, b / size, -a / size, -b / size, 1]];
    },
  });
}

function seeStanding(sight: Sight, picture: StandingPicture): void {
  const { g, truck, t, placed, hooks } = sight;
  const { name, block, seen } = placed;
  const { view, oblique } = picture;
  const see = seeIn(sight, picture);
  g.observe('view off square', prior(`${name}: view across`, seen.first + 1, 0, oblique));
  g.observe('view off square', prior(`${name}: view up`, seen.first + 2, 0, oblique));
  seeTruck(sight, picture);
  if (picture.ground.length > 0 && isSide(view)) {
    const { value, u } = truck.groundDepth;
    const depth = g.length(`${name}: ground depth`, value, block);
    g.observe('depths', prior(`${name}: ground depth`, depth, value, u));
    const side = view === 'left' ? 1 : -1;
    const foot = (front: boolean): Place =>
      linearPlace(
        inView(view, [
          { axis: 'y', unknown: depth, factor: side },
          ...(front ? [{ axis: 'x', unknown: t.wheelbase } as const] : []),
        ]),
      );
    picture.ground.forEach((pixel, i) =>
      g.observe(
        'ground and tire radius',
        lineSighting(`${name}: ground ${i + 1}`, seen, foot(false), foot(true), pixel),
      ),
    );
  }
  for (const [id, index] of hooks) {
    const pixel = picture.hooks.get(id);
    if (pixel) see('hook marks', `hook ${id}`, freePlace(index), pixel);
  }
}

/** Null where its hook has no place. */
function seeHanging(sight: Sight, hang: HangingPicture): HangLayout | null {
  const { g, truck, t, placed, hooks } = sight;
  const { name, block, seen, start } = placed;
  const { view } = hang;
  const told = hang.hook === null ? undefined : hooks.get(hang.hook);
  if (hang.hook !== null && told === undefined) return null;
  const hookIndex = told ?? addUntoldHook(sight, hang);
  const carrier = truck.hooks.find(({ id }) => id === hang.hook)?.carrier ?? 'body';
  const see = seeIn(sight, hang);
  const [upper, lower] = hang.string;
  const stringStart = Math.atan2(lower.y - upper.y, upper.x - lower.x) - start.roll;
  const stringAngle = g.angle(`${name}: string angle`, stringStart, block);

  const droop = (axle: 'front axle' | 'rear axle', pixel: MarkedPoint | undefined) => {
    if (!droops(hang)) return null;
    const index = g.length(`${name}: ${axle} droop ahead`, 0, block);
    g.length(`${name}: ${axle} droop up`, 0, block);
    // Wide while the hub is marked: the picture tells. Honest about not knowing where it is not.
    const [across, up] = pixel ? [0.1, 0.1] : [DROOP_UNREAD.across, DROOP_UNREAD.along];
    g.observe('droop', prior(`${name}: ${axle} droop ahead`, index, 0, across));
    g.observe('droop', prior(`${name}: ${axle} droop up`, index + 1, 0, up));
    return index;
  };
  const frontDroop = droop('front axle', hang.frontHub);
  const rearDroop = droop('rear axle', hang.rearHub);
  const moved = (place: TruckPlace, index: number | null): TruckPlace =>
    index === null ? place : [...place, { axis: 'x', unknown: index }, { axis: 'z', unknown: index + 1 }];
  const hookDroop = carrier === 'front axle' ? frontDroop : carrier === 'rear axle' ? rearDroop : null;
  const hookPlace = moved(freePlace(hookIndex), hookDroop);
  const hook = linearPlace(inView(view, hookPlace));

  const lean = leanOf(sight, hang, hookIndex, stringStart);
  const up = stringUp(stringAngle, lean);
  g.observe('view off square', inPlaneSighting(`${name}: view up`, seen, up, hang.oblique));
  g.observe(
    'view off square',
    inPlaneSighting(
      `${name}: view across and twist`,
      seen,
      acrossString(stringAngle),
      Math.hypot(hang.oblique, hang.twist),
    ),
  );
  const above = along(hook, up, STRING_PIECE);
  for (const [i, pixel] of hang.string.entries()) {
    const end = i === 0 ? 'upper' : 'lower';
    g.observe('string', lineSighting(`${name}: string ${end}`, seen, hook, above, pixel));
  }
  if (hang.hookMark && told !== undefined) see('hook marks', 'hook', hookPlace, hang.hookMark);
  seeTruck(sight, hang);
  if (frontDroop !== null && hang.frontHub)
    see('droop', 'front hub', moved(hubPlace(t, 'front', view), frontDroop), hang.frontHub);
  if (rearDroop !== null && hang.rearHub)
    see('droop', 'rear hub', moved(hubPlace(t, 'rear', view), rearDroop), hang.rearHub);
  return { camera: seen.first, hook: hookIndex, stringAngle, frontDroop, rearDroop };
}

/** A hook of no known place: on the string, about at its lower mark. */
function addUntoldHook({ g, placed, truck }: Sight, hang: HangingPicture): number {
  const { name, block, start } = placed;
  const mark = hang.hookMark ?? hang.string[1];
  const depth = isSide(hang.view)
    ? HOOK_DEPTH_UNTOLD
    : { value: toView(hang.view, { x: truck.wheelbase.value / 2, y: 0, z: MIDDLE_HEIGHT }).c, u: 0.05 };
  const at = toTruck(hang.view, unproject(start, mark, depth.value));
  const index = g.length(`${name}: hook ahead`, at.x, block);
  g.length(`${name}: hook left`, at.y, block);
  g.length(`${name}: hook height`, at.z, block);
  (['x', 'y', 'z'] as const).forEach((axis, i) => {
    const sideways = toView(hang.view, { x: 0, y: 0, z: 0, [axis]: 1 }).c !== 0;
    g.observe(
      'hook place',
      prior(`${name}: hook ${axis}`, index + i, at[axis], sideways ? depth.u : HOOK_UNTOLD),
    );
  });
  return index;
}

/**
 * How far the string leans toward the camera. From a side: by the CG's offset from the hook's plane over the hook's
 * height above it. From an end or the top the place of the CG along the line of sight is what nobody knows: the marks
 * have to tell.
 */
function leanOf({ g, t, placed }: Sight, { view }: HangingPicture, hook: number, stringStart: number): Lean {
  if (!isSide(view)) {
    const lean = g.angle(`${placed.name}: lean`, 0, placed.block);
    g.observe('view off square', prior(`${placed.name}: lean`, lean, 0, LEAN_UNTOLD));
    return [{ unknown: lean, factor: 1 }];
  }
  const toward = toView(view, { x: 0, y: 1, z: 0 }).c;
  const lever = Math.max(SHORTEST_LEVER, leverStart(g, t, view, hook, stringStart));
  return [
    { unknown: hook + 1, factor: toward / lever },
    { unknown: t.lateral, factor: -toward / lever },
  ];
}

/** Distance along the string from the hook down to the truck's middle: enough for a lean of a degree or two. */
function leverStart(
  g: Gathering,
  t: TruckUnknowns,
  view: HangingPicture['view'],
  hook: number,
  angle: number,
): number {
  const middle = toView(view, { x: g.start(t.wheelbase) / 2, y: 0, z: 1.7 * g.start(t.rearRadius) });
  const at = toView(view, { x: g.start(hook), y: 0, z: g.start(hook + 2) });
  return (at.a - middle.a) * Math.cos(angle) + (at.b - middle.b) * Math.sin(angle);
}

function registrations(
  named: readonly NamedPicture[],
  pictures: ReadonlyMap<string, PlacedPicture>,
  cameras: ReadonlyMap<string, Camera>,
  marks: ReadonlyMap<string, number>,
  p: Float64Array,
): Map<string, Registration> {
  const out = new Map<string, Registration>();
  for (const { picture } of named) {
    const reference = pictures.get(picture.id)?.reference ?? null;
    const other = named.find(({ picture: { id } }) => id === reference)?.picture;
    const camera = cameras.get(picture.id);
    const otherCamera = other && cameras.get(other.id);
    if (!other || !camera || !otherCamera || other.view !== picture.view) continue;
    const keys = [...picture.bodyMarks.keys()].filter((key) => marks.has(key) && other.bodyMarks.has(key));
    if (keys.length < 2) continue;
    const depth = (key: string) => {
      const index = marks.get(key) ?? 0;
      const at = { x: p[index] ?? 0, y: p[index + 1] ?? 0, z: p[index + 2] ?? 0 };
      return toView(picture.view, at).c;
    };
    const nowhere: PixelPoint = { x: NaN, y: NaN };
    const flat = (view: Camera, source: ReadonlyMap<string, MarkedPoint>) =>
      keys.map((key) => unproject(view, source.get(key) ?? nowhere, depth(key)));
    const squares = keys.map(
      (key) =>
        ((picture.bodyMarks.get(key)?.u ?? 0) / camera.scale) ** 2 +
        ((other.bodyMarks.get(key)?.u ?? 0) / otherCamera.scale) ** 2,
    );
    const expected = Math.sqrt(squares.reduce((sum, s) => sum + s, 0) / keys.length);
    out.set(
      picture.id,
      registrationOf(keys, flat(camera, picture.bodyMarks), flat(otherCamera, other.bodyMarks), expected),
    );
  }
  return out;
}
