import { describe, expect, it } from 'vitest';
import type { Gray } from '../../src/photo/find/gray';
import { findRound } from '../../src/photo/find/findRound';
import { PICTURE_PIXELS, STICKER_SIZES, stickerStrip, widestPicture } from '../../src/site/handouts/stickers';
import { random } from '../demo/world/random';
import { tolerance } from '../tolerances';

/** Levels of paper, print, cutting line and the body the sticker is on. */
const PAPER = 225;
const INK = 30;
const LINE = 150;
const BODY = 70;
const NOISE = 3;
/** Samples a pixel in each direction, over 1.5 pixels: about what a lens and a sharpened picture leave. */
const SAMPLES = 4;
const SPREAD = 1.5;

interface Round {
  readonly x: number;
  readonly y: number;
  readonly radius: number;
  readonly black: boolean;
}

/** The first sticker of a strip as printed, mm, and the side of its square. */
function printed(diameter: number): { rounds: Round[]; side: number } {
  const strip = stickerStrip(diameter);
  const circles = [...strip.matchAll(/<circle class="(\w+)" cx="([\d.]+)" cy="([\d.]+)" r="([\d.]+)"/g)];
  const rounds = circles.slice(0, 2).map(([, color, x, y, radius]) => ({
    x: Number(x),
    y: Number(y),
    radius: Number(radius),
    black: color === 'black',
  }));
  const side = Number(/V0M([\d.]+)|M0 0V[\d.]+M([\d.]+)/.exec(strip)?.slice(1).find(Boolean));
  return { rounds, side };
}

/** A cut-out sticker on a body: where its middle is in the crop, and the crop. */
function photographed(diameter: number, across: number, seed: number): { gray: Gray; x: number; y: number } {
  const draw = random(seed, `sticker ${diameter}`);
  const { rounds, side } = printed(diameter);
  const perMillimeter = across / diameter;
  const size = Math.ceil(3.2 * across) + 20;
  const [x, y] = [size / 2 + draw.between(-0.5, 0.5), size / 2 + draw.between(-0.5, 0.5)];
  const turn = draw.between(0, Math.PI);
  // Seen up to 25° aside.
  const narrowed = draw.between(0.906, 1);
  const [cos, sin] = [Math.cos(turn), Math.sin(turn)];
  const levelOn = (px: number, py: number): number => {
    const [dx, dy] = [(px - x) / perMillimeter / narrowed, (py - y) / perMillimeter];
    const [mx, my] = [side / 2 + cos * dx + sin * dy, side / 2 - sin * dx + cos * dy];
    if (mx < -0.1 || my < -0.1 || mx > side + 0.1 || my > side + 0.1) return BODY;
    if (mx < 0.1 || my < 0.1 || mx > side - 0.1 || my > side - 0.1) return LINE;
    const inside = rounds.filter((round) => Math.hypot(mx - round.x, my - round.y) < round.radius);
    return inside.at(-1)?.black === true ? INK : PAPER;
  };
  const levels = Float32Array.from({ length: size * size }, (_, i) => {
    let sum = 0;
    for (let k = 0; k < SAMPLES * SAMPLES; k++) {
      const [u, v] = [k % SAMPLES, Math.floor(k / SAMPLES)].map(
        (step) => SPREAD * ((step + 0.5) / SAMPLES - 0.5),
      );
      sum += levelOn((i % size) + 0.5 + (u ?? 0), Math.floor(i / size) + 0.5 + (v ?? 0));
    }
    return sum / SAMPLES ** 2 + NOISE * draw.normal();
  });
  return { gray: { width: size, height: size, levels }, x, y };
}

/** Root mean square of how far the finder misses the middle of stickers so many pixels across, px. */
function missOf(diameter: number, across: number, count: number): number {
  const misses = Array.from({ length: count }, (_, seed) => {
    const { gray, x, y } = photographed(diameter, across, seed + 1);
    const draw = random(seed + 1, 'tap');
    const off = 0.25 * across;
    const found = findRound(gray, { x: x + draw.between(-off, off), y: y + draw.between(-off, off) });
    if (!found.ok) throw new Error(found.message);
    return Math.hypot(found.value.center.x - x, found.value.center.y - y);
  });
  return Math.sqrt(misses.reduce((sum, miss) => sum + miss ** 2, 0) / count);
}

describe('a sticker on a body, photographed', () => {
  const most = tolerance('sticker: found in its middle');

  it.each(STICKER_SIZES)('of %d mm, is found in the widest picture the sheet allows for it', (diameter) => {
    const across = PICTURE_PIXELS * (diameter / (1000 * widestPicture(diameter)));
    expect(missOf(diameter, across, 6)).toBeLessThan(most);
  });

  it.each([30, 60])('is found where it is %d pixels across', (across) => {
    expect(missOf(8, across, 3)).toBeLessThan(most);
  });
});
