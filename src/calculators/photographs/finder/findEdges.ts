import { findRound, findString, type FoundRound, type FoundString, type Gray } from '../../../photo/find';
import { refusal, success, type Result } from '../../../physics';
import type { Place } from '../surfaceView';

/** Half as many pixels across and down, each the mean of four; a last odd row or column is left out. */
export function halved({ width, height, levels }: Gray): Gray {
  const [across, down] = [Math.floor(width / 2), Math.floor(height / 2)];
  const half = new Float32Array(across * down);
  for (let j = 0; j < down; j++)
    for (let i = 0; i < across; i++) {
      const at = 2 * j * width + 2 * i;
      const sum =
        (levels[at] ?? 0) + (levels[at + 1] ?? 0) + (levels[at + width] ?? 0) + (levels[at + width + 1] ?? 0);
      half[j * across + i] = sum / 4;
    }
  return { width: across, height: down, levels: half };
}

/** How often a crop is halved at most: a string of 40 pixels is then one of 5. */
const HALVINGS = 3;
/** Wider than this a string or cord is looked for in the halved crop; narrower ones only at full size, pixels. */
const WIDE_FROM = 5;

const scaled = ({ x, y }: Place, by: number): Place => ({ x: x * by, y: y * by });

/**
 * The string between two marks of a crop. The finder knows strings up to about five pixels wide; a cord seen wider than
 * that, as in a large picture taken from close by, is found in the crop halved until it is as thin.
 */
export function stringIn(picture: Gray, upper: Place, lower: Place): Result<FoundString> {
  const whole = findString(picture, upper, lower);
  let reduced = picture;
  for (let halvings = 1; halvings <= HALVINGS; halvings++) {
    if (whole.ok || (whole.reason !== 'too wide' && whole.reason !== 'too faint')) return whole;
    reduced = halved(reduced);
    const by = 2 ** halvings;
    const found = findString(reduced, scaled(upper, 1 / by), scaled(lower, 1 / by));
    if (found.ok && found.value.width * by > WIDE_FROM) return success(enlarged(found.value, by));
  }
  return whole;
}

function enlarged(found: FoundString, by: number): FoundString {
  const u = ([atUpper, atLower]: readonly [number, number]) => [atUpper * by, atLower * by] as const;
  return {
    ...found,
    upper: scaled(found.upper, by),
    lower: scaled(found.lower, by),
    u: u(found.u),
    onString: {
      upper: scaled(found.onString.upper, by),
      lower: scaled(found.onString.lower, by),
      u: u(found.onString.u),
    },
    width: found.width * by,
    bow: found.bow * by,
    blur: found.blur * by,
  };
}

/** Rounds seen larger than this lose nothing where four pixels become one, pixels across. */
const LARGE_FROM = 60;

/** The round at a place of a crop; in a `large` crop only large rounds are looked for, with half as many pixels. */
export function roundIn(picture: Gray, near: Place, large: boolean): Result<FoundRound> {
  if (!large) return findRound(picture, near);
  const found = findRound(halved(picture), scaled(near, 1 / 2));
  if (!found.ok) return found;
  const { center, diameter, u } = found.value;
  if (diameter * 2 < LARGE_FROM) return NO_ROUND;
  return success({ ...found.value, center: scaled(center, 2), diameter: diameter * 2, u: u * 2 });
}

const NO_ROUND = refusal(
  'no round',
  'Round mark: needs an even round whose border is seen all around; none lies here. Place the mark by eye.',
);
