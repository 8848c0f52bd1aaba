import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import {
  type PartMass,
  cgByCarrier,
  compositeCg,
  independent,
  kilograms,
  meters,
  monteCarlo,
} from '../../../src/physics';
import { tolerance } from '../../tolerances';
import { between, covarianceGap, reasonOf, seeded, valueOf } from '../given';

const rounding = tolerance('physics: rounding in a length');
const part = (mass: number, x: number, y: number, z: number, uMass = 0, uPlace = 0): PartMass => ({
  mass: { value: kilograms(mass), u: uMass },
  x: { value: meters(x), u: uPlace },
  y: { value: meters(y), u: uPlace },
  z: { value: meters(z), u: uPlace },
});
const somePart = fc
  .tuple(between(0.02, 1), between(-0.1, 0.4), between(-0.1, 0.1), between(0.02, 0.25))
  .map(([m, x, y, z]) => part(m, x, y, z, 0.02 * m, 0.003));
const parts = fc.array(somePart, { minLength: 2, maxLength: 9 });
const close = (a: number, b: number, limit = rounding): void => expect(Math.abs(a - b)).toBeLessThan(limit);

describe('composite CG', () => {
  /** Reference row D16, constructed: front axle as datum there, rear axle here. */
  test('a parts list of tenth scale (D16)', () => {
    const rows = [
      [760, 0, 55],
      [640, -313, 55],
      [420, -150, 85],
      [210, -70, 80],
      [260, -165, 95],
      [110, -40, 100],
      [300, -160, 140],
    ];
    const cg = valueOf(
      compositeCg(rows.map(([m = NaN, x = NaN, z = NaN]) => part(m / 1000, x / 1000, 0, z / 1000))),
    );
    const digit = 1e-5 * tolerance('published: last digit');
    expect(Math.abs(cg.x.value - -0.13827)).toBeLessThanOrEqual(digit);
    expect(Math.abs(cg.z.value - 0.07674)).toBeLessThanOrEqual(digit);
  });

  test('order and datum', () => {
    fc.assert(
      fc.property(parts, between(-3, 3), (list, datum) => {
        const cg = valueOf(compositeCg(list));
        const moved = valueOf(
          compositeCg(
            list.toReversed().map((p) => ({ ...p, x: { value: meters(p.x.value + datum), u: p.x.u } })),
          ),
        );
        close(moved.x.value, cg.x.value + datum);
        close(moved.z.value, cg.z.value);
        expect(covarianceGap(moved.covariance, cg.covariance)).toBeLessThan(1e-6);
      }),
    );
  });

  test('mirror and scale', () => {
    fc.assert(
      fc.property(parts, between(0.1, 10), (list, by) => {
        const cg = valueOf(compositeCg(list));
        const other = valueOf(
          compositeCg(
            list.map((p) => ({
              ...p,
              mass: { value: kilograms(by * p.mass.value), u: by * p.mass.u },
              y: { value: meters(-p.y.value), u: p.y.u },
            })),
          ),
        );
        close(other.y.value, -cg.y.value);
        close(other.x.value, cg.x.value);
        close(other.z.u, cg.z.u);
        close(other.covariance[0]?.[1] ?? NaN, -(cg.covariance[0]?.[1] ?? NaN));
      }),
    );
  });

  test('grouping parts first changes nothing', () => {
    fc.assert(
      fc.property(parts, parts, (first, second) => {
        const all = valueOf(compositeCg([...first, ...second]));
        const [a, b] = [valueOf(compositeCg(first)), valueOf(compositeCg(second))];
        const again = valueOf(compositeCg([a, b]));
        close(again.x.value, all.x.value);
        close(again.y.value, all.y.value);
        close(again.z.value, all.z.value);
        close(again.mass.value, all.mass.value);
        // The u is not compared: mass and CG of a group share its parts, which a list of groups does not know.
      }),
    );
  });

  test('a part taken away as negative mass undoes adding it', () => {
    fc.assert(
      fc.property(parts, somePart, (list, extra) => {
        const cg = valueOf(compositeCg(list));
        const { value, u } = extra.mass;
        const undone = valueOf(
          compositeCg([...list, extra, { ...extra, mass: { value: kilograms(-value), u } }]),
        );
        close(undone.x.value, cg.x.value, rounding * 100);
        close(undone.z.value, cg.z.value, rounding * 100);
      }),
    );
  });

  test('the CG of positive masses lies between its parts', () => {
    fc.assert(
      fc.property(parts, (list) => {
        const { z } = valueOf(compositeCg(list));
        const heights = list.map((p) => p.z.value);
        expect(z.value).toBeGreaterThanOrEqual(Math.min(...heights) - rounding);
        expect(z.value).toBeLessThanOrEqual(Math.max(...heights) + rounding);
      }),
    );
  });

  test('covariance against Monte Carlo', () => {
    fc.assert(
      fc.property(fc.array(somePart, { minLength: 4, maxLength: 6 }), fc.integer(), (list, seed) => {
        const cg = valueOf(compositeCg(list));
        const fields = list.flatMap((p) => [p.mass, p.x, p.y, p.z]);
        const drawn = monteCarlo(
          (x) => {
            const again = valueOf(
              compositeCg(
                list.map((_, i) =>
                  part(x[4 * i] ?? NaN, x[4 * i + 1] ?? NaN, x[4 * i + 2] ?? NaN, x[4 * i + 3] ?? NaN),
                ),
              ),
            );
            return [again.x.value, again.y.value, again.z.value];
          },
          fields.map(({ value }) => value),
          independent(fields.map(({ u }) => u)),
          20_000,
          seeded(seed),
        );
        expect(covarianceGap(drawn.covariance, cg.covariance)).toBeLessThan(
          tolerance('physics: first order against Monte Carlo'),
        );
      }),
      { numRuns: 4, seed: 31 },
    );
  });

  test.each([
    ['an empty list', [], 'no-parts'],
    ['more taken away than there is', [part(1, 0, 0, 0), part(-2, 0.1, 0, 0)], 'total-mass'],
    ['all of it taken away', [part(0.3, 0, 0, 0), part(-0.3, 0.1, 0, 0)], 'total-mass'],
    ['a height that is no number', [part(1, 0, 0, NaN)], 'not-finite'],
  ])('%s is refused', (_, list, reason) => expect(reasonOf(compositeCg(list))).toBe(reason));
});

describe('CG by carrier', () => {
  test('body and axles make up the whole', () => {
    fc.assert(
      fc.property(parts, parts, parts, (body, front, rear) => {
        const cgs = cgByCarrier([
          ...body.map((p) => ({ ...p, carrier: 'body' as const })),
          ...front.map((p) => ({ ...p, carrier: 'front axle' as const })),
          ...rear.map((p) => ({ ...p, carrier: 'rear axle' as const })),
        ]);
        const whole = valueOf(cgs.whole);
        const made = valueOf(
          compositeCg([valueOf(cgs.body), valueOf(cgs['front axle']), valueOf(cgs['rear axle'])]),
        );
        close(made.z.value, whole.z.value);
        close(made.mass.value, whole.mass.value);
      }),
    );
  });
  test('a carrier without parts says so', () =>
    expect(reasonOf(cgByCarrier([{ ...part(1, 0, 0, 0), carrier: 'body' }])['rear axle'])).toBe('no-parts'));
});
