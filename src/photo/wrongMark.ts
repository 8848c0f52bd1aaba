import type { HangingPicture, PictureGivens, StandingPicture } from './fit/givens';
import { fitSimilarity } from './camera';
import type { PixelPoint } from './camera';

/**
 * Which body mark sits on the wrong thing, by similarity alone: for marks so far off that the joint fit of all
 * pictures does not settle and cannot tell.
 */

export interface WrongMark {
  readonly picture: string;
  /** null where it is not clear which mark: with fewer than four, or more than one of them wrong. */
  readonly key: string | null;
  /** How far it lies, or all of them lie on average, from where the other picture's marks put it, pixels. */
  readonly off: number;
}

type Marked = Pick<PictureGivens, 'id' | 'view' | 'bodyMarks'>;

/** Depth and an oblique view leave a similarity off by a hundredth or two of the marks' span; this is more. */
const WRONG_BEYOND = 0.05;

/** Not even a view 45° off square puts one mark this part of the marks' span from where the others put it. */
const PLAINLY_BEYOND = 0.3;

interface Pair {
  readonly key: string;
  readonly from: PixelPoint;
  readonly to: PixelPoint;
}

const fitOf = (pairs: readonly Pair[]) =>
  fitSimilarity(
    pairs.map(({ from }) => from),
    pairs.map(({ to }) => to),
  );

/** The wrong mark between the standing and one hanging picture, as `off` in the hanging one; null where all fit. */
function wrongBetween(standing: Marked, hang: Marked) {
  const pairs = [...hang.bodyMarks].flatMap(([key, to]): Pair[] => {
    const from = standing.bodyMarks.get(key);
    return from ? [{ key, from, to }] : [];
  });
  const whole = fitOf(pairs);
  const { misfit } = whole ?? { misfit: null };
  if (!whole || misfit === null) return null;
  const span = Math.max(
    ...pairs.flatMap(({ to: p }) => pairs.map(({ to: q }) => Math.hypot(p.x - q.x, p.y - q.y))),
  );
  if (!(misfit > WRONG_BEYOND * span)) return null;
  // The wrong one is the only one without which the others fit.
  const fitting = pairs.flatMap((pair) => {
    const fit = fitOf(pairs.filter((other) => other !== pair));
    if (!fit || fit.misfit === null || fit.misfit > WRONG_BEYOND * span) return [];
    const [cos, sin] = [fit.scale * Math.cos(fit.rotation), fit.scale * Math.sin(fit.rotation)];
    const dx = cos * pair.from.x - sin * pair.from.y + fit.shiftX - pair.to.x;
    const dy = sin * pair.from.x + cos * pair.from.y + fit.shiftY - pair.to.y;
    return [{ key: pair.key, off: Math.hypot(dx, dy), scale: fit.scale, span }];
  });
  const [first, second] = fitting;
  return first && !second ? first : { key: null, off: misfit, scale: whole.scale, span };
}

/** Pictures to compare: of every view a standing one, or its first hang, with the other hangs of that view. */
export function bases(
  standings: readonly StandingPicture[],
  hangs: readonly HangingPicture[],
): (readonly [base: Marked, others: readonly Marked[]])[] {
  const standing = new Set(standings.map(({ view }) => view));
  const firsts = hangs.filter(
    ({ view }, i) => !standing.has(view) && hangs.findIndex((each) => each.view === view) === i,
  );
  return [...standings, ...firsts].map((base) => [
    base,
    hangs.filter((hang) => hang !== base && hang.view === base.view),
  ]);
}

/** Whether one body mark lies so far from where the others put it that no oblique view explains it. */
export const isPlainlyWrong = (base: Marked, others: readonly Marked[]): boolean =>
  others.some((other) => {
    const found = wrongBetween(base, other);
    return found !== null && found.key !== null && found.off > PLAINLY_BEYOND * found.span;
  });

/**
 * The body mark that is most plainly wrong, or the picture whose marks do not fit the base's, which is a standing one
 * where there is one; null where every picture's marks fit. A mark that is wrong in all of two or more hanging pictures is wrong in the standing one.
 */
export function wrongMark(standing: Marked, hangs: readonly Marked[]): WrongMark | null {
  const wrong = hangs.flatMap((hang) => {
    const found = wrongBetween(standing, hang);
    return found ? [{ ...found, picture: hang.id }] : [];
  });
  const [worst] = wrong.toSorted((a, b) => b.off - a.off);
  if (!worst) return null;
  const everywhere =
    hangs.length >= 2 &&
    wrong.length === hangs.length &&
    worst.key !== null &&
    wrong.every(({ key }) => key === worst.key);
  return everywhere
    ? { picture: standing.id, key: worst.key, off: worst.off / worst.scale }
    : { picture: worst.picture, key: worst.key, off: worst.off };
}
