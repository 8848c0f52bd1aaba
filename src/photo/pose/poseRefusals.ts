import { type Refusal, refusal } from '../../physics';
import type { Spread } from './spread';

/** Why there is no pose, and what would help: each refusal with its sentences. */

export type PoseReason =
  | 'too few points'
  | 'nearly in line'
  | 'nearly in plane and no focal'
  | 'ambiguous'
  | 'behind the camera'
  | 'not settled';
type PoseRefusal = Refusal<PoseReason>;

const millimeters = (value: number): string => `${(value * 1000).toFixed(value < 0.01 ? 1 : 0)} mm`;
const degrees = (value: number): string => `${((value * 180) / Math.PI).toFixed(0)}°`;

export const FEWEST_POINTS = 4;

export const tooFew = (count: number): PoseRefusal =>
  refusal(
    'too few points',
    `Known marks: the view needs ${FEWEST_POINTS} of known place; got ${count}. Mark another point whose place was measured.`,
  );

export const noNumber = (): PoseRefusal =>
  refusal(
    'not settled',
    'Known marks: places and pixels need to be numbers; one is not. Type its place again.',
  );

export const notPositive = (label: 'Focal length' | 'Camera distance', value: number): PoseRefusal =>
  refusal(
    'behind the camera',
    `${label}: needs to be above zero; got “${value}”. Type what was measured, or leave it empty.`,
  );

export const inLine = ({ along, across }: Spread): PoseRefusal =>
  refusal(
    'nearly in line',
    `Known marks: need to lie off one line; got ${millimeters(across)} to its sides over ${millimeters(along)} along it. Mark a point well above, below or beside the others.`,
  );

export const inPlane = ({ thick }: Spread): PoseRefusal =>
  refusal(
    'nearly in plane and no focal',
    `Known marks: without focal length and camera distance they need to lie off one plane, or to be seen aslant from near; got ${millimeters(thick)} off it. Type the camera distance, or mark a point nearer to the camera or farther away.`,
  );

export const anglesOpen = (u: number): PoseRefusal =>
  refusal(
    'not settled',
    `Known marks: need to tell the view’s angles; they leave ${degrees(u)} open. Mark more points, farther apart and at other depths.`,
  );

/** Two poses `turn` (rad) apart fit alike. */
export const twoAlike = (turn: number): PoseRefusal =>
  refusal(
    'ambiguous',
    `Known marks: need to fit one view only; two fit alike, ${degrees(turn)} apart. Mark a point well in front of or behind the others, or take the picture from nearer.`,
  );

export const behind = (): PoseRefusal =>
  refusal(
    'behind the camera',
    'Known marks: need to lie in front of the camera; every view that fits has some behind it. Check camera distance, focal length and which mark is which.',
  );

export const noneFits = (): PoseRefusal =>
  refusal(
    'not settled',
    'Known marks: need to fit a view; the search found none. Check which mark is which and its place.',
  );
