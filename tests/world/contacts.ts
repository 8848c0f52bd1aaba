import type { Vector } from '../demo/world/vector';
import { solved } from './algebra';

/** A place on the ground plane of the truck, m. */
export interface Contact {
  readonly x: number;
  readonly y: number;
}

/**
 * Loads, kg, of a rigid truck on four equally stiff wheels that stand level. Equilibrium leaves one mode open; a shim
 * under the first wheel, told by the load it would carry alone, decides it.
 */
export const wheelLoads = (
  contacts: readonly Contact[],
  mass: number,
  cg: Vector,
  shim: number,
): readonly number[] => {
  // Load of a wheel: p + q x + r y, and the shim. Unknown p, q, r: how the truck settles.
  const shapes = contacts.map(({ x, y }) => [1, x, y]);
  const sum = (i: number, j: number) =>
    shapes.reduce((total, shape) => total + (shape[i] ?? 0) * (shape[j] ?? 0), 0);
  const settled = solved(
    [0, 1, 2].map((i) => [0, 1, 2].map((j) => sum(i, j))),
    [1, cg[0], cg[1]].map((arm, i) => mass * arm - shim * (shapes[0]?.[i] ?? 0)),
  );
  return shapes.map(
    (shape, wheel) =>
      shape.reduce((load, value, i) => load + value * (settled[i] ?? 0), 0) + (wheel === 0 ? shim : 0),
  );
};

/** Loads, kg, on two supports at the given horizontal places that carry straight upward. */
export const twoSupports = (
  places: readonly [number, number],
  mass: number,
  cg: number,
): readonly [number, number] => {
  const [first = NaN, second = NaN] = solved([[1, 1], [...places]], [mass, mass * cg]);
  return [first, second];
};

export type Downhill = 'left' | 'right' | 'front' | 'rear';

/**
 * Whether contacts that only press, with all the friction they need, can hold a locked truck of unit weight on a board
 * of that slope. Four presses balance one force and two moments; what is left free is their one common mode.
 */
export const held = (
  inverseOfThree: readonly (readonly number[])[],
  mode: readonly number[],
  cg: Vector,
  slope: number,
  downhill: Downhill,
): boolean => {
  const [sin, cos] = [Math.sin(slope), Math.cos(slope)];
  const alongX = downhill === 'front' ? sin : downhill === 'rear' ? -sin : 0;
  const alongY = downhill === 'left' ? sin : downhill === 'right' ? -sin : 0;
  // Friction acts in the contacts' own plane and has no moment about its axes.
  const balance = [cos, cg[0] * cos + cg[2] * alongX, cg[1] * cos + cg[2] * alongY];
  let low = 0;
  let high = Infinity;
  for (let i = 0; i < 3; i += 1) {
    const row = inverseOfThree[i] ?? [];
    const press =
      (row[0] ?? 0) * (balance[0] ?? 0) +
      (row[1] ?? 0) * (balance[1] ?? 0) +
      (row[2] ?? 0) * (balance[2] ?? 0);
    const gain = mode[i] ?? 0;
    if (gain > 0) low = Math.max(low, -press / gain);
    else if (gain < 0) high = Math.min(high, -press / gain);
    else if (press < 0) return false;
  }
  return low <= high;
};

/** Halvings of a right angle down to 2e-14 rad. */
const HALVINGS = 46;

/** The slope at which a locked truck on a rising board tips: the last that its contacts can hold, rad. */
export const tippingSlope = (contacts: readonly Contact[], cg: Vector, downhill: Downhill): number => {
  const [a, b, c, fourth] = contacts;
  if (!a || !b || !c || !fourth) return NaN;
  const three = [
    [1, 1, 1],
    [a.x, b.x, c.x],
    [a.y, b.y, c.y],
  ];
  const columns = [
    [1, 0, 0],
    [0, 1, 0],
    [0, 0, 1],
  ].map((right) => solved(three, right));
  const inverseOfThree = [0, 1, 2].map((i) => columns.map((column) => column[i] ?? NaN));
  const mode = solved(three, [-1, -fourth.x, -fourth.y]);
  let [low, high] = [0, Math.PI / 2];
  for (let halving = 0; halving < HALVINGS; halving += 1) {
    const middle = (low + high) / 2;
    if (held(inverseOfThree, mode, cg, middle, downhill)) low = middle;
    else high = middle;
  }
  return (low + high) / 2;
};
