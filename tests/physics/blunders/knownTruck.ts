import {
  degrees,
  kilograms,
  meters,
  radians,
  type HangReading,
  type Measured,
  type TruckBench,
  type TruckReading,
} from '../../../src/physics';

/**
 * An invented truck and what a bench would read of it without any error, written down in closed form (moments about an
 * axle, a line through hook and CG, a CG above its tip line), with the ± of common practice.
 */

export const m = (value: number, u = 0.0005) => ({ value: meters(value), u });
export const kg = (value: number, u = 0.002) => ({ value: kilograms(value), u });
export const rad = (value: number, u: number = degrees(0.25)) => ({ value: radians(value), u });
const ratio = (value: number, u = 0.02): Measured => ({ value, u });

/** m and kg; the tip line lies where nothing is known of it before: a quarter of the tread outside the tires' centers. */
export const TRUCK = {
  wheelbase: 0.313,
  frontTrack: 0.189,
  rearTrack: 0.183,
  frontRadius: 0.056,
  rearRadius: 0.05,
  tread: 0.044,
  mass: 2.94,
  x: 0.148,
  y: 0.003,
  z: 0.094,
} as const;

const {
  wheelbase: L,
  frontTrack,
  rearTrack,
  frontRadius: rf,
  rearRadius: rr,
  tread,
  mass: M,
  x,
  y,
  z,
} = TRUCK;

export const HOOKS = {
  bumper: { x: -0.04, y: 0.006, z: 0.14 },
  roof: { x: 0.19, y: -0.02, z: 0.2 },
  side: { x: 0.12, y: 0.098, z: 0.13 },
} as const;
type Hook = keyof typeof HOOKS;

/** Share of the mass on the front axle with the nose up by t. */
const frontShare = (t: number): number => {
  const cg = x * Math.cos(t) - (z - rr) * Math.sin(t);
  const hub = L * Math.cos(t) - (rf - rr) * Math.sin(t);
  return cg / hub;
};

/** Front axle raised, scale under the rear. */
const frontLift = (id: string, t: number): TruckReading => ({
  kind: 'axle lift',
  id,
  raised: 'front',
  lift: { by: 'height', rise: m(L * Math.sin(t) + (rf - rr) * (Math.cos(t) - 1)) },
  scaleUnder: 'rear',
  load: kg(M * (1 - frontShare(t))),
});

/** Rear axle raised, scale under the front. */
const rearLift = (id: string, t: number): TruckReading => ({
  kind: 'axle lift',
  id,
  raised: 'rear',
  lift: { by: 'angle', angle: rad(t) },
  scaleUnder: 'front',
  load: kg(M * frontShare(-t)),
});

/** Nose below level, or left side below level: the angle of the line from hook to CG from the truck's own upright. */
const hangAngle = (id: string, view: 'side' | 'rear', hook: Hook): HangReading => {
  const [across, up] =
    view === 'side' ? [x - HOOKS[hook].x, z - HOOKS[hook].z] : [y - HOOKS[hook].y, z - HOOKS[hook].z];
  return { kind: 'hang', id, view, hook, string: { by: 'angle', angle: rad(Math.atan2(across, -up)) } };
};

/** A second point of the string's line, beyond the CG. */
const hangPoint = (id: string, hook: Hook): HangReading => {
  const { x: hx, z: hz } = HOOKS[hook];
  const beyond = 1.4;
  return {
    kind: 'hang',
    id,
    view: 'side',
    hook,
    string: { by: 'second point', first: m(hx + beyond * (x - hx)), second: m(hz + beyond * (z - hz)) },
  };
};

const tipDistance = rearTrack / 2 + ((frontTrack - rearTrack) * x) / (2 * L) + tread / 4;
const twist = 0.03;
const rearDifference = (M * y - frontTrack * twist) / rearTrack;

export const READINGS: readonly TruckReading[] = [
  { kind: 'total mass', id: 'mass', load: kg(M) },
  { kind: 'axle scales', id: 'axles', front: kg((M * x) / L), rear: kg(M * (1 - x / L)) },
  {
    kind: 'wheel scales',
    id: 'wheels',
    frontLeft: kg((M * x) / L / 2 + twist),
    frontRight: kg((M * x) / L / 2 - twist),
    rearLeft: kg((M * (1 - x / L)) / 2 + rearDifference),
    rearRight: kg((M * (1 - x / L)) / 2 - rearDifference),
  },
  frontLift('lift-1', degrees(22)),
  frontLift('lift-2', degrees(14)),
  rearLift('lift-3', degrees(25)),
  hangAngle('hang-1', 'side', 'bumper'),
  hangPoint('hang-2', 'roof'),
  hangAngle('hang-3', 'rear', 'side'),
  { kind: 'tilt', id: 'tilt-left', toward: 'left', angle: rad(Math.atan((tipDistance - y) / z)) },
  { kind: 'tilt', id: 'tilt-right', toward: 'right', angle: rad(Math.atan((tipDistance + y) / z)) },
  { kind: 'tilt', id: 'tilt-up', toward: 'nose up', angle: rad(Math.atan(x / z)) },
  { kind: 'tilt', id: 'tilt-down', toward: 'nose down', angle: rad(Math.atan((L - x) / z)) },
  { kind: 'balance', id: 'edge', edge: 'across', place: m(x, 0.001) },
];

export const BENCH: TruckBench = {
  dimensions: {
    wheelbase: m(L),
    frontTrack: m(frontTrack, 0.001),
    rearTrack: m(rearTrack, 0.001),
    frontTireRadius: m(rf),
    rearTireRadius: m(rr),
    treadWidth: m(tread, 0.0015),
    frontAxleShare: ratio(0.24),
    rearAxleShare: ratio(0.21),
  },
  lateral: m(y, 0.003),
  instruments: { scaleZero: kg(0, 0.0005), rulerZero: m(0, 0.00015), levelZero: rad(0, degrees(0.1)) },
  hooks: Object.entries(HOOKS).map(([id, place]) => ({
    id,
    carrier: 'body',
    x: m(place.x),
    y: m(place.y),
    z: m(place.z),
  })),
  readings: READINGS,
};

/** Two lines of side pictures through hook and CG. */
export const PICTURES: TruckReading = {
  kind: 'picture lines',
  id: 'pictures',
  lines: (['bumper', 'roof'] as const).map((hook) => {
    const { x: hx, z: hz } = HOOKS[hook];
    return {
      id: `picture ${hook}`,
      view: 'side',
      line: { angle: radians(Math.atan2(z - hz, x - hx)), through: { x: meters(hx), z: meters(hz) } },
    };
  }),
  shared: [],
  covariance: [1e-5, 1e-6, 1e-5, 1e-6].map((variance, i, all) => all.map((_, j) => (i === j ? variance : 0))),
};
