import { bolts, box, circle, line, mirroredUp, path, tube } from './pen';

/**
 * The truck seen from above, forward to the right, left side up, in mm: 0 at the rear axle and the center
 * plane. Axles and tires lie under the body and are placed apart from it.
 */

/** One axle tube, its middle at the origin. */
export const TOP_AXLE = [box(-6, -72, 12, 144, 'metal', 'thin')].join('');

/** Over the tires: sliders, bumpers, flares, bed, hood, cab, rack. */
export const TOP_BODY = [
  // sliders
  mirroredUp(tube('M64 84 L76 97 L238 97 L250 84', 5.6)),
  // bumpers
  path('M380 -62 L396 -58 C406 -40 410 -20 410 0 C410 20 406 40 396 58 L380 62 Z', 'ring', 'mid'),
  path('M392 -40 L392 40', 'none', 'hair'),
  mirroredUp(circle(404, 34, 3.4, 'none', 'thin')),
  path('M-86 -72 L-104 -68 L-112 -50 L-112 50 L-104 68 L-86 72 Z', 'ring', 'mid'),
  mirroredUp(circle(-107, 52, 3.4, 'none', 'thin')),
  // flares
  mirroredUp(
    path(
      'M252 76 L262 103 C264 106 267 107 270 107 L352 107 C356 107 359 105 361 102 L374 78 Z',
      'flare',
      'thin',
    ) +
      path(
        'M-86 84 L-66 100 C-62 105 -58 107 -54 107 L46 107 C52 107 55 104 58 100 L70 84 Z',
        'flare',
        'thin',
      ) +
      bolts(
        [
          [284, 103],
          [312, 103],
          [340, 103],
          [-40, 103],
          [0, 103],
          [36, 103],
        ],
        1.1,
      ),
  ),
  // body outline
  path(
    'M-88 -84 C-88 -87 -86 -88 -83 -88 L92 -88 L96 -84 L243 -82 L376 -74 C381 -74 382 -72 382 -68 L382 68 C382 72 381 74 376 74 L243 82 L96 84 L92 88 L-83 88 C-86 88 -88 87 -88 84 Z',
    'body',
    'thick',
  ),
  // bed
  box(-80, -80, 166, 160, 'bed', 'thin', 2),
  ...[0, 1, 2, 3, 4, 5, 6, 7, 8].map((i) => line(-76, -64 + i * 16, 82, -64 + i * 16, 'hair')),
  mirroredUp(path('M-46 80 L-46 66 L44 66 L44 80', 'body2', 'thin')),
  box(-88, -80, 8, 160, 'body2', 'thin'),
  // hood
  path('M247 -72 L372 -64 L372 64 L247 72 Z', 'body3', 'thin'),
  path('M262 -40 L360 -34 M262 40 L360 34', 'none', 'thin'),
  path('M300 -18 L338 -16 L338 16 L300 18 Z', 'well', 'thin'),
  ...[1, 2, 3, 4].map((i) => line(300 + i * 7.6, -17, 300 + i * 7.6, 17, 'hair')),
  mirroredUp(box(376, 44, 6, 20, 'lens', 'thin', 2) + box(252, 62, 6, 6, 'ring', 'hair', 1)),
  box(376, -38, 6, 76, 'well', 'hair'),
  // windshield, side glass, rear glass, roof
  path('M243 -74 L213 -66 L213 66 L243 74 Z', 'glass', 'mid'),
  mirroredUp(path('M232 79 L210 69 L112 70 L100 80 Z', 'glass', 'thin')),
  path('M93 -74 L98 -66 L98 66 L93 74 Z', 'glass', 'thin'),
  path(
    'M213 -66 C214 -66 213 -68 208 -68 L112 -70 C102 -70 98 -68 98 -62 L98 62 C98 68 102 70 112 70 L208 68 C213 68 213 66 213 66 Z',
    'body',
    'mid',
  ),
  mirroredUp(path('M228 82 L232 93 L240 93 L239 82 Z', 'ring', 'thin')),
  path('M262 -80 L246 -79 L216 -67 L220 -63 L250 -75 L262 -75 Z', 'ring', 'thin'),
  // roll hoop and its diagonals
  tube('M84 -82 L84 82', 5.6),
  mirroredUp(tube('M82 66 L-58 82', 5)),
  box(-66, 78, 12, 8, 'ring', 'hair', 1),
  box(-66, -86, 12, 8, 'ring', 'hair', 1),
  // rack
  mirroredUp(tube('M94 64 L206 64', 4)),
  tube('M96 -64 L96 64', 3.6),
  tube('M206 -64 L206 64', 3.6),
  ...[1, 2, 3, 4, 5].map((i) => line(96 + i * 18.4, -62, 96 + i * 18.4, 62, 'thin')),
  box(208, -52, 7, 104, 'lens', 'thin', 2),
  ...[1, 2, 3, 4, 5, 6, 7].map((i) => line(208, -52 + i * 13, 215, -52 + i * 13, 'hair')),
].join('');

/** Roof load seen from above. */
export const TOP_LOAD = [
  box(104, -28, 62, 72, 'box', 'mid', 3),
  box(108, -24, 54, 64, 'none', 'hair', 2),
  box(127, 4, 16, 8, 'ring', 'thin', 2),
  box(171, -62, 20.8, 118, 'box', 'mid', 9),
  line(171, -30, 191.8, -30, 'thin'),
  line(171, 24, 191.8, 24, 'thin'),
].join('');
