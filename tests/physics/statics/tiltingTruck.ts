import RAPIER from '@dimforge/rapier3d-compat';
import { type Contact, type SpacePoint, meters } from '../../../src/physics';

/**
 * A box truck in a rigid-body engine: four cuboid feet on a plane, all mass in one lump. The engine's length unit
 * is left at 1 and nothing is scaled: trucks are about one unit long. The plane stays level and gravity tilts instead, which is the same.
 */
export interface BoxTruck {
  readonly wheelbase: number;
  readonly frontTrack: number;
  readonly rearTrack: number;
  /** Half the side of a square foot, and half its height. */
  readonly halfFoot: number;
  readonly halfHeight: number;
  readonly cg: SpacePoint;
  readonly mass: number;
  /** Radii of gyration about x, y, z. */
  readonly gyration: readonly [number, number, number];
}

const feetOf = ({ wheelbase, frontTrack, rearTrack }: BoxTruck) =>
  [
    [0, -rearTrack / 2],
    [wheelbase, -frontTrack / 2],
    [wheelbase, frontTrack / 2],
    [0, rearTrack / 2],
  ] as const;

/** Every corner of every foot. */
export const footCorners = (truck: BoxTruck): Contact[] =>
  feetOf(truck).flatMap(([x, y], foot) =>
    ([-1, 1] as const).flatMap((sx) =>
      ([-1, 1] as const).map((sy) => ({
        name: `foot ${foot}, corner ${sx} ${sy}`,
        x: meters(x + sx * truck.halfFoot),
        y: meters(y + sy * truck.halfFoot),
      })),
    ),
  );

/**
 * A tip angle does not depend on gravity. A weak one, one length unit a second squared, presses the engine's soft
 * contacts a tenth as deep, so that trucks lean less on them before they tip.
 */
const GRAVITY = 1;
const STEPS_A_SECOND = 60;
/**
 * The plane is tilted smoothly: a truck that finds itself on a slope rocks as its contacts take up the load, and tips
 * early.
 */
const TILTING_SECONDS = 3;
const WATCHED_SECONDS = 9;
/** Turned by this much (rad) a truck has tipped: far beyond what contacts give, far short of lying down. */
const TIPPED = 0.1;

const gravityOn = (slope: number, heading: number): RAPIER.Vector3 =>
  new RAPIER.Vector3(
    GRAVITY * Math.sin(slope) * Math.cos(heading),
    GRAVITY * Math.sin(slope) * Math.sin(heading),
    -GRAVITY * Math.cos(slope),
  );

/** Whether the truck goes over on a plane tilted to this slope, downhill at this heading (both rad). */
export const tips = (truck: BoxTruck, slope: number, heading: number): boolean => {
  const world = new RAPIER.World(gravityOn(0, heading));
  try {
    world.integrationParameters.dt = 1 / STEPS_A_SECOND;
    const friction = 20;
    const plane = RAPIER.ColliderDesc.cuboid(20, 20, 1).setTranslation(0, 0, -1).setFriction(friction);
    world.createCollider(plane);
    const [kx, ky, kz] = truck.gyration;
    const body = world.createRigidBody(
      RAPIER.RigidBodyDesc.dynamic()
        .setAdditionalMassProperties(
          truck.mass,
          { ...truck.cg },
          { x: truck.mass * kx * kx, y: truck.mass * ky * ky, z: truck.mass * kz * kz },
          { x: 0, y: 0, z: 0, w: 1 },
        )
        .setCanSleep(false),
    );
    for (const [x, y] of feetOf(truck)) {
      const foot = RAPIER.ColliderDesc.cuboid(truck.halfFoot, truck.halfFoot, truck.halfHeight)
        .setTranslation(x, y, truck.halfHeight)
        .setDensity(0)
        .setFriction(friction);
      world.createCollider(foot, body);
    }
    for (let step = 0; step < STEPS_A_SECOND * WATCHED_SECONDS; step += 1) {
      const part = Math.min(1, step / (STEPS_A_SECOND * TILTING_SECONDS));
      world.gravity = gravityOn(slope * part * part * (3 - 2 * part), heading);
      world.step();
      const { x, y } = body.rotation();
      if (2 * Math.hypot(x, y) > TIPPED) return true;
    }
    return false;
  } finally {
    world.free();
  }
};

/** Least slope (rad) at which the truck goes over, by bisection between level and upright; knows nothing of formulas. */
export const tippingSlope = (truck: BoxTruck, heading: number): number => {
  let stands = 0;
  let falls = Math.PI / 2;
  while (falls - stands > (0.03 * Math.PI) / 180) {
    const middle = (stands + falls) / 2;
    if (tips(truck, middle, heading)) falls = middle;
    else stands = middle;
  }
  return (stands + falls) / 2;
};
