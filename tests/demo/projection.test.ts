import { Vector3 } from 'three';
import { describe, expect, it } from 'vitest';
import { tolerance } from '../tolerances';
import { threeCamera } from './render/threeCamera';
import { BRAMBLE } from './world/bramble';
import { demoPhotographs } from './world/demoSheet';
import { inventTruck } from './world/invent';
import { truePoints } from './world/photograph';

/** Where three.js's own projection shows a point through one place of the lens, px. */
const shown = (three: ReturnType<typeof threeCamera>, width: number, height: number, place: Vector3) => {
  const { x, y } = place.clone().project(three);
  return { x: (width / 2) * (1 + x), y: (height / 2) * (1 - y) };
};

describe('the renderer', () => {
  // Reference: three.js projects with its own matrices; the world divides by depth.
  it('shows every marked point where the world camera puts it', () => {
    for (const truck of [BRAMBLE, inventTruck(2), inventTruck(9)])
      for (const photograph of demoPhotographs(truck, 4)) {
        const { camera, hold } = photograph;
        const three = threeCamera(camera, hold.distance);
        for (const { role, place, x, y } of truePoints(truck, photograph)) {
          const seen = shown(three, camera.width, camera.height, new Vector3(...place));
          expect(Math.hypot(seen.x - x, seen.y - y), `${photograph.id} ${role}`).toBeLessThan(
            tolerance('demo: three.js projection'),
          );
        }
      }
  });

  it('leaves points in focus where they are, wherever on the lens a sample lies', () => {
    for (const { camera, hold } of demoPhotographs(BRAMBLE, 4)) {
      const inFocus = new Vector3(...camera.position)
        .addScaledVector(new Vector3(...camera.forward), hold.distance)
        .addScaledVector(new Vector3(...camera.right), 0.11)
        .addScaledVector(new Vector3(...camera.down), -0.07);
      const middle = shown(threeCamera(camera, hold.distance), camera.width, camera.height, inFocus);
      const edge = shown(
        threeCamera(camera, hold.distance, { right: 0.001, up: -0.0007, x: 0, y: 0 }),
        camera.width,
        camera.height,
        inFocus,
      );
      expect(Math.hypot(edge.x - middle.x, edge.y - middle.y)).toBeLessThan(
        tolerance('demo: three.js projection'),
      );
    }
  });
});
