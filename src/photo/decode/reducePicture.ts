import { refusal, success, type Refusal, type Result } from '../../physics/index';
import { fileKind, HEAD_BYTES, isPicture, kindRefusal } from './formats';
import {
  JPEG_QUALITY,
  LONGEST_SIDE,
  MOST_BYTES,
  MOST_PIXELS,
  SHORTEST_LONG_SIDE,
  type KeptPicture,
  type PictureReason,
} from './protocol';
import { storedPicture, type StoredPicture } from './storedPicture';
import { isQuarterTurn, uprightTurn } from './turn';
import { withoutExif } from './withoutExif';

/** Where a picture is drawn and encoded: an OffscreenCanvas in the worker, a canvas element in a page without one. */
export interface Easel {
  encode(width: number, height: number, draw: (context: DrawingContext) => void): Promise<Blob | null>;
}

/** The part that both kinds of canvas share. */
export type DrawingContext = Pick<
  CanvasRenderingContext2D,
  'fillStyle' | 'fillRect' | 'drawImage' | 'setTransform' | 'imageSmoothingEnabled' | 'imageSmoothingQuality'
>;

export const offscreenEasel: Easel = {
  async encode(width, height, draw) {
    const canvas = new OffscreenCanvas(width, height);
    const context = canvas.getContext('2d', { alpha: false });
    if (!context) return null;
    draw(context);
    return canvas.convertToBlob({ type: 'image/jpeg', quality: JPEG_QUALITY });
  },
};

const broken = (): Refusal<PictureReason> =>
  refusal(
    'broken',
    'Picture: needs a whole picture; this file is damaged or cut short. Copy it to this device again, or take the picture again.',
  );

const noMemory = (): Refusal<PictureReason> =>
  refusal(
    'no-memory',
    'Picture: needs more memory than this device has free; it could not be reduced. Close other pages, or take the picture at a lower resolution.',
  );

interface Inspected {
  /** The file to decode: without EXIF, so that nobody but us turns it. */
  readonly file: Blob;
  /** null where only decoding tells. */
  readonly stored: StoredPicture | null;
}

/** What can be known from the bytes alone: kind, size and orientation. */
async function inspected(file: Blob): Promise<Result<Inspected, PictureReason>> {
  const kind = fileKind(new Uint8Array(await file.slice(0, HEAD_BYTES).arrayBuffer()));
  if (!isPicture(kind)) return refusal('not-a-picture', kindRefusal(kind));
  if (file.size > MOST_BYTES)
    return refusal(
      'too-big',
      `Picture: needs at most ${MOST_BYTES / 1e6} MB; this file has ${Math.round(file.size / 1e6)} MB. Save it as JPEG first.`,
    );
  const bytes = new Uint8Array(await file.arrayBuffer());
  const stored = storedPicture(kind, bytes);
  if (stored === null) return success({ file, stored });
  const { width, height } = stored;
  if (width === 0 || height === 0) return broken();
  if (width * height > MOST_PIXELS)
    return refusal(
      'too-big',
      `Picture: needs at most ${MOST_PIXELS / 1e6} million pixels; this one is ${width} by ${height}. Reduce it in a picture program first.`,
    );
  if (Math.max(width, height) < SHORTEST_LONG_SIDE)
    return refusal(
      'too-small',
      `Picture: needs at least ${SHORTEST_LONG_SIDE} pixels on its long side; this one is ${width} by ${height}. Choose the camera’s own picture, not a preview.`,
    );
  return success({ file: withoutExif(file, kind, bytes, stored), stored });
}

/** At most LONGEST_SIDE pixels long, in whole pixels. */
function reducedSize(width: number, height: number): { readonly width: number; readonly height: number } {
  const scale = Math.min(1, LONGEST_SIDE / Math.max(width, height));
  return { width: Math.max(1, Math.round(width * scale)), height: Math.max(1, Math.round(height * scale)) };
}

/**
 * A file as a picture to keep: recognized by its bytes, decoded, turned upright by its EXIF orientation, its long
 * side reduced to LONGEST_SIDE, encoded as JPEG. What else the file held (place, camera) is left behind.
 */
export async function reducePicture(file: Blob, easel: Easel): Promise<Result<KeptPicture, PictureReason>> {
  let inspection: Result<Inspected, PictureReason>;
  try {
    inspection = await inspected(file);
  } catch {
    // The file was moved, or its place in the cloud cannot be reached.
    return refusal(
      'broken',
      'Picture: needs a file that can be read; this one could not be opened. Copy it to this device, then choose it again.',
    );
  }
  if (!inspection.ok) return inspection;
  const { stored } = inspection.value;
  const options: ImageBitmapOptions = { resizeQuality: 'high' };
  // Decoding straight to the kept size needs far less memory than 48 million pixels at full size.
  if (stored !== null && Math.max(stored.width, stored.height) > LONGEST_SIDE)
    options.resizeWidth = reducedSize(stored.width, stored.height).width;
  let bitmap: ImageBitmap;
  try {
    bitmap = await createImageBitmap(inspection.value.file, options);
  } catch (error) {
    return error instanceof RangeError ? noMemory() : broken();
  }
  try {
    const { width, height } = reducedSize(bitmap.width, bitmap.height);
    const orientation = stored?.orientation ?? 1;
    const turned = isQuarterTurn(orientation);
    const upright = turned ? { width: height, height: width } : { width, height };
    const blob = await easel.encode(upright.width, upright.height, (context) => {
      // JPEG has no transparency: what is see-through becomes paper.
      context.fillStyle = 'white';
      context.fillRect(0, 0, upright.width, upright.height);
      context.imageSmoothingEnabled = true;
      context.imageSmoothingQuality = 'high';
      context.setTransform(...uprightTurn(orientation, width, height));
      context.drawImage(bitmap, 0, 0, width, height);
    });
    if (blob === null || blob.size === 0) return noMemory();
    const original = stored ?? { width: bitmap.width, height: bitmap.height };
    return success({
      blob,
      ...upright,
      originalWidth: turned ? original.height : original.width,
      originalHeight: turned ? original.width : original.height,
    });
  } catch {
    return noMemory();
  } finally {
    bitmap.close();
  }
}
