import { describe, expect, test } from 'vitest';
import { benchAnswer } from '../../src/answer/benchAnswer';
import type { BuildState } from '../../src/sheet/schema';
import { demoState } from './demo';

/** The demo's third state was measured without a camera. */
const state = demoState('straps');
const withReadings = (keep: (id: string) => boolean): BuildState => ({
  ...state,
  readings: state.readings.filter(({ id }) => keep(id)),
});
const emptied = <T extends { text: string }>(given: T): T => ({ ...given, text: '' });

describe('a bench without pictures', () => {
  test('tells what scales tell, and asks for what tells the height', () => {
    const answer = benchAnswer(withReadings((id) => id === 'mass' || id === 'axles'));
    expect(answer.cg.ok).toBe(false);
    expect(answer.known.ahead?.u).toBeLessThan(0.001);
    expect(answer.missing).toEqual([]);
    expect(answer.next.text).toMatch(/height to ±|side tip to ±/);
  });

  test('asks for the size that a reading waits for before anything new', () => {
    const { dimensions } = state;
    const waiting = { ...state, dimensions: { ...dimensions, wheelbase: emptied(dimensions.wheelbase) } };
    expect(benchAnswer(waiting).next.text).toMatch(/^Measure the wheelbase: “.+” waits for it\.$/);
  });

  test('goes on without a reading that cannot be read, and says so', () => {
    const broken: BuildState = {
      ...state,
      readings: state.readings.map((reading) =>
        reading.kind === 'tilt board' && reading.toward === 'left'
          ? { ...reading, angle: { ...reading.angle, text: 'abc' } }
          : reading,
      ),
    };
    const answer = benchAnswer(broken);
    expect(answer.cg.ok).toBe(true);
    const told = answer.warnings.find(({ code }) => code === 'reading unread');
    expect(told?.text).toContain('“abc');
    expect(answer.next.href).toMatch(/^#readings\//);
  });

  test('says that all was set aside, not that nothing was measured', () => {
    const none: BuildState = {
      ...state,
      readings: state.readings.map((reading) => ({ ...reading, counted: false })),
    };
    const { cg } = benchAnswer(none);
    expect(cg).toMatchObject({
      ok: false,
      message: `You set all ${state.readings.length} readings aside. Count one again, or measure anew.`,
    });
  });
});
