import fc from 'fast-check';
import { inv, multiply } from 'mathjs';
import { describe, expect, test } from 'vitest';
import {
  type MeetingPoint,
  type PlaneLine,
  type PlanePoint,
  PLANE_COVERAGE,
  crossings,
  degrees,
  distanceToLine,
  independent,
  leverAlongLine,
  lineNormal,
  meetingPoint,
  meters,
  millimeters,
  monteCarlo,
  propagate,
  radians,
  uprightLine,
} from '../../../src/physics';
import { tolerance } from '../../tolerances';
import { between, correlation, covarianceGap, covarianceOf, reasonOf, seeded, valueOf } from '../given';

const settled = tolerance('physics: settled point');
const rest = tolerance('physics: settled lines');
const covariances = tolerance('physics: covariance of settled lines');
const point = (x: number, z: number): PlanePoint => ({ x: meters(x), z: meters(z) });
const line = (angle: number, x: number, z: number): PlaneLine => ({
  angle: radians(angle),
  through: point(x, z),
});

/** Lines with errors in place only, all alike. */
const alike = (count: number, u = 1e-3): number[][] =>
  independent(Array.from({ length: count }, () => [0, u]).flat());

/** Lines from hooks toward about one point, missing it by a millimeter or so, with a joint covariance. */
const hangs = (count: number) =>
  fc
    .record({
      cg: fc.tuple(between(0.05, 0.25), between(0.06, 0.14)),
      starts: fc.array(
        fc.record({
          direction: between(-Math.PI, 0),
          reach: between(0.05, 0.2),
          miss: between(-1e-3, 1e-3),
          turn: between(-0.004, 0.004),
          uAngle: between(0.001, 0.006),
          uOffset: between(2e-4, 1e-3),
        }),
        { minLength: count, maxLength: count },
      ),
      correlations: correlation(2 * count),
    })
    .map(({ cg: [x, z], starts, correlations }) => {
      const lines = starts.map(({ direction, reach, miss, turn }) =>
        line(
          direction + turn,
          x - reach * Math.cos(direction) - miss * Math.sin(direction),
          z - reach * Math.sin(direction) + miss * Math.cos(direction),
        ),
      );
      const u = starts.flatMap(({ uAngle, uOffset }) => [uAngle, uOffset]);
      return { lines, covariance: covarianceOf(u, correlations) };
    })
    .filter(({ lines }) => (crossings(lines)[0]?.angle ?? 0) > degrees(25));

const near = (a: MeetingPoint, x: number, z: number, limit: number): void =>
  expect(Math.hypot(a.x - x, a.z - z)).toBeLessThan(limit);

describe('known points', () => {
  /** Reference rows F7 and H4. */
  const F7 = [
    [20, 120],
    [290, 120],
    [156, 150],
  ].map(([x = NaN, z = NaN]) => ({
    angle: radians(Math.atan2(85 - z, 135 - x)),
    through: { x: millimeters(x), z: millimeters(z) },
  }));
  test('three plumb lines of one CG meet in it (F7, H4)', () => {
    const met = valueOf(meetingPoint(F7, alike(3)));
    near(met, 0.135, 0.085, settled);
    expect(met.chiSquared).toBeLessThan(1e-12);
    expect(met.probability).toBeCloseTo(1, 5);
  });
  test('a picture from the other side mirrors the CG (F7)', () => {
    const mirrored = F7.map(({ angle, through }) => line(Math.PI - angle, -through.x, through.z));
    near(valueOf(meetingPoint(mirrored, alike(3))), -0.135, 0.085, settled);
  });
  test('lines x = 0, z = 0, x + z = 1 (H1)', () => {
    const met = valueOf(
      meetingPoint([line(Math.PI / 2, 0, 0), line(0, 0, 0), line(-Math.PI / 4, 1, 0)], alike(3, 1)),
    );
    near(met, 0.25, 0.25, settled);
    expect(met.chiSquared).toBeCloseTo(0.25, 9);
  });
  test('sides of the 3-4-5 triangle, not its centroid or incenter (H2)', () => {
    const met = valueOf(
      meetingPoint([line(0, 0, 0), line(Math.PI / 2, 0, 0), line(Math.atan2(-3, 4), 4, 0)], alike(3, 1)),
    );
    near(met, 0.72, 0.96, settled);
    expect(met.chiSquared).toBeCloseTo(2.88, 9);
    expect(met.residuals.map(({ distance }) => Math.abs(distance))).toEqual([
      expect.closeTo(0.96, 9),
      expect.closeTo(0.72, 9),
      expect.closeTo(1.2, 9),
    ]);
  });
  test.each([
    [90, 1, 1],
    [60, Math.SQRT2, 0.8165],
    [30, 2.7321, 0.7321],
    [10, 8.1131, 0.7098],
  ])('two lines crossing at %d°: semi-axes of the error (H3)', (gamma, major, minor) => {
    const met = valueOf(meetingPoint([line(0.3, 0, 0), line(0.3 + degrees(gamma), 0.2, 0.1)], alike(2, 1)));
    const digit = 1e-4 * tolerance('published: last digit');
    expect(Math.abs(met.ellipse.semiMajor / PLANE_COVERAGE - major)).toBeLessThanOrEqual(digit);
    expect(Math.abs(met.ellipse.semiMinor / PLANE_COVERAGE - minor)).toBeLessThanOrEqual(digit);
    expect(Math.abs(met.crossing - degrees(gamma))).toBeLessThan(1e-12);
    expect(met.probability).toBeNull();
  });
});

describe('laws', () => {
  const three = hangs(3);

  test('order of the lines does not matter', () => {
    fc.assert(
      fc.property(three, ({ lines, covariance }) => {
        const met = valueOf(meetingPoint(lines, covariance));
        const turned = [4, 5, 0, 1, 2, 3];
        const permuted = turned.map((i) => turned.map((j) => covariance[i]?.[j] ?? NaN));
        const [a, b, c] = lines;
        if (a === undefined || b === undefined || c === undefined) throw new Error('three lines');
        const again = valueOf(meetingPoint([c, a, b], permuted));
        near(again, met.x, met.z, rest);
        expect(covarianceGap(again.covariance, met.covariance)).toBeLessThan(covariances);
      }),
    );
  });

  test('moving the datum moves the point and nothing else', () => {
    fc.assert(
      fc.property(three, between(-2, 2), between(-2, 2), ({ lines, covariance }, dx, dz) => {
        const met = valueOf(meetingPoint(lines, covariance));
        const moved = lines.map(({ angle, through }) => line(angle, through.x + dx, through.z + dz));
        const again = valueOf(meetingPoint(moved, covariance));
        near(again, met.x + dx, met.z + dz, rest);
        expect(covarianceGap(again.covariance, met.covariance)).toBeLessThan(covariances);
        expect(Math.abs(again.chiSquared - met.chiSquared)).toBeLessThan(covariances * (1 + met.chiSquared));
      }),
    );
  });

  test('mirroring, and scaling lengths with their u, do the same to the point', () => {
    fc.assert(
      fc.property(three, between(0.2, 5), ({ lines, covariance }, scale) => {
        const met = valueOf(meetingPoint(lines, covariance));
        // A mirrored line runs back to front: its angle's and its offset's errors both change sign together.
        const mirrored = lines.map(({ angle, through }) =>
          line(Math.PI - angle, -scale * through.x, scale * through.z),
        );
        const by = covariance.map((_, i) =>
          covariance.map((__, j) => (i !== j ? 0 : i % 2 === 0 ? -1 : -scale)),
        );
        const again = valueOf(meetingPoint(mirrored, propagate(by, covariance)));
        near(again, -scale * met.x, scale * met.z, rest * Math.max(1, scale));
        expect(
          covarianceGap(
            again.covariance,
            propagate(
              [
                [-scale, 0],
                [0, scale],
              ],
              met.covariance,
            ),
          ),
        ).toBeLessThan(covariances);
      }),
    );
  });

  test('it is the least weighted sum of squares, by an independent inverse', () => {
    fc.assert(
      fc.property(three, ({ lines, covariance }) => {
        const met = valueOf(meetingPoint(lines, covariance));
        // At every place with the weights of that place: a line's angle counts by the distance along it.
        const sum = (x: number, z: number): number => {
          const distances = lines.map((given) => distanceToLine(given, point(x, z)));
          const by = lines.map((given, i) =>
            covariance.map((_, j) =>
              j === 2 * i ? leverAlongLine(given, point(x, z)) : j === 2 * i + 1 ? 1 : 0,
            ),
          );
          return Number(multiply(multiply(distances, inv(propagate(by, covariance))), distances));
        };
        const least = sum(met.x, met.z);
        expect(Math.abs(least - met.chiSquared)).toBeLessThan(
          tolerance('physics: small angle of a line') * (1 + least),
        );
        for (let k = 0; k < 8; k += 1) {
          const [dx, dz] = [1e-5 * Math.cos(k), 1e-5 * Math.sin(k)];
          expect(sum(met.x + dx, met.z + dz)).toBeGreaterThan(least);
        }
      }),
    );
  });

  test('another line never makes the point less sure', () => {
    fc.assert(
      fc.property(three, ({ lines, covariance }) => {
        const two = meetingPoint(
          lines.slice(0, 2),
          covariance.slice(0, 4).map((row) => row.slice(0, 4)),
        );
        fc.pre(two.ok);
        // The comparison is exact where the levers are: at one point of the plane, so lines are put through it.
        const met = valueOf(two);
        const third = lines[2];
        if (third === undefined) throw new Error('three lines');
        const [nx, nz] = lineNormal(third);
        const miss = distanceToLine(third, met);
        const through = line(third.angle, third.through.x + miss * nx, third.through.z + miss * nz);
        const all = valueOf(meetingPoint([...lines.slice(0, 2), through], covariance));
        expect(all.ellipse.semiMajor).toBeLessThan(met.ellipse.semiMajor * (1 + 1e-6));
        expect(all.ellipse.semiMinor).toBeLessThan(met.ellipse.semiMinor * (1 + 1e-6));
      }),
    );
  });

  test('an upright line pins x and leaves z to the hang', () => {
    const met = valueOf(
      meetingPoint(
        [uprightLine(meters(0.15)), line(degrees(-30), 0, 0.2)],
        independent([0, 4e-4, 0.003, 5e-4]),
      ),
    );
    expect(met.x).toBeCloseTo(0.15, 12);
    expect(met.covariance[0]?.[0]).toBeCloseTo(1.6e-7, 15);
  });
});

describe('covariance against Monte Carlo', () => {
  test.each([2, 3])('%d lines whose angles and offsets are correlated', (count) => {
    fc.assert(
      fc.property(hangs(count), fc.integer(), ({ lines, covariance }, seed) => {
        const met = valueOf(meetingPoint(lines, covariance));
        const drawn = monteCarlo(
          (errors) => {
            const shifted = lines.map(({ angle, through }, i) => {
              const turned = radians(angle + (errors[2 * i] ?? NaN));
              const [nx, nz] = lineNormal({ angle: turned, through });
              const offset = errors[2 * i + 1] ?? NaN;
              return line(turned, through.x + offset * nx, through.z + offset * nz);
            });
            const again = valueOf(meetingPoint(shifted, covariance));
            return [again.x, again.z];
          },
          covariance.map(() => 0),
          covariance,
          4_000,
          seeded(seed),
        );
        // Four standard errors over 4,000 draws are 2.2 times those over 20,000.
        expect(covarianceGap(drawn.covariance, met.covariance)).toBeLessThan(
          2 * tolerance('physics: first order against Monte Carlo'),
        );
      }),
      { numRuns: 3, seed: 23 },
    );
  });

  test('chi-squared rejects one honest triangle in twenty, and its ellipse holds the truth', () => {
    const lines = [line(-1.2, 0.05, 0.3), line(-2.4, 0.3, 0.25), line(-0.4, 0, 0.18)];
    const [truth] = [valueOf(meetingPoint(lines.slice(0, 2), alike(2)))];
    const exact = lines.map((given) => {
      const lever = leverAlongLine(given, truth);
      return line(
        given.angle,
        truth.x - lever * Math.cos(given.angle),
        truth.z - lever * Math.sin(given.angle),
      );
    });
    const covariance = covarianceOf(
      [0.004, 6e-4, 0.004, 6e-4, 0.004, 6e-4],
      Array.from({ length: 6 }, (_, i) => Array.from({ length: 6 }, (__, j) => (i === j ? 1 : 0.3))),
    );
    const draws = 4000;
    const counts = monteCarlo(
      (errors) => {
        const shifted = exact.map(({ angle, through }, i) => {
          const turned = radians(angle + (errors[2 * i] ?? NaN));
          const [nx, nz] = lineNormal({ angle: turned, through });
          const offset = errors[2 * i + 1] ?? NaN;
          return line(turned, through.x + offset * nx, through.z + offset * nz);
        });
        const met = valueOf(meetingPoint(shifted, covariance));
        const inverse = inv(met.covariance);
        const error = [met.x - truth.x, met.z - truth.z];
        const distance = Number(multiply(multiply(error, inverse), error));
        return [(met.probability ?? NaN) < 0.05 ? 1 : 0, distance > PLANE_COVERAGE ** 2 ? 1 : 0];
      },
      [0, 0, 0, 0, 0, 0],
      covariance,
      draws,
      seeded(5),
    );
    // Three standard errors of a share of 5 % over the draws.
    const limit = 3 * Math.sqrt((0.05 * 0.95) / draws);
    expect(Math.abs((counts.means[0] ?? NaN) - 0.05)).toBeLessThan(limit);
    expect(Math.abs((counts.means[1] ?? NaN) - 0.05)).toBeLessThan(limit);
  });
});

describe('refusals', () => {
  const crossed = [line(0, 0, 0), line(1, 0.1, 0)];
  test('one line gives no point', () =>
    expect(reasonOf(meetingPoint(crossed.slice(0, 1), alike(1)))).toBe('too-few-lines'));
  test('parallel lines, with the angle said', () => {
    const result = meetingPoint([line(0, 0, 0), line(degrees(1.5), 0, 0.1)], alike(2));
    expect(result).toMatchObject({ ok: false, reason: 'nearly-parallel' });
    expect(!result.ok && result.message).toContain('1.5°');
  });
  test('a third line that crosses makes parallel ones useful', () =>
    expect(meetingPoint([line(0, 0, 0), line(0.01, 0, 0.001), line(1, 0, 0)], alike(3)).ok).toBe(true));
  test('a covariance that is none', () => {
    expect(reasonOf(meetingPoint(crossed, alike(3)))).toBe('covariance');
    expect(
      reasonOf(
        meetingPoint(crossed, [
          [1, 0, 0, 0],
          [0, -1, 0, 0],
          [0, 0, 1, 0],
          [0, 0, 0, 1],
        ]),
      ),
    ).toBe('covariance');
  });
  test('three exact lines cannot be weighed; two need no weights', () => {
    expect(reasonOf(meetingPoint([...crossed, line(2, 0, 0.1)], alike(3, 0)))).toBe(
      'line-without-uncertainty',
    );
    expect(valueOf(meetingPoint(crossed, alike(2, 0))).ellipse.semiMajor).toBeLessThan(
      tolerance('physics: exact lines'),
    );
  });
  test('any numbers: a point or a refusal, never NaN', () => {
    const wild = fc.oneof(between(-10, 10), fc.constantFrom(NaN, Infinity, -Infinity, 0, 1e300));
    fc.assert(
      fc.property(
        fc.array(fc.tuple(wild, wild, wild), { maxLength: 4 }),
        fc.array(between(0, 1), { minLength: 8, maxLength: 8 }),
        (rows, u) => {
          const result = meetingPoint(
            rows.map(([a, x, z]) => line(a, x, z)),
            independent(u.slice(0, 2 * rows.length)),
          );
          if (!result.ok) return;
          const { x, z, covariance, chiSquared } = result.value;
          expect([x, z, ...covariance.flat(), chiSquared].every(Number.isFinite)).toBe(true);
        },
      ),
      { numRuns: 500 },
    );
  });
});
