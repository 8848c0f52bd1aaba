import { readFileSync } from 'node:fs';
import { afterAll, describe, expect, test } from 'vitest';
import {
  emptyChange,
  emptyHangLine,
  emptyHook,
  emptyPart,
  emptyPicture,
  emptySheet,
} from '../../src/sheet/empty';
import { checkSteps, lift, migrate, MIGRATIONS, type MigrationStep } from '../../src/sheet/migrations';
import { sheetFromText } from '../../src/sheet/file';
import { SHEET_FORMAT, SHEET_VERSION, type BenchSheet } from '../../src/sheet/schema';

const header = (version: number) => ({ format: SHEET_FORMAT, version });

/** Two invented steps that stand for real ones: a field renamed, a field split. */
const STEPS: readonly MigrationStep[] = [
  {
    from: 1,
    what: 'weight is called mass',
    change: ({ weight, ...rest }) => ({ ...rest, mass: weight }),
  },
  {
    from: 2,
    what: 'one track becomes front and rear track',
    change: ({ track, ...rest }) => ({ ...rest, frontTrack: track, rearTrack: track }),
  },
];

const blank = (unit: string) => ({ text: '', unit, plusMinus: '', kind: 'expanded' });
/** What version 2 adds to every state. */
const ADDED = {
  instruments: { scaleZero: blank('g'), rulerZero: blank('mm'), levelZero: blank('deg') },
  countPartsList: false,
  changes: [],
};
const typedMass = { text: '6 lb 7 oz', unit: 'lb', plusMinus: '0.2 oz', kind: 'limits' };
const onlyPlusMinus = { text: '', unit: 'g', plusMinus: '20', kind: 'expanded' };
const axles = { id: 'axles', kind: 'axle scales' };

/** Literal before and after of every step, of the invented ones and of the sheet's own. */
const CASES: readonly { table: 'invented' | 'own'; from: number; before: object; after: object }[] = [
  {
    table: 'invented',
    from: 1,
    before: { ...header(1), weight: 2940, track: 186 },
    after: { ...header(2), mass: 2940, track: 186 },
  },
  {
    table: 'invented',
    from: 2,
    before: { ...header(2), mass: 2940, track: 186 },
    after: { ...header(3), mass: 2940, frontTrack: 186, rearTrack: 186 },
  },
  {
    table: 'own',
    from: 1,
    before: {
      ...header(1),
      name: 'Thistle',
      states: [
        { id: 'typed', mass: typedMass, readings: [axles], note: 'kept' },
        { id: 'not typed', mass: { ...blank('g'), text: ' ' }, readings: [axles] },
        { id: 'only a ±', mass: onlyPlusMinus, readings: [] },
        {
          id: 'ids taken',
          mass: typedMass,
          readings: [
            { ...axles, id: 'total-mass' },
            { ...axles, id: 'total-mass-2' },
          ],
        },
      ],
    },
    after: {
      ...header(2),
      name: 'Thistle',
      states: [
        {
          id: 'typed',
          readings: [
            { id: 'total-mass', kind: 'total mass', load: typedMass, counted: true, note: '' },
            axles,
          ],
          note: 'kept',
          ...ADDED,
        },
        { id: 'not typed', readings: [axles], ...ADDED },
        {
          id: 'only a ±',
          readings: [{ id: 'total-mass', kind: 'total mass', load: onlyPlusMinus, counted: true, note: '' }],
          ...ADDED,
        },
        {
          id: 'ids taken',
          readings: [
            { id: 'total-mass-3', kind: 'total mass', load: typedMass, counted: true, note: '' },
            { ...axles, id: 'total-mass' },
            { ...axles, id: 'total-mass-2' },
          ],
          ...ADDED,
        },
      ],
    },
  },
  {
    table: 'own',
    from: 2,
    before: {
      ...header(2),
      name: 'Thistle',
      states: [
        {
          id: 'pictured',
          bodyMarks: [{ key: 'A', name: 'Door corner', depth: { ...blank('mm'), text: '91' } }],
          pictures: [
            {
              id: 'one',
              kind: 'hanging',
              view: 'left',
              marks: [{ role: 'mark A', x: 10.5, y: 20, plusMinus: '3', counted: false }],
            },
          ],
          note: 'kept',
        },
        { id: 'bare', bodyMarks: [], pictures: [] },
      ],
    },
    after: {
      ...header(3),
      name: 'Thistle',
      states: [
        {
          id: 'pictured',
          body: 'truck',
          bodyMarks: [
            {
              key: 'A',
              name: 'Door corner',
              depth: { ...blank('mm'), text: '91' },
              ahead: blank('mm'),
              height: blank('mm'),
            },
          ],
          pictures: [
            {
              id: 'one',
              kind: 'hanging',
              view: 'left',
              focalLength: blank('mm'),
              marks: [{ role: 'mark A', x: 10.5, y: 20, plusMinus: '3', counted: false, source: 'hand' }],
            },
          ],
          note: 'kept',
        },
        { id: 'bare', body: 'truck', bodyMarks: [], pictures: [] },
      ],
    },
  },
];

const TABLES = { invented: STEPS, own: MIGRATIONS };
const run = new Set<string>();

describe('each step', () => {
  test.each(CASES)('$table $from', ({ table, from, before, after }) => {
    const steps = TABLES[table].filter((step) => step.from === from);
    const frozen = Object.freeze(before);
    const lifted = lift(frozen, steps, from + 1);
    expect(lifted).toEqual({ ok: true, value: after });
    run.add(`${table} ${from}`);
  });

  // Last, so that a step without a literal case cannot slip in.
  afterAll(() => {
    for (const [table, steps] of Object.entries(TABLES))
      for (const { from } of steps)
        expect(run, 'every step has a literal case').toContain(`${table} ${from}`);
  });
});

describe('a file of version 1', () => {
  // The demo truck's sheet as version 1 of the workbook shipped it.
  const text = readFileSync(new URL('version1.json', import.meta.url), 'utf8');
  const old = JSON.parse(text);

  test('opens as a sheet of this version with all that was typed', () => {
    const read = sheetFromText(text);
    if (!read.ok) throw new Error(read.message);
    const { states } = read.value.sheet;
    expect(states).toHaveLength(2);
    states.forEach((state, index) => {
      const { mass, readings, ...rest } = old.states[index];
      expect(state).toMatchObject(rest);
      expect(state.readings).toEqual([
        { id: 'total-mass', kind: 'total mass', load: mass, counted: true, note: '' },
        ...readings,
      ]);
    });
  });

  test('that was spoiled says where, in the words of this version', () => {
    const spoiled = (mass: unknown) =>
      sheetFromText(JSON.stringify({ ...old, states: [{ ...old.states[0], mass }] }));
    expect(spoiled(2940)).toMatchObject({
      message:
        'State 1, reading 1, load: needs a record; got “2940”. Look at states[0].readings[0].load in the file.',
    });
    expect(sheetFromText(JSON.stringify({ ...old, states: 'none' }))).toMatchObject({ reason: 'invalid' });
    expect(sheetFromText(JSON.stringify({ ...old, states: ['none'] }))).toMatchObject({ reason: 'invalid' });
  });
});

test('a sheet of any version is lifted through all later steps', () => {
  expect(lift({ ...header(1), weight: 1, track: 2 }, STEPS, 3)).toEqual({
    ok: true,
    value: { ...header(3), mass: 1, frontTrack: 2, rearTrack: 2 },
  });
  expect(lift({ ...header(3), mass: 1 }, STEPS, 3)).toEqual({ ok: true, value: { ...header(3), mass: 1 } });
});

describe('what is no sheet of ours', () => {
  test.each([
    ['null', null, 'not-a-sheet'],
    ['a list', [], 'not-a-sheet'],
    ['a text', 'sheet', 'not-a-sheet'],
    ['another format', { format: 'other', version: 1 }, 'not-a-sheet'],
    ['no version', { format: SHEET_FORMAT }, 'not-a-sheet'],
    ['a version in words', { format: SHEET_FORMAT, version: 'one' }, 'not-a-sheet'],
    ['half a version', { format: SHEET_FORMAT, version: 1.5 }, 'not-a-sheet'],
    ['a newer version', header(4), 'version-too-new'],
  ])('%s', (_name, record, reason) => {
    expect(lift(record, STEPS, 3)).toMatchObject({ ok: false, reason });
  });

  test('older than the first step', () => {
    expect(lift(header(1), STEPS.slice(1), 3)).toMatchObject({ ok: false, reason: 'version-too-old' });
  });

  test('a newer sheet says what to do', () => {
    expect(migrate(header(SHEET_VERSION + 1))).toMatchObject({
      message: `Version: needs at most ${SHEET_VERSION}; got “${SHEET_VERSION + 1}”. A newer workbook wrote this sheet: reload this page, or open it there.`,
    });
  });
});

describe('the table of steps', () => {
  test('may be empty, and must have no gap', () => {
    expect(() => checkSteps([], 1)).not.toThrow();
    expect(() => checkSteps(STEPS, 3)).not.toThrow();
    expect(() => checkSteps(STEPS, 4)).toThrow('the last step leads to 3, needs 4');
    expect(() => checkSteps([...STEPS].reverse(), 2)).toThrow('needs 3');
    expect(() => checkSteps(MIGRATIONS, SHEET_VERSION)).not.toThrow();
  });
});

describe('a sheet is checked in full', () => {
  const invalid = (change: (sheet: BenchSheet) => void): string => {
    const sheet = emptySheet();
    change(sheet);
    const result = migrate(structuredClone(sheet));
    return result.ok ? 'valid' : result.message;
  };
  const withState = (change: (state: BenchSheet['states'][number]) => void) =>
    invalid((sheet) => {
      for (const state of sheet.states) change(state);
    });

  test('a good one is handed on as it is', () => {
    const sheet = emptySheet();
    expect(migrate(sheet)).toEqual({ ok: true, value: sheet });
  });

  test.each([
    [
      'a wrong unit',
      withState((state) => void Reflect.set(state.unsprungFront, 'unit', 'stone')),
      'State 1, unsprung front, unit: needs g or kg or oz or lb; got “stone”. Look at states[0].unsprungFront.unit in the file.',
    ],
    [
      'a missing field',
      withState((state) => void Reflect.deleteProperty(state, 'hubDepth')),
      'State 1, hub depth: needs to be there; nothing is there. Look at states[0].hubDepth in the file.',
    ],
    [
      'an unknown field',
      withState((state) => void Reflect.set(state, 'color', 'red')),
      'State 1, color: is not part of a bench sheet; got “color”. Look at states[0].color in the file.',
    ],
    [
      'a number for a text',
      withState((state) => void Reflect.set(state, 'name', 7)),
      'State 1, name: needs text; got “7”. Look at states[0].name in the file.',
    ],
    [
      'no state at all',
      invalid((sheet) => void (sheet.states = [])),
      'States: needs at least 1 entry; got a list of 0. Look at states in the file.',
    ],
    [
      'an open state that is none',
      invalid((sheet) => void (sheet.openState = 'gone')),
      'Open state: needs the id of one of the states; got “gone”. Look at openState in the file.',
    ],
    [
      'a hook that is none',
      withState((state) => void state.pictures.push({ ...emptyPicture('hanging', 10, 10), hook: 'gone' })),
      'State 1, picture 1, hook: needs a hook of the same state; got “gone”. Look at states[0].pictures[0].hook in the file.',
    ],
    [
      'a mark of a hook that is none',
      withState((state) => {
        const mark = {
          role: 'hook gone' as const,
          x: 1,
          y: 1,
          plusMinus: '',
          counted: true,
          source: 'hand' as const,
        };
        state.pictures.push({ ...emptyPicture('hanging', 10, 10), marks: [mark] });
      }),
      'State 1, picture 1, mark 1, role: needs a hook of the same state; got “hook gone”. Look at states[0].pictures[0].marks[0].role in the file.',
    ],
    [
      'a hang line from a hook that is none',
      withState((state) => void state.readings.push({ ...emptyHangLine(), hook: 'gone' })),
      'State 1, reading 1, hook: needs a hook of the same state; got “gone”. Look at states[0].readings[0].hook in the file.',
    ],
    [
      'a reading of an unknown kind',
      withState((state) => {
        const reading = emptyHangLine();
        Reflect.set(reading, 'kind', 'guess');
        state.readings.push(reading);
      }),
      'State 1, reading 1, kind: needs total mass or axle scales or wheel scales or axle lift or hang line or tilt board or balance on an edge; got “guess”. Look at states[0].readings[0].kind in the file.',
    ],
    [
      'two changes with one id',
      withState(
        (state) => void state.changes.push({ ...emptyChange(), id: 'a' }, { ...emptyChange(), id: 'a' }),
      ),
      'State 1, change 2, id: needs a name of its own; got “a”. Look at states[0].changes[1].id in the file.',
    ],
    [
      'two marks of a kind',
      withState((state) => {
        const mark = {
          role: 'front hub' as const,
          x: 1,
          y: 1,
          plusMinus: '',
          counted: true,
          source: 'hand' as const,
        };
        state.pictures.push({ ...emptyPicture('standing', 10, 10), marks: [mark, { ...mark, x: 2 }] });
      }),
      'State 1, picture 1, mark 2, role: needs one mark of a kind in a picture; got “front hub”. Look at states[0].pictures[0].marks[1].role in the file.',
    ],
    [
      'two parts with one id',
      withState((state) => void state.parts.push({ ...emptyPart(), id: 'a' }, { ...emptyPart(), id: 'a' })),
      'State 1, part 2, id: needs a name of its own; got “a”. Look at states[0].parts[1].id in the file.',
    ],
    [
      'two pictures with one id, in different states',
      invalid((sheet) => {
        const [state] = sheet.states;
        if (!state) return;
        state.pictures.push({ ...emptyPicture('standing', 10, 10), id: 'p' });
        sheet.states.push({ ...structuredClone(state), id: 'second' });
      }),
      'State 2, picture 1, id: needs a name of its own in the whole sheet; got “p”. Look at states[1].pictures[0].id in the file.',
    ],
    [
      'a mark that is no number',
      withState((state) => {
        state.hooks.push(emptyHook());
        const mark = {
          role: 'front hub' as const,
          x: Infinity,
          y: 1,
          plusMinus: '',
          counted: true,
          source: 'hand' as const,
        };
        state.pictures.push({ ...emptyPicture('standing', 10, 10), marks: [mark] });
      }),
      'State 1, picture 1, mark 1, x: needs a finite number; got “Infinity”. Look at states[0].pictures[0].marks[0].x in the file.',
    ],
  ])('%s', (_name, message, expected) => {
    expect(message).toBe(expected);
  });
});
