import { describe, expect, it } from 'vitest';
import { benchAnswer } from '../../../src/answer/benchAnswer';
import { size, subtract } from '../../demo/world/vector';
import { tolerance } from '../../tolerances';
import { cholesky, forward } from '../algebra';
import { CASES, drawCase } from './cases';
import type { CaseName } from './cases';

/**
 * How far off is the answer that photographs give, and does its 95 % region hold the truth 95 times in 100? The world
 * that is photographed shares no camera, lens or statics with what is judged. SOAK=1000 takes five times as many draws.
 */
const DRAWS = Number(process.env['SOAK'] ?? 200);

/** Quantiles 0.95 of chi-squared with two degrees of freedom (−2 ln 0.05, exact) and three (NIST/SEMATECH handbook, 1.3.6.7.4). */
const QUANTILES: Readonly<Record<2 | 3, number>> = { 2: -2 * Math.log(0.05), 3: 7.815 };

/** Of which coordinates an answer is judged: in the side plane, or in three dimensions. */
const judged = (name: CaseName): readonly (0 | 1 | 2)[] => (name === 'rear' ? [0, 1, 2] : [0, 2]);

interface Outcome {
  /** Distance from the truth, mm; infinite where there is no answer. */
  readonly off: number;
  readonly inside: boolean;
  readonly refused: string | null;
}

function outcome(name: CaseName, n: number): Outcome {
  const { state, cg: truth } = drawCase(name, n);
  const { cg } = benchAnswer(state, { quick: true });
  if (!cg.ok) return { off: Infinity, inside: false, refused: cg.message };
  const { ahead, left, height, ellipse, covariance } = cg.value;
  const [x, y, z] = subtract([ahead.value, left.value, height.value], truth);
  if (judged(name).length === 3) {
    const lower = cholesky(covariance);
    const inUnits = lower ? forward(lower, [x, y, z]) : [Infinity];
    const squared = inUnits.reduce((sum, each) => sum + each ** 2, 0);
    return { off: 1000 * size([x, y, z]), inside: squared <= QUANTILES[3], refused: null };
  }
  const [cos, sin] = [Math.cos(ellipse.angle), Math.sin(ellipse.angle)];
  const along = (cos * x + sin * z) / ellipse.semiMajor;
  const across = (cos * z - sin * x) / ellipse.semiMinor;
  return { off: 1000 * Math.hypot(x, z), inside: along ** 2 + across ** 2 <= 1, refused: null };
}

const median = (values: readonly number[]): number => {
  const sorted = values.toSorted((a, b) => a - b);
  const half = sorted.length / 2;
  return ((sorted[Math.ceil(half) - 1] ?? NaN) + (sorted[Math.floor(half)] ?? NaN)) / 2;
};

describe(`photographs of known truth, ${DRAWS} sets of each kind`, () => {
  const kinds = CASES.map((name) => ({
    name,
    outcomes: Array.from({ length: DRAWS }, (_, n) => outcome(name, n)),
  }));
  const share = (outcomes: readonly Outcome[]) =>
    outcomes.filter(({ inside }) => inside).length / outcomes.length;

  describe.each(kinds)('$name', ({ outcomes }) => {
    it('answers every time', () => {
      expect([...new Set(outcomes.flatMap(({ refused }) => refused ?? []))]).toEqual([]);
    });

    it('lies near the truth', () => {
      expect(median(outcomes.map(({ off }) => off))).toBeLessThanOrEqual(tolerance('photographs: median'));
    });

    it('holds the truth in its 95 % region about 19 times in 20', () => {
      expect(share(outcomes)).toBeGreaterThanOrEqual(tolerance('photographs: each kind, least'));
      expect(share(outcomes)).toBeLessThanOrEqual(tolerance('photographs: each kind, most'));
    });
  });

  it('holds the truth 93 to 97 times in 100 over all kinds', () => {
    const all = kinds.flatMap(({ name, outcomes }) => (name === 'near, focal length' ? [] : outcomes));
    const each = kinds.map(({ name, outcomes }) => `${name} ${share(outcomes)}`).join(', ');
    expect(Math.abs(share(all) - 0.95), each).toBeLessThanOrEqual(tolerance('photographs: pooled'));
  });
});
