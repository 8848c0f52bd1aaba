import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { type BenchAnswer, benchAnswer } from '../../src/answer/benchAnswer';
import { emptyState } from '../../src/sheet/empty';
import { readGiven } from '../../src/sheet/given';
import { givensOf } from '../../src/sheet/givens';
import type { BuildState, Picture } from '../../src/sheet/schema';
import { type BenchOptions, MARKED_AGAIN, simulateBench } from '../demo/world/bench';
import { inventTruck } from '../demo/world/invent';
import { reasonOf, valueOf } from '../physics/given';
import { tolerance } from '../tolerances';
import { levelTruck, squareBench } from './squareBench';

/** Everything below may write into its own copy. */
type Draft<T> = T extends (infer Item)[]
  ? Draft<Item>[]
  : T extends object
    ? { -readonly [Key in keyof T]: Draft<T[Key]> }
    : T;

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
const changed = (state: BuildState, change: (draft: Draft<BuildState>) => void): BuildState => {
  const draft: Draft<BuildState> = structuredClone(state);
  change(draft);
  return draft;
};
const withoutMark = (state: BuildState, picture: number, role: string): BuildState =>
  changed(state, ({ pictures }) => {
    const target = pictures[picture];
    if (target) target.marks = target.marks.filter((mark) => mark.role !== role);
  });
const cgOf = (state: BuildState) => valueOf(benchAnswer(state).cg);
const names = ({ missing }: BenchAnswer): string[] => missing.map(({ what }) => what);

/** Differences of two answers' centers of gravity, in standard uncertainties of the first. */
function apart(first: BenchAnswer, second: BenchAnswer): number {
  const [a, b] = [valueOf(first.cg), valueOf(second.cg)];
  return Math.max(
    ...(['ahead', 'left', 'height'] as const).flatMap((axis) => [
      Math.abs(a[axis].value - b[axis].value) / a[axis].u,
      Math.abs(b[axis].u / a[axis].u - 1),
    ]),
  );
}
const same = tolerance('bench: same answer');

describe('what is missing', () => {
  it('is asked for in the order in which it is measured', () => {
    const answer = benchAnswer(emptyState());
    expect(names(answer)).toEqual([
      'the wheelbase',
      'a side picture of the truck standing',
      'two pictures of it hanging',
    ]);
    expect(reasonOf(answer.cg)).toBe('missing');
    expect(reasonOf(answer.tips)).toBe('missing');
    expect(answer.cg).toMatchObject({
      message:
        'Still needed: the wheelbase, a side picture of the truck standing, two pictures of it hanging.',
    });
    expect(answer.next.text).toBe('Still needed: the wheelbase.');
    expect(answer.lines).toEqual([]);
  });

  it('goes on with the marks of the standing picture, then of each hang', () => {
    const bare = changed(bench({ hooks: ['hood', 'bed'] }), ({ pictures }) => {
      for (const picture of pictures) picture.marks = [];
    });
    const [first, second] = bare.pictures.slice(1).map(({ name }) => name);
    expect(names(benchAnswer(bare))).toEqual([
      'the rear hub in Standing',
      'the front hub in Standing',
      'mark A in Standing',
      'mark B in Standing',
      `the upper end of the string in ${first}`,
      `the lower end of the string in ${first}`,
      `mark A in ${first}`,
      `mark B in ${first}`,
      `the upper end of the string in ${second}`,
      `the lower end of the string in ${second}`,
      `mark A in ${second}`,
      `mark B in ${second}`,
    ]);
  });

  it.each([
    [0, 'rear hub'],
    [0, 'front hub'],
    [1, 'string upper'],
    [2, 'string lower'],
  ])('names the one mark that picture %i lacks: %s', (picture, role) => {
    const state = bench({ hooks: ['hood', 'bed'] });
    expect(benchAnswer(state).missing).toEqual([]);
    const answer = benchAnswer(withoutMark(state, picture, role));
    expect(answer.missing).toMatchObject([{ picture: state.pictures[picture]?.id, role }]);
    expect(reasonOf(answer.cg)).toBe('missing');
  });

  it('asks for ground marks only where no tire radius is typed', () => {
    const state = withoutMark(withoutMark(bench(), 0, 'ground rear'), 0, 'ground front');
    expect(names(benchAnswer(state))).toEqual([]);
    const noRadius = changed(state, ({ dimensions }) => {
      dimensions.frontTireRadius.text = '';
    });
    expect(names(benchAnswer(noRadius))).toEqual([
      'the ground under the rear tire in Standing',
      'the ground under the front tire in Standing',
    ]);
  });

  it('asks for what two points of known distance need', () => {
    const state = changed(bench(), (draft) => {
      draft.scaleFrom = 'two points';
      draft.dimensions.wheelbase.text = '';
    });
    expect(names(benchAnswer(state))).toEqual([
      'the first point of known distance in Standing',
      'the second point of known distance in Standing',
      'the distance of the two points',
    ]);
  });

  it('asks for a hook, and for its place, where an axle may carry it along', () => {
    const free = bench({ hooks: ['hood', 'bed'], suspension: 'free' });
    const noHook = changed(free, ({ pictures }) => {
      const hang = pictures[1];
      if (hang) hang.hook = null;
    });
    expect(names(benchAnswer(noHook))).toEqual([`the hook of ${noHook.pictures[1]?.name}`]);
    const noPlace = changed(free, ({ hooks }) => {
      const hook = hooks[0];
      if (hook) hook.ahead.text = '';
    });
    expect(names(benchAnswer(noPlace))).toEqual([`the place of the ${noPlace.hooks[0]?.name}`]);
    // Locked, the string's two marks alone tell the line.
    const locked = changed(bench({ hooks: ['hood', 'bed'] }), ({ pictures, hooks }) => {
      for (const picture of pictures) picture.hook = null;
      for (const hook of hooks) hook.ahead.text = '';
    });
    expect(names(benchAnswer(locked))).toEqual([]);
    expect(benchAnswer(locked).cg.ok).toBe(true);
    const unmarked = withoutMark(
      bench({ hooks: ['hood', 'bed'], hookSource: 'standing picture' }),
      0,
      'hook bed',
    );
    expect(names(benchAnswer(unmarked))).toEqual(['the bed rail eye in Standing']);
  });

  it('asks for a second line where there is one', () => {
    const answer = benchAnswer(bench({ hooks: ['hood'] }));
    expect(names(answer)).toEqual(['a second picture of it hanging']);
    expect(reasonOf(answer.cg)).toBe('missing');
  });

  it('is the tracks, for the tip angles alone', () => {
    const answer = benchAnswer(
      changed(bench(), ({ dimensions }) => {
        dimensions.rearTrack.text = '';
      }),
    );
    expect(answer.cg.ok).toBe(true);
    expect(answer.tips).toMatchObject({
      ok: false,
      reason: 'missing',
      message: expect.stringContaining('rear track'),
    });
    expect(answer.next.text).toContain('rear track');
  });
});

describe('a given that cannot be read', () => {
  it('stops the answer with the message of its field', () => {
    const state = changed(bench(), ({ dimensions }) => {
      dimensions.wheelbase.text = '-3';
    });
    const message = 'Wheelbase: needs a length above zero; got “-3 mm”. Measure hub to hub, often 313 mm.';
    const answer = benchAnswer(state);
    expect(answer.cg).toEqual({ ok: false, reason: 'fault', message });
    expect(answer.next).toMatchObject({ text: message, gain: null });
  });

  it('does so wherever it stands, or does not matter to the answer', () => {
    const state = bench({ scales: 'both' });
    for (const { path, field } of givensOf(state)) {
      const damaged = structuredClone(state);
      const target = [...givensOf(damaged)].find((placed) => String(placed.path) === String(path));
      if (!target) throw new Error('a given');
      Object.assign(target.given, { text: 'twelve' });
      const read = readGiven(target.given, target.field);
      if (read.ok) throw new Error('refused');
      const { cg } = benchAnswer(damaged);
      if (!cg.ok) {
        expect(cg.reason, field.label).toBe('fault');
        expect(cg.message).toMatch(/^[^:]+: .*“twelve.*\./);
        expect(cg.message.split(': ')[1]).toBe(read.message.split(': ')[1]);
      }
    }
  });

  it('is a string marked at one point', () => {
    const state = changed(bench(), ({ pictures }) => {
      const [upper, lower] = ['upper', 'lower'].map((end) =>
        pictures[1]?.marks.find(({ role }) => role === `string ${end}`),
      );
      if (upper && lower) Object.assign(lower, { x: upper.x, y: upper.y });
    });
    expect(benchAnswer(state).cg).toMatchObject({
      ok: false,
      reason: 'fault',
      message: expect.stringContaining('both ends of the string are marked at one point'),
    });
  });
});

describe('what has no answer is refused with its reason', () => {
  it('two hangs from one hook', () => {
    const state = changed(bench({ hooks: ['hood', 'bed'] }), ({ pictures }) => {
      const [, first, second] = pictures;
      if (first && second) pictures[2] = { ...structuredClone(first), id: second.id };
    });
    const { cg, lines, tips } = benchAnswer(state);
    expect(reasonOf(cg)).toBe('nearly-parallel');
    expect(reasonOf(tips)).toBe('nearly-parallel');
    expect(lines).toHaveLength(2);
  });

  it('tip angles of a truck whose center of gravity lies ahead of its front axle', () => {
    const truck = levelTruck(inventTruck(3));
    const heavyNose = {
      ...truck,
      parts: truck.parts.map((part) => ({
        ...part,
        place: [part.place[0] + (part.carrier === 'body' ? 0.35 : 0), part.place[1], part.place[2]] as const,
      })),
    };
    const { state, cg } = squareBench({
      truck: heavyNose,
      suspension: 'locked',
      hooks: ['hood', 'hoop', 'bed'],
      hookSource: 'ruler',
    });
    const answer = benchAnswer(state);
    expect(cg[0]).toBeGreaterThan(truck.wheelbase);
    expect(valueOf(answer.cg).ahead.value).toBeCloseTo(cg[0], 4);
    expect(reasonOf(answer.tips)).toBe('cg-outside');
  });

  it('pictures from two sides', () => {
    const state = changed(bench({ hooks: ['hood', 'bed'] }), ({ pictures }) => {
      for (const picture of pictures) if (picture.kind === 'hanging') picture.view = 'left';
    });
    const answer = benchAnswer(state);
    expect(answer.cg).toMatchObject({ ok: false, message: expect.stringContaining('the other side') });
    expect(answer.warnings.filter(({ code }) => code === 'other side')).toHaveLength(2);
  });
});

describe('scales', () => {
  it('of two axles make the place ahead surer, and lie on a line through the wheelbase', () => {
    const plain = cgOf(bench({ hooks: ['hood', 'bed'] }));
    const answer = benchAnswer(bench({ hooks: ['hood', 'bed'], scales: 'axle' }));
    const weighed = valueOf(answer.cg);
    expect(weighed.ahead.u).toBeLessThan(0.9 * plain.ahead.u);
    expect(weighed.lateralFrom).toBe('assumed');
    // The place ahead twice, and the mass twice.
    expect(answer.consistency?.degreesOfFreedom).toBe(2);
    // Axle masses within 5 g of 3 kg and a wheelbase to 1 mm, 19 times in 20: half a millimeter or so.
    expect(answer.foreAft?.u).toBeLessThan(0.0006);
    expect(answer.budget.some(({ source }) => source === 'scales')).toBe(true);
  });

  it('and one hang are enough', () => {
    const { cg, lines } = benchAnswer(
      changed(bench({ hooks: ['bed'], scales: 'axle' }), ({ pictures }) => pictures.splice(2)),
    );
    expect(lines).toHaveLength(1);
    expect(cg.ok).toBe(true);
  });

  it('share the wheelbase with the pictures: a surer wheelbase makes both surer, a wrong one moves both', () => {
    const withWheelbase = (text: string, plusMinus: string) =>
      cgOf(
        changed(bench({ scales: 'axle' }), ({ dimensions }) => {
          Object.assign(dimensions.wheelbase, { text, plusMinus });
        }),
      );
    const { wheelbase } = bench().dimensions;
    const length = Number(wheelbase.text);
    expect(withWheelbase(wheelbase.text, '0.1').ahead.u).toBeLessThan(
      withWheelbase(wheelbase.text, '5').ahead.u,
    );
    // Scales and, but for the ruled hooks, pictures stretch with the wheelbase.
    const stretched = withWheelbase((length * 1.01).toFixed(3), '0.1').ahead.value;
    const right = withWheelbase(wheelbase.text, '0.1').ahead.value;
    expect(stretched / right).toBeGreaterThan(1.003);
    expect(stretched / right).toBeLessThan(1.011);
  });

  it('of four wheels give the lateral place', () => {
    const bare = simulateBench({
      truck: inventTruck(7),
      pictureSeed: 7,
      suspension: 'locked',
      hooks: ['hood', 'hoop', 'bed'],
      hookSource: 'ruler',
      markSigma: 1.5,
      redraw: MARKED_AGAIN,
      scales: 'wheel',
    });
    const weighed = cgOf(bare.state);
    expect(weighed.lateralFrom).toBe('measured');
    expect(weighed.left.u).toBeLessThan(0.2 * cgOf(bench()).left.u);
    expect(Math.abs(weighed.left.value - bare.truth.cg[1]) / weighed.left.u).toBeLessThan(4);
    expect(benchAnswer(bare.state).known.left?.value).toBe(weighed.left.value);
    const tips = valueOf(benchAnswer(bare.state).tips);
    // The side it leans to tips first.
    const lower = bare.truth.cg[1] > 0 ? tips.left : tips.right;
    const upper = bare.truth.cg[1] > 0 ? tips.right : tips.left;
    expect(lower.angle.value).toBeLessThan(upper.angle.value);
  });
});

describe('the same bench told otherwise', () => {
  const state = bench({ scales: 'both' });
  const answer = benchAnswer(state);

  it('gives the same answer object for the same state, and the same answer for a copy', () => {
    expect(benchAnswer(state)).toBe(answer);
    const copy = benchAnswer(structuredClone(state));
    expect(copy).not.toBe(answer);
    expect(apart(answer, copy)).toBe(0);
  });

  it.each(['locked', 'free'] as const)(
    'is the same from an earlier answer, but for the stop rule: %s',
    (suspension) => {
      const before = bench({ suspension, hooks: ['hood', 'hoop', 'guard'] });
      const from = benchAnswer(before);
      for (let n = 0; n < 12; n++) {
        const after = changed(before, ({ pictures }) => {
          const mark = pictures[1 + (n % 3)]?.marks[n % 7];
          if (mark) [mark.x, mark.y] = [mark.x + 6 * Math.sin(n), mark.y + 6 * Math.cos(n)];
        });
        expect(apart(benchAnswer(structuredClone(after)), benchAnswer(after, { from }))).toBeLessThan(
          tolerance('bench: from an earlier answer'),
        );
      }
    },
  );

  it('does not count what was set aside', () => {
    const aside = changed(state, ({ pictures, readings }) => {
      const [standing, first, second, third] = pictures;
      if (!standing || !first || !second || !third) throw new Error('three hangs');
      third.counted = false;
      for (const mark of second.marks) if (mark.role === 'mark C') mark.counted = false;
      for (const reading of readings) reading.counted = false;
    });
    const removed = changed(state, (draft) => {
      draft.pictures.splice(3);
      draft.readings = [];
      const second = draft.pictures[2];
      if (second) second.marks = second.marks.filter(({ role }) => role !== 'mark C');
    });
    expect(apart(benchAnswer(aside), benchAnswer(removed))).toBeLessThan(same);
    expect(apart(answer, benchAnswer(removed))).toBeGreaterThan(0.05);
  });

  it('is mirrored by a mirror', () => {
    const flip = (text: string) => (text === '' ? '' : text.startsWith('-') ? text.slice(1) : `-${text}`);
    const mirrored = changed(state, (draft) => {
      for (const picture of draft.pictures) {
        picture.view = 'left';
        for (const mark of picture.marks) mark.x = picture.width - mark.x;
      }
      for (const hook of draft.hooks) hook.left.text = flip(hook.left.text);
      for (const reading of draft.readings)
        if (reading.kind === 'wheel scales') {
          [reading.frontLeft, reading.frontRight] = [reading.frontRight, reading.frontLeft];
          [reading.rearLeft, reading.rearRight] = [reading.rearRight, reading.rearLeft];
        }
    });
    const [seen, other] = [valueOf(answer.cg), cgOf(mirrored)];
    for (const axis of ['ahead', 'height'] as const)
      expect(Math.abs(seen[axis].value - other[axis].value) / seen[axis].u).toBeLessThan(same);
    expect(Math.abs(seen.left.value + other.left.value) / seen.left.u).toBeLessThan(same);
    const [tips, tipsOther] = [valueOf(answer.tips), valueOf(benchAnswer(mirrored).tips)];
    expect(tips.left.angle.value).toBeCloseTo(tipsOther.right.angle.value, 6);
  });

  it('does not depend on units or on the size of the pictures', () => {
    const inches = changed(state, (draft) => {
      for (const { given, field } of givensOf(draft)) {
        if (given.unit !== 'mm' || given.text === '') continue;
        const plusMinus = given.plusMinus === '' ? '' : String(Number(given.plusMinus) / 25.4);
        Object.assign(given, { text: String(Number(given.text) / 25.4), plusMinus, unit: 'in' });
        if (field.plusMinus === null) throw new Error('a length has a ±');
      }
    });
    expect(apart(answer, benchAnswer(inches))).toBeLessThan(same);
    const doubled = changed(state, (draft) => {
      for (const picture of draft.pictures) {
        picture.width *= 2;
        picture.height *= 2;
        picture.markPlusMinus.text = String(Number(picture.markPlusMinus.text) * 2);
        for (const mark of picture.marks) [mark.x, mark.y] = [mark.x * 2, mark.y * 2];
      }
    });
    expect(apart(answer, benchAnswer(doubled))).toBeLessThan(same);
  });

  it('does not depend on the order of pictures, marks and hooks', () => {
    const reversed = changed(state, (draft) => {
      draft.pictures.reverse();
      draft.hooks.reverse();
      draft.bodyMarks.reverse();
      draft.readings.reverse();
      for (const { marks } of draft.pictures) marks.reverse();
    });
    expect(apart(answer, benchAnswer(reversed))).toBeLessThan(same);
  });
});

describe('the budget', () => {
  it('adds up to the ±, largest in height first', () => {
    for (const hookSource of ['ruler', 'standing picture'] as const) {
      const answer = benchAnswer(bench({ hookSource, scales: 'axle' }));
      const { ahead, height } = valueOf(answer.cg);
      for (const [axis, u] of [
        ['ahead', ahead.u],
        ['height', height.u],
      ] as const) {
        const total = Math.hypot(...answer.budget.map((row) => row[axis]));
        expect(Math.abs(total / u - 1), axis).toBeLessThan(tolerance('bench: budget'));
      }
      const sorted = answer.budget.map((row) => row.height);
      expect(sorted).toEqual([...sorted].sort((a, b) => b - a));
    }
  });
});

/** Every number in an answer, wherever it stands; the adjustment's own workings apart. */
function* numbersIn(value: unknown, path = ''): Generator<[string, number]> {
  if (typeof value === 'number') yield [path, value];
  else if (value instanceof Map)
    for (const [key, inner] of value) yield* numbersIn(inner, `${path}.${String(key)}`);
  else if (typeof value === 'object' && value !== null)
    for (const [key, inner] of Object.entries(value)) yield* numbersIn(inner, `${path}.${key}`);
}

describe('damaged states', () => {
  const bases = [
    bench({ scales: 'both', partsList: true }),
    bench({ suspension: 'free', hooks: ['hood', 'hoop', 'guard'], scales: 'wheel' }),
    bench({ hookSource: 'standing picture', hooks: ['hood', 'bed'], view: 'left' }),
    squareBench({
      truck: inventTruck(4),
      suspension: 'locked',
      hooks: ['hood', 'bed'],
      hookSource: 'ruler',
      twoPoints: true,
    }).state,
  ];
  const rubbish = fc.constantFrom(
    '',
    'x',
    '0',
    '-3',
    '1e9',
    '1e-9',
    '1,2,3',
    '12 kg',
    '40 mm',
    '5 %',
    'NaN',
    'Infinity',
    '0.001',
    '99999',
    '−7',
    '½',
    '  ',
  );
  const damage = fc.oneof(
    fc.record({ kind: fc.constant('given' as const), at: fc.nat(), text: rubbish }),
    fc.record({ kind: fc.constant('plus-minus' as const), at: fc.nat(), text: rubbish }),
    fc.record({
      kind: fc.constantFrom('delete' as const, 'aside' as const),
      list: fc.constantFrom(
        'pictures' as const,
        'hooks' as const,
        'bodyMarks' as const,
        'readings' as const,
        'parts' as const,
        'marks' as const,
      ),
      at: fc.nat(),
    }),
    fc.record({
      kind: fc.constant('mark' as const),
      at: fc.nat(),
      x: fc.oneof(fc.constantFrom(0, 600), fc.double({ min: -1e4, max: 1e4, noNaN: true })),
      y: fc.oneof(fc.constantFrom(0, 600), fc.double({ min: -1e4, max: 1e4, noNaN: true })),
    }),
    fc.record({
      kind: fc.constant('choice' as const),
      at: fc.nat(),
      of: fc.constantFrom(
        'view' as const,
        'hook' as const,
        'suspension' as const,
        'scaleFrom' as const,
        'carrier' as const,
        'picture kind' as const,
      ),
    }),
  );
  const damaged = fc
    .tuple(fc.constantFrom(...bases), fc.array(damage, { minLength: 1, maxLength: 5 }))
    .map(([base, damages]) =>
      changed(base, (draft) => {
        const pick = <Item>(list: readonly Item[], at: number): Item | undefined =>
          list[at % (list.length || 1)];
        for (const one of damages) {
          const marks = draft.pictures.flatMap((picture) => picture.marks);
          if (one.kind === 'given' || one.kind === 'plus-minus') {
            const placed = pick([...givensOf(draft)], one.at);
            if (placed)
              Object.assign(
                placed.given,
                one.kind === 'given' ? { text: one.text } : { plusMinus: one.text },
              );
          } else if (one.kind === 'mark') {
            const mark = pick(marks, one.at);
            if (mark) Object.assign(mark, { x: one.x, y: one.y });
          } else if (one.kind === 'choice') {
            const picture = pick(draft.pictures, one.at);
            const hook = pick(draft.hooks, one.at);
            if (one.of === 'scaleFrom')
              draft.scaleFrom = draft.scaleFrom === 'wheelbase' ? 'two points' : 'wheelbase';
            else if (one.of === 'carrier' && hook)
              hook.carrier = pick(['body', 'front axle', 'rear axle'] as const, one.at) ?? 'body';
            else if (picture && one.of === 'view') picture.view = picture.view === 'left' ? 'right' : 'left';
            else if (picture && one.of === 'hook')
              picture.hook = pick(['bed', 'hood', null, 'no such'], one.at) ?? null;
            else if (picture && one.of === 'suspension')
              picture.suspension = picture.suspension === 'free' ? 'locked' : 'free';
            else if (picture && one.of === 'picture kind')
              picture.kind = picture.kind === 'hanging' ? 'standing' : 'hanging';
          } else if (one.list === 'marks') {
            const picture: Draft<Picture> | undefined = pick(draft.pictures, one.at);
            if (!picture) continue;
            const index = one.at % (picture.marks.length || 1);
            const mark = picture.marks[index];
            if (one.kind === 'delete') picture.marks.splice(index, 1);
            else if (mark) mark.counted = false;
          } else if (one.kind === 'delete') {
            draft[one.list].splice(one.at % (draft[one.list].length || 1), 1);
          } else {
            const target = pick<object>(draft[one.list], one.at);
            if (target && 'counted' in target) Object.assign(target, { counted: false });
          }
        }
      }),
    );

  it('never throw, and give finite numbers or a reason', () => {
    const seen = { answered: 0, refused: 0 };
    fc.assert(
      fc.property(damaged, fc.boolean(), (state, warm) => {
        const from = bases[0];
        const answer = benchAnswer(state, warm && from ? { from: benchAnswer(from) } : {});
        expect(answer.next.text.length).toBeGreaterThan(10);
        if (answer.cg.ok) seen.answered += 1;
        else {
          seen.refused += 1;
          expect(answer.cg.message).toMatch(/\.$/);
        }
        const { adjusted, ...shown } = answer;
        for (const [path, number] of numbersIn(shown)) {
          // Nothing checked: no residual is too large.
          if (path === '.blunder.threshold' && number === Infinity) continue;
          expect(Number.isFinite(number), path).toBe(true);
        }
        if (adjusted)
          for (const number of adjusted.start.unknowns) expect(Number.isFinite(number)).toBe(true);
      }),
      { numRuns: 400 },
    );
    // Both kinds must have come up for this to mean anything.
    expect(Math.min(seen.answered, seen.refused)).toBeGreaterThan(50);
    // Ten seconds of computing, on a machine that may be shared by twenty.
  }, 200_000);
});
