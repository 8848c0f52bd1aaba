import { describe, expect, test } from 'vitest';
import {
  adjustTruck,
  degrees,
  findBlunder,
  likelySlips,
  radians,
  truckModel,
  withValue,
  type TruckBench,
} from '../../../src/physics';
import { tolerance } from '../../tolerances';
import { valueOf } from '../given';
import { BENCH, HOOKS, PICTURES, READINGS, TRUCK } from './knownTruck';

const trueValue = (id: string): number => {
  const { numbers } = valueOf(truckModel(BENCH));
  const found = numbers.find((number) => number.id === id);
  if (!found) throw new Error(`no number ${id}`);
  return found.value;
};

/** The slip's row, the number it happens to, and what is typed for the number by who makes it. */
const SLIPS: readonly (readonly [code: string, id: string, typed: (right: number) => number])[] = [
  ['axle for ground', 'hook bumper.z', (right) => right - TRUCK.rearRadius],
  ['axle for ground', 'hang-2.second', (right) => right - TRUCK.frontRadius],
  ['ground for axle', 'hook roof.z', (right) => right + TRUCK.rearRadius],
  ['hub height for rise', 'lift-1.rise', (right) => right + TRUCK.frontRadius],
  ['rise less a radius', 'lift-1.rise', (right) => right - TRUCK.frontRadius],
  ['front axle for rear axle', 'edge.place', (right) => TRUCK.wheelbase - right],
  ['sine for tangent', 'lift-3.angle', (right) => Math.atan(Math.sin(right))],
  ['tangent for sine', 'lift-3.angle', (right) => Math.asin(Math.tan(right))],
  ['degrees for percent', 'lift-3.angle', (right) => degrees(100 * Math.tan(right))],
  ['percent for degrees', 'lift-3.angle', (right) => Math.atan((right * 180) / Math.PI / 100)],
  ['upright for level', 'tilt-up.angle', (right) => Math.PI / 2 - right],
  ['diameter for radius', 'rearTireRadius', (right) => 2 * right],
  // 1 oz = 28.349 523 125 g, 1 lb = 0.453 592 37 kg, 1 in = 25.4 mm: NIST SP 811, appendix B.
  ['ounces for grams', 'mass.load', (right) => right / 28.349523125],
  ['grams for ounces', 'axles.front', (right) => right * 28.349523125],
  ['pounds for kilograms', 'mass.load', (right) => right / 0.45359237],
  ['kilograms for pounds', 'lift-1.load', (right) => right * 0.45359237],
  ['inches for millimeters', 'wheelbase', (right) => right / 25.4],
  ['millimeters for inches', 'hook roof.x', (right) => right * 25.4],
  ['inches for millimeters', 'lift-1.rise', (right) => right / 25.4],
  ['centimeters for millimeters', 'edge.place', (right) => right / 10],
  ['left for right', 'hang-3.angle', (right) => -right],
  ['left for right', 'hook side.y', (right) => -right],
  ['nose up for nose down', 'hang-1.angle', (right) => -right],
  ['pack left out', 'mass.load', (right) => right - 0.26],
  ['suspension not locked', 'tilt-left.angle', (right) => right - degrees(9.4)],
  ['first wheel for tipping', 'tilt-right.angle', (right) => right - degrees(3)],
];

describe('a slip is named, and what it makes of the number', () => {
  test.each(SLIPS)('%s in %s', (code, id, typed) => {
    const right = trueValue(id);
    const bench = withValue(BENCH, id, typed(right));
    const named = findBlunder(bench)?.named;
    expect(named?.group.map((suspect) => suspect.id)).toContain(id);
    const slips = likelySlips(bench, id);
    expect(slips.map((slip) => slip.code)).toContain(code);
    expect(slips.length).toBeLessThanOrEqual(3);
    const slip = slips.find((each) => each.code === code);
    if (!slip?.between)
      expect(Math.abs((slip?.wouldBe ?? NaN) / right - 1)).toBeLessThan(tolerance('likely slip: corrected'));
  });
});

/** Slips of several numbers, or of what a number belongs to. */
const replaced = (id: string, change: object): TruckBench => ({
  ...BENCH,
  readings: READINGS.map((reading) => (reading.id === id ? { ...reading, ...change } : reading)),
});
const wider = (id: string): TruckBench => withValue(BENCH, id, trueValue(id) + TRUCK.tread);
const loads = Object.fromEntries(
  ['frontLeft', 'frontRight', 'rearLeft', 'rearRight'].map((name) => [
    name,
    { value: trueValue(`wheels.${name}`), u: 0.002 },
  ]),
);
const onAxle = (end: string) => ({ value: trueValue(`axles.${end}`), u: 0.002 });
const lines = PICTURES.kind === 'picture lines' ? PICTURES : null;
const pictured = (change: (id: string) => object): TruckBench => ({
  ...BENCH,
  readings: [
    ...READINGS,
    ...(lines
      ? [
          {
            ...lines,
            lines: lines.lines.map((each) => ({ ...each, line: { ...each.line, ...change(each.id) } })),
          },
        ]
      : []),
  ],
});
const roofLine = lines?.lines.find(({ id }) => id === 'picture roof')?.line.angle ?? NaN;

const WIDER: readonly (readonly [code: string, bench: TruckBench])[] = [
  [
    'outside widths for tracks',
    withValue(wider('frontTrack'), 'rearTrack', trueValue('rearTrack') + TRUCK.tread),
  ],
  ['front and rear exchanged', replaced('axles', { front: onAxle('rear'), rear: onAxle('front') })],
  [
    'sides exchanged',
    replaced('wheels', {
      frontLeft: loads['frontRight'],
      frontRight: loads['frontLeft'],
      rearLeft: loads['rearRight'],
      rearRight: loads['rearLeft'],
    }),
  ],
  ['scale under the other axle', replaced('lift-3', { scaleUnder: 'rear' })],
  ['hook of another hang', replaced('hang-1', { hook: 'roof' })],
  [
    'mirrored picture',
    pictured((id) => (id === 'picture roof' ? { angle: radians(Math.PI - roofLine) } : {})),
  ],
  [
    'hook of another hang',
    pictured((id) => (id === 'picture roof' ? { through: { x: HOOKS.side.x, z: HOOKS.side.z } } : {})),
  ],
];

describe('a slip of more than a number is named', () => {
  test.each(WIDER)('%s', (code, bench) => {
    const group = findBlunder(bench)?.named?.group ?? [];
    expect(group).not.toEqual([]);
    expect(group.flatMap(({ id }) => likelySlips(bench, id).map((slip) => slip.code))).toContain(code);
  });
});

describe('laws', () => {
  test('nothing is named of readings that agree', () => {
    expect(findBlunder(BENCH)?.named).toBeNull();
    for (const { id } of valueOf(adjustTruck(BENCH)).numbers()) expect(likelySlips(BENCH, id)).toEqual([]);
  });

  test('a blunder that fits no slip gets none', () => {
    const bench = withValue(BENCH, 'edge.place', TRUCK.x + 0.02);
    expect(findBlunder(bench)?.named?.first.id).toBe('edge.place');
    expect(likelySlips(bench, 'edge.place')).toEqual([]);
  });

  test('a live axle lift reads high: a load that tells of a higher CG fits, of a lower one does not', () => {
    const right = trueValue('lift-1.load');
    const codes = (by: number) =>
      likelySlips(withValue(BENCH, 'lift-1.load', right + by), 'lift-1.load').map(({ code }) => code);
    // M (z − r) tan t/L of transfer is 0.167 kg; a third more is what springs have been seen to add.
    expect(codes(0.055)).toContain('suspension not locked in the lift');
    expect(codes(-0.055)).not.toContain('suspension not locked in the lift');
  });

  test('the bench with the slip corrected agrees', () => {
    const bench = withValue(BENCH, 'mass.load', TRUCK.mass / 0.45359237);
    const [slip] = likelySlips(bench, 'mass.load');
    expect(slip?.code).toBe('pounds for kilograms');
    expect(slip && findBlunder(slip.corrected)?.named).toBeNull();
  });
});
