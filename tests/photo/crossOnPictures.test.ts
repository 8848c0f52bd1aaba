import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { fitSimilarity } from '../../src/photo/camera';
import { crossOnPictures } from '../../src/photo/crossOnPictures';
import type { CrossedPicture, CrossingHang, PixelMark } from '../../src/photo/crossOnPictures';
import { PLANE_COVERAGE } from '../../src/physics';
import { EVERYTHING, simulateBench } from '../demo/world/bench';
import { project } from '../demo/world/camera';
import { inventTruck } from '../demo/world/invent';
import { inWorld } from '../demo/world/photograph';
import { random } from '../demo/world/random';
import { centerOfGravity } from '../demo/world/truck';
import { tolerance } from '../tolerances';

interface Point {
  readonly x: number;
  readonly y: number;
}

/** A picture of the plate: enlarged, turned by `turn` (rad, as pixels run: clockwise), shifted. */
interface Shot {
  readonly scale: number;
  readonly turn: number;
  readonly x: number;
  readonly y: number;
}

const seen = ({ scale, turn, x, y }: Shot, p: Point): Point => ({
  x: x + scale * (Math.cos(turn) * p.x - Math.sin(turn) * p.y),
  y: y + scale * (Math.sin(turn) * p.x + Math.cos(turn) * p.y),
});

/** A flat plate hung from `hook`: its string runs on through its centroid, which is why the plate shows it there. */
function hung(
  id: string,
  marks: Readonly<Record<string, Point>>,
  hook: Point,
  centroid: Point,
  shot: Shot,
  u = 1,
): CrossingHang {
  const along = (share: number): PixelMark => ({
    ...seen(shot, { x: hook.x + share * (hook.x - centroid.x), y: hook.y + share * (hook.y - centroid.y) }),
    u,
  });
  return {
    id,
    width: 1200,
    height: 1600,
    bodyMarks: new Map(Object.entries(marks).map(([key, p]) => [key, { ...seen(shot, p), u }])),
    string: [along(1.4), along(0.1)],
  };
}

const EXACT = { aside: 0 };
const crossed = (hangs: readonly CrossingHang[], options = EXACT): readonly CrossedPicture[] => {
  const result = crossOnPictures(hangs, options);
  if (!result.ok) throw new Error(result.message);
  return result.value.pictures;
};
const only = (hangs: readonly CrossingHang[], id: string, options = EXACT): CrossedPicture => {
  const found = crossed(hangs, options).find(({ pictureId }) => pictureId === id);
  if (!found) throw new Error(`nothing in ${id}`);
  return found;
};
const apart = (p: Point, q: Point): number => Math.hypot(p.x - q.x, p.y - q.y);

const FIRST: Shot = { scale: 2.1, turn: 0.7, x: 520, y: 700 };
const SECOND: Shot = { scale: 1.7, turn: -0.9, x: 640, y: 820 };
const THIRD: Shot = { scale: 2.4, turn: 2.2, x: 500, y: 600 };

/**
 * Plates cut from sheet, hung from their corners: the old way of finding a centroid, whose place is known. Centroids
 * of areas: F. P. Beer, E. R. Johnston, Vector Mechanics for Engineers: Statics, fig. 5.8A (triangle h/3; quarter
 * circle 4r/3π) and eq. (5.7) for composite plates. mm, y down as pixels run.
 */
const PLATES: readonly {
  readonly name: string;
  readonly marks: Readonly<Record<string, Point>>;
  readonly hooks: readonly [Point, Point];
  readonly centroid: Point;
}[] = [
  {
    name: 'right triangle, 240 by 180',
    marks: { A: { x: 0, y: 0 }, B: { x: 240, y: 0 }, C: { x: 0, y: 180 } },
    hooks: [
      { x: 235, y: 4 },
      { x: 4, y: 170 },
    ],
    centroid: { x: 240 / 3, y: 180 / 3 },
  },
  {
    name: 'quarter circle, radius 200',
    marks: { A: { x: 0, y: 0 }, B: { x: 200, y: 0 }, C: { x: 0, y: 200 } },
    hooks: [
      { x: 195, y: 2 },
      { x: 2, y: 195 },
    ],
    centroid: { x: (4 * 200) / (3 * Math.PI), y: (4 * 200) / (3 * Math.PI) },
  },
  {
    // Two strips, 200 by 60 and 60 by 140: areas 12,000 and 8,400.
    name: 'L of two strips',
    marks: { A: { x: 0, y: 0 }, B: { x: 200, y: 0 }, C: { x: 60, y: 200 }, D: { x: 0, y: 200 } },
    hooks: [
      { x: 190, y: 10 },
      { x: 10, y: 190 },
    ],
    centroid: {
      x: (12_000 * 100 + 8_400 * 30) / 20_400,
      y: (12_000 * 30 + 8_400 * 130) / 20_400,
    },
  },
];

describe.each(PLATES)('a plate hung twice: $name', ({ marks, hooks, centroid }) => {
  const hangs = [hung('1', marks, hooks[0], centroid, FIRST), hung('2', marks, hooks[1], centroid, SECOND)];

  it('has its centroid where the strings cross, in either picture', () => {
    const limit = tolerance('cross on pictures: exact marks');
    expect(apart(only(hangs, '1').place, seen(FIRST, centroid))).toBeLessThan(limit);
    expect(apart(only(hangs, '2').place, seen(SECOND, centroid))).toBeLessThan(limit);
  });

  it('tells it in parts of the spacing of two marks', () => {
    const { relative, marks: carried } = only(hangs, '1');
    const [from, to] = [marks[relative.from], marks[relative.to]];
    if (!from || !to) throw new Error('marks of the plate');
    const limit = tolerance('cross on pictures: parts of a spacing');
    const long = apart(from, to);
    const [dx, dy] = [(to.x - from.x) / long, (to.y - from.y) / long];
    const [cx, cy] = [(centroid.x - from.x) / long, (centroid.y - from.y) / long];
    expect(Math.abs(relative.along.value - (cx * dx + cy * dy))).toBeLessThan(limit);
    // Facing along (1, 0) with y down, left is up: (0, −1).
    expect(Math.abs(relative.left.value - (cx * dy - cy * dx))).toBeLessThan(limit);
    expect(Math.abs(relative.fromFirst.value - apart(centroid, from) / long)).toBeLessThan(limit);
    expect(Math.abs(relative.fromSecond.value - apart(centroid, to) / long)).toBeLessThan(limit);
    for (const { misfit } of carried)
      expect(misfit).toBeLessThan(tolerance('cross on pictures: exact marks'));
  });
});

const point = fc.record({
  x: fc.double({ min: 0, max: 300, noNaN: true }),
  y: fc.double({ min: 0, max: 300, noNaN: true }),
});
const shot = fc.record({
  scale: fc.double({ min: 0.3, max: 8, noNaN: true }),
  turn: fc.double({ min: -Math.PI, max: Math.PI, noNaN: true }),
  x: fc.double({ min: -2000, max: 2000, noNaN: true }),
  y: fc.double({ min: -2000, max: 2000, noNaN: true }),
});
/** Two hangs of a random plate whose strings cross well, each mark off by up to 2 mm. */
const twoHangs = fc
  .record({
    marks: fc.tuple(point, point, point, point),
    offs: fc.array(fc.double({ min: -2, max: 2, noNaN: true }), { minLength: 16, maxLength: 16 }),
    hooks: fc.tuple(point, point),
    centroid: point,
    shots: fc.tuple(shot, shot),
    count: fc.integer({ min: 2, max: 4 }),
  })
  .filter(({ marks: [a, b, c, d], hooks: [h, k], centroid: g }) => {
    const sine =
      Math.abs((h.x - g.x) * (k.y - g.y) - (h.y - g.y) * (k.x - g.x)) / (apart(h, g) * apart(k, g));
    return (
      apart(h, g) > 60 &&
      apart(k, g) > 60 &&
      sine > 0.3 &&
      apart(a, b) > 80 &&
      apart(a, c) > 80 &&
      apart(b, d) > 80
    );
  })
  .map(({ marks, offs, hooks, centroid, shots, count }) => {
    const named = (from: number) =>
      Object.fromEntries(
        marks.slice(0, count).map(({ x, y }, i) => {
          const at = from + 2 * i;
          return ['ABCD'.charAt(i), { x: x + (offs[at] ?? 0), y: y + (offs[at + 1] ?? 0) }] as const;
        }),
      );
    return [
      hung('1', named(0), hooks[0], centroid, shots[0], 1),
      hung('2', named(8), hooks[1], centroid, shots[1], 1),
    ] as const;
  });

/** A hang with its whole picture enlarged, turned and shifted; what is unsure grows with it. */
const moved = (hang: CrossingHang, by: Shot): CrossingHang => {
  const mark = ({ u, ...p }: PixelMark): PixelMark => ({ ...seen(by, p), u: u * by.scale });
  return {
    ...hang,
    bodyMarks: new Map([...hang.bodyMarks].map(([key, p]) => [key, mark(p)])),
    string: [mark(hang.string[0]), mark(hang.string[1])],
  };
};

describe('the crossing', () => {
  it('stays on the body when a picture is enlarged, turned or shifted', () => {
    fc.assert(
      fc.property(twoHangs, shot, ([one, two], by) => {
        const before = only([one, two], '1');
        const otherMoved = only([one, moved(two, by)], '1');
        const selfMoved = only([moved(one, by), two], '1');
        const limit = tolerance('cross on pictures: moved pictures') * Math.max(1, before.u);
        expect(apart(otherMoved.place, before.place)).toBeLessThan(limit);
        expect(apart(selfMoved.place, seen(by, before.place)) / by.scale).toBeLessThan(limit);
        expect(Math.abs(otherMoved.u / before.u - 1)).toBeLessThan(tolerance('cross on pictures: moved u'));
        expect(Math.abs(selfMoved.u / before.u / by.scale - 1)).toBeLessThan(
          tolerance('cross on pictures: moved u'),
        );
        expect(Math.abs(selfMoved.relative.left.value - before.relative.left.value)).toBeLessThan(limit / 15);
      }),
    );
  });

  it('is where a construction by other means puts it', () => {
    fc.assert(
      fc.property(twoHangs, ([one, two]) => {
        const keys = [...one.bodyMarks.keys()];
        const at = (hang: CrossingHang) => keys.map((key) => hang.bodyMarks.get(key) ?? { x: NaN, y: NaN });
        const fit = fitSimilarity(at(two), at(one));
        if (!fit) throw new Error('a similarity');
        const [p, q] = two.string.map((end) =>
          seen({ scale: fit.scale, turn: fit.rotation, x: fit.shiftX, y: fit.shiftY }, end),
        );
        const [a, b] = one.string;
        if (!p || !q) throw new Error('a string');
        // Two lines through two points each, by determinants.
        const first = a.x * b.y - a.y * b.x;
        const second = p.x * q.y - p.y * q.x;
        const below = (a.x - b.x) * (p.y - q.y) - (a.y - b.y) * (p.x - q.x);
        const place = {
          x: (first * (p.x - q.x) - (a.x - b.x) * second) / below,
          y: (first * (p.y - q.y) - (a.y - b.y) * second) / below,
        };
        const found = only([one, two], '1');
        expect(apart(found.place, place)).toBeLessThan(
          tolerance('cross on pictures: moved pictures') * Math.max(1, found.u),
        );
      }),
    );
  });
});

const [TRIANGLE] = PLATES;
if (!TRIANGLE) throw new Error('plates');
const L_PLATE = PLATES[2] ?? TRIANGLE;
const thirdHook: Point = { x: 15, y: 15 };
const lHangs = (u: readonly [number, number, number]): readonly CrossingHang[] => [
  hung('1', L_PLATE.marks, L_PLATE.hooks[0], L_PLATE.centroid, FIRST, u[0]),
  hung('2', L_PLATE.marks, L_PLATE.hooks[1], L_PLATE.centroid, SECOND, u[1]),
  hung('3', L_PLATE.marks, thirdHook, L_PLATE.centroid, THIRD, u[2]),
];

describe('the uncertainty', () => {
  it.each([
    ['two hangs', lHangs([1, 2, 1]).slice(0, 2)],
    ['two hangs, one of them poorly marked', lHangs([0.4, 4, 1]).slice(0, 2)],
    ['three hangs', lHangs([1, 1.5, 2])],
    [
      'three hangs, two marks',
      lHangs([1, 1.5, 2]).map((hang) => ({ ...hang, bodyMarks: new Map([...hang.bodyMarks].slice(1, 3)) })),
    ],
  ])('is what marking again scatters by: %s', (_name, hangs) => {
    const draws = random(7, 'marks again');
    const again = (mark: PixelMark): PixelMark => ({
      x: mark.x + mark.u * draws.normal(),
      y: mark.y + mark.u * draws.normal(),
      u: mark.u,
    });
    const { place, covariance, relative } = only(hangs, '2');
    const count = 1500;
    let [xx, xy, yy, along, left] = [0, 0, 0, 0, 0];
    for (let i = 0; i < count; i++) {
      const drawn = only(
        hangs.map((hang) => ({
          ...hang,
          bodyMarks: new Map([...hang.bodyMarks].map(([key, mark]) => [key, again(mark)])),
          string: [again(hang.string[0]), again(hang.string[1])] as const,
        })),
        '2',
      );
      const [dx, dy] = [drawn.place.x - place.x, drawn.place.y - place.y];
      xx += (dx * dx) / count;
      xy += (dx * dy) / count;
      yy += (dy * dy) / count;
      along += (drawn.relative.along.value - relative.along.value) ** 2 / count;
      left += (drawn.relative.left.value - relative.left.value) ** 2 / count;
    }
    const at = (i: number, j: number) => covariance[i]?.[j] ?? NaN;
    const limit = tolerance('cross on pictures: simulated variance');
    expect(Math.abs(xx / at(0, 0) - 1)).toBeLessThan(limit);
    expect(Math.abs(yy / at(1, 1) - 1)).toBeLessThan(limit);
    expect(Math.abs(xy - at(0, 1)) / Math.sqrt(at(0, 0) * at(1, 1))).toBeLessThan(limit);
    expect(Math.abs(along / relative.along.u ** 2 - 1)).toBeLessThan(limit);
    expect(Math.abs(left / relative.left.u ** 2 - 1)).toBeLessThan(limit);
  });

  it('shrinks with a third hang', () => {
    const hangs = lHangs([1, 1, 1]);
    expect(only(hangs, '1').u).toBeLessThan(only(hangs.slice(0, 2), '1').u);
    expect(apart(only(hangs, '1').place, seen(FIRST, L_PLATE.centroid))).toBeLessThan(
      tolerance('cross on pictures: exact marks'),
    );
  });

  it('covers invented trucks seen off square and from near', () => {
    let [inside, all] = [0, 0];
    for (let seed = 1; seed <= 150; seed++) {
      const truck = inventTruck(seed);
      const { state, truth } = simulateBench({
        truck,
        pictureSeed: seed,
        suspension: 'locked',
        hooks: ['hood', 'hoop'],
        hookSource: 'ruler',
        markSigma: 1.5,
        redraw: EVERYTHING,
      });
      const hangs = state.pictures
        .filter(({ kind }) => kind === 'hanging')
        .map(({ id, width, height, marks }): CrossingHang => {
          const at = (role: string): PixelMark => {
            const { x, y } = marks.find((mark) => mark.role === role) ?? { x: NaN, y: NaN };
            return { x, y, u: 1.5 };
          };
          return {
            id,
            width,
            height,
            bodyMarks: new Map(state.bodyMarks.map(({ key }) => [key, at(`mark ${key}`)])),
            string: [at('string upper'), at('string lower')],
          };
        });
      const result = crossOnPictures(hangs);
      for (const { pictureId, place, covariance } of result.ok ? result.value.pictures : []) {
        const photograph = truth.photographs.find(({ id }) => id === pictureId);
        if (!photograph) throw new Error(`no photograph ${pictureId}`);
        const cg = project(photograph.camera, inWorld(photograph, centerOfGravity(truck, photograph.droop)));
        const [dx, dy] = [place.x - cg.x, place.y - cg.y];
        const at = (i: number, j: number) => covariance[i]?.[j] ?? NaN;
        const squared =
          (dx * dx * at(1, 1) - 2 * dx * dy * at(0, 1) + dy * dy * at(0, 0)) /
          (at(0, 0) * at(1, 1) - at(0, 1) ** 2);
        all += 1;
        if (squared <= PLANE_COVERAGE ** 2) inside += 1;
      }
    }
    expect(all).toBe(300);
    expect(Math.abs(inside / all - 0.95)).toBeLessThan(tolerance('cross on pictures: coverage of trucks'));
  });

  it('widens, and names the mark, where one sits on the wrong thing', () => {
    const hangs = lHangs([1, 1, 1]).slice(0, 2);
    const [one, two] = hangs;
    const c = one?.bodyMarks.get('C');
    if (!one || !two || !c) throw new Error('two hangs');
    const wrong = { ...one, bodyMarks: new Map(one.bodyMarks).set('C', { ...c, x: c.x + 30 }) };
    const found = only([wrong, two], '1');
    expect(only(hangs, '1')).toMatchObject({ widened: 1, worst: null });
    expect(found.worst?.key).toBe('C');
    expect(found.widened).toBeGreaterThan(3);
    expect(found.marks[0]?.probability).toBeLessThan(1e-6);
    // Of three marks any may be the wrong one.
    const three = [wrong, two].map((hang) => {
      const marks = new Map(hang.bodyMarks);
      marks.delete('D');
      return { ...hang, bodyMarks: marks };
    });
    expect(only(three, '1').worst).toBeNull();
  });
});

describe('what cannot be', () => {
  const { marks, hooks, centroid } = TRIANGLE;
  const one = hung('1', marks, hooks[0], centroid, FIRST);
  const two = hung('2', marks, hooks[1], centroid, SECOND);
  const reason = (...hangs: readonly CrossingHang[]) => {
    const result = crossOnPictures(hangs);
    return result.ok ? result.value : result.reason;
  };
  const without = (hang: CrossingHang, ...keys: readonly string[]): CrossingHang => ({
    ...hang,
    bodyMarks: new Map([...hang.bodyMarks].filter(([key]) => !keys.includes(key))),
  });

  it('is refused with its reason', () => {
    expect(reason(one)).toBe('too few hangs');
    expect(reason(one, without(two, 'A', 'B'))).toBe('too few common marks');
    expect(reason(without(one, 'A'), without(two, 'B'))).toBe('too few common marks');
    expect(reason(one, hung('2', marks, { x: 230, y: 6 }, centroid, SECOND))).toBe('nearly parallel');
    const upon = new Map([...two.bodyMarks].map(([key]) => [key, { x: 300, y: 400, u: 1 }]));
    expect(reason(one, { ...two, bodyMarks: upon })).toBe('marks coincide');
    const [upper] = two.string;
    expect(reason(one, { ...two, string: [upper, { ...upper, x: upper.x + 3 }] })).toBe('marks coincide');
  });

  it('leaves out a hang that shares no marks, and shows the others', () => {
    const third = without(hung('3', marks, { x: 5, y: 5 }, centroid, THIRD), 'A', 'B', 'C');
    const found = reason(one, two, third);
    expect(found).toMatchObject({ apart: ['3'] });
    expect(only([one, two, third], '1').place).toEqual(only([one, two], '1').place);
  });

  it('tells a place outside the picture', () => {
    const far = hung('1', marks, hooks[0], centroid, { ...FIRST, x: 520, y: 1700 });
    expect(only([far, two], '1').inside).toBe(false);
    expect(only([far, two], '2').inside).toBe(true);
  });
});
