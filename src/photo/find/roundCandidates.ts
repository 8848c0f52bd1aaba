import type { PixelPoint } from '../camera';
import { borderAt, circle, halfAxes } from './ellipse';
import type { Ellipse } from './ellipse';
import { ellipseStep } from './ellipseFit';
import type { EdgePlace } from './ellipseFit';
import { levelAt } from './gray';
import type { Gray } from './gray';

/** A closed border around the press, roughly: good to about a pixel. */
export interface RoundCandidate {
  readonly ellipse: Ellipse;
  /** 1 where it is lighter outside, -1 where it is darker. */
  readonly sign: 1 | -1;
}

const DIRECTIONS = Array.from(
  { length: 24 },
  (_, i) => [Math.cos((i * Math.PI) / 12), Math.sin((i * Math.PI) / 12)] as const,
);
/** Places along a ray, as parts of the radius: an ellipse of ratio 0.6 stays within. */
const PARTS = Array.from({ length: 13 }, (_, i) => 0.64 + i * 0.06);
const SMALLEST = 5.5;
const LARGEST = 72;
const GROWTH = 1.25;
/** A press is within this part of the radius from the center. */
const PRESS = 0.95;

/** A border changes the level by at least this much, levels. */
const LEAST_CHANGE = 6;

interface Circle {
  readonly center: PixelPoint;
  readonly radius: number;
  readonly sign: 1 | -1;
  readonly score: number;
}

/** Rays that may show nothing, as a part of those in the picture, and rays that must lie in it. */
const BLIND = 0.2;
const LEAST_RAYS = 14;

/**
 * How well a circle is closed: the change of level that four in five of its rays show, lighter or darker outside. Gives up, with 0,
 * as soon as neither can reach what is already known.
 */
function closedness(
  picture: Gray,
  x: number,
  y: number,
  radius: number,
  known: readonly [number, number],
): readonly [number, number] {
  const lighter: number[] = [];
  const darker: number[] = [];
  let belowLighter = 0;
  let belowDarker = 0;
  for (const [dx, dy] of DIRECTIONS) {
    let before = NaN;
    let last = NaN;
    let most = 0;
    let least = 0;
    for (const part of PARTS) {
      const level = levelAt(picture, x + part * radius * dx, y + part * radius * dy);
      const change = level - before;
      if (change > most) most = change;
      if (change < least) least = change;
      before = last;
      last = level;
    }
    // Where the ray ends outside the picture nothing is known.
    if (Number.isNaN(last)) continue;
    lighter.push(most);
    darker.push(-least);
    if (most <= known[0]) belowLighter++;
    if (-least <= known[1]) belowDarker++;
    if (Math.min(belowLighter, belowDarker) > BLIND * DIRECTIONS.length) return [0, 0];
  }
  if (lighter.length < LEAST_RAYS) return [0, 0];
  const rank = Math.floor(BLIND * lighter.length);
  lighter.sort((a, b) => a - b);
  darker.sort((a, b) => a - b);
  return [lighter[rank] ?? 0, darker[rank] ?? 0];
}

/** The best circle of each size and sign near the press. */
function circlesNear(picture: Gray, near: PixelPoint): Circle[] {
  const found: Circle[] = [];
  for (let radius = SMALLEST; radius < LARGEST; radius *= GROWTH) {
    const step = radius / 4.5;
    const reach = Math.floor((PRESS * radius) / step);
    let light: Circle = { center: near, radius, sign: 1, score: LEAST_CHANGE };
    let dark: Circle = { center: near, radius, sign: -1, score: LEAST_CHANGE };
    for (let i = -reach; i <= reach; i++)
      for (let j = -reach; j <= reach; j++) {
        if (i * i + j * j > reach * reach + 1) continue;
        const center = { x: near.x + i * step, y: near.y + j * step };
        const [lighter, darker] = closedness(picture, center.x, center.y, radius, [light.score, dark.score]);
        if (lighter > light.score) light = { center, radius, sign: 1, score: lighter };
        if (darker > dark.score) dark = { center, radius, sign: -1, score: darker };
      }
    found.push(light, dark);
  }
  return found.filter(({ score }) => score > LEAST_CHANGE).toSorted((a, b) => b.score - a.score);
}

const NORMALS = 40;
/** Part of the normals that must show the border; the picture may cut some off. */
const LEAST_AGREEING = 0.55;

/** The strongest edge of the right sign along each normal of an ellipse, within `range` px. */
function edgesAlong(picture: Gray, ellipse: Ellipse, sign: number, range: number): EdgePlace[] {
  const step = Math.max(0.5, range / 10);
  const count = Math.ceil(range / step);
  const side = step < 1 ? 2 : 1;
  const edges: EdgePlace[] = [];
  for (let k = 0; k < NORMALS; k++) {
    const turn = (2 * Math.PI * k) / NORMALS;
    const { x, y, nx, ny } = borderAt(ellipse, turn);
    const levels: number[] = [];
    for (let i = -count - side; i <= count + side; i++)
      levels.push(levelAt(picture, x + i * step * nx, y + i * step * ny));
    let most = LEAST_CHANGE / 2;
    let place = NaN;
    for (let i = -count; i <= count; i++) {
      const at = i + count + side;
      const change = sign * ((levels[at + side] ?? NaN) - (levels[at - side] ?? NaN));
      if (change > most) {
        most = change;
        place = i * step;
      }
    }
    if (!Number.isNaN(place)) edges.push({ turn, outside: place, u: 1 });
  }
  return edges;
}

/** Closed borders around the press that hold as ellipses. */
export function roundCandidates(picture: Gray, near: PixelPoint): RoundCandidate[] {
  const candidates: RoundCandidate[] = [];
  for (const { center, radius, sign } of circlesNear(picture, near)) {
    let ellipse: Ellipse | null = circle(center, radius);
    let agreeing = 0;
    for (const range of [0.38, 0.25, 0.15, 0.1]) {
      const size: number = Math.sqrt(Math.abs(ellipse.a * ellipse.d - ellipse.b * ellipse.b));
      const edges = edgesAlong(picture, ellipse, sign, Math.max(2.5, range * size));
      const step = ellipseStep(ellipse, edges, Math.max(0.3, 0.02 * size));
      ellipse = step?.ellipse ?? null;
      if (!step || !ellipse) break;
      agreeing = step.weights.filter((weight) => weight > 0.3).length / NORMALS;
      // A neighboring size leads to the same border: no need to follow it to the end.
      const current = ellipse;
      if (candidates.some((other) => other.sign === sign && isSame(other.ellipse, current))) break;
    }
    if (!ellipse || agreeing < LEAST_AGREEING) continue;
    const found: RoundCandidate = { ellipse, sign };
    if (!candidates.some((other) => other.sign === sign && isSame(other.ellipse, found.ellipse)))
      candidates.push(found);
  }
  return candidates;
}

const isSame = (one: Ellipse, other: Ellipse): boolean =>
  Math.hypot(one.x - other.x, one.y - other.y) < 1 &&
  Math.abs(halfAxes(one)[0] - halfAxes(other)[0]) < 1 + 0.05 * halfAxes(one)[0];
