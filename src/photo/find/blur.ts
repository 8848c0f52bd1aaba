import { refusal, success } from '../../physics';
import type { Result } from '../../physics';
import { levelAt } from './gray';
import type { Gray } from './gray';
import { NormalEquations } from './normalEquations';

/** How a picture is smeared, by its own edges. */
export interface MotionBlur {
  /** Length of the smear along its direction, px: how far the picture moved while it was taken. */
  readonly width: number;
  /** Direction of the smear, rad, from 0 up to but not including π, counted from x toward y (down). */
  readonly direction: number;
  /** Edge width along the smear over that across it: 1 for a picture that is equally sharp in all directions. */
  readonly ratio: number;
  /** Blur that is the same in all directions, standard deviation, px: focus, lens and pixels. */
  readonly focus: number;
  /** Edge places that told it. */
  readonly edges: number;
}

export type BlurReason = 'too few edges';

const SMOOTHING = 1;
/** Farthest that an edge is followed to either side, px. */
const REACH = 20;
/** An edge ends where its slope is below this part of that in its middle. */
const END = 0.07;
/** An edge must change the level by this much, levels. */
const LEAST_RISE = 25;
const BINS = 12;
const LEAST_EDGES = 50;
const LEAST_BINS = 5;
/** Edge places that are looked at, at most. */
const MOST_PLACES = 4000;

/** The picture smoothed by a normal law of standard deviation SMOOTHING; the border repeats. */
function smoothed({ width, height, levels }: Gray): Gray {
  const side = Math.ceil(3 * SMOOTHING);
  const kernel = Array.from({ length: 2 * side + 1 }, (_, i) =>
    Math.exp(-(((i - side) / SMOOTHING) ** 2) / 2),
  );
  const whole = kernel.reduce((a, b) => a + b, 0);
  let from = levels;
  for (const [step, count, lines, next] of [
    [1, width, height, width],
    [width, height, width, 1],
  ] as const) {
    const to = new Float32Array(levels.length);
    for (let line = 0; line < lines; line++)
      for (let i = 0; i < count; i++) {
        let sum = 0;
        for (let k = -side; k <= side; k++) {
          const at = Math.max(0, Math.min(count - 1, i + k));
          sum += (kernel[k + side] ?? 0) * (from[line * next + at * step] ?? 0);
        }
        to[line * next + i * step] = sum / whole;
      }
    from = to;
  }
  return { width, height, levels: from };
}

interface Edge {
  /** Variance of the edge's slope as a law of place, px². */
  readonly variance: number;
  /** Direction of its normal, rad. */
  readonly normal: number;
}

/** The edge through a pixel, followed along its normal to both ends; null unless the pixel is at its middle. */
function edgeThrough(
  picture: Gray,
  x: number,
  y: number,
  nx: number,
  ny: number,
  least: number,
): Edge | null {
  const slopeAt = (e: number): number =>
    levelAt(picture, x + (e + 0.5) * nx, y + (e + 0.5) * ny) -
    levelAt(picture, x + (e - 0.5) * nx, y + (e - 0.5) * ny);
  const middle = slopeAt(0);
  const end = Math.max(END * middle, least);
  if (!(middle > 2 * end)) return null;
  let rise = middle;
  let moment = 0;
  let squares = 0;
  for (const side of [-1, 1]) {
    let e = side;
    for (;;) {
      const slope = slopeAt(e);
      if (!(Math.abs(e) <= REACH) || Number.isNaN(slope)) return null;
      if (slope < end) break;
      rise += slope;
      moment += slope * e;
      squares += slope * e * e;
      e += side;
    }
  }
  if (rise < LEAST_RISE) return null;
  const mean = moment / rise;
  if (Math.abs(mean) > 0.75) return null;
  return { variance: squares / rise - mean * mean, normal: Math.atan2(ny, nx) };
}

const median = (values: readonly number[]): number =>
  values.toSorted((a, b) => a - b)[values.length >> 1] ?? 0;

/**
 * Estimates how far a picture is smeared, and in which direction, from how wide its edges are in each direction. A
 * smear of length b widens an edge whose normal makes the angle ψ with it by the variance b² cos² ψ / 12 (uniform law),
 * which adds to that of lens and focus; three numbers are fitted to the medians of twelve directions. It takes steps in level with
 * ground on both sides: a round, a body's outline. A string is narrower than its smear and does not tell.
 */
export function motionBlur(picture: Gray): Result<MotionBlur, BlurReason> {
  const even = smoothed(picture);
  const { width, height, levels } = even;
  const at = (i: number, j: number): number => levels[j * width + i] ?? 0;
  const places: { x: number; y: number; dx: number; dy: number; slope: number }[] = [];
  const slopes: number[] = [];
  for (let j = 2; j < height - 2; j++)
    for (let i = 2; i < width - 2; i++) {
      const dx = (at(i + 1, j) - at(i - 1, j)) / 2;
      const dy = (at(i, j + 1) - at(i, j - 1)) / 2;
      const slope = Math.hypot(dx, dy);
      slopes.push(slope);
      places.push({ x: i + 0.5, y: j + 0.5, dx, dy, slope });
    }
  const sorted = Float64Array.from(slopes).sort();
  // Most of a picture is plain: the median slope is what noise and texture give.
  const plain = sorted[sorted.length >> 1] ?? 0;
  const steep = sorted[Math.floor(sorted.length * 0.998)] ?? 0;
  const least = Math.max(1, 2.2 * plain);
  const strong = places.filter(({ slope }) => slope > Math.max(2.5 * least, 0.06 * steep));
  const stride = Math.max(1, Math.ceil(strong.length / MOST_PLACES));
  const bins = Array.from({ length: BINS }, (): number[] => []);
  let edges = 0;
  for (let k = 0; k < strong.length; k += stride) {
    const place = strong[k];
    if (!place) continue;
    const { x, y, dx, dy, slope } = place;
    const edge = edgeThrough(even, x, y, dx / slope, dy / slope, least);
    if (!edge) continue;
    edges++;
    const bin = Math.floor(((edge.normal + Math.PI) / Math.PI) * BINS) % BINS;
    bins[bin]?.push(edge.variance);
  }
  const seen = bins.filter((bin) => bin.length >= 4);
  if (edges < LEAST_EDGES || seen.length < LEAST_BINS)
    return refusal(
      'too few edges',
      'Blur: needs clear edges in several directions; this part of the picture has too few. Look at a round mark or an outline instead.',
    );
  const equations = new NormalEquations(3);
  bins.forEach((bin, k) => {
    if (bin.length < 4) return;
    const twice = (2 * Math.PI * (k + 0.5)) / BINS;
    equations.add([1, Math.cos(twice), Math.sin(twice)], median(bin), Math.min(bin.length, 40));
  });
  const [mean = 0, cosine = 0, sine = 0] = equations.solve()?.values ?? [];
  const half = Math.hypot(cosine, sine);
  // The smoothing's own variance, and that of taking slopes over one pixel.
  const own = SMOOTHING ** 2 + 1 / 12;
  const across = Math.max(0.05, mean - half - own);
  const turn = Math.atan2(sine, cosine) / 2;
  return success({
    width: Math.sqrt(24 * half),
    direction: (turn + Math.PI) % Math.PI,
    ratio: Math.sqrt((across + 2 * half) / across),
    focus: Math.sqrt(across),
    edges,
  });
}
