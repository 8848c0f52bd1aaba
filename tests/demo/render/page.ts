import {
  BasicShadowMap,
  Color,
  Group,
  Mesh,
  MeshBasicMaterial,
  Scene,
  SphereGeometry,
  WebGLRenderer,
} from 'three';
import { BRAMBLE } from '../world/bramble';
import { inventTruck } from '../world/invent';
import type { Photograph } from '../world/photograph';
import { inWorld, truePoints } from '../world/photograph';
import { random } from '../world/random';
import type { WorldTruck } from '../world/truck';
import type { Vector } from '../world/vector';
import { benchNotes, demoPhotographs, demoSheet, truthOf } from '../world/demoSheet';
import { baked } from './bake';
import { develop, expose, toJpeg } from './film';
import { lightUp } from './lights';
import { truckModel } from './truckModel';
import { string, workshop } from './workshop';

/** What the command asks of the page. */
export interface RenderRequest {
  /** 'bramble' or a number of an invented truck. */
  readonly truck: string;
  readonly camera: number;
  /** Samples of lens, pixel and light; 1 is a quick look. */
  readonly samples: number;
  /** Largest JPEG, bytes. */
  readonly limit: number;
}

const truckOf = (name: string): WorldTruck => (name === 'bramble' ? BRAMBLE : inventTruck(Number(name)));

const photographsOf = ({ truck, camera }: RenderRequest): Photograph[] =>
  demoPhotographs(truckOf(truck), camera);

const lowest = (truck: WorldTruck, photograph: Photograph): number => {
  const wheels = [
    [0, truck.rearRadius],
    [truck.wheelbase, truck.frontRadius],
  ] as const;
  const points: Vector[] = wheels.flatMap(([x, r]) =>
    Array.from({ length: 24 }, (_, index): Vector => {
      const angle = (index * Math.PI) / 12;
      return [x + (r + 0.01) * Math.cos(angle), 0, r + (r + 0.02) * Math.sin(angle)];
    }),
  );
  const { shape } = truck;
  points.push(
    [shape.nose + 0.02, 0, shape.sill],
    [shape.tail - 0.015, 0, shape.sill],
    [shape.tail, 0, shape.bed],
  );
  return Math.min(...points.map((point) => inWorld(photograph, point)[2]));
};

let renderer: WebGLRenderer | undefined;
const engine = (): WebGLRenderer => {
  if (!renderer) {
    renderer = new WebGLRenderer({ antialias: false, preserveDrawingBuffer: true });
    renderer.shadowMap.enabled = true;
    renderer.shadowMap.type = BasicShadowMap;
  }
  return renderer;
};

const draw = (request: RenderRequest, id: string): string => {
  const truck = truckOf(request.truck);
  const photograph = photographsOf(request).find((each) => each.id === id);
  if (!photograph) throw new Error(`No photograph ${id}.`);
  const look = random(request.camera, 'workshop');
  const scene = new Scene();
  scene.background = new Color('#2a2d2e');
  const hanging = photograph.kind === 'hanging';
  const floor = hanging ? lowest(truck, photograph) - 0.095 : 0;
  const [blue, pale] = [look.unit() < 0.6, look.unit() < 0.6];
  const things = new Group();
  things.add(workshop(photograph, floor, look, blue), truckModel(truck, photograph));
  if (hanging) things.add(string(pale));
  scene.add(baked(things));
  const mood = random(request.camera, id);
  const middle: Vector = hanging ? [0, 0.1, floor + 0.32] : [truck.wheelbase / 2, 0.15, 0.1];
  const light = lightUp(
    engine(),
    scene,
    middle,
    photograph.side === 'right' ? -1 : 1,
    mood.unit() < 0.5 ? '#fff0dc' : '#f6f3ee',
  );
  const exposure = expose(
    engine(),
    scene,
    photograph.camera,
    photograph.hold.distance,
    request.samples,
    light,
  );
  const canvas = develop(
    exposure,
    mood.between(0.82, 0.98),
    [mood.between(0.98, 1.05), 1, mood.between(0.93, 1.02)],
    mood,
  );
  scene.traverse((thing) => {
    if (thing instanceof Mesh) thing.geometry.dispose();
  });
  return toJpeg(canvas, request.limit);
};

/**
 * Largest distance, px, between where the world's camera puts the marked points and where the renderer, through
 * the same lens and film, draws small bright balls at them: the balls' centers of brightness.
 */
const disagreement = (request: RenderRequest): number => {
  const truck = truckOf(request.truck);
  let worst = 0;
  for (const photograph of photographsOf(request)) {
    const points = truePoints(truck, photograph);
    const scene = new Scene();
    scene.background = new Color('#000');
    const bright = new MeshBasicMaterial({ color: '#fff' });
    for (const { place } of points) {
      const ball = new Mesh(new SphereGeometry(0.003, 32, 24), bright);
      ball.position.set(...place);
      scene.add(ball);
    }
    const { width, light } = expose(
      engine(),
      scene,
      photograph.camera,
      photograph.hold.distance,
      request.samples,
      () => undefined,
    );
    const WINDOW = 9;
    for (const { x, y } of points) {
      let [sum, sumX, sumY] = [0, 0, 0];
      for (let row = Math.round(y) - WINDOW; row < y + WINDOW; row += 1)
        for (let column = Math.round(x) - WINDOW; column < x + WINDOW; column += 1) {
          const value = light[3 * (row * width + column)] ?? 0;
          sum += value;
          sumX += value * (column + 0.5);
          sumY += value * (row + 0.5);
        }
      worst = Math.max(worst, Math.hypot(sumX / sum - x, sumY / sum - y));
    }
  }
  return worst;
};

/** The demo truck's marked sheet; for any other truck the bench notes, the truth and the marked sheet apart. */
const files = (request: RenderRequest): [string, string][] => {
  const truck = truckOf(request.truck);
  const lines = (value: object): string => `${JSON.stringify(value, null, 2)}\n`;
  const sheet = lines(demoSheet(truck, request.camera));
  if (request.truck === 'bramble') return [['bramble.json', sheet]];
  return [
    ['bench-notes.txt', benchNotes(truck, request.camera)],
    ['truth.json', lines(truthOf(truck))],
    ['marked-sheet.json', sheet],
  ];
};

declare global {
  interface Window {
    plumbRender: {
      readonly draw: typeof draw;
      readonly photographs: (request: RenderRequest) => string[];
      readonly disagreement: typeof disagreement;
      /** Files that go with the pictures: name and text. */
      readonly files: typeof files;
    };
  }
}
window.plumbRender = {
  draw,
  photographs: (request) => photographsOf(request).map(({ id }) => id),
  disagreement,
  files,
};
