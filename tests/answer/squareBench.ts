import type { BuildState, Given, Picture } from '../../src/sheet/schema';
import { NOTHING, markRole, simulateBench } from '../demo/world/bench';
import type { BenchOptions } from '../demo/world/bench';
import { type CameraHold, type Side, project } from '../demo/world/camera';
import { hangTruck } from '../demo/world/hang';
import { hangingPhotograph, standingPhotograph, truePoints } from '../demo/world/photograph';
import type { WorldTruck } from '../demo/world/truck';
import { centerOfGravity, massOf } from '../demo/world/truck';
import type { Vector } from '../demo/world/vector';

/**
 * A bench without errors: every given is the truth to the last digit, every mark is exact, every camera is square to
 * the truck at the distance typed, and no truck twists on its string. What is left is the arithmetic.
 */
export interface SquareBench {
  readonly state: BuildState;
  /** Truck axes at ride height, m. */
  readonly cg: Vector;
}

export interface SquareBenchOptions {
  readonly truck: WorldTruck;
  readonly suspension: 'locked' | 'free';
  readonly hooks: readonly string[];
  readonly hookSource: BenchOptions['hookSource'];
  readonly view?: Side;
  readonly scales?: BenchOptions['scales'];
  /** Stated ± of every mark, px. */
  readonly plusMinus?: number;
  /** Two points of known distance instead of the wheelbase. */
  readonly twoPoints?: boolean;
}

/** Two points of known distance on the visible side, right-hand side, m. */
const SCALE_POINTS: readonly Vector[] = [
  [0.015, -0.0905, 0.096],
  [0.238, -0.0905, 0.141],
];
/** The same truck with everything on its center plane: it hangs without leaning to either side. */
export const levelTruck = (truck: WorldTruck): WorldTruck => ({
  ...truck,
  parts: truck.parts.map((part) => ({ ...part, place: [part.place[0], 0, part.place[2]] })),
  hooks: truck.hooks.map((hook) => ({ ...hook, place: [hook.place[0], 0, hook.place[2]] })),
});

const exact = <G extends Given>(given: G, meters: number, plusMinus = given.plusMinus): G => ({
  ...given,
  text: String(meters * 1000),
  plusMinus,
});

const distanceOf = ([from, to]: readonly Vector[]): number =>
  from && to ? Math.hypot(to[0] - from[0], to[1] - from[1], to[2] - from[2]) : NaN;

/** Each picture from its own distance, and rolled: cameras stand square here, but few are held level. */
const hold = (number: number): CameraHold => ({
  distance: 1.4 + 0.2 * number,
  yaw: 0,
  pitch: 0,
  roll: 0.04 - 0.03 * number,
  perPixel: 0.0006,
});

export function squareBench(options: SquareBenchOptions): SquareBench {
  const {
    truck,
    suspension,
    hooks,
    hookSource,
    scales,
    view = 'right',
    plusMinus = 0.2,
    twoPoints = false,
  } = options;
  const { state } = simulateBench({
    truck,
    suspension,
    hooks,
    hookSource,
    view,
    ...(scales ? { scales } : {}),
    pictureSeed: 1,
    markSigma: 1,
    redraw: NOTHING,
  });
  const cg = centerOfGravity(truck);
  const photographs = [
    standingPhotograph(truck, 'standing', hold(0), view),
    ...hooks.map((hook, i) =>
      hangingPhotograph(
        truck,
        `hang-${i + 1}`,
        hook,
        suspension,
        hangTruck(truck, hook, { suspension }),
        0,
        hold(i + 1),
        view,
      ),
    ),
  ];
  const pictures = state.pictures.map((picture, i): Picture => {
    const photograph = photographs[i];
    if (!photograph) throw new Error('A photograph for every picture.');
    const points = truePoints(truck, photograph);
    return {
      ...picture,
      distance: { ...picture.distance, text: String(photograph.hold.distance), plusMinus: '0.001' },
      markPlusMinus: { ...picture.markPlusMinus, text: String(plusMinus) },
      marks: [
        ...picture.marks.flatMap((mark) => {
          const point = points.find(({ role }) => markRole(role) === mark.role);
          return point ? [{ ...mark, x: point.x, y: point.y }] : [];
        }),
        ...(twoPoints && i === 0 ? SCALE_POINTS : []).map(([x, y, z], n) => ({
          role: n === 0 ? ('scale 1' as const) : ('scale 2' as const),
          ...project(photograph.camera, [x, view === 'right' ? y : -y, z]),
          plusMinus: '',
          counted: true,
          source: 'hand' as const,
        })),
      ],
    };
  });
  const { dimensions } = state;
  const hook = (id: string) => {
    const place = truck.hooks.find((each) => each.id === id)?.place;
    if (!place) throw new Error(`No hook ${id}.`);
    return place;
  };
  const landmark = (key: string) => truck.landmarks.find((each) => each.key === key)?.place[1] ?? NaN;
  return {
    cg,
    state: {
      ...state,
      dimensions: {
        ...dimensions,
        wheelbase: twoPoints
          ? { ...dimensions.wheelbase, text: '', plusMinus: '' }
          : exact(dimensions.wheelbase, truck.wheelbase),
        frontTireRadius: exact(dimensions.frontTireRadius, truck.frontRadius),
        rearTireRadius: exact(dimensions.rearTireRadius, truck.rearRadius),
      },
      ...(twoPoints
        ? {
            scaleFrom: 'two points',
            scaleDistance: exact(state.scaleDistance, distanceOf(SCALE_POINTS), '0.1'),
            scaleDepth: exact(state.scaleDepth, 0.0905, '0.1'),
          }
        : {}),
      readings: state.readings.map((reading) =>
        reading.kind === 'total mass' ? { ...reading, load: exact(reading.load, massOf(truck)) } : reading,
      ),
      unsprungFront: exact(state.unsprungFront, massOf(truck, 'front axle'), '1'),
      unsprungRear: exact(state.unsprungRear, massOf(truck, 'rear axle'), '1'),
      lateral: exact(state.lateral, cg[1], '0.1'),
      hubDepth: exact(state.hubDepth, truck.hubDepth),
      bodyMarks: state.bodyMarks.map((mark) => ({ ...mark, depth: exact(mark.depth, -landmark(mark.key)) })),
      hooks: state.hooks.map((each) => {
        const [ahead, left, height] = hook(each.id);
        return {
          ...each,
          left: exact(each.left, left),
          ...(each.source === 'ruler'
            ? { ahead: exact(each.ahead, ahead), height: exact(each.height, height) }
            : {}),
        };
      }),
      pictures,
    },
  };
}
