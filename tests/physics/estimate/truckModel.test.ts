import { describe, expect, test } from 'vitest';
import {
  adjustTruck,
  degrees,
  kilograms,
  meters,
  radians,
  truckModel,
  type Measured,
  type TruckBench,
  type TruckReading,
} from '../../../src/physics';
import { tolerance } from '../../tolerances';
import { valueOf } from '../given';

const m = (value: number, u = 0.0005) => ({ value: meters(value), u });
const kg = (value: number, u = 0.002) => ({ value: kilograms(value), u });
const deg = (value: number, u = 0.25) => ({ value: degrees(value), u: degrees(u) });
const ratio = (value: number, u = 0.02): Measured => ({ value, u });

/** One reading of every kind, none of them at a special place; the numbers need not agree. */
const readings: readonly TruckReading[] = [
  { kind: 'total mass', id: 'mass', load: kg(2.95) },
  { kind: 'axle scales', id: 'axles', front: kg(1.4), rear: kg(1.53) },
  {
    kind: 'wheel scales',
    id: 'wheels',
    frontLeft: kg(0.74),
    frontRight: kg(0.67),
    rearLeft: kg(0.75),
    rearRight: kg(0.79),
  },
  {
    kind: 'axle lift',
    id: 'front by height',
    raised: 'front',
    lift: { by: 'height', rise: m(0.12) },
    scaleUnder: 'rear',
    load: kg(1.75),
  },
  {
    kind: 'axle lift',
    id: 'rear by angle',
    raised: 'rear',
    lift: { by: 'angle', angle: deg(20) },
    scaleUnder: 'front',
    load: kg(1.6),
  },
  {
    kind: 'axle lift',
    id: 'rear, scale behind',
    raised: 'rear',
    lift: { by: 'height', rise: m(0.1) },
    scaleUnder: 'rear',
    load: kg(1.3),
  },
  { kind: 'hang', id: 'side angle', view: 'side', hook: 'bumper', string: { by: 'angle', angle: deg(70) } },
  {
    kind: 'hang',
    id: 'side point, drooping',
    view: 'side',
    hook: 'axle',
    string: { by: 'second point', first: m(0.2), second: m(0.11) },
    droop: { front: m(0.012, 0.002), rear: m(0.017, 0.002) },
  },
  { kind: 'hang', id: 'behind', view: 'rear', hook: 'bumper', string: { by: 'angle', angle: deg(4) } },
  {
    kind: 'hang',
    id: 'ahead',
    view: 'front',
    hook: 'side',
    string: { by: 'second point', first: m(-0.02), second: m(0.06) },
    droop: { front: m(0.01, 0.002), rear: m(0.01, 0.002) },
  },
  {
    kind: 'hang',
    id: 'above',
    view: 'top',
    hook: 'side',
    string: { by: 'second point', first: m(0.16), second: m(-0.05) },
  },
  { kind: 'tilt', id: 'left', toward: 'left', angle: deg(43) },
  { kind: 'tilt', id: 'right', toward: 'right', angle: deg(45.5) },
  { kind: 'tilt', id: 'up', toward: 'nose up', angle: deg(57) },
  { kind: 'tilt', id: 'down', toward: 'nose down', angle: deg(60) },
  { kind: 'balance', id: 'across', edge: 'across', place: m(0.148, 0.001) },
  { kind: 'balance', id: 'along', edge: 'along', place: m(0.004, 0.001) },
  {
    kind: 'parts list',
    id: 'list',
    values: [kilograms(2.9), meters(0.15), meters(0.002), meters(0.1)],
    covariance: [
      [1e-3, 0, 0, 1e-6],
      [0, 1e-5, 0, 0],
      [0, 0, 1e-5, 0],
      [1e-6, 0, 0, 1e-5],
    ],
  },
];

const bench: TruckBench = {
  dimensions: {
    wheelbase: m(0.313),
    frontTrack: m(0.189, 0.001),
    rearTrack: m(0.183, 0.001),
    frontTireRadius: m(0.056),
    rearTireRadius: m(0.054),
    treadWidth: m(0.044, 0.0015),
    frontAxleShare: ratio(0.24),
    rearAxleShare: ratio(0.21),
  },
  lateral: m(0, 0.005),
  instruments: { scaleZero: kg(0, 0.0005), rulerZero: m(0, 0.00015), levelZero: deg(0, 0.1) },
  hooks: [
    { id: 'bumper', carrier: 'body', x: m(-0.06), y: m(0.005), z: m(0.14) },
    { id: 'axle', carrier: 'front axle', x: m(0.31), y: m(-0.01), z: m(0.07) },
    { id: 'side', carrier: 'body', x: m(0.15), y: m(0.1), z: m(0.16) },
  ],
  readings,
};

const linesOf = (angles: readonly number[]): TruckReading => ({
  kind: 'picture lines',
  id: 'pictures',
  lines: angles.map((angle, i) => ({
    id: `line ${i}`,
    view: i === 0 ? 'side' : 'rear',
    line: { angle: radians(angle), through: { x: meters(0.05 + 0.2 * i), z: meters(0.17) } },
  })),
  shared: [
    { quantity: 'wheelbase', value: 0.3128 },
    { quantity: 'ruler zero', value: 0.0001 },
    { quantity: 'lateral place', value: 0.001 },
  ],
  covariance: [1e-4, 1e-6, 1e-4, 1e-6, 2.5e-7, 1e-8, 2.5e-5].map((variance, i, all) =>
    all.map((other, j) => (i === j ? variance : 0.1 * Math.sqrt(variance * other))),
  ),
});

describe('slopes of every model', () => {
  const cases: readonly TruckReading[] = [...readings, linesOf([-0.7, -2.3])];
  test.each(cases.map((reading) => [reading.id, reading] as const))('%s', (_, reading) => {
    const { unknowns, observations } = valueOf(truckModel({ ...bench, readings: [reading] }));
    // Away from the start, so that no term hides at zero.
    const at = Float64Array.from(unknowns, ({ start, scale }, i) => start + scale * (0.31 + 0.07 * (i % 5)));
    const mass = unknowns.findIndex(({ name }) => name === 'mass');
    if (mass >= 0) at[mass] = 2.93;
    for (const observation of observations) {
      const exact = observation.derivative?.(at) ?? [];
      expect(exact.length).toBe(observation.values.length);
      observation.depends.forEach((index, column) => {
        const step = 1e-6 * Math.max(1, Math.abs(at[index] ?? 0));
        const moved = (by: number) =>
          observation.predict(at.map((value, i) => (i === index ? value + by : value)));
        const [above, below] = [moved(step), moved(-step)];
        above.forEach((value, row) => {
          const slope = (value - (below[row] ?? NaN)) / (2 * step);
          expect(
            Math.abs((exact[row]?.[column] ?? NaN) - slope),
            `${observation.name}, value ${row}, by ${unknowns[index]?.name}`,
          ).toBeLessThan(tolerance('truck model: slope') * Math.max(1, Math.abs(slope)));
        });
      });
    }
  });
});

describe('an adjustment', () => {
  const whole = valueOf(adjustTruck({ ...bench, readings: [...readings, linesOf([-0.5, -2.6])] }));

  test('determines the whole truck from readings of every kind', () => {
    expect(whole.undetermined).toEqual([]);
    expect(whole.cg.z?.u).toBeGreaterThan(0);
    expect(whole.degreesOfFreedom).toBeGreaterThan(10);
  });

  test('has redundancy numbers that add up to its degrees of freedom where nothing is correlated', () => {
    const { numbers, degreesOfFreedom } = valueOf(
      adjustTruck({ ...bench, readings: readings.filter(({ kind }) => kind !== 'parts list') }),
    );
    const sum = numbers().reduce((total, { redundancy }) => total + redundancy, 0);
    expect(Math.abs(sum - degreesOfFreedom)).toBeLessThan(tolerance('truck adjustment: redundancy sum'));
  });

  test('does not depend on the order of the readings', () => {
    const turned = valueOf(
      adjustTruck({ ...bench, readings: [linesOf([-0.5, -2.6]), ...readings.toReversed()] }),
    );
    for (const name of ['x', 'y', 'z'] as const)
      expect(Math.abs((turned.cg[name]?.value ?? NaN) - (whole.cg[name]?.value ?? NaN))).toBeLessThan(
        tolerance('truck adjustment: order'),
      );
  });
});

describe('too few readings', () => {
  test('scales alone tell where, not how high', () => {
    const { cg, undetermined, mass } = valueOf(
      adjustTruck({ ...bench, readings: readings.filter(({ kind }) => kind.endsWith('scales')) }),
    );
    expect(undetermined).toEqual(['z']);
    expect(cg.z).toBeNull();
    expect(cg.x?.value).toBeGreaterThan(0.14);
    expect(mass?.value).toBeGreaterThan(2.9);
  });

  test('one hang alone tells a line: neither place nor height', () => {
    const { undetermined, degreesOfFreedom } = valueOf(
      adjustTruck({ ...bench, readings: readings.filter(({ id }) => id === 'side angle') }),
    );
    expect(undetermined).toEqual(['x', 'z']);
    expect(degreesOfFreedom).toBe(0);
  });

  test('a hang and scales tell both', () => {
    const few = readings.filter(({ id }) => id === 'side angle' || id === 'axles');
    expect(valueOf(adjustTruck({ ...bench, readings: few })).undetermined).toEqual([]);
  });
});
