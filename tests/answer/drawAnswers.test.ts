import { describe, expect, test } from 'vitest';
import { benchAnswer } from '../../src/answer/benchAnswer';
import { drawAnswers } from '../../src/answer/monteCarlo/drawAnswers';
import { reasonOf, valueOf } from '../physics/given';
import { tolerance } from '../tolerances';
import { demoState } from './demo';

const now = () => Promise.resolve();
const { bench, cg } = benchAnswer(demoState('locked'));

describe('Monte Carlo of the whole adjustment', () => {
  test('is repeatable, reports as it goes, and keeps to first order on a good bench', async () => {
    const heard: number[] = [];
    const order = { bench, draws: 4000, start: 7 };
    const first = valueOf(await drawAnswers(order, (drawn) => heard.push(drawn), now));
    const again = valueOf(await drawAnswers(order, () => undefined, now));
    expect(heard).toEqual([1000, 2000, 3000, 4000]);
    expect(first).toEqual(again);
    expect(first.failed).toBe(0);
    const height = first.quantities.find(({ quantity }) => quantity === 'height');
    const { value, u } = valueOf(cg).height;
    const { mean, u: drawn } = height?.validation.monteCarlo ?? { mean: NaN, u: NaN };
    expect(Math.abs(mean - value) / u).toBeLessThan(tolerance('draws: mean'));
    expect(Math.abs(drawn / u - 1)).toBeLessThan(tolerance('draws: u'));
  });

  test('is refused where nothing determines the truck', async () => {
    const few = { ...bench, readings: bench.readings.filter(({ kind }) => kind === 'total mass') };
    expect(reasonOf(await drawAnswers({ bench: few, draws: 100, start: 1 }, () => undefined, now))).toBe(
      'no answer',
    );
  });
});
