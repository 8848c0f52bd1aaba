/**
 * Which part of a picture a marking surface shows, and how large.
 *
 * Picture places are pixels of the full-size upright picture, screen places CSS pixels from the surface's upper
 * left corner; both x right, y down.
 */
export interface SurfaceView {
  /** Screen pixels per picture pixel. */
  readonly scale: number;
  /** Picture place at the surface's upper left corner. */
  readonly x: number;
  readonly y: number;
}

export interface Size {
  readonly width: number;
  readonly height: number;
}

export interface Place {
  readonly x: number;
  readonly y: number;
}

/** Sixteen screen pixels for one of the picture: a nudge of 0.1 pixel is then still seen to move. */
const LARGEST_SCALE = 16;
/** One press of a zoom button or key. Three presses are a little more than a doubling, twice over. */
export const ZOOM_STEP = 1.6;

/** The view that shows the whole picture, centered. */
export function fitted(picture: Size, box: Size): SurfaceView {
  const scale = Math.min(box.width / picture.width, box.height / picture.height);
  if (!(scale > 0) || !Number.isFinite(scale)) return { scale: 1, x: 0, y: 0 };
  return {
    scale,
    x: (picture.width - box.width / scale) / 2,
    y: (picture.height - box.height / scale) / 2,
  };
}

export const toScreen = (view: SurfaceView, place: Place): Place => ({
  x: (place.x - view.x) * view.scale,
  y: (place.y - view.y) * view.scale,
});

export const toPicture = (view: SurfaceView, place: Place): Place => ({
  x: view.x + place.x / view.scale,
  y: view.y + place.y / view.scale,
});

const heldAlong = (start: number, shown: number, whole: number): number =>
  shown >= whole ? (whole - shown) / 2 : Math.min(whole - shown, Math.max(0, start));

/** The view moved, and enlarged if need be, so that the picture fills the surface as far as it can. */
export function held(view: SurfaceView, picture: Size, box: Size): SurfaceView {
  const whole = fitted(picture, box);
  const scale = Math.min(Math.max(view.scale, whole.scale), Math.max(LARGEST_SCALE, whole.scale));
  return {
    scale,
    x: heldAlong(view.x, box.width / scale, picture.width),
    y: heldAlong(view.y, box.height / scale, picture.height),
  };
}

/** `view` enlarged by `factor`; what lies under the screen place `about` stays there. */
export function zoomed(
  view: SurfaceView,
  factor: number,
  about: Place,
  picture: Size,
  box: Size,
): SurfaceView {
  const { scale } = held({ ...view, scale: view.scale * factor }, picture, box);
  const fixed = toPicture(view, about);
  return held({ scale, x: fixed.x - about.x / scale, y: fixed.y - about.y / scale }, picture, box);
}

/** `view` after the picture was dragged by (dx, dy) screen pixels. */
export function panned(view: SurfaceView, dx: number, dy: number, picture: Size, box: Size): SurfaceView {
  return held({ ...view, x: view.x - dx / view.scale, y: view.y - dy / view.scale }, picture, box);
}

/** `view` moved no more than needed so that `place` stands at least `margin` screen pixels inside the surface. */
export function bringing(
  view: SurfaceView,
  place: Place,
  margin: number,
  picture: Size,
  box: Size,
): SurfaceView {
  const { x, y } = toScreen(view, place);
  const short = (at: number, size: number) => {
    const room = Math.min(margin, size / 2);
    return at < room ? room - at : at > size - room ? size - room - at : 0;
  };
  return panned(view, short(x, box.width), short(y, box.height), picture, box);
}

/** `place` held inside the picture. */
export const insidePicture = (place: Place, picture: Size): Place => ({
  x: Math.min(picture.width, Math.max(0, place.x)),
  y: Math.min(picture.height, Math.max(0, place.y)),
});

/** A mark's place as it is kept: a hundredth of a pixel is far below what anyone can point at. */
export const rounded = ({ x, y }: Place): Place => ({
  x: Math.round(x * 100) / 100,
  y: Math.round(y * 100) / 100,
});

/**
 * Where a loupe of radius `radius` goes so that neither finger nor mark lies beneath it: the upper corner on the
 * other side of the pointer, or the lower one when the pointer is high and the surface too narrow for both.
 * Gives the loupe's center, screen pixels.
 */
export function loupePlace(pointer: Place, radius: number, box: Size): Place {
  const gap = 10;
  const left = radius + gap;
  const right = box.width - radius - gap;
  const top = radius + gap;
  const bottom = box.height - radius - gap;
  const x = pointer.x > box.width / 2 ? left : right;
  const clear = Math.hypot(pointer.x - x, pointer.y - top) > radius + 34;
  return { x, y: clear ? top : bottom };
}
