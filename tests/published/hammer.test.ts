import { describe, expect, it } from 'vitest';
import { DENSITY, HAMMER_BLOCKS, hammerCg } from '../../src/figures/hammer';
import { massIn, lengthIn } from '../../src/physics';
import { tolerance } from '../tolerances';

/**
 * The hammer of chapter 3 by first moments, worked on paper: volumes of its blocks in mm³, grams by the densities of
 * the handbooks, moments about the butt end and about the middle of the handle.
 *
 *   face side   28 × 33 × 28 = 25,872   × 7.85e-3 = 203.0952 g   at 316, −28.5
 *   peen side   28 × 53 × 28 = 41,552             = 326.1832 g   at 316,  38.5
 *   cheeks   2 · 28 × 24 × 6 =  8,064             =  63.3024 g   at 316,   0
 *   handle    330 × 24 × 16 = 126,720   × 6.72e-4 =  85.1558 g   at 165,   0
 */
const BY_HAND = {
  mass: 677.7366,
  // (592.5808 × 316 + 85.1558 × 165) / 677.7366 = (187,255.53 + 14,050.71) / 677.7366
  along: 297.0272,
  // (326.1832 × 38.5 − 203.0952 × 28.5) / 677.7366 = (12,558.05 − 5,788.21) / 677.7366
  across: 9.9889,
};

describe('the hammer of two materials', () => {
  const cg = hammerCg();
  const near = tolerance('hammer: by hand');

  it('has the center of gravity that first moments on paper give', () => {
    expect(Math.abs(massIn(cg.mass.value, 'g') - BY_HAND.mass)).toBeLessThan(near);
    expect(Math.abs(lengthIn(cg.x.value, 'mm') - BY_HAND.along)).toBeLessThan(near);
    expect(Math.abs(lengthIn(cg.z.value, 'mm') - BY_HAND.across)).toBeLessThan(near);
    expect(cg.y.value).toBe(0);
  });

  it('has the one that its cubes of a millimeter give, added up one by one', () => {
    let [mass, along, across] = [0, 0, 0];
    const inside = (value: number, [from, to]: readonly [number, number]): boolean =>
      value > from && value < to;
    for (let x = 0.5; x < 330; x++)
      for (let z = -44.5; z < 65; z++)
        for (const { material, along: a, across: c, deep } of HAMMER_BLOCKS) {
          if (!inside(x, a) || !inside(z, c)) continue;
          const column = deep * DENSITY[material] * 1e-6;
          mass += column;
          along += column * x;
          across += column * z;
        }
    expect(Math.abs(massIn(cg.mass.value, 'g') - mass)).toBeLessThan(near);
    expect(Math.abs(lengthIn(cg.x.value, 'mm') - along / mass)).toBeLessThan(near);
    expect(Math.abs(lengthIn(cg.z.value, 'mm') - across / mass)).toBeLessThan(near);
  });

  it('has densities within what handbooks state', () => {
    // EN 1991-1-1:2002, table A.4: steel 77.0 to 78.5 kN/m³, at 9.80665 m/s².
    expect(DENSITY.steel * 9.80665).toBeGreaterThan(76_900);
    expect(DENSITY.steel * 9.80665).toBeLessThan(78_500);
    // White ash dried in air weighs 42 lb a cubic foot, as timber tables have it.
    expect(Math.abs(DENSITY.ash - (42 * 0.45359237) / 0.3048 ** 3)).toBeLessThan(
      tolerance('hammer: ash by the cubic foot'),
    );
  });
});
