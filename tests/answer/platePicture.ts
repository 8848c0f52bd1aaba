import { crc32, deflateSync } from 'node:zlib';
import { CENTROID, CORNERS, pixelOf, type PlatePoint, type PlateShot } from './plateState';

/** The plate's photographs as PNG files, drawn from the same points: gray plate on white, black string, black corners. */

const WIDTH = 900;
const HEIGHT = 1200;
const OUTLINE: readonly PlatePoint[] = [
  { x: 0, y: 0 },
  { x: 200, y: 0 },
  { x: 200, y: 60 },
  { x: 60, y: 60 },
  { x: 60, y: 200 },
  { x: 0, y: 200 },
];

export function platePng(shot: PlateShot): Buffer {
  const outline = OUTLINE.map((p) => pixelOf(shot, p));
  const corners = Object.values(CORNERS).map((p) => pixelOf(shot, p));
  const hook = pixelOf(shot, shot.hook);
  const rows = Buffer.alloc(HEIGHT * (WIDTH + 1));
  for (let y = 0; y < HEIGHT; y++)
    for (let x = 0; x < WIDTH; x++) {
      const p = { x, y };
      const string = Math.abs(x - hook.x) < 1.2 && y < hook.y;
      const corner = corners.some((c) => Math.hypot(c.x - x, c.y - y) < 4);
      rows[y * (WIDTH + 1) + 1 + x] = string || corner ? 20 : isInside(outline, p) ? 170 : 236;
    }
  return png(rows);
}

/** Whether a point lies in a polygon: a ray to the right crosses its sides an odd number of times. */
function isInside(outline: readonly PlatePoint[], { x, y }: PlatePoint): boolean {
  let inside = false;
  outline.forEach((a, i) => {
    const b = outline[(i + 1) % outline.length] ?? a;
    if (a.y > y !== b.y > y && x < a.x + ((y - a.y) * (b.x - a.x)) / (b.y - a.y)) inside = !inside;
  });
  return inside;
}

/** An 8-bit gray picture from filtered rows (ISO/IEC 15948, chunks IHDR, IDAT, IEND). */
function png(rows: Buffer): Buffer {
  const header = Buffer.alloc(13);
  header.writeUInt32BE(WIDTH, 0);
  header.writeUInt32BE(HEIGHT, 4);
  header.writeUInt8(8, 8);
  const signature = Buffer.from([0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a]);
  return Buffer.concat([
    signature,
    chunk('IHDR', header),
    chunk('IDAT', deflateSync(rows)),
    chunk('IEND', Buffer.alloc(0)),
  ]);
}

function chunk(name: string, content: Buffer): Buffer {
  const body = Buffer.concat([Buffer.from(name, 'latin1'), content]);
  const length = Buffer.alloc(4);
  length.writeUInt32BE(content.length);
  const check = Buffer.alloc(4);
  check.writeUInt32BE(crc32(body));
  return Buffer.concat([length, body, check]);
}

/** Pixel of the centroid in a picture. */
export const centroidIn = (shot: PlateShot): PlatePoint => pixelOf(shot, CENTROID);
