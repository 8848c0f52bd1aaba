import { refusal, success, type Refusal, type Result } from '../../physics/index';
import { fileKind, HEAD_BYTES, isPicture, kindRefusal } from './formats';
import { storedSize } from './pictureSize';
import {
  JPEG_QUALITY,
  LONGEST_SIDE,
  MOST_BYTES,
  MOST_PIXELS,
  SHORTEST_LONG_SIDE,
  type KeptPicture,
  type PictureReason,
} from './protocol';

/** Where a picture is drawn and encoded: an OffscreenCanvas in the worker, a canvas element in a page without one. */
export interface Easel {
  encode(width: number, height: number, draw: (context: DrawingContext) => void): Promise<Blob | null>;
}

/** The part that both kinds of canvas share. */
export type DrawingContext = Pick<
  CanvasRenderingContext2D,
  'fillStyle' | 'fillRect' | 'drawImage' | 'imageSmoothingEnabled' | 'imageSmoothingQuality'
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

/** What can be known from the bytes alone: kind and size. Gives the stored size, or null where only decoding tells. */
async function inspected(file: Blob): Promise<Result<ReturnType<typeof storedSize>, PictureReason>> {
  const kind = fileKind(new Uint8Array(await file.slice(0, HEAD_BYTES).arrayBuffer()));
  if (!isPicture(kind)) return refusal('not-a-picture', kindRefusal(kind));
  if (file.size > MOST_BYTES)
    return refusal(
      'too-big',
      `Picture: needs at most ${MOST_BYTES / 1e6} MB; this file has ${Math.round(file.size / 1e6)} MB. Save it as JPEG first.`,
    );
  const size = storedSize(kind, new Uint8Array(await file.arrayBuffer()));
  if (size === null) return success(null);
  const { width, height } = size;
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
  return success(size);
}

/**
 * A file as a picture to keep: recognized by its bytes, decoded, turned upright by its EXIF orientation, its long
 * side reduced to LONGEST_SIDE, encoded as JPEG. What else the file held (place, camera) is left behind.
 */
export async function reducePicture(file: Blob, easel: Easel): Promise<Result<KeptPicture, PictureReason>> {
  let inspection: Awaited<ReturnType<typeof inspected>>;
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
  const stored = inspection.value;
  const options: ImageBitmapOptions = { imageOrientation: 'from-image', resizeQuality: 'high' };
  const uprightWidth = stored && (stored.quarterTurn ? stored.height : stored.width);
  const uprightHeight = stored && (stored.quarterTurn ? stored.width : stored.height);
  if (uprightWidth !== null && uprightHeight !== null) {
    // Decoding straight to the kept size needs far less memory than 48 million pixels at full size.
    const scale = Math.min(1, LONGEST_SIDE / Math.max(uprightWidth, uprightHeight));
    if (scale < 1) options.resizeWidth = Math.max(1, Math.round(uprightWidth * scale));
  }
  let bitmap: ImageBitmap;
  try {
    bitmap = await createImageBitmap(file, options);
  } catch (error) {
    return error instanceof RangeError ? noMemory() : broken();
  }
  try {
    const scale = Math.min(1, LONGEST_SIDE / Math.max(bitmap.width, bitmap.height));
    const width = Math.max(1, Math.round(bitmap.width * scale));
    const height = Math.max(1, Math.round(bitmap.height * scale));
    const blob = await easel.encode(width, height, (context) => {
      // JPEG has no transparency: what is see-through becomes paper.
      context.fillStyle = 'white';
      context.fillRect(0, 0, width, height);
      context.imageSmoothingEnabled = true;
      context.imageSmoothingQuality = 'high';
      context.drawImage(bitmap, 0, 0, width, height);
    });
    if (blob === null || blob.size === 0) return noMemory();
    return success({
      blob,
      width,
      height,
      originalWidth: uprightWidth ?? bitmap.width,
      originalHeight: uprightHeight ?? bitmap.height,
    });
  } catch {
    return noMemory();
  } finally {
    bitmap.close();
  }
}
