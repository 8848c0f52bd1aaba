import { describe, expect, it } from 'vitest';
import { project } from '../../demo/world/camera';
import { hangRotation, hangTruck } from '../../demo/world/hang';
import { centerOfGravity, hookPlace } from '../../demo/world/truck';
import { size, subtract, turn } from '../../demo/world/vector';
import { tolerance } from '../../tolerances';
import { CASES, crossingsOf, drawCase } from './cases';
import { HAMMER } from './hammer';
import { truckOf } from './setups';
import { hungPose, inWorld } from './shots';

const DRAWS = Array.from({ length: 5 }, (_, n) => n);

describe('the photographed world', () => {
  // Two ways to the same rest: the least energy, and the center of gravity straight below the hook.
  it('hangs a locked truck as its least energy does', () => {
    const truck = truckOf('rear');
    for (const hook of ['hood', 'hoop', 'bed', 'slider', 'roof']) {
      const [, , upward] = hangRotation(hangTruck(truck, hook, { suspension: 'locked' }), 0);
      const pose = hungPose(centerOfGravity(truck), hookPlace(truck, hook), 'right', 0);
      expect(size(subtract(pose.rotation[2], upward)), hook).toBeLessThan(
        tolerance('photographs world: rest'),
      );
    }
  });

  it('shows the corner of a picture moved by the whole radial coefficient', () => {
    const camera = {
      position: [0, 0, 0],
      forward: [0, 1, 0],
      right: [1, 0, 0],
      down: [0, 0, -1],
      focal: 1000,
      width: 1600,
      height: 1200,
    } as const;
    const corner = project({ ...camera, radial: -0.02 }, [0.8, 1, -0.6]);
    expect(corner.x - 800).toBeCloseTo(0.98 * 800, 9);
    expect(corner.y - 600).toBeCloseTo(0.98 * 600, 9);
    expect(project({ ...camera, radial: -0.02 }, [0, 1, 0])).toEqual({ x: 800, y: 600 });
  });

  it.each(CASES)('puts the CG of each hang on the string, body and side as seen: %s', (name) => {
    for (const n of DRAWS) {
      const { cg, shots } = drawCase(name, n, ['sticking']);
      for (const { hanging, suspension, pose, view } of shots) {
        if (suspension === 'locked' && hanging) {
          const [x, y, z] = inWorld(pose, cg);
          expect(Math.hypot(x, y)).toBeLessThan(tolerance('photographs world: rest'));
          expect(z).toBeLessThan(0);
        }
        // The visible side stays toward the camera: no picture is taken from behind.
        const toward = turn(pose.rotation, view === 'right' ? [0, -1, 0] : [-1, 0, 0]);
        expect(view === 'right' ? -toward[1] : -toward[0]).toBeGreaterThan(0.5);
      }
    }
  });

  it.each(CASES)('hangs so that the lines of one view cross at more than 40° somewhere: %s', (name) => {
    for (const angle of crossingsOf(name)) expect(angle).toBeGreaterThan((40 * Math.PI) / 180);
  });

  it('has a hammer of believable mass, its CG in the handle just behind the head', () => {
    expect(HAMMER.mass).toBeGreaterThan(0.4);
    expect(HAMMER.mass).toBeLessThan(1);
    expect(HAMMER.cg[0]).toBeGreaterThan(0.2);
    expect(HAMMER.cg[0]).toBeLessThan(0.275);
    expect(HAMMER.cg[1]).toBeCloseTo(0, 12);
  });
});
