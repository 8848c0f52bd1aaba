import type { Estimate } from '../physics';
import { fitSimilarity, project, unproject } from './camera';
import type { Camera, PixelPoint, ViewPoint } from './camera';
import type { PictureAdjustment } from './fit/adjustPictures';
import { DISTORTION_U } from './fit/cameras';
import type { HangingPicture, HookGivens, StandingPicture, TruckGivens } from './fit/givens';
import { acrossAt } from './plumbLines';
import type { JointLines } from './plumbLines';
import { PLANE_OF_VIEW, toView } from './views';
import type { TruckPoint } from './views';
import { VIEW_AXES, meters } from '../physics';

/**
 * Three ways to carry a string from a hanging picture into the truck, and how sure each would be before anything is
 * fitted, from the same marks and the same givens:
 *
 * - similarity: scale, rotation and shift of the body marks carry the string along. Leaves out how the camera looked.
 * - anchored direction: the marks give the string's direction alone; it starts at the hook, measured by ruler.
 * - pose: the camera itself is solved, with everything that is known of it. Needs marks of known place, hubs, or the
 *   camera's distance, typed or by its focal length.
 *
 * A homography is none of them: marks that lie nearly in one line leave it free to turn about that line.
 */
export type ReadingMethod = 'similarity' | 'anchored direction' | 'pose';

/** What lets the camera be solved. */
export type PoseFrom = 'marks of known place' | 'hubs' | 'focal length' | 'typed distance';

export interface MethodOfHang {
  readonly pictureId: string;
  /** The surest of those that can be used. */
  readonly method: ReadingMethod;
  /** Standard uncertainty of the line across itself at the center of gravity, m; null where it cannot be used. */
  readonly expected: Readonly<Record<ReadingMethod, number | null>>;
  readonly poseFrom: readonly PoseFrom[];
}

const METHODS = ['similarity', 'anchored direction', 'pose'] as const satisfies readonly ReadingMethod[];
/** Body marks of known place with which a camera is solved by themselves. */
const FEWEST_KNOWN = 4;
/** A distance surer than this part of itself was measured, not assumed. */
const MEASURED_DISTANCE = 0.15;

interface Around {
  readonly truck: TruckGivens;
  readonly standings: readonly StandingPicture[];
  readonly hangs: readonly HangingPicture[];
  readonly adjusted: PictureAdjustment;
  readonly lines: JointLines;
  readonly cg: TruckPoint;
}

/** How each hang among the lines is read. */
export function readingMethods(around: Around): MethodOfHang[] {
  const { hangs, lines } = around;
  return hangs.flatMap((hang) => {
    if (!lines.hangs.some(({ pictureId }) => pictureId === hang.id)) return [];
    return methodOf(around, hang) ?? [];
  });
}

function methodOf(around: Around, hang: HangingPicture): MethodOfHang | null {
  const { truck, lines, cg } = around;
  const bench = simulatedBench(around, hang);
  const hook = truck.hooks.find(({ id }) => id === hang.hook);
  const poseFrom = poseFromOf(truck, hang);
  const [first, second] = VIEW_AXES[PLANE_OF_VIEW[hang.view]];
  const solved = acrossAt(lines, hang.id, { x: meters(cg[first]), z: meters(cg[second]) });
  const expected = {
    similarity: bench ? spreadOf(bench, (seen) => seen.offset) : null,
    'anchored direction': bench && hook?.ruled ? anchored(bench, hook, hang, cg) : null,
    pose: poseFrom.length > 0 ? solved : null,
  };
  const usable = METHODS.filter((each) => expected[each] !== null);
  const method = usable.toSorted((p, q) => (expected[p] ?? NaN) - (expected[q] ?? NaN))[0];
  return method ? { pictureId: hang.id, method, expected, poseFrom } : null;
}

function poseFromOf(truck: TruckGivens, hang: HangingPicture): PoseFrom[] {
  const known = [...hang.bodyMarks.keys()].filter((key) => {
    const place = truck.marks.get(key);
    return place?.ahead && place.height;
  });
  const from: PoseFrom[] = [];
  if (known.length >= FEWEST_KNOWN) from.push('marks of known place');
  if (hang.frontHub && hang.rearHub && hang.bodyMarks.size >= 2) from.push('hubs');
  if (hang.focal) from.push('focal length');
  if (hang.distance.u < MEASURED_DISTANCE * hang.distance.value) from.push('typed distance');
  return from;
}

/** What a similarity makes of one set of pictures. */
interface Carried {
  /** Of the center of gravity from the string's line as carried, m. */
  readonly offset: number;
  /** Direction of the string as carried, upward, rad. */
  readonly direction: number;
}

/** The same pictures taken again with one thing off by its standard uncertainty. */
type Again = readonly Carried[];

interface SimulatedBench {
  readonly nominal: Carried;
  readonly again: Again;
}

/** How far something lies off when everything is off by its standard uncertainty, one after the other, together. */
const spreadOf = ({ nominal, again }: SimulatedBench, of: (carried: Carried) => number): number =>
  Math.hypot(...again.map((carried) => of(carried) - of(nominal)));

/** The string starts at its hook by ruler; its direction, off by what the marks leave, swings it over the lever. */
function anchored(
  bench: SimulatedBench,
  hook: HookGivens,
  hang: HangingPicture,
  cg: TruckPoint,
): number | null {
  if (!hook.ruled) return null;
  const place = toView(hang.view, {
    x: hook.ruled.ahead.value,
    y: hook.left.value,
    z: hook.ruled.height.value,
  });
  const at = toView(hang.view, cg);
  const lever = Math.hypot(at.a - place.a, at.b - place.b);
  const up = bench.nominal.direction;
  const u: Readonly<Record<'a' | 'b' | 'c', Estimate>> = uncertaintyOf(hook, hook.ruled, hang);
  const across = Math.hypot(Math.sin(up) * u.a.u, Math.cos(up) * u.b.u);
  return Math.hypot(across, lever * spreadOf(bench, ({ direction }) => turn(direction, up)));
}

/** How surely a ruled hook stands where it was measured, by view axis. */
function uncertaintyOf(
  { left }: HookGivens,
  { ahead, height }: NonNullable<HookGivens['ruled']>,
  { view }: HangingPicture,
) {
  const axes: Record<'a' | 'b' | 'c', Estimate> = { a: left, b: left, c: left };
  for (const [axis, read] of [
    ['x', ahead],
    ['y', left],
    ['z', height],
  ] as const) {
    const shown = toView(view, { x: 0, y: 0, z: 0, [axis]: 1 });
    axes[shown.a !== 0 ? 'a' : shown.b !== 0 ? 'b' : 'c'] = read;
  }
  return axes;
}

const turn = (to: number, from: number): number => Math.atan2(Math.sin(to - from), Math.cos(to - from));

/**
 * The hang and the picture that its marks are carried to, taken square to the truck as the fit found them, and taken
 * again with each mark, view angle, distance, depth and lens off by its standard uncertainty. Null where no picture of
 * the same view shares two marks with it.
 */
function simulatedBench(
  { truck, standings, hangs, adjusted, lines, cg }: Around,
  hang: HangingPicture,
): SimulatedBench | null {
  const { layout, adjustment, cameras, references } = adjusted;
  const p = adjustment.unknowns;
  const reference = references.get(hang.id) ?? null;
  const other = [...standings, ...hangs].find(({ id }) => id === reference);
  const fitted = cameras.get(hang.id);
  const otherFitted = other && cameras.get(other.id);
  const line = lines.hangs.find(({ pictureId }) => pictureId === hang.id);
  if (!other || other.view !== hang.view || !fitted || !otherFitted || !line) return null;
  const square = (camera: Camera): Camera => ({ ...camera, yaw: 0, pitch: 0, distortion: 0 });
  const cameraHere = square(fitted);
  const cameraThere = square(otherFitted);
  const marks = [...hang.bodyMarks.keys()].flatMap((key) => {
    const index = layout.marks.get(key);
    const here = hang.bodyMarks.get(key);
    const there = other.bodyMarks.get(key);
    if (index === undefined || !here || !there) return [];
    const at = toView(hang.view, { x: p[index] ?? NaN, y: p[index + 1] ?? NaN, z: p[index + 2] ?? NaN });
    const depth = toView(hang.view, { x: 0, y: 1, z: 0 }).c === 0 ? 0 : (truck.marks.get(key)?.left.u ?? 0);
    return [{ at, depth, here: here.u, there: there.u }];
  });
  if (marks.length < 2) return null;
  const center = toView(hang.view, cg);
  const stringAngle = layout.hangs.get(hang.id)?.stringAngle;
  const angle = stringAngle === undefined ? NaN : (p[stringAngle] ?? NaN);
  /** The marked ends of the string, moved onto the line through the center of gravity. */
  const ends = hang.string.map((pixel): ViewPoint => {
    const at = unproject(fitted, pixel, center.c);
    const along = (at.a - center.a) * Math.cos(angle) + (at.b - center.b) * Math.sin(angle);
    return { a: center.a + along * Math.cos(angle), b: center.b + along * Math.sin(angle), c: center.c };
  });

  interface Off {
    readonly here?: Partial<Camera>;
    readonly there?: Partial<Camera>;
    readonly depths?: readonly number[];
    readonly markHere?: readonly [index: number, x: number, y: number];
    readonly markThere?: readonly [index: number, x: number, y: number];
    readonly end?: readonly [index: number, x: number, y: number];
  }
  const shifted = (pixel: PixelPoint, i: number, by: Off['end']): PixelPoint =>
    by && by[0] === i ? { x: pixel.x + by[1], y: pixel.y + by[2] } : pixel;
  const scaleThere = cameraThere.scale;
  /** A picture place as the reference picture's plane, m. */
  const flat = ({ x, y }: PixelPoint) => ({
    x: (x - cameraThere.centerX) / scaleThere,
    y: (cameraThere.centerY - y) / scaleThere,
  });
  const take = (off: Off): Carried | null => {
    const here = { ...cameraHere, ...off.here };
    const there = { ...cameraThere, ...off.there };
    const moved = marks.map(({ at }, i) => ({ ...at, c: at.c + (off.depths?.[i] ?? 0) }));
    const from = moved.map((at, i) => shifted(project(here, at), i, off.markHere));
    const to = moved.map((at, i) => flat(shifted(project(there, at), i, off.markThere)));
    const fit = fitSimilarity(
      from.map(({ x, y }) => ({ x, y: -y })),
      to,
    );
    if (!fit) return null;
    const [cos, sin] = [fit.scale * Math.cos(fit.rotation), fit.scale * Math.sin(fit.rotation)];
    const [upper, lower] = ends.map((end, i) => {
      const { x, y } = shifted(project(here, end), i, off.end);
      return { x: cos * x + sin * y + fit.shiftX, y: sin * x - cos * y + fit.shiftY };
    });
    if (!upper || !lower) return null;
    const place = flat(project(there, center));
    const direction = Math.atan2(upper.y - lower.y, upper.x - lower.x);
    return {
      offset: (place.x - lower.x) * Math.sin(direction) - (place.y - lower.y) * Math.cos(direction),
      direction,
    };
  };
  const each = <T>(items: readonly T[], offs: (item: T, i: number) => readonly Off[]): Off[] =>
    items.flatMap(offs);
  const oblique = Math.hypot(hang.oblique, hang.twist);
  const nearness = ({ distance }: { readonly distance: Estimate }) => distance.u / distance.value ** 2;
  const lens = { distortion: DISTORTION_U };
  const offs: Off[] = [
    { here: { yaw: oblique } },
    { here: { pitch: hang.oblique } },
    { there: { yaw: other.oblique } },
    { there: { pitch: other.oblique } },
    { here: { nearness: cameraHere.nearness + Math.min(nearness(hang), 0.5) } },
    { there: { nearness: cameraThere.nearness + Math.min(nearness(other), 0.5) } },
    { here: lens, there: lens },
    ...each(marks, ({ here, there, depth }, i) => [
      { markHere: [i, here, 0] },
      { markHere: [i, 0, here] },
      { markThere: [i, there, 0] },
      { markThere: [i, 0, there] },
      { depths: marks.map((_, k) => (k === i ? depth : 0)) },
    ]),
    ...each(hang.string, ({ u }, i) => [{ end: [i, u, 0] }, { end: [i, 0, u] }]),
  ];
  const nominal = take({});
  const again = offs.map(take);
  if (!nominal || !again.every((carried) => carried !== null)) return null;
  return { nominal, again };
}
