import { describe, expect, test } from 'vitest';
import { benchAnswer } from '../../../src/answer/benchAnswer';
import { changeWords } from '../../../src/calculators/readings/changeWords';
import { entryWords, standingWords } from '../../../src/calculators/readings/entryWords';
import { suggestion } from '../../../src/calculators/readings/readingGiven';
import { NO_BREAK } from '../../../src/calculators/shared/format';
import { entriesOf, standingOf } from '../../../src/calculators/shared/listEntries';
import { countReadings, readingsText } from '../../../src/calculators/shared/readingsCount';
import { emptyChange, emptyPart, emptyPicture } from '../../../src/sheet/empty';
import { FIELDS } from '../../../src/sheet/fields';
import type { BuildState, Change } from '../../../src/sheet/schema';
import { axles, board, hang, hook, lift, mass, stateWith, typed } from './states';

/** No-break spaces as the spaces a reader sees. */
const plain = (text: string): string => text.replaceAll(NO_BREAK, ' ');

/** Title, detail and standing of the entry with this id. */
function entry(state: BuildState, id: string) {
  const found = entriesOf(state).find((each) => each.id === id);
  if (!found) throw new Error(`no entry ${id}`);
  const { title, detail } = entryWords(state, found);
  return {
    title: plain(title),
    detail: plain(detail),
    standing: plain(standingWords(state, found, standingOf(found, benchAnswer(state)))),
  };
}

describe('an entry in the words of the trade', () => {
  test('numbers stand as they were typed, unit included', () => {
    expect(entry(stateWith(mass('2939.0')), 'mass')).toEqual({
      title: 'Total mass',
      detail: '2939.0 g',
      standing: '',
    });
    const pounds = { ...axles('3.5', '2.9'), front: typed('3.5', 'lb'), rear: typed('2.9', 'lb') };
    expect(entry(stateWith(pounds), 'axles').detail).toBe('front 3.5 lb, rear 2.9 lb');
  });

  test('a lift names its end and amount, and what the scale showed before and then', () => {
    expect(entry(stateWith(axles('1388', '1551'), lift()), 'lift')).toEqual({
      title: 'Axle lift, nose up 22°',
      detail: 'rear scale 1551 → 1726 g',
      standing: '',
    });
    const byHeight = lift({
      by: 'height',
      raised: 'rear axle',
      scaleUnder: 'front axle',
      rise: typed('120', 'mm'),
    });
    expect(entry(stateWith(byHeight), 'lift')).toMatchObject({
      title: 'Axle lift, tail up by 120 mm',
      detail: 'front scale 1726 g',
    });
  });

  test('a scale read in two units keeps both', () => {
    const state = stateWith(axles('1388', '1551'), lift({ load: typed('60.9', 'oz') }));
    expect(entry(state, 'lift').detail).toBe('rear scale 1551 g → 60.9 oz');
  });

  test('a hang tells its view and how the string ran', () => {
    const state = { ...stateWith(hang()), hooks: [hook()] };
    expect(entry(state, 'hang')).toEqual({
      title: 'Hang by ruler, side view',
      detail: 'from the hood pin, string through 140 mm ahead, 60 mm up',
      standing: '',
    });
    const sloped = {
      ...stateWith(hang({ view: 'rear', by: 'angle', angle: typed('-12', 'deg'), suspension: 'free' })),
      hooks: [hook()],
    };
    expect(entry(sloped, 'hang').detail).toBe(
      'from the hood pin, left side 12° above level, suspension free',
    );
  });

  test('a picture tells what is left to mark', () => {
    const picture = { ...emptyPicture('hanging', 4000, 3000), id: 'picture' };
    const state = { ...stateWith(), pictures: [picture] };
    expect(entry(state, 'picture')).toMatchObject({
      title: 'Hang 1, photograph',
      standing: 'gives no line yet',
    });
  });
});

describe('how an entry stands', () => {
  test('what is still to read is named', () => {
    expect(entry(stateWith(axles('1388', '')), 'axles').standing).toBe('still to read: rear axle');
    expect(entry(stateWith(lift({ angle: typed('', 'deg') })), 'lift').standing).toBe('still to read: slope');
    // Without a hook, no line.
  });

  test('a hang waits for its hook’s place, a lift for a size of the truck', () => {
    const waits = 'waits for the place of its hook, by ruler';
    expect(entry(stateWith(hang({ hook: null })), 'hang').standing).toBe(waits);
    const unplaced = { ...stateWith(hang()), hooks: [hook({ ahead: typed('', 'mm') })] };
    expect(entry(unplaced, 'hang').standing).toBe(waits);
    const readOff = { ...stateWith(hang()), hooks: [hook({ source: 'standing picture' })] };
    expect(entry(readOff, 'hang').standing).toBe(waits);

    const unmeasured = stateWith(lift());
    unmeasured.dimensions.wheelbase.text = '';
    expect(entry(unmeasured, 'lift').standing).toBe('waits for the wheelbase');
  });

  test('a second reading of a sort is numbered', () => {
    const state = stateWith(lift(), { ...lift(), id: 'second' });
    expect(entry(state, 'second').title).toBe('Axle lift, nose up 22°, reading 2');
  });

  test('a number that cannot be read is told, and the reading does not count', () => {
    const state = stateWith(axles('1388', 'heavy'));
    expect(entry(state, 'axles').standing).toBe('has a number that cannot be read');
    expect(countReadings(state, benchAnswer(state))).toEqual({ counted: 0, all: 1 });
  });

  test('set aside, with the reason', () => {
    expect(entry(stateWith({ ...mass('2939'), counted: false }), 'mass').standing).toBe('set aside');
    const why = { ...mass('2939'), counted: false, note: 'pack was out' };
    expect(entry(stateWith(why), 'mass').standing).toBe('set aside; note: pack was out');
  });

  test.each(['tips, suspension free', 'first wheel lifts', 'slides'] as const)(
    'a board on which it %s is kept and never counts as a locked tip',
    (event) => {
      const state = stateWith(board({ event, counted: true }));
      expect(entry(state, 'board').standing).toBe('kept, not counted');
      expect(countReadings(state, benchAnswer(state))).toEqual({ counted: 0, all: 1 });
    },
  );

  test('a lift on free springs is kept and never counts', () => {
    expect(entry(stateWith(lift({ suspension: 'free' })), 'lift').standing).toBe('kept, not counted');
  });
});

const counted = (state: BuildState): string => readingsText(countReadings(state, benchAnswer(state)));

describe('how many count', () => {
  test('of all readings, the parts list only where the reader counts it', () => {
    const state = {
      ...stateWith(mass('2939'), axles('1388', '1551'), { ...lift(), counted: false }),
      parts: [
        { ...emptyPart(), mass: typed('250', 'g'), ahead: typed('100', 'mm'), height: typed('60', 'mm') },
      ],
    };
    expect(counted(state)).toBe('2 of 3 counted');
    expect(counted({ ...state, countPartsList: true })).toBe('3 of 4 counted');
    expect(counted(stateWith())).toBe('none yet');
  });
});

describe('a change in words', () => {
  const change = (more: Partial<Change>): Change => ({ ...emptyChange(), mass: typed('250', 'g'), ...more });

  test('moved, by how much and which way', () => {
    const words = changeWords(change({ name: 'Battery', height: typed('-40', 'mm') }), 0);
    expect({ ...words, detail: plain(words.detail) }).toEqual({
      title: 'Battery',
      detail: 'move 250 g down 40 mm',
    });
    const both = change({ ahead: typed('1.5', 'in'), left: typed('−3', 'mm'), height: typed('0', 'mm') });
    expect(plain(changeWords(both, 1).detail)).toBe('move 250 g forward 1.5 in, right 3 mm');
    expect(changeWords(both, 1).title).toBe('Change 2');
  });

  test('added, and where', () => {
    const added = change({ kind: 'added', ahead: typed('160', 'mm'), height: typed('45', 'mm') });
    expect(plain(changeWords(added, 0).detail)).toBe('add 250 g at 160 mm ahead, 45 mm up');
    const off = change({ kind: 'added', mass: typed('-96', 'g'), ahead: typed('18', 'mm') });
    expect(plain(changeWords(off, 0).detail)).toBe('take off 96 g at 18 mm ahead');
    expect(changeWords(change({ mass: typed('', 'g') }), 0).detail).toBe('');
  });
});

test('a suggested ± names its instrument and its reason, in the unit typed', () => {
  expect(plain(suggestion(FIELDS.axleFront, 'g'))).toBe(
    'Scale: ± 5 g, hard limits, since kitchen scales show steps of 1 to 5 g and stick a little.',
  );
  // 5 g is 0.1764 oz by the definition of the ounce, 28.349523125 g.
  expect(plain(suggestion(FIELDS.axleFront, 'oz'))).toContain('± 0.1764 oz');
  expect(plain(suggestion(FIELDS.boardAngle, 'deg'))).toMatch(/^Level: ± 1°, since /);
});
