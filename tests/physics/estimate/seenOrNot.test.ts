import { describe, expect, test } from 'vitest';
import {
  adjustTruck,
  cared,
  degrees,
  differenceUncertainty,
  kilograms,
  measuredDifference,
  meters,
  normalDraws,
  normalNumbers,
  radians,
  seeing,
  usuallyReused,
  valueSensitivities,
  verdictOn,
  type PictureLinesReading,
  type SharedErrors,
  type TruckBench,
} from '../../../src/physics';
import { tolerance } from '../../tolerances';
import { seeded, valueOf } from '../given';

describe('decision threshold and detection limit', () => {
  test('are the quantiles of the normal law', () => {
    // NIST/SEMATECH e-Handbook of Statistical Methods, 1.3.6.7.1: z(0.975) = 1.960, z(0.95) = 1.645.
    const { threshold, limit } = seeing(1);
    expect(threshold).toBeCloseTo(1.96, 3);
    expect(limit).toBeCloseTo(1.96 + 1.645, 3);
    expect(limit).toBeCloseTo(3.6, 1);
  });

  test('judge a change', () => {
    const of = seeing(0.5);
    expect([1.81, -1.81, 1.79, -1, 0.97, 0].map((size) => verdictOn(size, of))).toEqual([
      'seen',
      'seen',
      'between',
      'between',
      'not seen',
      'not seen',
    ]);
  });
});

/** A truck in a world of its own: what its instruments would read, by moments and plane geometry. */
interface Truth {
  readonly x: number;
  readonly y: number;
  readonly z: number;
  readonly mass: number;
  readonly wheelbase: number;
  readonly track: number;
  readonly tipLine: number;
  readonly scaleZero: number;
  readonly rulerZero: number;
  readonly levelZero: number;
}

const U = {
  wheelbase: 0.001,
  track: 0.002,
  lateral: 0.002,
  scaleZero: 0.002,
  rulerZero: 0.0003,
  levelZero: degrees(0.2),
  hook: 0.0015,
  load: 0.003,
  tilt: degrees(0.4),
} as const;
const LATERAL = 0.008;
const TREAD = 0.04;
const TIP_LINE = { value: TREAD / 4, u: TREAD / 4 / Math.sqrt(3) };
const HOOKS = [
  [-0.07, 0.13],
  [0.25, 0.19],
] as const;

/** Picture lines: angle and offset of both, then the wheelbase; the part that a kept camera shares, and the rest. */
const SHARED_PART = [
  [4e-6, 1e-7, 2e-6, 0, 0],
  [1e-7, 2e-7, 0, 1e-7, 1e-7],
  [2e-6, 0, 4e-6, 1e-7, 0],
  [0, 1e-7, 1e-7, 2e-7, 1e-7],
  [0, 1e-7, 0, 1e-7, U.wheelbase ** 2],
];
const FRESH_PART = [1.5e-5, 3e-7, 1.5e-5, 3e-7, 0].map((v, i, all) => all.map((_, j) => (i === j ? v : 0)));
const PICTURES = SHARED_PART.map((row, i) => row.map((value, j) => value + (FRESH_PART[i]?.[j] ?? NaN)));

type Errors = Readonly<Record<'track' | 'hook' | 'shared', readonly number[]>>;
type Draw = () => number;

/** Errors that stay while dimensions, hooks, camera and standing picture are kept. */
const keptErrors = (normal: Draw, picture: () => number[]): Errors => ({
  track: [normal() * U.track, normal() * U.track],
  hook: [normal() * U.hook, normal() * U.hook, normal() * U.hook],
  shared: picture(),
});

function benchOf(truth: Truth, kept: Errors, normal: Draw, picture: () => number[]): TruckBench {
  const { x, y, z, mass, wheelbase, track, tipLine, scaleZero, rulerZero, levelZero } = truth;
  const load = (value: number) => ({ value: kilograms(value + scaleZero + U.load * normal()), u: U.load });
  const tilt = (toward: 'left' | 'right', distance: number) => ({
    kind: 'tilt' as const,
    id: toward,
    toward,
    angle: { value: radians(Math.atan(distance / z) + levelZero + U.tilt * normal()), u: U.tilt },
  });
  const given = (value: number, u: number, error = 0) => ({ value: meters(value + rulerZero + error), u });
  const fresh = picture();
  const error = kept.shared.map((value, i) => value + (fresh[i] ?? NaN));
  const lines = HOOKS.map(([hx, hz], k) => {
    const angle = Math.atan2(z - hz, x - hx);
    const [turned = NaN, offset = NaN] = error.slice(2 * k);
    return {
      id: `hang ${k}`,
      view: 'side' as const,
      line: {
        angle: radians(angle + turned),
        through: { x: meters(hx - offset * Math.sin(angle)), z: meters(hz + offset * Math.cos(angle)) },
      },
    };
  });
  const pictures: PictureLinesReading = {
    kind: 'picture lines',
    id: 'pictures',
    lines,
    shared: [{ quantity: 'wheelbase', value: wheelbase + (error[4] ?? NaN) }],
    covariance: PICTURES,
  };
  const [hx, hz] = [0.12, 0.2];
  const [ex = 0, ey = 0, ez = 0] = kept.hook;
  const slope = Math.atan2(x - hx, hz - z);
  return {
    dimensions: {
      wheelbase: given(wheelbase, U.wheelbase),
      frontTrack: given(track, U.track, kept.track[0]),
      rearTrack: given(track, U.track, kept.track[1]),
      treadWidth: { value: meters(TREAD), u: 0.001 },
    },
    lateral: { value: meters(LATERAL), u: U.lateral },
    instruments: {
      scaleZero: { value: kilograms(0), u: U.scaleZero },
      rulerZero: { value: meters(0), u: U.rulerZero },
      levelZero: { value: radians(0), u: U.levelZero },
    },
    hooks: [
      {
        id: 'roof',
        carrier: 'body',
        x: given(hx, U.hook, ex),
        y: given(0, U.hook, ey),
        z: given(hz, U.hook, ez),
      },
    ],
    readings: [
      {
        kind: 'axle scales',
        id: 'axles',
        front: load((mass * x) / wheelbase),
        rear: load(mass * (1 - x / wheelbase)),
      },
      tilt('left', track / 2 + tipLine - y),
      tilt('right', track / 2 + tipLine + y),
      {
        kind: 'hang',
        id: 'by angle',
        view: 'side',
        hook: 'roof',
        string: { by: 'angle', angle: { value: radians(slope + levelZero + U.tilt * normal()), u: U.tilt } },
      },
      pictures,
    ],
  };
}

const BUILD = { x: 0.165, z: 0.098, mass: 2.95, wheelbase: 0.313, track: 0.187 } as const;
/** The same truck, a pack of 250 g laid 30 mm lower and 20 mm farther ahead. */
const CHANGED = { ...BUILD, x: BUILD.x + (0.25 * 0.02) / 2.95, z: BUILD.z - (0.25 * 0.03) / 2.95 };

/** What is true by chance: where the tip line lies, how far off center the CG, how far off the instruments. */
const chance = (normal: Draw) => ({
  y: LATERAL + U.lateral * normal(),
  tipLine: TIP_LINE.value + TIP_LINE.u * normal(),
  scaleZero: U.scaleZero * normal(),
  rulerZero: U.rulerZero * normal(),
  levelZero: U.levelZero * normal(),
});

const noErrors: Errors = { track: [0, 0], hook: [0, 0, 0], shared: [0, 0, 0, 0, 0] };
const still = benchOf(
  { ...BUILD, ...chance(() => 0) },
  noErrors,
  () => 0,
  () => [0, 0, 0, 0, 0],
);
const sharedErrors: SharedErrors = {
  number: usuallyReused(still),
  part: ({ name }) => (name === 'pictures' ? SHARED_PART : null),
};
const truck = valueOf(adjustTruck(still));
const sideTip = valueOf(cared(truck, 'side tip'));

describe('the uncertainty of a difference', () => {
  const compare = (shared: SharedErrors) => differenceUncertainty(truck, sideTip.gradient, shared);

  test('is √2 u where nothing is shared', () => {
    const { independent, reused } = compare({ number: () => false });
    for (const { u } of [independent, reused])
      expect(Math.abs(u / (Math.SQRT2 * sideTip.u) - 1)).toBeLessThan(tolerance('seen or not: sum of parts'));
  });

  test('is zero where everything is shared', () => {
    const { independent, reused } = compare({ number: () => true });
    expect(reused.limit).toBe(0);
    expect(independent.limit).toBeGreaterThan(0);
  });

  test('is less the more is shared, and a part of the pictures cancels as far as it goes', () => {
    const nothing = compare({ number: sharedErrors.number }).reused.u;
    const camera = compare(sharedErrors).reused.u;
    const all = compare({ ...sharedErrors, part: () => PICTURES }).reused.u;
    const half = compare({
      ...sharedErrors,
      part: () => PICTURES.map((row) => row.map((value) => value / 2)),
    }).reused.u;
    expect(nothing).toBeLessThan(Math.SQRT2 * sideTip.u);
    expect(camera).toBeLessThan(nothing);
    expect(all).toBeLessThan(camera);
    expect(Math.abs((nothing ** 2 + all ** 2) / 2 / half ** 2 - 1)).toBeLessThan(
      tolerance('seen or not: sum of parts'),
    );
  });

  test('has sensitivities as a moved reading shows them', () => {
    const rows = valueSensitivities(truck, sideTip.gradient);
    const place = truck.model.observations.findIndex(({ name }) => name === 'left');
    const by = degrees(0.01);
    const moved = (turn: number): number => {
      const readings = still.readings.map((reading) =>
        reading.id === 'left' && reading.kind === 'tilt'
          ? { ...reading, angle: { ...reading.angle, value: radians(reading.angle.value + turn) } }
          : reading,
      );
      return valueOf(cared(valueOf(adjustTruck({ ...still, readings })), 'side tip')).value;
    };
    const slope = (moved(by) - moved(-by)) / (2 * by);
    expect(Math.abs((rows[place]?.[0] ?? NaN) - slope)).toBeLessThan(tolerance('seen or not: sensitivity'));
  });

  test('of two measured builds is that of one where both are alike', () => {
    const build = { truck, gradient: sideTip.gradient };
    const one = compare(sharedErrors);
    const two = measuredDifference(build, build, sharedErrors);
    expect(two.independent.u).toBeCloseTo(one.independent.u, 12);
    expect(two.reused.u).toBeCloseTo(one.reused.u, 12);
  });

  test('counts what only one build has in full', () => {
    const fewer = { ...still, readings: still.readings.filter(({ id }) => id !== 'left') };
    const other = valueOf(adjustTruck(fewer));
    const q = valueOf(cared(other, 'side tip'));
    const { independent, reused } = measuredDifference(
      { truck, gradient: sideTip.gradient },
      { truck: other, gradient: q.gradient },
      sharedErrors,
    );
    expect(Math.abs(independent.u / Math.hypot(sideTip.u, q.u) - 1)).toBeLessThan(
      tolerance('seen or not: sum of parts'),
    );
    expect(reused.u).toBeLessThan(independent.u);
    expect(reused.u).toBeGreaterThan(0);
  });
});

describe('two builds measured 2,000 times', () => {
  const DRAWS = 2000;
  const uniform = seeded(20240611);
  const normal = normalNumbers(uniform);
  const zero = [0, 0, 0, 0, 0];
  const keptPicture = normalDraws(zero, SHARED_PART, uniform);
  const freshPicture = normalDraws(zero, FRESH_PART, uniform);
  /** Error of one measured side tip. */
  const errorOf = (truth: Truth, kept: Errors): number => {
    const found = valueOf(
      cared(valueOf(adjustTruck(benchOf(truth, kept, normal, freshPicture))), 'side tip'),
    );
    return found.value - Math.atan((truth.track / 2 - truth.y) / truth.z);
  };
  const rms = (errors: readonly number[]): number =>
    Math.sqrt(errors.reduce((sum, error) => sum + error * error, 0) / errors.length);
  const predicted = differenceUncertainty(truck, sideTip.gradient, sharedErrors);

  test('differ by chance as predicted for independent measurements', () => {
    const errors = Array.from({ length: DRAWS }, () => {
      const [first, second] = [BUILD, CHANGED].map((build) =>
        errorOf({ ...build, ...chance(normal) }, keptErrors(normal, keptPicture)),
      );
      return (second ?? NaN) - (first ?? NaN);
    });
    expect(Math.abs(rms(errors) / predicted.independent.u - 1)).toBeLessThan(
      tolerance('seen or not: simulated'),
    );
  });

  test('differ by chance as predicted for a bench that is kept', () => {
    const errors = Array.from({ length: DRAWS }, () => {
      const same = chance(normal);
      const kept = keptErrors(normal, keptPicture);
      return errorOf({ ...CHANGED, ...same }, kept) - errorOf({ ...BUILD, ...same }, kept);
    });
    expect(Math.abs(rms(errors) / predicted.reused.u - 1)).toBeLessThan(tolerance('seen or not: simulated'));
    expect(predicted.reused.u).toBeLessThan(0.8 * predicted.independent.u);
  });
});
