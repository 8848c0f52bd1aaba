import { bolts, box, circle, coilOver, inside, line, link, path, strokes, tube } from './pen';

/**
 * The truck seen from its right side, forward to the right, in mm: x = 0 at the rear hub, 313 at the front
 * hub, ground at 0. In layers, because the wheels stand between them.
 */

/** Behind the wheels: frame, links, dampers, skid plate. */
export const SIDE_RUNNING_GEAR = [
  // dark wells of the inner arches, frame rail
  path('M262 108 L262 152 L372 152 L372 108 Z', 'well', 'bare'),
  path('M-66 108 L-66 154 L60 154 L60 108 Z', 'well', 'bare'),
  path('M-92 96 L396 96 L396 108 L-92 108 Z', 'rail', 'mid'),
  line(-92, 99, 396, 99, 'hair'),
  line(-92, 105, 396, 105, 'hair'),
  bolts(
    [
      [-70, 102],
      [-52, 102],
      [30, 102],
      [46, 102],
      [262, 102],
      [280, 102],
      [352, 102],
      [370, 102],
    ],
    1.5,
  ),
  // upper links
  link(20, 84, 112, 92, 5),
  link(293, 84, 206, 92, 5),
  // shock towers
  path('M24 100 L28 148 L54 148 L60 100 Z', 'ring', 'thin'),
  path('M289 100 L285 148 L259 148 L253 100 Z', 'ring', 'thin'),
  coilOver(10, 64, 42, 142),
  coilOver(303, 64, 271, 142),
  // gearbox and skid plate
  circle(152, 80, 17, 'metal', 'thin'),
  circle(152, 80, 9, 'ring', 'thin'),
  circle(152, 80, 3, 'dark', 'hair'),
  box(112, 72, 26, 24, 'ring', 'thin', 2),
  box(168, 74, 30, 20, 'ring', 'thin', 2),
  path('M92 84 L98 69 L108 62 L204 62 L214 69 L220 84 Z', 'metal', 'mid'),
  path('M98 69 L214 69', 'none', 'hair'),
  path('M108 62 L112 69 M204 62 L200 69', 'none', 'hair'),
  bolts(
    [
      [104, 77],
      [124, 77],
      [188, 77],
      [208, 77],
    ],
    1.5,
  ),
  bolts(
    [
      [118, 65.5],
      [156, 65.5],
      [194, 65.5],
    ],
    1.2,
  ),
  // drive shafts and lower links
  link(18, 62, 112, 74, 4),
  link(295, 62, 202, 74, 4),
  link(12, 50, 104, 68, 7),
  link(301, 50, 208, 68, 7),
].join('');

/** In front of the wheels: bumpers, bed, cab, hood, hoop, rack, sliders. */
export const SIDE_BODY = [
  // bumpers
  path('M376 120 L402 117 L409 108 L405 98 L392 90 L376 90 Z', 'ring', 'mid'),
  line(376, 112, 407, 110, 'hair'),
  path('M392 90 L388 112', 'none', 'hair'),
  circle(402, 104, 4.6, 'none', 'mid'),
  circle(402, 104, 2.4, 'none', 'thin'),
  tube('M396 116 C404 128 403 140 394 147 L381 152', 5.4),
  path('M-84 122 L-106 118 L-112 108 L-106 95 L-88 92 Z', 'ring', 'mid'),
  line(-110, 110, -86, 113, 'hair'),
  circle(-104, 105, 4.6, 'none', 'mid'),
  circle(-104, 105, 2.4, 'none', 'thin'),
  // bed
  path(
    'M92 174 L-82 174 C-86 174 -88 172 -88 168 L-86 124 L-64 124 L-46 150 L44 150 L64 118 L70 100 L96 100 Z',
    'body',
    'thick',
  ),
  path('M92 174 L-82 174 C-86 174 -88 172 -88 168 L-88 165 L92 165 Z', 'body2', 'thin'),
  line(-87, 158, 92, 158, 'hair'),
  line(-78, 124, -78, 165, 'hair'),
  // bed stake pockets and panel
  box(-60, 167.6, 16, 4, 'well', 'hair', 1.2),
  box(-14, 167.6, 16, 4, 'well', 'hair', 1.2),
  box(32, 167.6, 16, 4, 'well', 'hair', 1.2),
  circle(72, 142, 6.2, 'body2', 'thin'),
  circle(72, 142, 4.4, 'none', 'hair'),
  line(69.5, 142, 74.5, 142, 'hair'),
  // tail lamp
  box(-86.4, 132, 6.4, 22, 'lamp', 'thin', 1.4),
  line(-86.4, 143, -80, 143, 'hair'),
  // cab, hood
  path(
    'M96 100 L248 100 L254 118 L274 150 L350 150 L366 126 L374 116 L380 118 L382 162 C382 166 379 168.5 375 169 C330 174 280 177 243 179 L213 229 C211 232 208 233.5 204 233.6 L112 234.4 C103 234.5 98 232 97 226 L93 180 L92 120 Z',
    'body',
    'thick',
  ),
  // lower body
  path('M96 100 L248 100 L252 112 L93 112 Z', 'body2', 'thin'),
  // hood top plane and vents
  path(
    'M243 179 C280 177 330 174 375 169 C379 168.5 381 167 382 163 L378 163.5 C340 168 290 171 247 172 Z',
    'body3',
    'thin',
  ),
  path('M298 166 L336 163.5 L336 158 L300 160 Z', 'well', 'hair'),
  line(306, 165.3, 308, 159.6, 'hair'),
  line(315, 164.8, 317, 159.2, 'hair'),
  line(324, 164.2, 326, 158.6, 'hair'),
  // grille edge and lamp
  path('M376 162 L376 120', 'none', 'thin'),
  box(372.5, 137, 8.4, 17, 'lens', 'thin', 2.5),
  line(376.6, 138, 376.6, 153, 'hair'),
  box(366, 128.5, 9, 5, 'lamp2', 'hair', 1),
  // flares
  path(
    'M246 100 L251 116 L272 154 L352 154 L369 129 L377 118 L374 114 L365 124 L349 148.5 L275 148.5 L256 117 L250 100 Z',
    'flare',
    'thin',
  ),
  path(
    'M-88 128 L-66 128 L-48 154 L46 154 L67 119 L73 100 L69 100 L63 117 L43.4 148.5 L-45 148.5 L-63.4 123 L-87 123 Z',
    'flare',
    'thin',
  ),
  bolts(
    [
      [262, 133],
      [283, 151.3],
      [312, 151.3],
      [341, 151.3],
      [361, 137],
      [-57, 138],
      [-36, 151.3],
      [0, 151.3],
      [34, 151.3],
      [56, 135],
    ],
    1.1,
  ),
  // door and panel lines
  path('M150 104 L232 104 C238 104 240 107 240.5 112 L243 176', 'none', 'thin'),
  path('M150 104 L148 180 M148 180 L152 229', 'none', 'thin'),
  path('M95 152 L245 150', 'none', 'hair'),
  path('M94 147.5 L245 145.5', 'none', 'hair'),
  box(156, 160, 13, 3.6, 'ring', 'hair', 1.6),
  box(238.5, 120, 3, 7, 'ring', 'hair', 0.6),
  box(239.6, 158, 3, 7, 'ring', 'hair', 0.6),
  // hood latch
  box(256, 168.5, 5, 7, 'ring', 'hair', 1),
  // glass
  path('M157 183 L235.5 181 L209 224.5 C208 226 206.6 226.8 204.6 226.8 L160 227.2 Z', 'glass', 'mid'),
  path('M102 184 L143.5 183.3 L146.5 227.4 L113 227.8 C107 227.9 104.5 226.5 104 222 Z', 'glass', 'mid'),
  // seat seen through the glass
  inside(
    [
      path(
        'M168 183 L170 206 C170.4 209 172 211 175 211 L180 211 C183 211 184 209 183.6 206 L181 183',
        'none',
        'thin',
      ),
      path(
        'M171.4 211 L172 219 C172.2 221 173.4 222 175 222 L180 222 C182 222 183 220.8 182.8 219 L182 211',
        'none',
        'thin',
      ),
    ].join(''),
  ),
  strokes([
    [186, 222, 200, 203],
    [191, 223, 207, 201.5],
    [118, 222, 133, 198],
    [123, 222.5, 138, 199],
  ]),
  path('M229.5 182 L205.6 221.5 C204.8 222.6 204 223 202.6 223 L160.6 223.4', 'none', 'hair'),
  // mirror
  line(221, 185, 214, 188, 'thin'),
  box(203.5, 186, 11, 13, 'ring', 'thin', 2),
  box(205.5, 188, 7, 9, 'none', 'hair', 1.2),
  // snorkel
  tube('M262 166 L258 178 L247 182 L220 228', 5),
  path('M217 226.5 L224 230.4 L222 242 L212 238.6 Z', 'ring', 'thin'),
  line(216, 231, 223, 234.4, 'hair'),
  line(215, 235, 222.4, 238.2, 'hair'),
  // roll hoop behind the cab
  tube('M84 172 L82 226 C81.8 231 84 235 88 236', 6),
  tube('M82 226 L-58 174', 6),
  tube('M40 174 L82 204', 4.4),
  box(76, 172, 16, 4, 'ring', 'thin', 1),
  box(-66, 172, 14, 4, 'ring', 'thin', 1),
  box(33, 172, 13, 4, 'ring', 'thin', 1),
  circle(80, 238, 4.4, 'none', 'mid'),
  circle(80, 238, 2, 'none', 'thin'),
  // roof rack
  line(108, 234, 108, 242, 'mid'),
  line(156, 234, 156, 242, 'mid'),
  line(202, 233.6, 202, 242, 'mid'),
  tube('M94 242 L206 242', 4),
  tube('M96 252 L206 252 C209 252 210 250 209 247 L207 242', 3.2),
  line(97, 242, 96, 252, 'mid'),
  line(126, 243, 126, 251.4, 'thin'),
  line(156, 243, 156, 251.4, 'thin'),
  line(186, 243, 186, 251.4, 'thin'),
  path('M206 246 L213 245 L214.5 253 L207.5 255 Z', 'lens', 'thin'),
  // pen strokes that shade the lower doors and the roof edge
  strokes([
    [100, 116, 246, 116],
    [100, 120, 180, 120],
    [100, 124, 140, 124],
    [-76, 130, -68, 130],
    [-84, 154, -52, 154],
    [-84, 150, -60, 150],
  ]),
  strokes([
    [112, 231.6, 204, 230.8],
    [120, 229.6, 160, 229.2],
  ]),
  // sliders
  tube('M62 98 L74 88 L240 88 L252 98', 6.4),
  box(96, 88, 7, 10, 'ring', 'thin', 1),
  box(158, 88, 7, 10, 'ring', 'thin', 1),
  box(216, 88, 7, 10, 'ring', 'thin', 1),
  // hood pin
  circle(372, 172, 3.6, 'none', 'mid'),
  line(372, 168, 372, 170, 'mid'),
].join('');

/** Roof load: a box and a rolled blanket. */
export const SIDE_LOAD = [
  box(104, 245, 62, 24, 'box', 'mid', 2.4),
  line(104, 263.5, 166, 263.5, 'thin'),
  box(114, 259, 7, 7, 'ring', 'hair', 1),
  box(149, 259, 7, 7, 'ring', 'hair', 1),
  box(127, 269, 16, 2.6, 'none', 'thin', 1),
  ...[0, 1, 2, 3, 4].map((i) => line(110 + i * 12.5, 247, 110 + i * 12.5, 258, 'hair')),
  circle(181, 256, 10.4, 'box', 'mid'),
  circle(181, 256, 7.4, 'none', 'hair'),
  circle(181, 256, 4.4, 'none', 'hair'),
  circle(181, 256, 1.6, 'none', 'hair'),
  path('M177 265.5 L177 246.4 M185 265.5 L185 246.4', 'none', 'thin'),
].join('');
