import { describe, expect, it } from 'vitest';
import { motionBlur } from '../../../src/photo/find';
import type { Gray } from '../../../src/photo/find';
import { random } from '../../demo/world/random';
import { tolerance } from '../../tolerances';
import { blur, canvas, draw, exposed, smear, texture } from './canvas';

/** A dark round on lighter ground, smeared by `length` px along `direction`. */
function smeared(number: number, length: number, direction: number): Gray {
  const dice = random(number, 'smear');
  const grain = texture(dice, 2);
  const picture = canvas(140, 140, (x, y) => 150 + grain(x, y));
  const radius = dice.between(22, 38);
  const dark = dice.between(25, 70);
  const distance = (x: number, y: number) => Math.hypot(x - 70, y - 70);
  draw(
    picture,
    (x, y) => distance(x, y) < radius,
    () => dark,
    (x, y) => distance(x, y) < radius + 1,
  );
  blur(picture, dice.between(0.3, 1));
  if (length > 0) smear(picture, length, direction);
  return exposed(picture, dice, dice.between(1, 4));
}

describe('motion blur', () => {
  it.each(Array.from({ length: 13 }, (_, i) => 3 + i))('of %d px is told within 30 %%', (length) => {
    const direction = (length * 0.83) % Math.PI;
    const found = motionBlur(smeared(length, length, direction));
    if (!found.ok) throw new Error(found.message);
    expect(Math.abs(found.value.width / length - 1)).toBeLessThan(tolerance('blur: length'));
    // A direction and its opposite are the same.
    const turn = Math.abs(Math.sin(found.value.direction - direction));
    expect(turn).toBeLessThan(Math.sin(tolerance('blur: direction')));
    expect(found.value.ratio).toBeGreaterThan(1.5);
  });

  it('is small in a picture that stood still', () => {
    for (let number = 1; number <= 4; number++) {
      const found = motionBlur(smeared(number, 0, 0));
      if (!found.ok) throw new Error(found.message);
      expect(found.value.width).toBeLessThan(tolerance('blur: none'));
      expect(found.value.ratio).toBeLessThan(1.3);
    }
  });

  it('refuses where there are too few edges, or edges of one direction only', () => {
    const plain = exposed(
      canvas(90, 90, () => 120),
      random(1, 'plain'),
      3,
    );
    const stripe = exposed(
      canvas(90, 90, (x) => (x < 45 ? 60 : 170)),
      random(1, 'stripe'),
      3,
    );
    const few = motionBlur(plain);
    expect(few).toMatchObject({ ok: false, reason: 'too few edges' });
    expect(motionBlur(stripe)).toMatchObject({ ok: false, reason: 'too few edges' });
    if (!few.ok) expect(few.message).toMatch(/^Blur: .+; .+\. .+\.$/);
  });
});
