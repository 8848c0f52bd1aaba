import { box, circle, coilOver, inside, line, mirroredAcross, path, strokes, tube } from './pen';

/**
 * The truck seen from behind, its left side on the left, in mm: 0 at the center plane, ground at 0, tire
 * centers at -93 and 93. In layers, because the tires stand between axle and body.
 */

/** Between the tires: axle, frame ends, dampers. */
export const REAR_RUNNING_GEAR = [
  // axle tube and differential
  path('M-72 60 L-24 62 L24 62 L72 60 L72 50 L24 48 L-24 48 L-72 50 Z', 'metal', 'mid'),
  circle(14, 56, 19, 'metal', 'mid'),
  circle(14, 56, 14.4, 'ring', 'thin'),
  ...Array.from({ length: 8 }, (_, i) => {
    const a = (i * Math.PI) / 4 + 0.2;
    return circle(14 + 16.7 * Math.cos(a), 56 + 16.7 * Math.sin(a), 1.2, 'bolt', 'hair');
  }),
  strokes([
    [6, 52, 20, 64],
    [10, 50, 24, 62],
  ]),
  // frame rail ends, cross member, skid plate
  box(-40, 96, 80, 12, 'rail', 'mid'),
  box(-40, 96, 9, 12, 'ring', 'thin'),
  box(31, 96, 9, 12, 'ring', 'thin'),
  path('M-30 96 L-26 72 L26 72 L30 96 Z', 'ring', 'thin'),
  mirroredAcross(
    path('M46 50 L34 70', 'none', 'thin') +
      coilOver(52, 62, 46, 140) +
      box(38, 50, 12, 10, 'ring', 'thin', 1),
  ),
].join('');

/** Over the tires: tailgate, flares, bumper, cab, hoop, rack. */
export const REAR_BODY = [
  // bed and tailgate
  path('M-84 174 L84 174 L88 168 L86 124 L80 118 L-80 118 L-86 124 L-88 168 Z', 'body', 'thick'),
  path('M-84 174 L84 174 L88 168 L88 165 L-88 165 L-88 168 Z', 'body2', 'thin'),
  path('M-66 160 L66 160 L66 126 L-66 126 Z', 'none', 'thin'),
  path('M-60 156 L60 156 L60 130 L-60 130 Z', 'none', 'hair'),
  box(-13, 151, 26, 4.4, 'ring', 'thin', 2),
  box(-16, 133, 32, 12, 'lens', 'thin', 1),
  mirroredAcross(box(70, 132, 11, 24, 'lamp', 'thin', 1.6) + line(70, 144, 81, 144, 'hair')),
  // flares
  mirroredAcross(
    path('M86 121 L101 124 L106 130 L106 148 L100 155 L87.5 156 Z', 'flare', 'mid') +
      path('M87 149 L105.6 146', 'none', 'hair') +
      path('M86.6 128 L104.6 129', 'none', 'hair') +
      circle(97, 151.4, 1.1, 'bolt', 'hair'),
  ),
  // bumper
  path('M-72 116 L72 116 L78 108 L72 96 L-72 96 L-78 108 Z', 'ring', 'mid'),
  line(-76, 111, 76, 111, 'hair'),
  mirroredAcross(circle(52, 105, 4.6, 'none', 'mid') + circle(52, 105, 2.2, 'none', 'thin')),
  box(-8, 99, 16, 10, 'dark', 'thin', 1),
  // cab
  path(
    'M-82 176 L-80 184 L-70 226 C-69 231 -66 234 -60 234.4 L60 234.4 C66 234 69 231 70 226 L80 184 L82 176 Z',
    'body',
    'mid',
  ),
  path(
    'M-70 184 L-62 222 C-61.4 225 -60 226.6 -57 226.8 L57 226.8 C60 226.6 61.4 225 62 222 L70 184 Z',
    'glass',
    'mid',
  ),
  inside(
    mirroredAcross(
      path(
        'M18 184 L20 206 C20 209 22 211 25 211 L43 211 C46 211 48 209 48 206 L50 184 M26 211 L27 219 C27 221 28 222 30 222 L38 222 C40 222 41 221 41 219 L42 211',
        'none',
        'thin',
      ),
    ),
  ),
  strokes([
    [-50, 220, -36, 190],
    [-45, 221, -31, 191],
  ]),
  mirroredAcross(path('M80 188 L93 191 L93 202 L82 202 Z', 'ring', 'thin')),
  // roll hoop
  tube('M-80 172 L-68 228 C-66 235 -62 238 -56 238 L56 238 C62 238 66 235 68 228 L80 172', 6),
  tube('M-72 205 L72 205', 4),
  // rack
  tube('M-62 242 L62 242', 4),
  tube('M-66 252 L-64 242 M66 252 L64 242', 3),
  tube('M-66 252 L66 252', 3.2),
].join('');

/** Roof load seen from behind. */
export const REAR_LOAD = [
  box(-56, 246, 118, 20.4, 'box', 'mid', 9),
  line(44, 246.4, 44, 266, 'thin'),
  box(-44, 245, 72, 24, 'box', 'mid', 2.4),
  line(-44, 263.5, 28, 263.5, 'thin'),
  ...[0, 1, 2, 3, 4, 5].map((i) => line(-36 + i * 11.4, 247, -36 + i * 11.4, 258, 'hair')),
  box(-32, 259, 7, 7, 'ring', 'hair', 1),
  box(9, 259, 7, 7, 'ring', 'hair', 1),
].join('');
