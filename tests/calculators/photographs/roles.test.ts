import { describe, expect, test } from 'vitest';
import {
  addBodyMark,
  addPicture,
  chooseBody,
  chooseHook,
  countMark,
  openStateOf,
  placeMark,
  removeBodyMark,
  removeMark,
  removePicture,
  sortPicture,
  untieHook,
  type SheetRecipe,
} from '../../../src/calculators/photographs/edits';
import { hangsOf } from '../../../src/sheet/hangs';
import {
  markingProgress,
  mirrored,
  nextRole,
  openSteps,
  pictureName,
  rolesOf,
  standingOf,
} from '../../../src/calculators/photographs/roles';
import { emptySheet } from '../../../src/sheet/empty';
import { validSheet } from '../../../src/sheet/migrations';
import { mendReferences } from '../../../src/sheet/references';
import type { BenchSheet, BuildState, MarkRole, Picture } from '../../../src/sheet/schema';

function after(...recipes: readonly SheetRecipe[]): BenchSheet {
  const sheet = emptySheet('Test truck');
  for (const recipe of recipes) recipe(sheet);
  mendReferences(sheet);
  return sheet;
}

function stateOf(sheet: BenchSheet): BuildState {
  const state = openStateOf(sheet);
  if (!state) throw new Error('no state');
  return state;
}

function pictureOf(state: BuildState, id: string): Picture {
  const picture = state.pictures.find((candidate) => candidate.id === id);
  if (!picture) throw new Error(`no picture ${id}`);
  return picture;
}

const STANDING = addPicture('s', 'standing', 1600, 1200);
const HANG = addPicture('h1', 'hanging', 1200, 1600);
const SECOND = addPicture('h2', 'hanging', 1200, 1600);

describe('pictures of a state', () => {
  test('every recipe leaves a valid sheet', () => {
    const sheet = after(
      STANDING,
      HANG,
      SECOND,
      placeMark('s', 'rear hub', { x: 400, y: 900 }),
      placeMark('h1', 'string upper', { x: 500, y: 10 }),
      countMark('h1', 'string upper', false),
      chooseHook('h2', null),
      addBodyMark(),
      removeBodyMark('B'),
      removePicture('h1'),
    );
    const valid = validSheet(sheet);
    expect(valid.ok ? '' : valid.message).toBe('');
  });

  test('a hang gets a hook of its own, and both go together', () => {
    const state = stateOf(after(STANDING, HANG, SECOND));
    expect(state.hooks).toHaveLength(2);
    expect(hangsOf(state).map(({ hook }) => hook)).toEqual(state.hooks.map(({ id }) => id));
    const without = stateOf(after(STANDING, HANG, SECOND, removePicture('h1')));
    expect(without.hooks.map(({ id }) => id)).toHaveLength(1);
  });

  test('names count the hangs in their order', () => {
    const state = stateOf(after(HANG, STANDING, SECOND));
    expect(state.pictures.map((picture) => pictureName(state, picture))).toEqual([
      'Hang 1',
      'Standing',
      'Hang 2',
    ]);
    expect(standingOf(state)?.id).toBe('s');
  });

  test('a second place for one role moves the mark', () => {
    const state = stateOf(
      after(STANDING, placeMark('s', 'rear hub', { x: 1, y: 2 }), placeMark('s', 'rear hub', { x: 3, y: 4 })),
    );
    expect(pictureOf(state, 's').marks).toEqual([
      { role: 'rear hub', x: 3, y: 4, plusMinus: '', counted: true, source: 'hand' },
    ]);
  });
});

describe('points to mark', () => {
  test('a standing picture asks for hubs, ground and body marks, then for hooks', () => {
    const state = stateOf(after(STANDING, HANG));
    const slots = rolesOf(state, pictureOf(state, 's'));
    expect(slots.map(({ role, need }) => `${role} ${need}`)).toEqual([
      'rear hub needed',
      'front hub needed',
      'ground rear needed',
      'ground front needed',
      'mark A needed',
      'mark B needed',
      'mark C needed',
      `hook ${state.hooks[0]?.id} helps`,
    ]);
    expect(nextRole(slots)?.role).toBe('rear hub');
  });

  test('a ruled tire radius makes the ground marks a help', () => {
    const sheet = after(STANDING, (draft) => {
      const state = stateOf(draft);
      state.dimensions.rearTireRadius.text = '55';
    });
    const state = stateOf(sheet);
    const needs = new Map(rolesOf(state, pictureOf(state, 's')).map(({ role, need }) => [role, need]));
    expect(needs.get('ground rear')).toBe('helps');
    expect(needs.get('ground front')).toBe('needed');
  });

  test('a hanging picture asks for hubs only where the suspension is free', () => {
    const locked = stateOf(after(STANDING, HANG));
    expect(rolesOf(locked, pictureOf(locked, 'h1')).map(({ role }) => role)).not.toContain('front hub');
    const sheet = after(STANDING, HANG, (draft) => {
      pictureOf(stateOf(draft), 'h1').suspension = 'free';
    });
    const free = stateOf(sheet);
    expect(rolesOf(free, pictureOf(free, 'h1')).map(({ role }) => role)).toContain('front hub');
  });

  test('a hook read off the standing picture has to be marked there', () => {
    const sheet = after(STANDING, HANG, (draft) => {
      const [hook] = stateOf(draft).hooks;
      if (hook) hook.source = 'standing picture';
    });
    const state = stateOf(sheet);
    expect(openSteps(state, pictureOf(state, 's')).map(({ what }) => what)).toContain('hook 1');
  });

  test('all placed leaves no step; a mark taken away is asked for again', () => {
    const places = ['string upper', 'string lower', 'mark A', 'mark B', 'mark C'].map((role, index) =>
      placeMark('h1', role, { x: 100 * index, y: 50 }),
    );
    const done = stateOf(after(STANDING, HANG, ...places));
    expect(openSteps(done, pictureOf(done, 'h1'))).toEqual([]);
    const undone = stateOf(after(STANDING, HANG, ...places, removeMark('h1', 'mark B')));
    expect(openSteps(undone, pictureOf(undone, 'h1'))).toEqual([{ what: 'mark B', role: 'mark B' }]);
  });

  test('hubs that lie the wrong way round are noticed', () => {
    const sides = (rear: number, front: number) => {
      const state = stateOf(
        after(
          STANDING,
          placeMark('s', 'rear hub', { x: rear, y: 9 }),
          placeMark('s', 'front hub', { x: front, y: 9 }),
        ),
      );
      return mirrored(pictureOf(state, 's'));
    };
    expect(sides(100, 500)).toBe(false);
    expect(sides(500, 100)).toBe(true);
  });
});

const seenFrom =
  (id: string, view: Picture['view']): SheetRecipe =>
  (draft) => {
    pictureOf(stateOf(draft), id).view = view;
  };

const asked = (state: BuildState, id: string): readonly string[] =>
  rolesOf(state, pictureOf(state, id)).map(({ role, need }) => `${role} ${need}`);

describe('pictures that came in together', () => {
  const together = ['a', 'b', 'c'].map((id) => addPicture(id, 'unsorted', 1600, 1200));

  test('ask what they show, and for nothing else', () => {
    const state = stateOf(after(...together));
    const first = pictureOf(state, 'a');
    expect(state.pictures.map((picture) => pictureName(state, picture))).toEqual([
      'Picture 1',
      'Picture 2',
      'Picture 3',
    ]);
    expect(rolesOf(state, first)).toEqual([]);
    expect(openSteps(state, first)).toEqual([
      { what: 'whether it shows the truck standing or hanging', role: null },
    ]);
    expect(standingOf(state)).toBeNull();
    expect(state.hooks).toEqual([]);
  });

  test('become standing and hanging, and back', () => {
    const sheet = after(...together, sortPicture('b', 'standing'), sortPicture('a', 'hanging'));
    const state = stateOf(sheet);
    expect(state.pictures.map((picture) => pictureName(state, picture))).toEqual([
      'Hang 1',
      'Standing',
      'Picture 3',
    ]);
    expect(pictureOf(state, 'a').hook).toBe(state.hooks[0]?.id);
    const valid = validSheet(sheet);
    expect(valid.ok ? '' : valid.message).toBe('');
    // A hook that was made for a hang and never used goes with it.
    const back = stateOf(
      after(
        ...together,
        sortPicture('a', 'hanging'),
        sortPicture('a', 'standing'),
        sortPicture('b', 'hanging'),
      ),
    );
    expect(pictureOf(back, 'a').hook).toBeNull();
    expect(back.hooks).toHaveLength(1);
    expect(pictureOf(back, 'b').hook).toBe(back.hooks[0]?.id);
  });

  test('take side and camera distance over from those sorted before', () => {
    const state = stateOf(
      after(
        ...together,
        sortPicture('b', 'standing'),
        (draft) => {
          const standing = pictureOf(stateOf(draft), 'b');
          standing.view = 'left';
          standing.distance.text = '1.8';
        },
        sortPicture('a', 'hanging'),
      ),
    );
    expect(pictureOf(state, 'a')).toMatchObject({ view: 'left', distance: { text: '1.8' } });
  });
});

describe('views', () => {
  test('from the rear two feet are asked for, and each view has its own standing picture', () => {
    const state = stateOf(
      after(STANDING, HANG, addPicture('r', 'standing', 1600, 1200), seenFrom('r', 'rear')),
    );
    expect(asked(state, 'r').slice(0, 2)).toEqual(['ground left needed', 'ground right needed']);
    expect(asked(state, 'r').join()).not.toContain('hub');
    expect(pictureName(state, pictureOf(state, 'r'))).toBe('Standing, rear');
    expect(standingOf(state)?.id).toBe('s');
    const [left, right] = rolesOf(state, pictureOf(state, 'r'));
    // Seen from behind, left is left; seen from the front it is not.
    expect(left?.where).toContain('on the left in this picture');
    const front = stateOf(after(addPicture('f', 'standing', 1600, 1200), seenFrom('f', 'front')));
    expect(rolesOf(front, pictureOf(front, 'f'))[0]?.where).toContain('on the right in this picture');
    expect(right?.role).toBe('ground right');
  });

  test('from the top any three tires are enough', () => {
    const needed = (...placed: readonly MarkRole[]) => {
      const state = stateOf(
        after(
          addPicture('t', 'standing', 1600, 1200),
          seenFrom('t', 'top'),
          ...placed.map((role, at) => placeMark('t', role, { x: 100 * at, y: 9 })),
        ),
      );
      return rolesOf(state, pictureOf(state, 't'))
        .filter(({ role, need, placed: stands }) => role.startsWith('tire') && need === 'needed' && !stands)
        .map(({ role }) => role);
    };
    expect(needed()).toHaveLength(3);
    expect(needed('tire rear right', 'tire rear left')).toHaveLength(1);
    expect(needed('tire rear right', 'tire rear left', 'tire front right')).toEqual([]);
  });

  test('a hook is read from the standing picture of the view it hangs in', () => {
    const state = stateOf(
      after(
        STANDING,
        HANG,
        addPicture('r', 'standing', 1600, 1200),
        seenFrom('r', 'rear'),
        seenFrom('h1', 'rear'),
        (draft) => {
          const [hook] = stateOf(draft).hooks;
          if (hook) hook.source = 'standing picture';
        },
      ),
    );
    const hook = `hook ${state.hooks[0]?.id}`;
    expect(asked(state, 'r')).toContain(`${hook} needed`);
    expect(asked(state, 's').join()).not.toContain(hook);
  });

  test('a body mark that only another view shows is not needed once two others are', () => {
    const mark = (id: string, key: string) => placeMark(id, `mark ${key}`, { x: 5, y: 5 });
    const state = stateOf(
      after(
        STANDING,
        addPicture('r', 'standing', 1600, 1200),
        seenFrom('r', 'rear'),
        addBodyMark(),
        addBodyMark(),
        ...['A', 'B', 'C'].map((key) => mark('s', key)),
        ...['D', 'E'].map((key) => mark('r', key)),
      ),
    );
    expect(asked(state, 'r')).toEqual(
      expect.arrayContaining(['mark A helps', 'mark C helps', 'mark D needed', 'mark E needed']),
    );
    expect(asked(state, 's')).toEqual(expect.arrayContaining(['mark A needed', 'mark D helps']));
  });

  test('without a standing picture one locked hang shows the hubs', () => {
    const state = stateOf(after(HANG, SECOND));
    expect(asked(state, 'h1')).toEqual(expect.arrayContaining(['rear hub needed', 'front hub needed']));
    expect(asked(state, 'h2')).toEqual(expect.arrayContaining(['rear hub helps']));
  });
});

describe('any object', () => {
  const object = chooseBody('object');

  test('has a scale of its own in one picture, and no wheels, ground or hooks', () => {
    const state = stateOf(after(object, HANG, SECOND));
    expect(state.hooks).toEqual([]);
    expect(asked(state, 'h1')).toEqual([
      'string upper needed',
      'string lower needed',
      'mark A needed',
      'mark B needed',
      'mark C needed',
      'scale 1 needed',
      'scale 2 needed',
      'base 1 helps',
      'base 2 helps',
    ]);
    expect(asked(state, 'h2')).toContain('scale 1 helps');
  });

  test('is not called a truck, unless the reader called it so', () => {
    const called = (name: string, ...recipes: readonly SheetRecipe[]) => {
      const sheet = emptySheet(name);
      for (const recipe of recipes) recipe(sheet);
      return [sheet.name, stateOf(sheet).name];
    };
    expect(called('My truck', object)).toEqual(['My object', 'As it hangs']);
    expect(called('My truck', object, chooseBody('truck'))).toEqual(['My truck', 'As driven']);
    expect(called('Claw hammer', object)).toEqual(['Claw hammer', 'As it hangs']);
  });

  test('a hang without a known hook is complete by its string', () => {
    const places = ['string upper', 'string lower', 'mark A', 'mark B', 'mark C'].map((role, index) =>
      placeMark('h1', role, { x: 100 * index, y: 50 }),
    );
    const state = stateOf(after(STANDING, HANG, untieHook('h1'), ...places));
    expect(pictureOf(state, 'h1').hook).toBeNull();
    expect(openSteps(state, pictureOf(state, 'h1'))).toEqual([]);
    expect(markingProgress(state, pictureOf(state, 'h1'))).toEqual({ placed: 5, needed: 5, next: null });
  });
});
