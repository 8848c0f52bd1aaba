import type { Place } from './sightings';

/** Which way the string runs in a picture's view axes, and what lies square to it. */

/** How far the string leans toward the camera, rad: a sum of unknowns, each times its factor. */
export type Lean = readonly { readonly unknown: number; readonly factor: number }[];

/** The string's upward direction: at the angle in the view's plane that an unknown gives, leaning toward the camera. */
export function stringUp(angle: number, lean: Lean): Place {
  const read = (p: Float64Array) => {
    const by = lean.reduce((sum, { unknown, factor }) => sum + factor * (p[unknown] ?? 0), 0);
    return { cos: Math.cos(p[angle] ?? 0), sin: Math.sin(p[angle] ?? 0), by, norm: Math.hypot(1, by) };
  };
  return {
    depends: [angle, ...lean.map(({ unknown }) => unknown)],
    at: (p) => {
      const { cos, sin, by, norm } = read(p);
      return { a: cos / norm, b: sin / norm, c: by / norm };
    },
    slopes: (p) => {
      const { cos, sin, by, norm } = read(p);
      const cube = norm ** 3;
      return [
        { a: -sin / norm, b: cos / norm, c: 0 },
        ...lean.map(({ factor }) => ({
          a: (-cos * by * factor) / cube,
          b: (-sin * by * factor) / cube,
          c: factor / cube,
        })),
      ];
    },
  };
}

/** Square to the string in the view's plane. */
export const acrossString = (angle: number): Place => ({
  depends: [angle],
  at: (p) => ({ a: Math.sin(p[angle] ?? 0), b: -Math.cos(p[angle] ?? 0), c: 0 }),
  slopes: (p) => [{ a: Math.cos(p[angle] ?? 0), b: Math.sin(p[angle] ?? 0), c: 0 }],
});
