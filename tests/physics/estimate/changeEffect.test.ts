import { describe, expect, test } from 'vitest';
import {
  adjustTruck,
  angleIn,
  changeEffect,
  compositeCg,
  degrees,
  kilograms,
  lengthIn,
  meters,
  monteCarlo,
  radians,
  seeChange,
  usuallyReused,
  type Length,
  type Measured,
  type TruckBench,
  type TruckChange,
  type TruckReading,
} from '../../../src/physics';
import { tolerance } from '../../tolerances';
import { reasonOf, seeded, valueOf } from '../given';

const m = (value: number, u = 0): Measured<Length> => ({ value: meters(value), u });
const kg = (value: number, u = 0) => ({ value: kilograms(value), u });
const place = (x: number, y: number, z: number, u = 0) => ({ x: m(x, u), y: m(y, u), z: m(z, u) });

const U = { mass: 0.02, cg: 0.002, length: 0.001, part: 0.01, place: 0.004 } as const;
const AT = { mass: 3, x: 0.16, y: 0.004, z: 0.1, wheelbase: 0.313, track: 0.195 } as const;

/** A truck told whole by its parts list: the estimate is then what the list says. */
const list: TruckReading = {
  kind: 'parts list',
  id: 'list',
  values: [kilograms(AT.mass), meters(AT.x), meters(AT.y), meters(AT.z)],
  covariance: [U.mass, U.cg, U.cg, U.cg].map((u, i, all) => all.map((_, j) => (i === j ? u * u : 0))),
};
const benchWith = (readings: readonly TruckReading[]): TruckBench => ({
  dimensions: {
    wheelbase: m(AT.wheelbase, U.length),
    frontTrack: m(AT.track, U.length),
    rearTrack: m(AT.track, U.length),
  },
  lateral: m(AT.y, 1),
  instruments: {
    scaleZero: kg(0, 0.0005),
    rulerZero: m(0, 1e-7),
    levelZero: { value: radians(0), u: degrees(0.1) },
  },
  hooks: [],
  readings,
});
const truck = valueOf(adjustTruck(benchWith([list])));

const mm = (change: TruckChange): number =>
  lengthIn(meters(valueOf(valueOf(changeEffect(truck, change)).on.height).difference.value), 'mm');

describe('a change worked by hand', () => {
  test('4 × 75 g in the wheels, 57 mm up: 0.300 (57 − 100)/3.300 = −3.909 mm', () => {
    expect(mm({ kind: 'added', mass: kg(0.3), at: place(0.16, 0, 0.057) })).toBeCloseTo(-12.9 / 3.3, 6);
  });
  test('250 g moved 40 mm down: −0.250 · 40/3.000 = −3.333 mm', () => {
    expect(mm({ kind: 'moved', mass: kg(0.25), by: place(0, 0, -0.04) })).toBeCloseTo(-10 / 3, 6);
  });
  test('a body 1.1 kg heavier, 180 mm up: 1.1 · 80/4.1 = 21.463 mm', () => {
    expect(mm({ kind: 'added', mass: kg(1.1), at: place(0.16, 0, 0.18) })).toBeCloseTo(88 / 4.1, 6);
  });
  test('the same body taken off a truck of 3 kg: −1.1 · 80/1.9 = −46.316 mm', () => {
    expect(mm({ kind: 'added', mass: kg(-1.1), at: place(0.16, 0, 0.18) })).toBeCloseTo(-88 / 1.9, 6);
  });
  test('tip angles follow: 97.5 − 4 mm beside 100 mm and then 96.667 mm', () => {
    const { on } = valueOf(changeEffect(truck, { kind: 'moved', mass: kg(0.25), by: place(0, 0, -0.04) }));
    const tip = valueOf(on['side tip']);
    const turn = Math.atan(93.5 / (100 - 10 / 3)) - Math.atan(93.5 / 100);
    expect(tip.difference.value).toBeCloseTo(turn, 9);
    expect(angleIn(radians(tip.difference.value), 'deg')).toBeCloseTo(0.97, 2);
    expect(tip.sides).toEqual({ before: 'left', after: 'left' });
    expect(valueOf(on.climb).after?.value).toBeCloseTo(Math.atan(160 / (100 - 10 / 3)), 9);
    expect(valueOf(on.descent).after?.value).toBeCloseTo(Math.atan(153 / (100 - 10 / 3)), 9);
  });
  test('a mass to the right makes the right side the one that tips first', () => {
    const { on } = valueOf(
      changeEffect(truck, { kind: 'added', mass: kg(0.5), at: place(0.16, -0.08, 0.1) }),
    );
    const tip = valueOf(on['side tip']);
    expect(tip.sides).toEqual({ before: 'left', after: 'right' });
    // (3 · 4 − 0.5 · 80)/3.5 = −8 mm.
    expect(tip.after?.value).toBeCloseTo(Math.atan(89.5 / 100), 9);
  });
});

describe('an effect', () => {
  const change: TruckChange = {
    kind: 'added',
    mass: kg(0.4, U.part),
    at: place(0.3, -0.02, 0.06, U.place),
  };

  test('has the mass and CG of the composite, with its u', () => {
    const { mass, on } = valueOf(changeEffect(truck, change));
    const whole = valueOf(
      compositeCg([
        { mass: kg(AT.mass, truck.mass?.u), ...place(AT.x, AT.y, AT.z, truck.cg.z?.u) },
        { mass: change.mass, ...change.at },
      ]),
    );
    expect(mass.after?.value).toBeCloseTo(whole.mass.value, 9);
    expect(mass.after?.u).toBeCloseTo(whole.mass.u, 9);
    expect(mass.difference).toEqual({ value: 0.4, u: U.part });
    for (const [quantity, axis] of [
      ['ahead', 'x'],
      ['left', 'y'],
      ['height', 'z'],
    ] as const) {
      const after = valueOf(on[quantity]).after;
      expect(after?.value).toBeCloseTo(whole[axis].value, 8);
      expect(Math.abs((after?.u ?? NaN) / whole[axis].u - 1)).toBeLessThan(tolerance('change effect: u'));
    }
  });

  test.each(['added', 'moved'] as const)(
    'of a mass %s has a difference as uncertain as 20,000 draws show',
    (kind) => {
      const own = place(0.04, -0.02, -0.05, U.place);
      const given: TruckChange = kind === 'added' ? change : { kind, mass: kg(0.4, U.part), by: own };
      const lengths = kind === 'added' ? change.at : own;
      const { on } = valueOf(changeEffect(truck, given));
      const means = [AT.x, AT.y, AT.z, AT.wheelbase, AT.track, AT.track, AT.mass, 0.4];
      const u = [U.cg, U.cg, U.cg, U.length, U.length, U.length, U.mass, U.part, U.place, U.place, U.place];
      // Moments and plane trigonometry; tracks apart by their mean at the place of the CG, as they are alike.
      const draws = monteCarlo(
        ([x = 0, y = 0, z = 0, L = 0, front = 0, rear = 0, M = 0, part = 0, a = 0, b = 0, c = 0]) => {
          const side = (px: number, py: number, pz: number) =>
            Math.atan((rear / 2 + ((front - rear) * px) / (2 * L) - py) / pz);
          const [nx, ny, nz] = [
            [x, a],
            [y, b],
            [z, c],
          ].map(([old = 0, by = 0]) =>
            kind === 'added' ? (M * old + part * by) / (M + part) : old + (part * by) / M,
          );
          if (nx === undefined || ny === undefined || nz === undefined) return [];
          return [
            side(nx, ny, nz) - side(x, y, z),
            nz - z,
            nx - x,
            ny - y,
            Math.atan(nx / nz) - Math.atan(x / z),
            Math.atan((L - nx) / nz) - Math.atan((L - x) / z),
          ];
        },
        [...means, lengths.x.value, lengths.y.value, lengths.z.value],
        u.map((each, i) => u.map((_, j) => (i === j ? each * each : 0))),
        20_000,
        seeded(77),
      );
      (['side tip', 'height', 'ahead', 'left', 'climb', 'descent'] as const).forEach((quantity, i) => {
        const effect = valueOf(on[quantity]);
        // The draws follow the left side.
        if (quantity === 'side tip' && effect.sides?.after !== 'left') return;
        const sd = Math.sqrt(draws.covariance[i]?.[i] ?? NaN);
        expect(Math.abs(effect.difference.u / sd - 1), quantity).toBeLessThan(
          tolerance('change effect: simulated'),
        );
      });
    },
  );

  test('of a moved mass on the height is told though nothing tells the height itself', () => {
    const flat = valueOf(
      adjustTruck(
        benchWith([{ kind: 'axle scales', id: 'axles', front: kg(1.45, 0.003), rear: kg(1.5, 0.003) }]),
      ),
    );
    const { on } = valueOf(changeEffect(flat, { kind: 'moved', mass: kg(0.25), by: place(0, 0, -0.04) }));
    const height = valueOf(on.height);
    expect(height.before).toBeNull();
    expect(height.after).toBeNull();
    expect(height.difference.value).toBeCloseTo((-0.25 * 0.04) / 2.95, 6);
    expect(reasonOf(on['side tip'])).toBe('undetermined');
    const added = valueOf(changeEffect(flat, { kind: 'added', mass: kg(0.3), at: place(0, 0, 0.05) }));
    expect(reasonOf(added.on.height)).toBe('undetermined');
  });

  test('is refused where the truck was not weighed, or nothing is left of it', () => {
    const tilt: TruckReading = {
      kind: 'tilt',
      id: 'left',
      toward: 'left',
      angle: { value: degrees(44), u: degrees(0.5) },
    };
    const unweighed = valueOf(adjustTruck(benchWith([tilt])));
    expect(reasonOf(changeEffect(unweighed, change))).toBe('undetermined');
    expect(reasonOf(changeEffect(truck, { ...change, mass: kg(-3) }))).toBe('total-mass');
  });
});

describe('a change judged', () => {
  const deg = (value: number) => ({ value: degrees(value), u: degrees(0.4) });
  const bench = benchWith([
    { kind: 'axle scales', id: 'axles', front: kg(1.45, 0.003), rear: kg(1.5, 0.003) },
    { kind: 'tilt', id: 'left', toward: 'left', angle: deg(45) },
    { kind: 'tilt', id: 'right', toward: 'right', angle: deg(48) },
  ]);
  const read = valueOf(adjustTruck(bench));
  const lowered = (by: number) =>
    valueOf(
      seeChange(read, { kind: 'moved', mass: kg(0.25), by: place(0, 0, -by) }, 'side tip', {
        number: usuallyReused(bench),
      }),
    );

  test('is seen where it is larger than the detection limit, and sooner with a bench that is kept', () => {
    const { seeings, effect } = lowered(0.01);
    expect(seeings.reused.limit).toBeLessThan(seeings.independent.limit);
    // Just past a limit, near enough in proportion.
    const past = (limit: number) => lowered((0.01 * limit) / effect.difference.value);
    expect(past(1.1 * seeings.reused.limit)).toMatchObject({ reused: 'seen' });
    expect(past(1.1 * seeings.independent.limit)).toMatchObject({ reused: 'seen', independent: 'seen' });
    expect(past(0.8 * seeings.reused.limit)).toMatchObject({ reused: 'between' });
    expect(past(0.8 * seeings.reused.threshold)).toMatchObject({
      reused: 'not seen',
      independent: 'not seen',
    });
  });

  test('sideways is followed only as far as readings tell the lateral place', () => {
    const sideways: TruckChange = { kind: 'moved', mass: kg(0.4), by: place(0, 0.06, 0) };
    const up: TruckReading = { kind: 'tilt', id: 'up', toward: 'nose up', angle: deg(57) };
    const assuming: TruckBench = { ...benchWith([...bench.readings.slice(0, 1), up]), lateral: m(0, 0.005) };
    const kept = { number: usuallyReused(assuming) };
    const assumed = valueOf(adjustTruck(assuming));
    expect(reasonOf(seeChange(assumed, sideways, 'left', kept))).toBe('undetermined');
    // Board and scales would read the same again, whatever lies to the left.
    const tip = valueOf(seeChange(assumed, sideways, 'side tip', kept));
    expect(angleIn(radians(tip.effect.difference.value), 'deg')).toBeLessThan(-1);
    expect(Math.abs(tip.followed / tip.effect.difference.value)).toBeLessThan(
      tolerance('change effect: followed'),
    );
    expect(tip).toMatchObject({ reused: 'not seen', independent: 'not seen' });
    // The board to both sides tells it.
    const told = valueOf(seeChange(read, sideways, 'left', { number: usuallyReused(bench) }));
    expect(told.reused).toBe('seen');
    expect(Math.abs(told.followed / told.effect.difference.value - 1)).toBeLessThan(
      tolerance('change effect: followed'),
    );
  });
});
