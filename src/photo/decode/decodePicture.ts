import { proxy, wrap, type Remote } from 'comlink';
import type { Result } from '../../physics/index';
import {
  JPEG_QUALITY,
  type Decoder,
  type KeptPicture,
  type PictureReason,
  type Progress,
  type Stage,
} from './protocol';
import { reducePicture, type Easel } from './reducePicture';
import { stopped } from './refusals';

export type { KeptPicture, PictureReason } from './protocol';

/** A worker kept between pictures, and let go when none came for this long. */
const IDLE_MS = 30_000;

interface Running {
  readonly worker: Worker;
  readonly decoder: Remote<Decoder>;
  /** Rejects when the worker cannot be started at all. */
  readonly failed: Promise<never>;
}

let running: Running | null = null;
let idle: ReturnType<typeof setTimeout> | undefined;
let queue: Promise<unknown> = Promise.resolve();

function startWorker(): Running {
  const worker = new Worker(new URL('./decodeWorker.ts', import.meta.url), { type: 'module' });
  const failed = new Promise<never>((_resolve, reject) => {
    worker.addEventListener('error', (event) => reject(new Error(event.message)));
  });
  return { worker, decoder: wrap<Decoder>(worker), failed };
}

function stopWorker(): void {
  running?.worker.terminate();
  running = null;
}

const pageEasel: Easel = {
  async encode(width, height, draw) {
    const canvas = document.createElement('canvas');
    canvas.width = width;
    canvas.height = height;
    const context = canvas.getContext('2d', { alpha: false });
    if (!context) return null;
    draw(context);
    return new Promise((done) => canvas.toBlob(done, 'image/jpeg', JPEG_QUALITY));
  },
};

export interface DecodeOptions {
  /** Stops the decoding; the picture is then refused as 'stopped'. */
  readonly signal?: AbortSignal;
  /** Is told each stage as it begins. */
  readonly progress?: Progress;
}

const STOPPED = stopped();

async function decodeNow(
  file: Blob,
  { signal, progress = () => undefined }: DecodeOptions,
): Promise<Result<KeptPicture, PictureReason>> {
  if (signal?.aborted === true) return STOPPED;
  if (typeof Worker === 'undefined' || typeof OffscreenCanvas === 'undefined')
    return reducePicture(file, pageEasel, progress);
  clearTimeout(idle);
  let forget = (): void => undefined;
  let over = false;
  try {
    running ??= startWorker();
    const aborted = new Promise<typeof STOPPED>((resolve) => {
      const stop = (): void => resolve(STOPPED);
      signal?.addEventListener('abort', stop, { once: true });
      forget = () => signal?.removeEventListener('abort', stop);
    });
    // It comes on a channel of its own, and may come after the result, or after the stop.
    const told = proxy((stage: Stage) => {
      if (!over && signal?.aborted !== true) progress(stage);
    });
    const result = await Promise.race([running.decoder.decode(file, told), running.failed, aborted]);
    // A decode under way cannot be called back, only ended together with its worker.
    if (result === STOPPED) stopWorker();
    else idle = setTimeout(stopWorker, IDLE_MS);
    return result;
  } catch {
    // No worker to be had (an old browser, a file opened from disk): slower on the page, but the same.
    stopWorker();
    return reducePicture(file, pageEasel, progress);
  } finally {
    over = true;
    forget();
  }
}

/**
 * A file the reader chose, photographed or dropped, as the picture to keep; or why not, in words. One at a time,
 * in the order asked for, so that several large pictures do not need memory at once.
 */
export function decodePicture(
  file: Blob,
  options: DecodeOptions = {},
): Promise<Result<KeptPicture, PictureReason>> {
  const result = queue.then(() => decodeNow(file, options));
  // reducePicture() answers for what can go wrong; whatever else does must not stop those that wait.
  queue = result.catch(() => undefined);
  return result;
}
