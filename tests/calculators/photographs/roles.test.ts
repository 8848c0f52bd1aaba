import { describe, expect, test } from 'vitest';
import {
  addBodyMark,
  addPicture,
  chooseHook,
  countMark,
  openStateOf,
  placeMark,
  removeBodyMark,
  removeMark,
  removePicture,
  type SheetRecipe,
} from '../../../src/calculators/photographs/edits';
import { hangsOf } from '../../../src/sheet/hangs';
import {
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
import type { BenchSheet, BuildState, Picture } from '../../../src/sheet/schema';

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
      { role: 'rear hub', x: 3, y: 4, plusMinus: '', counted: true },
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
    expect(openSteps(state, pictureOf(state, 's')).map(({ what }) => what)).toContain('hook: Hook 1');
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
