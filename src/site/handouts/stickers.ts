/**
 * Rounds for body marks and a bar to check the printer by, as svg whose user unit is a millimeter and whose printed
 * width is stated in millimeters. Plain black and white: the finder looks for the edges between the two.
 */

/** Outer diameters, mm. */
export const STICKER_SIZES: readonly number[] = [6, 8, 10, 12];

/** The white round in the middle, as a part of the black one's diameter. */
export const INNER_PART = 1 / 3;

/** Squares to cut, as a multiple of the diameter: the white rim sets the black round off from a dark body. */
const SQUARE = 1.5;

/** Printed width of every strip, mm: within the margins of A4 and of US Letter. */
const STRIP = 180;
const ROWS = 2;

/** Pixels across that a round should have in the picture: the finder takes no less than two thirds of it. */
const PIXELS_ACROSS = 16;
/** Pixels from side to side of a picture of 12 megapixels. */
export const PICTURE_PIXELS = 4000;

/** How much a picture of PICTURE_PIXELS may show from side to side for a round of this diameter, mm, to be found, m. */
export const widestPicture = (diameter: number): number => (PICTURE_PIXELS * diameter) / PIXELS_ACROSS / 1000;

/** Lengths of the bar, mm. */
export const BAR = { millimeters: 100, inches: 4, millimetersPerInch: 25.4 } as const;

const svg = (height: number, name: string, body: string): string =>
  `<svg class="to-scale" width="${STRIP}mm" height="${height}mm" viewBox="0 0 ${STRIP} ${height}" role="img" aria-label="${name}">${body}</svg>`;

/** Up to four decimals, without trailing zeros. */
const n = (value: number): string => String(Number(value.toFixed(4)));

/** How many of one size stand on the sheet. */
export const stickerCount = (diameter: number): number => ROWS * Math.floor(STRIP / (SQUARE * diameter));

/** All stickers of one diameter, mm, each in the middle of a square to cut. */
export function stickerStrip(diameter: number): string {
  const side = SQUARE * diameter;
  const across = Math.floor(STRIP / side);
  const width = across * side;
  const height = ROWS * side;
  const cuts =
    Array.from({ length: across + 1 }, (_, i) => `M${n(i * side)} 0V${n(height)}`).join('') +
    Array.from({ length: ROWS + 1 }, (_, i) => `M0 ${n(i * side)}H${n(width)}`).join('');
  const rounds = Array.from({ length: ROWS * across }, (_, i) => {
    const x = n(((i % across) + 0.5) * side);
    const y = n((Math.floor(i / across) + 0.5) * side);
    return (
      `<circle class="black" cx="${x}" cy="${y}" r="${n(diameter / 2)}"/>` +
      `<circle class="white" cx="${x}" cy="${y}" r="${n((INNER_PART * diameter) / 2)}"/>`
    );
  });
  return svg(
    height,
    `${ROWS * across} rounds, ${diameter} mm across, with lines to cut along`,
    `<path class="cut" d="${cuts}"/>${rounds.join('')}`,
  );
}

interface Ticks {
  /** From one tick to the next, mm, and how many steps there are. */
  readonly step: number;
  readonly count: number;
  /** Every how many steps a tick is long and carries its number, which grows by `each`. */
  readonly long: number;
  readonly each: number;
  readonly unit: string;
  /** Where the ticks start, mm from the top, and whether they point down (1) or up (−1). */
  readonly edge: number;
  readonly down: 1 | -1;
}

/** Ticks along one edge of the bar, with their numbers. */
function ticks({ step, count, long, each, unit, edge, down }: Ticks): string {
  return Array.from({ length: count + 1 }, (_, i) => {
    const length = i % long === 0 ? 3.2 : 1.8;
    const tick = `<path class="tick-line" d="M${n(EDGE + i * step)} ${edge}v${n(down * length)}"/>`;
    if (i % long !== 0) return tick;
    const number = (i / long) * each;
    const words = i === count ? `${number} ${unit}` : String(number);
    return `${tick}<text x="${n(EDGE + i * step)}" y="${n(edge + down * 4.2 + (down > 0 ? 2.6 : 0))}">${words}</text>`;
  }).join('');
}

/** Left end of the bar in its strip, mm. */
const EDGE = 6;

/** A bar of 100 mm with ticks above it and one of 4 in below, both from the same end. */
export function scaleBar(): string {
  const { millimeters, inches, millimetersPerInch } = BAR;
  const long = inches * millimetersPerInch;
  return svg(
    19,
    `A bar ${millimeters} mm long, with a tick at every 5 mm, and below it one ${inches} in long, with a tick at every quarter inch`,
    `<path class="bar-line" data-length="${millimeters}" d="M${EDGE} 8.5h${millimeters}"/>` +
      `<path class="bar-line" data-length="${n(long)}" d="M${EDGE} 10.5h${n(long)}"/>` +
      ticks({ step: 5, count: millimeters / 5, long: 2, each: 10, unit: 'mm', edge: 8.5, down: -1 }) +
      ticks({
        step: millimetersPerInch / 4,
        count: inches * 4,
        long: 4,
        each: 1,
        unit: 'in',
        edge: 10.5,
        down: 1,
      }),
  );
}
