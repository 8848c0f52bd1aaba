import { describe, expect, it } from 'vitest';
import { adjustPictures } from '../../../src/photo/fit/adjustPictures';
import type {
  HangingPicture,
  MarkedPoint,
  StandingPicture,
  TruckGivens,
} from '../../../src/photo/fit/givens';
import { plumbLines } from '../../../src/photo/plumbLines';
import { readState } from '../../../src/photo/readState';
import type { BuildState } from '../../../src/sheet/schema';
import { MARKED_AGAIN, simulateBench } from '../../demo/world/bench';
import { inventTruck } from '../../demo/world/invent';
import { reasonOf, valueOf } from '../../physics/given';
import { tolerance } from '../../tolerances';
import { type SquareBench, levelTruck, squareBench } from '../../answer/squareBench';

/** What the adjustment takes, from a state. */
function pictures(state: BuildState): {
  truck: TruckGivens;
  standing: StandingPicture;
  hangs: readonly HangingPicture[];
} {
  const {
    truck,
    standings: [standing],
    hangs,
  } = readState(state);
  if (!truck || !standing) throw new Error('a complete bench');
  return { truck, standing, hangs };
}
const adjusted = (state: BuildState) => {
  const { truck, standing, hangs } = pictures(state);
  return valueOf(adjustPictures(truck, [standing], hangs));
};
/** How far the farthest of the plumb lines passes the true center of gravity, mm. */
function errorOf({ state, cg: [x, , z] }: SquareBench): number {
  const { truck, hangs } = pictures(state);
  const lines = valueOf(plumbLines(adjusted(state), truck, hangs)).hangs;
  expect(lines.length).toBeGreaterThanOrEqual(2);
  return Math.max(
    ...lines.map(({ line: { through, angle } }) => {
      // Area of the parallelogram of a unit vector down the string and the way to the center of gravity.
      return 1000 * Math.abs(Math.cos(angle) * (z - through.z) - Math.sin(angle) * (x - through.x));
    }),
  );
}
const moved = (point: MarkedPoint, dx: number): MarkedPoint => ({ ...point, x: point.x + dx });

/** Three locked hangs marked with 1.5 px of noise. */
const noisy = (number: number): BuildState =>
  simulateBench({
    truck: inventTruck(number),
    pictureSeed: number,
    suspension: 'locked',
    hooks: ['hood', 'hoop', 'bed'],
    hookSource: 'ruler',
    markSigma: 1.5,
    redraw: MARKED_AGAIN,
  }).state;

const TRUCKS = [1, 2, 3, 4, 5, 6];
const kinds = (['locked', 'free'] as const).flatMap((suspension) =>
  (['right', 'left'] as const).flatMap((view) =>
    (['ruler', 'standing picture'] as const).map((hookSource) => ({ suspension, view, hookSource })),
  ),
);

describe('without errors every plumb line holds the center of gravity', () => {
  it.each(kinds)('$suspension, seen from the $view, hook by $hookSource', (kind) => {
    for (const number of TRUCKS) {
      const truck = levelTruck(inventTruck(number));
      // Free, the second hook is the axle's, which droops.
      const hooks = kind.suspension === 'free' ? ['hood', 'guard'] : ['hood', 'hoop', 'bed'];
      expect(errorOf(squareBench({ ...kind, truck, hooks }))).toBeLessThan(
        tolerance('pictures: exact, level'),
      );
    }
  });

  it.each(kinds)('$suspension, seen from the $view, hook by $hookSource, leaning on the string', (kind) => {
    for (const number of TRUCKS) {
      const hooks = kind.suspension === 'free' ? ['hood', 'hoop', 'guard'] : ['hood', 'hoop', 'bed'];
      expect(errorOf(squareBench({ ...kind, truck: inventTruck(number), hooks }))).toBeLessThan(
        tolerance('pictures: exact, leaning'),
      );
    }
  });

  it.each(['right', 'left'] as const)(
    'with two points of known distance for a scale, seen from the %s',
    (view) => {
      for (const number of TRUCKS) {
        const truck = levelTruck(inventTruck(number));
        const bench = squareBench({
          truck,
          suspension: 'locked',
          hooks: ['hood', 'hoop', 'bed'],
          hookSource: 'standing picture',
          view,
          twoPoints: true,
        });
        expect(errorOf(bench)).toBeLessThan(tolerance('pictures: exact, level'));
        const { adjustment, layout } = adjusted(bench.state);
        const wheelbase = adjustment.unknowns[layout.wheelbase] ?? NaN;
        expect(1000 * Math.abs(wheelbase - truck.wheelbase)).toBeLessThan(
          tolerance('pictures: exact, level'),
        );
      }
    },
  );

  it('finds the droop of both axles, and the cameras', () => {
    const truck = levelTruck(inventTruck(3));
    const { state } = squareBench({
      truck,
      suspension: 'free',
      hooks: ['hood', 'guard'],
      hookSource: 'ruler',
    });
    const { adjustment, layout, cameras } = adjusted(state);
    const [[id, hang] = []] = layout.hangs;
    const camera = cameras.get(id ?? '');
    if (hang?.frontDroop == null || hang.rearDroop == null || !camera) throw new Error('two droops');
    // Hung nose down by the hood, both axles fall away from the frame: down in the truck, by up to their limits.
    for (const [index, { droopLimit }] of [
      [hang.frontDroop, truck.suspension.front],
      [hang.rearDroop, truck.suspension.rear],
    ] as const) {
      const up = adjustment.unknowns[index + 1] ?? NaN;
      expect(up).toBeLessThan(-0.002);
      expect(up).toBeGreaterThan(-droopLimit - 1e-5);
    }
    expect(1 / camera.nearness).toBeCloseTo(1.6, 4);
    expect(camera.scale).toBeCloseTo(1 / 0.0006, 0);
  });
});

describe('the pictures are refused', () => {
  const { state } = squareBench({
    truck: inventTruck(2),
    suspension: 'locked',
    hooks: ['hood', 'bed'],
    hookSource: 'ruler',
  });
  const { truck, standing, hangs } = pictures(state);
  const [first, second] = hangs;
  if (!first || !second) throw new Error('two hangs');
  const [firstMark] = first.bodyMarks;
  if (!firstMark) throw new Error('marks');

  it('with fewer than two marks in common', () => {
    for (const [kept, words] of [
      [[], 'no body mark'],
      [[firstMark], 'one body mark'],
    ] as const) {
      const refused = adjustPictures(truck, [standing], [first, { ...second, bodyMarks: new Map(kept) }]);
      expect(reasonOf(refused)).toBe('too few marks');
      expect(refused).toMatchObject({
        message: expect.stringContaining(`“hang 2” shares ${words} with`),
      });
    }
  });

  it('with all marks, or both hubs, at one point', () => {
    const [, point] = firstMark;
    const bodyMarks = new Map([...first.bodyMarks.keys()].map((key) => [key, point]));
    expect(reasonOf(adjustPictures(truck, [standing], [{ ...first, bodyMarks }, second]))).toBe(
      'marks coincide',
    );
    expect(
      reasonOf(
        adjustPictures(
          truck,
          [{ ...standing, ...(standing.rearHub ? { frontHub: standing.rearHub } : {}) }],
          hangs,
        ),
      ),
    ).toBe('marks coincide');
  });

  it('with a hook that has no place', () => {
    expect(reasonOf(adjustPictures(truck, [standing], [{ ...first, hook: 'another' }]))).toBe('unknown hook');
    const unseen = { ...truck, hooks: truck.hooks.map(({ id, carrier, left }) => ({ id, carrier, left })) };
    expect(reasonOf(adjustPictures(unseen, [{ ...standing, hooks: new Map() }], hangs))).toBe('unknown hook');
  });
});

describe('the registration of a hanging picture', () => {
  /** A truck with at least `count` landmarks, its first hang keeping that many, the last moved by `dx` pixels. */
  const registered = (count: number, dx: number) => {
    const { state } = squareBench({
      truck: inventTruck([1, 2, 3, 4, 5, 6, 7, 8].find((n) => inventTruck(n).landmarks.length >= count) ?? 1),
      suspension: 'locked',
      hooks: ['hood', 'bed'],
      hookSource: 'ruler',
      plusMinus: 2,
    });
    const { truck, standing, hangs } = pictures(state);
    const [first, second] = hangs;
    if (!first || !second) throw new Error('two hangs');
    const kept = [...first.bodyMarks].slice(0, count);
    const off = kept.at(-1)?.[0];
    const bodyMarks = new Map(kept.map(([key, point]) => [key, key === off ? moved(point, dx) : point]));
    const fit = valueOf(adjustPictures(truck, [standing], [{ ...first, bodyMarks }, second]));
    const registration = fit.registrations.get(first.id);
    if (!registration) throw new Error('registered');
    return { off, ...registration, misplaced: fit.misplaced.get(first.id) };
  };

  it('has no check with two marks', () => {
    expect(registered(2, 0).misfit).toBeNull();
    expect(registered(2, 20).misfit).toBeNull();
  });

  it('finds a misfit with three, and blames none of them', () => {
    expect(registered(3, 0).misfit).toBeLessThan(1e-4);
    expect(registered(3, 0).misplaced).toBeUndefined();
    const { misfit, expected, misplaced } = registered(3, 25);
    expect(misfit).toBeGreaterThan(3 * expected);
    expect(misplaced?.key).toBeNull();
  });

  it('names nobody where all marks are in place', () => {
    for (const count of [4, 5]) expect(registered(count, 0).misplaced).toBeUndefined();
  });

  it('names the misplaced one of five and more, and seldom another', () => {
    const named = { right: 0, other: 0, nobody: 0 };
    const offs: number[] = [];
    for (let number = 1; number <= 20; number++) {
      const { truck, standing, hangs } = pictures(noisy(number));
      const [first, ...others] = hangs;
      if (!first || first.bodyMarks.size < 5) continue;
      [...first.bodyMarks].forEach(([off, point], i) => {
        const angle = number + 2 * i;
        const shifted = { ...point, x: point.x + 25 * Math.cos(angle), y: point.y + 25 * Math.sin(angle) };
        const bodyMarks = new Map([...first.bodyMarks, [off, shifted]]);
        const { misplaced } = valueOf(
          adjustPictures(truck, [standing], [{ ...first, bodyMarks }, ...others]),
        );
        const found = misplaced.get(first.id);
        if (found?.key == null) named.nobody += 1;
        else if (found.key === off) {
          named.right += 1;
          offs.push(found.off);
        } else named.other += 1;
      });
    }
    const all = named.right + named.other + named.nobody;
    expect(all).toBeGreaterThan(50);
    // 25 px at 0.5 to 0.7 mm each are 15 mm in the middle.
    offs.sort((a, b) => a - b);
    const middle = offs[Math.floor(offs.length / 2)] ?? NaN;
    expect(Math.abs(middle / 0.015 - 1)).toBeLessThan(tolerance('pictures: how far misplaced'));
    expect(named.right / all, JSON.stringify(named)).toBeGreaterThan(
      tolerance('pictures: misplaced mark named'),
    );
  });

  it('blames the standing picture for a mark misplaced there, and the hangs for none', () => {
    const blamed = { standing: 0, all: 0 };
    for (let number = 1; number <= 20; number++) {
      const { truck, standing, hangs } = pictures(noisy(number));
      const [mark] = standing.bodyMarks;
      if (!mark || standing.bodyMarks.size < 5) continue;
      const bodyMarks = new Map([...standing.bodyMarks, [mark[0], moved(mark[1], 25)]]);
      const { misplaced } = valueOf(adjustPictures(truck, [{ ...standing, bodyMarks }], hangs));
      blamed.all += 1;
      if (misplaced.get('standing')?.key === mark[0] && misplaced.size === 1) blamed.standing += 1;
    }
    expect(blamed.standing / blamed.all, JSON.stringify(blamed)).toBeGreaterThan(
      tolerance('pictures: misplaced mark named'),
    );
  });

  it('lets the misfit be expected that marks with this ± have, and names none of them', () => {
    let [sum, pictureCount, named] = [0, 0, 0];
    for (let number = 1; number <= 20; number++) {
      const state = noisy(number);
      const { registrations, misplaced } = adjusted(state);
      named += misplaced.size;
      for (const { misfit, expected } of registrations.values()) {
        sum += ((misfit ?? NaN) / expected) ** 2;
        pictureCount += 1;
      }
    }
    expect(pictureCount).toBe(60);
    expect(Math.abs(sum / pictureCount - 1), `${sum / pictureCount}`).toBeLessThan(
      tolerance('pictures: misfit as expected'),
    );
    expect(named).toBeLessThanOrEqual(1);
  });

  it('knows how far the marks reach and whether they lie in one line', () => {
    const { span, roundness, keys } = registered(4, 0);
    const places = inventTruck(1).landmarks.map(({ place }) => place);
    expect(span).toBeGreaterThan(0.15);
    expect(span).toBeLessThan(Math.hypot(...places.map(([x]) => x)) + 0.2);
    expect(roundness).toBeGreaterThan(0.05);
    expect(roundness).toBeLessThan(1);
    expect(keys).toEqual(['A', 'B', 'C', 'D']);
    expect(registered(2, 0).roundness).toBeLessThan(1e-6);
  });
});
