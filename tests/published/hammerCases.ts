import { benchAnswer } from '../../src/answer/benchAnswer';
import {
  blockMass,
  DENSITY,
  HAMMER_BLOCKS,
  HAMMER_HOOKS,
  HAMMER_LENGTH,
  hammerCg,
} from '../../src/figures/hammer';
import {
  crossOnPictures,
  FLAT_ASIDE,
  type CrossingHang,
  type PixelMark,
} from '../../src/photo/crossOnPictures';
import { COVERAGE, angleIn, lengthIn, massIn, kilograms, meters, radians } from '../../src/physics';
import { emptyBodyMark, emptyGiven, emptyPicture, emptyState } from '../../src/sheet/empty';
import type { Mark, MarkRole, Picture } from '../../src/sheet/schema';
import { project, type Camera } from '../demo/world/camera';
import { random } from '../demo/world/random';
import type { Vector } from '../demo/world/vector';
import type { Numbers } from './photographCases';

/** The hammer of chapter 3: by its blocks, and hung twice before a camera. */

/** Points that are marked, m: along, across, toward the camera. 1 and 2 are the ends of the handle. */
const MARKS: Readonly<Record<string, Vector>> = {
  A: [0, 0, 0.008],
  B: [HAMMER_LENGTH / 1000, 0, 0.014],
  C: [0.316, -0.038, 0.014],
  D: [0.316, 0.055, 0.014],
};
/** Where the head ends and only the handle goes on, mm along. */
const HEAD_UNDERSIDE = 302;
/** One standard deviation of a mark by hand, pixels, and what the reader says of it. */
const MARK_U = 1.5;

/**
 * A picture of the hammer hanging by one of its hooks: a camera 1.5 m away, held a few degrees off square and off
 * level, and marks with errors.
 */
function hang(id: keyof typeof HAMMER_HOOKS, yaw: number, roll: number): CrossingHang {
  const hook = HAMMER_HOOKS[id];
  const [x0, z0] = [hook.along / 1000, hook.across / 1000];
  const cg = hammerCg();
  const reach = Math.hypot(cg.x.value - x0, cg.z.value - z0);
  // Down, in the hammer's own axes; the world has the hook at its origin and z up, the camera looks along y.
  const [down, side] = [(cg.x.value - x0) / reach, (cg.z.value - z0) / reach];
  const inWorld = ([along, across, near]: Vector): Vector => {
    const [a, b] = [along - x0, across - z0];
    return [a * -side + b * down, -near, -(a * down + b * side)];
  };
  const camera = heldCamera(yaw, roll);
  const draw = random(1, id);
  const seen = (place: Vector): PixelMark => {
    const { x, y } = project(camera, place);
    return { x: x + MARK_U * draw.normal(), y: y + MARK_U * draw.normal(), u: MARK_U };
  };
  return {
    id,
    width: camera.width,
    height: camera.height,
    bodyMarks: new Map(Object.entries(MARKS).map(([key, place]) => [key, seen(inWorld(place))])),
    string: [seen([0, 0, 0.24]), seen([0, 0, 0.02])],
  };
}

/** 1.5 m in front of a point 80 mm below the hook, 2 pixels a millimeter there. */
function heldCamera(yaw: number, roll: number): Camera {
  const [distance, aim] = [1.5, -0.08];
  const forward: Vector = [-Math.sin(yaw), Math.cos(yaw), 0];
  const across: Vector = [Math.cos(yaw), Math.sin(yaw), 0];
  const [c, s] = [Math.cos(roll), Math.sin(roll)];
  return {
    position: [-distance * forward[0], -distance * forward[1], aim],
    forward,
    right: [c * across[0], c * across[1], -s],
    down: [-s * across[0], -s * across[1], -c],
    focal: 2000 * distance,
    width: 1200,
    height: 1600,
  };
}

const grams = (kg: number): number => massIn(kilograms(kg), 'g');

function byBlocks(): Numbers {
  const cg = hammerCg();
  const heavier = hammerCg({ ...DENSITY, ash: 1.1 * DENSITY.ash });
  const mass = (name: string): number => {
    const block = HAMMER_BLOCKS.find((candidate) => candidate.name === name);
    if (!block) throw new Error(`no block ${name}`);
    return grams(blockMass(block));
  };
  const [face, peen, cheeks, handle] = ['face side', 'peen side', 'cheeks', 'handle'].map(mass);
  return [
    ['hammer.face', face ?? NaN, 1],
    ['hammer.peen', peen ?? NaN, 1],
    ['hammer.cheeks', cheeks ?? NaN, 1],
    ['hammer.handle', handle ?? NaN, 1],
    ['hammer.mass', grams(cg.mass.value), 1],
    ['hammer.ash', DENSITY.ash, 0],
    ['hammer.along', lengthIn(cg.x.value, 'mm'), 1],
    ['hammer.across', lengthIn(cg.z.value, 'mm'), 1],
    ['hammer.head', (face ?? NaN) + (peen ?? NaN) + (cheeks ?? NaN), 1],
    ['hammer.fromTop', HAMMER_LENGTH - lengthIn(cg.x.value, 'mm'), 1],
    ['hammer.belowHead', HEAD_UNDERSIDE - lengthIn(cg.x.value, 'mm'), 1],
    ['hammer.heavier', lengthIn(cg.x.value, 'mm') - lengthIn(heavier.x.value, 'mm'), 1],
  ];
}

function byPictures(hangs: readonly CrossingHang[]): Numbers {
  const crossed = crossOnPictures(hangs, { aside: FLAT_ASIDE });
  if (!crossed.ok) throw new Error(crossed.message);
  const picture = crossed.value.pictures[0];
  if (!picture) throw new Error('the hammer’s hangs do not cross on a picture');
  const { from, to, along, left } = picture.relative;
  // The scale is the handle, 330 mm, from mark A to mark B.
  const ends = new Map([
    ['A', 0],
    ['B', 1],
  ]);
  const [start, end] = [ends.get(from), ends.get(to)];
  if (start === undefined || end === undefined || start === end)
    throw new Error(`the hammer’s place is told from ${from} to ${to}, not along its handle`);
  const turned = start > end;
  const read = (value: number): number => HAMMER_LENGTH * (turned ? 1 - value : value);
  const [alongMm, acrossMm] = [read(along.value), HAMMER_LENGTH * left.value * (turned ? -1 : 1)];
  const [alongLimit, acrossLimit] = [along.u, left.u].map((u) => COVERAGE * HAMMER_LENGTH * u);
  const cg = hammerCg();
  const off = [alongMm - lengthIn(cg.x.value, 'mm'), acrossMm - lengthIn(cg.z.value, 'mm')];
  if (!(Math.abs(off[0] ?? NaN) <= (alongLimit ?? 0) && Math.abs(off[1] ?? NaN) <= (acrossLimit ?? 0)))
    throw new Error('chapter 3 misstates that the pictures of the hammer hold its center of gravity');
  return [
    ['hammer.pictureAlong', alongMm, 1],
    ['hammer.pictureAlongPlusMinus', alongLimit ?? NaN, 1],
    ['hammer.pictureAcross', acrossMm, 1],
    ['hammer.pictureAcrossPlusMinus', acrossLimit ?? NaN, 1],
    ['hammer.crossing', angleIn(picture.angle, 'deg'), 0],
    // Both ends of the handle, each read to 3 pixels of half a millimeter.
    ['hammer.turn', angleIn(radians(Math.atan((Math.SQRT2 * 3 * 0.5) / HAMMER_LENGTH)), 'deg'), 1],
  ];
}

/** The same pictures on a bench sheet, as an object, with the depth of what is marked and a paced camera distance. */
function bySheet(name: string, hangs: readonly CrossingHang[]): Numbers {
  const typed = <Unit extends string>(unit: Unit, text: string, plusMinus: string) => ({
    ...emptyGiven(unit),
    text,
    plusMinus,
  });
  const roleOf = (key: string): MarkRole =>
    key === 'A' ? 'scale 1' : key === 'B' ? 'scale 2' : `mark ${key}`;
  const pictures = hangs.map((taken): Picture => {
    const mark = (role: MarkRole, { x, y }: PixelMark): Mark => ({
      role,
      x,
      y,
      plusMinus: '',
      counted: true,
      source: 'hand',
    });
    return {
      ...emptyPicture('hanging', taken.width, taken.height),
      id: taken.id,
      distance: typed('m', '1.5', '0.5'),
      markPlusMinus: typed('px', '3', ''),
      marks: [
        ...[...taken.bodyMarks].map(([key, place]) => mark(roleOf(key), place)),
        mark('string upper', taken.string[0]),
        mark('string lower', taken.string[1]),
      ],
    };
  });
  const answer = benchAnswer({
    ...emptyState('hammer'),
    body: 'object',
    scaleFrom: 'two points',
    scaleDistance: typed('mm', String(HAMMER_LENGTH), '1'),
    scaleDepth: typed('mm', '11', '4'),
    bodyMarks: ['C', 'D'].map((key) => ({ ...emptyBodyMark(key), depth: typed('mm', '14', '2') })),
    pictures,
  });
  if (!answer.cg.ok) throw new Error(answer.cg.message);
  const { axes, ahead, height } = answer.cg.value;
  if (axes !== 'own') throw new Error('the hammer is no truck');
  const cg = hammerCg();
  if (
    Math.abs(ahead.value - cg.x.value) > COVERAGE * ahead.u ||
    Math.abs(height.value - cg.z.value) > COVERAGE * height.u
  )
    throw new Error('chapter 3 misstates that the sheet of the hammer holds its center of gravity');
  return [
    [`hammer.${name}Along`, lengthIn(ahead.value, 'mm'), 1],
    [`hammer.${name}AlongPlusMinus`, COVERAGE * lengthIn(meters(ahead.u), 'mm'), 1],
    [`hammer.${name}Across`, lengthIn(height.value, 'mm'), 1],
    [`hammer.${name}AcrossPlusMinus`, COVERAGE * lengthIn(meters(height.u), 'mm'), 1],
  ];
}

const HANGS = [hang('butt', 0.035, 0.07), hang('peen', -0.026, -0.05)];
const THIRD = hang('face', 0.03, 0.04);

export const HAMMER_NUMBERS: Numbers = [
  ...byBlocks(),
  ...byPictures(HANGS),
  ...bySheet('sheet', HANGS),
  ...bySheet('three', [...HANGS, THIRD]),
];
