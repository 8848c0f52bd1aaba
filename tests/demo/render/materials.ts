import type { Texture } from 'three';
import {
  CanvasTexture,
  MeshPhysicalMaterial,
  MeshStandardMaterial,
  RepeatWrapping,
  SRGBColorSpace,
} from 'three';
import type { Random } from '../world/random';
import { random } from '../world/random';

/** A canvas to paint a texture on. */
export const painted = (
  width: number,
  height: number,
  paint: (context: CanvasRenderingContext2D) => void,
): CanvasTexture => {
  const canvas = document.createElement('canvas');
  canvas.width = width;
  canvas.height = height;
  const context = canvas.getContext('2d');
  if (!context) throw new Error('No 2d context.');
  paint(context);
  const texture = new CanvasTexture(canvas);
  texture.colorSpace = SRGBColorSpace;
  texture.wrapS = RepeatWrapping;
  texture.wrapT = RepeatWrapping;
  texture.anisotropy = 8;
  return texture;
};

/** Blots of several sizes over a base color: dust, wear, stains. */
export const blots = (
  context: CanvasRenderingContext2D,
  draw: Random,
  count: number,
  colors: readonly string[],
  [small, large]: readonly [number, number],
  strength: number,
): void => {
  const { width, height } = context.canvas;
  for (let index = 0; index < count; index += 1) {
    context.globalAlpha = strength * draw.unit();
    context.fillStyle = colors[Math.floor(draw.unit() * colors.length)] ?? '#000';
    context.beginPath();
    context.ellipse(
      draw.unit() * width,
      draw.unit() * height,
      draw.between(small, large),
      draw.between(small, large),
      draw.unit() * 3,
      0,
      7,
    );
    context.fill();
  }
  context.globalAlpha = 1;
};

let wear: Texture | undefined;
/** Near white, mottled: every plain surface carries it, nothing in a workshop is of one color. */
const worn = (): Texture => {
  wear ??= painted(512, 512, (context) => {
    const draw = random(11, 'wear');
    context.fillStyle = '#f2f1ee';
    context.fillRect(0, 0, 512, 512);
    blots(context, draw, 260, ['#bdb6a8', '#ffffff', '#8d877c'], [3, 26], 0.1);
    blots(context, draw, 1500, ['#7d766b', '#ffffff', '#a39a89'], [0.5, 2.2], 0.22);
  });
  return wear;
};

const made = new Map<string, MeshStandardMaterial>();
/** One material for all surfaces of the same look. Not to be changed afterwards. */
export const plain = (color: string, roughness: number, metalness = 0): MeshStandardMaterial => {
  const key = `${color} ${roughness} ${metalness}`;
  const known = made.get(key);
  if (known) return known;
  const material = new MeshStandardMaterial({ color, roughness, metalness, map: worn() });
  made.set(key, material);
  return material;
};

export const textured = (map: Texture, roughness: number): MeshStandardMaterial =>
  new MeshStandardMaterial({ map, roughness });

export const lacquer = (color: string): MeshPhysicalMaterial =>
  new MeshPhysicalMaterial({ color, roughness: 0.48, clearcoat: 0.8, clearcoatRoughness: 0.14 });

/** Dusty rubber. */
export const rubber = (draw: Random): MeshStandardMaterial =>
  textured(
    painted(256, 256, (context) => {
      context.fillStyle = '#2a2826';
      context.fillRect(0, 0, 256, 256);
      blots(context, draw, 900, ['#4a433b', '#1b1a1a', '#5d5244'], [1, 9], 0.34);
    }),
    0.92,
  );

export const steel = (): MeshStandardMaterial => plain('#7c8084', 0.4, 0.9);
export const alloy = (color = '#83888c'): MeshStandardMaterial => plain(color, 0.42, 0.7);
export const black = (): MeshStandardMaterial => plain('#191a1b', 0.55, 0.1);
