import type { Place, Size } from '../surfaceView';

/** A part of a picture, whole pixels of the full-size upright picture. */
export interface Crop extends Place, Size {}

/** The smallest crop that holds all places with `margin` pixels around them, inside the picture. */
export function cropAround(places: readonly Place[], margin: number, picture: Size): Crop {
  const xs = places.map(({ x }) => x);
  const ys = places.map(({ y }) => y);
  const start = (values: readonly number[]) => Math.max(0, Math.floor(Math.min(...values) - margin));
  const end = (values: readonly number[], whole: number) =>
    Math.min(whole, Math.ceil(Math.max(...values) + margin));
  const x = start(xs);
  const y = start(ys);
  return {
    x,
    y,
    width: Math.max(0, end(xs, picture.width) - x),
    height: Math.max(0, end(ys, picture.height) - y),
  };
}

export const toCrop = ({ x, y }: Place, crop: Crop): Place => ({ x: x - crop.x, y: y - crop.y });
export const fromCrop = ({ x, y }: Place, crop: Crop): Place => ({ x: x + crop.x, y: y + crop.y });

/** Around a string's two marks: room for what lies beside it, pixels, or this share of its length. */
const BESIDE_STRING = { pixels: 30, share: 0.03 } as const;

/** The crop around a string's marks. */
export const stringCrop = (upper: Place, lower: Place, picture: Size): Crop =>
  cropAround(
    [upper, lower],
    Math.max(BESIDE_STRING.pixels, BESIDE_STRING.share * Math.hypot(lower.x - upper.x, lower.y - upper.y)),
    picture,
  );

/** Half the crops around a mark that may sit on a round, pixels: a small one, and one for rounds the first cuts off. */
export const ROUND_MARGINS = [90, 270] as const;

/** Around marks whose surroundings tell the blur, and the most that is looked at: what a worker does in half a second. */
const BLUR = { margin: 60, side: 900 } as const;

/** The crop that tells how a picture is smeared: around its marks, or the middle of them where they lie far apart. */
export function blurCrop(marks: readonly Place[], picture: Size): Crop {
  const around = cropAround(marks, BLUR.margin, picture);
  const shorter = (start: number, length: number) =>
    length <= BLUR.side ? [start, length] : [start + Math.floor((length - BLUR.side) / 2), BLUR.side];
  const [x = 0, width = 0] = shorter(around.x, around.width);
  const [y = 0, height = 0] = shorter(around.y, around.height);
  return { x, y, width, height };
}
