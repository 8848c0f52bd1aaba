import { lieOf } from './ellipse';
import type { Ellipse } from './ellipse';
import type { Gray } from './gray';
import { NormalEquations } from './normalEquations';

const RINGS = 12;

/**
 * How uneven a round is inside, levels: standard deviation about what may be there, which is rings around its center (one
 * level each) and shading that grows evenly across. A slot, a cross or a letter shows; a ring and a slant of light do not.
 */
export function unevenness({ width, height, levels }: Gray, ellipse: Ellipse): number {
  const { x, y, a, b, d } = ellipse;
  const rings = Array.from({ length: RINGS }, (): { x: number; y: number; level: number }[] => []);
  const halfWidth = Math.hypot(a, b);
  const halfHeight = Math.hypot(b, d);
  for (let j = Math.max(0, Math.floor(y - halfHeight)); j < Math.min(height, y + halfHeight); j++)
    for (let i = Math.max(0, Math.floor(x - halfWidth)); i < Math.min(width, x + halfWidth); i++) {
      const { part, outside } = lieOf(ellipse, i + 0.5, j + 0.5);
      if (part > 0.9 || outside > -2) continue;
      rings[Math.floor((part / 0.9) * RINGS)]?.push({
        x: i + 0.5 - x,
        y: j + 0.5 - y,
        level: levels[j * width + i] ?? 0,
      });
    }
  const equations = new NormalEquations(2);
  const rest: { x: number; y: number; level: number }[] = [];
  for (const ring of rings) {
    if (ring.length < 3) continue;
    const mean = ring.reduce((sum, { level }) => sum + level, 0) / ring.length;
    for (const pixel of ring) {
      rest.push({ ...pixel, level: pixel.level - mean });
      equations.add([pixel.x, pixel.y], pixel.level - mean);
    }
  }
  const [right = 0, down = 0] = equations.solve()?.values ?? [];
  const squares = rest.reduce((sum, pixel) => sum + (pixel.level - right * pixel.x - down * pixel.y) ** 2, 0);
  return Math.sqrt(squares / Math.max(1, rest.length));
}
