import { describe, expect, it } from 'vitest';
import { benchAnswer } from '../../src/answer/benchAnswer';
import { readBy } from '../../src/answer/readBy';
import type { MethodOfHang } from '../../src/photo/readingMethods';
import type { BuildState, Mark, Picture } from '../../src/sheet/schema';
import { EVERYTHING, simulateBench } from '../demo/world/bench';
import { project } from '../demo/world/camera';
import { inventTruck } from '../demo/world/invent';
import { inWorld } from '../demo/world/photograph';
import { tolerance } from '../tolerances';

/** A number of the plane, x + iy. */
type Complex = readonly [number, number];
const times = ([a, b]: Complex, [c, d]: Complex): Complex => [a * c - b * d, a * d + b * c];
const plus = ([a, b]: Complex, [c, d]: Complex): Complex => [a + c, b + d];
const minus = ([a, b]: Complex, [c, d]: Complex): Complex => [a - c, b - d];
const over = (z: Complex, [c, d]: Complex): Complex => times(z, [c / (c * c + d * d), -d / (c * c + d * d)]);

/** w = αz + β through pairs, by least squares: α = Σ conj(z)w / Σ|z|² about the means. */
function similarity(from: readonly Complex[], to: readonly Complex[]) {
  const mean = (points: readonly Complex[]): Complex => {
    const [x, y] = points.reduce<Complex>(plus, [0, 0]);
    return [x / points.length, y / points.length];
  };
  const [m, k] = [mean(from), mean(to)];
  let [sum, square]: [Complex, number] = [[0, 0], 0];
  from.forEach((point, i) => {
    const [x, y] = minus(point, m);
    sum = plus(sum, times([x, -y], minus(to[i] ?? k, k)));
    square += x * x + y * y;
  });
  const turn: Complex = [sum[0] / square, sum[1] / square];
  return (point: Complex): Complex => plus(times(turn, minus(point, m)), k);
}

const markOf = (picture: Picture, role: string): Complex => {
  const mark = picture.marks.find((each: Mark) => each.role === role);
  if (!mark) throw new Error(`no ${role}`);
  // Up is up.
  return [mark.x, -mark.y];
};
const number = ({ text }: { readonly text: string }): number => Number(text) / 1000;

interface Off {
  readonly expected: MethodOfHang;
  /** How far the true center of gravity lies from the line as each way reads it, m. */
  readonly similarity: number;
  readonly anchored: number;
}

/** Every hang of invented trucks, with everything off by its ±, read by hand. */
function readByHand(count: number): Off[] {
  const out: Off[] = [];
  for (let n = 1; n <= count; n++) {
    const truck = inventTruck(n);
    const { state, truth } = simulateBench({
      truck,
      pictureSeed: 900 + n,
      suspension: 'locked',
      hooks: ['hood', 'hoop', 'bed'],
      hookSource: 'ruler',
      markSigma: 1.5,
      redraw: EVERYTHING,
    });
    const methods = readBy(state, benchAnswer(state));
    const [standing, ...hangs] = state.pictures;
    const photograph = truth.photographs[0];
    if (!standing || !photograph) throw new Error('a standing picture');
    const { x, y } = project(photograph.camera, inWorld(photograph, truth.cg));
    const cg: Complex = [x, -y];
    const [rear, front] = [markOf(standing, 'rear hub'), markOf(standing, 'front hub')];
    const { wheelbase, frontTireRadius, rearTireRadius } = state.dimensions;
    const hubs: Complex = [number(wheelbase), number(frontTireRadius) - number(rearTireRadius)];
    /** From a step in the standing picture to one in the truck's side plane. */
    const inTruck = (step: Complex): Complex => times(over(step, minus(front, rear)), hubs);
    for (const hang of hangs) {
      const expected = methods.find(({ pictureId }) => pictureId === hang.id);
      const hook = state.hooks.find(({ id }) => id === hang.hook);
      if (!expected || !hook) throw new Error('read');
      const roles = hang.marks.map(({ role }) => role).filter((role) => role.startsWith('mark '));
      const shared = roles.filter((role) => standing.marks.some((mark) => mark.role === role));
      const carry = similarity(
        shared.map((role) => markOf(hang, role)),
        shared.map((role) => markOf(standing, role)),
      );
      const [upper, lower] = [carry(markOf(hang, 'string upper')), carry(markOf(hang, 'string lower'))];
      const up = inTruck(minus(upper, lower));
      const size = Math.hypot(...up);
      const across = ([a, b]: Complex) => (a * up[1] - b * up[0]) / size;
      const place: Complex = [number(hook.ahead), number(hook.height)];
      out.push({
        expected,
        similarity: across(inTruck(minus(cg, lower))),
        anchored: across(minus([truth.cg[0], truth.cg[2]], place)),
      });
    }
  }
  return out;
}

const rms = (values: readonly number[]): number =>
  Math.sqrt(values.reduce((sum, value) => sum + value * value, 0) / values.length);

describe('what each way of reading a string leaves', () => {
  const all = readByHand(40);

  it('is as large as told, by similarity', () => {
    const normalized = all.map(
      ({ expected, similarity: off }) => off / (expected.expected.similarity ?? NaN),
    );
    expect(Math.abs(Math.log(rms(normalized))), `${rms(normalized)}`).toBeLessThan(
      tolerance('reading methods: as told'),
    );
  });

  it('is as large as told, by direction anchored at the hook', () => {
    const normalized = all.map(
      ({ expected, anchored }) => anchored / (expected.expected['anchored direction'] ?? NaN),
    );
    expect(Math.abs(Math.log(rms(normalized))), `${rms(normalized)}`).toBeLessThan(
      tolerance('reading methods: as told'),
    );
  });
});

describe('the way that is named', () => {
  const bench = (): BuildState =>
    simulateBench({
      truck: inventTruck(3),
      pictureSeed: 3,
      suspension: 'locked',
      hooks: ['hood', 'bed'],
      hookSource: 'ruler',
      markSigma: 1.5,
      redraw: EVERYTHING,
    }).state;
  const methods = (state: BuildState) => readBy(state, benchAnswer(state));
  const typed = (state: BuildState, distance: string): BuildState => ({
    ...state,
    pictures: state.pictures.map((picture) => ({
      ...picture,
      distance: { ...picture.distance, text: distance, plusMinus: '0.03' },
    })),
  });

  it('is the surest of those that can be used', () => {
    for (const state of [bench(), typed(bench(), '1.5')])
      for (const { method, expected } of methods(state)) {
        const usable = Object.values(expected).filter((u) => u !== null);
        expect(expected[method]).toBe(Math.min(...usable));
      }
  });

  it('is no pose while nothing tells how the camera stood, and says what would', () => {
    for (const { expected, poseFrom, why } of methods(bench())) {
      expect(expected.pose).toBeNull();
      expect(poseFrom).toEqual([]);
      expect(why).toContain('is not solved');
    }
    for (const { expected, poseFrom, why } of methods(typed(bench(), '1.5'))) {
      expect(poseFrom).toContain('typed distance');
      expect(expected.pose).toBeLessThan(expected.similarity ?? NaN);
      expect(why).not.toContain('is not solved');
    }
  });

  it('needs a ruled hook to start a direction from', () => {
    const state = bench();
    const untied = { ...state, pictures: state.pictures.map((picture) => ({ ...picture, hook: null })) };
    for (const { expected } of methods(untied)) expect(expected['anchored direction']).toBeNull();
  });

  it('says of marks nearly in one line what they leave open', () => {
    const state = bench();
    const two = { ...state, bodyMarks: state.bodyMarks.slice(0, 2) };
    for (const { why } of methods(two)) expect(why).toContain('nearly in one line');
  });
});
