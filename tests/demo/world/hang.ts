import type { Droop, WorldTruck } from './truck';
import { RIDE_HEIGHT, centerOfGravity, hookPlace, massOf, springLoad } from './truck';
import type { Matrix, Vector } from './vector';
import { aboutX, aboutY, aboutZ, dot, product, subtract } from './vector';

/** m/s²; only its ratio to the springs matters. */
const GRAVITY = 9.80665;

/**
 * A truck at rest on a string. World axes: z up along the string, hook at the origin; untwisted, the truck's
 * center plane is the world's x-z plane apart from the lean.
 */
export interface Hang {
  /** rad, about y before the lean; negative is nose up. */
  readonly pitch: number;
  /** rad, about the world's x axis, from the CG and the hook lying off center. */
  readonly lean: number;
  readonly droop: Droop;
}

/** Body axes to world axes; `twist` is the turn about the string, rad. */
export const hangRotation = (hang: Hang, twist: number): Matrix =>
  product(aboutZ(twist), product(aboutX(hang.lean), aboutY(hang.pitch)));

/** World's up in body axes. */
const upward = (pitch: number, lean: number): Vector => [
  -Math.cos(lean) * Math.sin(pitch),
  Math.sin(lean),
  Math.cos(lean) * Math.cos(pitch),
];

/**
 * Potential energy of a truck on a string, J, zero when all of it lies at the hook and the springs are loose:
 * its weight below the hook, and its springs, which push the axles out until they come loose.
 */
export const hangEnergy = (truck: WorldTruck, hookId: string, hang: Hang): number => {
  const below = subtract(centerOfGravity(truck, hang.droop), hookPlace(truck, hookId, hang.droop));
  const spring = (axle: 'front' | 'rear'): number => {
    const { rate } = truck.suspension[axle];
    const left = Math.max(0, springLoad(truck, axle, GRAVITY) / rate - hang.droop[axle]);
    return (rate * left * left) / 2;
  };
  return (
    massOf(truck) * GRAVITY * dot(below, upward(hang.pitch, hang.lean)) + spring('front') + spring('rear')
  );
};

export interface HangOptions {
  readonly suspension: 'locked' | 'free';
  /** Where friction holds the axles, m away from rest; the truck then settles around them. */
  readonly sticking?: Droop;
}

/**
 * The pose in which a truck hangs still from a hook: the least potential energy over pitch, lean and, with the
 * suspension free, the travel of both axles within their stops. Found with nothing but values of the energy.
 */
export const hangTruck = (truck: WorldTruck, hookId: string, options: HangOptions): Hang => {
  const { front, rear } = truck.suspension;
  // Each coordinate in units of its own size, so that one step length suits all.
  const lengths = [1, 1, 0.02, 0.02];
  const low = [-Infinity, -Infinity, -front.bumpLimit / 0.02, -rear.bumpLimit / 0.02];
  const high = [Infinity, Infinity, front.droopLimit / 0.02, rear.droopLimit / 0.02];
  const asHang = (at: readonly number[]): Hang => ({
    pitch: (at[0] ?? 0) * (lengths[0] ?? 1),
    lean: (at[1] ?? 0) * (lengths[1] ?? 1),
    droop: { front: (at[2] ?? 0) * (lengths[2] ?? 1), rear: (at[3] ?? 0) * (lengths[3] ?? 1) },
  });
  const energy = (at: readonly number[]): number => hangEnergy(truck, hookId, asHang(at));

  // The lowest of a ring of poses starts the search inside the valley; the energy has no other minimum there.
  const ring = Array.from({ length: 24 }, (_, index) => [(index * Math.PI) / 12 - Math.PI, 0, 0, 0]);
  const start = ring.reduce((best, at) => (energy(at) < energy(best) ? at : best));
  const free = options.suspension === 'free' ? [0, 1, 2, 3] : [0, 1];
  let rest = asHang(minimize(energy, start, free, low, high));
  if (options.sticking && options.suspension === 'free') {
    const held = [
      rest.pitch,
      rest.lean,
      clamp((rest.droop.front + options.sticking.front) / 0.02, low[2] ?? 0, high[2] ?? 0),
      clamp((rest.droop.rear + options.sticking.rear) / 0.02, low[3] ?? 0, high[3] ?? 0),
    ];
    rest = asHang(minimize(energy, held, [0, 1], low, high));
  }
  return options.suspension === 'locked' ? { ...rest, droop: RIDE_HEIGHT } : rest;
};

const clamp = (value: number, low: number, high: number): number => Math.min(high, Math.max(low, value));

/**
 * Damped Newton steps with finite differences, coordinates held at a stop while the slope presses them against
 * it. Ends when a step moves no coordinate by 1e-10 of its unit.
 */
const minimize = (
  energy: (at: readonly number[]) => number,
  start: readonly number[],
  free: readonly number[],
  low: readonly number[],
  high: readonly number[],
): number[] => {
  const STEP = 2e-4;
  let at = [...start];
  let here = energy(at);
  const shifted = (moves: readonly (readonly [number, number])[]): number => {
    const moved = [...at];
    for (const [index, by] of moves) moved[index] = (moved[index] ?? 0) + by;
    return energy(moved);
  };
  for (let round = 0; round < 200; round += 1) {
    const slopes = at.map((_, i) =>
      free.includes(i) ? (shifted([[i, STEP]]) - shifted([[i, -STEP]])) / (2 * STEP) : 0,
    );
    const moving = free.filter((i) => {
      const [value, slope] = [at[i] ?? 0, slopes[i] ?? 0];
      return !(value >= (high[i] ?? 0) && slope < 0) && !(value <= (low[i] ?? 0) && slope > 0);
    });
    const curvature = moving.map((i) =>
      moving.map((j) =>
        i === j
          ? (shifted([[i, STEP]]) + shifted([[i, -STEP]]) - 2 * here) / STEP ** 2
          : (shifted([
              [i, STEP],
              [j, STEP],
            ]) -
              shifted([
                [i, STEP],
                [j, -STEP],
              ]) -
              shifted([
                [i, -STEP],
                [j, STEP],
              ]) +
              shifted([
                [i, -STEP],
                [j, -STEP],
              ])) /
            (4 * STEP ** 2),
      ),
    );
    const downhill = moving.map((i) => -(slopes[i] ?? 0));
    let next = at;
    let there = here;
    for (let damping = 0; damping < 1e9; damping = damping === 0 ? 1e-6 : damping * 10) {
      const move = solve(
        curvature.map((row, i) => row.map((value, j) => (i === j ? value + damping : value))),
        downhill,
      );
      if (!move || move.reduce((sum, value, index) => sum + value * (downhill[index] ?? 0), 0) < 0) continue;
      const trial = [...at];
      moving.forEach((i, index) => {
        trial[i] = clamp((at[i] ?? 0) + clamp(move[index] ?? 0, -0.3, 0.3), low[i] ?? 0, high[i] ?? 0);
      });
      const energyThere = energy(trial);
      if (energyThere <= here + 1e-14 * Math.abs(here)) {
        next = trial;
        there = energyThere;
        break;
      }
    }
    const moved = Math.max(...at.map((value, index) => Math.abs(value - (next[index] ?? 0))));
    at = [...next];
    here = there;
    if (moved < 1e-10) return at;
  }
  return at;
};

/** Gaussian elimination with row exchange; undefined where the matrix is singular. */
const solve = (matrix: readonly (readonly number[])[], right: readonly number[]): number[] | undefined => {
  const rows = matrix.map((row, index) => [...row, right[index] ?? 0]);
  const count = rows.length;
  for (let column = 0; column < count; column += 1) {
    let best = column;
    for (let i = column; i < count; i += 1)
      if (Math.abs(rows[i]?.[column] ?? 0) > Math.abs(rows[best]?.[column] ?? 0)) best = i;
    const [pivotRow, swapped] = [rows[best], rows[column]];
    const pivot = pivotRow?.[column] ?? 0;
    if (!pivotRow || !swapped || Math.abs(pivot) < 1e-12) return undefined;
    rows[best] = swapped;
    rows[column] = pivotRow;
    for (let i = 0; i < count; i += 1) {
      const row = rows[i];
      if (i === column || !row) continue;
      const factor = (row[column] ?? 0) / pivot;
      for (let j = column; j <= count; j += 1) row[j] = (row[j] ?? 0) - factor * (pivotRow[j] ?? 0);
    }
  }
  return rows.map((row, index) => (row[count] ?? 0) / (row[index] ?? 1));
};
