import { refusal, success } from '../../physics';
import type { Result } from '../../physics';
import type { PixelPoint } from '../camera';
import { bowOf, curveAt, curveU } from './curve';
import type { Curve } from './curve';
import { footOn, orthogonalLine } from './lineFit';
import type { Gray } from './gray';
import { refinedString } from './stringOnPixels';
import { blockPlace, markFrame, placeIn, stripBetween } from './strip';
import { structuresIn } from './structures';
import type { Structure } from './structures';

/** A string found in a picture. Places in pixels of the crop, as in `Gray`. */
export interface FoundString {
  /**
   * The reader's marks moved square to the string onto its straight line: the least-squares straight line of the
   * found curve between the marks. A lens bends a string into a slight curve; for the plumb direction all of it is
   * best, and that line has the smallest u. It leaves the string itself by 2/3 `bow` at the marks.
   */
  readonly upper: PixelPoint;
  readonly lower: PixelPoint;
  /** Standard uncertainty of that line across the string, px, at the upper and at the lower point. */
  readonly u: readonly [number, number];
  /** The points on the found curve itself at the marks, with their own u: where the string is seen to be. */
  readonly onString: {
    readonly upper: PixelPoint;
    readonly lower: PixelPoint;
    readonly u: readonly [number, number];
  };
  /** Width of the string, px. */
  readonly width: number;
  /** Level of the string less that of the ground beside it, levels: negative for a dark string. */
  readonly contrast: number;
  /** How far the string's middle lies from the chord between its ends, px; positive to the right of the way down. */
  readonly bow: number;
  /** Blur across the string, standard deviation, px. */
  readonly blur: number;
}

export type StringReason =
  'outside' | 'too short' | 'too faint' | 'several lines' | 'not straight' | 'too wide';

/** Marks closer than this say too little of the direction, px. */
const SHORTEST = 40;
/** A mark is at most this far beside its string, px: 6, and what the fit may err by. */
const MARK_REACH = 6.5;
/** A line this near is still looked at twice, px: a hasty mark can be further off. */
const DOUBTFUL_REACH = 9;
const WIDEST = 5.6;
/** A string is seen over at least this part of the length. */
const LEAST_COVERAGE = 0.75;
/** Beyond this standard uncertainty a place by eye is as good, px. */
const MOST_U = 0.35;

/** Places on the curve that its straight line is fitted to. */
const PLACES = 64;

const distances = ({ curve }: Structure): number =>
  Math.max(Math.abs(curveAt(curve, -1)), Math.abs(curveAt(curve, 1)));

/** What could not be told apart matters this near to the string, px. */
const CLUTTER_REACH = 8;
/** Ground that a string needs to either side, px. */
const LEAST_GAP = 1.2;

/** Least distance of two curves, px. */
const apartFrom = (one: Curve, other: Curve): number =>
  Math.min(...[-1, -0.5, 0, 0.5, 1].map((v) => Math.abs(curveAt(one, v) - curveAt(other, v))));

/** Least ground left between two structures, px: what lies beyond half their widths, and an edge takes 1 more. */
function gapBetween(one: Structure, other: Structure): number {
  const gap = apartFrom(one.curve, other.curve) - (one.table.shape.width + other.table.shape.width) / 2;
  const ratio = Math.abs(one.contrast / other.contrast);
  // What a far stronger neighbor leaves over when it is taken away is as strong as the string.
  if (ratio < 0.25 && gap < 4) return 0;
  if (other.table.shape.kind === 'bar') return gap;
  return ratio > 0.6 && ratio < 1.7 && gap < WIDEST ? 0 : gap - 1.3;
}

const inPicture = ({ width, height }: Gray, { x, y }: PixelPoint): boolean =>
  x >= 0 && y >= 0 && x <= width && y <= height;

const faint = () =>
  refusal<StringReason>(
    'too faint',
    'String: needs to stand out from what is behind it; no line was found along both marks. Mark it by hand, or photograph it against a plain ground.',
  );

const cluttered = () =>
  refusal<StringReason>(
    'several lines',
    'String: needs one line near the marks; what is there cannot be told apart. Mark it by hand, or photograph it against a plain ground.',
  );

/**
 * Finds the string between two marks, each up to 6 px beside it, by the picture's gradients. Strings of about 1.5 to
 * 4 px, dark or light, in any direction, over a ground that may slope and be textured. Where anything else could be meant by
 * the marks it refuses, since a wrong line is worse than none.
 */
export function findString(
  picture: Gray,
  upper: PixelPoint,
  lower: PixelPoint,
): Result<FoundString, StringReason> {
  if (!inPicture(picture, upper) || !inPicture(picture, lower))
    return refusal(
      'outside',
      'String: needs both marks inside the picture; one is outside. Move it onto the string.',
    );
  const length = Math.hypot(lower.x - upper.x, lower.y - upper.y);
  if (!(length >= SHORTEST))
    return refusal(
      'too short',
      `String: needs marks at least ${SHORTEST} pixels apart; these are ${Math.round(length)} apart. Move them to the ends of the string.`,
    );
  const frame = markFrame(upper, lower);
  const { structures, left } = structuresIn(stripBetween(picture, frame));
  const bars = structures.filter(({ table }) => table.shape.kind === 'bar');
  const reached = bars.filter((bar) => distances(bar) <= MARK_REACH);
  const strings = reached.filter(({ coverage, atMarks }) => coverage >= LEAST_COVERAGE && atMarks >= 0.5);
  const [string] = strings;
  if (!string) return structures.some((other) => distances(other) <= MARK_REACH) ? cluttered() : faint();
  const rivals = bars.filter(
    (bar) =>
      bar !== string &&
      bar.coverage >= 0.5 &&
      bar.atMarks >= 0.5 &&
      (distances(bar) <= MARK_REACH ||
        (distances(bar) < DOUBTFUL_REACH && distances(bar) < distances(string) + 1)),
  );
  if (rivals.length > 0)
    return refusal(
      'several lines',
      `String: needs one line near the marks; ${rivals.length + 1} could be meant. Move both marks closer to the string, or mark it by hand.`,
    );
  if (left && apartFrom(string.curve, left) < CLUTTER_REACH) return cluttered();
  // Bar and step side by side can be read as step and bar just as well: then neither can be trusted.
  if (structures.some((other) => other !== string && gapBetween(string, other) < LEAST_GAP))
    return refusal(
      'several lines',
      'String: needs clear ground beside it; an edge or another line touches it. Mark it by hand, or photograph it against a plain ground.',
    );
  const refined = refinedString(
    picture,
    frame,
    string,
    structures.filter((other) => other !== string),
  );
  if (!refined) return faint();
  const { fit, table } = refined;
  if (table.shape.width > WIDEST)
    return refusal(
      'too wide',
      `String: needs to be at most ${WIDEST} pixels wide; this line is ${table.shape.width.toFixed(1)}. Take it for an edge, and mark the string by hand.`,
    );
  const change = refined.contrast / string.contrast;
  if (refined.agreeing < LEAST_COVERAGE - 0.1 || !(change > 0.5 && change < 2)) return faint();
  const bow = bowOf(fit.curve);
  if (Math.abs(bow) > Math.max(2, 0.01 * length) || refined.scatter > 0.6)
    return refusal(
      'not straight',
      `String: needs to hang straight; this line bends by ${Math.abs(bow).toFixed(1)} pixels. Let it hang free, and mark only its straight part.`,
    );
  const line = orthogonalLine(
    Array.from({ length: PLACES }, (_, i) => {
      const v = blockPlace(i, PLACES);
      return { ...placeIn(frame, v, curveAt(fit.curve, v)), weight: 1 };
    }),
  );
  if (!line.ok) return faint();
  // A parabola's least-squares line over v from -1 to 1 has its mean: v² counts as 1/3.
  const u = [curveU(fit, [1, -1, 1 / 3]), curveU(fit, [1, 1, 1 / 3])] as const;
  if (Math.max(...u) > MOST_U) return faint();
  return success({
    upper: footOn(line.value, upper),
    lower: footOn(line.value, lower),
    u,
    onString: {
      upper: placeIn(frame, -1, curveAt(fit.curve, -1)),
      lower: placeIn(frame, 1, curveAt(fit.curve, 1)),
      u: [curveU(fit, [1, -1, 1]), curveU(fit, [1, 1, 1])],
    },
    width: table.shape.width,
    contrast: refined.contrast,
    bow: -bow,
    blur: table.shape.blur,
  });
}
