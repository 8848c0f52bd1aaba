import { benchAnswer } from '../../src/answer/benchAnswer';
import { readBy } from '../../src/answer/readBy';
import { project } from '../../src/photo/camera';
import { crossOnPictures, type CrossingHang, type PixelMark } from '../../src/photo/crossOnPictures';
import { solvePose } from '../../src/photo/pose/solvePose';
import type { ReadingMethod } from '../../src/photo/readingMethods';
import { COVERAGE, type PlanePoint, angleIn, lengthIn, meters, radians } from '../../src/physics';
import type { BuildState, Picture } from '../../src/sheet/schema';
import { BRAMBLE } from '../demo/world/bramble';
import { homographyThrough, similarityOf, type Pair } from './planeMaps';

/** Numbers of chapter 3 on reading photographs: name, value, decimals. */
export type Numbers = readonly (readonly [name: string, value: number, decimals: number])[];

/** A picture such as Bramble's: mm per pixel; the CG so far below the hook, mm; string marks and body marks apart, mm. */
const PER_PIXEL = 0.6;
const BELOW = 130;
const STRING = 450;
const MARKS = 250;
/** By hand, and as the finder reads them, pixels (one mark). */
const BY_HAND = 2;
const FOUND = 0.3;
/** A place by ruler and by calipers, mm (±). */
const RULED = 1.4;
const CALIPERS = 0.6;
/** Marks in front of the center plane, m. */
const NEAR = 0.09;

const DEGREE = Math.PI / 180;
const inDegrees = (angle: number): number => angleIn(radians(angle), 'deg');

/** How far a line swings at the CG when two marks `apart` mm each miss by so many millimeters, as errors add up. */
const swing = (miss: number, apart: number): number =>
  BELOW * Math.tan(Math.atan((Math.SQRT2 * miss) / apart));

/** Smear, a short string, marks close together: the line at the CG, mm, in a good picture and in a spoiled one. */
const spoiled: Numbers = [
  ['spoil.good', swing(BY_HAND * PER_PIXEL, MARKS), 1],
  // A mark smeared over 8 pixels is read within half of that.
  ['spoil.smear', swing(4 * PER_PIXEL, MARKS), 1],
  ['spoil.string', swing(BY_HAND * PER_PIXEL, STRING), 1],
  ['spoil.shortString', swing(BY_HAND * PER_PIXEL, 60), 1],
  ['spoil.closeMarks', swing(BY_HAND * PER_PIXEL, 60), 1],
];

const found: Numbers = [
  ['found.markByHand', BY_HAND * PER_PIXEL, 1],
  ['found.mark', FOUND * PER_PIXEL, 1],
  ['found.stringByHand', swing(BY_HAND * PER_PIXEL, STRING), 2],
  ['found.string', swing(FOUND * PER_PIXEL, STRING), 2],
  ['found.linesByHand', swing(BY_HAND * PER_PIXEL, MARKS), 1],
  ['found.lines', swing(FOUND * PER_PIXEL, MARKS), 1],
];

const camera = { roll: 0, yaw: 0, pitch: 0, a: 0, b: 0, scale: 1000, centerX: 0, centerY: 0, nearness: 0 };

/** The slope of a string above a hanging truck against two near marks on it, when the view turns by `yaw`, rad. */
function slopeAgainstMarks(yaw: number, distance: number): number {
  const seen = { ...camera, yaw, nearness: 1 / distance };
  const slope = (from: { a: number; b: number; c: number }, to: typeof from): number => {
    const [p, q] = [project(seen, from), project(seen, to)];
    return Math.atan2(p.y - q.y, q.x - p.x);
  };
  const string = slope({ a: 0.03, b: 0.15, c: 0 }, { a: 0.03, b: 0.15 + STRING / 1000, c: 0 });
  return string - slope({ a: -0.1, b: -0.12, c: NEAR }, { a: 0.12, b: 0, c: NEAR });
}

/** How far the line swings at the CG when the view is off square by `yaw` to the worse side, mm. */
const swingOff = (yaw: number, distance: number): number =>
  Math.max(
    ...[yaw, -yaw].map(
      (turn) =>
        BELOW * Math.abs(Math.tan(slopeAgainstMarks(turn, distance) - slopeAgainstMarks(0, distance))),
    ),
  );

/** How far near marks shift against the string when the view is off square, mm. */
const shiftOff = (yaw: number): number => 1000 * NEAR * Math.sin(yaw);

/** Bramble's body marks and hooks before a camera at 1.5 m, 3° off square, that reads them to so many pixels (±). */
function poseOf(readTo: number, ruledTo: number, places: readonly (readonly [number, number, number])[]) {
  const seen = { ...camera, yaw: 3 * DEGREE, roll: 0.1, a: 0.15, b: 0.1, scale: 1000 / PER_PIXEL };
  const size = { width: 1200, height: 1440 };
  const held = { ...seen, nearness: 1 / 1.5, centerX: size.width / 2, centerY: size.height / 2 };
  const u = ruledTo / 1000 / COVERAGE;
  const points = places.map(([x, y, z]) => {
    const place = { a: x, b: z, c: -y };
    return { place, u: [u, u, u] as const, pixel: project(held, place), uPixel: readTo / COVERAGE };
  });
  return solvePose(points, { ...size, distance: { value: 1.5, u: 0.5 / COVERAGE } });
}

/** What the pose tells of the view, and what that leaves open of a line 90 mm behind the marks. */
function pose(): Numbers {
  const marks = BRAMBLE.landmarks.map(({ place }) => place);
  const hooks = BRAMBLE.hooks.filter(({ carrier }) => carrier === 'body').map(({ place }) => place);
  const told = (readTo: number, ruledTo: number): number => {
    const solved = poseOf(readTo, ruledTo, [...marks, ...hooks]);
    if (!solved.ok) throw new Error(solved.message);
    return COVERAGE * solved.value.u.yaw;
  };
  const flat = poseOf(BY_HAND, RULED, marks);
  if (flat.ok || flat.reason !== 'ambiguous')
    throw new Error('chapter 3 misstates that marks at one depth fit two views');
  return [
    ['pose.view', inDegrees(told(BY_HAND, RULED)), 1],
    ['pose.leaves', shiftOff(told(BY_HAND, RULED)), 1],
    ['pose.leavesFound', shiftOff(told(FOUND, RULED)), 1],
    ['pose.leavesFine', shiftOff(told(FOUND, CALIPERS)), 1],
  ];
}

/** How far apart a mark 150 mm beside the middle is drawn when its depth is off by 10 mm, mm. */
const depthOff = (distance: number): number => {
  const at = (c: number): number => project({ ...camera, nearness: 1 / distance }, { a: 0.15, b: 0, c }).x;
  return at(NEAR + 0.01) - at(NEAR);
};

const views: Numbers = [
  ['view.shift3', shiftOff(3 * DEGREE), 1],
  ['view.shift15', shiftOff(15 * DEGREE), 0],
  ['view.swing3', swingOff(3 * DEGREE, 1.5), 1],
  ['view.swing15', swingOff(15 * DEGREE, 1.5), 1],
  ['view.depthNear', depthOff(0.6), 1],
  ['view.depthFar', depthOff(1.5), 1],
];

/** Four marks within 12 mm of one line, one read 1 mm too high; where that puts a hook 120 mm above the line. */
function nearlyInLine(): Numbers {
  const marks = [
    { x: -125, y: 0 },
    { x: -40, y: 6 },
    { x: 45, y: -6 },
    { x: 125, y: 2 },
  ];
  const hook = { x: 0, y: 120 };
  const pairs = marks.map((from, i): Pair => ({ from, to: i === 1 ? { x: from.x, y: from.y + 1 } : from }));
  const off = (map: (point: { x: number; y: number }) => { x: number; y: number }): number => {
    const to = map(hook);
    return Math.hypot(to.x - hook.x, to.y - hook.y);
  };
  return [
    ['inLine.similarity', off(similarityOf(pairs)), 1],
    ['inLine.homography', off(homographyThrough(pairs)), 0],
  ];
}

/** Two hanging pictures of the demo and nothing else: no standing picture, no length, no ruler. */
export function smallestPath(build: BuildState, cg: PlanePoint): Numbers {
  const hangs = build.pictures.filter(({ hook }) => hook === 'hood' || hook === 'hoop').map(asHang);
  const crossed = crossOnPictures(hangs);
  if (!crossed.ok) throw new Error(crossed.message);
  const picture = crossed.value.pictures[0];
  if (!picture) throw new Error('the demo’s hangs do not cross on a picture');
  // Where the two marks that the place is told by are on the truck; seen from the right, ahead is to the right.
  const { from, to, along, left } = picture.relative;
  const mark = (key: string): { x: number; z: number } => {
    const landmark = BRAMBLE.landmarks.find((candidate) => candidate.key === key);
    if (!landmark) throw new Error(`no mark ${key}`);
    return { x: landmark.place[0], z: landmark.place[2] };
  };
  const [a, b] = [mark(from), mark(to)];
  const [dx, dz] = [b.x - a.x, b.z - a.z];
  const place = {
    x: a.x + along.value * dx - left.value * dz,
    z: a.z + along.value * dz + left.value * dx,
  };
  const span = Math.hypot(dx, dz);
  const pixels = Math.hypot(...pixelsApart(build.pictures, picture.pictureId, from, to));
  const miss = Math.hypot(place.x - cg.x, place.z - cg.z);
  const limit = (COVERAGE * picture.u * span) / pixels;
  if (miss > limit) throw new Error('chapter 3 misstates that the smallest path holds the truth');
  return [
    ['path.plusMinus', lengthIn(meters(limit), 'mm'), 0],
    ['path.miss', lengthIn(meters(miss), 'mm'), 0],
    ['path.crossing', inDegrees(picture.angle), 0],
    ['path.scale', 0.01 * 150, 1],
  ];
}

/** How Bramble's hang from the hood pin is read, and what each way would leave uncertain, ± mm. */
export function waysToRead(name: string, build: BuildState, method: ReadingMethod): Numbers {
  const id = build.pictures.find(({ hook }) => hook === 'hood')?.id;
  const way = readBy(build, benchAnswer(build)).find(({ pictureId }) => pictureId === id);
  if (way?.method !== method) throw new Error(`chapter 3 misstates that this hang is read by ${method}`);
  return (['similarity', 'anchored direction', 'pose'] as const).flatMap((each) => {
    const u = way.expected[each];
    const [word = ''] = each.split(' ').slice(-1);
    return u === null ? [] : [[`read.${name}.${word}`, lengthIn(meters(COVERAGE * u), 'mm'), 1] as const];
  });
}

function pixelsApart(pictures: readonly Picture[], id: string, from: string, to: string): [number, number] {
  const marks = pictures.find((picture) => picture.id === id)?.marks ?? [];
  const at = (key: string) => marks.find(({ role }) => role === `mark ${key}` || role === key);
  const [p, q] = [at(from), at(to)];
  if (!p || !q) throw new Error(`no marks ${from} and ${to} in ${id}`);
  return [q.x - p.x, q.y - p.y];
}

function asHang({ id, width, height, marks, markPlusMinus }: Picture): CrossingHang {
  const u = Number(markPlusMinus.text) / COVERAGE;
  const read = (role: string): PixelMark => {
    const mark = marks.find((candidate) => candidate.role === role);
    if (!mark) throw new Error(`${id} has no ${role}`);
    return { x: mark.x, y: mark.y, u };
  };
  const body = marks.filter(({ role }) => role.startsWith('mark '));
  return {
    id,
    width,
    height,
    bodyMarks: new Map(body.map(({ role, x, y }) => [role.slice('mark '.length), { x, y, u }])),
    string: [read('string upper'), read('string lower')],
  };
}

export const PHOTOGRAPH_NUMBERS: Numbers = [...spoiled, ...found, ...views, ...pose(), ...nearlyInLine()];
