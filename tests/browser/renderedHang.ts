import type { Page } from 'playwright-core';
import type { At } from './photographsPage';

/** A hanging truck drawn by the browser's own canvas: where string and stickers are is known, not found. */
export interface RenderedHang {
  readonly width: number;
  readonly height: number;
  /** The string's middle line, from the upper edge of the picture to the hook; null draws none. */
  readonly string: { readonly upper: At; readonly lower: At; readonly width: number } | null;
  /** Centers of stickers: a black round on a white one. */
  readonly stickers: readonly At[];
  /** How far the picture moved sideways while it was taken: an even number of pixels, 0 where left out. */
  readonly smear?: number;
}

/** The picture as a JPEG file. */
export async function renderHang(page: Page, hang: RenderedHang): Promise<Buffer> {
  const address = await page.evaluate(({ width, height, string, stickers, smear = 0 }) => {
    const canvas = document.createElement('canvas');
    canvas.width = width;
    canvas.height = height;
    const pen = canvas.getContext('2d');
    if (!pen) throw new Error('No canvas.');
    const wall = pen.createLinearGradient(0, 0, width, height);
    wall.addColorStop(0, '#d8d4c8');
    wall.addColorStop(1, '#b5b0a2');
    pen.fillStyle = wall;
    pen.fillRect(0, 0, width, height);
    // Body and wheels, hanging nose down.
    pen.save();
    pen.translate(width / 2, height * 0.68);
    pen.rotate(0.6);
    pen.fillStyle = '#8a5a3c';
    pen.fillRect(-330, -120, 660, 190);
    pen.fillStyle = '#2c2c2e';
    for (const x of [-220, 220]) {
      pen.beginPath();
      pen.arc(x, 110, 95, 0, 7);
      pen.fill();
    }
    pen.restore();
    for (const { x, y } of stickers)
      for (const [color, radius] of [
        ['#f4f4f0', 15],
        ['#141414', 9],
      ] as const) {
        pen.fillStyle = color;
        pen.beginPath();
        pen.arc(x, y, radius, 0, 7);
        pen.fill();
      }
    if (string) {
      pen.strokeStyle = '#3a3a3a';
      pen.lineWidth = string.width;
      pen.beginPath();
      pen.moveTo(string.upper.x, string.upper.y);
      pen.lineTo(string.lower.x, string.lower.y);
      pen.stroke();
    }
    const shot = pen.getImageData(0, 0, width, height);
    if (smear > 0) {
      // The mean over the way, an even number of pixels: its ends count half.
      const still = shot.data.slice();
      for (let i = 0; i < still.length; i++) {
        const column = Math.floor(i / 4) % width;
        let sum = 0;
        for (let step = -smear / 2; step <= smear / 2; step++) {
          const from = Math.min(width - 1, Math.max(0, column + step));
          const weight = Math.abs(step) === smear / 2 ? 0.5 : 1;
          sum += weight * (still[i + 4 * (from - column)] ?? 0);
        }
        shot.data[i] = sum / smear;
      }
    }
    // A sensor's noise, the same every time.
    let random = 1;
    for (let i = 0; i < shot.data.length; i++) {
      random = (random * 48271) % 2147483647;
      if (i % 4 < 3) shot.data[i] = (shot.data[i] ?? 0) + (random / 2147483647 - 0.5) * 10;
    }
    pen.putImageData(shot, 0, 0);
    return canvas.toDataURL('image/jpeg', 0.92);
  }, hang);
  return Buffer.from(address.slice(address.indexOf(',') + 1), 'base64');
}
