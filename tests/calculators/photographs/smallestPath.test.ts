import { readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import * as v from 'valibot';
import { describe, expect, test } from 'vitest';
import { benchAnswer } from '../../../src/answer/benchAnswer';
import {
  pathOf,
  relativeInLength,
  relativeSentence,
  sharper,
  shownCrossing,
} from '../../../src/calculators/photographs/smallestPathView';
import { BenchSheet, type BuildState, type Mark } from '../../../src/sheet/schema';
import { plateState } from '../../answer/plateState';
import { markRole } from '../../demo/world/bench';
import { BRAMBLE } from '../../demo/world/bramble';
import { demoPhotographs } from '../../demo/world/demoSheet';
import { truePoints } from '../../demo/world/photograph';
import { centerOfGravity } from '../../demo/world/truck';
import { tolerance } from '../../tolerances';

/** The demo truck climbing the smallest path: hangs alone, then a length, the ground, the tracks. */
const file = fileURLToPath(new URL('../../../assets/demo/bramble.json', import.meta.url));
const sheet = v.parse(BenchSheet, JSON.parse(readFileSync(file, 'utf8')));

/** Two hangs of the locked truck with their body marks and strings, and nothing else at all. */
function bareHangs(): BuildState {
  const state = structuredClone(sheet.states.find(({ id }) => id === 'locked'));
  if (!state) throw new Error('the locked demo');
  const empty = { text: '', plusMinus: '' };
  const { dimensions } = state;
  for (const given of Object.values(dimensions)) Object.assign(given, empty);
  state.pictures = state.pictures.filter(({ kind }) => kind === 'hanging').slice(0, 2);
  for (const picture of state.pictures) {
    picture.hook = null;
    picture.marks = picture.marks.filter(({ role }) => /^(mark|string) /.test(role));
  }
  Object.assign(state, { hooks: [], readings: [], parts: [], countPartsList: false });
  return state;
}

/** The hubs where the truck's own picture shows them. */
function withHubs(state: BuildState): BuildState {
  const [first] = state.pictures;
  const photograph = demoPhotographs(BRAMBLE, 1).find(({ id }) => id === first?.id);
  if (!first || !photograph) throw new Error('a hang of the demo');
  const hubs = truePoints(BRAMBLE, photograph).flatMap((point): Mark[] => {
    const role = markRole(point.role);
    if (role !== 'rear hub' && role !== 'front hub') return [];
    return [{ role, x: point.x, y: point.y, plusMinus: '', counted: true, source: 'hand' }];
  });
  const marked = { ...first, marks: [...first.marks, ...hubs] };
  return { ...state, pictures: [marked, ...state.pictures.slice(1)] };
}

const measured = (state: BuildState, sizes: Partial<Record<keyof BuildState['dimensions'], number>>) => {
  const dimensions = structuredClone(state.dimensions);
  for (const [name, meters] of Object.entries(sizes)) {
    const given = Object.entries(dimensions).find(([key]) => key === name)?.[1];
    if (given) Object.assign(given, { text: String(1000 * meters), unit: 'mm' });
  }
  return { ...state, dimensions };
};

const rungs = (state: BuildState) => pathOf(state, benchAnswer(state), state.pictures[0] ?? null);
const stages = (state: BuildState) => rungs(state).map(({ state: stage }) => stage);
const needs = (state: BuildState, index: number) => rungs(state)[index]?.needs.map(({ what }) => what);

describe('a truck', () => {
  const bare = bareHangs();
  const hubs = withHubs(bare);
  const scaled = measured(hubs, { wheelbase: BRAMBLE.wheelbase });
  const grounded = measured(scaled, {
    frontTireRadius: BRAMBLE.frontRadius,
    rearTireRadius: BRAMBLE.rearRadius,
  });

  test('is asked for hubs in the picture where they were begun, whichever is in hand', () => {
    const half = structuredClone(hubs);
    const [first, second] = half.pictures;
    if (!first || !second) throw new Error('two pictures');
    first.marks = first.marks.filter(({ role }) => role !== 'front hub');
    const length = pathOf(half, benchAnswer(half), second)[1];
    expect(length?.needs.map(({ what }) => what)).toEqual(['the front hub in hang 1', 'the wheelbase']);
  });

  test('climbs rung by rung, and never needs a standing picture', () => {
    expect(stages(bare)).toEqual(['done', 'next', 'later', 'later']);
    expect(needs(bare, 1)).toEqual(['the rear hub in hang 1', 'the front hub in hang 1', 'the wheelbase']);
    expect(needs(hubs, 1)).toEqual(['the wheelbase']);
    expect(stages(scaled)[1]).toBe('done');
    expect(needs(scaled, 2)).toEqual(['the rear tire’s radius', 'the front tire’s radius']);
    expect(stages(grounded)).toEqual(['done', 'done', 'done', 'next']);
    expect(needs(grounded, 3)).toEqual(['the rear track', 'the front track']);
    const tracked = measured(grounded, { frontTrack: 0.186, rearTrack: 0.186 });
    expect(stages(tracked)).toEqual(['done', 'done', 'done', 'done']);
    expect(sharper(tracked).map(({ what }) => what)).toContain('a third hang');
  });

  test('has its center of gravity where it is, from two hangs alone', () => {
    const { cg } = benchAnswer(grounded);
    if (!cg.ok) throw new Error(cg.message);
    const [ahead, , height] = centerOfGravity(BRAMBLE);
    const { ahead: x, height: z } = cg.value;
    expect(Math.abs(x.value - ahead)).toBeLessThan(tolerance('smallest path: in u') * x.u);
    expect(Math.abs(z.value - height)).toBeLessThan(tolerance('smallest path: in u') * z.u);
  });

  test('tells the place in words: of the marks’ spacing, then in millimeters', () => {
    const crossed = shownCrossing(bare, bare.pictures[0] ?? null);
    if (!crossed) throw new Error('a crossing');
    expect(relativeSentence(bare, crossed)).toMatch(
      /^0\.\d+\u00a0±\u00a00\.\d+ of the way from mark [A-F] .*toward mark [A-F].*, and 0\.\d+\u00a0±\u00a00\.\d+ of that way to its (left|right)\.$/,
    );
    expect(relativeInLength(bare)).toBeNull();
    expect(relativeInLength(scaled)).toMatch(/\d\s?mm from mark [A-F] toward mark [A-F], .*mm to its/);
  });
});

describe('what the first rung asks for', () => {
  test.each([
    ['no hang', { hangs: 1 as const }, 'a second hanging picture, from another hook'],
    ['too few marks', { keys: ['A'] as const }, '3 body marks to look for'],
  ])('%s', (_name, plate, what) => {
    expect(needs(plateState(plate), 0)).toContain(what);
  });

  test('the same side in both', () => {
    const state = plateState({ body: 'truck' });
    const [first, second] = state.pictures;
    if (!first || !second) throw new Error('two pictures');
    const turned: BuildState = { ...state, pictures: [first, { ...second, view: 'left' }] };
    expect(needs(turned, 0)).toEqual(['hang 2 from the same side as the first']);
  });

  test('marks and string ends of both pictures', () => {
    const state = plateState();
    for (const picture of state.pictures)
      picture.marks = picture.marks.filter(({ role }) => role !== 'mark C' && role !== 'string lower');
    expect(needs(state, 0)).toEqual([
      'the lower end of the string in hang 1',
      'mark C in hang 1',
      'the lower end of the string in hang 2',
      'mark C in hang 2',
    ]);
  });
});
