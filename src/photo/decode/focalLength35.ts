import { FILM_DIAGONAL } from '../focalLength';
import type { Exif } from './exif';

/** How far the sides of a picture may differ in ratio from the one that was taken, by rounding to whole pixels. */
const SAME_SHAPE = 0.01;
/** mm; no lens of a phone or camera is beyond these. */
const SHORTEST = 5;
const LONGEST = 3000;

const shape = (width: number, height: number): number => Math.max(width, height) / Math.min(width, height);

/**
 * Focal length of a picture in mm, 35 mm equivalent: as the camera wrote it (CIPA DC-008-2019, 4.6.5, tag A405), else
 * from the lens's own and the pixel density on its sensor, by the diagonal. Null where EXIF does not tell, and where
 * it does not hold for the pixels there are: the picture has been cut to another shape since, or digital zoom was
 * used, which some cameras include in the number and others do not.
 */
export function focalLength35(exif: Exif, width: number, height: number): number | null {
  const { taken, digitalZoom } = exif;
  if (digitalZoom !== null && digitalZoom > 1) return null;
  if (taken && Math.abs(shape(taken.width, taken.height) / shape(width, height) - 1) > SAME_SHAPE)
    return null;
  const found = exif.focalLength35 ?? fromSensor(exif);
  return found !== null && found >= SHORTEST && found <= LONGEST ? found : null;
}

function fromSensor({ focalLength, sensorPixels, taken }: Exif): number | null {
  if (focalLength === null || sensorPixels === null || taken === null) return null;
  const diagonal = Math.hypot(taken.width / sensorPixels.x, taken.height / sensorPixels.y);
  return (focalLength * FILM_DIAGONAL) / diagonal;
}
