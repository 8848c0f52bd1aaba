/**
 * A picture as one luminance per pixel, for the finders of strings and round marks.
 *
 * Places are those of `Mark` in src/sheet/schema.ts: x right, y down, (0, 0) at the upper left CORNER of the upper left
 * pixel. The center of the pixel in column i and row j is therefore at (i + 0.5, j + 0.5).
 */
export interface Gray {
  readonly width: number;
  readonly height: number;
  /** Luminance, 0 (black) to 255 (white), row by row; width · height numbers. */
  readonly levels: Float32Array;
}

/** Luma weights of red, green and blue. ITU-R BT.709-6 (2015), item 3.2. */
const LUMA = [0.2126, 0.7152, 0.0722] as const;

/**
 * Luma of a picture as a canvas gives it: red, green, blue, alpha of each pixel, 0 to 255, row by row. Alpha does not
 * count. The levels stay gamma-coded: their noise is then about the same in light and shade.
 */
export function grayOf(rgba: Uint8ClampedArray, width: number, height: number): Gray {
  const levels = new Float32Array(width * height);
  for (let i = 0; i < levels.length; i++)
    levels[i] =
      LUMA[0] * (rgba[4 * i] ?? 0) + LUMA[1] * (rgba[4 * i + 1] ?? 0) + LUMA[2] * (rgba[4 * i + 2] ?? 0);
  return { width, height, levels };
}

/** Level between pixel centers, bilinear; NaN closer than half a pixel to the border, where there is nothing to go by. */
export function levelAt({ width, height, levels }: Gray, x: number, y: number): number {
  const column = x - 0.5;
  const row = y - 0.5;
  if (!(column >= 0 && row >= 0 && column <= width - 1 && row <= height - 1)) return NaN;
  const i = Math.min(Math.floor(column), width - 2);
  const j = Math.min(Math.floor(row), height - 2);
  if (i < 0 || j < 0) return NaN;
  const right = column - i;
  const down = row - j;
  const at = j * width + i;
  const upper = (levels[at] ?? 0) * (1 - right) + (levels[at + 1] ?? 0) * right;
  const lower = (levels[at + width] ?? 0) * (1 - right) + (levels[at + width + 1] ?? 0) * right;
  return upper * (1 - down) + lower * down;
}
