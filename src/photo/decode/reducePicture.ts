import { success, type Result } from '../../physics/index';
import { decodeReduced } from './decodeReduced';
import { inspectPicture, type Inspected } from './inspectPicture';
import { JPEG_QUALITY, LONGEST_SIDE, type KeptPicture, type PictureReason, type Progress } from './protocol';
import { readsAvif } from './readsAvif';
import { broken, noAvif, noMemory, unreadable } from './refusals';
import { isQuarterTurn, uprightTurn } from './turn';

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

/** At most LONGEST_SIDE pixels long, in whole pixels. */
function reducedSize(width: number, height: number): { readonly width: number; readonly height: number } {
  const scale = Math.min(1, LONGEST_SIDE / Math.max(width, height));
  return { width: Math.max(1, Math.round(width * scale)), height: Math.max(1, Math.round(height * scale)) };
}

/** The pixels of a file, as it stores them, at the size in which they are kept; rejects where they cannot be had. */
async function bitmapOf({ kind, file, stored }: Inspected, progress: Progress): Promise<ImageBitmap> {
  const options: ImageBitmapOptions = { resizeQuality: 'high' };
  if (stored !== null && Math.max(stored.width, stored.height) > LONGEST_SIDE) {
    const kept = reducedSize(stored.width, stored.height);
    const reduced = await decodeReduced(file, kind, stored, kept, progress);
    if (reduced) return reduced;
    // Both, so that no browser rounds the other side differently.
    options.resizeWidth = kept.width;
    options.resizeHeight = kept.height;
  }
  return createImageBitmap(file, options);
}

/**
 * A file as a picture to keep: recognized by its bytes, decoded, turned upright, its long side reduced to LONGEST_SIDE,
 * encoded as JPEG. Of what else the file held only the focal length is handed on; place and camera are left behind.
 */
export async function reducePicture(
  file: Blob,
  easel: Easel,
  progress: Progress,
): Promise<Result<KeptPicture, PictureReason>> {
  progress('reading');
  let inspection: Result<Inspected, PictureReason>;
  try {
    inspection = await inspectPicture(file);
  } catch {
    return unreadable();
  }
  if (!inspection.ok) return inspection;
  const { kind, stored } = inspection.value;
  progress('decoding');
  let bitmap: ImageBitmap;
  try {
    bitmap = await bitmapOf(inspection.value, progress);
  } catch (error) {
    if (error instanceof RangeError) return noMemory();
    return kind === 'avif' && !(await readsAvif()) ? noAvif() : broken();
  }
  progress('keeping');
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
      focalLength35: stored?.focalLength35 ?? null,
    });
  } catch {
    return noMemory();
  } finally {
    bitmap.close();
  }
}
