import { areaReduction } from './areaReduction';
import type { PictureKind } from './formats';
import { LONGEST_SIDE, type Progress } from './protocol';

/** Rows copied out of a decoded picture at once; even, as pictures with halved colors ask for. */
const BAND = 64;

interface Size {
  readonly width: number;
  readonly height: number;
}

/**
 * The size at which a JPEG is decoded: the smallest number of eighths that is still not below LONGEST_SIDE. Decoders give
 * such sizes from fewer terms of each block's cosine transform, which is a proper low-pass filter and needs the memory
 * of the small picture only; a part of a block at the edge counts as whole.
 */
export function jpegSize({ width, height }: Size): Size & { readonly eighths: number } {
  const eighths = Math.min(8, Math.ceil((8 * LONGEST_SIDE) / Math.max(width, height)));
  const scaled = (side: number): number => Math.ceil((side * eighths) / 8);
  return { eighths, width: scaled(width), height: scaled(height) };
}

/** What a see-through pixel looks like on white paper. */
function ontoPaper(rows: Uint8Array): void {
  for (let at = 3; at < rows.length; at += 4) {
    const alpha = rows[at] ?? 255;
    if (alpha === 255) continue;
    for (let n = at - 3; n < at; n++) rows[n] = Math.round(((rows[n] ?? 0) * alpha) / 255 + 255 - alpha);
  }
}

/**
 * A picture decoded and reduced to `kept` without ever being in memory twice: by WebCodecs' image decoder, out of which
 * it is copied in bands. Null where the browser has none or it does not manage this file; then it must be done by other
 * means, which also tell what is wrong with it.
 */
export async function decodeReduced(
  file: Blob,
  kind: PictureKind,
  stored: Size,
  kept: Size,
  progress: Progress,
): Promise<ImageBitmap | null> {
  if (typeof ImageDecoder === 'undefined') return null;
  const type = `image/${kind}`;
  let frame: VideoFrame | null = null;
  try {
    if (!(await ImageDecoder.isTypeSupported(type))) return null;
    const wanted = kind === 'jpeg' ? jpegSize(stored) : { ...stored, eighths: 8 };
    const decoder = new ImageDecoder({
      data: file.stream(),
      type,
      preferAnimation: false,
      ...(wanted.eighths < 8 ? { desiredWidth: wanted.width, desiredHeight: wanted.height } : {}),
    });
    try {
      frame = (await decoder.decode()).image;
    } finally {
      decoder.close();
    }
    progress('reducing');
    const { displayWidth: columns, displayHeight: lines } = frame;
    const scaled = columns === wanted.width && lines === wanted.height;
    const reduction = areaReduction({
      columns,
      across: scaled ? (stored.width * wanted.eighths) / 8 : columns,
      down: scaled ? (stored.height * wanted.eighths) / 8 : lines,
      ...kept,
    });
    if (!(await copyInBands(frame, reduction.take))) return null;
    frame.close();
    frame = null;
    return await createImageBitmap(new ImageData(reduction.pixels, kept.width, kept.height));
  } catch {
    return null;
  } finally {
    frame?.close();
  }
}

/** Gives all rows of a frame as red, green, blue; false where the browser cannot convert to that. */
async function copyInBands(
  frame: VideoFrame,
  take: (rows: Uint8Array, count: number) => void,
): Promise<boolean> {
  const { displayWidth: width, displayHeight: height } = frame;
  const { x = 0, y = 0 } = frame.visibleRect ?? {};
  const seeThrough = frame.format?.includes('A') === true;
  const band = new Uint8Array(width * BAND * 4);
  let converts = false;
  for (let top = 0; top < height; top += BAND) {
    const count = Math.min(BAND, height - top);
    await frame.copyTo(band, {
      rect: { x, y: y + top, width, height: count },
      layout: [{ offset: 0, stride: width * 4 }],
      colorSpace: 'srgb',
      // Browsers of before 2024 do not look for this option, and give colors in an order of their own.
      get format(): VideoPixelFormat {
        converts = true;
        return 'RGBA';
      },
    });
    if (!converts) return false;
    if (seeThrough) ontoPaper(band);
    take(band, count);
  }
  return true;
}
