import fc from 'fast-check';
import { eigs, min, multiply, transpose } from 'mathjs';
import { describe, expect, it } from 'vitest';
import { type PictureAdjustment, adjustPictures } from '../../src/photo/fit/adjustPictures';
import type { TruckGivens } from '../../src/photo/fit/givens';
import { type JointLines, plumbLines } from '../../src/photo/plumbLines';
import { readState } from '../../src/photo/readState';
import type { BuildState } from '../../src/sheet/schema';
import { type SquareBenchOptions, levelTruck, squareBench } from '../answer/squareBench';
import { EVERYTHING, simulateBench } from '../demo/world/bench';
import { inventTruck } from '../demo/world/invent';
import { between, covarianceGap, valueOf } from '../physics/given';
import { tolerance } from '../tolerances';

/** What the fit of a state's pictures takes, changed as told, and what comes out of it. */
function fitted(
  state: BuildState,
  change: (truck: TruckGivens) => TruckGivens = (truck) => truck,
  sharedHooks: readonly string[] = [],
) {
  const readings = readState(state);
  const { standings, hangs } = readings;
  if (!readings.truck || standings.length === 0) throw new Error('a complete bench');
  const truck = change(readings.truck);
  const adjusted = valueOf(adjustPictures(truck, standings, hangs));
  return { truck, hangs, adjusted, joint: valueOf(plumbLines(adjusted, truck, hangs, new Set(sharedHooks))) };
}

/** Every kind of line: hooks on the body and on an axle, hung free, marked and measured with errors. */
const { state: droopy } = simulateBench({
  truck: inventTruck(4),
  pictureSeed: 4,
  suspension: 'free',
  hooks: ['hood', 'hoop', 'guard'],
  hookSource: 'ruler',
  markSigma: 1.5,
  redraw: EVERYTHING,
});

/** Angle of every line, how far it passes to the left of where it passed in `than`, and what is shared. */
const valuesOf = ({ reading }: JointLines, than: JointLines): number[] => [
  ...reading.lines.flatMap(({ line }, i) => {
    const old = than.reading.lines[i]?.line;
    if (!old) throw new Error('as many lines');
    const [dx, dz] = [line.through.x - old.through.x, line.through.z - old.through.z];
    return [line.angle, -Math.sin(old.angle) * dx + Math.cos(old.angle) * dz];
  }),
  ...reading.shared.map(({ value }) => value),
];

describe('a ruler that reads too much', () => {
  /** The same truck measured with a ruler known to read `zero` too much. */
  const measuredBy =
    (zero: number) =>
    (truck: TruckGivens): TruckGivens => {
      const more = <Read extends { readonly value: number }>(read: Read): Read => ({
        ...read,
        value: read.value + zero,
      });
      const { frontTireRadius, rearTireRadius, scale } = truck;
      return {
        ...truck,
        rulerZero: { value: zero, u: 1e-6 },
        // Two points instead of it leave a wheelbase that nobody measured.
        wheelbase: scale ? truck.wheelbase : more(truck.wheelbase),
        ...(frontTireRadius ? { frontTireRadius: more(frontTireRadius) } : {}),
        ...(rearTireRadius ? { rearTireRadius: more(rearTireRadius) } : {}),
        ...(scale ? { scale: { ...scale, distance: more(scale.distance) } } : {}),
        hooks: truck.hooks.map((hook) =>
          hook.ruled
            ? {
                ...hook,
                ruled: { ahead: more(hook.ruled.ahead), height: more(hook.ruled.height) },
              }
            : hook,
        ),
      };
    };
  const benches: readonly Partial<SquareBenchOptions>[] = [
    {},
    { view: 'left' },
    { hookSource: 'standing picture' },
    { hookSource: 'standing picture', twoPoints: true, view: 'left' },
    { suspension: 'free', hooks: ['hood', 'guard'] },
  ];

  it.each(benches)('gives the same lines once its zero is known: %o', (bench) => {
    const { state } = squareBench({
      truck: inventTruck(5),
      suspension: 'locked',
      hooks: ['hood', 'bed'],
      hookSource: 'ruler',
      ...bench,
    });
    const straight = fitted(state, measuredBy(0)).joint;
    fc.assert(
      fc.property(between(-0.004, 0.004), (zero) => {
        const bent = fitted(state, measuredBy(zero)).joint;
        const [now, before] = [valuesOf(bent, straight), valuesOf(straight, straight)];
        now.forEach((value, i) => {
          const shift = i === now.length - 1 ? zero : 0;
          expect(Math.abs(value - shift - (before[i] ?? NaN)), `value ${i}`).toBeLessThan(
            tolerance('plumb lines: settled'),
          );
        });
      }),
      { numRuns: 12 },
    );
  });

  it('stretches a truck that two points give the scale of', () => {
    const { state } = squareBench({
      truck: levelTruck(inventTruck(5)),
      suspension: 'locked',
      hooks: ['hood', 'bed'],
      hookSource: 'standing picture',
      twoPoints: true,
    });
    const { truck, joint } = fitted(state, (measured) => {
      const { frontTireRadius, rearTireRadius, ...rest } = measured;
      expect(frontTireRadius && rearTireRadius).toBeDefined();
      return { ...rest, rulerZero: { value: 0, u: 0.003 } };
    });
    const { shared, covariance } = joint.reading;
    const at = (i: number, j: number) => covariance[4 + i]?.[4 + j] ?? NaN;
    // A distance read too long makes everything longer in its own measure.
    const { value: distance } = truck.scale?.distance ?? { value: NaN };
    const stretch = -(shared[0]?.value ?? NaN) / distance;
    expect(at(0, 6) / at(6, 6) / stretch).toBeCloseTo(1, 2);
  });

  it('is one of the things that make the ±', () => {
    const { adjusted, joint } = fitted(droopy);
    const shares = adjusted.adjustment.varianceShares(joint.sensitivities.at(-1) ?? []);
    const own = shares.filter((_, i) => adjusted.sources[i] === 'ruler');
    expect(own).toHaveLength(1);
    // What else is read of it comes from lengths seen in the pictures, which are much less sure.
    expect(own[0]).toBeGreaterThan(0.8 * shares.reduce((sum, share) => sum + share, 0));
  });

  it('takes a third of a millimeter for the usual ±', () => {
    const { joint } = fitted(droopy, (truck) => {
      const { rulerZero, ...rest } = truck;
      expect(rulerZero).toBeDefined();
      return rest;
    });
    const variance = joint.reading.covariance.at(-1)?.at(-1) ?? NaN;
    expect(1.96 * Math.sqrt(variance)).toBeGreaterThan(0.00025);
    expect(1.96 * Math.sqrt(variance)).toBeLessThan(0.0003);
  });
});

/** Hooks that readings without pictures use as well: their places belong to both. */
const HOOKS_TOLD = ['hood', 'guard'];

describe('the reading of all pictures', () => {
  const { truck, hangs, adjusted, joint } = fitted(droopy, undefined, HOOKS_TOLD);
  const { reading, sensitivities } = joint;

  it('names every line by its picture, and what it shares', () => {
    expect(reading).toMatchObject({ kind: 'picture lines', id: 'pictures' });
    expect(reading.lines.map(({ id }) => id)).toEqual(['hang-1', 'hang-2', 'hang-3']);
    expect(reading.shared.map(({ quantity }) => quantity)).toEqual([
      'wheelbase',
      'front tire radius',
      'rear tire radius',
      'lateral place',
      'front axle share',
      'rear axle share',
      'ruler zero',
      ...HOOKS_TOLD.flatMap(() => ['hook', 'hook', 'hook']),
    ]);
    expect(reading.covariance).toHaveLength(2 * 3 + 7 + 6);
  });

  it('shares no hook that nobody else asks for, nor one that is read off the standing picture', () => {
    const told = (state: BuildState, hooks: readonly string[]) =>
      fitted(state, undefined, hooks).joint.reading.shared.filter(({ quantity }) => quantity === 'hook');
    expect(told(droopy, [])).toEqual([]);
    const { state } = squareBench({
      truck: inventTruck(5),
      suspension: 'locked',
      hooks: ['hood', 'bed'],
      hookSource: 'standing picture',
    });
    expect(told(state, HOOKS_TOLD)).toEqual([]);
  });

  it('tells of the truck in its own axes, from either side', () => {
    for (const view of ['right', 'left'] as const) {
      const bench = squareBench({
        truck: inventTruck(5),
        suspension: 'locked',
        hooks: ['hood', 'bed'],
        hookSource: 'ruler',
        view,
      });
      const { shared } = fitted(bench.state, undefined, ['hood']).joint.reading;
      const hood = inventTruck(5).hooks.find(({ id }) => id === 'hood')?.place ?? [];
      for (const [i, axis] of (['x', 'y', 'z'] as const).entries()) {
        const found = shared.find((each) => each.quantity === 'hook' && each.axis === axis)?.value ?? NaN;
        expect(1000 * Math.abs(found - (hood[i] ?? NaN)), axis).toBeLessThan(
          tolerance('pictures: exact, leaning'),
        );
      }
      const value = (name: string) => shared.find(({ quantity }) => quantity === name)?.value ?? NaN;
      const { wheelbase, frontRadius, rearRadius } = inventTruck(5);
      for (const [name, truth] of [
        ['wheelbase', wheelbase],
        ['front tire radius', frontRadius],
        ['rear tire radius', rearRadius],
        ['lateral place', bench.cg[1]],
        ['ruler zero', 0],
      ] as const)
        expect(1000 * Math.abs(value(name) - truth), name).toBeLessThan(tolerance('pictures: exact, level'));
    }
  });

  it('has the sensitivities that differences have', () => {
    const { unknowns } = adjusted.adjustment;
    const after = (index: number, by: number): number[] => {
      const changed: PictureAdjustment = {
        ...adjusted,
        adjustment: {
          ...adjusted.adjustment,
          unknowns: unknowns.map((value, i) => (i === index ? value + by : value)),
        },
      };
      return valuesOf(valueOf(plumbLines(changed, truck, hangs, new Set(HOOKS_TOLD))), joint);
    };
    const STEP = 1e-6;
    unknowns.forEach((_, index) => {
      const [up, down] = [after(index, STEP), after(index, -STEP)];
      sensitivities.forEach((row, i) => {
        const difference = ((up[i] ?? NaN) - (down[i] ?? NaN)) / (2 * STEP);
        expect(Math.abs(difference - (row[index] ?? NaN)), `value ${i} by unknown ${index}`).toBeLessThan(
          tolerance('plumb lines: slope'),
        );
      });
    });
  });

  it('has the covariance that the fit’s own carries to', () => {
    const rows = sensitivities.map((row) => [...row]);
    const carried = multiply(multiply(rows, adjusted.adjustment.covariance.to2DArray()), transpose(rows));
    expect(covarianceGap(reading.covariance, carried)).toBeLessThan(tolerance('plumb lines: covariance'));
  });

  it('can be inverted even with three hangs by one hook', () => {
    const { state } = simulateBench({
      truck: inventTruck(4),
      pictureSeed: 4,
      suspension: 'locked',
      hooks: ['hood', 'hood', 'hood'],
      hookSource: 'ruler',
      markSigma: 1.5,
      redraw: EVERYTHING,
    });
    const { covariance } = fitted(state, undefined, ['hood']).joint.reading;
    expect(covariance).toHaveLength(2 * 3 + 7 + 3);
    const u = covariance.map((row, i) => Math.sqrt(row[i] ?? NaN));
    const correlation = covariance.map((row, i) =>
      row.map((value, j) => value / (u[i] ?? NaN) / (u[j] ?? NaN)),
    );
    const even = correlation.map((row, i) =>
      row.map((value, j) => (value + (correlation[j]?.[i] ?? NaN)) / 2),
    );
    expect(Number(min(eigs(even).values))).toBeGreaterThan(1e-6);
  });
});
