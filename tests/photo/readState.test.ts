import { describe, expect, it } from 'vitest';
import { axleShare, missingWithHangs, readState } from '../../src/photo/readState';
import { emptyPicture, emptyState } from '../../src/sheet/empty';
import type { BuildState } from '../../src/sheet/schema';
import { NOTHING, simulateBench } from '../demo/world/bench';
import { inventTruck } from '../demo/world/invent';

const { state, truth } = simulateBench({
  truck: inventTruck(2),
  pictureSeed: 2,
  suspension: 'locked',
  hooks: ['hood', 'bed'],
  hookSource: 'ruler',
  markSigma: 1.5,
  redraw: NOTHING,
});
const what = ({ missing }: { missing: readonly { readonly what: string }[] }) =>
  missing.map((each) => each.what);

describe('a state as the pictures need it', () => {
  it('misses nothing when complete', () => {
    const readings = readState(state);
    expect(readings).toMatchObject({ missing: [], faults: [], hanging: 2, noseDirection: 1 });
    expect(readings.hangs).toHaveLength(2);
  });

  it('says what pictures miss, and leaves it to others how many hangs are enough', () => {
    const none: BuildState = { ...emptyState(), dimensions: state.dimensions };
    expect(what(readState(none))).toEqual(['a side picture of the truck standing']);
    const standing: BuildState = {
      ...none,
      pictures: [{ ...emptyPicture('standing', 800, 600), name: 'Side' }],
    };
    const readings = readState(standing);
    expect(readings.hanging).toBe(0);
    expect(what(readings)[0]).toBe('the rear hub in Side');
    expect(what({ missing: missingWithHangs(readings, 0) })).toEqual(what(readings));
    for (const [hanging, needed, words] of [
      [0, 1, 'a picture of it hanging'],
      [0, 2, 'two pictures of it hanging'],
      [1, 2, 'a second picture of it hanging'],
    ] as const)
      expect(missingWithHangs({ ...readings, hanging }, needed)[0]?.what).toBe(words);
  });

  it('asks for hangs behind what belongs to no picture', () => {
    const { dimensions } = state;
    const bare = {
      ...state,
      dimensions: { ...dimensions, wheelbase: { ...dimensions.wheelbase, text: '' } },
      pictures: [],
    };
    expect(what({ missing: missingWithHangs(readState(bare), 2) })).toEqual([
      'the wheelbase',
      'a side picture of the truck standing',
      'two pictures of it hanging',
    ]);
  });

  it('reads the ruler: zero within 0.3 mm, or as typed', () => {
    const usual = readState(state).truck?.rulerZero;
    expect(usual?.value).toBe(0);
    expect(1960 * (usual?.u ?? NaN)).toBeCloseTo(0.3, 3);
    const { instruments } = state;
    const rulerZero = { ...instruments.rulerZero, text: '-1.2', plusMinus: '0.5' };
    const typed = readState({ ...state, instruments: { ...instruments, rulerZero } }).truck?.rulerZero;
    expect(1000 * (typed?.value ?? NaN)).toBeCloseTo(-1.2, 9);
    expect(1960 * (typed?.u ?? NaN)).toBeCloseTo(0.5, 3);
  });

  it('keeps the lateral place in the truck’s axes, whichever side is seen', () => {
    const lateral = { ...state.lateral, text: '4' };
    for (const [view, nose] of [
      ['right', 1],
      ['left', -1],
    ] as const) {
      const pictures = state.pictures.map((picture) => ({ ...picture, view }));
      const readings = readState({ ...state, lateral, pictures });
      expect(1000 * readings.lateral.value).toBeCloseTo(4, 9);
      expect(1000 * (readings.truck?.lateral.value ?? NaN)).toBeCloseTo(4, 9);
      expect(readings.noseDirection).toBe(nose);
    }
  });

  it('takes axle masses over the mass weighed', () => {
    const { front, rear } = truth.axleMasses;
    expect(axleShare(state, 'front axle').value).toBeCloseTo(front / truth.mass, 3);
    expect(axleShare(state, 'rear axle').value).toBeCloseTo(rear / truth.mass, 3);
    // Nothing weighed: common practice, 35 to 55 % of a truck is unsprung.
    const usual = axleShare({ ...state, readings: [] }, 'front axle');
    expect(2 * (usual.value - 1.96 * usual.u)).toBeLessThan(0.35);
    expect(2 * (usual.value + 1.96 * usual.u)).toBeGreaterThan(0.55);
  });
});
