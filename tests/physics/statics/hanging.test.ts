import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import {
  type Carrier,
  type Droop,
  type PlanePoint,
  degrees,
  distanceToLine,
  droopOfCg,
  grams,
  hangDirection,
  hangDirectionInSpace,
  hangLine,
  hungPlace,
  kilograms,
  lineNormal,
  lockedSuspension,
  meters,
  millimeters,
  radians,
} from '../../../src/physics';
import { tolerance } from '../../tolerances';
import { between, reasonOf, valueOf } from '../given';

const rounding = tolerance('physics: rounding in a length');
const point = (x: number, z: number): PlanePoint => ({ x: meters(x), z: meters(z) });
const shift = fc.tuple(between(-0.012, 0.012), between(-0.025, 0.005)).map(([x, z]) => point(x, z));
const carriers = fc.constantFrom<Carrier>('body', 'front axle', 'rear axle');

/** A truck of three lumps: body, front axle, rear axle, and how far each axle droops when it hangs. */
const trucks = fc
  .record({
    body: fc.tuple(between(0.5, 2), between(0.05, 0.25), between(0.08, 0.16)),
    front: fc.tuple(between(0.2, 0.8), between(0.29, 0.33), between(0.04, 0.07)),
    rear: fc.tuple(between(0.2, 0.8), between(-0.02, 0.02), between(0.04, 0.07)),
    frontShift: shift,
    rearShift: shift,
    hook: fc.tuple(between(-0.05, 0.35), between(0.16, 0.24)),
    carrier: carriers,
  })
  .map(({ body, front, rear, frontShift, rearShift, hook: [x, z], carrier }) => {
    const mass = body[0] + front[0] + rear[0];
    const droop: Droop = {
      mass: kilograms(mass),
      front: { mass: kilograms(front[0]), shift: frontShift },
      rear: { mass: kilograms(rear[0]), shift: rearShift },
    };
    const lumps = (drooped: number): PlanePoint => {
      const sum = (k: 1 | 2, f: number, r: number) =>
        (body[0] * body[k] + front[0] * (front[k] + drooped * f) + rear[0] * (rear[k] + drooped * r)) / mass;
      return point(sum(1, frontShift.x, rearShift.x), sum(2, frontShift.z, rearShift.z));
    };
    return { droop, hook: point(x, z), carrier, atRideHeight: lumps(0), hung: lumps(1) };
  });

describe('line of hang', () => {
  test('corrected for its own droop it passes through the CG at ride height', () => {
    fc.assert(
      fc.property(trucks, ({ droop, hook, carrier, atRideHeight, hung }) => {
        const hungHook = hungPlace(hook, carrier, droop);
        const direction = valueOf(hangDirection(hungHook, hung));
        const { line } = valueOf(hangLine(hook, carrier, direction, droop));
        expect(Math.abs(distanceToLine(line, atRideHeight))).toBeLessThan(rounding);
      }),
    );
  });

  test('the CG droops by Σ (m_axle/M) d_axle', () => {
    fc.assert(
      fc.property(trucks, ({ droop, atRideHeight, hung }) => {
        const by = droopOfCg(droop);
        expect(Math.abs(atRideHeight.x + by.x - hung.x)).toBeLessThan(rounding);
        expect(Math.abs(atRideHeight.z + by.z - hung.z)).toBeLessThan(rounding);
      }),
    );
  });

  test('a locked suspension leaves the line where the hook is', () => {
    const locked = valueOf(
      hangLine(point(0.1, 0.2), 'front axle', degrees(-70), lockedSuspension(kilograms(2.4))),
    );
    expect(locked.line.through).toEqual(point(0.1, 0.2));
    expect(Math.abs(locked.acrossLine)).toBe(0);
    expect(locked.sensitivities).toMatchObject({ frontShift: 1, rearShift: 0 });
  });

  test('a hook on an axle that droops 20 mm is taken where it hangs', () => {
    const shifted = point(0, -0.02);
    const droop: Droop = {
      mass: kilograms(2.4),
      front: { mass: grams(600), shift: shifted },
      rear: { mass: grams(600), shift: point(0, 0) },
    };
    const level = degrees(0);
    const onAxle = valueOf(hangLine(point(0.3, 0.1), 'front axle', level, droop));
    const onBody = valueOf(hangLine(point(0.3, 0.1), 'body', level, droop));
    // Body hook: 600/2400 of 20 mm up. Axle hook: 20 mm lower than that.
    expect(onBody.acrossLine).toBeCloseTo(millimeters(5), 12);
    expect(onAxle.acrossLine).toBeCloseTo(millimeters(-15), 12);
  });

  test('sensitivities are the slopes of the line’s place', () => {
    fc.assert(
      fc.property(trucks, between(-Math.PI, Math.PI), ({ droop, hook, carrier }, angle) => {
        const direction = radians(angle);
        const [nx, nz] = lineNormal({ angle: direction, through: hook });
        const { sensitivities: s } = valueOf(hangLine(hook, carrier, direction, droop));
        const across = (changed: Droop): number => {
          const { through } = valueOf(hangLine(hook, carrier, direction, changed)).line;
          return nx * through.x + nz * through.z;
        };
        const step = 1e-6;
        const slope = (change: (by: number) => Droop): number =>
          (across(change(step)) - across(change(-step))) / (2 * step);
        const shifted = (axle: 'front' | 'rear', dx: number, dz: number): Droop => {
          const { mass, shift: from } = droop[axle];
          return { ...droop, [axle]: { mass, shift: point(from.x + dx, from.z + dz) } };
        };
        const heavier = (axle: 'front' | 'rear', by: number): Droop => ({
          ...droop,
          [axle]: { ...droop[axle], mass: kilograms(droop[axle].mass + by) },
        });
        const near = (a: number, b: number) => expect(Math.abs(a - b)).toBeLessThan(1e-8);
        near(
          slope((by) => shifted('front', by, 0)),
          nx * s.frontShift,
        );
        near(
          slope((by) => shifted('front', 0, by)),
          nz * s.frontShift,
        );
        near(
          slope((by) => shifted('rear', 0, by)),
          nz * s.rearShift,
        );
        near(
          slope((by) => heavier('front', by)),
          nx * s.frontMass.x + nz * s.frontMass.z,
        );
        near(
          slope((by) => heavier('rear', by)),
          nx * s.rearMass.x + nz * s.rearMass.z,
        );
        near(
          slope((by) => ({ ...droop, mass: kilograms(droop.mass + by) })),
          nx * s.mass.x + nz * s.mass.z,
        );
      }),
    );
  });

  test.each([
    ['no mass', 0, 0.1, 0.1, 0, 'mass'],
    ['axles heavier than the truck', 1, 0.6, 0.6, 0, 'mass'],
    ['an axle of negative mass', 1, -0.1, 0.6, 0, 'mass'],
    ['a droop that is no number', 1, 0.3, 0.3, NaN, 'not-finite'],
  ])('%s is refused', (_, mass, front, rear, droop, reason) => {
    const given: Droop = {
      mass: kilograms(mass),
      front: { mass: kilograms(front), shift: point(0, droop) },
      rear: { mass: kilograms(rear), shift: point(0, 0) },
    };
    expect(reasonOf(hangLine(point(0, 0.2), 'body', degrees(-90), given))).toBe(reason);
  });
});

describe('how a rigid truck hangs', () => {
  test('hung above its CG it hangs level', () =>
    expect(valueOf(hangDirection(point(0.15, 0.2), point(0.15, 0.08)))).toBeCloseTo(-Math.PI / 2, 12));

  test('mirrored truck, mirrored hang', () => {
    fc.assert(
      fc.property(between(-0.3, 0.3), between(-0.3, 0.3), between(0.01, 0.3), (x, z, below) => {
        const hung = valueOf(hangDirection(point(x, z + below), point(0.1, z)));
        const mirrored = valueOf(hangDirection(point(-x, z + below), point(-0.1, z)));
        const sum = hung + mirrored;
        expect(Math.abs(Math.sin(sum))).toBeLessThan(1e-9);
        expect(Math.cos(sum)).toBeLessThan(0);
      }),
    );
  });

  test('seen from the side, an offset CG hangs along the same line', () => {
    fc.assert(
      fc.property(between(-0.01, 0.01), between(0.05, 0.3), between(0.02, 0.2), (y, x, below) => {
        const gravity = valueOf(
          hangDirectionInSpace(
            { x: meters(x), y: meters(0), z: meters(0.2) },
            { x: meters(0.15), y: meters(y), z: meters(0.2 - below) },
          ),
        );
        expect(Math.hypot(gravity.x, gravity.y, gravity.z)).toBeCloseTo(1, 12);
        const side = valueOf(hangDirection(point(x, 0.2), point(0.15, 0.2 - below)));
        expect(Math.abs(gravity.x * Math.sin(side) - gravity.z * Math.cos(side))).toBeLessThan(1e-12);
      }),
    );
  });

  test('hung at its CG it rests in any attitude, and that is said', () =>
    expect(reasonOf(hangDirection(point(0.1, 0.1), point(0.1, 0.1)))).toBe('cg-at-the-hook'));
  test('a CG not known yet is refused', () =>
    expect(reasonOf(hangDirection(point(0.1, 0.1), point(NaN, 0.1)))).toBe('not-finite'));
});
