/** Vectors and rotations of the invented world. Kept apart from src/ so that the world checks it from outside. */
export type Vector = readonly [number, number, number];
/** Three rows. */
export type Matrix = readonly [Vector, Vector, Vector];

export const add = (a: Vector, b: Vector): Vector => [a[0] + b[0], a[1] + b[1], a[2] + b[2]];
export const subtract = (a: Vector, b: Vector): Vector => [a[0] - b[0], a[1] - b[1], a[2] - b[2]];
export const scale = (a: Vector, factor: number): Vector => [a[0] * factor, a[1] * factor, a[2] * factor];
export const dot = (a: Vector, b: Vector): number => a[0] * b[0] + a[1] * b[1] + a[2] * b[2];
export const size = (a: Vector): number => Math.hypot(a[0], a[1], a[2]);

export const turn = (rows: Matrix, a: Vector): Vector => [dot(rows[0], a), dot(rows[1], a), dot(rows[2], a)];

/** First `second`, then `first`, as matrices are written. */
export const product = (first: Matrix, second: Matrix): Matrix => {
  const column = (at: 0 | 1 | 2): Vector => [second[0][at], second[1][at], second[2][at]];
  const columns: Matrix = [column(0), column(1), column(2)];
  const row = (a: Vector): Vector => [dot(a, columns[0]), dot(a, columns[1]), dot(a, columns[2])];
  return [row(first[0]), row(first[1]), row(first[2])];
};

/** Rotations about an axis by an angle in rad, counter-clockwise seen against the axis. */
export const aboutX = (angle: number): Matrix => {
  const [c, s] = [Math.cos(angle), Math.sin(angle)];
  return [
    [1, 0, 0],
    [0, c, -s],
    [0, s, c],
  ];
};
export const aboutY = (angle: number): Matrix => {
  const [c, s] = [Math.cos(angle), Math.sin(angle)];
  return [
    [c, 0, s],
    [0, 1, 0],
    [-s, 0, c],
  ];
};
export const aboutZ = (angle: number): Matrix => {
  const [c, s] = [Math.cos(angle), Math.sin(angle)];
  return [
    [c, -s, 0],
    [s, c, 0],
    [0, 0, 1],
  ];
};
