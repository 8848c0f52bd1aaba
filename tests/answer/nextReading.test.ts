import { describe, expect, it } from 'vitest';
import { benchAnswer } from '../../src/answer/benchAnswer';
import { further } from '../../src/answer/further';
import type { BuildState } from '../../src/sheet/schema';
import { type BenchOptions, MARKED_AGAIN, simulateBench } from '../demo/world/bench';
import { inventTruck } from '../demo/world/invent';
import { valueOf } from '../physics/given';
import { tolerance } from '../tolerances';

/**
 * Does the next reading buy what it promises? The promise is made from two hangs; then the third is hung and marked.
 */
const bench = (number: number, options: Partial<BenchOptions> = {}): BuildState =>
  simulateBench({
    truck: inventTruck(number),
    pictureSeed: number,
    suspension: 'locked',
    hooks: ['hood', 'hoop', 'bed'],
    hookSource: 'ruler',
    markSigma: 1.5,
    redraw: MARKED_AGAIN,
    ...options,
  }).state;
const withoutHang = (state: BuildState, hook: string): BuildState => ({
  ...state,
  pictures: state.pictures.filter((picture) => picture.hook !== hook),
});
/** u of the side tip angle that is the smaller one. */
const sideTip = (state: BuildState): number => {
  const { left, right } = valueOf(benchAnswer(state).tips);
  return (left.angle.value <= right.angle.value ? left : right).angle.u;
};
const height = (state: BuildState): number => valueOf(benchAnswer(state).cg).height.u;
const noTracks = (state: BuildState): BuildState => {
  const { dimensions } = state;
  const empty = { ...dimensions.frontTrack, text: '' };
  return { ...state, dimensions: { ...dimensions, frontTrack: empty, rearTrack: empty } };
};

const NUMBERS = [1, 2, 3, 4, 5, 6, 7, 8];
const kept = tolerance('next reading: promise kept');

describe('a third hang', () => {
  it.each(['hood', 'hoop', 'bed'])('from the %s makes the side tip angle as sure as promised', (hook) => {
    let told = 0;
    for (const number of NUMBERS) {
      const whole = bench(number);
      const two = withoutHang(whole, hook);
      const name = whole.hooks.find(({ id }) => id === hook)?.name;
      const offered = further(two, benchAnswer(two), 'side tip');
      const third = offered.find(({ what }) => what === `Hang it once more from the ${name}`);
      // Where the lateral place is assumed it may not be worth telling; nothing then is promised.
      if (!third) continue;
      told += 1;
      expect(third.gain.now).toBeCloseTo(sideTip(two), 8);
      expect(Math.abs((third.gain.then ?? NaN) / sideTip(whole) - 1), `truck ${number}`).toBeLessThan(kept);
    }
    expect(told).toBeGreaterThan(0);
  });

  it('shortens the ± of the height by the share promised, where the lateral place is weighed', () => {
    // The lateral place then no longer hides what the hang buys.
    for (const number of NUMBERS) {
      const whole = bench(number, { scales: 'wheel' });
      const two = withoutHang(whole, 'bed');
      const { gain } = benchAnswer(two).next;
      if (!gain) throw new Error('a gain');
      expect(gain.then).toBeLessThan(gain.now);
      const really = sideTip(whole) / sideTip(two);
      expect(Math.abs(gain.then / gain.now / really - 1), `truck ${number}`).toBeLessThan(kept);
    }
  });

  it('never promises less than nothing', () => {
    for (const number of NUMBERS)
      for (const hook of ['hood', 'hoop', 'bed']) {
        const { gain } = benchAnswer(withoutHang(bench(number), hook)).next;
        expect(gain?.then).toBeLessThan(gain?.now ?? NaN);
      }
  });
});

describe('wheel scales', () => {
  it('are asked for after three hangs, and keep their promise', () => {
    for (const number of NUMBERS) {
      const { text, gain } = benchAnswer(bench(number)).next;
      expect(text).toContain('Weigh the wheels one by one: side tip ± ');
      const really = sideTip(bench(number, { scales: 'wheel' }));
      expect(Math.abs((gain?.then ?? NaN) / really - 1), `truck ${number}`).toBeLessThan(kept);
    }
  });

  it('are not asked for twice', () => {
    expect(benchAnswer(bench(1, { scales: 'wheel' })).next.text).not.toContain('wheels');
  });
});

describe('the text', () => {
  it('prints the two ± of its gain, 1.96 u in degrees', () => {
    for (const number of NUMBERS) {
      const { text, gain } = benchAnswer(withoutHang(bench(number), 'bed')).next;
      const printed = [...text.matchAll(/± ([\d.]+)°/g)].map(([, digits = '']) => digits);
      expect(printed).toHaveLength(2);
      [gain?.now, gain?.then].forEach((u = NaN, i) => {
        const digits = printed[i] ?? '';
        expect(((1.96 * u * 180) / Math.PI).toFixed(digits.split('.')[1]?.length)).toBe(digits);
      });
      expect(printed[0]).not.toBe(printed[1]);
    }
  });

  it('asks for the tracks first, where they are missing', () => {
    const { text, gain } = benchAnswer(noTracks(bench(4))).next;
    expect(text).toBe('Measure both tracks, tire center to tire center: the tip angles need it.');
    expect(gain).toBeNull();
  });

  it('offers a hook far from the others where no other hook is on the sheet', () => {
    const two = bench(4, { hooks: ['hood', 'bed'], scales: 'wheel' });
    const offered = further(two, benchAnswer(two), 'height').map(({ what }) => what);
    expect(offered.some((what) => what.startsWith('Hang it once more from a new hook at the '))).toBe(true);
  });

  it('leads to a second hang where one line is all there is', () => {
    const { text } = benchAnswer(bench(4, { hooks: ['hood'] })).next;
    expect(text).toBe('Still needed: a second picture of it hanging.');
    expect(height(bench(4))).toBeGreaterThan(0);
  });
});

describe('a contradiction', () => {
  it('is looked at before anything new is hung', () => {
    const state = bench(7);
    const moved = structuredClone(state);
    const mark = moved.pictures[1]?.marks.find(({ role }) => role === 'mark A');
    if (!mark) throw new Error('The first hang has no mark A.');
    mark.x += 40;
    const before = benchAnswer(state).next;
    const after = benchAnswer(moved).next;
    expect(before.gain).not.toBeNull();
    expect(after.gain).toBeNull();
    expect(after.text).toMatch(/[Ll]ook again/);
  });

  it('is told by the number the page gives the picture, with another one set aside', () => {
    const moved = structuredClone(bench(7));
    const [, first, second] = moved.pictures;
    const mark = second?.marks.find(({ role }) => role === 'mark A');
    if (!first || !mark) throw new Error('The bench has no second hang with a mark A.');
    first.counted = false;
    mark.x += 40;
    expect(benchAnswer(moved).next.text).toContain('hang 2');
  });
});
