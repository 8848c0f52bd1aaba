import { describe, expect, test } from 'vitest';
import { agreementOf } from '../../src/answer/agreement';
import { benchAnswer } from '../../src/answer/benchAnswer';
import { answerWith, answerWithout, withCounted } from '../../src/answer/without';
import { valueOf } from '../physics/given';
import { demoState } from './demo';

const height = (answer: ReturnType<typeof benchAnswer>) => valueOf(answer.cg).height;

describe('each method beside the answer', () => {
  const state = demoState('locked');
  const answer = benchAnswer(state);
  const rows = agreementOf(state, answer, 'height');

  test('has one row a method: pictures, scales, each lift, both sides of the board together', () => {
    expect(rows.filter(({ kind }) => kind === 'picture lines')).toHaveLength(1);
    expect(rows.filter(({ kind }) => kind === 'axle lift')).toHaveLength(2);
    const boards = rows.filter(({ kind, standing }) => kind === 'tilt' && standing === 'agrees');
    expect(boards.map(({ readings }) => readings)).toEqual([
      ['board-left', 'board-right'],
      ['board-nose-up'],
    ]);
    expect(rows.filter(({ title }) => title === 'Scales')).toHaveLength(1);
  });

  test('tells no height from scales or an edge', () => {
    for (const row of rows.filter(({ title, kind }) => title === 'Scales' || kind === 'balance'))
      expect(row.alone, row.title).toBeNull();
  });

  test('is less sure alone than all together, and agrees within 3 u', () => {
    const joint = height(answer);
    const told = rows.flatMap(({ alone, title }) => (alone ? [{ alone, title }] : []));
    expect(told.length).toBeGreaterThanOrEqual(5);
    for (const { alone, title } of told) {
      expect(alone.u, title).toBeGreaterThan(joint.u);
      expect(Math.abs(alone.value - joint.value), title).toBeLessThan(3 * alone.u);
    }
  });

  test('shows what is only recorded without a number', () =>
    expect(rows.find(({ readings }) => readings.includes('board-first-wheel'))).toMatchObject({
      standing: 'recorded only',
      alone: null,
    }));

  test('keeps the number of a reading that was set aside, and of its group the rest', () => {
    const aside = withCounted(state, 'board-left', false);
    const lines = agreementOf(aside, benchAnswer(aside), 'height');
    expect(lines.find(({ readings }) => readings[0] === 'board-left')).toMatchObject({
      standing: 'set aside',
      readings: ['board-left'],
    });
    expect(lines.find(({ readings }) => readings[0] === 'board-right')).toMatchObject({ standing: 'agrees' });
  });

  test('tells the lateral place without the assumed one', () => {
    const lines = agreementOf(state, answer, 'left');
    const wheels = lines.find(({ title }) => title === 'Scales');
    expect(wheels?.alone?.u).toBeLessThan(0.001);
    // One axle lift says nothing of left or right.
    expect(lines.find(({ kind }) => kind === 'axle lift')?.alone).toBeNull();
  });
});

describe('a lift on live springs', () => {
  const state = demoState('straps');
  const answer = benchAnswer(state);

  test('is the reading that is named', () => {
    expect(answer.blunder?.named?.first.reading).toBe('lift');
    expect(
      agreementOf(state, answer, 'height').find(({ readings }) => readings[0] === 'lift')?.standing,
    ).toBe('does not agree');
  });

  test('without it the answer is the answer of the state with it set aside', () => {
    const without = answerWithout(state, 'lift');
    const aside = {
      ...state,
      readings: state.readings.map((each) => (each.id === 'lift' ? { ...each, counted: false } : each)),
    };
    expect(height(without)).toEqual(height(benchAnswer(aside)));
    expect(height(without).value).toBeLessThan(height(answer).value);
    expect(without.blunder?.named).toBeNull();
  });

  test('nothing was dropped: with it again the answer is the same', () => {
    const aside = withCounted(state, 'lift', false);
    expect(height(answerWith(aside, 'lift')).value).toBeCloseTo(height(answer).value, 9);
  });

  test('asking twice computes once', () =>
    expect(answerWithout(state, 'lift')).toBe(answerWithout(state, 'lift')));
});
