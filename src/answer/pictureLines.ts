import { crossings, triangleOfLines } from '../physics';
import type { Crossing, Length, LineTriangle, PictureLinesReading, PlaneLine, Refusal } from '../physics';
import { called } from '../sheet/givens';
import { hangNumber } from '../sheet/hangs';
import type { BuildState, View } from '../sheet/schema';
import { adjustPictures } from '../photo/fit/adjustPictures';
import type { PictureAdjustment } from '../photo/fit/adjustPictures';
import type { Registration } from '../photo/fit/registration';
import { plumbLines } from '../photo/plumbLines';
import type { JointLines, PlumbLine } from '../photo/plumbLines';
import type { StateReadings } from '../photo/readState';
import { isSide } from '../photo/views';
import { bases, wrongMark } from '../photo/wrongMark';
import type { WrongMark } from '../photo/wrongMark';
import { refusal } from '../physics';

/** The pictures of a state, fitted together: their lines, or why there are none yet. */

/** A hang's line as the page shows it. */
export interface LineOfHang extends PlumbLine {
  /** Counted from 1 in the order of the pictures. */
  readonly n: number;
  /** Distance of the CG from this line, and over its own standard deviation; null where nothing checks it. */
  readonly misses: { readonly distance: Length; readonly normalized: number | null } | null;
}

export interface PictureCheck extends Registration {
  readonly pictureId: string;
  /** The body mark that is misplaced in this picture, where it is clear which one. */
  readonly worst: string | null;
}

export interface PicturesRead {
  readonly adjusted: PictureAdjustment | null;
  readonly joint: JointLines | null;
  /** What the estimate takes; null while there is no line. */
  readonly reading: PictureLinesReading | null;
  readonly checks: readonly PictureCheck[];
  /** Why pictures that are complete give no lines. */
  readonly refused: Refusal | null;
  /** Views from an end or the top whose pictures fit no place of the truck that the sides show; they do not count. */
  readonly unfit: readonly View[];
}

const NOTHING: PicturesRead = {
  adjusted: null,
  joint: null,
  reading: null,
  checks: [],
  refused: null,
  unfit: [],
};

/** A misfit this many times the usual one is a mark on another thing, which may drag the fit anywhere. */
const ASTRAY = 100;
const astray = ({ adjustment: { chiSquared, degreesOfFreedom } }: PictureAdjustment): boolean =>
  chiSquared > ASTRAY * Math.max(1, degreesOfFreedom);

/** Fits the pictures of a state; starts from an earlier fit where that is near, and hurried looks no further. */
export function readPictures(
  state: BuildState,
  readings: StateReadings,
  from: PictureAdjustment | null,
  hurried = false,
): PicturesRead {
  const { truck, standings, hangs } = readings;
  if (!truck || hangs.length === 0) return NOTHING;
  const sides = sidesOnly(readings);
  const fitted = adjustPictures(truck, standings, hangs, from ? { start: from.start, hurried } : {});
  // What is still missing says it better.
  if (!fitted.ok && fitted.reason === 'no axes' && readings.missing.length > 0) return NOTHING;
  if (!fitted.ok || astray(fitted.value)) {
    // One picture from the rear with its tires swapped must not take a good answer away.
    const others = sides && readPictures(state, sides, from, hurried);
    if (others?.reading) return { ...others, unfit: endViews(readings) };
    const [wrong] = bases(standings, hangs).flatMap(([base, others]) => wrongMark(base, others) ?? []);
    if (wrong) return { ...NOTHING, refused: refusal('wrong mark', wrongInWords(state, wrong)) };
    if (!fitted.ok) return { ...NOTHING, refused: fitted };
  }
  const adjusted = fitted.value;
  const checks = [...adjusted.registrations].map(([pictureId, registration]) => ({
    ...registration,
    pictureId,
    worst: adjusted.misplaced.get(pictureId)?.key ?? null,
  }));
  const lines = plumbLines(adjusted, truck, hangs, hooksOfHangLines(state));
  if (!lines.ok) return { ...NOTHING, adjusted, checks, refused: lines, unfit: [] };
  return { adjusted, joint: lines.value, reading: lines.value.reading, checks, refused: null, unfit: [] };
}

const endViews = ({ standings, hangs }: Pick<StateReadings, 'standings' | 'hangs'>): View[] => [
  ...new Set([...standings, ...hangs].map(({ view }) => view).filter((view) => !isSide(view))),
];

/** The pictures from the sides alone; null where there are no others, or no hang is left. */
function sidesOnly(readings: StateReadings): StateReadings | null {
  if (endViews(readings).length === 0) return null;
  const standings = readings.standings.filter(({ view }) => isSide(view));
  const hangs = readings.hangs.filter(({ view }) => isSide(view));
  return hangs.length > 0 ? { ...readings, standings, hangs } : null;
}

/** Hooks whose place counted hang lines read too. */
function hooksOfHangLines({ readings }: BuildState): ReadonlySet<string> {
  return new Set(
    readings.flatMap((reading) =>
      reading.kind === 'hang line' && reading.counted && reading.hook !== null ? [reading.hook] : [],
    ),
  );
}

function wrongInWords(state: BuildState, { picture, key, off }: WrongMark): string {
  const shown = state.pictures.find(({ id }) => id === picture);
  const number = hangNumber(state, picture);
  const others = state.pictures.some(({ kind, counted }) => kind === 'standing' && counted)
    ? 'the standing picture'
    : 'the other pictures';
  const name = called(shown?.name ?? '', number === 0 ? 'Standing picture' : 'Hang', Math.max(0, number - 1));
  return key === null
    ? `${name}: needs its body marks on the same landmarks as ${others}; they miss by about ${off.toFixed(0)} px. Look at each in the loupe.`
    : `${name}: needs mark ${key} on the same landmark as in the other pictures; it lies about ${off.toFixed(0)} px off. Look at it in the loupe.`;
}

/** How the lines of one side cross; the triangle of the first three. */
export function crossingsOf(lines: readonly PlaneLine[]): {
  readonly crossings: readonly Crossing[];
  readonly triangle: LineTriangle | null;
} {
  const [first, second, third] = lines;
  const triangle = first && second && third ? triangleOfLines([first, second, third]) : null;
  return { crossings: crossings(lines), triangle: triangle?.ok ? triangle.value : null };
}
