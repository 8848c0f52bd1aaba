export interface ImageSize {
  readonly width: number;
  readonly height: number;
}

/**
 * Pixel size from the head of a PNG, JPEG, WebP or SVG file, as stored (EXIF orientation not applied); null when the
 * bytes are none of these.
 */
export function imageSize(bytes: Uint8Array): ImageSize | null {
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
  const ascii = (start: number, end: number): string => String.fromCharCode(...bytes.subarray(start, end));
  if (ascii(1, 4) === 'PNG') return { width: view.getUint32(16), height: view.getUint32(20) };
  if (bytes[0] === 0xff && bytes[1] === 0xd8) return jpegSize(view);
  if (ascii(0, 4) === 'RIFF' && ascii(8, 12) === 'WEBP') return webpSize(view, ascii(12, 16));
  return svgSize(new TextDecoder().decode(bytes.subarray(0, 2000)));
}

/** Walks the segments to the first start-of-frame (ITU T.81, B.2.2). */
function jpegSize(view: DataView): ImageSize | null {
  let at = 2;
  while (at + 9 < view.byteLength && view.getUint8(at) === 0xff) {
    const marker = view.getUint8(at + 1);
    const startOfFrame = marker >= 0xc0 && marker <= 0xcf && ![0xc4, 0xc8, 0xcc].includes(marker);
    if (startOfFrame) return { width: view.getUint16(at + 7), height: view.getUint16(at + 5) };
    at += 2 + view.getUint16(at + 2);
  }
  return null;
}

/** The three kinds of WebP bitstream (RFC 9649, 2.5 to 2.7). */
function webpSize(view: DataView, kind: string): ImageSize | null {
  if (kind === 'VP8 ')
    return { width: view.getUint16(26, true) & 0x3fff, height: view.getUint16(28, true) & 0x3fff };
  if (kind === 'VP8L') {
    const bits = view.getUint32(21, true);
    return { width: (bits & 0x3fff) + 1, height: ((bits >> 14) & 0x3fff) + 1 };
  }
  if (kind !== 'VP8X') return null;
  const uint24 = (at: number): number => view.getUint16(at, true) | (view.getUint8(at + 2) << 16);
  return { width: uint24(24) + 1, height: uint24(27) + 1 };
}

function svgSize(text: string): ImageSize | null {
  const box = /<svg[^>]*\sviewBox="[\d.-]+[ ,]+[\d.-]+[ ,]+([\d.]+)[ ,]+([\d.]+)"/.exec(text);
  return box ? { width: Number(box[1]), height: Number(box[2]) } : null;
}
