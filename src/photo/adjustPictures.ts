import { COVERAGE, adjust, prior, refusal, success } from '../physics';
import type { Adjustment, AdjustmentRefusal, Estimate, Observation, Result, Unknown } from '../physics';
import { fitSimilarity, unproject } from './camera';
import type { Camera, PixelPoint, ViewPoint } from './camera';
import { along, cameraAt, inPlaneSighting, linearPlace, lineSighting, pointSighting } from './sightings';
import type { Coordinate, Place } from './sightings';

/**
 * All pictures of one side of one truck adjusted together.
 *
 * A similarity carries each hanging picture onto the standing one and starts the fit. The fit then holds, beside
 * scale, rotation and shift, what a similarity leaves out: the camera's distance, the depth of marks, hubs,
 * hooks and string, and the few degrees by which each view is off square, each with the uncertainty it was given.
 * A mark that lies 90 mm in front of the string shifts by 1.6 mm for every degree; because hooks, marks and hubs
 * at different depths are fitted together, most of that is found instead of merely feared.
 *
 * Everything is in view axes (see camera.ts), SI and pixels.
 */

export type Carrier = 'body' | 'front axle' | 'rear axle';

export interface MarkedPoint extends PixelPoint {
  /** Standard uncertainty of each coordinate, pixels. */
  readonly u: number;
}

export interface PictureGivens {
  readonly width: number;
  readonly height: number;
  /** Camera to center plane, m. */
  readonly distance: Estimate;
  /** Standard uncertainty of the two angles by which the view is off square, rad. */
  readonly oblique: number;
  readonly bodyMarks: ReadonlyMap<string, MarkedPoint>;
  readonly frontHub?: MarkedPoint;
  readonly rearHub?: MarkedPoint;
}

export interface StandingPicture extends PictureGivens {
  readonly id: string;
  readonly frontHub: MarkedPoint;
  readonly rearHub: MarkedPoint;
  readonly ground: readonly MarkedPoint[];
  readonly hooks: ReadonlyMap<string, MarkedPoint>;
  readonly scalePoints?: readonly [MarkedPoint, MarkedPoint];
}

export interface HangingPicture extends PictureGivens {
  readonly id: string;
  readonly hook: string;
  readonly suspension: 'locked' | 'free';
  /** Standard uncertainty of the truck's twist on the string, rad. */
  readonly twist: number;
  readonly string: readonly [upper: MarkedPoint, lower: MarkedPoint];
  readonly hookMark?: MarkedPoint;
}

export interface HookGivens {
  readonly id: string;
  readonly carrier: Carrier;
  /** Toward the camera from the center plane, m. */
  readonly depth: Estimate;
  /** Place by ruler in view axes; absent when it is read off the standing picture. */
  readonly ruled?: { readonly a: Estimate; readonly b: Estimate };
}

export interface TruckGivens {
  /**
   * How much too much the ruler reads, m: in the wheelbase, the tire radii, ruled hook places and the distance of
   * two points alike. The usual ±0.3 mm where absent.
   */
  readonly rulerZero?: Estimate;
  readonly wheelbase: Estimate;
  /** Hub above ground; absent when only the ground marks say. */
  readonly frontTireRadius?: Estimate;
  readonly rearTireRadius?: Estimate;
  readonly hubDepth: Estimate;
  /** Depth of the near tires' contact with the ground. */
  readonly groundDepth: Estimate;
  readonly markDepths: ReadonlyMap<string, Estimate>;
  readonly hooks: readonly HookGivens[];
  /** Mass of each axle over the truck's mass. */
  readonly frontMassShare: Estimate;
  readonly rearMassShare: Estimate;
  /** CG toward the camera from the center plane, m. */
  readonly lateral: Estimate;
  readonly scale?: { readonly distance: Estimate; readonly depth: Estimate };
  /** +1 seen from the right (nose to the right in the picture), −1 seen from the left. */
  readonly noseDirection: 1 | -1;
}

/** Where each quantity stands among the fit's unknowns. */
export interface Layout {
  readonly wheelbase: number;
  readonly frontRadius: number;
  readonly rearRadius: number;
  readonly hubDepth: number;
  readonly lateral: number;
  readonly frontShare: number;
  readonly rearShare: number;
  readonly rulerZero: number;
  readonly marks: ReadonlyMap<string, number>;
  readonly hooks: ReadonlyMap<string, number>;
  readonly standing: number;
  readonly hangs: ReadonlyMap<string, HangLayout>;
}
export interface HangLayout {
  /** First of the seven camera unknowns. */
  readonly camera: number;
  /** Direction of the string, upward, in the side plane. */
  readonly stringAngle: number;
  /** First of two coordinates of each axle's displacement from ride height; null with locked suspension. */
  readonly frontDroop: number | null;
  readonly rearDroop: number | null;
}

/** What an observation is about, for the table of what makes the ±. */
export type Source =
  | 'ruler'
  | 'wheelbase and scale'
  | 'ground and tire radius'
  | 'body marks'
  | 'string'
  | 'hook place'
  | 'hook marks'
  | 'depths'
  | 'camera distance'
  | 'view off square'
  | 'droop'
  | 'lateral place';

export type AdjustmentStart = Pick<Adjustment, 'unknowns' | 'covariance'>;

export interface PictureAdjustment {
  readonly adjustment: Adjustment;
  readonly layout: Layout;
  readonly sources: readonly Source[];
  /** Where an adjustment of nearly the same pictures may start. */
  readonly start: AdjustmentStart;
  readonly standingCamera: Camera;
  readonly hangCameras: ReadonlyMap<string, Camera>;
  /** Registration of each hanging picture onto the standing one by similarity, in the plane of the marks, m. */
  readonly registrations: ReadonlyMap<string, Registration>;
  /** By picture, standing or hanging: body marks that lie elsewhere than all other readings say, beyond chance. */
  readonly misplaced: ReadonlyMap<string, MisplacedMark>;
}

/** A misplaced body mark. */
export interface MisplacedMark {
  /** Which one; null where it is not clear enough which. */
  readonly key: string | null;
  /** How far it lies from where everything else puts it, in the plane of the marks, m. */
  readonly off: number;
}

export interface Registration {
  readonly keys: readonly string[];
  /** Root mean square misfit per degree of freedom, m; null with two marks: there is no check. */
  readonly misfit: number | null;
  /** What the marks' own uncertainty lets one expect of that misfit, m. */
  readonly expected: number;
  readonly distances: readonly number[];
  /** Largest distance between two marks, m. */
  readonly span: number;
  /** Smaller over larger spread of the marks about their middle: 0 when they lie in one line. */
  readonly roundness: number;
}

export type PictureRefusal = AdjustmentRefusal | 'too few marks' | 'marks coincide' | 'unknown hook';

/** Steps below 5 µm, or 20 µrad (4 µm at the end of a 200 mm lever), no longer show in a tenth of a millimeter. */
const SETTLED_LENGTH = 5e-6;
const SETTLED_ANGLE = 2e-5;
/** Tire radius while unread: trail trucks' tires are 94-121 mm across (common practice), taken three times wider. */
const RADIUS_UNREAD = { value: 0.055, u: 0.025 };
/** A worn end and the way a ruler is held: a third of a millimeter, 19 times in 20 (common practice). */
const USUAL_RULER_ZERO: Estimate = { value: 0, u: 0.0003 / COVERAGE };
/** Droop of a free axle whose hub was not marked: up to 25 mm (common practice), so u = 12 mm; fore and aft 3 mm. */
const DROOP_UNREAD = { along: 0.012, across: 0.003 };
/** String length used to give the string a direction in the picture, m. */
const STRING_PIECE = 0.3;
/**
 * A mark is named when its misfit would come by chance once in 1,000 marks, Baarda's alpha: chi-squared with two
 * degrees of freedom.
 */
const NAMED_BEYOND = -2 * Math.log(0.001);
/** And when it is 20 times as likely to be the misplaced one as any other mark. */
const NAMED_BEFORE = 2 * Math.log(20);

/** Benches settle in 3 to 10 steps; a mark hundreds of pixels off may take any number, and tells nothing then. */
const MOST_STEPS = 60;
const CONTRADICTION = 'The marks contradict each other: no place of truck and cameras comes near them all.';

interface Builder {
  readonly unknowns: Unknown[];
  readonly observations: Observation[];
  readonly sources: Source[];
}

function add(
  builder: Builder,
  name: string,
  start: number,
  scale: number,
  negligible: number,
  block?: number,
): number {
  builder.unknowns.push({ name, start, scale, negligible, ...(block === undefined ? {} : { block }) });
  return builder.unknowns.length - 1;
}

function observe(builder: Builder, source: Source, observation: Observation): void {
  builder.observations.push(observation);
  builder.sources.push(source);
}

function addCamera(
  builder: Builder,
  name: string,
  camera: Camera,
  givens: PictureGivens,
  block: number,
): number {
  const first = add(builder, `${name}: rotation`, camera.roll, 0.02, SETTLED_ANGLE, block);
  add(builder, `${name}: view angle across`, camera.yaw, 0.02, SETTLED_ANGLE, block);
  add(builder, `${name}: view angle up`, camera.pitch, 0.02, SETTLED_ANGLE, block);
  add(builder, `${name}: aim ahead`, camera.a, 0.01, SETTLED_LENGTH, block);
  add(builder, `${name}: aim up`, camera.b, 0.01, SETTLED_LENGTH, block);
  add(builder, `${name}: scale`, camera.scale, camera.scale / 100, camera.scale * SETTLED_ANGLE, block);
  add(builder, `${name}: nearness`, camera.nearness, 0.05, 1e-4, block);
  const { value: distance, u } = givens.distance;
  // Perspective goes with one over the distance, and so does the law that is closest to normal.
  observe(builder, 'camera distance', prior(`${name}: distance`, first + 6, 1 / distance, u / distance ** 2));
  return first;
}

/** A start for a camera square to the truck, from a similarity of points at mean depth `depth` to pixels (y up). */
function startCamera(
  givens: PictureGivens,
  points: readonly ViewPoint[],
  pixels: readonly PixelPoint[],
): Camera | null {
  const centerX = givens.width / 2;
  const centerY = givens.height / 2;
  const from = points.map(({ a, b }) => ({ x: a, y: b }));
  const to = pixels.map(({ x, y }) => ({ x: x - centerX, y: centerY - y }));
  const fit = fitSimilarity(from, to);
  // Less than a pixel a meter: the marks lie on one point.
  if (!fit || !(fit.scale > 1)) return null;
  const depth = points.reduce((sum, { c }) => sum + c, 0) / points.length;
  const nearness = 1 / givens.distance.value;
  const cos = Math.cos(fit.rotation) / fit.scale;
  const sin = Math.sin(fit.rotation) / fit.scale;
  return {
    roll: fit.rotation,
    yaw: 0,
    pitch: 0,
    a: -(cos * fit.shiftX + sin * fit.shiftY),
    b: -(-sin * fit.shiftX + cos * fit.shiftY),
    scale: fit.scale * (1 - nearness * depth),
    nearness,
    centerX,
    centerY,
  };
}

function registrationOf(
  keys: readonly string[],
  from: readonly ViewPoint[],
  to: readonly ViewPoint[],
  expected: number,
): Registration {
  const plane = (points: readonly ViewPoint[]) => points.map(({ a, b }) => ({ x: a, y: b }));
  const fit = fitSimilarity(plane(from), plane(to));
  let span = 0;
  for (const p of to) for (const q of to) span = Math.max(span, Math.hypot(p.a - q.a, p.b - q.b));
  const n = to.length;
  const [ma, mb] = [to.reduce((s, p) => s + p.a, 0) / n, to.reduce((s, p) => s + p.b, 0) / n];
  let [saa, sab, sbb] = [0, 0, 0];
  for (const { a, b } of to) {
    saa += (a - ma) ** 2;
    sab += (a - ma) * (b - mb);
    sbb += (b - mb) ** 2;
  }
  const middle = (saa + sbb) / 2;
  const half = Math.hypot((saa - sbb) / 2, sab);
  const roundness = middle + half > 0 ? Math.sqrt(Math.max(0, middle - half) / (middle + half)) : 0;
  return {
    keys,
    misfit: fit?.misfit ?? null,
    expected,
    distances: fit?.distances ?? [],
    span,
    roundness,
  };
}

/** A body mark's reading in one picture, and what it misses by without its own say. */
interface Suspect {
  readonly picture: string;
  readonly key: string;
  readonly off: number;
  readonly chiSquaredLess: number;
}

/** The most suspect mark of each picture where it is so beyond chance and no other picture's mark explains it. */
function misplacedMarks(suspects: readonly Suspect[], standing: string): Map<string, MisplacedMark> {
  const misplaced = new Map<string, MisplacedMark>();
  for (const picture of new Set(suspects.map((suspect) => suspect.picture))) {
    const own = suspects
      .filter((suspect) => suspect.picture === picture)
      .toSorted((p, q) => q.chiSquaredLess - p.chiSquaredLess);
    const [first, second] = own;
    if (!first || !(first.chiSquaredLess > NAMED_BEYOND)) continue;
    // One misplaced mark makes its namesakes in other pictures suspect as well, each less than itself. Between a
    // standing and one hanging picture nothing tells which; the hanging one is the harder to mark.
    const outdone = suspects.some(
      ({ picture: other, key, chiSquaredLess }) =>
        other !== picture &&
        key === first.key &&
        chiSquaredLess + (picture === standing ? NAMED_BEFORE : 0) >
          first.chiSquaredLess + (other === standing ? NAMED_BEFORE : 0),
    );
    if (outdone) continue;
    // Three marks misfit alike whichever of them is misplaced.
    const clear = own.length >= 4 && second && first.chiSquaredLess - second.chiSquaredLess > NAMED_BEFORE;
    // The least that would explain it, where any of several would.
    const least = Math.min(...own.filter((each) => each.chiSquaredLess > NAMED_BEYOND).map(({ off }) => off));
    misplaced.set(picture, clear ? { key: first.key, off: first.off } : { key: null, off: least });
  }
  return misplaced;
}

/**
 * Adjusts one standing picture and any number of hanging pictures of the same side.
 *
 * Each hanging picture needs two body marks that the standing picture also has, a string of two marks and a hook
 * among `truck.hooks`. Refusals name what is missing.
 */
export function adjustPictures(
  truck: TruckGivens,
  standing: StandingPicture,
  hangs: readonly HangingPicture[],
  options: { readonly start?: AdjustmentStart } = {},
): Result<PictureAdjustment, PictureRefusal> {
  const nose = truck.noseDirection;
  const builder: Builder = { unknowns: [], observations: [], sources: [] };
  const length = (name: string, start: number, block?: number) =>
    add(builder, name, start, 0.01, SETTLED_LENGTH, block);

  // The standing picture starts from its hubs.
  const frontRadius = truck.frontTireRadius ?? RADIUS_UNREAD;
  const rearRadius = truck.rearTireRadius ?? RADIUS_UNREAD;
  const hubDepth = truck.hubDepth.value;
  const standingStart = startCamera(
    standing,
    [
      { a: 0, b: rearRadius.value, c: hubDepth },
      { a: nose * truck.wheelbase.value, b: frontRadius.value, c: hubDepth },
    ],
    [standing.rearHub, standing.frontHub],
  );
  if (!standingStart)
    return refusal('marks coincide', 'Both hubs of the standing picture are marked at one point.');
  const zero = truck.rulerZero ?? USUAL_RULER_ZERO;
  const ruler = length('ruler zero', zero.value);
  observe(builder, 'ruler', prior('ruler zero', ruler, zero.value, zero.u));
  const wheelbase = length('wheelbase', truck.wheelbase.value - zero.value);
  observe(builder, 'wheelbase and scale', ruled('wheelbase', wheelbase, ruler, 1, truck.wheelbase));
  const radius = (which: 'front' | 'rear', given: Estimate | undefined) => {
    const name = `${which} tire radius`;
    const index = length(name, (given ?? RADIUS_UNREAD).value);
    observe(
      builder,
      'ground and tire radius',
      given ? ruled(name, index, ruler, 1, given) : prior(name, index, RADIUS_UNREAD.value, RADIUS_UNREAD.u),
    );
    return index;
  };
  const front = radius('front', truck.frontTireRadius);
  const rear = radius('rear', truck.rearTireRadius);
  const hub = length('hub depth', hubDepth);
  observe(builder, 'depths', prior('hub depth', hub, hubDepth, truck.hubDepth.u));
  const lateral = length('lateral place of the CG', truck.lateral.value);
  observe(builder, 'lateral place', prior('lateral place', lateral, truck.lateral.value, truck.lateral.u));
  const share = (name: string, { value, u }: Estimate) => {
    const index = add(builder, name, value, 0.05, 1e-7);
    observe(builder, 'droop', prior(name, index, value, Math.max(u, 1e-6)));
    return index;
  };
  const frontShare = share('front axle mass share', truck.frontMassShare);
  const rearShare = share('rear axle mass share', truck.rearMassShare);

  const marks = new Map<string, number>();
  const markStarts = new Map<string, ViewPoint>();
  for (const [key, depth] of truck.markDepths) {
    const pixel = standing.bodyMarks.get(key);
    if (!pixel || !hangs.some(({ bodyMarks }) => bodyMarks.has(key))) continue;
    const start = unproject(standingStart, pixel, depth.value);
    const index = length(`mark ${key}: ahead`, start.a);
    length(`mark ${key}: height`, start.b);
    length(`mark ${key}: depth`, depth.value);
    observe(builder, 'depths', prior(`mark ${key}: depth`, index + 2, depth.value, depth.u));
    marks.set(key, index);
    markStarts.set(key, start);
  }

  const hooks = new Map<string, number>();
  const hookStarts = new Map<string, ViewPoint>();
  for (const hook of truck.hooks) {
    const pixel = standing.hooks.get(hook.id);
    const needed = hangs.some(({ hook: id }) => id === hook.id);
    if (!needed || (!hook.ruled && !pixel)) continue;
    const seen = pixel ? unproject(standingStart, pixel, hook.depth.value) : undefined;
    const a = hook.ruled?.a.value ?? seen?.a ?? 0;
    const b = hook.ruled?.b.value ?? seen?.b ?? 0;
    const index = length(`hook ${hook.id}: ahead`, a);
    length(`hook ${hook.id}: height`, b);
    length(`hook ${hook.id}: depth`, hook.depth.value);
    observe(builder, 'depths', prior(`hook ${hook.id}: depth`, index + 2, hook.depth.value, hook.depth.u));
    if (hook.ruled) {
      const { a: ahead, b: height } = hook.ruled;
      observe(builder, 'hook place', ruled(`hook ${hook.id}: ahead`, index, ruler, nose, ahead));
      observe(builder, 'hook place', ruled(`hook ${hook.id}: height`, index + 1, ruler, 1, height));
    }
    hooks.set(hook.id, index);
    hookStarts.set(hook.id, { a, b, c: hook.depth.value });
  }

  // Standing picture.
  const center = { x: standing.width / 2, y: standing.height / 2 };
  const standingCamera = addCamera(builder, 'standing picture', standingStart, standing, 0);
  const seenStanding = { first: standingCamera, centerX: center.x, centerY: center.y };
  observe(
    builder,
    'view off square',
    prior('standing: view across', standingCamera + 1, 0, standing.oblique),
  );
  observe(builder, 'view off square', prior('standing: view up', standingCamera + 2, 0, standing.oblique));
  /** Three unknowns in a row: a mark or a hook. */
  const placeOf = (index: number): Coordinate[] => [
    { unknown: index, axis: 'a' },
    { unknown: index + 1, axis: 'b' },
    { unknown: index + 2, axis: 'c' },
  ];
  const rearHub: readonly Coordinate[] = [
    { unknown: rear, axis: 'b' },
    { unknown: hub, axis: 'c' },
  ];
  const frontHub: readonly Coordinate[] = [
    { unknown: wheelbase, axis: 'a', factor: nose },
    { unknown: front, axis: 'b' },
    { unknown: hub, axis: 'c' },
  ];
  const seeStanding = (source: Source, name: string, place: readonly Coordinate[], pixel: MarkedPoint) =>
    observe(builder, source, pointSighting(`standing: ${name}`, seenStanding, linearPlace(place), pixel));
  const scaleSource: Source = 'wheelbase and scale';
  seeStanding(scaleSource, 'rear hub', rearHub, standing.rearHub);
  seeStanding(scaleSource, 'front hub', frontHub, standing.frontHub);
  if (standing.ground.length > 0) {
    const groundDepth = length('ground depth', truck.groundDepth.value, 0);
    observe(
      builder,
      'depths',
      prior('ground depth', groundDepth, truck.groundDepth.value, truck.groundDepth.u),
    );
    const underRear = linearPlace([{ unknown: groundDepth, axis: 'c' }]);
    const underFront = linearPlace([
      { unknown: groundDepth, axis: 'c' },
      { unknown: wheelbase, axis: 'a', factor: nose },
    ]);
    standing.ground.forEach((pixel, i) =>
      observe(
        builder,
        'ground and tire radius',
        lineSighting(`standing: ground ${i + 1}`, seenStanding, underRear, underFront, pixel),
      ),
    );
  }
  if (standing.scalePoints && truck.scale) {
    const { depth: scaleDepth } = truck.scale;
    const depth = length('scale points: depth', scaleDepth.value, 0);
    observe(builder, 'depths', prior('scale points: depth', depth, scaleDepth.value, scaleDepth.u));
    const points = standing.scalePoints.map((pixel, i) => {
      const start = unproject(standingStart, pixel, scaleDepth.value);
      const index = length(`scale point ${i + 1}: ahead`, start.a, 0);
      length(`scale point ${i + 1}: height`, start.b, 0);
      const place: Coordinate[] = [
        { unknown: index, axis: 'a' },
        { unknown: index + 1, axis: 'b' },
        { unknown: depth, axis: 'c' },
      ];
      seeStanding(scaleSource, `scale point ${i + 1}`, place, pixel);
      return index;
    });
    const [i, j] = [points[0] ?? 0, points[1] ?? 0];
    const between = (p: Float64Array) =>
      [(p[i] ?? 0) - (p[j] ?? 0), (p[i + 1] ?? 0) - (p[j + 1] ?? 0)] as const;
    observe(builder, scaleSource, {
      name: 'distance of the two points',
      depends: [i, i + 1, j, j + 1, ruler],
      predict: (p) => [Math.hypot(...between(p)) + (p[ruler] ?? 0)],
      values: [truck.scale.distance.value],
      uncertainty: [truck.scale.distance.u],
      derivative: (p) => {
        const [a, b] = between(p);
        const size = Math.hypot(a, b);
        return [[a / size, b / size, -a / size, -b / size, 1]];
      },
    });
  }
  /** Which observation reads which body mark in which picture. */
  const markReadings: { picture: string; key: string; observation: number }[] = [];
  for (const [key, index] of marks) {
    const pixel = standing.bodyMarks.get(key);
    markReadings.push({ picture: standing.id, key, observation: builder.observations.length });
    if (pixel) seeStanding('body marks', `mark ${key}`, placeOf(index), pixel);
  }
  for (const [id, index] of hooks) {
    const pixel = standing.hooks.get(id);
    if (pixel) seeStanding('hook marks', `hook ${id}`, placeOf(index), pixel);
  }

  // Hanging pictures.
  const hangLayouts = new Map<string, HangLayout>();
  for (const [number, hang] of hangs.entries()) {
    const block = number + 1;
    const name = `hang ${number + 1}`;
    const hookIndex = hooks.get(hang.hook);
    const hookGivens = truck.hooks.find(({ id }) => id === hang.hook);
    const hookStart = hookStarts.get(hang.hook);
    if (hookIndex === undefined || !hookGivens || !hookStart) {
      return refusal('unknown hook', `The hook of ${name} has no place yet.`);
    }
    const keys = [...hang.bodyMarks.keys()].filter((key) => marks.has(key));
    const points = keys.map((key) => markStarts.get(key) ?? hookStart);
    const pixels = keys.map((key) => hang.bodyMarks.get(key) ?? hang.string[0]);
    if (keys.length < 2) {
      return refusal(
        'too few marks',
        `${name} shares ${keys.length} body marks with the standing picture; it needs two.`,
      );
    }
    const start = startCamera(hang, points, pixels);
    if (!start) return refusal('marks coincide', `The body marks of ${name} lie on one point.`);
    const first = addCamera(builder, name, start, hang, block);
    const seen = { first, centerX: hang.width / 2, centerY: hang.height / 2 };
    const [upper, lower] = hang.string;
    const stringStart = Math.atan2(lower.y - upper.y, upper.x - lower.x) - start.roll;
    const stringAngle = add(builder, `${name}: string angle`, stringStart, 0.02, SETTLED_ANGLE, block);

    const droop = (axle: string, pixel: MarkedPoint | undefined) => {
      if (hang.suspension === 'locked') return null;
      const index = length(`${name}: ${axle} droop ahead`, 0, block);
      length(`${name}: ${axle} droop up`, 0, block);
      // Wide while the hub is marked: the picture tells. Honest about not knowing where it is not.
      const [across, along] = pixel ? [0.1, 0.1] : [DROOP_UNREAD.across, DROOP_UNREAD.along];
      observe(builder, 'droop', prior(`${name}: ${axle} droop ahead`, index, 0, across));
      observe(builder, 'droop', prior(`${name}: ${axle} droop up`, index + 1, 0, along));
      return index;
    };
    const frontDroop = droop('front axle', hang.frontHub);
    const rearDroop = droop('rear axle', hang.rearHub);
    const moved = (place: readonly Coordinate[], index: number | null): Place =>
      linearPlace(
        index === null ? place : [...place, { unknown: index, axis: 'a' }, { unknown: index + 1, axis: 'b' }],
      );
    const hookDroop =
      hookGivens.carrier === 'front axle'
        ? frontDroop
        : hookGivens.carrier === 'rear axle'
          ? rearDroop
          : null;
    const hook = moved(placeOf(hookIndex), hookDroop);
    const see = (source: Source, what: string, place: Place, pixel: MarkedPoint) =>
      observe(builder, source, pointSighting(`${name}: ${what}`, seen, place, pixel));
    // The truck leans sideways on the string by its CG's offset over the hook's height above it.
    const lever = Math.max(0.05, leverStart(hookStart, stringStart, truck, nose));
    const up = stringUp(stringAngle, hookIndex + 2, lateral, lever);
    observe(builder, 'view off square', inPlaneSighting(`${name}: view up`, seen, up, hang.oblique));
    observe(
      builder,
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
      observe(builder, 'string', lineSighting(`${name}: string ${end}`, seen, hook, above, pixel));
    }
    if (hang.hookMark) see('hook marks', 'hook', hook, hang.hookMark);
    for (const key of keys) {
      const index = marks.get(key);
      const pixel = hang.bodyMarks.get(key);
      markReadings.push({ picture: hang.id, key, observation: builder.observations.length });
      if (index !== undefined && pixel) see('body marks', `mark ${key}`, linearPlace(placeOf(index)), pixel);
    }
    if (frontDroop !== null && hang.frontHub)
      see('droop', 'front hub', moved(frontHub, frontDroop), hang.frontHub);
    if (rearDroop !== null && hang.rearHub) see('droop', 'rear hub', moved(rearHub, rearDroop), hang.rearHub);
    hangLayouts.set(hang.id, { camera: first, stringAngle, frontDroop, rearDroop });
  }

  const { unknowns, observations, sources } = builder;
  const start =
    options.start?.unknowns.length === unknowns.length && options.start.unknowns.every(Number.isFinite)
      ? { start: options.start }
      : {};
  const fitted = adjust(unknowns, observations, { ...start, curvature: true, maxIterations: MOST_STEPS });
  if (!fitted.ok) return fitted.reason === 'not-converged' ? refusal('not-converged', CONTRADICTION) : fitted;
  const p = fitted.value.unknowns;
  const standingView = cameraAt(p, seenStanding);
  const hangCameras = new Map<string, Camera>();
  const registrations = new Map<string, Registration>();
  for (const hang of hangs) {
    const layout = hangLayouts.get(hang.id);
    if (!layout) continue;
    const camera = cameraAt(p, {
      first: layout.camera,
      centerX: hang.width / 2,
      centerY: hang.height / 2,
    });
    hangCameras.set(hang.id, camera);
    const keys = [...hang.bodyMarks.keys()].filter((key) => marks.has(key));
    const flat = (view: Camera, source: ReadonlyMap<string, PixelPoint>) =>
      keys.map((key) => unproject(view, source.get(key) ?? center, p[(marks.get(key) ?? 0) + 2] ?? 0));
    const squares = keys.map(
      (key) =>
        ((hang.bodyMarks.get(key)?.u ?? 0) / camera.scale) ** 2 +
        ((standing.bodyMarks.get(key)?.u ?? 0) / standingView.scale) ** 2,
    );
    const expected = Math.sqrt(squares.reduce((sum, s) => sum + s, 0) / keys.length);
    registrations.set(
      hang.id,
      registrationOf(keys, flat(camera, hang.bodyMarks), flat(standingView, standing.bodyMarks), expected),
    );
  }
  // Where the whole fits better than chance lets expect, there is no misplaced mark to look for.
  const { chiSquared, degreesOfFreedom } = fitted.value;
  const suspected = chiSquared > degreesOfFreedom ? markReadings : [];
  const suspects = suspected.flatMap(({ picture, key, observation }): Suspect[] => {
    const without = fitted.value.leftOut(observation);
    if (!without) return [];
    const { scale } = hangCameras.get(picture) ?? standingView;
    const { residuals, chiSquaredLess } = without;
    return [{ picture, key, off: Math.hypot(...residuals) / scale, chiSquaredLess }];
  });
  return success({
    adjustment: fitted.value,
    layout: {
      wheelbase,
      frontRadius: front,
      rearRadius: rear,
      hubDepth: hub,
      lateral,
      frontShare,
      rearShare,
      rulerZero: ruler,
      marks,
      hooks,
      standing: standingCamera,
      hangs: hangLayouts,
    },
    sources,
    start: fitted.value,
    standingCamera: standingView,
    hangCameras,
    registrations,
    misplaced: misplacedMarks(suspects, standing.id),
  });
}

/** A length by ruler: the unknown it is of, and the ruler's zero along the way in which that unknown grows. */
const ruled = (name: string, index: number, zero: number, along: 1 | -1, read: Estimate): Observation => ({
  name,
  depends: [index, zero],
  predict: (p) => [(p[index] ?? 0) + along * (p[zero] ?? 0)],
  values: [read.value],
  uncertainty: [read.u],
  derivative: () => [[1, along]],
});

/** The string's upward direction: at `angle` in the side plane, leaning sideways by (hook − CG) / lever. */
function stringUp(angle: number, hookDepth: number, lateral: number, lever: number): Place {
  const read = (p: Float64Array) => {
    const lean = ((p[hookDepth] ?? 0) - (p[lateral] ?? 0)) / lever;
    return { cos: Math.cos(p[angle] ?? 0), sin: Math.sin(p[angle] ?? 0), lean, norm: Math.hypot(1, lean) };
  };
  return {
    depends: [angle, hookDepth, lateral],
    at: (p) => {
      const { cos, sin, lean, norm } = read(p);
      return { a: cos / norm, b: sin / norm, c: lean / norm };
    },
    slopes: (p) => {
      const { cos, sin, lean, norm } = read(p);
      const byLean = 1 / (lever * norm ** 3);
      const byHook = { a: -cos * lean * byLean, b: -sin * lean * byLean, c: byLean };
      return [{ a: -sin / norm, b: cos / norm, c: 0 }, byHook, { a: -byHook.a, b: -byHook.b, c: -byHook.c }];
    },
  };
}

/** Square to the string in the side plane. */
const acrossString = (angle: number): Place => ({
  depends: [angle],
  at: (p) => ({ a: Math.sin(p[angle] ?? 0), b: -Math.cos(p[angle] ?? 0), c: 0 }),
  slopes: (p) => [{ a: Math.cos(p[angle] ?? 0), b: Math.sin(p[angle] ?? 0), c: 0 }],
});

/** Distance along the string from the hook down to the truck's middle: enough for a lean of a degree or two. */
function leverStart(hook: ViewPoint, angle: number, truck: TruckGivens, nose: 1 | -1): number {
  const radius = truck.rearTireRadius?.value ?? RADIUS_UNREAD.value;
  const a = hook.a - (nose * truck.wheelbase.value) / 2;
  const b = hook.b - 1.7 * radius;
  return a * Math.cos(angle) + b * Math.sin(angle);
}
