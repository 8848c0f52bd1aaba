import { describe, expect, it } from 'vitest';
import { type Warning, type BenchAnswer, benchAnswer } from '../../src/answer/benchAnswer';
import type { BuildState } from '../../src/sheet/schema';
import { type BenchOptions, MARKED_AGAIN, NOTHING, hookPairs, simulateBench } from '../demo/world/bench';
import { inventTruck } from '../demo/world/invent';
import { valueOf } from '../physics/given';
import { tolerance } from '../tolerances';

const bench = (options: Partial<BenchOptions> = {}): BuildState =>
  simulateBench({
    truck: inventTruck(7),
    pictureSeed: 7,
    suspension: 'locked',
    hooks: ['hood', 'hoop', 'bed'],
    hookSource: 'ruler',
    markSigma: 1.5,
    redraw: MARKED_AGAIN,
    ...options,
  }).state;
/** As typed, g. */
const totalMass = (state: BuildState): number => {
  const reading = state.readings.find(({ kind }) => kind === 'total mass');
  return reading?.kind === 'total mass' ? Number(reading.load.text) : NaN;
};
const moveMark = (state: BuildState, picture: number, role: string, dx: number, dy = 0): BuildState => ({
  ...state,
  pictures: state.pictures.map((each, i) =>
    i === picture
      ? {
          ...each,
          marks: each.marks.map((mark) =>
            mark.role === role ? { ...mark, x: mark.x + dx, y: mark.y + dy } : mark,
          ),
        }
      : each,
  ),
});
const keepMarks = (state: BuildState, keys: readonly string[]): BuildState => ({
  ...state,
  bodyMarks: state.bodyMarks.filter(({ key }) => keys.includes(key)),
});
const coded = (answer: BenchAnswer, code: Warning['code']): Warning[] =>
  answer.warnings.filter((warning) => warning.code === code);
const codes = (state: BuildState) => new Set(benchAnswer(state).warnings.map(({ code }) => code));

/** The one warning of a code, whose size must stand in its text to a tenth of a millimeter. */
const sized = (state: BuildState, code: Warning['code'], factor = 1): Warning & { sizeMm: number } => {
  const [warning] = coded(benchAnswer(state), code);
  if (!warning || warning.sizeMm === null) throw new Error(`no ${code} with a size`);
  expect(`${warning.title} ${warning.text}`).toContain(`${(warning.sizeMm / factor).toFixed(1)} mm`);
  return { ...warning, sizeMm: warning.sizeMm };
};

describe('a good bench', () => {
  it('has no warnings', () => {
    for (const number of [1, 2, 3, 4, 5]) {
      const truck = inventTruck(number);
      // Without noise in the marks, so that no draw is unlucky.
      const state = bench({ truck, pictureSeed: number, redraw: NOTHING });
      expect([...codes(state)], `truck ${number}`).toEqual([]);
    }
  });
});

describe('narrow crossing', () => {
  const truck = inventTruck(7);
  const [narrow] = hookPairs(truck, (8 * Math.PI) / 180, (28 * Math.PI) / 180);
  const [wide] = hookPairs(truck, (40 * Math.PI) / 180, Math.PI / 2);

  it('is told with the length of the region along the lines', () => {
    // Lines through a high hook of the body and one of the bed, brought together until they cross narrowly.
    const close = narrow ?? ['hood', 'hoop'];
    const state = bench({ truck, hooks: close, suspension: 'free' });
    const answer = benchAnswer(state);
    if ((answer.crossings[0]?.angle ?? 0) >= Math.PI / 6) throw new Error('not narrow');
    const { sizeMm, title } = sized(state, 'narrow crossing');
    const { ahead, height, ellipse } = valueOf(answer.cg);
    // Along its long axis the region is longer than along either axis of the truck.
    expect(sizeMm).toBeGreaterThanOrEqual(1.96 * 1000 * Math.max(ahead.u, height.u) * 0.999);
    expect(sizeMm).toBeLessThan(1000 * ellipse.semiMajor);
    expect(title).toContain(`${(((answer.crossings[0]?.angle ?? NaN) * 180) / Math.PI).toFixed(0)}°`);
  });

  it('is not told of lines that cross widely', () => {
    if (!wide) throw new Error('a wide pair');
    expect(codes(bench({ truck, hooks: wide })).has('narrow crossing')).toBe(false);
  });
});

describe('droop not corrected', () => {
  const free = { suspension: 'free', hooks: ['hood', 'hoop'] } as const;
  it('is told of every free hang without both hubs, with what 25 mm of droop would do', () => {
    const answer = benchAnswer(bench({ ...free, hubsMarked: false }));
    expect(coded(answer, 'droop not corrected')).toHaveLength(2);
    const { sizeMm } = sized(bench({ ...free, hubsMarked: false }), 'droop not corrected');
    const { unsprungFront, unsprungRear } = bench(free);
    const share = (Number(unsprungFront.text) + Number(unsprungRear.text)) / totalMass(bench(free));
    expect(Math.abs(sizeMm - 25 * share)).toBeLessThan(tolerance('warnings: size'));
  });

  it('is told larger of a hook that rides on the axle', () => {
    const state = bench({ ...free, hooks: ['hood', 'guard'], hubsMarked: false });
    const share = (given: { text: string }) => Number(given.text) / totalMass(state);
    const [body, axle] = coded(benchAnswer(state), 'droop not corrected').map(({ sizeMm }) => sizeMm ?? NaN);
    // The hook drops 25 mm with its axle, and the center of gravity by that axle's share of it.
    const { unsprungFront, unsprungRear } = state;
    expect(Math.abs((body ?? NaN) - 25 * (share(unsprungFront) + share(unsprungRear)))).toBeLessThan(
      tolerance('warnings: size'),
    );
    expect(Math.abs((axle ?? NaN) - 25 * (1 - share(unsprungFront)))).toBeLessThan(
      tolerance('warnings: size'),
    );
  });

  it('is not told where hubs are marked, or the suspension is locked', () => {
    expect(codes(bench(free)).has('droop not corrected')).toBe(false);
    expect(codes(bench({ hubsMarked: false })).has('droop not corrected')).toBe(false);
  });
});

describe('hook read off', () => {
  it('is told of hooks without a ruler, with the ± that its place has', () => {
    const { sizeMm } = sized(bench({ hookSource: 'standing picture' }), 'hook read off');
    // 3° off square at 90 mm from the marks: 1.96 · 4.7 mm and less, as both are fitted.
    expect(sizeMm).toBeGreaterThan(1.5);
    expect(sizeMm).toBeLessThan(12);
    expect(coded(benchAnswer(bench({ hookSource: 'standing picture' })), 'hook read off')).toHaveLength(3);
  });

  it('is not told of ruled hooks', () => {
    expect(codes(bench()).has('hook read off')).toBe(false);
  });
});

describe('body marks', () => {
  it('close together are told of with what that does to the center of gravity', () => {
    // C and E, slider bolts, lie near each other; with F, the door between them.
    const truck = inventTruck(7);
    const near = truck.landmarks
      .flatMap((p, i) => truck.landmarks.slice(i + 1).map((q) => ({ p, q })))
      .map(({ p, q }) => ({
        keys: [p.key, q.key],
        span: Math.hypot(p.place[0] - q.place[0], p.place[2] - q.place[2]),
      }))
      .sort((a, b) => a.span - b.span)[0];
    if (!near || near.span > 0.115) throw new Error('two marks near each other');
    const state = keepMarks(bench({ truck }), near.keys);
    const { sizeMm, text } = sized(state, 'marks close together');
    expect(text).toContain(`They span ${(near.span * 1000).toFixed(0).slice(0, -1)}`);
    expect(sizeMm).toBeGreaterThan(0.5);
    expect(sizeMm).toBeLessThan(10);
    expect(codes(bench({ truck })).has('marks close together')).toBe(false);
  });

  it('that are two have no check; three have', () => {
    const two = benchAnswer(keepMarks(bench(), ['A', 'D']));
    const remarks = coded(two, 'no check');
    expect(remarks).toHaveLength(3);
    expect(remarks.every(({ kind, sizeMm }) => kind === 'remark' && sizeMm === null)).toBe(true);
    expect(codes(keepMarks(bench(), ['A', 'B', 'D'])).has('no check')).toBe(false);
  });

  it('that misfit are told of with how far, and three blame none of them', () => {
    const state = moveMark(keepMarks(bench(), ['A', 'B', 'D']), 1, 'mark B', 25, -15);
    const warning = sized(state, 'marks misfit');
    expect(warning.picture).toBe(state.pictures[1]?.id);
    // 29 px at 0.5 to 0.7 mm, told by two marks and the string.
    expect(warning.sizeMm).toBeGreaterThan(8);
    expect(warning.sizeMm).toBeLessThan(40);
    expect(codes(state).has('worst mark')).toBe(false);
    expect(codes(keepMarks(bench(), ['A', 'B', 'D'])).has('marks misfit')).toBe(false);
  });

  it('of which one is misplaced among five are told which, and how far', () => {
    const truck = [1, 2, 3, 4, 5, 6, 7, 8].map(inventTruck).find(({ landmarks }) => landmarks.length >= 5);
    if (!truck) throw new Error('five landmarks');
    const state = bench({ truck });
    const moved = moveMark(state, 2, 'mark B', 18, -12);
    const warning = sized(moved, 'worst mark');
    expect(warning.title).toBe('Look again: mark B.');
    expect(warning.picture).toBe(state.pictures[2]?.id);
    // 22 px at 0.5 to 0.7 mm.
    expect(warning.sizeMm).toBeGreaterThan(8);
    expect(warning.sizeMm).toBeLessThan(25);
    expect(coded(benchAnswer(moved), 'worst mark')).toHaveLength(1);
    expect(codes(state).has('worst mark')).toBe(false);
  });
});

describe('lines', () => {
  it('of which one is wrong are told of by name, with the chance of it', () => {
    const off = moveMark(bench(), 1, 'string upper', 60);
    const [told] = coded(benchAnswer(off), 'reading disagrees');
    expect(told?.title).toMatch(/^Hang \d does not agree with the rest\.$/);
    expect(told?.text).toContain('trucks measured as well');
    expect(codes(bench()).has('reading disagrees')).toBe(false);
  });

  it('that are two always cross, unless scales check them', () => {
    const [remark] = coded(benchAnswer(bench({ hooks: ['hood', 'bed'] })), 'two lines');
    expect(remark).toMatchObject({ kind: 'remark', sizeMm: null });
    expect(codes(bench({ hooks: ['hood', 'bed'], scales: 'axle' })).has('two lines')).toBe(false);
    expect(codes(bench()).has('two lines')).toBe(false);
  });
});

describe('the other side', () => {
  it('is told of each picture that shows it, and the answer does without', () => {
    const state = bench();
    const turned: BuildState = {
      ...state,
      pictures: state.pictures.map((picture, i) => (i === 3 ? { ...picture, view: 'left' } : picture)),
    };
    const answer = benchAnswer(turned);
    expect(coded(answer, 'other side')).toMatchObject([{ picture: state.pictures[3]?.id, sizeMm: null }]);
    expect(answer.lines).toHaveLength(2);
    expect(codes(state).has('other side')).toBe(false);
  });
});

describe('the parts list', () => {
  const listed = bench({ partsList: true });
  const [first, ...others] = listed.parts;
  if (!first) throw new Error('a part');

  it('that gives the same center of gravity is not told of', () => {
    expect(codes(listed).has('list differs')).toBe(false);
  });

  it('that gives another one is told of with the distance', () => {
    // The whole list lifted by 20 mm lifts its center of gravity by as much.
    const lifted: BuildState = {
      ...listed,
      parts: listed.parts.map((part) => ({
        ...part,
        height: { ...part.height, text: String(20 + Number(part.height.text)) },
      })),
    };
    const { sizeMm, kind } = sized(lifted, 'list differs');
    const { partsListCg, cg } = benchAnswer(lifted);
    const { ahead, height } = valueOf(cg);
    if (!partsListCg) throw new Error('a list');
    expect(kind).toBe('warning');
    expect(sizeMm).toBeCloseTo(
      1000 * Math.hypot(partsListCg.x.value - ahead.value, partsListCg.z.value - height.value),
      9,
    );
    expect(sizeMm).toBeGreaterThan(10);
  });

  it('that weighs less than the truck is said not to be all of it', () => {
    const part = { ...first, mass: { ...first.mass, text: String(Number(first.mass.text) / 10) } };
    const [remark] = coded(benchAnswer({ ...listed, parts: [part, ...others] }), 'list differs');
    expect(remark).toMatchObject({ kind: 'remark', sizeMm: null });
  });
});

describe('a second standing picture', () => {
  it('counts beside the first', () => {
    const state = bench();
    const [first] = state.pictures;
    if (!first) throw new Error('a standing picture');
    const two: BuildState = { ...state, pictures: [...state.pictures, { ...first, id: 'again' }] };
    const [one, both] = [valueOf(benchAnswer(state).cg), valueOf(benchAnswer(two).cg)];
    expect(both.height.u).toBeLessThan(one.height.u);
    expect(Math.abs(both.height.value - one.height.value)).toBeLessThan(one.height.u);
  });
});
