import type { ByteRange } from './byteSource';

/** What a picture file says of itself, without decoding it. */
export interface StoredPicture {
  /** Pixels as stored. */
  readonly width: number;
  readonly height: number;
  /** EXIF orientation, 1 to 8: how the stored pixels are to be turned; 1 is upright. */
  readonly orientation: number;
  /** mm, 35 mm equivalent; null where it is not known. */
  readonly focalLength35: number | null;
  /** Where the file keeps its EXIF data, in whole segments or chunks. */
  readonly exif: readonly ByteRange[];
  /** Bytes that, set to zero, unsay a turn which decoders would carry out (AVIF). */
  readonly turns: readonly ByteRange[];
}
