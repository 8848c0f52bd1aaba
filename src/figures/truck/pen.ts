/**
 * The pen the truck is drawn with: SVG text in truck millimeters, up positive (the view's placement turns it
 * over). Text rather than templates, because the drawing never changes once made: it is parsed once and then
 * only moved by the transforms around it.
 *
 * Fill classes t-… take their color from the --k-… tokens, outline classes o-… their width from figureStyles.
 */

export type Fill =
  | 'tire'
  | 'lug'
  | 'lug2'
  | 'side'
  | 'ring'
  | 'rim'
  | 'rimdark'
  | 'bolt'
  | 'dark'
  | 'metal'
  | 'body'
  | 'body2'
  | 'body3'
  | 'flare'
  | 'glass'
  | 'well'
  | 'lens'
  | 'lamp'
  | 'lamp2'
  | 'box'
  | 'rail'
  | 'bed'
  | 'shade'
  | 'none';
export type Outline = 'thick' | 'mid' | 'thin' | 'hair' | 'bare';
type Pair = readonly [number, number];
type Quad = readonly [number, number, number, number];

const n = (value: number): string => String(Math.round(value * 100) / 100 + 0);
const classes = (fill: Fill, outline: Outline): string =>
  outline === 'bare' ? `t-${fill}` : `t-${fill} o-${outline}`;

/** A path as SVG writes it, in mm. */
export const path = (d: string, fill: Fill, outline: Outline): string =>
  `<path class="${classes(fill, outline)}" d="${d}"/>`;

export const polygon = (corners: readonly Pair[], fill: Fill, outline: Outline): string =>
  path(ring(corners), fill, outline);

/** Several closed rings in one path. */
export const polygons = (rings: readonly (readonly Pair[])[], fill: Fill, outline: Outline): string =>
  path(rings.map(ring).join(''), fill, outline);

const ring = (corners: readonly Pair[]): string =>
  'M' + corners.map(([x, z]) => `${n(x)} ${n(z)}`).join('L') + 'Z';

export const line = (x1: number, z1: number, x2: number, z2: number, outline: Outline): string =>
  `<line class="o-${outline}" x1="${n(x1)}" y1="${n(z1)}" x2="${n(x2)}" y2="${n(z2)}"/>`;

/** Separate strokes in one path, as a pen shades a surface. */
export const strokes = (segments: readonly Quad[]): string =>
  `<path class="t-none o-hair t-stroke" d="${segments
    .map(([a, b, c, d]) => `M${n(a)} ${n(b)}L${n(c)} ${n(d)}`)
    .join('')}"/>`;

export const circle = (x: number, z: number, radius: number, fill: Fill, outline: Outline): string =>
  `<circle class="${classes(fill, outline)}" cx="${n(x)}" cy="${n(z)}" r="${n(radius)}"/>`;

/** Rectangle from its lower left corner. */
export const box = (
  x: number,
  z: number,
  width: number,
  height: number,
  fill: Fill,
  outline: Outline,
  corner = 0,
): string =>
  `<rect class="${classes(fill, outline)}" x="${n(x)}" y="${n(z)}" width="${n(width)}" height="${n(height)}"${
    corner ? ` rx="${n(corner)}"` : ''
  }/>`;

/** A round tube along a path: dark edge, gray middle, a light streak on its upper side. */
export const tube = (d: string, width: number): string =>
  `<path class="t-tube-edge" stroke-width="${n(width)}" d="${d}"/>` +
  `<path class="t-tube-middle" stroke-width="${n(width - 1.5)}" d="${d}"/>` +
  `<path class="t-tube-light" stroke-width="${n(width * 0.16)}" transform="translate(${n(-width * 0.02)} ${n(
    width * 0.19,
  )})" d="${d}"/>`;

export const bolts = (places: readonly Pair[], radius = 1.1): string =>
  places.map(([x, z]) => circle(x, z, radius, 'bolt', 'hair')).join('');

/** A suspension link between two joints. */
export function link(x1: number, z1: number, x2: number, z2: number, width = 6): string {
  const along = Math.atan2(z2 - z1, x2 - x1);
  const dx = (-Math.sin(along) * width) / 2;
  const dz = (Math.cos(along) * width) / 2;
  const ends: readonly Pair[] = [
    [x1, z1],
    [x2, z2],
  ];
  return (
    polygon(
      [
        [x1 + dx, z1 + dz],
        [x2 + dx, z2 + dz],
        [x2 - dx, z2 - dz],
        [x1 - dx, z1 - dz],
      ],
      'metal',
      'thin',
    ) +
    ends.map(([x, z]) => circle(x, z, width * 0.8, 'ring', 'thin')).join('') +
    ends.map(([x, z]) => circle(x, z, width * 0.35, 'dark', 'hair')).join('')
  );
}

/** A damper with its coil spring, from the lower to the upper eye. */
export function coilOver(x1: number, z1: number, x2: number, z2: number): string {
  const size = Math.hypot(x2 - x1, z2 - z1);
  const cos = (x2 - x1) / size;
  const sin = (z2 - z1) / size;
  const at = (u: number, v: number): Pair => [x1 + u * cos - v * sin, z1 + u * sin + v * cos];
  const bar = (u1: number, u2: number, half: number, fill: Fill): string =>
    polygon([at(u1, -half), at(u2, -half), at(u2, half), at(u1, half)], fill, 'thin');
  const turns = 8;
  const pitch = (size - 18) / turns;
  let spring = '';
  for (let i = 0; i < turns; i += 1) {
    const [ax, az] = at(9 + pitch * i, -6.4);
    const [bx, bz] = at(9 + pitch * (i + 0.62), 6.4);
    const ends = `x1="${n(ax)}" y1="${n(az)}" x2="${n(bx)}" y2="${n(bz)}"`;
    spring += `<line class="t-coil-edge" ${ends}/><line class="t-coil-middle" ${ends}/>`;
  }
  const eyes: readonly Pair[] = [
    [x1, z1],
    [x2, z2],
  ];
  return (
    bar(4, size * 0.55, 1.3, 'metal') +
    bar(size * 0.42, size - 4, 4.2, 'metal') +
    bar(5, 8, 6, 'dark') +
    spring +
    bar(size - 9, size - 5.5, 6, 'dark') +
    eyes.map(([x, z]) => circle(x, z, 4, 'metal', 'thin')).join('') +
    eyes.map(([x, z]) => circle(x, z, 1.5, 'dark', 'hair')).join('')
  );
}

/** What is seen through glass: drawn paler. */
export const inside = (content: string): string => `<g class="t-inside">${content}</g>`;

/** The content and its mirror image in the vertical axis x = 0. */
export const mirroredAcross = (content: string): string =>
  content + `<g transform="scale(-1 1)">${content}</g>`;

/** The content and its mirror image in the horizontal axis y = 0. */
export const mirroredUp = (content: string): string => content + `<g transform="scale(1 -1)">${content}</g>`;
