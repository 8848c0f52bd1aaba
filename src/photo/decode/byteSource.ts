/** From byte `start` up to, not including, byte `end`. */
export interface ByteRange {
  readonly start: number;
  readonly end: number;
}

/** Bytes read piece by piece: a large file is never in memory as a whole only to be looked into. */
export interface ByteSource {
  readonly size: number;
  /** `length` bytes from `start`; null where the file does not have them all. */
  view(start: number, length: number): Promise<DataView | null>;
}

/** Read at once around what is asked for, since every read of a file costs time. */
const WINDOW = 262_144;

/** The bytes of a file. Rejects where the file cannot be read any more. */
export function byteSource(file: Blob): ByteSource {
  let from = 0;
  let held = new ArrayBuffer(0);
  return {
    size: file.size,
    async view(start, length) {
      if (start < 0 || length < 0 || start + length > file.size) return null;
      if (start < from || start + length > from + held.byteLength) {
        held = await file.slice(start, start + Math.max(WINDOW, length)).arrayBuffer();
        from = start;
      }
      return new DataView(held, start - from, length);
    },
  };
}

/** `length` bytes from `start` as ASCII letters; fewer where the bytes end before. */
export function asciiAt(bytes: DataView, start: number, length: number): string {
  let text = '';
  for (let at = start; at < Math.min(start + length, bytes.byteLength); at++)
    text += String.fromCharCode(bytes.getUint8(at));
  return text;
}
