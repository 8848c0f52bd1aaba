/** Rows of pixels to be reduced, given from the top down in bands of any height. */
export interface AreaReduction {
  /** `count` rows of `columns` pixels, four bytes each; the fourth is not looked at. */
  take(rows: Uint8Array, count: number): void;
  /** The reduced picture, red, green, blue and 255; whole once all rows have been taken. */
  readonly pixels: Uint8ClampedArray<ArrayBuffer>;
}

export interface AreaSizes {
  /** Pixels of a row as given. */
  readonly columns: number;
  /** Columns and rows that the picture covers from the upper left; not always whole, and not more than there are. */
  readonly across: number;
  readonly down: number;
  /** Pixels of the reduced picture; not more than `across` and `down`. */
  readonly width: number;
  readonly height: number;
}

/** Less of a row than this is rounding. */
const NOTHING = 1e-9;

/**
 * Reduces a picture so that every pixel becomes the mean of the area it covers. That filter is symmetric and leaves out
 * nothing: edges keep their places to a small part of a pixel, and fine strings neither vanish nor break up.
 */
export function areaReduction({ columns, across, down, width, height }: AreaSizes): AreaReduction {
  const stepX = across / width;
  const stepY = down / height;
  const pixels = new Uint8ClampedArray(width * height * 4);
  const line = new Float32Array(width * 3);
  const sum = new Float32Array(width * 3);
  const firsts = Int32Array.from({ length: width }, (_, x) => Math.floor(x * stepX));
  const lasts = Int32Array.from({ length: width }, (_, x) =>
    Math.min(columns - 1, Math.ceil((x + 1) * stepX - NOTHING) - 1),
  );
  let row = 0;
  let filled = 0;

  /** Sums of one given row over the columns of each reduced pixel. */
  const reduceRow = (rows: Uint8Array, start: number): void => {
    for (let x = 0, to = 0; x < width; x++, to += 3) {
      const first = firsts[x] ?? 0;
      const last = lasts[x] ?? 0;
      let red = 0;
      let green = 0;
      let blue = 0;
      for (let column = first, at = start + first * 4; column <= last; column++, at += 4) {
        const share =
          column === first || column === last
            ? Math.min(column + 1, (x + 1) * stepX) - Math.max(column, x * stepX)
            : 1;
        red += share * (rows[at] ?? 0);
        green += share * (rows[at + 1] ?? 0);
        blue += share * (rows[at + 2] ?? 0);
      }
      line[to] = red;
      line[to + 1] = green;
      line[to + 2] = blue;
    }
  };

  const addLine = (share: number): void => {
    for (let n = 0; n < sum.length; n++) sum[n] = (sum[n] ?? 0) + share * (line[n] ?? 0);
  };

  const writeRow = (): void => {
    const area = stepX * stepY;
    for (let n = 0, to = filled * width * 4; n < sum.length; n += 3, to += 4) {
      pixels[to] = (sum[n] ?? 0) / area;
      pixels[to + 1] = (sum[n + 1] ?? 0) / area;
      pixels[to + 2] = (sum[n + 2] ?? 0) / area;
      pixels[to + 3] = 255;
    }
    sum.fill(0);
    filled++;
  };

  return {
    pixels,
    take(rows, count) {
      for (let n = 0; n < count; n++, row++) {
        reduceRow(rows, n * columns * 4);
        for (let from = row; from < row + 1 - NOTHING;) {
          if (filled === height) return;
          const bottom = (filled + 1) * stepY;
          const to = Math.min(row + 1, bottom);
          addLine(to - from);
          from = to;
          if (to > bottom - NOTHING) writeRow();
        }
      }
    },
  };
}
