import { readFileSync, readdirSync } from 'node:fs';
import { expect, test } from 'vitest';
import { random } from '../demo/world/random';
import type { Vector } from '../demo/world/vector';
import { dot, scale, size, subtract } from '../demo/world/vector';
import { tolerance } from '../tolerances';
import { inverse } from '../world/algebra';
import { makeBench } from '../world/bench';
import { tippingSlope, wheelLoads } from '../world/contacts';
import { hungEnergy, verticalAtRest } from '../world/hung';
import { liftedLoads, pitchOfRise } from '../world/lifted';
import { numbersOf, withNumber } from '../world/numbers';
import { drawTruck } from '../world/truth';

/** The simulated bench is held to laws of statics before anything is checked against it. */

const rounding = tolerance('simulated bench: rounding');
const BENCHES = 40;
const draw = random(1, 'laws');
const somewhere = (reach: number): Vector => [
  draw.between(-reach, reach),
  draw.between(-reach, reach),
  draw.between(-reach, reach),
];
const contactsOf = (wheelbase: number, front: number, rear: number) => [
  { x: wheelbase, y: front / 2 },
  { x: wheelbase, y: -front / 2 },
  { x: 0, y: rear / 2 },
  { x: 0, y: -rear / 2 },
];

test('takes no formula from the module that it checks', () => {
  const allowed = new Set(['degrees', 'kilograms', 'meters', 'radians']);
  const folder = new URL('../world/', import.meta.url);
  for (const file of readdirSync(folder).filter((name) => name.endsWith('.ts'))) {
    const text = readFileSync(new URL(file, folder), 'utf8');
    for (const [, names, from] of text.matchAll(/import (?!type)\{([^}]*)\} from '([^']*)'/g)) {
      if (!from?.includes('src/')) continue;
      expect(from, file).toBe('../../src/physics');
      const values = (names ?? '').split(',').map((name) => name.trim());
      expect(values.filter((name) => name !== '' && !name.startsWith('type ') && !allowed.has(name))).toEqual(
        [],
      );
    }
  }
});

test('a body hangs where its energy is least and nothing turns it', () => {
  for (let i = 0; i < 200; i += 1) {
    const lumps = Array.from({ length: 3 }, () => ({ mass: draw.between(0.2, 2), place: somewhere(0.3) }));
    const hook = somewhere(0.3);
    const down = verticalAtRest(lumps, hook);
    const torque = lumps.reduce<Vector>(
      (sum, { mass, place }) => {
        const [a, b, c] = subtract(place, hook);
        return [
          sum[0] + mass * (b * down[2] - c * down[1]),
          sum[1] + mass * (c * down[0] - a * down[2]),
          sum[2] + mass * (a * down[1] - b * down[0]),
        ];
      },
      [0, 0, 0],
    );
    expect(size(torque)).toBeLessThan(rounding);
    const least = hungEnergy(lumps, hook, down);
    for (let other = 0; other < 20; other += 1) {
      const way = somewhere(1);
      expect(hungEnergy(lumps, hook, scale(way, 1 / size(way)))).toBeGreaterThanOrEqual(least - rounding);
    }
  }
});

test('a hook right below the CG is left for the hang below it', () => {
  const lumps = [{ mass: 2, place: [0, 0, 0.3] satisfies Vector }];
  expect(dot(verticalAtRest(lumps, [0, 0, 0]), [0, 0, 1])).toBeCloseTo(1, 9);
});

test('wheel loads balance weight and both moments, whatever the shim', () => {
  for (let i = 0; i < 200; i += 1) {
    const truck = drawTruck(random(i, 'loads'));
    const contacts = contactsOf(truck.wheelbase, truck.frontTrack, truck.rearTrack);
    const cg: Vector = [truck.x, draw.between(-0.006, 0.006), truck.z];
    const [bare, shimmed] = [0, draw.between(-0.3, 0.3)].map((shim) =>
      wheelLoads(contacts, truck.mass, cg, shim),
    );
    for (const loads of [bare ?? [], shimmed ?? []]) {
      const moment = (arm: (at: { x: number; y: number }) => number) =>
        loads.reduce((sum, load, k) => sum + load * arm(contacts[k] ?? { x: NaN, y: NaN }), 0);
      expect(Math.abs(moment(() => 1) - truck.mass)).toBeLessThan(rounding);
      expect(Math.abs(moment(({ x }) => x) - truck.mass * cg[0])).toBeLessThan(rounding);
      expect(Math.abs(moment(({ y }) => y) - truck.mass * cg[1])).toBeLessThan(rounding);
    }
    // Front and rear differences change against each other, in inverse proportion to the tracks.
    const change = (bare ?? []).map((load, k) => (shimmed?.[k] ?? NaN) - load);
    expect(Math.abs((change[0] ?? NaN) + (change[1] ?? NaN))).toBeLessThan(rounding);
    expect(
      Math.abs((change[0] ?? NaN) * truck.frontTrack + (change[2] ?? NaN) * truck.rearTrack),
    ).toBeLessThan(rounding);
  }
});

test('a symmetric truck reads the same left and right', () => {
  const contacts = contactsOf(0.3, 0.18, 0.2);
  const cg: Vector = [0.16, 0, 0.09];
  const [frontLeft, frontRight, rearLeft, rearRight] = wheelLoads(contacts, 3, cg, 0);
  expect(frontLeft).toBeCloseTo(frontRight ?? NaN, 12);
  expect(rearLeft).toBeCloseTo(rearRight ?? NaN, 12);
  expect(tippingSlope(contacts, cg, 'left')).toBeCloseTo(tippingSlope(contacts, cg, 'right'), 12);
});

test('a box as high as it is wide, CG in its middle, tips at 45° any way', () => {
  const contacts = contactsOf(0.2, 0.2, 0.2);
  for (const downhill of ['left', 'right', 'front', 'rear'] as const)
    expect(Math.abs(tippingSlope(contacts, [0.1, 0, 0.1], downhill) - Math.PI / 4)).toBeLessThan(rounding);
});

test('an axle lift puts both hubs where they stand and loses no weight', () => {
  for (let i = 0; i < 100; i += 1) {
    const { mass, x, z, wheelbase, frontTireRadius, rearTireRadius } = drawTruck(random(i, 'lift'));
    const truck = {
      mass,
      cg: [x, z] as const,
      wheelbase,
      frontRadius: frontTireRadius,
      rearRadius: rearTireRadius,
    };
    const rise = draw.between(0.02, 0.16);
    const raised = draw.unit() < 0.5 ? 'front' : 'rear';
    const pitch = pitchOfRise(truck, raised, rise);
    const height = (ahead: number, up: number) => ahead * Math.sin(pitch) + up * Math.cos(pitch);
    const step = height(wheelbase, frontTireRadius) - height(0, rearTireRadius);
    const stands = frontTireRadius - rearTireRadius + (raised === 'front' ? rise : -rise);
    expect(Math.abs(step - stands)).toBeLessThan(rounding);
    const [front, rear] = liftedLoads(truck, pitch);
    expect(Math.abs(front + rear - mass)).toBeLessThan(rounding);
    // A CG on the line through the hubs keeps its shares at any pitch; one above it moves over the lower axle.
    const share = x / wheelbase;
    const onLine = rearTireRadius + (frontTireRadius - rearTireRadius) * share;
    const [same] = liftedLoads({ ...truck, cg: [x, onLine] }, pitch);
    expect(Math.abs(same - mass * share)).toBeLessThan(rounding);
    if (z > onLine + 0.001) expect(Math.sign(front - mass * share)).toBe(raised === 'front' ? -1 : 1);
  }
});

test('what a reading shows depends on what it says it depends on, and on nothing else', () => {
  for (let i = 1; i <= BENCHES; i += 1) {
    const { shown, point } = makeBench(i, { errors: 'normal' });
    for (const { depends, show } of shown) {
      const before = show(point);
      const moved = Float64Array.from(point, (value, index) =>
        depends.includes(index) ? value : value + 0.01,
      );
      expect(show(moved)).toEqual(before);
    }
  }
});

test('errors are drawn as they are stated', () => {
  for (const errors of ['normal', 'stated'] as const) {
    let [count, sum, squares, hard, widest] = [0, 0, 0, 0, 0];
    for (let i = 1; i <= 5 * BENCHES; i += 1) {
      const { bench, shown, point } = makeBench(i, { errors });
      const read = new Map(numbersOf(bench).map((number) => [number.id, number]));
      for (const { numbers, show } of shown) {
        const exact = show(point);
        for (const { id, place } of numbers) {
          const number = read.get(id);
          // A picture's line moves with its error; where it then is, is its zero.
          if (!number || id.startsWith('picture-')) continue;
          const error = (number.value - (exact[place] ?? NaN)) / number.u;
          count += 1;
          sum += error;
          squares += error * error;
          if (number.law !== 'rectangular') continue;
          hard += 1;
          widest = Math.max(widest, Math.abs(error));
        }
      }
    }
    expect(Math.abs(sum) / Math.sqrt(count)).toBeLessThan(tolerance('simulated bench: chance'));
    expect(Math.abs(squares - count) / Math.sqrt(2 * count)).toBeLessThan(
      tolerance('simulated bench: chance'),
    );
    expect(hard > 0).toBe(errors === 'stated');
    expect(widest).toBeLessThanOrEqual(Math.sqrt(3) + rounding);
  }
});

test('every number can be read wrong, alone', () => {
  for (let i = 1; i <= BENCHES; i += 1) {
    const { bench } = makeBench(i, { errors: 'normal' });
    const numbers = numbersOf(bench);
    expect(new Set(numbers.map(({ id }) => id)).size).toBe(numbers.length);
    for (const { id, value, u } of numbers) {
      const wrong = numbersOf(withNumber(bench, id, value + 5 * u));
      const changed = wrong.filter((number, k) => number.value !== numbers[k]?.value);
      // A picture's line tells its shift from where it now is: zero again.
      expect(changed.map((number) => number.id)).toEqual(
        value === 0 && u > 0 && id.startsWith('picture-') ? [] : [id],
      );
    }
  }
});

test('the bound is the inverse of what all readings tell', () => {
  // Two readings of one number, u 3 and 4: together 1/√(1/9 + 1/16) = 2.4.
  expect(Math.sqrt(inverse([[1 / 9 + 1 / 16]])?.[0]?.[0] ?? NaN)).toBeCloseTo(2.4, 12);
  expect(
    inverse([
      [1, 1],
      [1, 1],
    ]),
  ).toBeUndefined();
});
