import type { Random } from '../../demo/world/random';
import type { Gray } from '../../../src/photo/find/gray';

/**
 * A picture being rendered, without any formula of the finders: things are drawn by the share of each pixel that
 * they cover, counted on a fine grid of points; then come lens blur, noise, JPEG and rounding to whole levels.
 */
export interface Canvas {
  readonly width: number;
  readonly height: number;
  readonly levels: Float64Array;
  /** Indices of the pixels that are rendered; the others, far from what is looked for, stay plain. */
  readonly alive: Int32Array;
}

export function canvas(
  width: number,
  height: number,
  level: (x: number, y: number) => number,
  matters: (x: number, y: number) => boolean = () => true,
): Canvas {
  const levels = new Float64Array(width * height).fill(128);
  const alive: number[] = [];
  for (let j = 0; j < height; j++)
    for (let i = 0; i < width; i++)
      if (matters(i + 0.5, j + 0.5)) {
        alive.push(j * width + i);
        levels[j * width + i] = level(i + 0.5, j + 0.5);
      }
  return { width, height, levels, alive: Int32Array.from(alive) };
}

const GRID = 6;
const CORNERS = [
  [0, 0],
  [1, 0],
  [0, 1],
  [1, 1],
] as const;

/**
 * Lays something over the picture: `paint` is given the level beneath and gives the level on top; `near` keeps the fine grid
 * to pixels where the border may be.
 */
export function draw(
  { width, levels, alive }: Canvas,
  inside: (x: number, y: number) => boolean,
  paint: (below: number, x: number, y: number) => number,
  near: (x: number, y: number) => boolean = () => true,
): void {
  for (const at of alive) {
    const i = at % width;
    const j = (at - i) / width;
    if (!near(i + 0.5, j + 0.5)) continue;
    // Where center and corners agree the pixel is wholly in or out: everything drawn is wider than half a pixel.
    const first = inside(i + 0.5, j + 0.5);
    if (CORNERS.every(([a, b]) => inside(i + a, j + b) === first)) {
      if (first) levels[at] = paint(levels[at] ?? 0, i + 0.5, j + 0.5);
      continue;
    }
    let covered = 0;
    for (let a = 0; a < GRID; a++)
      for (let b = 0; b < GRID; b++) if (inside(i + (a + 0.5) / GRID, j + (b + 0.5) / GRID)) covered++;
    if (covered === 0) continue;
    const share = covered / (GRID * GRID);
    const below = levels[at] ?? 0;
    levels[at] = below + share * (paint(below, i + 0.5, j + 0.5) - below);
  }
}

/** Gaussian blur of the lens, standard deviation in pixels; the border repeats. */
export function blur({ width, height, levels, alive }: Canvas, deviation: number): void {
  if (deviation < 0.15) return;
  const side = Math.ceil(3.5 * deviation);
  const kernel = Array.from({ length: 2 * side + 1 }, (_, i) =>
    Math.exp(-(((i - side) / deviation) ** 2) / 2),
  );
  const whole = kernel.reduce((a, b) => a + b, 0);
  for (const across of [true, false]) {
    const from = Float64Array.from(levels);
    for (const at of alive) {
      const i = at % width;
      const j = (at - i) / width;
      let sum = 0;
      for (let k = -side; k <= side; k++) {
        const column = across ? Math.min(width - 1, Math.max(0, i + k)) : i;
        const row = across ? j : Math.min(height - 1, Math.max(0, j + k));
        sum += (kernel[k + side] ?? 0) * (from[row * width + column] ?? 0);
      }
      levels[at] = sum / whole;
    }
  }
}

/** Motion blur: the mean over a straight path of `length` px at `direction` rad, counted from x toward y. */
export function smear({ width, height, levels }: Canvas, length: number, direction: number): void {
  const from = Float64Array.from(levels);
  const steps = Math.max(2, Math.ceil(length * 4));
  const at = (x: number, y: number): number => {
    const column = Math.min(width - 1.001, Math.max(0, x));
    const row = Math.min(height - 1.001, Math.max(0, y));
    const i = Math.floor(column);
    const j = Math.floor(row);
    const a = column - i;
    const b = row - j;
    const p = (m: number, n: number) => from[(j + n) * width + i + m] ?? 0;
    return (p(0, 0) * (1 - a) + p(1, 0) * a) * (1 - b) + (p(0, 1) * (1 - a) + p(1, 1) * a) * b;
  };
  for (let j = 0; j < height; j++)
    for (let i = 0; i < width; i++) {
      let sum = 0;
      for (let k = 0; k < steps; k++) {
        const shift = ((k + 0.5) / steps - 0.5) * length;
        sum += at(i + shift * Math.cos(direction), j + shift * Math.sin(direction));
      }
      levels[j * width + i] = sum / steps;
    }
}

/** Mild texture: a few waves of random length and direction. */
export function texture(random: Random, amplitude: number): (x: number, y: number) => number {
  const waves = Array.from({ length: 6 }, () => {
    const direction = random.between(0, 2 * Math.PI);
    const number = (2 * Math.PI) / random.between(9, 60);
    return {
      x: number * Math.cos(direction),
      y: number * Math.sin(direction),
      phase: random.between(0, 2 * Math.PI),
    };
  });
  return (x, y) =>
    waves.reduce((sum, wave) => sum + Math.sin(wave.x * x + wave.y * y + wave.phase), 0) *
    (amplitude / Math.sqrt(3));
}

/** Noise of the sensor, then JPEG's coarse cosines where `jpeg` is above 0 (step in levels), then whole levels. */
export function exposed(source: Canvas, random: Random, noise: number, jpeg = 0): Gray {
  const { width, height, levels, alive } = source;
  for (const at of alive) levels[at] = (levels[at] ?? 0) + noise * random.normal();
  if (jpeg > 0) coarseCosines(source, jpeg);
  return {
    width,
    height,
    levels: Float32Array.from(levels, (level) => Math.min(255, Math.max(0, Math.round(level)))),
  };
}

const COSINES = Array.from({ length: 8 }, (_, k) =>
  Array.from(
    { length: 8 },
    (_, n) => Math.cos(((2 * n + 1) * k * Math.PI) / 16) * (k === 0 ? Math.sqrt(1 / 8) : 0.5),
  ),
);

/** One transform of a block's columns or back; applied twice, since it also turns rows into columns. */
function transformed(block: Float64Array, back: boolean): Float64Array {
  const to = new Float64Array(64);
  for (let k = 0; k < 8; k++)
    for (let j = 0; j < 8; j++) {
      let sum = 0;
      for (let n = 0; n < 8; n++)
        sum += ((back ? COSINES[n]?.[k] : COSINES[k]?.[n]) ?? 0) * (block[n * 8 + j] ?? 0);
      to[j * 8 + k] = sum;
    }
  return to;
}

/** Rounds each 8 by 8 block's cosines, finer waves more coarsely. ITU-T T.81, A.3.3 (transform). */
function coarseCosines({ width, height, levels, alive }: Canvas, step: number): void {
  const blocks = new Set<number>();
  for (const at of alive) {
    const i = (at % width) >> 3;
    const j = Math.floor(at / width) >> 3;
    if (8 * i + 8 <= width && 8 * j + 8 <= height) blocks.add(j * width + i);
  }
  for (const place of blocks) {
    const corner = 8 * (place % width) + 8 * Math.floor(place / width) * width;
    const block = new Float64Array(64);
    block.forEach((_, n) => (block[n] = levels[corner + (n >> 3) * width + (n & 7)] ?? 0));
    const waves = transformed(transformed(block, false), false);
    waves.forEach((value, n) => {
      const unit = step * (1 + ((n >> 3) + (n & 7)) / 3);
      waves[n] = Math.round(value / unit) * unit;
    });
    transformed(transformed(waves, true), true).forEach(
      (value, n) => (levels[corner + (n >> 3) * width + (n & 7)] = value),
    );
  }
}
