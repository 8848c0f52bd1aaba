/** a, b, c, d, e, f of a canvas transform. */
export type Turn = readonly [number, number, number, number, number, number];

/** Whether an orientation turns by a quarter, so that width and height change places. */
export const isQuarterTurn = (orientation: number): boolean => orientation >= 5;

/**
 * The transform that shows stored pixels upright, for a stored picture drawn `width` by `height`.
 * Orientations as in CIPA DC-008-2019, 4.6.4: which stored row and column are the top and the left side.
 */
export function uprightTurn(orientation: number, width: number, height: number): Turn {
  switch (orientation) {
    case 2:
      return [-1, 0, 0, 1, width, 0];
    case 3:
      return [-1, 0, 0, -1, width, height];
    case 4:
      return [1, 0, 0, -1, 0, height];
    case 5:
      return [0, 1, 1, 0, 0, 0];
    case 6:
      return [0, 1, -1, 0, height, 0];
    case 7:
      return [0, -1, -1, 0, height, width];
    case 8:
      return [0, -1, 1, 0, 0, width];
    default:
      return [1, 0, 0, 1, 0, 0];
  }
}
