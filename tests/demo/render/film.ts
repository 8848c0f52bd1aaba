import type { Scene, WebGLRenderer } from 'three';
import { FloatType, WebGLRenderTarget } from 'three';
import type { Camera } from '../world/camera';
import type { Random } from '../world/random';
import { threeCamera } from './threeCamera';

/** Light gathered over many samples, linear, three numbers a pixel, rows from the top. */
export interface Exposure {
  readonly width: number;
  readonly height: number;
  readonly light: Float32Array;
}

/** Lens opening of a phone, m: radius. */
const APERTURE = 0.0011;

/** The index-th number of the van der Corput sequence in `base`; pairs of bases fill a square evenly. */
export const evenly = (index: number, base: number): number => {
  let [result, part, rest] = [0, 1, index + 1];
  while (rest > 0) {
    part /= base;
    result += part * (rest % base);
    rest = Math.floor(rest / base);
  }
  return result;
};

/**
 * Adds up `samples` renderings, each through another point of the lens and of the pixel, with the lights moved by
 * `light(index)`: soft shadows, depth of field and smooth edges, as over a shutter's time.
 */
export const expose = (
  renderer: WebGLRenderer,
  scene: Scene,
  camera: Camera,
  focus: number,
  samples: number,
  light: (index: number) => void,
): Exposure => {
  const { width, height } = camera;
  const target = new WebGLRenderTarget(width, height, { type: FloatType });
  const sum = new Float32Array(width * height * 3);
  const frame = new Float32Array(width * height * 4);
  for (let index = 0; index < samples; index += 1) {
    light(index);
    const radius = APERTURE * Math.sqrt(evenly(index, 2));
    const turn = 2 * Math.PI * evenly(index, 3);
    const lens = samples === 1 ? 0 : radius;
    // A box a little wider than the pixel: what a lens at its sharpest leaves.
    const inside = (base: number): number => (samples === 1 ? 0 : 1.15 * (evenly(index, base) - 0.5));
    renderer.setRenderTarget(target);
    renderer.render(
      scene,
      threeCamera(camera, focus, {
        right: lens * Math.cos(turn),
        up: lens * Math.sin(turn),
        x: inside(5),
        y: inside(7),
      }),
    );
    renderer.readRenderTargetPixels(target, 0, 0, width, height, frame);
    for (let y = 0; y < height; y += 1)
      for (let x = 0; x < width; x += 1) {
        const from = 4 * ((height - 1 - y) * width + x);
        const to = 3 * (y * width + x);
        for (let channel = 0; channel < 3; channel += 1)
          sum[to + channel] = (sum[to + channel] ?? 0) + (frame[from + channel] ?? 0) / samples;
      }
  }
  renderer.setRenderTarget(null);
  target.dispose();
  return { width, height, light: sum };
};

/** A filmic curve, linear light to 0..1 (Narkowicz 2016, a fit of the ACES reference curve). */
const filmic = (light: number): number => {
  const value = (light * (2.51 * light + 0.03)) / (light * (2.43 * light + 0.59) + 0.14);
  return Math.min(1, Math.max(0, value));
};
/** Paints are purer than what a phone shows of them. */
const SATURATION = 0.82;
/** IEC 61966-2-1, linear to sRGB. */
const encoded = (value: number): number =>
  value <= 0.0031308 ? 12.92 * value : 1.055 * value ** (1 / 2.4) - 0.055;

/** Develops an exposure as a phone would: brightness, white balance, falloff to the corners, sensor noise. */
export const develop = (
  exposure: Exposure,
  gain: number,
  balance: readonly [number, number, number],
  draw: Random,
): HTMLCanvasElement => {
  const { width, height, light } = exposure;
  const canvas = document.createElement('canvas');
  canvas.width = width;
  canvas.height = height;
  const context = canvas.getContext('2d');
  if (!context) throw new Error('No 2d context.');
  const image = context.createImageData(width, height);
  const noise = Float32Array.from({ length: 65536 }, () => draw.normal());
  for (let y = 0; y < height; y += 1)
    for (let x = 0; x < width; x += 1) {
      const pixel = y * width + x;
      const offAxis = ((x - width / 2) ** 2 + (y - height / 2) ** 2) / (width / 2) ** 2;
      const falloff = 1 / (1 + 0.09 * offAxis) ** 2;
      const [red, green, blue] = [
        light[3 * pixel] ?? 0,
        light[3 * pixel + 1] ?? 0,
        light[3 * pixel + 2] ?? 0,
      ];
      const gray = 0.2126 * red + 0.7152 * green + 0.0722 * blue;
      // Luminance noise is shared by the channels, color noise is weaker.
      const shared = noise[Math.floor(draw.unit() * 65536)] ?? 0;
      for (let channel = 0; channel < 3; channel += 1) {
        const value =
          (gray + SATURATION * ((light[3 * pixel + channel] ?? 0) - gray)) *
          gain *
          falloff *
          (balance[channel] ?? 1);
        const own = noise[Math.floor(draw.unit() * 65536)] ?? 0;
        const grain = (0.011 * shared + 0.006 * own) * Math.sqrt(Math.max(0.01, value));
        image.data[4 * pixel + channel] = 255 * encoded(filmic(Math.max(0, value + grain)));
      }
      image.data[4 * pixel + 3] = 255;
    }
  context.putImageData(image, 0, 0);
  return canvas;
};

/** JPEG as base64, at the best quality that stays under `limit` bytes. */
export const toJpeg = (canvas: HTMLCanvasElement, limit: number): string => {
  for (let quality = 0.88; ; quality -= 0.03) {
    const base64 = canvas.toDataURL('image/jpeg', quality).replace(/^[^,]*,/, '');
    if (base64.length * 0.75 <= limit || quality < 0.5) return base64;
  }
};
