import { transfer, wrap, type Remote } from 'comlink';
import { refusal, success, type Result } from '../../../physics';
import type { FoundRound, FoundString, MotionBlur } from '../../../photo/find';
import type { Place, Size } from '../surfaceView';
import { blurCrop, cropAround, fromCrop, ROUND_MARGINS, stringCrop, toCrop, type Crop } from './crop';
import type { EdgeReader } from './edgeReader';

/** A worker kept between questions, and let go when none came for this long. */
const IDLE_MS = 60_000;

interface Running {
  readonly worker: Worker;
  readonly reader: Remote<EdgeReader>;
  /** Rejects when the worker cannot be started at all. */
  readonly failed: Promise<never>;
}

let running: Running | null = null;
let idle: ReturnType<typeof setTimeout> | undefined;

function startWorker(): Running {
  const worker = new Worker(new URL('./edgeWorker.ts', import.meta.url), { type: 'module' });
  const failed = new Promise<never>((_resolve, reject) => {
    worker.addEventListener('error', (event) => reject(new Error(event.message)));
  });
  // Nobody may be waiting when it fails.
  failed.catch(() => undefined);
  return { worker, reader: wrap<EdgeReader>(worker), failed };
}

function stopWorker(): void {
  running?.worker.terminate();
  running = null;
}

/** Fetched only where no worker reads, since it weighs as much as a calculator. */
const readerOnPage = async (): Promise<EdgeReader> => (await import('./edgeReader')).edgeReader;

/** A picture to read: the decoded one, and the size its marks refer to. */
export interface Readable {
  readonly bitmap: ImageBitmap;
  readonly picture: Size;
}

/** The crop in the picture's own pixels, whatever the size of what is decoded. */
function cropOf({ bitmap, picture }: Readable, crop: Crop): Promise<ImageBitmap> {
  const [across, down] = [bitmap.width / picture.width, bitmap.height / picture.height];
  const { x, y, width, height } = crop;
  if (across === 1 && down === 1) return createImageBitmap(bitmap, x, y, width, height);
  return createImageBitmap(
    bitmap,
    Math.round(x * across),
    Math.round(y * down),
    Math.max(1, Math.round(width * across)),
    Math.max(1, Math.round(height * down)),
    { resizeWidth: width, resizeHeight: height, resizeQuality: 'high' },
  );
}

/**
 * Asks in a worker, so that marking goes on meanwhile; on the page where there is none to be had. Rejects where the
 * decoded picture was let go meanwhile.
 */
async function ask<Answer>(
  readable: Readable,
  crop: Crop,
  question: (reader: EdgeReader | Remote<EdgeReader>, pixels: ImageBitmap) => Promise<Answer>,
): Promise<Answer> {
  const pixels = await cropOf(readable, crop);
  if (typeof Worker === 'undefined') return question(await readerOnPage(), pixels);
  clearTimeout(idle);
  try {
    running ??= startWorker();
    return await Promise.race([question(running.reader, transfer(pixels, [pixels])), running.failed]);
  } catch {
    stopWorker();
  } finally {
    idle = setTimeout(stopWorker, IDLE_MS);
  }
  return question(await readerOnPage(), await cropOf(readable, crop));
}

/** The string along two marks, in the picture's pixels; a refusal says why it is not sure. */
export async function stringAt(readable: Readable, upper: Place, lower: Place): Promise<Result<FoundString>> {
  const crop = stringCrop(upper, lower, readable.picture);
  const found = await ask(readable, crop, (reader, pixels) =>
    reader.string(pixels, toCrop(upper, crop), toCrop(lower, crop)),
  );
  if (!found.ok) return found;
  const { value } = found;
  const { upper: above, lower: below } = value.onString;
  return success({
    ...value,
    upper: fromCrop(value.upper, crop),
    lower: fromCrop(value.lower, crop),
    onString: { ...value.onString, upper: fromCrop(above, crop), lower: fromCrop(below, crop) },
  });
}

/** The round under a mark, in the picture's pixels; a refusal says why it is not sure. */
export async function roundAt(readable: Readable, near: Place): Promise<Result<FoundRound>> {
  let refused: Result<FoundRound> | null = null;
  for (const [index, margin] of ROUND_MARGINS.entries()) {
    const crop = cropAround([near], margin, readable.picture);
    const found = await ask(readable, crop, (reader, pixels) =>
      reader.round(pixels, toCrop(near, crop), index > 0),
    );
    if (found.ok) return success({ ...found.value, center: fromCrop(found.value.center, crop) });
    // What the first crop says of the place itself is the better reason.
    refused ??= found;
  }
  return refused ?? NO_CROP;
}

const NO_CROP = refusal('no round', 'Round mark: needs a mark inside the picture. Put it on the round.');

/** How a picture is smeared around its marks; a refusal where they stand among too few edges. */
export const blurAround = (readable: Readable, marks: readonly Place[]): Promise<Result<MotionBlur>> =>
  ask(readable, blurCrop(marks, readable.picture), (reader, pixels) => reader.blur(pixels));
