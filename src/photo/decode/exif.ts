/** What EXIF data say that is used here; null for what they do not say. Place, time and camera are never read. */
export interface Exif {
  /** 1 to 8: how the stored pixels are to be turned; 1 is upright. CIPA DC-008-2019, 4.6.4, tag 0112. */
  readonly orientation: number;
  /** mm, tag A405: a whole number; 0 is unknown. */
  readonly focalLength35: number | null;
  /** mm, tag 920A: of the lens itself. */
  readonly focalLength: number | null;
  /** Pixels a mm on the sensor, tags A20E to A210. */
  readonly sensorPixels: { readonly x: number; readonly y: number } | null;
  /** Pixels of the picture when it was taken, tags A002 and A003. */
  readonly taken: { readonly width: number; readonly height: number } | null;
  /** Tag A404; 0 or 1 where none was used. */
  readonly digitalZoom: number | null;
}

export const NO_EXIF: Exif = {
  orientation: 1,
  focalLength35: null,
  focalLength: null,
  sensorPixels: null,
  taken: null,
  digitalZoom: null,
};

/** Types of a directory entry's value. CIPA DC-008-2019, 4.6.2. */
const SHORT = 3;
const LONG = 4;
const RATIONAL = 5;

const TAG = {
  orientation: 0x0112,
  exifDirectory: 0x8769,
  focalLength: 0x920a,
  pixelXDimension: 0xa002,
  pixelYDimension: 0xa003,
  focalPlaneXResolution: 0xa20e,
  focalPlaneYResolution: 0xa20f,
  focalPlaneResolutionUnit: 0xa210,
  digitalZoomRatio: 0xa404,
  focalLengthIn35mmFilm: 0xa405,
} as const;

/** mm in a focal plane resolution unit: inch, which is also meant where none is said, and cm. CIPA DC-008-2019, 4.6.5. */
const UNIT_MM: Readonly<Record<number, number>> = { 2: 25.4, 3: 10 };

type Directory = ReadonlyMap<number, number>;

/** Numbers of one directory of a TIFF structure: the first value of every entry of a type read here. */
function directoryAt(tiff: DataView, at: number, little: boolean): Directory {
  const found = new Map<number, number>();
  if (at + 2 > tiff.byteLength) return found;
  const count = tiff.getUint16(at, little);
  for (let entry = at + 2; entry < at + 2 + 12 * count && entry + 12 <= tiff.byteLength; entry += 12) {
    const value = valueAt(tiff, entry, little);
    const tag = tiff.getUint16(entry, little);
    if (value !== null && !found.has(tag)) found.set(tag, value);
  }
  return found;
}

function valueAt(tiff: DataView, entry: number, little: boolean): number | null {
  switch (tiff.getUint16(entry + 2, little)) {
    case SHORT:
      return tiff.getUint16(entry + 8, little);
    case LONG:
      return tiff.getUint32(entry + 8, little);
    case RATIONAL: {
      const at = tiff.getUint32(entry + 8, little);
      if (at + 8 > tiff.byteLength) return null;
      const below = tiff.getUint32(at + 4, little);
      return below === 0 ? null : tiff.getUint32(at, little) / below;
    }
    default:
      return null;
  }
}

const above0 = (value: number | undefined): number | null =>
  value !== undefined && value > 0 ? value : null;

/**
 * EXIF data from their TIFF structure, whole or cut short: what cannot be read is as if it were not there.
 * CIPA DC-008-2019, 4.6.2 (structure), 4.6.4 and 4.6.5 (tags).
 */
export function readExif(tiff: DataView): Exif {
  if (tiff.byteLength < 8) return NO_EXIF;
  const little = tiff.getUint16(0) === 0x4949;
  const main = directoryAt(tiff, tiff.getUint32(4, little), little);
  const below = main.get(TAG.exifDirectory);
  const exif: Directory = below === undefined ? new Map<number, number>() : directoryAt(tiff, below, little);
  // Some programs write it as LONG against the standard; viewers read that too.
  const turn = main.get(TAG.orientation) ?? 1;
  const width = above0(exif.get(TAG.pixelXDimension));
  const height = above0(exif.get(TAG.pixelYDimension));
  const unit = UNIT_MM[exif.get(TAG.focalPlaneResolutionUnit) ?? 2];
  const x = above0(exif.get(TAG.focalPlaneXResolution));
  const y = above0(exif.get(TAG.focalPlaneYResolution)) ?? x;
  return {
    orientation: Number.isInteger(turn) && turn >= 1 && turn <= 8 ? turn : 1,
    focalLength35: above0(exif.get(TAG.focalLengthIn35mmFilm)),
    focalLength: above0(exif.get(TAG.focalLength)),
    sensorPixels: unit !== undefined && x !== null && y !== null ? { x: x / unit, y: y / unit } : null,
    taken: width !== null && height !== null ? { width, height } : null,
    digitalZoom: exif.get(TAG.digitalZoomRatio) ?? null,
  };
}
