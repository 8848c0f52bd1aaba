import { describe, expect, test } from 'vitest';
import { benchAnswer } from '../../src/answer/benchAnswer';
import { changesSeen } from '../../src/answer/changes';
import { canSee, differenceOf } from '../../src/answer/seen';
import { valueOf } from '../physics/given';
import { tolerance } from '../tolerances';
import { demoState } from './demo';

const state = demoState('locked');
const answer = benchAnswer(state);

describe('can this bench see it', () => {
  test('measured anew, two builds must differ by (1.960 + 1.645) √2 u', () => {
    const { u } = valueOf(answer.cg).height;
    const limit = canSee(answer, 'height')?.independent.limit ?? NaN;
    expect(Math.abs(limit / ((1.959964 + 1.644854) * Math.SQRT2 * u) - 1)).toBeLessThan(
      tolerance('seen: factor'),
    );
  });

  test.each(['height', 'side tip', 'ahead', 'left'] as const)(
    'with hooks, marks, camera and ruler kept, less is seen of %s',
    (quantity) => {
      const seeing = canSee(answer, quantity);
      if (!seeing) throw new Error('a limit');
      expect(seeing.reused.limit).toBeGreaterThan(0);
      expect(seeing.reused.limit).toBeLessThan(seeing.independent.limit);
    },
  );

  test('the same build measured twice alike does not differ', () => {
    const difference = differenceOf(answer, answer, 'side tip');
    expect(difference?.difference).toBe(0);
  });

  test('a track measured anew brings its own error into the difference', () => {
    const { dimensions } = state;
    const { frontTrack } = dimensions;
    const anew = {
      ...state,
      dimensions: {
        ...dimensions,
        frontTrack: { ...frontTrack, text: String(Number(frontTrack.text) + 0.2) },
      },
    };
    const kept = differenceOf(answer, answer, 'side tip')?.seeing.reused.limit ?? NaN;
    const again = differenceOf(answer, benchAnswer(anew), 'side tip')?.seeing.reused.limit ?? NaN;
    expect(again).toBeGreaterThan(1.1 * kept);
  });

  test('another build differs by what the two answers differ by', () => {
    const other = benchAnswer(demoState('straps'));
    const { difference } = differenceOf(answer, other, 'height') ?? { difference: NaN };
    expect(difference).toBeCloseTo(valueOf(other.cg).height.value - valueOf(answer.cg).height.value, 12);
  });
});

describe('changes on the sheet', () => {
  const changes = changesSeen(state, answer, 'height');

  test('a pack moved down lowers the whole by its share of the mass', () => {
    const pack = changes.find(({ id }) => id === 'pack-lower');
    const mass = valueOf(answer.cg).mass?.value ?? NaN;
    // 238 g of it, 40 mm lower: first moments.
    expect(Math.abs((pack?.effect?.difference.value ?? NaN) - (-0.238 * 0.04) / mass)).toBeLessThan(
      tolerance('changes: first moments'),
    );
  });

  test('each has its verdict by the detection limit', () => {
    expect(changes).toHaveLength(4);
    for (const { effect, seeings, independent } of changes) {
      const size = Math.abs(effect?.difference.value ?? NaN);
      const limits = seeings?.independent;
      expect(independent).toBe(
        size >= (limits?.limit ?? NaN) ? 'seen' : size >= (limits?.threshold ?? NaN) ? 'between' : 'not seen',
      );
    }
  });

  test('one that cannot be read says why at its place', () => {
    const broken = {
      ...state,
      changes: state.changes.map((each, i) =>
        i === 0 ? { ...each, mass: { ...each.mass, text: 'some' } } : each,
      ),
    };
    const [first, second] = changesSeen(broken, benchAnswer(broken), 'height');
    expect(first).toMatchObject({ effect: null });
    expect(first?.why).toContain('some');
    expect(second?.effect).not.toBeNull();
  });
});
