import { random } from '../../demo/world/random';
import type { PixelPoint } from '../../../src/photo/camera';
import type { Gray } from '../../../src/photo/find/gray';
import { blur, canvas, draw, exposed, texture } from './canvas';

/** A rendered crop with a sticker whose center is known, or with something that is no round mark. */
export interface RoundCrop {
  readonly picture: Gray;
  readonly press: PixelPoint;
  readonly center: PixelPoint;
  readonly diameter: number;
  readonly ratio: number;
  readonly what: string;
}

export type RoundKind =
  'printed' | 'plain' | 'ringed' | 'screw head' | 'corner' | 'square' | 'stripe' | 'nothing';

export function roundCrop(number: number, kind: RoundKind): RoundCrop {
  const dice = random(number, 'round crop');
  const diameter = dice.between(15, 120);
  const ratio = dice.between(0.7, 1);
  const turn = dice.between(0, Math.PI);
  const side = Math.ceil(2.1 * diameter + 40);
  const center = { x: side / 2 + dice.between(-0.5, 0.5), y: side / 2 + dice.between(-0.5, 0.5) };
  // Coordinates in which the round is a circle of radius 1.
  const cos = Math.cos(turn);
  const sin = Math.sin(turn);
  const ahead = (x: number, y: number): number =>
    (2 * ((x - center.x) * cos + (y - center.y) * sin)) / diameter;
  const beside = (x: number, y: number): number =>
    (2 * ((y - center.y) * cos - (x - center.x) * sin)) / (diameter * ratio);
  const part = (x: number, y: number) => Math.sqrt(ahead(x, y) ** 2 + beside(x, y) ** 2);
  const boxed = (x: number, y: number) => Math.max(Math.abs(ahead(x, y)), Math.abs(beside(x, y)));
  const grain = texture(dice, dice.between(0, 4));
  const ground = dice.between(60, 170);
  const picture = canvas(side, side, (x, y) => ground + grain(x, y));
  // Clutter: bars and a box, clear of the round.
  const pieces = 1 + Math.floor(dice.between(0, 3));
  for (let i = 0; i < pieces; i++) {
    const direction = dice.between(0, 2 * Math.PI);
    const away = dice.between(1.35, 2) * (diameter / 2) + 3;
    const level = dice.between(20, 230);
    const width = dice.between(2, 12);
    draw(
      picture,
      (x, y) => {
        const across = (x - center.x) * Math.cos(direction) + (y - center.y) * Math.sin(direction);
        return across > away && across < away + width;
      },
      () => level,
    );
  }
  const black = dice.between(15, 55);
  const white = dice.between(150, 235);
  const inked = dice.unit() < 0.5;
  const [inkInside, inkOutside] = inked ? [black, white] : [white, black];
  if (kind === 'printed') {
    const margin = dice.between(1.2, 1.32);
    draw(
      picture,
      (x, y) => boxed(x, y) < margin,
      () => white,
    );
    draw(
      picture,
      (x, y) => part(x, y) < 1,
      () => black,
    );
    draw(
      picture,
      (x, y) => part(x, y) < 1 / 3,
      () => white,
    );
  } else if (kind === 'plain' || kind === 'ringed') {
    draw(
      picture,
      (x, y) => part(x, y) < (kind === 'ringed' ? 1.3 : 5),
      () => inkOutside,
      (x, y) => part(x, y) < 1.34,
    );
    draw(
      picture,
      (x, y) => part(x, y) < 1,
      () => inkInside,
    );
  } else if (kind === 'screw head') {
    draw(
      picture,
      (x, y) => part(x, y) < 1,
      () => white,
    );
    const slot = dice.between(0.12, 0.22);
    const cross = dice.unit() < 0.5;
    draw(
      picture,
      (x, y) => {
        const [a, b] = [Math.abs(ahead(x, y)), Math.abs(beside(x, y))];
        return part(x, y) < 0.85 && (b < slot || (cross && a < slot));
      },
      () => black,
    );
  } else if (kind === 'square') {
    draw(
      picture,
      (x, y) => boxed(x, y) < 0.9,
      () => black,
    );
  } else if (kind === 'corner') {
    draw(
      picture,
      (x, y) => Math.min(ahead(x, y), beside(x, y)) > 0,
      () => black,
    );
  } else if (kind === 'stripe') {
    draw(
      picture,
      (x, y) => Math.abs(ahead(x, y)) < 0.5,
      () => black,
    );
  }
  // Light: an even slant, and in every third crop a shadow's soft border across the round.
  const slant = dice.between(0, 0.35);
  const from = dice.between(0, 2 * Math.PI);
  const shaded = dice.unit() < 0.35;
  const shadow = dice.between(0.5, 0.8);
  const shadowFrom = dice.between(0, 2 * Math.PI);
  const shadowAt = dice.between(-0.3, 0.3) * diameter;
  const softness = dice.between(1, 6);
  for (const at of picture.alive) {
    const x = (at % side) + 0.5 - center.x;
    const y = Math.floor(at / side) + 0.5 - center.y;
    let light = 1 + (slant * (x * Math.cos(from) + y * Math.sin(from))) / side;
    if (shaded) {
      const beyond = x * Math.cos(shadowFrom) + y * Math.sin(shadowFrom) - shadowAt;
      light *= 1 - (1 - shadow) / (1 + Math.exp(-beyond / softness));
    }
    picture.levels[at] = (picture.levels[at] ?? 0) * light;
  }
  blur(picture, dice.between(0, Math.min(1.5, diameter / 20)));
  const noise = dice.between(1, 5);
  const jpeg = dice.unit() < 0.4 ? dice.between(2, 8) : 0;
  const gray = exposed(picture, dice, noise, jpeg);
  const off = 0.4 * diameter * Math.sqrt(dice.unit());
  const toward = dice.between(0, 2 * Math.PI);
  return {
    picture: gray,
    press: { x: center.x + off * Math.cos(toward), y: center.y + off * Math.sin(toward) },
    center,
    diameter,
    ratio,
    what: `${kind}${shaded ? ' shaded' : ''}`,
  };
}
