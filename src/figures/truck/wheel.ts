import { box, circle, line, path, polygon, polygons } from './pen';

/** Drawn sizes of the wheel, mm: hub above ground under load, and section width. */
export const DRAWN_HUB_HEIGHT = 55;
export const DRAWN_TIRE_WIDTH = 44;

const TREAD_RADIUS = 57;
const LUGS = 30;
type Pair = readonly [number, number];

const around = (radius: number, turn: number): Pair => [radius * Math.cos(turn), radius * Math.sin(turn)];
/** The tire stands flat: nothing of it reaches below the ground. */
const flattened = ([x, z]: Pair): Pair => [x, Math.max(z, -DRAWN_HUB_HEIGHT)];

/** A wheel seen from its side, hub at the origin, ground at z = -55 mm. `turned` is a share of one lug pitch. */
export function sideWheel(turned: number): string {
  const pitch = (2 * Math.PI) / LUGS;
  const treadLugs: Pair[][] = [];
  const shoulderLugs: Pair[][] = [];
  for (let i = 0; i < LUGS; i += 1) {
    const a = pitch * (i + turned);
    const wide = pitch * 0.33;
    const narrow = pitch * 0.27;
    const sweep = pitch * 0.16;
    treadLugs.push(
      [
        around(TREAD_RADIUS, a - narrow),
        around(TREAD_RADIUS, a + narrow),
        around(TREAD_RADIUS - 5.2, a + wide),
        around(TREAD_RADIUS - 5.2, a - wide),
      ].map(flattened),
    );
    // Shoulder lugs alternate long and short and lean a little.
    const inner = i % 2 ? 41.5 : 46.2;
    shoulderLugs.push(
      [
        around(TREAD_RADIUS - 4.6, a - wide),
        around(TREAD_RADIUS - 4.6, a + wide),
        around(inner + 1.6, a + wide * 0.92 + sweep),
        around(inner, a + wide * 0.4 + sweep),
        around(inner + 1.6, a - wide * 0.9 + sweep),
      ].map(flattened),
    );
  }
  const ribs = Array.from({ length: 60 }, (_, i) => {
    const turn = (2 * Math.PI * i) / 60;
    const [x1, z1] = around(33.2, turn);
    const [x2, z2] = around(35.6, turn);
    return `M${x1.toFixed(1)} ${z1.toFixed(1)}L${x2.toFixed(1)} ${z2.toFixed(1)}`;
  }).join('');
  const ringBolts = Array.from({ length: 16 }, (_, i) => {
    const [x, z] = around(27.6, (2 * Math.PI * (i + 0.5)) / 16);
    return circle(x, z, 1.55, 'bolt', 'hair');
  }).join('');
  const hexagon = Array.from({ length: 6 }, (_, i) => around(4.3, (Math.PI * i) / 3 + turned));
  return (
    circle(0, 0, 52.6, 'tire', 'mid') +
    polygons(treadLugs, 'lug', 'thin') +
    polygons(shoulderLugs, 'lug2', 'hair') +
    circle(0, 0, 39.6, 'side', 'hair') +
    circle(0, 0, 37.6, 'none', 'hair') +
    path(ribs, 'none', 'hair') +
    line(-14, -DRAWN_HUB_HEIGHT, 14, -DRAWN_HUB_HEIGHT, 'mid') +
    circle(0, 0, 31, 'ring', 'mid') +
    circle(0, 0, 24.2, 'rim', 'thin') +
    circle(0, 0, 22.8, 'rimdark', 'thin') +
    ringBolts +
    spokes(turned) +
    circle(0, 0, 10, 'rim', 'thin') +
    circle(0, 0, 7.6, 'ring', 'thin') +
    polygon(hexagon, 'bolt', 'thin') +
    circle(0, 0, 1.9, 'dark', 'hair')
  );
}

function spokes(turned: number): string {
  const count = 6;
  const half = 0.27;
  let drawn = '';
  for (let i = 0; i < count; i += 1) {
    const a = (2 * Math.PI * (i + 0.25 + turned * 0.3)) / count;
    drawn += polygon(
      [
        around(22.6, a - half),
        around(22.6, a + half),
        around(9.4, a + half * 1.15),
        around(9.4, a - half * 1.15),
      ],
      'rim',
      'thin',
    );
    drawn += polygon(
      [around(20.4, a - 0.045), around(20.4, a + 0.045), around(11.5, a + 0.09), around(11.5, a - 0.09)],
      'shade',
      'bare',
    );
  }
  return drawn;
}

/** A tire seen along its rolling direction: center at x = 0, ground at z = 0, 44 mm wide, 112 mm high. */
export function endTire(): string {
  let drawn = path(
    'M-21 10C-21 4 -19 0 -14 0L14 0C19 0 21 4 21.6 10C23 36 23 76 21.6 102C21 108 19 112 14 112' +
      'L-14 112C-19 112 -21 108 -21 102C-22.4 76 -22.4 36 -21 10Z',
    'tire',
    'mid',
  );
  for (let i = 0; i < 9; i += 1) {
    const z = 4 + i * 12.2;
    drawn += polygon(
      [
        [-20, z + 1],
        [-9, z + 2.6],
        [-3, z + 6.4],
        [-4.4, z + 8.8],
        [-10, z + 7.4],
        [-20, z + 6.6],
      ],
      'lug',
      'hair',
    );
    drawn += polygon(
      [
        [21, z + 5],
        [10, z + 6.4],
        [4, z + 2.4],
        [5.4, z],
        [11, z + 1],
        [21, z],
      ],
      'lug',
      'hair',
    );
    if (i < 8)
      drawn += polygon(
        [
          [-2, z + 9],
          [4, z + 7.6],
          [5, z + 11],
          [-1, z + 12.4],
        ],
        'lug2',
        'hair',
      );
  }
  return drawn;
}

/** A tire seen from above, center at the origin: 114 mm along x, 44 mm along y, outer side up. */
export function topTire(): string {
  let drawn = box(-57, -22, 114, 44, 'tire', 'mid', 6);
  for (let i = 0; i < 9; i += 1) {
    const x = -54 + i * 12.4;
    drawn += polygon(
      [
        [x, -20],
        [x + 6, -20],
        [x + 7.4, -10],
        [x + 9.4, -5],
        [x + 6.4, -3],
        [x + 1.6, -9],
      ],
      'lug',
      'hair',
    );
    drawn += polygon(
      [
        [x + 2, 20],
        [x + 8, 20],
        [x + 6, 10],
        [x + 2.4, 4],
        [x, 6],
        [x + 2.4, 11],
      ],
      'lug',
      'hair',
    );
    if (i < 8)
      drawn += polygon(
        [
          [x + 9, -2],
          [x + 12, -0.4],
          [x + 11, 5],
          [x + 7.6, 3.4],
        ],
        'lug2',
        'hair',
      );
  }
  return drawn;
}
