import type { Result } from '../../physics/index';

/** A picture as it is kept: upright, at most LONGEST_SIDE pixels long, JPEG. Marks refer to its pixels. */
export interface KeptPicture {
  readonly blob: Blob;
  readonly width: number;
  readonly height: number;
  /** Upright pixels of the file it came from; larger where it was reduced. */
  readonly originalWidth: number;
  readonly originalHeight: number;
}

export type PictureReason = 'not-a-picture' | 'too-big' | 'too-small' | 'broken' | 'no-memory' | 'stopped';

/** What the worker does: both sides import this. */
export interface Decoder {
  decode(file: Blob): Promise<Result<KeptPicture, PictureReason>>;
}

/** About 0.15 mm a pixel on a truck that fills the picture: finer than any mark can be set. */
export const LONGEST_SIDE = 4000;
/** Less than this and a mark is worth more than a millimeter. */
export const SHORTEST_LONG_SIDE = 300;
/** The largest phone sensors have 200 million pixels; decoding more fails on most phones. */
export const MOST_PIXELS = 210_000_000;
export const MOST_BYTES = 150_000_000;
export const JPEG_QUALITY = 0.92;
