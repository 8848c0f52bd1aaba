import { describe, expect, test } from 'vitest';
import {
  USUAL_DIMENSIONS,
  adjustTruck,
  cared,
  degrees,
  furtherReadings,
  kilograms,
  meters,
  radians,
  usualCandidates,
  type CaredQuantity,
  type FurtherGain,
  type TruckAdjustment,
  type TruckBench,
  type TruckDimensions,
  type TruckReading,
} from '../../../src/physics';
import { tolerance } from '../../tolerances';
import { reasonOf, valueOf } from '../given';

const m = (value: number, u = 0.0005) => ({ value: meters(value), u });
const kg = (value: number) => ({ value: kilograms(value), u: 0.003 });
const deg = (value: number, u = 0.4) => ({ value: degrees(value), u: degrees(u) });

const axles: TruckReading = { kind: 'axle scales', id: 'axles', front: kg(1.45), rear: kg(1.5) };
const hang: TruckReading = {
  kind: 'hang',
  id: 'hang',
  view: 'side',
  hook: 'bumper',
  string: { by: 'angle', angle: deg(77) },
};
const sides: readonly TruckReading[] = [
  { kind: 'tilt', id: 'left', toward: 'left', angle: deg(45, 0.5) },
  { kind: 'tilt', id: 'right', toward: 'right', angle: deg(46.5, 0.5) },
];

const benchWith = (readings: readonly TruckReading[], dimensions?: TruckDimensions): TruckBench => ({
  dimensions: dimensions ?? {
    wheelbase: m(0.313),
    frontTrack: m(0.189, 0.001),
    rearTrack: m(0.183, 0.001),
  },
  // Off center, so that both sides' tip angles are not one number.
  lateral: m(0.003, 0.005),
  instruments: {
    scaleZero: kg(0),
    rulerZero: m(0, 0.00015),
    levelZero: { value: radians(0), u: degrees(0.1) },
  },
  hooks: [
    { id: 'bumper', carrier: 'body', x: m(-0.06), y: m(0.005), z: m(0.14) },
    { id: 'roof', carrier: 'body', x: m(0.2), y: m(0), z: m(0.22) },
    { id: 'side', carrier: 'body', x: m(0.15), y: m(0.1), z: m(0.16) },
  ],
  readings,
});

/** Two lines from pictures that were scaled by the wheelbase. */
const pictures: TruckReading = {
  kind: 'picture lines',
  id: 'pictures',
  lines: [
    {
      id: 'first',
      view: 'side',
      line: { angle: radians(-0.24), through: { x: meters(-0.06), z: meters(0.15) } },
    },
    {
      id: 'second',
      view: 'side',
      line: { angle: radians(-1.9), through: { x: meters(0.19), z: meters(0.22) } },
    },
  ],
  shared: [{ quantity: 'wheelbase', value: 0.3131 }],
  covariance: [5e-5, 1e-6, 5e-5, 1e-6, 2.5e-7].map((variance, i, all) =>
    all.map((other, j) => (i === j ? variance : 0.1 * Math.sqrt(variance * other))),
  ),
};

const benches = {
  'scales, hang and board': benchWith([axles, hang, ...sides]),
  'scales and board': benchWith([axles, ...sides]),
  'scales alone': benchWith([axles]),
  'scales and pictures': benchWith([axles, pictures]),
  'pictures alone': benchWith([pictures]),
  'one hang alone': benchWith([hang]),
  'nothing read': benchWith([]),
  'nothing measured': benchWith([], {}),
} as const;

const gainsOf = (bench: TruckBench, quantity: CaredQuantity, truck = valueOf(adjustTruck(bench))) =>
  valueOf(
    furtherReadings(
      bench,
      truck,
      quantity,
      usualCandidates(bench, truck, { tipLine: true }),
      USUAL_DIMENSIONS,
    ),
  );

/** The bench after a candidate was really taken and read what was expected; dimensions as their present estimates. */
function taken(
  bench: TruckBench,
  { candidate, expected, needs }: FurtherGain,
  truck: TruckAdjustment,
): TruckBench {
  const { unknowns } = truck.model;
  const value = (name: string): number =>
    truck.adjustment.unknowns[unknowns.findIndex((unknown) => unknown.name === name)] ?? NaN;
  const given: TruckDimensions = Object.fromEntries(
    Object.entries({ ...(needs.length > 0 ? USUAL_DIMENSIONS : {}), ...candidate.dimensions }).filter(
      ([name]) => needs.some((need) => need === name) || name in candidate.dimensions,
    ),
  );
  const read: TruckDimensions = Object.fromEntries(
    Object.entries(given).map(([name, size]) =>
      name in bench.dimensions ? [name, { ...size, value: value(name) + value('rulerZero') }] : [name, size],
    ),
  );
  return {
    ...bench,
    dimensions: { ...bench.dimensions, ...read },
    hooks: [...bench.hooks, ...candidate.hooks],
    readings: [...bench.readings, ...expected],
  };
}

describe.each(Object.entries(benches))('with %s', (_, bench) => {
  const truck = valueOf(adjustTruck(bench));

  test.each(['side tip', 'height', 'climb', 'ahead', 'left'] as const)(
    'no further reading widens the %s',
    (quantity) => {
      const rows = gainsOf(bench, quantity, truck);
      expect(rows.length).toBeGreaterThan(10);
      for (const { now, then } of rows)
        if (now !== null)
          expect(then ?? Infinity).toBeLessThanOrEqual(now * (1 + tolerance('further reading: u')));
    },
  );

  test.each(['side tip', 'height'] as const)(
    'the u foretold for the %s is the u after reading',
    (quantity) => {
      let compared = 0;
      for (const row of gainsOf(bench, quantity, truck)) {
        if (row.then === null) continue;
        // The place of the tip line has no entry on a bench; a wheelbase in pictures has one in their own fit.
        const { work } = row.candidate;
        if (work.kind === 'tip line') continue;
        const inPictures = bench.readings.some(({ kind }) => kind === 'picture lines');
        if (inPictures && work.kind === 'dimension' && work.names.includes('wheelbase')) continue;
        const after = cared(valueOf(adjustTruck(taken(bench, row, truck))), quantity);
        const u = valueOf(after).u;
        expect(Math.abs(row.then / u - 1), row.candidate.id).toBeLessThan(
          tolerance(row.now === null ? 'further reading: u of an open quantity' : 'further reading: u'),
        );
        compared += 1;
      }
      expect(compared).toBeGreaterThan(2);
    },
  );

  test('the best comes first, what leaves it open last', () => {
    const thens = gainsOf(bench, 'height', truck).map(({ then }) => then ?? Infinity);
    thens.slice(1).forEach((then, i) => {
      const before = thens[i] ?? NaN;
      expect(then === before || then >= before * (1 - tolerance('further reading: u'))).toBe(true);
    });
  });
});

describe('an open quantity', () => {
  const idsThatTell = (bench: TruckBench, quantity: CaredQuantity): string[] =>
    gainsOf(bench, quantity).flatMap(({ then, candidate }) => (then === null ? [] : [candidate.id]));

  test('the height, with scales alone, is told by lift, hang or board, and by no more weighing', () => {
    const ids = idsThatTell(benches['scales alone'], 'height');
    for (const id of ['lift front by height', 'board both sides', 'board nose up', 'hang side bumper'])
      expect(ids).toContain(id);
    for (const id of ['wheel scales', 'total mass', 'again axles', 'balance across'])
      expect(ids).not.toContain(id);
  });

  test('the height, with nothing read, takes two hangs, or a lift with both axles weighed', () => {
    const rows = gainsOf(benches['nothing read'], 'height').filter(({ then }) => then !== null);
    const works = rows.map(({ candidate }) => candidate.work);
    expect(works.some((work) => work.kind === 'hang' && work.view === 'side' && work.from.length === 2)).toBe(
      true,
    );
    expect(
      works.every((work) => work.kind !== 'hang' || work.view === 'rear' || work.from.length === 2),
    ).toBe(true);
    expect(works.some((work) => work.kind === 'axle lift' && work.weighing)).toBe(true);
  });

  test('names the dimensions that are needed first', () => {
    const lift = gainsOf(benches['scales alone'], 'height').find(({ candidate }) =>
      candidate.id.startsWith('lift front'),
    );
    expect(lift?.needs).toEqual(['frontTireRadius', 'rearTireRadius']);
  });

  test('the side tip of a truck without tracks is told by what has them measured, by nothing else', () => {
    const { wheelbase } = benches['scales alone'].dimensions;
    const board: TruckReading = { kind: 'tilt', id: 'up', toward: 'nose up', angle: deg(57) };
    const bench = benchWith([axles, board], wheelbase ? { wheelbase } : {});
    const rows = gainsOf(bench, 'side tip');
    expect(rows.find(({ candidate }) => candidate.id === 'measure tracks')?.then).toBeGreaterThan(0);
    for (const { then, needs, candidate } of rows)
      expect(then !== null, candidate.id).toBe(
        candidate.id === 'measure tracks' || needs.includes('frontTrack'),
      );
  });

  test('is refused where the estimate itself makes no sense', () => {
    const outside = benchWith([
      axles,
      hang,
      { kind: 'balance', id: 'b', edge: 'along', place: m(0.2, 0.0001) },
    ]);
    const truck = valueOf(adjustTruck(outside));
    expect(
      reasonOf(
        furtherReadings(outside, truck, 'side tip', usualCandidates(outside, truck), USUAL_DIMENSIONS),
      ),
    ).toBe('cg-outside');
  });
});

describe('a list of candidates', () => {
  test('has an id of its own for each, and offers nothing that was read already', () => {
    const bench = benches['scales, hang and board'];
    const all = usualCandidates(bench, valueOf(adjustTruck(bench)));
    const ids = all.map(({ id }) => id);
    expect(new Set(ids).size).toBe(ids.length);
    for (const id of ['axle scales', 'board left', 'board both sides', 'hang side bumper'])
      expect(ids).not.toContain(id);
    for (const id of ['board twice more left right', 'again hang', 'tracks with calipers'])
      expect(ids).toContain(id);
  });

  test('leaves out hooks that pictures were taken from', () => {
    const bench = benches['scales alone'];
    const truck = valueOf(adjustTruck(bench));
    const ids = usualCandidates(bench, truck, { hooksInPictures: ['bumper'] }).map(({ id }) => id);
    expect(ids).not.toContain('hang side bumper');
    expect(ids).toContain('hang side roof');
  });

  test('calls for a caution where the truck hangs, stands on a board or is lifted', () => {
    const bench = benches['scales alone'];
    for (const { work, caution } of usualCandidates(bench, valueOf(adjustTruck(bench)))) {
      const expected = { hang: 'hang', board: 'board', 'axle lift': 'lift' } as const;
      const kind = work.kind;
      expect(caution).toBe(
        kind === 'hang' || kind === 'board' || kind === 'axle lift' ? expected[kind] : null,
      );
    }
  });
});

describe('a gain worked by hand', () => {
  test('a second balance halves the variance of the first', () => {
    const exact = benchWith([{ kind: 'balance', id: 'b', edge: 'across', place: m(0.15, 0.002) }]);
    const bench: TruckBench = {
      ...exact,
      instruments: { ...exact.instruments, rulerZero: { value: meters(0), u: 1e-9 } },
    };
    const row = gainsOf(bench, 'ahead').find(({ candidate }) => candidate.id === 'again b');
    expect(row?.now).toBeCloseTo(0.002, 8);
    expect(row?.then).toBeCloseTo(0.002 / Math.SQRT2, 8);
  });

  test('a shared zero is not averaged away', () => {
    const exact = benchWith([{ kind: 'balance', id: 'b', edge: 'across', place: m(0.15, 0.0002) }]);
    const bench: TruckBench = {
      ...exact,
      instruments: { ...exact.instruments, rulerZero: { value: meters(0), u: 0.002 } },
    };
    const row = gainsOf(bench, 'ahead').find(({ candidate }) => candidate.id === 'again b');
    expect(row?.then).toBeCloseTo(Math.hypot(0.002, 0.0002 / Math.SQRT2), 8);
  });
});
