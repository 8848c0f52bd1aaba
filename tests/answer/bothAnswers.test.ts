import { describe, expect, it } from 'vitest';
import { benchAnswer, type BenchAnswer } from '../../src/answer/benchAnswer';
import { effectsOfUnseenBlunders } from '../../src/answer/blunderEffect';
import { caredOf } from '../../src/answer/caredOf';
import { separating } from '../../src/answer/separating';
import { estimateWithout, withNumberFree } from '../../src/answer/withoutSuspect';
import {
  adjustTruck,
  cared,
  findBlunder,
  kilograms,
  withValue,
  withoutNumber,
  type CaredQuantity,
  type TruckAdjustment,
  type TruckBench,
  type TruckReading,
} from '../../src/physics';
import type { BuildState } from '../../src/sheet/schema';
import { BENCH } from '../physics/blunders/knownTruck';
import { valueOf } from '../physics/given';
import { tolerance } from '../tolerances';
import { demoState } from './demo';

const straps = demoState('straps');

/** The joint adjustment of an answer that has one. */
function jointOf({ joint }: BenchAnswer): TruckAdjustment {
  if (!joint) throw new Error('no joint adjustment');
  return joint;
}
const near = (actual: number, expected: number, part: number, scale = Math.abs(expected)): void =>
  expect(Math.abs(actual - expected), `${actual} beside ${expected}`).toBeLessThan(part * scale);

describe('without what is suspected', () => {
  it('a reading: as if it had never been on the sheet', () => {
    const never: BuildState = { ...straps, readings: straps.readings.filter(({ id }) => id !== 'lift') };
    for (const quantity of ['side tip', 'height', 'climb'] as const) {
      const { value, u } = valueOf(cared(jointOf(benchAnswer(never)), quantity));
      const without = estimateWithout(
        straps,
        benchAnswer(straps),
        { id: 'lift.load', reading: 'lift' },
        quantity,
      );
      near(without?.value ?? NaN, value, tolerance('number free: weight to nothing'), u);
      near(without?.u ?? NaN, u, tolerance('number free: weight to nothing'));
    }
  });

  it('a size of the truck: as if its ± were so wide that it weighs nothing', () => {
    const radius = BENCH.dimensions.rearTireRadius;
    if (!radius) throw new Error('no radius');
    const { u: now } = radius;
    const wide: TruckBench = {
      ...BENCH,
      dimensions: { ...BENCH.dimensions, rearTireRadius: { ...radius, u: 1000 * now } },
    };
    const { value, u } = valueOf(cared(valueOf(adjustTruck(wide)), 'height'));
    const free = withNumberFree(BENCH, 'rearTireRadius', 'height');
    near(free?.value ?? NaN, value, tolerance('number free: weight to nothing'), u);
    near(free?.u ?? NaN, u, tolerance('number free: weight to nothing'));
  });

  it('nothing is told where no other reading tells it', () => {
    const only: BuildState = {
      ...straps,
      readings: straps.readings.filter(({ id }) => ['mass', 'axles', 'lift'].includes(id)),
    };
    expect(
      estimateWithout(only, benchAnswer(only), { id: 'lift.load', reading: 'lift' }, 'height'),
    ).toBeNull();
  });
});

describe('what an unseen blunder would do', () => {
  it.each(['side tip', 'height', 'ahead'] as const)(
    '%s: as much as the number so falsified does',
    (quantity) => {
      const truck = valueOf(adjustTruck(BENCH));
      const before = valueOf(cared(truck, quantity));
      const effects = effectsOfUnseenBlunders(truck, quantity);
      const part = 1e-3;
      for (const { id, detectable } of truck.numbers()) {
        const effect = effects.get(id);
        const number = truck.model.numbers.find((each) => each.id === id);
        // The tip line is no number that can be misread.
        if (id === 'tip line' || detectable === null || effect === null || effect === undefined || !number)
          continue;
        const falsified = withValue(BENCH, id, number.value + part * detectable);
        const after = valueOf(cared(valueOf(adjustTruck(falsified)), quantity));
        near(
          (after.value - before.value) / part,
          effect,
          tolerance('unseen blunder: slope'),
          before.u + Math.abs(effect),
        );
      }
    },
  );

  it('is not told for a number that nothing checks', () => {
    const effects = effectsOfUnseenBlunders(jointOf(benchAnswer(straps)), 'side tip');
    // No hang on a free suspension: the axles' masses enter nowhere.
    expect(effects.get('frontAxleShare')).toBeNull();
  });
});

describe('the reading that tells suspects apart', () => {
  it('does so when it is taken', () => {
    const answer = benchAnswer(straps);
    const told = separating(straps, answer);
    expect(told?.separates).toBe(true);
    expect(told?.work).toEqual({ kind: 'again', reading: 'lift' });
    // Struts in this time: the scale shows what all other readings foretell.
    const { predicted } = valueOf(withoutNumber(answer.bench, 'lift.load'));
    const again: TruckReading[] = answer.bench.readings.flatMap((reading) =>
      reading.kind === 'axle lift'
        ? [{ ...reading, id: 'again', load: { ...reading.load, value: kilograms(predicted) } }]
        : [],
    );
    expect(again).toHaveLength(1);
    const named = findBlunder({ ...answer.bench, readings: [...answer.bench.readings, ...again] })?.named;
    // Before it a tire radius might have been wrong as well.
    expect(answer.blunder?.named?.readings).toContain('rearTireRadius');
    expect(named?.first.reading).toBe('lift');
    expect(named?.readings).not.toContain('rearTireRadius');
  });

  it('is not asked for where all agree', () => {
    const locked = demoState('locked');
    expect(separating(locked, benchAnswer(locked))).toBeNull();
  });
});

describe('the quantity the reader cares about', () => {
  const scalesOnly: BuildState = {
    ...straps,
    readings: straps.readings.filter(({ id }) => ['mass', 'axles'].includes(id)),
  };

  it('is told where the readings determine it, though the answer is open', () => {
    const answer = benchAnswer(scalesOnly);
    expect(answer.cg.ok).toBe(false);
    expect(caredOf(answer, 'ahead').ok).toBe(true);
  });

  it.each(['height', 'side tip', 'climb', 'descent', 'left'] as const satisfies readonly CaredQuantity[])(
    '%s: is refused where no reading tells it',
    (quantity) => {
      const found = caredOf(benchAnswer(scalesOnly), quantity);
      expect(found.ok ? 'told' : found.reason).toBe('undetermined');
    },
  );

  it('is refused without any answer', () => {
    const { dimensions } = straps;
    const broken: BuildState = {
      ...straps,
      dimensions: { ...dimensions, wheelbase: { ...dimensions.wheelbase, text: 'three' } },
    };
    const found = caredOf(benchAnswer(broken), 'height');
    expect(found.ok ? 'told' : found.reason).toBe('no answer');
  });
});
