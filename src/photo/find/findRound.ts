import { refusal, success } from '../../physics';
import type { Result } from '../../physics';
import type { PixelPoint } from '../camera';
import { halfAxes, lieOf } from './ellipse';
import type { Gray } from './gray';
import { unevenness } from './plainness';
import { roundCandidates } from './roundCandidates';
import { refinedRound } from './roundOnPixels';
import type { RefinedRound } from './roundOnPixels';

/** A round mark found in a picture. Places in pixels of the crop, as in `Gray`. */
export interface FoundRound {
  /** Of the border that tells it best, where there are several around it. */
  readonly center: PixelPoint;
  /** Long axis of the outermost border that goes with the center, px. */
  readonly diameter: number;
  /** Standard uncertainty of the center along each axis of the picture, px. */
  readonly u: number;
  /** Level outside that best border less the level inside it, levels: positive where it is dark inside. */
  readonly contrast: number;
  /** Short axis over long axis: 1 seen squarely, 0.7 from 45° aside. */
  readonly roundness: number;
}

export type RoundReason = 'outside' | 'no round' | 'several' | 'cut off' | 'too small' | 'too faint';

/** Smaller rounds have too few pixels, px across. */
const SMALLEST = 11;
const LEAST_CONTRAST = 10;
/** Seen more obliquely than this it is taken for something else. */
const LEAST_ROUNDNESS = 0.58;
const LEAST_AGREEING = 0.82;
/** Standard deviation of the border about its ellipse, px and as a part of its radius: a cut round is no better. */
const MOST_SCATTER = { pixels: 0.22, part: 0.012 } as const;
/** Unevenness inside, as a part of the contrast. */
const MOST_UNEVEN = 0.27;
/** Beyond this standard uncertainty a place by eye is as good, px. */
const MOST_U = 0.25;

const diameterOf = ({ step }: RefinedRound): number => 2 * halfAxes(step.ellipse)[0];

const uOf = ({ step }: RefinedRound): number => {
  const { covariance } = step.solution;
  const variance = ((covariance[0] ?? 0) + (covariance[6] ?? 0)) / 2;
  return Math.sqrt((variance * (1 + step.correlation)) / (1 - step.correlation)) * step.excess;
};

const areConcentric = (one: RefinedRound, other: RefinedRound): boolean =>
  Math.hypot(one.step.ellipse.x - other.step.ellipse.x, one.step.ellipse.y - other.step.ellipse.y) <
  Math.max(0.35, 3 * Math.hypot(uOf(one), uOf(other)));

const isRound = (picture: Gray, round: RefinedRound): boolean => {
  const { step, contrast, noise } = round;
  const [long, short] = halfAxes(step.ellipse);
  return (
    round.agreeing >= LEAST_AGREEING &&
    short / long >= LEAST_ROUNDNESS &&
    step.scatter <= Math.max(MOST_SCATTER.pixels, MOST_SCATTER.part * long) &&
    unevenness(picture, step.ellipse) <= MOST_UNEVEN * Math.abs(contrast) + 1.5 * noise
  );
};

const none = () =>
  refusal<RoundReason>(
    'no round',
    'Round mark: needs a plain round of two colors under the mark; none was found. Put the mark on its middle, or place it by hand.',
  );

/**
 * Snaps to the center of a plain two-color round: a disc on a ground of the other color, or with rings around the same
 * center. Seen obliquely it is an ellipse, whose center is taken; perspective sets the true center off from it by at most
 * the radius in pixels times radius over camera distance: 0.15 px for 12 mm that fill 60 px at 1.2 m. `near` may be
 * off by 40 % of the diameter. What is not clearly one such round is refused.
 */
export function findRound(picture: Gray, near: PixelPoint): Result<FoundRound, RoundReason> {
  if (!(near.x >= 0 && near.y >= 0 && near.x <= picture.width && near.y <= picture.height))
    return refusal(
      'outside',
      'Round mark: needs a mark inside the picture; this one is outside. Put it on the round.',
    );
  const refined = roundCandidates(picture, near).flatMap(({ ellipse, sign }) => {
    const round = refinedRound(picture, ellipse, sign);
    // Beside the round itself the mark means something else.
    return round && lieOf(round.step.ellipse, near.x, near.y).part < 1.25 ? [round] : [];
  });
  const rounds = refined
    .filter((round) => round.inside === 1 && isRound(picture, round))
    .toSorted((a, b) => diameterOf(b) - diameterOf(a));
  const [largest] = rounds;
  if (!largest) {
    if (refined.some(({ inside, agreeing }) => inside < 1 && agreeing > 0.6 * inside && inside > 0.5))
      return refusal(
        'cut off',
        'Round mark: needs the whole round in the picture; part of it is cut off. Choose another mark.',
      );
    return none();
  }
  if (rounds.some((round) => !areConcentric(round, largest)))
    return refusal(
      'several',
      'Round mark: needs one round under the mark; there are several around different centers. Place it by hand.',
    );
  const diameter = diameterOf(largest);
  if (diameter < SMALLEST)
    return refusal(
      'too small',
      `Round mark: needs at least ${SMALLEST} pixels across; this one has ${diameter.toFixed(0)}. Place it by hand, or photograph from nearer.`,
    );
  const best = rounds.reduce((one, other) => (uOf(other) < uOf(one) ? other : one));
  const u = uOf(best);
  if (Math.abs(best.contrast) < LEAST_CONTRAST || u > MOST_U)
    return refusal(
      'too faint',
      'Round mark: needs to stand out from its ground; this one is too faint or too blurred. Place it by hand, or use a black-and-white round.',
    );
  const [long, short] = halfAxes(best.step.ellipse);
  return success({
    center: { x: best.step.ellipse.x, y: best.step.ellipse.y },
    diameter,
    u,
    contrast: best.contrast,
    roundness: short / long,
  });
}
