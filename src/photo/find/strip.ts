import type { PixelPoint } from '../camera';
import { levelAt } from './gray';
import type { Gray } from './gray';

/** Places along and across the line between two marks. */
export interface MarkFrame {
  readonly middle: PixelPoint;
  /** Unit vector from the upper to the lower mark; "across" counts along its normal (-y, x). */
  readonly along: readonly [number, number];
  /** Half the distance between the marks, px. Places along are given as v: -1 at the upper, 1 at the lower mark. */
  readonly half: number;
}

export function markFrame(upper: PixelPoint, lower: PixelPoint): MarkFrame {
  const length = Math.hypot(lower.x - upper.x, lower.y - upper.y);
  return {
    middle: { x: (upper.x + lower.x) / 2, y: (upper.y + lower.y) / 2 },
    along: [(lower.x - upper.x) / length, (lower.y - upper.y) / length],
    half: length / 2,
  };
}

/** The pixel at v along and `across` px beside the line between the marks. */
export function placeIn({ middle, along, half }: MarkFrame, v: number, across: number): PixelPoint {
  return {
    x: middle.x + v * half * along[0] - across * along[1],
    y: middle.y + v * half * along[1] + across * along[0],
  };
}

/** Columns of a strip per pixel across. */
export const COLUMNS_PER_PIXEL = 2;
/** How far a strip reaches to either side, px: marks up to 6 off, a decoy 10 further, and ground beside it. */
export const STRIP_REACH = 19;
const COLUMNS = 2 * STRIP_REACH * COLUMNS_PER_PIXEL + 1;

/**
 * The picture between the marks laid straight: `blocks` pieces of the string's length, each averaged along, in
 * columns half a pixel apart. Good for finding; places are then refined on the pixels themselves.
 */
export interface Strip {
  readonly frame: MarkFrame;
  readonly blocks: number;
  readonly columns: number;
  /** Block by block; NaN where the picture has no pixels. */
  readonly levels: Float32Array;
}

/** v at the middle of a block. */
export const blockPlace = (block: number, blocks: number): number => (2 * block + 1) / blocks - 1;

/** Distance across of a column, px. */
export const acrossOf = (column: number): number => column / COLUMNS_PER_PIXEL - STRIP_REACH;

export function stripBetween(picture: Gray, frame: MarkFrame): Strip {
  const length = 2 * frame.half;
  // Within a block a string that marks 6 px off make slanting strays by half a pixel at most.
  const blocks = Math.max(16, Math.min(64, Math.round(length / 6)));
  const rows = Math.max(2, Math.min(8, Math.round(length / blocks)));
  const levels = new Float32Array(blocks * COLUMNS);
  for (let block = 0; block < blocks; block++)
    for (let row = 0; row < rows; row++) {
      const start = placeIn(frame, (2 * (block + (row + 0.5) / rows)) / blocks - 1, 0);
      for (let column = 0; column < COLUMNS; column++) {
        const across = acrossOf(column);
        const level = levelAt(picture, start.x - across * frame.along[1], start.y + across * frame.along[0]);
        levels[block * COLUMNS + column] = (levels[block * COLUMNS + column] ?? 0) + level / rows;
      }
    }
  return { frame, blocks, columns: COLUMNS, levels };
}
