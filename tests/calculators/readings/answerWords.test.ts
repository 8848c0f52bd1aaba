import { describe, expect, test } from 'vitest';
import { benchAnswer } from '../../../src/answer/benchAnswer';
import { caredText, chartValueOf, signedText, sizeText } from '../../../src/calculators/readings/caredWords';
import { addReadings, readingsFor } from '../../../src/calculators/readings/furtherEdits';
import { givenOf, numberText, pathOfNumber } from '../../../src/calculators/readings/typedNumberOf';
import { outOf, verdictOf } from '../../../src/calculators/readings/verdict';
import { NO_BREAK } from '../../../src/calculators/shared/format';
import { givensByPath } from '../../../src/calculators/shared/givensByPath';
import { degrees, kilograms, mass, millimeters, usualCandidates } from '../../../src/physics';
import { readGiven } from '../../../src/sheet/given';
import { validSheet } from '../../../src/sheet/migrations';
import { demoState } from '../../answer/demo';
import { axles, mass as weighed, sheetWith, stateWith } from './states';

const plain = (text: string): string => text.replaceAll(NO_BREAK, ' ');

describe('numbers of the quantity the reader cares about', () => {
  const u = degrees(0.34) / 1.959964;
  test.each([
    ['side tip', { value: degrees(43.83), u }, 'mm', '43.8° ± 0.3°'],
    ['height', { value: millimeters(94), u: millimeters(0.92) }, 'mm', '94.0 ± 1.8 mm'],
    ['height', { value: millimeters(94), u: millimeters(0.92) }, 'in', '3.70 ± 0.07 in'],
    ['left', { value: millimeters(-3), u: millimeters(1) }, 'mm', '−3.0 ± 2.0 mm'],
  ] as const)('%s in %s', (quantity, estimate, unit, text) => {
    expect(plain(caredText(quantity, estimate, unit))).toBe(text);
  });

  test('a chart takes the ±, not the standard uncertainty', () => {
    const { value, halfWidth } = chartValueOf('height', { value: millimeters(94), u: millimeters(1) }, 'mm');
    expect(value).toBeCloseTo(94, 9);
    expect(halfWidth).toBeCloseTo(1.959964, 6);
  });

  test('a size shows, however small, and has its sign only where it shows', () => {
    expect(sizeText('side tip', degrees(1.84), 'mm')).toBe('1.8°');
    expect(sizeText('side tip', degrees(0.012), 'mm')).toBe('0.01°');
    expect(signedText('side tip', degrees(1), 'mm')).toBe('+1.0°');
    expect(plain(signedText('height', millimeters(-3.24), 'mm'))).toBe('−3.2 mm');
    expect(signedText('side tip', 0, 'mm')).toBe('0.0°');
  });
});

describe('chance in words', () => {
  test.each([
    [0.778, '78 in 100'],
    [0.9999, '99 in 100'],
    [0.0103, '1 in 100'],
    [0.0042, '4 in 1000'],
    [0.0002, 'fewer than 1 in 1000'],
  ])('%f', (probability, words) => {
    expect(outOf(probability)).toBe(words);
  });

  test('the demo bench agrees; lifted on live springs it does not', () => {
    expect(verdictOf(benchAnswer(demoState('locked')))?.title).toBe('The readings agree:');
    expect(verdictOf(benchAnswer(demoState('straps')))?.title).toBe('The readings do not all agree.');
  });

  test('where nothing is more than needed, nothing is said to agree', () => {
    expect(verdictOf({ consistency: null, blunder: null })?.title).toBe('Nothing checks this yet.');
  });
});

describe('what the reader typed for a number of the estimate', () => {
  test.each(['locked', 'free', 'straps'] as const)(
    '%s: every number that was typed is found, and is that number',
    (id) => {
      const state = demoState(id);
      const answer = benchAnswer(state);
      const numbers = answer.joint?.model.numbers ?? [];
      expect(numbers.length).toBeGreaterThan(10);
      const lines = new Set(answer.lines.map(({ pictureId }) => pictureId));
      for (const number of numbers) {
        if (lines.has(number.id) || number.id === 'tip line' || number.id.endsWith('AxleShare')) continue;
        const placed = givenOf(state, number.id);
        expect(placed, number.id).not.toBeNull();
        if (!placed) continue;
        const read = readGiven(placed.given, placed.field);
        if (read.ok) expect(read.value.value, number.id).toBeCloseTo(number.value, 9);
      }
    },
  );

  test('a path leads to a given of the state', () => {
    const state = stateWith(weighed('2939'), axles('1604', '1335'));
    expect(givensByPath(state).has(pathOfNumber(state, 'axles.rear') ?? '')).toBe(true);
    expect(pathOfNumber(state, 'axles.rear')).toBe('readings/1/rear');
    expect(pathOfNumber(state, 'gone.load')).toBeNull();
    expect(pathOfNumber(state, 'tip line')).toBeNull();
  });

  test.each([
    ['mass', kilograms(0.0236), 'g', '24 g'],
    ['mass', mass(2.5, 'lb'), 'lb', '2.50 lb'],
    ['mass', kilograms(0.0236), 'kg', '0.024 kg'],
    ['length', millimeters(3.14), null, '3.1 mm'],
    ['length', millimeters(0.004), 'mm', '0.004 mm'],
    ['angle', degrees(1.44), 'deg', '1.4°'],
    ['share', 0.1, null, '10.0 %'],
  ] as const)('%s %f in %s', (kind, value, unit, text) => {
    expect(plain(numberText(kind, value, unit))).toBe(text);
  });

  test('the difference of two grades is an angle, a grade itself a percentage', () => {
    expect(plain(numberText('angle', degrees(45), '%'))).toBe('100.0 %');
    expect(numberText('angle', degrees(2), '%', true)).toBe('2.0°');
  });
});

describe('a further reading', () => {
  test.each(['locked', 'free', 'straps'] as const)(
    '%s: every one that is read here leaves a valid sheet',
    (id) => {
      const state = demoState(id);
      const { bench, joint } = benchAnswer(state);
      if (!joint) throw new Error('no answer');
      const candidates = usualCandidates(bench, joint, { hooksInPictures: [] });
      expect(candidates.length).toBeGreaterThan(5);
      for (const candidate of candidates) {
        const readings = readingsFor(state, candidate);
        const { kind } = candidate.work;
        const elsewhere = kind === 'dimension' || kind === 'tip line';
        expect(readings.length > 0, candidate.id).toBe(!elsewhere);
        const draft = structuredClone(sheetWith(state));
        addReadings(readings)(draft);
        const valid = validSheet(draft);
        expect(valid.ok ? '' : valid.message, candidate.id).toBe('');
        expect(draft.states[0]?.readings).toHaveLength(state.readings.length + readings.length);
        for (const reading of readings) expect(reading).toMatchObject({ counted: true, note: '' });
      }
    },
  );

  test('a lift is raised and weighed as planned, a board goes over the sides asked for', () => {
    const state = demoState('straps');
    const { bench, joint } = benchAnswer(state);
    if (!joint) throw new Error('no answer');
    const candidates = usualCandidates(bench, joint, { hooksInPictures: [] });
    const lift = candidates.find(({ work }) => work.kind === 'axle lift' && work.raised === 'front');
    const [planned] = lift?.readings ?? [];
    const [read] = lift ? readingsFor(state, lift) : [];
    expect(read).toMatchObject({ kind: 'axle lift', raised: 'front axle' });
    if (planned?.kind === 'axle lift' && read?.kind === 'axle lift')
      expect(read.scaleUnder).toBe(`${planned.scaleUnder} axle`);
    const board = candidates.find(({ work }) => work.kind === 'board' && work.toward.length === 2);
    const tilts = board ? readingsFor(state, board) : [];
    expect(new Set(tilts.map((tilt) => tilt.kind === 'tilt board' && tilt.toward))).toEqual(
      new Set(['left', 'right']),
    );
  });
});
