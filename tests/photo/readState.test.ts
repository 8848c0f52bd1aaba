import { describe, expect, it } from 'vitest';
import { axleShare, missingWithHangs, readState } from '../../src/photo/readState';
import { emptyBodyMark, emptyPicture, emptyState } from '../../src/sheet/empty';
import type { BuildState } from '../../src/sheet/schema';
import { NOTHING, simulateBench } from '../demo/world/bench';
import { inventTruck } from '../demo/world/invent';

const { state, truth } = simulateBench({
  truck: inventTruck(2),
  pictureSeed: 2,
  suspension: 'locked',
  hooks: ['hood', 'bed'],
  hookSource: 'ruler',
  markSigma: 1.5,
  redraw: NOTHING,
});
const what = ({ missing }: { missing: readonly { readonly what: string }[] }) =>
  missing.map((each) => each.what);

describe('a state as the pictures need it', () => {
  it('misses nothing when complete', () => {
    const readings = readState(state);
    expect(readings).toMatchObject({ missing: [], faults: [], hanging: 2, noseDirection: 1 });
    expect(readings.hangs).toHaveLength(2);
  });

  it('says what pictures miss, and leaves it to others how many hangs are enough', () => {
    const none: BuildState = { ...emptyState(), dimensions: state.dimensions };
    expect(what(readState(none))).toEqual(['a side picture of the truck standing']);
    const standing: BuildState = {
      ...none,
      pictures: [{ ...emptyPicture('standing', 800, 600), name: 'Side' }],
    };
    const readings = readState(standing);
    expect(readings.hanging).toBe(0);
    expect(what(readings)[0]).toBe('the rear hub in Side');
    expect(what({ missing: missingWithHangs(readings, 0) })).toEqual(what(readings));
    for (const [hanging, needed, words] of [
      [0, 1, 'a picture of it hanging'],
      [0, 2, 'two pictures of it hanging'],
      [1, 2, 'a second picture of it hanging'],
    ] as const)
      expect(missingWithHangs({ ...readings, hanging }, needed)[0]?.what).toBe(words);
  });

  it('asks for hangs behind what belongs to no picture', () => {
    const { dimensions } = state;
    const bare = {
      ...state,
      dimensions: { ...dimensions, wheelbase: { ...dimensions.wheelbase, text: '' } },
      pictures: [],
    };
    expect(what({ missing: missingWithHangs(readState(bare), 2) })).toEqual([
      'the wheelbase',
      'a side picture of the truck standing',
      'two pictures of it hanging',
    ]);
  });

  it('reads the ruler: zero within 0.3 mm, or as typed', () => {
    const usual = readState(state).truck?.rulerZero;
    expect(usual?.value).toBe(0);
    expect(1960 * (usual?.u ?? NaN)).toBeCloseTo(0.3, 3);
    const { instruments } = state;
    const rulerZero = { ...instruments.rulerZero, text: '-1.2', plusMinus: '0.5' };
    const typed = readState({ ...state, instruments: { ...instruments, rulerZero } }).truck?.rulerZero;
    expect(1000 * (typed?.value ?? NaN)).toBeCloseTo(-1.2, 9);
    expect(1960 * (typed?.u ?? NaN)).toBeCloseTo(0.5, 3);
  });

  it('keeps the lateral place in the truck’s axes, whichever side is seen', () => {
    const lateral = { ...state.lateral, text: '4' };
    for (const [view, nose] of [
      ['right', 1],
      ['left', -1],
    ] as const) {
      const pictures = state.pictures.map((picture) => ({ ...picture, view }));
      const readings = readState({ ...state, lateral, pictures });
      expect(1000 * readings.lateral.value).toBeCloseTo(4, 9);
      expect(1000 * (readings.truck?.lateral.value ?? NaN)).toBeCloseTo(4, 9);
      expect(readings.noseDirection).toBe(nose);
    }
  });

  it('takes axle masses over the mass weighed', () => {
    const { front, rear } = truth.axleMasses;
    expect(axleShare(state, 'front axle').value).toBeCloseTo(front / truth.mass, 3);
    expect(axleShare(state, 'rear axle').value).toBeCloseTo(rear / truth.mass, 3);
    // Nothing weighed: common practice, 35 to 55 % of a truck is unsprung.
    const usual = axleShare({ ...state, readings: [] }, 'front axle');
    expect(2 * (usual.value - 1.96 * usual.u)).toBeLessThan(0.35);
    expect(2 * (usual.value + 1.96 * usual.u)).toBeGreaterThan(0.55);
  });

  it('takes the ends of a string in the order in which they hang, not in that of marking', () => {
    const swapped: BuildState = {
      ...state,
      pictures: state.pictures.map((picture) => ({
        ...picture,
        marks: picture.marks.map((mark) => ({
          ...mark,
          role:
            mark.role === 'string upper'
              ? ('string lower' as const)
              : mark.role === 'string lower'
                ? ('string upper' as const)
                : mark.role,
        })),
      })),
    };
    expect(readState(swapped).hangs.map(({ string }) => string)).toEqual(
      readState(state).hangs.map(({ string }) => string),
    );
  });

  it('counts no picture that is not sorted, in anything', () => {
    const [standing, ...hangs] = state.pictures;
    if (!standing) throw new Error('a standing picture');
    const readings = readState({ ...state, pictures: [{ ...standing, kind: 'unsorted' }, ...hangs] });
    expect(readings.standings).toEqual([]);
    // Its hubs do not count, so where the axes lie is open.
    expect(what(readings)).toEqual([
      'the rear hub, in a hanging picture or one of the truck standing',
      'the front hub, in a hanging picture or one of the truck standing',
    ]);
  });

  it('does not stop at a hook or a mark that no counted picture shows', () => {
    const [hook] = state.hooks;
    const [mark] = state.bodyMarks;
    if (!hook || !mark) throw new Error('a hook and a mark');
    const rubbish = { ...hook.left, text: 'x' };
    const spare: BuildState = {
      ...state,
      hooks: [...state.hooks, { ...hook, id: 'spare', ahead: rubbish, height: rubbish, left: rubbish }],
      bodyMarks: [...state.bodyMarks, { ...mark, key: 'F', depth: rubbish, ahead: rubbish }],
      pictures: state.pictures.map((picture) => ({
        ...picture,
        marks: picture.marks.filter(({ role }) => role !== 'mark F'),
      })),
    };
    expect(readState(spare).faults).toEqual([]);
    expect(readState({ ...state, hooks: [{ ...hook, left: rubbish }] }).faults).toHaveLength(1);
  });

  it('asks for a side picture where only the rear shows the truck standing, and does not blame the side', () => {
    const [standing, ...hangs] = state.pictures;
    if (!standing) throw new Error('a standing picture');
    const feet = (['ground left', 'ground right'] as const).map((role, i) => ({
      role,
      x: 300 + 600 * i,
      y: 900,
      plusMinus: '',
      counted: true,
      source: 'hand' as const,
    }));
    const tail = { ...standing, view: 'rear' as const, marks: [...standing.marks, ...feet] };
    const readings = readState({ ...state, pictures: [tail, ...hangs] });
    expect(readings.otherSide).toEqual([]);
    expect(readings.hangs).toEqual([]);
    expect(readings.missing).not.toEqual([]);
  });

  it('asks a hang seen from the rear for what ties it, and lets the others answer', () => {
    const [, hang] = state.pictures;
    if (!hang) throw new Error('a hang');
    const own = (role: string) => (role === 'mark A' ? 'mark E' : role === 'mark B' ? 'mark F' : null);
    const tails = ['one', 'other'].map((id) => ({
      ...hang,
      id,
      view: 'rear' as const,
      hook: null,
      marks: hang.marks.flatMap((mark) => {
        const role = mark.role.startsWith('mark') ? own(mark.role) : mark.role;
        return role === null ? [] : [{ ...mark, role }];
      }),
    }));
    const bare = {
      ...state,
      bodyMarks: [
        ...state.bodyMarks.filter(({ key }) => 'ABCD'.includes(key)),
        ...['E', 'F'].map((key) => emptyBodyMark(key)),
      ],
      pictures: [
        ...state.pictures.map((picture) => ({
          ...picture,
          marks: picture.marks.filter(({ role }) => role !== 'mark E' && role !== 'mark F'),
        })),
        ...tails,
      ],
    };
    const readings = readState(bare);
    expect(readings.hangs).toHaveLength(2);
    expect(what(readings)).toEqual([
      'a picture from the rear of the truck standing, with marks E and F, or where they lie by ruler',
    ]);
  });
});
