import type { Camera, CameraHold, Pixel, Side } from './camera';
import { holdCamera, project } from './camera';
import type { Hang } from './hang';
import { hangRotation } from './hang';
import type { Droop, WorldTruck } from './truck';
import { RIDE_HEIGHT, carrierShift, hookPlace } from './truck';
import type { Matrix, Vector } from './vector';
import { add, scale, turn } from './vector';

/** A truck in front of a camera. World axes: z up; standing they are the truck's, hanging the hook is the origin. */
export interface Photograph {
  readonly id: string;
  readonly kind: 'standing' | 'hanging';
  /** The hook the string is tied to; null when standing. */
  readonly hook: string | null;
  readonly suspension: 'locked' | 'free';
  readonly side: Side;
  readonly droop: Droop;
  readonly rotation: Matrix;
  /** World place of the truck axes' origin. */
  readonly origin: Vector;
  readonly hold: CameraHold;
  readonly camera: Camera;
}

/** Picture sizes: landscape standing, portrait hanging. */
export const STANDING_SIZE = { width: 1280, height: 920 };
export const HANGING_SIZE = { width: 1200, height: 1440 };

/** Above the ring, m: where the lower string mark goes, clear of the knot. */
const KNOT = 0.025;
/** Pixels kept free between the upper string mark and the picture's edge. */
const EDGE = 32;

const UPRIGHT: Matrix = [
  [1, 0, 0],
  [0, 1, 0],
  [0, 0, 1],
];

/** Places on the visible side: the left carries the right's features mirrored. */
const visible = (side: Side, [x, y, z]: Vector): Vector => [x, side === 'right' ? y : -y, z];

/** World place of a point given in body axes (its axle's droop already in it). */
export const inWorld = (photograph: Pick<Photograph, 'rotation' | 'origin'>, place: Vector): Vector =>
  add(photograph.origin, turn(photograph.rotation, place));

/** Corners of the truck's side outline, body axes: what must be in the picture. */
const outline = (truck: WorldTruck, droop: Droop): Vector[] => {
  const { shape } = truck;
  const wheel = (axle: 'front' | 'rear'): Vector[] => {
    const [x, radius] = axle === 'front' ? [truck.wheelbase, truck.frontRadius] : [0, truck.rearRadius];
    const hub = add(
      [x, 0, radius],
      carrierShift(truck, axle === 'front' ? 'front axle' : 'rear axle', droop),
    );
    return Array.from({ length: 16 }, (_, index) => {
      const angle = (index * Math.PI) / 8;
      return add(hub, [radius * Math.cos(angle), 0, radius * Math.sin(angle)]);
    });
  };
  return [
    ...wheel('front'),
    ...wheel('rear'),
    [shape.nose, 0, shape.sill],
    [shape.nose, 0, shape.hood],
    [shape.windshield, 0, shape.roof],
    [shape.cabEnd, 0, shape.roof + 0.018],
    [shape.tail, 0, shape.bed],
    [shape.tail, 0, shape.sill],
  ];
};

/** The truck on its wheels at ride height, seen by a camera held so; `off` moves the aim in the center plane, m. */
export const standingPhotograph = (
  truck: WorldTruck,
  id: string,
  hold: CameraHold,
  side: Side = 'right',
  off: readonly [number, number] = [0, 0],
): Photograph => {
  const corners = outline(truck, RIDE_HEIGHT);
  const xs = corners.map(([x]) => x);
  const aim: Vector = [(Math.min(...xs) + Math.max(...xs)) / 2 + off[0], 0, 0.1 + off[1]];
  return {
    id,
    kind: 'standing',
    hook: null,
    suspension: 'locked',
    side,
    droop: RIDE_HEIGHT,
    rotation: UPRIGHT,
    origin: [0, 0, 0],
    hold,
    camera: holdCamera(hold, side, aim, STANDING_SIZE.width, STANDING_SIZE.height),
  };
};

/** The truck at rest on a string, turned about it by `twist` rad; framed with the truck low, the string above. */
export const hangingPhotograph = (
  truck: WorldTruck,
  id: string,
  hookId: string,
  suspension: 'locked' | 'free',
  hang: Hang,
  twist: number,
  hold: CameraHold,
  side: Side = 'right',
  off: readonly [number, number] = [0, 0],
): Photograph => {
  const rotation = hangRotation(hang, twist);
  const origin = scale(turn(rotation, hookPlace(truck, hookId, hang.droop)), -1);
  const { width, height } = HANGING_SIZE;
  const corners = outline(truck, hang.droop).map((place) => inWorld({ rotation, origin }, place));
  const xs = corners.map(([x]) => x);
  const lowest = Math.min(...corners.map(([, , z]) => z));
  const aim: Vector = [
    (Math.min(0, ...xs) + Math.max(0, ...xs)) / 2 + off[0],
    0,
    lowest + (height / 2 - 110) * hold.perPixel + off[1],
  ];
  return {
    id,
    kind: 'hanging',
    hook: hookId,
    suspension,
    side,
    droop: hang.droop,
    rotation,
    origin,
    hold,
    camera: holdCamera(hold, side, aim, width, height),
  };
};

/** A mark's true place: in the world, and in the picture. */
export interface TruePoint extends Pixel {
  readonly role: string;
  readonly place: Vector;
}

/**
 * Every point a reader marks, exactly: standing, both near hubs, the near tires' feet on the ground (as far out
 * as the hub nuts), body marks and hooks; hanging, string, hook, body marks and both near hubs.
 */
export const truePoints = (truck: WorldTruck, photograph: Photograph): TruePoint[] => {
  const { camera, droop, side } = photograph;
  const points: TruePoint[] = [];
  const seen = (role: string, world: Vector): void => {
    points.push({ role, place: world, ...project(camera, world) });
  };
  const body = (role: string, place: Vector): void => seen(role, inWorld(photograph, place));
  const hub = (axle: 'front' | 'rear'): Vector => {
    const [x, radius] = axle === 'front' ? [truck.wheelbase, truck.frontRadius] : [0, truck.rearRadius];
    return add(
      visible(side, [x, -truck.hubDepth, radius]),
      carrierShift(truck, axle === 'front' ? 'front axle' : 'rear axle', droop),
    );
  };
  body('front hub', hub('front'));
  body('rear hub', hub('rear'));
  for (const mark of truck.landmarks) body(`mark ${mark.key}`, visible(side, mark.place));
  if (photograph.kind === 'standing') {
    body('ground front', visible(side, [truck.wheelbase, -truck.hubDepth, 0]));
    body('ground rear', visible(side, [0, -truck.hubDepth, 0]));
    for (const hook of truck.hooks) body(`hook ${hook.id}`, hookPlace(truck, hook.id, droop));
    return points;
  }
  if (photograph.hook !== null) seen(`hook ${photograph.hook}`, [0, 0, 0]);
  seen('string lower', [0, 0, KNOT]);
  let top = KNOT;
  const inside = (z: number): boolean => {
    const { x, y } = project(camera, [0, 0, z]);
    return x > EDGE && x < camera.width - EDGE && y > EDGE;
  };
  while (inside(top + 0.001)) top += 0.001;
  seen('string upper', [0, 0, top]);
  return points;
};
