import type { Result } from '../../physics/index';

/** A picture as it is kept: upright, at most LONGEST_SIDE pixels long, JPEG. Marks refer to its pixels. */
export interface KeptPicture {
  readonly blob: Blob;
  readonly width: number;
  readonly height: number;
  /** Upright pixels of the file it came from; larger where it was reduced. */
  readonly originalWidth: number;
  readonly originalHeight: number;
  /** mm, 35 mm equivalent, as the camera wrote it; null where it is not known. focalPixels() makes pixels of it. */
  readonly focalLength35: number | null;
}

export type PictureReason =
  'not-a-picture' | 'too-big' | 'too-small' | 'broken' | 'no-memory' | 'not-in-this-browser' | 'stopped';

/** What is being done with a picture, in this order: the file is looked into, decoded, made smaller, and written as JPEG. */
export const STAGES = ['reading', 'decoding', 'reducing', 'keeping'] as const;
export type Stage = (typeof STAGES)[number];

/** Is told each stage as it begins. A picture that is small enough has no 'reducing'. */
export type Progress = (stage: Stage) => void;

/** What the worker does: both sides import this. */
export interface Decoder {
  decode(file: Blob, progress: Progress): Promise<Result<KeptPicture, PictureReason>>;
}

/** About 0.15 mm a pixel on a truck that fills the picture: finer than any mark can be set. */
export const LONGEST_SIDE = 4000;
/** Less than this and a mark is worth more than a millimeter. */
export const SHORTEST_LONG_SIDE = 300;
/**
 * The largest phone sensors have 200 million pixels. Only JPEG can be decoded at a fraction of its size; everything else
 * takes four bytes a pixel, for which phones have no room.
 */
export const MOST_PIXELS = { jpeg: 210_000_000, other: 64_000_000 } as const;
export const MOST_BYTES = 150_000_000;
export const JPEG_QUALITY = 0.92;
