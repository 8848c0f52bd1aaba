import RAPIER from '@dimforge/rapier3d-compat';
import { beforeAll, describe, expect, test } from 'vitest';
import {
  angleIn,
  hangDirectionInSpace,
  limitSlope,
  meters,
  radians,
  supportPolygon,
} from '../../../src/physics';
import { tolerance } from '../../tolerances';
import { seeded, valueOf } from '../given';
import { type BoxTruck, footCorners, tippingSlope } from './tiltingTruck';

/** The engine is an outside world: it knows forces, contacts and joints, none of our formulas. */
beforeAll(async () => RAPIER.init());

/** A body of that CG hung by a ball joint at `hook`, swinging in air until it rests; gravity in its own axes then. */
const gravityWhenHung = (hook: RAPIER.Vector, cg: RAPIER.Vector, turned: RAPIER.Rotation): RAPIER.Vector => {
  const world = new RAPIER.World({ x: 0, y: 0, z: -9.80665 });
  try {
    world.integrationParameters.dt = 1 / 120;
    const beam = world.createRigidBody(RAPIER.RigidBodyDesc.fixed());
    const body = world.createRigidBody(
      RAPIER.RigidBodyDesc.dynamic()
        .setRotation(turned)
        .setAdditionalMassProperties(2, cg, { x: 0.1, y: 0.2, z: 0.2 }, { x: 0, y: 0, z: 0, w: 1 })
        .setAngularDamping(1.5)
        .setLinearDamping(1.5)
        .setCanSleep(false),
    );
    world.createImpulseJoint(RAPIER.JointData.spherical({ x: 0, y: 0, z: 0 }, hook), beam, body, true);
    // At rest is still for a second, not for the moment a swing turns round.
    for (let step = 0, still = 0; step < 120 * 60 && still < 120; step += 1) {
      world.step();
      const { x, y, z } = body.angvel();
      still = Math.hypot(x, y, z) < 1e-4 ? still + 1 : 0;
    }
    // Down, turned back into the body's axes: v + 2 q × (q × v + w v) for the inverse rotation.
    const { x, y, z, w } = body.rotation();
    return { x: -2 * (x * z - w * y), y: -2 * (y * z + w * x), z: -(1 - 2 * (x * x + y * y)) };
  } finally {
    world.free();
  }
};

describe('a body hung in a rigid-body engine', () => {
  const uniform = seeded(77);
  const from = (low: number, high: number): number => low + (high - low) * uniform();
  const hangs = Array.from({ length: 20 }, (_, i) => {
    const cg = { x: from(-0.2, 0.2), y: from(-0.05, 0.05), z: from(-0.1, 0.1) };
    const hook = { x: from(-0.6, 0.6), y: from(-0.2, 0.2), z: from(0.2, 0.5) };
    const half = from(-0.6, 0.6);
    return { name: i + 1, cg, hook, turned: { x: 0, y: Math.sin(half), z: 0, w: Math.cos(half) } };
  });
  test.each(hangs)('hook $name: it rests with its CG under the hook', ({ cg, hook, turned }) => {
    const theirs = gravityWhenHung(hook, cg, turned);
    const point = ({ x, y, z }: RAPIER.Vector) => ({ x: meters(x), y: meters(y), z: meters(z) });
    const ours = valueOf(hangDirectionInSpace(point(hook), point(cg)));
    const apart = Math.hypot(
      theirs.y * ours.z - theirs.z * ours.y,
      theirs.z * ours.x - theirs.x * ours.z,
      theirs.x * ours.y - theirs.y * ours.x,
    );
    const alike = theirs.x * ours.x + theirs.y * ours.y + theirs.z * ours.z;
    expect(angleIn(radians(Math.atan2(apart, alike)), 'deg')).toBeLessThan(
      tolerance('rigid body: CG under the hook'),
    );
  });
});

describe('box trucks on a tilting plane in a rigid-body engine', () => {
  const uniform = seeded(2024);
  const from = (low: number, high: number): number => low + (high - low) * uniform();
  const trucks = Array.from({ length: 20 }, (_, i) => {
    const wheelbase = from(0.8, 1.2);
    const truck: BoxTruck = {
      wheelbase,
      frontTrack: from(0.45, 0.8),
      rearTrack: from(0.45, 0.8),
      halfFoot: from(0.05, 0.09),
      halfHeight: from(0.03, 0.06),
      cg: {
        x: meters(wheelbase * from(0.35, 0.65)),
        y: meters(from(-0.06, 0.06)),
        z: meters(from(0.2, 0.45)),
      },
      mass: from(1, 5),
      gyration: [from(0.15, 0.25), from(0.25, 0.35), from(0.25, 0.35)],
    };
    return { name: i + 1, truck, heading: radians(from(0, 2 * Math.PI)) };
  });
  const gaps: number[] = [];

  test.each(trucks)(
    'truck $name tips at the computed slope',
    ({ truck, heading }) => {
      const polygon = valueOf(supportPolygon(footCorners(truck)));
      const computed = valueOf(limitSlope(polygon, truck.cg, heading)).slope;
      const gap = angleIn(radians(tippingSlope(truck, heading) - computed), 'deg');
      gaps.push(Math.abs(gap));
      expect(Math.abs(gap)).toBeLessThan(tolerance('rigid body: one truck'));
    },
    20_000,
  );

  test('over all of them', () => {
    expect(gaps).toHaveLength(trucks.length);
    const mean = gaps.reduce((sum, gap) => sum + gap, 0) / gaps.length;
    expect(mean).toBeLessThan(tolerance('rigid body: mean of trucks'));
  });
});
