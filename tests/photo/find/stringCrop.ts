import { random } from '../../demo/world/random';
import type { PixelPoint } from '../../../src/photo/camera';
import type { Gray } from '../../../src/photo/find/gray';
import { blur, canvas, draw, exposed, texture } from './canvas';

/** A rendered crop whose string is known. */
export interface StringCrop {
  readonly picture: Gray;
  /** The reader's marks. */
  readonly upper: PixelPoint;
  readonly lower: PixelPoint;
  readonly length: number;
  readonly width: number;
  readonly contrast: number;
  readonly bow: number;
  readonly decoy: string;
  /** Distance of a point across from the string's curve, and from the straight line nearest to all of it, px. */
  readonly offCurve: (point: PixelPoint) => number;
  readonly offLine: (point: PixelPoint) => number;
  /** Distance from the decoy's middle, px; Infinity without one. */
  readonly offDecoy: (point: PixelPoint) => number;
}

export interface CropKind {
  /** Largest angle from upright, rad. */
  readonly lean: number;
  /** Part of the crops with a decoy. */
  readonly decoys: number;
}

export function stringCrop(number: number, kind: CropKind): StringCrop {
  const dice = random(number, 'string crop');
  const length = dice.between(120, 900);
  const lean = dice.between(-kind.lean, kind.lean);
  const width = dice.between(1.5, 4);
  const sign = dice.unit() < 0.5 ? -1 : 1;
  const contrast = sign * dice.between(15, 100);
  const bow = dice.eitherSign(0, Math.min(2, 0.0025 * length));
  const along = [Math.sin(lean), Math.cos(lean)] as const;
  const margin = 34;
  const picWidth = Math.ceil(Math.abs(along[0]) * length + 2 * margin);
  const picHeight = Math.ceil(Math.abs(along[1]) * length + 2 * margin);
  const middle = { x: picWidth / 2 + dice.between(-1, 1), y: picHeight / 2 + dice.between(-1, 1) };
  const s = (x: number, y: number) => (x - middle.x) * along[0] + (y - middle.y) * along[1];
  const e = (x: number, y: number) => (y - middle.y) * along[0] - (x - middle.x) * along[1];
  const bend = (at: number) => bow * (1 - ((2 * at) / length) ** 2);
  const slope = dice.between(0, 0.08);
  const downhill = dice.between(0, 2 * Math.PI);
  const grain = texture(dice, dice.between(0, 3));
  const ground = dice.between(110, 145);
  const picture = canvas(
    picWidth,
    picHeight,
    (x, y) =>
      ground +
      grain(x, y) +
      slope * ((x - middle.x) * Math.cos(downhill) + (y - middle.y) * Math.sin(downhill)),
    (x, y) => Math.abs(e(x, y)) < 36,
  );
  // The decoy: straight, within 10 px, as strong as a string may be, or more.
  let decoy = 'none';
  let decoyAt: (at: number) => number = () => Infinity;
  if (dice.unit() < kind.decoys) {
    const away = dice.eitherSign(4.5, 10);
    const turn = dice.unit() < 0.6 ? 0 : dice.eitherSign(0, Math.min(4, Math.abs(away) - 3.5) / (length / 2));
    decoyAt = (at) => away + turn * at;
    const decoySign = dice.unit() < 0.6 ? sign : -sign;
    const decoyContrast = decoySign * dice.between(15, 100);
    const half = dice.between(1.5, 4) / 2;
    const style = dice.unit();
    const from = style < 0.25 ? dice.between(-0.5, 0.1) * length : -Infinity;
    if (style < 0.75) {
      decoy = style < 0.25 ? 'part of a line' : 'line';
      draw(
        picture,
        (x, y) => s(x, y) > from && Math.abs(e(x, y) - decoyAt(s(x, y))) < half,
        (below) => below + decoyContrast,
        (x, y) => Math.abs(e(x, y) - decoyAt(s(x, y))) < half + 2,
      );
    } else {
      decoy = 'edge';
      draw(
        picture,
        (x, y) => (e(x, y) - decoyAt(s(x, y))) * Math.sign(away) > 0,
        (below) => below + 0.5 * decoyContrast,
        (x, y) => (e(x, y) - decoyAt(s(x, y))) * Math.sign(away) > -2,
      );
    }
  }
  const past = 0.5 * length + dice.between(4, 40);
  draw(
    picture,
    (x, y) => Math.abs(s(x, y)) < past && Math.abs(e(x, y) - bend(s(x, y))) < width / 2,
    (below) => below + contrast,
    (x, y) => Math.abs(e(x, y) - bend(s(x, y))) < width / 2 + 2,
  );
  blur(picture, dice.between(0, 0.8));
  const noise = dice.between(1, 5);
  const jpeg = dice.unit() < 0.4 ? dice.between(2, 10) : 0;
  const gray = exposed(picture, dice, noise, jpeg);
  const mark = (end: number): PixelPoint => {
    const beside = dice.between(-6, 6) + bend(end);
    const ahead = end + dice.between(-4, 4);
    return {
      x: middle.x + ahead * along[0] - beside * along[1],
      y: middle.y + ahead * along[1] + beside * along[0],
    };
  };
  const upper = mark(-length / 2);
  const lower = mark(length / 2);
  // The straight line with the least squares from the parabola between the marks, by integrals in closed form.
  const from = s(upper.x, upper.y);
  const to = s(lower.x, lower.y);
  const center = (from + to) / 2;
  const straight = (at: number) =>
    bow * (1 - (4 / length ** 2) * (center ** 2 + (to - from) ** 2 / 12 + 2 * center * (at - center)));
  return {
    picture: gray,
    upper,
    lower,
    length,
    width,
    contrast,
    bow,
    decoy,
    offCurve: ({ x, y }) => e(x, y) - bend(s(x, y)),
    offLine: ({ x, y }) => e(x, y) - straight(s(x, y)),
    offDecoy: ({ x, y }) => Math.abs(e(x, y) - decoyAt(s(x, y))),
  };
}
