import type { Object3D, Scene, Texture, WebGLRenderer } from 'three';
import { DirectionalLight, HemisphereLight, PMREMGenerator } from 'three';
import { RoomEnvironment } from 'three/addons/environments/RoomEnvironment.js';
import type { Vector } from '../world/vector';
import { evenly } from './film';

/** How far around the middle shadows are drawn, m. */
const REACH = 0.95;

let reflections: Texture | undefined;

/**
 * The workshop's light: a tube lamp over the camera's side of the bench, and the brightness of the whole room
 * from everywhere above. Returns what moves both to their place for one of the samples.
 */
export const lightUp = (
  renderer: WebGLRenderer,
  scene: Scene,
  middle: Vector,
  towardCamera: 1 | -1,
  warmth: string,
): ((index: number) => void) => {
  reflections ??= new PMREMGenerator(renderer).fromScene(new RoomEnvironment(), 0.04).texture;
  scene.environment = reflections;
  scene.environmentRotation.set(Math.PI / 2, 0, 0);
  scene.environmentIntensity = 0.27;
  scene.add(new HemisphereLight('#e6eef5', '#6b5842', 0.16));
  const lamp = shadowing(new DirectionalLight(warmth, 2.3));
  const room = shadowing(new DirectionalLight('#dfe9f2', 2.1));
  const things: Object3D[] = [lamp, lamp.target, room, room.target];
  scene.add(...things);
  lamp.target.position.set(...middle);
  room.target.position.set(...middle);
  const [x, y, z] = middle;
  return (index) => {
    const along = 1.3 * (evenly(index, 2) - 0.5) - 0.35;
    const across = 0.35 * (evenly(index, 3) - 0.5);
    lamp.position.set(x + along, y + towardCamera * (0.75 + across), z + 1.5);
    // Cosine-weighted over the half space above, leaning to the camera's open side of the room.
    const radius = Math.sqrt(evenly(index, 5));
    const turn = 2 * Math.PI * evenly(index, 7);
    const up = Math.sqrt(1 - radius * radius);
    const [dx, dy, dz] = [radius * Math.cos(turn), radius * Math.sin(turn) + towardCamera * 0.5, up + 0.15];
    const far = 2 / Math.hypot(dx, dy, dz);
    room.position.set(x + far * dx, y + far * dy, z + far * dz);
  };
};

const shadowing = (light: DirectionalLight): DirectionalLight => {
  light.castShadow = true;
  light.shadow.mapSize.set(2048, 2048);
  const { camera } = light.shadow;
  camera.left = -REACH;
  camera.right = REACH;
  camera.top = REACH;
  camera.bottom = -REACH;
  camera.near = 0.3;
  camera.far = 4;
  light.shadow.bias = -0.0004;
  light.shadow.normalBias = 0.0008;
  return light;
};
