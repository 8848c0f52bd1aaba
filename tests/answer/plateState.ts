import { emptyBodyMark, emptyPicture, emptySheet } from '../../src/sheet/empty';
import type { BenchSheet, BuildState, Mark, MarkRole, Picture } from '../../src/sheet/schema';

/**
 * A flat plate of a known centroid, hung from two of its corners and photographed square from far away: pictures whose
 * every point is known. L of two strips, 200 by 60 and 60 by 140 mm (areas 12,000 and 8,400 mm²).
 */

export interface PlatePoint {
  readonly x: number;
  readonly y: number;
}

/** Centroid of a composite plate: F. P. Beer, E. R. Johnston, Vector Mechanics for Engineers: Statics, eq. (5.7). mm */
export const CENTROID: PlatePoint = {
  x: (12_000 * 100 + 8_400 * 30) / 20_400,
  y: (12_000 * 30 + 8_400 * 130) / 20_400,
};

/** Corners of the plate, mm, y up; C and D are the ends of its upright strip. */
export const CORNERS: Readonly<Record<'A' | 'B' | 'C' | 'D', PlatePoint>> = {
  A: { x: 0, y: 0 },
  B: { x: 200, y: 0 },
  C: { x: 60, y: 200 },
  D: { x: 0, y: 200 },
};
/** The two points of known distance: along the lower edge, from which the plate's own axes start. */
export const SCALE: readonly [PlatePoint, PlatePoint] = [
  { x: 10, y: 10 },
  { x: 190, y: 10 },
];
/** What it stands on: its lower edge. */
export const BASE: readonly [PlatePoint, PlatePoint] = [
  { x: 0, y: 0 },
  { x: 200, y: 0 },
];

const WIDTH = 900;
const HEIGHT = 1200;

/** A picture of the plate hung from `hook`: the centroid straight below it, `perMm` pixels a millimeter. */
export interface PlateShot {
  readonly id: string;
  readonly hook: PlatePoint;
  readonly perMm: number;
}

export const SHOTS: readonly [PlateShot, PlateShot] = [
  { id: 'hang-1', hook: { x: 190, y: 12 }, perMm: 2.4 },
  { id: 'hang-2', hook: { x: 12, y: 190 }, perMm: 2.1 },
];

/** Pixel of a point of the plate. The hook hangs at the middle of the picture's width. */
export function pixelOf({ hook, perMm }: PlateShot, p: PlatePoint): PlatePoint {
  // Turned so that the way from hook to centroid points down.
  const down = Math.atan2(CENTROID.y - hook.y, CENTROID.x - hook.x);
  const turn = -Math.PI / 2 - down;
  const [dx, dy] = [p.x - hook.x, p.y - hook.y];
  return {
    x: WIDTH / 2 + perMm * (Math.cos(turn) * dx - Math.sin(turn) * dy),
    y: 420 - perMm * (Math.sin(turn) * dx + Math.cos(turn) * dy),
  };
}

const mark = (role: MarkRole, { x, y }: PlatePoint): Mark => ({
  role,
  x: Math.round(x * 100) / 100,
  y: Math.round(y * 100) / 100,
  plusMinus: '',
  counted: true,
  source: 'hand',
});

function pictureOf(shot: PlateShot, keys: readonly (keyof typeof CORNERS)[]): Picture {
  const hook = pixelOf(shot, shot.hook);
  return {
    ...emptyPicture('hanging', WIDTH, HEIGHT),
    id: shot.id,
    marks: [
      mark('string upper', { x: hook.x, y: 20 }),
      mark('string lower', { x: hook.x, y: hook.y - 20 }),
      ...keys.map((key) => mark(`mark ${key}`, pixelOf(shot, CORNERS[key]))),
    ],
  };
}

export interface PlateOptions {
  readonly body?: BuildState['body'];
  readonly keys?: readonly (keyof typeof CORNERS)[];
  readonly hangs?: 1 | 2;
  /** Two points of known distance in the first picture, and their distance. */
  readonly scaled?: boolean;
  /** The ends of the base in the first picture. */
  readonly based?: boolean;
}

/** A sheet with the plate's pictures and nothing else, its state open. */
export function plateSheet({
  body = 'object',
  keys = ['A', 'B', 'C'],
  hangs = 2,
  scaled = false,
  based = false,
}: PlateOptions = {}): BenchSheet {
  const sheet = emptySheet('Plate');
  const [state] = sheet.states;
  const [first] = SHOTS;
  if (!state) throw new Error('a sheet has a state');
  state.body = body;
  state.bodyMarks = keys.map((key) => emptyBodyMark(key));
  state.pictures = SHOTS.slice(0, hangs).map((shot) => pictureOf(shot, keys));
  if (scaled) {
    state.scaleFrom = 'two points';
    state.scaleDistance = { ...state.scaleDistance, text: '180', unit: 'mm' };
    state.pictures[0]?.marks.push(
      mark('scale 1', pixelOf(first, SCALE[0])),
      mark('scale 2', pixelOf(first, SCALE[1])),
    );
  }
  if (based)
    state.pictures[0]?.marks.push(
      mark('base 1', pixelOf(first, BASE[0])),
      mark('base 2', pixelOf(first, BASE[1])),
    );
  return sheet;
}

export function plateState(options: PlateOptions = {}): BuildState {
  const [state] = plateSheet(options).states;
  if (!state) throw new Error('a sheet has a state');
  return state;
}
