import { COVERAGE, angleIn, radians } from '../physics';
import { obliqueness } from '../photo/pose/viewRotation';
import type { HangingPicture, StandingPicture, TruckGivens } from '../photo/fit/givens';
import { isSide } from '../photo/views';
import type { View } from '../sheet/schema';
import { pictureNamed } from './titles';
import type { BenchAnswer, Computed } from './benchAnswer';
import type { Warning } from './warnings';

/** What spoils a picture, each with the size of the damage at the center of gravity and the remedy. */

type Shown = Pick<BenchAnswer, 'cg' | 'lines' | 'otherLines' | 'pictures' | 'adjusted' | 'plumbLines'>;

/** Damage below this is not worth a word, mm, 19 times in 20. */
const WORTH_A_WORD = 1.5;
/** A hang that nothing spoils leaves its line off by 2 to 3 mm, 19 times in 20: a string that alone does more is short, mm. */
const USUAL_LINE = 3;
/** A string longer than this part of the picture's longer side is long enough, whatever its marks' ±. */
const LONG_ENOUGH = 0.35;
/** By eye a view is square to about 3°, two times in three; beyond this something else was wrong, rad. */
const OBLIQUE = (8 * Math.PI) / 180;
/** A misfit this many times the one that the marks' ± let expect comes by chance twice in 100 pictures of five marks. */
const WORSE = 1.6;

const mm = (meters: number): string => (meters * 1000).toFixed(1);
const beyond = (meters: number): boolean => meters * 1000 > WORTH_A_WORD;

export function pictureQuality({ state, readings }: Computed, answer: Shown): Warning[] {
  const { adjusted } = answer;
  const { truck, standings, hangs } = readings;
  if (!answer.cg.ok || !adjusted || !truck) return [];
  const named = (id: string) => pictureNamed(state, id);
  return [
    ...hangs.flatMap((hang) => shortString(hang, answer, named(hang.id)) ?? []),
    ...[...standings, ...hangs].flatMap(
      (picture) => obliqueView(picture, answer, truck, named(picture.id)) ?? [],
    ),
    ...answer.pictures.flatMap((check) => worseRegistration(check, answer, named(check.pictureId)) ?? []),
  ];
}

/** From where the string bears to the center of gravity, m; the usual where there is no line. */
function leverOf({ cg, lines, otherLines }: Shown, id: string): number {
  const line = [...lines, ...otherLines].find(({ pictureId }) => pictureId === id);
  if (!line || !cg.ok) return 0.15;
  const { ahead, left, height } = cg.value;
  const at = {
    side: [ahead.value, height.value],
    rear: [left.value, height.value],
    front: [left.value, height.value],
    top: [ahead.value, left.value],
  }[line.view];
  return Math.hypot((at[0] ?? 0) - line.hook.x, (at[1] ?? 0) - line.hook.z);
}

function shortString(hang: HangingPicture, answer: Shown, name: string): Warning | null {
  const [upper, lower] = hang.string;
  const camera = answer.adjusted?.cameras.get(hang.id);
  if (!camera) return null;
  const length = Math.hypot(upper.x - lower.x, upper.y - lower.y);
  if (length > LONG_ENOUGH * Math.max(hang.width, hang.height)) return null;
  // The line leaves the lower mark by its ±, and swings by both marks' ± over their distance on the way down.
  const along = leverOf(answer, hang.id) * camera.scale;
  const far = along / length;
  const size = (COVERAGE * Math.hypot((1 + far) * lower.u, far * upper.u)) / camera.scale;
  if (size * 1000 < USUAL_LINE) return null;
  return {
    code: 'string too short',
    kind: 'warning',
    title: `${name}: little of the string shows.`,
    text: `Its two marks are ${Math.round(length)} px apart, so their own ± puts the line up to ${mm(size)} mm off at the center of gravity. Photograph more of the string, the phone upright, and mark it at both ends of what shows.`,
    sizeMm: size * 1000,
    picture: hang.id,
  };
}

function obliqueView(
  picture: StandingPicture | HangingPicture,
  answer: Shown,
  truck: TruckGivens,
  name: string,
): Warning | null {
  const camera = answer.adjusted?.cameras.get(picture.id);
  if (!camera) return null;
  const angle = obliqueness({ camera });
  if (angle < OBLIQUE) return null;
  const { view } = picture;
  const depths = [...picture.bodyMarks.keys()].flatMap((key) => {
    const place = truck.marks.get(key);
    return (isSide(view) ? place?.left : view === 'top' ? place?.height : place?.ahead)?.u ?? [];
  });
  const typical = depths.length > 0 ? Math.hypot(...depths) / depths.length : 0;
  // A place that is this much nearer or farther than told shifts by its sine.
  const size = COVERAGE * Math.sin(angle) * typical;
  if (!beyond(size)) return null;
  return {
    code: 'view too oblique',
    kind: 'warning',
    title: `${name}: the view is about ${angleIn(radians(angle), 'deg').toFixed(0)}° off square.`,
    text: `Marks whose depth is not known well then shift by up to ${mm(size)} mm against the string. ${remedyOf(view, truck)}`,
    sizeMm: size * 1000,
    picture: picture.id,
  };
}

/** Seen from a side the photographer can stand square; hung by a side, the truck itself leans from the camera. */
function remedyOf(view: View, { axes }: TruckGivens): string {
  if (axes === 'own')
    return 'Stand square to the object, the phone at the height of its middle, or measure how far each mark stands before its middle.';
  if (isSide(view))
    return 'Stand square to the truck, the phone at the height of its middle, or measure how far each mark stands from the center plane.';
  return view === 'top'
    ? 'Measure how high each mark lies, or hang it by a hook at the height of its middle.'
    : 'Measure how far ahead each mark lies, or hang it by a hook near the middle of the wheelbase.';
}

function worseRegistration(
  { pictureId, misfit, expected, span }: BenchAnswer['pictures'][number],
  answer: Shown,
  name: string,
): Warning | null {
  if (misfit === null || misfit < WORSE * expected || answer.adjusted?.misplaced.has(pictureId)) return null;
  // A misfit at the ends of the marks turns the picture, and the line with it, over the lever.
  const size = COVERAGE * misfit * Math.hypot(1, leverOf(answer, pictureId) / Math.max(span, 1e-3));
  if (!beyond(size)) return null;
  return {
    code: 'registration worse than expected',
    kind: 'warning',
    title: `${name}: the marks fit worse than their ±.`,
    text: `They miss each other by ${mm(misfit)} mm where ${mm(expected)} mm was to be expected; that may put its line ${mm(size)} mm off. Look at each mark in the loupe, measure their depths, or take the picture again from farther away and square.`,
    sizeMm: size * 1000,
    picture: pictureId,
  };
}
