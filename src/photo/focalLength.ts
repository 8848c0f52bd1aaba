/** mm, of a frame of 36 by 24 mm. CIPA DCG-001 gives it as 43.27. */
export const FILM_DIAGONAL = Math.hypot(36, 24);

/**
 * Relative standard uncertainty of a focal length taken from EXIF: focusing close, image stabilization, distortion taken
 * out, and makers who go by the long side instead of the diagonal (4 % at 4:3). Common practice; no standard gives one.
 */
const COMMON = 0.03;
/** mm: standard deviation of a number rounded to whole mm. */
const ROUNDING = 1 / Math.sqrt(12);

/**
 * Focal length in pixels of a picture `width` by `height` pixels, with its standard uncertainty `u`, from the 35 mm
 * equivalent in mm. Both must be above zero.
 *
 * Equivalent means: the same diagonal angle of view as a frame of 36 by 24 mm (CIPA DCG-001, converted focal length).
 * So f = f35 · diagonal / 43.27 mm; for 3:2 that is the same as f35 · long side / 36 mm, for 4:3 it is 4 % more.
 * Reducing a picture changes nothing of it.
 *
 * `u` holds common practice (3 %) and rounding to 1 mm. Many cameras keep the number of the whole 4:3 sensor when they
 * save another shape of it: the value goes by the picture's own diagonal, and `u` takes in how much longer the 4:3
 * frame's around it is, as a uniform law between the two.
 */
export function focalPixels(
  focalLength35: number,
  width: number,
  height: number,
): { readonly value: number; readonly u: number } {
  const long = Math.max(width, height);
  const short = Math.min(width, height);
  const diagonal = Math.hypot(long, short);
  const wholeFrame = Math.max((long * 5) / 4, (short * 5) / 3);
  const value = (focalLength35 * diagonal) / FILM_DIAGONAL;
  const cut = (wholeFrame / diagonal - 1) / Math.sqrt(3);
  return { value, u: value * Math.hypot(COMMON, ROUNDING / focalLength35, cut) };
}
