import { describe, expect, it } from 'vitest';
import { adjustPictures } from '../../src/photo/fit/adjustPictures';
import { plumbLines } from '../../src/photo/plumbLines';
import { readState } from '../../src/photo/readState';
import { toTruck, toView } from '../../src/photo/views';
import { emptyGiven, emptyPicture, emptyState } from '../../src/sheet/empty';
import type { BuildState, Carrier, Mark, Picture, View } from '../../src/sheet/schema';
import { valueOf } from '../physics/given';
import { tolerance } from '../tolerances';

/**
 * A truck hung and photographed from every side by vectors alone: which way is up is told by the string, which way the
 * camera looks by the face of the truck that it sees, and the rest by a cross product.
 */

type Vector = readonly [number, number, number];
const plus = (p: Vector, q: Vector, by = 1): Vector => [p[0] + by * q[0], p[1] + by * q[1], p[2] + by * q[2]];
const dot = (p: Vector, q: Vector): number => p[0] * q[0] + p[1] * q[1] + p[2] * q[2];
const cross = (p: Vector, q: Vector): Vector => [
  p[1] * q[2] - p[2] * q[1],
  p[2] * q[0] - p[0] * q[2],
  p[0] * q[1] - p[1] * q[0],
];
const unit = (p: Vector): Vector => plus([0, 0, 0], p, 1 / Math.hypot(...p));

/** The face of the truck that the camera sees, and what is up in a picture of it standing. */
const FACE: Readonly<Record<View, Vector>> = {
  right: [0, -1, 0],
  left: [0, 1, 0],
  rear: [-1, 0, 0],
  front: [1, 0, 0],
  top: [0, 0, 1],
};
const UP: Readonly<Record<View, Vector>> = {
  right: [0, 0, 1],
  left: [0, 0, 1],
  rear: [0, 0, 1],
  front: [0, 0, 1],
  top: [1, 0, 0],
};

const [WIDTH, HEIGHT, FOCAL, DISTANCE] = [3000, 4000, 3900, 2];

/** A camera level and square to the face, `DISTANCE` from `aim`; pixels x right, y down. */
function photograph(aim: Vector, up: Vector, face: Vector, roll: number) {
  const toward = unit(plus(face, up, -dot(face, up)));
  const right = cross(up, toward);
  const [c, s] = [Math.cos(roll), Math.sin(roll)];
  return (place: Vector) => {
    const from = plus(place, aim, -1);
    const [a, b, depth] = [dot(from, right), dot(from, up), DISTANCE - dot(from, toward)];
    return {
      x: WIDTH / 2 + (FOCAL * (c * a - s * b)) / depth,
      y: HEIGHT / 2 - (FOCAL * (s * a + c * b)) / depth,
    };
  };
}

const [WHEELBASE, FRONT_TRACK, REAR_TRACK] = [0.31, 0.19, 0.184];
const [FRONT_RADIUS, REAR_RADIUS, HUB_DEPTH] = [0.056, 0.058, 0.105];

/** Landmarks that are seen from a side, and how far toward the camera of that side they stand. */
const MARKS: Readonly<Record<string, readonly [x: number, depth: number, z: number]>> = {
  A: [-0.06, 0.085, 0.17],
  B: [0.03, 0.09, 0.115],
  C: [0.21, 0.088, 0.21],
  D: [0.37, 0.07, 0.125],
};

interface Hang {
  readonly hook: Vector;
  readonly carrier?: Carrier;
}
interface Bench {
  readonly cg: Vector;
  readonly view: View;
  readonly hangs: readonly Hang[];
  /** Of the front and the rear axle in every hang, m, and each one's part of the mass. */
  readonly droop?: readonly [front: Vector, rear: Vector];
  readonly shares?: readonly [front: number, rear: number];
  readonly roll?: number;
}

const given = (meters: number) => ({ ...emptyGiven('mm'), text: String(meters * 1000), plusMinus: '0.2' });

function stateOf({ cg, view, hangs, droop, shares = [0.2, 0.25], roll = 0 }: Bench): BuildState {
  const side = view === 'left' ? 1 : -1;
  const marks = Object.entries(MARKS).map(([key, [x, depth, z]]): readonly [Mark['role'], Vector] => [
    `mark ${key}`,
    [x, side * depth, z],
  ]);
  const mark = (role: Mark['role'], { x, y }: { readonly x: number; readonly y: number }): Mark => ({
    role: role,
    x,
    y,
    plusMinus: '',
    counted: true,
    source: 'hand',
  });
  const picture = (kind: 'standing' | 'hanging', id: string, marked: Mark[]): Picture => ({
    ...emptyPicture(kind, WIDTH, HEIGHT),
    id,
    view,
    distance: { ...emptyGiven('m'), text: String(DISTANCE), plusMinus: '0.01' },
    markPlusMinus: { ...emptyGiven('px'), text: '0.2' },
    marks: marked,
  });
  const [hubFront, hubRear]: readonly Vector[] = [
    [WHEELBASE, side * HUB_DEPTH, FRONT_RADIUS],
    [0, side * HUB_DEPTH, REAR_RADIUS],
  ];
  const middle: Vector = [WHEELBASE / 2, 0, 0.1];
  const stand = photograph(middle, UP[view], FACE[view], roll);
  const isSide = view === 'left' || view === 'right';
  const foot = (left: 1 | -1): Vector =>
    view === 'front' ? [WHEELBASE, (left * FRONT_TRACK) / 2, 0] : [0, (left * REAR_TRACK) / 2, 0];
  const tread = (front: boolean, left: 1 | -1): Vector =>
    front
      ? [WHEELBASE, (left * FRONT_TRACK) / 2, 2 * FRONT_RADIUS]
      : [0, (left * REAR_TRACK) / 2, 2 * REAR_RADIUS];
  const shown: (readonly [Mark['role'], Vector])[] = [...marks];
  if (isSide && hubFront && hubRear) shown.push(['front hub', hubFront], ['rear hub', hubRear]);
  else if (view === 'top')
    for (const [name, front] of [
      ['front', true],
      ['rear', false],
    ] as const)
      shown.push([`tire ${name} left`, tread(front, 1)], [`tire ${name} right`, tread(front, -1)]);
  else shown.push(['ground left', foot(1)], ['ground right', foot(-1)]);
  const standing = picture(
    'standing',
    'standing',
    shown.map(([role, at]) => mark(role, stand(at))),
  );
  const [dropFront, dropRear]: readonly Vector[] = droop ?? [
    [0, 0, 0],
    [0, 0, 0],
  ];
  if (!dropFront || !dropRear || !hubFront || !hubRear) throw new Error('two axles');
  const hungCg = plus(plus(cg, dropFront, shares[0]), dropRear, shares[1]);
  const hanging = hangs.map(({ hook, carrier = 'body' }, i): Picture => {
    const drop: Vector = carrier === 'body' ? [0, 0, 0] : carrier === 'front axle' ? dropFront : dropRear;
    const at = plus(hook, drop);
    const up = unit(plus(at, hungCg, -1));
    const take = photograph(plus(at, up, -0.05), up, FACE[view], roll);
    return {
      ...picture('hanging', `hang ${i + 1}`, [
        ...marks.map(([key, place]) => mark(key, take(place))),
        mark('string lower', take(plus(at, up, 0.02))),
        mark('string upper', take(plus(at, up, 0.5))),
        mark(`hook h${i + 1}`, take(at)),
        ...(droop
          ? [
              mark('front hub', take(plus(hubFront, dropFront))),
              mark('rear hub', take(plus(hubRear, dropRear))),
            ]
          : []),
      ]),
      hook: `h${i + 1}`,
      suspension: droop ? 'free' : 'locked',
    };
  });
  const grams = (kilograms: number) => ({
    ...emptyGiven('g'),
    text: String(kilograms * 1000),
    plusMinus: '1',
  });
  return {
    ...emptyState(),
    dimensions: {
      ...emptyState().dimensions,
      wheelbase: given(WHEELBASE),
      frontTrack: given(FRONT_TRACK),
      rearTrack: given(REAR_TRACK),
      frontTireRadius: given(FRONT_RADIUS),
      rearTireRadius: given(REAR_RADIUS),
    },
    hubDepth: given(HUB_DEPTH),
    lateral: given(cg[1]),
    unsprungFront: grams(3 * shares[0]),
    unsprungRear: grams(3 * shares[1]),
    readings: [{ id: 'mass', kind: 'total mass', load: grams(3), counted: true, note: '' }],
    bodyMarks: Object.entries(MARKS).map(([key, [x, depth, z]]) => ({
      key,
      name: '',
      depth: given(depth),
      ahead: !isSide ? given(x) : emptyGiven('mm'),
      height: !isSide ? given(z) : emptyGiven('mm'),
    })),
    hooks: hangs.map(({ hook, carrier = 'body' }, i) => ({
      id: `h${i + 1}`,
      name: '',
      carrier,
      source: 'ruler',
      ahead: given(hook[0]),
      height: given(hook[2]),
      left: given(hook[1]),
    })),
    pictures: [standing, ...hanging],
  };
}

const AXES = { side: [0, 2], rear: [1, 2], front: [1, 2], top: [0, 1] } as const;

/** Of every line in its plane: how far it passes the center of gravity, mm, and whether it runs down from its hook. */
function linesOf(bench: Bench) {
  const { truck, standings, hangs } = readState(stateOf(bench));
  if (!truck) throw new Error('a truck');
  expect(hangs).toHaveLength(bench.hangs.length);
  const fit = valueOf(adjustPictures(truck, standings, hangs));
  return valueOf(plumbLines(fit, truck, hangs)).hangs.map(({ view, line: { through, angle } }, i) => {
    const [first, second] = AXES[view];
    const [u, v] = [bench.cg[first] - through.x, bench.cg[second] - through.z];
    const hook = bench.hangs[i]?.hook ?? bench.cg;
    const [down, across] = [bench.cg[first] - hook[first], bench.cg[second] - hook[second]];
    return {
      plane: view,
      miss: 1000 * Math.abs(Math.cos(angle) * v - Math.sin(angle) * u),
      runsDown: Math.cos(angle) * down + Math.sin(angle) * across > 0,
    };
  });
}

const VIEWS = ['right', 'left', 'rear', 'front', 'top'] as const;
const PLANES = { right: 'side', left: 'side', rear: 'rear', front: 'front', top: 'top' } as const;
/** In the plane of the view with a center of gravity 4 mm off center to the left: no truck leans from its camera. */
const SIDE_HANGS: readonly Hang[] = [
  { hook: [0.34, 0.004, 0.15] },
  { hook: [0.05, 0.004, 0.18] },
  { hook: [-0.09, 0.004, 0.09] },
];
const END_HANGS: readonly Hang[] = [{ hook: [0.15, 0.1, 0.12] }, { hook: [0.15, -0.05, 0.2] }];
const TOP_HANGS: readonly Hang[] = [
  { hook: [0.18, 0.11, 0.095] },
  { hook: [0.35, 0.03, 0.095] },
  { hook: [0.1, -0.11, 0.095] },
];
const HANGS: Readonly<Record<View, readonly Hang[]>> = {
  right: SIDE_HANGS,
  left: SIDE_HANGS,
  rear: END_HANGS,
  front: END_HANGS,
  top: TOP_HANGS,
};
const CG: Vector = [0.15, 0.004, 0.095];
const mirrored = ([x, y, z]: Vector): Vector => [x, -y, z];

describe('a truck hung by vectors alone', () => {
  it.each(VIEWS)('has its lines through its center of gravity, seen from the %s', (view) => {
    for (const roll of [0, 0.12])
      for (const mirror of [false, true]) {
        const hangs = HANGS[view].map(({ hook }) => ({ hook: mirror ? mirrored(hook) : hook }));
        for (const { plane, miss, runsDown } of linesOf({
          cg: mirror ? mirrored(CG) : CG,
          view,
          hangs,
          roll,
        })) {
          expect(plane).toBe(PLANES[view]);
          expect(runsDown).toBe(true);
          expect(miss).toBeLessThan(tolerance('pictures: exact, level'));
        }
      }
  });

  it.each(['right', 'left'] as const)('and with both axles drooping, seen from the %s', (view) => {
    const lines = linesOf({
      cg: CG,
      view,
      hangs: [
        ...SIDE_HANGS.slice(0, 2),
        { hook: [0.31, 0.004, 0.06], carrier: 'front axle' },
        { hook: [-0.01, 0.004, 0.06], carrier: 'rear axle' },
      ],
      droop: [
        [0.002, 0, -0.02],
        [-0.001, 0, -0.014],
      ],
    });
    for (const { miss, runsDown } of lines) {
      expect(runsDown).toBe(true);
      expect(miss).toBeLessThan(tolerance('pictures: exact, level'));
    }
  });

  it('lies in the picture as its axes say', () => {
    // A place to the right in the picture, one up in it and one nearer to the camera, by the cross product.
    for (const view of VIEWS) {
      const [right, up, face] = [cross(UP[view], FACE[view]), UP[view], FACE[view]];
      for (const [[x, y, z], seen] of [
        [right, { a: 1, b: 0, c: 0 }],
        [up, { a: 0, b: 1, c: 0 }],
        [face, { a: 0, b: 0, c: 1 }],
      ] as const) {
        const shown = toView(view, { x, y, z });
        for (const axis of ['a', 'b', 'c'] as const) expect(shown[axis]).toBeCloseTo(seen[axis], 12);
        const back = toTruck(view, seen);
        for (const [axis, value] of [
          ['x', x],
          ['y', y],
          ['z', z],
        ] as const)
          expect(back[axis]).toBeCloseTo(value, 12);
      }
    }
  });
});
