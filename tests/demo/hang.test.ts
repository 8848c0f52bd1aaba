import { describe, expect, it } from 'vitest';
import { tolerance } from '../tolerances';
import { BRAMBLE } from './world/bramble';
import { hangEnergy, hangRotation, hangTruck } from './world/hang';
import type { Hang } from './world/hang';
import { inventTruck, unbelievable } from './world/invent';
import type { WorldTruck } from './world/truck';
import { centerOfGravity, hookPlace } from './world/truck';
import { subtract, turn } from './world/vector';

const trucks: readonly WorldTruck[] = [
  BRAMBLE,
  ...Array.from({ length: 30 }, (_, index) => inventTruck(index + 1)),
];
const everyHook = trucks.flatMap((truck) => truck.hooks.map((hook) => ({ truck, hook: hook.id })));

/** Horizontal distance of the whole truck's CG from the string, m, and how far it lies below the hook. */
const belowHook = (truck: WorldTruck, hook: string, hang: Hang) => {
  const [x, y, z] = turn(
    hangRotation(hang, 0.05),
    subtract(centerOfGravity(truck, hang.droop), hookPlace(truck, hook, hang.droop)),
  );
  return { aside: Math.hypot(x, y), below: -z };
};

describe('invented trucks', () => {
  it('are believable, every one', () => {
    for (const truck of trucks) expect(unbelievable(truck), truck.name).toEqual([]);
  });

  it('are the same again from the same number', () => {
    expect(inventTruck(7)).toEqual(inventTruck(7));
    expect(inventTruck(7)).not.toEqual(inventTruck(8));
  });
});

describe('a truck on a string', () => {
  // Statics of a body on one string: its center of gravity comes to rest straight below the hook.
  it.each(['locked', 'free'] as const)('rests with its CG under the hook, suspension %s', (suspension) => {
    for (const { truck, hook } of everyHook) {
      const { aside, below } = belowHook(truck, hook, hangTruck(truck, hook, { suspension }));
      expect(aside, `${truck.name} ${hook}`).toBeLessThan(tolerance('hang: CG under the hook'));
      expect(below).toBeGreaterThan(0);
    }
  });

  it('has no pose nearby with less energy, axles free within their stops', () => {
    for (const { truck, hook } of everyHook) {
      const rest = hangTruck(truck, hook, { suspension: 'free' });
      const least = hangEnergy(truck, hook, rest);
      const { front, rear } = truck.suspension;
      for (const pitch of [-0.01, 0, 0.01])
        for (const lean of [-0.01, 0, 0.01])
          for (const f of [-0.001, 0, 0.001])
            for (const r of [-0.001, 0, 0.001]) {
              const droop = {
                front: Math.min(front.droopLimit, Math.max(-front.bumpLimit, rest.droop.front + f)),
                rear: Math.min(rear.droopLimit, Math.max(-rear.bumpLimit, rest.droop.rear + r)),
              };
              const near = hangEnergy(truck, hook, {
                pitch: rest.pitch + pitch,
                lean: rest.lean + lean,
                droop,
              });
              expect(near).toBeGreaterThanOrEqual(least - tolerance('hang: least energy'));
            }
      expect(rest.droop.front).toBeGreaterThan(0);
      expect(rest.droop.rear).toBeGreaterThan(0);
    }
  });

  it('still hangs true around axles that friction holds', () => {
    for (const { truck, hook } of everyHook) {
      const sticking = { front: -0.004, rear: -0.002 };
      const held = hangTruck(truck, hook, { suspension: 'free', sticking });
      const rest = hangTruck(truck, hook, { suspension: 'free' });
      expect(held.droop.front).toBeCloseTo(rest.droop.front + sticking.front, 9);
      expect(belowHook(truck, hook, held).aside).toBeLessThan(tolerance('hang: CG under the hook'));
    }
  });
});
