import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import {
  emptyAxleLift,
  emptyAxleScales,
  emptyBalanceOnEdge,
  emptyBodyMark,
  emptyChange,
  emptyGiven,
  emptyHangLine,
  emptyHook,
  emptyPart,
  emptyPicture,
  emptyState,
  emptyTiltBoard,
  emptyTotalMass,
  emptyWheelScales,
} from '../../src/sheet/empty';
import { FIELDS } from '../../src/sheet/fields';
import {
  placeholder,
  plusMinusPlaceholder,
  readGiven,
  remarkOn,
  typeInto,
  type GivenField,
} from '../../src/sheet/given';
import { givensOf } from '../../src/sheet/givens';
import { tolerance } from '../tolerances';
import { UNITS } from '../../src/sheet/dimensions';
import type { BuildState, Given } from '../../src/sheet/schema';

const expectNear = (got: number, wanted: number, name: Parameters<typeof tolerance>[0]): void =>
  expect(Math.abs(got - wanted), `${got} instead of ${wanted}, ${name}`).toBeLessThanOrEqual(tolerance(name));

const typed = (text: string, unit = 'mm', plusMinus = '', kind: Given['kind'] = 'expanded'): Given => ({
  text,
  unit,
  plusMinus,
  kind,
});

const value = (given: Given, field: GivenField): { value: number; u: number } => {
  const read = readGiven(given, field);
  if (!read.ok) throw new Error(read.message);
  return read.value;
};

const message = (given: Given, field: GivenField): string => {
  const read = readGiven(given, field);
  return read.ok ? `read ${read.value.value}` : read.message;
};

describe('a given in SI', () => {
  // Inch, ounce and pound: exact by definition, NIST SP 811 (2008), B.8.
  test.each([
    ['313', 'mm', 0.313],
    ['12.3 in', 'mm', 0.31242],
    ['12 3/8', 'in', 0.314325],
    ['31,3', 'cm', 0.313],
  ])('length %j %s', (text, unit, meters) => {
    expectNear(value(typed(text, unit), FIELDS.wheelbase).value, meters, 'sheet: unit conversion');
  });

  test.each([
    ['2940', 'g', 2.94],
    ['6 lb 8 oz', 'g', 6.5 * 0.45359237],
    ['104', 'oz', 104 * 0.028349523125],
  ])('mass %j %s', (text, unit, kilograms) => {
    expectNear(value(typed(text, unit), FIELDS.totalMass).value, kilograms, 'sheet: unit conversion');
  });

  test.each([
    ['4', 'deg', (4 * Math.PI) / 180],
    ['0.07', 'rad', 0.07],
    // 10 % grade is a slope of atan(0.1).
    ['10', '%', Math.atan(0.1)],
  ])('angle %j %s', (text, unit, radians) => {
    expectNear(value(typed(text, unit), FIELDS.oblique).value, radians, 'sheet: unit conversion');
  });
});

describe('a ± becomes a standard uncertainty', () => {
  test('expanded: divided by 1.959964', () => {
    expectNear(
      value(typed('313', 'mm', '1'), FIELDS.wheelbase).u,
      0.001 / 1.959964,
      'sheet: unit conversion',
    );
  });

  // JCGM 100:2008, 4.3.7: u of limits ±a is a/√3.
  test('limits: divided by √3', () => {
    expectNear(
      value(typed('313', 'mm', '1', 'limits'), FIELDS.wheelbase).u,
      0.001 / Math.sqrt(3),
      'sheet: unit conversion',
    );
  });

  test('in its own unit, else in the unit typed behind the value', () => {
    expectNear(
      value(typed('12.3', 'in', '1 mm'), FIELDS.wheelbase).u,
      0.001 / 1.959964,
      'sheet: unit conversion',
    );
    expectNear(
      value(typed('12.3 in', 'mm', '0.1'), FIELDS.wheelbase).u,
      0.00254 / 1.959964,
      'sheet: unit conversion',
    );
    expectNear(
      value(typed('313', 'mm', '± 2'), FIELDS.wheelbase).u,
      0.002 / 1.959964,
      'sheet: unit conversion',
    );
  });

  test('as a share of the value', () => {
    expectNear(
      value(typed('2000', 'g', '1 %'), FIELDS.totalMass).u,
      0.02 / 1.959964,
      'sheet: unit conversion',
    );
  });

  test('in percent grade is worth cos² as much angle', () => {
    const half = 1e-4;
    const slope = 0.3;
    const difference = (Math.atan(slope + half) - Math.atan(slope - half)) / (2 * half);
    const { u } = value(typed('30', '%', '1'), FIELDS.oblique);
    expectNear(u, (0.01 * difference) / 1.959964, 'sheet: slope of a grade');
  });

  test('empty: the field’s default', () => {
    expectNear(value(typed('313'), FIELDS.wheelbase).u, 0.001 / 1.959964, 'sheet: unit conversion');
    expectNear(value(typed('2940', 'g'), FIELDS.totalMass).u, 0.005 / Math.sqrt(3), 'sheet: unit conversion');
  });

  test.each([
    [
      '0',
      'Wheelbase, ±: needs a number above zero, since no reading is exact; got “0 mm”. Leave it empty for the usual ± 1 mm.',
    ],
    [
      '-1',
      'Wheelbase, ±: needs a number above zero, since no reading is exact; got “-1 mm”. Leave it empty for the usual ± 1 mm.',
    ],
    ['wide', 'Wheelbase, ±: needs a number; got “wide”. Leave it empty for the usual ± 1 mm.'],
    [
      '1 g',
      'Wheelbase, ±: needs a length in mm, cm, m or in; got “1 g”. Leave it empty for the usual ± 1 mm.',
    ],
    ['9999', 'Wheelbase, ±: needs at most 3000 mm; got “9999 mm”. Leave it empty for the usual ± 1 mm.'],
    ['1,234', 'Wheelbase, ±: needs one meaning; got “1,234”. Leave it empty for the usual ± 1 mm.'],
  ])('typed %j is refused', (plusMinus, text) => {
    expect(message(typed('313', 'mm', plusMinus), FIELDS.wheelbase)).toBe(text);
  });
});

describe('the law of a ±', () => {
  test('is rectangular under hard limits, typed or usual, and else not named', () => {
    const limits = { law: 'rectangular' };
    expect(value(typed('313', 'mm', '1', 'limits'), FIELDS.wheelbase)).toMatchObject(limits);
    expect(value(typed('2940', 'g'), FIELDS.totalMass)).toMatchObject(limits);
    expect(value(typed('2940', 'g', '5'), FIELDS.totalMass)).not.toHaveProperty('law');
    expect(value(typed('313'), FIELDS.wheelbase)).not.toHaveProperty('law');
    // The kind speaks of a typed ±; while none is typed, the usual one has its own.
    expect(value(typed('313', 'mm', '', 'limits'), FIELDS.wheelbase)).not.toHaveProperty('law');
    expect(value(typed('2', 'px', '', 'limits'), FIELDS.markPlusMinus)).not.toHaveProperty('law');
  });
});

describe('fields that hold a value while empty', () => {
  test('camera distance 1.5 m, u 0.5 m', () => {
    const { value: distance, u } = value(emptyGiven('m'), FIELDS.distance);
    expect(distance).toBe(1.5);
    expectNear(u, 0.5, 'sheet: rounded default');
  });

  // Defaults of what all readings of an instrument share, as the workbook's plan has them.
  test.each([
    ['scale', FIELDS.scaleZero, 'g', 0.001],
    ['ruler', FIELDS.rulerZero, 'mm', 0.0003],
    ['level', FIELDS.levelZero, 'deg', (0.2 * Math.PI) / 180],
  ])('the zero of the %s', (_name, field, unit, width) => {
    const { value: zero, u } = value(emptyGiven(unit), field);
    expect(zero).toBe(0);
    expectNear(u, width / 1.959964, 'sheet: unit conversion');
  });

  test('droop that was not measured: 0 ± 24 mm; measured: the ruler’s ±', () => {
    expectNear(value(emptyGiven('mm'), FIELDS.frontDroop).u, 0.024 / 1.959964, 'sheet: unit conversion');
    expectNear(value(typed('12'), FIELDS.frontDroop).u, 0.002 / 1.959964, 'sheet: unit conversion');
  });

  test('a mass that is not moved sideways', () => {
    expect(value(emptyGiven('mm'), FIELDS.movedLeft).value).toBe(0);
  });

  test('their ± can be typed all the same', () => {
    expectNear(value(typed('', 'm', '0.1'), FIELDS.distance).u, 0.1 / 1.959964, 'sheet: unit conversion');
  });
});

describe('messages', () => {
  test.each([
    ['', 'Wheelbase: needs a number; nothing is entered. Measure hub to hub, often 313 mm.'],
    ['0', 'Wheelbase: needs a length above zero; got “0 mm”. Measure hub to hub, often 313 mm.'],
    ['-3', 'Wheelbase: needs a length above zero; got “-3 mm”. Measure hub to hub, often 313 mm.'],
    ['1e9', 'Wheelbase: needs a length of at most 3000 mm; got “1e9 mm”. Measure hub to hub, often 313 mm.'],
    [
      '999 in',
      'Wheelbase: needs a length of at most 118.1 in; got “999 in”. Measure hub to hub, often 313 mm.',
    ],
    ['long', 'Wheelbase: needs a number; got “long”. Measure hub to hub, often 313 mm.'],
    ['3 kg', 'Wheelbase: needs a length in mm, cm, m or in; got “3 kg”. Measure hub to hub, often 313 mm.'],
    ['1,234', 'Wheelbase: needs one meaning; got “1,234”. Type 1.234 or 1234.'],
  ])('wheelbase %j', (text, expected) => {
    expect(message(typed(text), FIELDS.wheelbase)).toBe(expected);
  });

  test('an unusual value is remarked on, in the reader’s unit', () => {
    expect(remarkOn(typed('3.13', 'in'), FIELDS.wheelbase)).toBe(
      'Wheelbase: 3.13 in is unusual; small trail trucks have 9.528 to 12.76 in. Check number and unit.',
    );
    expect(remarkOn(typed('313'), FIELDS.wheelbase)).toBeNull();
    expect(remarkOn(typed('-3'), FIELDS.wheelbase)).toBeNull();
  });

  test('empty fields show what is common, in their own unit', () => {
    expect(placeholder(FIELDS.wheelbase, 'mm')).toBe('often 313');
    expect(placeholder(FIELDS.wheelbase, 'in')).toBe('often 12.32');
    expect(placeholder(FIELDS.distance, 'm')).toBe('1.5');
    expect(plusMinusPlaceholder(FIELDS.wheelbase, 'cm')).toBe('0.1');
  });
});

describe('typing a unit', () => {
  test('moves it into the unit, and leaves the ± what it was', () => {
    const draft = typed('313', 'mm', '1');
    const edited = { ...draft };
    typeInto(edited, '12 3/8"', 'length');
    expect(edited).toEqual({ text: '12 3/8', unit: 'in', plusMinus: '1 mm', kind: 'expanded' });
  });

  test('that the dimension does not have keeps the text for the message', () => {
    const edited = { ...typed('313') };
    typeInto(edited, '3 kg', 'length');
    expect(edited).toEqual(typed('3 kg'));
  });
});

/** A state with one of everything. */
function fullState(): BuildState {
  const state = emptyState();
  state.parts.push(emptyPart());
  state.bodyMarks.push(emptyBodyMark('A'));
  state.hooks.push(emptyHook());
  state.pictures.push(emptyPicture('hanging', 100, 100));
  state.readings.push(
    emptyTotalMass(),
    emptyAxleScales(),
    emptyWheelScales(),
    emptyAxleLift(),
    emptyHangLine(),
    emptyTiltBoard(),
    emptyBalanceOnEdge(),
    { ...emptyBalanceOnEdge(), edge: 'along the truck' },
  );
  state.changes.push(emptyChange(), { ...emptyChange(), kind: 'added' });
  return state;
}

/** Every record in `value` that has the shape of a given. */
function givensIn(record: unknown): object[] {
  if (typeof record !== 'object' || record === null) return [];
  if ('plusMinus' in record && 'unit' in record) return [record];
  return Object.values(record).flatMap(givensIn);
}

describe('every field of the sheet', () => {
  const state = fullState();
  const placed = [...givensOf(state)];

  test('is in the table of fields', () => {
    expect(new Set(placed.map(({ given }) => given))).toEqual(new Set(givensIn(state)));
    expect(placed).toHaveLength(givensIn(state).length);
    for (const { given, field } of placed) expect(UNITS[field.dimension]).toContain(given.unit);
  });

  test('is found at its path', () => {
    for (const { path, given } of placed) {
      const found = path.reduce<unknown>(
        (record, key) =>
          typeof record === 'object' && record !== null ? Reflect.get(record, key) : undefined,
        state,
      );
      expect(found).toBe(given);
    }
  });

  test('has a label of its own, also in a second reading of a sort', () => {
    const twice = fullState();
    twice.readings.push(...fullState().readings);
    twice.readings.push({ ...emptyAxleLift(), raised: 'rear axle' });
    twice.changes.push(...fullState().changes);
    const labels = [...givensOf(twice)].map(({ field }) => field.label);
    expect(labels.filter((label, index) => labels.indexOf(label) < index)).toEqual([]);
    expect(labels).toContain('Total mass, reading 2');
    expect(labels).toContain('Front axle on scales, reading 2');
    expect(labels).toContain('Axle lift, nose up, reading 2, scale under the rear axle');
    expect(labels).toContain('Axle lift, tail up, rise');
    expect(labels).toContain('Change 4, above ground');
  });

  const GRAMMAR = /^[^:]+: needs [^;]+; (got “.*”|nothing is entered)\. [A-Z].+[.]$/;
  const fields: Record<string, GivenField> = FIELDS;

  describe.each(Object.entries(fields))('%s', (_name, field) => {
    const [unit = ''] = UNITS[field.dimension];
    const other = field.dimension === 'mass' ? 'mm' : 'kg';
    const zeroIsFine =
      field.limits.notZero !== true &&
      (field.limits.least !== undefined ? field.limits.least.number <= 0 : false);
    const negativeIsFine = field.limits.least !== undefined && field.limits.least.number < 0;

    test.each([
      ['empty', '', field.whenEmpty === null],
      ['zero', '0', !zeroIsFine],
      ['negative', '-1', !negativeIsFine],
      ['huge', '1e30', true],
      ['hugely negative', '-1e30', true],
      ['beyond all numbers', '1e999', true],
      ['text', 'abc', true],
      ['wrong unit', `1 ${other}`, true],
      ['unknown unit', '1 furlong', true],
    ])('%s', (_case, text, refused) => {
      const read = readGiven(typed(text, unit), field);
      if (!refused) {
        expect(read).toMatchObject({ ok: true });
        return;
      }
      expect(read.ok).toBe(false);
      expect(read.ok ? '' : read.message).toMatch(GRAMMAR);
      expect(read.ok ? '' : read.message.startsWith(`${field.label}: `)).toBe(true);
    });

    test('its own common value, default and ± can be read', () => {
      const own = field.whenEmpty ?? field.often ?? field.believable?.[1];
      if (!own) throw new Error('no value of its own');
      const read = value(typed(String(own.number), own.unit), field);
      expect(Number.isFinite(read.value)).toBe(true);
      if (field.plusMinus !== null) expect(read.u).toBeGreaterThan(0);
      expect(remarkOn(typed(String(own.number), own.unit), field)).toBeNull();
    });

    test('never gives a number that is none, whatever is typed', () => {
      fc.assert(
        fc.property(fc.string({ unit: 'grapheme' }), fc.string(), (text, plusMinus) => {
          const read = readGiven(typed(text, unit, plusMinus), field);
          if (read.ok) expect([read.value.value, read.value.u].every(Number.isFinite)).toBe(true);
          else expect(read.message).not.toBe('');
        }),
        { numRuns: 50 },
      );
    });
  });
});
