import { coordinate, point, type Point } from './geometry';

/**
 * Hatching, the sign of "not sure". Drawn as lines cut to the outline rather than as a pattern fill: it needs
 * no id that could collide, it survives printing and forced colors, and it looks the same at every zoom.
 */

/**
 * Path of parallel hatch lines inside a closed outline of one or more rings (even-odd, so an inner ring is a
 * hole). `spacing` px between lines, `angle` of the lines in rad counter-clockwise from right. Lines lie on
 * multiples of the spacing from the page's origin, so neighbouring hatched areas match. Spacing must be
 * positive; an outline with fewer than three points gives an empty path.
 */
export function hatchPath(rings: readonly (readonly Point[])[], spacing = 5, angle = Math.PI / 4): string {
  const cos = Math.cos(angle);
  const sin = Math.sin(angle);
  // u runs along the hatch lines, v across them.
  const turned = rings
    .filter((ring) => ring.length > 2)
    .map((ring) => ring.map((p) => ({ u: p.x * cos - p.y * sin, v: p.x * sin + p.y * cos })));
  const across = turned.flatMap((ring) => ring.map((p) => p.v));
  if (across.length === 0) return '';
  const first = Math.ceil(Math.min(...across) / spacing);
  const last = Math.floor(Math.max(...across) / spacing);
  let path = '';
  for (let i = first; i <= last; i += 1) {
    const v = i * spacing;
    const cuts: number[] = [];
    for (const ring of turned) {
      ring.forEach((a, k) => {
        const b = ring[(k + 1) % ring.length] ?? a;
        // Half-open, so that a line through a corner is cut once, not twice.
        if (a.v <= v !== b.v <= v) cuts.push(a.u + ((v - a.v) / (b.v - a.v)) * (b.u - a.u));
      });
    }
    cuts.sort((a, b) => a - b);
    for (let k = 0; k + 1 < cuts.length; k += 2) {
      const from = back(cuts[k] ?? 0, v);
      const to = back(cuts[k + 1] ?? 0, v);
      path += `M${coordinate(from.x)} ${coordinate(from.y)}L${coordinate(to.x)} ${coordinate(to.y)}`;
    }
  }
  return path;

  function back(u: number, v: number): Point {
    return point(u * cos + v * sin, v * cos - u * sin);
  }
}

/** The corners of a rectangle with its upper left corner at (x, y), px. */
export const rectangle = (x: number, y: number, width: number, height: number): Point[] => [
  point(x, y),
  point(x + width, y),
  point(x + width, y + height),
  point(x, y + height),
];
